// Who else stands at which reading: told to the laptop every few seconds while a pad is open, and asked of it. No part
// of the record. Where there is no laptop the pad works as ever.

const ALONE_MS = 4000;
const TOGETHER_MS = 1200;
const AWAY_MS = 15000; // it may come into reach
const HELD_MS = 20000; // one question without an answer tells nothing of where the others are

export class Beside {
  // `pad` is told who is where; `news(digest)` that the laptop's log has changed; `nobody()` says whether no laptop can
  // answer here, or throws where that is not known yet.
  constructor({ url, job, device, pad, news, nobody = async () => false }) {
    Object.assign(this, { url, job, device, pad, news, nobody });
    this.others = [];
    this.heard = -Infinity;
    this.digest = null;
    this.turn();
  }

  async turn() {
    const wait = document.hidden ? ALONE_MS : await this.ask();
    if (this.closed || wait === null) return;
    this.timer = setTimeout(() => this.turn(), wait);
  }

  // Milliseconds until the next time; null where nobody answers such a question.
  async ask() {
    const { pad } = this;
    let answer = null;
    let told = null;
    try {
      if ((await this.nobody()) || this.closed) return null;
      answer = await this.say(pad.rows[pad.at]?.fact || "");
      told = answer.ok ? await answer.json() : null;
    } catch {
      if (answer?.ok) return null; // some host's own page
    }
    if (this.closed || (answer && !answer.ok && ![401, 429, 500, 502, 503, 504].includes(answer.status))) return null;
    const now = performance.now();
    if (told) this.heard = now;
    const kept = now - this.heard < HELD_MS ? this.others : [];
    this.others = Array.isArray(told?.others) ? told.others : kept;
    pad.beside(this.others);
    if (!told) return this.others.length ? ALONE_MS : AWAY_MS;
    const changed = this.digest !== null && told.digest !== this.digest;
    this.digest = told.digest;
    if (changed) this.news(told.digest);
    return this.others.length ? TOGETHER_MS : ALONE_MS;
  }

  say(fact) {
    const body = JSON.stringify({ device: this.device, job: this.job, fact });
    return fetch(this.url, { method: "POST", body, headers: { "content-type": "application/json" }, keepalive: true });
  }

  close() {
    this.closed = true;
    clearTimeout(this.timer);
    if (this.digest !== null) this.say("").catch(() => {}); // gone from here
  }
}
