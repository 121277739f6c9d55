// The worker as a set of promises: ask("check", code, entries). One that dies or hangs is started again.
// Python is first started from the image of its memory; if that fails, the plain way in a new worker, from then on.
const STUCK = 15000; // ms; a check takes a few (a page with longer work says how long)
const ALIVE = 15000; // ms for a start from the image once all of it is there; it takes a few hundred

// of what Python says, the end is what went wrong
export const short = (text) => String(text).trim().split("\n").pop().slice(0, 200);

export class Python {
  constructor({ onready, onfailed, stuck = STUCK }) {
    document.documentElement.dataset.python = "asked for"; // offline.js says so where no script has come this far
    this.stuck = stuck;
    this.onready = onready;
    this.onfailed = onfailed;
    this.asked = new Map();
    this.last = 0;
    this.from = "image"; // or "plain": how Python starts, or has started
    this.start();
  }

  start() {
    this.ready = false;
    try {
      this.worker = new Worker(new URL("worker.js", import.meta.url), { type: "module", name: this.from });
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
      if (/fatally failed/.test(data.error)) {
        // the runtime says so of itself, and then answers nothing more
        this.stop("Python broke down and is started again");
        this.start();
      }
    }
  }

  broken(reason) {
    clearTimeout(this.alive);
    if (this.ready || this.from === "plain") return this.fail(reason);
    console.warn(`Python starts the plain way: ${reason}`);
    this.worker.terminate();
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

  // only to be asked once it is ready: a start takes as long as the network does
  ask(call, ...args) {
    if (!this.ready) return Promise.reject(new Error("Python is not ready yet"));
    return new Promise((resolve, reject) => {
      const id = ++this.last;
      const timer = setTimeout(() => {
        this.stop("Python did not answer");
        this.start();
      }, this.stuck);
      this.asked.set(id, { resolve, reject, timer });
      this.worker.postMessage({ id, call, args });
    });
  }
}
