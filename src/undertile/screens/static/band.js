// What the pad says beneath the last value: what is not kept, what is in doubt, what a point comes to. One thing at a
// time, the gravest first.

import { paragraph } from "./face.js";

export function drawBand(pad) {
  const band = pad.part.band;
  band.replaceChildren();
  band.className = "pad-band";
  const told = gravest(pad);
  if (!told) return;
  band.classList.toggle("loud", Boolean(told.loud));
  if (told.text) band.append(paragraph(told.text));
  for (const [press, text] of told.keys || []) band.append(pad.button(press, text));
}

function gravest(pad) {
  const lost = pad.rows.find((row) => row.state === "lost");
  if (lost) return { loud: true, keys: [["retry", pad.say("pad-lost", { why: lost.why || "" })]] };
  if (pad.asked) return { loud: true, text: pad.asked };
  const here = pad.rows[pad.at];
  const doubt = pad.judged.doubts.find((each) => !here || each.fact !== here.fact);
  if (doubt) {
    const words = doubt.typed && doubt.offered ? pad.say("pad-doubt", doubt) : pad.say("pad-doubt-plain");
    const known = pad.rows.some((row) => row.fact === doubt.fact);
    return { loud: true, text: `${doubt.where}: ${words}`, keys: known ? [[`go ${doubt.fact}`, pad.say("pad-go")]] : [] };
  }
  const same = here && pad.others.find(({ row }) => (here.stud === undefined ? row === here : row.stud === here.stud));
  const point = ofTheLast(pad);
  if (same && !point?.loud) return { text: pad.say("pad-same-stud", { who: same.who, where: here.stud === undefined ? `${here.label} ${here.at}` : here.label }), keys: [["free", pad.say("pad-free")]] };
  if (point) return point;
  const look = (pad.judged.looks || []).find((each) => pad.rows.some((row) => row.fact === each.fact && row.fact !== here?.fact));
  if (look) return { text: look.text, keys: [[`go ${look.fact}`, pad.say("pad-go")]] };
  if (pad.waiting.length > 1) return { text: pad.say("pad-waiting", { number: pad.waiting.length }) };
  return null;
}

// What the point typed last comes to, on a round; a value that may be a slip can be read again, or explained, here.
function ofTheLast(pad) {
  const row = pad.last && pad.rows[pad.last.index];
  const fact = row && (row.of || row.fact);
  const told = pad.judged.points?.[fact];
  if (!told) return null;
  const keys = [];
  const typed = pad.rows.find((each) => each.fact === fact);
  if (told.again && pad.rows[pad.at] !== typed) keys.push([`go ${fact}`, pad.say("pad-go")]);
  if (told.wet && typed?.beside.surface) keys.push([`wet ${typed.beside.surface}`, pad.say("pad-wet")]);
  return { loud: told.loud, text: told.text, keys };
}
