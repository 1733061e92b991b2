"""Where the pan is set between the planes: in the middle of its play, aside only where the drain needs it.

All in the room's frame of ``pan.seat``; the pan lies along the back plane.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built
from undertile.pan.facts import Drain
from undertile.pan.seat import squareness
from undertile.sentence import Sentence


@dataclass(frozen=True)
class Place:
    """Where an alcove pan's back left corner is set, from the nominal plane of L at y = 0. [in]

    Attributes
    ----------
    least, most : Fraction
        Between them it can stand; ``least`` over ``most`` when the pan does not drop in.
    wanted : Fraction or None
        Where the outlet would be right over the drain.
    at : Fraction
        Where it is set: the middle where the drain's float reaches that, else the nearest to the drain.
    """

    least: Fraction
    most: Fraction
    wanted: Fraction | None
    at: Fraction

    @property
    def left(self) -> Fraction:
        """Play left between the pan and wall L, at its tightest. [in]"""
        return self.at - self.least

    @property
    def right(self) -> Fraction:
        """Play left between the pan and wall R. [in]"""
        return self.most - self.at


def pan_place(built: Built) -> tuple[Fraction, Fraction] | None:
    """Least and most x of an alcove pan's back left corner, from the nominal plane of L at y = 0. [in]

    None where a size or plane is missing. The least is over the most when the pan does not drop in.
    """
    opening = built.survey.frame.opening_at_back
    left, right = built.plane("L"), built.plane("R")
    if built.width is None or built.depth is None or left is None or right is None or opening is None:
        return None
    turn, back = squareness(built.survey).turn, built.turn("B")
    ends = (ZERO, built.depth)
    low = max(turn["L"] * y + left.at(y, z) + back * y for y in ends for z in built.seat_heights("L"))
    high = min(
        opening - turn["R"] * y - right.at(y, z) - built.width + back * y
        for y in ends
        for z in built.seat_heights("R")
    )
    return low, high


def over_drain(built: Built, drain: Drain) -> Fraction | None:
    """Where the pan's back left corner would have to be for the outlet to be right over the drain. [in]"""
    outlet, opening = built.pan.pan.outlet, built.survey.frame.opening_at_back
    if outlet is None or opening is None or drain.side not in built.walls:
        return None
    turn = squareness(built.survey).turn
    if drain.side == "L":
        centre = drain.x.inches + turn["L"] * drain.y.inches
    else:
        centre = opening - turn["R"] * drain.y.inches - drain.x.inches
    return centre - outlet.x.inches + built.turn("B") * outlet.y.inches


def set_place(built: Built) -> Place | None:
    """Where the pan is set; None where that cannot be said or nothing faces it across."""
    bounds = pan_place(built) if built.alcove else None
    if bounds is None:
        return None
    least, most = bounds
    at, drain = (least + most) / 2, built.pan.drain
    wanted = None if drain is None else over_drain(built, drain)
    if wanted is not None and drain is not None:
        low, high = wanted - drain.float_x.inches, wanted + drain.float_x.inches
        if not low <= at <= high:
            at = wanted
    if least <= most:
        at = min(max(at, least), most)
    return Place(least, most, wanted, at)


def play_left(built: Built, wall: str) -> Fraction:
    """Play left on a side wall as the pan is set; 0 where it stands hard against it, or is not known. [in]"""
    place = set_place(built)
    if place is None or wall not in "LR" or place.least > place.most:
        return ZERO
    return place.left if wall == "L" else place.right


def set_words(built: Built, place: Place) -> str:
    """Where the pan goes within its play, in words."""
    if place.least == place.most:
        return Sentence("the pan has one place only")
    if not place.left:
        return Sentence("set the pan hard against wall {wall}", wall="L")
    if not place.right:
        return Sentence("set the pan hard against wall {wall}", wall="R")
    return Sentence(
        "set the pan {left} off wall L, {right} off wall R",
        left=built.near(place.left),
        right=built.near(place.right),
    )


def set_steps(built: Built) -> list[WorkStep]:
    """Dry fit, set and fasten, whenever there is a pan and a plan."""
    pan = built.pan.pan
    sizes = (pan.width, pan.depth, pan.carton_width, pan.carton_depth, pan.flange_height, pan.outlet)
    if all(size is None for size in sizes) or not built.plan.planes:
        return []
    tilt = built.pan.way_in.tilt_height
    low = f", from no higher than {built.near(tilt.inches)}" if tilt is not None else ""
    dry = f"Dry fit the pan before mortar is mixed: straight down{low}, no rocking."
    fasten = (
        "Bed the pan and fasten its flange as its sheet says, once the flange touches or is shimmed at every "
        "stud beside it."
    )
    return [WorkStep("dry fit", (), (), dry), _set(built), WorkStep("fasten", (), (), fasten)]


def _set(built: Built) -> WorkStep:
    place, sides = set_place(built), tuple(side for side in built.walls if side in "LR")
    if place is not None and place.least <= place.most:
        text = set_words(built, place)
        data = {"L": built.near(place.left), "R": built.near(place.right)}
        return WorkStep("set", sides, (), f"{text[0].upper()}{text[1:]}.", data)
    if place is not None:
        return WorkStep("set", sides, (), "Set the pan only once it drops in: see its play.")
    if built.alcove:
        return WorkStep("set", sides, (), "Set the pan: how much play is left on each side is not shown.")
    against = " and ".join(f"wall {wall}" for wall in built.walls)
    return WorkStep("set", built.walls, (), f"Set the pan against {against}.")


def off_plane(built: Built, wall: str, along: Fraction) -> Fraction | None:
    """From the pan's side as it is set to a side wall's plane, at a depth: its play there. [in]

    Not less than `play_left`, which is where the walls come closest; where they are out of square with the
    back wall it is more elsewhere. 0 on the back wall, which the pan stands against. None where the pan does
    not drop in, or its place is not known.
    """
    if wall == "B":
        return ZERO
    place, plane, opening = set_place(built), built.plane(wall), built.survey.frame.opening_at_back
    if place is None or place.least > place.most or plane is None or opening is None:
        return None
    turn, back = squareness(built.survey).turn[wall], built.turn("B")
    face = min(plane.at(along, z) for z in built.seat_heights(wall))
    if wall == "L":
        return place.at - turn * along - face - back * along
    return opening - turn * along - face - (built.width or ZERO) + back * along - place.at
