// What the page at the bench keeps: the record as it was typed, what was ticked, where one is, and the cell that was typed
// last. No physics here.
// Where: the number of the distance from 0, and in it "d" or the number of the reading from 0.
const PARTS = ["safety", "setting", "givens", "readings", "end"];

const object = (value) => (value && typeof value === "object" && !Array.isArray(value) ? value : {});
const text = (value) => (typeof value === "string" ? value : "");
const texts = (value, many) => Array.from({ length: many }, (_, k) => text(Array.isArray(value) ? value[k] : ""));

export const blankRow = () => ({ d: "", readings: texts([], 8) });

// a whole state from what was kept, whatever that was
export function stateOf(kept, most) {
  const { head, rows, zero, ticks, lab, part, at, last } = object(kept);
  const found = (Array.isArray(rows) ? rows : []).slice(0, most).map((row) => ({ d: text(object(row).d), readings: texts(object(row).readings, 8) }));
  const state = {
    head: Object.fromEntries(Object.entries(object(head)).filter(([, value]) => typeof value === "string")),
    rows: found.length ? found : [blankRow()],
    zero: texts(zero, 2),
    ticks: object(ticks),
    lab: text(lab),
    part: PARTS.includes(part) ? part : "safety",
    at: { row: 0, cell: "d" },
    last: text(last),
  };
  const { row, cell } = object(at);
  if (state.rows[row] && ["d", 0, 1, 2, 3, 4, 5, 6, 7].includes(cell)) state.at = { row, cell };
  return state;
}

// a place by its name, as Python calls it, and back: "d-2", "reading5-2"
export const nameOf = ({ row, cell }) => `${cell === "d" ? "d" : `reading${cell + 1}`}-${row + 1}`;
export function placeOf(name) {
  const [cell, row] = name.split("-");
  return { row: Number(row) - 1, cell: cell === "d" ? "d" : Number(cell.slice(7)) - 1 };
}

export const textAt = ({ rows }, { row, cell }) => (cell === "d" ? rows[row].d : rows[row].readings[cell]);

export function write(state, { row, cell }, value) {
  if (cell === "d") state.rows[row].d = value;
  else state.rows[row].readings[cell] = value;
}

const isBlank = (row) => !row.d.trim() && !row.readings.some((reading) => reading.trim());

// the rows in which something is written
export const filled = ({ rows }) => rows.filter((row) => !isBlank(row));

// the place behind the last thing that was typed
export function front({ rows }) {
  const row = Math.max(0, rows.findLastIndex((r) => !isBlank(r)));
  const last = rows[row].readings.findLastIndex((reading) => reading.trim());
  if (last === 7) return { row: row + 1, cell: "d" };
  if (last >= 0) return { row, cell: last + 1 };
  return { row, cell: rows[row].d.trim() ? 0 : "d" };
}

const number = ({ row, cell }) => row * 9 + (cell === "d" ? 0 : cell + 1);

// where to go on from a place: the next one, or the front if one came back to mend
export function following(state) {
  const { row, cell } = state.at;
  const ahead = front(state);
  if (number(state.at) < number(ahead) - 1) return ahead;
  if (cell === 7) return { row: row + 1, cell: "d" };
  return { row, cell: cell === "d" ? 0 : cell + 1 };
}
