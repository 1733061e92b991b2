"""Two phones on one wall: each sees what the other reads and where; apart they merge, a clash shows both."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from tests.hosts.laptop import Known, Laptop, synced
from tests.hosts.phone_job import Thumb
from tests.screens.cast import NOW, wall
from undertile.bench.browser import Browser

JOB = "b" * 32
PAD = f"#/job/{JOB}/read/B"
ROWS = """() => Object.fromEntries(
  window.undertile.screen.pad.pad.rows.map((row) => [row.fact.split(".").slice(4).join("."), row.value]))"""
AT = "() => { const { pad } = window.undertile.screen.pad; return pad.rows[pad.at]?.fact; }"
TITLE = "() => document.querySelector('.pad-head h1').textContent"
BAND = "() => document.querySelector('.pad-band').textContent"


GO = "to => window.undertile.screen.pad.pad.go(to, false)"
CAME = "() => { const { pad } = window.undertile.screen.pad; return pad.rows[pad.at].came; }"
CAME_AT = """(time) => {
  const { pad } = window.undertile.screen.pad;
  pad.rows[pad.at].came.time = Number(time);
}"""
"""Long ago or this very moment, however slow the machine is."""


def fact(stud: str, height: str) -> str:
    return f"survey.walls.B.studs.{stud}.readings.{height}"


@pytest.fixture
def begun(laptop: Laptop) -> Laptop:
    """The laptop with a wall to read."""
    with laptop.store() as store:
        pen = store.pen("d" * 32, "Lee", NOW)
        store.create(JOB)
        for name, value in (("name", "Two on one wall"), *wall("B", 4, heights='["2", "48"]')):
            pen.write(JOB, name, value)
    return laptop


@contextmanager
def at_the_pad(known: Known, laptop: Laptop, name: str) -> Iterator[Thumb]:
    """A phone of that name at the back wall's pad."""
    phone = known.phone(laptop, name, laptop.place.with_name(name))
    try:
        synced(phone)
        phone.page.evaluate("to => { location.hash = to; }", PAD)
        phone.until("() => document.querySelector('.pad-keys')")
        yield Thumb(phone)
    finally:
        phone.close()


def offline(phone: Browser, off: bool) -> None:
    phone.context.set_offline(off)
    if not off:
        phone.page.evaluate("() => window.undertile.sync.soon(0)")


def test_two_phones_read_one_wall(known: Known, begun: Laptop) -> None:
    with at_the_pad(known, begun, "Ann") as ann:
        ann.browser.until("() => window.undertile.screen.pad.beside.digest")
        assert ann.browser.page.evaluate(AT) == fact("B1", "2")
        with at_the_pad(known, begun, "Bo") as bo:
            bo.browser.until(f"() => ({AT})() === '{fact('B2', '2')}'")  # begins where nobody stands
            bo.browser.until(f"() => ({TITLE})() === 'Ann: B1 2'")
            ann.browser.until(f"() => ({TITLE})() === 'Bo: B2 2'")

            ann.enter("6-1/8")
            bo.browser.until(f"() => ({ROWS})()['B1.readings.2'] === '6-1/8'")
            assert bo.browser.page.evaluate(AT) == fact("B2", "2"), "nothing moves under a thumb"
            ann.browser.until(f"() => ({TITLE})() === 'Bo: B2 2'")
            ann.enter("6-1/16")  # B1 is done; B2 is Bo's
            assert ann.browser.page.evaluate(AT) == fact("B3", "2")
            bo.enter("6")
            ann.browser.until(f"() => ({ROWS})()['B2.readings.2'] === '6'")

            bo.browser.page.evaluate(GO, fact("B3", "2"))
            ann.browser.until(f"() => ({BAND})().startsWith('Bo reads B3 too.')")
            ann.tap('.pad-band [data-press="free"]')
            assert ann.browser.page.evaluate(AT) == fact("B4", "2")

            for each in (ann, bo):  # apart: both read the same, differently
                offline(each.browser, True)
                each.browser.page.evaluate(GO, fact("B4", "48"))
            ann.enter("5-7/8")
            bo.enter("6-1/8")
            bo.enter("6-3/16")  # on he goes, alone
            begun.kill()
            begun.start()
            offline(ann.browser, False)
            ann.browser.until("() => window.undertile.counts.open === 0")
            offline(bo.browser, False)
            for each in (ann, bo):
                synced(each.browser)
                each.browser.until(
                    "(fact) => window.undertile.screen.pad.pad.rows.find((row) => row.fact === fact).clash",
                    fact("B4", "48"),
                )
            bo.browser.page.evaluate(GO, fact("B4", "48"))
            assert "two values: settle it" in bo.browser.page.inner_text(".pad-place")
            bo.browser.page.evaluate("to => { location.hash = to; }", f"#/job/{JOB}/doubts")
            bo.browser.until("() => document.querySelectorAll('.clash .side').length === 2")
            sides = bo.browser.page.locator(".clash .side .reading").all_inner_texts()
            assert sorted(sides) == ["5-7/8", "6-1/8"]
            with begun.store() as store:
                log = store.log(JOB)
            assert [json.loads(e.to_line())["value"] for e in log if e.fact == fact("B1", "2")] == ["6-1/8"]


def test_a_value_that_came_this_moment_is_not_replaced_unseen(known: Known, begun: Laptop) -> None:
    """convention 7.3: an entry supersedes what the person saw, and nothing else."""
    with at_the_pad(known, begun, "Ann") as ann:
        ann.browser.until("() => window.undertile.screen.pad.beside.digest")
        for height, seen in (("2", False), ("48", True)):
            with begun.store() as store:
                its = store.pen("e" * 32, "Bo", NOW).write(JOB, fact("B1", height), "6-1/4")
            ann.browser.page.evaluate(GO, fact("B1", height))
            synced(ann.browser)
            ann.browser.until(CAME)
            assert "was 6-1/4" in ann.browser.page.inner_text(".pad-place")
            ann.browser.page.evaluate(CAME_AT, "-Infinity" if seen else "Infinity")
            ann.enter("6-1/8")
            synced(ann.browser)
            with begun.store() as store:
                (typed,) = [e for e in store.log(JOB) if e.fact == fact("B1", height) and e.value == "6-1/8"]
            assert typed.supersedes == ((its.id,) if seen else ())
