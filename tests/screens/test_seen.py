"""Every screen in a browser: no barrier of weight by axe, nothing sideways, targets for a glove."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.browsing import HOME, SIZES, chromium, phone
from tests.screens.cast import Site, bring, site, typed, wall
from undertile.screens.app import SCREENS

pytestmark = pytest.mark.browser
NAMES = {"wall": "B", "visit": "2", "joist": "J2"}
SMALL = """
[...document.querySelectorAll("a, button, input:not([type=hidden]), select, summary")]
  .filter(each => each.offsetParent && !each.closest("p:not(.pair-links)") && each.type !== "radio")
  .map(each => [each, each.getBoundingClientRect()])
  .filter(([each, box]) => box.height < 47.5 || box.width < 47.5)
  .map(([each, box]) => `${each.tagName} ${each.textContent.trim().slice(0, 20)} ${box.width}x${box.height}`)
"""


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


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_screen_has_a_barrier(at: Site, scheme: str) -> None:
    """published: WCAG 2 A and AA as axe checks them (contrast 4.5 : 1, names, roles, order)."""
    from axe_playwright_python.sync_playwright import Axe

    job = bring(at, "hand")
    clash = bring(at, "hand")
    at.store.pen("dev2", "José", "2031-01-01T00:00:00").write(
        clash, "survey.walls.B.studs.B2.readings.48", "6"
    )
    fat = typed(at, fattest())
    axe, bad = Axe(), []
    rules = {"runOnly": ["color-contrast"]} if scheme == "dark" else {}
    wet = bring(at, "wet-corner")
    addresses = [
        path.format(id=wet if "/water" in path or "/floor" in path else job, **NAMES, name="B2")
        for path in SCREENS
    ]
    begun = at.store.pen("dev1", "Ann", "2026-03-08T16:00:00")
    begun.write(wet, "wood.visits.4.when", "2026-03-08 16:00")
    addresses += [f"/job/{wet}/water/round/4?lang=es", f"/job/{wet}/water/round?lang=es"]
    addresses += [f"/job/{wet}/{path}" for path in WATER]
    addresses += [
        f"/job/{clash}/doubts",
        f"/job/{job}/history?fact=pan.pan.width",
        f"/job/{job}/moves?L=1&settle=1",
    ]
    addresses += [
        path.format(id=fat, **NAMES, name="B40") + "?lang=es"
        for path in SCREENS
        if "{visit}" not in path and "{joist}" not in path
    ]
    size = SIZES[1] if scheme == "light" else SIZES[0]
    with chromium() as browser, phone(browser, at, size, color_scheme=scheme) as page:
        for address in addresses:
            page.goto(HOME + address)
            page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
            for each in axe.run(page, options=rules).response["violations"]:
                if each["impact"] in ("serious", "critical"):
                    bad.append((address, each["id"], [node["html"][:100] for node in each["nodes"]][:3]))
            if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
                bad.append((address, "sideways", []))
            bad += [(address, "small", small) for small in page.evaluate(SMALL)]
    assert bad == []
