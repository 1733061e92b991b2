"""While water runs the leak's screen leads with it: a test under way, then where water may be running."""

from __future__ import annotations

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.watercast import wood
from undertile.job.address import join
from undertile.screens.words import Says

BEGUN = {
    "wood.leak.pressures.third.when": "2026-03-07 08:00",
    "wood.leak.pressures.third.first": "60",
}


def begin(at: Site, changes: dict[str, str]) -> str:
    """The wet corner with a test typed on top, or one reading typed anew."""
    new = {fact: value for fact, value in changes.items() if ".third." in fact}
    job = bring(at, "wet-corner", {fact: value for fact, value in changes.items() if fact not in new})
    pen = at.store.pen("dev0", "Bo", "2026-11-24T09:00:00")
    for fact, value in new.items():
        pen.write(job, fact, value)
    return job


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("page", ["water", "water/leak"])
def test_a_test_under_way_leads_and_says_what_is_still_to_type(language: str, page: str) -> None:
    """independent: a pressure test needs its day, both pressures and the minutes; two are typed."""
    at, says = site(), Says(language)  # type: ignore[arg-type]
    job = begin(at, BEGUN)
    step = at.twin(f"/job/{job}/{page}", lang=language)["next"]
    assert step["text"] == says("water-next-finish", test=says("part-pressures"), name="third")
    assert says.field("pressures", "last") in step["why"]
    assert says.field("pressures", "minutes") in step["why"]
    assert says.field("pressures", "first") not in step["why"]
    assert step["href"].endswith("/water/leak?type=pressures")


def test_ended_it_leads_no_more() -> None:
    at = site()
    more = {"wood.leak.pressures.third.last": "60", "wood.leak.pressures.third.minutes": "20"}
    job = begin(at, {**BEGUN, **more})
    step = at.twin(f"/job/{job}/water/leak", lang="en")["next"]
    assert step["text"].startswith("Pour 5 gallons")


def test_a_test_of_a_day_that_cannot_be_read_asks_for_the_day_not_for_a_new_test() -> None:
    """independent: by the day alone; with one of the calendar it leads no more (the test above)."""
    at, says = site(), Says("en")
    more = {"wood.leak.pressures.third.last": "60", "wood.leak.pressures.third.minutes": "20"}
    job = begin(at, {**BEGUN, **more, "wood.leak.pressures.third.when": "last Tuesday"})
    step = at.twin(f"/job/{job}/water/leak", lang="en")["next"]
    assert step["text"] == says("water-next-finish", test=says("part-pressures"), name="third")
    assert says.field("tests", "when") in step["why"]
    assert says.field("pressures", "last") not in step["why"]


def test_where_water_may_be_running_leads_before_the_next_test() -> None:
    """independent: plate B at 16 read 26, 23.5, 20.5; typed 29 on the third visit it rises."""
    at = site()
    job = begin(at, {"wood.points.plate-B-16.shown.3": "29"})
    step = at.twin(f"/job/{job}/water/leak", lang="en")["next"]
    assert step["text"] == "Look for running water at plate B at 16"
    assert step["href"].endswith("name=plate-B-16")


@pytest.mark.parametrize("blank", [False, True])
def test_a_round_under_way_counts_only_places_that_are_still_there(blank: bool) -> None:
    """independent: five left to read, all of them cut out; a box left blank is no reading."""
    at, says = site(), Says("en")
    job = bring(at, "wet-corner")
    today = at.host.now()[:10]
    pen = at.store.pen("dev0", "Bo", at.host.now())
    pen.write(job, "wood.visits.9.when", today)
    names = [name for name, each in wood(at, job).points.items() if not each.reference]
    for name in names[:-5]:
        pen.write(job, join(("wood", "points", name, "shown", "9")), "11")

    def first() -> str:
        return str(at.twin(f"/job/{job}/water")["next"]["text"])

    assert first() == says("round-go-on", visit="9", left=5)
    for name in names[-5:]:
        if blank:
            pen.write(job, join(("wood", "points", name, "shown", "9")), "")
        pen.write(job, join(("wood", "points", name, "out")), today)
    assert "visit 9" not in first()
    at.store.close()
