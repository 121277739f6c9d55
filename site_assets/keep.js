// What is kept on this device: the entries of each sheet by its code, with what was typed first; the last code of each
// kind; the roll or name for return slips, and how many were made of each sheet; a laboratory's conventions for new numbers; the readings at the bench.
// What is typed before a sheet is open is kept as that of a draft.
const PREFIX = "eight-readings:";

const here = new Map(); // what this browser could not store: kept while the page is open

function get(key) {
  try {
    return here.get(key) || JSON.parse(localStorage.getItem(PREFIX + key));
  } catch {
    return null;
  }
}

// false where the browser keeps nothing (private windows, full storage)
function put(key, value) {
  try {
    localStorage.setItem(PREFIX + key, JSON.stringify(value));
    here.delete(key);
    return true;
  } catch {
    here.set(key, value);
    return false;
  }
}

function remove(key) {
  here.delete(key);
  try {
    localStorage.removeItem(PREFIX + key);
  } catch {
    // nothing is kept here
  }
}

const object = (value) => (value && typeof value === "object" ? value : {});
const array = (value) => (Array.isArray(value) ? value : []);
const string = (value) => (typeof value === "string" ? value : null);

export const keep = {
  entries: (code) => object(get(`sheet:${code}`)),
  // whether this sheet was ever open on this device
  isKnown: (code) => get(`sheet:${code}`) !== null,
  saveEntries: (code, entries) => put(`sheet:${code}`, entries),
  // one field at a time, so that two tabs on one sheet do not wipe each other's
  saveEntry: (code, name, text) => put(`sheet:${code}`, { ...object(get(`sheet:${code}`)), [name]: text }),
  isEntries: (key, code) => key === `${PREFIX}sheet:${code}`,
  firsts: (code) => object(get(`firsts:${code}`)),
  // it is never replaced, even when the entries are cleared
  saveFirst: (code, name, text) => {
    const firsts = object(get(`firsts:${code}`));
    return name in firsts || put(`firsts:${code}`, { ...firsts, [name]: text });
  },
  // What was typed while there were no numbers yet goes to the sheet that then came. A field that was emptied again
  // counts as never typed in. over: whether it goes over what the sheet has in that field.
  move: (from, to, over = true) => {
    const texts = (place) => Object.fromEntries(Object.entries(object(get(`sheet:${place}`))).filter(([, text]) => text));
    const [typed, there] = [texts(from), texts(to)];
    if (Object.keys(typed).length) put(`sheet:${to}`, over ? { ...there, ...typed } : { ...typed, ...there });
    const firsts = object(get(`firsts:${from}`));
    if (Object.keys(firsts).length) put(`firsts:${to}`, { ...firsts, ...object(get(`firsts:${to}`)) });
    remove(`sheet:${from}`);
    remove(`firsts:${from}`);
  },
  // What was typed on this page before its script was there, whatever its address had for the page (offline.js):
  // [where it is kept, the code in that address or ""] each.
  early: () => {
    const begins = `${PREFIX}sheet:early ${location.pathname}`;
    try {
      const keys = Object.keys(localStorage).filter((key) => key === begins || key.startsWith(`${begins}?`));
      return keys.map((key) => [
        key.slice(`${PREFIX}sheet:`.length),
        new URLSearchParams(key.slice(begins.length)).get("code") || "",
      ]);
    } catch {
      return []; // nothing is kept here
    }
  },
  // how many return slips of this sheet, or of records, were made on this device
  slips: (code) => Number(get(`slips:${code}`)) || 0,
  saveSlips: (code, number) => put(`slips:${code}`, number),
  who: () => string(get("who")) || "",
  saveWho: (text) => put("who", text),
  conventions: () => object(get("conventions")),
  saveConventions: (words) => put("conventions", words),
  // the readings at the bench, the moves that can be undone, what was said of them last, and the readings that last went
  // to the record page
  bench: () => get("bench"),
  saveBench: (state) => put("bench", state),
  isBench: (key) => key === `${PREFIX}bench`,
  benchBefore: () => array(get("bench-before")).filter((text) => typeof text === "string"),
  saveBenchBefore: (states) => put("bench-before", states),
  benchSaid: () => object(get("bench-said")),
  saveBenchSaid: (said) => put("bench-said", said),
  benchWhole: () => get("bench-whole") === true,
  saveBenchWhole: (whole) => put("bench-whole", whole),
  benchSent: () => string(get("bench-sent")),
  saveBenchSent: (text) => put("bench-sent", text),
  record: () => object(get("record")),
  saveRecord: (record) => put("record", record),
  // How often the image of Python's memory failed by its content: after the first time it is asked for past the browser's
  // cache, where a wrong copy may lie; after the second time that is of no use.
  imageFailed: () => Number(get("image-failed")) || 0,
  saveImageFailed: (times) => (times ? put("image-failed", times) : remove("image-failed")),
  drill: () => get("drill"),
  saveDrill: (state) => put("drill", state),
  lastCode: (kind) => string(get(`last:${kind}`)),
  saveLastCode: (kind, code) => put(`last:${kind}`, code),
};
