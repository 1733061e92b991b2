"""Joists as they are: what each is, how far apart, and what is not known taken at its cautious worth."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

from undertile.floor.beam import Beam, Stretch
from undertile.floor.facts import FloorFacts, Joist, Make, Sister, Soft
from undertile.floor.lumber import Values, inertia, values
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined, listed

ZERO = Fraction(0)
SHORT = 2
"""A joist spans at least so many times its depth; a shorter one is mistyped (common practice, no source)."""


@dataclass(frozen=True)
class JoistIs:
    """One joist.

    Attributes
    ----------
    name : str
    at : Fraction
        Its centre, across the joists. [in]
    make, species, grade : str
    width, depth, span, bearing : Fraction or None
        Actual; None = not measured. [in]
    spacing : Fraction or None
        The floor it carries, across: half way to each neighbour; one at the end takes the whole way to its
        only neighbour, on both sides. [in]
    facts : Joist
    unit : {"in", "mm"}
    """

    name: str
    at: Fraction
    make: Make
    species: str
    grade: str
    width: Fraction | None
    depth: Fraction | None
    span: Fraction | None
    bearing: Fraction | None
    spacing: Fraction | None
    facts: Joist
    unit: Unit = "in"

    @property
    def missing(self) -> tuple[str, ...]:
        """What its stiffness cannot be worked without, in words."""
        asked = (
            (self.width, Sentence("actual thickness")),
            (self.depth, Sentence("actual depth")),
            (self.span, Sentence("clear span")),
            (self.spacing, Sentence("distance to its neighbors")),
        )
        return tuple(words for value, words in asked if value is None)

    @property
    def no_span(self) -> bool:
        """Whether its span is too short to be one: inches typed for feet."""
        return self.span is not None and self.depth is not None and self.span < SHORT * self.depth

    @cached_property
    def worth(self) -> Values | None:
        """Design values, None where its depth is not measured."""
        return None if self.depth is None else values(self.species, self.grade, self.depth)

    @property
    def soft_unprobed(self) -> bool:
        """A soft place whose depth nobody has probed: what is left is not known."""
        return any(soft.depth is None for soft in self.facts.soft.values())

    def beam(self, worth: Values | None = None, sister: Sister | None = None) -> Beam | None:
        """The joist as a beam, with what is soft and what is notched left out and its sister beside it.

        Where two of them lie over one another their depths are added, whatever their sides: cautious.

        Parameters
        ----------
        worth : Values, optional
            Else its own.
        sister : Sister, optional
            One more, besides the one that stands there.

        Returns
        -------
        Beam or None
            None where a size is missing or what is left of it is not known.
        """
        worth = worth or self.worth
        if worth is None or self.width is None or self.depth is None or self.span is None:
            return None
        if self.soft_unprobed:
            return None
        taken = self._taken(self.span)
        marks = sorted({ZERO, self.span, *(at for low, high, _ in taken for at in (low, high))})
        stretches = []
        for low, high in pairwise(marks):
            deep = self.depth - sum(out for start, end, out in taken if start <= low and high <= end)
            if deep <= 0:
                return None
            stretches.append(Stretch(low, high, worth.stiffness * inertia(self.width, deep)))
        made = Beam(self.span, tuple(stretches))
        for beside in (self.facts.sister, sister):
            if beside is not None:
                made = made.stiffened(*sister_stretch(beside, self.span), sister_stiffness(beside))
        return made

    def _taken(self, span: Fraction) -> list[tuple[Fraction, Fraction, Fraction]]:
        """What is gone of its depth: from, to, how deep, within the span. [in]"""
        out = []
        for soft in self.facts.soft.values():
            out.append((*soft_stretch(soft, span), ZERO if soft.depth is None else soft.depth.inches))
        for notch in self.facts.notches.values():
            end = notch.start.inches + notch.length.inches
            out.append((notch.start.inches, min(end, span), notch.depth.inches))
        return [each for each in out if each[0] < each[1]]


def soft_stretch(soft: Soft, span: Fraction) -> tuple[Fraction, Fraction]:
    """From where to where a soft place reaches within the span. [in]"""
    return soft.start.inches, min(soft.start.inches + soft.length.inches, span)


def sister_stretch(sister: Sister, span: Fraction) -> tuple[Fraction, Fraction]:
    """From where to where a sister lies beside the joist. [in]"""
    low = ZERO if sister.start is None else sister.start.inches
    return low, span if sister.length is None else min(low + sister.length.inches, span)


def sister_stiffness(sister: Sister) -> Fraction:
    """E I of a sister. [lb in^2]"""
    depth = sister.depth.inches
    return values(sister.species, sister.grade, depth).stiffness * inertia(sister.width.inches, depth)


def joists_of(facts: FloorFacts, unit: Unit = "in") -> tuple[JoistIs, ...]:
    """Every joist, in the order they stand."""
    rest = facts.all_joists
    row = sorted(facts.joists.items(), key=lambda each: each[1].at.inches)
    places = [joist.at.inches for _, joist in row]

    def inches(own: object, general: object) -> Fraction | None:
        value = own if own is not None else general
        return None if value is None else value.inches  # type: ignore[attr-defined]

    return tuple(
        JoistIs(
            name,
            joist.at.inches,
            joist.make or rest.make,
            joist.species or rest.species,
            joist.grade or rest.grade,
            inches(joist.width, rest.width),
            inches(joist.depth, rest.depth),
            inches(joist.span, rest.span),
            inches(joist.bearing, rest.bearing),
            _carries(places, i) or inches(None, rest.spacing),
            joist,
            unit,
        )
        for i, (name, joist) in enumerate(row)
    )


def to_measure(joist: JoistIs, facts: FloorFacts) -> str:
    """What of a joist is to be measured, in words; of all that lack the same in one line."""
    what = joined(joist.missing)
    every = joists_of(facts, joist.unit)
    names = [each.name for each in every if each.missing == joist.missing and each.make != "engineered"]
    if len(names) < 2:
        return Sentence("Measure joist {name}: {what}.", name=joist.name, what=what)
    return Sentence("Measure joists {names}: {what}.", names=listed(names), what=what)


def _carries(places: list[Fraction], i: int) -> Fraction | None:
    """Of the ``i``-th of some places in their order; two joists at one place share its neighbours. [in]"""
    apart = sorted(set(places))
    at = apart.index(places[i])
    gaps = [b - a for a, b in pairwise(apart[max(at - 1, 0) : at + 2])]
    return sum(gaps, ZERO) / len(gaps) if gaps else None


def bays(joists: tuple[JoistIs, ...]) -> tuple[tuple[JoistIs, JoistIs], ...]:
    """Neighbours, from the fixed wall on."""
    return tuple(pairwise(joists))
