"""Beams against a general frame program, handbook formulas and symmetry."""

from __future__ import annotations

import itertools
import random
from fractions import Fraction as F

import pytest
from Pynite import FEModel3D

from undertile.floor.beam import STATIONS, Beam, Stretch

BIG = 1e9


def by_frame(beam: Beam, at: F, even: F = F(0), point: tuple[F, F] | None = None) -> float:
    """Deflection at a place by PyNiteFEA: a member between every two places where something changes. [in]"""
    spots = sorted({F(0), beam.span, at, *(s.high for s in beam.stretches), *((point[1],) if point else ())})
    model = FEModel3D()
    model.add_material("wood", 1.0, 1.0, 0.3, 0.0)
    for i, spot in enumerate(spots):
        model.add_node(f"N{i}", float(spot), 0.0, 0.0)
    for i, (low, high) in enumerate(itertools.pairwise(spots)):
        stiff = next(s.stiffness for s in beam.stretches if s.low <= low and high <= s.high)
        model.add_section(f"S{i}", BIG, BIG, float(stiff), BIG)
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "wood", f"S{i}")
        if even:
            model.add_member_dist_load(f"M{i}", "Fy", -float(even), -float(even))
    if point is not None:
        model.add_node_load(f"N{spots.index(point[1])}", "FY", -float(point[0]))
    last = f"N{len(spots) - 1}"
    model.def_support("N0", True, True, True, True, False, False)
    model.def_support(last, False, True, True, False, False, False)
    model.analyze(check_statics=False)
    return -float(model.nodes[f"N{spots.index(at)}"].DY["Combo 1"])


def stepped(rng: random.Random) -> Beam:
    span = F(rng.randint(60, 240))
    cuts = sorted({F(0), span, *(F(rng.randint(1, int(span) - 1)) for _ in range(rng.randint(0, 4)))})
    return Beam(
        span,
        tuple(Stretch(a, b, F(rng.randint(20, 400) * 10**6)) for a, b in itertools.pairwise(cuts)),
    )


@pytest.mark.parametrize("seed", range(12))
def test_stepped_beams_go_down_as_a_frame_program_says(seed: int) -> None:
    rng = random.Random(seed)
    beam = stepped(rng)
    at = F(rng.randint(1, int(beam.span) - 1))
    load, where = F(rng.randint(100, 500)), F(rng.randint(1, int(beam.span) - 1))
    even = F(rng.randint(1, 40), 4)
    # independent: finite elements
    assert float(beam.under_even_load(even, at)) == pytest.approx(by_frame(beam, at, even=even), rel=1e-6)
    found = float(beam.under_point_load(load, where, at))
    assert found == pytest.approx(by_frame(beam, at, point=(load, where)), rel=1e-6)


def test_an_even_beam_is_the_handbook_s() -> None:
    # published: 5 w L^4 / (384 E I); P L^3 / (48 E I); P a^2 b^2 / (3 E I L) under the load
    beam = Beam.even(F(144), F(10**8))
    assert beam.under_even_load(F(5), F(72)) == F(5 * 5 * 144**4, 384 * 10**8)
    assert beam.under_point_load(F(300), F(72), F(72)) == F(300 * 144**3, 48 * 10**8)
    assert beam.under_point_load(F(300), F(44), F(44)) == F(300 * 44**2 * 100**2, 3 * 10**8 * 144)
    assert beam.worst(F(5)) == beam.under_even_load(F(5), F(72))


def test_a_beam_turned_end_for_end_goes_down_the_same() -> None:
    # independent: symmetry, and Maxwell's reciprocity
    rng = random.Random(77)
    for _ in range(10):
        beam = stepped(rng)
        span = beam.span
        turned = Beam(
            span, tuple(Stretch(span - s.high, span - s.low, s.stiffness) for s in reversed(beam.stretches))
        )
        a, b = F(rng.randint(1, int(span) - 1)), F(rng.randint(1, int(span) - 1))
        assert beam.under_even_load(F(3), a) == turned.under_even_load(F(3), span - a)
        assert beam.under_point_load(F(9), a, b) == beam.under_point_load(F(9), b, a)


def test_a_sister_counts_only_where_it_lies() -> None:
    bare = Beam.even(F(120), F(10**8))
    whole = bare.stiffened(F(0), F(120), F(10**8))
    part = bare.stiffened(F(24), F(96), F(10**8))
    assert whole.worst(F(4)) == bare.worst(F(4)) / 2  # independent: twice the stiffness
    assert whole.worst(F(4)) < part.worst(F(4)) < bare.worst(F(4))
    assert part.stretches == (
        Stretch(F(0), F(24), F(10**8)),
        Stretch(F(24), F(96), F(2 * 10**8)),
        Stretch(F(96), F(120), F(10**8)),
    )


@pytest.mark.parametrize("seed", range(12))
def test_the_worst_station_is_the_worst_of_all_asked_one_by_one(seed: int) -> None:
    """independent: the same integrals, each station's anew, against those summed once along the span."""
    chance = random.Random(seed)
    span = F(chance.randint(960, 2800), 16)
    beam = Beam.even(span, F(chance.randint(100, 400) * 10**6))
    for _ in range(chance.randint(1, 3)):
        low, high = sorted(F(chance.randint(0, int(span * 16)), 16) for _ in range(2))
        beam = beam.stiffened(low, high, F(chance.randint(-30, 60) * 10**6)) if low < high else beam
    load = F(chance.randint(1, 99), 7)
    assert beam.worst(load) == max(
        beam.under_even_load(load, span * k / STATIONS) for k in range(1, STATIONS)
    )
