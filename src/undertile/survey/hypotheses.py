"""Every single explanation of a misfit that is looked at, with its weight beside "nothing is wrong".

The weight of an explanation is its rate times how much better the survey fits with it: exp(gain / 2) for a
definite correction; for one of unknown size the same averaged over a normal spread of sizes. Weights are
logarithms here; "nothing is wrong" weighs 0.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import log

from undertile.lengths import Length
from undertile.survey.grid import RoomGrid
from undertile.survey.leastsquares import Vector
from undertile.survey.room import RoomFit
from undertile.survey.slips import SLIPS, Unslipped, without_slip

Group = tuple[str, str, dict[int, float], dict[int, Fraction]]
"""Kind, place, change of the observations, what would have been typed."""

LUMBER_BEND = 3e-3
"""How often a stud is really bent at one height far beyond ``tools.BEND`` (a knot, a nailed-in end)."""
LUMBER_CROWN = 1e-2
"""How often a stud's crown is far beyond ``tools.CROWN``."""
BEND_SPREAD = 1 / 4
CROWN_SPREAD = 3 / 4
OTHER_SPREAD = 3 / 4
MOVED_SPREAD = 1 / 4
"""One standard deviation of the unknown size of: a real bend, a real crown, a misreading of no known kind, a
moved line. [in]"""

_QUIET = 2.0  # observations that fit this well (test value) can gain less than any rate gives away
_QUIET_GROUP = 1.5


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
    """

    kind: str
    change: dict[int, float]
    offered: dict[int, Fraction]
    weight: float
    where: str = ""

    @property
    def lumber(self) -> bool:
        """Whether it says that the wood is really like that."""
        return self.kind in ("bend", "crown")


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
        self._singles: dict[int, list[Unslipped]] = {}
        self._groups = list(self._rearranged())
        self._sequences = list(self._orders())

    def gradient(self, change: Mapping[int, float]) -> Vector:
        """Half the derivative of omega, with some observations changed."""
        if not change:
            return self.fit.gradient
        between = self.fit.between
        out = list(self.fit.gradient)
        for j, d in change.items():
            for i in range(len(out)):
                out[i] += d * (self.fit.diagonal[i] if i == j else between(i, j))
        return out

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
        gradient = self.gradient(changed)
        out: list[Hypothesis] = []
        loud: set[int] = set()
        for i, m in enumerate(self.fit.diagonal):
            if self.fit.redundancy(i) <= 1e-6:
                continue
            value = gradient[i] * gradient[i] / m
            if value > _QUIET_GROUP**2:
                loud.add(i)
            if value > _QUIET**2 and i not in changed:
                out += self._one(i, gradient[i], m)
        for kind, where, change, offered in self._groups:
            if loud.isdisjoint(change) or not changed.keys().isdisjoint(change):
                continue
            gain = -2 * sum(d * gradient[i] for i, d in change.items()) - self.fit.curvature(change)
            out.append(Hypothesis(kind, change, offered, log(SLIPS[kind].rate) + gain / 2, where))
        if loud:
            out += self._moved(gradient, changed)
        return out

    def _one(self, i: int, g: float, m: float) -> Iterator[Hypothesis]:
        seen = self.fit.observations[i]
        if seen.kind in ("bend", "crown"):
            spread, rate = (BEND_SPREAD, LUMBER_BEND) if seen.kind == "bend" else (CROWN_SPREAD, LUMBER_CROWN)
            yield self._unknown(seen.kind, i, g, m, spread, rate)
            return
        yield self._unknown("other", i, g, m, OTHER_SPREAD, SLIPS["other"].rate)
        typed = self.length[i].inches
        for u in self._corrections(i):
            d = float(u.inches - typed) * seen.slope
            if u.spread:
                yield self._unknown(u.kind, i, g, m, u.spread, u.rate, d)
            else:
                gain = -2 * d * g - d * d * m
                yield Hypothesis(u.kind, {i: d}, {i: u.inches}, log(u.rate) + gain / 2)

    def _unknown(
        self, kind: str, i: int, g: float, m: float, spread: float, rate: float, about: float = 0.0
    ) -> Hypothesis:
        """A change of unknown size, normal around ``about`` with ``spread``."""
        best, weight = averaged(g, m, spread, about)
        return Hypothesis(kind, {i: best}, {}, log(rate) + weight)

    def _corrections(self, i: int) -> list[Unslipped]:
        if i not in self._singles:
            seen = self.fit.observations[i]
            nominal = None
            if seen.line is not None:
                found = self.room.stud(seen.line[0])
                nominal = found[0].nominal if found is not None else None
            elif self.fit.checks[seen.index].kind == "repeat":
                found = self.room.stud(self.fit.checks[seen.index].stud)
                nominal = found[0].nominal if found is not None else None
            tool = "rule" if seen.line is not None else self.fit.checks[seen.index].tool
            signed = seen.kind in ("level", "square")
            self._singles[i] = without_slip(self.length[i], tool, nominal=nominal, signed=signed)
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

    def _exchange(self, kind: str, where: str, to: Sequence[int], of: Sequence[int]) -> Iterator[Group]:
        typed = self.length
        offered = {i: typed[j].inches for i, j in zip(to, of, strict=True) if typed[i] != typed[j]}
        if len(offered) > 1:  # a reading less is an offset more
            yield kind, where, {i: float(typed[i].inches - new) for i, new in offered.items()}, offered

    def _orders(self) -> Iterator[tuple[str, list[int]]]:
        """Each wall's readings in the order they may have been taken: stud by stud, row by row."""
        for wall in self.room.walls.values():
            heights = range(len(wall.heights))
            by_stud = [self.at.get((s.name, "", h)) for s in wall.studs for h in heights]
            by_row = [self.at.get((s.name, "", h)) for h in heights for s in wall.studs]
            for order in (by_stud, by_row):
                yield wall.name, [i for i in order if i is not None]

    def _moved(self, gradient: Vector, changed: Mapping[int, float]) -> Iterator[Hypothesis]:
        """The line moved from some reading on: that reading, all later ones and the repeat shifted alike."""
        diagonal, between = self.fit.diagonal, self.fit.between
        for wall, order in self._sequences:
            after: list[int] = []
            slope = bend = 0.0
            rate = SLIPS["line moved"].rate / (2 * max(1, len(order)))
            last = self.repeats.get(wall, [])
            for n, i in enumerate([*last, *reversed(order)]):
                bend += diagonal[i] + 2 * sum([between(i, j) for j in after])
                slope += gradient[i]
                after.append(i)
                first = n - len(last)
                if first < 0 or first >= len(order) - 1 or bend <= 1e-9:
                    continue
                best, weight = averaged(slope, bend, MOVED_SPREAD)
                if weight > 1 and changed.keys().isdisjoint(after):
                    where = f"wall {wall} from {self.fit.observations[i].place} on"
                    yield Hypothesis("line moved", dict.fromkeys(after, best), {}, log(rate) + weight, where)
