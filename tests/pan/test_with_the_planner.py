"""A proved plan and its consequences never disagree: what was demanded comes out as a pass.

independent: the rows the planner solves and the checks afterwards are two ways to the same answer (linear
rows over planes; sizes, places and exact geometry after the work).
"""

from __future__ import annotations

import random
from fractions import Fraction as F

import pytest

from tests.pan.cast import inch, pan_facts, survey
from undertile.findings import Verdict
from undertile.framing.build import PanSeat, build_problem
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan
from undertile.framing.search import solve
from undertile.pan.consequences import PanResult, consequences
from undertile.pan.demands import demands
from undertile.pan.facts import PanFacts
from undertile.survey.result import SurveyResult

STOCK = ("1/16", "1/8", "205/1000", "7/32", "11/32", "15/32", "23/32", "3/4")
WOOD = {"kind": "wood", "bearing": "no", "bay": "clear", "depth": inch("7/2")}


def answer(pan: PanFacts, room: SurveyResult, framing: FramingFacts) -> tuple[FramingPlan, PanResult]:
    seat = PanSeat(
        pan.pan.flange_height.inches if pan.pan.flange_height else None,
        pan.pan.flange_thickness.inches if pan.pan.flange_thickness else None,
        pan.pan.detail,
        pan.pan.width.inches if pan.pan.width else None,
        pan.pan.depth.inches if pan.pan.depth else None,
    )
    rows, missing = demands(pan, room, framing)
    plan = solve(build_problem(room, framing, seat, rows).problem, time_limit_s=60)
    return plan, consequences(pan, room, framing, plan, "in", missing)


def facts(**more: object) -> FramingFacts:
    return FramingFacts.model_validate(
        {
            "walls": dict.fromkeys("LBR", WOOD),
            "stock": {f"s{i}": {"thickness": inch(t), "wood": False} for i, t in enumerate(STOCK)},
        }
        | more
    )


def test_the_room_worked_by_hand_end_to_end():
    offsets = {"B2": (F(0), F(3, 16), F(0)), "B4": (F(0), F(-1, 8), F(0))}
    room = survey(offsets, square={"L": F(0), "R": F(0)})
    plan, result = answer(pan_facts(), room, facts())
    # independent: convention 8 by hand: 43 minutes, opening 60-1/8 between planes 1/16 forward, six shims
    assert plan.state == "proved"
    assert plan.minutes == 43
    assert result.check("drop-in").verdict is Verdict.PASS
    assert sum(member.recipe.flange_shim for member in plan.members) == 6
    listed = " ".join(line for line in result.order_of_work if "flange shims" in line)
    assert all(name in listed for name in ("L1", "L2", "L3", "R1", "R2", "R3"))
    assert "B1" not in listed


def rooms() -> list[tuple[int, str]]:
    return [(seed, detail) for seed in (2, 3) for detail in ("stops", "laps")]


@pytest.mark.parametrize(("seed", "detail"), rooms())
def test_what_was_demanded_comes_out_as_a_pass(seed: int, detail: str):
    rng = random.Random(seed)

    def stud(base: F) -> tuple[F, ...]:
        return tuple(base + F(rng.randint(-2, 3), 16) for _ in range(3))

    offsets = {
        name: stud(F(rng.randint(-1, 1), 16))
        for name in ("L1", "L2", "L3", "B1", "B2", "B3", "B4", "R1", "R2", "R3")
    }
    room = survey(offsets, square={"L": F(1, 1024), "R": F(-1, 1024)}, opening=F(241, 4))
    pan = pan_facts(
        detail=detail,
        flange_thickness=inch("3/16"),
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch("241/8"), "y": inch("65/4"), "float_x": inch("1/4"), "float_y": inch("3/8")},
    )
    framing = facts(
        finish={"board": inch("1/2"), "membrane": inch("1/32"), "mortar": inch("1/8"), "tile": inch("5/16")},
        valve={
            "wall": "L",
            "along": inch(16),
            "height": inch(44),
            "reading": inch("33/4"),
            "window_low": inch("17/8"),
            "window_high": inch("25/8"),
        },
        corners={"B-L": {"wood": inch("3/2")}, "R-B": {"wood": inch("5/4")}},
    )
    plan, result = answer(pan, room, framing)
    assert plan.state == "proved"
    asked = (
        "drop-in",
        "play-",
        "drop-in-square",
        "width-",
        "gap-",
        "skew-",
        "corner-",
        "diagonals",
        "drain-",
    )
    asked += ("valve-", "backing-", "plumb-", "notch-")
    judged = [check for check in result.checks if check.code.startswith(asked)]
    assert len(judged) > 15
    assert not [check for check in judged if check.verdict is not Verdict.PASS]
    # independent: the planner pays a shim exactly where the gap is more than 1/32
    listed = " ".join(line for line in result.order_of_work if "flange shims" in line)
    for member in plan.members:
        assert member.recipe.flange_shim == (f" {member.name} " in listed), member.name


def test_a_mirrored_room_has_the_mirrored_consequences():
    # independent: symmetry: studs of B mirrored about the middle of the opening
    offsets = {"L2": (F(1, 8), F(0), F(0)), "R1": (F(-1, 16), F(1, 8), F(0)), "B2": (F(0), F(3, 16), F(0))}
    mirrored = {"R2": offsets["L2"], "L1": offsets["R1"], "B3": offsets["B2"]}
    room = survey(offsets, square={"L": F(0), "R": F(0)}, opening=F(64) - F(31, 8))
    other = survey(mirrored, square={"L": F(0), "R": F(0)}, opening=F(64) - F(31, 8))
    plan, result = answer(pan_facts(), room, facts())
    plan_two, result_two = answer(pan_facts(), other, facts())
    assert plan.cost == plan_two.cost
    for code in ("drop-in", "diagonals", "drop-in-square"):
        assert result.check(code).verdict is result_two.check(code).verdict
