// The screen last shown, with what was typed on its pad since, where a start finds it before the log is open: the
// cache that the page itself comes from is read in a fifth of the time. Best effort: the log has everything, and what
// is drawn from here is put right as soon as it is open.

const NAME = "last-screen"; // not of one bundle: the next one shows it too
const AT = new URL("../last-screen.json", import.meta.url).href;
const MOST = 400_000; // letters: more is not worth a moment at the start

// `typed`: by fact {value, stands}, as the pad shows it.
export async function keepLast(told) {
  try {
    const text = JSON.stringify(told);
    const cache = await caches.open(NAME);
    if (text.length > MOST) await cache.delete(AT);
    else await cache.put(AT, new Response(text));
  } catch {
    // no room, or denied
  }
}

// It could not be drawn: the next start does without.
export async function dropLast() {
  try {
    await (await caches.open(NAME)).delete(AT);
  } catch {
    // denied: it is written over
  }
}

// {path, html, typed, language}, or null.
export async function lastKept() {
  try {
    const found = await (await caches.open(NAME)).match(AT);
    return found ? await found.json() : null;
  } catch {
    return null;
  }
}
