"""A moisture round on the phone: before Python is up, killed in the middle, judged, and walked by two."""

from __future__ import annotations

import json
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import pytest
from playwright.sync_api import ConsoleMessage, Error

from tests.hosts.laptop import Known, Laptop, synced
from tests.hosts.test_phone import PAD_UP, SHOWN, TWIN
from tests.hosts.test_phone_early import LAST_KEPT
from tests.screens.browsing import SIZES
from tests.screens.cast import NOW
from tests.screens.roundtaps import ROUND, thirty
from undertile.bench.browser import LOG, READY, Browser, Site, phone
from undertile.job.entry import Entry

JOB = "3" * 32
PAD = f"#/job/{JOB}/water/round/{ROUND}"
OPENED = f"() => document.querySelector('.pad-keys') && window.undertile.screen.shown?.endsWith('{PAD[-8:]}')"
BAND = "() => document.querySelector('.pad-band').textContent"
AT = "() => { const { pad } = window.undertile.screen.pad; return pad.rows[pad.at]?.fact; }"
GO = "fact => window.undertile.screen.pad.pad.go(fact, false)"
STANDS = "() => window.undertile.opened && !window.undertile.screen.pad.pad.still"
"""What the log has is on the pad, and a key pressed now is meant for the place that it shows."""
VALUES = """() => {
  const read = window.undertile.screen.pad.pad.rows.filter((row) => row.value !== null);
  return Object.fromEntries(read.map((row) => [row.fact, row.value]));
}"""
TYPE = """async ([values, wait]) => {
  const { pad } = window.undertile.screen.pad;
  for (const [fact, text] of values) {
    pad.go(fact, false);
    pad.held = text; // asked about or not: this hand means it
    for (const key of [...text, "Enter"]) {
      document.dispatchEvent(new KeyboardEvent("keydown", { key, cancelable: true }));
    }
    const row = pad.rows.find((each) => each.fact === fact);
    while (row.state === "keeping") await new Promise((next) => setTimeout(next, 0));
    if (row.state !== "kept") return `not taken: ${fact}`;
    console.log(`shown ${fact} ${text}`);
    await new Promise((next) => setTimeout(next, wait));
  }
  await new Promise(() => {}); // all is typed: the kill is on its way
}"""
"""Types values as a meter would, and says each that the pad shows as kept, until the browser is killed."""


def shown_of(name: str) -> str:
    return f"wood.points.{name}.shown.{ROUND}"


def lines() -> list[str]:
    """Thirty points, two rounds read and the third begun, as a job's first entries."""
    who = ("Kim", "f" * 32)
    return [
        Entry(f"{who[1]}-{number}", fact, value, "2026-03-06T08:00:00Z", *who).to_line()
        for number, (fact, value) in enumerate(thirty().facts, 1)
    ]


@pytest.fixture(scope="module")
def begun(one_site: Site, bundle: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The profile of a phone that has the job and has opened the round once."""
    profile = tmp_path_factory.mktemp("begun")
    one_site.restore(bundle)
    with phone(profile, one_site) as browser:
        browser.page.evaluate("([job, lines]) => window.undertile.log.keep(job, lines)", [JOB, lines()])
        browser.page.evaluate("to => { location.hash = to; }", PAD)
        browser.until(OPENED)
        browser.leave()
    return profile


@pytest.fixture
def at_round(site: Site, begun: Path, tmp_path: Path) -> Iterator[Browser]:
    """A phone at the pad of that round."""
    shutil.copytree(begun, tmp_path / "profile", ignore=shutil.ignore_patterns("Singleton*"))
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.goto(site.address + PAD)
        browser.until(PAD_UP)
        yield browser
    finally:
        browser.close()


def press(browser: Browser, *keys: str) -> None:
    """Keys of the pad, one after the other."""
    for key in keys:
        browser.page.wait_for_timeout(100)  # a hand is no faster
        browser.page.click(f'.pad [data-press="{key}"]')


def kept(browser: Browser) -> dict[str, str]:
    """What this phone's own log has of the third round, past the tool's code."""
    found = [json.loads(each["line"]) for each in browser.page.evaluate(LOG) if each["job"] == JOB]
    return {each["fact"]: each["value"] for each in found if each["who"] != "Kim"}


def test_a_round_goes_on_before_python_is_up_and_nothing_of_it_is_lost(at_round: Browser, site: Site) -> None:
    """A reading, a wet face, a new place with its awl: no network, no Python, and the browser killed."""
    browser = at_round
    first, second = (shown_of(name) for name in thirty().walked[:2])
    browser.until(READY)
    browser.until(STANDS)
    assert browser.page.evaluate(AT) == first
    browser.page.keyboard.type(thirty().readings[first])
    browser.page.keyboard.press("Enter")
    browser.until(SHOWN)
    browser.until(LAST_KEPT, "pad-sheet")
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.add_init_script("window.Worker = class { postMessage() {} terminate() {} };")  # no Python
    browser.page.goto(site.address + PAD)
    browser.until(PAD_UP)
    awl = first.replace("shown", "awl")
    browser.until(f"() => ({AT})() === '{awl}'")  # where it was left, once the log is open
    press(browser, "deep 0", "wet", "over")
    browser.until(SHOWN)
    press(browser, "list")
    browser.page.click(".pad-list button:has-text('New place')")
    browser.page.click(".pad-choice button:has-text('plate')")
    browser.page.click(".pad-choice button:has-text('64')")
    press(browser, "value 12", "deep 1/16")
    browser.until(SHOWN)
    assert browser.page.evaluate("() => window.undertile.stage") != "ready"
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.goto(site.address + PAD)
    browser.until(READY)
    rows = json.loads(browser.page.evaluate(TWIN))["rows"]
    stands = {row["fact"]: row["value"] for row in rows if row["value"]}
    new = "wood.points.plate-B-64"
    assert stands == {
        first: thirty().readings[first],
        awl: "0",
        second: "over",
        second.replace("shown", "surface"): "wet",
        f"{new}.shown.{ROUND}": "12",
        f"{new}.awl.{ROUND}": "1/16",
    }
    assert kept(browser) == {
        **stands,
        **{f"{new}.{part}": value for part, value in {"member": "plate", "wall": "B", "along": "64"}.items()},
        **{
            f"{new}.{part}": value for part, value in {"material": "lumber", "species": "Douglas-fir"}.items()
        },
    }


def test_killed_while_the_round_is_walked_nothing_shown_as_kept_is_lost(
    at_round: Browser, site: Site
) -> None:
    browser = at_round
    thirty_points = thirty()
    seen: dict[str, str] = {}

    def heard(killer: threading.Timer, message: ConsoleMessage) -> None:
        if message.text.startswith("shown "):
            _, fact, value = message.text.split(" ")
            seen[fact] = value
            if killer.ident is None:  # counted from the first value shown, however slow the machine is
                killer.start()

    site.stop()
    for after_s in (0.1, 0.45):
        killer = threading.Timer(after_s, browser.kill)
        browser.page.on("console", partial(heard, killer))
        browser.until(STANDS)
        left = [[fact, thirty_points.readings[fact]] for fact in map(shown_of, thirty_points.walked)]
        try:
            told = browser.page.evaluate(TYPE, [[each for each in left if each[0] not in seen], 40])
            raise AssertionError(told)
        except Error:
            pass  # the browser is gone, as it should be
        killer.join()
        browser.again()
        browser.page.goto(site.address + PAD)
        browser.until(PAD_UP)
        found = kept(browser)
        assert {fact: found.get(fact) for fact in seen} == seen
        ids = [each["id"] for each in browser.page.evaluate(LOG)]
        assert len(set(ids)) == len(ids)
        browser.until(STANDS)
        values = browser.page.evaluate(VALUES)
        assert {fact: values.get(fact) for fact in seen} == seen, "and the pad shows it"
    assert len(seen) >= 2, "one at least before each kill"


def test_the_verdict_is_there_with_the_next_key_press_on_the_phone(at_round: Browser) -> None:
    """By hand: 9 + 16/e^(2/6) is 20.5 on the second round, so 26.5 on the third is up 6."""
    browser = at_round
    browser.until(READY)
    browser.page.evaluate(GO, shown_of("plate-B-16"))
    press(browser, "tens 2", "value 26.5")
    browser.until(f"() => ({BAND})().startsWith('Up 6 since last time?')")
    press(browser, f"wet wood.points.plate-B-16.surface.{ROUND}")
    browser.until(f"() => !({BAND})().includes('Up 6')")
    assert kept(browser)[f"wood.points.plate-B-16.surface.{ROUND}"] == "wet"


COPIES = """() => {
  const key = document.getElementById("copies");
  const box = key.getBoundingClientRect();
  const covered = [...document.querySelectorAll(".pad a, .pad [data-press]")].filter((each) => {
    const its = each.getBoundingClientRect();
    const over = its.left < box.right && its.right > box.left && its.top < box.bottom && its.bottom > box.top;
    return over || document.elementFromPoint(its.x + its.width / 2, its.y + its.height / 2) === key;
  });
  const at = (y) => document.elementFromPoint(box.x + box.width / 2, y)?.closest("#copies") === key;
  const { scrollHeight, scrollWidth } = document.documentElement;
  const fits = scrollHeight <= innerHeight && scrollWidth <= innerWidth;
  const reached = at(box.top + 2) && at(box.bottom - 2);
  return [box.width, box.height, reached, covered.map((each) => each.outerHTML), fits];
}"""


def test_what_is_not_yet_copied_takes_a_glove_and_covers_no_key(at_round: Browser) -> None:
    """published: the project's own 48 px, measured; what lies under a finger is asked of the browser."""
    for wide, high in SIZES:
        at_round.page.set_viewport_size({"width": wide, "height": high})
        width, height, reached, covered, fits = at_round.page.evaluate(COPIES)
        assert width >= 48
        assert height >= 48
        assert reached
        assert covered == []
        assert fits
        press(at_round, "list")
        at_round.page.wait_for_selector(".pad-list")
        assert at_round.page.evaluate(
            "() => { const box = document.querySelector('.pad-list-head .key').getBoundingClientRect();"
            " return !document.elementFromPoint(box.x + box.width / 2, box.y + 8)?.closest('#copies'); }"
        ), "the list lies over the sheet's title"
        at_round.page.click(".pad-list-head .key")
        at_round.page.wait_for_selector(".pad-list", state="hidden")


NEWS = """async () => {
  const { screen } = window.undertile;
  const { pad } = screen.pad;
  await screen.go(screen.path, { again: true, news: true });
  return [screen.pad.pad === pad, Boolean(document.querySelector(".pad-new")), Boolean(pad.panel)];
}"""
"""The screen asked for anew, as it is when others' values came while it was being opened."""


@contextmanager
def walking(known: Known, laptop: Laptop, name: str) -> Iterator[Browser]:
    """A phone of that name at the round."""
    browser = known.phone(laptop, name, laptop.place.with_name(name))
    try:
        synced(browser)
        browser.page.evaluate("to => { location.hash = to; }", PAD)
        browser.until(OPENED)
        yield browser
    finally:
        browser.close()


def test_two_phones_walk_one_round(known: Known, laptop: Laptop) -> None:
    walked = [shown_of(name) for name in thirty().walked]
    with laptop.store() as store:
        pen = store.pen("d" * 32, "Lee", NOW)
        store.create(JOB)
        for name, value in thirty().facts:
            pen.write(JOB, name, value)
    with walking(known, laptop, "Ann") as ann:
        ann.until("() => window.undertile.screen.pad.beside.digest")
        assert ann.page.evaluate(AT) == walked[0]
        press(ann, "tens 1", "tens")  # who has pressed a key is moved nowhere
        with walking(known, laptop, "Bo") as bo:
            bo.until(f"() => ({AT})() === '{walked[1]}'")  # begins where nobody stands
            ann.until(f"() => window.undertile.screen.pad.pad.others[0]?.row.fact === '{walked[1]}'")
            press(ann, "under", "deep 0")
            bo.until(f"() => ({VALUES})()['{walked[0]}'] === 'under'")
            assert bo.page.evaluate(AT) == walked[1], "nothing moves under a thumb"
            assert ann.page.evaluate(AT) == walked[2], "past where Bo stands"
            press(ann, "list")
            ann.page.click(".pad-list button:has-text('New place')")
            assert ann.page.evaluate(NEWS) == [True, True, True], "what was asked before takes nothing away"
            ann.page.click(".pad-choice button:has-text('plate')")
            ann.page.click(".pad-choice button:has-text('64')")
            press(ann, "value 12")
            bo.until(f"() => ({VALUES})()['{shown_of('plate-B-64')}'] === '12'")  # a place Bo did not know
            press(bo, "over")
            ann.until(f"() => ({VALUES})()['{walked[1]}'] === 'over'")
            for each in (ann, bo):
                synced(each)
        with laptop.store() as store:
            stands = {entry.fact: entry.value for entry in store.log(JOB)}
    assert stands[walked[0]] == "under"
    assert stands[walked[1]] == "over"
    assert stands["wood.points.plate-B-64.along"] == "64"
