// The exercise page: moves text between the inputs and Python, and keeps it. No physics here.
import { HandIn } from "./handin.js";
import { Help } from "./help.js";
import { keep } from "./keep.js";
import { Python, short } from "./python.js";

const root = new URL("../", import.meta.url);
const SLOW = 20000; // ms until a slow start is said to be one
const MANY = 3; // verdicts that may be read out one after another

// a code as it is kept: capitals in groups of four (Python decides whether it is one)
const tidy = (text) => text.toUpperCase().replace(/[^0-9A-Z]/g, "").replace(/(.{4})(?=.)/g, "$1-");

class Desk {
  constructor(element) {
    this.element = element;
    this.kind = element.dataset.kind;
    this.code = null; // of the sheet that Python has opened
    this.draft = `draft ${this.kind}`; // where entries are kept while there is no sheet that they could belong to
    this.answers = [...element.querySelectorAll("details.er-answers")];
    this.answers.forEach((e) => e.remove());
    this.practice = this.one(".er-sheet").dataset.code; // of the sheet that is in the page
    this.holder.classList.add("er-waiting");
    for (const part of [".er-bar", ".er-foot"]) this.one(part).inert = false;
    this.wanted = new URL(location.href).searchParams.get("code") || keep.lastCode(this.kind) || "";
    this.box.value = this.wanted;
    // what is kept for this sheet is there before its numbers are, and so is what was typed before this script came
    const early = this.entries();
    this.goTo(tidy(this.wanted) || this.draft, early);
    if (Object.keys(early).length) this.saveAll();
    this.help = new Help(this);
    this.listen();
    this.handIn = new HandIn(this);
    this.startPython();
  }

  one(selector) {
    return this.element.querySelector(selector);
  }

  $(selector, action) {
    this.element.querySelectorAll(selector).forEach(action);
  }

  get holder() {
    return this.one(".er-holder");
  }

  status(text, state) {
    const line = this.one(".er-status");
    line.textContent = text;
    line.dataset.state = state;
  }

  trouble(text, link) {
    const line = this.one(".er-trouble");
    line.hidden = !text;
    line.textContent = text;
    if (link) line.append(" ", this.link(link, "Go there."));
  }

  link(address, text) {
    const a = document.createElement("a");
    a.href = new URL(address, root).href;
    a.textContent = text;
    return a;
  }

  // ---- Python -------------------------------------------------------------

  startPython() {
    this.status("Python is starting. You can read and type; it will be checked.", "starting");
    this.slow = setTimeout(() => {
      this.status("Python is still starting: it is about 8 MB the first time. You can read and type.", "starting");
    }, SLOW);
    this.python = new Python({ onready: () => this.ready(), onfailed: (reason) => this.failed(reason) });
  }

  async ready() {
    clearTimeout(this.slow);
    this.status("Python is ready.", "ready");
    const typed = this.box.value.trim();
    const other = typed && tidy(typed) !== (this.code || tidy(this.wanted)); // typed, and not opened yet
    if (this.code) await this.check();
    else if (other) this.status("Python is ready. Open the sheet code that you typed, or take new numbers.", "ready");
    else if (typed) await this.open(typed);
    else if (Object.keys(this.entries()).length) {
      this.status("Python is ready. Open the sheet that your entries belong to by its code, or take new numbers.", "ready");
      this.check();
    } else await this.fresh();
  }

  failed(reason) {
    clearTimeout(this.slow);
    this.status("Python could not start.", "failed");
    const kept = this.place === this.draft || this.place === this.practice ? "" : ` for ${this.place}`;
    this.trouble(
      `Python could not start, so nothing can be checked yet. What you typed${kept} is kept. ` +
        `Try: look at the network; load the page again; use an up-to-date Firefox, Chrome, Edge or Safari. ` +
        (this.code ? "" : "Meanwhile here is the practice sheet that everyone shares, its answers folded away below it. ") +
        `(The browser said: ${reason})`,
    );
    if (!this.code) {
      if (this.place === this.draft) keep.move(this.draft, this.practice);
      this.goTo(this.practice);
      if (!this.box.value.trim()) this.box.value = this.wanted = this.practice;
      this.appear();
      for (const e of this.answers) e.classList.add("er-offered");
      this.holder.append(...this.answers);
    }
    if (!this.one(".er-again")) {
      const again = document.createElement("button");
      again.type = "button";
      again.className = "er-again";
      again.textContent = "Try again";
      again.onclick = () => {
        again.remove();
        this.trouble("");
        this.startPython();
      };
      addEventListener("online", () => again.isConnected && again.click(), { once: true });
      this.one(".er-tools").prepend(again);
    }
  }

  async ask(...call) {
    try {
      return await this.python.ask(...call);
    } catch (error) {
      this.trouble(`That did not work, and Python said: ${short(error.message)}. What you typed is kept; try once more.`);
      return null;
    }
  }

  // ---- the sheet ----------------------------------------------------------

  get box() {
    return this.one("#er-code");
  }

  // What is typed from now on is kept for another place, and what is kept there is shown.
  goTo(place, typed = {}) {
    this.place = place;
    this.fill({ ...keep.entries(place), ...typed });
  }

  // Before Python is there: the code that is to be opened then, or "" for new numbers. What was typed for no sheet yet
  // goes with it; what was typed for another sheet stays with that.
  want(code) {
    this.box.value = this.wanted = code;
    const next = tidy(code) || this.draft;
    if (this.place === this.draft && next !== this.draft) keep.move(this.draft, next);
    this.goTo(next);
    this.holder.classList.add("er-waiting"); // the numbers that stood there are not its own
    this.one(".er-print").disabled = true;
    this.answers.forEach((e) => e.remove());
  }

  // the holder shows a sheet that can be worked and printed
  appear() {
    this.holder.classList.remove("er-waiting");
    this.one(".er-print").disabled = false;
  }

  async fresh() {
    if (!this.python.ready) {
      this.later("New numbers come", "");
      return;
    }
    const noise = [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
    const made = await this.ask("fresh", this.kind, noise);
    if (made) await this.open(made.code);
  }

  // what has to wait for Python
  later(what, code) {
    const again = this.one(".er-again");
    const state = again ? "failed" : "starting";
    if (this.code) {
      this.status(`Python is not ready. ${again ? "Press Try again first" : "Press that once more when it is"}.`, state);
      return; // the sheet that is open stays
    }
    this.want(code);
    this.status(`${what} when Python is ready${again ? ": press Try again" : ""}.`, state);
  }

  async open(text) {
    const sheet = await this.ask("open_sheet", this.kind, text);
    if (!sheet) return;
    if (!sheet.ok) {
      this.trouble(sheet.text, sheet.go);
      this.box.value = text;
      if (!this.code) {
        if (this.place === tidy(text)) {
          keep.move(this.place, this.draft); // there is no such sheet
          this.place = this.draft;
        }
        this.status("Python is ready. Mend the sheet code, or take new numbers.", "ready");
        this.check();
      }
      return;
    }
    this.trouble("");
    if (this.place === this.draft) keep.move(this.draft, sheet.code);
    this.code = this.place = sheet.code;
    this.holder.innerHTML = sheet.html; // made by our own Python from a code it has checked
    this.appear();
    this.fill(keep.entries(sheet.code));
    this.help.begin();
    this.box.value = sheet.code;
    keep.saveLastCode(this.kind, sheet.code);
    this.saveAll();
    const address = new URL(location.href);
    if (address.searchParams.get("code") !== sheet.code) {
      address.searchParams.set("code", sheet.code);
      // the first sheet of a visit takes this page's place in the history; another can be gone back from
      history[this.shown ? "pushState" : "replaceState"](null, "", address);
    }
    this.shown = true;
    await this.check();
  }

  entries() {
    const found = {};
    this.$(".er-entry input, .er-entry select", (input) => {
      if (input.value) found[input.name] = input.value;
    });
    return found;
  }

  fill(entries) {
    this.$(".er-entry input, .er-entry select", (input) => {
      input.value = entries[input.name] || "";
    });
  }

  saveAll() {
    this.warnUnless(keep.saveEntries(this.place, this.entries()));
  }

  save(input) {
    this.warnUnless(keep.saveEntry(this.place, input.name, input.value));
  }

  warnUnless(kept) {
    if (!kept) {
      this.trouble("This browser keeps nothing between visits (a private window?). Copy your entries before you leave.");
    }
  }

  clear() {
    this.fill({});
    this.saveAll();
    this.check();
  }

  async check() {
    this.handIn.look();
    if (!this.code || !this.python.ready) {
      const why = this.python.ready ? "Open a sheet first: this belongs to none." : "Will be checked when Python is ready.";
      this.$(".er-entry", (e) => e.querySelector("input, select").value && this.say(e, "waiting", why));
      return;
    }
    const code = this.code;
    const entries = this.entries();
    const judged = await this.ask("check", code, JSON.stringify(entries));
    if (!judged || code !== this.code) return;
    const told = [];
    this.$(".er-entry", (entry) => {
      const name = entry.dataset.step;
      const v = judged.verdicts[name];
      if (entry.querySelector("input, select").value !== (entries[name] || "")) return; // typed on since it was asked
      told.push([entry, v ? v.state : "", v ? [v.text, ...v.remarks].join(" ") : "", v && v.read]);
    });
    // of many new verdicts at once, as on a sheet that is opened again, a screen reader hears only how many are right
    const fresh = told.filter(([entry, state, text]) => text && entry.querySelector(".er-said").dataset.text !== state + text);
    for (const [entry, ...verdict] of told) {
      entry.querySelector(".er-said").setAttribute("aria-live", fresh.length > MANY ? "off" : "polite");
      this.say(entry, ...verdict);
    }
    const done = judged.right === judged.steps;
    const score = done ? `All ${judged.steps} steps are right.` : `${judged.right} of ${judged.steps} steps right.`;
    if (this.one(".er-score").textContent !== score) this.one(".er-score").textContent = score;
  }

  say(entry, state, text, read) {
    entry.dataset.state = state;
    const said = entry.querySelector(".er-said");
    if (said.dataset.text === state + text) return; // nothing new for a screen reader
    said.dataset.text = state + text;
    said.textContent = text;
    if (read) said.append(" ", this.link(read, "Read about it."));
  }

  // ---- what the student does ----------------------------------------------

  listen() {
    const on = (selector, event, action) => this.one(selector).addEventListener(event, action);
    this.holder.addEventListener("input", ({ target }) => {
      const entry = target.closest(".er-entry");
      if (!entry) return;
      this.say(entry, "", "");
      this.save(target);
    });
    addEventListener("storage", ({ key }) => {
      if (!this.code || !keep.isEntries(key, this.code)) return;
      const entries = keep.entries(this.code); // another tab has typed on this sheet
      this.$(".er-entry input, .er-entry select", (input) => {
        if (input !== document.activeElement) input.value = entries[input.name] || "";
      });
      this.check();
    });
    addEventListener("popstate", () => {
      const code = new URL(location.href).searchParams.get("code");
      if (code && code !== this.code && this.python.ready) this.open(code);
    });
    this.holder.addEventListener("change", () => this.check());
    this.holder.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("input, select")) return;
      event.preventDefault();
      const inputs = [...this.element.querySelectorAll(".er-entry input, .er-entry select")];
      const next = inputs[inputs.indexOf(event.target) + 1];
      (next || this.one(".er-check")).focus();
      this.check();
    });
    on(".er-code-form", "submit", (event) => {
      event.preventDefault();
      if (this.python.ready) this.open(this.box.value);
      else this.later("This sheet is opened", this.box.value);
    });
    on(".er-fresh", "click", () => {
      const typed = Object.keys(this.entries()).length;
      const loose = this.place === this.draft;
      const leave = `Leave this sheet? Its ${typed} entries stay on this device under ${this.place}; note the code, or go back.`;
      const clear = `What is typed here belongs to no sheet, and is cleared. Take new numbers?`;
      if (typed && !confirm(loose ? clear : leave)) return;
      if (loose) this.clear();
      this.fresh();
    });
    on(".er-print", "click", () => window.print());
    on(".er-check", "click", () => this.check());
    on(".er-clear", "click", () => {
      if (confirm("Clear everything typed on this sheet?")) this.clear();
    });
  }
}

document.querySelectorAll(".er-desk[data-kind]").forEach((element) => new Desk(element));
if (document.querySelector(".er-why")) import("./why.js");
if (document.querySelector(".er-drill")) import("./drill.js");
