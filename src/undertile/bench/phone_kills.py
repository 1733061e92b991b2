"""Kill the browser at random moments while values are typed on the pad; nothing shown as taken may be lost.

    python -m undertile.bench.phone_kills             200 kills
    python -m undertile.bench.phone_kills 20 --seed 7
    python -m undertile.bench.phone_kills 50 --engine webkit

Every value typed is another one, so that a value kept twice is seen. SIGKILL to all of the browser's
processes at once is a crash of the browser; it is no power cut, which nothing here can imitate.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import threading
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from undertile.bench.browser import LOG, READY, WAIT_S, Browser, Site, bundle_of_this_source, phone
from undertile.bench.engines import ENGINES, Engine, engine
from undertile.job.entry import Entry

STUDS, HEIGHTS = 8, 5
WHO = ("Kim", "f" * 32)
JOB = "1" * 32
PAD = f"#/job/{JOB}/read/B"
PAD_UP = "() => Boolean(document.querySelector('.pad-keys') && window.undertile?.screen?.pad?.pad)"
"""The pad's keys are there, and what hears them: the screen kept for the start is there before."""
SOONEST_S, LATEST_S = 0.05, 1.2
"""When after the first value the kill comes."""

TYPE = """async ([from, per]) => {
  for (let k = from; ; k += 1) {
    while (window.undertile.screen.pad.pad.still) await new Promise((next) => setTimeout(next, 0));
    const { pad } = window.undertile.screen.pad;
    const row = pad.rows[k % per];
    pad.go(row.fact, false);
    const text = (150 + k / 1000).toFixed(3);
    for (const key of [...text, "Enter"]) {
      document.dispatchEvent(new KeyboardEvent("keydown", { key, cancelable: true }));
    }
    while (row.state === "keeping") await new Promise((next) => setTimeout(next, 0));
    const shows = document.querySelector(".pad-back-read em");
    if (row.state !== "kept" || row.value !== text || !shows) return `not taken: ${text}`;
    console.log(`shown ${text}`);
  }
}"""
"""Types on the pad as a keyboard would, value after value, and says each that the pad shows as kept."""


@dataclass
class Tally:
    """What came of it.

    Attributes
    ----------
    kills : int
    shown : list of str
        Values the pad showed as kept.
    kept : int
        Values in the phone's log at the end.
    lost, doubled, torn : list of str
        Shown and not there; there twice; records that are no entry.
    unshown : int
        Kept, and killed before the pad could show it.
    """

    kills: int = 0
    shown: list[str] = field(default_factory=list)
    kept: int = 0
    lost: list[str] = field(default_factory=list)
    doubled: list[str] = field(default_factory=list)
    torn: list[str] = field(default_factory=list)
    unshown: int = 0


def lines() -> list[str]:
    """A job in millimetres with a wall to read, as its first entries."""
    base = "survey.walls.B"
    facts = {"name": "Kills", "unit": "mm", f"{base}.nominal": "150"}
    facts[f"{base}.heights"] = "[" + ", ".join(f'"{50 + 400 * k}"' for k in range(HEIGHTS)) + "]"
    facts |= {f"{base}.studs.B{k}.along": str(400 * k) for k in range(1, STUDS + 1)}
    return [
        Entry(f"{WHO[1]}-{number}", fact, value, "2026-11-25T08:00:00Z", *WHO).to_line()
        for number, (fact, value) in enumerate(facts.items(), 1)
    ]


def prepared(browser: Browser | Engine) -> None:
    """Bring the job in and open the pad once, so that its sheet is on the phone."""
    browser.page.evaluate("([job, lines]) => window.undertile.log.keep(job, lines)", [JOB, lines()])
    browser.page.evaluate("to => { location.hash = to; }", PAD)
    browser.until(
        "() => document.querySelector('.pad-keys') && window.undertile.screen.shown?.endsWith('read/B')"
    )


def kills(number: int, seed: int, browser: Browser | Engine, site: Site) -> Tally:
    """Kill the browser so many times while values are typed, without a network.

    Parameters
    ----------
    number : int
    seed : int
        Of the moments.
    browser : Browser or Engine
        With the job of ``prepared`` and its pad open.
    site : Site
        Is stopped.
    """
    rng = random.Random(seed)
    tally = Tally()
    site.stop()
    for _ in range(number):
        _type_until_killed(browser, tally, rng.uniform(SOONEST_S, LATEST_S))
        browser.again()
        browser.page.goto(site.address + PAD)
        try:
            browser.until(PAD_UP)
        except TimeoutError as error:
            there = Counter(each["job"] for each in browser.page.evaluate(LOG))
            raise RuntimeError(
                f"after {tally.kills} kills and {len(tally.shown)} values shown as kept there is no pad; "
                f"entries in the log by job: {dict(there)}"
            ) from error
        _compare([each for each in browser.page.evaluate(LOG) if each["job"] == JOB], tally)
    return tally


def _type_until_killed(browser: Browser | Engine, tally: Tally, after_s: float) -> None:
    killer = threading.Timer(after_s, browser.kill)
    at_last = threading.Timer(WAIT_S, browser.kill)  # where nothing is ever shown

    def heard(message: Any) -> None:
        if message.text.startswith("shown "):
            tally.shown.append(message.text.removeprefix("shown "))
            if killer.ident is None:  # counted from the first value, however slow the machine is
                killer.start()

    browser.page.on("console", heard)
    at_last.start()
    try:
        raise RuntimeError(browser.page.evaluate(TYPE, [tally.kept + tally.kills + 1, STUDS * HEIGHTS]))
    except browser.gone:  # the browser is gone, as it should be
        tally.kills += 1
    finally:
        at_last.cancel()
        at_last.join()
        if killer.ident is not None:
            killer.join()


def _compare(records: list[dict[str, Any]], tally: Tally) -> None:
    found: Counter[str] = Counter()
    for record in records:
        entry = _entry(record)
        if entry is None:
            tally.torn.append(str(record))
        elif ".readings." in entry.fact:
            found[str(entry.value)] += 1
    ids = Counter(record["id"] for record in records)
    tally.kept = found.total()
    tally.lost = [value for value in tally.shown if not found[value]]
    tally.doubled = [each for each, times in (found + ids).items() if times > 1]
    tally.unshown = tally.kept - len(set(tally.shown))


def _entry(record: dict[str, Any]) -> Entry | None:
    from undertile.job.entry import read_log

    log = read_log(record["line"])
    return (
        log[0] if len(log) == 1 and log[0].to_line() == record["line"] and log[0].id == record["id"] else None
    )


@contextmanager
def _opened(name: str, profile: Path, site: Site) -> Iterator[Browser | Engine]:
    if name == "chromium":
        with phone(profile, site) as browser:
            yield browser
        return
    other = engine(name)(profile)
    try:
        other.page.goto(site.address)
        other.until(READY)
        yield other
    finally:
        other.close()


def main() -> int:
    """The long command."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("number", type=int, nargs="?", default=200)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--engine", choices=["chromium", *ENGINES], default="chromium")
    told = parser.parse_args()
    site = Site(bundle_of_this_source())
    with tempfile.TemporaryDirectory() as folder, _opened(told.engine, Path(folder), site) as browser:
        prepared(browser)
        tally = kills(told.number, told.seed, browser, site)
    print(
        f"{tally.kills} kills; {len(tally.shown)} values shown as kept, {tally.kept} in the log "
        f"({tally.unshown} kept before they could be shown)"
    )
    print(f"lost: {len(tally.lost)}, doubled: {len(tally.doubled)}, torn: {len(tally.torn)}")
    return 1 if tally.lost or tally.doubled or tally.torn else 0


if __name__ == "__main__":
    sys.exit(main())
