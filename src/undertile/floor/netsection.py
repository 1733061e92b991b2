"""What is left of a joist where it is notched or bored, and where bending weighs on it most.

A bending member is judged by its net section: what is cut out, the whole of a notch's depth or a hole's
diameter, is left out where it is, and the stress there is that of the moment there, f_b = M / S_net [1]_.
S_net is that of the pieces left, about their common axis. A hole counts as a square one, as wide as it is.

A notch in the underside splits from its corner, which no net section counts: one that is deeper or longer
than the code lets it be, or in the middle third, is an engineer's [2]_. One over a bearing weighs on shear
(``floor.shear``), hardly on bending; it counts here as far as it reaches into the span.

References
----------
.. [1] American Wood Council, National Design Specification for Wood Construction, 2018, 3.1.2 and 3.3.2
   (net section area; bending members), 4.4.3 (notches). From memory.
.. [2] IRC R502.8.1: no notch in the middle third; depth a sixth, length a third of the joist's depth.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.floor.facts import CutLimits
from undertile.floor.joists import JoistIs
from undertile.floor.notches import Member, odd_cuts, which_side
from undertile.pan.say import say
from undertile.sentence import Sentence

ZERO = Fraction(0)
Band = tuple[Fraction, Fraction]
"""From the joist's top down: where something is cut out, or left. [in]"""


@dataclass(frozen=True)
class Cut:
    """What is cut out over a stretch of the span: from ``low`` to ``high``, over a band of the depth. [in]"""

    low: Fraction
    high: Fraction
    band: Band
    words: str


@dataclass(frozen=True)
class Place:
    """Where bending is looked at.

    Attributes
    ----------
    moment : Fraction
        Of a load of 1 lb/in over the whole span. [lb in]
    modulus : Fraction
        Section modulus of what is left. [in^3]
    words : str
        What is cut out there; "" in the whole joist.
    """

    moment: Fraction
    modulus: Fraction
    words: str

    @property
    def stress(self) -> Fraction:
        """Of a load of 1 lb/in. [psi]"""
        return self.moment / self.modulus


def cuts_of(joist: JoistIs) -> tuple[Cut, ...]:
    """Notches and holes of a joist whose size and span are measured, as far as they lie in the span."""
    depth, span = joist.depth, joist.span
    assert depth is not None
    assert span is not None
    out = []
    for name, notch in joist.facts.notches.items():
        deep = notch.depth.inches
        band = (ZERO, deep) if notch.side == "top" else (depth - deep, depth)
        low, high = notch.start.inches, notch.start.inches + notch.length.inches
        out.append(Cut(low, high, band, Sentence("notch {name}", name=name)))
    for name, hole in joist.facts.holes.items():
        wide, top = hole.diameter.inches, hole.top.inches
        low, high = hole.at.inches - wide / 2, hole.at.inches + wide / 2
        out.append(Cut(low, high, (top, top + wide), Sentence("hole {name}", name=name)))
    return tuple(out)


def worst_place(joist: JoistIs) -> Place | None:
    """Where an even load stresses a joist most, of its middle and what is cut out of it.

    Parameters
    ----------
    joist : JoistIs
        Its width, depth and span measured.

    Returns
    -------
    Place or None
        None where nothing is left of it at some place.
    """
    width, depth, span = joist.width, joist.depth, joist.span
    assert width is not None
    assert depth is not None
    assert span is not None
    cuts = cuts_of(joist)
    half = span / 2
    ends = {end for cut in cuts for end in (cut.low, cut.high)}
    # between two ends the same is cut out: the moment is the largest at the one nearer to the middle
    worst: Place | None = None
    for at in sorted({half, *(min(max(end, ZERO), span) for end in ends)}):
        here = [cut for cut in cuts if cut.low <= at <= cut.high]
        modulus = net_modulus(width, depth, [cut.band for cut in here])
        if modulus <= 0:
            return None
        words = "" if not here else here[0].words
        place = Place(at * (span - at) / 2, modulus, words)
        if worst is None or place.stress > worst.stress:
            worst = place
    return worst


def net_modulus(width: Fraction, depth: Fraction, out: list[Band]) -> Fraction:
    """Section modulus of a rectangle with bands cut out of its depth; 0 where nothing is left. [in^3]"""
    left = [(ZERO, depth)]
    for low, high in out:
        left = [
            piece for a, b in left for piece in ((a, min(b, low)), (max(a, high), b)) if piece[0] < piece[1]
        ]
    if not left:
        return ZERO
    area = sum((b - a for a, b in left), ZERO)
    axis = sum(((b - a) * (a + b) / 2 for a, b in left), ZERO) / area
    inertia = sum((((b - axis) ** 3 - (a - axis) ** 3) / 3 for a, b in left), ZERO)
    far = max(left[-1][1] - axis, axis - left[0][0])
    return width * inertia / far


def member_of(joist: JoistIs, limits: CutLimits | None = None) -> Member:
    """What the rules for notches and holes need to know of a joist; a span that is none is not measured."""
    return Member(
        joist.name,
        joist.make,
        joist.width,
        joist.depth,
        None if joist.no_span else joist.span,
        joist.facts.notches,
        joist.facts.holes,
        joist.unit,
        limits or CutLimits(),
    )


def cannot_be(joist: JoistIs) -> str:
    """What to measure again where a notch or a hole cannot be in a joist as measured; "" where all can."""
    for what in odd_cuts(member_of(joist)):
        return Sentence("Measure {what} and the joist again: it cannot be in it.", what=what)
    return ""


def not_by_net_section(joist: JoistIs, limits: CutLimits) -> str:
    """Why bending cannot be told from what is left; "" where it can.

    Parameters
    ----------
    joist : JoistIs
        Its depth and span measured.
    limits : CutLimits
        What may be cut, where the code in force differs.
    """
    if wrong := cannot_be(joist):
        return wrong
    depth, span = joist.depth, joist.span
    assert depth is not None
    assert span is not None
    for name, notch in joist.facts.notches.items():
        if notch.side == "unknown":
            return which_side(name)
        if notch.side != "bottom" or notch.over_bearing:
            continue
        low, high = notch.start.inches, notch.start.inches + notch.length.inches
        deep = notch.depth.inches > depth / limits.notch_depth
        long = notch.length.inches > depth / limits.notch_length
        middle = high > span / 3 and low < 2 * span / 3
        if deep or long or middle:
            return Sentence(
                "Ask an engineer what it carries: notch {name} in its underside, {depth} deep, splits it.",
                name=name,
                depth=say(notch.depth.inches, joist.unit),
            )
    if worst_place(joist) is None:
        return Sentence("Joist {name} is cut right through: it carries nothing there.", name=joist.name)
    return ""
