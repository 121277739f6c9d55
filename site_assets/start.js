// How Python starts: from the image of its memory that the build made (a few tenths of a second), or the plain way,
// from the runtime's own files. The image is tried on a known sum; whatever is amiss with it is an error here, and the
// page then starts another worker the plain way (python.js).
const HOME = "/home/pyodide"; // where the plain files lie
const at = (name) => new URL(name, import.meta.url).href;
const runtime = { indexURL: at("python/") };

// The runtime keeps some failures of its start to itself and then waits for ever: hear of them here.
let fail;
const failed = new Promise((_, reject) => (fail = reject));
failed.catch(() => {});
const instead = new Map(); // function's name and address -> what to answer for it

for (const [owner, name] of [[self, "fetch"], [WebAssembly, "instantiateStreaming"], [WebAssembly, "instantiate"]]) {
  const plain = owner[name].bind(owner);
  owner[name] = async (given, ...more) => {
    try {
      const source = await given; // the runtime gives the promise of an answer, too
      const address = String(source.url || source);
      const ours = instead.get(`${name} ${address}`);
      const got = await (ours ? ours(...more) : plain(source, ...more));
      if (got.ok === false) throw new Error(`${address}: ${got.status}`);
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

const loadPyodide = async (how) => (await import("./python/pyodide.js")).loadPyodide({ ...runtime, ...how });

// Python and exercises.student.desk; way is "image" or "plain". `there` is called when all of the image has come: from then on
// it takes a moment, or it comes to life never, and what runs here may then not come to an end by itself.
export function start(way, there = () => {}) {
  return Promise.race([way === "image" ? fromImage(there) : plainly(), failed]);
}

async function plainly() {
  const [python, code] = await Promise.all([
    loadPyodide(),
    fetch(at("exercises.zip")).then((got) => got.arrayBuffer()),
  ]);
  python.unpackArchive(code, "zip", { extractDir: HOME });
  return [python, python.pyimport("exercises.student.desk")];
}

async function fromImage(there) {
  const unpacked = (name) => fetch(at(name)).then((got) => got.body.pipeThrough(new DecompressionStream("gzip")));
  const about = fetch(at("image.json")).then((got) => got.json());
  const image = unpacked("image.bin");
  // compiled while the rest arrives; the runtime itself would begin when all is there
  const headers = { "Content-Type": "application/wasm" };
  const compiled = unpacked("runtime.bin").then((stream) => WebAssembly.compileStreaming(new Response(stream, { headers })));
  const address = at("python/pyodide.asm.wasm");
  instead.set(`fetch ${address}`, () => ({ url: address }));
  instead.set(`instantiateStreaming ${address}`, async (imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  });
  // what is needed of the standard library is in the image
  instead.set(`fetch ${at("python/python_stdlib.zip")}`, () => new Response(""));
  const snapshot = memory(about, image);
  Promise.all([snapshot, compiled]).then(there, () => {});
  const glue = import("./python/pyodide.asm.js"); // the runtime would begin with it when all else is there
  for (const part of [about, image, compiled, snapshot, glue]) part.catch(fail); // nobody looks at them yet
  const python = await loadPyodide({ _loadSnapshot: snapshot });
  python._api.config._loadSnapshot = null; // it would hold on to 25 MB that are in Python's memory now
  instead.clear();
  python.pyimport("image_inside").watch((library) => files(python, library));
  python.pyimport("random").seed(); // every start from one image would draw the same
  const student = python.pyimport("exercises.student.desk");
  const [call, args, answer] = (await about).known;
  if (student[call](...args) !== answer) throw new Error("the image of Python's memory gives a wrong answer");
  return [python, student];
}

async function memory(about, image) {
  const { size, runs } = await about;
  return put(await image, size, runs);
}

// What the image's stream brings, each run [place, length] of it in its place among `size` bytes; the others are zeros.
async function put(stream, size, runs) {
  const bytes = new Uint8Array(size);
  const reader = stream.getReader();
  let run = 0;
  let had = 0; // of that run
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    for (let from = 0; from < value.length; ) {
      if (run === runs.length) throw new Error("the image of Python's memory has more bytes than it should");
      const [place, length] = runs[run];
      const piece = value.subarray(from, from + length - had);
      bytes.set(piece, place + had);
      from += piece.length;
      had += piece.length;
      if (had === length) [run, had] = [run + 1, 0];
    }
  }
  if (run < runs.length) throw new Error("the image of Python's memory has fewer bytes than it should");
  return bytes;
}

// Something is imported that is not in the image: Python waits while its plain files are fetched.
function files(python, library) {
  python.FS.writeFile(library, fetchedNow("python/python_stdlib.zip"));
  python.unpackArchive(fetchedNow("exercises.zip"), "zip", { extractDir: HOME });
}

function fetchedNow(name) {
  const request = new XMLHttpRequest();
  request.open("GET", at(name), false); // at once: Python cannot be left and come back to
  request.responseType = "arraybuffer";
  request.send();
  if (request.status !== 200) throw new Error(`${name}: ${request.status}`);
  return new Uint8Array(request.response);
}
