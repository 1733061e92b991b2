// The keys of a moisture round: what the meter shows, in percent, about what it showed last at that very point; the
// awl and the pick. A place on the keys is a change since the last round: the same, less, less still, as wood dries.

import { numberOf } from "./reading.js";

const KEYS = 18; // values in one tap
const ABOVE = 4; // of them over the last one: a point that dries falls
const TOP = 27; // where nothing was shown before: whole percents from here down
const FAR = 15; // typed on keys: asked about before it is taken
const MOST = 100;
const DEEP = { in: ["1/16", "1/8", "3/16", "1/4", "3/8", "1/2", "3/4", "1"], mm: ["1", "2", "3", "5", "8", "12", "20", "25"] };
const KINDS = ["percent", "awl", "surface", "pick"];

export const isRound = (row) => KINDS.includes(row?.kind);

export function keysOf(pad, row) {
  if (row.kind === "awl") return awlKeys(pad, row);
  if (pad.mode === "tens") return tensKeys(pad);
  if (pad.mode === "tenths") return tenthKeys(pad);
  return [...topKeys(pad), ...nearKeys(pad, row), ...lastKeys(pad, row)];
}

function topKeys(pad) {
  const tens = [0, 1, 2, 3].map((ten) => ({ press: `tens ${ten}`, label: `${ten}_`, name: `${pad.say("pad-tens")} ${ten}0`, kind: "whole" }));
  return [...tens, { press: "list", label: pad.say("pad-list"), kind: "word" }];
}

// What it showed last, as a number; null where it never did.
function before(pad, row) {
  const ends = { over: Number(pad.sheet.high), under: Number(pad.sheet.low) };
  return ends[row.near] ?? (row.near ? Number(row.near) : null);
}

function nearKeys(pad, row) {
  const last = before(pad, row);
  const step = last === null || pad.sheet.step !== "0.5" ? 1 : 0.5;
  const middle = last === null ? TOP - ABOVE : step === 1 ? Math.round(last) : Math.round(last * 2) / 2;
  const from = Math.max(middle + ABOVE * step, (KEYS - 1) * step); // none lies under nothing
  const keys = [];
  for (let k = 0; k < KEYS; k += 1) {
    const value = from - k * step;
    const same = last !== null && value === middle;
    const name = same ? `${value} %, ${pad.say("pad-same-as")}` : `${value} %`;
    keys.push({ press: `value ${value}`, label: String(value), name, kind: same ? "part same" : "part" });
  }
  const over = { press: "over", label: pad.say("pad-over"), name: pad.say("pad-over-long"), kind: "word" };
  const under = { press: "under", label: pad.say("pad-under"), name: pad.say("pad-under-long"), kind: "word" };
  return [over, ...keys, under];
}

function lastKeys(pad, row) {
  const { surface, awl } = row.beside;
  return [
    { press: "skip", label: pad.say("pad-skip"), kind: "word" },
    { press: "reach", label: pad.say("pad-reach"), kind: "word" },
    surface ? { press: "wet", label: pad.say("pad-wet"), kind: "word", on: pad.valueOf(surface) === "wet" } : none("wet"),
    awl ? { press: `go ${awl}`, label: pad.say("pad-awl"), kind: "word" } : none("awl"),
    { press: "undo", label: pad.say("pad-undo"), kind: "word", off: pad.done.length === 0 },
  ];
}

const none = (press) => ({ press, label: "", kind: "word", off: true });

// Every half of one ten; meters that show tenths have them on a third tap.
function tensKeys(pad) {
  const keys = [];
  for (let k = 0; k < 10; k += 1) for (const half of [0, 0.5]) keys.push({ value: 10 * pad.ten + k + half });
  // whole percents on top, their halves beneath them: 10 11 12 13 14 / 10.5 ... / 15 16 ...
  const order = [0, 2, 4, 6, 8, 1, 3, 5, 7, 9, 10, 12, 14, 16, 18, 11, 13, 15, 17, 19];
  const made = order.map((at) => keys[at].value).map((value) => ({ press: `value ${value}`, label: String(value), name: `${value} %`, kind: value % 1 ? "across" : "part", off: value > MOST }));
  return [...made, ...backKeys(pad, pad.ten)];
}

function tenthKeys(pad) {
  const keys = [];
  for (let k = 0; k < 10; k += 1) keys.push({ press: `tenth ${pad.unitAt}.${k}`, label: `${pad.unitAt}.${k}`, kind: "part" });
  return [...keys, ...backKeys(pad)];
}

function backKeys(pad, ten) {
  const paged = ten !== undefined;
  return [
    paged ? { press: `tens ${ten - 1}`, label: "‹", name: pad.say("pad-less"), kind: "word", off: ten < 1 } : none("less"),
    paged ? { press: `tens ${ten + 1}`, label: "›", name: pad.say("pad-more"), kind: "word", off: ten > 9 } : none("more"),
    none("none"),
    none("nothing"),
    { press: "tens", label: pad.say("pad-leave"), kind: "word" },
  ];
}

function awlKeys(pad, row) {
  const unit = pad.unit === "mm" ? " mm" : "";
  const pick = row.beside.pick && pad.valueOf(row.beside.pick);
  return [
    { press: "deep 0", label: pad.say("pad-awl-firm"), name: pad.say("pad-awl-firm-long"), kind: "part wide" },
    { press: "pick splinters", label: pad.say("pad-splinters"), name: pad.say("pad-splinters-long"), kind: "word", on: pick === "splinters" },
    { press: "pick snaps", label: pad.say("pad-snaps"), name: pad.say("pad-snaps-long"), kind: "word", on: pick === "snaps" },
    { press: "list", label: pad.say("pad-list"), kind: "word" },
    ...DEEP[pad.unit].map((deep) => ({ press: `deep ${deep}`, label: deep, name: pad.say("pad-awl-sinks", { deep: deep + unit }), kind: "part" })),
    none("none"),
    none("nothing"),
    { press: "skip", label: pad.say("pad-skip"), kind: "word wide" },
    none("more"),
    none("less"),
    { press: "undo", label: pad.say("pad-undo"), kind: "word", off: pad.done.length === 0 },
  ];
}

// What a press says: a text to take, undefined where it only changes the keys, null where it says nothing.
export function pressed(pad, press) {
  const row = pad.rows[pad.at];
  if (press.startsWith("wet ")) return beside(pad, press.slice(4), "wet"); // of the point before
  if (!row) return null;
  const [what, one] = press.split(" ");
  if (what === "value" && pad.sheet.step === "0.1" && Number.isInteger(Number(one))) {
    pad.unitAt = Number(one);
    pad.mode = "tenths";
    return undefined;
  }
  if (what === "value" || what === "tenth" || what === "deep") return one;
  if (what === "over" || what === "under") return what;
  if (what === "reach") return "x";
  if (what === "tens") {
    pad.ten = Number(one);
    pad.mode = one === undefined ? "part" : "tens";
    return undefined;
  }
  if (what === "wet") return beside(pad, row.beside.surface, pad.valueOf(row.beside.surface) === "wet" ? "dry" : "wet");
  if (what === "pick") return beside(pad, row.beside.pick, one);
  if (what === "skip") {
    if (row.kind === "percent" && !row.value) return "";
    pad.passOver();
  }
  return null;
}

// Of the same point, and no station: kept at once, and the pad stays.
function beside(pad, fact, text) {
  pad.take(text, { index: pad.rows.findIndex((row) => row.fact === fact), stay: true });
  return null;
}

export function shown(pad, row) {
  const words = { x: "pad-reached", over: "pad-over-long", under: "pad-under-long", wet: "pad-wet", dry: "pad-dry", splinters: "pad-splinters-long", snaps: "pad-snaps-long" };
  if (!row.value) return pad.say("pad-skipped");
  if (words[row.value]) return pad.say(words[row.value]);
  if (row.kind !== "awl") return `${row.value} %`;
  return row.value === "0" ? pad.say("pad-awl-firm-long") : pad.say("pad-awl-sinks", { deep: row.value });
}

// The same beside the place it was read at, which is to be seen whole: in the words of the keys.
export function short(pad, row) {
  const words = { over: "pad-over", under: "pad-under", splinters: "pad-splinters", snaps: "pad-snaps" };
  if (words[row.value]) return pad.say(words[row.value]);
  return row.kind === "awl" && row.value === "0" ? pad.say("pad-awl-firm") : shown(pad, row);
}

// Where the pins go, and what they read last; of an awl, what to do with it.
export function hintOf(pad, row) {
  if (row.kind === "awl") return pad.say("pad-awl-push");
  return [row.note, row.pins].filter(Boolean).join(", ");
}

export function besideOf(pad, row) {
  if (row.clash) return pad.say("pad-clash");
  if (row.value) return pad.say("pad-was", { value: shown(pad, row) });
  return row.kind === "awl" ? "" : row.last;
}

// What was typed on keys, or by a meter: a text to take, or {asked} in words.
export function entered(pad, row, text) {
  if (row.kind !== "percent") return numberOf(text, pad.unit) === null ? { asked: pad.say("pad-no-length", { text, like: pad.say(`pad-like-${pad.unit}`) }) } : { text };
  const parts = text.replaceAll(",", ".").split(/[ /;]+/);
  if (parts.length > 6 || !parts.every((part) => /^\d{1,3}(\.\d{1,2})?$/.test(part) && Number(part) <= MOST)) return { asked: pad.say("pad-no-percent", { text }) };
  const last = before(pad, row);
  const far = last !== null && parts.some((part) => Math.abs(Number(part) - last) > FAR);
  return far ? { text, far: `${last} %` } : { text };
}

// A letter that says something by itself.
export const LETTERS = { o: "over", u: "under", w: "wet" };
