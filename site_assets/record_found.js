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
    go.addEventListener("click", () => {
      first.closest("details")?.setAttribute("open", "");
      first.closest("[hidden]")?.removeAttribute("hidden");
      first.focus();
    });
    made.append(" ", go);
  }
  return made;
}

function list(findings) {
  const made = document.createElement("ul");
  made.replaceChildren(...findings.map(item));
  return made;
}

function heading(text) {
  return Object.assign(document.createElement("h2"), { textContent: text });
}

// a heading and the list
export const listed = (findings) => [heading("What was found"), list(findings)];

function line(html, before = "") {
  const made = document.createElement("p");
  made.innerHTML = html; // made by our own Python from numbers
  made.prepend(before);
  return made;
}

// what stands at the top of a record that was checked: the result, and the gravest thing that was found
export function outcome({ result, put_right: right, findings }) {
  const made = [heading(result ? "The result" : "No result yet")];
  if (result) made.push(Object.assign(line(result), { className: "rc-quote" }));
  if (right) made.push(line(right, "With what stands out put right: "));
  if (findings.length && findings[0].level !== "note") made.push(list(findings.slice(0, 1)));
  return made;
}

// brings a part of the page to the top of the screen and gives it the keyboard
export function show(part) {
  part.focus({ preventScroll: true });
  part.scrollIntoView({ block: "start" });
}
