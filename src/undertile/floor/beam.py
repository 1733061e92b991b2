"""A simple beam whose stiffness may change along it: how far it goes down, exactly.

By the unit load method [1]_: the deflection at x is the integral of M(s) m(s) / EI(s) over the span, M the
moment of the load and m that of a unit load at x. Shear is left out, as in the span tables; bearings do not
give. Lengths are inches, loads pounds, moduli psi: rational throughout.

References
----------
.. [1] Any text on mechanics of materials: virtual work; for an even beam 5 w L^4 / (384 E I) under an even
   load, P L^3 / (48 E I) under one in the middle (AWC Design Aid 6, figures 1 and 7, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

STATIONS = 48
"""Places along the span where the deflection is looked at; the middle is one of them."""


@dataclass(frozen=True)
class Stretch:
    """A piece of beam of one stiffness, from ``low`` to ``high`` [in], EI [lb in^2]."""

    low: Fraction
    high: Fraction
    stiffness: Fraction


@dataclass(frozen=True)
class Beam:
    """A simply supported beam.

    Attributes
    ----------
    span : Fraction
        [in]
    stretches : tuple of Stretch
        From 0 to the span without a hole.
    """

    span: Fraction
    stretches: tuple[Stretch, ...]

    @classmethod
    def even(cls, span: Fraction, stiffness: Fraction) -> Beam:
        """One stiffness from end to end."""
        return cls(span, (Stretch(Fraction(0), span, stiffness),))

    def stiffened(self, low: Fraction, high: Fraction, more: Fraction) -> Beam:
        """With something fastened beside it from ``low`` to ``high`` that adds its own EI."""
        out = []
        for each in self.stretches:
            cuts = sorted({each.low, each.high, *(c for c in (low, high) if each.low < c < each.high)})
            for a, b in pairwise(cuts):
                inside = low <= a and b <= high
                out.append(Stretch(a, b, each.stiffness + (more if inside else 0)))
        return Beam(self.span, tuple(out))

    def under_even_load(self, load: Fraction, at: Fraction) -> Fraction:
        """Deflection at a place under an even load over the whole span.

        Parameters
        ----------
        load : Fraction
            [lb/in]
        at : Fraction
            From the first bearing. [in]

        Returns
        -------
        Fraction
            Down is plus. [in]
        """
        half = load / 2
        return self._sum((0, half * self.span, -half), at)

    def under_point_load(self, load: Fraction, where: Fraction, at: Fraction) -> Fraction:
        """Deflection at a place under a load [lb] on one spot. [in]"""
        left = load * (self.span - where) / self.span
        return sum(
            (
                self._integral((0, left), Fraction(0), where, at),
                self._integral((load * where, left - load), where, self.span, at),
            ),
            Fraction(0),
        )

    def worst(self, load: Fraction) -> Fraction:
        """The most it goes down under an even load, looked at in ``STATIONS`` steps. [in]"""
        if len(self.stretches) == 1:  # symmetry: the middle
            return self.under_even_load(load, self.span / 2)
        return load * _most(self)

    def _sum(self, moment: Sequence[Fraction | int], at: Fraction) -> Fraction:
        return self._integral(moment, Fraction(0), self.span, at)

    def _integral(
        self, moment: Sequence[Fraction | int], low: Fraction, high: Fraction, at: Fraction
    ) -> Fraction:
        """The integral of moment (a polynomial in s) times the unit load's moment over EI."""
        total = Fraction(0)
        for each in self.stretches:
            for a, b, unit in (
                (max(each.low, low), min(each.high, high, at), (0, 1 - at / self.span)),
                (max(each.low, low, at), min(each.high, high), (at, -at / self.span)),
            ):
                if a < b:
                    total += _area(_product(moment, unit), a, b) / each.stiffness
        return total


@lru_cache(maxsize=256)
def _most(beam: Beam) -> Fraction:
    """The most that a load of 1 lb/in takes a beam down, at the stations. [in]

    What ``under_even_load`` comes to, its two integrals summed once along the span and not anew at each
    station: on a bearing's side of x the unit load's moment is s (1 - x/L), on the other x (1 - s/L).
    """
    span = beam.span
    stops = sorted(
        {span * k / STATIONS for k in range(1, STATIONS)} | {s.low for s in beam.stretches} | {span}
    )
    stations = {span * k / STATIONS for k in range(1, STATIONS)}
    near = far = Fraction(0)
    before = Fraction(0), Fraction(0)
    sums: list[tuple[Fraction, Fraction, Fraction]] = []
    pieces = iter(beam.stretches)
    piece = next(pieces)
    for at in stops:
        while at > piece.high:
            piece = next(pieces)
        square = at * at
        # antiderivatives of M s and of M (L - s), M = s (L - s) / 2
        now = (
            square * at * (4 * span - 3 * at) / 24,
            square * (6 * span * span - 8 * span * at + 3 * square) / 24,
        )
        near += (now[0] - before[0]) / piece.stiffness
        far += (now[1] - before[1]) / piece.stiffness
        before = now
        if at in stations:
            sums.append((at, near, far))
    return max((near_at * (span - at) + at * (far - far_at)) / span for at, near_at, far_at in sums)


def _product(one: Sequence[Fraction | int], other: Sequence[Fraction | int]) -> list[Fraction]:
    out = [Fraction(0)] * (len(one) + len(other) - 1)
    for i, a in enumerate(one):
        for j, b in enumerate(other):
            out[i + j] += Fraction(a) * b
    return out


def _area(terms: Sequence[Fraction], low: Fraction, high: Fraction) -> Fraction:
    return sum((c * (high ** (k + 1) - low ** (k + 1)) / (k + 1) for k, c in enumerate(terms)), Fraction(0))
