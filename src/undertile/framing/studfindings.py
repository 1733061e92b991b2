"""What the facts about the studs say before any plan is made, and what knowing more could save."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.framing.facts import FramingFacts, Stud, WallWork
from undertile.framing.limits import offered
from undertile.framing.problem import Member
from undertile.framing.say import FAMILIES, place, said
from undertile.framing.stud_is import StudIs
from undertile.lengths import Unit
from undertile.sentence import Sentence, form, joined, with_first
from undertile.survey.result import StudOffsets, SurveyResult

TWIST = Fraction(1, 16)
"""Twist over a stud's face that is worth a word: the band of the faces (ours). [in]"""


def stud_findings(stud: StudIs, member: Member, read: StudOffsets, unit: Unit = "in") -> tuple[Finding, ...]:
    """Findings of one stud: soft wood, a hold that cannot be kept, twist.

    Parameters
    ----------
    stud : StudIs
    member : Member
        Its permissions.
    read : StudOffsets
    unit : {"in", "mm"}

    Returns
    -------
    tuple of Finding
    """
    return (*_soft(stud, member), *_hold(stud, member), *_twist(stud, read, unit))


def _soft(stud: StudIs, member: Member) -> tuple[Finding, ...]:
    if not stud.soft:
        return ()
    ways = sorted(offered(member))
    step: str = Sentence(
        "Nothing that mends it is allowed here; take back what forbids it ({refusals}).",
        refusals=_refusals(member),
    )
    if ways == ["replace", "sister"]:
        step = Sentence("Replace or sister it before the wall is closed.")
    elif ways == ["replace"]:
        step = Sentence("Replace it before the wall is closed.")
    elif ways == ["sister"]:
        step = Sentence("Sister it before the wall is closed.")
    if stud.bears:
        step = Sentence("{step} It counts as bearing: shore first, and ask an engineer.", step=step)
    return (
        Finding(
            "stud-soft",
            Severity.STOP,
            stud.name,
            Sentence("sound wood"),
            Sentence("the stud is soft"),
            step,
            "convention-4",
        ),
    )


def _refusals(member: Member) -> str:
    return joined(
        (
            Sentence("{family}: {why}", family=FAMILIES[family], why=member.why[family][0])
            for family in ("sister", "replace")
            if family in member.why
        ),
        "{first}; {then}",
    )


def _hold(stud: StudIs, member: Member) -> tuple[Finding, ...]:
    if stud.hold is None or stud.hold.treatment in offered(member):
        return ()
    family = stud.hold.treatment
    text, source = member.why.get(family, (Sentence("it is not offered here"), "convention-4"))
    if member.must and family not in member.must:
        text, source = Sentence("a soft stud is to be sistered or replaced"), "convention-4"
    return (
        Finding(
            "hold-not-offered",
            Severity.STOP,
            stud.name,
            Sentence(
                "a treatment that is allowed on this stud: {names}",
                names=", ".join(sorted(offered(member))) or Sentence("none is"),
            ),
            Sentence(
                "it is held to {family} ({reason}), but {why}",
                family=FAMILIES[family],
                reason=stud.hold.reason,
                why=text,
            ),
            Sentence("Hold {name} to another treatment, or let it go.", name=stud.name),
            source,
        ),
    )


def _twist(stud: StudIs, read: StudOffsets, unit: Unit) -> tuple[Finding, ...]:
    worst: tuple[Fraction, Fraction] | None = None
    for spot in read.offsets:
        if (
            spot.twist is not None
            and abs(spot.twist) > TWIST
            and (worst is None or abs(spot.twist) > worst[0])
        ):
            worst = (abs(spot.twist), spot.height)
    if worst is None:
        return ()
    twist, height = worst
    return (
        Finding(
            "stud-twisted",
            Severity.NOTE,
            f"{stud.name} at {place(height, unit)}",
            Sentence("both edges within {twist}", twist=said(TWIST, unit)),
            Sentence("one edge stands {twist} behind the other", twist=said(twist, unit)),
            Sentence(
                "Plane the proud edge only, and pack the other under a strip; a sister gives a straight face."
            ),
            "convention-2",
        ),
    )


@dataclass(frozen=True)
class Knowing:
    """One thing nobody has said yet, and the job as it would be if the answer were the easy one.

    Attributes
    ----------
    wall : str
    studs : tuple of str
        Where it is not known.
    question : str
        What to find out.
    answer : str
        The easy answer.
    facts : FramingFacts
        The job with that answer; planned again, the difference in cost is what knowing could save.
    """

    wall: str
    studs: tuple[str, ...]
    question: str
    answer: str
    facts: FramingFacts


_ASKED: tuple[tuple[str, str, str, str], ...] = (
    (
        "kind",
        "wood",
        Sentence("Is it plain wood?"),
        form("not known for {studs}; unknown stuff is not planed nor sistered"),
    ),
    (
        "bearing",
        "no",
        Sentence("Does it bear anything?"),
        form("not known for {studs}; an unknown stud counts as bearing"),
    ),
    (
        "bay",
        "clear",
        Sentence("Is the bay clear of pipe and wire?"),
        form("not known for {studs}; an unknown bay may hold wires"),
    ),
)


def worth_knowing(facts: FramingFacts, survey: SurveyResult) -> tuple[Knowing, ...]:
    """What is not known on each wall, with the job as it would be at the easy answer (convention 4.5).

    Parameters
    ----------
    facts : FramingFacts
    survey : SurveyResult

    Returns
    -------
    tuple of Knowing
        By wall, then kind, bearing, bay; nothing for what is known.
    """
    found = []
    for wall in survey.walls:
        names = [stud.name for stud in wall.studs]
        for field, answer, question, _ in _ASKED:
            unknown = _unknown(facts, wall.name, names, field)
            if unknown:
                with_answer = _answered(facts, wall.name, names, field, answer)
                found.append(Knowing(wall.name, unknown, question, answer, with_answer))
    return tuple(found)


def wall_work(facts: FramingFacts, wall: str) -> WallWork:
    """What is said of a wall; all unknown where nothing is."""
    return next((work for name, work in facts.walls.items() if name == wall), WallWork())


def _unknown(facts: FramingFacts, wall: str, names: Sequence[str], field: str) -> tuple[str, ...]:
    of_wall: Any = getattr(wall_work(facts, wall), field)
    unknown = []
    for name in names:
        own: Any = getattr(facts.studs.get(name, Stud()), field)
        if (of_wall if own is None else own) == "unknown":
            unknown.append(name)
    return tuple(unknown)


def _answered(facts: FramingFacts, wall: str, names: Sequence[str], field: str, answer: str) -> FramingFacts:
    work = wall_work(facts, wall)
    walls, studs = dict(facts.walls), dict(facts.studs)
    if getattr(work, field) == "unknown":
        walls[wall] = work.model_copy(update={field: answer})  # type: ignore[index]
    for name in names:
        if name in studs and getattr(studs[name], field) == "unknown":
            studs[name] = studs[name].model_copy(update={field: answer})
    return facts.model_copy(update={"walls": walls, "studs": studs})


def unknown_findings(facts: FramingFacts, survey: SurveyResult) -> tuple[Finding, ...]:
    """One note a wall for each thing not known, so that the caution is seen where it is used."""
    caution = {field: (question, words) for field, _, question, words in _ASKED}
    found = []
    for wall in survey.walls:
        names = [stud.name for stud in wall.studs]
        for field, (question, words) in caution.items():
            unknown = _unknown(facts, wall.name, names, field)
            if not unknown:
                continue
            shown: str = Sentence("all studs") if len(unknown) == len(names) else ", ".join(unknown)
            found.append(
                Finding(
                    f"unknown-{field}",
                    Severity.NOTE,
                    f"wall {wall.name}",
                    Sentence("an answer for every stud: {question}", question=with_first(question, "lower")),
                    Sentence(words, studs=shown),
                    Sentence("Say so if you know: the plan may cost less."),
                    "convention-4",
                    {"studs": ",".join(unknown)},
                )
            )
    return tuple(found)
