// The marks file on the class desk: opened, joined by what comes in, and what is set by hand. Python reads and writes it.
import { Handle, askWith } from "./class_handle.js";
import { make } from "./class_work.js";

export class MarksFile {
  constructor(desk) {
    this.desk = desk;
    this.text = ""; // of the file that was opened
    this.file = ""; // the handle by which Python has it
    this.slips = 0; // in it
    this.byHand = ""; // what is set by hand now; "" is what the file has
    const on = (selector, action) =>
      desk.one(selector).addEventListener("submit", (event) => {
        event.preventDefault();
        action();
      });
    on("#cd-hand-choice", () => this.form());
    on("#cd-hand-form", () => this.put());
    desk.one("#cd-marks-file").addEventListener("change", ({ target }) => this.choose(target));
  }

  // what Python is told of it when work comes in
  get given() {
    return [this.file, this.byHand];
  }

  async choose(input) {
    const { desk } = this;
    const [file] = input.files;
    desk.wrong("marks-file", "");
    const ask = "Put this marks file in the place of the one that is open, with what was set by hand since?";
    if (!file || ((this.text || this.byHand) && !confirm(ask))) return;
    const got = await desk.read(file, "marks-file", desk.element.dataset.largestReturned, "classes.file_text");
    if (got) await this.open(got.text);
    input.value = ""; // so that the same file can be chosen again
  }

  async open(text) {
    const { desk } = this;
    const got = await desk.ask("marks-file", "marks_file.open_file", desk.session, text);
    if (!got) return;
    this.text = text;
    this.slips = got.slips;
    this.byHand = got.by_hand;
    this.file = new Handle(got.file, async () => {
      const answer = await askWith(desk.python, "classroom.desk.marks_file.open_file", [desk.session, text]);
      if (!answer.ok) throw new Error(answer.text);
      return answer.file;
    });
    if (got.text !== desk.text) {
      desk.summary.marks = got.marks;
      desk.setText(got.text, false, got.session);
      await desk.marks.form();
    }
    await desk.returned.look(got.says);
  }

  // of another class, or of this one made again: the file must be of it
  async classChanged() {
    const { desk } = this;
    const got = await desk.ask("by-hand-who", "by_hand.sheets", desk.session);
    const options = (got?.sheets || []).map(([value, title]) => make("option", title, { value }));
    desk.one("#cd-hand-sheet").replaceChildren(...options);
    desk.one("#cd-hand-form").replaceChildren();
    if (!this.text) return;
    const answer = await desk.ask("marks-file", "marks_file.open_file", desk.session, this.text);
    if (answer) this.file.id = answer.file;
    else [this.text, this.file, this.slips, this.byHand] = ["", "", 0, ""];
  }

  async form() {
    const { desk } = this;
    desk.wrong("by-hand-who", "");
    const [who, sheet] = ["#cd-by-hand-who", "#cd-hand-sheet"].map((id) => desk.one(id).value);
    const got = await desk.ask("by-hand-who", "by_hand.form", desk.returned.work, who, sheet);
    if (!got) return;
    this.open_ = got;
    const form = desk.one("#cd-hand-form");
    form.innerHTML = got.html; // made by our own Python, all that was typed escaped
    form.querySelector("input")?.focus();
  }

  async put() {
    const { desk, open_ } = this;
    desk.wrong("by-hand", "");
    const controls = JSON.stringify(Object.fromEntries(new FormData(desk.one("#cd-hand-form"))));
    const got = await desk.ask("by-hand", "by_hand.put", desk.returned.work, open_.roll, open_.sheet, controls);
    if (got) await this.setByHand(got);
  }

  // the work as Python has it once something was set by hand; it is marked again at once
  async setByHand(got) {
    this.byHand = got.by_hand;
    this.desk.returned.workIs(got.work);
    this.desk.marks.outdated();
    await this.desk.marks.mark();
    this.desk.one("#cd-hand-form").replaceChildren(make("p", got.says, { className: "cd-said", role: "status" }));
  }
}
