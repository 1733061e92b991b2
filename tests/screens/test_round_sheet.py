"""The sheet of a moisture round as plain data: order, what is asked for, what is said, a meter's steps."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

import pytest
from starlette.testclient import TestClient

from tests.screens.cast import Site, bring, host, site, typed
from tests.screens.roundtaps import ROUND, thirty
from undertile.screens import create_app
from undertile.screens.forms import MOST_ROWS
from undertile.screens.round.order import step_of
from undertile.store import SqliteStore
from undertile.wood.facts import Meter, Point, Visit, WoodFacts


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def sheet(at: Site, job: str, visit: str, **query: str) -> dict[str, Any]:
    return at.twin(f"/job/{job}/water/round/{visit}", **query)


def stations(told: Mapping[str, Any]) -> list[str]:
    """Points that are asked for, by name, in the sheet's order."""
    return [
        row["fact"].split(".")[2] for row in told["rows"] if row["kind"] == "percent" and not row["extra"]
    ]


def test_the_order_is_that_of_the_last_round_in_the_log(at: Site) -> None:
    told = thirty()
    assert stations(sheet(at, typed(at, told.facts), ROUND)) == told.walked


def test_a_point_read_again_keeps_its_place_and_a_new_one_stands_on_the_way(at: Site) -> None:
    told = thirty()
    job = typed(at, told.facts)
    pen = at.store.pen("dev0", "Bo", "2026-11-25T09:00:00")
    first = f"wood.points.{told.walked[0]}.shown.2"
    (before,) = [entry.id for entry in at.store.log(job) if entry.fact == first]
    pen.write(job, first, "12", [before])
    pen.write(job, "wood.points.late.member", "other")  # written last: after the point it is written after
    found = stations(sheet(at, job, ROUND))
    assert [name for name in found if name != "late"] == told.walked
    assert found[found.index("late") - 1] == "floor-54-18", "the last one written before it"


def test_what_is_cut_out_is_not_asked_for_nor_a_dry_reference_twice(at: Site) -> None:
    job = bring(at, "wet-corner")
    assert "plate-B-4" in stations(sheet(at, job, "2"))
    found = sheet(at, job, "3")
    assert "plate-B-4" not in stations(found)
    assert not [name for name in stations(found) if name.startswith("ref-")]
    extra = [row["fact"].split(".")[2] for row in found["rows"] if row.get("extra")]
    # independent: as many as the example's file has
    assert len(extra) == 6, "they can be picked from the list"
    assert [name for name in stations(sheet(at, job, "1")) if name.startswith("ref-")] == extra


def test_a_round_that_is_not_there_is_said_in_words(at: Site) -> None:
    job = bring(at, "wet-corner")
    answer = at.client.get(f"/job/{job}/water/round/9", headers={"accept": "application/json"})
    assert answer.status_code == 404
    assert answer.json()["error"].startswith("expected a visit of this job, found 9")


def codes(at: Site, job: str, visit: str) -> dict[str, str]:
    """What is said of each point typed on a round, by its code."""
    points = sheet(at, job, visit)["judged"]["points"]
    return {fact.split(".")[2]: told["code"] for fact, told in points.items()}


def as_of(at: Site, visits: str, **more: str) -> str:
    """The wet corner with these visits and nothing later."""
    log = at.store.log(bring(at, "wet-corner"))
    late = [each for each in "123" if each not in visits]
    facts = {entry.fact: entry.value or "" for entry in log if ".out" not in entry.fact}
    facts = {
        fact: value
        for fact, value in facts.items()
        if not re.search(rf"\.({'|'.join(late) or 'none'})(\.|$)", fact)
    }
    return typed(at, [*facts.items(), *more.items()])


def test_the_wet_corner_says_what_docs_examples_tells(at: Site) -> None:
    """The story of the bundled job: the corner may be fed, and is soft; later the rest has its dates."""
    first = codes(at, as_of(at, "1"), "1")
    assert first["plate-B-4"] == "first-wet"
    assert first["ref-closet"] == "is-reference"
    second = codes(at, as_of(at, "12"), "2")
    assert second["plate-B-4"] == "cut-out"
    assert second["plate-B-16"] == "few"
    firm = codes(at, as_of(at, "12", **{"wood.points.plate-B-4.awl.2": "1/16"}), "2")
    assert firm["plate-B-4"] == "fed", "29 and 29.5, while its neighbors fell by 2 and more"
    third = codes(at, bring(at, "wet-corner"), "3")
    assert (third["plate-B-16"], third["plate-B-40"], third["B1-12"]) == ("dates-past", "close", "again")


def test_before_its_days_are_gone_by_the_pad_says_them() -> None:
    """independent: by the calendar the cast's own day is past every date of March, and March 7 past none."""
    store = SqliteStore(":memory:")
    told = replace(host(), now=lambda: "2026-03-07T10:11:12+00:00")
    early = Site(store, told, TestClient(create_app(store, told)))
    assert codes(early, bring(early, "wet-corner"), "3")["plate-B-16"] == "dates"
    store.close()


@pytest.mark.parametrize(
    ("facts", "code"),
    [
        ({"shown.4": "26"}, "rose"),
        ({"shown.4": "7.5"}, "fell"),
        ({"shown.4": "6", "surface.4": "wet"}, "range"),
        ({"shown.4": "22"}, "rising"),
        ({"shown.4": "x"}, "reach"),
        ({"shown.4": "19", "pick.4": "snaps"}, "cut-out"),
        ({"awl.4": "1/4"}, "cut-out"),
        ({"shown.4": "over", "surface.4": "wet"}, "rising"),
    ],
)
def test_what_is_said_of_one_point(at: Site, facts: Mapping[str, str], code: str) -> None:
    """By hand, of the plate at L 6: 25, 23 and 20 before."""
    base = "wood.points.plate-L-6"
    job = bring(at, "wet-corner")
    pen = at.store.pen("dev0", "Bo", "2026-03-08T16:00:00")
    pen.write(job, "wood.visits.4.when", "2026-03-08 16:00")
    for part, value in facts.items():
        pen.write(job, f"{base}.{part}", value)
    told = sheet(at, job, "4")["judged"]["points"]
    assert told[f"{base}.shown.4"]["code"] == code
    assert (
        sheet(at, job, "4", lang="es")["judged"]["points"][f"{base}.shown.4"]["text"]
        != (told[f"{base}.shown.4"]["text"])
    )


def test_a_sheet_of_any_size_fits_its_forms(at: Site) -> None:
    facts = [("unit", "in"), ("wood.visits.1.when", "2026-03-02 08:00")]
    for k in range(130):
        facts += [(f"wood.points.p{k}.member", "plate"), (f"wood.points.p{k}.wall", "B")]
        facts.append((f"wood.points.p{k}.along", str(k)))
    # pinned: four boxes to a place; independent: no form over its limit
    job = typed(at, facts)
    forms = re.findall(r"<form method=\"post\".*?</form>", at.page(f"/job/{job}/water/round/1"), re.DOTALL)
    counts = [len(re.findall(r'name="fact\.', each)) for each in forms]
    assert sum(counts) == 4 * 130
    assert max(counts) <= MOST_ROWS


@pytest.mark.parametrize(
    ("shown", "step"),
    [
        ((), "0.5"),
        (("12", "18"), "0.5"),
        (("12", "18", "20", "21", "30"), "1"),
        (("12", "18", "20", "21", "30.5"), "0.5"),
        (("12", "18.3"), "0.1"),
        (("12 13 14 15 16",), "1"),
        (("x", "over", "", "under"), "0.5"),
    ],
)
def test_what_a_meter_counts_in_is_seen_by_what_it_has_shown(shown: tuple[str, ...], step: str) -> None:
    # independent, by hand: halves at first, whole ones once five readings are, a tenth once one is
    points = {f"p{k}": Point(member="other", shown={"1": text}) for k, text in enumerate(shown)}
    other = {"q": Point(member="other", shown={"2": "18.7"})}
    visits = {"1": Visit(when="2026-03-02", meter="a"), "2": Visit(when="2026-03-03", meter="b")}
    facts = WoodFacts(meters={"a": Meter(), "b": Meter()}, visits=visits, points={**points, **other})
    assert step_of(facts, "1") == step
