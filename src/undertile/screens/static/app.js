import { readyToPrint } from "./paper.js";

// What a page does by itself where script is there; every page works without.
if (document.querySelector('[data-gate="searching"], [data-later]')) {
  const ask = async () => {
    const answer = await fetch(location.href, { headers: { accept: "application/json" } }).then((found) => found.json(), () => null);
    if (answer && answer.gate?.state !== "searching" && !answer.later) location.reload();
    else setTimeout(ask, 700);
  };
  setTimeout(ask, 400);
}

// What became of what was sent is said once: read anew, the page says it no more.
const here = new URL(location.href);
const told = ["kept", "undone", "new", "known", "other"].filter((name) => here.searchParams.has(name)); // page.py
for (const name of told) here.searchParams.delete(name);
if (told.length) history.replaceState(null, "", here);

// Moving a wall: the same address asked for in the background, its screen put in place of this one.
document.addEventListener("submit", async (event) => {
  const form = event.target.closest("form.drag");
  if (!form || !event.submitter) return;
  event.preventDefault();
  const query = new URLSearchParams(new FormData(form, event.submitter));
  const address = `${form.getAttribute("action")}?${query}`;
  const name = event.submitter.name;
  const minus = event.submitter.textContent.trim() === "−";
  const answer = await fetch(address, { headers: { accept: "text/html" } });
  if (!answer.ok) return location.assign(address);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  document.querySelector("main").replaceWith(page.querySelector("main"));
  history.replaceState(null, "", address);
  document.querySelectorAll(`button.step[name="${name}"]`)[minus ? 0 : 1]?.focus({ preventScroll: true });
});

readyToPrint(document);
document.addEventListener("click", (event) => event.target.closest("[data-print]") && window.print());

// A glove that presses twice sends once.
document.addEventListener("submit", (event) => {
  if (event.defaultPrevented || event.target.method !== "post") return;
  if (event.target.dataset.sent) event.preventDefault();
  event.target.dataset.sent = "yes";
});
window.addEventListener("pageshow", () => document.querySelectorAll("form[data-sent]").forEach((form) => delete form.dataset.sent));
