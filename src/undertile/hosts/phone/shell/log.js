// Everything typed on this phone, in IndexedDB. Page and workers read it; a value is taken once `take` resolves.
//
// entries   one record for each entry: {n, job, id, fact, line, own, copied}; `line` is the entry as text,
//           byte for byte what job/entry.py writes; n orders arrivals on this phone only
// settings  device, next (number of the next entry), who, language, the path last open ...
// jobs      ids of jobs made here, also those without an entry yet
// photos    {job, name, content}
// parts     pieces of photos on their way here, by [hash, from which byte] (pieces.js)
// pages     what a path last showed, for the moment before Python is up; the paths in the order they were shown;
//           what Python remembers of a job beside the record, by ["note", job, name]

import { NotKept } from "./notkept.js";
import { spare, unspare } from "./spare.js";

const NAME = "undertile";
// A later version only adds: an older page goes on with what it knows (`openLog`).
const VERSION = 2;
const STORES = ["entries", "settings", "jobs", "photos", "pages", "parts"];
const NOTE = "note"; // [NOTE, job, name] among the pages, which no path is
const ORDER = "order of pages"; // no path: those begin with a stroke
const MOST_PAGES = 100;
const UNDO = "undo"; // the instrument of an entry that takes another back (store/undo.py)
const RESTATED = "unit"; // of one that writes what stood with its unit: nothing before it is brought back (store/undo.py)
const STRICT = { durability: "strict" };

function whyOf(error) {
  const name = error && error.name;
  // a disk that is really full is no matter of quota to Chromium: it says so in the message, and closes the place
  if (name === "QuotaExceededError" || /no.?space/i.test(String(error?.message))) return "full";
  if (name === "UnknownError") return "broken";
  if (name === "VersionError") return "newer";
  if (name === "InvalidStateError") return "closed";
  return "denied";
}

// A page that is older than what keeps the values opens them as they are, if all it needs is there: a phone that
// cannot update now still takes values, sends and saves them.
export async function openLog(onClosed = () => {}) {
  try {
    return await opened(onClosed, VERSION);
  } catch (error) {
    if (error.why !== "newer") throw error;
    return opened(onClosed);
  }
}

function opened(onClosed, version) {
  return new Promise((resolve, reject) => {
    let asked;
    try {
      asked = indexedDB.open(NAME, version);
    } catch (error) {
      reject(new NotKept(whyOf(error), error));
      return;
    }
    asked.onupgradeneeded = ({ oldVersion }) => {
      const db = asked.result;
      if (oldVersion < 2) db.createObjectStore("parts");
      if (oldVersion === 1) return;
      const entries = db.createObjectStore("entries", { keyPath: "n", autoIncrement: true });
      entries.createIndex("id", ["job", "id"]);
      entries.createIndex("fact", ["job", "fact"]);
      entries.createIndex("copied", ["copied", "job"]);
      db.createObjectStore("settings");
      db.createObjectStore("jobs");
      db.createObjectStore("photos", { keyPath: ["job", "name"] });
      db.createObjectStore("pages");
    };
    asked.onerror = () => reject(new NotKept(whyOf(asked.error), asked.error));
    asked.onsuccess = () => {
      const db = asked.result;
      if (STORES.some((name) => !db.objectStoreNames.contains(name))) {
        db.close();
        reject(new NotKept("newer"));
        return;
      }
      db.onversionchange = () => {
        db.close();
        onClosed("newer");
      };
      db.onclose = () => onClosed("gone");
      resolve(new Log(db));
    };
  });
}

// 128 random bits in hex; `crypto.randomUUID` is absent on plain http.
export function freshId() {
  return [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

// Now, with the offset of this phone's clock: which day it is for whoever holds it (hosts/server/serve.py says it so).
export function stamped(now = new Date()) {
  const ahead = -now.getTimezoneOffset(); // minutes
  const two = (number) => String(Math.floor(Math.abs(number))).padStart(2, "0");
  const local = new Date(now.getTime() + ahead * 60000).toISOString().slice(0, -1);
  return `${local}${ahead < 0 ? "-" : "+"}${two(ahead / 60)}:${two(ahead % 60)}`;
}

// The entry as text, key by key as job/entry.py writes it.
export function lineOf(entry) {
  const { id, fact, value, time, who, device, instrument, supersedes, version } = entry;
  return JSON.stringify({ id, fact, value, time, who, device, instrument, supersedes: [...supersedes].sort(), version });
}

// The last entry of this phone that it has not taken back, by its own count and never by a clock.
function lastOf(mine, device) {
  const number = ({ id }) => (id.startsWith(`${device}-`) ? Number(id.slice(device.length + 1)) : 0);
  const left = [];
  const gone = new Set();
  for (const entry of mine.filter((each) => number(each) > 0).sort((a, b) => number(a) - number(b))) {
    if (entry.instrument === RESTATED) left.length = 0;
    else if (entry.instrument !== UNDO) left.push(entry);
    else if (!entry.supersedes.some((id) => gone.has(id))) {
      for (const id of entry.supersedes) gone.add(id); // a second entry restores the other half of a clash
      left.pop();
    }
  }
  return left.at(-1) || null;
}

const got = (request) =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = (event) => reject(event.target.error);
  });

export class Log {
  constructor(db) {
    this.db = db;
  }

  // Run `work` in one transaction; resolves with what it returned once the transaction is complete.
  async inOne(stores, mode, work) {
    let transaction;
    try {
      transaction = this.db.transaction(stores, mode, mode === "readwrite" ? STRICT : {});
    } catch (error) {
      throw new NotKept(whyOf(error), error);
    }
    const done = new Promise((resolve, reject) => {
      transaction.oncomplete = resolve;
      transaction.onabort = () => reject(transaction.error);
    });
    done.catch(() => {});
    let result;
    try {
      result = await work((name) => transaction.objectStore(name));
    } catch (error) {
      try {
        transaction.abort();
      } catch {
        // it has aborted by itself
      }
      if (error instanceof NotKept) throw error;
      throw new NotKept(whyOf(error), error);
    }
    try {
      if (mode === "readwrite") transaction.commit?.(); // nothing more is asked of it: do not wait for a turn
    } catch {
      // it completes by itself
    }
    try {
      await done;
    } catch (error) {
      throw new NotKept(whyOf(error), error);
    }
    return result;
  }

  // Settings ----------------------------------------------------------------------------------------------

  setting(name) {
    return this.inOne(["settings"], "readonly", (store) => got(store("settings").get(name)));
  }

  // Several at once: {name: value}, "" where there is none.
  settings(names) {
    return this.inOne(["settings"], "readonly", async (store) => {
      const values = await Promise.all(names.map((name) => got(store("settings").get(name))));
      return Object.fromEntries(names.map((name, at) => [name, values[at] ?? ""]));
    });
  }

  set(name, value) {
    return this.inOne(["settings"], "readwrite", (store) => got(store("settings").put(value, name)));
  }

  // This phone's name in every id it makes; made once. It begins with the name typed when the phone was paired, if any.
  async device(name = "") {
    const known = await this.setting("device"); // the usual case must not wait for the disk
    if (known) return known;
    return this.named(name);
  }

  // Give this phone its name, unless it has one that something has been typed under; who types, if nobody said.
  named(name) {
    return this.inOne(["settings"], "readwrite", async (store) => {
      const settings = store("settings");
      const asked = ["device", "who", "next"].map((key) => got(settings.get(key)));
      const [known, who, next] = await Promise.all(asked); // another tab may have been faster
      if (name && !who) settings.put(name, "who");
      const plain = name.replace(/[^\p{L}\p{M}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
      if (known && (next > 1 || !plain)) return known;
      const device = plain ? `${plain}-${freshId().slice(16)}` : freshId();
      await got(settings.put(device, "device"));
      return device;
    });
  }

  // Entries -----------------------------------------------------------------------------------------------

  // Keep what was typed, all or none: drafts of {fact, value, stands}. The number and the entry go in one
  // transaction, so that no number is used twice, whatever other tabs do. An entry supersedes what this phone
  // said before about the fact and what the sheet showed as standing (`stands`); what somebody else said since
  // stays beside it until a person settles it (convention 7.3). `blind`: typed on a pad drawn before the log was
  // open, which may be a value behind: another value of this phone that it did not show stays beside it too.
  async take({ job, drafts, instrument = "", version, blind = false }) {
    if (!/^[0-9a-f]{32}$/.test(job)) throw new NotKept("no-job");
    const time = stamped();
    const taken = await this.inOne(["entries", "settings", "jobs"], "readwrite", async (store) => {
      const settings = store("settings");
      const entries = store("entries");
      store("jobs").put(1, job);
      const asked = [got(settings.get("device")), got(settings.get("who")), got(settings.get("next"))];
      const before = drafts.map(({ fact }) => got(entries.index("fact").getAll([job, fact])));
      const [device, who, next] = await Promise.all(asked);
      const made = [];
      for (const [at, { fact, value, stands = [] }] of drafts.entries()) {
        const its = await before[at];
        const gone = new Set(its.flatMap((each) => JSON.parse(each.line).supersedes));
        const own = its.filter((each) => each.own && !gone.has(each.id));
        const mine = own.filter((each) => !blind || JSON.parse(each.line).value === value).map((each) => each.id);
        const entry = {
          id: `${device}-${(next || 1) + made.length}`,
          fact,
          value,
          time,
          who: who || "unnamed",
          device,
          instrument,
          supersedes: [...new Set([...stands, ...mine])].sort(),
          version,
        };
        entries.add({ job, id: entry.id, fact, line: lineOf(entry), own: 1, copied: 0 });
        made.push(entry);
      }
      settings.put((next || 1) + made.length, "next");
      return made;
    });
    spare(job, taken.map((entry) => ({ id: entry.id, line: lineOf(entry) })));
    return taken;
  }

  // Take back this phone's last entry of a fact by entries that restore what stood before it, as store/undo.py does:
  // they say `undo` as their instrument, so that taking back twice goes one further back. `seen` are the ids of what
  // is to be taken back; where it has been already, that is returned. Resolves with the entries.
  async takeBack({ job, fact, seen, version }) {
    const time = stamped();
    const taken = await this.inOne(["entries", "settings"], "readwrite", async (store) => {
      const entries = store("entries");
      const settings = store("settings");
      const names = ["device", "who", "next"];
      const [device, who, next] = await Promise.all(names.map((name) => got(settings.get(name))));
      const its = (await got(entries.index("fact").getAll([job, fact]))).map(({ line }) => JSON.parse(line));
      const mine = its.filter((each) => each.device === device);
      const done = mine.filter((each) => each.instrument === UNDO && each.supersedes.some((id) => seen.includes(id)));
      if (done.length) return done;
      const target = lastOf(mine, device);
      if (!target) throw new NotKept("undo-none");
      const gone = new Set(its.flatMap(({ supersedes }) => supersedes));
      const back = (each) => each.instrument === UNDO && each.value === target.value;
      const stands = its.filter(({ id }) => !gone.has(id));
      const own = stands.find(({ id }) => id === target.id) || stands.find((each) => each.device === device && back(each));
      if (!own) throw new NotKept("undo-replaced");
      const here = await Promise.all(target.supersedes.map((id) => got(entries.index("id").count([job, id]))));
      if (here.includes(0)) throw new NotKept("undo-elsewhere");
      const before = its.filter(({ id }) => target.supersedes.includes(id)).map(({ value }) => value);
      const made = (before.length ? before : [null]).map((value, at) => ({
        id: `${device}-${(next || 1) + at}`,
        fact,
        value,
        time,
        who: who || "unnamed",
        device,
        instrument: UNDO,
        supersedes: [own.id],
        version,
      }));
      for (const entry of made) entries.add({ job, id: entry.id, fact, line: lineOf(entry), own: 1, copied: 0 });
      settings.put((next || 1) + made.length, "next");
      return made;
    });
    spare(job, taken.map((entry) => ({ id: entry.id, line: lineOf(entry) })));
    return taken;
  }

  // Keep entries that came as text: made by Python on this phone (`own`), or from elsewhere. Known ones stay
  // as they are; a known id with other content is kept beside the first (convention 7.4).
  // With `fresh`, an id that is here with another content is a race with another tab: nothing is kept.
  async keep(job, lines, { own = 0, copied = 0, fresh = false } = {}) {
    if (!/^[0-9a-f]{32}$/.test(job)) throw new NotKept("no-job");
    const added = [];
    const kept = await this.inOne(["entries", "settings", "jobs"], "readwrite", async (store) => {
      const entries = store("entries");
      const settings = store("settings");
      const device = await got(settings.get("device"));
      let next = (await got(settings.get("next"))) || 1;
      const count = { new: 0, known: 0, other: 0 };
      await got(store("jobs").put(1, job));
      for (const line of lines) {
        const { id, fact } = JSON.parse(line);
        const same = await got(entries.index("id").getAll([job, id]));
        const twin = same.find((each) => each.line === line);
        if (twin) {
          count.known += 1;
          if (copied && !twin.copied) await got(entries.put({ ...twin, copied: 1 }));
          continue;
        }
        if (same.length && fresh) throw new NotKept("raced");
        if (same.length) count.other += 1;
        count.new += 1;
        await got(entries.add({ job, id, fact, line, own, copied }));
        added.push({ id, line });
        const [maker, number] = [id.slice(0, id.lastIndexOf("-")), Number(id.slice(id.lastIndexOf("-") + 1))];
        if (maker === device && number >= next) next = number + 1;
      }
      await got(settings.put(next, "next"));
      return count;
    });
    if (!copied) spare(job, added);
    return kept;
  }

  // Records that arrived after number n on this phone, in order.
  since(n) {
    return this.inOne(["entries"], "readonly", (store) =>
      got(store("entries").getAll(IDBKeyRange.lowerBound(n, true))),
    );
  }

  // This phone's standing text for each fact of a job, by fact: what a sheet from before lacks.
  async own(job) {
    const records = await this.inOne(["entries"], "readonly", (store) =>
      got(store("entries").index("fact").getAll(IDBKeyRange.bound([job], [job, []]))),
    );
    const standing = new Map();
    for (const record of records.sort((a, b) => a.n - b.n)) {
      if (record.own) standing.set(record.fact, JSON.parse(record.line));
    }
    return standing;
  }

  // How many entries are here, and of which jobs some are not yet copied elsewhere. Counted by the browser: it is
  // asked after every value.
  counts() {
    return this.inOne(["entries", "jobs"], "readonly", async (store) => {
      const open = store("entries").index("copied");
      const [all, some, jobs] = await Promise.all([
        got(store("entries").count()),
        got(open.count(IDBKeyRange.bound([0], [0, []]))),
        got(store("jobs").getAllKeys()),
      ]);
      const each = await Promise.all(jobs.map((job) => got(open.count(IDBKeyRange.only([0, job])))));
      return { all, open: some, byJob: new Map(jobs.map((job, at) => [job, each[at]]).filter(([, number]) => number)) };
    });
  }

  // Say of the entries of a job up to number n that another copy has them.
  async copied(job, n) {
    const gone = (await this.open(job)).filter((record) => record.n <= n);
    await this.inOne(["entries"], "readwrite", async (store) => {
      for (const record of gone) await got(store("entries").put({ ...record, copied: 1 }));
    });
    unspare(job, gone.map(({ id }) => id));
  }

  // The file on this phone that has what arrived up to number `until` of a job: {until, name}; null for none.
  filed(job, file) {
    return this.set(`file ${job}`, file);
  }

  file(job) {
    return this.setting(`file ${job}`);
  }

  // Those files that hold values no other copy has: {job, name, open}, `open` how many.
  async files() {
    const found = [];
    for (const job of await this.jobs()) {
      const file = await this.file(job);
      const open = file ? (await this.open(job)).filter(({ n }) => n <= file.until).length : 0;
      if (open) found.push({ job, name: file.name, open });
    }
    return found;
  }

  // Records of a job that no other copy is known to have.
  open(job) {
    const its = IDBKeyRange.only([0, job]);
    return this.inOne(["entries"], "readonly", (store) => got(store("entries").index("copied").getAll(its)));
  }

  // Jobs, photos, pages -----------------------------------------------------------------------------------

  jobs() {
    return this.inOne(["jobs"], "readonly", (store) => got(store("jobs").getAllKeys()));
  }

  addJob(job) {
    return this.inOne(["jobs"], "readwrite", (store) => got(store("jobs").put(1, job)));
  }

  photos() {
    return this.inOne(["photos"], "readonly", (store) => got(store("photos").getAll()));
  }

  addPhoto(job, name, content) {
    return this.inOne(["photos"], "readwrite", (store) => got(store("photos").put({ job, name, content })));
  }

  page(path) {
    return this.inOne(["pages"], "readonly", (store) => got(store("pages").get(path)));
  }

  // What Python remembers of a job beside the record (screens/host.py): {job, name, text}.
  async notes() {
    const range = IDBKeyRange.bound([NOTE], [NOTE, []]);
    const [keys, texts] = await this.inOne(["pages"], "readonly", (store) =>
      Promise.all([got(store("pages").getAllKeys(range)), got(store("pages").getAll(range))]),
    );
    return keys.map(([, job, name], at) => ({ job, name, text: texts[at] }));
  }

  // Not strict: it is worked out again.
  keepNote({ job, note, text }) {
    return new Promise((resolve, reject) => {
      const transaction = this.db.transaction(["pages"], "readwrite");
      transaction.oncomplete = resolve;
      transaction.onabort = () => reject(transaction.error);
      const pages = transaction.objectStore("pages");
      if (text) pages.put(text, [NOTE, job, note]);
      else pages.delete([NOTE, job, note]);
    });
  }

  // Not strict: losing one costs a second's wait, nothing else. The MOST_PAGES shown last are kept, and nothing typed is
  // among them; in which order they were shown stands beside them, what an older version kept before all others.
  async keepPage(path, page) {
    const transaction = this.db.transaction(["pages"], "readwrite");
    const done = new Promise((resolve) => {
      transaction.oncomplete = transaction.onabort = resolve;
    });
    const pages = transaction.objectStore("pages");
    const [told, all] = await Promise.all([got(pages.get(ORDER)), got(pages.getAllKeys())]);
    const known = new Set(Array.isArray(told) ? told : []);
    const others = all.filter((each) => typeof each === "string" && each !== ORDER && !known.has(each));
    const order = [...others, ...known].filter((each) => each !== path);
    order.push(path);
    for (const old of order.splice(0, order.length - MOST_PAGES)) pages.delete(old);
    pages.put(page, path);
    pages.put(order, ORDER);
    return done;
  }
}
