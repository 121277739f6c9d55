// A sheet code before Python is there. What is known of codes stands in the page; the build has asked Python for it.

// a code as it is kept: capitals in groups of three (Python decides whether it is one)
export const tidy = (text) => text.toUpperCase().replace(/[^0-9A-Z]/g, "").replace(/(.{3})(?=.)/g, "$1-");

// What can surely be said of a code, or "" where only Python can tell. rule: see generator/pages/code_check.py.
export function lookedOver(text, rule) {
  const counted = [...text].filter((c) => !rule.between.includes(c));
  const values = counted.map((c) => rule.characters.findIndex((same) => same.includes(c)));
  if (text.length > rule.longest || values.includes(-1) || !rule.lengths.includes(values.length)) return "";
  const sum = values.reduce((total, value, at) => total + rule.weights[at] * value, 0);
  if (sum % rule.modulus !== rule.sum) return rule.wrong;
  return rule.begins.some((begin) => begin.every((value, at) => value === values[at])) ? rule.right : "";
}

const ruleOf = (desk) => JSON.parse(desk.one(".er-code-form").dataset.rule);

// whether there is surely no sheet of this code
export function isMistyped(desk, code) {
  const rule = ruleOf(desk);
  return lookedOver(code, rule) === rule.wrong;
}

// The page says what can be said of the code that waits for Python. otherwise, lead: what is said where that is nothing.
export function waitFor(desk, code, otherwise, lead = otherwise) {
  const rule = ruleOf(desk);
  const found = lookedOver(code, rule);
  if (!found) desk.waits(otherwise, lead);
  else desk.waits(found, found === rule.right ? found : "");
}
