"""What must hold of every cut list."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.cast import sound, tried, witnessed
from undertile.cutting.packing import BoardKind, Need, used
from undertile.cutting.solve import keep_longest, pack

BOARD = st.integers(40, 100)
OFFCUTS = st.lists(st.integers(8, 90), max_size=3)


def kinds_of(board: int, offcuts: list[int]) -> tuple[BoardKind, ...]:
    return (
        BoardKind(board, 1),
        *(BoardKind(each, 0, offcuts.count(each)) for each in sorted(set(offcuts))),
    )


@st.composite
def jobs(draw: st.DrawFn, most: int = 14) -> tuple[int, list[int], list[int]]:
    board = draw(BOARD)
    return board, draw(OFFCUTS), draw(st.lists(st.integers(5, board), min_size=1, max_size=most))


@given(jobs())
def test_every_piece_is_cut_once_and_no_board_over_filled(job: tuple[int, list[int], list[int]]) -> None:
    board, offcuts, pieces = job
    kinds = kinds_of(board, offcuts)
    answer = pack(kinds, pieces)
    sound(kinds, pieces, answer)
    witnessed(kinds, pieces, answer)


@settings(max_examples=80)
@given(jobs(6))
def test_no_assignment_opens_fewer(job: tuple[int, list[int], list[int]]) -> None:
    board, offcuts, pieces = job
    kinds = kinds_of(board, offcuts)
    answer = pack(kinds, pieces)
    assert answer.cost == answer.least == tried(kinds, pieces)  # independent: every assignment


@settings(max_examples=60)
@given(jobs(6), st.integers(40, 100), st.integers(1, 5), st.integers(1, 5))
def test_no_assignment_of_two_lengths_is_cheaper(
    job: tuple[int, list[int], list[int]], other: int, cost: int, dearer: int
) -> None:
    board, offcuts, pieces = job
    kinds = (BoardKind(board, cost), *kinds_of(board, offcuts)[1:], BoardKind(other, dearer))
    answer = pack(kinds, pieces)
    sound(kinds, pieces, answer)
    assert answer.cost == answer.least == tried(kinds, pieces)  # independent: every assignment


@given(jobs(), st.integers(8, 90))
def test_an_offcut_more_never_opens_more_boards(job: tuple[int, list[int], list[int]], more: int) -> None:
    board, offcuts, pieces = job
    assert pack(kinds_of(board, [*offcuts, more]), pieces).cost <= pack(kinds_of(board, offcuts), pieces).cost


@given(jobs())
def test_a_piece_less_never_opens_more_boards(job: tuple[int, list[int], list[int]]) -> None:
    board, offcuts, pieces = job
    kinds = kinds_of(board, offcuts)
    assert pack(kinds, pieces[1:]).cost <= pack(kinds, pieces).cost


@given(jobs(), st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_is_no_matter(job: tuple[int, list[int], list[int]], rng: object) -> None:
    board, offcuts, pieces = job
    kinds = kinds_of(board, offcuts)
    other = list(pieces)
    rng.shuffle(other)  # type: ignore[attr-defined]
    assert pack(kinds, other) == pack(kinds, pieces)


@given(jobs(), st.integers(2, 9))
def test_finer_units_cut_the_same(job: tuple[int, list[int], list[int]], by: int) -> None:
    board, offcuts, pieces = job
    finer = pack(kinds_of(board * by, [each * by for each in offcuts]), [each * by for each in pieces])
    assert finer.cost == pack(kinds_of(board, offcuts), pieces).cost


@settings(max_examples=60)
@given(jobs(6))
def test_the_longest_leftover_is_kept_at_the_same_cost(job: tuple[int, list[int], list[int]]) -> None:
    board, offcuts, pieces = job
    kinds = kinds_of(board, offcuts)
    first = pack(kinds, pieces)
    answer, sure = keep_longest(kinds, pieces, first)
    sound(kinds, pieces, answer)
    assert answer.cost == first.cost
    need = Need.of(kinds, pieces)
    left = [kinds[load.kind].size - used(load, need) for load in answer.loads if kinds[load.kind].cost]
    if sure and left:
        longest = max(left)
        # independent: with one board shortened by more than that and paid already, the rest costs more
        if longest + 1 < board:
            shorter = BoardKind(board - longest - 1, 0, 1)
            assert tried((*kinds, shorter), pieces) > first.cost - 1
