"""One stock cut: kerf, square end, offcuts, prices, what is on the van. Each worked by hand."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.cast import tried
from undertile.cutting import solve
from undertile.cutting.boards import cut_stock, on_van
from undertile.cutting.packing import BoardKind
from undertile.cutting.result import StockCuts, Strip
from undertile.framing.facts import SoldLength, Stock
from undertile.lengths import Length, parse_length

F = Fraction
SIXTEENTHS = st.integers(16, 1400)
EIGHTH, NOTHING = F(1, 8), F(0)


def long(text: str) -> Length:
    return parse_length(text)


def strip(text: str, stud: str = "B1") -> Strip:
    length = parse_length(text).inches
    return Strip("B", stud, "ply", length, F(0), length)


def cut(
    *texts: str, stock: Stock | None = None, kerf: Fraction = EIGHTH, square: Fraction = NOTHING
) -> StockCuts:
    made, problems = on_van("ply", stock or Stock(thickness=long("1/8")), kerf, square)
    assert made is not None, problems
    return cut_stock(made, [strip(text, f"B{n}") for n, text in enumerate(texts, 1)], 1)


def lengths(done: StockCuts) -> list[list[str]]:
    return [[str(c.length) for c in board.cuts] for board in done.boards]


def test_two_halves_do_not_come_out_of_one_board_because_of_the_kerf() -> None:
    assert cut('48"', '48"').opened == 2  # independent: 48 + 48 + 1/8 > 96
    assert cut('48"', '48"', kerf=F(0)).opened == 1
    just = cut('47-15/16"', '47-15/16"')  # independent: 95-7/8 + 1/8 = 96
    assert just.opened == 1
    assert just.boards[0].left == 0


def test_the_end_squared_off_is_not_there_to_cut() -> None:
    done = cut('47-15/16"', '47-15/16"', square=F(1, 4))
    assert done.opened == 2
    assert [board.square_end for board in done.boards] == [F(1, 4), F(1, 4)]
    # independent: 96 - 1/4 - 47-15/16 - 1/8
    assert done.boards[0].left == F(96) - F(1, 4) - F(767, 16) - EIGHTH


def test_an_offcut_is_used_up_first_and_keeps_a_long_piece_of_the_board() -> None:
    stock = Stock(thickness=long("1/8"), offcuts=(long('50"'),))
    done = cut('48"', '47-7/8"', stock=stock)
    assert [board.source for board in done.boards] == ["offcut", "stock"]
    assert (done.opened, done.least) == (1, 1)
    # independent: one piece in the offcut, the other leaves 96 - 47-7/8 - 1/8
    assert done.longest_left == 48
    assert "No other of as many leaves a longer piece" in done.proof


def test_offcuts_alone_open_nothing() -> None:
    stock = Stock(thickness=long("1/8"), offcuts=(long('50"'), long('30"'), long('30"')))
    done = cut('30"', '29"', '20"', '29-3/4"', stock=stock)
    assert (done.opened, done.least, done.proved) == (0, 0, True)
    assert done.proof == "Offcuts do: no full length is opened."
    # independent: 29-3/4 + 20 + 1/8 = 49-7/8 in the longest
    assert done.longest_left == 0


def test_offcuts_that_save_no_board_are_no_harm() -> None:
    stock = Stock(thickness=long("1/8"), offcuts=(long('5"'),))
    done = cut('90"', stock=stock)
    assert [board.source for board in done.boards] == ["stock"]


def test_pieces_are_cut_longest_first_and_each_once() -> None:
    done = cut('30"', '20"', '25"', '15"')
    assert lengths(done) == [["30", "25", "20", "15"]]
    assert {c.stud for c in done.boards[0].cuts} == {"B1", "B2", "B3", "B4"}
    assert done.boards[0].left == F(96) - 90 - 4 * EIGHTH


def test_what_is_not_on_the_van_is_brought() -> None:
    stock = Stock(thickness=long("1/8"), on_van=2)
    done = cut('90"', '90"', '90"', stock=stock)
    assert [board.source for board in done.boards] == ["van", "van", "shop"]
    assert done.to_bring == 1
    assert cut('90"', stock=Stock(thickness=long("1/8"), on_van=0)).to_bring == 1
    assert cut('90"', stock=Stock(thickness=long("1/8"))).to_bring == 0  # not counted is not none


def two_lengths(price: str, other: str, on: int | None = None) -> Stock:
    return Stock(
        thickness=long("1/8"),
        price=Decimal(price),
        on_van=on,
        other_lengths={"ten": SoldLength(length=long('120"'), price=Decimal(other))},
    )


def test_the_cheaper_length_is_taken_where_prices_differ() -> None:
    # independent: 59 + 59 + 1/8 < 120, one each from 96: 2 x 1.20 against 4 x 1.00
    cheap = cut('59"', '59"', '59"', '59"', stock=two_lengths("1.00", "1.20"))
    assert (cheap.opened, cheap.dollars, cheap.least_dollars, cheap.least) == (2, F(12, 5), F(12, 5), None)
    # independent: 2 x 2.10 against 4 x 1.00
    dear = cut('59"', '59"', '59"', '59"', stock=two_lengths("1.00", "2.10"))
    assert (dear.opened, dear.dollars, dear.proved) == (4, F(4), True)


def test_boards_are_counted_where_a_price_is_missing_or_all_are_one() -> None:
    for stock in (two_lengths("0", "5.00"), two_lengths("2.00", "2.00")):
        done = cut('59"', '59"', '59"', '59"', stock=stock)
        assert (done.opened, done.least, done.dollars) == (2, 2, None)


def test_of_lengths_at_one_price_what_is_on_the_van_is_taken() -> None:
    stock = Stock(
        thickness=long("1/8"),
        on_van=0,
        other_lengths={"ten": SoldLength(length=long('120"'), on_van=1)},
    )
    done = cut('90"', '80"', stock=stock)
    assert [(board.length, board.source) for board in done.boards] == [(120, "van"), (96, "shop")]


def test_a_piece_longer_than_one_length_comes_from_the_other() -> None:
    done = cut('110"', '90"', stock=two_lengths("1.00", "1.50"))
    assert sorted(board.length for board in done.boards) == [96, 120]


def test_lengths_in_mm_and_inches_together_stay_exact() -> None:
    stock = Stock(thickness=long("1/8"), length=long("2400 mm"))
    done = cut("1198.4 mm", "1198.4 mm", stock=stock)
    assert done.opened == 1  # independent: 2 x 1198.4 + 3.175 = 2399.975
    assert cut("1198.5 mm", "1198.5 mm", stock=stock).opened == 2  # independent: 2400.175
    assert done.boards[0].left == 0  # what is left is no longer than a kerf


def test_what_cannot_be_a_board_is_said_line_by_line() -> None:
    stock = Stock(
        thickness=long("1/8"),
        offcuts=(long("60'"),),
        other_lengths={"odd": SoldLength(length=long("70'"), price=Decimal("1e-9"))},
    )
    made, problems = on_van("ply", stock, EIGHTH, F(0))
    assert made is None
    assert len(problems) == 2
    assert problems[0].startswith("framing.stock.ply.other_lengths.odd.price")
    assert "offcuts has" in problems[1]


def test_lengths_not_said_are_eight_feet_or_a_card() -> None:
    made, _ = on_van("ply", Stock(thickness=long("1/8")), EIGHTH, F(0))
    card, _ = on_van("card", Stock(thickness=long("1/16"), card=True), EIGHTH, F(0))
    assert made is not None
    assert card is not None
    assert (made.longest, made.assumed) == (96, True)
    assert (card.longest, card.assumed) == (45, True)  # common practice, no source, card 45 long


@settings(max_examples=60)
@given(
    st.lists(SIXTEENTHS, min_size=1, max_size=6),
    st.lists(SIXTEENTHS, max_size=3),
    st.integers(0, 6),
    st.integers(0, 40),
)
def test_no_board_gives_more_than_it_has(
    pieces: list[int], offcuts: list[int], kerf: int, square: int
) -> None:
    stock = Stock(thickness=long("1/8"), offcuts=tuple(Length(F(each, 16)) for each in offcuts))
    made, _ = on_van("ply", stock, F(kerf, 32), F(square, 16))
    assert made is not None
    strips = [Strip("B", f"B{n}", "ply", F(each, 16), F(0), F(each, 16)) for n, each in enumerate(pieces, 1)]
    done = cut_stock(made, strips, 1)
    assert sorted(c.stud for b in done.boards for c in b.cuts) == sorted(each.stud for each in strips)
    taken_up = [b.length for b in done.boards if b.source == "offcut"]
    assert all(taken_up.count(each) <= made.offcuts.count(each) for each in taken_up)
    for board in done.boards:
        there = board.length - board.square_end
        taken = sum((c.length for c in board.cuts), F(0))
        assert taken + (len(board.cuts) - 1) * F(kerf, 32) <= there
        assert board.left == max(there - taken - len(board.cuts) * F(kerf, 32), 0)
    # independent: every assignment, in thirty-seconds, a kerf added to each piece and to each board
    kinds = [BoardKind(3072 - 2 * square + kerf, 1)]
    kinds += [BoardKind(2 * each + kerf, 0, offcuts.count(each)) for each in set(offcuts)]
    assert done.opened == done.least == tried(kinds, [2 * each + kerf for each in pieces])


def test_what_is_not_proved_says_how_little_could_do(monkeypatch: pytest.MonkeyPatch) -> None:
    # after Fieldhouse (test_published.GAP): six boards, five by the weights alone
    monkeypatch.setattr(solve.pack, "__kwdefaults__", {"nodes": 0})
    texts = ['44"'] * 5 + ['33"'] * 7 + ['12"'] * 17
    stock = Stock(thickness=long("1/8"), length=long('132"'))
    done = cut(*texts, stock=stock, kerf=NOTHING)
    assert (done.opened, done.least, done.proved) == (6, 5, False)
    assert done.proof.startswith("NOT proved least")
