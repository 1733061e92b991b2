// The service worker seen from the page: the first fill, updates, and what to say where there is none.

import { lookAgain, tellFirst } from "./whole.js";
import { say } from "./words.js";

const FIRST_FILL_MS = 180000;
const LOOK_MS = 20000; // of ours: once nobody waits for a start any more
const AGAIN_MS = 2000; // a worker that sleeps or is busy may not have heard that it is wanted

// Resolves once the tool is on the phone, or at once where it cannot be or is already.
export async function watchBundle(page) {
  const workers = navigator.serviceWorker;
  if (!workers) return denied(page);
  const first = !workers.controller;
  workers.addEventListener("message", ({ data }) => told(page, data));
  workers.addEventListener("controllerchange", () => {
    page.strip.drop("bundle"); // not when the last file is here: from now on a start finds the tool without a network
    if (page.using) location.reload();
    else if (first) tellFirst(page);
  });
  let registration;
  try {
    registration = await workers.register(new URL("../sw.js", import.meta.url), { scope: new URL("../", import.meta.url).pathname });
  } catch {
    if (!workers.controller) denied(page);
    return;
  }
  page.bundle = registration;
  offer(page, registration.waiting);
  registration.addEventListener("updatefound", () => {
    const fresh = registration.installing;
    fresh?.addEventListener("statechange", () => {
      if (fresh.state === "installed") offer(page, fresh);
    });
  });
  if (!first) setTimeout(() => lookAgain(page), LOOK_MS);
  if (workers.controller) return;
  await Promise.race([controlled(workers), failed(registration), new Promise((done) => setTimeout(done, FIRST_FILL_MS))]);
}

function denied(page) {
  page.bundleDenied = true;
  page.strip.say("bundle", say("no-worker"));
}

const controlled = (workers) =>
  new Promise((done) => (workers.controller ? done() : workers.addEventListener("controllerchange", done, { once: true })));

const failed = (registration) =>
  new Promise((done) => {
    const fresh = registration.installing;
    if (!fresh) return;
    fresh.addEventListener("statechange", () => fresh.state === "redundant" && done());
  });

function told(page, { bundle, done, all, trouble }) {
  const first = !navigator.serviceWorker.controller;
  if (bundle === "filling" && first) page.strip.say("bundle", say("fetching-of", { done: mb(done), all: mb(all) }));
  if (bundle === "failed") page.strip.say("bundle", say(first ? "first-failed" : "bundle-failed", { trouble }));
}

const mb = (bytes) => (bytes / 1e6).toFixed(0);

// A newer bundle stands ready: the page changes over when the person says so, all tabs together.
function offer(page, fresh) {
  if (!fresh || !navigator.serviceWorker.controller) return;
  page.strip.drop("bundle");
  page.strip.say("update", say("update"), {
    act: {
      words: say("use"),
      run: () => {
        page.using = true;
        const ask = () => fresh.state === "installed" && fresh.postMessage("use");
        ask();
        setInterval(ask, AGAIN_MS); // until it has changed over, and this page with it
      },
    },
  });
}
