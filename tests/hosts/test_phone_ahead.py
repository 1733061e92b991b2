"""A plan looked for before anybody asks, in a real browser: there at once, and in no other plan's way."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from undertile.bench.browser import READY, Browser, Site, phone
from undertile.job import Pen, read_job
from undertile.job.plain import entries_of
from undertile.screens.slices import log_text

JOB = "4" * 32
RECORD = """() => {
  const { planner } = window.undertile;
  Object.assign(window, { asked: [], heard: [], lost: [] });
  const [asked, tell] = [planner.asked.bind(planner), planner.toScreens];
  planner.asked = (message) => {
    window.asked.push(message.search + (message.early ? " early" : ""));
    asked(message);
  };
  planner.toScreens = (message) => {
    if (message.found) window.heard.push(message.key);
    if (message.lost) window.lost.push(message.key);
    return tell(message);
  };
}"""
SHOWN = """(path) => window.undertile.screen.shown === path
  && !document.querySelector("#place").dataset.old && Boolean(document.querySelector("main"))"""
TWO_JOBS = """async (log) => {
  const { planner } = window.undertile;
  planner.warm();
  await planner.engine.ready;
  planner.asked({ search: "one", job: "a", log, early: true });
  while (planner.running?.search !== "one") await new Promise((next) => setTimeout(next, 0));
  planner.asked({ search: "two", job: "b", log, early: true });
  planner.asked({ search: "three", job: "b", log });
}"""


def log_of(name: str) -> str:
    return log_text(
        entries_of(read_job(f"examples/{name}.toml"), Pen("e" * 32, "Kim", "2026-11-25T08:00:00Z"))
    )


@pytest.fixture
def there(site: Site, tmp_path: Path) -> Iterator[Browser]:
    """A phone that has one job, in which the plan is what comes next, at the list of jobs."""
    with phone(tmp_path / "profile", site) as browser:
        lines = log_of("hand").splitlines()
        browser.page.evaluate(
            "([job, lines]) => window.undertile.log.keep(job, lines)",
            [JOB, lines],
        )
        browser.until(READY)
        browser.page.evaluate(RECORD)
        yield browser


def to(browser: Browser, path: str) -> None:
    browser.page.evaluate("(path) => { location.hash = path; }", path)
    browser.until(SHOWN, path)


def test_a_plan_that_is_next_is_there_when_it_is_asked_for(there: Browser) -> None:
    to(there, f"/job/{JOB}")
    there.until("() => window.heard.length > 0")
    asked = there.page.evaluate("() => window.asked")
    assert len(asked) == 1
    assert asked[0].endswith(" early")
    to(there, f"/job/{JOB}/plan")
    assert there.page.query_selector("[data-search]") is None
    assert "43 min" in there.page.inner_text("main .total"), "convention 8: the room worked by hand"
    assert there.page.evaluate("() => window.asked") == asked, "nothing is looked for twice"


def test_what_somebody_waits_for_ends_what_nobody_does(there: Browser) -> None:
    there.page.evaluate(TWO_JOBS, log_of("old-alcove"))
    there.until("() => window.heard.includes('three')")
    assert there.page.evaluate("() => window.lost") == ["two", "one"]
    assert set(there.page.evaluate("() => window.heard")) == {"three"}
