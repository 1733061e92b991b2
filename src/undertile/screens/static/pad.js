// The pad: one thumb, wet gloves, a ladder. It works from a pad sheet alone (plain data) and from what the host
// gives: take(fact, text, {supersedes, also}) and undo(fact, stands), each a Promise of {stands, judged}. A value is
// shown as kept only when that promise is fulfilled; a value that could not be kept stays in sight until it is. Where
// the host knows what was chosen before (set: order, speak) the browser's own small store need not be waited for; it is
// told of another choice (chosen).
import { Face, kindOf } from "./face.js";
import { listPanel } from "./list.js";
import { newPlace } from "./newplace.js";
import { nextOf, ordered } from "./order.js";
import * as percents from "./percent.js";
import { numberOf, spoken } from "./reading.js";
import { typed } from "./typing.js";

const BOUNCE_MS = 90; // a glove that lifts unevenly touches twice
const SAME_LIFT_MS = 50;
const HOLD_MS = 800; // a thumb on its way to the place that stood here before
const SEEN_MS = 1500; // what came while a thumb was on its way counts as seen after that

export function openPad(box, sheet, host) {
  return new Pad(box, sheet, host);
}

class Pad extends Face {
  constructor(box, sheet, host) {
    super(box, sheet);
    this.host = host;
    this.unit = sheet.unit;
    this.rows = sheet.rows.map((row) => ({ ...row, stands: [...row.stands], also: [...(row.also || [])], state: "" }));
    this.set = { order: "up", speak: false, meter: sheet.unit, ...(host.set ?? settings()) };
    this.done = []; // what can be taken back, the last at the end
    this.queue = Promise.resolve();
    this.waiting = [];
    this.judged = sheet.judged || { doubts: [], looks: [] };
    this.last = null;
    this.skipped = new Set();
    this.buffer = "";
    this.asked = "";
    this.taps = 0;
    this.mode = "part";
    this.strong = "";
    this.minus = false;
    this.page = 0;
    this.pressedAt = { key: "", time: 0 };
    this.others = [];
    this.turns = 0;
    this.order = ordered(this.rows, this.set.order);
    const first = this.rows.findIndex((row) => row.fact === sheet.at);
    this.at = first >= 0 ? first : this.next(null);
    this.resume = first >= 0 && this.rows[first].value ? -1 : null;
    this.build();
    this.begin();
    this.listen();
  }

  // The keys of the row one is at.
  begin() {
    const row = this.rows[this.at];
    this.mode = "part";
    this.strong = "";
    this.minus = false;
    this.page = 0;
    if (row && !percents.isRound(row)) this.whole = this.wholeFor(row);
    this.draw();
  }

  // The whole inch (or centimetre) to begin with: that of the last reading of the same kind.
  wholeFor(row) {
    const number = this.lastNumber(row);
    if (row.kind === "signed" || number === null) return 0;
    return Math.max(0, Math.floor(this.unit === "mm" ? number / 10 : number));
  }

  lastNumber(row) {
    const same = (each) => each && each.group === row.group && numberOf(each.value, this.unit) !== null;
    if (this.last && same(this.rows[this.last.index])) return numberOf(this.rows[this.last.index].value, this.unit);
    const here = this.order.indexOf(this.at);
    for (let k = here; k >= 0; k -= 1) if (same(this.rows[this.order[k]])) return numberOf(this.rows[this.order[k]].value, this.unit);
    return numberOf(row.near, this.unit);
  }

  // --- somebody else on the same sheet

  next(after) {
    const own = after === null ? undefined : this.rows[after].stud;
    return nextOf(this.rows, this.order, after, this.skipped, (index) => this.isHeld(index) && (own === undefined || this.rows[index].stud !== own));
  }

  isHeld(index) {
    const row = this.rows[index];
    return this.others.some(({ row: other }) => (row.stud === undefined ? other === row : other.stud === row.stud));
  }

  // Who else reads here, and where: `[{who, fact}]`.
  beside(others) {
    const before = this.others.map(({ who, row }) => who + row.fact).join();
    this.others = others.map(({ who, fact }) => ({ who, row: this.rows.find((row) => row.fact === fact) })).filter(({ row }) => row);
    if (before === this.others.map(({ who, row }) => who + row.fact).join()) return;
    if (!this.taps && this.rows[this.at] && this.resume === null && this.isHeld(this.at)) {
      this.at = this.next(null); // nothing was pressed yet: begin where nobody stands
      this.begin();
    } else this.drawNews();
  }

  // What others have read meanwhile, and places they have added. The pad stays where it is: a thumb may be on its way to a key.
  // `asked`: what `turns` was when it was asked for; a row typed on since knows better.
  news(told, asked = this.turns) {
    const byFact = new Map(this.rows.map((row) => [row.fact, row]));
    const fresh = this.sheet.walked ? told.filter((each) => !byFact.has(each.fact)) : [];
    if (fresh.length) this.insert(fresh, this.order.length);
    for (const { fact, value, stands, clash } of told) {
      const row = byFact.get(fact);
      if (!row || row.turn > asked || row.state === "keeping" || row.state === "lost" || String(row.came?.stands || row.stands) === String(stands)) continue;
      Object.assign(row, { value, clash });
      if (row === this.rows[this.at]) row.came = { stands, time: performance.now() };
      else Object.assign(row, { stands, came: null });
    }
    this.drawPlace();
    this.drawNews();
  }

  // --- what is pressed

  listen() {
    let down = null;
    this.off = new AbortController();
    const signal = this.off.signal;
    const on = (target, kind, then, capture = false) => target.addEventListener(kind, then, { signal, capture });
    let lifted = null;
    on(this.box, "pointerdown", (event) => {
      lifted = null; // another touch: its click is meant, however soon
      const key = event.target.closest?.("[data-press]");
      if (!key || !event.isPrimary || event.button > 0) return;
      key.setPointerCapture?.(event.pointerId);
      down = { press: key.dataset.press, y: event.clientY, x: event.clientX };
      this.wake();
    });
    on(this.box, "pointerup", (event) => {
      if (!down || !event.isPrimary) return;
      const { press, x, y } = down;
      down = null;
      lifted = event.timeStamp;
      const up = y - event.clientY;
      if (Math.abs(event.clientX - x) > 60 || Math.abs(up) > 140) return; // a hand that slid off meant nothing
      this.press(press, up > 24 ? "+" : up < -24 ? "-" : "");
    });
    // the same lift of the finger also clicks, and what it opened lies under it by then
    const meant = (event) => event.detail === 0 || lifted === null || event.timeStamp - lifted > SAME_LIFT_MS;
    on(this.box, "click", (event) => meant(event) || (event.stopPropagation(), event.preventDefault()), true);
    on(this.box, "pointercancel", () => {
      down = null;
    });
    on(this.box, "click", (event) => {
      const key = event.target.closest?.("[data-press]");
      if (key && event.detail === 0) this.press(key.dataset.press, ""); // by keyboard or by a reader
    });
    on(document, "keydown", (event) => typed(this, event));
    on(document, "visibilitychange", () => {
      if (document.visibilityState === "visible" && this.lock) this.wake();
    });
  }

  // The fact asked for.
  get asks() {
    return this.rows[this.at]?.fact ?? "";
  }

  // Another place than the one that stood here a moment ago: what is pressed until it is seen was meant for that one.
  hold() {
    this.still = true;
    this.box.dataset.hold = "yes";
    setTimeout(() => {
      this.still = false;
      if (!this.off.signal.aborted) delete this.box.dataset.hold;
    }, HOLD_MS);
  }

  press(press, slide) {
    if (this.still) return;
    const time = performance.now();
    if (press === this.pressedAt.key && time - this.pressedAt.time < BOUNCE_MS) return;
    this.pressedAt = { key: press, time };
    this.taps += 1;
    this.asked = "";
    this.buffer = "";
    if (press === "undo") return this.undo();
    if (press === "list") return listPanel(this);
    if (press === "free") return this.toFree();
    if (press === "retry") return this.retry();
    if (press === "new") return newPlace(this);
    if (press.startsWith("go ")) return this.go(press.slice(3), true);
    const row = this.rows[this.at];
    const text = kindOf(press.startsWith("wet ") ? { kind: "percent" } : row).pressed(this, press, slide);
    if (text === undefined) this.draw();
    else if (text !== null) this.take(text);
  }

  go(fact, resume) {
    const index = this.rows.findIndex((row) => row.fact === fact);
    if (index < 0) return;
    if (resume && this.resume === null) this.resume = this.at;
    this.at = index;
    this.asked = "";
    this.begin();
  }

  // To where nobody else stands; what is left here is offered again at the end.
  toFree() {
    const free = nextOf(this.rows, this.order, this.at, this.skipped, (index) => this.isHeld(index));
    if (free >= 0) this.at = free;
    this.resume = null;
    this.begin();
  }

  passOver() {
    this.skipped.add(this.at);
    this.on(this.at);
    this.begin();
  }

  // On from here: back to where one came from, or to the next that is open.
  on(index) {
    this.at = this.resume !== null && this.resume >= 0 ? this.resume : this.next(index);
    this.resume = null;
  }

  valueOf(fact) {
    return this.rows.find((row) => row.fact === fact)?.value;
  }

  // A place that was not on the sheet: read next. What it is goes along with the first thing typed there.
  addPlace({ name, where, at, facts }) {
    const base = `wood.points.${quoted(name)}`;
    const fact = (part) => `${base}.${part}.${quoted(this.sheet.places.visit)}`;
    if (!this.rows.some((row) => row.fact === fact("shown"))) {
      const also = Object.entries(facts).map(([part, value]) => ({ fact: `${base}.${part}`, value }));
      const make = (part, kind, more) => ({ fact: fact(part), label: where, at, kind, value: null, stands: [], clash: false, near: "", also, of: fact("shown"), hidden: false, ...more });
      const beside = { surface: fact("surface"), awl: fact("awl"), pick: fact("pick") };
      const rows = [
        make("shown", "percent", { of: undefined, beside, extra: false, last: this.say("pad-first"), pins: this.say("pad-new-holes") }),
        make("surface", "surface", { hidden: true }),
        make("awl", "awl", { beside: { pick: beside.pick } }),
        make("pick", "pick", { hidden: true }),
      ];
      const here = this.order.indexOf(this.at);
      this.insert(rows, here < 0 ? this.order.length : here);
    }
    this.go(fact("shown"), false);
  }

  // Rows that were not on the sheet, at a place of the order.
  insert(rows, at) {
    const first = this.rows.length;
    this.rows.push(...rows.map((row) => ({ ...row, state: "" })));
    this.order.splice(at, 0, ...rows.map((row, k) => first + k).filter((index) => !this.rows[index].hidden));
  }

  // --- what is taken

  // `stay`: said of a point and no station of its own; the pad goes nowhere.
  take(text, { undoing = false, index = this.at, stay = false } = {}) {
    const row = this.rows[index];
    if (!row) return;
    const was = row.value;
    this.turns += 1;
    row.turn = this.turns;
    if (!undoing) this.done.push({ index, value: was, at: this.at });
    row.value = text;
    row.clash = false;
    row.state = "keeping";
    const others = (told) => (told || []).filter((each) => each.fact !== row.fact); // it is judged anew
    if (row.came && performance.now() - row.came.time > SEEN_MS) row.stands = row.came.stands;
    row.came = null;
    this.judged = { ...this.judged, doubts: others(this.judged.doubts), looks: others(this.judged.looks) };
    if (this.judged.points) this.judged.points = without(this.judged.points, row.of || row.fact);
    if (text === "") this.skipped.add(index);
    this.last = { index };
    this.keep(index, text, undoing, was);
    if (!undoing) {
      this.tell(row);
      if (!stay) this.on(index);
    }
    this.begin();
  }

  keep(index, text, undoing, was) {
    this.waiting.push({ index, text, undoing, was });
    this.queue = this.queue.then(() => this.drain());
  }

  async drain() {
    while (this.waiting.length) {
      const { index, text, undoing, was } = this.waiting[0];
      const row = this.rows[index];
      try {
        const also = text ? [...row.also] : [];
        const answer = await (undoing ? this.host.undo(row.fact, row.stands) : this.host.take(row.fact, text, { supersedes: row.stands, also }));
        row.stands = answer?.stands || row.stands;
        row.clash = row.stands.length > 1;
        if (text) row.also.length = 0; // of all rows of a new place
        this.waiting.shift();
        if (!this.waiting.some((each) => each.index === index)) row.state = "kept";
        if (answer && answer.judged) this.judge(answer.judged);
        else this.drawNews();
      } catch (error) {
        if (undoing && error?.refused) {
          // somebody has replaced it since: what stands stays, and the next key says no more of it
          this.waiting.shift();
          row.value = was;
          row.state = "kept";
          this.asked = error.message;
          this.draw();
          continue;
        }
        row.state = "lost";
        row.why = error?.message || "";
        this.drawNews();
        return; // kept in sight and in the queue; tried again when asked, or with the next value
      }
    }
  }

  retry() {
    for (const row of this.rows) if (row.state === "lost") row.state = "keeping";
    this.queue = this.queue.then(() => this.drain());
    this.draw();
  }

  undo() {
    const before = this.done.pop();
    if (!before) return this.draw();
    this.at = before.at;
    this.resume = null;
    this.skipped.delete(before.index);
    this.take(before.value ?? null, { undoing: true, index: before.index });
  }

  // What the survey says of the readings now; may come later than the value it is about.
  judge(judged) {
    const points = Object.entries(judged.points || {}).filter(([fact]) => !this.rows.some((row) => row.state === "keeping" && (row.of || row.fact) === fact));
    this.judged = { ...judged, points: Object.fromEntries(points) };
    if (!this.rows[this.at] && !this.panel) this.drawDone();
    this.drawNews();
  }

  tell(row) {
    if (!this.set.speak || !globalThis.speechSynthesis) return;
    const text = percents.isRound(row) || row.value === "x" ? this.shown(row) : spoken(row.value || this.say("pad-skipped"), this.sheet.language);
    const words = new SpeechSynthesisUtterance(`${row.label} ${row.at}: ${text}`);
    words.lang = this.sheet.language;
    speechSynthesis.cancel();
    speechSynthesis.speak(words);
  }

  async wake() {
    try {
      this.lock = await navigator.wakeLock?.request("screen");
    } catch {
      this.lock = null; // not offered here, or battery saving: the screen may sleep
    }
  }

  change(name, value) {
    this.set[name] = value;
    try {
      localStorage.setItem("undertile-pad", JSON.stringify(this.set));
    } catch {
      // private window: the choice holds for this page
    }
    this.host.chosen?.({ order: this.set.order, speak: this.set.speak });
    if (name === "order") {
      this.order = ordered(this.rows, value);
      if (!this.rows[this.at] || this.rows[this.at].value === null) this.at = this.next(null);
    }
    this.begin();
  }

  close() {
    this.off.abort();
    this.lock?.release?.();
    delete this.box.dataset.hold;
    this.box.replaceChildren();
  }
}

// A part of an address, as `job/address.py` writes it.
const quoted = (part) => (/^[^."\s][^.]*$/.test(part) && !/\s$/.test(part) ? part : JSON.stringify(part));

const without = (points, fact) => Object.fromEntries(Object.entries(points).filter(([each]) => each !== fact));

function settings() {
  try {
    const { order, speak } = JSON.parse(localStorage.getItem("undertile-pad") || "{}");
    return { ...(order ? { order } : {}), ...(speak ? { speak } : {}) };
  } catch {
    return {};
  }
}
