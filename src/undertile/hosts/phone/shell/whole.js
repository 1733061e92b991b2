// Is the whole tool on this phone? The service worker is asked, which looks into its cache each time. What it does not answer
// is not known, and never yes.

import { say } from "./words.js";

const ANSWER_MS = 15000; // it may have to read all of it, on a slow phone
const MEND_MS = 90000; // one file over a poor network
const AGAIN_MS = 1500;

// {have, all, missing} as the worker's last word, null where it says none; `heard` is told each before. `asked`: {mend}, to
// fetch what is missing, and {deep}, to read all that is there.
export function counted(worker, asked, heard = () => {}) {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    let timer = null;
    const end = (found) => {
      clearTimeout(timer);
      port1.close();
      done(found);
    };
    const wait = (time) => {
      clearTimeout(timer);
      timer = setTimeout(() => end(null), time);
    };
    port1.onmessage = ({ data }) => {
      if (data.over) return end(data);
      heard(data);
      wait(MEND_MS);
    };
    wait(ANSWER_MS);
    worker.postMessage({ ask: "whole", ...asked }, [port2]);
  });
}

const isWhole = (found) => Boolean(found) && found.all > 0 && found.have === found.all;
const part = ({ have, all }) => say("whole-part", { done: have, all });

// What the sheet says, until it is whole, `place` is gone, or the browser can keep no page.
export async function tellWhole(page, place) {
  const workers = navigator.serviceWorker;
  const tell = (words) => words !== place.textContent && (place.textContent = words);
  let mend = true;
  const online = () => (mend = true);
  addEventListener("online", online);
  tell(say("whole-asking"));
  for (;;) {
    if (!workers || page.bundleDenied) {
      tell(say("no-worker"));
      break;
    }
    const own = workers.controller;
    const worker = own || page.bundle?.installing || page.bundle?.waiting || page.bundle?.active;
    const found = worker && (await counted(worker, { mend: mend && Boolean(own), deep: true }, (so) => isWhole(so) || tell(part(so))));
    if (own) mend = false; // once, and again when the network is back: a host of another version has not what is missing
    if (!place.isConnected || !place.closest("[open]")) break;
    if (worker) tell(found ? told(found, own) : say("whole-unknown"));
    else if (page.bundle) tell(say("whole-none"));
    if (own && isWhole(found)) break;
    await new Promise((next) => setTimeout(next, AGAIN_MS));
  }
  removeEventListener("online", online);
}

const told = (found, own) => (isWhole(found) ? say(own ? "whole-yes" : "whole-next") : part(found));

// The first fill is over and the worker answers for this page: said once, with what comes next.
export async function tellFirst(page) {
  const found = await counted(navigator.serviceWorker.controller, { deep: true });
  if (!isWhole(found)) return;
  page.strip.say("whole", page.installed() ? say("whole-now") : `${say("whole-now")} ${say("whole-install")}`);
  addEventListener("hashchange", () => page.strip.drop("whole"), { once: true }); // read by then; the sheet says it from now on
}

// At a later start: what the browser has thrown away is fetched again, and what could not be is said before the network
// goes off. Nothing where all is well.
export async function lookAgain(page) {
  const worker = navigator.serviceWorker.controller;
  const found = worker && (await counted(worker, { mend: true }));
  if (found && !isWhole(found)) page.strip.say("whole", part(found));
}
