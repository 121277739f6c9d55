// Makes scripts shorter: node terser.mjs TERSER OPTIONS SCRIPT…
// TERSER is the folder of terser's package, OPTIONS are JSON. Each script is written over.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const [terser, options, ...scripts] = process.argv.slice(2);
const { minify } = createRequire(import.meta.url)(resolve(terser));
for (const script of scripts) {
  try {
    const made = await minify(readFileSync(script, "utf8"), JSON.parse(options));
    writeFileSync(script, made.code);
  } catch (error) {
    console.error(`line ${error.line}: ${error.message}`); // without where it is in terser
    process.exit(1);
  }
}
