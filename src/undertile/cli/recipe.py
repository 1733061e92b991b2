"""What is done to a stud, in the words a person says on site."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from undertile.framing.plan import MemberPlan, Plane
from undertile.framing.say import written as amount
from undertile.lengths import MM, Unit


def short(member: MemberPlan) -> str:
    """The treatment in a word or two, for the foot of a column."""
    words = member.recipe.name
    if member.recipe.flange_shim:
        words = "shim" if words == "leave" else f"{words} + shim"
    return words


def plane_words(plane: Plane, nominal: Fraction, ends: Sequence[tuple[str, Fraction]], unit: Unit) -> str:
    """Where a wall's faces end up, as readings from its reference line: what a person marks and strings.

    Parameters
    ----------
    plane : Plane
    nominal : Fraction
        The reading that counts as offset zero. [in]
    ends : sequence of (name, along)
        First and last stud.
    unit : {"in", "mm"}
    """
    at = {name: amount(nominal - plane.at(along, Fraction(0)), unit, mark=True) for name, along in ends}
    same = len(set(at.values())) == 1
    where = " and ".join(f"{each} at {name}" for name, each in at.items())
    words = f"faces end {next(iter(at.values())) if same else where} from the line"
    if same:
        words += _side(plane.at(ends[0][1], Fraction(0)), unit)
    words += ", plumb" if not plane.lean else _lean(plane.lean, unit)
    if plane.step:
        words += f"; above the flange {amount(plane.step, unit, mark=True)} nearer the line"
    return words


def _side(offset: Fraction, unit: Unit) -> str:
    if not offset:
        return " (the nominal)"
    return f" ({amount(abs(offset), unit, mark=True)} {'toward the room' if offset > 0 else 'back'})"


def _lean(lean: Fraction, unit: Unit) -> str:
    side = "toward the room" if lean > 0 else "back"
    over, said = (Fraction(96), "8 ft") if unit == "in" else (2400 * MM, "2.4 m")
    return f" at the floor, leaning {side} {amount(abs(lean) * over, unit, mark=True)} in {said}"


def sentence(words: str) -> str:
    """Words as a sentence: a capital, a full stop, the names in them as they are."""
    return f"{words[:1].upper()}{words[1:]}."
