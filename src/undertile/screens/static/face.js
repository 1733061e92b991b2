// What the pad shows: where one reads, what was taken last, the keys. What is pressed and kept is pad.js.
import { drawBand } from "./band.js";
import * as lengths from "./keys.js";
import { stations } from "./order.js";
import * as percents from "./percent.js";

export class Face {
  constructor(box, sheet) {
    this.box = box;
    this.sheet = sheet;
    this.words = sheet.words;
  }

  say(key, slots = {}) {
    return (this.words[key] || key).replace(/\{(\w+)\}/g, (_, name) => slots[name] ?? "");
  }

  build() {
    this.box.replaceChildren();
    this.box.className = "pad";
    this.part = {};
    const make = (name, tag = "div") => {
      this.part[name] = document.createElement(tag);
      this.part[name].className = `pad-${name}`;
      this.box.append(this.part[name]);
      return this.part[name];
    };
    const head = make("head");
    this.leave = link(this.sheet.back, `‹ ${this.say("pad-leave")}`, "pad-back");
    this.title = element("h1", this.sheet.title);
    this.left = element("output", "");
    head.append(this.leave, this.title, this.left);
    make("place");
    const back = make("back-read", "output");
    back.setAttribute("aria-live", "polite");
    const band = make("band");
    band.setAttribute("role", "status");
    make("keys");
  }

  draw() {
    const row = this.rows[this.at];
    this.drawPlace();
    if (!row) this.drawDone();
    else {
      this.part.keys.className = `pad-keys ${row.kind === "awl" ? "awl" : this.unit}`;
      this.part.keys.replaceChildren(...kindOf(row).keysOf(this, row).map((key) => this.key(key)));
    }
    this.drawNews();
  }

  // Nothing is left to read: what it came to, and where to go on.
  drawDone() {
    const keys = [this.button("undo", this.say("pad-undo")), this.button("list", this.say("pad-list-title"))];
    if (this.sheet.places) keys.unshift(this.button("new", this.say("pad-new"), "wide"));
    if (this.judged.sum?.length) keys.unshift(element("p", this.judged.sum.join(" · "), "pad-sum"));
    this.part.keys.replaceChildren(link(this.sheet.after, `${this.say("pad-next-sheet")} ›`, "pad-done"), ...keys);
    this.part.keys.className = "pad-keys over";
  }

  // What comes while a thumb is on its way to a key: the keys stand still.
  drawNews() {
    this.drawBack();
    drawBand(this);
    const left = stations(this.rows).filter((each) => !each.value).length;
    this.left.textContent = left ? this.say(left === 1 ? "pad-left-one" : "pad-left", { left }) : "";
    const there = this.others.map(({ who, row }) => `${who}: ${row.label} ${row.at}`);
    this.title.textContent = there.join(" · ") || this.sheet.title;
    this.title.classList.toggle("others", there.length > 0);
  }

  drawPlace() {
    const row = this.rows[this.at];
    if (percents.isRound(row)) return this.drawPoint(row);
    const long = row && inTwoLines(row);
    this.part.place.className = `pad-place${long ? " long" : row ? "" : " over"}`;
    this.part.place.replaceChildren(element("strong", row ? row.label : this.say(this.rows.length || !this.sheet.words["pad-none"] ? "pad-all" : "pad-none")));
    if (!row) return;
    this.part.place.append(element("span", this.where(row)));
    if (long) {
      const both = element("p", "");
      both.append(this.part.place.firstChild, " ", this.part.place.lastChild);
      this.part.place.append(both);
    }
    const hint = row.note || (row.clash ? this.say("pad-clash") : row.value ? this.say("pad-was", { value: this.shown(row) }) : "");
    if (hint) this.part.place.append(element("small", hint));
    this.part.place.append(element("b", this.preview(), "pad-typing"));
  }

  // A point of a round: where the pins go, in large type, and what they read last.
  drawPoint(row) {
    this.part.place.className = "pad-place point";
    const where = element("strong", row.label);
    if (row.at) where.append(` ${this.where(row)}`);
    const last = element("b", this.preview(), "pad-typing");
    const note = element("small", percents.hintOf(this, row));
    this.part.place.replaceChildren(where, last, note, element("span", percents.besideOf(this, row)));
    fit(where, 34, 20);
    fit(note, 19, 15);
    note.classList.toggle("two", note.scrollWidth > note.clientWidth); // no smaller on one line: on two
    if (note.classList.contains("two")) note.style.fontSize = "";
  }

  where(row) {
    if (!row.at) return "";
    const words = row.stud === undefined && row.kind !== "reading" && inTwoLines(row);
    return words ? row.at : `${this.say("pad-at")} ${row.at}`;
  }

  preview() {
    if (this.buffer) return this.buffer;
    const row = this.rows[this.at];
    if (percents.isRound(row)) return this.mode === "tens" ? `${this.ten}_` : "";
    const sign = this.minus ? "−" : "";
    if (row && row.kind === "signed" && !this.whole) return `${sign}…`;
    return this.unit === "mm" ? `${sign}${this.whole || ""}_` : `${sign}${this.whole}…`;
  }

  shown(row) {
    if (percents.isRound(row)) return percents.shown(this, row);
    if (row.value === "x") return this.say("pad-reached");
    return row.value || this.say("pad-skipped");
  }

  drawBack() {
    const out = this.part["back-read"];
    out.replaceChildren();
    if (!this.last) return;
    const row = this.rows[this.last.index];
    const state = { keeping: "pad-keeping", kept: "pad-kept", lost: "pad-keeping" }[row.state];
    out.dataset.state = row.state;
    const value = percents.isRound(row) ? percents.short(this, row) : this.shown(row);
    out.classList.toggle("words", value.length > 8);
    const where = element("span", `${row.label} ${this.where(row)}`);
    out.append(where, element("strong", value));
    if (state) out.append(element("em", row.state === "kept" ? `✓ ${this.say(state)}` : `${this.say(state)} …`));
    fit(where, 16, 11);
  }

  key(told) {
    const made = this.button(told.press, told.label, told.kind);
    if (told.label.includes("/")) {
      // stacked, as a rule has it: two digits over two fit a key that "15/16" in a row does not
      const [top, bottom] = told.label.split("/");
      const part = element("span", "", "fraction");
      part.append(element("span", top), element("span", bottom));
      made.replaceChildren(...(told.over ? [element("span", told.over, "over")] : []), part);
    }
    if (told.label.split(" ").some((word) => word.length > 7)) made.classList.add("tight"); // one word, one line
    if (told.name) made.setAttribute("aria-label", told.name);
    if (told.on !== undefined) made.setAttribute("aria-pressed", String(told.on));
    if (told.off) made.disabled = true;
    return made;
  }

  button(press, text, kind = "") {
    const made = element("button", text, `pad-key ${kind}`);
    made.type = "button";
    made.dataset.press = press;
    return made;
  }
}

// Which keys a row has, and what they say.
export const kindOf = (row) => (percents.isRound(row) ? percents : lengths);

// As large a type as shows all of it.
function fit(element, most, least) {
  let size = most;
  element.style.fontSize = `${size}px`;
  while (size > least && (element.scrollWidth > element.clientWidth || element.scrollHeight > element.clientHeight + 1)) element.style.fontSize = `${(size -= 2)}px`;
}

// What is no stud at a height takes more words than one line of large print has.
function inTwoLines(row) {
  return `${row.label} ${row.at}`.length > 13;
}

export function element(tag, text, kind = "") {
  const made = document.createElement(tag);
  made.textContent = text;
  if (kind) made.className = kind;
  return made;
}

const PARTED = /(\d{1,4}(?:-\d{1,3}){1,2}(?:\/\d{1,3})?"?|\d+(?:\.\d+)? mm\b)/;

// A paragraph in which no length and no day is parted over two lines, as on every page (screens/unbroken.py).
export function paragraph(text) {
  const made = document.createElement("p");
  text.split(PARTED).forEach((part, at) => made.append(at % 2 ? element("span", part, "fig") : part));
  return made;
}

function link(href, text, kind) {
  const made = element("a", text, kind);
  made.href = href;
  return made;
}
