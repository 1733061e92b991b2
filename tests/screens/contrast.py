"""Contrast of every text of a page by the formula of WCAG 2, without a library: for the dark, and beside axe.

published: WCAG 2.2, success criterion 1.4.3 (4.5 : 1; 3 : 1 for large text, 24 px or bold 18.66 px), relative
luminance and contrast ratio as defined there. axe looks what lies above what at each text, which takes most
of its time; here a text stands on the backgrounds of what it is in. Left out, as axe leaves them out: what is
not seen, what is disabled, drawings (svg), and text over a picture.
"""

from __future__ import annotations

FAINT = """() => {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 1;
  const brush = canvas.getContext("2d", { willReadFrequently: true });
  const seen = new Map();
  const read = (css) => { // [red, green, blue, share of cover], however it is written
    if (!seen.has(css)) {
      brush.clearRect(0, 0, 1, 1);
      brush.fillStyle = css;
      brush.fillRect(0, 0, 1, 1);
      const [red, green, blue, cover] = brush.getImageData(0, 0, 1, 1).data;
      seen.set(css, [red, green, blue, cover / 255]);
    }
    return seen.get(css);
  };
  const over = ([r, g, b, a], below) => [r, g, b].map((each, k) => each * a + below[k] * (1 - a));
  const part = (value) => {
    const share = value / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  };
  const light = ([r, g, b]) => 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
  const styles = new Map();
  const style = (each) => {
    if (!styles.has(each)) styles.set(each, getComputedStyle(each));
    return styles.get(each);
  };
  const behind = (each) => { // what lies behind a text in here; null where that is a picture
    const layers = [];
    for (let at = each; at; at = at.parentElement) {
      const { backgroundColor, backgroundImage } = style(at);
      if (backgroundImage !== "none") return null;
      const layer = read(backgroundColor);
      if (layer[3] === 1) return layers.reduceRight((below, each) => over(each, below), layer.slice(0, 3));
      layers.push(layer);
    }
    throw new Error("a page without a ground of its own");
  };
  const holders = new Set();
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) if (walk.currentNode.data.trim()) holders.add(walk.currentNode.parentElement);
  const boxes = document.querySelectorAll("input:not([type=hidden]), textarea, select");
  for (const each of boxes) holders.add(each);
  const told = { looked: 0, faint: [] };
  const shows = { opacityProperty: true, visibilityProperty: true, contentVisibilityAuto: true };
  for (const each of holders) {
    if (each.closest("svg, script, style, noscript, template, option")) continue;
    if (each.closest(":disabled, [aria-disabled=true], [inert]") || !each.checkVisibility(shows)) continue;
    const box = each.getBoundingClientRect();
    if (box.width <= 1 || box.height <= 1) continue; // said, not seen
    const below = behind(each);
    if (!below) continue;
    const { color, fontSize, fontWeight } = style(each);
    const ink = [...read(color)];
    for (let at = each; at; at = at.parentElement) ink[3] *= Number(style(at).opacity);
    const [more, less] = [light(over(ink, below)), light(below)].sort((a, b) => b - a);
    const ratio = (more + 0.05) / (less + 0.05);
    const size = parseFloat(fontSize);
    const large = size >= 24 || (size >= 18.66 && Number(fontWeight) >= 700);
    told.looked += 1;
    if (ratio < (large ? 3 : 4.5) - 0.005) {
      told.faint.push(`${ratio.toFixed(2)} ${each.outerHTML.slice(0, 100)}`);
    }
  }
  return told;
}"""
"""How many texts were looked at, and which of them are too faint."""
