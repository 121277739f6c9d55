// Makes the memory image: node image.mjs RUNTIME CODE INSIDE OUT
// RUNTIME is the runtime's folder, CODE the zip of compiled code, INSIDE the Python file that prepares the memory.
// Written to the folder OUT: image, and about.json with what is needed to unpack it.
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

// The runtime's own data, three megabytes, stands in the image nearly as it is in the WebAssembly file, which the
// browser has anyhow: there the image holds the difference only.
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

function data() {
  const DATA = 11;
  for (let at = 8; at < wasm.length; ) {
    const [size, start] = number(at + 1);
    if (wasm[at] !== DATA) {
      at = start + size;
      continue;
    }
    const [count, segment] = number(start);
    const active = wasm[segment] === 0 && wasm[segment + 1] === 0x23; // begins at a global, the memory's base
    const [, end] = number(segment + 2);
    if (count !== 1 || !active || wasm[end] !== 0x0b) break;
    const [length, from] = number(end + 1);
    return { from, length };
  }
  return { from: 0, length: 0 }; // of another shape: nothing is taken to repeat
}

const { from, length } = data();
const header = new Uint32Array(image.buffer, image.byteOffset, 2)[1];
let place = header, most = -1;
for (let tried = header; tried < header + 65536; tried += 16) {
  let same = 0;
  for (let i = 0; i < Math.min(length, 4096); i++) same += image[tried + i] === wasm[from + i];
  if (same > most) [place, most] = [tried, same];
}
for (let i = 0; i < length; i++) image[place + i] -= wasm[from + i];

writeFileSync(join(out, "image"), image);
const about = { size: image.length, runtime: wasm.length, repeats: { place, from, length } };
writeFileSync(join(out, "about.json"), JSON.stringify(about));
