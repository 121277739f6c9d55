// The first students of the class with their codes, and the addresses for their records, as Python gave them.
import { make } from "./class_work.js";

export function showStudents(desk, made) {
  const table = desk.one("#cd-preview");
  const head = make("tr");
  for (const title of ["Roll", "Name", ...made.kinds.map((k) => k.title)]) head.append(make("th", title, { scope: "col" }));
  const rows = made.rows.map(([roll, name, codes]) => {
    const row = make("tr");
    row.append(make("th", roll, { scope: "row" }), make("td", name));
    for (const code of codes) row.append(make("td", code, { className: "cd-code" }));
    return row;
  });
  const records = made.records.map(([kinds, where]) => {
    const line = make("li", `For students’ own records, with the settings of ${kinds}: `);
    line.append(make("code", where));
    return line;
  });
  desk.one("#cd-records").replaceChildren(...records);
  const rest = made.more ? ` and ${made.more.toLocaleString("en")} more` : "";
  table.replaceChildren(make("caption", `The first students${rest}. ${made.settings}`), make("thead"), make("tbody"));
  table.querySelector("thead").append(head);
  table.querySelector("tbody").append(...rows);
}
