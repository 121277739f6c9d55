// How the result settles: a value with its interval after each distance, drawn as Python gives them. No physics here.
const LINE = 22; // height of one line of the drawing
const [LEFT, RIGHT] = [92, 300]; // where the intervals are drawn

const count = (n) => `${n} distance${n > 1 ? "s" : ""}`;

function made(svg, name, attributes, text = "") {
  const element = document.createElementNS(svg.namespaceURI, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.textContent = text;
  return element;
}

// settles: [{distances, moment, value, U}]; the widest interval takes the whole width. There is room for each distance
// begun before Python says what it comes to.
export function drawSettling(svg, settles, begun) {
  svg.toggleAttribute("hidden", begun < 2);
  const low = Math.min(...settles.map(({ value, U }) => value - U));
  const high = Math.max(...settles.map(({ value, U }) => value + U));
  const x = (value) => LEFT + ((value - low) / (high - low || 1)) * (RIGHT - LEFT);
  svg.setAttribute("viewBox", `0 0 ${RIGHT + 10} ${begun * LINE}`);
  svg.setAttribute("aria-label", `How the moment settles. ${settles.map((s) => `After ${count(s.distances)}: ${s.moment}.`).join(" ")}`);
  const lines = settles.flatMap(({ distances, value, U }, at) => {
    const y = at * LINE + LINE / 2;
    return [
      made(svg, "text", { x: 0, y: y + 4 }, count(distances)),
      made(svg, "line", { x1: x(value - U), x2: x(value + U), y1: y, y2: y }),
      made(svg, "circle", { cx: x(value), cy: y, r: 4 }),
    ];
  });
  svg.replaceChildren(...lines);
}
