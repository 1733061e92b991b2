"""Planes by straight lines alone: they never refuse a room that has a plan."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.framing import noplan
from undertile.bench.hand import hand_room
from undertile.bench.rooms import room
from undertile.framing.moves import demand_value
from undertile.framing.outline import Outline, hull, reach
from undertile.framing.problem import Channel, FramingProblem, PlateSpot, StepTerm
from undertile.framing.search import solve


def outline(problem: FramingProblem, channelled: tuple[str, ...] = ()) -> Outline:
    return Outline(problem.walls, problem.demands, channelled)


def test_planes_of_the_hand_room_meet_every_demand() -> None:
    problem = hand_room()
    planes = outline(problem).planes()
    assert planes is not None
    for demand in problem.demands:
        value = demand_value(demand, planes)
        assert demand.low is None or demand.low <= value
        assert demand.high is None or value <= demand.high


@pytest.mark.parametrize("make", [noplan.steel_room, noplan.drain_room, noplan.edge_room])
def test_lines_that_contradict_each_other_are_refused(make: object) -> None:
    # independent: each is shown by hand in test_conflict.py to have no plane at all
    assert callable(make)
    assert outline(make()).planes() is None


@pytest.mark.parametrize("seed", range(12))
def test_a_room_that_has_a_plan_is_never_refused(seed: int) -> None:
    problem = room(seed, studs=6, heights=3)
    plan = solve(problem)
    channelled = tuple(
        {m.wall for m in plan.members if "channel" in m.recipe.families},
    )
    planes = outline(problem, channelled).planes()
    # independent: the plan of the search is a point of these lines
    assert plan.cost is None or planes is not None
    if plan.cost is not None:
        leans = {name: plane.lean for name, plane in plan.planes.items()}
        at = outline(problem, channelled).planes(leans)
        assert at is not None
        assert {name: plane.lean for name, plane in at.items()} == leans


def test_a_lean_that_is_asked_for_is_kept() -> None:
    problem = noplan.leaning_edge_room()
    assert outline(problem).planes() is None
    wider = tuple(F(n, 16 * 96) for n in range(-4, 5))
    walls = tuple(replace(w, leans=wider) for w in problem.walls)
    planes = outline(replace(problem, walls=walls)).planes()
    assert planes is not None
    # independent: hand calculation. A quarter over exactly 8 ft
    assert planes["B"].lean == F(1, 4) / 96
    assert outline(replace(problem, walls=walls)).planes({"B": F(0)}) is None


def test_what_a_stud_reaches() -> None:
    wall = next(w for w in hand_room().walls if w.name == "B")
    wood = replace(wall.members[0], replace=None)
    # independent: hand calculation. Flange zone: 1/2 off beside a sister, never proud; 1-1/2 out to the
    # sister and 1/16 behind its plane. Above, 1/16 proud may stay
    assert list(reach(wood, wall)) == [
        (F(2), F(-1, 2), F(25, 16)),
        (F(48), F(-9, 16), F(25, 16)),
        (F(90), F(-9, 16), F(25, 16)),
    ]
    # strips of 3/4 alone, nothing off
    assert next(reach(noplan.steel(wood), wall)) == (F(2), F(0), F(13, 16))


def test_a_term_reaches_as_far_as_it_can_be_bought() -> None:
    term = StepTerm("valve", "L", F(16), F(44), F(0), F(1, 4), F(25), F(0), F(-1, 2), F(3, 4))
    assert hull(term) == (F(-1, 2), F(3, 4))
    assert hull(replace(term, minutes=None)) == (F(0), F(1, 4))
    assert hull(replace(term, hard_low=None, high=None)) == (None, None)


def test_plates_count_but_where_the_wall_is_channelled() -> None:
    wall = next(w for w in hand_room().walls if w.name == "B")
    plate = PlateSpot("b1", F(16), F(2), F(5), F(1, 4), True)
    walls = (replace(wall, plates=(plate,), channel=Channel(F(7, 8), F(1, 2), F(9), F(0))),)
    assert Outline(walls, ()).planes() is None  # 5 proud: no plane in range is over it
    planes = Outline(walls, (), ("B",)).planes()
    assert planes is not None
    # independent: hand calculation. 7/8 before the proudest, B2 at 3/16 and 48 from the floor, plumb
    assert planes["B"].at(F(24), F(48)) >= F(7, 8) + F(3, 16)
