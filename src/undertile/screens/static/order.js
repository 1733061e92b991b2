// In which order a sheet is read, and which reading is next.

export const ORDERS = ["up", "down", "zigzag", "out", "in"];

// Positions of the rows in the order the person walks: a wall's grid first, then what is read once.
export function ordered(rows, order) {
  const grid = rows.map((row, index) => ({ row, index })).filter(({ row }) => row.stud !== undefined);
  const rest = rows.map((row, index) => ({ row, index })).filter(({ row }) => row.stud === undefined && !row.hidden);
  const by = {
    up: (a, b) => a.row.stud - b.row.stud || a.row.height - b.row.height,
    down: (a, b) => a.row.stud - b.row.stud || b.row.height - a.row.height,
    zigzag: (a, b) => a.row.stud - b.row.stud || (a.row.stud % 2 ? -1 : 1) * (a.row.height - b.row.height),
    out: (a, b) => a.row.height - b.row.height || a.row.stud - b.row.stud,
    in: (a, b) => a.row.height - b.row.height || b.row.stud - a.row.stud,
  }[order];
  if (by) grid.sort(by);
  return [...grid, ...rest].map(({ index }) => index);
}

// The next reading without a value after one that nobody passed over: first those where nobody else stands.
export function nextOf(rows, order, after, skipped, held = () => false) {
  const from = after === null ? 0 : order.indexOf(after) + 1;
  const turn = [...order.slice(from), ...order.slice(0, from)];
  const open = turn.filter((index) => isOpen(rows, rows[index]));
  const left = open.filter((index) => !skipped.has(index));
  return left.find((index) => !held(index)) ?? left[0] ?? -1;
}

// An awl is pushed in where something was read; what was read long ago and may be read again is not asked for.
function isOpen(rows, row) {
  if ((row.value !== null && row.value !== undefined) || row.extra) return false;
  const of = row.of && rows.find((each) => each.fact === row.of)?.value;
  return !row.of || Boolean(of && of !== "x");
}

// Rows that are counted as read or not.
export const stations = (rows) => rows.filter((row) => !row.hidden && !row.extra && !row.of);
