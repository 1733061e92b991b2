"""A whole job by taps, alone from the first value to the proof; then laptop and a second phone."""

from __future__ import annotations

import json
from pathlib import Path

from tests.hosts.laptop import Known, Laptop, synced
from tests.hosts.phone_job import Thumb, alone, case, together, whole_job
from tests.screens.cast import MENDED
from undertile.bench.browser import LOG, Browser
from undertile.job.fold import fold


def lines(browser: Browser, job: str) -> list[str]:
    """The phone's own log of a job, read past the tool's code."""
    return sorted(each["line"] for each in browser.page.evaluate(LOG) if each["job"] == job)


def test_a_whole_job_by_taps_without_a_network_then_the_laptop_and_a_second_phone(
    known: Known, laptop: Laptop, tmp_path: Path
) -> None:
    """independent: the room's true readings, and a tape laid by linear interpolation (``phone_job.Tape``)."""
    thumb = Thumb(known.phone(laptop, "Ann", tmp_path / "ann"))
    second: Browser | None = None
    try:
        alone(laptop, thumb.browser)
        told = whole_job(thumb)
        assert thumb.cramped == []
        readings = [fact for fact in told.read if fact in case().typed]
        assert sorted(readings) == sorted(case().typed)
        assert len(readings) == 65
        assert sorted(told.named) == sorted(MENDED), "both slips, and nothing else"
        assert "survey.widths.30-1/2 at 54.reading" in told.read, (
            "asked for beside the reading that stood out"
        )
        assert told.costs[0] != told.costs[1]
        assert set(told.before.values()) == {"not shown"}, "five heights do not show what 24 in of edge do"
        assert set(told.after.values()) == {"pass"}

        kept = [json.loads(line) for line in lines(thumb.browser, told.job)]
        assert {entry["who"] for entry in kept} == {"Ann"}
        minutes = {e["fact"]: e["value"] for e in kept if e["fact"].endswith(".minutes")}
        assert len(minutes) == len(told.ticked)

        together(laptop, thumb.browser)
        with laptop.store() as store:
            assert sorted(line.text for line in store.lines(told.job)) == lines(thumb.browser, told.job)
            found = fold(store.log(told.job))
        assert not found.clashes
        stands = {
            f"survey.walls.{name}.studs.{stud}.readings.{height}": reading.text
            for name, wall in found.job.survey.walls.items()
            for stud, its in wall.studs.items()
            for height, reading in its.readings.items()
        }
        assert stands == case().true
        second = known.phone(laptop, "Bo", tmp_path / "bo")
        synced(second)
        assert lines(second, told.job) == lines(thumb.browser, told.job)
        assert thumb.taps.total() <= 300, "what it took when this was written is in the docs"
    finally:
        thumb.browser.close()
        if second is not None:
            second.close()
