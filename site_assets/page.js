// What the script of every page does: it finds its parts, says how far the start is, starts Python and asks it. No physics here.
import { Coming } from "./coming.js";
import { Python, short } from "./python.js";

const root = new URL("../", import.meta.url); // of the site

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
  `What works out the numbers could not start, so ${so}. Look at the network, and press Try again. If that does not help, ` +
  `load the page again, or use an up-to-date Firefox, Chrome, Edge or Safari. (The browser said: ${reason})`;

// the sentence where Python was asked and did not answer; then: what may be done
export const notAnswered = (error, then = "What you typed is kept; try once more.") =>
  `That did not work (${short(error.message)}). ${then}`;

// A page says what happens when Python is ready (ready()) and when it cannot start (failed(reason)).
export class Page {
  constructor(element) {
    this.element = element;
    this.lead = this.one(".er-status").dataset.lead; // what stands before how much has come; with "" that is not said
    this.extras = []; // what stands in the status line beside its text while Python starts
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

  // what the status line says
  get told() {
    return this.one(".er-status").firstChild?.textContent || "";
  }

  // state: "starting", "ready" or "failed"; more: elements beside the text
  status(text, state, ...more) {
    const line = this.one(".er-status");
    if (state) line.dataset.state = state;
    const all = [text, ...(line.dataset.state === "starting" ? this.extras : []), ...more];
    // what is said already would be said again by a screen reader
    if (all.length > 1 || line.childNodes.length > 1 || this.told !== text) line.replaceChildren(...all);
  }

  // what is said until Python is there; lead: what of it stays before how much has come, for which a phone has little room
  waits(text, lead = text) {
    this.status(text, "starting");
    Object.assign(this, { first: text, lead });
    this.coming?.begins();
  }

  // a text, or what marked makes of one
  trouble(text, ...more) {
    const line = this.one(".er-trouble");
    line.hidden = !text;
    line.replaceChildren(text, ...more);
  }

  // stuck: ms after which a question counts as not answered; rooms: "rooms" where the page asks for the class desk or the
  // record; taken: what came in a start before this one
  startPython(options = {}, taken = []) {
    const { stuck, rooms } = (this.options = options);
    this.first = this.told;
    const coming = (this.coming = new Coming(this, () => this.meanwhile(), () => this.tryAgain()));
    this.over = () => coming.over();
    this.python = new Python({
      stuck,
      rooms,
      taken,
      onarrived: (...bytes) => coming.came(...bytes),
      onready: () => {
        this.over();
        this.ready();
      },
      onfailed: (reason) => {
        this.over();
        this.failed(reason);
        this.offerAgain(this.tryAgain());
      },
    });
  }

  // a page says here what can be done while a slow start goes on
  meanwhile() {}

  // the button that starts Python anew; it is pressed by itself when the network comes back
  tryAgain() {
    const button = Object.assign(document.createElement("button"), { type: "button", className: "er-again", textContent: "Try again" });
    button.onclick = async () => {
      button.remove();
      this.over();
      if (this.one(".er-trouble")) this.trouble("");
      this.status(this.first, "starting");
      this.startPython(this.options, await this.python.leave("the start is tried again"));
    };
    addEventListener("online", () => button.isConnected && button.click(), { once: true });
    return button;
  }

  offerAgain(button) {
    this.one(".er-status").append(" ", button);
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
