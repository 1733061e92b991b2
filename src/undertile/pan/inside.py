"""Finished inside size against the code minimum (IRC P2708.1), from the planes and what goes on them.

Width is between the finished faces of L and R at the narrowest read spot over the pan, depth from the
finished back wall to the centre of the threshold. Local codes ask for more; verify with the local authority.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from undertile.findings import Check, Verdict
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.seat import inches
from undertile.pan.valve import finish_stack
from undertile.sentence import Sentence, joined

LEAST_AREA = Fraction(900)
"""Finished inside area, IRC P2708.1. [sq in]"""
LEAST_SIDE = Fraction(30)
"""Least inside dimension. [in]"""
NARROW_SIDE, NARROW_AREA = Fraction(25), Fraction(1300)
"""Exception of P2708.1: one dimension may be 25 in where the area is 1300 sq in or more."""
LOCAL_AREA, LOCAL_SIDE = Fraction(1024), Fraction(32)
"""What some places ask for instead (Chicago; UPC: the same area and a 30 in circle). [sq in], [in]"""
SQUARE_CM = Fraction(64516, 10000)
"""Square centimetres in a square inch, exact."""


def inside_checks(built: Built) -> list[Check]:
    """Least inside dimension, then area."""
    side = Topic("inside-side", "Least finished inside dimension", "shower", "irc-p2708.1")
    area = Topic("inside-area", "Finished inside area", "shower", "irc-p2708.1")
    limit_side = Sentence("at least {least}", least=built.near(LEAST_SIDE))
    limit_area = Sentence("at least {least}", least=_area(built, LEAST_AREA))
    width, depth, because, missing = inside_size(built)
    if width is None and depth is None:
        measure = Sentence("Measure {what}.", what=joined(missing, "{first}; {then}"))
        return [side.not_shown(limit_side, measure), area.not_shown(limit_area, measure)]
    if width is None or depth is None:
        return _half_known(built, side, area, width, depth, because, missing)
    share = min(width, depth)
    wide_enough = width * depth >= NARROW_AREA and share >= NARROW_SIDE
    because = (*because, _local(built))
    if share < LEAST_SIDE and wide_enough:
        because = (
            *because,
            Sentence(
                "under {least} but allowed: the area is {area} or more",
                least=built.near(LEAST_SIDE),
                area=_area(built, NARROW_AREA),
            ),
        )
        sides = side.judge(share, NARROW_SIDE, None, built.unit, because=because)
    else:
        fix = Sentence(
            "It lacks {share}: take a wall back or choose a thinner finish.",
            share=built.up(LEAST_SIDE - share),
        )
        sides = side.judge(share, LEAST_SIDE, None, built.unit, because=because, fix=fix)
    verdict = Verdict.PASS if width * depth >= LEAST_AREA else Verdict.FAIL
    return [
        sides,
        area.said(
            verdict,
            _area(built, width * depth),
            limit_area,
            margin=_area(built, width * depth - LEAST_AREA, signed=True),
            because=because,
            step=Sentence("Choose a larger pan or a thinner finish; the inspector decides."),
        ),
    ]


def _area(built: Built, value: Fraction, *, signed: bool = False) -> str:
    """An area in the job's unit, rounded down to a whole one."""
    size = floor(value * SQUARE_CM if built.unit == "mm" else value)
    return Sentence(
        "{size} sq cm" if built.unit == "mm" else "{size} sq in", size=f"{size:+d}" if signed else f"{size}"
    )


def _local(built: Built) -> str:
    return Sentence(
        "some places ask for {area}, and {side} or a {circle} circle: verify with the local authority",
        area=_area(built, LOCAL_AREA),
        side=built.near(LOCAL_SIDE),
        circle=built.near(LEAST_SIDE),
    )


def _half_known(
    built: Built,
    side: Topic,
    area: Topic,
    width: Fraction | None,
    depth: Fraction | None,
    because: tuple[str, ...],
    missing: tuple[str, ...],
) -> list[Check]:
    """One dimension known: it can fail, but alone it shows neither the least dimension nor the area."""
    known = width if width is not None else depth or ZERO
    measure = Sentence("Measure {what}.", what=joined(missing, "{first}; {then}"))
    limit_side = Sentence("at least {least}", least=built.near(LEAST_SIDE))
    needs = built.up(max(LEAST_AREA / known, LEAST_SIDE)) if known > 0 else ""
    because = (
        (
            *because,
            Sentence(
                "the depth must come to {needs} at least"
                if width is not None
                else "the width must come to {needs} at least",
                needs=needs,
            ),
            _local(built),
        )
        if needs
        else because
    )
    if known < NARROW_SIDE:
        sides = side.judge(
            known,
            LEAST_SIDE,
            None,
            built.unit,
            because=because,
            fix=Sentence(
                "It lacks {short} whatever the depth is."
                if width is not None
                else "It lacks {short} whatever the width is.",
                short=built.up(LEAST_SIDE - known),
            ),
        )
    else:
        sides = side.not_shown(limit_side, measure, because)
    return [
        sides,
        area.not_shown(Sentence("at least {least}", least=_area(built, LEAST_AREA)), measure, because),
    ]


def inside_size(
    built: Built,
) -> tuple[Fraction | None, Fraction | None, tuple[str, ...], tuple[str, ...]]:
    """Finished inside width and depth.

    Returns
    -------
    width, depth : Fraction or None
        None where something is missing. [in]
    because : tuple of str
    missing : tuple of str
        What to measure, as it follows "Measure".
    """
    stack, layers, words = finish_stack(built)
    missing = [Sentence("the thickness of {layers}", layers=joined(layers))] if layers else []
    because = [Sentence("on the studs: {words}", words=words)] if words else []
    width = depth = None
    if built.depth is None:
        missing.append(Sentence("the pan's depth over the outside faces of the flanges"))
    found = _width(built, stack)
    if not built.alcove:
        missing.append(Sentence("where the panel on the open side stands, which this job does not hold"))
    elif built.survey.frame.opening_at_back is None:
        missing.append(Sentence("the inside width from wall L to wall R at three depths"))
    elif found is None:
        missing.append(Sentence("the studs of both side walls above the flange"))
    elif not layers:
        width, height, at = found
        because.append(
            Sentence(
                "width {width} at height {height}, {depth} from the back",
                width=built.down(width),
                height=built.near(height),
                depth=built.near(at),
            )
        )
    threshold = inches(built.pan.pan.threshold)
    plane = built.plane("B")
    if threshold is None:
        missing.append(Sentence("the threshold's width, front to back"))
    if plane is None:
        missing.append(Sentence("the studs of the back wall"))
    if threshold is not None and plane is not None and built.depth is not None and not layers:
        lean = max(
            (built.target("B", along, height) or ZERO) - plane.at(along, built.seat_top("B"))
            for along in (ZERO, built.width or ZERO)
            for height in _above(built, "B")
        )
        depth = built.depth - threshold / 2 - stack - max(lean, ZERO)
        because.append(
            Sentence(
                "depth {depth}: pan {pan} to the middle of a threshold of {threshold}, less the finish on "
                "the back wall",
                depth=built.down(depth),
                pan=built.near(built.depth),
                threshold=built.near(threshold),
            )
        )
    return width, depth, tuple(because), tuple(missing)


def _above(built: Built, wall: str) -> list[Fraction]:
    """Heights read up to 70 in and the first past it: what the minimum is kept up to. [in]"""
    heights = sorted({h for member in built.members(wall) for h in member.heights})
    kept = [h for h in heights if h <= UP_TO]
    past = [h for h in heights if h > UP_TO]
    return kept + past[:1] or [ZERO]


UP_TO = Fraction(70)
"""The size is kept up to this height above the drain (P2708.1). [in]"""


def _width(built: Built, stack: Fraction) -> tuple[Fraction, Fraction, Fraction] | None:
    """Narrowest finished width over the pan: (width, height, depth). [in]"""
    if built.opening(ZERO) is None or built.plane("L") is None or built.plane("R") is None:
        return None
    front = built.depth or ZERO
    found = []
    for depth in (ZERO, front):
        for height in sorted({*_above(built, "L"), *_above(built, "R")}):
            faces = [built.target(wall, depth, height) or ZERO for wall in "LR"]
            found.append(((built.opening(depth) or ZERO) - sum(faces, ZERO) - 2 * stack, height, depth))
    return min(found)
