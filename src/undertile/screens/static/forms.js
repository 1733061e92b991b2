// A form of facts as drafts of entries, for a host whose page writes the entries itself. Field names and rules
// are those of screens/forms.py: fact.N, value.N, was.N, stands.N, withdraw.N, with.N.

// Drafts {fact, value, supersedes} of the rows that changed; kinds (fact -> kind) tells lists and readings.
export function draftsOf(form, kinds = {}) {
  const rows = new Map();
  for (const [name, value] of new FormData(form)) {
    const at = name.indexOf(".");
    const kind = name.slice(0, at);
    if (at < 0 || typeof value !== "string" || !["fact", "value", "was", "stands", "withdraw", "with"].includes(kind)) continue;
    const number = name.slice(at + 1);
    rows.set(number, { ...rows.get(number), [kind]: value });
  }
  const drafts = new Map([...rows].map(([number, row]) => [number, draft(row, kinds[row.fact] || "")]));
  return [...drafts].filter(([number, made]) => made && (!rows.get(number).with || drafts.get(rows.get(number).with))).map(([, made]) => made);
}

function draft(row, kind) {
  if (!row.fact) return null;
  const supersedes = (row.stands || "").split(" ").filter(Boolean);
  const made = (value) => ({ fact: row.fact, value, supersedes });
  if (row.withdraw !== undefined) return supersedes.length ? made(null) : null;
  if (row.value === undefined) return null;
  const value = row.value.trim();
  if (row.was !== undefined && value === row.was) return null;
  if (!value && kind !== "reading") return supersedes.length ? made(null) : null;
  if (kind === "many") return made(JSON.stringify(value.replaceAll(";", ",").split(",").map((part) => part.trim()).filter(Boolean)));
  return made(value);
}
