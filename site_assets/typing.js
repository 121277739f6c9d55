// Typing on a sheet: Enter goes along the row and stays where something is amiss, pasted rows fill the fields, every move
// can be undone, and a phone's keyboard of figures gets the characters that it lacks. No physics here.
const AMISS = ["slip", "wrong", "ask", "unread"]; // verdicts at which Enter stays
const MOVES = 50; // that can be undone

export class Typing {
  // desk: has holder, fields(), entries(), fill(), saveAll(), check(), one()
  constructor(desk) {
    this.desk = desk;
    this.moves = []; // what stood in the fields before each move
    this.waiting = null; // keys that come while Enter waits for its verdict
    this.stayed = ""; // where Enter stayed, and on what: once more, and it goes on
    const { holder } = desk;
    holder.addEventListener("focusin", ({ target }) => this.begin(target));
    holder.addEventListener("change", ({ target }) => this.moved(target));
    holder.addEventListener("keydown", (event) => this.key(event));
    holder.addEventListener("beforeinput", (event) => this.ahead(event));
    holder.addEventListener("paste", (event) => this.paste(event));
    desk.on(".er-undo", "click", () => this.undo());
    this.show();
  }

  // ---- undo -----------------------------------------------------------------

  // the fields as they stand are kept before something changes them all
  note(entries = this.desk.entries()) {
    this.moves.push(JSON.stringify(entries));
    if (this.moves.length > MOVES) this.moves.shift();
    this.show();
  }

  begin(field) {
    this.before = { name: field.name, value: field.value };
  }

  moved(field) {
    if (this.before?.name !== field.name || this.before.value === field.value) return;
    const entries = { ...this.desk.entries(), [field.name]: this.before.value };
    this.note(entries);
    this.begin(field);
  }

  undo() {
    const now = JSON.stringify(this.desk.entries());
    let last = this.moves.pop();
    while (last === now) last = this.moves.pop();
    if (last !== undefined) {
      this.desk.fill(JSON.parse(last));
      this.desk.saveAll();
      this.desk.check();
      if (document.activeElement.name) this.begin(document.activeElement);
    }
    this.show();
  }

  // another sheet is there
  forget() {
    this.moves = [];
    this.show();
  }

  show() {
    this.desk.one(".er-undo").disabled = !this.moves.length;
  }

  // ---- Enter ----------------------------------------------------------------

  key(event) {
    if (this.waiting) {
      if (event.key !== "Enter") return;
      event.preventDefault();
      this.waiting.push(event.key);
    } else if (event.key === "Enter" && event.target.matches("input, select")) {
      event.preventDefault();
      this.enter(event.target);
    } else if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key === "z") {
      // within a field the browser undoes what is typed; here come the moves before
      if (this.before?.name !== event.target.name || this.before.value !== event.target.value || !this.moves.length) return;
      event.preventDefault();
      this.undo();
    }
  }

  // where the verdict is not there yet, what is typed meanwhile is meant for the next field; a phone's keyboard tells of it
  // by its text alone
  ahead(event) {
    if (!this.waiting || event.inputType !== "insertText" || event.data === null) return;
    event.preventDefault();
    this.waiting.push(...event.data);
  }

  async enter(field) {
    this.waiting = [];
    this.moved(field);
    this.desk.handIn?.first(field); // a wrong answer may be mended before the field is left
    await this.desk.check();
    const keys = this.waiting;
    this.waiting = null;
    const entry = field.closest(".er-entry");
    const here = `${field.name} ${field.value}`;
    if (!keys.length && this.stayed !== here && AMISS.includes(entry?.dataset.state)) {
      this.stayed = here;
      inSight(entry.querySelector(".er-said"));
      return;
    }
    const fields = this.desk.fields();
    const next = fields[fields.indexOf(field) + 1];
    (next || this.desk.one(".er-check")).focus();
    next?.select?.();
    const end = keys.indexOf("Enter");
    const text = keys.slice(0, end < 0 ? keys.length : end).join("");
    if (!next || !keys.length) return;
    if (text && next.matches("input")) insert(next, text);
    if (end < 0) return;
    const rest = keys.slice(end + 1);
    const done = this.enter(next);
    this.waiting.push(...rest);
    await done;
  }

  // ---- pasted rows ----------------------------------------------------------

  paste(event) {
    const rows = event.clipboardData.getData("text").replace(/\r\n?/g, "\n").replace(/\n+$/, "").split("\n").map((row) => row.split("\t"));
    if (rows.length === 1 && rows[0].length === 1) return;
    event.preventDefault();
    this.note();
    const fields = this.desk.fields();
    let at = fields.indexOf(event.target);
    for (const row of rows) {
      const line = fields[at]?.closest("tr");
      row.forEach((text, i) => {
        const field = fields[at + i];
        if (!field || (line && field.closest("tr") !== line)) return;
        const option = [...(field.options || [])].find((o) => o.textContent === text.trim());
        field.value = field.options ? option?.value || "" : text.trim();
        field.dispatchEvent(new Event("input", { bubbles: true }));
        this.desk.handIn?.first(field);
      });
      // the next row of the sheet, in the same column; where there are no rows, the fields that follow
      at += line ? line.querySelectorAll("input, select").length : row.length;
    }
    this.begin(event.target);
    this.desk.check();
  }
}

// earlier entries that are said again beside the fields that are worked from them
export function sayAgain(page) {
  for (const place of page.all("[data-of]")) {
    const field = page.one(`#er-${place.dataset.of}`);
    const text = field.value && field.options ? field.selectedOptions[0].text : field.value;
    if (place.textContent !== text) place.textContent = text;
  }
}

// text in the place of what is selected in a field, as if it were typed
function insert(field, text) {
  field.setRangeText(text, field.selectionStart, field.selectionEnd, "end");
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

const TOP = 64; // px of the screen that the header of the page takes, and a little more

// What is said of an entry stays on the part of the screen that the keyboard leaves free, and so does the entry's field.
export function inSight(element) {
  const view = window.visualViewport;
  const { bottom } = element.getBoundingClientRect();
  const free = view ? view.offsetTop + view.height : innerHeight;
  const keys = document.querySelector(".er-keys:not([hidden])");
  const below = bottom + 8 - free + (keys ? keys.offsetHeight : 0);
  const field = element.closest(".er-entry")?.querySelector("input, select") || element;
  const room = field.getBoundingClientRect().top - TOP;
  if (below > 0 && room > 0) scrollBy({ top: Math.min(below, room) });
}

// What a number takes and a keyboard of figures may lack; "abc" asks for the whole keyboard, for a unit.
const KEYS = [[",", "comma"], [".", "point"], ["−", "minus"], ["×10^", "times ten to the power"], ["abc", "letters"]];

// A row of keys above a phone's keyboard while a field of this element has the focus.
export function keysFor(element, selector) {
  if (!matchMedia("(pointer: coarse)").matches) return;
  const row = Object.assign(document.createElement("div"), { className: "er-keys", hidden: true });
  row.setAttribute("role", "group");
  row.setAttribute("aria-label", "More keys");
  let field = null;
  for (const [text, name] of KEYS) {
    const key = Object.assign(document.createElement("button"), { type: "button", textContent: text, tabIndex: -1 });
    key.setAttribute("aria-label", name);
    key.addEventListener("pointerdown", (event) => event.preventDefault()); // the field keeps the focus, and the keyboard
    key.addEventListener("click", () => {
      if (!field) return;
      if (text !== "abc") return insert(field, text);
      const all = field.inputMode === "text";
      for (const one of element.querySelectorAll(selector)) one.inputMode = all ? "decimal" : "text";
      key.setAttribute("aria-pressed", !all);
      const here = field;
      here.blur();
      here.focus(); // the keyboard is made anew
    });
    row.append(key);
  }
  document.body.append(row);
  const place = () => {
    const view = window.visualViewport;
    if (view && field) row.style.setProperty("bottom", `${Math.max(0, innerHeight - view.offsetTop - view.height)}px`);
  };
  element.addEventListener("focusin", ({ target }) => {
    field = target.matches(selector) ? target : null;
    row.hidden = !field;
    place();
  });
  element.addEventListener("focusout", ({ relatedTarget }) => {
    if (row.contains(relatedTarget)) return;
    field = null;
    row.hidden = true;
  });
  window.visualViewport?.addEventListener("resize", place);
  window.visualViewport?.addEventListener("scroll", place);
}
