// How Python starts: from the image of its memory that the build made (a few tenths of a second), or the plain way,
// from the runtime's own files. The image is tested with a calculation whose result is known. If
// anything is wrong with the image, this throws, and the page starts another worker the plain way (python.js).
const HOME = "/home/pyodide"; // where the plain files lie
const at = (name) => new URL(name, import.meta.url).href;
const runtime = { indexURL: at("python/") };

// The runtime hides some failures of its start and then waits for ever. They are caught here.
let fail;
const failed = new Promise((_, reject) => (fail = reject));
failed.catch(() => {});
const instead = new Map(); // function's name and address -> what to answer for it

for (const [owner, name] of [[self, "fetch"], [WebAssembly, "instantiateStreaming"], [WebAssembly, "instantiate"]]) {
  const plain = owner[name].bind(owner);
  owner[name] = async (given, ...more) => {
    try {
      const source = await given; // the runtime may also pass a promise of an answer
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

// Starts Python and gives [Python, exercises.student.desk]. way is "image" or "plain". `there` is called when the whole
// image has arrived: from then on the start takes a moment, or it never ends by itself. `arrived` is called with the
// bytes that have come, every tenth of a megabyte, and how many there are.
// `rooms` says whether the page will ask for what is in rooms.zip.
export function start(way, there = () => {}, arrived = () => {}, rooms = false) {
  return Promise.race([way === "image" ? fromImage(there, arrived, rooms) : plainly(), failed]);
}

async function plainly() {
  const [python, code] = await Promise.all([
    loadPyodide(),
    fetch(at("exercises.zip")).then((got) => got.arrayBuffer()),
  ]);
  python.unpackArchive(code, "zip", { extractDir: HOME });
  return [python, python.pyimport("exercises.student.desk")];
}

async function fromImage(there, arrived, rooms) {
  const about = fetch(at("image.json")).then((got) => got.json());
  const counted = counter(about, arrived);
  const coming = (name) => fetch(at(name)).then((got) => got.body.pipeThrough(counted()));
  const unpacker = Promise.all([import("./unpacker.js"), coming("unpacker.bin")]).then(async ([unpacker, stream]) => {
    const code = new Response(stream.pipeThrough(new DecompressionStream("gzip")));
    await unpacker.default({ module_or_path: await code.arrayBuffer() });
    return unpacker;
  });
  // each is unpacked while the rest arrives
  const unpacked = (name) =>
    Promise.all([coming(name), unpacker]).then(([stream, unpacker]) => stream.pipeThrough(unpacking(unpacker)));
  const image = unpacked("image.bin");
  // compiled while the rest arrives; the runtime alone would begin only after that
  const headers = { "Content-Type": "application/wasm" };
  const compiled = unpacked("runtime.bin").then((stream) => WebAssembly.compileStreaming(new Response(stream, { headers })));
  const address = at("python/pyodide.asm.wasm");
  instead.set(`fetch ${address}`, () => ({ url: address }));
  instead.set(`instantiateStreaming ${address}`, async (imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  });
  // the image holds the needed part of the standard library
  instead.set(`fetch ${at("python/python_stdlib.zip")}`, () => new Response(""));
  const snapshot = memory(about, image);
  Promise.all([snapshot, compiled]).then(there, () => {});
  const glue = glued(unpacked("glue.bin")); // loaded now; the runtime alone would load it last
  const more = rooms && fetch(at("rooms.zip")).then((got) => got.arrayBuffer());
  for (const part of [about, image, compiled, snapshot, glue, more]) part && part.catch(fail); // nothing awaits them yet
  await glue;
  const python = await loadPyodide({ _loadSnapshot: snapshot });
  python._api.config._loadSnapshot = null; // it would keep 25 MB that are already in Python's memory
  instead.clear();
  let come = await more;
  python.pyimport("image_inside").watch((ofRooms, place) => {
    if (!ofRooms) return files(python, place);
    python.FS.writeFile(place, come ? new Uint8Array(come) : fetchedNow("rooms.zip"));
    come = null;
  });
  python.pyimport("random").seed(); // without this, every start from the image would draw the same numbers
  const student = python.pyimport("exercises.student.desk");
  const [call, args, answer] = (await about).known;
  if (student[call](...args) !== answer) throw new Error("the image of its memory gives a wrong answer");
  return [python, student];
}

// The script that ties the runtime to the browser. A host whose policy forbids scripts out of memory sends it as it is.
async function glued(stream) {
  const script = await new Response(await stream).blob();
  const address = URL.createObjectURL(new Blob([script], { type: "text/javascript" }));
  try {
    await import(address);
  } catch {
    await import("./python/pyodide.asm.js");
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

// streams that count together what passes through them
function counter(about, arrived) {
  const steps = (bytes) => Math.floor(bytes / 1e5);
  let had = 0;
  let whole = Infinity; // bytes
  about.then((known) => (whole = known.arriving), () => {});
  return () =>
    new TransformStream({
      transform(piece, stream) {
        const before = steps(had);
        had += piece.length;
        if ((steps(had) > before || had >= whole) && whole < Infinity) arrived(had, whole);
        stream.enqueue(piece);
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

// Python imports something that is not in the image: it waits while the plain files are fetched.
function files(python, library) {
  python.FS.writeFile(library, fetchedNow("python/python_stdlib.zip"));
  python.unpackArchive(fetchedNow("exercises.zip"), "zip", { extractDir: HOME });
}

function fetchedNow(name) {
  const request = new XMLHttpRequest();
  request.open("GET", at(name), false); // synchronous: Python cannot be paused and continued
  request.responseType = "arraybuffer";
  request.send();
  if (request.status !== 200) throw new Error(`${name}: ${request.status}`);
  return new Uint8Array(request.response);
}
