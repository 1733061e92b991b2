"""The order of work as one list: what comes before the pan, what after, each once."""

from __future__ import annotations

from fractions import Fraction as F

from tests.pan.cast import convention_8, inch, pan_facts, plan, survey
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Charge, FramingPlan, Piece, Plane, Recipe
from undertile.framing.words import WorkStep
from undertile.pan.consequences import PanResult, consequences
from undertile.pan.facts import PanFacts
from undertile.pan.order import FROM_PAN, KINDS

LATE = Piece("ply", F(1, 4), 1, 2)
LOW = Piece("hardboard", F(1, 8), 0, 2)


def verified(*walls: str) -> tuple[Charge, ...]:
    return tuple(Charge(wall, "verify", F(6), F(0)) for wall in walls)


def room(
    done: dict[str, tuple[Recipe, tuple[F, ...]]],
    *,
    charges: tuple[Charge, ...] = (),
    framing: FramingFacts | None = None,
) -> PanResult:
    read = survey({})
    ahead = {side: Plane(side, F(1, 16), F(0), F(0)) for side in "LR"}
    made = plan(read, ahead, done, charges=charges)
    return consequences(pan_facts(), read, framing or FramingFacts(), made)


def step(result: PanResult, kind: str) -> WorkStep:
    (found,) = (each for each in result.steps if each.kind == kind)
    return found


def kinds(result: PanResult) -> list[str]:
    return list(dict.fromkeys(each.kind for each in result.steps))


def lapped() -> PanResult:
    """L1 gets a strip that can go on before the pan and one that waits, L2 one that waits; B2 is planed."""
    both = Recipe(("strip",), pieces=(LOW, LATE), flange_shim=True)
    late = Recipe(("strip",), pieces=(LATE,), flange_shim=True)
    planed = Recipe(("plane",), passes=1, depth=(F(0), F(1, 16), F(0)))
    return room(
        {
            "L1": (both, (F(1, 8), F(3, 8), F(3, 8))),
            "L2": (late, (F(0), F(1, 4), F(1, 4))),
            "B2": (planed, (F(0), F(-1, 16), F(0))),
        },
        charges=verified("L", "B", "R"),
        framing=FramingFacts.model_validate({"finish": {"board": inch("1/2")}}),
    )


def test_walls_are_verified_before_the_pan_and_what_waited_after_it():
    # published: convention 3.5: what stands proud of the flange plane and can wait goes on after the pan;
    # jobmap 11 before 14: faces are verified before the pan stands in front of them
    result = lapped()
    assert kinds(result) == [
        "line",
        "plane",
        "build out",
        "verify",
        "dry fit",
        "set",
        "shim",
        "fasten",
        "after pan",
        "verify again",
        "board screws",
    ]
    assert step(result, "verify").walls == ("L", "B", "R")
    assert step(result, "verify").studs == ("L1", "L2", "B2")
    assert step(result, "verify again").studs == ("L1", "L2")


def test_strips_that_wait_are_left_out_of_the_strips_before():
    result = lapped()
    assert step(result, "build out").studs == ("L1",)
    assert "Leave off at L1 what is marked (after the pan)" in step(result, "build out").text
    assert step(result, "after pan").studs == ("L1", "L2")
    assert 'L2 ply from 48" to 90"' in step(result, "after pan").text


def test_a_strip_at_one_height_is_said_at_it():
    spot = Recipe(("strip",), pieces=(Piece("ply", F(1, 4), 2, 2),))
    text = step(room({"L2": (spot, (F(0), F(0), F(1, 4)))}), "after pan").text
    assert text.endswith('L2 ply at 90".')


def test_every_step_is_of_a_known_kind_in_their_order_and_stands_once():
    built = convention_8()
    by_hand = consequences(built.pan, built.survey, built.framing, built.plan)
    for result in (lapped(), room({}), by_hand):
        ranks = [KINDS.index(each.kind) for each in result.steps]
        assert ranks == sorted(ranks)
        texts = [each.text for each in result.steps]
        assert len(set(texts)) == len(texts)
        assert result.order_of_work == tuple(s.text for s in result.steps if s.kind in FROM_PAN)


def test_what_the_pan_words_better_is_not_said_twice():
    paid = Charge("B", "put a backer at corner B-L", F(10), F(3))
    framing = FramingFacts.model_validate(
        {"corners": {"B-L": {"wood": inch(1)}}, "finish": {"board": inch("1/2")}}
    )
    result = room({}, charges=(paid,), framing=framing)
    assert [each.text for each in result.steps if "acker at corner B-L" in each.text] == [
        "Put a backer at corner B-L before the board: wood flush with wall B's studs."
    ]


def test_a_plate_comes_before_the_strips_and_the_board():
    # independent: a wire 1-1/4 behind the face, a 2 in screw through 1/2 board goes 1-1/2 in
    framing = FramingFacts.model_validate(
        {
            "studs": {
                "B2": {"services": {"lamp": {"height": inch(48), "clear": inch("5/4"), "what": "wire"}}}
            },
            "finish": {"board": inch("1/2"), "screw": inch(2)},
        }
    )
    strip = Recipe(("strip",), pieces=(LOW,))
    result = room({"B1": (strip, (F(1, 8),) * 3)}, framing=framing)
    assert kinds(result)[:3] == ["line", "nail plate", "build out"]
    assert step(result, "nail plate").studs == ("B2",)


def test_steel_is_re_set_and_wood_replaced():
    result = room(
        {
            "B1": (Recipe(("replace",), reset=True), (F(0),) * 3),
            "B2": (Recipe(("replace",)), (F(0),) * 3),
        }
    )
    assert step(result, "re-set").studs == ("B1",)
    assert step(result, "replace").studs == ("B2",)
    assert "eplace" not in step(result, "re-set").text


def test_no_plan_has_no_order_and_no_pan_no_fit():
    read = survey({})
    assert consequences(pan_facts(), read, FramingFacts(), FramingPlan("none")).steps == ()
    shown = consequences(PanFacts(), read, FramingFacts(), plan(read, charges=verified("B")))
    assert kinds(shown) == ["line", "verify"]


def test_every_line_is_hung_again_by_what_was_read_and_marked_before_the_first_cut():
    # independent, by hand: nominal 6, every stud of the back wall on it but B4, which stands 1/8 back
    line = step(lapped(), "line")
    assert line.walls == ("L", "B", "R")
    assert line.data["B"] == '6" (B1 at 2), 6" (B4 at 2), 6" (B1 at 90)'
    assert "Before the first cut" in line.text
