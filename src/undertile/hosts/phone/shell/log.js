// Everything typed on this phone, in IndexedDB. Page and workers read it; a value is taken once `take` resolves.
//
// entries   one record for each entry: {n, job, id, fact, line, own, copied}; `line` is the entry as text,
//           byte for byte what job/entry.py writes; n orders arrivals on this phone only
// settings  device, next (number of the next entry), who, language, the path last open ...
// jobs      ids of jobs made here, also those without an entry yet
// photos    {job, name, content}
// pages     what a path last showed, for the moment before Python is up

const NAME = "undertile";
const VERSION = 1;
const UNDO = "undo"; // the instrument of an entry that takes another back (store/undo.py)
const STRICT = { durability: "strict" };

export class NotKept extends Error {
  // `why` is a word of `words.js`: denied, full, newer, closed, gone, raced, no-job, undo-...
  constructor(why, cause) {
    super(`not kept: ${why}`);
    this.why = why;
    this.cause = cause;
  }
}

function whyOf(error) {
  const name = error && error.name;
  if (name === "QuotaExceededError") return "full";
  if (name === "VersionError") return "newer";
  if (name === "InvalidStateError") return "closed";
  return "denied";
}

export function openLog(onClosed = () => {}) {
  return new Promise((resolve, reject) => {
    let asked;
    try {
      asked = indexedDB.open(NAME, VERSION);
    } catch (error) {
      reject(new NotKept(whyOf(error), error));
      return;
    }
    asked.onupgradeneeded = () => {
      const db = asked.result;
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
    if (entry.instrument !== UNDO) left.push(entry);
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

  // This phone's name in every id it makes; made once.
  async device() {
    const known = await this.setting("device"); // the usual case must not wait for the disk
    if (known) return known;
    return this.inOne(["settings"], "readwrite", async (store) => {
      const settings = store("settings");
      const other = await got(settings.get("device")); // another tab was faster
      if (other) return other;
      const device = freshId();
      await got(settings.put(device, "device"));
      return device;
    });
  }

  // Entries -----------------------------------------------------------------------------------------------

  // Keep what was typed, all or none: drafts of {fact, value, stands}. The number and the entry go in one
  // transaction, so that no number is used twice, whatever other tabs do. An entry supersedes what this phone
  // said before about the fact and what the sheet showed as standing (`stands`); what somebody else said since
  // stays beside it until a person settles it (convention 7.3).
  async take({ job, drafts, instrument = "", version }) {
    if (!/^[0-9a-f]{32}$/.test(job)) throw new NotKept("no-job");
    const time = new Date().toISOString();
    return this.inOne(["entries", "settings", "jobs"], "readwrite", async (store) => {
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
        const mine = its.filter((each) => each.own && !gone.has(each.id)).map((each) => each.id);
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
  }

  // Take back this phone's last entry of a fact by entries that restore what stood before it, as store/undo.py does:
  // they say `undo` as their instrument, so that taking back twice goes one further back. `seen` are the ids of what
  // is to be taken back; where it has been already, that is returned. Resolves with the entries.
  async takeBack({ job, fact, seen, version }) {
    const time = new Date().toISOString();
    return this.inOne(["entries", "settings"], "readwrite", async (store) => {
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
  }

  // Keep entries that came as text: made by Python on this phone (`own`), or from elsewhere. Known ones stay
  // as they are; a known id with other content is kept beside the first (convention 7.4).
  // With `fresh`, an id that is here with another content is a race with another tab: nothing is kept.
  async keep(job, lines, { own = 0, copied = 0, fresh = false } = {}) {
    if (!/^[0-9a-f]{32}$/.test(job)) throw new NotKept("no-job");
    return this.inOne(["entries", "settings", "jobs"], "readwrite", async (store) => {
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
        const [maker, number] = [id.slice(0, id.lastIndexOf("-")), Number(id.slice(id.lastIndexOf("-") + 1))];
        if (maker === device && number >= next) next = number + 1;
      }
      await got(settings.put(next, "next"));
      return count;
    });
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
  copied(job, n) {
    return this.inOne(["entries"], "readwrite", async (store) => {
      const entries = store("entries");
      for (const record of await got(entries.index("copied").getAll(IDBKeyRange.only([0, job])))) {
        if (record.n <= n) await got(entries.put({ ...record, copied: 1 }));
      }
    });
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

  // Not strict: losing one costs a second's wait, nothing else.
  async keepPage(path, page) {
    const transaction = this.db.transaction(["pages"], "readwrite");
    transaction.objectStore("pages").put(page, path);
    return new Promise((resolve) => {
      transaction.oncomplete = transaction.onabort = resolve;
    });
  }
}
