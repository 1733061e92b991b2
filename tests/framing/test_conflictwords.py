"""Every kind of thing asked, and every change, in words."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.framing import noplan
from undertile.bench.hand import hand_room
from undertile.framing.conflictwords import Words, cited
from undertile.framing.loosen import Item, items_of
from undertile.framing.problem import Demand, FramingProblem, PlateSpot, StepTerm
from undertile.lengths import Unit


def with_row(
    code: str, wall: str = "L", low: F | None = F(-1, 8), high: F | None = F(1, 8)
) -> FramingProblem:
    row = Demand(code, ((wall, F(16), F(2), F(1)),), low, high, "What is asked", "as the sheet says")
    return replace(hand_room(), demands=(row,))


def words(problem: FramingProblem, name: str, side: str, by: F, unit: Unit = "in") -> str:
    item = next(i for i in items_of(problem) if i.name == name and i.side in (side, "both"))
    return Words(problem, unit).change(item, ((replace(item, side=side), by),))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("code", "side", "said"),
    [
        ("play-16", "low", 'let the play at 16 from the back be 3/32" more'),
        (
            "play-16",
            "high",
            'make the opening at 16 from the back 3/32" wider, or the pan that much narrower',
        ),
        ("drop-in-L", "high", 'make the opening 3/32" wider, or the pan that much narrower'),
        ("skew-L", "low", 'let the far end of wall L come 3/32" further back over the pan'),
        ("skew-L", "high", 'let the far end of wall L come 3/32" further in over the pan'),
        ("square", "high", 'let the diagonals differ by 3/32" more'),
        ("square-R", "low", 'let the corner of walls B and R be 3/32" more out of square'),
        ("drain-y", "low", 'give the outlet 3/32" more float'),
        ("own-rule", "low", 'let What is asked be 3/32" less'),
    ],
)
def test_what_frees_a_demand(code: str, side: str, said: str) -> None:
    assert words(with_row(code), code, side, F(3, 32)) == said


@pytest.mark.parametrize(
    ("code", "side", "said"),
    [
        ("hold-L-offset", "low", 'put wall L 3/32" further back than held, or let go of it'),
        ("hold-L-offset", "high", 'put wall L 3/32" further in than held, or let go of it'),
        ("hold-L-skew", "low", 'let the skew of wall L be 3/32" less than held, or let go of it'),
        ("hold-L-skew", "high", 'let the skew of wall L be 3/32" more than held, or let go of it'),
    ],
)
def test_what_frees_a_held_plane(code: str, side: str, said: str) -> None:
    assert words(with_row(code, low=F(0), high=F(0)), code, side, F(3, 32)) == said


TERMS = {
    "edge": StepTerm("cabinet at 48", "L", F(36), F(48), F(0), F(1, 32), None),
    "hub": StepTerm("hub", "L", F(24), F(14), F(1, 4), None, None),
    "valve": StepTerm("valve", "L", F(15), F(44), F(0), F(1), None),
    "bought": StepTerm("valve", "L", F(15), F(44), F(0), F(1), F(25), F(3), F(-1, 2), F(3, 2)),
    "other": StepTerm("rail", "L", F(15), F(44), F(0), F(1), F(25), F(3), F(-1, 2), F(3, 2)),
}


@pytest.mark.parametrize(
    ("term", "side", "said"),
    [
        ("edge", "low", 'let the new face lie 1/16" further behind cabinet'),
        ("edge", "high", 'let the new face lie 1/16" further proud of cabinet'),
        ("hub", "low", 'let hub stand 1/16" further proud of the studs, or allow it to be moved'),
        ("valve", "low", 'set the valve 1/16" further back, or allow it to be re-blocked'),
        ("valve", "high", 'set the valve 1/16" further out, or allow it to be re-blocked'),
        ("bought", "high", 'set the valve 1/16" further out'),
        ("other", "low", 'move rail 1/16" further back than it reaches'),
    ],
)
def test_what_frees_a_thing_in_the_wall(term: str, side: str, said: str) -> None:
    problem = noplan.with_terms(hand_room(), "L", TERMS[term])
    assert words(problem, TERMS[term].name, side, F(1, 16)) == said


def test_a_bound_that_can_be_bought_is_told_where_it_ends() -> None:
    problem = noplan.with_terms(hand_room(), "L", TERMS["bought"])
    low, high = (i for i in items_of(problem) if i.kind == "term")
    told = Words(problem, "in")
    assert told.line(low) == 'valve, wall L: the plane at -1/2" or further in [convention 4]'
    assert told.line(high) == 'valve, wall L: the plane at +1-1/2" or further back [convention 4]'


def test_a_reason_that_gives_the_bound_is_not_said_twice() -> None:
    why = 'hub stands at +5/16", so the plane there is at +1/4" or further in'
    problem = noplan.with_terms(hand_room(), "L", replace(TERMS["hub"], why=why))
    (item,) = (i for i in items_of(problem) if i.kind == "term")
    assert Words(problem, "in").line(item) == f"hub, wall L: {why} [convention 4]"


@pytest.mark.parametrize(
    ("walls", "axis", "by", "said"),
    [
        ("LBR", "x", F(1, 4), 'move the drain 1/4" toward the right wall'),
        ("LBR", "x", F(-1, 4), 'move the drain 1/4" toward the left wall'),
        ("LB", "x", F(1, 4), 'move the drain 1/4" away from the left wall'),
        ("LBR", "y", F(1, 4), 'move the drain 1/4" out from the back wall'),
        ("LBR", "y", F(-1, 4), 'move the drain 1/4" toward the back wall'),
    ],
)
def test_where_a_drain_is_moved(walls: str, axis: str, by: F, said: str) -> None:
    problem = with_row("drain-x-L-near")
    problem = replace(problem, walls=tuple(w for w in problem.walls if w.name in walls))
    item = next(i for i in items_of(problem) if i.kind == "demand")
    move = Item("move drain", "", 0, axis)  # type: ignore[arg-type]
    assert Words(problem, "in").change(item, ((move, by),)) == said


def test_plates_leans_and_the_straightedge() -> None:
    problem = hand_room(flatness=((F(24), F(1, 16)), (F(120), F(1, 8))))
    plate = PlateSpot("b1", F(16), F(1), F(3, 8), F(1, 4), True)
    leans = {"L": (F(0),), "B": (F(-1, 768), F(0), F(1, 768)), "R": (F(1, 1536),)}
    walls = tuple(
        replace(w, leans=leans[w.name], plates=(plate,) if w.name == "B" else ()) for w in problem.walls
    )
    problem = replace(problem, walls=walls)
    told = Words(problem, "in")
    lines = {(i.kind, i.wall): told.line(i) for i in items_of(problem) if i.kind != "demand"}
    assert lines["plate", "B"] == (
        'plate b1, wall B at 1: it stands at +3/8", and its edge is cut at most 1/4" [convention 4]'
    )
    # published: UFGS, studs for thin-set tile
    ufgs = "[UFGS: studs for thin-set tile, 1/8 in in 8 ft; edition not checked]"
    assert lines["lean", "L"] == f"Wall L plumb: no lean is offered {ufgs}"
    assert lines["lean", "B"] == f'Wall B plumb: it leans at most 1/8" in 8 ft either way {ufgs}'
    assert lines["lean", "R"] == f'Wall R held at a lean of +1/16" in 8 ft {ufgs}'
    assert lines["straightedge", ""].startswith(
        'the straightedge rule: at most 1/16" under 24" and 1/8" under 120" [ANSI A108.02'
    )
    cut = next(i for i in items_of(problem) if i.kind == "plate")
    assert told.change(cut, ((cut, F(1, 8)),)) == 'cut 1/8" more off plate b1 of wall B'
    lean = next(i for i in items_of(problem) if i.kind == "lean" and i.wall == "L")
    assert told.walls_of(lean) == ("L",)
    rule = next(i for i in items_of(problem) if i.kind == "straightedge")
    assert told.walls_of(rule) == ("B", "L", "R")


def test_several_studs_are_moved_together() -> None:
    problem = noplan.steel_room()
    studs = [i for i in items_of(problem) if i.kind == "stud" and i.wall == "L"]
    told = Words(problem, "in")
    moved = tuple((replace(i, kind="move stud"), F(1, 8)) for i in studs)
    assert told.change(studs[0], moved) == 'bring L1, L2 and L3 out 1/8", or allow them to be replaced'
    gone = tuple((i, None) for i in studs[:2])
    assert told.change(studs[0], gone) == (
        'allow L1 and L2 to be replaced by straight ones; bringing them back or out as read, up to 3", '
        "is not enough"
    )


def test_a_job_in_millimetres_is_told_in_millimetres() -> None:
    assert words(with_row("play-16"), "play-16", "low", F(5, 127), "mm").endswith("be 1 mm more")


def test_a_side_is_named_where_a_demand_has_two() -> None:
    def titles(code: str) -> list[str]:
        problem = with_row(code)
        return [Words(problem, "in").title(i) for i in items_of(problem) if i.kind == "demand"]

    assert set(titles("play-16")) == {"What is asked, wide enough", "What is asked, not too wide"}
    assert titles("square")[0] != titles("square")[1]
    one = with_row("drop-in-L", low=None)
    assert [Words(one, "in").title(i) for i in items_of(one) if i.kind == "demand"] == ["What is asked"]


def test_sources_are_cited() -> None:
    assert cited("convention-4") == "convention 4"
    assert cited("practice-pan-fit").endswith("(common practice, no source)")
