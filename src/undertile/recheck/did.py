"""What a tick on a stud was for: the treatment and the signed amounts the plan asked when it was ticked.

A plan changes with a reading, a hold or a price, and the tick stays in the record. So the tick keeps what was
done as it was shown then, and counts as done only while the plan asks the same of the stud.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from undertile.framing.plan import FramingPlan, MemberPlan
from undertile.lengths import Unit
from undertile.recheck.asked import WHOLE
from undertile.recheck.facts import Done

MM = Fraction(127, 5)
"""In an inch."""
LEAVE = "leave"
SHIM = "shim"
MOST = 500
"""Characters of such a text that are read: a stud of 40 heights has fewer."""
Tick = Literal["holds", "earlier", "unknown"]
"""The plan asks the same now; it asked something else then; nobody knows what it asked then."""


@dataclass(frozen=True)
class Did:
    """What was done to a stud.

    Attributes
    ----------
    families : tuple of str
        As of a recipe, ``re-set`` for a steel stud set again, ``shim`` for a flange shim.
    amounts : dict of Fraction to Fraction
        Signed, + added, by height; heights at nothing left out. [in]
    """

    families: tuple[str, ...]
    amounts: dict[Fraction, Fraction]

    @property
    def whole(self) -> bool:
        """Whether the face is another over the whole height."""
        return bool((WHOLE | {"re-set"}) & set(self.families))

    @property
    def changed(self) -> bool:
        """Whether the face is another than before; a flange shim changes none."""
        return bool(self.amounts) or self.whole


def did_of(member: MemberPlan, unit: Unit) -> str:
    """What the plan asks of a stud, as a tick keeps it: the same work, the same text.

    Parameters
    ----------
    member : MemberPlan
    unit : {"in", "mm"}
        Of the job: heights and amounts are rational numbers of it.

    Returns
    -------
    str
        ``plane + shim; 48: -1/8; 54: -1/16``; ``leave``.
    """
    scale = MM if unit == "mm" else Fraction(1)
    recipe = member.recipe
    named = ["re-set" if recipe.reset and each == "replace" else each for each in recipe.families]
    families = [*named, *([SHIM] if recipe.flange_shim else [])]
    spots = [
        f"{z * scale}: {'+' if amount > 0 else ''}{amount * scale}"
        for z, amount in zip(member.heights, member.amounts, strict=True)
        if amount
    ]
    return "; ".join([" + ".join(families) or LEAVE, *spots])


def read_did(text: str, unit: Unit) -> Did | None:
    """What such a text says; None where it is none."""
    scale = MM if unit == "mm" else Fraction(1)
    if not text or len(text) > MOST:
        return None
    head, *spots = (part.strip() for part in text.split(";"))
    amounts = {}
    try:
        for spot in spots:
            height, _, amount = spot.partition(":")
            amounts[Fraction(height.strip()) / scale] = Fraction(amount.strip()) / scale
    except (ValueError, ZeroDivisionError):
        return None
    families = tuple(part.strip() for part in head.split("+"))
    return Did(() if families == (LEAVE,) else families, amounts)


def did_in(text: str, unit: Unit, then: Unit) -> str:
    """The same in a job of another unit; as it is where it is none."""
    its = read_did(text, unit)
    if its is None or unit == then:
        return text
    scale = MM if then == "mm" else Fraction(1)
    head = text.split(";")[0].strip()
    spots = [f"{z * scale}: {'+' if size > 0 else ''}{size * scale}" for z, size in its.amounts.items()]
    return "; ".join([head, *spots])


def asks_of(plan: FramingPlan, unit: Unit) -> dict[str, str]:
    """What a plan asks of each of its studs, as a tick keeps it."""
    return {member.name: did_of(member, unit) for member in plan.members}


def tick_of(text: str, asks: str | None) -> Tick:
    """What a tick that keeps this text is worth where the plan asks that (None = it has no such stud).

    Not known what it was for is no "done" by itself: a face taken as right that is not costs the board, a
    tick said again costs one tap.
    """
    if not text.strip():
        return "unknown"
    return "holds" if text.strip() == asks else "earlier"


def ticks_of(done: Mapping[str, Done], plan: FramingPlan, unit: Unit) -> dict[str, Tick]:
    """Every stud ticked, and what its tick is worth under this plan."""
    asks = asks_of(plan, unit)
    return {name: tick_of(each.did, asks.get(name)) for name, each in done.items()}


def worked_before(done: Mapping[str, Done], plan: FramingPlan, unit: Unit) -> dict[str, frozenset[Fraction]]:
    """Studs of the plan that were, or may have been, changed for an earlier one, and at which heights. [in]

    Where it is not known what a tick was for, or its heights are read no more, that is the whole stud.
    """
    out = {}
    members = {member.name: member for member in plan.members}
    for name, tick in ticks_of(done, plan, unit).items():
        if tick == "holds" or name not in members:
            continue
        its, heights = read_did(done[name].did, unit), frozenset(members[name].heights)
        if its is None or its.whole:
            out[name] = heights
        elif its.changed:
            out[name] = heights & set(its.amounts) or heights
    return out
