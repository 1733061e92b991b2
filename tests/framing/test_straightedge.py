"""The widest gap under a straightedge, against the published profile, dense sliding and symmetry."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from undertile.framing.straightedge import straightedge, violated_row, widest_gap

F = Fraction
# independent: a made profile (x in, z in), gaps worked by hand
PUBLISHED_X = [F(0), F(24), F(48), F(72), F(96)]
PUBLISHED_Z = [F(0), F(10, 100), F(2, 100), F(14, 100), F(5, 100)]


def dense(positions: list[Fraction], values: list[Fraction], length: Fraction, places: int = 300) -> float:
    """independent: slide the straightedge in small steps, take the hull of what it covers each time."""
    x, v = np.array([float(p) for p in positions]), np.array([float(z) for z in values])
    room = max(x[0], x[-1] - float(length))
    starts = np.unique(np.concatenate([np.linspace(x[0], room, places), [p for p in x if p <= room]]))
    widest = 0.0
    for start in starts:
        end = min(start + float(length), x[-1])
        knots = np.array([start, *[p for p in x if start < p < end], end])
        face = np.interp(knots, x, v)
        hull: list[int] = []
        for i in range(len(knots)):
            while len(hull) > 1:
                a, b = hull[-2], hull[-1]
                if (face[b] - face[a]) * (knots[i] - knots[b]) <= (face[i] - face[b]) * (knots[b] - knots[a]):
                    hull.pop()
                else:
                    break
            hull.append(i)
        widest = max(widest, float(np.max(np.interp(knots, knots[hull], face[hull]) - face)))
    return widest


@st.composite
def profiles(draw: st.DrawFn) -> tuple[list[Fraction], list[Fraction], Fraction]:
    count = draw(st.integers(3, 9))
    steps = draw(st.lists(st.integers(4, 60), min_size=count, max_size=count))
    positions = [F(sum(steps[: i + 1]), 2) for i in range(count)]
    values = [F(n, 32) for n in draw(st.lists(st.integers(-8, 8), min_size=count, max_size=count))]
    return positions, values, F(draw(st.integers(8, 260)), 2)


def test_published_profile_under_a_straightedge_longer_than_it() -> None:
    worst = widest_gap(PUBLISHED_X, PUBLISHED_Z, F(120))
    assert worst is not None
    assert worst.gap == F(1, 10)  # independent by hand: hull 0.12 at 48 less 0.02
    assert worst.at == 2  # published: at x = 48
    # published: the hull there is the chord (24,.10)-(72,.14)
    assert worst.placement == (F(24), F(72))
    assert worst.rests == ((1, F(1, 2)), (3, F(1, 2)))  # independent: 48 is half way


def test_published_profile_under_a_24_in_straightedge() -> None:
    worst = widest_gap(PUBLISHED_X, PUBLISHED_Z, F(24))
    assert worst is not None
    assert worst.gap == F(1, 20)  # independent by hand: window 36..60, rests 0.06 and 0.08, less 0.02
    assert worst.placement == (F(36), F(60))  # published: window 36..60


def test_the_worst_place_may_lie_between_readings_on_both_sides() -> None:
    # independent, by hand: a V with slopes -1/100 and +3/100 about x = 20, straightedge 16. Left rest a,
    # right rest a + 16: height over 20 is ((a-4)(20-a) + 3(20-a)(a-4))/1600 = (a-4)(20-a)/400,
    # widest half way, a = 12: 64/400 = 0.16.
    worst = widest_gap([F(0), F(20), F(40)], [F(20, 100), F(0), F(60, 100)], F(16))
    assert worst is not None
    assert (worst.gap, worst.placement) == (F(16, 100), (F(12), F(28)))


def test_an_uneven_v_has_its_worst_place_off_the_middle_and_irregular_spacing_is_exact() -> None:
    # independent, by hand: left face 1 + x/100 up to x = 10 then down to 0 at 20, right face x-20 /50.
    # pieces 10..20: 1.1 - 0.11 (x-10); the vertex of the quadratic is found by calculus below.
    x = [F(0), F(10), F(20), F(50)]
    v = [F(1), F(11, 10), F(0), F(6, 10)]
    length = F(18)
    worst = widest_gap(x, v, length)
    assert worst is not None
    # g(a) = ((a-2) (1.1 - 0.11 (a-10)) + (20-a) (a-2) / 50) / 18 with left rest a in 10..20
    # = (a-2)(20-a)(0.11 + 0.02)/18, widest at a = 11: 81 * 0.13 / 18 = 0.585
    assert worst.gap == F(585, 1000)
    assert worst.placement == (F(11), F(29))


def test_a_hump_and_a_straight_face_show_no_gap() -> None:
    assert widest_gap([F(0), F(24), F(48)], [F(0), F(1, 8), F(0)], F(48)).gap == 0  # type: ignore[union-attr]
    flat = widest_gap([F(0), F(24), F(48)], [F(0), F(1, 8), F(1, 4)], F(24))
    assert flat is not None
    assert (flat.gap, flat.at, flat.rests) == (0, None, ())  # independent: a straight line has no dip


def test_two_readings_show_nothing() -> None:
    assert widest_gap([F(0), F(24)], [F(0), F(1)], F(24)) is None
    assert violated_row([F(0), F(24)], [F(0), F(1)], F(24), F(0)) is None


@pytest.mark.parametrize(
    ("positions", "values", "length", "said"),
    [
        ([F(0), F(0), F(1)], [F(0)] * 3, F(1), "positions must rise"),
        ([F(0), F(1), F(2)], [F(0)] * 2, F(1), "3 positions need as many values; 2 came"),
        ([F(0), F(1), F(2)], [F(0)] * 3, F(0), "a straightedge has a length over 0"),
    ],
)
def test_what_is_no_profile_is_refused(
    positions: list[Fraction], values: list[Fraction], length: Fraction, said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        widest_gap(positions, values, length)


@settings(max_examples=120, deadline=None)
@given(profiles())
def test_no_slid_straightedge_shows_a_wider_gap_and_a_dense_slide_comes_near(
    case: tuple[list[Fraction], list[Fraction], Fraction],
) -> None:
    positions, values, length = case
    worst = widest_gap(positions, values, length)
    assert worst is not None
    found = dense(positions, values, length)
    assert found <= float(worst.gap) + 1e-9
    # independent: between two tried places the gap changes by at most the steepest slope times the step
    steepest = max(
        abs(float((v - u) / (b - a)))
        for (a, b), (u, v) in zip(pairwise(positions), pairwise(values), strict=True)
    )
    step = max(float(positions[-1] - positions[0] - length), 0.0) / 299
    assert float(worst.gap) - found <= 2 * steepest * step + 1e-9


@settings(max_examples=80, deadline=None)
@given(profiles(), st.integers(-9, 9), st.integers(-9, 9))
def test_a_tilted_or_shifted_reference_line_changes_nothing(
    case: tuple[list[Fraction], list[Fraction], Fraction], shift: int, tilt: int
) -> None:
    positions, values, length = case
    moved = [v + F(shift, 16) + F(tilt, 700) * x for x, v in zip(positions, values, strict=True)]
    one, other = widest_gap(positions, values, length), widest_gap(positions, moved, length)
    assert one is not None
    assert other is not None
    assert one.gap == other.gap  # independent: the rows add up to 0 and have no moment


@settings(max_examples=80, deadline=None)
@given(profiles())
def test_a_mirrored_profile_has_the_same_gap(case: tuple[list[Fraction], list[Fraction], Fraction]) -> None:
    positions, values, length = case
    one = widest_gap(positions, values, length)
    other = widest_gap([-x for x in reversed(positions)], list(reversed(values)), length)
    assert one is not None
    assert other is not None
    assert one.gap == other.gap  # independent: symmetry


@settings(max_examples=60, deadline=None)
@given(profiles(), st.integers(1, 40))
def test_a_longer_straightedge_never_shows_less(
    case: tuple[list[Fraction], list[Fraction], Fraction], more: int
) -> None:
    positions, values, length = case
    short, long = widest_gap(positions, values, length), widest_gap(positions, values, length + F(more, 3))
    assert short is not None
    assert long is not None
    assert short.gap <= long.gap  # independent: every short placement lies in a long one


@settings(max_examples=80, deadline=None)
@given(profiles(), st.integers(0, 6))
def test_the_row_of_a_failing_profile_cuts_it_off_and_names_one_dip(
    case: tuple[list[Fraction], list[Fraction], Fraction], sixty_fourths: int
) -> None:
    positions, values, length = case
    limit = F(sixty_fourths, 64)
    worst = widest_gap(positions, values, length)
    assert worst is not None
    row = violated_row(positions, values, length, limit)
    if worst.gap <= limit:
        assert row is None
        return
    assert row is not None
    assert sum(w * values[j] for j, w in row.weights) == worst.gap
    assert sum(w for _, w in row.weights) == 0
    assert sum(w * positions[j] for j, w in row.weights) == 0  # a row sees no tilt
    assert [j for j, w in row.weights if w < 0] == [worst.at]


@settings(max_examples=80, deadline=None)
@given(profiles(), profiles(), st.integers(0, 6))
def test_a_row_found_on_one_profile_holds_on_every_profile_that_passes(
    case: tuple[list[Fraction], list[Fraction], Fraction],
    other: tuple[list[Fraction], list[Fraction], Fraction],
    sixty_fourths: int,
) -> None:
    positions, values, length = case
    row = violated_row(positions, values, length, F(sixty_fourths, 64))
    if row is None:
        return
    again = [other[1][i % len(other[1])] for i in range(len(positions))]
    worst = widest_gap(positions, again, length)
    assert worst is not None
    assert sum(w * again[j] for j, w in row.weights) <= worst.gap


@settings(max_examples=120, deadline=None)
@given(profiles(), st.integers(0, 6))
def test_the_float_screen_never_misses_a_reading_that_fails(
    case: tuple[list[Fraction], list[Fraction], Fraction], sixty_fourths: int
) -> None:
    positions, values, length = case
    edge = straightedge(tuple(positions), length)
    limit = F(sixty_fourths, 64)
    seen = edge.suspects([float(v) for v in values], float(limit))
    for at in range(1, len(positions) - 1):
        gap = edge.worst_at(at, values)
        if gap is not None and gap.gap > limit:
            assert at in seen


def test_a_gap_of_exactly_the_limit_passes() -> None:
    # independent, by hand: 1/8 dip half way under 48 is exactly 1/16 under a 24 in straightedge
    positions, values = [F(0), F(24), F(48)], [F(1, 8), F(0), F(1, 8)]
    assert violated_row(positions, values, F(24), F(1, 16)) is None
    assert violated_row(positions, values, F(24), F(1, 16) - F(1, 10**12)) is not None
