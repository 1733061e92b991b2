"""How far a stud's face goes back between truing it wet and closing it dry: a tolerance of the plan.

dD = D C (moisture at truing - moisture when dry), C by species from the Wood Handbook. Which way the rings
lie is not known, nor whether the stud is held at its back or its middle: the least is half the radial change,
the most the whole tangential one, the meter's own error on it. A stud at or under its goal is as dry as it
will be when it is closed, and is left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Any

from undertile.wood.facts import Point, WoodFacts
from undertile.wood.goal import Goal, Goals
from undertile.wood.gone import counted
from undertile.wood.history import Sample, Series, history
from undertile.wood.notdry import sorted_out
from undertile.wood.say import up
from undertile.wood.species import SATURATION, change_coefficients
from undertile.wood.typed import read_moment, read_shown

STEP = Fraction(1, 64)
"""Least is rounded down to it, most up. [in]"""
MATTERS = Fraction(1, 64)
"""Less than this is not worth a word. [in]"""
MAY_LIE_BACK = Fraction(1, 16)
"""How far behind its plane a finished face may lie (convention 3.3): the plan has no more room. [in]"""
SERVICE = 8.0
"""Moisture of wood in a heated house where no dry reference is read (common practice, 7 to 10). [percent]"""


@dataclass(frozen=True)
class StudShrinkage:
    """One stud.

    Attributes
    ----------
    stud : str
    moisture, dry : float
        At truing, and what it comes to. [percent]
    depth : Fraction
        Actual, face to back. [in]
    least, most : Fraction
        How far its face goes back. [in]
    visit : str
        Whose reading it stands on.
    where : str
        The wettest point read on it.
    reads : str
        Its reading as every face prints it; ``moisture`` counts it no wetter than fibre saturation.
    goal : float or None
        The gate's, at which it counts as dry and is trued; ``dry`` lies below it. [percent]
    """

    stud: str
    moisture: float
    dry: float
    depth: Fraction
    least: Fraction
    most: Fraction
    visit: str
    where: str
    reads: str = ""
    goal: float | None = None


def shrinkage_of(all_facts: Mapping[str, Any]) -> tuple[tuple[StudShrinkage, ...], tuple[str, ...]]:
    """As ``shrinkage``, from the facts of a job and looking at nothing else: what the plan asks of the wood.

    Parameters
    ----------
    all_facts : mapping of str to facts
        Of every stage by key; one that is not there says nothing.

    Returns
    -------
    found, unknown
        As ``shrinkage``.
    """
    typed: WoodFacts | None = all_facts.get("wood")
    if typed is None:
        return (), ()
    facts = counted(typed)
    if not any(_on_a_stud(point) for point in facts.points.values()):
        return (), ()
    order = sorted(facts.visits, key=lambda name: read_moment(facts.visits[name].when).days)
    points = {
        name: point if point.reference else _newest(point, order, facts.trued)
        for name, point in facts.points.items()
        if point.reference or _on_a_stud(point)
    }
    series = sorted_out(history(facts.model_copy(update={"points": points})).series, facts.allowed).series
    wet = [each for each in series if not each.facts.reference]
    goals = Goals(series, facts.allowed).by_material(wet)
    depths = depths_of(all_facts.get("framing"), all_facts.get("survey"))
    return shrinkage(wet, goals, depths, facts.trued)


def depths_of(framing: Any, survey: Any) -> dict[str, Fraction]:
    """Actual depth of each stud: its own, else its wall's. [in]

    Parameters
    ----------
    framing, survey : facts of those stages, or None
    """
    if framing is None:
        return {}
    out: dict[str, Fraction] = {}
    names = [name for wall in survey.walls.values() for name in wall.studs] if survey is not None else []
    for name in (*names, *framing.studs):
        own = framing.studs[name].depth if name in framing.studs else None
        wall = framing.walls.get(name[:1])
        depth = own if own is not None else None if wall is None else wall.depth
        if depth is not None:
            out[name] = depth.inches
    return out


def _newest(point: Point, order: list[str], trued: str) -> Point:
    """A point with only the readings that may count here: a year of them is not gone through for one.

    The newest three, for one whose decimal point is asked about is not used, and the next to it may agree.
    """
    read = [name for name in order if read_shown(point.shown.get(name, "")).state in _READ]
    kept = {*read[-3:], trued, *point.chips}
    return point.model_copy(
        update={
            table: {name: value for name, value in getattr(point, table).items() if name in kept}
            for table in _BY_VISIT
        }
    )


_READ = ("number", "over", "under")
_BY_VISIT = ("shown", "awl", "pick")


def _on_a_stud(point: Point) -> bool:
    return point.member == "stud" and bool(point.name) and not point.reference and not point.out


def shrinkage(
    series: Iterable[Series], goals: Mapping[str, Goal], depths: Mapping[str, Fraction], trued: str
) -> tuple[tuple[StudShrinkage, ...], tuple[str, ...]]:
    """Every stud that was over its goal when it was trued, and those whose depth is not measured.

    Parameters
    ----------
    series : iterable of Series
    goals : mapping of str to Goal
        By material.
    depths : mapping of str to Fraction
        Of studs, by name. [in]
    trued : str
        The visit nearest to the truing; "" = each point's newest reading.

    Returns
    -------
    found : tuple of StudShrinkage
    unknown : tuple of str
        Wet studs without a depth.
    """
    wettest: dict[str, tuple[float, Sample, Series]] = {}
    for each in series:
        facts = each.facts
        if facts.member != "stud" or not facts.name or facts.out or facts.reference:
            continue
        sample = next((s for s in each.samples if s.round.name == trued), None) if trued else each.last
        if sample is None or sample.value is None or not _tells(sample):
            continue
        moisture = min(sample.value, SATURATION)
        if facts.name not in wettest or moisture > wettest[facts.name][0]:
            wettest[facts.name] = (moisture, sample, each)
    found, unknown = [], []
    for stud, (moisture, sample, each) in sorted(wettest.items()):
        goal = goals.get(each.facts.material)
        dry = goal.reference.value if goal is not None and goal.reference is not None else SERVICE
        radial, tangential = change_coefficients(each.facts.species)
        lost = moisture - dry
        doubt = sample.corrected.give_or_take if sample.corrected is not None else 2.0
        if lost <= 0 or (goal is not None and goal.value is not None and up(moisture) <= goal.value):
            continue  # as dry as it will be when it is closed (convention 5.4)
        if stud not in depths:
            unknown.append(stud)
            continue
        depth = depths[stud]
        least = _to(float(depth) * radial * max(0.0, lost - doubt) / 2, up=False)
        most = _to(float(depth) * tangential * min(lost + doubt, SATURATION - dry), up=True)
        if most >= MATTERS:
            found.append(
                StudShrinkage(
                    stud,
                    moisture,
                    dry,
                    depth,
                    least,
                    most,
                    sample.round.name,
                    each.where,
                    sample.reads,
                    None if goal is None else goal.value,
                )
            )
    return tuple(found), tuple(unknown)


def _tells(sample: Sample) -> bool:
    """Whether a reading is a moisture content, or surely over fibre saturation."""
    if sample.shown.state == "over":
        return True
    return sample.corrected is not None and (
        sample.corrected.scale != "relative"
        or sample.corrected.because in ("above saturation", "below range")
    )


def _to(inches: float, *, up: bool) -> Fraction:
    steps = inches / float(STEP)
    return (ceil(steps - 1e-9) if up else floor(steps + 1e-9)) * STEP
