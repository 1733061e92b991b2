"""What dry is in this house, and the goal of each point (convention 5.4)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from undertile.findings import Finding, Severity
from undertile.lengths import Unit
from undertile.sentence import Sentence, form, joined
from undertile.wood.correct import LEAST
from undertile.wood.extent import PAST
from undertile.wood.facts import Allowed
from undertile.wood.history import Sample, Series
from undertile.wood.limits import USUAL
from undertile.wood.say import as_typed, down, dry_text, goal_text, length

MATERIALS = {
    "lumber": Sentence("lumber"),
    "treated": Sentence("treated"),
    "plywood": Sentence("plywood"),
    "other panel": Sentence("other panel"),
    "unknown": Sentence("unknown"),
}
UNDER_DRY = Sentence(
    "Take the usual limits again, or dry the whole house further and read its dry places anew."
)
ENOUGH = 3
"""Reference points of one stuff that make a reference (common practice)."""


@dataclass(frozen=True)
class Reference:
    """The dry reference of one stuff.

    Attributes
    ----------
    material : str
    value : float
        Mean of the points' newest readings; with fewer than three the lowest. [percent]
    points : tuple of str
        Where they were taken.
    under : bool
        Whether one was under the meter's range, and counts as its lower end.
    """

    material: str
    value: float
    points: tuple[str, ...]
    under: bool = False

    @property
    def shown(self) -> float:
        """Rounded down to the tenth, as it prints: the goal is so much over this one. [percent]"""
        return down(self.value)

    @property
    def enough(self) -> bool:
        """Whether there are three or more."""
        return len(self.points) >= ENOUGH


@dataclass(frozen=True)
class Goal:
    """A point's goal.

    Attributes
    ----------
    value : float or None
        Rounded down to the tenth; None where there is no reference. [percent]
    most : float
        The goal's upper bound, whatever the reference. [percent]
    never : float
        Over it nothing is ever covered. [percent]
    reference : Reference or None
    meter : str
        The meter that the dry references were not read with, where that is why there is none; else "".
    unsaid : bool
        Whether there is none because nobody said which meter it is.
    """

    value: float | None
    most: float
    never: float
    reference: Reference | None
    meter: str = ""
    unsaid: bool = False

    def words(self) -> str:
        """How it comes about."""
        if self.meter:
            said = form("at most {most}, and near a dry reference not read yet with meter {meter}")
            return Sentence(said, most=goal_text(self.most), meter=self.meter)
        if self.value is None or self.reference is None:
            return Sentence(
                "at most {most}, and near a dry reference that is not read yet", most=goal_text(self.most)
            )
        dry: str = dry_text(self.reference.value)
        if self.reference.under:
            dry = Sentence("{dry} or less", dry=dry)
        if self.value == self.most:
            said = form("{goal}, the most allowed (dry reference {dry})")
            return Sentence(said, goal=goal_text(self.value), dry=dry)
        return Sentence("{goal} (dry reference {dry})", goal=goal_text(self.value), dry=dry)

    @property
    def wets(self) -> float:
        """Over it a place was wet: its goal, and the usual one where that lies under what dry wood reads.

        A goal that no wood comes to tells nothing of how far the water went.
        """
        if self.under_dry and self.reference is not None:
            usual = self.reference.shown + float(USUAL["over_reference"])
            return max(self.reference.shown, min(usual, float(USUAL["most"])))
        return self.most if self.value is None else self.value

    @property
    def under_dry(self) -> bool:
        """Whether it lies under what dry wood reads in this house: no wood comes to it."""
        return self.value is not None and self.reference is not None and self.value < self.reference.shown


def usual_past(unit: Unit) -> Sentence:
    """How far past the last bad spot it is usually opened, in the job's unit."""
    said = Sentence("Open until {past} of sound, dry wood past the last bad spot", past=length(PAST, unit))
    return Sentence("{rule} (common practice, no source)", rule=said)


def own_past(allowed: Allowed, unit: Unit) -> str:
    """How far past the last bad spot to open, where the person has another limit; "" where it is the usual.

    Parameters
    ----------
    allowed : Allowed
    unit : {"in", "mm"}

    Returns
    -------
    str
        With the reason, or that none is given.
    """
    past = allowed.past_the_last
    if past is None or past.inches == PAST:
        return ""
    said = Sentence("Open until {past} of sound, dry wood past the last bad spot", past=as_typed(past))
    usual = length(PAST, unit)
    if not allowed.reason:
        own = Sentence("another limit than the usual {usual}, no reason given", usual=usual)
    else:
        own = Sentence("another limit than the usual {usual}: {reason}", usual=usual, reason=allowed.reason)
    return joined([said, own], "{first}; {then}")


def references(series: Iterable[Series], meter: str | None = None) -> dict[str, Reference]:
    """The dry reference of each material.

    Parameters
    ----------
    series : iterable of Series
    meter : str, optional
        Only as this meter read them (and chips weighed, beside pins); left out = as last read, with any.

    Returns
    -------
    dict of str to Reference
        By material.
    """
    found: dict[str, list[tuple[str, float]]] = {}
    under: set[str] = set()
    for each in series:
        last = next((s for s in reversed(each.samples) if _by_it(s, meter)), None)
        if not each.facts.reference or each.facts.out or last is None or last.value is None:
            continue
        if last.surface != "wet" and last.shown.state != "over":
            low = last.past or (last.corrected is not None and last.corrected.because == "below range")
            value = min(last.value, LEAST) if low else last.value - _assumed(last)
            found.setdefault(each.facts.material, []).append((each.where, value))
            if low:
                under.add(each.facts.material)
    out = {}
    for material, taken in found.items():
        values = [value for _, value in taken]
        value = sum(values) / len(values) if len(values) >= ENOUGH else min(values)
        out[material] = Reference(material, value, tuple(where for where, _ in taken), material in under)
    return out


def _assumed(sample: Sample) -> float:
    """What the air's temperature added where the wood's is not said: it lifts nobody's goal. [percent]"""
    found = sample.corrected
    return (found.temperature or 0.0) if found is not None and found.assumed else 0.0


def _by_it(sample: Sample, meter: str | None) -> bool:
    if sample.value is None:
        return False
    return meter is None or (sample.round.instrument == meter and not sample.weighed)


class Goals:
    """The goal of each place: by its stuff, and by the meter that it was last read with.

    What one meter shows is held against what the same meter shows on the dry references: another one may be
    off by more than the goal lies over them. A chip weighed in an oven is held against all.

    Parameters
    ----------
    series : sequence of Series
        Dry references among them, those read wet sorted out.
    allowed : Allowed
    """

    def __init__(self, series: Sequence[Series], allowed: Allowed) -> None:
        self._series, self._allowed = series, allowed
        self._known: dict[str | None, dict[str, Reference]] = {None: references(series)}

    @property
    def known(self) -> dict[str, Reference]:
        """The dry reference of each material, as last read."""
        return self._known[None]

    def of(self, series: Series) -> Goal:
        """The goal of one place."""
        last = series.last
        meter = None if last is None or last.weighed else last.round.instrument
        if meter not in self._known:
            self._known[meter] = references(self._series, meter)
        material = series.facts.material
        found = goal_of(material, self._known[meter], self._allowed)
        if found.reference is None and meter is not None and material in self.known:
            return replace(found, meter=meter, unsaid=not meter)
        return found

    def by_material(self, series: Iterable[Series]) -> dict[str, Goal]:
        """The goal of each stuff, by the place of it that was read last."""
        newest: dict[str, tuple[float, Goal]] = {}
        for each in series:
            day = -1.0 if each.last is None else each.last.day
            if each.facts.material not in newest or day > newest[each.facts.material][0]:
                newest[each.facts.material] = day, self.of(each)
        return {material: goal for material, (_, goal) in newest.items()}


def goal_of(material: str, known: dict[str, Reference], allowed: Allowed) -> Goal:
    """The goal for one material: reference and some, but never over the most allowed.

    Worked from the reference as it prints, so that the two add up on paper too.

    Parameters
    ----------
    material : str
    known : dict of str to Reference
    allowed : Allowed

    Returns
    -------
    Goal
    """
    most, never = float(allowed.most), float(allowed.never)
    reference = known.get(material)
    if reference is None:
        return Goal(None, most, never, None)
    return Goal(down(min(reference.shown + float(allowed.over_reference), most)), most, never, reference)


def reference_findings(
    series: Iterable[Series], known: dict[str, Reference], allowed: Allowed, unit: Unit
) -> list[Finding]:
    """What is missing or odd about the references."""
    out = []
    wanted = sorted(
        {each.facts.material for each in series if not each.facts.reference and not each.facts.out}
    )
    for material in wanted:
        reference = known.get(material)
        if reference is None or not reference.enough:
            have = 0 if reference is None else len(reference.points)
            out.append(
                Finding(
                    "reference-thin",
                    Severity.ACT,
                    Sentence("dry reference of {material}", material=MATERIALS.get(material, material)),
                    Sentence(
                        "{enough} places of the same stuff in this house that were never wet", enough=ENOUGH
                    ),
                    f"{have}",
                    Sentence(
                        "Read them: a closet, another wall of the bath, a joist 6 ft off."
                        if unit == "in"
                        else "Read them: a closet, another wall of the bath, a joist 2 m off."
                    ),
                    "practice-dry-reference",
                )
            )
        goal = goal_of(material, known, allowed)
        if goal.under_dry and reference is not None:
            out.append(
                Finding(
                    "goal-under-dry",
                    Severity.ACT,
                    Sentence("goal for {material}", material=MATERIALS.get(material, material)),
                    Sentence(
                        "a goal that wood comes to in this house: dry places read {dry}",
                        dry=dry_text(reference.value),
                    ),
                    goal_text(goal.value or 0.0),
                    UNDER_DRY,
                    "convention-5",
                )
            )
    return out
