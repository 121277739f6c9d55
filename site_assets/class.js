// The class desk: gives Python what is typed about a class, and saves the files that Python makes. It makes no code and no mark.
import { Alike } from "./class_alike.js";
import { takeDrops } from "./class_drops.js";
import { Handle, askWith } from "./class_handle.js";
import { ClassList } from "./class_list.js";
import { Marks } from "./class_marks.js";
import { MarksFile } from "./class_marks_file.js";
import { fillPapers, paperStyle, papersGiven } from "./class_paper.js";
import { Returned } from "./class_returned.js";
import { showStudents } from "./class_students.js";
import { Work, bytesOf, fileOf, make } from "./class_work.js";
import { Page, notAnswered, notStarted } from "./page.js";

const STUCK = 120000; // ms; the codes of the largest class take a while
const KEPT = "eight-readings:class"; // on this device, only if the person asks for it: the text of the class file
const DRAFT = "eight-readings:class-draft"; // for this tab: what is typed, without the phrase
const OF_CLASS = [
  ...["codes.csv", "codes.xlsx", "sheets.html", "slips.html", "class.json", "key.csv", "key.html", "working.html"],
  ...["examination.html", "examiner.html"],
];

class ClassDesk extends Page {
  constructor(element) {
    super(element);
    this.text = null; // the class, as the text of its file
    this.session = null; // the handle by which Python has it open
    this.saved = true;
    this.work = new Work(this, element);
    for (const name of OF_CLASS) this.work.files.set(name, () => this.file(name));
    this.list = new ClassList(this);
    this.marks = new Marks(this);
    this.marksFile = new MarksFile(this);
    this.alike = new Alike(this);
    this.returned = new Returned(this, () => this.marks.outdated());
    this.one("#cd-site").value = new URL("../", import.meta.url).href;
    this.restore();
    this.listen();
    this.startPython({ stuck: STUCK, rooms: "rooms" });
  }

  status(text, ...more) {
    this.says = text;
    super.status(text, ...more);
  }

  // ---- Python -------------------------------------------------------------

  async ready() {
    this.status("The class desk is ready.", "ready");
    for (const part of this.all(".cd-part")) part.disabled = false;
    this.list.ready = true;
    await this.list.look();
    const kept = this.text ? null : stored(localStorage, KEPT);
    if (kept) await this.openText(kept, "The class kept on this device is open: ");
  }

  failed(reason) {
    this.status(notStarted("nothing can be made. What you typed is kept", reason), "failed");
    for (const part of this.all(".cd-part")) part.disabled = true;
  }

  // Python's answer. Null if there is none, or if Python refuses: then the reason is shown beside the control it is about.
  async ask(about, call, ...args) {
    try {
      const answer = await askWith(this.python, `classroom.desk.${call}`, args);
      if (answer.ok) return answer;
      this.wrong(answer.control || about, answer.text, answer.html);
    } catch (error) {
      this.wrong(about, notAnswered(error));
    }
    return null;
  }

  // a sentence beside a control, or none; html: the same as our own Python sets it
  wrong(about, text, html) {
    const place = this.one(`[data-about="${about === "file" ? "class-file" : about}"]`);
    if (html) place.innerHTML = html; // made by our own Python, everything typed escaped
    else place.textContent = text;
    place.hidden = !text;
    const control = this.one(`#cd-${place.dataset.about}`);
    if (control) control.setAttribute("aria-invalid", text ? "true" : "false");
    const { top, bottom } = place.getBoundingClientRect();
    if (text && (top < 120 || bottom > innerHeight)) place.scrollIntoView({ block: "center" });
  }

  // the text of a file, decoded by Python; null if it cannot be read
  async read(file, about, largest, ...call) {
    const { bytes, text } = await bytesOf(file, largest);
    if (bytes) return this.ask(about, ...call, bytes, file.name);
    this.wrong(about, `${file.name}: ${text}`);
    return null;
  }

  // ---- the class ----------------------------------------------------------

  given() {
    const words = (kind) =>
      Object.fromEntries(this.all(`[data-word][data-kind="${kind}"]`).map((s) => [s.dataset.word, s.value]));
    const kinds = this.all('input[name="kind"]');
    return {
      list: this.one("#cd-list").value,
      columns: this.list.choice,
      site: this.one("#cd-site").value.trim(),
      ...papersGiven(this),
      kinds: kinds.filter((k) => k.checked).map((k) => k.value),
      common: words(""),
      own: Object.fromEntries(kinds.map((k) => [k.value, words(k.value)])),
    };
  }

  async make() {
    for (const about of ["list", "phrase", "site", "heading", "ready", "examination", "kinds", "class-file", "list-file"]) this.wrong(about, "");
    this.one("#cd-class-said").textContent = "The codes are being made …";
    await this.list.look();
    const given = { ...this.given(), phrase: this.one("#cd-phrase").value, marks: this.summary?.marks };
    const made = await this.ask("list", "classes.make", JSON.stringify(given));
    if (made) return this.show(made, false);
    this.one("#cd-class-said").textContent = this.text
      ? "The class was not made; the one below is that of before."
      : "The class was not made: what is wrong is said above.";
    this.one("#cd-given [aria-invalid=true]")?.focus({ preventScroll: true });
  }

  async openText(text, says = "The class file is open: ") {
    this.wrong("class-file", "");
    const made = await this.ask("class-file", "classes.open_file", text);
    if (!made) return;
    if (!this.one("#cd-list").value.trim()) this.fill(made.given); // if the box is not empty, its text was typed and stays
    await this.show(made, true, says);
  }

  async show(made, saved, says = "The class is made: ") {
    this.summary = made;
    this.setText(made.text, saved, made.session);
    this.one("#cd-class-said").textContent = says + made.says;
    for (const part of this.all(".cd-part")) {
      for (const empty of part.querySelectorAll(".cd-empty")) empty.hidden = true;
      for (const body of part.querySelectorAll(":scope > .cd-body")) body.hidden = false;
    }
    this.one("#cd-attempt").replaceChildren(...made.attempts.map(([n]) => make("option", n)));
    showStudents(this, made);
    await this.marks.form();
    await this.marksFile.classChanged();
    await this.returned.classChanged();
    this.alike.count(made);
  }

  setText(text, saved, session) {
    if (text !== this.text) this.work.forget(...OF_CLASS);
    this.text = text;
    this.session = new Handle(session, () => this.openAgain(text));
    this.saved = saved;
    this.keep();
  }

  // the handle of a class that Python has lost
  async openAgain(text) {
    const answer = await askWith(this.python, "classroom.desk.classes.open_file", [text]);
    if (!answer.ok) throw new Error(answer.text);
    return answer.session;
  }

  // a file of the class, made in slices of students; null if it was stopped or cannot be made
  async file(name) {
    const style = await paperStyle();
    const session = this.session;
    // what is wrong is said in the part of the page that has the file's button
    const { about } = this.one(`[data-save="${name}"]`).closest(".cd-part").querySelector(".cd-wrong").dataset;
    this.wrong(about, "");
    const [attempt, students] = this.summary.attempts[this.one("#cd-attempt").selectedIndex];
    let got;
    const parts = await this.work.run(name, students, async (from, to) => {
      got = await this.ask(about, "classes.part", session, name, from, to, from ? "" : style, attempt, got?.written || "");
      return got && new Blob([got.text]);
    });
    return parts && fileOf(name, parts, got);
  }

  // the name under which a file is saved
  called(name) {
    const attempt = this.one("#cd-attempt").value;
    return attempt === "1" || name === "class.json" || !OF_CLASS.includes(name) ? name : `attempt-${attempt}-${name}`;
  }

  async save(name) {
    if (!(await this.work.save(name))) return;
    if (name === "class.json") this.saved = true;
    if (name === "marks.csv" || name === "marks.json") this.marks.saved = true;
  }

  async makeAgain() {
    this.wrong("again", "");
    const [attempt, rolls] = ["#cd-again-attempt", "#cd-again-rolls"].map((id) => this.one(id).value);
    const made = await this.ask("again", "classes.set_again", this.session, attempt.trim(), rolls);
    if (!made) return;
    const [, many] = made.attempts.find(([n]) => n === Number(attempt));
    const told = `Attempt ${attempt} is made for ${many} ${many === 1 ? "student" : "students"}. In the whole class: `;
    await this.show(made, false, told);
    const choice = this.one("#cd-attempt");
    choice.selectedIndex = choice.options.length - 1;
  }

  // ---- what is kept -------------------------------------------------------

  keep() {
    try {
      sessionStorage.setItem(DRAFT, JSON.stringify({ ...this.given(), pasted: this.one("#cd-pasted").value }));
    } catch {
      // a private window or a full storage: then it is kept only while the page is open
    }
    if (!this.one("#cd-keep").checked || !this.text) return;
    try {
      localStorage.setItem(KEPT, this.text);
      this.kept = true;
    } catch {
      this.kept = false;
      this.status("This browser keeps nothing on this device, or is full. Save the class file instead.", "ready");
    }
  }

  // only when the person asks: another tab may have kept its class
  forget() {
    this.kept = false;
    try {
      localStorage.removeItem(KEPT);
    } catch {
      // nothing is kept
    }
  }

  restore() {
    this.one("#cd-keep").checked = Boolean(stored(localStorage, KEPT));
    let draft = {};
    try {
      draft = JSON.parse(stored(sessionStorage, DRAFT)) || {};
    } catch {
      return;
    }
    if (draft.pasted) this.one("#cd-pasted").value = draft.pasted;
    this.fill(draft);
  }

  // the controls of a class, from what was kept or from a class file
  fill(draft) {
    if (draft.list) this.one("#cd-list").value = draft.list;
    if (draft.list) this.list.choice = draft.columns || {};
    this.list.look();
    if (draft.site) this.one("#cd-site").value = draft.site;
    if (draft.phrase) this.one("#cd-phrase").value = draft.phrase;
    fillPapers(this, draft);
    if (!draft.common || !draft.own || !Array.isArray(draft.kinds)) return;
    for (const box of this.all('input[name="kind"]')) box.checked = draft.kinds.includes(box.value);
    for (const box of this.all('input[name="kind"]')) {
      if (Object.values(draft.own[box.value] || {}).some(Boolean)) this.unfold(box.closest(".cd-kind").querySelector("details"));
    }
    for (const list of this.all("[data-word]")) {
      const words = list.dataset.kind ? draft.own[list.dataset.kind] : draft.common;
      list.value = (words && words[list.dataset.word]) || "";
      if (list.dataset.kind && list.value) list.closest("details").open = true;
    }
  }

  // the settings of one kind are put into the page when they are first opened: the lists are the same for all kinds
  unfold(part) {
    const { kind } = part.dataset;
    if (!kind || part.querySelector("[data-word]")) return;
    const own = this.one(".cd-kinds template").content.cloneNode(true);
    const whose = part.querySelector("summary .cd-hidden").textContent;
    for (const label of own.querySelectorAll("label")) {
      label.htmlFor += kind;
      label.querySelector(".cd-hidden").textContent = whose;
    }
    for (const control of own.querySelectorAll("[data-word]")) {
      control.id += kind;
      control.dataset.kind = kind;
    }
    part.append(own);
  }

  get unsaved() {
    return (this.text && !this.saved && !this.kept) || this.returned.unsaved;
  }

  // ---- listening ----------------------------------------------------------

  listen() {
    this.element.addEventListener("click", ({ target }) => {
      const button = target.closest("[data-save], [data-print]");
      if (button && button.dataset.save) this.save(button.dataset.save);
      else if (button) this.work.print(button.dataset.print);
    });
    this.element.addEventListener("toggle", ({ target }) => this.unfold(target), true);
    this.one("#cd-class-form").addEventListener("submit", (event) => {
      event.preventDefault();
      this.make();
    });
    this.one("#cd-again").addEventListener("submit", (event) => {
      event.preventDefault();
      this.makeAgain();
    });
    this.one("#cd-attempt").addEventListener("change", () => this.work.forget(...OF_CLASS));
    for (const part of ["#cd-given", "#cd-pasted"]) this.one(part).addEventListener("change", () => this.keep());
    this.one("#cd-keep").addEventListener("change", ({ target }) => target.checked || this.forget());
    this.one("#cd-list-file").addEventListener("change", ({ target }) => this.list.file(target.files));
    this.one("#cd-class-file").addEventListener("change", ({ target }) => this.classFile(target.files));
    this.one("#cd-slips").addEventListener("change", async ({ target }) => {
      await this.returned.addFiles([...target.files]);
      target.value = ""; // so that the same file can be chosen again after it was corrected
    });
    takeDrops(this, {
      "list-file": (files) => this.list.file(files),
      "class-file": (files) => this.classFile(files),
      slips: (files) => this.returned.addFiles([...files]),
    });
    addEventListener("beforeunload", (event) => {
      this.keep();
      if (this.unsaved) event.preventDefault();
    });
  }

  async classFile([file]) {
    this.wrong("class-file", "");
    const got = file && (await this.read(file, "class-file", this.element.dataset.largest, "classes.file_text"));
    if (got) await this.openText(got.text);
  }
}

function stored(place, key) {
  try {
    return place.getItem(key);
  } catch {
    return null;
  }
}

document.querySelectorAll(".cd").forEach((element) => new ClassDesk(element));
