"""The panel between joists: thick enough by the code, and under a load on one spot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from undertile.findings import Check, Verdict
from undertile.floor.facts import FloorFacts, PanelStuff
from undertile.floor.joists import JoistIs
from undertile.floor.loads import Carried
from undertile.floor.panelstiff import LIMIT, over, point_deflection, rating, stiffness
from undertile.lengths import Unit
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence

BLOCKS = Fraction(24)
"""Blocking rows that the panel check looks at beside none. [in]"""


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


def panel_checks(facts: FloorFacts, joists: Sequence[JoistIs], loads: Carried, unit: Unit) -> Iterator[Check]:
    """The panel between joists, where joists are entered: thickness by code, and a load on one spot."""
    gaps = [b.at - a.at for a, b in pairwise(joists)]
    if not gaps and facts.all_joists.spacing is None:
        return
    widest = max(gaps) if gaps else facts.all_joists.spacing.inches  # type: ignore[union-attr]
    code = Topic("panel-thickness", "Panel for the joists' spacing", "subfloor", "irc-r503.2.1.1")
    spot = Topic("panel-point", "Panel under a load between joists", "subfloor", "panel-point")
    asked = Sentence("L/{limit} or stiffer", limit=LIMIT)
    layers = _layers(facts)
    if layers is None:
        step = Sentence("Measure each layer of the subfloor by calipers at a cut edge.")
        yield code.not_shown(Sentence("enough for joists {gap} apart", gap=say(widest, unit)), step)
        yield spot.not_shown(asked, step)
        return
    lower, stuff = layers[0]
    found = rating(lower) if stuff not in ("boards", "other") else None
    if found is None:
        yield code.not_shown(
            Sentence("a rated panel"),
            Sentence("Boards or thin panels are for the building official to judge."),
        )
    else:
        yield code.said(
            Verdict.PASS if widest <= found.joists or len(layers) > 1 else Verdict.FAIL,
            Sentence(
                "{thickness}, joists up to {gap} apart",
                thickness=say(lower, unit),
                gap=say(found.joists, unit),
            )
            if found.joists
            else Sentence("{thickness}, not alone", thickness=say(lower, unit)),
            Sentence("joists {gap} apart", gap=say(widest, unit)),
            because=(Sentence("as the only layer" if len(layers) == 1 else "with a second layer over it"),),
            step=Sentence("Add a second layer, or block and add joists."),
        )
    if facts.tile == "none":
        return
    stiff = stiffness(layers)
    if stiff is None:
        step = Sentence("Lay rated panels over it: no published stiffness fits what is there.")
        yield spot.not_shown(asked, step)
        return
    down = point_deflection(loads.point, widest, stiff)
    blocked = over(widest, point_deflection(loads.point, widest, stiff, blocks=BLOCKS))
    single = over(widest, point_deflection(loads.point, widest, stiff, spans=1))
    yield spot.said(
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
