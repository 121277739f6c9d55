// The return slip below a sheet: keeps what was typed first, counts the slips, asks Python for one, shows, copies and saves it.
import { keep } from "./keep.js";
import { download } from "./page.js";

// copies a slip, or selects it in its field where the browser does not let the page copy; what is to be said
export async function copied(text, slip) {
  try {
    await navigator.clipboard.writeText(text);
    return "Copied. Paste it where you hand it in.";
  } catch {
    slip.focus();
    slip.select();
    return "This browser does not let the page copy. The slip is selected: copy it with Ctrl+C or from the menu.";
  }
}

// the date and hour of this device, as a slip has them: 2026-11-26 14:05
export function hour(now = new Date()) {
  const two = (number) => String(number).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())} ${two(now.getHours())}:${two(now.getMinutes())}`;
}

export class HandIn {
  constructor(desk) {
    this.desk = desk;
    this.part = desk.one(".er-handin");
    this.made = null; // {code, entries, file, text} of the slip that is shown
    this.who.value = keep.who();
    desk.holder.addEventListener("change", ({ target }) => this.first(target));
    desk.holder.addEventListener("input", () => this.look());
    this.who.addEventListener("input", () => {
      keep.saveWho(this.who.value);
      this.look();
    });
    addEventListener("storage", () => {
      if (this.who !== document.activeElement) this.who.value = keep.who();
    });
    this.part.querySelector(".er-handin-form").addEventListener("submit", (event) => {
      event.preventDefault();
      this.make();
    });
    this.part.querySelector(".er-copy").addEventListener("click", () => this.copy());
    this.part.querySelector(".er-save").addEventListener("click", () => this.save());
  }

  get who() {
    return this.part.querySelector("#er-who");
  }

  get slip() {
    return this.part.querySelector(".er-slip");
  }

  say(selector, text) {
    const line = this.part.querySelector(selector);
    if (line.textContent !== text) line.textContent = text;
  }

  // the first answer at a step is kept, whatever is typed later
  first({ name, value }) {
    if (name && value.trim()) keep.saveFirst(this.desk.place, name, value);
  }

  // says whether the return slip on the page still agrees with the sheet
  look() {
    this.part.hidden = !(this.desk.code && this.desk.python && this.desk.python.ready);
    if (!this.made) return;
    if (this.made.code !== this.desk.code) {
      this.made = null;
      this.part.querySelector(".er-slip-holder").hidden = true;
      for (const line of [".er-handin-says", ".er-slip-says", ".er-older"]) this.say(line, "");
      return;
    }
    const older = this.made.entries !== this.all();
    this.slip.toggleAttribute("data-older", older);
    const told = "The sheet or the name was changed after this slip was made. Make it again before you hand it in.";
    this.say(".er-older", older ? told : "");
  }

  all() {
    return JSON.stringify([this.who.value, this.desk.entries()]);
  }

  async make() {
    const { code } = this.desk;
    const entries = this.all();
    const typed = JSON.stringify(this.desk.entries());
    const number = keep.slips(code) + 1;
    const firsts = JSON.stringify(keep.firsts(code));
    const made = await this.desk.ask("return_slip", code, this.who.value, typed, firsts, number, hour());
    if (!made || code !== this.desk.code) return;
    this.say(".er-handin-says", made.says);
    this.who.toggleAttribute("aria-invalid", !made.ok && made.at === "who");
    if (!made.ok) {
      if (made.at === "who") this.who.focus();
      return;
    }
    keep.saveSlips(code, number);
    this.made = { code, entries, file: made.file, text: made.text };
    this.slip.value = made.text.trimEnd();
    this.slip.rows = this.slip.value.split("\n").length;
    this.part.querySelector(".er-slip-holder").hidden = false;
    this.say(".er-slip-says", "");
    this.look();
  }

  async copy() {
    this.say(".er-slip-says", await copied(this.made.text, this.slip));
  }

  save() {
    download(new Blob([this.made.text], { type: "text/plain;charset=utf-8" }), this.made.file);
    this.say(".er-slip-says", `Saved as ${this.made.file}, where this browser saves files.`);
  }
}
