// The exchange with the laptop this page came from: each gets what it lacks, in texts that may be lost, cut short
// or come twice (docs/methods/sync.md). The phone asks. What comes is kept on the phone before anything else.

import { keptKey, newKey } from "./key.js";
import { Pieces } from "./pieces.js";
import { say } from "./words.js";

const ROOM = 400000; // characters of entries and photos in one text
const PIECE = 200000; // bytes of a photo in one text
const MOST_OFFER = 2000;
const KEY = 32;
const LIMIT_MS = 60000;
const SOON_MS = 1500;
const AGAIN_MS = 60000;
const JOB = /^[0-9a-f]{32}$/;

// `why`: away (no answer), stranger (not paired), none (no laptop at this address), refused, torn
export class NoExchange extends Error {
  constructor(why, trouble = why) {
    super(trouble);
    this.why = why;
  }
}

const hex = (buffer) => [...new Uint8Array(buffer)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
const hashOf = async (bytes) => hex(await crypto.subtle.digest("SHA-256", bytes));
const keyOf = async (text) => (await hashOf(new TextEncoder().encode(text))).slice(0, KEY);
const digestOf = (keys) => keyOf([...keys].sort().join("\n"));
const got = (request) =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = (event) => reject(event.target.error);
  });

// What the phone holds, by key: entries as text, photos by name. It grows with the log and forgets nothing.
class Shelves {
  constructor(log) {
    this.log = log;
    this.byJob = new Map();
    this.until = 0;
  }

  of(job) {
    if (!this.byJob.has(job)) this.byJob.set(job, { lines: new Map(), photos: new Map() });
    return this.byJob.get(job);
  }

  async look() {
    for (const { n, job, line } of await this.log.since(this.until)) {
      this.of(job).lines.set(await keyOf(line), line);
      this.until = Math.max(this.until, n);
    }
    for (const job of await this.log.jobs()) this.of(job);
    const names = await this.log.inOne(["photos"], "readonly", (store) => got(store("photos").getAllKeys()));
    for (const [job, name] of names) this.of(job).photos.set(name.slice(0, KEY), name);
  }

  keys(job) {
    const { lines, photos } = this.of(job);
    return [...lines.keys(), ...photos.keys()].sort();
  }

  has(job, key) {
    const { lines, photos } = this.of(job);
    return lines.has(key) || photos.has(key);
  }
}

// One meeting. `send` takes a text and gives the answer's text.
export class Meeting {
  constructor(log, send, { room = ROOM, shelves = new Shelves(log), pieces = new Pieces(log, hashOf) } = {}) {
    Object.assign(this, { log, send, room, shelves, pieces });
    this.came = { entries: 0, photos: [], jobs: new Set() };
    this.copied = false;
  }

  // Until both hold the same, or a round changes nothing; whether they hold the same.
  async run() {
    await this.pieces.look();
    for (let before = ""; ; ) {
      await this.shelves.look();
      const { until } = this.shelves; // only what is here now is in the digests that are sent
      const jobs = {};
      for (const job of this.shelves.byJob.keys()) jobs[job] = { have: { "": await digestOf(this.shelves.keys(job)) } };
      const asked = JSON.stringify({ sync: 1, every: true, jobs });
      const told = await this.ask(asked);
      const open = {};
      for (const [job, talk] of Object.entries(told.jobs)) {
        const own = jobs[job]?.have[""];
        if (own && talk.same === own) {
          await this.log.copied(job, until); // the laptop has seen all of it, and said so
          this.copied = true;
        } else {
          if (!own) await this.log.addJob(job);
          open[job] = { list: { "": this.shelves.keys(job) } };
        }
      }
      if (!Object.keys(open).length) return true;
      const round = asked + JSON.stringify(told);
      if (round === before) return false;
      before = round;
      await this.talk(open);
    }
  }

  async talk(jobs) {
    for (let before = ""; Object.keys(jobs).length; ) {
      const text = JSON.stringify({ sync: 1, every: false, jobs });
      if (text === before) return;
      before = text;
      const told = await this.ask(text);
      for (const [job, talk] of Object.entries(told.jobs)) await this.keep(job, talk);
      await this.shelves.look();
      jobs = {};
      let left = this.room;
      for (const [job, talk] of Object.entries(told.jobs)) {
        const said = await this.answer(job, talk, left);
        left = said.left;
        if (Object.keys(said.parts).length) jobs[job] = said.parts;
      }
    }
  }

  async ask(text) {
    const answer = await this.send(text);
    let told = null;
    try {
      told = JSON.parse(answer);
    } catch {
      throw new NoExchange("torn"); // cut short: nothing of it is used
    }
    const sound = told?.sync === 1 && told.jobs && Object.keys(told.jobs).every((job) => JOB.test(job));
    if (!sound) throw new NoExchange("none");
    return told;
  }

  async keep(job, { lines = [], pieces = [] }) {
    const sound = lines.filter(isEntry);
    if (sound.length) {
      const count = await this.log.keep(job, sound, { copied: 1 });
      this.came.entries += count.new;
      if (count.new) this.came.jobs.add(job);
    }
    for (const piece of pieces) await this.piece(job, piece);
  }

  async piece(job, piece) {
    const whole = await this.pieces.take(piece);
    const kind = whole && kindOf(whole);
    if (kind) await this.log.addPhoto(job, `${piece.hash}.${kind}`, whole);
    if (whole) await this.pieces.drop(piece.hash); // after it is kept: a phone that dies in between asks for little
    if (!kind) return;
    this.came.photos.push({ job, content: whole });
    this.came.jobs.add(job);
  }

  async answer(job, { offer = [], want = {}, pieces = [] }, left) {
    const parts = {};
    const lack = offer.filter((key) => !this.shelves.has(job, key));
    const begun = pieces.map(({ hash }) => hash).filter((hash) => this.pieces.has(hash));
    for (const key of [...lack, ...begun.map((hash) => hash.slice(0, KEY))]) (parts.want ||= {})[key] = this.pieces.from(key);
    const { lines, photos } = this.shelves.of(job);
    for (const [key, at] of Object.entries(want).sort(([a], [b]) => photos.has(a) - photos.has(b))) {
      if (!this.shelves.has(job, key)) continue;
      if (left <= 0) {
        parts.offer ||= [];
        if (parts.offer.length < MOST_OFFER) parts.offer.push(key);
      } else if (lines.has(key)) {
        (parts.lines ||= []).push(lines.get(key));
        left -= lines.get(key).length;
      } else {
        const content = await this.photo(job, photos.get(key));
        const some = content.slice(at, at + PIECE);
        if (!some.length) continue;
        const hash = photos.get(key).split(".")[0];
        (parts.pieces ||= []).push({ hash, size: content.length, at, content: base64(some) });
        left -= (some.length * 4) / 3;
      }
    }
    return { parts, left };
  }

  async photo(job, name) {
    const record = await this.log.inOne(["photos"], "readonly", (store) => got(store("photos").get([job, name])));
    return new Uint8Array(record.content);
  }
}

function isEntry(line) {
  try {
    const { id, fact } = JSON.parse(line);
    return typeof id === "string" && typeof fact === "string";
  } catch {
    return false;
  }
}

function kindOf(bytes) {
  const head = String.fromCharCode(...bytes.slice(0, 12));
  if (head.startsWith("\xff\xd8\xff")) return "jpg";
  if (head.startsWith("\x89PNG")) return "png";
  if (head.startsWith("RIFF") && head.endsWith("WEBP")) return "webp";
  return head.slice(4, 8) === "ftyp" ? "heic" : "";
}

function base64(bytes) {
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  return btoa(text);
}

async function asked(url, request) {
  const limit = new AbortController();
  const timer = setTimeout(() => limit.abort(), LIMIT_MS);
  try {
    const response = await fetch(url, { ...request, signal: limit.signal });
    return { response, answer: await response.text() };
  } catch (error) {
    throw new NoExchange("away", error.message);
  } finally {
    clearTimeout(timer);
  }
}

// Whether this page came from a host of files alone, as `export-phone` wrote it into the list of its files. A laptop that
// serves such a folder takes that word out of the list. Asked with what every host answers: what is posted to files alone
// is an error in the browser's console. What says nothing of it may be a laptop.
async function alone(url) {
  const { response, answer } = await asked(url, { cache: "no-store" });
  if (!response.ok) return false;
  try {
    return JSON.parse(answer).alone === true;
  } catch {
    return false;
  }
}

// Over HTTP to the place this page came from.
async function send(url, text) {
  const headers = { "content-type": "application/json" };
  const { response, answer } = await asked(url, { method: "POST", body: text, headers });
  if (response.status === 401) throw new NoExchange("stranger");
  if (response.ok) return answer;
  let problems = null;
  try {
    ({ problems } = JSON.parse(answer));
  } catch {
    throw new NoExchange([500, 502, 503, 504].includes(response.status) ? "away" : "none");
  }
  throw new NoExchange(Array.isArray(problems) ? "refused" : "none", String(problems?.[0]));
}

// When it runs: at start, soon after a value is kept, when the network or the page comes back, every minute.
export class Sync {
  constructor(page, { url = new URL("../../sync", import.meta.url) } = {}) {
    Object.assign(this, { page, url, room: ROOM, state: "", running: false, again: false });
  }

  // Asked until there is an answer, which then holds for as long as the page is open.
  nobody() {
    this.asking ||= alone(new URL("../bundle.json", import.meta.url)).catch((error) => {
      this.asking = null;
      throw error;
    });
    return this.asking;
  }

  begin() {
    if (!crypto.subtle) return;
    window.addEventListener("online", () => this.soon(0));
    document.addEventListener("visibilitychange", () => document.hidden || this.soon(0));
    setInterval(() => document.hidden || this.state === "none" || this.run(), AGAIN_MS);
    this.soon(0);
  }

  // The log was opened anew: what is known of it is looked at again.
  anew() {
    this.shelves = this.pieces = null;
    this.soon();
  }

  soon(ms = SOON_MS) {
    if (!crypto.subtle || (this.state === "none" && ms)) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.run(), ms);
  }

  async run() {
    const { page } = this;
    if (!page.log) return;
    if (this.running) {
      this.again = true;
      return;
    }
    this.running = true;
    this.shelves ||= new Shelves(page.log);
    this.pieces ||= new Pieces(page.log, hashOf);
    const { room, shelves, pieces } = this;
    const meeting = new Meeting(page.log, (text) => send(this.url, text), { room, shelves, pieces });
    try {
      if (await this.nobody()) throw new NoExchange("none");
      const same = await meeting.run();
      this.state = same ? "same" : "differs";
      if (same) page.strip.drop("sync");
      else page.strip.say("sync", say("sync-differs"));
    } catch (error) {
      await this.failed(error);
    }
    await this.came(meeting);
    this.running = false;
    if (this.again) this.soon();
    this.again = false;
  }

  async failed(error) {
    const { strip } = this.page;
    if (error.why === "stranger" && (await this.letInAgain())) return this.soon(0);
    this.state = error.why || "refused";
    if (this.state === "stranger") strip.say("sync", say("sync-stranger"), { act: { words: say("sync-pair"), run: () => this.pair() } });
    else if (this.state === "refused") strip.say("sync", say("sync-refused", { trouble: error.message }));
    else if (this.state === "torn") this.soon();
    // away, none, torn: the count of what is not yet copied says enough, and the next time comes by itself
    return null;
  }

  // A browser ended soon after it was paired has lost its cookie, which it keeps some seconds late: this phone's own
  // key brings it in again (hosts/server/pairing.py). Asked once; after that it is a stranger.
  async letInAgain() {
    const again = this.asked ? "" : await keptKey();
    const answer = again && (await this.post({ again }));
    this.asked = answer !== null; // no answer: asked again the next time
    if (!answer?.ok) return false;
    await this.page.named((await answer.json()).name); // the cookie with it was lost too
    return true;
  }

  post(told) {
    const headers = { accept: "application/json", "accept-language": this.page.settings.language || "en" };
    return fetch(new URL("pair", this.url), { method: "POST", body: new URLSearchParams(told), headers }).catch(() => null);
  }

  // It is on the phone; now the count, Python and the screen hear of it.
  async came({ came, copied }) {
    const { page } = this;
    if (!copied && !came.jobs.size) return;
    await page.recount();
    for (const photo of came.photos) await page.engine.ask({ do: "photoCame", ...photo }).catch(() => {});
    const typing = document.activeElement?.closest("#place input, #place textarea, #place select");
    for (const job of came.jobs) {
      page.tabs?.postMessage({ kept: job });
      if (!typing) page.screen.others(job); // a form half filled in stays as it is
    }
  }

  // The code is asked for here, not on a page of the laptop: an installed page may keep cookies of its own.
  pair() {
    const sheet = document.getElementById("sheet");
    const form = document.createElement("form");
    const said = document.createElement("p");
    said.setAttribute("role", "alert");
    const label = Object.assign(document.createElement("label"), { textContent: say("sync-code"), htmlFor: "sync-code" });
    const code = Object.assign(document.createElement("input"), { id: "sync-code", inputMode: "numeric", autocomplete: "one-time-code", maxLength: 20, required: true });
    const go = Object.assign(document.createElement("button"), { textContent: say("sync-pair") });
    const close = Object.assign(document.createElement("button"), { textContent: say("close"), type: "button" });
    close.onclick = () => sheet.close();
    const row = Object.assign(document.createElement("div"), { className: "row" });
    row.append(go, close);
    form.append(label, code);
    let name = null; // asked for where nobody has said yet who types here
    if (!this.page.settings.who) {
      name = Object.assign(document.createElement("input"), { id: "sync-name", maxLength: 40, autocomplete: "name", required: true });
      form.append(Object.assign(document.createElement("label"), { textContent: say("who"), htmlFor: "sync-name" }), name);
    }
    form.append(said, row);
    form.onsubmit = async (event) => {
      event.preventDefault();
      const again = await newKey(); // on the disk before it is told
      const response = await this.post({ code: code.value, name: name?.value || this.page.settings.who, again });
      if (response?.ok) {
        this.asked = false;
        await this.page.named((await response.json()).name);
        sheet.close();
        this.page.strip.drop("sync");
        this.soon(0);
        return;
      }
      const told = await response?.json().catch(() => null);
      said.textContent = told?.problems?.[0] || say("sync-away");
    };
    sheet.replaceChildren(form);
    sheet.showModal();
  }
}
