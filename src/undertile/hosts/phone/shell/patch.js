// The same screen with other figures: only what differs is put in place, so that what a person opened stays open,
// where the finger is stays, and little is laid out anew.

export function patch(place, fresh) {
  let old = place.firstChild;
  for (const node of [...fresh.childNodes]) {
    const next = old?.nextSibling ?? null;
    if (!old) place.append(document.importNode(node, true)); // the fresh one may be shown again
    else if (!old.isEqualNode(node)) {
      const same = old.nodeType === Node.ELEMENT_NODE && old.nodeName === node.nodeName && old.id === node.id;
      if (same) {
        attributes(old, node);
        patch(old, node);
      } else old.replaceWith(document.importNode(node, true));
    }
    old = next;
  }
  while (old) {
    const next = old.nextSibling;
    old.remove();
    old = next;
  }
}

function attributes(old, fresh) {
  for (const { name } of [...old.attributes]) {
    if (!fresh.hasAttribute(name) && !(name === "open" && old.nodeName === "DETAILS")) old.removeAttribute(name);
  }
  for (const { name, value } of fresh.attributes) {
    if (old.getAttribute(name) === value) continue;
    old.setAttribute(name, value);
    if (name === "value" && old.nodeName === "INPUT") old.value = value;
  }
}
