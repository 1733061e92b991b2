"""Recipe lines, marks and the order of work."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.framing.cast import OFFSETS, SEAT, facts, minutes_only, play_demands, survey
from undertile.framing.build import build_problem
from undertile.framing.plan import Charge, FramingPlan, MemberPlan, Piece, Plane, Recipe
from undertile.framing.problem import FramingProblem, Member, WallProblem
from undertile.framing.search import solve
from undertile.framing.words import STAGES, at_heights, marks, order_of_work, recipe_line, waiting
from undertile.lengths import MM, parse_length

F = Fraction
Z = (F(2), F(24), F(48), F(72))


def member(name: str = "B2", offsets: str = "0 0 0 0", **given: Any) -> MemberPlan:
    """A stud of the plan, its face worked out from its recipe."""
    read = tuple(F(o) for o in offsets.split())
    depth = tuple(F(d) for d in given.pop("depth", "0 0 0 0").split())
    pieces = tuple(Piece(*piece) for piece in given.pop("pieces", ()))
    target = tuple(F(t) for t in given.pop("target", "0 0 0 0").split())
    added = [sum((p.thickness for p in pieces if p.first <= h <= p.last), F(0)) for h in range(4)]
    finished = given.pop("finished", None)
    recipe = Recipe(given.pop("families", ()), given.pop("passes", 0), depth, pieces, **given)
    faces = (
        tuple(F(f) for f in finished.split())
        if finished
        else tuple(o + a - d for o, a, d in zip(read, added, depth, strict=True))
    )
    return MemberPlan(name[0], name, F(24), Z, read, faces, target, recipe, F(0), F(0))


SISTER_EVEN = "sister, its face on the plane: 1/8 over the full height in front of the old"
PLANED = member(offsets="0 0 3/16 0", families=("plane",), passes=2, depth="0 0 1/8 0")
STRIPPED = member(families=("strip",), pieces=[("7/32", F(7, 32), 1, 3)], offsets="0 -7/32 -7/32 -7/32")


@pytest.mark.parametrize(
    ("chosen", "text"),
    [
        ([2], "at 48"),
        ([1, 2, 3], "from 24 to 72"),
        ([0, 2, 3], "at 2 and from 48 to 72"),
        ([0, 1, 2, 3], "over the full height"),
    ],
)
def test_heights_are_said_as_runs(chosen: list[int], text: str) -> None:
    assert at_heights(Z, chosen) == text


@pytest.mark.parametrize(
    ("stud", "line"),
    [
        (member(), "leave"),
        (PLANED, "plane 2 passes at 48 (1/8 off)"),
        (STRIPPED, "strip 7/32 from 24 to 72"),
        (
            member(families=("plane",), passes=3, depth="0 1/16 3/16 0", offsets="0 1/16 3/16 0"),
            "plane up to 3 passes: 1/16 at 24, 3/16 at 48",
        ),
        (
            member(
                families=("plane", "strip"), passes=1, depth="1/16 0 0 0", pieces=[("6 mm ply", 6 * MM, 2, 3)]
            ),
            "plane 1 pass at 2 (1/16 off); strip 6 mm ply (about 1/4) from 48 to 72",
        ),
        (
            member(families=("taper",), taper=(F(1, 8), F(1, 2)), finished="1/8 1/4 3/8 1/2"),
            "tapered rip 1/8 at 2 to 1/2 at 72",
        ),
        (
            member(families=("sister",), finished="0 3/16 1/4 0", flange_shim=True),
            "sister, its face on the plane: 3/16 at 24, 1/4 at 48 in front of the old; "
            "plastic shim behind the flange",
        ),
        (member(families=("sister",), finished="1/8 1/8 1/8 1/8"), SISTER_EVEN),
        (member(families=("knock over",), knock=F(-1, 4)), "knock the foot 1/4 back"),
        (member(families=("wet bed",), finished="0 0 1/8 0"), "wet bed 1/8 at 48"),
        (member(families=("replace",)), "replace, the new face on the plane"),
        (member(families=("channel",)), "under the channel"),
    ],
)
def test_a_recipe_reads_as_the_trade_says_it(stud: MemberPlan, line: str) -> None:
    assert recipe_line(stud) == line


def test_strips_are_named_from_the_bottom_the_longer_under_the_shorter() -> None:
    stud = member(
        families=("strip",), pieces=[("1/16", F(1, 16), 2, 3), ("1/8", F(1, 8), 0, 1), ("1/4", F(1, 4), 0, 3)]
    )
    assert (
        recipe_line(stud)
        == "strip 1/4 over the full height; strip 1/8 from 2 to 24; strip 1/16 from 48 to 72"
    )


def test_marks_are_signed_with_a_cross_off_and_an_arrow_on() -> None:
    assert [(m.height, m.text) for m in marks(PLANED)] == [(F(48), "X -1/8")]  # common practice, no source
    assert [m.text for m in marks(STRIPPED)] == ["↑ +7/32"] * 3
    both = member(families=("plane", "strip"), passes=1, depth="1/16 0 0 0", pieces=[("1/8", F(1, 8), 0, 0)])
    assert [m.text for m in marks(both)] == ["X -1/16 ↑ +1/8"]
    assert [m.text for m in marks(member(flange_shim=True))] == ["O"]
    assert [m.text for m in marks(member(families=("sister",), finished="0 0 1/4 0"))] == [
        "S",
        "S",
        "↑ +1/4 S",
        "S",
    ]
    assert [m.text for m in marks(member(families=("replace",), finished="0 0 1/4 0"))] == ["N"] * 4
    assert marks(member()) == ()


@given(
    st.lists(st.integers(-8, 8), min_size=4, max_size=4), st.lists(st.integers(0, 8), min_size=4, max_size=4)
)
def test_marks_add_up_to_the_amounts_of_the_plan(read: list[int], thirty_seconds: list[int]) -> None:
    # independent: amount = finished - offset (convention 2.5) from the marks' own text
    stud = member(
        offsets=" ".join(str(F(n, 32)) for n in read),
        families=("plane", "strip"),
        passes=4,
        depth=" ".join(str(F(n, 32)) for n in thirty_seconds),
        pieces=[("1/8", F(1, 8), 1, 2)],
    )
    by_height = {m.height: m for m in marks(stud)}
    for z, amount in zip(stud.heights, stud.amounts, strict=True):
        words = by_height[z].text.split() if z in by_height else []
        said = sum((parse_length(w, "in").inches for w in words if w[0] in "+-"), F(0))
        assert said == amount


def problem(flange: tuple[bool, ...] = (True, False, False, False), walls: str = "BL") -> FramingProblem:
    zero = (F(0),) * 4
    return FramingProblem(
        tuple(
            WallProblem(w, Z, flange, tuple(Member(f"{w}{i}", F(8 * i), zero, zero, zero) for i in (1, 2, 3)))
            for w in walls
        )
    )


def plan(*members: MemberPlan, charges: tuple[Charge, ...] = (), step: str = "0") -> FramingPlan:
    planes = {w: Plane(w, F(0), F(0), F(0), F(step)) for w in "BL"}
    return FramingPlan("proved", planes, members, charges)


def test_work_goes_planes_then_sisters_then_strips_from_the_bottom_then_the_pan() -> None:
    zero = F(0)
    studs = (
        member(
            "B1",
            families=("strip",),
            pieces=[("1/8", F(1, 8), 2, 3)],
            offsets="0 0 -1/8 -1/8",
            flange_shim=True,
        ),
        member("B2", families=("sister",), finished="0 0 0 0"),
        member("B3", families=("plane",), passes=1, depth="1/16 0 0 0", offsets="1/16 0 0 0"),
        member("L1", families=("strip",), pieces=[("1/16", F(1, 16), 0, 3)], offsets="-1/8 -1/8 -1/8 -1/8"),
        member("L2", families=("strip",), pieces=[("1/4", F(1, 4), 2, 3)], offsets="0 0 -3/16 -3/16"),
        member("L3", families=("replace",)),
    )
    charges = (
        Charge("B", "verify", F(6), zero),
        Charge("L", "shoring", F(30), zero),
        Charge("B", "plate edge", F(8), zero),
        Charge("L", "re-block the valve", F(25), zero),
        Charge("L", "first taper", F(3), zero),
    )
    done = order_of_work(plan(*studs, charges=charges), problem())
    # common practice, no source, repair and pipes first, then plane, sisters, strips bottom to top; above the
    # flange what narrows the way in goes on after the pan is set; convention 3.5
    assert [line.text for line in done] == [
        "re-block the valve, wall L",
        "shore wall L before a stud comes out",
        "L3: replace, the new face on the plane",
        "B3: plane 1 pass at 2 (1/16 off)",
        "plane the plate edge of wall B, or the board rides on it",
        "B2: sister, its face on the plane",
        "L1: strip 1/16 over the full height",
        "B1: strip 1/8 from 48 to 72",
        "verify wall B with straightedge and laser; read again what was touched",
        "B1: plastic shim behind the flange",
        "L2: strip 1/4 from 48 to 72, after the pan is set",
    ]
    assert [STAGES.index(line.stage) for line in done] == sorted(STAGES.index(line.stage) for line in done)


def test_only_a_strip_that_starts_above_the_flange_and_stands_proud_of_its_plane_waits() -> None:
    wall = problem().walls[0]
    proud = member("B1", families=("strip",), pieces=[("1/8", F(1, 8), 1, 3)], offsets="0 -1/16 -1/8 -1/8")
    level = member("B1", families=("strip",), pieces=[("1/8", F(1, 8), 1, 3)], offsets="0 -1/8 -1/8 -1/8")
    low = member("B1", families=("strip",), pieces=[("1/8", F(1, 8), 0, 3)], offsets="-1/8 -1/16 -1/8 -1/8")
    assert waiting(proud, wall, plan(proud)) == proud.recipe.pieces  # published: convention 3.5
    assert waiting(level, wall, plan(level)) == ()
    assert waiting(low, wall, plan(low)) == ()
    no_pan = problem((False,) * 4).walls[0]
    assert waiting(proud, no_pan, plan(proud)) == ()


def test_what_lies_on_a_strip_that_waits_waits_with_it() -> None:
    # independent: the card's own face is flush with the plane, and it lies on a strip that is not there yet
    stud = member(
        "B1",
        families=("strip",),
        pieces=[("7/32", F(7, 32), 1, 3), ("1/16", F(1, 16), 3, 3)],
        offsets="0 -1/8 -1/8 -9/32",
    )
    wall = problem().walls[0]
    assert waiting(stud, wall, plan(stud)) == stud.recipe.pieces
    assert recipe_line(stud, waits=waiting(stud, wall, plan(stud))) == (
        "strip 7/32 from 24 to 72 (after the pan); strip 1/16 at 72 (after the pan)"
    )


def test_a_steel_stud_is_re_set_not_replaced() -> None:
    stud = member(families=("replace",), reset=True)
    assert recipe_line(stud) == "re-set in its track, its face on the plane"
    assert stud.recipe.name == "re-set"


def test_a_board_that_laps_makes_the_upper_strips_wait() -> None:
    # independent: the upper plane stands the flange's 1/8 in front of the flange plane (convention 3.6)
    stud = member("B1", families=("strip",), pieces=[("1/8", F(1, 8), 1, 3)], target="0 1/8 1/8 1/8")
    assert waiting(stud, problem().walls[0], plan(stud, step="1/8")) == stud.recipe.pieces


def test_the_room_worked_by_hand_is_said_as_convention_8_says_it() -> None:
    built = build_problem(survey(OFFSETS), facts(prices=minutes_only()), SEAT, play_demands())
    found = solve(built.problem)
    lines = [line.text for line in order_of_work(found, built.problem)]
    # published: convention 8, B2 two passes at 48, B4 one strip at 48, six flange shims
    assert lines[0] == "B2: plane 2 passes at 48 (1/8 off)"
    assert lines[1].startswith("B4: strip ")
    assert " at 48" in lines[1]
    assert [line for line in lines if line.endswith("plastic shim behind the flange")] == [
        f"{w}{i}: plastic shim behind the flange" for w in "LR" for i in (1, 2, 3)
    ]


def test_a_job_in_mm_is_said_in_mm() -> None:
    stud = member(families=("plane",), passes=1, depth="0 0 1/16 0", offsets="0 0 1/16 0")
    assert recipe_line(stud, "mm") == "plane 1 pass at 1219.2 mm (about 1.5 mm off)"
    assert '"' not in recipe_line(STRIPPED, "mm")
