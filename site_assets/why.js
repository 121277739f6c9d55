// The page "Why eight readings": gives the sliders' values to Python and shows its answer. No physics here.
import { Page, notAnswered, notStarted } from "./page.js";

const QUIET = 400; // ms without a move before the sentence changes, so that a screen reader hears it once

class Why extends Page {
  constructor(element) {
    super(element);
    this.form = this.one(".er-sliders");
    this.sliders = [...this.form.querySelectorAll("input")];
    this.busy = false;
    this.moved = false;
    this.form.inert = false;
    this.form.addEventListener("input", () => this.change());
    this.form.addEventListener("submit", (event) => event.preventDefault());
    // the browser may restore the sliders of an earlier visit; a reset sets them after its event
    this.form.addEventListener("reset", () => setTimeout(() => this.change()));
    this.one("[data-set=none]").addEventListener("click", () => {
      for (const slider of this.sliders) slider.value = 0;
      this.change();
    });
    this.status("Your tables are being worked out. The sliders can be moved already.", "starting");
    this.startPython();
    this.label();
  }

  ready() {
    this.status("The tables follow the sliders.", "ready");
    this.follow();
  }

  failed(reason) {
    this.status(notStarted("the tables stay as they are", reason), "failed");
  }

  label() {
    for (const slider of this.sliders) {
      const unit = slider.dataset.unit;
      const text = Number(slider.value).toFixed(1).replace("-", "−") + (unit === "°" ? "" : " ") + unit;
      slider.setAttribute("aria-valuetext", text);
      slider.parentElement.querySelector("output").textContent = text;
    }
  }

  change() {
    this.label();
    this.follow();
  }

  // One question at a time. If a slider moves meanwhile, the question is asked again, so the last setting always wins.
  async follow() {
    if (!this.python.ready) return;
    this.moved = true;
    if (this.busy) return;
    this.busy = true;
    try {
      while (this.moved) {
        this.moved = false;
        this.show(await this.python.ask("why", JSON.stringify(Object.fromEntries(new FormData(this.form)))));
      }
    } catch (error) {
      this.status(notAnswered(error, "Move a slider to try again."), "failed");
    }
    this.busy = false;
  }

  show(answer) {
    this.one(".er-why-tables").innerHTML = answer.html; // made by our own Python from numbers
    clearTimeout(this.quiet);
    this.quiet = setTimeout(() => {
      const says = this.one(".er-why-says");
      if (says.textContent !== answer.says) says.textContent = answer.says;
    }, QUIET);
  }
}

document.querySelectorAll(".er-why").forEach((element) => new Why(element));
