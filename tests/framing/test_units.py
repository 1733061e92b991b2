"""Whole units and whole money."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from undertile.bench.hand import hand_room
from undertile.framing.problem import Prices
from undertile.framing.units import money_scale, unit_of

F = Fraction


def test_the_unit_of_the_hand_room_makes_its_stock_whole() -> None:
    # independent: 32nds; 0.205 = 41/200; a taper's sixteenth at 48 between 2 and 90 is 23/704;
    # lcm(32, 200, 704) = 2^6 x 5^2 x 11
    assert unit_of(hand_room()) == 17600


def test_a_millimetre_reading_joins_the_unit() -> None:
    problem = hand_room()
    wall = problem.walls[0]
    first = replace(wall.members[0], offsets=(F(5, 127), *wall.members[0].offsets[1:]))
    problem = replace(problem, walls=(replace(wall, members=(first, *wall.members[1:])), *problem.walls[1:]))
    # independent: 1 mm = 5/127 in, and 127 shares no factor with 17600
    assert unit_of(problem) == 17600 * 127


def test_a_lean_is_whole_at_every_height() -> None:
    problem = hand_room()
    wall = replace(problem.walls[0], leans=(F(1, 1536),))
    # independent: at 2, 48 and 90 a lean of 1/16 in 96 is 1/768, 1/32 and 15/256: lcm(768, 32, 256) = 768
    assert unit_of(replace(problem, walls=(wall,), stock=())) % 768 == 0


def test_money_makes_every_price_whole() -> None:
    problem = hand_room()
    scale = money_scale(problem)
    p = problem.prices
    assert isinstance(p, Prices)
    for minutes in (p.plane_setup, p.plane_pass, p.strip_thin, p.strip_thick, p.flange_shim, p.verify):
        assert (minutes * p.factor * p.rate / 60 * scale).denominator == 1  # independent: by its meaning
