// What is wider than the page scrolls sideways. While it does, a keyboard reaches it, and a screen reader has a name for it.
// Whether it does depends on the fonts of the device. No physics here.
const NAMES = { ".er-math": "Formula", ".md-typeset__scrollwrap": "Table" }; // Python gives its own boxes their names
const BOXES = Object.keys(NAMES).join(", ");

function look(box) {
  const scrolls = box.scrollWidth > box.clientWidth;
  if (scrolls === box.hasAttribute("tabindex")) return;
  const kind = Object.keys(NAMES).find((selector) => box.matches(selector));
  const title = box.querySelector("caption")?.textContent || NAMES[kind];
  for (const [name, value] of [["tabindex", "0"], ["role", "group"], ["aria-label", title]]) {
    if (scrolls) box.setAttribute(name, value);
    else box.removeAttribute(name);
  }
}

const sizes = new ResizeObserver((changes) => {
  for (const { target } of changes) look(target.closest(BOXES));
});

const watched = new WeakSet();

// the box may become narrower, or what is in it wider
function watch() {
  for (const box of document.querySelectorAll(BOXES)) {
    if (watched.has(box)) continue;
    watched.add(box);
    sizes.observe(box);
    for (const inside of box.querySelectorAll("math, table")) sizes.observe(inside);
  }
}

export function reachAll() {
  watch();
  const page = document.querySelector(".md-content");
  if (page) new MutationObserver(watch).observe(page, { childList: true, subtree: true }); // the theme boxes its tables late
}
