"""Every screen in a browser: no barrier of weight by axe, nothing sideways, targets for a glove."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import pytest

from tests.depth import deep
from tests.screens.browsing import HOME, SIZES, chromium, phone
from tests.screens.cast import Site, bring, site, typed, wall
from tests.screens.contrast import FAINT
from undertile.screens.app import SCREENS

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser
NAMES = {"wall": "B", "visit": "2", "joist": "J2"}
SMALL = """
[...document.querySelectorAll("a, button, input:not([type=hidden]), select, summary")]
  .filter(each => each.offsetParent && !each.closest("p:not(.pair-links)") && each.type !== "radio")
  .map(each => [each, each.getBoundingClientRect()])
  .filter(([each, box]) => box.height < 47.5 || box.width < 47.5)
  .map(([each, box]) => `${each.tagName} ${each.textContent.trim().slice(0, 20)} ${box.width}x${box.height}`)
"""
BARRIERS = """async (rules) => {
  const { violations } = await axe.run(document, rules);
  return violations.filter(({ impact }) => ["serious", "critical"].includes(impact))
    .map(({ id, nodes }) => [id, nodes.slice(0, 3).map(({ html }) => html.slice(0, 100))]);
}"""
"""Only these leave the page: all that axe tells of a screen takes a quarter of its time to hand over."""
WATER = (
    *("water?lang=es", "water/leak?lang=es", "water/gate?lang=es", "water/rounds?lang=es", "work", "proof"),
    *("water/point?name=plate-B-16", "water/point?member=plate", "water/point?member=stud&name=B3&height=2"),
)
"""Screens of the job with the wet corner, beside those that every job has."""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def fattest() -> list[tuple[str, str]]:
    """Forty studs on the back wall, and every name longer than a phone is wide."""
    facts = [
        ("name", "Bathroom of the upstairs guest suite, Hortensia Featherstonehaugh-Villanueva"),
        ("place", "12345 North Mountain Vista Boulevard, building C, unit 4096, third floor rear"),
        ("framing.stock.plywood underlayment left over from the kitchen.thickness", "7/32"),
        ("framing.edges.plaster of the linen closet behind the tub.wall", "L"),
        ("pan.pan.width", "59-13/16"),
        ("pan.drain.x", "30"),
    ]
    for name, studs in (("B", 40), ("L", 12), ("R", 12)):
        its = wall(name, studs, heights='["2", "48"]')
        facts += [each for each in its if each not in facts]
        facts += [(f"survey.walls.{name}.studs.{name}{k}.readings.2", "5-31/32") for k in range(1, studs + 1)]
    return facts


def of_a_job(at: Site) -> list[str]:
    """Every screen of a job by hand, those of water and floor of the wet corner."""
    job, wet = bring(at, "hand"), bring(at, "wet-corner")
    at.store.pen("dev1", "Ann", "2026-03-08T16:00:00").write(wet, "wood.visits.4.when", "2026-03-08 16:00")
    addresses = [
        path.format(id=wet if "/water" in path or "/floor" in path else job, **NAMES, name="B2")
        for path in SCREENS
    ]
    return [*addresses, f"/job/{wet}/water/round/4", f"/job/{wet}/water/round"]


def of_more_jobs(at: Site) -> list[str]:
    """What only some jobs show: more of the wet corner, a clash, one fact's history, walls moved."""
    job, clash, wet = (bring(at, name) for name in ("hand", "hand", "wet-corner"))
    reading = "survey.walls.B.studs.B2.readings.48"
    at.store.pen("dev2", "José", "2031-01-01T00:00:00").write(clash, reading, "6")
    return [
        *(f"/job/{wet}/{path}" for path in WATER),
        f"/job/{clash}/doubts",
        f"/job/{job}/history?fact=pan.pan.width",
        f"/job/{job}/moves?L=1&settle=1",
    ]


def of_the_fattest(at: Site) -> list[str]:
    fat = typed(at, fattest())
    return [
        path.format(id=fat, **NAMES, name="B40")
        for path in SCREENS
        if "{visit}" not in path and "{joist}" not in path
    ]


LOOKED_AT = [(of_a_job, "light", SIZES[1], "en"), (of_more_jobs, "light", SIZES[1], "en")]
ALL_LOOKS = [
    *LOOKED_AT,
    (of_a_job, "dark", SIZES[0], "es"),
    (of_more_jobs, "dark", SIZES[0], "es"),
    (of_the_fattest, "light", SIZES[1], "es"),
    (of_the_fattest, "dark", SIZES[0], "en"),
]


@pytest.mark.parametrize(("addresses", "scheme", "size", "language"), deep(LOOKED_AT, ALL_LOOKS))
def test_no_screen_has_a_barrier(
    at: Site, addresses: Callable[[Site], list[str]], scheme: str, size: tuple[int, int], language: str
) -> None:
    """published: WCAG 2 A and AA as axe checks them (contrast 4.5 : 1, names, roles, order).

    In the dark only the contrast is another: every day it is looked at without axe (the next test).
    """
    from axe_playwright_python.sync_playwright import Axe

    axe, bad = Axe().axe_script, []
    rules: dict[str, object] = {"resultTypes": ["violations"]}
    if scheme == "dark":
        rules["runOnly"] = ["color-contrast"]
    with chromium() as browser, phone(browser, at, size, color_scheme=scheme) as page:
        for address in addresses(at):
            bad += laid_out(page, address, language)
            bad += [(address, "faint", each) for each in page.evaluate(FAINT)["faint"]]
            page.evaluate(axe)
            bad += [(address, *each) for each in page.evaluate(BARRIERS, rules)]
    assert bad == []


def test_no_text_is_faint_in_the_dark(at: Site) -> None:
    """published: WCAG 2 AA, 4.5 : 1 (``contrast.py``); so each screen is seen in both sizes and languages."""
    bad, looked = [], 0
    with chromium() as browser, phone(browser, at, SIZES[0], color_scheme="dark") as page:
        for address in [*of_a_job(at), *of_more_jobs(at)]:
            bad += laid_out(page, address, "es")
            told = page.evaluate(FAINT)
            bad += [(address, "faint", each) for each in told["faint"]]
            looked += told["looked"]
        assert page.evaluate("getComputedStyle(document.body).colorScheme").find("dark") >= 0
    assert bad == []
    assert looked > 3000, "pinned: some 6,000 texts when this was written"


@pytest.mark.parametrize(
    ("ink", "ground", "faint"),
    [
        ("#767676", "#ffffff", False),  # published: the lightest grey on white that passes AA, 4.54 : 1
        ("#777777", "#ffffff", True),  # published: 4.48 : 1
        ("rgb(0 0 0 / 54%)", "#ffffff", False),  # by hand: as #757575, 4.61 : 1
        ("rgb(0 0 0 / 53%)", "#ffffff", True),  # by hand: as #787878, 4.42 : 1
        ("#000000", "#757575", False),  # by hand: 4.56 : 1
        ("#000000", "#737373", True),  # by hand: 4.43 : 1
    ],
)
def test_faint_is_what_wcag_says(at: Site, ink: str, ground: str, faint: bool) -> None:
    with chromium() as browser, phone(browser, at) as page:
        page.goto(f"{HOME}/")
        page.evaluate(
            """([ink, ground]) => {
              document.body.innerHTML = "<div><p>6-1/4</p><p style='display: none'>6</p></div>";
              Object.assign(document.querySelector("p").style, { color: ink, background: "none" });
              document.querySelector("div").style.background = ground;
            }""",
            [ink, ground],
        )
        told = page.evaluate(FAINT)
        assert told["looked"] == 1
        assert bool(told["faint"]) is faint


def test_nothing_of_the_fattest_job_hangs_over_and_every_target_takes_a_glove(at: Site) -> None:
    """In Spanish on the smaller phone: its words are the longer ones. axe sees it in the long run."""
    with chromium() as browser, phone(browser, at, SIZES[1]) as page:
        assert [each for path in of_the_fattest(at) for each in laid_out(page, path, "es")] == []


def laid_out(page: Page, address: str, language: str) -> list[tuple[str, str, object]]:
    """Open a screen with all its parts; what of it hangs over the side, and what is too small to tap."""
    asked = address if "lang=" in address else f"{address}{'&' if '?' in address else '?'}lang={language}"
    page.goto(HOME + asked)
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    bad: list[tuple[str, str, object]] = [(address, "small", small) for small in page.evaluate(SMALL)]
    if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
        bad.append((address, "sideways", []))
    return bad
