"""How far to open: by hand on small lines, and that a probe offered really moves the line either way."""

from __future__ import annotations

from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.wood.extent import PAST, CutLine, Line, Spot, State, cut_lines, next_probe, patches


def line(states: dict[int, State], low: F | None = None, high: F | None = None, key: str = "plate B") -> Line:
    spots = tuple(Spot(F(at), state, f"p{at}") for at, state in sorted(states.items()))
    return Line(key, spots, low, high)


def high(states: dict[int, State], end: F | None = None) -> CutLine:
    return cut_lines([line(states, None, end)])[1]


@pytest.mark.parametrize(
    ("states", "at"),
    # independent: by hand, 12 in past the last bad and at or past a dry one
    [
        ({0: "bad", 12: "good"}, 12),
        ({0: "bad", 12: "bad", 24: "good"}, 24),
        ({0: "bad", 6: "good"}, 12),
        ({0: "bad", 24: "good", 36: "good"}, 24),
        ({0: "bad", 24: "unknown", 36: "good"}, 36),
        ({0: "good", 12: "bad", 24: "good", 36: "bad", 48: "good"}, 48),
    ],
)
def test_where_to_cut(states: dict[int, State], at: int) -> None:
    assert high(states).at == at


def test_nothing_bad_opens_nothing() -> None:
    assert cut_lines([line({0: "good", 12: "good"})]) == ()


def test_no_dry_point_past_the_bad_one_is_not_known_and_the_probe_is_a_foot_on() -> None:
    found = high({0: "good", 12: "bad"})
    assert found.at is None
    assert found.probe is not None
    assert (found.probe.at, found.probe.if_dry, found.probe.if_wet) == (24, 24, None)


def test_the_low_side_is_the_mirror_of_the_high_one() -> None:
    states: dict[int, State] = {0: "good", 30: "bad", 70: "good"}
    low, up = cut_lines([line(states)])
    mirrored = cut_lines([line({-at: state for at, state in states.items()})])
    assert (low.at, up.at) == (0, 70)
    assert [None if c.at is None else -c.at for c in mirrored] == [up.at, low.at]


def test_at_the_end_of_the_wood_there_is_nothing_more_to_open() -> None:
    found = high({0: "good", 50: "bad"}, F(60))
    assert (found.at, found.end, found.probe) == (60, True, None)


def test_probing_each_foot_settles_it() -> None:
    assert high({0: "bad", 12: "good"}).probe is None


@given(
    st.dictionaries(st.integers(0, 120), st.sampled_from(["bad", "good", "unknown"]), min_size=2, max_size=12)
)
def test_a_probe_offered_moves_the_line_either_way(states: dict[int, State]) -> None:
    # independent: answer the probe both ways and cut again
    for index, cut in enumerate(cut_lines([line(states)])):
        if cut.probe is None:
            continue
        at = int(cut.probe.at)
        assert at not in states or states[at] == "unknown"
        dry = cut_lines([line({**states, at: "good"})])[index]
        wet = cut_lines([line({**states, at: "bad"})])[index]
        assert (dry.at, wet.at) == (cut.probe.if_dry, cut.probe.if_wet)
        if cut.at is None:
            assert dry.at is not None
            continue
        assert dry.at is not None
        assert wet.at is not None
        sign = 1 if cut.side == "high" else -1
        assert sign * dry.at < sign * cut.at < sign * wet.at


@given(
    st.dictionaries(
        st.integers(0, 120), st.sampled_from(["bad", "good", "unknown"]), min_size=2, max_size=12
    ),
    st.integers(0, 120),
)
def test_one_more_bad_point_never_opens_less(states: dict[int, State], at: int) -> None:
    before = {(c.line, c.side): c.at for c in cut_lines([line(states)])}
    after = {(c.line, c.side): c.at for c in cut_lines([line({**states, at: "bad"})])}
    for key, value in before.items():
        later = after[key]
        if later is None:
            continue
        assert value is not None or states.get(at) != "good"
        if value is not None:
            assert later >= value if key[1] == "high" else later <= value


def test_an_open_end_is_probed_before_a_line_is_refined() -> None:
    cuts = cut_lines(
        [line({0: "bad", 40: "good"}, F(0), key="plate L"), line({0: "bad"}, F(0), key="plate R")]
    )
    first = next_probe(cuts)
    assert first is not None
    assert first.line == "plate R"


def test_a_patch_is_the_rectangle_over_its_rows_and_columns() -> None:
    rows = [
        line({0: "bad", 12: "bad", 24: "good"}, F(0), None, "subfloor 1, y 0"),
        line({0: "bad", 12: "good"}, F(0), None, "subfloor 1, y 12"),
        line({0: "bad", 12: "bad", 24: "good"}, F(0), None, "subfloor 1, x 0"),
        line({0: "bad", 12: "good"}, F(0), None, "subfloor 1, x 12"),
    ]
    bad = {1: [(F(0), F(0)), (F(12), F(0)), (F(0), F(12))]}
    (found,) = patches(cut_lines(rows), bad)
    # independent: a foot past 12 both ways, and to both walls
    assert (found.left, found.right, found.back, found.front) == (0, 24, 0, 24)
    assert found.bounded
    assert PAST == 12
