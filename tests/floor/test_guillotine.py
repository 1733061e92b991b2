"""Guillotine cuts: published sets, a general solver on random jobs, and every layout cut up again."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.depth import deep
from undertile.bench.floor import by_cpsat, by_hand, patch_job
from undertile.floor.guillotine import Packed, Sets, Sheet, Size, pack, sets_of


def rows(text: str) -> list[tuple[int, ...]]:
    return [tuple(map(int, each.split())) for each in text.split(";")]


def best(sets: Sets, values: Sequence[int]) -> int:
    return max(sum(n * v for n, v in zip(counts, values, strict=True)) for counts in sets.builds)


CGCUT1 = rows("8 4 2 66; 3 7 1 35; 8 2 3 24; 3 4 5 17; 3 3 2 11; 3 2 2 8; 2 1 1 2")
"""Published: Christofides and Whitlock 1977 (OR-Library cgcut1): length, width, most, value; 15 x 10."""
GCUT1 = rows("167 184; 114 118; 167 152; 83 140; 70 86; 143 166; 120 160; 66 148; 87 141; 69 165")
GCUT5 = rows("198 205; 179 155; 364 236; 272 147; 352 145; 343 245; 132 174; 164 250; 282 356; 342 151")
"""Published: Beasley 1985 (OR-Library gcut1 and gcut5), as many as fit, value = area."""
NGCUT = {
    1: ((10, 10), "3 7 2 35; 8 2 2 40; 10 2 1 27; 5 4 3 23; 2 9 2 43", 164),
    2: ((10, 10), "1 10 3 28; 5 3 2 40; 9 3 3 63; 6 1 3 13; 3 8 3 31; 4 1 1 10; 7 3 2 44", 230),
    4: ((15, 10), "15 2 2 34; 7 3 1 27; 9 1 1 14; 8 3 1 71; 12 2 2 61", 268),
    5: ((15, 10), "10 3 2 34; 9 3 1 48; 12 2 3 72; 11 3 1 91; 12 3 3 37; 11 1 3 15; 2 10 1 36", 358),
}
"""Published: Beasley 1985 (OR-Library ngcut), cuts of any kind; optimum. A bound from above on ours."""


def test_cgcut1() -> None:
    sets = sets_of((15, 10), [(w, h) for w, h, *_ in CGCUT1], [most for _, _, most, _ in CGCUT1])
    assert best(sets, [value for *_, value in CGCUT1]) == 244  # published


@pytest.mark.parametrize(("panel", "pieces", "optimum"), [(250, GCUT1, 56460), (500, GCUT5, 246000)])
def test_gcut(panel: int, pieces: list[tuple[int, ...]], optimum: int) -> None:
    sizes = [(w, h) for w, h in pieces]
    most = [(panel // w) * (panel // h) for w, h in sizes]
    found = best(sets_of((panel, panel), sizes, most), [w * h for w, h in sizes])
    assert found == optimum  # published


@pytest.mark.parametrize("number", NGCUT)
def test_ngcut_is_reached_by_guillotine_cuts_and_not_passed(number: int) -> None:
    panel, text, optimum = NGCUT[number]
    pieces = rows(text)
    sets = sets_of(panel, [(w, h) for w, h, *_ in pieces], [most for _, _, most, _ in pieces])
    assert best(sets, [value for *_, value in pieces]) == optimum  # published: none can be more


def cuts_apart(size: Size, placed: list[tuple[int, int, int, int]], kerf: int) -> bool:
    """Whether edge-to-edge cuts of a kerf free every rectangle (x, y, w, h): by trying every cut."""
    if len(placed) == 1:
        x, y, w, h = placed[0]
        return x >= 0 and y >= 0 and x + w <= size[0] and y + h <= size[1]
    for axis in (0, 1):
        for at in sorted({p[axis] + p[axis + 2] for p in placed}):
            one = [p for p in placed if p[axis] + p[axis + 2] <= at]
            rest = [p for p in placed if p[axis] >= at + kerf]
            if one and rest and len(one) + len(rest) == len(placed):
                low = (at, size[1]) if axis == 0 else (size[0], at)
                moved = [(*p[:axis], p[axis] - at - kerf, *p[axis + 1 :]) for p in rest]
                high = (size[0] - at - kerf, size[1]) if axis == 0 else (size[0], size[1] - at - kerf)
                if cuts_apart(low, one, kerf) and cuts_apart(high, moved, kerf):  # type: ignore[arg-type]
                    return True
    return False


def sound(answer: Packed, sheets: Sequence[Sheet], pieces: Sequence[tuple[Size, int]], kerf: int) -> None:
    """Every piece once, on panels that are there, freed by edge-to-edge cuts."""
    cut = [0] * len(pieces)
    used = [0] * len(sheets)
    for each in answer.cuts:
        used[each.sheet] += 1
        placed = [(x, y, *pieces[kind][0]) for kind, x, y in each.places]
        for kind, _, _ in each.places:
            cut[kind] += 1
        assert cuts_apart(sheets[each.sheet].size, placed, kerf)
    assert [c + left for c, left in zip(cut, answer.left, strict=True)] == [many for _, many in pieces]
    assert all(sheet.count is None or n <= sheet.count for n, sheet in zip(used, sheets, strict=True))
    assert answer.cost == sum(n * sheet.cost for n, sheet in zip(used, sheets, strict=True))


def test_random_jobs_come_to_what_a_general_solver_says() -> None:
    """Where no panel holds more than four pieces every packing is a guillotine one: the two are equal."""
    closed = 0
    for seed in range(deep(12, 30)):
        sheets, pieces, kerf = patch_job(seed, 310)  # two fit along a panel, two across: four at most
        answer = pack(sheets, pieces, kerf)
        sound(answer, sheets, pieces, kerf)
        assert answer.proved
        wanted = by_cpsat(sheets, pieces, kerf)
        assert answer.cost >= wanted.bound  # independent: CP-SAT
        if wanted.closed:
            closed += 1
            assert answer.cost == wanted.answer, seed
    assert closed >= deep(9, 24)  # or nothing was compared


def test_small_pieces_are_packed_soundly_and_never_below_the_solver_s_bound() -> None:
    for seed in range(12):
        sheets, pieces, kerf = patch_job(100 + seed, 120)
        answer = pack(sheets, pieces, kerf)
        sound(answer, sheets, pieces, kerf)
        assert answer.cost >= by_cpsat(sheets, pieces, kerf).bound


def test_a_kerf_is_what_no_longer_fits() -> None:
    # independent: two of 48 x 48 fill a 96 x 48 only with a saw that takes nothing
    sheet, two = [Sheet((96, 48), 1)], [((48, 48), 2)]
    assert pack(sheet, two).cost == 1
    assert pack(sheet, two, kerf=1).cost == 2


def test_pieces_are_not_turned_and_too_large_ones_are_left() -> None:
    answer = pack([Sheet((96, 48), 1)], [((48, 90), 1), ((60, 40), 1)])
    assert answer.left == (1, 0)
    assert answer.cost == 1


def test_a_pinwheel_cannot_be_cut_from_edge_to_edge() -> None:
    # independent: five pieces round a square are the smallest packing that no saw frees
    pieces = [((2, 1), 2), ((1, 2), 2), ((1, 1), 1)]
    assert not cuts_apart((3, 3), [(0, 0, 2, 1), (2, 0, 1, 2), (1, 2, 2, 1), (0, 1, 1, 2), (1, 1, 1, 1)], 0)
    assert pack([Sheet((3, 3), 1)], pieces).cost == 2


def test_offcuts_are_used_first_and_only_once() -> None:
    sheets = [Sheet((50, 48), 0, 1), Sheet((96, 48), 1)]
    answer = pack(sheets, [((50, 40), 2)])
    assert answer.cost == 1
    assert [cut.sheet for cut in answer.cuts].count(0) == 1


def test_a_stock_that_does_not_do_leaves_pieces_and_says_it_is_not_proved() -> None:
    answer = pack([Sheet((96, 48), 1, 1)], [((60, 40), 3)])
    assert answer.left == (2,)
    assert not answer.proved


def test_the_rule_of_hand_never_needs_fewer_panels() -> None:
    # independent: a packing of its own; by hand: 60 x 30 and 60 x 15 are two rips, 50 x 40 another panel
    sheets = [Sheet((96, 48), 1)]
    assert by_hand(sheets, [((60, 30), 1), ((60, 15), 1), ((50, 40), 1)], 1).answer == 2
    for seed in range(60):
        sheets, pieces, kerf = patch_job(seed)
        assert pack(sheets, pieces, kerf).cost <= (by_hand(sheets, pieces, kerf).answer or 0)
