// Sheets whose slips cannot all be told apart: counted a few at a time while nothing else is made, then said. Python counts.
const SLICE = 8; // students at a time
const PAUSE = 300; // ms until it is looked again whether something else is being made

export class Alike {
  constructor(desk) {
    this.desk = desk;
    this.turn = 0;
  }

  // of a class that was made or opened; a later one ends the count of the one before
  async count({ alike, students }) {
    const turn = ++this.turn;
    const line = this.desk.one("#cd-alike");
    line.textContent = "";
    let found = {};
    for (let at = 0; alike && at < students; at += SLICE) {
      while (this.desk.work.busy) await new Promise((done) => setTimeout(done, PAUSE));
      if (turn !== this.turn) return;
      const counted = await this.desk.ask("kinds", "classes.alike_in", this.desk.session, at, at + SLICE, JSON.stringify(found));
      if (!counted || turn !== this.turn) return;
      found = counted.found;
      if (at + SLICE >= students) line.textContent = counted.says;
    }
  }
}
