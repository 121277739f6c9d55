// Makes the memory image: node image.mjs LOADER RUNTIME CODE INSIDE OUT
// LOADER is the runtime's first script, RUNTIME the folder of all else of it, CODE the zip of compiled code, INSIDE the
// Python file that prepares the memory.
// Written to the folder OUT: the memory, and about.json with what stands in it that is needed no more (memory.py).
// Two runs give the same bytes: chance and the clock stand still here.
import chance from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [loader, runtime, code, inside, out] = process.argv.slice(2).map((given) => resolve(given));
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

const { loadPyodide } = await import(pathToFileURL(loader));
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
const spare = JSON.parse(python.runPython("import image_inside; image_inside.prepare()"));
const tracked = python.runPython("image_inside.tidy()");
writeFileSync(join(out, "memory"), python.makeMemorySnapshot());
writeFileSync(join(out, "about.json"), JSON.stringify({ ...spare, tracked }));
