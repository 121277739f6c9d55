// The style sheet of what is printed for a class: the notebook's, with the font of the formulas in it as data.
// generator/build/paper_style.py puts the same text together for the commands.
const beside = async (name) => {
  const got = await fetch(new URL(name, import.meta.url));
  if (!got.ok) throw new Error(`${name} could not be had`);
  return got;
};

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
