// Returned work on the class desk: files, pasted text and answers typed in from paper go to Python, which finds the slips.
import { Handle, askWith } from "./class_handle.js";
import { bytesOf, make } from "./class_work.js";

const SHOWN = 200; // lines at most in each list
const TOLD = 10; // files that cannot be used, beside the control
const DRAFT = "eight-readings:class-paper"; // for this tab: what was typed in from paper

const unread = (name, text) => ({ source: name, who: "", code: "", text, slip: null });

export class Returned {
  // changed: is called when the work has changed
  constructor(desk, changed) {
    this.desk = desk;
    this.changed = changed;
    this.sources = []; // {name, slips, problems}, as Python found them
    this.choices = {}; // which of several slips counts: the key of a sheet -> the check of a slip
    this.work = null; // the handle by which Python has all of it, set against the class
    this.typed = new Map(); // a sheet's code -> what was changed in its form and not added yet
    this.pasted = 0;
    this.listen();
  }

  get unsaved() {
    return (this.sources.length > 0 || this.desk.marksFile.byHand !== "") && !this.desk.marks.saved;
  }

  // all that came in, as the text that Python takes
  get text() {
    this.written ??= JSON.stringify({
      slips: this.sources.flatMap((s) => s.slips),
      problems: this.sources.flatMap((s) => s.problems),
      choices: this.choices,
    });
    return this.written;
  }

  one(selector) {
    return this.desk.one(selector);
  }

  says(text) {
    this.one("#cd-returned-said").textContent = text;
  }

  // ---- what comes in ------------------------------------------------------

  async addFiles(files) {
    const { desk } = this;
    desk.wrong("slips", "");
    const refused = [];
    files.sort((a, b) => a.name.localeCompare(b.name, "en", { numeric: true })); // as the command reads them
    const read = await desk.work.run("Reading what came in", files.length, async (from, to) => {
      const found = [];
      for (const file of files.slice(from, to)) {
        const { bytes, text } = await bytesOf(file, desk.element.dataset.largestReturned);
        const got = bytes && (await desk.ask("slips", "returned.return_slips_of_file", desk.session, bytes, file.name));
        // a file that cannot be read is listed, with the reason, among the work that cannot be marked
        const why = text || this.one('[data-about="slips"]').textContent;
        const { slips, problems, told } = got || { slips: [], problems: [unread(file.name, why)], told: `${file.name}: ${why}` };
        found.push({ name: file.name, slips, problems });
        if (!slips.length && problems.length) refused.push(told);
      }
      return found;
    });
    const more = refused.length > TOLD ? ` And ${refused.length - TOLD} more; they are listed below.` : "";
    if (refused.length) desk.wrong("slips", refused.slice(0, TOLD).join(" ") + more);
    if (read) await this.add(read.flat());
  }

  async addPasted() {
    this.desk.wrong("pasted", "");
    const box = this.one("#cd-pasted");
    const name = `Pasted text ${this.pasted + 1}`;
    const got = await this.desk.ask("pasted", "returned.return_slips_of_text", this.desk.session, name, box.value);
    if (!got) return;
    if (!got.slips.length) {
      // the text stays in the box, so that it can be corrected there
      this.desk.wrong("pasted", got.problems.map((p) => p.text).join(" "));
      return;
    }
    this.pasted += 1;
    box.value = "";
    await this.add([{ name, slips: got.slips, problems: got.problems }]);
  }

  async add(sources) {
    const names = new Set(this.sources.map((s) => s.name));
    for (const source of sources) {
      for (let n = 2, plain = source.name; names.has(source.name); n++) source.name = `${plain} (${n})`;
      this.sources.push(source);
      names.add(source.name);
    }
    const many = sources.reduce((sum, s) => sum + s.slips.length, 0);
    await this.look(`${many} ${many === 1 ? "slip" : "slips"} came in.`);
  }

  async remove(name) {
    this.sources = this.sources.filter((s) => s.name !== name);
    await this.look(`${name} was taken out.`);
    this.one("#cd-slips").focus();
  }

  async classChanged() {
    this.written = null;
    const kinds = this.desk.summary.kinds.map((k) => make("option", k.title, { value: k.slug }));
    this.one("#cd-paper-kind").replaceChildren(...kinds);
    this.one("#cd-paper-form").replaceChildren();
    const got = await this.desk.ask("who", "classes.students", this.desk.session);
    if (got) this.one("#cd-students-list").replaceChildren(...got.students.map(([roll, name]) => make("option", name, { value: roll })));
    await this.look("");
  }

  // compares what has come in with the class
  async look(said) {
    this.written = null;
    this.taken = null;
    this.work = null;
    this.changed();
    this.says(said);
    const place = this.one("#cd-intake");
    const { marksFile } = this.desk;
    if (!this.sources.length && !marksFile.slips) return place.replaceChildren();
    const got = await this.desk.ask("slips", "returned.take_in", this.desk.session, this.text, ...marksFile.given);
    if (!got) return place.replaceChildren();
    if (got.gained) this.says(`${said} ${got.gained}`);
    this.taken = got;
    this.workIs(got.work);
    place.innerHTML = got.html; // made by our own Python, all that was typed escaped
    place.append(this.list());
  }

  // the instructor says which of several slips counts; "" leaves it to the scheme
  async choose(key, check) {
    this.choices[key] = check;
    await this.look(check ? `Slip ${check} counts.` : "Which slip counts is left to the scheme.");
    const chosen = this.one(`#cd-intake [name="${CSS.escape(`counts:${key}`)}"]:checked`);
    if (!chosen) return;
    chosen.closest("details").open = true;
    chosen.focus();
  }

  // the handle of this work and this class; "" where no work came in
  workIs(id) {
    const { python, session, marksFile } = this.desk;
    const text = this.text;
    const again = async () => {
      const answer = await askWith(python, "classroom.desk.returned.take_in", [session, text, ...marksFile.given]);
      if (!answer.ok) throw new Error(answer.text);
      return answer.work;
    };
    this.work = id ? new Handle(id, again) : null;
  }

  // every source, with a way to take it out
  list() {
    const details = make("details");
    details.append(make("summary", `What came in, by where from (${this.sources.length})`));
    const list = make("ul", "", { className: "cd-sources" });
    for (const { name, slips, problems } of this.sources.slice(-SHOWN)) {
      const unused = problems.length ? `, ${problems.length} not used` : "";
      const line = make("li", `${name}: ${slips.length} ${slips.length === 1 ? "slip" : "slips"}${unused} `);
      const button = make("button", "Take out", { type: "button", ariaLabel: `Take out ${name}` });
      button.addEventListener("click", () => this.remove(name));
      line.append(button);
      list.append(line);
    }
    if (this.sources.length > SHOWN) list.append(make("li", `and ${this.sources.length - SHOWN} more, from before`));
    details.append(list);
    return details;
  }

  // ---- work that came on paper --------------------------------------------

  async openPaper() {
    const { desk } = this;
    desk.wrong("who", "");
    const [who, kind] = ["#cd-who", "#cd-paper-kind"].map((selector) => this.one(selector).value);
    const got = await desk.ask("who", "returned.paper", desk.session, who, kind, this.work || "");
    if (!got) return;
    const form = this.one("#cd-paper-form");
    form.innerHTML = got.html; // made by our own Python, names escaped
    this.open = got;
    for (const [name, text] of Object.entries(this.typed.get(got.code) || {})) {
      const field = form.elements.namedItem(name);
      if (field) field.value = text;
    }
    form.querySelector("input, select")?.focus();
  }

  // what stands otherwise in the form than it came
  entries() {
    const all = [...new FormData(this.one("#cd-paper-form"))];
    return Object.fromEntries(all.filter(([name, text]) => text.trim() !== (this.open.now[name] || "").trim()));
  }

  keepTyped() {
    if (!this.open) return;
    this.typed.set(this.open.code, this.entries());
    this.storeTyped();
  }

  storeTyped() {
    try {
      sessionStorage.setItem(DRAFT, JSON.stringify([...this.typed]));
    } catch {
      // kept while the page is open
    }
  }

  async addPaper() {
    const { desk, open } = this;
    const got = await desk.ask("who", "returned.from_paper", desk.session, open.roll, open.kind, JSON.stringify(this.entries()));
    if (!got) return;
    this.typed.delete(open.code);
    this.storeTyped();
    await this.add([{ name: got.name, slips: got.slips, problems: got.problems }]);
    this.says(`${got.name} was added. Choose the next student.`);
    this.one("#cd-paper-form").replaceChildren();
    this.open = null;
    this.one("#cd-who").value = "";
    this.one("#cd-who").focus();
  }

  listen() {
    try {
      this.typed = new Map(JSON.parse(sessionStorage.getItem(DRAFT)) || []);
    } catch {
      this.typed = new Map();
    }
    const on = (selector, event, action) =>
      this.one(selector).addEventListener(event, (happened) => {
        if (event === "submit") happened.preventDefault();
        action();
      });
    this.one("#cd-intake").addEventListener("change", ({ target }) => {
      if (target.name?.startsWith("counts:")) this.choose(target.name.slice(7), target.value);
    });
    on("#cd-add-pasted", "click", () => this.addPasted());
    on("#cd-paper-choice", "submit", () => this.openPaper());
    on("#cd-paper-form", "submit", () => this.addPaper());
    on("#cd-paper-form", "input", () => this.keepTyped());
  }
}
