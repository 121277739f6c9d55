// The main job in Firefox, over WebDriver BiDi: a sheet is opened by its code, worked and handed in; a class is made and
// the slip marked in it; a record is checked.  Reads one JSON object (see test_firefox.py) and prints what it saw, one
// JSON line each.  Nothing is judged here.
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";

const given = JSON.parse(readFileSync(0, "utf8"));
const puppeteer = createRequire(join(given.modules, "from-here.js"))("puppeteer-core");
const START = { timeout: 60000 }; // Python's

const saw = (name, found) => console.log(JSON.stringify({ saw: name, ...found }));

const firefox = await puppeteer.launch({
  browser: "firefox",
  executablePath: given.firefox,
  headless: true,
  protocol: "webDriverBiDi",
  defaultViewport: { width: 1000, height: 900 },
  extraPrefsFirefox: {
    "browser.download.folderList": 2,
    "browser.download.dir": given.downloads,
    "browser.download.alwaysOpenPanel": false, // it takes the focus, and a field that never had it has no change event
  },
});

// one tab for all, since headless Firefox keeps its focus in the first
const page = await firefox.newPage();
page.setDefaultTimeout(20000);
const errors = [];
page.on("pageerror", (error) => errors.push(String(error.message || error).slice(0, 300)));
page.on("dialog", (dialog) => dialog.accept());

const text = (selector) => page.$eval(selector, (e) => e.innerText);
const value = (selector) => page.$eval(selector, (e) => e.value);
const says = (selector, part) =>
  page.waitForFunction((s, p) => document.querySelector(s)?.textContent.includes(p), {}, selector, part);
const ready = () => page.waitForSelector('.er-status[data-state="ready"]', START);

// in the place of what stands there, as a person does it
async function type(selector, typed) {
  await page.click(selector, { count: 3 });
  await page.keyboard.press("Delete");
  await page.type(selector, typed);
}

// at once, as it is pasted
const put = (selector, typed) =>
  page.$eval(
    selector,
    (e, t) => {
      e.value = t;
      for (const event of ["input", "change"]) e.dispatchEvent(new Event(event, { bubbles: true }));
    },
    typed,
  );

const verdicts = () =>
  page.$$eval(".er-entry[data-step]", (all) => Object.fromEntries(all.map((e) => [e.dataset.step, e.dataset.state || ""])));

// a file that the page saves, as Firefox wrote it
async function saved(selector, name) {
  await page.click(selector);
  for (let left = 200; left > 0; left--) {
    const there = await readdir(given.downloads);
    if (there.includes(name) && !there.some((n) => n.endsWith(".part"))) {
      const found = await readFile(join(given.downloads, name), "utf8");
      if (found) return found;
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error(`${name} was not saved`);
}

async function work() {
  await page.goto(given.base + "exercises/tan-a/");
  await page.waitForSelector(".er-holder:not(.er-waiting) .er-sheet", START);
  await type("#er-code", given.code);
  await page.keyboard.press("Enter");
  await page.waitForSelector(`.er-sheet[data-code="${given.code}"]`);

  const { step, typed } = given.slip;
  await type(`#er-${step}`, typed);
  await page.keyboard.press("Tab");
  await page.waitForSelector(`.er-entry[data-step="${step}"][data-state="slip"]`);
  const said = `.er-entry[data-step="${step}"] .er-said`;
  saw("slip", { text: await text(said), read: await page.$eval(`${said} a`, (e) => e.href) });

  await page.click('.er-entry[data-step="tan-1"] .er-hint');
  await page.waitForSelector('.er-entry[data-step="tan-1"] .er-hinted');
  saw("hint", { text: await text('.er-entry[data-step="tan-1"] .er-hinted') });
  await type(`#er-${step}`, "");

  await page.focus(`#er-${Object.keys(given.answers)[0]}`);
  for (const answer of Object.values(given.answers)) {
    await page.keyboard.type(answer);
    await page.keyboard.press("Enter");
  }
  await says(".er-score", "All ");
  saw("worked", { states: await verdicts(), score: await text(".er-score") });

  await page.reload();
  await page.waitForSelector(`.er-holder:not(.er-waiting) .er-sheet[data-code="${given.code}"]`, START);
  await says(".er-score", "All ");
  const entries = await page.$$eval(".er-entry input, .er-entry select", (all) => all.map((e) => [e.name, e.value]));
  saw("reloaded", { entries: Object.fromEntries(entries), states: await verdicts() });

  // another Python starts beside the page's own
  const numbers = page.evaluate(async (codes) => {
    const { Python } = await import(new URL("eight/python.js", location.origin + "/"));
    const python = await new Promise((resolve, reject) => {
      const made = new Python({ onready: () => resolve(made), onfailed: reject });
    });
    const found = [];
    for (const code of codes) found.push(await python.ask("numbers", code));
    python.stop("done");
    return found;
  }, given.golden);
  numbers.catch(() => {}); // it is heard of where it is waited for

  await type("#er-who", given.who);
  await page.click(".er-handin-form button");
  await page.waitForSelector(".er-slip-holder:not([hidden])");
  const shown = await value(".er-slip");
  await page.click(".er-copy");
  await page.waitForFunction(() => document.querySelector(".er-slip-says").textContent !== "");
  const copied = await text(".er-slip-says");
  saw("slip made", { text: shown, copied, saved: await saved(".er-save", given.slipFile) });

  saw("golden", { numbers: await numbers });
  return shown;
}

async function markInClass(slip) {
  await page.goto(given.base + "class/desk/");
  await ready();
  await put("#cd-list", given.list);
  await type("#cd-phrase", given.phrase);
  await page.$$eval('input[name="kind"]', (all, kinds) => all.forEach((e) => (e.checked = kinds.includes(e.value))), given.kinds);
  await page.click("#cd-class-form button[type=submit]");
  await says("#cd-class-said", "The class is made");
  saw("class", { codes: await saved('[data-save="codes.csv"]', "codes.csv") });

  await put("#cd-pasted", slip);
  await page.click("#cd-add-pasted");
  await says("#cd-returned", "Missing");
  await page.click("#cd-mark");
  await says("#cd-marks-said", "marked");
  saw("marked", { marks: await saved('[data-save="marks.csv"]', "marks.csv") });
}

async function record() {
  await page.goto(given.base + "record/");
  await ready();
  await (await page.$(".rc-open input")).uploadFile(given.record);
  await page.waitForFunction(() => document.querySelector("#rc-d-1").value !== "");
  await page.$eval(".er-score", (e) => (e.textContent = ""));
  await page.click(".rc-check");
  await page.waitForFunction(() => document.querySelector(".er-score").textContent !== "");
  const states = await page.$$eval(".rc-form fieldset [data-cell]", (all) => all.map((e) => [e.dataset.cell, e.dataset.state || ""]));
  saw("record", {
    score: await text(".er-score"),
    states,
    findings: await text(".rc-findings"),
    graphs: (await page.$$(".rc-graph")).length,
  });
}

// A host harms a file: what the page says, and what is sent then (tests/browser/harm.py). Waits are short there.
async function hostile() {
  const at = given.hostile;
  const file = "eight/image.bin";
  const harm = async (asked) => Number(await (await fetch(`${at}harm?file=${file}&${asked}`)).text());
  const typed = "5";
  const begin = async () => {
    await page.goto(`${at}exercises/tan-a/?code=${given.code}`, { waitUntil: "domcontentloaded" });
    await put("#er-mean-1", typed);
  };
  const worked = async (name, before) => {
    await page.waitForSelector(`.er-holder:not(.er-waiting) .er-sheet[data-code="${given.code}"]`, START);
    await page.waitForSelector('[data-step="mean-1"]:not([data-state=""]):not([data-state="waiting"])');
    const failed = await page.evaluate(() => localStorage.getItem("eight-readings:image-failed"));
    saw(name, { typed: await value("#er-mean-1"), sent: (await harm("")) - before, failed });
  };

  for (const fault of ["cut", "ends early"]) {
    const before = await harm(`fault=${fault}&half=1&times=1`);
    await begin();
    await worked(fault, before);
  }

  let before = await harm("fault=stall&half=1");
  await begin();
  await says(".er-status", "Nothing has come for 15 s");
  before = await harm("stop=1");
  await page.click(".er-status .er-again");
  await worked("stall", before);

  await harm("fault=corrupt");
  await begin();
  await worked("corrupt", 0);
  before = await harm("stop=1");
  await begin();
  await worked("fetched anew", before);
}

try {
  saw("browser", { version: await firefox.version() });
  await markInClass(await work());
  await record();
  await hostile();
  saw("errors", { errors });
} catch (error) {
  console.error(String(error.stack || error), errors.join("; "));
  process.exitCode = 1;
} finally {
  await firefox.close();
}
