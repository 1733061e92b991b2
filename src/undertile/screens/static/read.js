// The pad on a page from a server: values go to the server, and count when it says they are kept.
import { openPad } from "./pad.js";

const told = document.getElementById("pad-sheet");
const box = document.getElementById("pad");
if (told && box) {
  const sheet = JSON.parse(told.textContent);
  document.getElementById("pad-list").hidden = true;
  box.hidden = false;
  globalThis.pad = openPad(box, sheet, { take: (fact, text, more) => send(sheet.entries, fact, text, more) });
}

async function send(address, fact, text, { supersedes, also }) {
  const drafts = [...also.map((each) => ({ fact: each.fact, value: each.value, supersedes: each.stands || [] })), { fact, value: text, supersedes }];
  const answer = await fetch(address, {
    method: "POST",
    headers: { "content-type": "application/json", accept: "application/json" },
    body: JSON.stringify({ drafts }),
  });
  const found = await answer.json();
  if (!answer.ok) throw new Error(found.error || String(answer.status));
  return { id: found.ids[fact], judged: found.judged };
}
