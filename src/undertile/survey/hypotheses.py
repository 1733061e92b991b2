"""Every single explanation of a misfit that is looked at, with its weight beside "nothing is wrong".

The weight of an explanation is its rate times how much better the survey fits with it: exp(gain / 2) for a
definite correction; for one of unknown size the same averaged over a normal spread of sizes. Weights are
logarithms here; "nothing is wrong" weighs 0.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import exp, log

from undertile.lengths import Length
from undertile.survey.grid import RoomGrid
from undertile.survey.leastsquares import Vector
from undertile.survey.roomfit import RoomFit
from undertile.survey.slips import SLIPS, Unslipped, without_slip

LUMBER_BEND = 1e-2
"""How often a stud is really bent at one height far beyond ``tools.BEND`` (a knot, a nailed-in end)."""
LUMBER_CROWN = 1e-2
"""How often a stud's crown is far beyond ``tools.CROWN``."""
BEND_SPREAD = 1 / 8
CROWN_SPREAD = 1 / 2
MOVED_SPREAD = 1 / 4
"""One standard deviation of the unknown size of: a real bend, a real crown, a moved line. [in]"""
ZERO_SPREAD = 1.0
"""How far a reading that was never taken may lie from its nominal (one standard deviation). [in]"""
OTHER_SPREADS = ((1 / 2, 0.6), (4.0, 0.3), (40.0, 0.1))
"""The same of a misreading of no known kind, and the share of each: most are small, some are gross. [in]"""

TRUST = 0.85
"""Share of a gain that is believed: real readings and real lumber have longer tails than the normal curve."""

_QUIET = 2.0  # observations that fit this well (test value) can gain less than any rate gives away
_QUIET_GROUP = 1.5
_FAINT = -8.0  # an explanation this much less likely than none at all is not worth keeping


@dataclass(frozen=True)
class Hypothesis:
    """One explanation.

    Attributes
    ----------
    kind : str
        Key of ``slips.SLIPS``, or ``bend`` or ``crown`` for lumber that is really so.
    change : dict of observation number to float
        What to add to the observations. [in]
    offered : dict of observation number to Fraction
        What would have been typed; empty where the size is only estimated. [in]
    weight : float
        Logarithm, beside "nothing is wrong".
    where : str
        Place of a group (row, stud, wall); "" for a single observation.
    order : str
        Of a moved line: ``stud`` where the wall was read stud by stud, ``row`` where row by row.
    """

    kind: str
    change: dict[int, float]
    offered: dict[int, Fraction]
    weight: float
    where: str = ""
    order: str = ""

    @property
    def lumber(self) -> bool:
        """Whether it says that the wood is really like that."""
        return self.kind in ("bend", "crown")


@dataclass(frozen=True)
class Group:
    """Readings that may have been typed in each other's places.

    Attributes
    ----------
    kind, where : str
    change : dict of observation number to float
        [in]
    offered : dict of observation number to Fraction
        [in]
    curvature : float
        change' M change, which no other correction alters.
    """

    kind: str
    where: str
    change: dict[int, float]
    offered: dict[int, Fraction]
    curvature: float


@dataclass(frozen=True)
class ReadingOrder:
    """A wall's readings from the last taken to the first: the repeats, then the readings backward.

    Attributes
    ----------
    wall : str
    late : list of int
        Observation numbers.
    curvature : list of float
        Of all observations up to each one shifted alike by 1.
    repeats : int
        How many of the first are repeats.
    by : str
        ``stud`` or ``row``.
    """

    wall: str
    late: list[int]
    curvature: list[float]
    repeats: int
    by: str = "stud"


def averaged(g: float, m: float, spread: float, about: float = 0.0) -> tuple[float, float]:
    """Best change of unknown size along one direction, and what it is worth.

    Parameters
    ----------
    g, m : float
        Half the slope and half the second derivative of omega along it.
    spread, about : float
        The size is normal around ``about`` with this standard deviation. [in]

    Returns
    -------
    (float, float)
        Size [in]; logarithm of exp(gain / 2) averaged over the sizes.
    """
    stiff = m + 1 / spread**2
    pull = about / spread**2 - g
    return pull / stiff, (pull * pull / stiff - about * about / spread**2 - log(1 + spread * spread * m)) / 2


class Explanations:
    """Looks at every single explanation of a room's misfit."""

    def __init__(self, room: RoomGrid, fit: RoomFit) -> None:
        self.room, self.fit = room, fit
        self.length: dict[int, Length] = {}
        self.at: dict[tuple[str, str, int], int] = {}
        self.repeats: dict[str, list[int]] = {}
        for i, seen in enumerate(fit.observations):
            if seen.kind == "reading" and seen.line is not None:
                line = fit.fits[seen.line]
                h = line.read[seen.index]
                self.length[i] = line.line.readings[h]
                self.at[seen.line[0], seen.line[1], h] = i
            elif seen.line is None:
                check = fit.checks[seen.index]
                self.length[i] = check.length
                if check.kind == "repeat":
                    found = room.stud(check.stud)
                    if found is not None:
                        self.repeats.setdefault(found[0].name, []).append(i)
        self._singles: dict[int, list[tuple[Unslipped, float, float]]] = {}
        self.groups = list(self._rearranged())
        self.orders = list(self._orders())

    def all(self, changed: Mapping[int, float]) -> list[Hypothesis]:
        """Every explanation that may matter, some observations being changed already.

        Parameters
        ----------
        changed : mapping of observation number to float
            Corrections taken as made; their observations are left alone. [in]

        Returns
        -------
        list of Hypothesis
            Unordered.
        """
        gradient = [TRUST * g for g in self.fit.gradient_after(changed)]
        out: list[Hypothesis] = []
        loud: set[int] = set()
        for i, plain in enumerate(self.fit.diagonal):
            if self.fit.redundancy(i) <= 1e-6:
                continue
            m = TRUST * plain
            value = gradient[i] * gradient[i] / m
            if value > _QUIET_GROUP**2:
                loud.add(i)
            if value > _QUIET**2 and i not in changed:
                out += self._one(i, gradient[i], m)
        for group in self.groups:
            change = group.change
            if loud.isdisjoint(change) or not changed.keys().isdisjoint(change):
                continue
            gain = -2 * sum([d * gradient[i] for i, d in change.items()]) - TRUST * group.curvature
            weight = log(SLIPS[group.kind].rate) + gain / 2
            if weight > _FAINT:
                out.append(Hypothesis(group.kind, change, group.offered, weight, group.where))
        if loud:
            out += self._moved(gradient, changed)
        return out

    def _one(self, i: int, g: float, m: float) -> Iterator[Hypothesis]:
        seen = self.fit.observations[i]
        if seen.kind in ("bend", "crown"):
            spread, rate = (BEND_SPREAD, LUMBER_BEND) if seen.kind == "bend" else (CROWN_SPREAD, LUMBER_CROWN)
            yield self._unknown(seen.kind, i, g, m, spread, rate)
            return
        yield self._other(i, g, m)
        if seen.kind == "reading" and self.length[i].inches == 0:
            stud = self.room.stud(seen.line[0]) if seen.line is not None else None
            about = -float(stud[0].nominal) if stud is not None else 0.0
            yield self._unknown("zero typed", i, g, m, ZERO_SPREAD, SLIPS["zero typed"].rate, about)
        for u, d, rate in self._corrections(i):
            if u.spread:
                yield self._unknown(u.kind, i, g, m, u.spread, u.rate, d)
                continue
            weight = rate - d * g - d * d * m / 2
            if weight > _FAINT:
                yield Hypothesis(u.kind, {i: d}, {i: u.inches}, weight)

    def _unknown(
        self, kind: str, i: int, g: float, m: float, spread: float, rate: float, about: float = 0.0
    ) -> Hypothesis:
        """A change of unknown size, normal around ``about`` with ``spread``."""
        best, weight = averaged(g, m, spread, about)
        return Hypothesis(kind, {i: best}, {}, log(rate) + weight)

    def _other(self, i: int, g: float, m: float) -> Hypothesis:
        rate = SLIPS["other"].rate
        sizes = [self._unknown("other", i, g, m, spread, rate * share) for spread, share in OTHER_SPREADS]
        best = max(sizes, key=lambda h: h.weight)
        weight = best.weight + log(sum(exp(h.weight - best.weight) for h in sizes))
        return Hypothesis("other", best.change, {}, weight)

    def _corrections(self, i: int) -> list[tuple[Unslipped, float, float]]:
        """What slips make into the typed length, the change each asks for, the logarithm of its rate."""
        if i not in self._singles:
            seen = self.fit.observations[i]
            check = self.fit.checks[seen.index] if seen.line is None else None
            stud = (
                seen.line[0]
                if seen.line is not None
                else check.stud
                if seen.kind == "repeat" and check
                else ""
            )
            found = self.room.stud(stud) if stud else None
            typed = self.length[i]
            corrections = without_slip(
                typed,
                check.tool if check is not None else "rule",
                nominal=found[0].nominal if found is not None else None,
                signed=seen.kind in ("level", "square"),
            )
            was = float(typed.inches)
            self._singles[i] = [(u, (float(u.inches) - was) * seen.slope, log(u.rate)) for u in corrections]
        return self._singles[i]

    def _rearranged(self) -> Iterator[Group]:
        """Rows and studs typed in the other direction, and neighbours exchanged."""
        for wall in self.room.walls.values():
            heights = range(len(wall.heights))
            rows = [
                (f"row {wall.name} at {wall.labels[h]}", [self.at.get((s.name, "", h)) for s in wall.studs])
                for h in heights
            ]
            studs = [(f"stud {s.name}", [self.at.get((s.name, "", h)) for h in heights]) for s in wall.studs]
            for lines in (rows, studs):
                for where, line in lines:
                    read = [i for i in line if i is not None]
                    yield from self._exchange("row reversed", where, read, read[::-1])
                for (one, first), (two, second) in pairwise(lines):
                    pairs = [
                        (a, b) for a, b in zip(first, second, strict=True) if a is not None and b is not None
                    ]
                    left, right = [a for a, _ in pairs], [b for _, b in pairs]
                    where = f"{one} and {two.rsplit(' ', 1)[-1]}"
                    yield from self._exchange("rows swapped", where, left + right, right + left)

    def _exchange(self, kind: str, where: str, to: list[int], of: list[int]) -> Iterator[Group]:
        typed = self.length
        offered = {i: typed[j].inches for i, j in zip(to, of, strict=True) if typed[i] != typed[j]}
        if len(offered) > 1:  # a reading less is an offset more
            change = {i: float(typed[i].inches - new) for i, new in offered.items()}
            yield Group(kind, where, change, offered, self.fit.curvature(change))

    def _orders(self) -> Iterator[ReadingOrder]:
        """Each wall's readings in the order they may have been taken: stud by stud, row by row."""
        for wall in self.room.walls.values():
            heights = range(len(wall.heights))
            by_stud = [self.at.get((s.name, "", h)) for s in wall.studs for h in heights]
            by_row = [self.at.get((s.name, "", h)) for h in heights for s in wall.studs]
            repeats = self.repeats.get(wall.name, [])
            for by, order in (("stud", by_stud), ("row", by_row)):
                late = repeats + [i for i in reversed(order) if i is not None]
                yield ReadingOrder(wall.name, late, self._shifted(late), len(repeats), by)

    def _shifted(self, late: list[int]) -> list[float]:
        """Curvature of ever more observations shifted alike, each from the one before."""
        fit = self.fit
        total, out = 0.0, []
        pull = [0.0] * len(fit.checks)  # W times what the shifted ones do to the checks
        own: dict[object, list[float]] = {}
        for i in late:
            seen = fit.observations[i]
            total += fit.diagonal[i] + 2 * sum([a * pull[k] for k, a in fit.reach[i].items()])
            for k, a in fit.reach[i].items():
                pull = [p + a * w for p, w in zip(pull, fit.weights[k], strict=True)]
            if seen.line is not None:
                snoop = fit.snoop_of(seen.line)
                have = own.setdefault(seen.line, [0.0] * len(snoop))
                total += 2 * have[seen.index]
                own[seen.line] = [h + s for h, s in zip(have, snoop[seen.index], strict=True)]
            out.append(total)
        return out

    def _moved(self, gradient: Vector, changed: Mapping[int, float]) -> Iterator[Hypothesis]:
        """The line moved from some reading on: that reading, all later ones and the repeat shifted alike."""
        for order in self.orders:
            slope = 0.0
            count = len(order.late) - order.repeats
            base = log(SLIPS["line moved"].rate / (2 * max(1, count)))
            for n, (i, curvature) in enumerate(zip(order.late, order.curvature, strict=True)):
                if i in changed:
                    break
                slope += gradient[i]
                if n < order.repeats or n >= order.repeats + count - 1 or curvature <= 1e-9:
                    continue
                best, weight = averaged(slope, TRUST * curvature, MOVED_SPREAD)
                if base + weight > _FAINT:
                    where = f"wall {order.wall} from {self.fit.observations[i].place} on"
                    change = dict.fromkeys(order.late[: n + 1], best)
                    yield Hypothesis("line moved", change, {}, base + weight, where, order.by)
