"""The panel between joists: thick enough by the code, and under a load on one spot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from undertile.findings import Check, Verdict
from undertile.floor.facts import FloorFacts, PanelStuff
from undertile.floor.joists import JoistIs
from undertile.floor.loads import Carried
from undertile.floor.panelstiff import LIMIT, over, point_deflection, rating, stiffness
from undertile.floor.patch import WALL, Layout
from undertile.lengths import Unit
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence

BLOCKS = Fraction(24)
"""Blocking rows that the panel check looks at beside none. [in]"""
UNDER_SECOND = Fraction(16)
"""Joists under the thinnest rated panel that a second layer covers, IRC table R503.2.1.1(1): 7/16 is 32/16.
The thicker ones stand as far apart there as alone. From memory. [in]"""


@dataclass(frozen=True)
class Open:
    """A stretch of a patch that ends on no joist: from where to where, and how far its panel spans. [in]"""

    low: Fraction
    high: Fraction
    span: Fraction


def open_stretches(joists: Sequence[JoistIs], layouts: Sequence[Layout]) -> Iterator[Open]:
    """What a patch's panel spans between a joist and a cleat along the wall.

    Parameters
    ----------
    joists : sequence of JoistIs
    layouts : sequence of Layout

    Yields
    ------
    Open
        The span to the middle of the cleat. A panel that hangs over the last joist up to a wall has no
        cleat and spans nothing.
    """
    for made in layouts:
        for cleat in made.cleats:
            if cleat.beside != WALL:
                continue
            first = abs(cleat.at - made.lower.low.at) <= abs(made.lower.high.at - cleat.at)
            ats = [joist.at for joist in joists if made.lower.low.at <= joist.at <= made.lower.high.at]
            if not ats:
                yield Open(made.lower.low.at, made.lower.high.at, made.lower.across)
            elif first:
                yield Open(made.lower.low.at, min(ats), min(ats) - cleat.at)
            else:
                yield Open(max(ats), made.lower.high.at, cleat.at - max(ats))


def _layers(facts: FloorFacts) -> list[tuple[Fraction, PanelStuff]] | None:
    """The layers by calipers, then panels planned over all of it; None where one is not measured."""
    its = [facts.patch.lower, *([facts.patch.upper] if facts.patch.upper is not None else [])]
    out: list[tuple[Fraction, PanelStuff]] = []
    for layer in its:
        if layer.thickness is None:
            return None
        out.append((layer.thickness.inches, layer.stuff))
    for planned in facts.loads.on_top.values():
        if planned.what in ("plywood", "osb"):
            out.append((planned.thickness.inches, planned.what))
    return out


def panel_checks(
    facts: FloorFacts, joists: Sequence[JoistIs], loads: Carried, unit: Unit, layouts: Sequence[Layout] = ()
) -> Iterator[Check]:
    """The panel between joists, where joists are entered: thickness by code, and a load on one spot.

    Parameters
    ----------
    facts : FloorFacts
    joists : sequence of JoistIs
    loads : Carried
    unit : {"in", "mm"}
    layouts : sequence of Layout
        The patches: what their panels span up to a wall is judged with the rest. Where that is too wide a
        joist is there that nobody entered, or none is: not shown, never a pass.
    """
    gaps = [b.at - a.at for a, b in pairwise(joists)]
    ends = list(open_stretches(joists, layouts))
    if not gaps and not ends and facts.all_joists.spacing is None:
        return
    if gaps:
        widest = max(gaps)
    elif facts.all_joists.spacing is not None:
        widest = facts.all_joists.spacing.inches
    else:
        widest = Fraction(0)
    end = max(ends, key=lambda each: each.span, default=None)
    code = Topic("panel-thickness", "Panel for the joists' spacing", "subfloor", "irc-r503.2.1.1")
    spot = Topic("panel-point", "Panel under a load between joists", "subfloor", "panel-point")
    asked = Sentence("L/{limit} or stiffer", limit=LIMIT)
    layers = _layers(facts)
    if layers is None:
        far = widest if end is None else max(widest, end.span)
        step = Sentence("Measure each layer of the subfloor by calipers at a cut edge.")
        yield code.not_shown(Sentence("enough for joists {gap} apart", gap=say(far, unit)), step)
        yield spot.not_shown(asked, step)
        return
    yield _by_code(code, layers, widest, end, unit)
    if facts.tile == "none":
        return
    stiff = stiffness(layers)
    if stiff is None:
        step = Sentence("Lay rated panels over it: no published stiffness fits what is there.")
        yield spot.not_shown(asked, step)
        return
    if end is not None and end.span > widest:
        if over(end.span, point_deflection(loads.point, end.span, stiff)) >= LIMIT:
            widest = end.span
        elif not widest or over(widest, point_deflection(loads.point, widest, stiff)) >= LIMIT:
            yield spot.not_shown(asked, _missing(end, unit))
            return
    yield _on_a_spot(spot, asked, stiff, widest, loads, unit)


def _missing(end: Open, unit: Unit) -> str:
    return Sentence(
        "No joist is entered between {low} and {high}: find the one there and enter it. If there is none, "
        "set one and enter it.",
        low=say(end.low, unit),
        high=say(end.high, unit),
    )


def _by_code(
    code: Topic, layers: Sequence[tuple[Fraction, PanelStuff]], widest: Fraction, end: Open | None, unit: Unit
) -> Check:
    """By the lowest layer's measured thickness, with or without a layer over it."""
    lower, stuff = layers[0]
    found = rating(lower) if stuff not in ("boards", "other") else None
    if found is None:
        return code.not_shown(
            Sentence("a rated panel"),
            Sentence("Boards or thin panels are for the building official to judge."),
        )
    alone = len(layers) == 1
    most = found.joists if alone else max(found.joists, UNDER_SECOND)
    said = (
        Sentence("{thickness}, joists up to {gap} apart", thickness=say(lower, unit), gap=say(most, unit))
        if most
        else Sentence("{thickness}, not alone", thickness=say(lower, unit))
    )
    if end is not None and end.span > most >= widest:
        return code.not_shown(Sentence("joists up to {gap} apart", gap=say(most, unit)), _missing(end, unit))
    if end is not None:
        widest = max(widest, end.span)
    return code.said(
        Verdict.PASS if widest <= most else Verdict.FAIL,
        said,
        Sentence("joists {gap} apart", gap=say(widest, unit)),
        because=(Sentence("as the only layer" if alone else "with a second layer over it"),),
        step=Sentence("Add a second layer, or block and add joists.")
        if alone
        else Sentence("Add joists between, before the panel is laid."),
    )


def _on_a_spot(
    spot: Topic,
    asked: str,
    stiff: tuple[Fraction, Fraction],
    widest: Fraction,
    loads: Carried,
    unit: Unit,
) -> Check:
    down = point_deflection(loads.point, widest, stiff)
    blocked = over(widest, point_deflection(loads.point, widest, stiff, blocks=BLOCKS))
    single = over(widest, point_deflection(loads.point, widest, stiff, spans=1))
    return spot.said(
        Verdict.PASS if over(widest, down) >= LIMIT else Verdict.FAIL,
        f"L/{over(widest, down)}",
        asked,
        because=(
            Sentence(
                "{pounds} lb in the middle between joists {gap} apart; layers not glued",
                pounds=loads.point,
                gap=say(widest, unit),
            ),
            Sentence("an estimate over two spans; over one span only L/{ratio}", ratio=single),
            Sentence("rows of blocking {gap} apart make it L/{ratio}", gap=say(BLOCKS, unit), ratio=blocked),
        ),
        eats=Sentence("the panel runs over one span only somewhere")
        if single < LIMIT <= over(widest, down)
        else "",
        step=Sentence(
            "Add joists between before it is laid, or a second layer over all of it once it is, screwed into "
            "the first only, and type it among what lies on top."
        ),
    )
