// Python, off the page's thread. Messages in: {id, call, args}; out: {id, value} or {id, error},
// and once, unasked: {ready: true} or {failed: sentence}.
import { loadPyodide } from "./python/pyodide.mjs";

const here = new URL(".", import.meta.url);

async function start() {
  const [python, code] = await Promise.all([
    loadPyodide({ indexURL: new URL("python/", here).href }),
    fetch(new URL("exercises.zip", here)).then((got) => {
      if (!got.ok) throw new Error(`exercises.zip: ${got.status}`);
      return got.arrayBuffer();
    }),
  ]);
  python.unpackArchive(code, "zip", { extractDir: "/home/pyodide" });
  return python.pyimport("exercises.student");
}

const student = start();
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
