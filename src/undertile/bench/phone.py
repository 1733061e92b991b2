"""The tool in a phone's browser: cold start without a network, bytes, how soon a value is kept and judged.

Beside the first Python screen stands what Pyodide takes of it by itself, from its module to its prompt, the
memory kept at the visit before filled in: what a machine makes of the aims shows there.

Chromium without a window, 390 x 844, one job of 13 studs x 6 heights (examples/old-alcove.toml, its slips
mended), the site stopped and the browser killed before each start. A slower phone is imitated by letting all
of the browser's processes run a quarter of the time. Each row has the aim beside it; nothing here fails when
an aim is missed.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import replace
from functools import cache
from pathlib import Path
from statistics import median
from typing import Any

import brotli  # type: ignore[import-untyped]

from undertile.bench.browser import Browser, Site, bundle_of_this_source, phone
from undertile.errors import InputError
from undertile.job import Entry, Pen, read_job
from undertile.job.plain import entries_of

ROOT = Path(__file__).resolve().parents[3]
EXAMPLE = ROOT / "examples" / "old-alcove.toml"
WET = ROOT / "examples" / "wet-corner.toml"
JOB, WET_JOB = "2" * 32, "3" * 32
PEN = Pen("e" * 32, "Kim", "2026-11-25T08:00:00Z")
MENDED = {
    "survey.walls.L.studs.L3.readings.54": "5-7/8",
    "survey.walls.B.studs.B4.readings.36": "6-1/4",
}
CHANGED = (
    "survey.walls.R.studs.R1.readings.2",
    ("6-1/64", "5-63/64", "6-1/32", "5-31/32", "6-3/64", "5-61/64"),
)
"""A reading that changes before each plan but the first of a start: the answer of the one before is kept."""
SPEEDS = (("full speed", 1.0), ("quarter speed", 0.25))
FIRST = "cold start to the first Python screen"
PLAN, AGAIN, AHEAD = (
    "the plan, 13 studs x 6",
    "the plan again, a reading changed",
    "the plan, looked for ahead",
)
"""The first search of a start, nothing known; after a reading has changed; and one that was begun by itself
while a screen stood that said the plan was next."""
KEPT, JUDGED = "a value kept, p95", "a value judged, p95"
MOISTURE = "a moisture value judged, p95"
"""The round of a job with water and a floor (examples/wet-corner.toml)."""
AIMS = {
    "cold start to the pad": (0.1, 0.3),
    "cold start, the pad seen": (0.1, 0.3),
    FIRST: (1.0, 3.0),
    KEPT: (0.016, 0.05),
    JUDGED: (0.1, 0.5),
    MOISTURE: (0.1, 0.5),
    "a wall moved, redrawn": (0.016, 0.06),
    "a wall moved, no pause": (0.016, 0.06),
    "a wall moved back, no pause": (0.016, 0.06),
    PLAN: (1.0, 4.0),
    AGAIN: (1.0, 4.0),
    AHEAD: (1.0, 4.0),
}
"""What is aimed at, at full and at quarter speed. [s]"""
AIM_BYTES = 9_000_000

MARKS = """() => Object.fromEntries(
  performance.getEntriesByType("mark").map((each) => [each.name.slice(10), each.startTime / 1000]),
)"""
OWN_START = """() => {
  const { starting, python } = window.undertile.engine.times;
  return (python - starting) / 1000;
}"""
"""What Pyodide takes by itself. [s]"""
KEEP = """async ([number, kind, keys]) => {
  const { pad } = window.undertile.screen.pad;
  const page = window.undertile;
  const kept = [], judged = [];
  const take = pad.host.take;
  pad.host.take = async (...told) => {
    const from = performance.now();
    const made = await take(...told);
    kept.push((performance.now() - from) / 1000);
    return made;
  };
  const judge = pad.judge.bind(pad);
  let heard = () => {};
  pad.judge = (told) => { judge(told); heard(); };
  for (let k = 0; k < number; k += 1) {
    const rows = pad.rows.filter((row) => row.kind === kind);
    pad.go(rows[k % rows.length].fact, false);
    const from = performance.now();
    const came = new Promise((next) => { heard = next; });
    for (const key of keys) {
      document.dispatchEvent(new KeyboardEvent("keydown", { key, cancelable: true }));
    }
    await came;
    judged.push((performance.now() - from) / 1000);
    await new Promise((next) => setTimeout(next, 20));
  }
  return { kept, judged };
}"""
"""Types values on the pad, each after the one before is judged, and times both."""
READINGS = (120, "reading", ("6", "Enter"))
ROUND = (40, "percent", ("1", "8", "Enter"))
"""How many, on which rows, by which keys. A slowed browser stands still for 30 ms at a time: of 40 values the
second worst says how often that fell in twice, not how long a value takes."""
MOVE = """async ([which, keys, pause]) => {
  const times = [];
  const turn = () => new Promise((next) => setTimeout(next, 0));
  const wall = () => document.querySelectorAll("section.move")[which];
  for (const key of keys) {
    const by = wall().dataset.by;
    const pressed = wall().querySelectorAll("form.drag button[name]")[key === "+" ? 1 : 0];
    const from = performance.now();
    pressed.click();
    while (wall().dataset.by === by) await turn();
    document.body.getBoundingClientRect(); // laid out
    times.push((performance.now() - from) / 1000);
    await new Promise((next) => setTimeout(next, pause));
  }
  return times;
}"""
"""Presses the keys of one of the walls, with a pause between [ms]."""
SHOWN = """async (to) => {
  const from = performance.now();
  const before = document.querySelector("#place main");
  location.hash = to;
  const waits = () => document.querySelector("#place main") === before;
  while (waits() || document.querySelector("#place").dataset.old || document.querySelector("[data-search]")) {
    await new Promise((next) => setTimeout(next, 5));
  }
  return (performance.now() - from) / 1000;
}"""
WHOLE = """() => {
  const heights = [...document.querySelectorAll("section.wall tbody td")];
  return heights.length === 78 && !heights.some((each) => each.classList.contains("unread"))
    && !document.querySelector(".total .warn");
}"""
"""13 studs x 6 heights, all read, and the plan proved."""
IDLE = """() => {
  const { engine, running } = window.undertile.planner;
  return engine?.state === "ready" && !running;
}"""
"""The second worker is up and looks for nothing."""
PAUSE_MS = 400
"""Between two presses: a person looks at the figures. What is likely next is asked for meanwhile, so that
such a press needs no Python."""
LOOK_MS = 1500
TO_AND_FRO = 3 * "+++---"
ON = 12 * "+"
"""Places nobody has been at, one after the other: after a look at the screen the first three are there, what
the next three cost is known, and all of the rest is worked out at the press."""
BACK = 6 * "-"
"""Places that were shown before."""


def cases(rooms: int) -> Iterator[dict[str, Any]]:
    """Rows of the benchmark; ``rooms`` is how many cold starts each."""
    folder = bundle_of_this_source()
    yield _bytes(folder)
    site = Site(folder)
    with tempfile.TemporaryDirectory() as profile, phone(Path(profile), site) as browser:
        _bring(browser)
        browser.until(IDLE)  # the second worker has kept Python's memory (docs/decisions/phone.md, 19)
        site.stop()
        for index, (speed, share) in enumerate(SPEEDS):
            found = _measured(browser, site, share, rooms)
            for name, times in found.items():
                if name in AIMS:
                    yield _row(name, speed, times, "aim", AIMS[name][index])
                else:
                    yield _row(name, speed, times, "first screen", median(found[FIRST]))
        for index, (speed, share) in enumerate(SPEEDS):  # last: what is typed makes another room of it
            for name, times in _typed(browser, share).items():
                yield _row(name, speed, times, "aim", AIMS[name][index])


def only_bytes() -> Iterator[dict[str, Any]]:
    """The row of what comes over the wire, without a browser."""
    yield _bytes(bundle_of_this_source())


def only_values(rooms: int) -> Iterator[dict[str, Any]]:
    """The rows of values typed; ``rooms`` is how many rounds of them each."""
    site = Site(bundle_of_this_source())
    with tempfile.TemporaryDirectory() as profile, phone(Path(profile), site) as browser:
        _bring(browser)
        browser.until(IDLE)
        site.stop()
        for index, (speed, share) in enumerate(SPEEDS):
            for _ in range(rooms):
                for name, times in _typed(browser, share).items():
                    yield _row(name, speed, times, "aim", AIMS[name][index])


def _bytes(folder: Path) -> dict[str, Any]:
    """What comes over the wire once, as a host with brotli sends it."""
    sizes = [
        len(brotli.compress(path.read_bytes(), quality=11, lgwin=24))
        for path in sorted(folder.rglob("*"))
        if path.is_file() and path.name != "bundle.json"
    ]
    size = sum(sizes)
    return {
        "name": "bytes over the wire",
        "size": f"{size / 1e6:.2f} MB, brotli",
        "seconds": None,
        "peer": f"at most {AIM_BYTES / 1e6:.0f} MB",
        "peer_seconds": None,
        "ratio": AIM_BYTES / size,
        "bytes": size,
        "equal": None,
    }


@cache
def _log() -> tuple[Entry, ...]:
    """The example with its two planted slips mended, as its docs tell; its entries have their ids once."""
    log = entries_of(read_job(EXAMPLE), PEN)
    return tuple(replace(entry, value=MENDED.get(entry.fact, entry.value)) for entry in log)


def _bring(browser: Browser) -> None:
    for job, log in ((JOB, _log()), (WET_JOB, entries_of(read_job(WET), PEN))):
        lines = [entry.to_line() for entry in log]
        browser.page.evaluate("([job, lines]) => window.undertile.log.keep(job, lines)", [job, lines])
    _to(browser, "read/B")


def _to(browser: Browser, screen: str, job: str = JOB) -> None:
    """Go to a screen and wait until Python shows it fresh."""
    browser.page.evaluate("to => { location.hash = to; }", f"#/job/{job}/{screen}")
    shown = f"window.undertile.screen.shown === '/job/{job}/{screen}'"
    browser.until(f"() => {shown} && !document.querySelector('#place').dataset.old")


def _measured(browser: Browser, site: Site, share: float, times: int) -> dict[str, Sequence[float]]:
    def speed() -> AbstractContextManager[None]:
        return _slow(browser, share)

    pad, seen, screen, own = [], [], [], []
    plans, again, ahead = [], [], []
    _to(browser, "read/B")
    browser.page.wait_for_timeout(LOOK_MS)  # kept by then: the screen that each start begins with
    for _ in range(times):
        _again(browser)
        with speed():
            browser.page.goto(f"{site.address}#/job/{JOB}/read/B")
            browser.until("() => performance.getEntriesByName('undertile-first-screen').length")
        marks = browser.page.evaluate(MARKS)
        pad.append(marks["usable"])
        seen.append(marks["seen"])
        screen.append(marks["first-screen"])
        own.append(browser.page.evaluate(OWN_START))
    for _ in range(times):
        _again(browser)
        browser.page.goto(f"{site.address}#/job/{JOB}/read/B")
        browser.until("() => performance.getEntriesByName('undertile-first-screen').length")
        plans.append(_plan(browser, speed()))
    others = iter(CHANGED[1])
    for _ in range(min(max(1, times // 2), len(CHANGED[1]) // 2)):
        _change(browser, next(others))
        again.append(_plan(browser, speed()))
        _change(browser, next(others))
        _to(browser, "doubts")
        browser.until("() => window.undertile.planner.running")
        ahead.append(_plan(browser, speed()))
    _change(browser, _stands(CHANGED[0]).value or "")
    _to(browser, "moves?typed=1")
    browser.until("() => document.querySelector('form.drag button[name]')")
    with speed():
        moved = browser.page.evaluate(MOVE, [0, TO_AND_FRO, PAUSE_MS])
        browser.page.wait_for_timeout(LOOK_MS / share)
        at_once = browser.page.evaluate(MOVE, [1, ON, 0])
        back = browser.page.evaluate(MOVE, [1, BACK, 0])
    return {
        "cold start to the pad": pad,
        "cold start, the pad seen": seen,
        FIRST: screen,
        "of it Pyodide by itself": own,
        PLAN: plans,
        AGAIN: again,
        AHEAD: ahead,
        "a wall moved, redrawn": moved,
        "a wall moved, no pause": at_once,
        "a wall moved back, no pause": back,
    }


def _typed(browser: Browser, share: float) -> dict[str, Sequence[float]]:
    """Values on two pads, one after the other."""
    found = []
    for screen, job, what in (("read/B", JOB, READINGS), ("water/round/3", WET_JOB, ROUND)):
        _to(browser, screen, job)
        browser.until("() => window.undertile.screen.pad.pad")
        with _slow(browser, share):
            found.append(browser.page.evaluate(KEEP, what))
    readings, wet = found
    return {
        KEPT: [_p95(readings["kept"])],
        JUDGED: [_p95(readings["judged"])],
        MOISTURE: [_p95(wet["judged"])],
    }


def _slow(browser: Browser, share: float) -> AbstractContextManager[None]:
    return nullcontext() if share == 1 else browser.slowed(share)


def _again(browser: Browser) -> None:
    browser.page.wait_for_timeout(300)
    browser.kill()
    browser.again()


def _stands(fact: str) -> Entry:
    return next(entry for entry in _log() if entry.fact == fact)


def _change(browser: Browser, value: str) -> None:
    """One reading is another than before, in its place: a log that no search has seen."""
    _to(browser, "read/B")  # a pad, which says nothing of what is next
    browser.until(IDLE)
    fact = CHANGED[0]
    browser.page.evaluate(
        "([job, fact, value, id]) => window.undertile.take(job, [{ fact, value, stands: [id] }])",
        [JOB, fact, value, _stands(fact).id],
    )


def _plan(browser: Browser, speed: AbstractContextManager[None]) -> float:
    """From asking for the plan to its screen, with the second worker up.

    Raises
    ------
    InputError
        If it is not the plan of the whole room.
    """
    browser.until(IDLE)
    with speed:
        taken = browser.page.evaluate(SHOWN, f"#/job/{JOB}/plan?typed=1")
    if not browser.page.evaluate(WHOLE):
        raise InputError(
            f"expected the plan of a whole room, found: {browser.page.inner_text('#place main')[:300]}"
        )
    return float(taken)


def _p95(times: Sequence[float]) -> float:
    return sorted(times)[int(len(times) * 0.95)]


def _row(name: str, speed: str, times: Sequence[float], peer: str, its: float) -> dict[str, Any]:
    seconds = median(times)
    return {
        "name": name,
        "size": speed,
        "seconds": seconds,
        "seconds_worst": max(times),
        "peer": peer,
        "peer_seconds": its,
        "ratio": its / seconds,
        "load": os.getloadavg()[0],
        "equal": None,
    }
