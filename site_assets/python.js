// Asks the worker and promises its answer: ask("check", code, entries). A worker that dies or hangs is started again.
// Python first starts from the image of its memory. If that fails, it starts the plain way in a new worker, also later.
const STUCK = 15000; // ms; a check takes a few. A page with longer work gives its own limit.
const ALIVE = 15000; // ms for a start from the image after it has arrived; the start takes a few hundred

// What went wrong, to be said inside a sentence: the last line of a Python error, without the full stop it may end with.
export const short = (text) => String(text).trim().split("\n").pop().slice(0, 200).replace(/\.+$/, "");

export class Python {
  constructor({ onready, onfailed, onarrived = () => {}, stuck = STUCK, rooms = "" }) {
    document.documentElement.dataset.python = "asked for"; // tells offline.js that the scripts have arrived
    this.stuck = stuck;
    this.rooms = rooms; // "rooms" where the page asks for the class desk or the record
    this.onready = onready;
    this.onfailed = onfailed;
    this.onarrived = onarrived;
    this.asked = new Map();
    this.last = 0;
    this.from = "image"; // or "plain": how Python starts, or has started
    this.start();
  }

  start() {
    this.ready = false;
    try {
      this.worker = new Worker(new URL("worker.js", import.meta.url), { type: "module", name: `${this.from} ${this.rooms}`.trim() });
    } catch (error) {
      queueMicrotask(() => this.onfailed(String(error.message || error)));
      return;
    }
    this.worker.onmessage = ({ data }) => this.heard(data);
    this.worker.onerror = (event) => this.broken(event.message || "the worker could not be loaded");
  }

  heard(data) {
    if (data.there) {
      this.alive = setTimeout(() => this.broken("the image of its memory does not come to life"), ALIVE);
    } else if (data.arrived) {
      this.onarrived(...data.arrived);
    } else if (data.ready) {
      clearTimeout(this.alive);
      this.ready = true;
      this.onready();
    } else if (data.failed) {
      this.broken(data.failed);
    } else {
      const waiting = this.asked.get(data.id);
      if (!waiting) return;
      this.asked.delete(data.id);
      clearTimeout(waiting.timer);
      if ("error" in data) waiting.reject(new Error(data.error));
      else waiting.resolve(data.value);
      if (data.over) {
        // the runtime answers nothing more
        this.stop("the page broke down inside and is started again");
        this.start();
      }
    }
  }

  broken(reason) {
    clearTimeout(this.alive);
    if (this.ready || this.from === "plain") return this.fail(reason);
    console.warn(`The plain start is tried: ${reason}`);
    this.worker.terminate();
    this.onarrived(0, Infinity); // of a plain start nobody says how much has come
    this.from = "plain";
    this.start();
  }

  fail(reason) {
    this.stop(reason);
    this.onfailed(short(reason));
  }

  stop(reason) {
    clearTimeout(this.alive);
    if (this.worker) this.worker.terminate();
    this.ready = false;
    for (const { reject, timer } of this.asked.values()) {
      clearTimeout(timer);
      reject(new Error(reason));
    }
    this.asked.clear();
  }

  // may be called only when Python is ready: how long a start takes depends on the network
  ask(call, ...args) {
    if (!this.ready) return Promise.reject(new Error("the page is not ready yet"));
    return new Promise((resolve, reject) => {
      const id = ++this.last;
      const timer = setTimeout(() => {
        this.stop("there was no answer in time");
        this.start();
      }, this.stuck);
      this.asked.set(id, { resolve, reject, timer });
      this.worker.postMessage({ id, call, args });
    });
  }
}
