"""Studs that are trued before they are dry: what that eats of the tolerance (docs/methods/still-to-dry.md).

A face may lie 1/16 behind its plane (convention 3.3), trued or dry. A stud that still goes back eats of that:
the plan keeps its face so far forward that it holds both now and when the stud is dry. One that goes back
further than the 1/16 cannot be held by any amount: it is dried first, and the plan says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.framing.problem import PLANE_STEP, SIXTEENTH, Member
from undertile.framing.say import said
from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.wood.shrink import shrinkage_of

MAY_LIE_BACK = SIXTEENTH
"""How far behind its plane a finished face may lie (convention 3.3). [in]"""
SOURCE = "wood-handbook-shrinkage"


@dataclass(frozen=True)
class Dries:
    """A stud that is still to dry.

    Attributes
    ----------
    stud : str
    least, most : Fraction
        How far its face still goes back; both 0 where that is not known. [in]
    known : bool
        False: it is wet, and its depth is not measured.
    """

    stud: str
    least: Fraction = Fraction(0)
    most: Fraction = Fraction(0)
    known: bool = True

    @property
    def held(self) -> bool:
        """Whether a face can be so set that it holds both now and dry."""
        return self.known and self.most <= MAY_LIE_BACK

    @property
    def middle(self) -> Fraction:
        """Halfway between the least and the most. [in]"""
        return (self.least + self.most) / 2

    def reach(self, unit: Unit) -> str:
        """``1/64" to 3/64"``."""
        return Sentence(
            "{least} to {most}", least=said(self.least, unit, "down"), most=said(self.most, unit, "up")
        )


def dries_of(all_facts: Mapping[str, Any]) -> tuple[Dries, ...]:
    """The studs of a job that are still to dry, by name.

    Parameters
    ----------
    all_facts : mapping of str to facts
        Of every stage by key.
    """
    found, unknown = shrinkage_of(all_facts)
    every = [Dries(each.stud, each.least, each.most) for each in found]
    return tuple(
        sorted([*every, *(Dries(name, known=False) for name in unknown)], key=lambda each: each.stud)
    )


def with_drying(member: Member, dries: Dries | None, flange: Sequence[bool], unit: Unit = "in") -> Member:
    """A member held to what is left of its tolerance [contract 12].

    Parameters
    ----------
    member : Member
    dries : Dries, optional
        None, not known or more than can be held: the member as it is.
    flange : sequence of bool, one per height
    unit : {"in", "mm"}

    Returns
    -------
    Member
    """
    if dries is None or not dries.held or not dries.most:
        return member
    left = said(MAY_LIE_BACK - dries.most, unit, "down")
    reach = dries.reach(unit)
    why = {
        **member.why,
        "dries": (
            Sentence(
                "its face goes back {reach} as it dries: now it may lie {left} behind the plane, no more",
                reach=reach,
                left=left,
            ),
            SOURCE,
        ),
    }
    depths = member.plane_depth
    if dries.most > MAY_LIE_BACK - PLANE_STEP and any(d for d, f in zip(depths, flange, strict=True) if f):
        depths = tuple(Fraction(0) if f else d for d, f in zip(depths, flange, strict=True))
        reason = Sentence("not planed in the flange zone before it is dry: it goes back {reach}", reach=reach)
        why.setdefault("plane limit", (reason, SOURCE))
    if member.wet_bed:
        why["wet bed"] = (Sentence("no bed on a stud that is still to dry"), SOURCE)
    return replace(member, plane_depth=depths, wet_bed=False, goes_back=dries.most, why=why)


def dry_first(dries: Iterable[Dries], names: Iterable[str], unit: Unit = "in") -> Iterator[Finding]:
    """What no amount can hold: to be dried before it is trued.

    Parameters
    ----------
    dries : iterable of Dries
    names : iterable of str
        Studs of the plan.
    unit : {"in", "mm"}

    Returns
    -------
    iterator of Finding
    """
    planned = set(names)
    for each in dries:
        if each.stud not in planned or each.held or not each.known:
            continue
        yield Finding(
            "stud-dry-first",
            Severity.ACT,
            each.stud,
            Sentence(
                "a face that stays within {limit} behind its plane as the stud dries",
                limit=said(MAY_LIE_BACK, unit),
            ),
            Sentence(
                "its face goes back {reach} as it dries; the plan is for the face as read",
                reach=each.reach(unit),
            ),
            Sentence(
                "Dry it first, then read it again and true it; or leave it {middle} further in than planned, "
                "the middle of that, and read it again when it is dry.",
                middle=said(each.middle, unit),
            ),
            SOURCE,
            {"least": f"{each.least} in", "most": f"{each.most} in"},
        )
