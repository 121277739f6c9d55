// Python, off the page's thread. Messages in: {id, call, args}; out: {id, value} or {id, error},
// and once, unasked: {ready: true} or {failed: sentence}.
// A call is the name of a function of exercises.student; one with dots, such as "classroom.desk.make", is the function
// make of exercises.classroom.desk.
import { loadPyodide } from "./python/pyodide.mjs";

const here = new URL(".", import.meta.url);
const modules = new Map(); // of exercises, by name, each imported when it is first asked for

// The runtime keeps some failures of its start to itself and then waits for ever: hear of them here.
let fail;
const failed = new Promise((_, reject) => (fail = reject));
for (const [owner, name] of [[self, "fetch"], [WebAssembly, "instantiateStreaming"], [WebAssembly, "instantiate"]]) {
  const plain = owner[name].bind(owner);
  owner[name] = async (...args) => {
    try {
      const got = await plain(...args);
      if (got.ok === false) throw new Error(`${args[0].url || args[0]}: ${got.status}`);
      return got;
    } catch (error) {
      fail(error);
      throw error;
    }
  };
}

addEventListener("unhandledrejection", (event) => {
  event.preventDefault();
  fail(event.reason);
});

async function start() {
  const [python, code] = await Promise.all([
    loadPyodide({ indexURL: new URL("python/", here).href }),
    fetch(new URL("exercises.zip", here)).then((got) => got.arrayBuffer()),
  ]);
  python.unpackArchive(code, "zip", { extractDir: "/home/pyodide" });
  modules.set("student", python.pyimport("exercises.student"));
  return python;
}

const started = Promise.race([start(), failed]);
started.then(
  () => postMessage({ ready: true }),
  (error) => postMessage({ failed: String((error && error.message) || error) }),
);

async function named(call) {
  const python = await started;
  const at = call.lastIndexOf(".");
  const room = at < 0 ? "student" : call.slice(0, at);
  if (!modules.has(room)) modules.set(room, python.pyimport(`exercises.${room}`));
  return modules.get(room)[call.slice(at + 1)];
}

onmessage = async ({ data: { id, call, args } }) => {
  try {
    const value = JSON.parse((await named(call))(...args));
    postMessage({ id, value });
  } catch (error) {
    postMessage({ id, error: String((error && error.message) || error) });
  }
};
