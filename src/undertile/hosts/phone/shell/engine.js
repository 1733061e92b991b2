// The page's side of a worker with Python: starts it, asks it, starts it anew when its interpreter has died.

import { drop } from "./heap.js";

export const SLOW_MS = 12000; // then the page says that it is still starting
export const GIVE_UP_MS = 90000; // without a step forward in between: then it says what to do
const MOST_RESTARTS = 3; // in a row, without an answer in between

export class Engine {
  // role "screens" or "plan"; onState(state, detail): fetching, starting, python, imported, ready, slow, stuck,
  // restarting, dead; onMessage(message): what the worker says unasked
  // `keeps`: its memory may be kept for the starts to come, for nobody waits for it.
  constructor({ role, keeps = false, onState = () => {}, onMessage = () => {} }) {
    Object.assign(this, { role, keeps, onState, onMessage });
    this.plainly = false; // not from the memory that was kept (heap.js)
    this.from = ""; // "memory" or "bundle"
    this.waiting = new Map();
    this.number = 0;
    this.restarts = 0;
    this.times = {};
    this.state = "off";
    this.worker = null;
  }

  start() {
    this.state = "starting";
    this.ready = new Promise((resolve, reject) => Object.assign(this, { resolve, reject }));
    this.ready.catch(() => {});
    this.watch();
    this.worker = new Worker(new URL("worker.js", import.meta.url), { type: "module", name: this.role });
    const own = this.worker;
    own.onmessage = ({ data }) => own === this.worker && this.heard(data);
    own.onerror = (event) => {
      event.preventDefault?.();
      if (own === this.worker) this.died(event.message || "the worker could not be loaded");
    };
    const { role, keeps, plainly } = this;
    own.postMessage({ do: "start", id: 0, role, keeps, plainly });
    return this.ready;
  }

  watch() {
    clearTimeout(this.slow);
    clearTimeout(this.stuck);
    if (this.state === "ready" || this.state === "off") return;
    this.slow = setTimeout(() => this.onState("slow"), SLOW_MS);
    this.stuck = setTimeout(() => {
      this.distrust();
      this.stop();
      this.onState("stuck");
    }, GIVE_UP_MS);
  }

  // It stopped, or never came up: what was kept of its memory may be the cause, and is not used again.
  distrust() {
    this.plainly = true;
    drop();
  }

  stop() {
    this.worker?.terminate();
    this.worker = null;
    this.state = "off";
    this.watch();
  }

  heard(data) {
    if (data.state) {
      this.times[data.state] = data.at;
      this.from = data.from || this.from;
      this.state = data.state === "ready" ? "ready" : "starting";
      this.watch();
      if (data.state === "ready") this.resolve();
      this.onState(data.state);
      return;
    }
    if (data.id === undefined) return this.onMessage(data);
    if (data.fatal) return this.died(data.trouble, data.id);
    const asked = this.waiting.get(data.id);
    this.waiting.delete(data.id);
    if (!asked) return;
    this.restarts = 0;
    if (data.trouble) asked.reject(new Error(data.trouble));
    else asked.resolve(data.result);
  }

  // A dead interpreter: a new worker replays the log from the phone's storage; what was asked is asked once more.
  died(trouble, id, { own = true } = {}) {
    if (own) this.distrust();
    this.stop();
    this.restarts += 1;
    for (const [number, asked] of [...this.waiting]) {
      if (number === id) asked.fatal = (asked.fatal || 0) + 1;
      if (asked.fatal > 1 || this.restarts > MOST_RESTARTS) {
        this.waiting.delete(number);
        asked.reject(new Error(trouble));
      }
    }
    if (this.restarts > MOST_RESTARTS) {
      this.onState("dead", trouble);
      this.reject(new Error(trouble));
      return;
    }
    console.warn("Python stopped:", trouble);
    this.onState("restarting", trouble);
    const before = this.resolve;
    this.start().then(() => {
      before();
      for (const [number, asked] of this.waiting) this.post(number, asked.message);
    }, () => {});
  }

  restart(reason) {
    this.died(reason, undefined, { own: false });
    return this.ready;
  }

  async ask(message) {
    await this.ready;
    return new Promise((resolve, reject) => {
      const id = ++this.number;
      this.waiting.set(id, { message, resolve, reject });
      this.post(id, message);
    });
  }

  post(id, message) {
    this.worker.postMessage({ ...message, id });
  }
}

// The second worker: one search at a time; a newer one for the same job, or one that somebody waits for where none
// was waited for, ends the older by ending its worker.
export class Planner {
  constructor(toScreens, onBusy = () => {}) {
    Object.assign(this, { toScreens, onBusy });
    this.engine = null;
    this.running = null;
    this.queue = [];
    this.early = null; // asked by nobody yet: waits until the second worker is up
  }

  // Start it before it is needed, once the screens are up; then it has the time to keep its memory.
  warm(keeps = true) {
    if (this.engine) return;
    this.engine = new Engine({
      role: "plan",
      keeps,
      onState: (state) => {
        if (state === "dead" || state === "stuck") this.gone(state);
      },
      onMessage: ({ progress, found }) => this.toScreens(progress || found),
    });
    this.engine.start().catch(() => {});
    if (this.early) this.queue.push(this.early);
    this.early = null;
    queueMicrotask(() => this.next());
  }

  // The room it would take is needed: one that is still starting may be about to keep its memory.
  makesRoom() {
    if (!this.engine || this.engine.state === "ready") return;
    this.engine.stop();
    this.gone("no room");
  }

  gone(why) {
    for (const each of [this.running, ...this.queue]) if (each) this.toScreens({ key: each.search, lost: why });
    this.running = null;
    this.queue = [];
    this.engine = null;
  }

  asked(message) {
    if (message.cancel) return this.giveUp((each) => each.search === message.cancel);
    const known = [this.running, ...this.queue].find((each) => each?.search === message.search);
    if (known) {
      known.early &&= message.early; // what was begun ahead: now somebody waits for it
      return;
    }
    if (message.early && !this.engine) {
      this.early = message;
      return;
    }
    if (!message.early) this.giveUp((each) => each.early || each.job === message.job);
    this.queue.push(message);
    this.next();
  }

  giveUp(which) {
    if (this.early && which(this.early)) this.early = null;
    for (const each of this.queue.filter(which)) this.toScreens({ key: each.search, lost: "given up" });
    this.queue = this.queue.filter((each) => !which(each));
    if (this.running && which(this.running)) {
      const { search } = this.running;
      this.running = null;
      this.engine.stop();
      this.engine = null;
      this.toScreens({ key: search, lost: "given up" });
    }
  }

  async next() {
    if (this.running || !this.queue.length) return;
    this.warm(false);
    const own = this.engine;
    await own.ready.catch(() => {}); // it may be keeping its memory: what is given up meanwhile does not end it
    if (own !== this.engine || this.running || !this.queue.length) return;
    const message = (this.running = this.queue.shift());
    this.onBusy(true);
    try {
      await own.ask({ do: "search", key: message.search, log: message.log });
    } catch (error) {
      if (own === this.engine && this.running === message) this.toScreens({ key: message.search, lost: String(error.message) });
    }
    if (this.running === message) this.running = null;
    this.onBusy(false);
    this.next();
  }
}
