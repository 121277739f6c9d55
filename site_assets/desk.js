// The exercise page: moves text between the inputs and Python, and keeps it. No physics here.
import { isMistyped, tidy, waitFor } from "./code.js";
import { Conventions } from "./conventions.js";
import { HandIn } from "./handin.js";
import { Help } from "./help.js";
import { keep } from "./keep.js";
import { Page, link, marked, noise } from "./page.js";
import { notDrawn, offerPractice } from "./practice.js";
import { reachAll } from "./reach.js";
import { Typing, inSight, keysFor, sayAgain } from "./typing.js";

const MANY = 3; // verdicts that may be read out one after another
const FIELDS = ".er-entry input, .er-entry select";
const BRIEF = 12; // characters of a verdict that stands under its own field, not under the whole row

class Desk extends Page {
  constructor(element) {
    super(element);
    this.kind = element.dataset.kind;
    this.code = null; // of the sheet that Python has opened
    this.draft = `draft ${this.kind}`; // where entries are kept while there is no sheet that they could belong to
    this.answers = this.all("details.er-answers");
    this.answers.forEach((e) => e.remove());
    this.practice = this.one(".er-sheet").dataset.code; // of the sheet that is in the page
    this.holder.classList.add("er-waiting");
    for (const part of [".er-bar", ".er-conventions", ".er-foot"]) this.one(part).inert = false;
    this.conventions = new Conventions(this.one(".er-conventions"), () => this.newNumbers(true));
    const came = new URL(location.href).searchParams.get("code") || "";
    const last = keep.lastCode(this.kind) || "";
    this.wanted = came || last;
    this.box.value = this.wanted;
    // The entries of this sheet are shown before its numbers. What was typed before this script came goes to its own sheet. Where
    // the address had no code, other numbers stood beside it, and it goes over nothing of the last sheet.
    const early = this.entries();
    for (const [from, code] of keep.early()) keep.move(from, this.placeOf(code || last), Boolean(code) || !last);
    this.goTo(this.placeOf(this.wanted), early);
    if (Object.keys(early).length) this.saveAll();
    this.help = new Help(this);
    this.typing = new Typing(this);
    keysFor(this.holder, ".er-entry input");
    this.listen();
    this.handIn = new HandIn(this);
    waitFor(this, came, this.told, this.lead);
    this.startPython();
  }

  get holder() {
    return this.one(".er-holder");
  }

  // ---- Python -------------------------------------------------------------

  // the practice sheet's numbers are everyone's
  here = () =>
    this.status(`${this.place === this.practice ? "Ready." : "Your numbers are here."} Type a step and press Enter.`, "ready");

  async ready() {
    this.here();
    const typed = this.box.value.trim();
    const other = typed && tidy(typed) !== (this.code || tidy(this.wanted)); // a code that was typed and not opened yet
    if (this.code) await this.check();
    else if (other) this.status("Ready. Open the sheet code that you typed, or take new numbers.", "ready");
    else if (typed) await this.open(typed);
    else if (Object.keys(this.entries()).length) {
      this.status("Ready. Open the sheet that your entries belong to, or take new numbers.", "ready");
      this.check();
    } else await this.fresh();
  }

  failed(reason) {
    this.status("Your numbers could not be drawn.", "failed");
    const kept = [this.draft, this.practice].includes(this.place) ? "" : this.placeCode;
    if (!this.code) {
      if (this.place === this.draft) keep.move(this.draft, this.practice);
      this.goTo(this.practice);
      if (!this.box.value.trim()) this.box.value = this.wanted = this.practice;
      this.appear();
      for (const e of this.answers) e.classList.add("er-offered");
      this.holder.append(...this.answers);
    }
    notDrawn(this, (this.reason = reason), kept);
  }

  // the button of a failed start stands with those of the sheet
  offerAgain(button) {
    if (!this.again) this.one(".er-tools").prepend(button);
  }

  get again() {
    return this.one(".er-tools .er-again");
  }

  meanwhile() {
    offerPractice(this);
  }

  // ---- the sheet ----------------------------------------------------------

  get box() {
    return this.one("#er-code");
  }

  // Where entries are kept while `code` is wanted and Python has not opened it. The practice sheet has its own place, and so has
  // a sheet of this kind that was open on this device. What is typed for any other code, which Python may refuse, waits apart.
  placeOf(code) {
    const name = tidy(code);
    if (!name) return this.draft;
    return name === this.practice || (name[0] === this.practice[0] && keep.isKnown(name)) ? name : this.waiting(name);
  }

  // the code of the sheet that entries are kept for
  get placeCode() {
    return this.place === this.practice ? this.practice : this.code || tidy(this.wanted);
  }

  // where entries are kept that belong to no sheet
  get loose() {
    return isMistyped(this, this.wanted) ? this.waiting(tidy(this.wanted)) : this.draft;
  }

  waiting = (name) => `${this.draft} for ${name}`;

  // What is typed from now on is kept for another place, and what is kept there is shown.
  goTo(place, typed = {}) {
    this.place = place;
    this.fill({ ...keep.entries(place), ...typed });
  }

  // Python is not ready: this code is opened when it is; "" stands for new numbers. What was typed for no sheet yet
  // or for a mistyped code goes with it; what was typed for another sheet stays with that.
  want(code) {
    const [loose, next] = [this.loose, this.placeOf(code)];
    this.box.value = this.wanted = code;
    if ((this.place === loose || loose !== this.draft) && next !== loose) keep.move(loose, next);
    this.goTo(next);
    this.holder.classList.add("er-waiting"); // the numbers in the page belong to another sheet
    this.one(".er-print").disabled = true;
    this.answers.forEach((e) => e.remove());
  }

  // the holder shows a sheet that can be worked and printed
  appear() {
    this.holder.classList.remove("er-waiting");
    this.one(".er-print").disabled = false;
  }

  // byForm: asked for in the form of the conventions, which is as high as a phone and hides what comes below it
  async fresh(byForm = false) {
    if (!this.python.ready) {
      this.later("New numbers come", "");
      return;
    }
    this.trouble("");
    const made = await this.ask("fresh", this.kind, noise(), JSON.stringify(this.conventions.words));
    if (made?.ok) {
      await this.open(made.code);
      if (byForm) this.conventions.close();
    } else if (made) {
      this.conventions.open();
      this.trouble(marked(made.html));
      this.one(".er-trouble").scrollIntoView({ block: "nearest" });
    }
  }

  newNumbers(byForm = false) {
    const typed = Object.keys(this.entries()).length;
    const loose = [this.draft, this.loose].includes(this.place);
    const leave = `Leave this sheet? Its ${typed} entries stay on this device under ${this.placeCode}; note the code, or go back.`;
    const clear = `What is typed here belongs to no sheet, and is cleared. Take new numbers?`;
    if (typed && !confirm(loose ? clear : leave)) return;
    if (loose) this.clear();
    this.fresh(byForm);
  }

  // what has to wait for Python
  later(what, code) {
    const { again } = this;
    const state = again ? "failed" : "starting";
    if (this.code) {
      this.status(`This page is not ready. ${again ? "Press Try again first" : "Press that once more when it is"}.`, state);
      return; // the sheet that is open stays
    }
    this.want(code);
    waitFor(this, code, `${what} when this page is ready.`);
    if (again) {
      notDrawn(this, this.reason);
      this.status(this.lead ? `${this.first} For that, press Try again.` : this.first, state);
    }
  }

  async open(text) {
    const sheet = await this.ask("open_sheet", this.kind, text);
    if (!sheet?.ok) return sheet && this.refused(text, sheet);
    this.trouble("");
    keep.move(this.waiting(tidy(text)), sheet.code);
    if (this.place === this.draft) keep.move(this.draft, sheet.code);
    this.code = this.place = sheet.code;
    this.here(); // a code may have been asked for until now
    this.holder.innerHTML = sheet.html; // made by our own Python from a code it has checked
    this.appear();
    this.fill(keep.entries(sheet.code));
    this.help.begin();
    this.typing.forget();
    this.box.value = sheet.code;
    keep.saveLastCode(this.kind, sheet.code);
    this.saveAll();
    const address = new URL(location.href);
    if (address.searchParams.get("code") !== sheet.code) {
      address.searchParams.set("code", sheet.code);
      // The first sheet of a visit takes this page's place in the history. From a later sheet, Back leads to the one before.
      history[this.shown ? "pushState" : "replaceState"](null, "", address);
    }
    this.shown = true;
    await this.check();
  }

  // There is no such sheet here. What is kept for any sheet stays there; only what was typed for this code alone is the
  // draft's now, so that it goes with the mended code.
  refused(text, { text: told, go }) {
    this.trouble(told, ...(go ? [" ", link(go, "Go there.")] : []));
    this.box.value = text;
    if (this.code) return;
    const waiting = this.waiting(tidy(text));
    if (this.place === waiting) keep.move(waiting, this.draft);
    if (this.place === this.placeOf(text)) this.goTo(this.draft);
    this.status(`${go ? "Go to that exercise" : "Mend the sheet code"}, or take new numbers.`, "ready");
    this.check();
  }

  fields = () => this.all(FIELDS);

  entries() {
    const found = {};
    for (const input of this.fields()) if (input.value) found[input.name] = input.value;
    return found;
  }

  fill(entries) {
    for (const input of this.fields()) input.value = entries[input.name] || "";
    sayAgain(this);
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
    this.typing.note();
    this.fill({});
    this.saveAll();
    this.check();
  }

  async check() {
    this.unlooked = false; // whether anything was typed since
    this.handIn.look();
    if (!this.code || !this.python.ready) {
      const why = this.python.ready ? "Open a sheet first: this belongs to none." : "Will be checked when your numbers are here.";
      for (const entry of this.all(".er-entry")) {
        if (entry.querySelector("input, select").value) this.say(entry, "waiting", why);
        else this.say(entry, "", "");
      }
      return;
    }
    const [code, entries] = [this.code, this.entries()];
    const judged = await this.ask("check", code, JSON.stringify(entries));
    if (!judged || code !== this.code) return;
    const told = [];
    for (const entry of this.all(".er-entry")) {
      const v = judged.verdicts[entry.dataset.step];
      if (entry.querySelector("input, select").value !== (entries[entry.dataset.step] || "")) continue; // typed on since it was asked
      told.push([entry, v ? v.state : "", v ? [v.text, ...v.remarks].join(" ") : "", v && v.read, v && v.html]);
    }
    // When many verdicts are new, as on a sheet that is opened again, a screen reader hears only how many are right.
    const fresh = told.filter(([entry, state, text]) => text && entry.querySelector(".er-said").dataset.text !== state + text);
    for (const [entry, ...verdict] of told) {
      entry.querySelector(".er-said").setAttribute("aria-live", fresh.length > MANY ? "off" : "polite");
      this.say(entry, ...verdict);
    }
    this.done = judged.right === judged.steps;
    const score = this.done ? `All ${judged.steps} steps are right.` : `${judged.right} of ${judged.steps} steps right.`;
    if (this.one(".er-score").textContent !== score) this.one(".er-score").textContent = score;
  }

  // html: the text as our own Python sets it, all that was typed escaped
  say(entry, state, text, read, html) {
    entry.dataset.state = state;
    const said = entry.querySelector(".er-said");
    if (said.dataset.text === state + text) return; // nothing new for a screen reader
    said.dataset.text = state + text;
    if (html) said.innerHTML = html; // made by our own Python, everything typed escaped
    else said.textContent = text;
    said.toggleAttribute("data-brief", text.length <= BRIEF && !read);
    if (read) said.append(" ", link(read));
    if (text && entry.contains(document.activeElement)) inSight(said);
  }

  // ---- what the student does ----------------------------------------------

  listen() {
    this.holder.addEventListener("input", ({ target }) => {
      const entry = target.closest(".er-entry");
      if (!entry) return;
      this.say(entry, "", "");
      this.unlooked = true;
      this.save(target);
      sayAgain(this);
    });
    addEventListener("storage", ({ key }) => {
      if (!this.code || !keep.isEntries(key, this.code)) return;
      const entries = keep.entries(this.code); // another tab has typed on this sheet
      for (const input of this.all(FIELDS)) {
        if (input !== document.activeElement) input.value = entries[input.name] || "";
      }
      sayAgain(this);
      this.check();
    });
    addEventListener("popstate", () => {
      const code = new URL(location.href).searchParams.get("code");
      if (code && code !== this.code && this.python.ready) this.open(code);
    });
    this.holder.addEventListener("change", () => this.check());
    this.holder.addEventListener("focusout", () => this.unlooked && this.check()); // no change: it is typed as it was
    this.on(".er-code-form", "submit", (event) => {
      event.preventDefault();
      if (this.python.ready) this.open(this.box.value);
      else this.later("This sheet is opened", this.box.value);
    });
    this.on(".er-fresh", "click", () => this.newNumbers());
    this.on(".er-print", "click", () => window.print());
    this.on(".er-check", "click", () => this.check());
    this.on(".er-clear", "click", () => confirm("Clear everything typed on this sheet?") && this.clear());
  }
}

document.querySelectorAll(".er-desk[data-kind]").forEach((element) => new Desk(element));
reachAll();
if (location.href.startsWith(new URL("../before/", import.meta.url).href) && !document.querySelector(".er-status")) import("./ahead.js");
if (document.querySelector(".er-why")) import("./why.js");
if (document.querySelector(".er-drill")) import("./drill.js");
