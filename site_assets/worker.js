// Python, off the page's thread. Messages in: {id, call, args}; out: {id, value} or {id, error},
// and once, unasked: {ready: true} or {failed: sentence}.
import { loadPyodide } from "./python/pyodide.mjs";

const here = new URL(".", import.meta.url);

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
  return python.pyimport("exercises.student");
}

const student = Promise.race([start(), failed]);
student.then(
  () => postMessage({ ready: true }),
  (error) => postMessage({ failed: String((error && error.message) || error) }),
);

onmessage = async ({ data: { id, call, args } }) => {
  try {
    const value = JSON.parse((await student)[call](...args));
    postMessage({ id, value });
  } catch (error) {
    postMessage({ id, error: String((error && error.message) || error) });
  }
};
