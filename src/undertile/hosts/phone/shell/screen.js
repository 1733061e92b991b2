// The screen: HTML that Python wrote, put in place; its links and forms go to Python in the worker.

import { mark } from "./page.js";
import { say } from "./words.js";

const FORM = "application/x-www-form-urlencoded";

export class Screen {
  constructor(place, page) {
    this.place = place;
    this.page = page;
    this.path = "/";
    this.turn = 0;
    this.pictures = [];
    place.addEventListener("click", (event) => this.clicked(event));
    place.addEventListener("submit", (event) => this.submitted(event));
  }

  job(path = this.path) {
    return /^\/job\/([0-9a-f]{32})/.exec(path)?.[1] || "";
  }

  // At start: what this path last showed, until Python is up.
  async before(path) {
    this.path = path;
    const kept = this.page.log ? await this.page.log.page(path).catch(() => null) : null;
    if (kept) await this.put(kept.html, { old: true });
    else this.note(say("waiting"));
  }

  async live() {
    await this.go(this.path, { again: true });
    mark("first-screen");
  }

  note(words) {
    const made = document.createElement("p");
    made.className = "shell-note";
    made.textContent = words;
    this.place.replaceChildren(made);
  }

  // Show a path. `again`: the same screen, fresh; where the person stands is left alone.
  async go(path, { again = false } = {}) {
    path ||= "/";
    if (!again && path === this.path && this.shown === path) return;
    this.path = path;
    this.page.log?.set("path", path).catch(() => {});
    if (this.page.stage !== "ready") {
      await this.before(path);
      if (this.page.stage !== "ready") return;
    }
    await this.request({ method: "GET", target: path });
  }

  async request(request) {
    const turn = ++this.turn;
    let answer;
    try {
      answer = await this.page.ask({ headers: { accept: "text/html" }, ...request });
    } catch (error) {
      if (turn === this.turn) this.page.strip.say("screen", say("fault-page", { trouble: error.message }));
      return;
    }
    if (turn !== this.turn) return; // the person has gone on
    this.page.strip.drop("screen");
    const { status, headers } = answer.head;
    if (status >= 300 && status < 400 && headers.location) {
      const to = headers.location.replace(/^https?:\/\/[^/]+/, "");
      if (this.path === to) return this.go(to, { again: true });
      location.hash = `#${to}`; // goes on from there
      return;
    }
    const html = new TextDecoder().decode(answer.content);
    if (request.method === "GET") {
      this.shown = this.path;
      if (status === 200) this.page.log?.keepPage(this.path, { html }).catch(() => {});
    }
    await this.put(html);
  }

  async put(html, { old = false } = {}) {
    const made = new DOMParser().parseFromString(html, "text/html");
    document.title = made.title || say("title");
    const main = made.querySelector("main") || made.body;
    for (const script of main.querySelectorAll("script:not([type='application/json'])")) script.remove();
    this.place.replaceChildren(...document.importNode(main, true).childNodes);
    this.place.dataset.old = old ? "yes" : "";
    this.place.setAttribute("aria-busy", String(old));
    await this.fetchPictures();
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
    const link = event.target.closest("a[href]");
    const href = link?.getAttribute("href");
    if (!href?.startsWith("/") || event.defaultPrevented) return;
    event.preventDefault();
    if (href === this.path) this.go(href, { again: true });
    else location.hash = `#${href}`;
    this.place.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }

  async submitted(event) {
    const form = event.target;
    if (event.defaultPrevented || form.method === "dialog") return;
    event.preventDefault();
    const data = new FormData(form, event.submitter);
    const target = (event.submitter?.getAttribute("formaction") || form.getAttribute("action") || this.path).replace(/^#/, "");
    if (form.method === "get") {
      const query = new URLSearchParams([...data].filter(([, value]) => typeof value === "string"));
      location.hash = `#${target.split("?")[0]}?${query}`;
      return;
    }
    const files = [...data.values()].some((value) => value instanceof File);
    const request = files ? await multipart(data) : { headers: { "content-type": FORM }, body: bytes(new URLSearchParams(data)) };
    await this.request({ method: "POST", target, ...request, headers: { accept: "text/html", ...request.headers } });
  }

  // A value was kept on this page; another tab kept one.
  kept() {}

  others(job) {
    if (this.page.stage === "ready" && (!this.job() || this.job() === job)) this.go(this.path, { again: true });
  }
}

const bytes = (text) => new TextEncoder().encode(String(text));

async function multipart(data) {
  const whole = new Response(data);
  return { headers: { "content-type": whole.headers.get("content-type") }, body: new Uint8Array(await whole.arrayBuffer()) };
}
