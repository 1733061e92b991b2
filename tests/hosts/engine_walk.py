"""Entry, kill and cold start in an engine that is not Chromium, by taps."""

from __future__ import annotations

import json
import os
import threading
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, field
from fractions import Fraction
from pathlib import Path

import pytest

from tests.screens.taps import presses
from undertile.bench import phone_kills
from undertile.bench.browser import LOG, READY, USABLE, Site
from undertile.bench.engines import Engine, engine
from undertile.bench.phone_kills import JOB, PAD, Tally, prepared

PAD_UP = "() => Boolean(document.querySelector('.pad-keys') && window.undertile.screen.pad.pad)"
SHOWN = """(text) => {
  const reads = (tag) => document.querySelector(`.pad-back-read ${tag}`)?.textContent;
  return reads("em")?.startsWith("✓") && reads("strong") === text;
}"""
"""The pad reads that value back, and says that it is kept."""
STANDS = "() => !document.querySelector('#pad[data-hold]')"
THERE = '(press) => !!document.querySelector(`.pad [data-press="${press}"]:not([disabled])`)'
REST = """async () => {
  const since = performance.now() - window.undertile.screen.pad.pad.pressedAt.time;
  if (since < 100) await new Promise((next) => setTimeout(next, 100 - since));
}"""
"""A hand is no faster: a second touch within 90 ms is taken for a bounce."""
SHOWS = "(to) => window.undertile.screen.shown === to && !document.querySelector('#place').dataset.old"
INTO_SIGHT = "(css) => document.querySelector(css).scrollIntoView({ block: 'center' })"
SETTLED = "() => !document.querySelector('[data-search], [data-later]')"
TWIN = """async (target) => {
  const request = { method: "GET", target, headers: { accept: "application/json", cookie: "lang=en" } };
  return new TextDecoder().decode((await window.undertile.ask(request)).content);
}"""
KNOWN = "() => performance.getEntriesByName('undertile-known').length > 0"
"""The pad stands where the storage says: what it was drawn from may be a value behind (test_phone_early)."""
PHOTO = """async () => {
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [60, 40];
  canvas.getContext("2d").fillRect(5, 5, 20, 20);
  const drawn = await new Promise((then) => canvas.toBlob(then, "image/png"));
  const chosen = new DataTransfer();
  chosen.items.add(new File([drawn], "wall.png", { type: "image/png" }));
  const box = document.querySelector("#place input[type=file]");
  box.files = chosen.files;
  box.form.requestSubmit(box.form.querySelector("button"));
}"""
"""As if a picture had been chosen in the form, which nothing outside the browser can do alike in both."""
WIDTH = "() => document.querySelector('#place img')?.naturalWidth"
KILL_AFTER_S = 0.35
"""Into a row of taps."""


@dataclass
class Finger:
    """What types on the pad, and what it has seen taken.

    Attributes
    ----------
    browser : Engine
    address : str
        Of the site.
    shown : list of str
        Values that the pad showed as kept.
    pictures : Path or None
        Where each screen is kept as a picture, for whoever looks (UNDERTILE_PICTURES).
    """

    browser: Engine
    address: str
    shown: list[str] = field(default_factory=list)
    pictures: Path | None = None

    def tap(self, press: str) -> None:
        self.browser.page.evaluate(REST)
        self.browser.until(STANDS)
        self.browser.page.tap(f'.pad [data-press="{press}"]')

    def enter(self, mm: int) -> None:
        """One value by the keys of the pad, until it is shown as taken."""
        for press in presses(Fraction(mm), "mm", lambda key: self.browser.page.evaluate(THERE, key)):
            self.tap(press)
        self.browser.until(SHOWN, str(mm))
        self.shown.append(str(mm))

    def touch(self, css: str) -> None:
        """Bring something into sight and tap it."""
        self.browser.page.evaluate(
            "(css) => document.querySelector(css).scrollIntoView({ block: 'center' })", css
        )
        self.browser.page.tap(css)

    def go(self, path: str) -> None:
        """To a screen, until Python shows it."""
        self.browser.page.evaluate("(to) => { location.hash = to; }", f"#{path}")
        self.browser.until(SHOWS, path)

    def enter_until_killed(self, values: Iterator[int]) -> None:
        """Value after value; once the first is taken the browser is killed in the midst of the next."""
        self.enter(next(values))
        killer = threading.Timer(KILL_AFTER_S, self.browser.kill)
        killer.start()
        with suppress(self.browser.gone):
            for mm in values:
                self.enter(mm)
        killer.join()

    def look(self, name: str) -> None:
        if self.pictures is not None:
            self.browser.page.screenshot(self.pictures / f"{self.browser.name}-{name}.png")


@pytest.fixture
def finger(site: Site, tmp_path: Path, engine_name: str) -> Iterator[Finger]:
    """A finger on a phone that has just got the tool from a static host."""
    told = os.environ.get("UNDERTILE_PICTURES")
    browser = engine(engine_name)(tmp_path / "profile")
    try:
        browser.page.goto(site.address)
        browser.until(READY)
        yield Finger(browser, site.address, pictures=Path(told) if told else None)
    finally:
        browser.close()


def walked(finger: Finger, site: Site) -> None:
    """In one go, as a person would: the start of a browser is what takes the time."""
    example = the_example_by_a_tap(finger)
    prepared(finger.browser)
    finger.enter(151)
    site.stop()
    started_cold(finger, PAD)
    finger.look("pad")
    # a person reads which place it stands at; this finger types on blindly, where the storage says
    finger.browser.until(KNOWN)
    finger.enter(152)
    finger.enter_until_killed(iter(range(153, 190)))
    assert len(finger.shown) >= 2

    started_cold(finger, PAD)
    all_is_there_once(finger.browser, finger.shown)
    finger.browser.until(READY)
    rows = json.loads(finger.browser.page.evaluate(TWIN, PAD[1:]))["rows"]
    typed = [row["value"] for row in rows if row["value"]]
    assert typed[: len(finger.shown)] == finger.shown, "Python has them too"
    finger.look("pad-judged")
    the_room_and_its_plan(finger, example)
    a_photo_is_kept(finger, example)

    finger.go(PAD[1:])
    finger.browser.until(PAD_UP)
    tally = phone_kills.kills(1, 5, finger.browser, site)
    assert tally.kills == 1
    assert tally.shown
    assert (tally.lost, tally.doubled, tally.torn) == ([], [], [])


def the_example_by_a_tap(finger: Finger) -> str:
    """Path of the bundled example, opened as a newcomer does: what Python writes is kept by the page."""
    finger.go("/")
    finger.touch("button[name=bundled][value=hand]")
    finger.browser.until("() => window.undertile.screen.job() && window.undertile.counts.all > 20")
    return f"/job/{finger.browser.page.evaluate('() => window.undertile.screen.job()')}"


def started_cold(finger: Finger, path: str) -> None:
    """Kill the browser if it lives; start it with nobody to ask, until the pad takes values."""
    finger.browser.kill()
    finger.browser.again()
    finger.browser.page.goto(finger.address + path)
    finger.browser.until(USABLE)
    finger.browser.until(PAD_UP)


def all_is_there_once(browser: Engine, shown: list[str]) -> None:
    tally = Tally(shown=shown)
    phone_kills._compare([each for each in browser.page.evaluate(LOG) if each["job"] == JOB], tally)
    assert (tally.lost, tally.doubled, tally.torn) == ([], [], [])
    assert tally.unshown <= 1, "the value that was on its way"


def the_room_and_its_plan(finger: Finger, job: str) -> None:
    """published: convention 8, the room worked by hand, 43 minutes; looked for by the second worker."""
    finger.go(f"{job}/room")
    finger.look("room")
    finger.go(f"{job}/plan")
    finger.browser.until(SETTLED)
    finger.look("plan")
    plan = json.loads(finger.browser.page.evaluate(TWIN, f"{job}/plan"))
    assert plan["total"]["time"] == "43 min"


def a_photo_is_kept(finger: Finger, job: str) -> None:
    """Read as a file, drawn anew in the worker, kept, and shown again from what was kept."""
    finger.go(f"{job}/photos")
    finger.browser.page.evaluate(PHOTO)
    assert finger.browser.until(WIDTH) == 60
    photos = finger.browser.page.evaluate("async () => (await window.undertile.log.photos()).length")
    assert photos == 1
