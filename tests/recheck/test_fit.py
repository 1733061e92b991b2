"""Play and square after the work: by hand."""

from __future__ import annotations

from fractions import Fraction

from tests.recheck.cast import Again, example, example_again, set_reading
from undertile.findings import Check, Verdict


def play(table: Again, depth: str) -> Check:
    return next(c for c in example().judged(table).room if c.code == f"again-play-{depth}")


def test_play_is_the_width_less_what_lies_behind_the_planes_less_the_pan() -> None:
    """independent: 60-1/4 measured; the studs of L and R lie 1/16 behind their planes at the floor; the pan
    is 60: 1/4 - 1/16 - 1/16 = 1/8, the upper end of the window."""
    found = play(example_again(), "16")
    assert (found.value, found.margin, found.verdict) == ('1/8"', '0"', Verdict.PASS)
    assert found.within_uncertainty  # the sticks are good to 1/32, and there is no margin


def test_a_tight_width_fails_and_one_not_measured_again_is_not_shown() -> None:
    table = example_again()
    table["widths"]["middle"]["reading"] = "60-1/8"  # independent: 1/8 - 1/8 = 0 of play, 1/16 is wanted
    assert (play(table, "16").verdict, play(table, "16").margin) == (Verdict.FAIL, '-1/16"')
    assert play(table, "32").verdict is Verdict.NOT_SHOWN
    assert "pinch sticks at 32" in play(table, "32").next_step


def test_a_proud_stud_counts_in_the_width_as_it_is() -> None:
    """independent: R2 1/16 proud at the floor and L 1/16 behind: 1/4 - 1/16 = 3/16 of width at 18, and at 16,
    14/16 of the way from R1 (1/16 behind): proud 3/64, so 1/4 - 1/16 = 3/16 again: over 1/8."""
    table = set_reading(example_again(), "R2", "2", "5-7/8")
    assert play(table, "16").verdict is Verdict.FAIL


def test_diagonals_are_those_measured_again() -> None:
    """independent: 68-1/8 and 68-5/16 differ 3/16, more than 1/8."""
    table = example_again()
    table["diagonals"] = {
        "one": {"corner": "BL", "depth": "32", "height": "2", "reading": "68-1/8"},
        "two": {"corner": "BR", "depth": "32", "height": "2", "reading": "68-5/16"},
    }
    found = next(c for c in example().judged(table).room if c.code == "again-diagonals")
    assert (found.value, found.verdict) == ('differ 3/16"', Verdict.FAIL)


def test_diagonals_of_the_planes_stand_in_only_while_the_faces_keep_to_them() -> None:
    good = example().judged(example_again()).room[-1]
    assert good.verdict is Verdict.PASS
    assert good.because[0].startswith("not measured again")
    out = example().judged(set_reading(example_again(), "R2", "2", "6-3/16")).room[-1]
    assert (out.code, out.verdict) == ("again-diagonals", Verdict.NOT_SHOWN)


def test_the_opening_at_the_front_is_as_surveyed_where_it_was_not_measured_again() -> None:
    """independent: the gap of the side lines is 48-1/4 and each hangs 6 off: 60-1/4."""
    found = play(example_again(), "32")
    assert found.because[0].startswith('opening 60-1/4"')
    assert example().results["survey"].frame.opening(Fraction(32)) == Fraction(241, 4)
