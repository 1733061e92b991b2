"""Places and figures of a re-check in words."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.say import place, said
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined, listed

STANDING: dict[str, Sentence] = {
    "read again": Sentence("read again"),
    "first survey": Sentence("first survey"),
    "estimated": Sentence("estimated"),
    "missing": Sentence("missing"),
    "cannot reach": Sentence("cannot reach"),
}
"""What a face stands on, as it is called."""
TOOLS: dict[str, Sentence] = {
    "rule": Sentence("rule"),
    "tape": Sentence("tape"),
    "sticks": Sentence("sticks"),
    "laser meter": Sentence("laser meter"),
    "level": Sentence("level"),
    "laser line": Sentence("laser line"),
}
"""Tools, as they are called."""
SAID = 6
"""Places listed before the rest is counted."""


def spot(stud: str, height: Fraction, unit: Unit) -> str:
    """``B2 at 48``."""
    return Sentence("{name} at {height}", name=stud, height=place(height, unit))


def spots(places: Iterable[tuple[str, Fraction]], unit: Unit) -> str:
    """Places grouped by stud: ``B2 at 18, 36 and 54; B3 at 36``."""
    by_stud: dict[str, list[str]] = {}
    for stud, height in places:
        by_stud.setdefault(stud, []).append(place(height, unit))
    return joined(
        (
            Sentence("{name} at {height}", name=stud, height=listed(heights))
            for stud, heights in by_stud.items()
        ),
        "{first}; {then}",
    )


def off(value: Fraction, unit: Unit) -> str:
    """A face off its plane: ``on the plane``, ``1/16" proud``, ``1/8" back``."""
    if not value:
        return Sentence("on the plane")
    return Sentence("{by} proud" if value > 0 else "{by} back", by=said(abs(value), unit, "up"))


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
