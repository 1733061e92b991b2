// The pad on a page from a server: values go to the server, and count when it says they are kept.
import { Beside } from "./beside.js";
import { openPad } from "./pad.js";

const told = document.getElementById("pad-sheet");
const box = document.getElementById("pad");
if (told && box) {
  const sheet = JSON.parse(told.textContent);
  document.getElementById("pad-list").hidden = true;
  box.hidden = false;
  const pad = openPad(box, sheet, {
    take: (fact, text, more) => take(sheet.entries, fact, text, more),
    undo: (fact, stands) => undo(sheet.entries, fact, stands),
  });
  globalThis.pad = pad;
  const url = `${document.body.dataset.root}/beside`;
  const device = [...crypto.getRandomValues(new Uint8Array(8))].join("-"); // of this page alone
  globalThis.beside = new Beside({ url, job: sheet.job, device, pad, news: () => fresh(pad) });
}

async function fresh(pad) {
  const asked = pad.turns;
  const answer = await fetch(location.href, { headers: { accept: "application/json" } });
  if (!answer.ok) return;
  const told = await answer.json();
  pad.news(told.rows, asked);
  pad.judge(told.judged);
}

async function take(address, fact, text, { supersedes, also }) {
  const drafts = [...also.map((each) => ({ fact: each.fact, value: each.value, supersedes: each.stands || [] })), { fact, value: text, supersedes }];
  const found = await send(address, { drafts });
  return { stands: [found.ids[fact]], judged: found.judged };
}

async function undo(address, fact, stands) {
  const found = await send(address, { undo: { fact, stands } });
  return { stands: found.new, judged: found.judged };
}

async function send(address, told) {
  const answer = await fetch(address, {
    method: "POST",
    headers: { "content-type": "application/json", accept: "application/json" },
    body: JSON.stringify(told),
  });
  const found = await answer.json();
  if (!answer.ok) throw Object.assign(new Error(found.error || String(answer.status)), { refused: answer.status === 400 });
  return found;
}
