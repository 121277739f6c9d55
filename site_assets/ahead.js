// On pages that are read before the exercise: when the page is idle, what Python starts from is fetched, so that it is on the
// device when an exercise is opened. The browser's own cache keeps it, or the kept site has it already.
const IDLE = 2000; // ms after everything of the page is loaded; its own figures and fonts come first
const SCRIPTS = ["worker.js", "start.js", "taken.js", "unpacker.js", "python/pyodide.js"];
const FILES = [...SCRIPTS, "image.json", "unpacker.bin", "image.bin", "runtime.bin", "glue.bin"];
const DONE = "eight-readings:ahead"; // in this tab: fetched once a visit

async function fetchAhead() {
  if (navigator.connection?.saveData || navigator.serviceWorker?.controller) return;
  try {
    if (sessionStorage.getItem(DONE)) return;
  } catch {
    // nothing is kept here: the browser's cache knows what it has
  }
  try {
    for (const name of FILES) {
      const got = await fetch(new URL(name, import.meta.url), { priority: "low" });
      if (!got.ok) throw new Error(`${name}: ${got.status}`);
      await got.body.pipeTo(new WritableStream()); // nothing of it is held in memory
    }
    sessionStorage.setItem(DONE, "1"); // only now: a page that is left meanwhile breaks off, and the next one goes on
  } catch {
    // the next page tries again
  }
}

const idle = window.requestIdleCallback || ((then) => setTimeout(then, 0));
const begin = () => setTimeout(() => idle(fetchAhead, { timeout: IDLE }), IDLE);
if (document.readyState === "complete") begin();
else addEventListener("load", begin, { once: true });
