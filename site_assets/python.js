// Asks the worker and promises its answer: ask("check", code, entries). A worker that dies or hangs is started again.
// Python first starts from the image of its memory. If that fails, it starts the plain way in a new worker, also later.
// What came of the image before the network failed goes to the worker that starts from it next.
import { keep } from "./keep.js";

const STUCK = 15000; // ms; a check takes a few. A page with longer work gives its own limit.
const ALIVE = 15000; // ms for a start from the image after it has arrived; the start takes a few hundred
const GIVES = 500; // ms for a worker to give what has come
const SCRIPTS = ["worker.js", "start.js", "taken.js"]; // of the worker
const here = (name) => new URL(name, import.meta.url);

// What went wrong, to be said inside a sentence: the last line of a Python error, without the full stop it may end with.
export const short = (text) => String(text).trim().split("\n").pop().slice(0, 200).replace(/\.+$/, "");

export class Python {
  constructor({ onready, onfailed, onarrived = () => {}, stuck = STUCK, rooms = "", taken = [] }) {
    document.documentElement.dataset.python = "asked for"; // tells offline.js that the scripts have arrived
    this.stuck = stuck;
    this.rooms = rooms; // "rooms" where the page asks for the class desk or the record
    this.onready = onready;
    this.onfailed = onfailed;
    this.onarrived = onarrived;
    this.taken = taken; // what has come of the image in a start that ended
    this.asked = new Map();
    this.last = 0;
    this.from = "image"; // or "plain": how Python starts, or has started
    this.start();
  }

  start() {
    this.ready = this.spoke = false;
    try {
      this.worker = new Worker(here("worker.js"), { type: "module" });
    } catch (error) {
      queueMicrotask(() => this.onfailed(String(error.message || error)));
      return;
    }
    this.worker.onmessage = ({ data }) => this.heard(data);
    this.worker.onerror = (event) => this.died(event.message || "the worker could not be loaded");
    const taken = this.from === "image" ? this.taken : [];
    const begin = { way: this.from, rooms: Boolean(this.rooms), anew: keep.imageFailed() === 1, taken };
    this.worker.postMessage({ begin });
  }

  heard(data) {
    this.spoke = true;
    if (this.from === "image") this.taken = []; // the worker has it
    if (data.there) {
      this.alive = setTimeout(() => this.broken("the image of its memory does not come to life"), ALIVE);
    } else if (data.arrived) {
      this.onarrived(...data.arrived);
    } else if (data.ready) {
      clearTimeout(this.alive);
      this.ready = true;
      this.taken = [];
      if (this.from === "image") keep.saveImageFailed(0);
      this.onready();
    } else if (data.failed) {
      this.broken(data.failed, data.taken);
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

  // A worker that never spoke: its scripts did not come, or not whole. They are fetched once past the browser's cache.
  async died(reason) {
    const { worker } = this;
    if (this.spoke) return this.broken(reason);
    if (this.fetched) return this.fail(reason);
    this.fetched = true;
    await Promise.allSettled(SCRIPTS.map((name) => fetch(here(name), { cache: "reload" }).then((got) => got.text())));
    if (this.worker === worker) this.start();
  }

  // taken: what has come, where the network failed and not the image
  broken(reason, taken) {
    clearTimeout(this.alive);
    if (this.ready || this.from === "plain") return this.fail(reason);
    console.warn(`The plain start is tried: ${reason}`);
    if (taken) this.taken = taken;
    else keep.saveImageFailed(Math.min(keep.imageFailed() + 1, 2));
    this.worker.terminate();
    this.onarrived(0, Infinity, true); // of a plain start nobody says how much is to come
    this.from = "plain";
    this.start();
  }

  // Ends a start, and promises what has come of the image, for the next one.
  leave(reason) {
    const { worker } = this;
    if (!worker || this.from === "plain" || !this.spoke) {
      this.stop(reason);
      return Promise.resolve(this.taken);
    }
    clearTimeout(this.alive);
    return new Promise((done) => {
      const end = (taken) => {
        clearTimeout(limit);
        this.stop(reason);
        done(taken);
      };
      const limit = setTimeout(end, GIVES, []);
      worker.onmessage = ({ data }) => data.taken && end(data.taken);
      worker.postMessage({ give: true });
    });
  }

  fail(reason) {
    this.stop(reason);
    this.onfailed(short(reason));
  }

  stop(reason) {
    clearTimeout(this.alive);
    this.worker?.terminate();
    this.worker = null;
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
