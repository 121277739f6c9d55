// The class desk: gives Python what is typed about a class, and saves the files that Python makes. It makes no code and no mark.
import { Alike } from "./class_alike.js";
import { Handle, askWith } from "./class_handle.js";
import { Marks } from "./class_marks.js";
import { Returned } from "./class_returned.js";
import { Work, make } from "./class_work.js";
import { Page, notAnswered, notStarted } from "./page.js";
import { short } from "./python.js";

const STUCK = 120000; // ms; the codes of the largest class take a while
const KEPT = "eight-readings:class"; // on this device, only if the person asks for it: the text of the class file
const DRAFT = "eight-readings:class-draft"; // for this tab: what is typed, without the phrase
const OF_CLASS = ["codes.csv", "sheets.html", "slips.html", "class.json", "key.csv", "key.html", "working.html"];

class ClassDesk extends Page {
  constructor(element) {
    super(element);
    this.text = null; // the class, as the text of its file
    this.session = null; // the handle by which Python has it open
    this.saved = true;
    this.work = new Work(this, element);
    for (const name of OF_CLASS) this.work.files.set(name, () => this.file(name));
    this.marks = new Marks(this);
    this.alike = new Alike(this);
    this.returned = new Returned(this, () => this.marks.outdated());
    this.one("#cd-site").value = new URL("../", import.meta.url).href;
    this.restore();
    this.listen();
    this.startPython({ stuck: STUCK, rooms: "rooms" });
  }

  status(text, state) {
    this.says = text;
    super.status(text, state);
  }

  // ---- Python -------------------------------------------------------------

  async ready() {
    this.status("The class desk is ready.", "ready");
    for (const part of this.all(".cd-part")) part.disabled = false;
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
    if (file.size > largest) {
      const [many, most] = [file.size, Number(largest)].map((n) => n.toLocaleString("en"));
      this.wrong(about, `${file.name} has ${many} bytes; at most ${most} are read.`);
      return null;
    }
    let bytes;
    try {
      bytes = new Uint8Array(await file.arrayBuffer());
    } catch (error) {
      this.wrong(about, `${file.name} could not be read: ${short(error.message)}. Choose it again.`);
      return null;
    }
    return this.ask(about, ...call, bytes, file.name);
  }

  // ---- the class ----------------------------------------------------------

  given() {
    const words = (kind) =>
      Object.fromEntries(this.all(`[data-word][data-kind="${kind}"]`).map((s) => [s.dataset.word, s.value]));
    const kinds = this.all('input[name="kind"]');
    return {
      list: this.one("#cd-list").value,
      site: this.one("#cd-site").value.trim(),
      kinds: kinds.filter((k) => k.checked).map((k) => k.value),
      common: words(""),
      own: Object.fromEntries(kinds.map((k) => [k.value, words(k.value)])),
    };
  }

  async make() {
    for (const about of ["list", "phrase", "site", "kinds", "class-file", "list-file"]) this.wrong(about, "");
    this.one("#cd-class-said").textContent = "The codes are being made …";
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
    this.one("#cd-class-said").textContent = [says + made.says, ...(made.notes || [])].join(" ");
    for (const part of this.all(".cd-part")) {
      for (const empty of part.querySelectorAll(".cd-empty")) empty.hidden = true;
      for (const body of part.querySelectorAll(":scope > .cd-body")) body.hidden = false;
    }
    this.preview(made);
    await this.marks.form();
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

  preview(made) {
    const table = this.one("#cd-preview");
    const head = make("tr");
    for (const title of ["Roll", "Name", ...made.kinds.map((k) => k.title)]) head.append(make("th", title, { scope: "col" }));
    const rows = made.rows.map(([roll, name, codes]) => {
      const row = make("tr");
      row.append(make("th", roll, { scope: "row" }), make("td", name));
      for (const code of codes) row.append(make("td", code, { className: "cd-code" }));
      return row;
    });
    const records = made.records.map(([kinds, where]) => {
      const line = make("li", `For students’ own records, with the settings of ${kinds}: `);
      line.append(make("code", where));
      return line;
    });
    this.one("#cd-records").replaceChildren(...records);
    const rest = made.more ? ` and ${made.more.toLocaleString("en")} more` : "";
    table.replaceChildren(make("caption", `The first students${rest}. ${made.settings}`), make("thead"), make("tbody"));
    table.querySelector("thead").append(head);
    table.querySelector("tbody").append(...rows);
  }

  // a file of the class, made in slices of students; null if it was stopped or cannot be made
  async file(name) {
    const style = await (await fetch(new URL("notebook.css", import.meta.url))).text();
    const session = this.session;
    // what is wrong is said in the part of the page that has the file's button
    const { about } = this.one(`[data-save="${name}"]`).closest(".cd-part").querySelector(".cd-wrong").dataset;
    this.wrong(about, "");
    const parts = await this.work.run(name, this.summary.students, async (from, to) => {
      const got = await this.ask(about, "classes.part", session, name, from, to, from ? "" : style);
      return got && new Blob([got.text]);
    });
    return parts && new Blob(parts, { type: { html: "text/html", csv: "text/csv", json: "application/json" }[name.split(".").pop()] });
  }

  async save(name) {
    if (!(await this.work.save(name))) return;
    if (name === "class.json") this.saved = true;
    if (name === "marks.csv") this.marks.saved = true;
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
    if (draft.site) this.one("#cd-site").value = draft.site;
    if (draft.phrase) this.one("#cd-phrase").value = draft.phrase;
    if (!draft.common || !draft.own || !Array.isArray(draft.kinds)) return;
    for (const box of this.all('input[name="kind"]')) box.checked = draft.kinds.includes(box.value);
    for (const box of this.all('input[name="kind"]')) {
      if (Object.values(draft.own[box.value] || {}).some(Boolean)) this.unfold(box.closest(".cd-kind"));
    }
    for (const list of this.all("[data-word]")) {
      const words = list.dataset.kind ? draft.own[list.dataset.kind] : draft.common;
      list.value = (words && words[list.dataset.word]) || "";
      if (list.dataset.kind && list.value) list.closest("details").open = true;
    }
  }

  // the settings of one kind are put into the page when they are first opened
  unfold(part) {
    const folded = part.querySelector("template");
    if (folded) folded.replaceWith(folded.content);
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
    for (const part of ["#cd-given", "#cd-pasted"]) this.one(part).addEventListener("change", () => this.keep());
    this.one("#cd-keep").addEventListener("change", ({ target }) => target.checked || this.forget());
    this.one("#cd-list-file").addEventListener("change", ({ target }) => this.listFile(target.files));
    this.one("#cd-class-file").addEventListener("change", ({ target }) => this.classFile(target.files));
    this.one("#cd-slips").addEventListener("change", async ({ target }) => {
      await this.returned.addFiles([...target.files]);
      target.value = ""; // so that the same file can be chosen again after it was corrected
    });
    const taken = {
      "list-file": (files) => this.listFile(files),
      "class-file": (files) => this.classFile(files),
      slips: (files) => this.returned.addFiles([...files]),
    };
    for (const place of this.all("[data-drop]")) {
      const over = (event) => {
        if (!event.dataTransfer.types.includes("Files")) return;
        event.preventDefault();
        place.classList.toggle("cd-over", event.type === "dragover");
        if (event.type === "drop" && !place.closest(".cd-part").disabled) taken[place.dataset.drop](event.dataTransfer.files);
      };
      for (const name of ["dragover", "dragleave", "drop"]) place.addEventListener(name, over);
    }
    // a file dropped beside its place must not replace the page
    for (const name of ["dragover", "drop"]) {
      addEventListener(name, (event) => event.dataTransfer?.types.includes("Files") && event.preventDefault());
    }
    addEventListener("beforeunload", (event) => {
      this.keep();
      if (this.unsaved) event.preventDefault();
    });
  }

  async listFile([file]) {
    this.wrong("list-file", "");
    const box = this.one("#cd-list");
    const got = file && (await this.read(file, "list-file", this.element.dataset.largest, "classes.file_text"));
    if (!got) return;
    const ask = `Put the list of ${file.name} in the place of what is in the box?`;
    if (box.value.trim() && box.value !== this.fromFile && !confirm(ask)) return;
    box.value = got.text;
    this.fromFile = box.value;
    this.wrong("list", "");
    this.one("#cd-class-said").textContent = `${file.name} is in the box below it. Look it over, then make the class.`;
    this.keep();
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
