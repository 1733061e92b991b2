// The strip under the bar: one line for each thing a person should know now, the firm ones first.

export class Strip {
  constructor(place) {
    this.place = place;
    this.lines = new Map();
  }

  // `firm` stays until its cause is gone; others can be put away. `first`: the answer to a tap, before the firm ones
  // said earlier. `act` is a button: {words, run}.
  say(key, words, { firm = false, first = firm, act = null, detail = "" } = {}) {
    this.lines.delete(key); // what was said last stands first
    this.lines.set(key, { words, firm, first, act, detail });
    this.draw();
  }

  has(key) {
    return this.lines.has(key);
  }

  drop(key) {
    if (this.lines.delete(key)) this.draw();
  }

  draw() {
    const shown = [...this.lines].reverse().sort(([, a], [, b]) => Number(b.first) - Number(a.first))[0];
    this.place.replaceChildren();
    this.place.hidden = !shown;
    if (!shown) return;
    const [key, { words, firm, act, detail }] = shown;
    const text = document.createElement("span");
    text.textContent = words;
    if (detail) text.title = String(detail);
    this.place.append(text);
    if (act) this.button(act.words, act.run);
    if (!firm) this.button("×", () => this.drop(key));
  }

  button(words, run) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.onclick = run;
    this.place.append(button);
  }
}
