// The revision drill: one card after another from Python; what was done is kept on this device.
import { keep } from "./keep.js";
import { Page, link, noise } from "./page.js";

class Drill extends Page {
  constructor(element) {
    super(element);
    this.one(".er-run").inert = false;
    this.startPython();
    this.on(".er-check-card", "click", () => this.check());
    this.on(".er-model", "click", () => this.finish(false));
    this.on(".er-had", "click", () => this.judgeSelf(true));
    this.on(".er-had-not", "click", () => this.judgeSelf(false));
    this.on(".er-next", "click", () => this.next(true));
    this.on(".er-forget", "click", () => {
      if (confirm("Forget what was drilled on this device?")) {
        keep.saveDrill(null);
        this.next(true);
      }
    });
    this.one(".er-card").addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !event.target.matches("input, select")) return;
      event.preventDefault();
      this.check();
    });
  }

  ready() {
    this.next(false);
  }

  failed(reason) {
    this.status(`Python could not start here, so the questions below are all there is. (The browser said: ${reason})`);
  }

  // shows these buttons and no others
  offer(...selectors) {
    for (const button of this.all(".er-run .er-tools button")) {
      button.hidden = !selectors.some((s) => button.matches(s)) && !button.matches(".er-forget");
    }
  }

  get kept() {
    return JSON.stringify(keep.drill());
  }

  // asked: the student asked for it, so the question is scrolled into view and its field gets the keyboard
  async next(asked) {
    const { state, card } = await this.python.ask("drill", this.kept, noise());
    keep.saveDrill(state);
    this.card = card;
    this.missed = false;
    this.one(".er-card").innerHTML = card.html; // made by our own Python
    this.one(".er-answer").textContent = "";
    this.progress(state);
    if (card.viva) {
      this.status("Say your answer aloud, then look at the model answer.");
      this.offer(".er-model");
    } else {
      this.status("Work it out and press Enter.");
      this.offer(".er-check-card", ".er-model");
      if (asked) this.one(".er-card").querySelector("input, select").focus({ preventScroll: true });
    }
    if (asked) this.one(".er-status").scrollIntoView({ block: "center" });
  }

  progress(state) {
    const cards = Object.values(state.cards);
    const known = cards.filter((c) => c.box > 0).length;
    this.one(".er-score").textContent = `${state.turn} answered so far; ${known} of ${cards.length} cards seen are known.`;
  }

  async check() {
    const field = this.one(".er-card").querySelector("input, select");
    if (!field.value) return;
    const verdict = await this.python.ask("drill_check", this.card.code, this.card.step, field.value);
    const entry = this.one(".er-card .er-entry");
    const said = entry.querySelector(".er-said");
    entry.dataset.state = verdict.state;
    said.innerHTML = verdict.html; // made by our own Python, all that was typed escaped
    if (verdict.read) said.append(" ", link(verdict.read));
    if (verdict.state === "right") await this.finish(!this.missed);
    else if (verdict.state === "slip" || verdict.state === "wrong") this.missed = true;
  }

  // shows the model answer; after a question answered aloud, the student says how it went
  async finish(well) {
    const done = await this.python.ask("drill_done", this.kept, JSON.stringify(this.card), well);
    const place = this.one(".er-answer");
    place.innerHTML = done.html; // made by our own Python
    if (done.read) place.append(" ", link(done.read));
    if (this.card.viva) {
      this.status("Was that your answer?");
      this.offer(".er-had", ".er-had-not");
      return;
    }
    this.end(done.state, well);
  }

  async judgeSelf(well) {
    const done = await this.python.ask("drill_done", this.kept, JSON.stringify(this.card), well);
    this.end(done.state, well);
  }

  end(state, well) {
    keep.saveDrill(state);
    this.progress(state);
    this.status(well ? "Good. It comes back later." : "It comes back soon.");
    this.offer(".er-next");
    this.one(".er-next").focus();
  }
}

document.querySelectorAll(".er-drill").forEach((element) => new Drill(element));
