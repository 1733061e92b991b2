// One Python on this phone. Role "screens": the app over the log. Role "plan": the search, so that no key
// press and no screen waits for it. It is started by engine.js and can be thrown away at any moment.

import { attempt, drop, keep, kept, wanted } from "./heap.js";
import { openLog, stamped } from "./log.js";
import { again, fetched, plain } from "./python.js";

const base = new URL("../", self.location.href);
const LONGEST = 4096; // pixels: a sixteenth still shows on a picture of a whole wall (of ours)
const MARK = `of no bundle ${navigator.userAgent}`; // build.py tells which: memory is good in the same code and browser
const NAMED_MS = 3000; // a page that has no storage names nothing
const IDLE_MS = 300; // nobody waits: modules that no screen has asked for yet are read
let python = null;
let inside = null;
let log = null;
let cursor = 0;
let searching = null;
let started = null;
let resting = null;

const tell = (message, moved = []) => self.postMessage(message, moved);
const stamp = () => performance.timeOrigin + performance.now();

async function start({ role, keeps, plainly }) {
  tell({ state: "fetching", at: stamp() });
  const opened = role === "plan" ? null : settingsOf();
  const known = opened?.then(() => Promise.all([log.jobs(), log.since(0), log.photos(), log.notes()]));
  known?.catch(() => {});
  const parts = fetched(base);
  const [heap, trying] = plainly ? [null, null] : await Promise.all([kept(MARK), role === "plan" ? null : attempt()]);
  const filled = heap && (await filledIn(parts, heap, trying));
  const begun = filled || (await fresh(parts, keeps && !plainly));
  ({ python, ahead: started } = begun);
  if (role === "plan") {
    searching = python.pyimport("undertile.hosts.phone.inside").search;
    if (!begun.kept) started.settled();
    tell({ state: "ready", at: stamp() });
    return;
  }
  const made = python.pyimport("undertile.hosts.phone.inside");
  tell({ state: "imported", at: stamp() });
  const settings = JSON.stringify(await opened);
  inside = made.begin(settings, (message) => fromInside(JSON.parse(message)), redraw);
  const [jobs, records, photos, notes] = await known;
  for (const { job, name, text } of notes) inside.notes.came(job, name, text);
  for (const job of jobs) inside.replay(job, "");
  replay(records);
  for (const { job, content } of photos) bring(job, content);
  started.settled();
  tell({ state: "ready", at: stamp() });
  trying?.end(Boolean(filled));
  rest(IDLE_MS);
}

const fromInside = (message) => tell(message.note ? { note: message } : { plan: message });

const step = (state, from = "bundle") => tell({ state, from, at: stamp() });

// From the memory that was kept; null, and it is not tried again, where that does not do.
async function filledIn(parts, heap, trying) {
  if (trying && !trying.begin()) {
    console.warn("Python's memory was filled in before and never came up: the plain way");
    await drop();
    return null;
  }
  step("starting");
  try {
    return await again(parts, heap, { tell: (state) => step(state, "memory") });
  } catch (error) {
    console.warn(error);
    await drop();
    return null;
  }
}

// The plain way. The worker of plans, which nobody waits for, keeps its memory for the starts to come.
async function fresh(parts, may) {
  step("starting");
  const making = may && (await wanted(MARK));
  const begun = await plain(parts, { making, tell: step });
  if (!making) return begun;
  const { python: its, ahead, read, files } = begun;
  const made = its.pyimport("undertile.hosts.phone.inside");
  try {
    while (ahead.more());
    made.make_ahead();
    made.destroy();
    ahead.let_go();
    ahead.destroy();
    await keep(MARK, begun, files);
  } catch (error) {
    console.warn(error); // the plain way, then
    await drop();
  }
  const began = its.pyimport("undertile_ahead");
  begun.ahead = began.started();
  began.destroy();
  begun.ahead.again(read);
  return { ...begun, kept: true };
}

// While nobody waits: what is likely to be asked next is worked out, a piece at a time; then what the first screen
// did without is read, a module at a time.
function rest(wait = 0, idle = false) {
  clearTimeout(resting);
  resting = setTimeout(() => {
    if (waiting) return; // begun again after the answer
    try {
      if (inside.more()) rest();
      else if (!idle) rest(IDLE_MS, true);
      else if (started.more()) rest(0, true);
    } catch (error) {
      console.warn(error); // it is worked out when it is asked for, and said then
    }
  }, wait);
}

// Read here and not sent by the page: the page need not be ready before Python starts.
async function settingsOf() {
  log = await openLog();
  await namedByPage();
  const [device, told] = await Promise.all([log.device(), log.settings(["who", "language", "instrument"])]);
  const settings = { ...told, device };
  settings.language ||= self.navigator.language?.startsWith("es") ? "es" : "en";
  return settings;
}

// A phone that has lost its storage gets its own name back from the page (spare.js): the page is let go first.
async function namedByPage() {
  const until = stamp() + NAMED_MS;
  while (!(await log.setting("device")) && stamp() < until) await new Promise((next) => setTimeout(next, 25));
}

// Entries kept since the last look, from this page or another tab, go into Python's copy.
async function catchUp() {
  return replay(await log.since(cursor));
}

function replay(records) {
  const byJob = new Map();
  for (const { n, job, line } of records) {
    if (!byJob.has(job)) byJob.set(job, []);
    byJob.get(job).push(line);
    cursor = Math.max(cursor, n);
  }
  for (const [job, lines] of byJob) {
    // An entry that this version cannot use stays in the log, and never keeps the tool from starting.
    const refused = inside.replay(job, lines.join("\n"));
    if (refused) tell({ refused: refused.split("\n") });
  }
  return records.length;
}

async function ask({ method, target, headers, body }) {
  await catchUp();
  const bytes = toBytes(body || []);
  const answer = await inside.ask(method, target, JSON.stringify(headers || {}), bytes, stamped());
  const [head, content, photos] = answer.toJs();
  answer.destroy();
  return { head: JSON.parse(head), content, photos };
}

function raw(proxy) {
  const bytes = proxy.toJs();
  proxy.destroy();
  return bytes;
}

const DO = {
  start,
  ask,
  catchUp,
  archive: async ({ job }) => {
    await catchUp();
    const until = cursor;
    const [name, content] = inside.archive(job, stamped()).toJs();
    return { name, content, until };
  },
  heard: async ({ key, looked, bound, found, lost }) => {
    if (found) inside.searches.came(key, toBytes(found));
    else if (lost) inside.searches.lost(key);
    else inside.searches.heard(key, looked, bound);
  },
  search: async ({ key, log: text }) => {
    let told = 0;
    const each = searching(text, (looked, bound) => {
      const now = performance.now();
      if (now - told < 80) return;
      told = now;
      tell({ progress: { key, looked, bound } });
    });
    for (const found of each) tell({ found: { key, found: raw(found) } }); // the plan first, then with those that lose
    each.destroy();
  },
  everything: async () => {
    const [told, contents] = inside.everything().toJs();
    const { lines, photos } = JSON.parse(told);
    return { lines, photos: photos.map(([job, name], at) => ({ job, name, content: contents[at] })) };
  },
  photoCame: async ({ job, content }) => bring(job, content),
};

// A photo drawn anew: upright, of a sane size, without the place it was taken.
async function redraw(content, kind) {
  const picture = await createImageBitmap(new Blob([content.toJs()], { type: `image/${kind}` }), {
    imageOrientation: "from-image",
  });
  const share = Math.min(1, LONGEST / Math.max(picture.width, picture.height));
  const canvas = new OffscreenCanvas(Math.round(picture.width * share), Math.round(picture.height * share));
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  picture.close();
  const drawn = await canvas.convertToBlob({ type: "image/jpeg", quality: 0.85 });
  return toBytes(await drawn.arrayBuffer());
}

// A photo that Python cannot use stays on the phone, and never keeps the tool from starting.
function bring(job, content) {
  try {
    inside.bring_photo(job, toBytes(content));
  } catch (error) {
    console.warn(lastLine(error));
  }
}

function toBytes(content) {
  const view = python.toPy(new Uint8Array(content));
  const bytes = view.tobytes();
  view.destroy();
  return bytes;
}

// One request after the other: what Python wrote belongs to the request that asked for it.
let last = Promise.resolve();
let waiting = 0;
self.onmessage = ({ data }) => {
  waiting += 1;
  last = last.then(async () => {
    try {
      const result = await DO[data.do](data);
      tell({ id: data.id, result });
    } catch (error) {
      console.warn(error);
      tell({ id: data.id, trouble: lastLine(error), fatal: data.do === "start" || isFatal(error) });
    }
    waiting -= 1;
    if (inside && !waiting) rest();
  });
};

// Of a Python traceback the last line says what it was.
function lastLine(error) {
  return String(error?.message || error).trim().split("\n").pop();
}

// After such an error this interpreter answers nothing any more: the page starts a new one and replays.
function isFatal(error) {
  if (!inside && !searching) return true;
  if (error instanceof WebAssembly.RuntimeError || error instanceof RangeError) return true;
  if (String(error && error.message).includes("fatally failed") || (error && error.pyodide_fatal_error)) return true;
  try {
    return python.runPython("1 + 1") !== 2;
  } catch {
    return true;
  }
}

