"""A day has one form on every screen and paper of water, floor and round: the one it is typed in."""

from __future__ import annotations

import html
import re

import pytest

from tests.screens.cast import bring, site

MONTHS = "jan|feb|mar|apr|jun|jul|aug|sep|oct|nov|dec|ene|abr|ago|dic"
NAMED = re.compile(
    rf"\b(?:(?:{MONTHS})\w* \d{{1,2}}\b(?! ?[\"/x])|\d{{1,2}} (?:de )?(?:{MONTHS})\b)", re.IGNORECASE
)
SLASHED = re.compile(r"\b\d{1,2}/\d{1,2}/\d{2,4}\b")
DAY = re.compile(r"\b2026-03-\d\d\b")
PAGES = (
    *("water", "water/gate", "water/leak", "water/charts", "water/charts?point=plate-B-16"),
    *(
        "water/point?name=plate-B-16",
        "water/rounds",
        "water/round/3",
        "floor",
        "papers/water",
        "papers/floor",
    ),
)


@pytest.mark.parametrize("language", ["en", "es"])
def test_days_stand_as_they_are_typed(language: str) -> None:
    """independent: the example's own days, and the months' names in both languages."""
    at = site()
    job = bring(at, "wet-corner")
    seen = set()
    for page in PAGES:
        path, _, query = page.partition("?")
        asked = dict(each.split("=") for each in query.split("&") if each)
        text = at.page(f"/job/{job}/{path}", lang=language, **asked)
        shown = " ".join(
            html.unescape(re.sub(r"<(style|script).*?</\1>|<[^>]*>", " ", text, flags=re.DOTALL)).split()
        )
        assert not NAMED.search(shown), (page, NAMED.search(shown))
        assert not SLASHED.search(shown), page
        seen |= {page for _ in DAY.findall(shown)}
    assert {"water", "papers/water", "water/charts"} <= seen


def test_no_day_breaks_at_its_hyphens_in_what_stands_large() -> None:
    """independent: each day of the large lines stands in a span that does not wrap."""
    at = site()
    job = bring(at, "wet-corner")
    large = re.compile(r'<(?:span|p) class="(?:text|text small|answer[^"]*|big|why)">([^<]*)<')
    kept = re.compile(r'<span class="fig">\d{4}-\d\d-\d\d</span>')
    seen = 0
    for path in ("", "/water", "/water/gate"):
        page = at.page(f"/job/{job}{path}")
        seen += len(kept.findall(page))
        for text in large.findall(kept.sub("", page)):
            assert not DAY.search(text), (path, text)
    assert seen
    assert ".fig { white-space: nowrap; }" in at.page("/static/style.css")


@pytest.mark.parametrize(
    "time", ["2027-02-30T10:00:00+00:00", "2026-13-01T10:00:00", "yesterday, about noon"]
)
def test_an_entry_of_a_day_that_no_calendar_has_is_no_clock(time: str) -> None:
    """independent: February has no 30th; the other entries' days stand as without it."""
    at = site()
    job = bring(at, "wet-corner")
    was = at.twin(f"/job/{job}/water/gate")
    at.store.pen("dev9", "Bo", time).write(job, "wood.points.plate-B-16.note", "seen")
    assert at.twin(f"/job/{job}/water/gate") == was


def test_the_list_of_jobs_says_the_same_of_one_log_on_every_device_in_its_own_day() -> None:
    """independent: 23:30 on the 30th, eight hours west of UTC, is 7:30 on the 1st, and 8:30 an hour east."""
    lines: list[str] = []
    for now, said in (
        ("2026-12-02T10:00:00-08:00", "2026-11-30 23:30"),
        ("2026-12-02T10:00:00+00:00", "2026-12-01 07:30"),
        ("2026-12-02T10:00:00+01:00", "2026-12-01 08:30"),
        ("a clock that tells nothing", "2026-11-30 23:30"),
    ):
        at = site()
        at.host.now = lambda now=now: now  # type: ignore[misc]
        job = at.store.create("a" * 32)
        first = at.store.pen("a", "Ann", "2026-11-30T23:30:00-08:00").write(job, "name", "Mill Lane")
        late = at.store.pen("b", "Bo", "2026-12-01T05:00:00+00:00").write(job, "place", "Here")
        order = (first, late) if lines else (late, first)
        other = site()
        other.host.now = at.host.now
        other.store.create(job)
        for entry in order:  # come in another order
            other.store.append(job, [entry])
        for each in (at, other):
            (row,) = each.twin("/")["jobs"]
            lines.append(row["time"])
            assert row["time"] == said
            shown = each.twin(f"/job/{job}/history")["entries"]
            assert said in {entry["time"] for entry in shown}
