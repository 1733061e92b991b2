// A place that is not on the sheet yet, added by taps while the round is walked: in what, in which of them, where.
// Its facts are kept with the first thing typed there.

import { element } from "./face.js";
import { numberOf } from "./reading.js";

export function newPlace(pad) {
  const { places } = pad.sheet;
  const panel = element("div", "", "pad-list pad-new");
  panel.setAttribute("role", "dialog");
  panel.setAttribute("aria-modal", "true");
  panel.setAttribute("aria-label", pad.say("pad-new-title"));
  const here = pad.rows[pad.at] || pad.rows[pad.last?.index];
  const state = { ...standing(places, here), at: [], like: true };
  const close = () => {
    pad.panel = null;
    panel.remove();
    pad.draw();
  };
  const take = (place) => {
    close();
    pad.addPlace(place);
  };
  const chosen = () => {
    const { member, part, at } = state;
    if (at.length < member.axes.length || at.some((each) => !each)) return draw();
    const along = Object.fromEntries(member.axes.map((axis, k) => [axis.fact, at[k]]));
    const like = state.like && part.like ? part.like.facts : {};
    const facts = { member: member.member, ...part.facts, ...along, ...like };
    take({ name: named(part.name, at, places.taken), where: part.where, at: member.axes.map((axis, k) => axis.mark + at[k]).join(", "), facts });
  };
  const draw = () => {
    const parts = [head(pad, close)];
    if (places.next) parts.push(key(places.next.text, () => take(places.next), "next-place"));
    parts.push(choice(pad.say("pad-new-what"), places.members, state.member, (member) => pick({ member, part: member.parts.length === 1 ? member.parts[0] : null })));
    if (state.member) parts.push(choice(pad.say("pad-new-which"), state.member.parts, state.part, (part) => pick({ part })));
    if (state.part?.like) parts.push(toggle(state, draw));
    for (const [k, axis] of state.part ? state.member.axes.entries() : []) {
      if (k > state.at.length) break;
      parts.push(axisOf(pad, axis, state.part.offers[k], state.at[k], (text) => {
        state.at[k] = text;
        chosen();
      }));
    }
    panel.replaceChildren(...parts);
  };
  const pick = (told) => {
    Object.assign(state, { at: [] }, told);
    draw();
  };
  draw();
  panel.addEventListener("keydown", (event) => {
    if (event.key === "Escape") close();
  });
  pad.panel?.remove();
  pad.panel = panel;
  pad.box.append(panel);
  panel.querySelector("button").focus();
}

// Where one stands: most places that are added lie on the wood just read.
function standing(places, here) {
  for (const member of here ? places.members : []) {
    const part = member.parts.find((each) => each.where === here.label);
    if (part) return { member, part };
  }
  return { member: null, part: null };
}

// The same as `screens/round/places.py` makes.
export function named(start, at, taken) {
  const name = [start, ...at.map((text) => text.trim().replace(/[^\p{L}\p{N}/-]/gu, "_"))].join("-");
  for (let k = 1; ; k += 1) {
    const each = k === 1 ? name : `${name}-${k}`;
    if (!taken.includes(each)) return each;
  }
}

function head(pad, close) {
  const made = element("div", "", "pad-list-head");
  made.append(key(pad.say("pad-close"), close));
  return made;
}

function key(text, then, kind = "") {
  const made = element("button", text, `key ${kind}`);
  made.type = "button";
  made.addEventListener("click", then);
  return made;
}

function choice(title, offers, chosen, then) {
  const made = element("fieldset", "", "pad-choice");
  made.append(element("legend", title));
  for (const each of offers) {
    const one = key(each.label, () => then(each), "quiet");
    one.setAttribute("aria-pressed", String(each === chosen));
    made.append(one);
  }
  return made;
}

function toggle(state, draw) {
  const made = key(state.part.like.text, () => {
    state.like = !state.like;
    draw();
  }, "quiet like");
  made.setAttribute("aria-pressed", String(state.like));
  return made;
}

function axisOf(pad, axis, offers, chosen, then) {
  const every = offers.map((label) => ({ label }));
  const made = choice(axis.label, every, every.find((each) => each.label === chosen), (each) => then(each.label));
  const own = element("form", "", "pad-own");
  const box = document.createElement("input");
  box.setAttribute("aria-label", `${axis.label}: ${pad.say("pad-new-own")}`);
  box.placeholder = pad.say("pad-new-own");
  box.autocomplete = "off";
  const go = key(pad.say("pad-new-take"), () => {}, "quiet");
  go.type = "submit";
  own.append(box, go);
  own.addEventListener("submit", (event) => {
    event.preventDefault();
    event.stopPropagation();
    const text = box.value.trim();
    if (numberOf(text, pad.unit) === null) {
      box.setCustomValidity(pad.say("pad-no-length", { text, like: pad.say(`pad-like-${pad.unit}`) }));
      box.reportValidity();
      box.addEventListener("input", () => box.setCustomValidity(""), { once: true });
    } else then(text);
  });
  made.append(own);
  return made;
}
