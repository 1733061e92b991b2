"""A written-down population of random rooms to plan.

Working values of the trade, not of a source; every draw from ``random.Random(seed)``, so a room is its seed,
size, severity, layout and features.

*Walls.* ``alcove`` (L, B, R), ``corner`` (L, B) or ``single`` (B). Studs 16 apart, the first 1-1/2 to 9 from
the corner, one in four moved by up to 2. Read at 2, 24, 42, 60, 78, 92 (fewer heights: a spread of these);
the lowest is the flange zone, and one room in five reads a second flange height, at 4.

*Studs*, times ``severity``. The wall as built turns by up to 3/8 over its length and leans by up to 1/4 over
its height (triangular, mean 0). On it each stud leans by itself (normal, 3/32 over the height), bows as a
parabola (normal, 1/8 at mid height; one stud in eight up to 1/2 more) and stands off by normal 1/16. One in
twelve is twisted: 1/16 for its proud arris. Each reading errs by normal 1/64 and is kept in sixteenths,
thirty-seconds or half millimetres, one unit a room.

*Stuff.* One stud in ten is bearing (no knock-over, not planed over its full height, replaced in 65 minutes
with shoring). Bays: a third hold
a pipe or wire (35 minutes to sister). Planed at most 1/4, twice that beside a sister; at one height in ten
less (a hole, a pipe): 0, 1/16 or 1/8.

*The rest*, each by a feature name that may be left out for a purer case; a feature that is in comes up in
the share of rooms, walls or studs said here.

- ``mixed``: one stud in five is steel, treated, engineered or unknown: not planed; of these only treated
  stuff is sistered. One stud in twenty-five is fixed: neither sistered nor replaced.
- ``lap``: half the rooms, above-plane 1/8 or 3/16 in front. ``lean``: five leans, else plumb alone.
- ``plates``: bottom and top of half the bays. ``channel``: a third of the rooms, on B, half of
  them noncombustible (no wood; plastic strips alone).
- ``terms``: a valve window on a side wall (or B) that can be bought, a movable pipe in front, a corner
  backer, and at one wall in six an edge that continues, about where the wall is, and cannot be bought.
- ``bed``, ``knock``, ``taper``: a third of the rooms, a third of the studs, four fifths of the studs.
- ``dry``: card on the van in half the rooms, above the flange + 6 only.
- ``holds``: a quarter of the rooms hold one stud; one in eight holds a plane's offset.
- ``must``: one room in six has a soft stud, to be sistered or replaced.
- ``demands``: play, skew, square, drain. ``tile``: two rooms in three have the straightedge rules of one of
  the two tile classes. ``occupied``: one room in five pays minutes x 1.5.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from undertile.bench.hand import PLUMB, STOCK, hand_room, play_demands, skew_demand, square_demand
from undertile.bench.symmetry import add_stud, mirror, shift_line
from undertile.framing.problem import (
    Channel,
    Demand,
    FramingProblem,
    Member,
    PlateSpot,
    Prices,
    StepTerm,
    StockItem,
    WallProblem,
)

__all__ = ["ALL", "LARGE_TILE", "PURE", "SMALL_TILE", "add_stud", "hand_room", "mirror", "room", "shift_line"]

F = Fraction
Layout = Literal["alcove", "corner", "single"]
ALL = frozenset(
    "mixed lap lean plates terms channel bed knock taper dry holds must demands tile occupied".split()  # noqa: SIM905
)
PURE = frozenset({"taper", "demands", "lean"})
"""Wood alone, one zone, no straightedge rule."""
LARGE_TILE = ((F(120), F(1, 8)), (F(24), F(1, 16)))
SMALL_TILE = ((F(120), F(1, 4)), (F(12), F(1, 16)))
FIVE_LEANS = tuple(F(n, 16 * 96) for n in (-2, -1, 0, 1, 2))
SPREADS = {
    1: (2,),
    2: (2, 48),
    3: (2, 48, 90),
    4: (2, 30, 60, 92),
    5: (2, 24, 48, 72, 92),
    6: (2, 24, 42, 60, 78, 92),
}
UNITS = (F(1, 16), F(1, 32), F(5, 254))
"""Sixteenths, thirty-seconds, half millimetres. [in]"""
TOP = F(97)
CARD = StockItem("card 1/16", F(1, 16), F(1, 4), dry_only=True)


def room(
    seed: int,
    *,
    studs: int = 13,
    heights: int = 6,
    severity: float = 1.0,
    features: frozenset[str] = ALL,
    layout: Layout | None = None,
) -> FramingProblem:
    """One room of the population.

    Parameters
    ----------
    seed : int
    studs : int
        In all; a wall has at least two, so an alcove takes six or more.
    heights : int
        1 to 6.
    severity : float
        Scales how far the framing is out; 1 = an old house, 0 = laid out by a machine.
    features : frozenset of str
        See the module.
    layout : {"alcove", "corner", "single"}, optional
        Default: an alcove from six studs on, three rooms in four.
    """
    if features - ALL:
        raise ValueError(f"unknown features {sorted(features - ALL)}: choose among {sorted(ALL)}")
    return _Builder(random.Random(seed), features, severity).room(studs, heights, layout)


class _Builder:
    """Draws the parts of one room, in a fixed order."""

    def __init__(self, rng: random.Random, features: frozenset[str], severity: float) -> None:
        self.rng = rng
        self.features = features
        self.severity = severity
        self.unit = rng.choice(UNITS)
        self.card = self.share(0.5, "dry")
        self.lap = self.share(0.5, "lap")
        self.bedded = self.share(1 / 3, "bed")
        self.channelled = self.share(1 / 3, "channel")
        self.noncombustible = self.channelled and rng.random() < 0.5
        self.tile = self.share(2 / 3, "tile")
        self.occupied = self.share(0.2, "occupied")
        self.step = rng.choice((F(1, 8), F(3, 16))) if self.lap else F(0)
        self.rules = rng.choice((LARGE_TILE, SMALL_TILE)) if self.tile else ()
        self.stock = (*STOCK, CARD) if self.card else STOCK

    def share(self, chance: float, feature: str) -> bool:
        """Whether something comes up, in a room that has the feature."""
        return self.rng.random() < chance and feature in self.features

    def snap(self, inches: float) -> Fraction:
        """The nearest reading in the room's unit."""
        return round(inches / float(self.unit)) * self.unit

    def room(self, studs: int, heights: int, layout: Layout | None) -> FramingProblem:
        rng = self.rng
        if layout is None:
            draw = rng.random()
            layout = (
                "single" if draw < 0.1 or studs < 4 else "corner" if draw < 0.25 or studs < 6 else "alcove"
            )
        names = {"alcove": "LBR", "corner": "LB", "single": "B"}[layout]
        counts = {name: studs // len(names) for name in names}
        for name in "BLR"[: studs % len(names)]:
            counts[name] += 1
        levels = [F(z) for z in SPREADS[heights]]
        zones = [True] + [False] * (heights - 1)
        if heights > 2 and rng.random() < 0.2:
            levels = [levels[0], F(4), *levels[2:]]
            zones[1] = True
        walls = [self.wall(name, counts[name], tuple(levels), tuple(zones)) for name in names]
        if self.share(0.25, "holds"):
            walls = self.hold(walls)
        if self.share(1 / 6, "must"):
            walls = self.soften(walls)
        demands = self.demands(walls) if "demands" in self.features else []
        if self.share(1 / 8, "holds"):
            at = self.snap(rng.uniform(-0.1, 0.2))
            demands.append(Demand("hold-B-offset", (("B", F(0), F(0), F(1)),), at, at, "B put here"))
        prices = Prices(factor=F(3, 2) if self.occupied else F(1))
        return FramingProblem(tuple(walls), tuple(demands), self.stock, prices, self.rules)

    def wall(
        self, name: str, count: int, levels: tuple[Fraction, ...], zones: tuple[bool, ...]
    ) -> WallProblem:
        rng, severity = self.rng, self.severity
        start = F(rng.randrange(3, 19), 2)
        along = [
            start + 16 * n + (F(rng.randrange(-4, 5), 2) if rng.random() < 0.25 else 0) for n in range(count)
        ]
        turn = rng.triangular(-0.375, 0.375) * severity
        lean = rng.triangular(-0.25, 0.25) * severity
        middle = along[len(along) // 2]
        length = float(max(F(48), along[-1] - along[0]))

        def face(a: Fraction, z: Fraction) -> float:
            return turn * float(a - middle) / length + lean * float(z - 48) / 96

        plain = name == "B" and self.noncombustible
        members = tuple(
            self.stud(f"{name}{n + 1}", a, levels, zones, [face(a, z) for z in levels], plain)
            for n, a in enumerate(along)
        )
        plates = []
        for first, last in pairwise(along):
            for what, z, zone in (("bottom", F(1), True), ("top", F(95), False)):
                a = F((first + last) / 2)
                offset = self.snap(face(a, z) + rng.gauss(0, 1 / 16) * severity)
                if rng.random() < 0.5 and "plates" in self.features:
                    plates.append(PlateSpot(f"{what} {a}", a, z, offset, F(1, 4), zone))
        channel = None
        if name == "B" and self.channelled:
            rows = 6 * -(-(along[-1] - along[0] + 16) // 60)
            channel = Channel(F(7, 8), F(1, 2), F(9 * rows), F(4 * rows))
        return WallProblem(
            name,
            levels,
            zones,
            members,
            self.step,
            FIVE_LEANS if "lean" in self.features else PLUMB,
            plates=tuple(plates),
            terms=tuple(self.terms(name, along, face)) if "terms" in self.features else (),
            channel=channel,
            top=TOP,
        )

    def stud(
        self,
        name: str,
        along: Fraction,
        levels: tuple[Fraction, ...],
        zones: tuple[bool, ...],
        face: list[float],
        noncombustible: bool,
    ) -> Member:
        rng, severity = self.rng, self.severity
        off = rng.gauss(0, 1 / 16)
        own = rng.gauss(0, 3 / 32)
        bow = rng.gauss(0, 1 / 8)
        if rng.random() < 1 / 8:
            bow += rng.choice((-1, 1)) * rng.uniform(0, 0.5)
        twist = 1 / 16 if rng.random() < 1 / 12 else 0.0
        offsets = []
        for z, base in zip(levels, face, strict=True):
            h = float(z)
            shape = off + own * (h - 48) / 96 + 4 * bow * h * (96 - h) / 96**2 + twist
            offsets.append(self.snap(base + severity * shape + rng.gauss(0, 1 / 64)))
        depth = [rng.choice((F(0), F(1, 16), F(1, 8))) if rng.random() < 0.1 else F(1, 4) for _ in levels]
        bearing = rng.random() < 0.1
        busy = rng.random() < 1 / 3
        kind = "wood"
        if self.share(0.2, "mixed"):
            kind = rng.choice(("steel", "treated", "engineered", "unknown"))
        if noncombustible:
            kind = "steel"
        fixed = self.share(0.04, "mixed")
        if kind != "wood":
            depth = [F(0)] * len(levels)
        dry = [not zone and z >= 2 + 6 for z, zone in zip(levels, zones, strict=True)]
        sister = F(35) if busy else F(22)
        taper = self.share(0.8, "taper")
        knock = self.share(1 / 3, "knock")
        return Member(
            name,
            along,
            tuple(offsets),
            tuple(depth),
            tuple(2 * d for d in depth),
            tuple(n for n, s in enumerate(self.stock) if not noncombustible or s.name.startswith("plastic")),
            tuple(dry),
            taper=taper and not noncombustible,
            wet_bed=self.bedded,
            knock=knock and not bearing,
            sister=None if fixed or noncombustible or kind not in {"wood", "treated"} else sister,
            replace=None if fixed else F(65) if bearing else F(35),
            rip_ok=not bearing,
            shoring=bearing,
            beside_pan=rng.random() < 0.8,
        )

    def terms(
        self, name: str, along: list[Fraction], face: Callable[[Fraction, Fraction], float]
    ) -> list[StepTerm]:
        rng = self.rng
        middle = F(round((along[0] + along[-1]) / 2))
        out = []
        if rng.random() < 0.4:
            low = self.snap(rng.uniform(-0.5, 0))
            high = low + F(rng.randrange(2, 12), 16)
            reach = F(3, 4)
            out.append(
                StepTerm("valve", name, middle, F(44), low, high, F(25), F(3), low - reach, high + reach)
            )
        if rng.random() < 0.3:
            proud = self.snap(rng.uniform(-0.2, 0.3))
            out.append(StepTerm("pipe", name, middle + 5, F(rng.choice((2, 30))), proud, None, F(90), F(20)))
        if rng.random() < 0.3:
            most = F(rng.randrange(0, 6), 16)
            out.append(StepTerm("backer", name, F(0), F(48), None, most, F(10), F(3), None, F(5, 4)))
        if rng.random() < 1 / 6:
            low = self.snap(face(along[-1], F(60)) + rng.uniform(-0.15, 0.1))
            out.append(StepTerm("edge", name, along[-1] + 3, F(60), low, low + F(3, 16), None))
        return out

    def hold(self, walls: list[WallProblem]) -> list[WallProblem]:
        """Hold one stud to a treatment that is offered there."""
        wall = self.rng.choice(walls)
        member = self.rng.choice(wall.members)
        families = ["leave", "strip"] + (["plane", "plane"] if any(member.plane_depth) else [])
        families += ["sister"] if member.sister is not None else []
        families += ["replace"] if member.replace is not None else []
        families += ["taper"] if member.taper else []
        return _swapped(walls, member, replace(member, held=self.rng.choice(families)))

    def soften(self, walls: list[WallProblem]) -> list[WallProblem]:
        """Make one stud soft."""
        wall = self.rng.choice(walls)
        member = self.rng.choice(wall.members)
        if member.held is not None or (member.sister is None and member.replace is None):
            return walls
        return _swapped(walls, member, replace(member, must=frozenset({"sister", "replace"})))

    def demands(self, walls: list[WallProblem]) -> list[Demand]:
        """What the pan asks of the planes."""
        rng = self.rng
        names = {wall.name: wall for wall in walls}
        low = [z for z, zone in zip(walls[0].heights, walls[0].flange, strict=True) if zone]
        back = names["B"].members
        width = F(round(back[-1].along + 6))
        depth = F(round(names["L"].members[-1].along + 3)) if "L" in names else F(32)
        out = [skew_demand("B", width, low[0])]
        out += [skew_demand(side, depth, low[0]) for side in "LR" if side in names]
        slack = F(rng.randrange(-2, 8), 16)
        if "R" in names:
            out += play_demands(width, width + slack, (F(1), depth / 2, depth), low)
            out.append(square_demand(width, depth, low[0]))
        float_ = F(rng.choice((4, 6, 8)), 16)
        at = self.snap(rng.uniform(-0.15, 0.25))
        if rng.random() < 0.6:
            parts = (("B", width / 2, low[0], F(1)),)
            out.append(Demand("drain-y-B", parts, at - float_, at + float_, "drain off the back wall"))
        at = self.snap(rng.uniform(-0.15, 0.25))
        if rng.random() < 0.6 and "L" in names:
            parts = (("L", depth / 2, low[0], F(1)),)
            out.append(Demand("drain-x-L", parts, at - float_, at + float_, "drain off the left wall"))
        return out


def _swapped(walls: list[WallProblem], old: Member, new: Member) -> list[WallProblem]:
    return [
        replace(wall, members=tuple(new if member is old else member for member in wall.members))
        for wall in walls
    ]
