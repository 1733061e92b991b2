"""A message of the phone's page over the pad: it covers no key, at either size and in either language."""

from __future__ import annotations

from pathlib import Path

import pytest

import undertile.hosts.phone
from tests.screens.browsing import HOME, LOOKS, chromium, phone
from tests.screens.cast import bring, site

SHELL = Path(undertile.hosts.phone.__file__).parent / "shell" / "shell.css"
LONG = {"en": "Still starting. What you type is kept meanwhile. " * 4, "es": "Todavía está empezando. " * 8}
LAY = """([css, text, use]) => {
  document.head.append(Object.assign(document.createElement("style"), { textContent: css }));
  document.body.insertAdjacentHTML("afterbegin", '<header id="bar"><button id="copies"></button></header>' +
    '<div id="strip"><span></span><button></button><button>×</button></div>');
  document.querySelector("#strip span").textContent = text;
  document.querySelector("#strip button").textContent = use;
}"""
HIT = """() => [...document.querySelectorAll(".pad-keys .pad-key:enabled, #strip button")].map((key) => {
  const { left, top, width, height } = key.getBoundingClientRect();
  const hits = document.elementFromPoint(left + width / 2, top + height / 2);
  const low = document.elementFromPoint(left + width / 2, top + height - 4);
  return key.contains(hits) && key.contains(low);
})"""
PLACE = """() => document.querySelector(".pad-place").getBoundingClientRect().top
  >= document.querySelector("#strip").getBoundingClientRect().bottom"""


@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_it_covers_no_key_and_not_the_place(size: tuple[int, int], language: str) -> None:
    at = site()
    job = bring(at, "hand")
    use = {"en": "Use it now", "es": "Usarla ya"}[language]
    with chromium() as browser, phone(browser, at, size) as page:
        page.goto(f"{HOME}/job/{job}/read/B?lang={language}")
        page.wait_for_selector(".pad-keys .pad-key")
        page.evaluate(LAY, [SHELL.read_text("utf-8"), LONG[language], use])
        found = page.evaluate(HIT)
        assert len(found) > 10
        assert all(found)
        assert page.evaluate(PLACE)
    at.store.close()
