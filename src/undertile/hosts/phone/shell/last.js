// The screen last shown, with what was typed on its pad since, where a start finds it before anything else is asked
// for: in the page itself. The bundle's cache holds that page twice, as it was built (index.html) and, at the address a
// start opens, with the screen in it. Best effort: the log has everything, and what is drawn from here is put right as
// soon as it is open.

const ID = "last";
const OURS = "undertile-"; // sw.js
const BEFORE = '<script type="module" blocking="render">'; // the page's own
const MOST = 400_000; // letters: more is not worth a moment at the start
const NAMES = ["path", "language", "title", "home", "href", "screen", "job", "root"];
const own = (name) => new URL(name, document.baseURI.split(/[?#]/)[0]).href;
let known = null;

// The cache of the bundle that this page is of, and the page as it was built: {cache, text, headers}. The cache is held,
// not opened anew: one that an update has thrown away does not come back.
async function built() {
  if (known) return known;
  const policy = document.querySelector("meta[http-equiv]").content; // it names the page's script and styles by their hashes
  for (const name of (await caches.keys()).filter((each) => each.startsWith(OURS))) {
    const cache = await caches.open(name);
    const found = await cache.match(own("index.html"));
    const text = found && (await found.text());
    if (!text?.includes(policy)) continue;
    const headers = new Headers(found.headers);
    for (const gone of ["content-length", "x-hash"]) headers.delete(gone);
    return (known = { cache, text, headers });
  }
  return null;
}

const escaped = (text) => text.replace(/[&"<>]/g, (sign) => `&#${sign.codePointAt(0)};`);

// `last`: {path, language, title, home, href, screen, job, root} and `typed`: by fact {value, stands}, as the pad shows
// it; `set`: the pad's settings; `html`: what stands on the screen.
export async function keepLast(last, html) {
  try {
    const page = await built();
    if (!page) return;
    const { cache, text, headers } = page;
    const told = [...NAMES.map((name) => [name, last[name]]), ["typed", JSON.stringify(last.typed)]];
    if (last.set) told.push(["set", JSON.stringify(last.set)]);
    const facts = told.map(([name, value]) => ` data-${name}="${escaped(value)}"`).join("");
    const kept = `<template id="${ID}"${facts}>${html}</template>\n    `;
    const at = text.indexOf(BEFORE);
    const whole = kept.length > MOST ? text : text.slice(0, at) + kept + text.slice(at);
    await cache.put(own("./"), new Response(whole, { headers }));
  } catch {
    // no room, or denied
  }
}

// It could not be drawn: the next start does without.
export async function dropLast() {
  try {
    const page = await built();
    if (page) await page.cache.put(own("./"), new Response(page.text, { headers: page.headers }));
  } catch {
    // denied: it is written over
  }
}

// {path, language, ..., typed, nodes}, or null. What is not whole is an error.
export function lastKept() {
  const found = document.getElementById(ID);
  if (!found) return null;
  const { typed, set, ...told } = found.dataset;
  for (const name of NAMES) if (told[name] === undefined) throw new Error(`kept screen: expected its ${name}, found none`);
  return { ...told, typed: JSON.parse(typed), set: set && JSON.parse(set), nodes: found.content };
}
