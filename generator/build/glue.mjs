// Takes out of a script what nothing in it calls, and shortens the names inside: node glue.mjs TERSER SCRIPT
// TERSER is the folder of terser's package. The script is written over.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const [terser, script] = process.argv.slice(2).map((given) => resolve(given));
const { minify } = createRequire(import.meta.url)(terser);
// what is wrong, without where it is in terser
process.on("uncaughtException", (error) => {
  console.error(String(error.message || error));
  process.exit(1);
});
const made = await minify(readFileSync(script, "utf8"), {
  compress: { passes: 2, pure_getters: true }, // to read `wasmExports.name` changes nothing
  keep_classnames: true, // Python is told the name of an object's class
});
writeFileSync(script, made.code);
