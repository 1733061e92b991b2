"""Studs that are trued before they are dry: what that eats of the tolerance (docs/methods/still-to-dry.md).

A face may lie 1/16 behind its plane (convention 3.3), trued or dry. A stud that still goes back eats of that:
the plan keeps its face so far forward that it holds both now and when the stud is dry. One that goes back
further than the 1/16 cannot be held by any amount: it is dried first and read again, and the plan says so.
One that dried after its face was read has gone back already, and is read again.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.framing.problem import PLANE_STEP, Member
from undertile.framing.say import said
from undertile.lengths import Unit
from undertile.sentence import Sentence, form
from undertile.wood.dryfirst import dry_first_order, read_again_order
from undertile.wood.shrink import MAY_LIE_BACK, Since, shrinkage_of

__all__ = ["MAY_LIE_BACK", "READ_AGAIN", "Dries", "dries_of", "dry_first", "with_drying"]
READ_AGAIN: dict[str, Since] = {"stud-read-wet": "read wet", "stud-read-when": "not known"}
"""Findings of studs that are dry and to be read again, by code, with ``Dries.since``."""
SOURCE = "wood-handbook-shrinkage"


_HELD = form("its face goes back {reach} as it dries: now it may lie {left} behind the plane, no more")
_HELD_SINCE = form(
    "its face may have gone back {reach} since it was read: as read it may lie {left} behind, no more"
)


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
    goal : float or None
        The moisture at which it counts as dry. [percent]
    since : str
        As ``wood.shrink.StudShrinkage``; "" = it is still wet.
    """

    stud: str
    least: Fraction = Fraction(0)
    most: Fraction = Fraction(0)
    known: bool = True
    goal: float | None = None
    since: Since = ""

    @property
    def held(self) -> bool:
        """Whether a face can be so set that it holds both now and dry."""
        return self.known and self.most <= MAY_LIE_BACK

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
    every = [Dries(each.stud, each.least, each.most, goal=each.goal, since=each.since) for each in found]
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
    held = _HELD_SINCE if dries.since else _HELD
    why = {
        **member.why,
        "dries": (
            Sentence(
                held,
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
    """What no amount can hold: to be dried, and read again, before it is trued.

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
        if each.since:
            yield _read_again(each, unit)
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
            dry_first_order([each.stud], each.goal),
            SOURCE,
            {"least": f"{each.least} in", "most": f"{each.most} in"},
        )


def _read_again(each: Dries, unit: Unit) -> Finding:
    """It is dry; its face was read when it was not, or nobody knows when."""
    found = {
        "read wet": form("it was wet when it was read: its face goes back {reach} from there"),
        "not known": form(
            "it was wet and is dry; when it was read is not known: its face may go back {reach} from there"
        ),
    }
    return Finding(
        next(code for code, since in READ_AGAIN.items() if since == each.since),
        Severity.ACT,
        each.stud,
        Sentence("a face that is read once its wood is dry"),
        Sentence(found[each.since], reach=each.reach(unit)),
        read_again_order([each.stud], each.since),
        SOURCE,
        {"least": f"{each.least} in", "most": f"{each.most} in"},
    )
