// A laboratory's own conventions for new numbers: what is chosen is kept on this device, and Python reads it. A sheet that
// is opened by its code leaves it as it is.
import { keep } from "./keep.js";

export class Conventions {
  // element: the details with the form; take: what "New numbers by these" does
  constructor(element, take) {
    this.element = element;
    this.form = element.querySelector("form");
    this.controls = [...element.querySelectorAll("[data-word]")];
    const kept = keep.conventions();
    for (const control of this.controls) control.value = kept[control.dataset.word] || "";
    // a choice that is not offered any more
    for (const control of this.controls) if (control.selectedIndex === -1) control.selectedIndex = 0;
    this.form.addEventListener("change", () => this.keep());
    this.form.addEventListener("reset", () => setTimeout(() => this.keep()));
    this.form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.keep();
      take();
    });
    this.show();
  }

  get words() {
    const chosen = this.controls.filter((control) => control.value.trim());
    return Object.fromEntries(chosen.map((control) => [control.dataset.word, control.value]));
  }

  keep() {
    keep.saveConventions(this.words);
    this.show();
  }

  // how many are set is seen while the form is closed
  show() {
    const many = Object.keys(this.words).length;
    this.element.querySelector(".er-conventions-set").textContent = many ? ` (${many} set)` : "";
  }

  open() {
    this.element.open = true;
  }

  // the keyboard goes to the line that is left of the form
  close() {
    this.element.open = false;
    this.element.querySelector("summary").focus();
  }
}
