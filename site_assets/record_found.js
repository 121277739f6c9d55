// What was found in a lab record, as a list with links and a way to each cell. No physics here.
import { link } from "./page.js";

function item(finding) {
  const made = document.createElement("li");
  made.dataset.level = finding.level;
  made.innerHTML = finding.html; // made by our own Python, everything typed escaped
  if (finding.read) made.append(" ", link(finding.read));
  const first = finding.cells[0] && document.getElementById(`rc-${finding.cells[0]}`);
  if (first) {
    const go = document.createElement("button");
    go.type = "button";
    go.textContent = "Show the cell";
    go.addEventListener("click", () => first.focus());
    made.append(" ", go);
  }
  return made;
}

// a heading and the list
export function listed(findings) {
  const title = document.createElement("h2");
  title.textContent = "What was found";
  const list = document.createElement("ul");
  list.replaceChildren(...findings.map(item));
  return [title, list];
}
