"""The order a round is read in."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from undertile.wood.walk import walk


def test_as_the_last_round_was_walked() -> None:
    assert walk(["a", "b", "c", "d"], [["c", "a", "d", "b"], ["a", "b", "c", "d"]]) == ("c", "a", "d", "b")


def test_what_the_last_round_passed_over_is_on_the_way_and_not_at_the_end() -> None:
    """By hand: b came after a on the round before, e is written after d and was never read."""
    written = ["a", "b", "c", "d", "e"]
    assert walk(written, [["d", "a", "c"], ["a", "b", "c", "d"]]) == ("d", "e", "a", "b", "c")


def test_without_a_round_as_it_is_written() -> None:
    assert walk(["a", "b", "c"], []) == ("a", "b", "c")


def test_what_is_cut_out_since_is_left_out() -> None:
    assert walk(["a", "c"], [["c", "b", "a"]]) == ("c", "a")


NAMES = st.lists(st.sampled_from("abcdefgh"), unique=True)


@given(NAMES, st.lists(st.lists(st.sampled_from("abcdefghxyz")), max_size=4))
def test_every_point_stands_once_and_the_newest_order_holds(
    written: list[str], rounds: list[list[str]]
) -> None:
    found = walk(written, rounds)
    assert sorted(found) == sorted(written)
    newest = [name for name in dict.fromkeys(rounds[0]) if name in written] if rounds else written
    assert [name for name in found if name in newest] == newest
