// Which keys there are, and what each press says. Inches: the sixteenths of the last whole inch, and beside
// them the four nearest across its edge. Millimetres: the last centimetre and half of each neighbour.
import { fraction, inches, millimetres } from "./reading.js";

const OTHERS = 28; // whole inches or centimetres offered at once, about the last one in the middle

export function keysOf(pad, row) {
  return pad.mode === "whole" ? wholeKeys(pad) : [...topKeys(pad, row), ...partKeys(pad, row), ...lastKeys(pad, row)];
}

function topKeys(pad, row) {
  const unit = pad.unit === "mm" ? pad.say("pad-cm") : pad.say("pad-inch");
  const near = [-1, 0, 1].map((by) => pad.whole + by);
  const keys = near.map((whole) => ({
    press: `whole ${whole}`,
    label: whole < 0 ? "" : wholeLabel(pad, whole),
    name: `${unit} ${whole}`,
    kind: "whole",
    on: whole === pad.whole,
    off: whole < 0,
  }));
  if (row.kind === "signed") keys[0] = { press: "sign", label: pad.say("pad-sign"), kind: "whole", on: pad.minus };
  return [...keys, { press: "others", label: pad.say("pad-other"), kind: "word" }, { press: "list", label: pad.say("pad-list"), kind: "word" }];
}

function wholeLabel(pad, whole) {
  return pad.unit === "mm" ? `${whole || ""}_` : String(whole);
}

function partKeys(pad, row) {
  if (pad.unit === "mm") return millimetreKeys(pad);
  const last = pad.lastNumber(row);
  const low = last === null || last - Math.floor(last) < 0.5;
  const beside = low ? pad.whole - 1 : pad.whole + 1;
  const keys = [];
  for (let line = 0; line < 4; line += 1) {
    for (let k = 0; k < 4; k += 1) {
      const part = 4 * line + k;
      const label = part ? fraction(part) : String(pad.whole);
      keys.push({ press: `part ${pad.whole} ${part}`, label, name: inches(pad.whole, part) || "", kind: part ? "part" : "part zero" });
    }
    const part = low ? 12 + line : line;
    const off = beside < 0 || row.kind === "signed";
    keys.push({
      press: `part ${beside} ${part}`,
      label: off ? "" : part ? fraction(part) : String(beside),
      over: off || !part ? "" : String(beside),
      name: off ? "" : inches(beside, part),
      kind: "across",
      off,
    });
  }
  return keys;
}

function millimetreKeys(pad) {
  const base = pad.whole * 10;
  const lines = [base - 5, base, base + 5, base + 10];
  return lines.flatMap((from, line) =>
    [0, 1, 2, 3, 4].map((k) => ({
      press: `mm ${from + k}`,
      label: from + k < 0 ? "" : String(from + k),
      kind: line === 0 || line === 3 ? "across" : "part",
      off: from + k < 0,
    })),
  );
}

function lastKeys(pad, row) {
  const reading = row.kind === "reading";
  const keys = [
    { press: "skip", label: pad.say("pad-skip"), kind: "word" },
    { press: "reach", label: pad.say("pad-reach"), kind: "word", off: !reading },
  ];
  if (pad.unit === "mm") {
    keys.push({ press: "half", label: pad.say("pad-half"), kind: "word", on: pad.strong === "+" });
    keys.push({ press: "none", label: "", kind: "word", off: true });
  } else {
    keys.push({ press: "shy", label: pad.say("pad-shy"), kind: "word", on: pad.strong === "-" });
    keys.push({ press: "strong", label: pad.say("pad-strong"), kind: "word", on: pad.strong === "+" });
  }
  keys.push({ press: "undo", label: pad.say("pad-undo"), kind: "word", off: pad.done.length === 0 });
  return keys;
}

function wholeKeys(pad) {
  const from = firstOther(pad);
  const keys = [];
  for (let k = 0; k < OTHERS; k += 1) keys.push({ press: `whole ${from + k}`, label: wholeLabel(pad, from + k), kind: "whole", name: wholeLabel(pad, from + k) || "0" });
  keys.push({ press: "page -1", label: "‹", name: pad.say("pad-less"), kind: "word", off: from === 0 });
  keys.push({ press: "page 1", label: "›", name: pad.say("pad-more"), kind: "word" });
  return keys;
}

const firstOther = (pad) => Math.max(0, pad.whole - OTHERS / 2 + pad.page * OTHERS);

// What a press says: a text to take, undefined where it only changes the keys, null where it says nothing.
export function pressed(pad, press, slide) {
  const row = pad.rows[pad.at];
  if (!row) return null;
  const [what, one, two] = press.split(" ");
  if (what === "whole") {
    pad.whole = Number(one);
    pad.mode = "part";
    return undefined;
  }
  if (what === "others" || what === "page") {
    pad.page = what === "page" ? pad.page + Number(one) : 0;
    pad.mode = "whole";
    return undefined;
  }
  if (what === "sign") {
    pad.minus = !pad.minus;
    return undefined;
  }
  if (what === "strong" || what === "half") {
    pad.strong = pad.strong === "+" ? "" : "+";
    return undefined;
  }
  if (what === "shy") {
    pad.strong = pad.strong === "-" ? "" : "-";
    return undefined;
  }
  if (what === "skip") return row.kind === "reading" && !row.value ? "" : skipOver(pad);
  if (what === "reach") return "x";
  if (what === "part") return inches(Number(one), Number(two), slide || pad.strong, pad.minus);
  if (what === "mm") return millimetres(Number(one), pad.strong === "+" || slide === "+", pad.minus);
  return null;
}

// Passed over without a word: what is not measured stays so.
function skipOver(pad) {
  pad.passOver();
  return undefined;
}
