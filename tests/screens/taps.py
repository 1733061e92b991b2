"""A room typed by taps and nothing else, the taps counted: ``python -m tests.screens.taps [ORDER]``."""

from __future__ import annotations

import re
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from tests.screens.browsing import HOME, chromium, phone, tap, wait_kept
from tests.screens.cast import EXAMPLES, Site, site, typed, wall
from undertile.job import read_job
from undertile.lengths import MM, parse_length

if TYPE_CHECKING:
    from playwright.sync_api import Page

HEIGHTS = ("2", "18", "36", "54", "90")
"""Five of the six heights of the old alcove: 13 studs, 65 readings, both planted slips among them."""


@dataclass(frozen=True)
class Tapped:
    """One reading: where, what, in how many taps, and whether the one before had the same whole inch."""

    fact: str
    text: str
    taps: int
    same: bool


def room() -> tuple[list[tuple[str, str]], dict[str, str]]:
    """A room of 65 readings: what is known before they are taken, and the readings by fact."""
    job = read_job(EXAMPLES / "old-alcove.toml")
    facts: list[tuple[str, str]] = []
    readings: dict[str, str] = {}
    for name, found in job.survey.walls.items():
        heights = "[" + ", ".join(f'"{z}"' for z in HEIGHTS) + "]"
        facts += [each for each in wall(name, 0, heights=heights) if each not in facts]
        for stud, its in found.studs.items():
            base = f"survey.walls.{name}.studs.{stud}"
            facts.append((f"{base}.along", its.along.text))
            readings |= {f"{base}.readings.{z}": its.readings[z].text for z in HEIGHTS}
    return facts, readings


def read_by_taps(page: Page, readings: dict[str, str], unit: str = "in") -> list[Tapped]:
    """Every reading of the sheet that is open, by the fewest taps its keys allow."""
    out: list[Tapped] = []
    before: Fraction | None = None
    while True:
        fact = page.evaluate("globalThis.pad.rows[globalThis.pad.at]?.fact ?? ''")
        if fact not in readings:
            return out
        text = readings[fact]
        value = parse_length(text, unit, whole="inches").inches / (1 if unit == "in" else MM)  # type: ignore[arg-type]
        start = page.evaluate("globalThis.pad.taps")
        _enter(page, value, unit)
        wait_kept(page)
        group = 1 if unit == "in" else 10
        same = before is not None and value // group == before // group
        out.append(Tapped(fact, text, page.evaluate("globalThis.pad.taps") - start, same))
        before = value


def _enter(page: Page, value: Fraction, unit: str) -> None:
    if page.evaluate("performance.now() - globalThis.pad.pressedAt.time < 100"):
        page.wait_for_timeout(
            100
        )  # a hand is no faster; the pad takes a second touch within 90 ms for a bounce
    for press in presses(value, unit, lambda key: _there(page, key)):
        tap(page, press)


def presses(value: Fraction, unit: str, there: Callable[[str], bool]) -> Iterator[str]:
    """The fewest keys that say a length: asked for one by one, as the keys change by each press."""
    whole = int(value // (1 if unit == "in" else 10))
    key = f"part {whole} {int(value % 1 * 16)}" if unit == "in" else f"mm {int(value)}"
    if not there(key):
        if not there(f"whole {whole}"):
            yield "others"
            while not there(f"whole {whole}"):
                below = any(there(f"whole {at}") for at in range(whole - 1, max(0, whole - 60) - 1, -1))
                yield "page 1" if below else "page -1"
        yield f"whole {whole}"
    yield key


def _there(page: Page, press: str) -> bool:
    return page.locator(f'.pad [data-press="{press}"]:not([disabled])').count() > 0


def count(at: Site, job: str, readings: dict[str, str], page: Page, order: str) -> list[Tapped]:
    """The walls of a job, one sheet after the other."""
    found: list[Tapped] = []
    for name in ("B", "L", "R"):
        page.goto(f"{HOME}/job/{job}/read/{name}")
        page.evaluate("order => globalThis.pad.change('order', order)", order)
        found += read_by_taps(page, readings)
    return found


def main(order: str = "up") -> None:
    """Type the room and print what it took."""
    facts, readings = room()
    at = site()
    job = typed(at, facts)
    with chromium() as browser, phone(browser, at) as page:
        found = count(at, job, readings, page, order)
    kinds = Counter(each.taps for each in found)
    same = [each for each in found if each.same]
    print(f"{len(found)} readings, order {order}: {sum(each.taps for each in found)} taps")
    print(f"taps a reading: {dict(sorted(kinds.items()))}")
    print(f"same whole inch as the last: {len(same)}, of these in one tap: {sum(e.taps == 1 for e in same)}")
    stands = {entry.fact: entry.value for entry in at.store.log(job)}
    wrong = [fact for fact, text in readings.items() if not _equal(stands.get(fact), text)]
    print(f"kept as meant: {len(readings) - len(wrong)} of {len(readings)}")


def _equal(found: str | None, meant: str) -> bool:
    if found is None or not re.search("[0-9]", found):
        return False
    return parse_length(found, "in", whole="inches") == parse_length(meant, "in", whole="inches")


if __name__ == "__main__":
    main(*sys.argv[1:2])
