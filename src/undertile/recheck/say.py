"""Places and figures of a re-check in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.say import place, said
from undertile.lengths import Unit

SAID = 6
"""Places listed before the rest is counted."""


def spot(stud: str, height: Fraction, unit: Unit) -> str:
    """``B2 at 48``."""
    return f"{stud} at {place(height, unit)}"


def spots(places: Iterable[tuple[str, Fraction]], unit: Unit) -> str:
    """Places grouped by stud: ``B2 at 18, 36 and 54; B3 at 36``."""
    by_stud: dict[str, list[str]] = {}
    for stud, height in places:
        by_stud.setdefault(stud, []).append(place(height, unit))
    return "; ".join(f"{stud} at {listed(heights)}" for stud, heights in by_stud.items())


def listed(words: Sequence[str]) -> str:
    """``2``, ``2 and 18``, ``2, 18 and 36``."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def off(value: Fraction, unit: Unit) -> str:
    """A face off its plane: ``on the plane``, ``1/16" proud``, ``1/8" back``."""
    if not value:
        return "on the plane"
    return f"{said(abs(value), unit, 'up')} {'proud' if value > 0 else 'back'}"


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Fail before not shown before pass; with nothing to judge, not shown."""
    found = set(verdicts)
    for verdict in (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS):
        if verdict in found:
            return verdict
    return Verdict.NOT_SHOWN


def to_show(checks: Iterable[Check]) -> tuple[str, ...]:
    """What to read or mend, each once, in order."""
    return tuple(dict.fromkeys(check.next_step for check in checks if check.next_step))
