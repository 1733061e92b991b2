"""A straightedge laid before the wall was changed shows nothing of it now, and is asked for again."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import press
from tests.screens.test_ticked import tick_form

AGAIN = "recheck.walls.B.studs.B2.readings.48"
LAID = "recheck.straightedges.B up 24 in"
GAP = f"{LAID}.gap"
OLD = "the straightedge was laid before this wall was changed or read otherwise: lay it again"


class Clock:
    """A clock that goes on by a minute with each look at it."""

    def __init__(self) -> None:
        self.minute = 0

    def __call__(self) -> str:
        self.minute += 1
        return f"2026-11-25T{10 + self.minute // 60:02}:{self.minute % 60:02}:00+00:00"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    found.host.now = Clock()
    yield found
    found.store.close()


def typed(at: Site, job: str, fact: str, value: str) -> None:
    """One fact, over whatever stands."""
    gone = {name for entry in at.store.log(job) for name in entry.supersedes}
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact and entry.id not in gone]
    at.send(job, {"fact": fact, "value": value, "supersedes": ids})


def begun(at: Site) -> str:
    """The room worked by hand, its work ticked and read again as planned, a straightedge laid up the back."""
    job = bring(at, "hand")
    for stud in ("B2", "B4"):
        press(at, tick_form(at, job, stud))
    for row in at.twin(f"/job/{job}/recheck/pad")["rows"]:
        if row.get("wall"):
            for each in row["also"]:
                typed(at, job, each["fact"], each["value"])
            typed(at, job, row["fact"], "6-0")
    for key, value in (("wall", "B"), ("way", "up"), ("length", "24 in"), ("gap", "0")):
        typed(at, job, f"{LAID}.{key}", value)
    return job


def up_the_back(at: Site, job: str) -> dict[str, Any]:
    """The check of the back wall under the short straightedge, upward."""
    (wall,) = [each for each in at.twin(f"/job/{job}/recheck")["walls"] if "back" in each["title"]]
    found: dict[str, Any] = next(
        each for each in wall["checks"] if each["code"].startswith("again-flat-B-up-2")
    )
    return found


def asked(at: Site, job: str) -> dict[str, str | None]:
    return {row["fact"]: row["value"] for row in at.twin(f"/job/{job}/recheck/pad")["rows"]}


def test_as_laid_it_shows_the_rule(at: Site) -> None:
    job = begun(at)
    assert up_the_back(at, job)["verdict"] == "pass"
    assert GAP not in asked(at, job), "nothing more is asked of it"


def test_a_reading_taken_again_otherwise_since_voids_it(at: Site) -> None:
    """6-1/32 for 6-0: within the band, so only the straightedge could show the wall flat, and it is older."""
    job = begun(at)
    typed(at, job, AGAIN, "6-1/32")
    check = up_the_back(at, job)
    assert check["verdict"] == "not shown"
    stud = next(
        each
        for wall in at.twin(f"/job/{job}/recheck")["walls"]
        for each in wall["studs"]
        if each["name"] == "B2"
    )
    assert OLD in str(stud["checks"])
    assert asked(at, job)[GAP] is None, "asked for anew"
    assert "póngala otra vez" in at.page(f"/job/{job}/recheck", lang="es")
    at.client.cookies.clear()
    typed(at, job, GAP, "0")
    assert up_the_back(at, job)["verdict"] == "pass", "laid again"


def test_the_same_reading_typed_again_changes_nothing(at: Site) -> None:
    job = begun(at)
    typed(at, job, AGAIN, "6-0")
    assert up_the_back(at, job)["verdict"] == "pass"


def test_work_ticked_since_voids_it(at: Site) -> None:
    """The tick was taken back and made again: the wall was worked on after the straightedge lay there."""
    job = begun(at)
    fact = "recheck.done.B2.did"
    was = at.value(job, fact)
    ids = [entry.id for entry in at.store.log(job) if entry.fact == fact]
    at.send(job, {"fact": fact, "value": None, "supersedes": ids})
    assert was is not None
    assert up_the_back(at, job)["verdict"] == "pass", "a tick taken back is no work"
    typed(at, job, fact, was)
    assert up_the_back(at, job)["verdict"] == "pass", "as it was when the straightedge lay there"
    typed(at, job, "recheck.done.B3.did", "plane; 48: -1/16")
    assert up_the_back(at, job)["verdict"] == "not shown"


def test_another_wall_and_another_stud_are_no_reason(at: Site) -> None:
    job = begun(at)
    typed(at, job, f"{LAID}.stud", "B4")
    typed(at, job, "survey.walls.L.studs.L1.readings.48", "5-63/64")
    typed(at, job, AGAIN, "6-1/64")
    from undertile.screens.older import older_laid  # the rule itself, by the log as it stands

    state = at.answers.of(at.store.digest(job), lambda: at.store.log(job))
    assert older_laid(state) == frozenset()
    typed(at, job, "recheck.walls.B.studs.B4.readings.48", "6-1/64")
    state = at.answers.of(at.store.digest(job), lambda: at.store.log(job))
    assert older_laid(state) == {"B up 24 in"}


def test_another_phone_s_clock_tells_and_one_that_tells_nothing_is_taken_as_later(at: Site) -> None:
    from undertile.screens.older import older_laid

    for time, older in (
        ("2026-11-25T09:00:00+00:00", False),
        ("2026-11-25T23:00:00+00:00", True),
        ("no time", True),
    ):
        job = begun(at)
        ids = [entry.id for entry in at.store.log(job) if entry.fact == AGAIN]
        pen = at.store.pen(f"other-{time[:13]}", "Bo", time)
        pen.write(job, AGAIN, "6-1/32", ids)
        state = at.answers.of(at.store.digest(job), lambda job=job: at.store.log(job))  # type: ignore[misc]
        assert bool(older_laid(state)) is older, time


def test_a_bundled_room_is_of_one_act(at: Site) -> None:
    """A file says what stands and no order: nothing in it is older than the rest."""
    from undertile.screens.older import older_laid

    job = bring(at, "read-again")
    state = at.answers.of(at.store.digest(job), lambda: at.store.log(job))
    assert older_laid(state) == frozenset()
