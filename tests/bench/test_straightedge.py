"""The referee's straightedge check against a published profile, a brute search and its own rows."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F

import pytest

from undertile.bench.hand import hand_room
from undertile.bench.straightedge import Line, broken_rows, lines_of, worst_at

PROFILE = ((0, "0"), (24, ".10"), (48, ".02"), (72, ".14"), (96, ".05"))


def gap_of(line: Line, values: list[F], window: F) -> F:
    return max(worst_at(line, values, p, window)[0] for p in range(1, len(values) - 1))


def brute(line: Line, values: list[F], window: F, step: F) -> F:
    """Widest gap by trying chords of a fine grid of ends: never above the exact one."""

    def at(x: F) -> F:
        for i in range(len(line.at) - 1):
            if line.at[i] <= x <= line.at[i + 1]:
                part = (x - line.at[i]) / (line.at[i + 1] - line.at[i])
                return values[i] + (values[i + 1] - values[i]) * part
        raise AssertionError

    count = int((line.at[-1] - line.at[0]) / step)
    places = [line.at[0] + n * step for n in range(count + 1)]
    heights = [at(x) for x in places]
    best = F(0)
    for p in range(1, len(line.at) - 1):
        here, floor = line.at[p], values[p]
        for x, u in zip(places, heights, strict=True):
            if x >= here:
                break
            for y, v in zip(places, heights, strict=True):
                if here < y <= x + window:
                    best = max(best, (u * (y - here) + v * (here - x)) / (y - x) - floor)
    return best


@pytest.mark.parametrize(("window", "gap"), [(120, "0.100"), (24, "0.050")])
def test_the_published_profile_has_its_gaps(window: int, gap: str) -> None:
    line = Line(tuple((0, h) for h in range(5)), tuple(F(z) for z, _ in PROFILE))
    # independent by hand: a made profile under 10 ft and under 24 in
    assert gap_of(line, [F(v) for _, v in PROFILE], F(window)) == F(gap)


def test_the_worst_placement_is_never_beaten_by_a_search_over_placements() -> None:
    rng = random.Random(7)
    for _ in range(12):
        at = sorted(rng.sample(range(0, 49), 5))
        line = Line(tuple((0, h) for h in range(5)), tuple(F(z) for z in at))
        values = [F(rng.randrange(-4, 5), 16) for _ in at]
        window = F(rng.choice((9, 16, 24)))
        exact = gap_of(line, values, window)
        found = brute(line, values, window, F(1, 2))
        assert found <= exact  # independent: search over a half-inch grid of placements
        assert exact - found <= F(1, 40)  # independent: the grid comes close


def test_each_row_says_what_the_placement_showed() -> None:
    wall = hand_room().walls[0]
    rng = random.Random(3)
    lines = lines_of(wall)
    for _ in range(20):
        rest = {(i, h): F(rng.randrange(-8, 9), 32) for i in range(4) for h in range(3)}
        for row in broken_rows(lines, rest, ((F(24), F(1, 16)), (F(120), F(1, 8)))):
            assert sum(c for _, c in row.coefficients) == 0  # independent: an even shift shows no gap
            value = sum(c * rest[spot] for spot, c in row.coefficients)
            assert value == row.gap + row.over  # independent: the row re-evaluated


def test_slanting_lines_are_found_with_their_true_length() -> None:
    # independent: counted by hand, a 3 x 3 grid has 2 diagonals of three points; 3 rows and 3 columns besides
    wall = hand_room().walls[1]
    square = replace(wall, heights=(F(2), F(18), F(34)))
    lines = lines_of(square)
    assert len(lines) == 8
    slanting = [line for line in lines if line.stretch != 1]
    assert [line.stretch for line in slanting] == [2, 2]  # independent: 45 degrees, length sqrt 2 an inch
    # independent: 24 / sqrt 2 = sqrt 288 = 16.97056.., rounded up to a thousandth (contract 7)
    assert slanting[0].window(F(24)) == F(16971, 1000)
    steep = replace(wall, heights=(F(0), F(64, 3), F(128, 3)))  # studs 16 apart: 3-4-5, 26-2/3 for 21-1/3
    lines = [line for line in lines_of(steep) if line.stretch != 1]
    assert all(line.at == steep.heights for line in lines)  # independent: it runs further in height
    assert [line.window(F(24)) for line in lines] == [F(96, 5)] * 2  # independent: 24 x 4 / 5, already whole
