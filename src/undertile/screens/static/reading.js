// A reading as a carpenter types it: enough of it to know the whole inch it lies in. What is not sure is no
// number here; the exact meaning of a text is decided in one place only, by undertile.lengths.

const IN = /^([+-]?)(?:(\d{1,4})(?:[- ](\d{1,2})\/(\d{1,2}))?|(\d{1,2})\/(\d{1,2}))([+-]?)"?([+-]?)$/;
const MM = /^([+-]?)(\d{1,5}(?:\.\d{1,3})?) ?(mm|cm)?$/;

// The value in the job's unit, null where the text is no length that can be read without a guess.
export function numberOf(text, unit) {
  if (typeof text !== "string") return null;
  const plain = unit === "in" ? text.trim().replace(/^(\d+)-0$/, "$1") : text.trim();
  const metric = MM.exec(plain);
  if (metric && (metric[3] || unit === "mm")) {
    const mm = Number(metric[2]) * (metric[3] === "cm" ? 10 : 1);
    return (metric[1] === "-" ? -1 : 1) * (unit === "mm" ? mm : mm / 25.4);
  }
  if (unit === "mm" && !plain.includes('"')) return null;
  const found = IN.exec(plain);
  if (!found) return null;
  const [, sign, whole, over, under, only, part, strong, after] = found;
  const top = Number(over || only || 0);
  const bottom = Number(under || part || 1);
  if (![1, 2, 4, 8, 16, 32, 64].includes(bottom) || (bottom > 1 && top >= bottom)) return null;
  const tail = strong || after;
  if (tail && bottom === 1 && !plain.includes('"')) return null;
  const size = Number(whole || 0) + top / bottom + (tail === "+" ? 1 / 32 : tail === "-" ? -1 / 32 : 0);
  return (sign === "-" ? -1 : 1) * size * (unit === "mm" ? 25.4 : 1);
}

function reduced(top, bottom) {
  while (top % 2 === 0 && bottom > 1) {
    top /= 2;
    bottom /= 2;
  }
  return bottom === 1 ? "" : `${top}/${bottom}`;
}

// Whole inches and sixteenths as typed; "+" strong and "-" shy are half a sixteenth.
export function inches(whole, sixteenths, strong = "", minus = false) {
  const sign = minus ? "-" : "";
  if (strong && (sixteenths === 0 || minus)) {
    const half = whole * 32 + sixteenths * 2 + (strong === "+" ? 1 : -1);
    if (half < 0) return null;
    return mixed(sign, Math.floor(half / 32), reduced(half % 32, 32));
  }
  const text = mixed(sign, whole, reduced(sixteenths, 16));
  return text + (strong || "");
}

function mixed(sign, whole, part) {
  if (!part) return whole === 0 ? "0" : `${sign}${whole}`;
  return `${sign}${whole ? `${whole}-` : ""}${part}`;
}

export function fraction(sixteenths) {
  return reduced(sixteenths, 16) || "0";
}

export function millimetres(mm, half = false, minus = false) {
  const size = mm + (half ? 0.5 : 0);
  return `${minus && size ? "-" : ""}${size}`;
}

const PARTS = {
  en: { 2: ["half", "halves"], 4: ["quarter", "quarters"], 8: ["eighth", "eighths"], 16: ["sixteenth", "sixteenths"], 32: ["thirty-second", "thirty-seconds"], and: "and", strong: "strong", shy: "shy", minus: "minus" },
  es: { 2: ["medio", "medios"], 4: ["cuarto", "cuartos"], 8: ["octavo", "octavos"], 16: ["dieciseisavo", "dieciseisavos"], 32: ["treintaidosavo", "treintaidosavos"], and: "y", strong: "fuerte", shy: "escaso", minus: "menos" },
};

// The reading as it is said across a room.
export function spoken(text, language) {
  const words = PARTS[language] || PARTS.en;
  const found = /^(-?)(?:(\d+)-)?(\d+)\/(\d+)([+-]?)$/.exec(text);
  if (!found) return text;
  const [, sign, whole, top, bottom, tail] = found;
  const part = words[bottom] ? `${top} ${words[bottom][Number(top) === 1 ? 0 : 1]}` : `${top}/${bottom}`;
  const out = [sign ? words.minus : "", whole ? `${whole} ${words.and}` : "", part];
  out.push(tail === "+" ? words.strong : tail === "-" ? words.shy : "");
  return out.filter(Boolean).join(" ");
}
