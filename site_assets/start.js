// How Python starts: from the image of its memory that the build made (a few tenths of a second), or the plain way,
// from the runtime's own files. The image is tested with a calculation whose result is known. If
// anything is wrong with the image, this throws, and the page starts another worker the plain way (python.js).
import { nothing, take } from "./taken.js";

const HOME = "/home/pyodide"; // where the plain files lie
const at = (name) => new URL(name, import.meta.url).href;
const runtime = { indexURL: at("python/") };

// What comes of the files: `arrived` is told, with the bytes that have come, of how many, and whether more is waited for.
const OFTEN = 100; // ms between two times
const had = new Map(); // file's name -> what has come of it (taken.js), of a start from the image
let kept = false; // whether that is kept, so that another start can go on
let how = {}; // for fetch
let arrived = () => {};
let come = 0; // bytes
let whole = Infinity; // bytes that are to come, where it is known
let open = 0; // files that are waited for
let told = 0; // when it was last told, in ms

function tell(now = true) {
  if (!now && performance.now() - told < OFTEN) return;
  told = performance.now();
  arrived(come, whole, open > 0);
}

// one more file is asked for: told at once, so that the page notices if it stalls before anything of it has come
function begun() {
  open += 1;
  tell();
}

// `counts` is false for a file that is not among the bytes that are to come
function coming(name, counts = true) {
  if (!had.has(name)) had.set(name, nothing(kept ? [] : null));
  begun();
  const came = (bytes) => {
    if (counts) come += bytes;
    tell(false);
  };
  return take(at(name), had.get(name), { how, came, ended: over, lost: fail });
}

function over() {
  open -= 1;
  tell();
}

// A script that does not come, or not whole, is asked for once more, past what the browser keeps.
async function load(name) {
  begun();
  try {
    return await import(name);
  } catch {
    const again = `${name}?again`;
    await take(at(again), nothing(), { how: { cache: "reload" } }).then((stream) => new Response(stream).text());
    return await import(again);
  } finally {
    over();
  }
}

// The runtime hides some failures of its start and then waits for ever. They are caught here.
let fail;
const failed = new Promise((_, reject) => (fail = reject));
failed.catch(() => {});
const instead = new Map(); // function's name and address -> what to answer for it
const WASM = { headers: { "Content-Type": "application/wasm" } }; // which a browser insists on, and not every host says

const plain = {
  fetch: async (address) => new Response(await coming(address, !kept), WASM),
  instantiateStreaming: WebAssembly.instantiateStreaming.bind(WebAssembly),
  instantiate: WebAssembly.instantiate.bind(WebAssembly),
};
for (const [owner, name] of [[self, "fetch"], [WebAssembly, "instantiateStreaming"], [WebAssembly, "instantiate"]]) {
  owner[name] = async (given, ...more) => {
    try {
      const source = await given; // the runtime may also pass a promise of an answer
      const address = String(source.url || source);
      const ours = instead.get(`${name} ${address}`);
      return await (ours ? ours(...more) : plain[name](name === "fetch" ? address : source, ...more));
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

// Starts Python and gives [Python, exercises.student.desk]. way is "image" or "plain". It may be given:
// there()    called when all has arrived: from then on the start takes a moment, or it never ends by itself
// arrived(bytes, of, more)  called meanwhile; `of` is Infinity where it is not known
// rooms      whether the page will ask for what is in rooms.zip
// anew       whether to ask past what the browser keeps
// taken      what handedOver gave of a start before this one
export function start(way, { there = () => {}, rooms = false, anew = false, taken = [], ...more } = {}) {
  if (more.arrived) arrived = more.arrived;
  if (anew) how = { cache: "reload" };
  for (const [name, file] of taken) had.set(name, file);
  kept = way === "image";
  const starting = kept ? fromImage(there, rooms) : plainly();
  return Promise.race([starting, failed]);
}

// What has come of the files that can be taken up, for another start: [name, what has come of it] each.
export const handedOver = () => [...had].filter(([, { mark, pieces }]) => mark && pieces?.length);

// what a start holds for another one is needed no more
export const forget = () => had.clear();

async function plainly() {
  const [{ loadPyodide }, code] = await Promise.all([
    load("./python/pyodide.js"),
    coming("exercises.zip").then((stream) => new Response(stream).arrayBuffer()),
    glued(coming("python/pyodide.asm.js"), "./python/pyodide.asm.js"),
  ]);
  const python = await loadPyodide(runtime);
  python.unpackArchive(code, "zip", { extractDir: HOME });
  return [python, python.pyimport("exercises.student.desk")];
}

async function fromImage(there, rooms) {
  const about = coming("image.json", false).then((stream) => new Response(stream).json());
  about.then((known) => {
    whole = known.arriving;
    tell();
  }, () => {});
  const unpacker = Promise.all([load("./unpacker.js"), coming("unpacker.bin")]).then(async ([unpacker, stream]) => {
    const code = new Response(stream.pipeThrough(new DecompressionStream("gzip")));
    await unpacker.default({ module_or_path: await code.arrayBuffer() });
    return unpacker;
  });
  // each is unpacked while the rest arrives
  const unpacked = (name) =>
    Promise.all([coming(name), unpacker]).then(([stream, unpacker]) => stream.pipeThrough(unpacking(unpacker)));
  const image = unpacked("image.bin");
  // compiled while the rest arrives; the runtime alone would begin only after that
  const compiled = unpacked("runtime.bin").then((stream) => WebAssembly.compileStreaming(new Response(stream, WASM)));
  const address = at("python/pyodide.asm.wasm");
  instead.set(`fetch ${address}`, () => ({ url: address }));
  instead.set(`instantiateStreaming ${address}`, async (imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  });
  // the image holds the needed part of the standard library
  instead.set(`fetch ${at("python/python_stdlib.zip")}`, () => new Response(""));
  const lock = coming("python/pyodide-lock.json", false); // the runtime alone would ask for it last
  instead.set(`fetch ${at("python/pyodide-lock.json")}`, async () => new Response(await lock));
  const snapshot = memory(about, image);
  const glue = glued(unpacked("glue.bin"), "./glue.js"); // loaded now; the runtime alone would load it last
  const more = rooms ? coming("rooms.zip", false).then((stream) => new Response(stream).arrayBuffer()) : null;
  const loader = load("./python/pyodide.js");
  const parts = [about, snapshot, compiled, glue, more, loader, lock];
  for (const part of [image, ...parts]) part?.catch(fail); // nothing awaits them yet
  Promise.all(parts).then(there, () => {});
  await glue;
  const python = await (await loader).loadPyodide({ ...runtime, _loadSnapshot: snapshot });
  python._api.config._loadSnapshot = null; // it would keep 25 MB that are already in Python's memory
  instead.clear();
  let come = await more;
  const { known, tables } = await about;
  python.pyimport("image_inside").watch((ofRooms, place) => {
    if (!ofRooms) return library(python, place, tables);
    python.FS.writeFile(place, come ? new Uint8Array(come) : fetchedNow("rooms.zip"));
    come = null;
  });
  python.pyimport("random").seed(); // without this, every start from the image would draw the same numbers
  const student = python.pyimport("exercises.student.desk");
  const [call, args, answer] = known;
  if (student[call](...args) !== answer) throw new Error("the image of its memory gives a wrong answer");
  return [python, student];
}

// The script that ties the runtime to the browser. A host whose policy forbids scripts out of memory sends it from `place`.
async function glued(stream, place) {
  const script = await new Response(await stream).blob();
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  try {
    await import(address);
  } catch {
    await load(place);
  } finally {
    URL.revokeObjectURL(address);
  }
}

// A stream that unpacks brotli.
function unpacking({ DecompressStream, BrotliStreamResultCode: { ResultSuccess, NeedsMoreOutput } }) {
  const AT_ONCE = 1 << 18; // bytes
  const decoder = new DecompressStream();
  let code;
  return new TransformStream({
    transform(piece, stream) {
      for (let rest = piece; ; ) {
        const step = decoder.decompress(rest, AT_ONCE);
        code = step.code;
        rest = rest.subarray(step.input_offset);
        const bytes = step.buf;
        if (bytes.length) stream.enqueue(bytes);
        if (code !== NeedsMoreOutput) break;
      }
    },
    flush() {
      if (code !== ResultSuccess) throw new Error("a file that the start needs ends too early");
    },
  });
}

async function memory(about, image) {
  const { size, runs } = await about;
  return put(await image, size, runs);
}

// Puts the image's stream into `size` bytes: each run [place, length] at its place, and zeros elsewhere.
async function put(stream, size, runs) {
  const bytes = new Uint8Array(size);
  const reader = stream.getReader();
  let run = 0;
  let had = 0; // bytes of that run
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    for (let from = 0; from < value.length; ) {
      if (run === runs.length) throw new Error("the image of its memory has more bytes than it should");
      const [place, length] = runs[run];
      const piece = value.subarray(from, from + length - had);
      bytes.set(piece, place + had);
      from += piece.length;
      had += piece.length;
      if (had === length) [run, had] = [run + 1, 0];
    }
  }
  if (run < runs.length) throw new Error("the image of its memory has fewer bytes than it should");
  return bytes;
}

// Python imports something that is not in the image: it waits while the standard library is fetched. Of a codec it may
// need the tables [address, bytes], which have zeros in their places.
function library(python, place, tables) {
  const content = fetchedNow("tables.bin");
  let from = 0; // in the content
  for (const [address, bytes] of tables) {
    if (from + bytes > content.length) throw new Error("the tables of codecs end too early");
    python._module.HEAPU8.set(content.subarray(from, from + bytes), address);
    from += bytes;
  }
  python.FS.writeFile(place, fetchedNow("python/python_stdlib.zip"));
}

function fetchedNow(name) {
  const request = new XMLHttpRequest();
  request.open("GET", at(name), false); // synchronous: Python cannot be paused and continued
  request.responseType = "arraybuffer";
  request.send();
  if (request.status !== 200) throw new Error(`${name}: ${request.status}`);
  return new Uint8Array(request.response);
}
