// Numbers from keys: a keyboard steps through the sheet, a laser meter types as one does.
import * as percents from "./percent.js";
import { numberOf } from "./reading.js";

const FAR = { in: 6, mm: 150 }; // from the last reading of its kind: asked about before it is taken

export function typed(pad, event) {
  if (pad.still) return event.preventDefault();
  if (pad.panel || event.ctrlKey || event.metaKey || event.altKey) {
    if ((event.ctrlKey || event.metaKey) && event.key === "z" && !pad.panel) {
      event.preventDefault();
      pad.undo();
    }
    return;
  }
  const key = event.key;
  if (key === "Enter" || key === "Tab") {
    if (pad.buffer) {
      event.preventDefault();
      enter(pad);
    }
  } else if (key === "Backspace") {
    event.preventDefault();
    if (pad.buffer) pad.buffer = pad.buffer.slice(0, -1);
    else return pad.undo();
  } else if (key === "Escape") pad.buffer = "";
  else if (["ArrowDown", "ArrowRight"].includes(key)) return step(pad, 1, event);
  else if (["ArrowUp", "ArrowLeft"].includes(key)) return step(pad, -1, event);
  else if (!pad.buffer && key === "x" && ["reading", "percent"].includes(pad.rows[pad.at]?.kind)) return pad.take("x");
  else if (!pad.buffer && percents.LETTERS[key] && pad.rows[pad.at]?.kind === "percent") return pad.press(percents.LETTERS[key], "");
  else if (!pad.buffer && key === "s") return pad.press("skip", "");
  else if (key.length === 1 && (pad.buffer ? /[\d./+\-"' mci n]/ : /[\d.+\-]/).test(key)) {
    event.preventDefault();
    pad.buffer = (pad.buffer + key).slice(0, 24);
  } else return;
  if (!pad.asked || key !== "Enter") pad.asked = key === "Enter" || key === "Tab" ? pad.asked : "";
  pad.draw();
}

function step(pad, by, event) {
  event.preventDefault();
  const here = pad.order.indexOf(pad.at);
  const there = pad.order[Math.max(0, Math.min(pad.order.length - 1, here + by))];
  if (there !== undefined) pad.go(pad.rows[there].fact, false);
}

// What was typed on keys, or by a meter: refused in words when it is no length, asked about when it is far off.
function enter(pad) {
  const row = pad.rows[pad.at];
  if (!row) return;
  if (percents.isRound(row)) return enterOnRound(pad, row);
  let text = pad.buffer.trim();
  if (/^[\d.]+$/.test(text) && pad.set.meter === "mm" && pad.unit === "in") text += " mm";
  else if (/^\d+$/.test(text) && pad.set.meter === "in" && pad.unit === "mm") text += '"';
  const number = numberOf(text, pad.unit);
  if (number === null || (number < 0 && row.kind !== "signed")) {
    pad.asked = pad.say("pad-no-length", { text, like: pad.say(`pad-like-${pad.unit}`) });
    return pad.draw();
  }
  const near = pad.lastNumber(row);
  const far = near !== null && row.kind !== "signed" && Math.abs(number - near) > FAR[pad.unit];
  if (far && pad.held !== text) {
    pad.held = text;
    pad.asked = pad.say("pad-far", { text, near: pad.unit === "mm" ? Math.round(near) : Math.floor(near) });
    return pad.draw();
  }
  pad.held = "";
  pad.asked = "";
  pad.buffer = "";
  pad.take(text);
}

function enterOnRound(pad, row) {
  const { text, asked, far } = percents.entered(pad, row, pad.buffer.trim());
  if (asked || (far && pad.held !== text)) {
    pad.held = text || "";
    pad.asked = asked || pad.say("pad-far", { text, near: far });
    return pad.draw();
  }
  pad.held = "";
  pad.asked = "";
  pad.buffer = "";
  pad.take(text);
}
