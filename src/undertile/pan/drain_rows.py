"""Where the outlet must come, as rows over the planes (docs/methods/pan.md, "Drain")."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.problem import Demand
from undertile.pan.say import say
from undertile.pan.seat import SKEW_LIMIT, Room, along_back, inches
from undertile.sentence import Sentence

Part = tuple[str, Fraction, Fraction, Fraction]


def drain_rows(room: Room) -> tuple[Demand, ...]:
    """Outlet over the drain within its float, across and out (docs/methods/pan.md, "Drain")."""
    pan, drain = room.facts.pan, room.facts.drain
    if drain is None or pan.outlet is None:
        return ()
    return (*_drain_across(room), *_drain_out(room))


def _drain_across(room: Room) -> tuple[Demand, ...]:
    """Across: each side wall must leave the outlet room to come over the drain.

    Written separably (pan taken square to the back line, widened by the most the back plane may turn it,
    so that no good plan is cut off) and again, lazily, with the turn of the back plane itself.
    """
    pan, drain = room.facts.pan, room.facts.drain
    width, depth = room.width, room.depth
    if drain is None or pan.outlet is None or width is None or depth is None:
        return ()
    span = room.survey.frame.opening(drain.y.inches)
    limit = inches(pan.skew_limit)
    turn_most = (SKEW_LIMIT if limit is None else limit) / width
    alcove = {"L", "R"} <= room.walls
    out = pan.outlet.y.inches
    rows = []
    for wall in (side for side in "LR" if side in room.walls):
        if drain.side == wall:
            centre = drain.x.inches
        elif alcove and span is not None:
            centre = span - drain.x.inches
        else:
            continue
        outlet = pan.outlet.x.inches if wall == "L" else width - pan.outlet.x.inches
        sign = Fraction(1) if wall == "L" else Fraction(-1)
        reach = centre - outlet
        why = Sentence(
            "drain {drain} from wall {wall}, outlet {outlet} from that side of the pan, float {float}",
            drain=say(centre, room.unit),
            wall=wall,
            outlet=say(outlet, room.unit),
            float=say(drain.float_x.inches, room.unit, "down"),
        )
        title = Sentence("Outlet over the drain, wall {wall}", wall=wall)
        for z in room.heights:
            for end in (Fraction(0), depth):
                arm = end - out
                shift = room.square.turn[wall] * (end - drain.y.inches)
                high = reach + drain.float_x.inches - shift
                tail = f"{'back' if not end else 'front'}{room.at(z)}"
                face: Part = (wall, end, z, Fraction(1))
                widened = high + (turn_most * abs(arm) if "B" in room.walls else Fraction(0))
                rows.append(
                    Demand(f"drain-x-{wall}-{tail}", (face,), None, widened, title, why, "convention-3")
                )
                if "B" in room.walls:
                    back = sign * arm / width
                    parts = (face, ("B", width, z, back), ("B", Fraction(0), z, -back))
                    code = f"drain-x-{wall}-turned-{tail}"
                    rows.append(Demand(code, parts, None, high, title, why, "convention-3", lazy=True))
            if not alcove:
                # One side only: the pan stands against it, so it may not stand too far back either.
                low = reach - drain.float_x.inches - room.square.turn[wall] * (out - drain.y.inches)
                code = f"drain-x-{wall}-near{room.at(z)}"
                near: tuple[Part, ...] = ((wall, out, z, Fraction(1)),)
                rows.append(Demand(code, near, low, None, title, why, "convention-3"))
    return tuple(rows)


def _drain_out(room: Room) -> tuple[Demand, ...]:
    """Out: the back flange is fastened to the B plane, so opposite the outlet that plane sets its distance.

    The pan is rigid and lies along the B plane; a wall's turn moves the outlet out by the plane at the
    outlet's own place along the wall, to first order. Hence T_B is asked for at the drain's x.
    """
    pan, drain = room.facts.pan, room.facts.drain
    if drain is None or pan.outlet is None or "B" not in room.walls:
        return ()
    places = along_back(room.survey, drain)
    middle = drain.y.inches - pan.outlet.y.inches
    reach = drain.float_y.inches
    why = Sentence(
        "drain {drain} from wall B, outlet {outlet} from the back flange, float {float}; the back "
        "flange is fastened on the B plane",
        drain=say(drain.y.inches, room.unit),
        outlet=say(pan.outlet.y.inches, room.unit),
        float=say(reach, room.unit, "down"),
    )
    return tuple(
        Demand(
            code=f"drain-y{('', '-end')[place > 0]}{room.at(z)}",
            parts=(("B", along, z, Fraction(1)),),
            low=middle - reach,
            high=middle + reach,
            title=Sentence("Outlet over the drain, out from wall B"),
            why=why,
            source="convention-3",
        )
        for place, along in enumerate(places)
        for z in room.heights
    )
