// A second place for what is nowhere else. A phone whose disk is full may throw away all that a site keeps, also while
// the page is open (Chromium does: docs/decisions/phone.md); it leaves this small one. What is here is brought back
// when the log is opened without it. Best effort beside the log: a value is taken once the log has it, never by this.

const ENTRY = "undertile.entry.";
const SETTINGS = "undertile.settings";

function place() {
  try {
    return globalThis.localStorage || null; // none in a worker; denied in some windows
  } catch {
    return null;
  }
}

function attempt(work) {
  try {
    return work(place());
  } catch {
    return null; // full or denied: the log has it all the same
  }
}

// What was taken, and by whom.
export function spare(job, made) {
  attempt((store) => {
    for (const { id, line } of made) store.setItem(`${ENTRY}${job}.${id}`, line);
  });
}

export function spareSettings(told) {
  attempt((store) => store.setItem(SETTINGS, JSON.stringify(told)));
}

// Another copy has them now.
export function unspare(job, ids) {
  attempt((store) => {
    for (const id of ids) store.removeItem(`${ENTRY}${job}.${id}`);
  });
}

function spared() {
  const byJob = new Map();
  attempt((store) => {
    for (let at = 0; at < store.length; at += 1) {
      const key = store.key(at);
      if (!key.startsWith(ENTRY)) continue;
      const job = key.slice(ENTRY.length, ENTRY.length + 32);
      if (!byJob.has(job)) byJob.set(job, []);
      byJob.get(job).push(store.getItem(key));
    }
  });
  return byJob;
}

// Into a log that has lost them; how many came back.
export async function bringBack(log) {
  const byJob = spared();
  const told = attempt((store) => JSON.parse(store.getItem(SETTINGS)));
  if (told?.device && !(await log.setting("device"))) {
    for (const [name, value] of Object.entries(told)) if (value) await log.set(name, value);
  }
  const number = [...byJob.values()].reduce((sum, lines) => sum + lines.length, 0);
  if (!number || (await log.counts()).open >= number) return 0;
  let back = 0;
  for (const [job, lines] of byJob) {
    back += (await log.keep(job, lines, { own: 1 })).new;
    const ids = lines.map((line) => JSON.parse(line).id);
    const open = new Set((await log.open(job)).map(({ id }) => id));
    unspare(job, ids.filter((id) => !open.has(id))); // copied meanwhile, and the page was closed before it said so here
  }
  return back;
}
