"""What stands beside the water's small drawing and on the pad's second line is seen whole on a phone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import Site, bring, site, typed

OUT = """[...document.querySelectorAll(".wetplan text")].map((each) => {
  const box = each.getBoundingClientRect();
  const frame = each.closest("svg").getBoundingClientRect();
  return [each.textContent, box.left >= frame.left && box.right <= frame.right];
})"""
HINT = """(() => {
  const each = document.querySelector(".pad-place.point small");
  return [each.textContent, each.scrollWidth <= each.clientWidth + 1 &&
    each.scrollHeight <= each.clientHeight + 1, parseFloat(getComputedStyle(each).fontSize)];
})()"""
UNITS = {
    "mm": (("100", "705", "1900"), "705 mm"),
    "in": (("4", "28-1/2", "66"), '28-1/2"'),
}


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


def corner(at: Site, unit: str) -> str:
    """Plates of three walls, wet near the corner."""
    near, far, width = UNITS[unit][0]
    facts = [("unit", unit), ("wood.visits.1.when", "2026-11-20")]
    facts += [("survey.widths.low.reading", width), ("survey.widths.low.height", near)]
    for wall in ("L", "B"):
        for along, shown in ((near, "26"), (far, "9")):
            base = f"wood.points.{wall}-{along.replace('/', '_')}"
            facts += [(f"{base}.member", "plate"), (f"{base}.wall", wall), (f"{base}.along", along)]
            facts += [(f"{base}.material", "lumber"), (f"{base}.shown.1", shown)]
    for name in ("a", "b", "c"):
        base = f"wood.points.ref-{name}"
        facts += [(f"{base}.member", "other"), (f"{base}.material", "lumber"), (f"{base}.reference", "true")]
        facts += [(f"{base}.shown.1", "9")]
    return typed(at, facts)


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_lengths_beside_the_drawing_are_not_cut(browser: Browser, at: Site, unit: str, language: str) -> None:
    """independent: boxes as the browser lays them out."""
    job = corner(at, unit)
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/water?lang={language}")
        told = dict(page.evaluate(OUT))
    assert UNITS[unit][1] in told
    assert all(told.values()), told


@pytest.mark.parametrize("language", ["en", "es"])
def test_where_the_pins_go_is_read_whole(browser: Browser, at: Site, language: str) -> None:
    job = bring(at, "wet-corner")
    at.send(
        job,
        {"fact": "wood.points.attic.member", "value": "other"},
        {"fact": "wood.points.attic.reference", "value": "true"},
        {"fact": "wood.points.attic.depth", "value": "5/16"},
    )
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/water/round/3?lang={language}&at=wood.points.attic.shown.3")
        page.wait_for_selector(".pad-place.point small")
        text, whole, size = page.evaluate(HINT)
    assert {"en": "dry reference", "es": "referencia seca"}[language] in text
    assert whole, (text, size)
    assert size >= 14
