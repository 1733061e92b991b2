"""A moisture round of thirty points by taps alone, the taps counted: ``python -m tests.screens.roundtaps``.

The points lie on plates, studs and subfloor; the second round was walked in an order of its own. What the
meter shows falls as wood does, each point at a pace of its own.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import exp
from typing import TYPE_CHECKING

from tests.screens.browsing import HOME, chromium, phone, tap, wait_kept
from tests.screens.cast import Site, site, typed, wall

if TYPE_CHECKING:
    from playwright.sync_api import Page

DAYS = {"1": "2026-03-02 08:00", "2": "2026-03-04 08:00", "3": "2026-03-06 08:00"}
ROUND = "3"
NUMBER = 30
WOOD = {"material": "lumber", "species": "Douglas-fir"}
AWL_LACKS = 6
"""Points without an awl yet: it is asked for beside the reading."""


@dataclass(frozen=True)
class Thirty:
    """The job and what is read on its third round.

    Attributes
    ----------
    facts : list of (str, str)
        In the order they are typed.
    walked : list of str
        Points in the order the second round was walked.
    readings : dict of str to str
        Fact to what the meter shows on the third.
    """

    facts: list[tuple[str, str]]
    walked: list[str]
    readings: dict[str, str]


def name_of(k: int) -> tuple[str, dict[str, str]]:
    """A point's name and where it is."""
    if k < 10:
        return f"plate-B-{4 + 6 * k}", {"member": "plate", "wall": "B", "along": str(4 + 6 * k)}
    if k < 20:
        stud, height = f"B{1 + (k - 10) // 2}", ("2", "12")[k % 2]
        return f"{stud}-{height}", {"member": "stud", "name": stud, "wall": "B", "height": height}
    x, y = 6 + 12 * ((k - 20) % 5), 6 + 12 * ((k - 20) // 5)
    return f"floor-{x}-{y}", {"member": "subfloor", "x": str(x), "y": str(y)}


def shown(k: int, day: float) -> str:
    """What the meter shows: toward 9 percent, each point with a pace and a start of its own, to its half."""
    wet, pace = 11 + (7 * k) % 18, 3.0 + (5 * k) % 7
    return f"{Fraction(round(2 * (9 + (wet - 9) * exp(-day / pace))), 2).__float__():g}"


def thirty() -> Thirty:
    """Thirty points, two rounds read, the third begun."""
    facts = [("name", "Thirty points"), *wall("B", 5)]
    facts += [
        ("wood.meters.pins.kind", "pin"),
        ("wood.meters.pins.set_to", "Douglas-fir"),
        ("wood.opened", "2026-03-01"),
    ]
    for visit, when in DAYS.items():
        air = {"when": when, "air": "70 F", "humidity": "40", "wood": "68 F"}
        facts += [(f"wood.visits.{visit}.{part}", value) for part, value in air.items()]
    for k in range(3):
        dry = {"member": "other", **WOOD, "reference": "true", "shown.1": "10.5"}
        facts += [(f"wood.points.ref-{k}.{part}", value) for part, value in dry.items()]
    for k in range(NUMBER):
        name, where = name_of(k)
        told = {**where, **WOOD, "depth": "1/2", "shown.1": shown(k, 0)}
        if k >= AWL_LACKS:
            told["awl.1"] = "0"
        facts += [(f"wood.points.{name}.{part}", value) for part, value in told.items()]
    walk = [(11 * k + 3) % NUMBER for k in range(NUMBER)]
    facts += [(f"wood.points.{name_of(k)[0]}.shown.2", shown(k, 2)) for k in walk]
    walked = [name_of(k)[0] for k in walk]
    readings = {f"wood.points.{name_of(k)[0]}.shown.{ROUND}": shown(k, 4) for k in walk}
    return Thirty(facts, walked, readings)


HERE = "(row => row ? [row.fact, row.kind] : ['', ''])(globalThis.pad.rows[globalThis.pad.at])"


@dataclass(frozen=True)
class Read:
    """One point: its fact, how many taps it took, the awl among them."""

    fact: str
    taps: int


def here(page: Page) -> tuple[str, str]:
    """The fact the pad asks for and its kind; two blanks where it asks for none."""
    found = page.evaluate(HERE)
    return found[0], found[1]


def steady(page: Page) -> None:
    """A hand is no faster; the pad takes a second touch within 90 ms for a bounce."""
    if page.evaluate("performance.now() - globalThis.pad.pressedAt.time < 100"):
        page.wait_for_timeout(100)


def show(page: Page, value: str) -> None:
    """Type what the meter shows by the fewest taps."""
    steady(page)
    press = value if value in ("over", "under") else f"value {value}"
    if not page.locator(f'.pad [data-press="{press}"]').count():
        tap(page, f"tens {int(float(value)) // 10}")
    tap(page, press)


def walk_by_taps(page: Page, readings: dict[str, str]) -> list[Read]:
    """Everything the pad asks for, in its order, as far as there are readings."""
    out: list[Read] = []
    while True:
        fact, kind = here(page)
        before = page.evaluate("globalThis.pad.taps")
        if kind == "awl":
            steady(page)
            tap(page, "deep 0")
            wait_kept(page)
            out[-1] = Read(out[-1].fact, out[-1].taps + page.evaluate("globalThis.pad.taps") - before)
            continue
        if fact not in readings:
            return out
        show(page, readings[fact])
        wait_kept(page)
        out.append(Read(fact, page.evaluate("globalThis.pad.taps") - before))


def walked(at: Site, page: Page, told: Thirty) -> tuple[str, list[Read]]:
    """The third round of a new job, walked; its id and what it took."""
    job = typed(at, told.facts)
    page.goto(f"{HOME}/job/{job}/water/round/{ROUND}")
    return job, walk_by_taps(page, told.readings)


def main() -> None:
    """Walk the round and print what it took."""
    at = site()
    with chromium() as browser, phone(browser, at) as page:
        _, found = walked(at, page, thirty())
    taps = [each.taps for each in found]
    mean = sum(taps) / len(taps)
    print(f"{len(found)} points, {AWL_LACKS} of them with an awl: {sum(taps)} taps, {mean:.2f} a point")
    print(f"taps a point: {dict(sorted(Counter(taps).items()))}")


if __name__ == "__main__":
    main()
