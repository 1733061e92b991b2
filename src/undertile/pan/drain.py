"""Outlet over the drain: where the pan can stand between the planes, and what the float leaves.

The pan lies along the back plane (docs/methods/pan.md, "Drain"); across, it is set in the middle of its play
where the drain's float reaches that, else as near the drain as it goes (``pan.set_place``), and judged there.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check
from undertile.pan.built import ZERO, Built
from undertile.pan.facts import Drain, Outlet
from undertile.pan.judge import Topic
from undertile.pan.seat import along_back, squareness
from undertile.pan.set_place import set_place, set_words
from undertile.sentence import Sentence


def drain_checks(built: Built) -> list[Check]:
    """Across and out; none when there is neither outlet nor drain."""
    if built.pan.drain is None and built.pan.pan.outlet is None:
        return []
    return [_across(built), _out(built)]


def _ask(built: Built) -> str:
    if built.pan.pan.outlet is None:
        return Sentence("Measure the outlet's center from the pan's outside left and back flange faces.")
    if built.pan.drain is None:
        return Sentence("Measure the drain's center from the two reference lines, and how far it can float.")
    if built.width is None or built.depth is None:
        return Sentence("Measure the pan's width and depth over the outside faces of the flanges.")
    return ""


def _across(built: Built) -> Check:
    topic = Topic("drain-across", "Outlet over the drain, across", "drain", "convention-3")
    drain, outlet = built.pan.drain, built.pan.pan.outlet
    limit = (
        Sentence("within the drain's float")
        if drain is None
        else Sentence("at most {most} off", most=built.near(drain.float_x.inches))
    )
    if measure := _ask(built):
        return topic.not_shown(limit, measure)
    if drain is None or outlet is None:  # said by _ask
        return topic.not_shown(limit, "")
    if drain.side not in built.walls or built.plane(drain.side) is None:
        return topic.not_shown(
            limit, Sentence("Measure the drain from a side wall that is read and planned.")
        )
    if built.alcove:
        return _between(built, topic, limit, drain, outlet)
    return _against(built, topic, drain, outlet)


def _between(built: Built, topic: Topic, limit: str, drain: Drain, outlet: Outlet) -> Check:
    """In an alcove the pan may be pushed within its play: judged where the order of work sets it."""
    place = set_place(built)
    if place is None or place.wanted is None:
        measure = Sentence(
            "Measure the inside width from wall L to wall R: the pan's place between them is not shown."
        )
        return topic.not_shown(limit, measure)
    if place.least > place.most:
        return topic.not_shown(
            limit, Sentence("The pan does not drop in, so it has no place yet: see the play.")
        )
    because = (
        _measured(built, drain, outlet),
        Sentence(
            "the pan can be set over {range} between the walls", range=built.down(place.most - place.least)
        ),
        set_words(built, place),
    )
    spot = (drain.side, outlet.y.inches, built.seat_top(drain.side))
    sigma = built.sigma(spot, opening=outlet.y.inches)
    return _miss(built, topic, place.at - place.wanted, drain, sigma, because)


def _against(built: Built, topic: Topic, drain: Drain, outlet: Outlet) -> Check:
    """With one side wall the pan stands against it: its flange touches the plane at one end."""
    side = drain.side
    plane = built.plane(side)
    width, depth = built.width or ZERO, built.depth or ZERO
    sign = 1 if side == "L" else -1
    turn = squareness(built.survey).turn[side]
    own = outlet.x.inches if side == "L" else width - outlet.x.inches
    face = max(
        (ZERO if plane is None else plane.at(y, z))
        + turn * (y - drain.y.inches)
        + sign * built.turn("B") * (y - outlet.y.inches)
        for y in (ZERO, depth)
        for z in built.seat_heights(side)
    )
    off = sign * (face + own - drain.x.inches)
    because = (
        _measured(built, drain, outlet),
        Sentence("the pan stands against wall {side}, {face}", side=side, face=built.moved(face)),
    )
    sigma = built.sigma((side, outlet.y.inches, built.seat_top(side)))
    return _miss(built, topic, off, drain, sigma, because)


def _measured(built: Built, drain: Drain, outlet: Outlet) -> str:
    return Sentence(
        "drain {drain} from wall {side}, outlet {outlet} from the pan's left flange",
        drain=built.near(drain.x.inches),
        side=drain.side,
        outlet=built.near(outlet.x.inches),
    )


def _miss(
    built: Built, topic: Topic, off: Fraction, drain: Drain, sigma: float, because: tuple[str, ...]
) -> Check:
    """The outlet's miss across against the float; ``off`` plus to the right of the drain."""
    return topic.judge(
        abs(off),
        None,
        drain.float_x.inches,
        built.unit,
        rounding="up",
        shown=lambda value: _to_one_side(value, off),
        sigma=sigma,
        because=because,
        eats=Sentence("where the side walls put the pan") if off else "",
        fix=Sentence(
            "Move the drain {by} right, or shift the side planes the other way."
            if off > 0
            else "Move the drain {by} left, or shift the side planes the other way.",
            by=built.up(max(abs(off) - drain.float_x.inches, ZERO)),
        ),
    )


def _to_one_side(value: str, off: Fraction) -> str:
    if not off:
        return Sentence("over it")
    return Sentence("{value} to the right of it" if off > 0 else "{value} to the left of it", value=value)


def _too_far(value: str, off: Fraction) -> str:
    if not off:
        return Sentence("over it")
    return Sentence("{value} too far out" if off > 0 else "{value} too far back", value=value)


def _out(built: Built) -> Check:
    topic = Topic("drain-out", "Outlet over the drain, out from the back wall", "drain", "convention-3")
    drain, outlet = built.pan.drain, built.pan.pan.outlet
    limit = (
        Sentence("within the drain's float")
        if drain is None
        else Sentence("at most {most} off", most=built.near(drain.float_y.inches))
    )
    measure = _ask(built)
    plane = built.plane("B")
    if not measure and plane is None:
        measure = Sentence("Read the back wall: the back flange is fastened to it.")
    if measure or drain is None or outlet is None or plane is None:
        return topic.not_shown(limit, measure)
    places = along_back(built.survey, drain)
    # The flange is fastened where the plane stands farthest out over the flange's own height.
    faces = [max(plane.at(along, height) for height in built.seat_heights("B")) for along in places]
    if not faces:
        return topic.not_shown(limit, Sentence("Measure the inside width, or the drain from wall L."))
    along, face = max(
        zip(places, faces, strict=True),
        key=lambda at: abs(at[1] + outlet.y.inches - drain.y.inches),
    )
    off = face + outlet.y.inches - drain.y.inches
    return topic.judge(
        abs(off),
        None,
        drain.float_y.inches,
        built.unit,
        rounding="up",
        shown=lambda value: _too_far(value, off),
        sigma=built.sigma(("B", along, built.seat_top("B"))),
        because=(
            Sentence(
                "drain {drain} from wall B, outlet {outlet} from the back flange",
                drain=built.near(drain.y.inches),
                outlet=built.near(outlet.y.inches),
            ),
            Sentence("wall B: plane {face} at the drain", face=built.moved(face)),
        ),
        eats=Sentence("wall B {face}", face=built.moved(face)) if face else "",
        fix=Sentence(
            "Move the drain {by} out, or move the back plane."
            if off > 0
            else "Move the drain {by} back, or move the back plane.",
            by=built.up(max(abs(off) - drain.float_y.inches, ZERO)),
        ),
    )
