// The page "Readings at the bench": keeps what is typed, shows one part at a time, asks Python what is to be said. Each
// move can be undone. No physics here.
import { BenchEnd } from "./bench_end.js";
import { BenchReadings } from "./bench_readings.js";
import { drawSettling } from "./bench_settling.js";
import { stateOf } from "./bench_state.js";
import { keep } from "./keep.js";
import { Page, notStarted } from "./page.js";

const LAB = new URLSearchParams(location.search).get("lab") || ""; // a laboratory's code, from the address a class gives out
const PAUSE = 250; // ms after the last key until a reading is looked at
const MOVES = 60; // that can be undone
const OF_THE_MAGNET = ["length", "two_l"]; // of what is asked

class Bench extends Page {
  constructor(element) {
    super(element);
    this.most = Number(element.dataset.rows);
    this.eight = JSON.parse(element.dataset.eight);
    this.state = stateOf(keep.bench(), this.most);
    if (LAB) this.state.lab = LAB;
    this.before = keep.benchBefore();
    const said = keep.benchSaid();
    const known = said.asked === this.asked(); // nothing moves when Python says it again
    this.found = known ? said.found : {}; // what Python said last of the readings
    this.givens = known ? said.givens : {}; // and of what is given
    this.readings = new BenchReadings(this);
    this.end = new BenchEnd(this);
    this.listen();
    this.draw();
    this.one(".bn-run").inert = false;
    if (this.state.part !== "safety") this.one(`.bn-part[data-part="${this.state.part}"]`).scrollIntoView();
    this.startPython({ rooms: "rooms" });
  }

  // ---- Python -------------------------------------------------------------

  ready() {
    this.status("Readings are looked at as you type.", "ready");
    this.look(0);
  }

  failed(reason) {
    this.status("No warnings here. You can type.", "failed");
    this.trouble(notStarted("there are no warnings. You can type all readings, and open them in the record later", reason));
  }

  asked() {
    return JSON.stringify({ ...this.state, who: keep.who() });
  }

  // asks what is to be said of all that was typed, a moment after the last key
  look(pause = PAUSE) {
    clearTimeout(this.waiting);
    this.waiting = setTimeout(async () => {
      if (!this.python.ready) return;
      const asked = this.asked();
      const givens = await this.ask("record.beside.page.begin", asked);
      const found = givens && (await this.ask("record.beside.page.now", asked, this.state.last));
      if (!found || asked !== this.asked()) return; // typed on since it was asked
      Object.assign(this, { givens, found });
      keep.saveBenchSaid({ asked, givens, found });
      this.laboratory();
      this.say();
    }, pause);
  }

  // what the laboratory's settings fill, and what they say
  laboratory() {
    const { cells, notes, trouble } = this.givens;
    if (trouble) this.trouble(trouble);
    if (!Object.keys(cells).length) return;
    Object.assign(this.state.head, cells);
    const list = this.one(".bn-notes");
    list.hidden = false;
    list.replaceChildren(...notes.map((text) => Object.assign(document.createElement("li"), { textContent: text })));
    this.keep();
    this.draw();
    this.look(0);
  }

  // puts what Python said where it belongs
  say() {
    const { head, rows } = this.state;
    const { problems = {}, result, lacks, settles = [], enough } = this.found;
    const begun = rows.some((row) => row.readings.some(Boolean));
    const asked = new Map((this.givens.asked || []).map((one) => [one.cell, one.html]));
    for (const given of this.all("[data-given]")) {
      const cell = given.dataset.given;
      this.set(given.querySelector(".er-said"), begun || head[cell] ? asked.get(cell) : "");
      if (given.dataset.when) given.hidden = !asked.has(cell) && !head[cell]; // asked for where it is needed
    }
    const { said } = this.found;
    const ofZero = said && said.cells.some((cell) => cell.startsWith("zero-")) ? said.text : "";
    this.tell(this.one(".bn-zero-said"), problems["zero-1"] || problems["zero-2"] || ofZero);
    for (const line of this.all(".bn-result")) {
      line.toggleAttribute("data-there", Boolean(result));
      if (result) this.tell(line, result.text);
      else this.set(line, lacks);
    }
    this.one(".bn-after").classList.toggle("bn-enough", Boolean(enough));
    drawSettling(this.one(".bn-settles"), settles, rows.filter((row) => row.readings.some(Boolean)).length);
    this.readings.say();
  }

  // a screen reader does not hear the same text twice
  tell(line, text = "") {
    this.shown(line, document.createTextNode(text));
  }

  // the same with a text as our own Python sets it, everything typed escaped
  set(line, html = "") {
    this.shown(line, document.createRange().createContextualFragment(html));
  }

  shown(line, made) {
    const text = made.textContent;
    if (line.textContent !== text) line.replaceChildren(made);
    line.parentElement.classList.toggle("bn-doubt", line.matches(".er-said") && Boolean(text));
  }

  // ---- what is kept -------------------------------------------------------

  keep() {
    if (keep.saveBench(this.state)) return;
    this.trouble("This browser keeps nothing between visits (a private window?). Leave this page open until you have handed in.");
  }

  mark() {
    this.before = [...this.before, JSON.stringify(this.state)].slice(-MOVES);
    keep.saveBenchBefore(this.before);
  }

  // one move: it can be undone
  move(make) {
    this.mark();
    this.typing = null;
    make(this.state);
    this.keep();
    this.draw();
    this.look(0);
  }

  // a key stroke: all those in one field are one move
  type(field, make) {
    if (this.typing !== field) this.mark();
    this.typing = this.state.last = field;
    make(this.state);
    this.keep();
    this.one(".bn-undo").disabled = false;
    this.look();
  }

  undo() {
    const last = this.before.at(-1);
    if (!last) return;
    this.before = this.before.slice(0, -1);
    keep.saveBenchBefore(this.before);
    this.typing = null;
    this.state = stateOf(JSON.parse(last), this.most);
    this.keep();
    this.draw();
    this.look(0);
  }

  // ---- what is shown ------------------------------------------------------

  draw() {
    const { part, head, zero, ticks } = this.state;
    this.element.dataset.part = part;
    for (const section of this.all(".bn-part")) section.hidden = section.dataset.part !== part;
    for (const button of this.all(".bn-parts button")) {
      if (button.dataset.to === part) button.setAttribute("aria-current", "step");
      else button.removeAttribute("aria-current");
    }
    for (const field of this.all("[data-key]")) this.put(field, head[field.dataset.key] || "");
    for (const field of this.all("[data-zero]")) this.put(field, zero[field.dataset.zero]);
    for (const box of this.all("[data-tick]")) box.checked = Boolean(ticks[box.dataset.tick]);
    this.rule();
    this.one(".bn-undo").disabled = !this.before.length;
    this.readings.draw();
    this.end.draw();
    this.say();
  }

  put(field, text) {
    if (field.value !== text) field.value = text;
  }

  // of the length and 2l, the one that the rule needs
  rule() {
    const stated = this.state.head.two_l_is === "stated";
    this.one('[data-given="two_l"]').hidden = !stated;
    this.one('[data-given="length"]').hidden = stated;
  }

  go(part) {
    this.move((state) => (state.part = part));
    this.show();
  }

  // brings the part that is open into view, and the keyboard to it
  show() {
    const shown = this.one(`.bn-part[data-part="${this.state.part}"]`);
    shown.scrollIntoView();
    if (this.state.part === "readings") this.readings.focus();
    else shown.querySelector("h2").focus({ preventScroll: true });
  }

  listen() {
    const run = this.one(".bn-run");
    run.addEventListener("click", ({ target }) => {
      const to = target.closest("[data-to]");
      if (to) this.go(to.dataset.to);
    });
    run.addEventListener("input", ({ target }) => {
      const { key, zero, tick } = target.dataset;
      if (key) this.type(key, (state) => (state.head[key] = target.value));
      if (key === "two_l_is") this.rule();
      if (zero) this.type(`zero-${Number(zero) + 1}`, (state) => (state.zero[zero] = target.value));
      if (tick) this.move((state) => (state.ticks[tick] = target.checked));
    });
    run.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("[data-key], [data-zero]")) return;
      event.preventDefault();
      const fields = this.all(`.bn-part[data-part="${this.state.part}"] :is(input, select, .bn-on)`);
      const shown = fields.filter((field) => field.checkVisibility() && field.type !== "checkbox");
      shown[shown.indexOf(event.target) + 1].focus();
    });
    // the date at the bench is today's
    this.one(".bn-place").addEventListener("toggle", ({ target }) => {
      const today = new Date();
      const date = [today.getFullYear(), today.getMonth() + 1, today.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
      if (target.open && !this.state.head.date) this.move((state) => (state.head.date = date));
    });
    this.on(".bn-undo", "click", () => this.undo());
    // what holds for another magnet too stays
    this.on(".bn-anew", "click", () => {
      const { head, zero, ticks, lab } = this.state;
      const stays = Object.entries(head).filter(([key]) => !OF_THE_MAGNET.includes(key));
      this.move(() => (this.state = { ...stateOf(null, this.most), head: Object.fromEntries(stays), zero, ticks: { ...ticks, after: false }, lab, part: "givens" }));
      this.show();
    });
    addEventListener("storage", ({ key }) => {
      if (!keep.isBench(key) || document.hasFocus()) return; // another tab has typed in it
      this.state = stateOf(keep.bench(), this.most);
      this.before = keep.benchBefore();
      this.draw();
      this.look(0);
    });
  }
}

document.querySelectorAll(".bn-desk").forEach((element) => new Bench(element));
