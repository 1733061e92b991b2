// The pad on the phone: a value counts once this phone's storage has it; Python's judgement comes when it comes.

import { Beside } from "../static/beside.js";
import { openPad } from "../static/pad.js";
import { say } from "./words.js";

export class PadHost {
  constructor(page) {
    this.page = page;
    this.pad = null;
    this.sheet = null;
    this.toJudge = [];
    this.judging = false;
  }

  // Open the pad where the screen has one. `old`: the sheet is from before, so what was typed since is laid in;
  // `typed` and `set`: what is known of that, and of the pad's settings, while the log is still being opened (last.js);
  // `own`: read from it before.
  // Where an early pad gives way to one that stands at another place, that one holds still for a moment.
  async open(place, old, { typed = null, own = null, set = this.chosen } = {}) {
    const before = this.early ? this.pad?.asks : null;
    this.close();
    const told = place.querySelector("#pad-sheet");
    const box = place.querySelector("#pad");
    if (!told || !box) return;
    this.sheet = JSON.parse(told.textContent);
    this.typed = { ...typed };
    this.early = Boolean(typed);
    if (typed) layTyped(this.sheet, typed);
    else if (own) lay(this.sheet, own);
    else if (old && this.page.log) lay(this.sheet, await this.page.log.own(this.sheet.job));
    place.querySelector("#pad-list").hidden = true;
    box.hidden = false;
    const take = (fact, text, more) => this.take(fact, text, more);
    const undo = (fact, stands) => this.undo(fact, stands);
    this.set = set;
    this.pad = openPad(box, this.sheet, { take, undo, set, chosen: (now) => this.choose(now) });
    if (before && before !== this.pad.asks) this.pad.hold();
    if (!typed) this.together();
  }

  // The log is open: what was not known before comes in. A pad that nobody has touched begins anew, where it is to;
  // it is asked after the log is read, so that no key is pressed on a pad that goes, and half a value counts.
  async opened(place) {
    const { pad, sheet } = this;
    const own = await this.page.log.own(sheet.job);
    if (pad !== this.pad) return null;
    if (!pad.taps && !pad.turns && !pad.buffer) return this.open(place, true, { own });
    const fresh = lay(sheet, own);
    this.early = false;
    pad.news(sheet.rows, 0);
    pad.judge(without(pad.judged, sheet.rows, fresh)); // what was typed before the log was open is out of it already
    return this.together();
  }

  // Whether somebody has begun on it.
  get used() {
    const { pad } = this;
    return Boolean(pad && (pad.taps || pad.turns || pad.buffer || pad.panel));
  }

  // Who else reads here.
  together() {
    const { page } = this;
    if (page.sync?.state === "none" || !page.settings.device) return;
    const url = new URL("../../beside", import.meta.url);
    const news = () => page.sync?.soon(0);
    const nobody = () => page.sync.nobody();
    this.beside = new Beside({ url, job: this.sheet.job, device: page.settings.device, pad: this.pad, news, nobody });
  }

  close() {
    this.beside?.close();
    this.beside = null;
    this.pad?.close();
    this.pad = this.sheet = this.typed = null;
  }

  async take(fact, text, { supersedes = [], also = [] } = {}) {
    const drafts = also.map((each) => ({ fact: each.fact, value: each.value, stands: each.stands || [] }));
    let made;
    try {
      made = await this.page.take(this.sheet.job, [...drafts, { fact, value: text, stands: supersedes }], this.early);
    } catch (error) {
      throw new Error(say(error.why || "denied"));
    }
    if (this.beside?.others.length) this.page.sync.soon(150); // somebody is waiting for it
    const stands = [made.at(-1).id];
    this.since(fact, text, stands);
    return { stands };
  }

  since(fact, value, stands) {
    this.typed[fact] = { value, stands };
    this.toLast();
  }

  toLast() {
    this.page.screen.toLast(this.page.screen.path);
  }

  // What was chosen for all pads: the browser's own small store is on the disk seconds later, if the phone lives so long.
  choose(set) {
    this.set = set;
    this.page.set("pad", set).catch((error) => console.warn(error));
    this.toLast();
  }

  // As far as it is known: what the log has, before that what the last screen had.
  get chosen() {
    return this.page.settings.pad || this.set;
  }

  async undo(fact, stands) {
    try {
      const made = await this.page.takeBack(this.sheet.job, fact, stands);
      const now = made.map((entry) => entry.id);
      this.since(fact, made[0]?.value ?? "", now);
      return { stands: now };
    } catch (error) {
      const refused = String(error.why).startsWith("undo-");
      throw Object.assign(new Error(say(error.why || "denied")), { refused });
    }
  }

  // What this phone has kept goes to Python for judgement; while it judges, more may come and go together.
  async judge(job) {
    if (this.judging || !this.sheet || this.sheet.job !== job) {
      this.again = this.judging;
      return;
    }
    this.judging = true;
    try {
      do {
        this.again = false;
        const { pad } = this;
        const answer = await this.page.ask({
          method: "POST",
          target: this.sheet.entries,
          headers: { accept: "application/json", "content-type": "application/json", cookie: this.page.cookie() },
          body: new TextEncoder().encode('{"entries":[],"only":"judged"}'),
        });
        const told = JSON.parse(new TextDecoder().decode(answer.content));
        if (pad && pad === this.pad && told.judged) pad.judge(told.judged);
        performance.mark("undertile-judged");
      } while (this.again && this.sheet?.job === job);
    } catch (error) {
      console.warn(error); // the value is kept; the judgement comes with the next one
    }
    this.judging = false;
  }

  // Python is up, or another tab or phone has added values: they come in without disturbing who types.
  async refresh(path) {
    const { pad } = this;
    const asked = pad.turns;
    const answer = await this.page.ask({
      method: "GET",
      target: path,
      headers: { accept: "application/json", cookie: this.page.cookie() },
    });
    if (pad !== this.pad || answer.head.status !== 200) return;
    const fresh = JSON.parse(new TextDecoder().decode(answer.content));
    pad.news(fresh.rows, asked);
    pad.judge(fresh.judged);
  }
}

// What this phone has typed since the sheet was made; of which facts.
function lay(sheet, own) {
  const fresh = new Set();
  for (const row of sheet.rows) {
    const entry = own.get(row.fact);
    if (!entry || row.stands.includes(entry.id)) continue;
    row.value = entry.value;
    row.stands = [...row.stands.filter((id) => !entry.supersedes.includes(id)), entry.id];
    fresh.add(row.fact);
  }
  anew(sheet, fresh);
  return fresh;
}

function layTyped(sheet, typed) {
  for (const row of sheet.rows) Object.assign(row, typed[row.fact]);
  anew(sheet, new Set(Object.keys(typed)));
}

// A reading typed anew is judged anew: what was said of the one before holds no more, and it is not asked for again.
function anew(sheet, facts) {
  sheet.judged = without(sheet.judged || {}, sheet.rows, facts);
  if (facts.has(sheet.at)) sheet.at = "";
}

function without(judged, rows, facts) {
  const others = (told) => (told || []).filter((each) => !facts.has(each.fact));
  const places = new Set(rows.filter((row) => facts.has(row.fact)).map((row) => row.of || row.fact));
  const points = Object.entries(judged.points || {}).filter(([fact]) => !places.has(fact));
  return { ...judged, doubts: others(judged.doubts), looks: others(judged.looks), points: Object.fromEntries(points) };
}
