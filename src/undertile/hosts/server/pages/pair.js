
// The page that asks for the code. A phone that was let in and ended before its browser had its cookie on the disk
// comes in again by its key; one that is let in now has its key on the disk before the laptop hears of it. Without
// this script the code works all the same.
const form = document.querySelector("form");
const post = (told) => fetch(form.action, { method: "POST", body: new URLSearchParams(told), headers: { accept: "application/json" } });

async function again() {
  const key = await keptKey();
  if (key && (await post({ again: key })).ok) location.replace(form.elements.to.value);
}

let sent = false; // pressed twice: the key that is kept is the one that was sent
form.onsubmit = async (event) => {
  event.preventDefault();
  if (sent) return;
  sent = true;
  form.elements.again.value = await newKey();
  form.submit();
};
window.onpageshow = () => (sent = false); // gone back to
again().catch(() => {}); // the code is typed
