// "This phone": whether all of the tool is on it, who types, in which language, what the browser promised, files in and out.

import { tellWhole } from "./whole.js";
import { languages, say } from "./words.js";

const NAMES = { en: "English", es: "Español" };

export async function openSheet(page) {
  const sheet = document.getElementById("sheet");
  const form = document.createElement("form");
  form.method = "dialog";
  form.append(head(say("phone")));
  const whole = line("");
  whole.id = "whole";
  whole.setAttribute("role", "status");
  form.append(whole, line(page.keptSaid()));
  for (const { job, name, open: number } of (await page.log?.files().catch(() => [])) || []) {
    form.append(line(`${say("in-file", { open: number, name })}.`), button("elsewhere", () => page.carry.elsewhere(job)));
  }
  if (page.opened) form.append(...field("who", page.settings.who), ...field("instrument", page.settings.instrument), ...choice(page));
  const promise = { yes: "persist-yes", no: "persist-no", unknown: "persist-unknown" }[page.promised || "unknown"];
  form.append(line(say(promise)));
  if (!page.installed()) form.append(line(say("not-installed")));
  const row = document.createElement("div");
  row.className = "row";
  // before the phone's storage is open nothing can be kept, copied or taken in
  if (page.opened) row.append(file(page, sheet), button("copy", () => page.carry.save()), button("keep", () => keep(page, form)));
  row.append(button("close"));
  form.append(row);
  sheet.replaceChildren(form);
  sheet.showModal();
  tellWhole(page, whole);
}

async function keep(page, form) {
  const before = page.settings.language;
  for (const name of ["who", "instrument", "language"]) await page.set(name, form.elements[name].value.trim());
  await page.engine.restart("settings");
  if (before !== page.settings.language) location.reload();
}

function head(words) {
  const made = document.createElement("h2");
  made.textContent = words;
  return made;
}

function line(words) {
  const made = document.createElement("p");
  made.textContent = words;
  return made;
}

function label(key) {
  const made = document.createElement("label");
  made.textContent = say(key);
  made.htmlFor = `sheet-${key}`;
  return made;
}

function field(name, value) {
  const made = document.createElement("input");
  Object.assign(made, { id: `sheet-${name}`, name, value, maxLength: 100, autocomplete: "off" });
  return [label(name), made];
}

function choice(page) {
  const made = document.createElement("select");
  made.id = "sheet-language";
  made.name = "language";
  for (const each of languages()) made.append(new Option(NAMES[each], each, false, each === page.settings.language));
  return [label("language"), made];
}

function button(key, run = () => {}) {
  const made = document.createElement("button");
  made.textContent = say(key);
  made.onclick = run;
  return made;
}

function file(page, sheet) {
  const made = document.createElement("label");
  made.className = "file";
  const input = document.createElement("input");
  input.type = "file";
  input.accept = ".zip,.jsonl,application/zip";
  input.onchange = () => {
    sheet.close();
    if (input.files[0]) page.carry.takeIn(input.files[0]);
  };
  made.append(say("take-in"), input);
  return made;
}
