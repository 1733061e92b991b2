"""Guillotine cuts: published sets, a general solver on random jobs, and every layout cut up again."""

from __future__ import annotations

import random
from collections.abc import Sequence

import pytest
from ortools.sat.python import cp_model

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


def job(seed: int, least: int) -> tuple[list[Sheet], list[tuple[Size, int]], int]:
    """Pieces of a patch, panels of 96 x 48 in eighths, an offcut or two."""
    rng = random.Random(seed)
    pieces: dict[Size, int] = {}
    for _ in range(rng.randint(3, 6)):
        size = (rng.randint(least, 700), rng.randint(160, 384))
        pieces[size] = pieces.get(size, 0) + rng.randint(1, 2)
    offcuts = [Sheet((rng.randint(200, 600), rng.randint(160, 384)), 0, 1) for _ in range(rng.randint(0, 2))]
    return [*offcuts, Sheet((768, 384), 1)], sorted(pieces.items(), reverse=True), rng.choice((0, 1, 2))


def by_solver(sheets: Sequence[Sheet], pieces: Sequence[tuple[Size, int]], kerf: int) -> tuple[int, bool]:
    """Fewest panels by CP-SAT with cuts of any kind: pieces and panels a kerf larger must not overlap."""
    model = cp_model.CpModel()
    items = [size for size, many in pieces for _ in range(many)]
    bins = [sheet for sheet in sheets for _ in range(sheet.count if sheet.count is not None else len(items))]
    opened = [model.new_bool_var("") for _ in bins]
    inside = [[model.new_bool_var("") for _ in bins] for _ in items]
    for row in inside:
        model.add_exactly_one(row)
    for b, sheet in enumerate(bins):
        along, across = [], []
        for i, (w, h) in enumerate(items):
            wide, high = sheet.size[0] + kerf, sheet.size[1] + kerf
            if w + kerf > wide or h + kerf > high:
                model.add(inside[i][b] == 0)
                continue
            x, y = model.new_int_var(0, wide - w - kerf, ""), model.new_int_var(0, high - h - kerf, "")
            along.append(model.new_optional_fixed_size_interval_var(x, w + kerf, inside[i][b], ""))
            across.append(model.new_optional_fixed_size_interval_var(y, h + kerf, inside[i][b], ""))
            model.add_implication(inside[i][b], opened[b])
        model.add_no_overlap_2d(along, across)
        if b and bins[b - 1] is sheet:
            model.add_implication(opened[b], opened[b - 1])
    model.minimize(sum(o * sheet.cost for o, sheet in zip(opened, bins, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 4
    status = solver.solve(model)
    return round(solver.best_objective_bound), status == cp_model.OPTIMAL


def test_random_jobs_come_to_what_a_general_solver_says() -> None:
    """Where no panel holds more than four pieces every packing is a guillotine one: the two are equal."""
    closed = 0
    for seed in range(30):
        sheets, pieces, kerf = job(seed, 310)  # two fit along a panel, two across: four at most
        answer = pack(sheets, pieces, kerf)
        sound(answer, sheets, pieces, kerf)
        assert answer.proved
        bound, proved = by_solver(sheets, pieces, kerf)
        assert answer.cost >= bound  # independent: CP-SAT
        if proved:
            closed += 1
            assert answer.cost == bound, seed
    assert closed >= 24  # or nothing was compared


def test_small_pieces_are_packed_soundly_and_never_below_the_solver_s_bound() -> None:
    for seed in range(12):
        sheets, pieces, kerf = job(100 + seed, 120)
        answer = pack(sheets, pieces, kerf)
        sound(answer, sheets, pieces, kerf)
        assert answer.cost >= by_solver(sheets, pieces, kerf)[0]


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
