// Marks on the class desk: the scheme's controls go to Python, and marks, pages and the report come back. Nothing is judged here.
import { paperStyle } from "./class_paper.js";
import { fileOf } from "./class_work.js";

export class Marks {
  constructor(desk) {
    this.desk = desk;
    this.saved = true;
    this.files = ["marks.csv", "marks.xlsx", "book.csv", "not-marked.csv", "students.html", "report.html", "ready.html", "records.csv", "marks.json"];
    for (const name of this.files) desk.work.files.set(name, () => this.file(name));
    const scheme = desk.one("#cd-scheme");
    scheme.addEventListener("submit", (event) => event.preventDefault());
    scheme.addEventListener("change", () => (this.changing = this.change()));
    desk.one("#cd-mark").addEventListener("click", () => this.mark());
  }

  says(text) {
    this.desk.one("#cd-marks-said").textContent = text;
  }

  // the marks on the page belong to other work, or to another scheme
  outdated() {
    this.desk.work.forget(...this.files);
    this.saved = false;
    if (this.desk.one("#cd-marked").hidden) return;
    this.desk.one("#cd-marked").hidden = true;
    this.says("Work or marks have changed since: mark again.");
  }

  controls() {
    return Object.fromEntries(new FormData(this.desk.one("#cd-scheme")));
  }

  // the controls of the scheme that the class has
  async form() {
    const got = await this.desk.ask("marks", "scheme_form.form", this.desk.session);
    if (!got) return;
    const scheme = this.desk.one("#cd-scheme");
    scheme.innerHTML = got.html; // made by our own Python from the class
    this.desk.wrong("marks", "");
    // text that could not be used stays in its field, so that it can be corrected
    for (const [name, text] of Object.entries(this.refused || {})) {
      const field = scheme.elements.namedItem(name);
      if (field) field.value = text;
    }
    if (this.refused) await this.change();
  }

  // true if the class now has the scheme that the controls show
  async change() {
    const { desk } = this;
    desk.wrong("marks", "");
    const controls = this.controls();
    const { session, returned } = desk;
    const got = await desk.ask("marks", "scheme_form.with_scheme", session, JSON.stringify(controls), returned.work || "");
    this.refused = got ? null : controls;
    if (!got) return false;
    if (got.text !== desk.text) {
      desk.summary.marks = got.marks;
      desk.setText(got.text, false, got.session);
      returned.workIs(got.work);
      this.outdated();
    }
    return true;
  }

  async mark() {
    const { desk } = this;
    if (!(await this.change())) {
      const before = desk.one("#cd-marked").hidden ? "" : " The marks below are those of before.";
      this.says(`Not marked: what is wrong is said above.${before}`);
      return;
    }
    const taken = desk.returned.taken;
    if (!taken || !(taken.handed || taken.records)) { // records alone have no mark, and are saved with the rest
      this.says("There is no work to mark yet. Add return slips above.");
      return;
    }
    this.says("");
    const work = desk.returned.work;
    const begun = await desk.work.run("Marking", taken.handed, (from, to) => desk.ask("marks", "marks.mark", work, from, to));
    const got = begun && (await desk.ask("marks", "marks.result", work));
    if (!got) return;
    desk.one("#cd-marked").hidden = false;
    desk.one("#cd-marks-table").innerHTML = got.table; // made by our own Python, all that was typed escaped
    desk.one("#cd-notes").innerHTML = got.notes;
    desk.one("#cd-report").innerHTML = got.report;
    this.says(got.says);
  }

  async file(name) {
    const { desk } = this;
    const style = await paperStyle();
    const work = desk.returned.work;
    const total = name === "students.html" ? desk.returned.taken.handed : 1;
    let got;
    const parts = await desk.work.run(name, total, async (from, to) => {
      got = await desk.ask("marks", "marks.part", work, name, from, to, from ? "" : style);
      return got && new Blob([got.text]);
    });
    return parts && fileOf(name, parts, got);
  }
}
