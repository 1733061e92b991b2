// Where a wall may be moved to next: the screens some steps away, asked for while nobody waits, and those that were shown
// before, so that a step is on the screen without Python. They are of one log, one plan, one language: whatever may
// change one of them lets all of them go.

const WAIT_MS = 60; // after the last step
const STEPS = 3; // so many either way of each wall, the nearest first
const MOST = 80; // a person goes to and fro

// What a form that only asks asks for with one of its keys; `value`: what the key says by then.
export function pathOf(form, key, target = form.getAttribute("action"), value = key?.value) {
  const data = [...new FormData(form, key)].filter(([, each]) => typeof each === "string");
  const told = data.map(([name, each]) => [name, name === key?.name ? value : each]);
  return `${target.replace(/^#/, "").split("?")[0]}?${new URLSearchParams(told)}`;
}

// Where the keys of the screen lead, one press, two, ...
function* paths(place) {
  const most = Number(place.querySelector("[data-farthest]")?.dataset.farthest);
  for (let presses = 1; presses <= STEPS; presses += 1) {
    for (const key of place.querySelectorAll("form.drag button[name]")) {
      const by = Number(key.closest("section.move").dataset.by);
      const to = by + (Number(key.value) - by) * presses;
      if (Math.abs(to) <= most) yield pathOf(key.form, key, undefined, String(to));
    }
  }
}

export class Ahead {
  // `ask`: a path to its screen, or to null.
  constructor(place, ask) {
    Object.assign(this, { place, ask, known: new Map(), timer: 0 });
  }

  // All of them are of before, also what is being asked for: anew, from the screen that is shown.
  clear() {
    this.known = new Map();
    this.look();
  }

  // The screen of a path, if it is known.
  of(path) {
    return this.known.get(path) || null;
  }

  // A screen that is shown, or will be.
  keep(path, made) {
    this.known.delete(path);
    this.known.set(path, made);
    if (this.known.size > MOST) this.known.delete(this.known.keys().next().value);
  }

  // A wall stands where the screen says: what is near is asked for, one after the other, until the next step.
  look() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.run(this.timer), WAIT_MS);
  }

  async run(timer) {
    const { known } = this;
    for (const path of [...paths(this.place)]) {
      if (known.has(path)) continue;
      const made = await this.ask(path).catch(() => null);
      if (timer !== this.timer || known !== this.known) return;
      if (made) this.keep(path, made);
    }
  }
}
