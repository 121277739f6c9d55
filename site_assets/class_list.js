// The class list as it would be read: Python proposes columns and lines, and the person may choose others. Nothing is read here.
import { askWith } from "./class_handle.js";
import { notAnswered } from "./page.js";

const PAUSE = 400; // ms after a key until the list is looked at

export class ClassList {
  constructor(desk) {
    this.desk = desk;
    this.box = desk.one("#cd-list");
    this.place = desk.one("#cd-columns");
    this.choice = {}; // control -> what it shows, as Python takes it
    this.turn = 0;
    this.box.addEventListener("input", () => {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.look(), PAUSE);
    });
    this.place.addEventListener("change", (event) => {
      event.stopPropagation();
      this.chosen(event.target);
    });
  }

  chosen({ name, type, checked, value }) {
    delete this.choice.sure; // of what was shown before
    this.choice[name] = type === "checkbox" ? checked : value;
    this.desk.wrong("list", "");
    return this.look();
  }

  // what was chosen, of the list that is in the box now
  async look() {
    clearTimeout(this.timer);
    const turn = ++this.turn;
    const text = this.box.value;
    if (this.looked !== undefined && this.looked !== text) delete this.choice.sure; // it was said of another list
    this.looked = text;
    if (!text.trim()) this.place.replaceChildren();
    if (!text.trim() || !this.ready) return;
    let got;
    try {
      got = await askWith(this.desk.python, "classroom.desk.list_preview.preview", [text, JSON.stringify(this.choice)]);
    } catch (error) {
      got = { ok: false, text: notAnswered(error) };
    }
    if (turn !== this.turn) return;
    const { id } = this.place.contains(document.activeElement) ? document.activeElement : {};
    if (got.ok) {
      this.choice = got.columns;
      this.place.innerHTML = got.html; // made by our own Python, all that was typed escaped
    } else this.place.textContent = got.text;
    if (id) document.getElementById(id)?.focus();
    this.desk.keep();
  }

  // a list from a file: its text goes into the box, where it can be looked over and changed
  async file([file]) {
    const { desk, box } = this;
    desk.wrong("list-file", "");
    const got = file && (await desk.read(file, "list-file", desk.element.dataset.largest, "classes.file_text"));
    if (!got) return;
    const ask = `Put the list of ${file.name} in the place of what is in the box?`;
    if (box.value.trim() && box.value !== this.fromFile && !confirm(ask)) return;
    box.value = got.text;
    this.fromFile = box.value;
    desk.wrong("list", "");
    await this.look();
    desk.one("#cd-class-said").textContent = `${file.name} is in the box below it. Look it over, then make the class.`;
    desk.keep();
  }
}
