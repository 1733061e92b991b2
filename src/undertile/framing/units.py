"""Whole numbers for one job: a unit that makes every length whole, a scale that makes every price whole.

Nothing is rounded: both are least common multiples of what the job holds (convention 7.1).
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import lcm

from undertile.framing.problem import FramingProblem, WallProblem


def _lengths(problem: FramingProblem) -> Iterator[Fraction]:
    yield Fraction(1, 32)
    for item in problem.stock:
        yield item.thickness
    for wall in problem.walls:
        yield from (wall.step, wall.t_low, wall.t_high)
        for lean in wall.leans:
            yield from (lean * z for z in wall.heights)  # the pivot is one of them
            yield from (lean * t.height for t in wall.terms)
            yield from (lean * p.height for p in wall.plates)
        for member in wall.members:
            yield from member.offsets
            yield member.goes_back
        for plate in wall.plates:
            yield from (plate.offset, plate.cut)
        for term in wall.terms:
            yield from (v for v in (term.low, term.high, term.hard_low, term.hard_high) if v is not None)
        if wall.channel is not None:
            yield from (wall.channel.height, wall.channel.packing)
        yield from _shares(wall)


def _shares(wall: WallProblem) -> Iterator[Fraction]:
    z0, z1 = wall.heights[0], wall.heights[-1]
    if any(m.taper for m in wall.members) and z1 > z0:
        yield from ((z - z0) / (z1 - z0) / 16 for z in wall.heights)
    if wall.top is not None and any(m.knock for m in wall.members):
        yield from ((wall.top - z) / wall.top / 16 for z in wall.heights)


def unit_of(problem: FramingProblem) -> int:
    """The whole unit: every length of the job is a whole number of 1/unit inch (convention 7.1)."""
    return lcm(*(v.denominator for v in _lengths(problem)))


def money_scale(problem: FramingProblem) -> int:
    """What makes every price of the job a whole number."""
    p = problem.prices
    per = p.factor * p.rate / 60
    minutes = [
        p.plane_setup, p.plane_pass, p.plate_edge, p.strip_thin, p.strip_thick, p.strip_more, p.taper_first,
        p.taper_next, p.shoring, p.flange_shim, p.wet_bed, p.knock, p.verify,
    ]  # fmt: skip
    dollars = [p.plane_dollars, p.taper_dollars, p.sister_dollars, p.flange_shim_dollars, p.wet_bed_dollars]
    dollars += [item.price for item in problem.stock]
    for wall in problem.walls:
        for member in wall.members:
            minutes += [m for m in (member.sister, member.replace) if m is not None]
            dollars.append(member.replace_dollars)
        for term in wall.terms:
            minutes += [term.minutes] if term.minutes is not None else []
            dollars.append(term.dollars)
        if wall.channel is not None:
            minutes.append(wall.channel.minutes)
            dollars.append(wall.channel.dollars)
    return lcm(*((m * per).denominator for m in minutes), *(d.denominator for d in dollars))
