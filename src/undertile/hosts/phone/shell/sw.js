// The service worker: the whole tool on the phone. `BUNDLE` (version, files with their hashes) is put on top
// of this file when the bundle is built. A new bundle is fetched whole and checked before it is used, into a
// cache of its own; until a person says so the page goes on with the old one.

const PREFIX = "undertile-";
const CACHE = PREFIX + BUNDLE.version;
// The page again, never written over: the one at "./" of CACHE is each time the last screen is kept (shell/last.js), and a
// browser killed in the middle of that has none left there.
const SPARE = `${CACHE}-start`;
const AT_ONCE = 6;
const POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' 'own script'; style-src 'self' 'own styles'; img-src 'self' blob: data:; " +
  "connect-src 'self'; worker-src 'self'; manifest-src 'self'; media-src 'self' blob:; base-uri 'none'; " +
  "form-action 'self'; object-src 'none'";
const KINDS = { wasm: "application/wasm", mjs: "text/javascript", js: "text/javascript" };

const here = (path) => new URL(path, self.registration.scope).href;
const hex = (buffer) => [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, "0")).join("");

async function tell(message) {
  for (const client of await self.clients.matchAll({ includeUncontrolled: true })) client.postMessage(message);
}

// A file of this bundle: from a cache that has the same content, else from the network; never a wrong one.
const fetched = async (path, facts) => (await earlier(path, facts[0])) || brought(path, facts);

async function brought(path, [hash, size]) {
  const response = await fetch(here(path), { cache: "reload" });
  if (!response.ok) throw new Error(`${path}: ${response.status}`);
  const content = await response.arrayBuffer();
  if (content.byteLength !== size || hex(await crypto.subtle.digest("SHA-256", content)) !== hash) {
    throw new Error(`${path}: not what the bundle lists`);
  }
  return answer(content, path, hash, response.headers.get("content-type"));
}

function answer(content, path, hash, told) {
  const ending = path.slice(path.lastIndexOf(".") + 1);
  const headers = {
    "content-type": KINDS[ending] || told || "application/octet-stream",
    "content-length": String(content.byteLength),
    "content-security-policy": POLICY,
    "x-content-type-options": "nosniff",
    "x-hash": hash,
  };
  return new Response(content, { headers });
}

async function earlier(path, hash) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(PREFIX)) continue;
    const found = await (await caches.open(name)).match(here(path));
    if (found && found.headers.get("x-hash") === hash) return found;
  }
  return null;
}

// What of this bundle a start without a network would not find: the browser may throw away, or lose, any of it. Each is
// looked for each time, and its content read once while this worker runs, if `deep`. Beside the files: the page at the
// address a start opens, which a route looks for in any cache and asks this worker for in none.
const START = "./";
const sound = new Set();

async function missing(deep) {
  const lacks = [];
  for (const [path, [hash]] of Object.entries(BUNDLE.files)) {
    const found = await caches.match(here(path), { cacheName: CACHE });
    const right = found?.headers.get("x-hash") === hash && (!deep || sound.has(path) || (await hashOf(found)) === hash);
    if (right && deep) sound.add(path);
    if (!right) lacks.push(path);
  }
  const starts = await Promise.all([CACHE, SPARE].map((cacheName) => caches.match(here(START), { cacheName })));
  return starts.some(Boolean) ? lacks : [...lacks, START];
}

const hashOf = (found) =>
  found.arrayBuffer().then(
    async (content) => hex(await crypto.subtle.digest("SHA-256", content)),
    () => "", // it is named there, and cannot be read
  );

// Asked whether all of it is here; answered {have, all, missing}, `over` with the last. What is missing is fetched if
// `mend` says so.
async function whole({ mend, deep }, port) {
  const all = Object.keys(BUNDLE.files).length + 1;
  const tell = (lacks, over) => port.postMessage({ have: all - lacks.length, all, missing: lacks, over });
  const lacks = await missing(deep);
  // not by one that is not in use yet, which fills its own, nor by one that is in use no more and would bring its cache back
  if (!lacks.length || !mend || !(await self.clients.matchAll()).length) return tell(lacks, true);
  tell(lacks, false);
  for (const path of lacks) {
    await mended(path).catch(() => {}); // no network, no room, or the host has another version: it stays missing
    tell(await missing(deep), false);
  }
  tell(await missing(deep), true);
}

async function mended(path) {
  const cache = await caches.open(CACHE);
  if (path === START) await cache.put(here(START), await cache.match(here("index.html")));
  else await cache.put(here(path), await brought(path, BUNDLE.files[path]));
}

async function fill() {
  const cache = await caches.open(CACHE);
  const spare = await caches.open(SPARE); // made after it: looked in after it
  const left = Object.entries(BUNDLE.files);
  const all = left.reduce((sum, [, [, size]]) => sum + size, 0);
  let done = 0;
  const one = async () => {
    for (;;) {
      const next = left.pop();
      if (!next) return;
      const [path, facts] = next;
      await cache.put(here(path), await fetched(path, facts));
      sound.add(path);
      done += facts[1];
      await tell({ bundle: "filling", done, all });
    }
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, one));
    for (const place of [spare, cache]) await place.put(here("./"), await cache.match(here("index.html")));
  } catch (error) {
    left.length = 0;
    for (const name of [SPARE, CACHE]) await caches.delete(name);
    await tell({ bundle: "failed", trouble: String(error.message) });
    throw error;
  }
}

// Where the browser can, it reads this bundle's files from the cache by itself and need not start this worker first. What
// the cache named does not have, it asks the network for and never this worker: so the page is looked for in every cache.
async function route(event) {
  if (!event.addRoutes) return; // by the handler below, as ever
  const scope = new URL(self.registration.scope).pathname;
  const rules = ["", "shell/*", "static/*", "py/*"].map((path) => ({
    condition: { urlPattern: new URLPattern({ pathname: scope + path, search: "" }), requestMethod: "GET" },
    source: path ? { cacheName: CACHE } : "cache",
  }));
  try {
    await event.addRoutes(rules);
  } catch (error) {
    console.warn(error);
  }
}

self.addEventListener("install", (event) => event.waitUntil(Promise.all([fill(), route(event)])));

self.addEventListener("activate", (event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) {
        if ((name.startsWith(PREFIX) && name !== CACHE && name !== SPARE) || name === "last-screen") await caches.delete(name); // the latter: of an older bundle
      }
      await self.clients.claim();
    })(),
  ),
);

self.addEventListener("message", (event) => {
  if (event.data === "use") self.skipWaiting();
  else if (event.data?.ask === "whole") event.waitUntil(whole(event.data, event.ports[0]));
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || !url.href.startsWith(self.registration.scope)) return;
  event.respondWith(
    (async () => {
      const cache = await caches.open(CACHE);
      const page = event.request.mode === "navigate"; // with the screen that was shown last in it (shell/last.js)
      const found = (page && (await cache.match(here("./")))) || (await cache.match(page ? here("index.html") : event.request, { ignoreSearch: true }));
      return found || fetch(event.request);
    })(),
  );
});
