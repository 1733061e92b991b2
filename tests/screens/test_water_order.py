"""What is next of the water, and that the job's screens agree with it."""

from __future__ import annotations

import html
from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, in_one, site, typed
from tests.screens.forms import form_of, press
from tests.screens.watercast import after, wood


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def test_what_is_next_goes_in_the_order_of_the_work(at: Site) -> None:
    job = typed(at, [("unit", "in")])

    def step() -> tuple[str, str]:
        told = at.twin(f"/job/{job}")["next"]
        return told["text"], told["href"].removeprefix(f"/job/{job}/").partition("#")[0]

    assert step()[1] == "room", "nobody speaks of water: nothing is asked of it"
    at.send(job, {"fact": "wood.leak.symptom", "value": "always wet"})
    assert step() == ("Say where it is wet", "water/point")
    base = "wood.points.plate-B-4"
    at.send(
        job,
        *(
            {"fact": f"{base}.{key}", "value": value}
            for key, value in (
                ("member", "plate"),
                ("wall", "B"),
                ("along", "4"),
                ("material", "lumber"),
                ("bearing", "no"),
            )
        ),
    )
    assert step() == ("Begin the first visit", "water/round")
    at.send(
        job,
        {"fact": "wood.visits.1.when", "value": "2026-11-25 09:00"},
        {"fact": f"{base}.shown.1", "value": "24"},
    )
    assert step() == ('Read plate B at 16"', "water/point?probe=1"), "an open end of the cut comes first"
    for name, wall, along in (("plate-L-8", "L", "8"), ("plate-B-16", "B", "16")):
        for key, value in (
            ("member", "plate"),
            ("wall", wall),
            ("along", along),
            ("material", "lumber"),
            ("shown.1", "10"),
        ):
            at.send(job, {"fact": f"wood.points.{name}.{key}", "value": value})
    for number in "123":
        for key, value in (
            ("member", "other"),
            ("material", "lumber"),
            ("reference", "true"),
            ("shown.1", "10"),
        ):
            at.send(job, {"fact": f"wood.points.dry{number}.{key}", "value": value})
    assert step() == ("Shut everything off and watch the water meter.", "water/leak?type=dials")
    at.send(job, {"fact": f"{base}.pick.1", "value": "snaps"})
    assert step() == ("Cut out plate B at 4", "water/point?name=plate-B-4")
    press(
        at,
        form_of(at, f"/job/{job}/water/point", f"{base}.bearing", name="plate-B-4"),
        {f"{base}.bearing": "yes"},
    )
    assert "Shore it" in step()[0], "what can hurt somebody is said before all else"


def test_a_round_is_asked_for_on_its_day_and_walls_are_read_meanwhile(at: Site) -> None:
    """independent: readings that close a point are a day apart (convention 5.4), by the calendar."""
    job = after(at, "3")
    told = at.twin(f"/job/{job}/water")
    assert [each["text"] for each in told["then"] if each["kind"] == "again"] == [
        "Read every place again on 2026-03-07 or later"
    ]
    leads = at.twin(f"/job/{job}")["next"]["text"]
    assert (
        leads
        == told["next"]["text"]
        == "Pour 5 gallons straight into the drain and watch 15 minutes from below."
    )


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("visit", ["1", "2", "3"])
def test_the_job_s_screens_agree_with_the_water_on_the_order(at: Site, visit: str, language: str) -> None:
    """independent: what leads the water leads the job where it is not to wait, and what follows it follows in
    the same order; the floor's two failing checks stand before anything is covered."""
    job = after(at, visit)
    water = at.twin(f"/job/{job}/water", lang=language)
    order = [water["next"]["text"], *(each["text"] for each in water["then"])]
    assert len(order) > 1
    at.page(f"/job/{job}/plan")
    floor = at.twin(f"/job/{job}/floor", lang=language)["next"]["text"]
    for screen in ("", "/plan", "/work", "/proof"):
        told = at.twin(f"/job/{job}{screen}", lang=language)
        said = [told["next"]["text"], *(each["text"] for each in told["then"])]
        assert [each for each in said if each in order] == order, screen
        assert said[0] == order[0], screen
        assert floor in said, screen
        page = in_one(at.page(f"/job/{job}{screen}", lang=language))
        assert all(each in html.unescape(page) for each in said), screen


def test_before_its_day_a_round_comes_after_what_can_be_done_now(at: Site) -> None:
    """independent: by the calendar; the host's day is 2026-11-25."""
    job = bring(at, "wet-corner")
    at.send(job, {"fact": "wood.visits.4.when", "value": "2026-11-25 08:00"})
    *rest, last = [
        {"fact": f"wood.points.{name}.shown.4", "value": each.shown["3"]}
        for name, each in wood(at, job).points.items()
        if not each.reference and not each.out
    ]
    at.send(job, *rest)
    under = at.twin(f"/job/{job}/water")
    assert under["next"]["text"] == "Go on with visit 4: 1 to read"
    assert not [each for each in under["then"] if each["kind"] == "again"], "not while a round is under way"
    home = at.twin(f"/job/{job}")
    assert not [each for each in home["then"] if "2026-11-26" in each["text"]]
    at.send(job, last)
    home = [each["text"] for each in at.twin(f"/job/{job}")["then"]]
    assert home[-1] == "Read every place again on 2026-11-26 or later", "what waits for another day is last"
    assert any(each.startswith("Have an engineer say") for each in home[:-1])


def test_a_round_begun_is_gone_on_with_and_running_water_leads(at: Site) -> None:
    """independent: of the wet corner's 16 places that are not cut out four are read, 12 are left."""
    job = bring(at, "wet-corner")

    def nexts() -> set[tuple[str, str]]:
        told = (at.twin(path)["next"] for path in (f"/job/{job}", f"/job/{job}/water"))
        return {(each["text"], each["href"].removeprefix(f"/job/{job}/")) for each in told}

    at.send(job, {"fact": "wood.visits.4.when", "value": "2026-03-08 16:00"})
    for name, value in (("plate-L-6", "18"), ("plate-L-18", "10.5"), ("B1-2", "17"), ("plate-B-16", "19")):
        at.send(job, {"fact": f"wood.points.{name}.shown.4", "value": value})
    going = {("Go on with visit 4: 12 to read", "water/round/4")}
    assert nexts() == going
    assert at.twin(f"/job/{job}/water/round")["next"]["text"] == "Go on with visit 4: 12 to read"
    for value in ("30", "over"):
        fact = "wood.points.plate-B-28.shown.4"
        old = [entry.id for entry in at.store.log(job) if entry.fact == fact]
        at.send(job, {"fact": fact, "value": value, "supersedes": old[-1:]})
        assert nexts() == {("Look for running water at plate B at 28", "water/point?name=plate-B-28")}, value
    told = at.twin(f"/job/{job}/water/point", name="plate-B-28")
    assert told["next"]["text"].startswith("Stop drying and look for the water"), "as the place itself says"
