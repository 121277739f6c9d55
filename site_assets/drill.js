// The examiner asks: one question after another from Python; what was answered is kept on this device.
import { keep } from "./keep.js";
import { Page, link, noise, notAnswered } from "./page.js";
import { inSight } from "./typing.js";

const LOST = ["wrong", "ask", "unread"]; // states of an entry of which nothing is left to say beside the model answer

class Examiner extends Page {
  constructor(element) {
    super(element);
    this.one(".er-run").inert = false;
    this.startPython();
    this.on(".er-answer-it", "click", () => this.check());
    this.on(".er-model", "click", () => this.finish(false));
    this.on(".er-had", "click", () => this.end(true));
    this.on(".er-had-not", "click", () => this.end(false));
    this.on(".er-next", "click", () => this.next(true));
    this.on(".er-forget", "click", () => {
      if (confirm("Begin a new page? What was asked on this device is forgotten.")) {
        keep.saveDrill(null);
        this.next(true);
      }
    });
    this.one(".er-question").addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("input, select")) return;
      event.preventDefault();
      this.check();
    });
  }

  ready() {
    this.next(false);
  }

  failed(reason) {
    this.status(`No questions can be drawn. Those below are all there is until you press Try again. (The browser said: ${reason})`, "failed");
  }

  // Python's answer; null where there is none, and then the status says why
  async ask(...call) {
    try {
      return await this.python.ask(...call);
    } catch (error) {
      this.status(notAnswered(error, "Try once more."), "failed");
      return null;
    }
  }

  // shows these buttons and no others
  offer(...selectors) {
    for (const button of this.all(".er-examiner .er-tools button")) {
      button.hidden = !selectors.some((s) => button.matches(s));
    }
  }

  get field() {
    return this.one(".er-question :is(input, select)");
  }

  get kept() {
    return JSON.stringify(keep.drill());
  }

  // what the notebook has on its page
  note({ state, page }) {
    keep.saveDrill(state);
    this.one(".er-score").textContent = state.turn;
    this.one(".er-notebook ol").innerHTML = page; // made by our own Python
  }

  // asked: the student asked for it, so the question is brought into sight and its field gets the keyboard
  async next(asked) {
    const got = await this.ask("drill", this.kept, noise());
    if (!got) return;
    this.note(got);
    this.question = got.question;
    this.missed = false;
    this.one(".er-question").innerHTML = got.question.html; // made by our own Python
    this.one(".er-answer").textContent = "";
    const viva = got.question.viva;
    this.status(viva ? "Say your answer aloud, then look at the model answer." : "Work it out and press Enter.", "ready");
    this.offer(...(viva ? [".er-model"] : [".er-answer-it", ".er-model"]));
    if (!asked) return;
    (this.field || this.one(".er-model")).focus({ preventScroll: true });
    this.one(".er-run").scrollIntoView({ block: "start" });
  }

  async check() {
    if (!this.field?.value || this.field.disabled) return;
    const { code, step } = this.question;
    const verdict = await this.ask("drill_check", code, step, this.field.value);
    if (!verdict) return;
    const entry = this.one(".er-question .er-entry");
    const said = entry.querySelector(".er-said");
    entry.dataset.state = verdict.state;
    said.innerHTML = verdict.html; // made by our own Python, all that was typed escaped
    if (verdict.read) said.append(" ", link(verdict.read));
    inSight(said);
    if (verdict.state === "right") await this.finish(!this.missed);
    else if (verdict.state === "slip" || verdict.state === "wrong") this.missed = true;
  }

  // shows the model answer; after a question answered aloud, the student says how it went
  async finish(well) {
    this.done = await this.ask("drill_done", this.kept, JSON.stringify(this.question), well);
    if (!this.done) return;
    const place = this.one(".er-answer");
    place.innerHTML = this.done.html; // made by our own Python
    if (this.done.read) place.append(" ", link(this.done.read));
    inSight(place);
    if (this.question.viva) {
      this.status("Was that your answer?");
      this.offer(".er-had", ".er-had-not");
      this.one(".er-had").focus({ preventScroll: true });
      return;
    }
    const entry = this.one(".er-question .er-entry");
    if (LOST.includes(entry.dataset.state)) entry.querySelector(".er-said").textContent = "";
    this.field.disabled = true;
    this.written(well);
  }

  async end(well) {
    this.done = await this.ask("drill_done", this.kept, JSON.stringify(this.question), well);
    if (this.done) this.written(well);
  }

  // the answer is in the notebook, and the next question can be asked for
  written(well) {
    this.note(this.done);
    this.status(well ? "Good." : "That is asked once more, after two others.");
    this.offer(".er-next");
    this.one(".er-next").focus({ preventScroll: true });
  }
}

document.querySelectorAll(".er-drill").forEach((element) => new Examiner(element));
