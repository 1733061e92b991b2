"""What must be measured before the pan can ask for anything: one finding each, never a guess.

What the room lacks (widths, squareness, heights in the flange zone) is the survey's and the framing's to say.
"""

from __future__ import annotations

from undertile.findings import Finding, Severity
from undertile.pan.say import say
from undertile.pan.seat import Room
from undertile.sentence import Sentence


def _ask(code: str, where: str, expected: str, found: str, next_step: str) -> Finding:
    return Finding(code, Severity.ACT, where, expected, found, next_step, "convention-3")


def missing(room: Room) -> tuple[Finding, ...]:
    """One finding for each size or reading without which a demand is not made."""
    pan, drain, unit = room.facts.pan, room.facts.drain, room.unit
    found: list[Finding] = []
    for size, value, carton in (
        ("width", pan.width, pan.carton_width),
        ("depth", pan.depth, pan.carton_depth),
    ):
        if value is None:
            lacks = Sentence(
                "the pan's width is not measured" if size == "width" else "the pan's depth is not measured"
            )
            if carton is not None:
                lacks = Sentence(
                    "{lacks}; the carton says {carton}, which is nominal and is not used",
                    lacks=lacks,
                    carton=say(carton.inches, unit),
                )
            found.append(
                _ask(
                    f"pan-{size}-missing",
                    "pan",
                    Sentence("its actual width" if size == "width" else "its actual depth"),
                    lacks,
                    Sentence(
                        "Measure the width along the back wall over the outside faces of the flanges, at "
                        "their widest."
                        if size == "width"
                        else "Measure the depth from the back flange to the front over the outside faces of "
                        "the flanges, at their widest."
                    ),
                )
            )
    if pan.flange_height is None:
        found.append(
            _ask(
                "flange-height-missing",
                "pan",
                Sentence("the top of the flange above the subfloor"),
                Sentence(
                    "the flange height is not entered; the lowest height read ({height}) stands for it",
                    height=say(room.heights[0], unit),
                ),
                Sentence(
                    "Measure from the subfloor to the top of the flange with the pan standing as it will be "
                    "set."
                ),
            )
        )
    if drain is not None and pan.outlet is None:
        found.append(
            _ask(
                "outlet-missing",
                "pan",
                Sentence("where the outlet is, from the left and back flange faces"),
                Sentence("the outlet is not measured, so the drain asks nothing of the walls"),
                Sentence("Measure from the outside left and back flange faces to the outlet's center."),
            )
        )
    if drain is None and pan.outlet is not None:
        found.append(
            _ask(
                "drain-missing",
                "drain",
                Sentence("where the drain is, from the nominal planes of a side wall and of B"),
                Sentence("the drain is not measured, so nothing holds the walls to it"),
                Sentence(
                    "Measure from the two reference lines to the drain's center, and how far it can float."
                ),
            )
        )
    if drain is not None and drain.side not in room.walls:
        found.append(
            _ask(
                "drain-side",
                "drain",
                Sentence("a distance from a side wall of this job"),
                Sentence("the drain is measured from wall {side}, which is not read", side=drain.side),
                Sentence("Measure it from a side wall that is read, or read that wall."),
            )
        )
    return tuple(found)
