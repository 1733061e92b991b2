"""A plane that a person holds, as demands; the leans that are offered [contract 2, 3]."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import floor

from undertile.findings import Finding, Severity
from undertile.framing.facts import FramingFacts, PlaneHold, WallWork
from undertile.framing.problem import Demand
from undertile.framing.say import said
from undertile.framing.studfindings import wall_work
from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.survey.result import WallOffsets

PLUMB_LIMIT = Fraction(1, 8)
"""Lean over 8 ft, UFGS for thin-set tile. [in]"""
LEAN_STEP = Fraction(1, 16)
LEAN_OVER = Fraction(96)
"""Leans are offered in whole sixteenths over 8 ft, a step a person can mark [contract 2]. [in]"""


def leans_of(work: WallWork) -> tuple[Fraction, ...]:
    """The leans offered on a wall: the held one, else whole sixteenths in 8 ft up to the limit. [in/in]"""
    if work.hold is not None and work.hold.lean is not None:
        return (work.hold.lean.inches / LEAN_OVER,)
    limit = PLUMB_LIMIT if work.plumb_limit is None else abs(work.plumb_limit.inches)
    most = floor(limit / LEAN_STEP)
    return tuple(k * LEAN_STEP / LEAN_OVER for k in range(-most, most + 1))


def hold_demands(
    walls: Sequence[WallOffsets], facts: FramingFacts, unit: Unit
) -> tuple[tuple[Demand, ...], tuple[Finding, ...]]:
    """Every held offset and skew as a demand; a held lean is the only lean offered (``leans_of``).

    Parameters
    ----------
    walls : sequence of WallOffsets
        Those with studs read.
    facts : FramingFacts
    unit : {"in", "mm"}

    Returns
    -------
    demands : tuple of Demand
    findings : tuple of Finding
        A lean past the plumb limit; a skew without a second stud.
    """
    demands: list[Demand] = []
    findings: list[Finding] = []
    for wall in walls:
        hold = wall_work(facts, wall.name).hold
        if hold is None:
            continue
        demands += _hold_demands(wall, hold, unit)
        limit = wall_work(facts, wall.name).plumb_limit
        most = PLUMB_LIMIT if limit is None else abs(limit.inches)
        if hold.lean is not None and abs(hold.lean.inches) > most:
            findings.append(
                Finding(
                    "hold-out-of-plumb",
                    Severity.ACT,
                    f"wall {wall.name}",
                    Sentence("a lean of at most {most} in 8 ft", most=said(most, unit)),
                    Sentence(
                        "it is held at {hold} in 8 ft ({reason})",
                        hold=said(hold.lean.inches, unit, signed=True),
                        reason=hold.reason,
                    ),
                    Sentence(
                        "Keep it if you mean it; thin-set tile on it is outside the published tolerance."
                    ),
                    "ufgs-thinset-plumb",
                )
            )
        if hold.skew is not None and len(wall.studs) < 2:
            findings.append(
                Finding(
                    "hold-without-length",
                    Severity.ACT,
                    f"wall {wall.name}",
                    Sentence("two studs or more, for a held skew"),
                    Sentence("one stud is read, so the skew it is held at says nothing yet"),
                    Sentence("Read another stud of wall {name}.", name=wall.name),
                    "convention-4",
                )
            )
    return tuple(demands), tuple(findings)


def _hold_demands(wall: WallOffsets, hold: PlaneHold, unit: Unit) -> Iterable[Demand]:
    zero, name = Fraction(0), wall.name
    if hold.offset is not None:
        at = hold.offset.inches
        yield Demand(
            f"hold-{name}-offset",
            ((name, zero, zero, Fraction(1)),),
            at,
            at,
            Sentence("Wall {name} held at {at}", name=name, at=said(at, unit, signed=True)),
            hold.reason,
            "convention-4",
        )
    first, last = wall.studs[0].along, wall.studs[-1].along
    if hold.skew is not None and last > first:
        skew = hold.skew.inches
        yield Demand(
            f"hold-{name}-skew",
            ((name, last, zero, Fraction(1)), (name, first, zero, Fraction(-1))),
            skew,
            skew,
            Sentence(
                "Wall {name} held at a skew of {skew} over its studs",
                name=name,
                skew=said(skew, unit, signed=True),
            ),
            hold.reason,
            "convention-4",
        )
