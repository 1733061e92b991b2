// The screen: HTML that Python wrote, put in place; its links and forms go to Python in the worker.

import { mark } from "./page.js";
import { Ahead, pathOf } from "./ahead.js";
import { readyToPrint } from "../static/paper.js";
import { dropLast, keepLast, lastKept } from "./last.js";
import { PadHost } from "./padhost.js";
import { MOST_FILE, multipart } from "./multipart.js";
import { patch } from "./patch.js";
import { putBack, unsent } from "./unsent.js";
import { languages, say } from "./words.js";

const FORM = "application/x-www-form-urlencoded";
const LAST_MS = 200; // after a screen is shown, or a value taken on it, until it is kept for the next start
const LAST_MOST_MS = 1000;
const LOOK_MS = 500; // how often a screen that waits for a search is shown anew

export class Screen {
  constructor(place, page) {
    this.place = place;
    this.page = page;
    this.path = "/";
    this.turn = 0;
    this.pictures = [];
    this.unsent = new Map(); // by screen: what was typed there and not kept
    this.pad = new PadHost(page);
    this.ahead = new Ahead(place, (path) => this.askedAhead(path));
    place.addEventListener("click", (event) => this.clicked(event));
    place.addEventListener("submit", (event) => this.submitted(event));
  }

  job(path = this.path) {
    return /^\/job\/([0-9a-f]{32})/.exec(path)?.[1] || "";
  }

  // At start, before the log is open: the screen last shown, if it is this one.
  async early(path) {
    try {
      const kept = lastKept();
      if (!kept || (path && kept.path !== path)) return false;
      this.page.useLanguage(kept.language);
      this.path = kept.path;
      this.last = { told: kept, text: () => inText(kept.nodes) };
      await this.show(kept, { old: true, typed: kept.typed, set: kept.set });
      this.drawn = this.path;
      return true;
    } catch (error) {
      this.path = path || "/";
      this.undrawn(this.path, error);
      return false;
    }
  }

  // At start: what this path last showed, until Python is up. `asked`: by its address, or only the path last open; then no
  // pad goes that somebody has begun on.
  async before(asked, byAddress = true) {
    const path = !byAddress && this.drawn && this.pad.used ? this.drawn : this.spoken(asked);
    const drawn = this.drawn === path;
    this.drawn = null;
    try {
      if (drawn && this.pad.pad && this.page.log) return await this.pad.opened(this.place);
      if (drawn) return null;
      this.path = path;
      const kept = this.page.log ? await this.page.log.page(path).catch(() => null) : null;
      if (kept) {
        expectText(kept, "html");
        this.toLast(path, await this.put(kept.html, { old: true }));
      } else this.note(say("waiting"));
    } catch (error) {
      this.page.log?.keepPage(path, null).catch(() => {});
      this.undrawn(path, error);
    }
    return null;
  }

  // What was kept of a screen is torn, or of another version: it is let go, its place waits for Python, and the
  // start goes on. A pad that somebody has begun on stays.
  undrawn(path, error) {
    console.warn(error);
    clearTimeout(this.lasting);
    this.lasting = 0;
    this.last = null;
    dropLast();
    if (path === this.path && !this.pad.used) this.note(say("waiting"));
  }

  // A path without the language it asks for: that holds for the bar and every screen from now on.
  spoken(path) {
    const [place, query] = path.split("?");
    const told = new URLSearchParams(query);
    const language = told.get("lang");
    if (language === null) return path;
    if (languages().includes(language)) this.page.set("language", language).catch((error) => console.warn(error));
    told.delete("lang");
    const clean = told.size ? `${place}?${told}` : place;
    if (this.page.path() === path) history.replaceState(null, "", `#${clean}`);
    return clean;
  }

  // Python is up. A pad in use stays as it is, and one in the language of this phone; everything else is shown fresh.
  async live() {
    if (this.pad.pad && (this.pad.used || this.pad.sheet.language === this.page.settings.language)) {
      this.place.dataset.old = this.place.dataset.said = "";
      this.place.setAttribute("aria-busy", "false");
      this.shown = this.path;
      await this.pad.refresh(this.path).catch((error) => console.warn(error));
    } else await this.go(this.path, { again: true, news: true });
    mark("first-screen");
  }

  note(words) {
    this.remember();
    const made = document.createElement("p");
    made.className = "shell-note";
    made.textContent = words;
    this.pad.close();
    document.body.dataset.screen = ""; // the bar's keys are there again
    this.place.dataset.old = "yes";
    this.place.dataset.said = "";
    this.place.replaceChildren(made);
  }

  // What was typed into the screen that goes now, and not kept.
  remember() {
    if (this.at) this.unsent.set(this.at, new Map([...(this.unsent.get(this.at) || []), ...unsent(this.place)]));
    this.at = "";
  }

  // Show a path. `again`: the same screen, fresh; `news`: for what came in, so a pad in use meanwhile stays.
  async go(path, { again = false, stay = false, news = false } = {}) {
    const asked = path || "/";
    path = this.spoken(asked);
    again ||= path !== asked; // the same screen, in other words
    if (!again && path === this.shown) return;
    if (path !== this.path) this.page.strip.drop("copy");
    const other = placeOf(path) !== placeOf(this.path);
    this.path = path;
    if (other) window.scrollTo(0, 0);
    this.page.log?.set("path", settled(path)).catch(() => {});
    if (this.page.stage !== "ready") {
      await this.before(path);
      if (this.page.stage !== "ready") return;
    }
    await this.request({ method: "GET", target: path }, { stay, news });
  }

  // One request to Python, its answer on the screen; `focus` finds what had the focus on the new one.
  // `stay`: it is the same screen, with other figures.
  async request(request, { focus = null, stay = false, form = null, news = false } = {}) {
    const turn = ++this.turn;
    let answer;
    try {
      const headers = { accept: "text/html", cookie: this.page.cookie(), ...request.headers };
      answer = await this.page.ask({ ...request, headers });
    } catch (error) {
      if (turn === this.turn) this.page.strip.say("screen", say("fault-page", { trouble: error.message }));
      return;
    }
    if (turn !== this.turn) return; // the person has gone on
    this.page.strip.drop("screen");
    const { status, headers } = answer.head;
    if (status >= 300 && status < 400 && headers.location) {
      if (form) form.dataset.sent = "yes"; // what was in it is kept
      const to = headers.location.replace(/^https?:\/\/[^/]+/, "");
      if (this.path === to) return this.go(to, { again: true });
      location.hash = `#${to}`; // goes on from there
      return;
    }
    const html = new TextDecoder().decode(answer.content);
    if (request.method === "GET") {
      this.toldOnce();
      this.shown = this.path;
    }
    if (news && this.pad.used) return this.pad.refresh(this.path); // opened while this was asked: half a value counts
    const { path } = this;
    const last = await this.put(html, { stay });
    if (request.method === "GET" && status === 200) {
      this.toLast(path, last);
      this.steps(path, last.made, html);
    }
    focus?.()?.focus({ preventScroll: true });
  }

  // What became of what was sent is said once: the address, by which a start comes back here, says it no more.
  toldOnce() {
    const clean = settled(this.path);
    if (clean === this.path) return;
    if (this.page.path() === this.path) history.replaceState(null, "", `#${clean}`);
    this.path = clean;
  }

  // For the next start, when nothing else is to be done, and in a second however fast somebody types. What a person only
  // passes through is not kept.
  toLast(path, last = this.last) {
    this.last = last;
    const now = performance.now();
    if (!this.lasting || this.lastingOf !== path) Object.assign(this, { lastingOf: path, since: now });
    clearTimeout(this.lasting);
    this.lasting = setTimeout(() => {
      this.lasting = 0;
      const { last } = this;
      if (path !== this.path || !last) return;
      this.page.log?.set("path", path).catch(() => {}); // a wall moved by steps went there without asking for it
      if (last.page) this.page.log?.keepPage(path, { html: last.page }).catch(() => {});
      last.page = null;
      const { language } = this.page.settings;
      last.html ??= last.text();
      keepLast({ ...last.told, path, language, typed: this.pad.typed ?? null, set: this.pad.chosen }, last.html);
    }, Math.max(0, Math.min(LAST_MS, this.since + LAST_MOST_MS - now)));
  }

  // The page's own bar stands for the head that a server's page has; the rest goes in as it is. What it is kept as for
  // the next start.
  async put(html, how) {
    const made = parsed(html);
    await this.show(made, how);
    return lastOf(made, html);
  }

  async show({ title, home, href, nodes, ...told }, { old = false, stay = false, typed = null, set } = {}) {
    document.title = title || say("title");
    const link = document.getElementById("home");
    link.textContent = home || say("title");
    link.setAttribute("href", `#${href}`);
    for (const name of ["screen", "job", "root"]) document.body.dataset[name] = told[name];
    this.remember();
    const at = placeOf(this.path);
    if (stay && !this.pad.pad) patch(this.place, nodes);
    else {
      this.pad.close();
      this.place.replaceChildren(...document.importNode(nodes, true).childNodes);
    }
    this.at = at;
    this.unsent.set(at, putBack(this.place, this.unsent.get(at) || new Map()));
    readyToPrint(this.place);
    this.place.dataset.old = old ? "yes" : "";
    this.place.dataset.said = old ? say("as-last") : "";
    this.place.setAttribute("aria-busy", String(old));
    await this.pad.open(this.place, old, { typed, set });
    clearTimeout(this.looking);
    if (this.place.querySelector("[data-search]") && !old) this.looking = setTimeout(() => this.look(), LOOK_MS);
    await this.fetchPictures();
  }

  // What was looked for is there, or a part of it: the screen that waits for it is shown anew.
  look() {
    if (this.place.querySelector("[data-search], [data-later]")) this.go(this.path, { again: true, stay: true });
  }

  // Pictures come from Python's store too: the page has no server to ask.
  async fetchPictures() {
    for (const url of this.pictures) URL.revokeObjectURL(url);
    this.pictures = [];
    for (const image of this.place.querySelectorAll("img[src^='/']")) {
      const target = image.getAttribute("src");
      image.removeAttribute("src");
      if (this.page.stage !== "ready") continue;
      const answer = await this.page.ask({ method: "GET", target }).catch(() => null);
      if (answer?.head.status !== 200) continue;
      const url = URL.createObjectURL(new Blob([answer.content], { type: answer.head.headers["content-type"] }));
      this.pictures.push(url);
      image.src = url;
    }
  }

  clicked(event) {
    if (event.target.closest("[data-print]")) return window.print();
    const link = event.target.closest("a[href]");
    const href = link?.getAttribute("href") || "";
    if (!href || event.defaultPrevented || link.target) return;
    if (link.hasAttribute("download")) {
      event.preventDefault(); // there is no server to get it from
      this.page.carry.fetch(href);
      return;
    }
    if (href.startsWith("#") && !href.startsWith("#/")) {
      event.preventDefault(); // a place on this screen: the address bar names screens
      document.getElementById(href.slice(1))?.scrollIntoView();
      return;
    }
    const target = href.startsWith("?") ? this.path.split("?")[0] + href : href.replace(/^#/, "");
    if (!target.startsWith("/")) return;
    event.preventDefault();
    if (target === this.path) this.go(target, { again: true });
    else location.hash = `#${target}`;
    this.place.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }

  async submitted(event) {
    const form = event.target;
    if (event.defaultPrevented || form.method === "dialog") return;
    event.preventDefault();
    const { submitter } = event;
    const data = new FormData(form, submitter);
    const large = [...data.values()].find((value) => value.size > MOST_FILE);
    if (large) return this.page.strip.say("screen", say("file-larger", { most: `${MOST_FILE / 1e6} MB` }));
    const target = (submitter?.getAttribute("formaction") || form.getAttribute("action") || this.path).replace(/^#/, "");
    if (form.method === "get") return this.asked(form, submitter, target);
    const files = [...data.values()].some((value) => value instanceof File);
    let packed = null;
    try {
      packed = files && (await multipart(data));
    } catch (error) {
      return this.page.strip.say("screen", say("file-unread", { trouble: error.message }));
    }
    const request = packed || { headers: { "content-type": FORM }, body: bytes(new URLSearchParams(data)) };
    await this.request({ method: "POST", target, ...request }, { form });
  }

  // A form that only asks. A wall moved by steps stays one screen, and the finger stays on its key.
  asked(form, submitter, target) {
    const path = pathOf(form, submitter, target);
    if (!form.matches("form.drag") || !submitter) {
      location.hash = `#${path}`;
      return null;
    }
    this.path = this.shown = path;
    history.replaceState(null, "", `#${path}`);
    const { name } = submitter;
    const which = [...form.querySelectorAll(`button[name="${name}"]`)].indexOf(submitter);
    const focus = () => this.place.querySelectorAll(`form.drag button[name="${name}"]`)[which];
    const known = this.ahead.of(path);
    if (!known) return this.request({ method: "GET", target: path }, { focus, stay: true });
    this.turn += 1; // what was asked before is passed
    return this.step(path, known, focus);
  }

  // A step that needs no Python.
  async step(path, { made, html }, focus) {
    await this.show(made, { stay: true });
    this.toLast(path, lastOf(made, html));
    this.steps(path, made, html);
    focus()?.focus({ preventScroll: true });
  }

  // A wall stands there: what is near may be next.
  steps(path, made, html) {
    if (!this.place.querySelector("form.drag") || !this.page.tabs) return; // other tabs could not say what they keep
    this.ahead.keep(path, { made, html });
    this.ahead.look();
  }

  async askedAhead(target) {
    if (this.page.stage !== "ready" || !this.page.tabs) return null;
    const headers = { accept: "text/html", cookie: this.page.cookie(), "sec-purpose": "prefetch" };
    const answer = await this.page.ask({ method: "GET", target, headers });
    if (answer.head.status !== 200) return null;
    const html = new TextDecoder().decode(answer.content);
    return { made: parsed(html), html };
  }

  // A value was kept on this page; another tab kept one.
  kept(job) {
    this.pad.judge(job);
  }

  others(job) {
    if (this.page.stage !== "ready" || (this.job() && this.job() !== job)) return;
    if (this.pad.pad) this.pad.refresh(this.path).catch((error) => console.warn(error));
    else this.go(this.path, { again: true, news: true });
  }
}

function expectText(kept, name) {
  if (typeof kept[name] !== "string") throw new Error(`kept screen: expected text as its ${name}, found ${typeof kept[name]}`);
}

// What Python wrote, apart from what the server's page alone needs.
function parsed(html) {
  const made = new DOMParser().parseFromString(html, "text/html");
  const home = made.querySelector("header.top .home");
  const told = { title: made.title, home: home?.textContent.trim() || "", href: home?.getAttribute("href") || "/", nodes: made.body };
  for (const gone of made.querySelectorAll("header.top, script:not([type='application/json'])")) gone.remove();
  for (const name of ["screen", "job", "root"]) told[name] = made.body.dataset[name] || "";
  return told;
}

// What is kept of a screen: for the next start, and in the log.
function lastOf(made, html) {
  const { nodes, ...told } = made;
  return { told, made, page: html, text: () => inText(parsed(html).nodes) };
}

// What stands on a screen, as a start needs it: the pad works from its sheet, not from the list beside it.
function inText(nodes) {
  const copy = document.createElement("div");
  copy.append(...document.importNode(nodes, true).childNodes);
  if (copy.querySelector("#pad-sheet")) copy.querySelector("#pad-list")?.replaceChildren();
  return copy.innerHTML;
}

const placeOf = (path) => path.split("?")[0];
const TOLD = ["kept", "undone", "new", "known", "other"]; // screens/page.py

// A path without what it tells once.
function settled(path) {
  const [place, query] = path.split("?");
  const told = new URLSearchParams(query);
  if (!TOLD.some((name) => told.has(name))) return path;
  for (const name of TOLD) told.delete(name);
  return told.size ? `${place}?${told}` : place;
}
const bytes = (text) => new TextEncoder().encode(String(text));
