// What is wider than the screen says so, for as long as it is.
const looking = new ResizeObserver((seen) => {
  for (const drawn of new Set(seen.map(({ target }) => target.closest(".drawn")))) {
    // with its border, which it has only while it says so: what just fits without would say so for ever
    if (drawn) drawn.previousElementSibling.hidden = drawn.scrollWidth <= drawn.offsetWidth + 1;
  }
});

// A paper to print: its key, and what stands on each of its pages: job, title, which page of how many, the rest.
export function readyToPrint(root) {
  for (const button of root.querySelectorAll("[data-print]")) button.hidden = false; // an app has no menu to print from
  looking.disconnect(); // of the screen before
  for (const drawn of root.querySelectorAll(".slide + .drawn")) for (const each of [drawn, drawn.firstElementChild]) looking.observe(each);
  const told = root.querySelector(".paper-head")?.dataset;
  const { style } = document.documentElement;
  const [before, between, after] = told?.page.split("#") || [];
  const texts = { name: told?.name, title: told?.title, before, between, after, foot: told?.foot };
  for (const [key, text] of Object.entries(texts)) {
    if (told) style.setProperty(`--paper-${key}`, quoted(text));
    else style.removeProperty(`--paper-${key}`);
  }
}

// As a string of a style sheet, whatever was typed.
function quoted(text) {
  return `"${text.replace(/["\\\p{Cc}]/gu, (sign) => `\\${sign.codePointAt(0).toString(16)} `)}"`;
}
