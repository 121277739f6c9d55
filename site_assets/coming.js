// How far the start is: a bar with the megabytes that have come, and a sentence where the network stalls.
const SOON = 2000; // ms in which a start is quick, and nothing is said of it
const STALLED = 15000; // ms without anything from the network

const mega = (bytes) => (bytes / 1e6).toFixed(1);

export class Coming {
  // page: its status is where this is said; slow(): the start is not a quick one; tried(): Try again is pressed
  constructor(page, slow, tried) {
    Object.assign(this, { page, slow, tried });
    this.begun = performance.now();
    this.bar = Object.assign(document.createElement("progress"), { className: "er-coming" });
    this.bar.setAttribute("aria-label", "What has come");
    this.begins();
    this.wait();
  }

  // what the page waits for is said now
  begins() {
    this.said = this.page.told;
  }

  wait() {
    clearTimeout(this.stall);
    this.stall = setTimeout(() => this.stalled(), STALLED);
  }

  // bytes; of is Infinity where it is not known; more: whether anything is waited for
  came(had, of, more) {
    this.wait();
    const known = of < Infinity;
    if (!more) clearTimeout(this.stall);
    if (performance.now() - this.begun < SOON) return;
    if (!this.shown) {
      if (!more) return; // all has come: it takes a moment
      this.shown = true;
      this.page.extras.push(this.bar);
      this.slow();
    }
    if (known) {
      this.bar.value = Math.min(had / of, 1);
      this.bar.setAttribute("aria-valuetext", `${mega(had)} of ${mega(of)} MB`);
    } else {
      this.bar.removeAttribute("value");
      this.bar.removeAttribute("aria-valuetext");
    }
    const { first, lead } = this.page;
    this.say(known && lead ? `${lead} ${Math.floor(had / 1e6)} of ${mega(of)} MB are here.` : first);
  }

  say(text) {
    if (this.page.told !== this.said) return; // something else is said meanwhile
    this.said = text;
    if (text !== this.page.told || !this.bar.isConnected) this.page.status(text, "starting");
  }

  stalled() {
    this.page.status("Nothing has come for 15 s. Look at the network.", "starting", this.tried());
    this.said = this.page.told; // what comes next is said again
  }

  // the start is over
  over() {
    clearTimeout(this.stall);
    this.page.extras = [];
  }
}
