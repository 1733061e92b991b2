"""The water's answer with what later stages say of it: wood that a planned patch takes out is not waited for.

A place of the subfloor inside a planned patch's cut lines is not dried and not read for a date: it is cut
out, as one that is typed as cut out is. Until that is typed the wood is there, and the gate says so.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.wood.closing import close_date
from undertile.wood.facts import WoodFacts
from undertile.wood.gate import ALSO, FIRST, LAST, Missing, gate
from undertile.wood.limits import counting
from undertile.wood.result import WoodResult
from undertile.wood.verdict import PointVerdict
from undertile.wood.woodfindings import gate_finding

STAYS = ("gone", "open further")
"""Calls that stay: out already; and what nothing dry lies past, for there the patch may be too small."""
DONE = ("close", "gone", "goes out")
"""Calls of places that are not read again for a date."""
OF_A_POINT = ("point-no-date", "point-cut-out", "moisture-near-limit")
"""Findings of one place that its going out settles; that water may come to it stands."""


def with_patch(
    water: WoodResult,
    facts: WoodFacts,
    walls: Sequence[str],
    out: Mapping[str, int],
    floor: Sequence[Missing] = (),
    *,
    looser: Sequence[str] = (),
    unit: Unit = "in",
) -> WoodResult:
    """The answer with the wood of some places going out, and with what of the floor is not sound.

    Parameters
    ----------
    water : WoodResult
        As the readings have it.
    facts : WoodFacts
    walls : sequence of str
        Walls of the survey.
    out : mapping of str to int
        Number of the patch, by point.
    floor : sequence of Missing
        What of the floor keeps the gate shut.
    looser : sequence of str
        Looser figures of the floor that were taken: an open answer stands on them.
    unit : {"in", "mm"}
        For words.

    Returns
    -------
    WoodResult
        How far to open is as before: the readings say that, not the patch.
    """
    points = tuple(
        _going(each, out[each.name]) if each.name in out and each.call not in STAYS else each
        for each in water.points
    )
    going = {each.where for each in points if each.call == "goes out"}
    if not going and not floor and not looser:
        return water
    also = [each for each in water.gate.missing if each.kind in ALSO]
    last = [each for each in water.gate.missing if each.kind in LAST]
    facts = facts.model_copy(update={"allowed": counting(facts.allowed)})
    shut = gate(
        *(facts, points, water.source, water.rounds, walls, water.cuts, floor, also, last),
        looser=looser,
        unit=unit,
    )
    findings = [
        each
        for each in water.findings
        if each.code != "do-not-cover" and not (each.code in OF_A_POINT and each.where in going)
    ]
    again = "" if all(each.call in DONE for each in points) else water.again
    return replace(
        water,
        points=points,
        close=close_date(points),
        gate=shut,
        again=again,
        findings=_in_order(water, findings, [*gate_finding(shut)]),
    )


def with_more(water: WoodResult, more: Sequence[Missing]) -> WoodResult:
    """The answer with more that keeps the gate shut, each once: stops after those that stand, the rest before
    the photos.

    Parameters
    ----------
    water : WoodResult
    more : sequence of Missing

    Returns
    -------
    WoodResult
    """
    there = {(each.kind, each.where, each.what) for each in water.gate.missing}
    more = [each for each in more if (each.kind, each.where, each.what) not in there]
    if not more:
        return water
    before = water.gate.missing
    missing = (
        *(each for each in (*before, *more) if each.kind in FIRST),
        *(each for each in before if each.kind not in (*FIRST, *LAST)),
        *(each for each in more if each.kind not in FIRST),
        *(each for each in before if each.kind in LAST),
    )
    shut = replace(water.gate, open=False, missing=missing)
    findings = [each for each in water.findings if each.code != "do-not-cover"]
    told = _in_order(water, findings, [*gate_finding(shut)]) if water.findings else ()
    return replace(water, gate=shut, findings=told)


def _going(each: PointVerdict, number: int) -> PointVerdict:
    return replace(
        each,
        call="goes out",
        patch=number,
        why=Sentence("inside the cut lines of patch {number}", number=number),
        next_step=Sentence(
            "Cut it out with patch {number}, then type the day it was cut out.", number=number
        ),
        source="practice-open-past",
        near=False,
    )


def _in_order(water: WoodResult, kept: list, shut: list) -> tuple:  # type: ignore[type-arg]
    """Where the gate's finding stood, it stands again."""
    at = next((i for i, each in enumerate(water.findings) if each.code == "do-not-cover"), None)
    after = [] if at is None else [each for each in water.findings[at + 1 :] if each in kept]
    before = kept[: len(kept) - len(after)]
    return (*before, *shut, *after)
