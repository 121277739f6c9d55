// The readings at the bench: one field after the other with the plan of where the magnet lies, or a whole distance on one
// screen. No physics here.
import { blankRow, following, front, nameOf, placeOf, textAt, write } from "./bench_state.js";
import { keep } from "./keep.js";

export class BenchReadings {
  constructor(bench) {
    this.bench = bench;
    this.card = bench.one(".bn-card");
    this.field = bench.one("#bn-now");
    this.whole = bench.one(".bn-whole");
    this.list = bench.one(".bn-rows");
    bench.one(".bn-switch").checked = keep.benchWhole();
    this.listen();
  }

  get state() {
    return this.bench.state;
  }

  get isWhole() {
    return this.bench.one(".bn-switch").checked;
  }

  // what a place is called: "east arm, N west, end ①"
  named(cell) {
    if (cell === "d") return "distance d";
    const [arm, north, end] = this.bench.eight[cell];
    return `${arm} arm, N ${north}, end ${"①②"[end - 1]}`;
  }

  // the same in few words, with what is not as at the open place: "N east ②", "distance 1, west arm, N east ②"
  short({ row, cell }) {
    const { at } = this.state;
    const words = row === at.row ? [] : [`distance ${row + 1}`];
    if (cell === "d") return [...words, "d"].join(", ");
    const [arm, north, end] = this.bench.eight[cell];
    if (words.length || at.cell === "d" || this.bench.eight[at.cell][0] !== arm) words.push(`${arm} arm`);
    return [...words, `N ${north} ${"①②"[end - 1]}`].join(", ");
  }

  draw() {
    const { at, rows } = this.state;
    const [arm, north, end] = this.bench.eight[at.cell === "d" ? 0 : at.cell];
    Object.assign(this.card.dataset, { at: at.cell === "d" ? "d" : "reading", arm, north, end, whole: this.isWhole });
    this.bench.one("#bn-title-readings").textContent = `Distance ${at.row + 1}` + (at.cell === "d" ? "" : `, reading ${at.cell + 1} of 8`);
    this.bench.one(".bn-do").textContent = this.order(at.cell, rows[at.row].d.trim());
    this.bench.put(this.field, textAt(this.state, at));
    this.whole.hidden = !this.isWhole;
    this.bench.one(".bn-one").hidden = this.isWhole;
    const asked = this.isWhole ? this.whole : this.bench.one(".bn-one");
    const below = this.bench.one(".bn-below");
    if (below.previousElementSibling !== asked) asked.after(below); // what is said moves no field
    for (const field of this.whole.querySelectorAll("input")) this.bench.put(field, textAt(this.state, { row: at.row, cell: this.cellOf(field) }));
    this.drawRows();
  }

  // what is to be done for the field that is open
  order(cell, d) {
    if (cell === "d") return "Which d, in cm, from the pivot to the middle of the magnet?";
    const [arm, north, end] = this.bench.eight[cell];
    if (end === 2) return "Leave the magnet where it lies. Read end ②.";
    const lay = { 0: `Lay the magnet on the ${arm} arm`, 4: `Carry the magnet to the ${arm} arm` }[cell] || "Turn the magnet end for end";
    return `${lay}, N to the ${north}, middle at ${d ? `${d} cm` : "d"}. Tap. Read end ①.`;
  }

  cellOf = (element) => (element.dataset.at === "d" ? "d" : Number(element.dataset.at));

  drawRows() {
    const { rows, at } = this.state;
    while (this.list.children.length > rows.length) this.list.lastElementChild.remove();
    while (this.list.children.length < rows.length) this.list.append(this.bench.one(".bn-template").content.firstElementChild.cloneNode(true));
    [...this.list.children].forEach((strip, row) => {
      strip.querySelector(".bn-which").textContent = `Distance ${row + 1}${rows[row].d.trim() && `: ${rows[row].d.trim()} cm`}`;
      if (this.shown !== at.row) strip.open = row === at.row;
      for (const cell of strip.querySelectorAll(".bn-cell")) {
        const place = { row, cell: this.cellOf(cell) };
        const text = textAt(this.state, place).trim();
        cell.querySelector("b").textContent = text || "–";
        cell.setAttribute("aria-label", `Distance ${row + 1}, ${this.named(place.cell)}: ${text || "blank"}`);
        if (row === at.row && place.cell === at.cell) cell.setAttribute("aria-current", "true");
        else cell.removeAttribute("aria-current");
      }
    });
    this.shown = at.row;
  }

  focus() {
    const field = this.isWhole ? this.whole.querySelector(`[data-at="${this.state.at.cell}"]`) : this.field;
    field.focus({ preventScroll: true });
    field.select();
    this.see();
  }

  // scrolls so that what is said under the field is seen, above the phone's keyboard too, and the field stays in sight
  see() {
    if (this.card.closest("[hidden]")) return;
    const { offsetTop, height } = visualViewport;
    const said = [...this.bench.one(".bn-below").children].filter((one) => one.textContent && !one.hidden);
    const top = this.bench.one("#bn-title-readings").getBoundingClientRect().top - offsetTop;
    const field = this.bench.one(this.isWhole ? "#bn-whole-d" : "#bn-now").getBoundingClientRect();
    const end = (said.at(-1) || this.bench.one(".bn-below").previousElementSibling).getBoundingClientRect().bottom;
    const over = end + 4 - offsetTop - height;
    const by = over > 0 ? over : Math.min(0, Math.max(top, over));
    scrollBy(0, Math.ceil(Math.min(by, field.top - offsetTop - 4)));
  }

  // goes to a place, the keyboard with it
  open(place) {
    this.bench.move((state) => {
      if (place.row === state.rows.length && place.row < this.bench.most) state.rows.push(blankRow());
      if (place.row < state.rows.length) state.at = place;
    });
    this.focus();
  }

  // ---- what Python said ---------------------------------------------------

  say() {
    const { said, warnings = [], problems = {}, propose, stop, rows: lines = [] } = this.bench.found;
    const { at, rows } = this.state;
    const here = nameOf(at);
    const open = rows[at.row];
    const all = [said, ...warnings.filter(({ cells }) => cells.includes(here)), ...[this.state.last, here].map((name) => problems[name] && { text: problems[name], cells: [name] })];
    this.warn([...new Map(all.filter((one) => one && this.isOfReadings(one)).map((one) => [one.text, one])).values()]);
    const doubted = new Set([...Object.keys(problems), ...warnings.flatMap(({ cells }) => cells)]);
    [...this.list.children].forEach((strip, row) => {
      const { mean } = lines[row] || {};
      strip.querySelector(".bn-mean").textContent = mean ? `mean ${mean}` : "";
      for (const cell of strip.querySelectorAll(".bn-cell")) cell.toggleAttribute("data-doubt", doubted.has(nameOf({ row, cell: this.cellOf(cell) })));
    });
    const proposed = at.cell === "d" && propose && propose.cell === here && !open.d.trim() ? propose : { text: "", cm: "" };
    this.bench.tell(this.bench.one(".bn-stop"), at.cell === "d" ? stop : "");
    this.bench.tell(this.bench.one(".bn-why"), proposed.text);
    const take = this.bench.one(".bn-take");
    take.hidden = !proposed.cm;
    take.textContent = `Take ${proposed.cm} cm`;
    take.value = proposed.cm;
    if (this.card.parentElement.contains(document.activeElement)) this.see();
  }

  isOfReadings = ({ cells }) => cells.some((name) => /^(d|reading)/.test(name));

  // the warnings under the field, each with a way to the other readings that it names
  warn(warnings) {
    const said = this.bench.one(".bn-said");
    const here = nameOf(this.state.at);
    const key = JSON.stringify([warnings, here]);
    if (said.dataset.key === key) return; // nothing new for a screen reader
    said.dataset.key = key;
    said.replaceChildren(...warnings.map(({ text, cells }) => {
      const line = document.createElement("p");
      line.textContent = text;
      for (const name of cells.filter((cell) => cell !== here && /^(d|reading)/.test(cell))) {
        const back = document.createElement("button");
        back.type = "button";
        back.textContent = `Back to ${this.short(placeOf(name))}`;
        back.addEventListener("click", () => this.open(placeOf(name)));
        line.append(" ", back);
      }
      return line;
    }));
  }

  // ---- what is done -------------------------------------------------------

  next() {
    const { at } = this.state;
    if (!textAt(this.state, at).trim()) {
      // a thumb that presses twice leaves nothing out
      const what = at.cell === "d" ? "Type the distance first, as the scale shows it." : "Type this reading first. One that you have to leave out is passed over below.";
      this.warn([{ text: what, cells: [] }]);
      this.focus();
      return;
    }
    const next = following(this.state);
    if (next.row < this.bench.most) this.open(next);
    else this.bench.go("end");
  }

  typed(cell, text) {
    const { row } = this.state.at;
    this.bench.type(nameOf({ row, cell }), (state) => write(state, { row, cell }, text));
    this.drawRows();
  }

  listen() {
    const { bench, whole } = this;
    visualViewport.addEventListener("resize", () => document.activeElement === this.field && this.see());
    this.field.addEventListener("input", () => this.typed(this.state.at.cell, this.field.value));
    bench.on(".bn-one", "submit", (event) => {
      event.preventDefault();
      this.next();
    });
    // the field keeps the keyboard, so that the phone's stays up
    for (const button of bench.all(".bn-one button, .bn-take")) button.addEventListener("mousedown", (event) => event.preventDefault());
    bench.on(".bn-take", "click", ({ target }) => {
      const { row } = this.state.at;
      bench.move((state) => {
        state.rows[row].d = target.value;
        state.at = { row, cell: 0 };
      });
      this.focus();
    });
    whole.addEventListener("input", ({ target }) => this.typed(this.cellOf(target), target.value));
    whole.addEventListener("focusin", ({ target }) => {
      if (!target.dataset.at || this.cellOf(target) === this.state.at.cell) return;
      this.state.at = { ...this.state.at, cell: this.cellOf(target) };
      this.draw();
      this.say();
    });
    whole.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("input")) return;
      event.preventDefault();
      const fields = [...whole.querySelectorAll("input, button")];
      fields[fields.indexOf(event.target) + 1].focus();
    });
    whole.addEventListener("submit", (event) => {
      event.preventDefault();
      const ahead = front(this.state);
      if (ahead.row < bench.most) this.open(ahead);
      else bench.go("end");
    });
    bench.on(".bn-switch", "change", () => {
      keep.saveBenchWhole(this.isWhole);
      bench.draw();
      this.focus();
    });
    this.list.addEventListener("click", ({ target }) => {
      const cell = target.closest(".bn-cell");
      const row = [...this.list.children].indexOf(target.closest(".bn-row"));
      if (cell) this.open({ row, cell: this.cellOf(cell) });
    });
  }
}
