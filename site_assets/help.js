// What a sheet offers to those who are stuck: a hint for each step, one under another, and the full working.
import { link } from "./page.js";
import { inSight } from "./typing.js";

export class Help {
  constructor(desk) {
    this.desk = desk;
    this.hints = new Map(); // step -> [how many of its hints were shown, how many are left]
    desk.holder.addEventListener("click", ({ target }) => {
      if (target.matches(".er-hint")) this.hint(target.closest(".er-entry"));
    });
    desk.one(".er-solution").addEventListener("click", () => this.solution());
    this.begin();
  }

  // another sheet is there
  begin() {
    this.hints.clear();
    this.asked = false;
    this.solved.textContent = "";
    this.desk.one(".er-solution").textContent = "Show the full working";
    // a screen reader hears a hint only if its place was in the page before
    for (const entry of this.desk.all(".er-entry")) {
      const place = Object.assign(document.createElement("div"), { className: "er-hint-place" });
      place.setAttribute("role", "status");
      entry.append(place);
    }
  }

  get solved() {
    return this.desk.one(".er-solved");
  }

  get ready() {
    return this.desk.code && this.desk.python.ready;
  }

  async hint(entry) {
    const name = entry.dataset.step;
    const [count, left] = this.hints.get(name) || [0, 1];
    const place = entry.querySelector(".er-hint-place");
    if (!left) {
      inSight(place);
      return;
    }
    if (!this.ready) {
      this.desk.say(entry, "waiting", "Hints come when your numbers are here.");
      return;
    }
    const hint = await this.desk.ask("hint", this.desk.code, name, count);
    if (!hint) return;
    this.hints.set(name, [count + 1, hint.left]);
    const line = document.createElement("div");
    line.className = "er-hinted";
    place.append(line);
    line.innerHTML = `Hint: ${hint.html}`; // made by our own Python
    if (!hint.left) line.append(" ", link(hint.read));
    inSight(line);
  }

  // the working can be folded away again, and comes back without a question
  async solution() {
    const shown = this.solved.querySelector("details");
    if (!this.ready) {
      this.solved.textContent = "The working comes when your numbers are here.";
    } else if (shown) {
      shown.open = true;
    } else if (!this.asked && !this.desk.done) {
      this.asked = true;
      this.solved.textContent = "This shows every answer on the sheet. Try a hint first; press again if you still want it.";
      this.desk.one(".er-solution").textContent = "Show it all the same";
    } else {
      const made = await this.desk.ask("solution", this.desk.code);
      if (made) this.unfold(made.html);
    }
    this.solved.focus();
  }

  unfold(html) {
    const folded = Object.assign(document.createElement("details"), { open: true });
    const title = Object.assign(document.createElement("summary"), { textContent: "The full working" });
    const inside = document.createElement("div");
    inside.innerHTML = html; // made by our own Python
    folded.append(title, inside);
    this.solved.replaceChildren(folded);
    this.desk.one(".er-solution").textContent = "Show the full working";
  }
}
