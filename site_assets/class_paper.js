// What is printed for a class: the controls of its papers, and the style sheet in which they are printed.

// what the controls say: the heading, who is ready for the bench, and what the parts of an examination count
export function papersGiven(desk) {
  const texts = (name) => Object.fromEntries(desk.all(`[data-${name}]`).map((field) => [field.dataset[name], field.value]));
  const kinds = desk.all('input[name="ready"]:checked').map((box) => box.value);
  return { heading: texts("heading"), weights: texts("weight"), ready: { kinds, percent: desk.one("#cd-ready-percent").value } };
}

// the controls as they were kept, or as a class file has them
export function fillPapers(desk, { heading, weights, ready }) {
  for (const field of desk.all("[data-heading]")) field.value = heading?.[field.dataset.heading] || field.value;
  for (const field of desk.all("[data-weight]")) field.value = weights?.[field.dataset.weight] ?? field.value;
  if (!Array.isArray(ready?.kinds)) return;
  for (const box of desk.all('input[name="ready"]')) box.checked = ready.kinds.includes(box.value);
  desk.one("#cd-ready-percent").value = ready.percent;
}

const beside = async (name) => {
  const got = await fetch(new URL(name, import.meta.url));
  if (!got.ok) throw new Error(`${name} could not be had`);
  return got;
};

// The notebook's style sheet, with the font of the formulas in it as data. generator/build/paper_style.py puts the same
// text together for the commands.
export async function paperStyle() {
  const [notebook, font] = await Promise.all([beside("notebook.css"), beside("formulas.woff2")]);
  const [text, bytes] = await Promise.all([notebook.text(), font.arrayBuffer()]);
  const data = await new Promise((done) => {
    const reader = new FileReader();
    reader.addEventListener("load", () => done(reader.result));
    reader.readAsDataURL(new Blob([bytes], { type: "font/woff2" }));
  });
  return `${text}@font-face { font-family: "Eight Readings Formulas"; src: url("${data}") format("woff2"); }\n`;
}
