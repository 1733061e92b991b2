// The whole sheet as a list: pick a reading, choose the order, let it be said aloud, say what a meter types.
import { newPlace } from "./newplace.js";
import { ORDERS } from "./order.js";

export function listPanel(pad) {
  const panel = document.createElement("div");
  panel.className = "pad-list";
  panel.setAttribute("role", "dialog");
  panel.setAttribute("aria-modal", "true");
  panel.setAttribute("aria-label", pad.say("pad-list-title"));
  const close = () => {
    pad.panel = null;
    panel.remove();
    pad.draw();
  };
  const button = (text, then, kind = "") => {
    const made = document.createElement("button");
    made.type = "button";
    made.className = `key ${kind}`;
    made.textContent = text;
    made.addEventListener("click", then);
    return made;
  };
  const head = document.createElement("div");
  head.className = "pad-list-head";
  head.append(button(pad.say("pad-close"), close));
  const order = document.createElement("label");
  order.textContent = pad.say("pad-order");
  const select = document.createElement("select");
  for (const each of ORDERS) {
    const option = new Option(pad.say(`pad-order-${each}`), each, false, each === pad.set.order);
    select.append(option);
  }
  select.addEventListener("change", () => pad.change("order", select.value));
  order.append(select);
  const speak = button(pad.say("pad-speak"), () => {
    pad.change("speak", !pad.set.speak);
    speak.setAttribute("aria-pressed", String(pad.set.speak));
  }, "quiet");
  speak.setAttribute("aria-pressed", String(pad.set.speak));
  const meter = document.createElement("label");
  meter.textContent = pad.say("pad-meter");
  const unit = document.createElement("select");
  for (const each of ["in", "mm"]) unit.append(new Option(each, each, false, each === pad.set.meter));
  unit.addEventListener("change", () => pad.change("meter", unit.value));
  meter.append(unit);
  const set = document.createElement("div");
  set.className = "pad-list-set";
  if (pad.sheet.places) set.append(button(pad.say("pad-new"), () => newPlace(pad)));
  if (pad.sheet.walked) set.append(speak); // the order is that of the last round, and percent is percent
  else set.append(order, meter, speak);
  const rows = document.createElement("ul");
  for (const index of pad.order) {
    const row = pad.rows[index];
    const item = document.createElement("li");
    const pick = button("", () => {
      close();
      pad.go(row.fact, Boolean(row.value));
    }, "quiet");
    const where = document.createElement("span");
    where.textContent = `${row.label} ${row.at}${row.kind === "awl" ? `, ${pad.say("pad-awl")}` : ""}`;
    const held = pad.others.find((each) => each.row === row);
    if (held) where.append(` ‹ ${held.who}`);
    const value = document.createElement("strong");
    value.textContent = row.value === null ? "" : pad.shown(row);
    pick.append(where, value);
    if (index === pad.at) pick.setAttribute("aria-current", "true");
    item.append(pick);
    rows.append(item);
  }
  panel.append(head, set, rows);
  panel.addEventListener("keydown", (event) => {
    if (event.key === "Escape") close();
  });
  pad.panel = panel;
  pad.box.append(panel);
  head.firstChild.focus();
}
