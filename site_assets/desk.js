// The exercise page: moves text between the inputs and Python, and keeps it. No physics here.
import { HandIn } from "./handin.js";
import { keep } from "./keep.js";
import { Python } from "./python.js";

const root = new URL("../", import.meta.url);
const SLOW = 20000; // ms until a slow start is said to be one
const MANY = 3; // verdicts that may be read out one after another

// a code as it is kept: capitals in groups of four (Python decides whether it is one)
const tidy = (text) => text.toUpperCase().replace(/[^0-9A-Z]/g, "").replace(/(.{4})(?=.)/g, "$1-");

class Desk {
  constructor(element) {
    this.element = element;
    this.kind = element.dataset.kind;
    this.code = null;
    this.hints = new Map();
    this.solutionAsked = false;
    this.answers = [...element.querySelectorAll("details.er-answers")];
    this.answers.forEach((e) => e.remove());
    this.holder.classList.add("er-waiting");
    for (const part of [".er-bar", ".er-foot"]) this.one(part).inert = false;
    this.wanted = new URL(location.href).searchParams.get("code") || keep.lastCode(this.kind);
    // entries kept for this sheet are there before its numbers are, and what was typed before this script came
    this.fill({ ...(this.wanted ? keep.entries(tidy(this.wanted)) : {}), ...this.entries() });
    this.hintPlaces();
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
    this.python = new Python({
      onready: () => this.ready(),
      onfailed: (reason) => this.failed(reason),
    });
  }

  async ready() {
    clearTimeout(this.slow);
    this.status("Python is ready.", "ready");
    this.one(".er-print").disabled = false;
    if (this.code) this.check();
    else if (this.wanted) await this.open(this.wanted, true);
    else await this.fresh();
  }

  failed(reason) {
    clearTimeout(this.slow);
    this.status("Python could not start.", "failed");
    this.trouble(
      `Python could not start in this browser, so nothing can be checked yet. What you typed is kept. ` +
        `Try: load the page again; look at the network; use an up-to-date Firefox, Chrome, Edge or Safari. ` +
        `Meanwhile here is the practice sheet that everyone shares, its answers folded away below it. ` +
        `(The browser said: ${reason})`,
    );
    if (!this.code) {
      this.holder.classList.remove("er-waiting");
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
      this.one(".er-tools").prepend(again);
    }
  }

  async ask(...call) {
    try {
      return await this.python.ask(...call);
    } catch (error) {
      this.trouble(`That did not work, and Python said: ${error.message}. What you typed is kept; try once more.`);
      return null;
    }
  }

  // ---- the sheet ----------------------------------------------------------

  async fresh() {
    if (!this.python.ready) return;
    const noise = [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
    const made = await this.ask("fresh", this.kind, noise);
    if (made) await this.open(made.code, !this.code && !this.refused);
  }

  // keepTyped: what stands in the inputs was typed for this sheet while its numbers were not there yet
  async open(text, keepTyped = false) {
    const sheet = await this.ask("open_sheet", this.kind, text);
    if (!sheet) return;
    if (!sheet.ok) {
      this.trouble(sheet.text, sheet.go);
      this.one("#er-code").value = text;
      if (!this.code) {
        this.wanted = null;
        this.refused = true; // what is typed now belongs to no sheet
        this.status("Python is ready. Mend the sheet code, or take new numbers.", "ready");
      }
      return;
    }
    this.trouble("");
    this.refused = false;
    const typed = keepTyped ? this.entries() : {};
    this.code = sheet.code;
    this.holder.innerHTML = sheet.html; // made by our own Python from a code it has checked
    this.holder.classList.remove("er-waiting");
    this.hintPlaces();
    this.fill({ ...keep.entries(sheet.code), ...typed });
    this.hints.clear();
    this.forgetSolution();
    this.one("#er-code").value = sheet.code;
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

  get place() {
    return this.code || (this.wanted && tidy(this.wanted));
  }

  saveAll() {
    if (this.place) this.warnUnless(keep.saveEntries(this.place, this.entries()));
  }

  save(input) {
    if (this.place) this.warnUnless(keep.saveEntry(this.place, input.name, input.value));
  }

  warnUnless(kept) {
    if (!kept) {
      this.trouble("This browser keeps nothing between visits (a private window?). Copy your entries before you leave.");
    }
  }

  async check() {
    this.handIn.look();
    if (!this.code || !this.python.ready) {
      const why = this.refused ? "Open a sheet first: this belongs to none." : "Will be checked when Python is ready.";
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

  // a screen reader hears a hint only where the place for it was there before
  hintPlaces() {
    this.$(".er-entry", (entry) => {
      const place = Object.assign(document.createElement("div"), { className: "er-hint-place" });
      place.setAttribute("role", "status");
      entry.append(place);
    });
  }

  async hint(entry) {
    const name = entry.dataset.step;
    const count = this.hints.get(name) || 0;
    if (!this.code || !this.python.ready) {
      this.say(entry, "waiting", "Hints come when Python is ready.");
      return;
    }
    const hint = await this.ask("hint", this.code, name, count);
    if (!hint) return;
    this.hints.set(name, count + 1);
    const line = document.createElement("div");
    line.className = "er-hinted";
    entry.querySelector(".er-hint-place").replaceChildren(line);
    line.textContent = `Hint: ${hint.text}`;
    if (!hint.left) line.append(" ", this.link(hint.read, "Read about it."));
  }

  async solution() {
    const place = this.one(".er-solved");
    if (!this.code || !this.python.ready) {
      place.textContent = "The working comes when Python is ready.";
    } else if (!this.solutionAsked) {
      this.solutionAsked = true;
      place.textContent = "This shows every answer on the sheet. Try a hint first; press again if you still want it.";
      this.one(".er-solution").textContent = "Show it all the same";
    } else {
      const made = await this.ask("solution", this.code);
      if (made) place.innerHTML = made.html; // made by our own Python
    }
    place.focus();
  }

  forgetSolution() {
    this.solutionAsked = false;
    this.one(".er-solved").textContent = "";
    this.one(".er-solution").textContent = "Show the full working";
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
    this.holder.addEventListener("click", ({ target }) => {
      if (target.matches(".er-hint")) this.hint(target.closest(".er-entry"));
    });
    on(".er-code-form", "submit", (event) => {
      event.preventDefault();
      const typed = this.one("#er-code").value;
      if (this.python.ready) {
        this.open(typed);
      } else {
        this.wanted = typed;
        this.status("This sheet will be opened when Python is ready.", "starting");
      }
    });
    on(".er-fresh", "click", () => {
      const typed = Object.keys(this.entries()).length;
      const ask = `Leave this sheet? Its ${typed} entries stay on this device under ${this.code}; note the code, or go back.`;
      if (!this.code || !typed || confirm(ask)) this.fresh();
    });
    on(".er-print", "click", () => window.print());
    on(".er-check", "click", () => this.check());
    on(".er-solution", "click", () => this.solution());
    on(".er-clear", "click", () => {
      if (!confirm("Clear everything typed on this sheet?")) return;
      this.fill({});
      this.saveAll();
      this.check();
    });
  }
}

document.querySelectorAll(".er-desk[data-kind]").forEach((element) => new Desk(element));
if (document.querySelector(".er-why")) import("./why.js");
if (document.querySelector(".er-drill")) import("./drill.js");
