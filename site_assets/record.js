// The page "Lab record": moves text between the form, the device and Python. No physics here.
import { Page, download, link, notStarted } from "./page.js";
import { blobOf, bytesOf, cellsOf } from "./record_file.js";
import { nextOf, suit } from "./record_form.js";
import { listed, outcome, show } from "./record_found.js";

const KEPT = "eight-readings:record";
const LAB = new URLSearchParams(location.search).get("lab") || ""; // a laboratory's code, from the address a class gives out
const entry = (cell) => cell.querySelector("input, select");

class Record extends Page {
  constructor(element) {
    super(element);
    this.most = Number(element.dataset.rows);
    this.fill(this.kept() || { head: {}, rows: [] });
    while (this.rows.length < 4) this.addRow();
    this.listen();
    this.one(".rc-run").inert = false;
    this.startPython({ rooms: "rooms" });
  }

  get rows() {
    return this.all(".rc-row");
  }

  // what was worked from each row
  get works() {
    return this.all(".rc-work");
  }

  inputsOf(at) {
    return [this.rows[at], this.works[at]].flatMap((row) => [...row.querySelectorAll("input")]);
  }

  notes(texts) {
    const list = this.one(".rc-notes");
    list.hidden = !texts.length;
    list.replaceChildren(...texts.map((text) => Object.assign(document.createElement("li"), { textContent: text })));
  }

  // ---- Python -------------------------------------------------------------

  ready() {
    this.status("Ready to check.", "ready");
    this.laboratory();
    if (this.waiting) this.check();
  }

  failed(reason) {
    this.status("Nothing can be checked yet.", "failed");
    this.trouble(notStarted("nothing can be checked. What you typed is kept on this device", reason));
  }

  async ask(...call) {
    if (!this.python.ready) {
      this.trouble("Nothing can be checked yet, because this page is not ready. What you typed is kept.");
      return null;
    }
    this.trouble("");
    return super.ask(...call);
  }

  // what the laboratory's settings say, put into the cells that are blank
  async laboratory() {
    if (!LAB) return;
    const found = await this.ask("record.page.laboratory", LAB, JSON.stringify(this.record()));
    if (!found) return;
    if (!found.ok) {
      this.trouble(found.text);
      return;
    }
    for (const [name, cell, row] of this.cells()) if (!row && name in found.cells) entry(cell).value = found.cells[name];
    if (!found.notes.length) return;
    this.notes(found.notes);
    this.keep();
  }

  // ---- the form -----------------------------------------------------------

  addRow() {
    if (this.rows.length >= this.most) return null;
    const [row, work] = this.one(".rc-template").content.cloneNode(true).children;
    this.one(".rc-rows").append(row);
    this.one(".rc-works").append(work);
    this.number();
    return row;
  }

  number() {
    for (const rows of [this.rows, this.works])
      rows.forEach((row, at) => {
        row.querySelector("legend").textContent = `Distance ${at + 1}`;
        row.querySelector(".rc-remove")?.setAttribute("aria-label", `Remove distance ${at + 1}`);
        for (const cell of row.querySelectorAll(".rc-cell")) {
          const id = `rc-${cell.dataset.cell}-${at + 1}`;
          entry(cell).id = id;
          cell.querySelector("label").htmlFor = id;
        }
      });
    this.one(".rc-add").disabled = this.rows.length >= this.most;
  }

  // every cell with its whole name: "length", "d-1", "reading5-2"
  *cells() {
    for (const cell of this.all(".rc-form .rc-cell")) {
      const row = cell.closest(".rc-row, .rc-work");
      yield [row ? `${cell.dataset.cell}-${this.at(row) + 1}` : cell.dataset.cell, cell, row];
    }
  }

  // the place of a row in its table
  at(row) {
    return [...row.parentElement.children].indexOf(row);
  }

  record() {
    const head = {};
    for (const [name, cell, row] of this.cells()) if (!row) head[name] = entry(cell).value;
    const rows = this.rows.map((_, at) => {
      const text = (name) => this.one(`#rc-${name}-${at + 1}`).value;
      const readings = [1, 2, 3, 4, 5, 6, 7, 8].map((k) => text(`reading${k}`));
      return { d: text("d"), readings, mean: text("mean"), tan: text("tan"), bracket: text("bracket"), moment: text("moment") };
    });
    return { head, rows };
  }

  fill(record) {
    const head = record.head && typeof record.head === "object" ? record.head : {};
    const rows = Array.isArray(record.rows) ? record.rows.slice(0, this.most) : [];
    for (const table of [".rc-rows", ".rc-works"]) this.one(table).replaceChildren();
    rows.forEach(() => this.addRow());
    for (const [name, cell, row] of this.cells()) {
      const from = row ? rows[this.at(row)] || {} : head;
      const key = cell.dataset.cell;
      const text = key.startsWith("reading") ? (from.readings || [])[Number(key.slice(7)) - 1] : from[key];
      entry(cell).value = typeof text === "string" ? text : "";
      if (key === "position" && !entry(cell).value) entry(cell).value = "tan-a"; // a draft of before says none
      if (entry(cell).value && cell.closest(".rc-working")) this.one(".rc-working").open = true;
      this.say(cell, "", "");
    }
    suit(this.element);
    this.forget();
  }

  forget() {
    this.shown = false;
    delete this.element.dataset.shown;
    this.one(".rc-outcome-said").replaceChildren();
    this.one(".rc-findings").replaceChildren();
    this.one(".rc-holder").replaceChildren();
    this.one(".er-score").textContent = "";
    this.one(".rc-print").disabled = true;
    for (const row of [...this.rows, ...this.works]) row.querySelector(".rc-row-said").replaceChildren();
  }

  kept() {
    try {
      return JSON.parse(localStorage.getItem(KEPT));
    } catch {
      return null;
    }
  }

  keep() {
    try {
      localStorage.setItem(KEPT, JSON.stringify(this.record()));
    } catch {
      this.trouble("This browser keeps nothing between visits (a private window?). Save the record as a file before you leave.");
    }
  }

  // ---- checking -----------------------------------------------------------

  async check(go = false) {
    if (!this.python.ready) {
      this.waiting = true;
      this.status("Getting ready. This record is checked as soon as that is done.", "starting");
      return;
    }
    this.waiting = false;
    const asked = JSON.stringify(this.record());
    const found = await this.ask("record.page.check", asked);
    if (!found || asked !== JSON.stringify(this.record())) return; // typed on since it was asked
    const said = new Map([...this.rows, ...this.works].map((row) => [row, []]));
    for (const [name, cell, row] of this.cells()) {
      const verdict = found.cells[name] || { state: "", text: "" };
      this.say(cell, verdict.state, row ? "" : verdict.text, verdict.read, verdict.html);
      if (verdict.text && !verdict.quiet && cell.closest("details")) cell.closest("details").open = true;
      if (row && verdict.text && !verdict.quiet) said.get(row).push(this.lineOf(cell, verdict));
      cell.title = found.computed[name] ? `worked from the readings: ${found.computed[name]}` : "";
    }
    for (const [row, lines] of said) {
      const place = row.querySelector(".rc-row-said");
      const made = document.createElement("div");
      made.append(...lines);
      if (place.innerHTML !== made.innerHTML) place.replaceChildren(...lines); // not said twice by a screen reader
    }
    this.one(".er-score").textContent = found.summary;
    this.one(".rc-outcome-said").replaceChildren(...outcome(found));
    this.one(".rc-findings").replaceChildren(...listed(found.findings));
    this.one(".rc-holder").innerHTML = found.paper; // made by our own Python, everything typed escaped
    this.one(".rc-print").disabled = !found.paper;
    this.shown = true;
    this.element.dataset.shown = "";
    if (go) show(this.one(".rc-outcome"));
  }

  say(cell, state, text, read, html) {
    cell.dataset.state = state;
    entry(cell).setAttribute("aria-invalid", ["slip", "wrong", "ask", "unread"].includes(state));
    const said = cell.querySelector(".er-said");
    if (!said || said.dataset.text === state + text) return; // nothing new for a screen reader
    said.dataset.text = state + text;
    said.innerHTML = text && html; // made by our own Python, everything typed escaped
    if (read) said.append(" ", link(read));
  }

  lineOf(cell, verdict) {
    const line = document.createElement("p");
    line.dataset.state = verdict.state;
    line.innerHTML = verdict.html; // made by our own Python, everything typed escaped
    line.prepend(`${verdict.label}: `);
    if (verdict.read) line.append(" ", link(verdict.read));
    return line;
  }

  // ---- files --------------------------------------------------------------

  hasText() {
    const { head, rows } = this.record();
    return Object.entries(head).some(([key, text]) => key !== "position" && text) || rows.some((r) => Object.values(r).flat().some(Boolean));
  }

  async take(data) {
    const opened = await this.ask("record.page.open_file", data, LAB);
    if (!opened) return;
    if (!opened.ok) {
      this.trouble(opened.text);
      return;
    }
    if (this.hasText() && !confirm("Put this record in the place of what is typed here?")) return;
    this.fill(opened.record);
    this.notes(opened.notes);
    this.keep();
    this.check(true);
  }

  async open(file) {
    const { bytes, text } = await bytesOf(file, Number(this.element.dataset.bytes));
    if (bytes) await this.take(bytes);
    else this.trouble(text);
  }

  // pasted cells of a spreadsheet fill the form's cells, beginning with the cell that has the keyboard
  paste(event) {
    const text = event.clipboardData.getData("text/plain");
    const block = cellsOf(text);
    if (block.length === 1 && block[0].length === 1) return;
    event.preventDefault();
    const words = block.some((cells) => /^[^\d]*[a-zθ]/i.test(cells[0]));
    if (block.length > 1 && words && this.python.ready) {
      this.take(text);
      return;
    }
    const from = event.target.closest(".rc-row, .rc-work");
    if (!from) {
      this.trouble("Paste rows of cells into a distance, beginning with its d.");
      return;
    }
    const at = this.at(from);
    const column = this.inputsOf(at).indexOf(event.target);
    const left = [];
    block.forEach((cells, i) => {
      const inputs = this.rows[at + i] || this.addRow() ? this.inputsOf(at + i).slice(column) : [];
      cells.forEach((cell, k) => (inputs[k] ? (inputs[k].value = cell.trim()) : cell.trim() && left.push(cell.trim())));
    });
    this.notes(left.length ? [`There was no cell for: ${left.join(", ").slice(0, 200)}`] : []);
    if (this.works.some((work) => [...work.querySelectorAll("input")].some((i) => i.value))) this.one(".rc-working").open = true;
    this.keep();
    if (this.shown) this.check();
  }

  listen() {
    const form = this.one(".rc-form");
    form.addEventListener("input", ({ target }) => {
      const cell = target.closest(".rc-cell");
      if (cell) this.say(cell, "", "");
      if (target.matches("select")) suit(this.element);
      this.keep();
      this.one(".rc-print").disabled = true; // the sheet to print does not agree with the form any more
    });
    form.addEventListener("change", () => this.shown && this.python.ready && this.check());
    addEventListener("storage", ({ key }) => {
      const record = key === KEPT && !document.hasFocus() && this.kept(); // another tab has typed in it
      if (record) this.fill(record);
    });
    form.addEventListener("paste", (event) => this.paste(event));
    form.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("input, select")) return;
      event.preventDefault();
      (nextOf(event.target, form) || this.one(".rc-check")).focus();
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.keep();
      this.check(true);
    });
    form.addEventListener("click", ({ target }) => {
      if (!target.matches(".rc-remove")) return;
      const row = target.closest(".rc-row");
      const filled = this.inputsOf(this.at(row)).some((i) => i.value);
      if (filled && !confirm(`Take ${row.querySelector("legend").textContent} out of the record?`)) return;
      this.works[this.at(row)].remove();
      row.remove();
      this.number();
      this.forget();
      this.keep();
      if (!this.rows.length) this.addRow();
    });
    this.on(".rc-add", "click", () => this.addRow()?.querySelector("input").focus());
    this.on(".rc-all", "click", () => show(this.one(".rc-findings")));
    this.on(".rc-print", "click", () => window.print());
    this.on(".rc-open input", "change", async ({ target }) => {
      const [file] = target.files;
      if (file) await this.open(file);
      target.value = "";
    });
    this.on(".rc-save", "click", async () => {
      const made = await this.ask("record.page.save", JSON.stringify(this.record()));
      if (made) download(blobOf(made), made.name);
    });
    this.on(".rc-blank", "click", async () => {
      const made = await this.ask("record.page.blank", this.element.dataset.position);
      if (made) download(blobOf(made), made.name);
    });
    this.on(".rc-clear", "click", () => {
      if (this.hasText() && !confirm("Clear everything typed in this record?")) return;
      this.fill({ head: {}, rows: [] });
      while (this.rows.length < 4) this.addRow();
      this.notes([]);
      this.keep();
      this.laboratory();
    });
  }
}

// the class's address goes along to the bench
for (const a of document.querySelectorAll('.md-content a[href="bench/"]')) a.search = location.search;

document.querySelectorAll(".rc-desk").forEach((element) => new Record(element));
