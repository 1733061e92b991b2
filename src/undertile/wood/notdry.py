"""Places marked as never wetted that were: no dry reference, counted as any other place.

A mark does not make wood dry. One that was ever at the most a goal may be, so far over the other dry
references that it would not pass by them, wetter than before by more than meter and season, or not sound, is
no reference: it is said, and it is judged.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.facts import Allowed
from undertile.wood.history import Round, Sample, Series, alike
from undertile.wood.leakwet import rises
from undertile.wood.say import down, goal_text, up
from undertile.wood.verdict import soundness

USUAL_MOST = 16.0
"""A dry reference lies under it, though a person's own goal be lower (convention 5.4). [percent]"""


@dataclass(frozen=True)
class Sorted:
    """The places, and what is said of marks that do not hold.

    Attributes
    ----------
    series : tuple of Series
        In the order they came; a place whose mark does not hold has none.
    findings : tuple of Finding
    """

    series: tuple[Series, ...]
    findings: tuple[Finding, ...] = ()


def sorted_out(series: Sequence[Series], allowed: Allowed, rounds: Sequence[Round] = ()) -> Sorted:
    """The places with the marks of those taken off that were wet.

    Parameters
    ----------
    series : sequence of Series
    allowed : Allowed
    rounds : sequence of Round, optional
        By day, for the room's air.

    Returns
    -------
    Sorted
    """
    most = max(float(allowed.most), USUAL_MOST)
    marked = [each for each in series if each.facts.reference and not each.facts.out]
    found: dict[str, Finding] = {}
    for each in marked:
        wet = _wettest(each)
        if wet is not None and up(wet.value or 0.0) >= most:
            expected = Sentence("under {most} wherever it was never wet", most=goal_text(most))
            found[each.name] = _said(each, wet, expected)
        elif (other := _unsound(each) or _wetted(each, rounds)) is not None:
            found[each.name] = other
    while True:
        over = [
            (by, each, wet, goal)
            for each in marked
            if each.name not in found
            for by, wet, goal in _over(each, [one for one in marked if one.name not in found], allowed)
        ]
        if not over:
            break
        _, each, wet, goal = max(over, key=_by)
        expected = Sentence("at most {goal}, by the other dry references", goal=goal_text(goal))
        found[each.name] = _said(each, wet, expected)
    if not found:
        return Sorted(tuple(series))
    told = tuple(_unmarked(each) if each.name in found else each for each in series)
    return Sorted(told, tuple(found[each.name] for each in marked if each.name in found))


def _by(one: tuple[float, Series, Sample, float]) -> float:
    return one[0]


def _wettest(series: Series) -> Sample | None:
    read = [each for each in series.samples if each.value is not None]
    return max(read, key=lambda each: each.value or 0.0, default=None)


def _over(series: Series, marked: Sequence[Series], allowed: Allowed) -> list[tuple[float, Sample, float]]:
    """Readings of a place over what the others of its stuff would let pass, as those read then."""
    others = [
        each for each in marked if each.name != series.name and each.facts.material == series.facts.material
    ]
    out = []
    for sample in series.samples:
        beside = [value for each in others if (value := _then(each, sample)) is not None]
        if sample.value is None or not beside:
            continue
        goal = down(down(sum(beside) / len(beside)) + float(allowed.over_reference))
        if up(sample.value) > goal:
            out.append((sample.value - goal, sample, goal))
    return out


def _then(other: Series, sample: Sample) -> float | None:
    """What another place read when one was read: the newest reading until then, else its first. [percent]"""
    read = [each for each in other.samples if each.value is not None and alike(each, sample)]
    before = [each for each in read if each.day <= sample.day]
    return before[-1].value if before else read[0].value if read else None


def _unsound(series: Series) -> Finding | None:
    """Decay and swelling need water, whatever it reads today."""
    unsound = soundness(series)
    if unsound is None:
        return None
    expected = Sentence("sound wood wherever it was never wet")
    return Finding("reference-wet", Severity.ACT, series.where, expected, unsound[0], _ONCE, SOURCE)


def _wetted(series: Series, rounds: Sequence[Round]) -> Finding | None:
    """One that got wetter between two readings, by more than meter and season account for."""
    rise = next(iter(rises([series], rounds, ())), None)
    if rise is None:
        return None
    found = Sentence(
        "{before} on visit {first}, then {after} on visit {visit}",
        before=rise.before.reads,
        first=rise.before.round.name,
        after=rise.after.reads,
        visit=rise.after.round.name,
    )
    expected = Sentence("no wetter than before wherever it was never wet")
    return Finding("reference-wet", Severity.ACT, series.where, expected, found, _DAMP, SOURCE)


SOURCE = "practice-dry-reference"
_ONCE = Sentence(
    "It was wet once: look for damp there too. It counts as any other place, and not as a dry reference."
)
_DAMP = Sentence(
    "Look for damp there too; or it reads high: dry a chip of it in an oven and weigh it. It counts "
    "as any other place, and not as a dry reference."
)
_TOO_HIGH = Sentence(
    "This meter begins too high to tell that it is dry: read it with one that begins lower, or dry a chip of "
    "it in an oven and weigh it. It counts as any other place, and not as a dry reference."
)


def _said(series: Series, wet: Sample, expected: Sentence) -> Finding:
    return Finding(
        "reference-wet",
        Severity.ACT,
        series.where,
        expected,
        Sentence("{value} on visit {visit}", value=wet.reads, visit=wet.round.name),
        _TOO_HIGH if wet.shown.state == "under" else _DAMP,
        SOURCE,
    )


def _unmarked(series: Series) -> Series:
    return replace(series, facts=series.facts.model_copy(update={"reference": False}))
