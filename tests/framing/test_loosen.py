"""Letting go, loosening and moving: each does what it says to the problem, and nothing else."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.framing import noplan
from undertile.bench.hand import hand_room, square_demand
from undertile.framing.loosen import Item, family_of, items_of, loosened, scale_of, stem_of, wish_of
from undertile.framing.problem import Demand, FramingProblem, PlateSpot, StepTerm


def item(problem: FramingProblem, name: str, side: str = "") -> Item:
    """The one item of that name and side."""
    (found,) = (i for i in items_of(problem) if i.name == name and i.side == side)
    return found


def test_letting_nothing_go_changes_nothing() -> None:
    problem = noplan.edge_room()
    assert loosened(problem, {}) == problem


def test_a_wood_room_is_asked_its_leans_and_both_sides_of_each_demand() -> None:
    found = items_of(hand_room())
    # independent: counted by hand. Three walls; 3 plays, 3 skews and the square of convention 8, two sides
    assert [i.kind for i in found].count("lean") == 3
    assert [i.kind for i in found].count("demand") == 14
    assert len(found) == 17


def test_a_stud_that_may_be_replaced_is_never_in_the_way() -> None:
    assert not [i for i in items_of(hand_room()) if i.kind == "stud"]
    steel = [i.name for i in items_of(noplan.steel_room()) if i.kind == "stud"]
    assert steel == ["L1", "L2", "L3", "R1", "R2", "R3"]


def test_a_side_of_a_demand_is_loosened_alone() -> None:
    problem = hand_room()
    low = item(problem, "skew-L", "low")
    (after,) = (d for d in loosened(problem, {low: F(1, 32)}).demands if d.code == "skew-L")
    # independent: hand calculation. -1/8 less 1/32
    assert (after.low, after.high) == (F(-5, 32), F(1, 8))


def test_a_demand_without_bounds_is_gone() -> None:
    problem = hand_room()
    gone = {item(problem, "skew-L", side): None for side in ("low", "high")}
    assert "skew-L" not in [d.code for d in loosened(problem, gone).demands]


def test_a_held_plane_is_one_item_and_goes_either_way() -> None:
    problem = noplan.drain_room()
    both = item(problem, "hold-B-offset", "both")
    (after,) = (d for d in loosened(problem, {both: F(1, 8)}).demands if d.code == both.name)
    assert (after.low, after.high) == (F(-1, 8), F(1, 8))
    (after,) = (
        d for d in loosened(problem, {replace(both, side="high"): F(1, 8)}).demands if d.code == both.name
    )
    assert (after.low, after.high) == (F(0), F(1, 8))


def test_the_diagonals_are_loosened_in_inches_of_the_diagonals() -> None:
    # published: the row over the pan's diagonal, docs/methods/pan.md; independent: 3-4-5 by 12, root exact
    deep, wide, z = F(36), F(48), F(2)
    parts = (
        ("L", deep, z, wide), ("L", F(0), z, -wide), ("R", deep, z, -wide), ("R", F(0), z, wide),
        ("B", wide, z, 2 * deep), ("B", F(0), z, -2 * deep),
    )  # fmt: skip
    row = Demand("square", parts, F(-60, 8), F(60, 8), "Diagonals")
    assert scale_of(row) == 60 * F(99, 100)
    # the same demand written in inches: an inch of it is an inch, less the hundredth kept in hand
    assert scale_of(square_demand(wide, deep, z)) == F(99, 100)
    assert scale_of(replace(row, code="skew-L")) == 1


def test_a_bound_that_can_be_bought_is_loosened_where_it_ends() -> None:
    term = StepTerm("valve", "L", F(16), F(44), F(0), F(1, 4), F(25), F(0), F(-1, 2), F(3, 4))
    problem = noplan.with_terms(hand_room(), "L", term)
    after = loosened(problem, {item(problem, "valve", "low"): F(1, 8), item(problem, "valve", "high"): None})
    (found,) = next(w for w in after.walls if w.name == "L").terms
    assert (found.low, found.high, found.hard_low, found.hard_high) == (F(0), F(1, 4), F(-5, 8), None)


def test_what_can_be_bought_without_end_is_no_item() -> None:
    backer = StepTerm("corner backer L-B", "B", F(0), F(48), None, F(1, 4), F(10))
    problem = noplan.with_terms(hand_room(), "B", backer)
    assert not [i for i in items_of(problem) if i.kind == "term"]


def test_leans_are_offered_step_by_step_and_let_go_up_to_a_half() -> None:
    problem = hand_room()
    lean = next(i for i in items_of(problem) if i.kind == "lean" and i.wall == "B")
    leans = {w.name: w.leans for w in loosened(problem, {lean: F(1, 8)}).walls}
    # independent: counted by hand. Plumb, and one and two sixteenths in 8 ft either way
    assert leans["B"] == tuple(F(n, 16 * 96) for n in (-2, -1, 0, 1, 2))
    assert leans["L"] == (F(0),)
    wide = next(w for w in loosened(problem, {lean: None}).walls if w.name == "B").leans
    assert (wide[0], wide[-1], len(wide)) == (F(-1, 192), F(1, 192), 17)


def test_holds_soft_studs_studs_and_plates() -> None:
    problem = noplan.soft_stud_room()
    plate = PlateSpot("b1", F(16), F(1), F(3, 8), F(1, 4), True)
    walls = tuple(replace(w, plates=(plate,)) if w.name == "B" else w for w in problem.walls)
    problem = replace(problem, walls=walls)
    must, stud = (next(i for i in items_of(problem) if i.kind == k) for k in ("must", "stud"))
    cut = item(problem, "b1")

    def back(spec: dict[Item, F | None]) -> FramingProblem:
        return replace(loosened(problem, spec), demands=())

    b3 = back({must: None, stud: None}).walls[0].members[2]
    assert (b3.must, b3.replace) == (frozenset(), F(0))
    moved = back({replace(stud, kind="move stud"): F(-1, 16)}).walls[0].members[2]
    assert moved.offsets == (F(-1, 16),) * 3
    assert back({cut: F(1, 8)}).walls[0].plates[0].cut == F(3, 8)
    assert back({cut: None}).walls[0].plates == ()
    with pytest.raises(ValueError, match="nothing of a stud"):
        back({replace(stud, kind="move stud"): None})


def test_the_straightedge_rules_are_loosened_alike() -> None:
    problem = hand_room(flatness=((F(120), F(1, 8)), (F(24), F(1, 16))))
    rule = item(problem, "straightedge")
    assert loosened(problem, {rule: F(1, 32)}).flatness == ((F(120), F(5, 32)), (F(24), F(3, 32)))
    assert loosened(problem, {rule: None}).flatness == ()


@pytest.mark.parametrize(
    ("axis", "code", "by"),
    # independent: by hand. Out from wall B the outlet may come out as far; toward R there is more room at L
    [("y", "drain-y-end-at-2", 1), ("x", "drain-x-L-back", 1), ("x", "drain-x-R-turned-front", -1)],
)
def test_a_moved_drain_moves_its_rows(axis: str, code: str, by: int) -> None:
    row = Demand(code, (("B", F(0), F(2), F(1)),), F(-1, 4), F(1, 4), "drain")
    other = replace(row, code="skew-B")
    problem = replace(hand_room(), demands=(row, other))
    move = Item("move drain", "", 0, axis)  # type: ignore[arg-type]
    after = loosened(problem, {move: F(1, 8)}).demands
    assert (after[0].low, after[0].high) == (F(-1, 4) + F(by, 8), F(1, 4) + F(by, 8))
    assert after[1] == other


def test_what_one_wish_sets_goes_together() -> None:
    problem = noplan.steel_room()
    play = item(problem, "play-1-2", "high")
    # independent: counted by hand. Depths 1, 16, 32, one flange height
    assert [i.name for i in family_of(play, problem)] == ["play-1-2", "play-16-2", "play-32-2"]
    stud = item(problem, "L1")
    assert [i.name for i in family_of(stud, problem)] == ["L1", "L2", "L3"]
    skew = item(problem, "skew-L", "low")
    assert family_of(skew, problem) == (skew,)
    edges = noplan.leaning_edge_room()
    low = item(edges, "frame at 2", "low")
    assert [i.name for i in family_of(low, edges)] == ["frame at 2", "frame at 98"]


@pytest.mark.parametrize(
    ("code", "wish"),
    [
        ("play-16", "play"),
        ("play-16-at-3", "play"),
        ("drop-in-L-at-2", "drop-in"),
        ("drain-y-end-at-2", "drain-y"),
        ("drain-x-L-turned-front-at-2", "drain-x-L"),
        ("skew-B", "skew-B"),
        ("square-R", "square-R"),
        ("hold-B-offset", "hold-B-offset"),
    ],
)
def test_codes_name_the_wish_behind_them(code: str, wish: str) -> None:
    assert wish_of(code) == wish


def test_readings_of_one_edge_share_its_name() -> None:
    assert stem_of("cabinet at the window at 48") == "cabinet at the window"
    assert stem_of("hub") == "hub"
