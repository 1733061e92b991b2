"""Rooms without a plan: what conflicts and what frees it, counted by hand; what is said of it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import count

import pytest

from tests.framing import cast, noplan
from undertile.bench.hand import hand_room
from undertile.findings import Severity
from undertile.framing.conflict import conflict_findings, explain
from undertile.framing.plan import Conflict
from undertile.framing.problem import FramingProblem
from undertile.framing.search import solve
from undertile.framing.stage import STAGE


def changes(conflict: Conflict) -> str:
    """Every change that is enough, in one text."""
    return "\n".join(change for _, change in conflict.frees)


def test_two_steel_walls_too_close_for_the_pan() -> None:
    problem = noplan.steel_room()
    assert solve(problem).state == "none"
    conflict = explain(problem)
    text = "\n".join(conflict.demands)
    assert "play at depth" in text
    assert "steel is never planed" in text
    assert "it may not be replaced or moved" in text
    # independent: hand calculation. Steel stays at 0 or behind its plane, so T >= 0 at 16 on both sides;
    # 59-15/16 - 60 = -1/16 of play at most, 1/16 asked: 1/8 is missing, at the opening or at one wall
    assert '1/8" wider, or the pan that much narrower' in changes(conflict)
    assert any(
        change.startswith("bring L1, L2 and L3 back 1/8") or change.startswith("bring R1, R2 and R3 back 1/8")
        for _, change in conflict.frees
    )
    assert any("never proud of it" in each for each in conflict.given)
    assert conflict.undecided == ""
    assert conflict.more == ()


def test_a_drain_off_by_more_than_its_float() -> None:
    conflict = explain(noplan.drain_room())
    # independent: hand calculation. 3/8 off, float 1/4: the plane held at 0 is an eighth short
    assert changes(conflict) == (
        'put wall B 1/8" further in than held, or let go of it\nmove the drain 1/8" toward the back wall'
    )
    assert len(conflict.demands) == 2
    assert "float 1/4" in conflict.demands[1]
    assert conflict.demands[0].endswith("[convention 3]")


def test_a_drain_off_the_other_way_is_moved_out() -> None:
    # independent: symmetry. The same drain as far on the other side
    conflict = explain(noplan.drain_room(off=F(-3, 8)))
    assert 'move the drain 1/8" out from the back wall' in changes(conflict)
    assert 'put wall B 1/8" further back than held' in changes(conflict)


def test_an_edge_that_stays_against_the_play_of_the_pan() -> None:
    problem = noplan.edge_room()
    assert solve(problem).state == "none"
    conflict = explain(problem)
    # independent: hand calculation. R at 0: T_L within 1/8 .. 3/16 at 1 and at 32, so at most 3/16 + 1/124 at
    # 36, and the cabinet wants 1/4: 0.0544 is missing, two thirty-seconds
    assert 'let the new face lie 1/16" further behind cabinet' in changes(conflict)
    assert any("the face that stays is at +3/4" in line for line in conflict.demands)


def test_a_hold_on_a_stud_half_an_inch_proud() -> None:
    conflict = explain(noplan.held_stud_room())
    # independent: hand calculation. Left, it must lie within 1/16 of one plane at 2 (0) and at 48 (1/2)
    assert conflict.frees == (("B2 held to leave", "let go of the hold on B2"),)
    assert conflict.demands == (
        'B2 held to leave: as read from 0" at 2 to +1/2" at 48; held to leave: the owner wants the old notch '
        "seen [convention 4]",
    )


def test_faces_that_stay_ask_for_more_lean_than_is_offered() -> None:
    conflict = explain(noplan.leaning_edge_room())
    # independent: hand calculation. A quarter over exactly 8 ft, an eighth is offered
    assert 'let wall B lean 1/8" more in 8 ft' in changes(conflict)
    assert 'let the new face lie 1/8" further proud of frame' in changes(conflict)
    assert 'let the new face lie 1/8" further behind frame' in changes(conflict)
    # published: UFGS, 1/8 in in 8 ft
    assert 'Wall B plumb: it leans at most 1/8" in 8 ft either way' in conflict.demands[-1]


def test_a_hollow_stud_under_the_straightedge() -> None:
    conflict = explain(noplan.hollow_stud_room())
    # independent: hand calculation. 1/16 proud at both ends, 1/16 back between: 1/8 shows, 1/16 may
    assert 'let 1/16" more show under the straightedge' in changes(conflict)
    assert "allow B1 to be replaced by a straight one" in changes(conflict)
    assert 'at most 1/16" under 24"' in conflict.demands[-1]


def test_a_soft_stud_that_may_not_be_sistered_or_replaced() -> None:
    conflict = explain(noplan.soft_stud_room())
    assert [title for title, _ in conflict.frees] == ["B3 is soft", "B3 as it stands"]
    # the advice never is to leave rot behind tile
    assert "only if the wood is sound" in conflict.frees[0][1]
    assert conflict.frees[1][1].startswith("allow B3 to be replaced")


def test_two_conflicts_that_share_nothing_are_both_told() -> None:
    problem = noplan.with_demands(
        noplan.held_stud_room(),
        noplan.held("L", F(1, 4)),
        noplan.held("L", F(3, 8), "mark"),
    )
    conflict = explain(problem)
    assert len(conflict.more) == 1
    every = [*conflict.frees, *conflict.more[0].frees]
    assert all(change.endswith("the other conflicts have to be freed too") for _, change in every)
    # independent: hand calculation. 1/4 and 3/8 are an eighth apart
    assert any('put wall L 1/8" further in than held' in change for _, change in every)
    assert [f.code for f in conflict_findings(conflict)] == ["no-plan", "no-plan"]


def test_millimetres_go_in_halves() -> None:
    mm = F(5, 127)
    # independent: hand calculation. The drain is 9.8 mm off, its float 6: 3.8 are missing, in halves 4
    conflict = explain(noplan.drain_room(off=F(98, 10) * mm, float_=6 * mm), unit="mm")
    assert "move the drain 4 mm toward the back wall" in changes(conflict)


def test_a_pan_far_too_small_runs_into_how_far_out_planes_are_looked_for() -> None:
    conflict = explain(noplan.wide_room())
    # independent: hand calculation. Planes go to +2 on either side: 65 - 4 - 60 = 1 of play, 1/8 may be
    assert 'let the play at every depth be 7/8" more' in changes(conflict)
    assert [each.split(",")[0] for each in conflict.given] == [
        'the plane of wall L is looked for from -1" to +2"',
        'the plane of wall R is looked for from -1" to +2"',
    ]


def test_no_change_up_to_three_inches_is_said() -> None:
    conflict = explain(noplan.steel_room(opening=F(65)))
    # independent: hand calculation. Strips of 3/4 and 1/16 of band: 65 - 60 - 1-5/8 is 3-3/8, and 1/8 may be
    assert 'no change up to 3" frees it' in changes(conflict)


def test_what_was_not_worked_out_in_the_time_is_said() -> None:
    ticks = count()
    conflict = explain(noplan.drain_room(), time_limit_s=1.0, clock=lambda: float(next(ticks)))
    assert conflict.demands == ()
    assert "which demands conflict is not known" in conflict.undecided
    found = conflict_findings(conflict)
    assert [f.code for f in found] == ["no-plan-undecided"]
    assert found[0].severity is Severity.ACT


def test_cut_short_half_way_it_names_more_and_says_so() -> None:
    ticks = count()
    conflict = explain(noplan.edge_room(), time_limit_s=60.0, clock=lambda: float(next(ticks)))
    assert conflict.undecided != ""


def test_a_finding_says_what_conflicts_and_what_to_do() -> None:
    (found,) = conflict_findings(explain(noplan.drain_room()))
    assert (found.code, found.severity) == ("no-plan", Severity.ACT)
    assert "Wall B held at 0" in found.found
    assert found.next_step == (
        'Put wall B 1/8" further in than held, or let go of it; or move the drain 1/8" toward the back wall.'
    )


@pytest.mark.parametrize("problem", [hand_room(), replace(hand_room(), demands=())])
def test_a_room_with_a_plan_has_no_conflict(problem: FramingProblem) -> None:
    conflict = explain(problem)
    assert (conflict.demands, conflict.frees, conflict.more) == ((), (), ())
    assert "a plan exists" in conflict.undecided


def test_the_stage_explains_a_room_without_a_plan() -> None:
    steel = {wall: cast.easy_wall(kind="steel", fixed=True) for wall in "LR"}
    facts = cast.facts(walls={"B": cast.easy_wall(), **steel})
    # independent: hand calculation. Opening 60-1/4, pan 60-3/8, play 1/16: both planes together 3/16 back of
    # nominal, and steel at 0 on both sides keeps them at 0
    wider = tuple(
        replace(d, low=None, high=F(-1, 8) - F(1, 16), why="pan 60-3/8")
        for d in cast.play_demands()
        if d.code == "play-16"
    )
    plan = STAGE.run({"framing": facts}, {"survey": cast.survey(), "demands": (cast.SEAT, *wider)})
    assert plan.state == "none"
    assert plan.conflict is not None
    assert 'make the opening at 16 from the back 3/16" wider' in changes(plan.conflict)
    assert [f.code for f in plan.findings if f.code.startswith("no-plan")] == ["no-plan"]
