"""What the facts about the studs say, and what knowing more could save."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from tests.framing.cast import OFFSETS, SEAT, easy_wall, facts, minutes_only, play_demands, survey
from undertile.findings import Finding, Severity
from undertile.framing.build import build_problem
from undertile.framing.facts import FramingFacts
from undertile.framing.search import solve
from undertile.framing.studfindings import worth_knowing

F = Fraction


def findings(code: str, given: FramingFacts, **room: Any) -> list[Finding]:
    return [f for f in build_problem(survey(**room), given, SEAT).findings if f.code == code]


def test_a_soft_stud_stops_and_says_what_mends_it() -> None:
    (found,) = findings("stud-soft", facts(studs={"B2": {"soft": True}}))
    assert (found.severity, found.where) == (Severity.STOP, "B2")
    assert found.next_step == "Replace or sister it before the wall is closed."
    (bearing,) = findings("stud-soft", facts(studs={"B2": {"soft": True, "bearing": "unknown"}}))
    assert "shore first" in bearing.next_step


def test_a_soft_stud_that_nothing_may_mend_says_what_forbids_it() -> None:
    (found,) = findings("stud-soft", facts(studs={"B2": {"soft": True, "fixed": True}}))
    assert "sister: the bay may not be opened; replace: it may not be replaced" in found.next_step


def test_a_hold_that_is_not_allowed_stops_with_the_reason() -> None:
    held = {"B2": {"kind": "steel", "hold": {"treatment": "plane", "reason": "quicker"}}}
    (found,) = findings("hold-not-offered", facts(studs=held))
    assert found.severity is Severity.STOP
    assert found.found == "it is held to plane (quicker), but steel is never planed"
    soft = {"B2": {"soft": True, "hold": {"treatment": "leave", "reason": "looks fine"}}}
    (found,) = findings("hold-not-offered", facts(studs=soft))
    assert found.found.endswith("but a soft stud is to be sistered or replaced")
    assert not findings(
        "hold-not-offered", facts(studs={"B2": {"hold": {"treatment": "leave", "reason": "x"}}})
    )


def test_a_twist_over_a_sixteenth_is_noted() -> None:
    (found,) = findings("stud-twisted", facts(), twist={"B2": F(-3, 16)})
    assert found.found == 'one edge stands 3/16" behind the other'
    assert not findings("stud-twisted", facts(), twist={"B2": F(1, 16)})


def test_what_is_not_known_is_noted_once_a_wall() -> None:
    given = facts(
        walls={"B": {"kind": "wood"}, "L": easy_wall(), "R": easy_wall()}, studs={"B1": {"bearing": "no"}}
    )
    (bearing,) = findings("unknown-bearing", given)
    assert (bearing.where, bearing.data["studs"]) == ("wall B", "B2,B3,B4")
    assert [f.where for f in findings("unknown-bay", given)] == ["wall B"]
    assert not findings("unknown-kind", given)


def test_knowing_is_asked_wall_by_wall_with_the_job_at_the_easy_answer() -> None:
    given = facts(
        walls={"B": easy_wall(bearing="unknown")}, studs={"B3": {"bay": "unknown"}, "B1": {"bearing": "yes"}}
    )
    asked = worth_knowing(given, survey(walls="B"))
    assert [(k.wall, k.studs, k.answer) for k in asked] == [
        ("B", ("B2", "B3", "B4"), "no"),
        ("B", ("B3",), "clear"),
    ]
    assert asked[0].facts.walls["B"].bearing == "no"
    assert asked[0].facts.studs["B1"].bearing == "yes"  # what is known stays
    assert asked[1].facts.studs["B3"].bay == "clear"
    assert worth_knowing(facts(), survey()) == ()


def test_knowing_never_makes_the_plan_dearer() -> None:
    # independent: the cautious case allows less at the same prices
    unknown = facts(walls={}, prices=minutes_only())
    room = survey(OFFSETS)
    plan = solve(build_problem(room, unknown, SEAT, play_demands()).problem)
    assert plan.cost is not None
    for knowing in worth_knowing(unknown, room):
        told = solve(build_problem(room, knowing.facts, SEAT, play_demands()).problem)
        assert told.cost is not None
        assert told.cost <= plan.cost
