"""Shear in a sawn joist, at its bearing and at what is notched out of it [1]_.

f_v = 3 V / (2 b d). A whole joist is judged one depth from the bearing's face, for load nearer than that goes
straight down [1, 3.4.3.1(a)]. Where a notch leaves d_n on the underside the joist carries

    V = (2/3) F_v b d_n (d_n / d)^2                                                          [1, 3.4.3.2(a)]

for it splits from the notch's corner; one from above over the bearing counts as a joist of d_n (the cautious
end of [1, 3.4.3.2(e)], where the notch runs past the bearing). A notch is judged with all of the load up to
it. Shear values by species [2]_. Both from memory.

References
----------
.. [1] American Wood Council, National Design Specification for Wood Construction, 2018.
.. [2] NDS Supplement: Design Values for Wood Construction, 2018, tables 4A and 4B.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.floor.facts import JoistNotch
from undertile.floor.joists import JoistIs, sister_stiffness, sister_stretch
from undertile.floor.loads import Carried, pounds
from undertile.floor.lumber import SPECIES, inertia, stamped
from undertile.floor.mended import all_covered
from undertile.floor.notches import which_side
from undertile.floor.spans import line_load
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence, joined

VALUE: dict[str, Fraction] = {
    "douglas fir-larch": Fraction(180),
    "hem-fir": Fraction(150),
    "southern pine": Fraction(175),
    "spruce-pine-fir": Fraction(135),
}
"""Reference value in shear, dry, every grade (from memory). [psi]"""


@dataclass(frozen=True)
class Section:
    """Where shear is looked at.

    Attributes
    ----------
    shear : Fraction
        Of the load there. [lb]
    area : Fraction
        What shares it: b d, or b d_n (d_n / d)^2 at a notch in the underside. [sq in]
    words : str
    """

    shear: Fraction
    area: Fraction
    words: str

    @property
    def stress(self) -> Fraction:
        """3 V / (2 A). [psi]"""
        return 3 * self.shear / (2 * self.area)


def sections(joist: JoistIs, load: Fraction) -> tuple[Section, ...]:
    """The joist at its bearing and at each notch.

    Parameters
    ----------
    joist : JoistIs
        Its width, depth and span measured.
    load : Fraction
        What lies on the joist. [lb/in]

    Returns
    -------
    tuple of Section
        A notch that cannot be in this joist is left out: it is said to be misread.
    """
    width, depth, span = joist.width, joist.depth, joist.span
    assert width is not None
    assert depth is not None
    assert span is not None
    whole = Sentence("one depth from its bearing")
    found = [Section(load * max(span / 2 - depth, Fraction(0)), width * depth, whole)]
    for name, notch in joist.facts.notches.items():
        left = depth - notch.depth.inches
        place = _nearest(notch, span)
        if left <= 0 or place is None:
            continue
        area = width * left * (1 if notch.side == "top" else (left / depth) ** 2)
        words = Sentence(
            "notch {name}, {left} of {depth} left",
            name=name,
            left=say(left, joist.unit, "down"),
            depth=say(depth, joist.unit),
        )
        found.append(Section(load * (span / 2 - place), area, words))
    return tuple(found)


def _nearest(notch: JoistNotch, span: Fraction) -> Fraction | None:
    """How near to a bearing it reaches; None past the span. [in]"""
    if notch.over_bearing:
        return Fraction(0)
    low, high = notch.start.inches, notch.start.inches + notch.length.inches
    if high > span:
        return None
    return Fraction(0) if low <= 0 or high >= span else min(low, span - high, span / 2)


def shear_check(joist: JoistIs, loads: Carried, early: str, weigh: str = "") -> Check:
    """Stress in shear against its value, at the weakest place.

    Parameters
    ----------
    joist : JoistIs
    loads : Carried
    early : str
        Why nothing of this joist can be worked; "" when it can.
    weigh : str
        What to weigh first; "" when the dead load is known.
    """
    topic = Topic(
        f"joist-shear-{joist.name}",
        "Shear at the joist's ends and notches",
        f"joist {joist.name}",
        "nds-shear",
    )
    limit = Sentence("100 % of its shear value")
    if early or weigh:
        return topic.not_shown(limit, early or weigh)
    if joist.facts.soft and not all_covered(joist):
        return topic.not_shown(
            limit, Sentence("Have an engineer say what a joist with a soft place carries.")
        )
    for name, notch in joist.facts.notches.items():
        if notch.side == "unknown":
            return topic.not_shown(limit, which_side(name))
    if joist.worth is None or joist.spacing is None:
        return topic.not_shown(limit, Sentence("Measure joist {name}.", name=joist.name))
    total = loads.live + loads.dead
    worst = max(sections(joist, line_load(total, joist.spacing) * _part(joist)), key=lambda each: each.stress)
    may_be = [joist.species] if joist.species in VALUE else list(SPECIES)
    share = worst.stress / min(VALUE[wood] for wood in may_be)
    verdict, step = Verdict.PASS, ""
    if share > 1:
        verdict, step = Verdict.FAIL, Sentence("Have an engineer say what carries it; do not cut more here.")
        enough = [wood for wood in may_be if worst.stress <= VALUE[wood]]
        if enough:
            verdict = Verdict.NOT_SHOWN
            step = Sentence(
                "Find the grade stamp: it passes as {woods}.",
                woods=joined(map(stamped, enough), "{first}; {then}"),
            )
    return topic.said(
        verdict,
        Sentence("{share} %, {where}", share=-(-share * 100 // 1), where=worst.words),
        limit,
        margin=f"{(1 - share) * 100 // 1:+d} %",
        because=tuple(_because(joist, may_be, total)),
        step=step,
    )


def _because(joist: JoistIs, may_be: list[str], total: Fraction) -> Iterator[str]:
    if len(may_be) == 1:
        yield Sentence("{wood}, {value} psi in shear", wood=stamped(may_be[0]), value=VALUE[may_be[0]])
    else:
        least = min(VALUE.values())
        yield Sentence("species not known: the least of all it may be, {value} psi in shear", value=least)
    yield Sentence("live and dead {pounds} lb a sq ft", pounds=pounds(total))
    if _part(joist) != 1:
        yield Sentence("with the sister that stands beside it")
    if joist.facts.holes:
        yield Sentence("holes are judged by the code's limits, not here")


def _part(joist: JoistIs) -> Fraction:
    """The joist's share of the load: a sister from bearing to bearing takes its own by stiffness."""
    beside = joist.facts.sister
    if (
        beside is None
        or joist.worth is None
        or joist.width is None
        or joist.depth is None
        or joist.span is None
    ):
        return Fraction(1)
    if sister_stretch(beside, joist.span) != (Fraction(0), joist.span):
        return Fraction(1)
    alone = joist.worth.stiffness * inertia(joist.width, joist.depth)
    return alone / (alone + sister_stiffness(beside))
