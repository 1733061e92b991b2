"""How far a stud's face goes back between truing it wet and closing it dry: a tolerance of the plan.

dD = D C (moisture at truing - moisture when dry), C by species from the Wood Handbook. Which way the rings
lie is not known, nor whether the stud is held at its back or its middle: the least is half the radial change,
the most the whole tangential one, the meter's own error on it. A stud at or under its goal is as dry as it
will be when it is closed, and is left out: unless its face was read while it was wet, for then the reading is
of a face that has gone back since. The day a face was read is told by the job (``framing.studs.*.read_on``);
where it is not, a stud that dried counts from its wettest reading (convention 4.5).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from types import MappingProxyType
from typing import Any, Literal

from undertile.wood.facts import Point, WoodFacts
from undertile.wood.goal import Goal, Goals
from undertile.wood.gone import counted
from undertile.wood.history import Sample, Series, history
from undertile.wood.limits import counting
from undertile.wood.notdry import sorted_out
from undertile.wood.say import up
from undertile.wood.species import SATURATION, change_coefficients
from undertile.wood.typed import read_moment, read_shown

NOTHING: Mapping[str, str] = MappingProxyType({})
STEP = Fraction(1, 64)
"""Least is rounded down to it, most up. [in]"""
MATTERS = Fraction(1, 64)
"""Less than this is not worth a word. [in]"""
MAY_LIE_BACK = Fraction(1, 16)
"""How far behind its plane a finished face may lie (convention 3.3): the plan has no more room. [in]"""
Since = Literal["", "read wet", "not known"]
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
    since : str
        ``read wet``: its face was read when its wood was wet, and its wood is dry now. ``not known``: the
        same wood, and nothing tells when its face was read. "" = it is still wet.
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
    since: Since = ""


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
    read_on = read_on_of(all_facts.get("framing"))
    order = sorted(facts.visits, key=lambda name: read_moment(facts.visits[name].when).days)
    points = {
        name: point if point.reference else _that_count(point, order, facts, read_on.get(point.name, ""))
        for name, point in facts.points.items()
        if point.reference or _on_a_stud(point)
    }
    allowed = counting(facts.allowed)
    series = sorted_out(history(facts.model_copy(update={"points": points})).series, allowed).series
    wet = [each for each in series if not each.facts.reference]
    goals = Goals(series, allowed).by_material(wet)
    depths = depths_of(all_facts.get("framing"), all_facts.get("survey"))
    return shrinkage(wet, goals, depths, facts.trued, read_on)


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


def read_on_of(framing: Any) -> dict[str, str]:
    """The day the face of each stud was read, where it is known.

    Parameters
    ----------
    framing : facts of that stage, or None
    """
    studs = {} if framing is None else framing.studs
    return {name: stud.read_on for name, stud in studs.items() if stud.read_on}


def _that_count(point: Point, order: list[str], facts: WoodFacts, read_on: str) -> Point:
    """A point with only the readings that may count here: a year of them is not gone through for one.

    The newest three, for one whose decimal point is asked about is not used, and the next to it may agree; as
    many about the day its face was read, or all where that is not known.
    """
    read = [name for name in order if read_shown(point.shown.get(name, "")).state in _READ]
    kept = {*read[-3:], facts.trued, *point.chips}
    if read_on:
        by = sum(_day(facts.visits[name].when) <= _day(read_on) for name in read)
        kept |= {*read[max(0, by - 3) : by + 3]}
    else:
        kept |= {*read}
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
    series: Iterable[Series],
    goals: Mapping[str, Goal],
    depths: Mapping[str, Fraction],
    trued: str,
    read_on: Mapping[str, str] = NOTHING,
) -> tuple[tuple[StudShrinkage, ...], tuple[str, ...]]:
    """Every stud that was over its goal when it was trued or read, and those whose depth is not measured.

    Parameters
    ----------
    series : iterable of Series
    goals : mapping of str to Goal
        By material.
    depths : mapping of str to Fraction
        Of studs, by name. [in]
    trued : str
        The visit nearest to the truing; "" = each point's newest reading.
    read_on : mapping of str to str
        The day the face of a stud was read, by name; a stud that is not in it: not known.

    Returns
    -------
    found : tuple of StudShrinkage
    unknown : tuple of str
        Wet studs without a depth.
    """
    now: dict[str, _Wettest] = {}
    when_read: dict[str, _Wettest] = {}
    for each in series:
        facts = each.facts
        if facts.member != "stud" or not facts.name or facts.out or facts.reference:
            continue
        sample = next((s for s in each.samples if s.round.name == trued), None) if trued else each.last
        _keep(now, each, sample)
        _keep(when_read, each, _when_read(each, read_on.get(facts.name, "")))
    found, unknown = [], []
    for stud in sorted({*now, *when_read}):
        since, (moisture, sample, each) = _counts(
            now.get(stud), when_read.get(stud), goals, known=stud in read_on
        )
        goal = goals.get(each.facts.material)
        dry = goal.reference.value if goal is not None and goal.reference is not None else SERVICE
        radial, tangential = change_coefficients(each.facts.species)
        lost = moisture - dry
        doubt = sample.corrected.give_or_take if sample.corrected is not None else 2.0
        if lost <= 0 or _at_goal(moisture, goal):
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
                    since,
                )
            )
    return tuple(found), tuple(unknown)


_Wettest = tuple[float, Sample, Series]


def _keep(wettest: dict[str, _Wettest], each: Series, sample: Sample | None) -> None:
    """The wettest of a stud's points."""
    if sample is None or sample.value is None or not _tells(sample):
        return
    moisture = min(sample.value, SATURATION)
    name = each.facts.name
    if name not in wettest or moisture > wettest[name][0]:
        wettest[name] = (moisture, sample, each)


def _when_read(each: Series, read_on: str) -> Sample | None:
    """A point as it was when its stud's face was read: the last reading by that day, else the first after it.

    A reading of the same day counts as of the same hour: wood does not dry in one. The wettest where the
    day is not known.
    """
    its = [sample for sample in each.samples if sample.value is not None and _tells(sample)]
    if not its:
        return None
    if not read_on:
        return max(its, key=lambda sample: sample.value or 0.0)
    by = [sample for sample in its if sample.day // 1 <= _day(read_on)]
    return by[-1] if by else its[0]


def _counts(
    now: _Wettest | None, when_read: _Wettest | None, goals: Mapping[str, Goal], *, known: bool
) -> tuple[Since, _Wettest]:
    """What a stud goes back from: the wetter of its wood now and its wood when its face was read.

    While it is wet and nobody knows when it was read, its wood now: it is dried and read again all the same.
    """
    if now is None or when_read is None:
        one = now or when_read
        assert one is not None
        return "" if known or now is not None else "not known", one
    if not _at_goal(now[0], goals.get(now[2].facts.material)):
        return "", when_read if known and when_read[0] > now[0] else now
    return "read wet" if known else "not known", when_read


def _at_goal(moisture: float, goal: Goal | None) -> bool:
    return goal is not None and goal.value is not None and up(moisture) <= goal.value


def _day(text: str) -> float:
    return read_moment(text).days // 1


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
