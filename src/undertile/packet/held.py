"""What a person holds, as every paper and screen says it: at the wall, at the stud, with the reason
(convention 4.6).
"""

from __future__ import annotations

from undertile.framing.facts import FramingFacts
from undertile.packet.words import Words


def plane_held(framing: FramingFacts, wall: str, words: Words) -> str:
    """``Held: the tile edge.`` for a wall's plane; "" where it is free."""
    hold = next((work.hold for name, work in framing.walls.items() if name == wall), None)
    return words("held", reason=_ended(hold.reason)) if hold is not None and hold.holds else ""


def stud_held(framing: FramingFacts, stud: str, words: Words) -> str:
    """The same for a stud that is held to a treatment; "" where it is free."""
    found = framing.studs.get(stud)
    if found is None or found.hold is None:
        return ""
    return words("held", reason=_ended(found.hold.reason))


def _ended(reason: str) -> str:
    """A reason as a sentence ends."""
    reason = reason.strip()
    return reason if reason.endswith((".", "!", "?")) else f"{reason}."
