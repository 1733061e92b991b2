"""From a planned job to its cut list: the room worked by hand, and plans put together by hand on it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from undertile.cutting import CutList, Line, cut_list
from undertile.cutting.lengths import Reach
from undertile.cutting.pieces import layers, strips_of
from undertile.errors import FileError, PlanError
from undertile.framing.plan import FramingPlan, Piece, Recipe
from undertile.job import Rebuild, plan, read_job

F = Fraction
HAND = (Path(__file__).resolve().parents[2] / "examples" / "hand.toml").read_text(encoding="utf-8")
TOP = HAND.replace('heights = ["2", "48", "90"]', 'heights = ["2", "48", "90"]\ntop = "94-1/2"')
HARD = "hardboard 1/8"
EIGHTH = F(1, 8)


def hand(text: str = TOP, more: str = "") -> Rebuild:
    return plan(read_job(text + more))


def with_recipes(rebuild: Rebuild, recipes: Mapping[str, Recipe]) -> Rebuild:
    """The same job with other things done to some studs, and nothing to the rest."""
    old: FramingPlan = rebuild.results["framing"]
    members = [replace(m, recipe=recipes.get(m.name, Recipe())) for m in old.members]
    return replace(rebuild, results={**rebuild.results, "framing": replace(old, members=tuple(members))})


def strips(*runs: tuple[int, int]) -> Recipe:
    pieces = tuple(Piece(HARD, EIGHTH, first, last) for first, last in runs)
    return Recipe(("strip",), pieces=pieces)


def codes(cuts: CutList) -> list[str]:
    return [finding.code for finding in cuts.findings]


def line(cuts: CutList, kind: str) -> Line:
    (found,) = [each for each in cuts.lines if each.kind == kind]
    return found


def test_the_room_worked_by_hand_needs_one_strip_and_six_shims() -> None:
    cuts = cut_list(hand(HAND))
    (stock,) = cuts.stocks
    (board,) = stock.boards
    (strip,) = board.cuts
    # published: convention 8, one strip on B4 at 48; independent: halfway 2-48 and 48-90, 69 - 25
    assert (strip.stud, strip.low, strip.high, strip.length) == ("B4", 25, 69, 44)
    assert board.left == F(96) - 44 - EIGHTH
    assert stock.proved
    assert line(cuts, "flange shim").where == ("L1", "L2", "L3", "R1", "R2", "R3")  # published: convention 8
    assert codes(cuts) == ["stock-length-not-said", "screws-not-counted"]


def test_strips_and_lumber_are_cut_between_the_plates() -> None:
    cuts = cut_list(
        with_recipes(
            hand(),
            {
                "B1": Recipe(("sister",)),
                "B3": Recipe(("sister",)),
                "L1": Recipe(("replace",)),
                "R1": Recipe(("taper",), taper=(F(1, 8), F(3, 8))),
                "B2": strips((0, 2), (1, 2)),
            },
        )
    )
    # independent: 94-1/2 less the plate's 1-1/2; 94-1/2 less 25
    assert line(cuts, "sister") == Line("sister", F(93), 2, ("B1", "B3"))
    assert line(cuts, "new stud") == Line("new stud", F(93), 1, ("L1",))
    assert line(cuts, "taper") == Line("taper", F(93), 1, ("R1",), '1/8" thick at 2, 3/8" at 90')
    lower, upper = cuts.strips("B2")
    assert (lower.length, lower.layer) == (93, 1)
    assert (upper.length, upper.layer) == (F(139, 2), 2)
    assert cuts.stocks[0].opened == 2  # independent: 93 + 69-1/2 > 96


def test_screws_are_counted_by_length_up_each_stud() -> None:
    cuts = cut_list(hand(TOP, '\n[framing.finish]\nboard = "1/2"\n'))
    short, long = (each for each in cuts.lines if each.kind == "board screw")
    # independent: 1/2 + 3/4 = 1-1/4; over a strip of 1/8 1-3/8, the next sold is 1-5/8;
    # from the flange's top at 4 to 94-1/2 every 8: 12 on each of 9 studs, and on B4
    assert (short.length, short.count) == (F(5, 4), 108)
    assert (long.length, long.count, long.where) == (F(13, 8), 12, ("B4",))
    assert codes(cuts) == ["stock-length-not-said"]


def test_channel_is_listed_by_rows() -> None:
    walls = {name: Recipe(("channel",)) for name in ("B1", "B2", "B3", "B4")}
    row = line(cut_list(with_recipes(hand(), walls)), "channel row")
    # published: convention 4.3, rows at most 16 apart; independent: 94-1/2 / 16 up, and one more; as long
    # as the opening
    assert (row.length, row.count, row.where) == (F(241, 4), 7, ("B",))


def test_a_top_plate_nobody_measured_is_asked_for() -> None:
    cuts = cut_list(with_recipes(hand(HAND), {"B1": Recipe(("sister",)), "L2": strips((1, 2))}))
    assert line(cuts, "sister").length is None
    assert cuts.strips("L2")[0].high == 90
    found = [finding for finding in cuts.findings if finding.code == "top-not-measured"]
    assert [finding.where for finding in found] == ["wall B", "wall L"]


def test_a_strip_longer_than_its_stock_is_butted_and_joints_do_not_lie_on_each_other() -> None:
    rebuild = hand(TOP.replace(f'"{HARD}" = {{', f'"{HARD}" = {{ length = "45",'))
    cuts = cut_list(with_recipes(rebuild, {"B2": strips((0, 2), (0, 2))}))
    first = [strip for strip in cuts.strips("B2") if strip.layer == 1]
    second = [strip for strip in cuts.strips("B2") if strip.layer == 2]
    # independent: 93 = 45 + 48, and 48 = 36 + 12
    assert [strip.length for strip in first] == [45, 36, 12]
    assert [strip.length for strip in second] == [12, 36, 45]
    for run in (first, second):
        assert [strip.low for strip in run[1:]] == [strip.high for strip in run[:-1]]
        assert (run[0].low, run[-1].high) == (F(3, 2), F(189, 2))
    (joined,) = [finding for finding in cuts.findings if finding.code == "strip-joined"]
    assert "B2 at 46-1/2 and 82-1/2, B2 at 13-1/2 and 49-1/2" in joined.found
    assert "stock-length-not-said" not in codes(cuts)


def test_the_order_of_the_studs_is_no_matter() -> None:
    rebuild = with_recipes(hand(), {f"B{n}": strips((0, 2), (n % 3, 2)) for n in range(1, 5)})
    old: FramingPlan = rebuild.results["framing"]
    turned = replace(old, members=tuple(reversed(old.members)))
    other = replace(rebuild, results={**rebuild.results, "framing": turned})
    assert cut_list(other).stocks == cut_list(rebuild).stocks


def test_every_strip_of_the_plan_is_on_one_board() -> None:
    rebuild = with_recipes(hand(), {f"L{n}": strips((0, 2), (n - 1, 2), (2, 2)) for n in range(1, 4)})
    cuts = cut_list(rebuild)
    seen = [strip for board in cuts.boards for strip in board.cuts]
    assert len(seen) == len(set(seen)) == 9
    assert [board.number for board in cuts.boards] == list(range(1, len(cuts.boards) + 1))
    for board in cuts.boards:
        taken = sum((strip.length for strip in board.cuts), F(0)) + (len(board.cuts) - 1) * cuts.kerf
        assert taken <= board.length
    assert {strip.layer for strip in cuts.strips("L1")} == {1, 2, 3}


def test_layers_count_what_lies_under_them() -> None:
    pieces = [Piece("a", EIGHTH, 0, 1), Piece("a", EIGHTH, 2, 4), Piece("a", EIGHTH, 1, 2)]
    # independent: the first two butt, the third lies over both
    assert [(p.first, n) for p, n in layers(pieces)] == [(0, 1), (1, 2), (2, 3)]


def test_a_strip_without_room_is_not_cut_but_said() -> None:
    member = hand().results["framing"].members[0]
    member = replace(member, recipe=strips((0, 0)))
    made, without = strips_of(member, Reach((F(1),)), (), lambda name: False, lambda name: F(96), "in")
    assert not made
    assert without == list(member.recipe.pieces)


SAW = """
[framing.saw]
kerf = "{}"
square_end = "{}"
"""


def test_the_saw_is_the_job_s() -> None:
    cuts = cut_list(hand(HAND, SAW.format("3/32", "1/2")))
    assert (cuts.kerf, cuts.square_end) == (F(3, 32), F(1, 2))
    assert cuts.boards[0].left == F(96) - F(1, 2) - 44 - F(3, 32)


def test_a_saw_that_cannot_be_is_refused_with_everything_wrong() -> None:
    with pytest.raises(FileError, match=r"framing\.saw\.square_end: expected 0 or more"):
        hand(HAND, SAW.format("1/8", "-1"))
    with pytest.raises(FileError) as caught:
        cut_list(hand(HAND, SAW.format("2", "0")))
    assert [each.split(" is ")[0] for each in caught.value.problems] == ["framing.saw.kerf"]


def test_stock_that_cannot_be_cut_is_refused() -> None:
    with pytest.raises(FileError, match=r"offcuts.*expected a size of more than 0"):
        cut_list(hand(HAND.replace(f'"{HARD}" = {{', f'"{HARD}" = {{ offcuts = ["-1"],')))


@pytest.mark.parametrize("results", [{}, {"survey": None, "framing": FramingPlan("none")}])
def test_without_a_plan_there_is_nothing_to_cut(results: dict[str, Any]) -> None:
    rebuild = hand(HAND)
    with pytest.raises(PlanError, match="nothing to cut"):
        cut_list(replace(rebuild, results=results))


def test_a_plan_without_strips_cuts_nothing() -> None:
    cuts = cut_list(with_recipes(hand(HAND), {}))
    assert (cuts.stocks, cuts.lines, cuts.boards) == ((), (), ())


def names(cuts: CutList) -> Sequence[str]:
    return [stock.stock for stock in cuts.stocks]


def test_each_stock_is_cut_on_its_own_thin_first() -> None:
    two = Recipe(("strip",), pieces=(Piece(HARD, EIGHTH, 0, 2), Piece("plastic 1/16", F(1, 16), 2, 2)))
    cuts = cut_list(with_recipes(hand(), {"B2": two}))
    assert names(cuts) == ["plastic 1/16", HARD]
    assert all(strip.stock == board.stock for board in cuts.boards for strip in board.cuts)
