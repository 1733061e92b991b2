// The page on the phone. Order at start: the screen as it last was, the pad ready to take values; the rest of the page,
// what the phone has kept; Python comes after, in a worker, and judges.

import { NotKept } from "./notkept.js";
import { say, speak } from "./words.js";
import { Strip } from "./strip.js";
import { Screen } from "./screen.js";

const REOPEN_MS = 2000;
const HIDDEN_MS = 100; // a page behind another draws nothing
const at = (id) => document.getElementById(id);

export class Page {
  constructor() {
    this.strip = new Strip(at("strip"));
    this.screen = new Screen(at("place"), this);
    this.version = Number(document.body.dataset.entryVersion);
    this.counts = { all: 0, open: 0, byJob: new Map() };
    this.settings = { who: "", language: "en", instrument: "" };
    this.log = null;
    this.why = "denied"; // while there is no log
    this.stage = "starting";
  }

  async open() {
    this.useLanguage(spokenHere());
    at("copies").onclick = () => this.carry?.save(); // before the log is open there is nothing to save from
    at("phone").onclick = () => this.rest?.openSheet(this);
    window.addEventListener("hashchange", () => this.screen.go(this.path()));
    const first = this.first(this.path());
    // Python after the pad, whose time it would take beside it; before the tool is on the phone it would fetch all twice.
    const here = navigator.serviceWorker?.controller;
    this.opening = first.then(async () => {
      await this.fetchRest();
      if (here) this.engine.start();
      await this.openLog();
    });
    await this.opening;
    document.head.append(at("paper").content); // how it prints
    this.carry = new this.rest.Carry(this);
    this.sync = new this.rest.Sync(this);
    this.recount();
    const told = this.path();
    await this.screen.before(told || this.settings.path || "/", Boolean(told));
    mark("known");
    if (!performance.getEntriesByName("undertile-usable").length) mark("usable");
    this.tabs = "BroadcastChannel" in window ? new BroadcastChannel("undertile") : null;
    if (this.tabs) this.tabs.onmessage = ({ data }) => this.otherTab(data);
    this.opened = true;
    if (this.stage === "ready") this.screen.live();
    await this.rest.watchBundle(this);
    if (!here) this.engine.start();
    this.sync.begin();
    this.askToKeep();
  }

  // The screen as it last was, before all that would take its time; done when it is seen.
  async first(path) {
    if (!(await this.screen.early(path))) return;
    mark("usable");
    await seen();
    mark("seen");
  }

  // Without it nothing is kept, and whoever types is told so (`write`).
  async fetchRest() {
    try {
      ({ rest: this.rest } = await import(new URL("rest.js", import.meta.url).href));
    } catch (error) {
      // of another version than this page (the host went over to it just now), or it did not arrive
      this.strip.say("denied", say("first-failed", { trouble: error.message }), { firm: true });
      throw error;
    }
    const { Engine, Planner } = this.rest;
    this.planner = new Planner(async (message) => {
      await this.engine.ask({ do: "heard", ...message }).catch(() => {});
      if (!message.found) return;
      this.screen.ahead.clear();
      this.screen.look();
    });
    this.engine = new Engine({
      role: "screens",
      onState: (state, detail) => this.engineIs(state, detail),
      onMessage: (message) => this.fromPython(message),
    });
  }

  async openLog() {
    const { bringBack, late, openLog } = this.rest;
    try {
      this.log = await openLog((why) => this.lost(why)).finally(late(this));
      this.broughtBack(await bringBack(this.log));
      await this.readSettings();
    } catch (error) {
      this.why = error.why === "newer" ? "newer" : "denied";
      this.strip.say("denied", say(this.why), { firm: true });
    }
  }

  // From now on; the bar too, which says it in words.
  useLanguage(language) {
    this.settings.language = language;
    speak(language);
    this.screen.ahead.clear();
    this.draw();
  }

  // The language, as the screens expect to be told it.
  cookie() {
    return `lang=${this.settings.language || "en"}`;
  }

  path() {
    const told = location.hash.slice(1);
    try {
      return decodeURI(told);
    } catch {
      return ""; // an address cut short or mistyped: the start goes on with the screen that was last
    }
  }

  async readSettings() {
    const name = pairedName();
    let device = await this.log.device(name);
    const told = await this.log.settings(["who", "language", "instrument", "path", "room", "pad"]);
    if (name && !told.who) {
      device = await this.log.named(name); // it was opened once before its name was known here
      told.who = name;
    }
    Object.assign(this.settings, told, { device });
    this.rest.spareSettings({ ...told, device });
    this.useLanguage(this.settings.language || spokenHere());
  }

  // The name typed when this phone was paired: its own from now on, and that of whoever types, unless it has them.
  async named(name) {
    const before = this.settings.device;
    if (!this.log || !name) return;
    await this.log.named(name);
    await this.readSettings();
    if (before !== this.settings.device) await this.engine.restart("settings");
    this.tabs?.postMessage({ settings: true });
  }

  lost(why) {
    this.log = null;
    this.why = this.strip.has("full") ? "full" : why;
    this.strip.say("denied", say(this.why), { firm: true });
    this.draw();
    if (why === "gone") this.reopen();
  }

  // The browser closed the phone's storage (a full disk): tried again until it opens, then all goes on from it.
  reopen() {
    clearTimeout(this.reopening);
    const { bringBack, late, openLog } = this.rest;
    this.reopening = setTimeout(async () => {
      try {
        const log = await openLog((why) => this.lost(why)).finally(late(this));
        const back = (await bringBack(log)) + (await this.remembered(log));
        this.log = log;
        this.broughtBack(back);
      } catch {
        this.reopen();
        return;
      }
      this.strip.drop("denied");
      this.sync.anew();
      await this.recount();
      await this.engine.restart("the storage was closed").catch(() => {});
    }, REOPEN_MS);
  }

  // Python's copy still knows what the phone's storage has lost: entries and photos; how many came back.
  async remembered(log) {
    if (this.stage !== "ready") return 0;
    const { lines, photos } = await this.engine.ask({ do: "everything" });
    let back = 0;
    for (const [job, its] of Object.entries(lines)) {
      const mine = (line) => JSON.parse(line).device === this.settings.device;
      back += (await log.keep(job, its.filter(mine), { own: 1 })).new;
      back += (await log.keep(job, its.filter((line) => !mine(line)))).new;
    }
    for (const { job, name, content } of photos) await log.addPhoto(job, name, content);
    return back;
  }

  broughtBack(number) {
    if (number) this.strip.say("back", say("brought-back", { number }));
  }

  // The bar: how many values are kept, how many of them nowhere else, whether Python is up -----------------

  async recount() {
    this.screen.ahead.clear(); // something was kept
    if (this.log) {
      try {
        this.counts = await this.log.counts();
        this.counted = true;
      } catch (error) {
        this.trouble(error);
      }
    }
    this.draw();
  }

  draw() {
    const { all, open } = this.counts;
    const kept = at("copies");
    kept.replaceChildren();
    if (!["ready", "dead", "stuck"].includes(this.stage)) {
      const turn = document.createElement("span");
      turn.className = "turn";
      turn.title = say("starting");
      kept.append(turn);
    }
    const words = document.createElement("span");
    words.className = open ? "open" : "";
    if (this.counted) words.textContent = open ? say("open", { open }) : all ? say("all-copied") : say("taken", { all });
    kept.append(words);
    kept.setAttribute("aria-label", `${this.keptSaid()} ${say("copy")}`);
    document.body.dataset.stage = this.stage;
  }

  // The same in a sentence. Before it is counted it is not known, and none is no number.
  keptSaid() {
    if (!this.counted) return say("not-counted");
    const { all, open } = this.counts;
    return say(open ? "kept-open" : all ? "kept-copied" : "none-kept", { all, open });
  }

  // Values -------------------------------------------------------------------------------------------------

  // What the pad calls: resolves once the phone has the value in its storage, and only then is it taken.
  take(job, drafts, blind = false) {
    return this.write(job, (log) => log.take({ job, drafts, instrument: this.settings.instrument, version: this.version, blind }));
  }

  // This phone's last entry of a fact taken back.
  takeBack(job, fact, seen) {
    return this.write(job, (log) => log.takeBack({ job, fact, seen, version: this.version }));
  }

  async write(job, work) {
    await this.opening.catch(() => {}); // the pad stands before the log is open: what is typed waits for it, and is not shown as taken
    if (!this.log) throw new NotKept(this.why);
    try {
      const made = await work(this.log).catch((error) => this.makeRoom(error).then(() => work(this.log)));
      this.strip.drop("full");
      this.screen.ahead.clear();
      setTimeout(() => this.afterKeeping(job)); // once whoever typed it has been told: what follows starts others, who take the time
      return made;
    } catch (error) {
      if (!String(error.why).startsWith("undo-")) this.trouble(error);
      throw error;
    }
  }

  // Python's memory (heap.js) only saves a moment: where a value finds no room it goes, and is not kept again.
  async makeRoom(error) {
    if (error.why !== "full" || this.settings.room === "short" || !this.log) throw error;
    this.settings.room = "short";
    this.planner.makesRoom();
    await this.rest.drop();
    await this.log?.set("room", "short").catch(() => {});
  }

  afterKeeping(job) {
    this.tabs?.postMessage({ kept: job });
    this.recount();
    this.screen.kept(job);
    this.sync.soon();
  }

  trouble(error) {
    const why = error instanceof NotKept ? error.why : "denied";
    this.strip.say(["full", "broken"].includes(why) ? "full" : "denied", say(why), { firm: true });
  }

  otherTab({ kept, settings }) {
    if (settings) this.readSettings();
    if (kept) {
      this.recount();
      this.screen.others(kept);
    }
  }

  // Ask Python: the answer's own entries are kept on the phone before anything of it is shown --------------

  async ask(request) {
    for (let again = 0; ; again += 1) {
      const answer = await this.engine.ask({ do: "ask", ...request });
      const { made, came } = answer.head;
      const jobs = new Set([...Object.keys(made), ...Object.keys(came)]);
      if (!jobs.size && !answer.photos.length) return answer;
      try {
        for (const [at, [job, name]] of answer.head.photos.entries()) await this.log.addPhoto(job, name, answer.photos[at]);
        for (const [job, lines] of Object.entries(came)) await this.log.keep(job, lines, { copied: 1 });
        for (const [job, lines] of Object.entries(made)) await this.log.keep(job, lines, { own: 1, fresh: true });
      } catch (error) {
        await this.engine.restart("what Python wrote was not kept"); // its copy must not know more than the phone
        if (error.why === "raced" && again < 2) continue;
        this.trouble(error);
        throw error;
      }
      for (const job of jobs) this.tabs?.postMessage({ kept: job });
      await this.recount();
      this.sync?.soon();
      return answer;
    }
  }

  engineIs(state, detail) {
    mark(state);
    this.screen.ahead.clear();
    const words = { slow: "slow", stuck: "stuck", restarting: "restarting", dead: "dead" }[state];
    const firm = state === "stuck" || state === "dead"; // there the way out is a copy, from the pad too
    const act = firm ? { words: say("copy"), run: () => this.carry.save() } : null;
    if (words && !this.strip.has("late")) this.strip.say("engine", say(words), { firm, act, detail });
    if (state === "ready" || state === "dead" || state === "stuck" || this.stage !== "ready") this.stage = state;
    if (state === "restarting") this.stage = state;
    if (state === "ready") {
      this.strip.drop("engine");
      if (this.opened) this.screen.live();
      setTimeout(() => this.planner.warm(this.settings.room !== "short"), 1500);
    }
    this.draw();
  }

  fromPython({ plan, note, refused }) {
    if (note) this.log?.keepNote(note).catch((error) => console.warn(error)); // it is worked out again
    if (refused) this.strip.say("refused", say("refused", { number: refused.length }), { detail: refused[0] });
    if (plan) this.planner.asked(plan);
  }

  // Will the browser keep it? Asked without waiting: some never answer ---------------------------------------

  askToKeep() {
    this.promised = "unknown";
    navigator.storage?.persist?.().then(
      (yes) => (this.promised = yes ? "yes" : "no"),
      () => {},
    );
    navigator.storage?.estimate?.().then(
      ({ quota, usage }) => {
        const free = Math.floor((quota - usage) / 1e6);
        if (free < 100) this.strip.say("space", say("low-space", { free }));
      },
      () => {},
    );
  }

  installed() {
    return matchMedia("(display-mode: standalone)").matches || navigator.standalone === true;
  }

  async set(name, value) {
    this.settings[name] = value;
    if (name === "language") this.useLanguage(value);
    await this.log?.set(name, value);
    this.tabs?.postMessage({ settings: true });
  }
}

// A frame has been drawn since, or nobody looks.
const seen = () =>
  new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
    setTimeout(done, HIDDEN_MS);
  });

// Where nobody has said which.
const spokenHere = () => (navigator.language?.startsWith("es") ? "es" : "en");

// As the laptop told it (hosts/server/gate.py); "" where this phone has not been paired.
function pairedName() {
  const told = /(?:^|; )undertile-name=([^;]*)/.exec(document.cookie);
  try {
    return told ? decodeURIComponent(told[1]) : "";
  } catch {
    return ""; // somebody else's: a phone without a name is a phone all the same
  }
}

// When what was reached, for whoever measures: performance marks, and no more.
export function mark(name) {
  performance.mark(`undertile-${name}`);
}

window.undertile = new Page();
window.undertile.open();
