// Makes the memory image: node image.mjs RUNTIME CODE INSIDE OUT
// RUNTIME is the runtime's folder, CODE the zip of compiled code, INSIDE the Python file that prepares the memory.
// Written to the folder OUT: image and runtime, and about.json with what is needed to put them together.
// Two runs give the same bytes: chance and the clock stand still here.
import chance from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [runtime, code, inside, out] = process.argv.slice(2).map((given) => resolve(given));
const HOME = "/home/pyodide";

// what went wrong, without the line of the runtime where it did: that line is a megabyte
for (const event of ["uncaughtException", "unhandledRejection"]) {
  process.on(event, (error) => {
    console.error(String(error.message || error));
    process.exit(1);
  });
}

chance.randomFillSync = (view) => view.fill(0);
syncBuiltinESMExports();
Date.now = () => 1767225600000;
performance.now = () => 0;
// nor is anything of this machine to be seen
process.env.TZ = "UTC";
process.argv.splice(1);
Object.defineProperty(globalThis, "navigator", { value: { language: "en", languages: ["en"], userAgent: "", platform: "" } });

const { loadPyodide } = await import(pathToFileURL(join(runtime, "pyodide.mjs")));
const python = await loadPyodide({
  _makeSnapshot: true,
  _sysExecutable: "python", // and not where node is on this machine
  indexURL: runtime,
  packageBaseUrl: "/",
  lockFileContents: { ...JSON.parse(readFileSync(join(runtime, "pyodide-lock.json"))), packages: {} },
  env: { HOME, PYTHONHASHSEED: "0" },
  args: ["-OO"], // no docstrings
});
const zip = readFileSync(code);
python.unpackArchive(zip.buffer.slice(zip.byteOffset, zip.byteOffset + zip.length), "zip", { extractDir: HOME });
python.FS.writeFile(`${HOME}/image_inside.py`, readFileSync(inside));
python.runPython("import image_inside; image_inside.prepare()");
const image = python.makeMemorySnapshot();

// The runtime's WebAssembly ends with what its memory begins as, three megabytes that stand in the image too: it is
// sent without them.
const wasm = readFileSync(join(runtime, "pyodide.asm.wasm"));

function number(at) {
  let value = 0, shift = 0, byte;
  do {
    byte = wasm[at++];
    value |= (byte & 127) << shift;
    shift += 7;
  } while (byte & 128);
  return [value, at];
}

function withoutData() {
  const DATA = 11;
  for (let at = 8; at < wasm.length; ) {
    const [size, start] = number(at + 1);
    const end = start + size;
    if (wasm[at] !== DATA) {
      at = end;
      continue;
    }
    const [count, segment] = number(start);
    const active = wasm[segment] === 0 && wasm[segment + 1] === 0x23; // begins at a global, the memory's base
    const [, stop] = number(segment + 2);
    if (count !== 1 || !active || wasm[stop] !== 0x0b) break;
    const kept = wasm.subarray(segment, stop + 1);
    const emptied = [DATA, kept.length + 2, 1, ...kept, 0]; // one segment, of no bytes
    return Buffer.concat([wasm.subarray(0, at), Buffer.from(emptied), wasm.subarray(end)]);
  }
  return wasm; // of another shape: sent as it is
}

writeFileSync(join(out, "runtime"), withoutData());

// The larger half of the image is zeros: left out, whole pages of them.
const PAGE = 4096;
const zeros = new Uint8Array(PAGE);
const runs = []; // [place, length] of what is not left out
for (let at = 0; at < image.length; at += PAGE) {
  const page = image.subarray(at, at + PAGE);
  if (Buffer.compare(page, zeros.subarray(0, page.length)) === 0) continue;
  const last = runs.at(-1);
  if (last && last[0] + last[1] === at) last[1] += page.length;
  else runs.push([at, page.length]);
}

writeFileSync(join(out, "image"), Buffer.concat(runs.map(([at, size]) => image.subarray(at, at + size))));
const about = { size: image.length, runs };
writeFileSync(join(out, "about.json"), JSON.stringify(about));
