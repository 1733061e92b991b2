"""The water's screens: what is wet, how far, when and where from, by the story of the wet corner."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import form_of, forms_of, press
from tests.screens.watercast import LATER, after, go_on, groups, line_of, look, settle, stands, wood


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def test_the_wet_corner_from_the_first_visit_to_the_day_it_may_be_covered(at: Site) -> None:
    """independent: the story of docs/examples.md, told by the screens."""
    job = after(at, "1")
    first = at.twin(f"/job/{job}/water")
    corner = groups(first)["plate-B-4"]
    assert corner["call"] == "no date"
    assert "no date yet, it may be fed" in corner["why"]
    assert first["when"]["text"].startswith("No date yet")
    assert any(line.endswith('plate B at 40" is dry.') for line in first["extent"]["cuts"])
    assert any("not known yet" in line for line in first["extent"]["cuts"]), "wall L is not read far enough"
    assert first["extent"]["probe"].startswith("Read next: plate L at 18")
    assert first["next"]["text"] == 'Read plate L at 18"', "open ends first"
    assert [each["text"] for each in first["then"]] == [
        "Look for water at plate B at 4",
        "Shut everything off and watch the water meter.",
        "Read every place again on 2026-03-03 or later",
    ], "while the next reading is waited for; a cold morning is further off than the meter"
    shut = at.twin(f"/job/{job}/water/gate")
    assert not shut["may"]
    assert shut["answer"].startswith("Do not cover yet: 12 places not dry, right wall not read. ")
    assert line_of(at, job).startswith("Do not cover yet: 12 places not dry, right wall not read, 5 ")

    go_on(at, job, "2")
    second = at.twin(f"/job/{job}/water")
    assert groups(second)["plate-B-4"]["call"] == "cut out", "the awl sinks 3/16 now"
    leak = at.twin(f"/job/{job}/water/leak")
    assert leak["next"]["text"].startswith("It leaks: the supply pipes")

    go_on(at, job, "3")
    third = at.twin(f"/job/{job}/water")
    assert third["when"]["text"].startswith("Between 2026-03-14 and 2026-04-03"), "pinned"
    assert groups(third)["plate-B-4"]["call"] == "gone"
    shut = at.twin(f"/job/{job}/water/gate")
    missing = {kind["kind"]: [each["where"] for each in kind["missing"]] for kind in shut["kinds"]}
    assert {kind: len(its) for kind, its in missing.items()} == {
        "moisture": 7,
        "patch": 5,
        "new": 1,
        "joists": 7,
        "plan": 1,
        "source": 4,
        "photo": 4,
        "inspection": 1,
    }, "as many as docs/examples.md tells"

    settle(at, job)
    found = at.twin(f"/job/{job}/water/gate")
    (left,) = [each for kind in found["kinds"] for each in kind["missing"]]
    assert left["href"] == f"/job/{job}/plan", "what the plan may stop is not shown before there is one"
    assert not found["may"]
    at.page(left["href"])
    found = at.twin(f"/job/{job}/water/gate")
    assert [each for kind in found["kinds"] for each in kind["missing"]] == []
    assert found["may"]
    assert (
        found["answer"]
        == f"It may be covered, as read on {LATER} 16:00. Read it again on the morning of covering."
    )


def test_a_new_place_begins_with_where_it_is_and_what_is_offered_is_kept_only_when_kept(at: Site) -> None:
    job = bring(at, "wet-corner")
    pen = at.store.pen("dev0", "Bo", "2026-11-24T10:00:00")
    pen.write(job, "wood.visits.9.when", f"{at.host.now()[:10]} 09:00")
    path = f"/job/{job}/water/point"
    before = len(at.store.log(job))
    told = at.twin(path, member="plate", wall="B", along='52"')
    rows = {row["fact"].rpartition(".")[2]: row for row in told["fresh"]["rows"]}
    assert rows["along"]["fact"] == "wood.points.plate-B-52.along", "as another would type the same place"
    assert (rows["material"]["value"], rows["material"]["offer"]) == ("", "lumber")
    assert len(at.store.log(job)) == before
    fact = "wood.points.plate-B-52.shown.9"
    form = form_of(at, path, fact, member="plate", wall="B", along="52")
    back = press(at, form, {fact: "10.5"})
    point = wood(at, job).points["plate-B-52"]
    assert (point.member, point.wall, point.along and point.along.text) == ("plate", "B", "52")
    assert (point.material, point.species, point.shown) == ("lumber", "Douglas-fir", {"9": "10.5"})
    parts = urlsplit(back)
    page = at.page(parts.path, **dict(parse_qsl(parts.query)))
    assert "plate B at 52" in page, "one is sent to the place itself"
    (undo,) = [
        form
        for form in forms_of(at, parts.path, **dict(parse_qsl(parts.query)))
        if form.action.endswith("/undo")
    ]
    at.client.post(undo.action, data=dict(undo.values))
    assert "plate-B-52" not in wood(at, job).points


def test_a_place_that_is_no_length_is_asked_again_with_what_was_typed(at: Site) -> None:
    job = bring(at, "wet-corner")
    told = at.twin(f"/job/{job}/water/point", member="plate", wall="B", along="a foot or so")
    assert told["fresh"] is None
    assert "a foot or so" in told["place"]["trouble"]
    assert [each["value"] for each in told["place"]["fields"]] == ["B", "a foot or so"]


def test_the_place_that_tells_most_is_one_tap_away(at: Site) -> None:
    job = after(at, "1")
    step = at.twin(f"/job/{job}/water")["next"]
    told = look(at, step["href"])
    assert told["title"] == "plate L at 18", "a place that is there already"
    assert told["point"]["visits"][0]["rows"][0]["fact"] == "wood.points.plate-L-18.shown.1"
    at.send(
        job,
        {
            "fact": "wood.points.plate-L-18.member",
            "value": None,
            "supersedes": [stands(at, job, "wood.points.plate-L-18.member")],
        },
    )
    fresh = look(at, at.twin(f"/job/{job}/water")["next"]["href"])["fresh"]
    offers = {row["fact"]: row.get("offer") for row in fresh["rows"]}
    assert offers["wood.points.plate-L-18.along"] == "18", "a new one where there is none"
    assert offers["wood.points.plate-L-18.wall"] == "L"


def test_a_blank_test_is_kept_with_its_first_number_and_not_before(at: Site) -> None:
    job = bring(at, "wet-corner")
    path, fact = f"/job/{job}/water/leak", "wood.leak.pours.Ana 1.gallons"
    form = form_of(at, path, fact)
    before = len(at.store.log(job))
    press(at, form)
    assert len(at.store.log(job)) == before, "a day and a name alone are no test"
    press(at, form, {fact: "5", "wood.leak.pours.Ana 1.minutes": "15", "wood.leak.pours.Ana 1.below": "wet"})
    made = wood(at, job).leak.pours["Ana 1"]
    assert (made.by, made.when, made.below) == ("Ana", "2026-11-25 10:11", "wet")
    told = at.twin(path)
    assert told["next"]["text"] == "It leaks: the drain below the strainer. Mend it."
    assert told["made"][0]["shows"] == [{"word": "Finds", "what": "drain below the strainer"}]


def test_half_a_test_is_said_and_nothing_of_it_is_lost(at: Site) -> None:
    job = bring(at, "wet-corner")
    at.send(job, {"fact": "wood.leak.dials.Ana 1.first", "value": "12.5"})
    assert at.twin(f"/job/{job}")["next"]["href"].endswith("/doubts")
    rows = form_of(at, f"/job/{job}/water/leak", "wood.leak.dials.Ana 1.first")
    assert ("12.5") in [value for _, value in rows.values]


def test_two_who_type_one_reading_see_a_clash(at: Site) -> None:
    job = bring(at, "wet-corner")
    fact = "wood.points.plate-B-16.shown.3"
    at.store.pen("dev2", "José", "2031-01-01T00:00:00").write(job, fact, "24")
    point = at.twin(f"/job/{job}/water/point", name="plate-B-16")
    (row,) = [row for part in point["point"]["visits"] for row in part["rows"] if row["fact"] == fact]
    assert row["clash"]
    told = at.twin(f"/job/{job}/doubts")
    assert told["clashes"][0]["fact"] == fact
    assert "visit 3" in told["clashes"][0]["where"]
    assert at.twin(f"/job/{job}")["next"]["href"].endswith("/doubts")


def test_the_crew_sheet_says_it_too(at: Site) -> None:
    job = bring(at, "wet-corner")
    at.page(f"/job/{job}/plan")
    line = line_of(at, job)
    sheet = at.twin(f"/job/{job}/papers/crew")["sheet"]
    (step,) = [step for step in sheet["order"] if step["text"] == line]
    assert step["stop"]
    assert not [each for each in sheet["acts"] if "do not cover" in each], "said once"


def test_a_name_that_an_address_must_quote_is_a_place_too(at: Site) -> None:
    job = bring(at, "wet-corner")
    at.send(
        job,
        {"fact": 'wood.points."shelf 1/2 up. hall".member', "value": "other"},
        {"fact": 'wood.points."shelf 1/2 up. hall".shown.3', "value": "12"},
    )
    told = at.twin(f"/job/{job}/water")
    href = groups(told)["shelf 1/2 up. hall"]["href"]
    assert look(at, href)["title"] == "shelf 1/2 up. hall"
    assert at.client.get(f"/job/{job}/water/point", params={"name": "nowhere"}).status_code == 404
