// What the script of every page does: it finds its parts, says how far the start is, starts Python and asks it. No physics here.
import { Python, short } from "./python.js";

const root = new URL("../", import.meta.url); // of the site
const SOON = 2000; // ms in which a start is quick, and no progress is said
const SLOW = 20000; // ms until a slow start is said to be slow

// a link to a page of the site, by its address from the root
export function link(address, text = "Read about it.") {
  const a = document.createElement("a");
  a.href = new URL(address, root).href;
  a.textContent = text;
  return a;
}

// a text as our own Python sets it, everything typed escaped
export function marked(html) {
  return Object.assign(document.createElement("span"), { innerHTML: html });
}

// a random number as Python takes it: 32 hexadecimal digits
export function noise() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((b) => b.toString(16).padStart(2, "0")).join("");
}

// hands a file to the browser to save
export function download(blob, name) {
  const a = document.createElement("a");
  a.href = URL.createObjectURL(blob);
  a.download = name;
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(a.href), 60000);
}

// the sentence where Python did not start; so: what follows from it
export const notStarted = (so, reason) =>
  `What works out the numbers could not start in this browser, so ${so}. ` +
  `Load the page again, or use an up-to-date Firefox, Chrome, Edge or Safari. (The browser said: ${reason})`;

// the sentence where Python was asked and did not answer; then: what may be done
export const notAnswered = (error, then = "What you typed is kept; try once more.") =>
  `That did not work (${short(error.message)}). ${then}`;

// A page says what happens when Python is ready (ready()) and when it cannot start (failed(reason)).
export class Page {
  constructor(element) {
    this.element = element;
  }

  one(selector) {
    return this.element.querySelector(selector);
  }

  all(selector) {
    return [...this.element.querySelectorAll(selector)];
  }

  on(selector, event, action) {
    this.one(selector).addEventListener(event, action);
  }

  // state: "starting", "ready" or "failed"
  status(text, state) {
    const line = this.one(".er-status");
    line.textContent = text;
    if (state) line.dataset.state = state;
  }

  // a text, or what marked makes of one
  trouble(text, ...more) {
    const line = this.one(".er-trouble");
    line.hidden = !text;
    line.replaceChildren(text, ...more);
  }

  // stuck: ms after which a question counts as not answered; slow: what is said of a slow start; rooms: "rooms" where the
  // page asks for the class desk or the record
  startPython({ stuck, slow, rooms } = {}) {
    const late = slow && setTimeout(() => this.status(slow, "starting"), SLOW);
    const begun = performance.now();
    const line = this.one(".er-status");
    const first = line.textContent;
    let said = first;
    this.python = new Python({
      stuck,
      rooms,
      onarrived: (had, of) => {
        if (line.textContent !== said || performance.now() - begun < SOON) return; // something else is said meanwhile
        said = `${first} ${had} of ${of} MB are here.`;
        this.status(said, "starting");
      },
      onready: () => {
        clearTimeout(late);
        this.ready();
      },
      onfailed: (reason) => {
        clearTimeout(late);
        this.failed(reason);
      },
    });
  }

  // Python's answer; null where there is none, and then the page says why
  async ask(...call) {
    try {
      return await this.python.ask(...call);
    } catch (error) {
      this.trouble(notAnswered(error));
      return null;
    }
  }
}
