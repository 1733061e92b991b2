"""What would open the gate wrongly: values that nobody counts, wet references, words alone, readings high up.

Independent: the finished wet corner is open; one thing is changed, and the gate names it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from tests.job.cast import pen
from tests.wood.test_honest_job import (
    as_toml,
    covered,
    dried,
    example,
    floored,
    merged,
    planned,
    put_back,
    ruled_out,
    told,
)
from tests.wood.test_leak_word import WORDS
from undertile.findings import Severity
from undertile.job import fold, plan, read_job
from undertile.job.entry import Entry
from undertile.job.plain import entries_of
from undertile.job.stages import STAGES
from undertile.packet.cover import cover_line
from undertile.packet.told import foreign
from undertile.packet.words import Words
from undertile.safety.facts import Lifted
from undertile.safety.lifts import lift
from undertile.wood.gate import Gate
from undertile.wood.result import WoodResult

EN, ES = Words("en"), Words("es")
WET = "wood.points.B1-2"


@cache
def done() -> dict[str, Any]:
    return put_back(covered(floored(dried(ruled_out(example())))))


@cache
def log() -> tuple[Entry, ...]:
    job = read_job("\n".join(f"{key} = {as_toml(value)}" for key, value in done().items()).encode())
    return entries_of(job, pen())


def recorded(*more: tuple[str, str]) -> WoodResult:
    """The same job as a record, with more entries that supersede nothing."""
    new = [
        replace(log()[-1], id=f"more-{at}", fact=fact, value=value, supersedes=())
        for at, (fact, value) in enumerate(more)
    ]
    folded = fold([*log(), *new])
    stages = [each for each in STAGES if each.key in ("safety", "wood", "floor")]
    left = folded.left_out
    found = plan(folded.job, stages, today="2026-03-22", left_out=left, known=planned()).results
    assert found["floor"].covers is None or found["floor"].covers.may == ("typed" not in kinds(found["wood"]))
    water: WoodResult = found["wood"]
    return water


def kinds(found: WoodResult) -> set[str]:
    return {each.kind for each in found.gate.missing}


def in_spanish(gate: Gate) -> bool:
    said = [sentence for each in gate.missing for sentence in (each.what, each.next_step)]
    return not any(foreign(each, ES) for each in said)


def test_the_record_of_the_finished_job_is_as_open_as_its_file() -> None:
    assert recorded().gate.open


@pytest.mark.parametrize(
    "more",
    [
        ((f"{WET}.awl.5", "1/2"), (f"{WET}.awl.5", "0")),
        (("safety.water", "sewage"), ("safety.water", "clean")),
        (("safety.mold.corner.square_feet", "30"), ("safety.mold.corner.square_feet", "3")),
        (("safety.mold.corner.square_feet", "-3"),),
        (("framing.studs.B1.soft", "true"), ("framing.studs.B1.soft", "false")),
        (("wood.leak.sprays.q.when", "2026-03-20 10:00"), ("wood.leak.sprays.q.shows", "wet")),
        (("wood.points.new.wall", "B"), ("wood.points.new.shown.5", "29")),
        (("floor.joists.J3.soft.n.start", "4"), ("floor.joists.J3.soft.n.length", "0")),
        (("survey.walls.R.nominal", "5-0"),),
    ],
)
def test_what_stands_in_the_record_and_does_not_count_keeps_it_shut(
    more: tuple[tuple[str, str], ...],
) -> None:
    """independent: each is a value that may be the wet one; with none of them the gate is open."""
    found = recorded(*more)
    assert "typed" in kinds(found)
    (one,) = [each for each in found.gate.missing if each.kind == "typed"]
    assert "not count" in one.what
    assert "something typed and not counted" in cover_line(found, EN)
    assert "algo escrito que no cuenta" in cover_line(found, ES)
    assert in_spanish(found.gate)


def test_a_visit_whose_hour_is_typed_twice_takes_no_wet_reading_away() -> None:
    when = ("wood.visits.6.when", "2026-03-21 18:00"), ("wood.visits.6.when", "2026-03-21 19:00")
    found = recorded(*when, (f"{WET}.shown.6", "25"))
    said = {each.where: each.what for each in found.gate.missing if each.kind == "typed"}
    assert said["B1 at 2"] == "read on visit 6, which is none of the job's"
    assert len(said) == 2
    assert in_spanish(found.gate)


def test_what_no_gate_stands_on_shuts_none() -> None:
    assert recorded(("pan.drain.x", "30")).gate.open
    assert recorded(("survey.widths.w.depth", "3")).gate.open


@pytest.mark.parametrize(("table", "value"), [("shown", "24"), ("awl", "1/2"), ("pick", "snaps")])
def test_a_reading_on_a_visit_that_is_none_keeps_a_job_file_shut(table: str, value: str) -> None:
    found = told(merged(done(), {"wood": {"points": {"plate-B-28": {table: {"9": value}}}}}))
    assert kinds(found) == {"typed"}
    blank = told(merged(done(), {"wood": {"points": {"plate-B-28": {"shown": {"9": ""}}}}}))
    assert blank.gate.open


@pytest.mark.parametrize(
    ("name", "change", "why"),
    [
        ("ref-closet", {"awl": {"1": "1/2"}}, 'the awl sinks 1/2" (visit 1)'),
        ("ref-closet", {"pick": {"1": "snaps"}}, "a sliver snaps short (visit 1): decay"),
        ("ref-ply-hall", {"delaminated": True}, "its layers come apart"),
        ("ref-ply-hall", {"swollen": "1/8"}, 'swollen by 1/8"'),
        ("ref-closet", {"shown": {"4": "11", "5": "13.5"}}, "10.9 % on visit 4, then 13.4 % on visit 5"),
    ],
)
def test_a_dry_reference_that_was_wet_once_is_none(name: str, change: dict[str, Any], why: str) -> None:
    """independent: 11 to 13.5 in two days is more than the 1.7 that two readings differ by."""
    found = told(merged(done(), {"wood": {"points": {name: change}}}))
    (said,) = [each for each in found.findings if each.code == "reference-wet"]
    assert said.found == why
    assert not any(foreign(each, ES) for each in (said.expected, said.found, said.next_step))
    assert name in [each.where for each in found.gate.missing]


def test_a_wall_read_only_high_up_is_not_read() -> None:
    """independent: 24 in is the highest of the three heights a stud is read at; 24-1/16 is over it."""
    for height, shut in (("24", False), ("24-1/16", True), ("90", True)):
        found = told(merged(done(), {"wood": {"points": {"R1-2": {"height": height}}}}))
        said = {each.where: each.what for each in found.gate.missing}
        assert said == (
            {"wall R": 'read only over 24" above the floor, and water stands below'} if shut else {}
        )
        assert in_spanish(found.gate)


def test_what_people_noticed_is_not_out_by_a_word_though_nothing_reads_wet() -> None:
    """independent: all places dry from the first visit on, and eight words; then somebody noticed water."""
    job = merged(done(), {"wood": {"leak": {"not_here": WORDS}}})
    its = job["wood"]["points"]
    for name in [each for each in its if not its[each].get("reference")]:
        its[name]["shown"] = {"4": "11", "5": "11"}
        its[name]["awl"] = {"4": "0"}
    job["wood"]["leak"] = {"not_here": job["wood"]["leak"]["not_here"]}
    for gone in [each for each in its if "out" in its[each]]:
        del its[gone]["out"]
    assert "source" not in kinds(told(job))
    for noticed in ({"symptom": "always wet"}, {"noticed": "2026-03-01"}):
        assert "source" in kinds(told(merged(job, {"wood": {"leak": noticed}})))


def test_a_clean_test_of_when_the_water_was_noticed_tells_nothing_years_later() -> None:
    early = {"noticed": "2020-01-01", "pours": {"a": {"when": "2020-01-04 10:00"}}}
    found = told(merged(done(), {"wood": {"leak": early}}))
    assert [each.where for each in found.gate.missing] == ["the drain below the strainer"]


def test_a_goal_under_dry_wood_opens_no_wall_further() -> None:
    """independent: dry wood reads 11.1 here; a goal of 6 typed by mistake moves no cut line."""
    usual = told(done())
    found = told(merged(done(), {"wood": {"allowed": {"most": 6}}}))
    assert [each.at for each in found.cuts] == [each.at for each in usual.cuts]
    assert "point-open-further" not in {each.code for each in found.findings}
    assert "goal-under-dry" in {each.code for each in found.findings}
    assert not found.gate.open


def test_a_patch_over_one_span_keeps_the_gate_shut() -> None:
    """independent: J1 and J2 alone are one span; the patch of the example runs from J1 past J2 to J3."""
    job = merged(done(), {"floor": {"patch": {"bad": {"a": dict.fromkeys(("left", "back"), "0")}}}})
    job["floor"]["patch"]["bad"]["a"] |= {"right": "18", "front": "30"}
    job["floor"]["joists"] = {name: job["floor"]["joists"][name] for name in ("J1", "J2")}
    found = told(job)
    said = {each.where: each.what for each in found.gate.missing}
    assert said["patch 1"] == "fails"
    assert in_spanish(found.gate)


@pytest.mark.parametrize(
    ("by", "reason", "lifts"),
    [
        ("P. Dorn", "looked at it, shored", True),
        ("AL", "looked at it, shored", True),
        ("P. Dorn", ".", False),
        ("P. Dorn", "x", False),
        ("-", "looked at it, shored", False),
        ("x", "looked at it, shored", False),
    ],
)
def test_a_stop_is_lifted_by_a_name_and_a_reason_that_can_be_read(by: str, reason: str, lifts: bool) -> None:
    """convention 6.2: by a person, with name and reason. independent: the air test is the only stop here."""
    air = done()["wood"]["leak"]["pressures"]["again"] | {"medium": "air", "when": "2026-03-05 16:00"}
    its = {"stop": "air-test", "where": "pressure test, air", "by": by, "reason": reason}
    found = told(
        merged(done(), {"wood": {"leak": {"pressures": {"air": air}}}, "safety": {"lifted": {"a": its}}})
    )
    assert found.gate.open == lifts
    stop = [each for each in found.findings if each.code == "air-test"]
    (said,) = lift(stop, [Lifted.model_validate(its)])
    assert (said.severity is Severity.NOTE) == lifts
    assert lifts or str(said.found).endswith("without a name and a reason that can be read")
    assert not foreign(said.found, ES)


def test_no_mark_is_the_name_of_an_engineer_or_of_who_looked() -> None:
    for mark in (".", "-", "x", "1"):
        engineer = told(merged(done(), {"floor": {"joists": {"J2": {"engineer": {"by": mark}}}}}))
        assert kinds(engineer) == {"joists"}
        job = merged(done(), {"wood": {"points": {"plate-B-4": {"bare": "2026-03-06", "bare_by": mark}}}})
        del job["wood"]["points"]["plate-B-4-new"]
        assert kinds(told(job)) == {"new"}
