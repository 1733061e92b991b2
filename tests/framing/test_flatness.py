"""Which lines of a wall are judged, and the rows that break a rule."""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import combinations
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from undertile.framing.flatness import Line, WallFlatness, profiles, widest_gap

F = Fraction
LARGE_TILE = [(F(24), F(1, 16)), (F(120), F(1, 8))]  # published: ANSI A108.02 section 4.2.2


def slanting_by_triples(alongs: list[Fraction], heights: list[Fraction]) -> set[frozenset[tuple[int, int]]]:
    """independent: every straight triple of read points by its area, merged into whole lines."""
    points = [(m, h) for m in range(len(alongs)) for h in range(len(heights))]

    def straight(p: tuple[int, int], q: tuple[int, int], r: tuple[int, int]) -> bool:
        (ax, az), (bx, bz), (cx, cz) = [(alongs[m], heights[h]) for m, h in (p, q, r)]
        return (bx - ax) * (cz - az) == (cx - ax) * (bz - az)

    found = set()
    for p, q, r in combinations(points, 3):
        if len({p[0], q[0], r[0]}) == 3 and len({p[1], q[1], r[1]}) == 3 and straight(p, q, r):
            found.add(frozenset(s for s in points if s in (p, q) or straight(p, q, s)))
    return found


@settings(max_examples=25, deadline=None)
@given(
    st.sets(st.integers(0, 12), min_size=2, max_size=5), st.sets(st.integers(0, 12), min_size=2, max_size=5)
)
def test_lines_are_each_stud_each_height_and_every_straight_line_of_three(a: set[int], h: set[int]) -> None:
    alongs, heights = [F(8 * x) for x in sorted(a)], [F(8 * z) for z in sorted(h)]
    lines = profiles(tuple(alongs), tuple(heights))
    assert sum(line.direction == "up" for line in lines) == (len(alongs) if len(heights) > 2 else 0)
    assert sum(line.direction == "along" for line in lines) == (len(heights) if len(alongs) > 2 else 0)
    across = [frozenset(line.cells) for line in lines if line.direction == "across"]
    assert len(across) == len(set(across))
    assert set(across) == slanting_by_triples(alongs, heights)
    for line in lines:
        assert list(line.positions) == sorted(set(line.positions))


def test_a_three_four_five_line_measures_the_straightedge_exactly() -> None:
    # independent, by hand: studs 12 apart, heights 16 apart: points lie 20 apart on the line, so a 24 in
    # straightedge covers 24 x 16 / 20 = 19.2 in of height
    (line, *_) = [p for p in profiles((F(0), F(12), F(24)), (F(0), F(16), F(32))) if p.direction == "across"]
    assert line.positions == (F(0), F(16), F(32))
    assert line.window(F(24)) == F(192, 10)


@given(st.integers(1, 99), st.integers(1, 99), st.integers(1, 1200))
def test_an_irrational_length_is_rounded_up_by_less_than_a_thousandth(dx: int, dz: int, length: int) -> None:
    line = Line(((0, 0), (1, 1), (2, 2)), (F(0), F(1), F(2)), F(dx * dx + dz * dz, max(dx, dz) ** 2))
    exact = length * max(dx, dz) / sqrt(dx * dx + dz * dz)  # independent: floating point
    assert -1e-9 <= float(line.window(F(length))) - exact < 0.001 + 1e-9


def test_a_dip_across_the_wall_is_found_where_studs_and_heights_pass() -> None:
    # independent, by hand: only the middle of a 16 x 16 lattice is low against its two slanting neighbours
    # that stand 1/8 proud; 22.6 in away each way, so the 24 in rule sees 1/8 x 12 / 22.627 = 0.0663 > 1/16.
    alongs, heights = [F(0), F(16), F(32)], [F(0), F(16), F(32)]
    faces = [[F(1, 8), F(0), F(0)], [F(0), F(0), F(0)], [F(0), F(0), F(1, 8)]]
    broken = WallFlatness(alongs, heights, LARGE_TILE[:1]).violated(faces)
    assert {row.line.direction for row in broken} == {"across"}
    (row,) = broken
    assert float(row.gap) == pytest.approx(12 / (16 * sqrt(2)) / 8, abs=1e-5)  # independent: by hand
    assert sum(w * faces[m][h] for (m, h), w in row.weights) == row.gap


@pytest.mark.parametrize("spread", [1, 2, 4])
def test_all_broken_rows_of_a_wall_are_those_of_its_profiles_one_by_one(spread: int) -> None:
    draw = random.Random(20 + spread)
    alongs, heights = [F(a) for a in (8, 24, 40, 56, 59)], [F(h) for h in (2, 24, 48, 72, 90)]
    wall = WallFlatness(alongs, heights, LARGE_TILE)
    for _ in range(40):
        faces = [[F(draw.randint(-spread, spread), 32) for _ in heights] for _ in alongs]
        broken = wall.violated(faces)
        # independent: the exact gap of every line without the float screen
        for line in wall.lines:
            for length, limit in LARGE_TILE:
                worst = widest_gap(line.positions, [faces[m][h] for m, h in line.cells], line.window(length))
                assert worst is not None
                mine = [row.gap for row in broken if row.line == line and row.length == length]
                assert max(mine, default=F(0)) == (worst.gap if worst.gap > limit else 0)
        for row in broken:
            assert sum(w * faces[m][h] for (m, h), w in row.weights) == row.gap > row.limit


@pytest.mark.parametrize("seed", range(6))
def test_one_changed_face_changes_only_the_lines_through_it(seed: int) -> None:
    # independent: every line looked at anew
    rng = random.Random(seed)
    wall = WallFlatness([F(16 * n) for n in range(5)], [F(12 * n) for n in range(5)], LARGE_TILE)
    faces = [[F(rng.randint(-3, 3), 32) for _ in range(5)] for _ in range(5)]
    before = wall.violated(faces)
    assert wall.violated(faces, first=True) == before[:1]
    faces[2][3] += F(1, 4)
    through = wall.through([(2, 3)])
    after = wall.violated(faces)
    assert after != before
    lines = [wall.lines[n] for n in through]
    assert all((2, 3) in line.cells for line in lines)
    assert [r for r in after if r.line not in lines] == [r for r in before if r.line not in lines]
    assert wall.violated(faces, among=through) == [r for r in after if r.line in lines]


def test_faces_inside_a_band_of_a_sixteenth_either_side_always_pass_an_eighth_in_ten_feet() -> None:
    # independent: a gap is at most the spread of the profile, 1/8
    draw = random.Random(3)
    alongs, heights = [F(16 * i) for i in range(5)], [F(h) for h in (2, 24, 48, 72, 90)]
    wall = WallFlatness(alongs, heights, LARGE_TILE[1:])
    for _ in range(100):
        assert wall.violated([[F(draw.randint(-2, 2), 32) for _ in heights] for _ in alongs]) == []
