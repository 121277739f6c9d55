// The end of the work at the bench: the readings go to the record page, and into a return slip. No physics here.
import { filled } from "./bench_state.js";
import { copied, hour } from "./handin.js";
import { keep } from "./keep.js";
import { download } from "./page.js";

const WORKED = { mean: "", tan: "", bracket: "", moment: "" };
const readingsOf = (record) => JSON.stringify((record.rows || []).map(({ d, readings }) => [d, readings]).filter((row) => row.flat().some(Boolean)));
const hasText = ({ head, rows }) => Object.values(head || {}).some(Boolean) || (rows || []).some((row) => Object.values(row).flat().some(Boolean));

export class BenchEnd {
  constructor(bench) {
    this.bench = bench;
    this.made = null; // {file, text, of} of the slip that is shown
    this.who.value = keep.who();
    this.who.addEventListener("input", () => {
      keep.saveWho(this.who.value);
      this.draw();
    });
    bench.on(".bn-record", "click", () => this.open());
    bench.on(".bn-slip-form", "submit", (event) => {
      event.preventDefault();
      this.make();
    });
    bench.on(".bn-copy", "click", async () => this.done(await copied(this.made.text, this.slip)));
    bench.on(".bn-save", "click", () => {
      download(new Blob([this.made.text], { type: "text/plain;charset=utf-8" }), this.made.file);
      this.done(`Saved as ${this.made.file}, where this browser saves files.`);
    });
    bench.one(".bn-share").hidden = !navigator.share;
    bench.on(".bn-share", "click", () => navigator.share({ text: this.made.text }).catch(() => {})); // closed without sharing
  }

  get who() {
    return this.bench.one("#bn-who");
  }

  get slip() {
    return this.bench.one(".er-slip");
  }

  done(text) {
    this.bench.tell(this.bench.one(".bn-slip-done"), text);
  }

  all() {
    return JSON.stringify([this.who.value, this.bench.state.head, filled(this.bench.state), this.bench.state.zero]);
  }

  // a slip that no longer agrees with the readings goes
  draw() {
    if (!this.made || this.made.of === this.all()) return;
    this.made = null;
    this.bench.one(".bn-slip-holder").hidden = true;
    this.done("");
    this.bench.tell(this.bench.one(".bn-slip-says"), "The readings or the name were changed. Make the slip again.");
  }

  async make() {
    if (!this.bench.python.ready) {
      this.bench.tell(this.bench.one(".bn-slip-says"), "The slip cannot be made yet. Try again in a moment.");
      return;
    }
    const of = this.all();
    const number = keep.slips("RECORD") + 1;
    const found = await this.bench.ask("record.beside.page.finish", this.bench.asked(), number, hour());
    if (!found || of !== this.all()) return;
    const made = found.slip;
    const says = this.bench.one(".bn-slip-says");
    this.bench.tell(says, made.says);
    if (!made.ok) {
      if (made.at === "who") this.who.focus();
      says.scrollIntoView({ block: "nearest" }); // on a phone it stands below the screen
      return;
    }
    keep.saveSlips("RECORD", number);
    this.made = { of, file: made.file, text: made.text };
    this.slip.value = made.text.trimEnd();
    this.slip.rows = this.slip.value.split("\n").length;
    const holder = this.bench.one(".bn-slip-holder");
    holder.hidden = false;
    holder.scrollIntoView({ block: "nearest" });
    this.done("");
  }

  // The record page opens what is kept as its record. What was worked out there for these readings stays; another
  // record is replaced only if one says so.
  open() {
    const { state } = this.bench;
    const kept = keep.record();
    const same = readingsOf(kept) === keep.benchSent() && hasText({ rows: kept.rows });
    if (!same && hasText(kept) && readingsOf(kept) !== readingsOf({ rows: filled(state) })) {
      if (!confirm("The record page holds another record. Put these readings in its place?")) return;
    }
    const before = same ? kept : {};
    const rows = filled(state).map((row, at) => ({ ...WORKED, ...((before.rows || [])[at] || {}), ...row }));
    const record = { head: { ...(before.head || {}), ...state.head }, rows };
    if (!keep.saveRecord(record)) {
      this.bench.trouble("This browser keeps nothing between pages. Make the return slip here, and copy or save it.");
      return;
    }
    keep.saveBenchSent(readingsOf(record));
    location.href = new URL(`../${location.search}`, location.href).href;
  }
}
