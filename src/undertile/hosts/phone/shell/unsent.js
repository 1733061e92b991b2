// What was typed into a form and not kept yet: it comes back when its screen is drawn anew or opened again, so that
// keeping one form of a screen, a refusal, or a step to another screen and back loses nothing.

const BOXES = "input:not([type=hidden]):not([type=file]), select, textarea";

// Boxes of forms that keep facts, by fact and what it said when the screen was made.
function* boxes(root) {
  for (const form of root.querySelectorAll("form[data-facts]:not([data-sent])")) {
    for (const box of form.querySelectorAll(BOXES)) {
      const of = (kind) => form.elements[box.name.replace(/^value\./, `${kind}.`)]?.value;
      if (box.name.startsWith("value.") && of("fact")) yield { box, key: `${of("fact")}\n${of("was") ?? ""}` };
    }
  }
}

const changed = (box) =>
  box.type === "radio" ? box.checked && !box.defaultChecked : box.options ? !box.selectedOptions[0]?.defaultSelected && box.selectedIndex > 0 : box.value !== box.defaultValue;

// Key to what was typed.
export function unsent(root) {
  return new Map([...boxes(root)].filter(({ box }) => changed(box)).map(({ box, key }) => [key, box.value]));
}

// Put it back where its box is and says what it said; what found no box stays for the next time.
export function putBack(root, left) {
  const known = new Map([...boxes(root)].map(({ box, key }) => [`${key}\n${box.type === "radio" ? box.value : ""}`, box]));
  const rest = new Map();
  for (const [key, value] of left) {
    const radio = known.get(`${key}\n${value}`);
    const box = radio?.type === "radio" ? radio : known.get(`${key}\n`);
    if (!box || (box.type === "radio" && box !== radio)) rest.set(key, value);
    else if (box === radio) box.checked = true;
    else box.value = value;
    for (let part = box?.closest("details"); part; part = part.parentElement.closest("details")) part.open = true;
  }
  return rest;
}
