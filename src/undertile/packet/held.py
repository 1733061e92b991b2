"""What a person holds, as every paper and screen says it: at the wall, at the stud, with the reason
(convention 4.6).
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from undertile.framing.facts import FramingFacts
from undertile.packet.places import place_words
from undertile.packet.words import Words
from undertile.survey.facts import SurveyFacts

_NAME = re.compile(r"\w+")


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


def over_doubt(spots: Sequence[str], words: Words) -> str:
    """What under a hold was read in doubt, said; "" where nothing is.

    A hold is a person's word about what stands there: a reading that looks wrong is a reason to look again
    before anything is built around it.

    Parameters
    ----------
    spots : sequence of str
        As the survey names them: ``L3 at 54``.
    words : Words
    """
    if not spots:
        return ""
    key = "held-doubt-more" if len(spots) > 1 else "held-doubt"
    return words(key, where=place_words(spots[0], words), more=len(spots) - 1)


def held_over(
    framing: FramingFacts, survey: SurveyFacts, spots: Sequence[str], words: Words
) -> dict[str, str]:
    """By the name of each wall and stud that is held: what of it was read in doubt.

    Parameters
    ----------
    framing : FramingFacts
    survey : SurveyFacts
    spots : sequence of str
        Places in doubt: ``L3 at 54``, ``wall R from R3 at 2 on``.
    words : Words
    """
    named = [(spot, set(_NAME.findall(spot))) for spot in dict.fromkeys(spots)]
    out: dict[str, str] = {}
    for name, wall in survey.walls.items():
        if plane_held(framing, name, words):
            out[name] = over_doubt([spot for spot, its in named if its & wall.studs.keys()], words)
        for stud in wall.studs:
            if stud_held(framing, stud, words):
                out[stud] = over_doubt([spot for spot, its in named if stud in its], words)
    return {name: said for name, said in out.items() if said}


def _ended(reason: str) -> str:
    """A reason as a sentence ends."""
    reason = reason.strip()
    return reason if reason.endswith((".", "!", "?")) else f"{reason}."
