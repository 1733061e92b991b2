"""The patch: cut lines, spans, seams, blocks, screws and the cut list, by hand and on random floors."""

from __future__ import annotations

import random
from fractions import Fraction as F

import pytest

from tests.floor.cast import KNOWN, ask, checks, codes, facts, row, text
from undertile.findings import Verdict
from undertile.floor.outline import breaks, rows
from undertile.floor.patch import Layout, Piece, apart
from undertile.floor.result import FloorResult

PANELS = {"new": {"thickness": "23/32", "stuff": "plywood"}}


def patched(bad: dict, *, joists: dict | None = None, run: str = "out from the back wall", **more: object):
    stuff = KNOWN | {"span": "144"}
    patch = {"bad": bad, "lower": {"thickness": "23/32"}, "panels": PANELS, "width": "60", "depth": "96"}
    return ask(
        facts(all_joists=stuff, joists=joists or row(), joists_run=run, tile="ceramic", patch=patch | more)
    )


def bad(left: str = "20", right: str = "44", back: str = "10", front: str = "34") -> dict:
    return {"wet": {"left": left, "right": right, "back": back, "front": front}}


def only(found: FloorResult) -> Layout:
    assert len(found.layouts) == 1
    return found.layouts[0]


def test_a_patch_worked_by_hand() -> None:
    # independent, by hand: joists at 8, 24, 40, 56, 72. Wet from 20 to 44: the lines go to 8 and 56, three
    # spans. Back and front stay at 10 and 34, blocked. The piece loses 1/16 at every line.
    made = only(patched(bad()))
    assert (made.lower.low.at, made.lower.low.joist) == (8, "J1")
    assert (made.lower.high.at, made.lower.high.joist) == (56, "J4")
    assert (made.lower.near.at, made.lower.far.at) == (10, 34)
    (piece,) = made.pieces
    assert piece.size == (48 - F(1, 8), 24 - F(1, 8))
    # three bays, at the back and at the front: 16 less a joist's 1-1/2
    assert [block.length for block in made.blocks] == [F(29, 2)] * 6
    assert sorted({block.at for block in made.blocks}) == [10, 34]
    assert not made.cleats


def test_its_screws_counted_by_hand() -> None:
    # independent, by hand: rows 23-1/8 long. On the two edge joists 6 apart: 5 each; on the two between 8
    # apart: 4 each. At the back and front between four lines (15-9/16, 16, 15-9/16 apart): 2 in each bay.
    made = only(patched(bad()))
    (screws,) = made.screws
    assert len(screws.places) == 2 * 5 + 2 * 4 + 2 * 3 * 2
    # old floor's edge: 24 in at 6 apart on two joists, 14-1/2 between joists: 2 in each of six blocks
    assert screws.old_edges == 2 * 5 + 6 * 2
    assert len(set(screws.places)) == len(screws.places)
    found = patched(bad())
    assert found.supplies.screws == (("lower", '2"', -(-(30 + 22) * 11 // 10)),)
    assert found.supplies.blocks == ((F(29, 2), 6),)


@pytest.mark.parametrize(
    ("length", "spacing", "count"), [("24", 6, 5), ("24-1/16", 6, 6), ("6", 6, 2), ("5", 6, 2), ("0", 6, 1)]
)
def test_screws_in_a_row(length: str, spacing: int, count: int) -> None:
    # independent: fence posts
    whole, _, rest = length.partition("-")
    assert apart(F(whole) + F(rest or 0), F(spacing)) == count


def test_it_grows_to_two_spans_and_to_16_in() -> None:
    made = only(patched(bad("26", "30", "40", "42")))
    assert (made.lower.low.at, made.lower.high.at) in ((8, 40), (24, 56))  # two spans, one joist more
    assert made.lower.along == 16
    found = patched(bad("26", "30"), joists=row(many=2, first=24))
    assert checks(found)["patch-spans-1"].verdict is Verdict.FAIL


def test_a_sliver_along_a_wall_comes_out_too() -> None:
    # independent: 5 in left along the back wall is less than 6; 6 in stays
    assert only(patched(bad(back="5"))).lower.near.at == 0
    assert only(patched(bad(back="6"))).lower.near.at == 6
    assert only(patched(bad(front="91"))).lower.far.at == 96


def test_the_wall_is_an_edge_where_no_joist_lies_beyond() -> None:
    made = only(patched(bad(left="2", right="20")))
    assert made.lower.low.kind == "wall"
    assert [cleat.beside for cleat in made.cleats] == ["the wall"]  # the first joist is 8 away
    near = only(patched(bad(left="1", right="20"), joists=row(first=3)))
    assert not near.cleats  # 3 in may hang over


def test_a_thin_joist_and_a_wish_both_give_cleats() -> None:
    wished = only(patched(bad(), edges="cleats"))
    assert [each.beside for each in wished.cleats] == ["joist J1", "joist J4"]
    assert wished.lower.low.at == 8 + F(3, 4)  # beside the joist, not on it
    joists = row(J1={"width": "1"}, J4={"width": "1"})
    thin = only(patched(bad(), joists=joists))
    assert {each.beside for each in thin.cleats} <= {"joist J1", "joist J4"}
    assert thin.cleats  # independent: half of 1 less half a gap is 7/16, under 1/2


def test_no_edge_is_fastened_to_a_soft_joist() -> None:
    soft = row(J4={"soft": {"a": {"start": "20", "length": "20", "depth": "1"}}})
    made = only(patched(bad(), joists=soft))
    assert made.lower.high.joist == ""  # J4 at 56 is soft, J5 lies past the wall: the wall at 60
    assert made.lower.high.at == 60


def test_joists_along_the_back_wall_turn_the_room() -> None:
    # independent: the same floor with x and y exchanged
    one = only(patched(bad("20", "44", "10", "34")))
    other = only(
        patched(
            {"wet": {"left": "10", "right": "34", "back": "20", "front": "44"}},
            run="along the back wall",
            width="96",
            depth="60",
        )
    )
    assert one == other


def test_stretches_that_meet_are_one_patch_and_others_stay_apart() -> None:
    both = bad("20", "30") | {"b": {"left": "40", "right": "44", "back": "20", "front": "30"}}
    assert only(patched(both)).names == ("wet", "b")
    far = bad("20", "30", "8", "20") | {"b": {"left": "20", "right": "30", "back": "70", "front": "80"}}
    assert [each.names for each in patched(far).layouts] == [("wet",), ("b",)]


def test_a_second_layer_is_cut_back_past_the_first_and_off_the_joists() -> None:
    found = patched(bad(), upper={"thickness": "19/32"}, panels=PANELS | {"top": {"thickness": "19/32"}})
    made = only(found)
    assert made.upper is not None
    for low, up in ((made.lower.low, made.upper.low), (made.lower.high, made.upper.high)):
        assert up.kind == "wall" or abs(up.at - low.at) >= 6
    for edge in (made.upper.low, made.upper.high):
        if edge.kind != "wall":
            assert all(abs(edge.at - at) >= F(3, 4) + 1 for at in (8, 24, 40, 56, 72))
    assert made.upper.near.at == 0  # 10 less 6 leaves 4 in, a sliver
    assert made.upper.far.at == 40
    assert checks(found)["patch-seams-1"].verdict is Verdict.PASS
    assert {cut.layer for cut in found.cut_lists} == {"lower", "upper"}
    # independent: 23/32 and 19/32 are 1-5/16 thick; a screw of 1-1/4 ends in the first layer
    assert found.supplies.screws[1][:2] == ("upper", '1-1/4"')


def test_rows_of_panels() -> None:
    gap = F(1, 8)
    assert rows(F(48), F(48), gap) == ()
    assert rows(F(96), F(48), gap) == (48 + gap,)
    assert rows(F(60), F(48), gap) == (44,)  # independent: the second row must be 16
    seams = rows(F(120), F(48), gap, taken=(48 + gap, 96 + 2 * gap), off=F(6))
    assert seams is not None
    assert all(abs(a - b) >= 6 for a in seams for b in (48 + gap, 96 + 2 * gap))


def test_panel_ends_fall_on_joists_two_spans_apart_and_are_staggered() -> None:
    joists = [F(at) for at in range(0, 176, 16)]
    first = breaks(F(0), F(160), F(96), joists, joists)
    assert first is not None
    assert len(first) == 1  # independent: 160 in of 96 in panels
    second = breaks(F(0), F(160), F(96), joists, joists, first)
    assert second is not None
    assert not set(first) & set(second)
    assert breaks(F(0), F(48), F(40), joists[:4], joists[:4]) is None  # one span would be left over


@pytest.mark.parametrize(
    ("old", "new", "verdict", "said"),
    [
        ("23/32", "23/32", "pass", "flush"),
        ("3/4", "23/32", "pass", '1/32" low'),
        ("11/16", "23/32", "pass", '1/32" proud'),
        ("3/4", "11/16", "fail", '1/16" low'),
        ("5/8", "23/32", "fail", '3/32" proud'),
    ],
)
def test_the_new_panel_is_matched_to_the_old_by_calipers(old: str, new: str, verdict: str, said: str) -> None:
    found = patched(bad(), lower={"thickness": old}, panels={"new": {"thickness": new}})
    check = checks(found)["patch-flush-lower"]
    assert (check.verdict.value, check.value) == (verdict, said)
    assert verdict == "pass" or check.next_step


def test_the_nearest_panel_is_taken_and_nothing_nominal_stands_in() -> None:
    panels = {"a": {"thickness": "5/8"}, "b": {"thickness": "3/4"}, "c": {"thickness": "23/32"}}
    assert patched(bad(), panels=panels).cut_lists[0].panel == "c"
    found = patched(bad(), lower={}, panels={})
    assert checks(found)["patch-flush-lower"].verdict is Verdict.NOT_SHOWN
    assert found.supplies.screws[0][1] == ""  # no thickness, no length


def test_a_bad_stretch_inside_out_is_one_line_and_the_others_are_laid_out() -> None:
    found = patched(bad() | {"b": {"left": "44", "right": "20", "back": "70", "front": "80"}})
    assert codes(found).count("patch-inside-out") == 1
    assert only(found).names == ("wet",)


def test_panels_on_the_van_are_counted() -> None:
    few = patched(
        bad("2", "55", front="90"), panels={"new": {"thickness": "23/32", "on_van": 1, "price": "48.50"}}
    )
    (cuts,) = few.cut_lists
    assert (cuts.whole, cuts.to_buy, cuts.dollars, cuts.proved) == (2, 1, 97, True)
    assert "patch-panels-short" in codes(few)


def inside(piece: Piece, joists: list[F]) -> int:
    return sum(piece.low - F(1) <= at <= piece.high + F(1) for at in joists)


@pytest.mark.parametrize("seed", range(40))
def test_random_floors_are_covered_once_and_every_edge_is_held(seed: int) -> None:
    # independent: areas added up, supports looked for from the drawing's point of view
    rng = random.Random(seed)
    many, step = rng.randint(5, 11), rng.choice((12, 16, 16, 24))
    joists = row(first=rng.randint(0, 12), apart=str(step), many=many)
    places = [F(each["at"]) for each in joists.values()]
    end = places[-1] + 2
    x = sorted(rng.sample(range(1, int(end) - 1), 2))
    y = sorted(rng.sample(range(1, 110), 2))
    two = rng.random() < 0.5
    more: dict = {"upper": {"thickness": "1/2"}} if two else {}
    found = patched(
        {"a": {"left": str(x[0]), "right": str(x[1]), "back": str(y[0]), "front": str(y[1])}},
        joists=joists,
        width=text(end),
        depth="120",
        **more,
    )
    made = only(found)
    low = made.lower
    assert low.low.at <= x[0]
    assert low.high.at >= x[1]
    assert low.near.at <= y[0] or low.near.at == 0
    assert low.far.at >= y[1]
    for layer, out in (("lower", low), ("upper", made.upper)):
        if out is None:
            continue
        pieces = [each for each in made.pieces if each.layer == layer]
        area = sum((p.high - p.low + F(1, 8)) * (p.far - p.near + F(1, 8)) for p in pieces)
        walls = {"low": out.low, "high": out.high, "near": out.near, "far": out.far}
        across = out.across + F(1, 16) * -sum(walls[k].kind == "wall" for k in ("low", "high"))
        along = out.along + F(1, 16) * -sum(walls[k].kind == "wall" for k in ("near", "far"))
        assert area == across * along
        for p in pieces:
            assert p.size[0] <= 96
            assert p.size[1] <= 48
    if low.low.kind == "joist" and low.high.kind == "joist":
        assert all(inside(p, places) >= 3 for p in made.pieces if p.layer == "lower")
    cut = [placed.piece for each in found.cut_lists for panel in each.cuts for placed in panel.placed]
    assert sorted(cut) == sorted(p.name for p in made.pieces)
    for screws in made.screws:
        for u, v in screws.places:
            holders = [
                p
                for p in made.pieces
                if p.layer == screws.layer and p.low < u < p.high and p.near < v < p.far
            ]
            assert len(holders) == 1, "a screw stands in one piece"


def test_the_moisture_readings_set_the_patch_where_nobody_has() -> None:
    from types import SimpleNamespace

    from undertile.floor.run import floor
    from undertile.wood.extent import Patch

    def asked(wet: Patch, **entered: object) -> FloorResult:
        patch = {"lower": {"thickness": "23/32"}, "panels": PANELS, "width": "60", "depth": "96"} | entered
        its = facts(all_joists=KNOWN, joists=row(), joists_run="out from the back wall", patch=patch)
        water = SimpleNamespace(patches=(wet,), cuts=(), width=None)
        return floor({"floor": its, "unit": "in"}, {"wood": water})

    wet = Patch(1, F(20), F(44), F(10), F(34))
    same, by_hand = asked(wet), patched(bad())
    assert only(same).names == ("wet, layer 1",)
    assert only(same).pieces == only(by_hand).pieces  # independent: entered by hand
    unbounded = asked(Patch(1, F(20), None, F(10), F(34)))
    assert unbounded.layouts == ()
    assert "patch-extent-open" in codes(unbounded)
    assert "patch-short-of-wet" in codes(asked(wet, bad=bad(right="40")))
    assert "patch-short-of-wet" not in codes(asked(wet, bad=bad()))


def last_bay(
    *ats: str, upper: bool = False, tile: str = "ceramic", thick: str = "23/32", **more: object
) -> FloorResult:
    """A floor 60 wide, bad from 30 to 55: the patch reaches the wall at 60."""
    patch = {"bad": bad("30", "55", "10", "24"), "lower": {"thickness": thick, "stuff": "plywood"}}
    patch |= {"panels": {"new": {"thickness": thick, "stuff": "plywood"}}, "width": "60", "depth": "96"}
    second = {"second": {"what": "plywood", "thickness": "15/32"}} if upper else {}
    joists = {f"J{i}": {"at": at} for i, at in enumerate(ats, 1)}
    out = "out from the back wall"
    loads = {"on_top": second} if second else {}
    return ask(
        facts(all_joists=KNOWN, joists=joists, joists_run=out, tile=tile, patch=patch | more, loads=loads)
    )


@pytest.mark.parametrize("upper", [False, True])
def test_a_bay_without_a_joist_is_no_pass(upper: bool) -> None:
    # independent, by hand: joists at 4, 16, 28; the cleat's middle is 60 less 3/4, 31-1/4 from the last joist
    found = last_bay("4", "16", "28", upper=upper)
    for code in ("panel-thickness", "panel-point"):
        check = checks(found)[code]
        assert check.verdict is Verdict.NOT_SHOWN
        assert 'between 28" and 60"' in check.next_step
    # the joists that were missing, entered
    whole = last_bay("4", "16", "28", "40", "52", upper=upper)
    assert checks(whole)["panel-thickness"].verdict is Verdict.PASS
    if upper:  # independent: joists 12 apart are closer than those of a floor that a manual calls proven
        assert checks(whole)["panel-point"].verdict is Verdict.PASS


def test_a_last_bay_that_the_panel_may_span_is_judged_by_its_own_width() -> None:
    # independent, by hand: the last joist at 36, its cleat's middle at 59-1/4: 23-1/4, under 24 in for 23/32
    found = checks(last_bay("4", "20", "36"))
    assert found["panel-thickness"].verdict is Verdict.PASS
    assert "23-1/4" in found["panel-thickness"].limit
    assert found["panel-point"].verdict is not Verdict.PASS  # one layer over 23-1/4 under tile
    thin = checks(last_bay("4", "20", "36", thick="19/32"))  # published: 19/32 to 20 in
    assert thin["panel-thickness"].verdict is Verdict.NOT_SHOWN


def test_a_second_layer_does_not_span_what_the_first_cannot() -> None:
    # published: IRC table R503.2.1.1(1), 7/16 (32/16) over joists 16 apart; 23/32 over 24
    for thick, between, verdict in (
        ("7/16", "16", Verdict.PASS),
        ("7/16", "77/4", Verdict.FAIL),
        ("23/32", "24", Verdict.PASS),
        ("23/32", "32", Verdict.FAIL),
    ):
        loads = {"on_top": {"second": {"what": "plywood", "thickness": "15/32"}}}
        stuff = {"thickness": thick, "stuff": "plywood"}
        found = ask(
            facts(
                all_joists=KNOWN,
                joists=row(apart=between),
                joists_run="out from the back wall",
                tile="ceramic",
                patch={"lower": stuff},
                loads=loads,
            )
        )
        assert checks(found)["panel-thickness"].verdict is verdict, (thick, between)


def test_the_bay_at_the_wall_is_blocked_like_the_rest() -> None:
    # independent, by hand: from the last joist's face, 36-3/4, to the cleat's, 58-1/2: 21-3/4, back and front
    made = only(last_bay("4", "20", "36"))
    assert [each.length for each in made.blocks if "the wall" in each.between] == [F(87, 4)] * 2
    near = only(patched(bad(left="2", right="20"), joists=row(first=5)))  # 2-3/4 clear: it may hang over
    assert [cleat.beside for cleat in near.cleats] == ["the wall"]
    assert not [each for each in near.blocks if "the wall" in each.between]
