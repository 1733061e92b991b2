// The page on the phone. Order at start: what the phone has kept, the screen as it last was, the pad ready to
// take values; Python comes after, in a worker, and judges.

import { Carry } from "./carry.js";
import { Engine, Planner } from "./engine.js";
import { NotKept, openLog } from "./log.js";
import { say, speak } from "./words.js";
import { watchBundle } from "./bundle.js";
import { openSheet } from "./sheet.js";
import { Strip } from "./strip.js";
import { Screen } from "./screen.js";
import { Sync } from "./sync.js";

const at = (id) => document.getElementById(id);

export class Page {
  constructor() {
    this.strip = new Strip(at("strip"));
    this.screen = new Screen(at("place"), this);
    this.version = Number(document.body.dataset.entryVersion);
    this.counts = { all: 0, open: 0, byJob: new Map() };
    this.settings = { who: "", language: "en", instrument: "" };
    this.log = null;
    this.stage = "starting";
  }

  async open() {
    this.draw();
    this.planner = new Planner((message) => this.engine.ask({ do: "heard", ...message }).catch(() => {}));
    this.engine = new Engine({
      role: "screens",
      onState: (state, detail) => this.engineIs(state, detail),
      onMessage: (message) => this.fromPython(message),
    });
    // Once the tool is on the phone Python starts at once, beside the page; before, it would fetch all twice.
    const here = navigator.serviceWorker?.controller;
    if (here) this.engine.start();
    at("copies").onclick = () => this.carry.save();
    at("phone").onclick = () => openSheet(this);
    window.addEventListener("hashchange", () => this.screen.go(this.path()));
    try {
      this.log = await openLog((why) => this.lost(why));
      await this.readSettings();
    } catch (error) {
      this.strip.say("denied", say(error.why === "newer" ? "newer" : "denied"), { firm: true });
    }
    this.carry = new Carry(this);
    this.sync = new Sync(this);
    this.recount();
    await this.screen.before(this.path() || this.settings.path || "/");
    mark("usable");
    this.tabs = "BroadcastChannel" in window ? new BroadcastChannel("undertile") : null;
    if (this.tabs) this.tabs.onmessage = ({ data }) => this.otherTab(data);
    this.opened = true;
    if (this.stage === "ready") this.screen.live();
    await watchBundle(this);
    if (!here) this.engine.start();
    this.sync.begin();
    this.askToKeep();
  }

  // The language, as the screens expect to be told it.
  cookie() {
    return `lang=${this.settings.language || "en"}`;
  }

  path() {
    return decodeURI(location.hash.slice(1));
  }

  async readSettings() {
    const [device, told] = await Promise.all([this.log.device(), this.log.settings(["who", "language", "instrument", "path"])]);
    Object.assign(this.settings, told, { device });
    this.settings.language ||= navigator.language?.startsWith("es") ? "es" : "en";
    speak(this.settings.language);
  }

  lost(why) {
    this.log = null;
    this.strip.say("denied", say(why), { firm: true });
    this.draw();
  }

  // The bar: how many values are kept, how many of them nowhere else, whether Python is up -----------------

  async recount() {
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
    const long = open ? say("open-long", { open }) : words.textContent;
    kept.setAttribute("aria-label", `${say("taken", { all })}. ${long}. ${say("copy")}`);
    document.body.dataset.stage = this.stage;
  }

  // Values -------------------------------------------------------------------------------------------------

  // What the pad calls: resolves once the phone has the value in its storage, and only then is it taken.
  take(job, drafts) {
    return this.write(job, (log) => log.take({ job, drafts, instrument: this.settings.instrument, version: this.version }));
  }

  // This phone's last entry of a fact taken back.
  takeBack(job, fact, seen) {
    return this.write(job, (log) => log.takeBack({ job, fact, seen, version: this.version }));
  }

  async write(job, work) {
    if (!this.log) throw new NotKept("denied");
    try {
      const made = await work(this.log);
      this.strip.drop("full");
      queueMicrotask(() => this.afterKeeping(job));
      return made;
    } catch (error) {
      if (!String(error.why).startsWith("undo-")) this.trouble(error);
      throw error;
    }
  }

  afterKeeping(job) {
    this.tabs?.postMessage({ kept: job });
    this.recount();
    this.screen.kept(job);
    this.sync.soon();
  }

  trouble(error) {
    const why = error instanceof NotKept ? error.why : "denied";
    this.strip.say(why === "full" ? "full" : "denied", say(why), { firm: true });
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
    const words = { slow: "slow", stuck: "stuck", restarting: "restarting", dead: "dead" }[state];
    if (words) this.strip.say("engine", say(words), { firm: state === "stuck" || state === "dead", detail });
    if (state === "ready" || state === "dead" || state === "stuck" || this.stage !== "ready") this.stage = state;
    if (state === "restarting") this.stage = state;
    if (state === "ready") {
      this.strip.drop("engine");
      if (this.opened) this.screen.live();
      setTimeout(() => this.planner.warm(), 1500);
    }
    this.draw();
  }

  fromPython({ plan, refused }) {
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
    await this.log?.set(name, value);
    if (name === "language") speak(value);
    this.tabs?.postMessage({ settings: true });
  }
}

// When what was reached, for whoever measures: performance marks, and no more.
export function mark(name) {
  performance.mark(`undertile-${name}`);
}

window.undertile = new Page();
window.undertile.open();
