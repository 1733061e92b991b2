"""What a survey does not say: places not read, checks not usable, mistakes that would not show.

Every finding here asks for a reading or says what is missing for proof (convention 2.6); none is about a
reading that is there and wrong.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import sqrt

from undertile.findings import Finding, Severity
from undertile.lengths import Length, format_length
from undertile.sentence import Sentence, joined
from undertile.survey.checks import Checks
from undertile.survey.facts import SurveyFacts
from undertile.survey.grid import RoomGrid, WallGrid, typed
from undertile.survey.result import Frame, Reliability
from undertile.survey.roomfit import RoomFit
from undertile.survey.stats import two_sided
from undertile.survey.tools import SIGMA, usable

JUMP = Fraction(3, 8)
"""A stud that stands further from the straight line through its neighbours is asked about (practice). [in]"""
FALSE_ALARM = 0.01
"""Chance that the largest test value of a survey without slips exceeds its critical value."""
POWER_QUANTILE = 0.8416
"""Normal quantile of four in five: the power the smallest detectable mistake is stated at."""
UNCHECKED = 1e-6
"""A reading of which the others check no more than this share is checked by nothing."""
ALONE = 1.0
"""A reading where a mistake has to be larger than this to show is said to be unchecked: a whole inch is the
commonest gross one. [in]"""


def reliability_of(fit: RoomFit) -> tuple[tuple[Reliability, ...], float]:
    """Redundancy, test value and smallest detectable mistake of everything typed [1]_.

    Parameters
    ----------
    fit : RoomFit

    Returns
    -------
    (tuple of Reliability, float)
        And the critical value of the largest test value.

    References
    ----------
    .. [1] Baarda 1968: minimal detectable bias (critical + power quantile) / sqrt(M).
    """
    shown = [i for i, seen in enumerate(fit.observations) if seen.slope]
    checked = [i for i in range(len(fit.observations)) if fit.redundancy(i) > UNCHECKED]
    critical = two_sided(FALSE_ALARM / max(1, len(checked)))
    out = []
    for i in shown:
        share = fit.redundancy(i)
        known = share > UNCHECKED
        least = (critical + POWER_QUANTILE) / sqrt(fit.diagonal[i]) if known else None
        out.append(Reliability(fit.observations[i].place, share, fit.standardised(i), least))
    return tuple(out), critical


def coverage_findings(
    facts: SurveyFacts,
    room: RoomGrid,
    checks: Checks,
    frame: Frame,
    reliability: Sequence[Reliability],
    named: set[str],
) -> list[Finding]:
    """Everything the survey leaves open.

    Parameters
    ----------
    facts : SurveyFacts
    room : RoomGrid
    checks : Checks
    frame : Frame
    reliability : sequence of Reliability
    named : set of str
        Places a misfit already names: not asked about twice.

    Returns
    -------
    list of Finding
    """
    out = [
        Finding(
            "check-not-used",
            Severity.ACT,
            place,
            Sentence("a place that readings of the walls reach"),
            Sentence("not used: {why}", why=why),
            Sentence("Read the stud there, or mend the entry."),
            "convention-2",
        )
        for place, why in checks.left_out
    ]
    out += [
        Finding(
            "sigma-not-usable",
            Severity.ACT,
            f"uncertainty of {tool}",
            Sentence("more than nothing and less than 6 in"),
            Sentence(
                "{figure}; the default {sigma} is used",
                figure=typed(figure),
                sigma=format_length(Fraction(SIGMA[tool]), mark=True),
            ),
            Sentence("Enter what the tool is good for, or leave it out."),
            "practice-tools",
        )
        for tool, figure in facts.sigma.items()
        if not usable(figure)
    ]
    by_place = {r.place: r for r in reliability}
    for wall in room.walls.values():
        out += _unread(wall)
        out += _less_than_nothing(wall)
        out += _stands_out(wall, named)
        out += _unchecked(wall, by_place)
        out += _line(facts, wall)
    out += _frame(facts, room, frame)
    return out


STATES = {"not measured": Sentence("not measured"), "cannot reach": Sentence("cannot reach")}


def _note(code: str, where: str, expected: str, found: str, next_step: str, source: str) -> Finding:
    return Finding(code, Severity.NOTE, where, expected, found, next_step, source)


def _unread(wall: WallGrid) -> list[Finding]:
    if not any(line.readings for stud in wall.studs for line in stud.lines()):
        return [
            Finding(
                "wall-not-read",
                Severity.ACT,
                f"wall {wall.name}",
                Sentence("a reading at two heights of each stud, to start"),
                Sentence("nothing read"),
                Sentence("Read wall {name}.", name=wall.name),
                "convention-2",
            )
        ]
    missing: dict[str, list[str]] = {"not measured": [], "cannot reach": []}
    for stud in wall.studs:
        for h in range(len(wall.heights)):
            cells = [line.cells[h] for line in stud.lines()]
            if not any(isinstance(cell, Length) for cell in cells):
                state = "cannot reach" if "x" in cells else "not measured"
                missing[state].append(wall.place(stud.name, h))
    said = joined(
        (
            Sentence("{state}: {places}", state=STATES[state], places=_some(places))
            for state, places in missing.items()
            if places
        ),
        "{first}; {then}",
    )
    if not said:
        return []
    return [
        _note(
            "heights-not-read",
            f"wall {wall.name}",
            Sentence("a reading at every height"),
            Sentence("{missing}; estimated from what stands around, less certain", missing=said),
            Sentence("Read them before the work is proved."),
            "convention-2",
        )
    ]


def _less_than_nothing(wall: WallGrid) -> list[Finding]:
    """A line hangs in front of the wood: no reading from it has a minus. Said, never refused."""
    found = [
        (wall.place(stud.name, h, line.edge), typed(reading))
        for stud in wall.studs
        for line in stud.lines()
        for h, reading in line.readings.items()
        if reading.inches < 0
    ]
    return [
        Finding(
            "reading-negative",
            Severity.ACT,
            place,
            Sentence("0 or more: the line hangs in front of the wood"),
            text,
            Sentence("Read it again, and write the distance from the line without a sign."),
            "convention-2",
        )
        for place, text in found
    ]


def _some(places: Sequence[str], most: int = 6) -> str:
    named = ", ".join(places[:most])
    if len(places) <= most:
        return Sentence("{places}", places=named)
    return Sentence("{places} and {number} more", places=named, number=len(places) - most)


def _stands_out(wall: WallGrid, named: set[str]) -> list[Finding]:
    """Ask about a stud far off the line through its neighbours (common practice)."""
    out = []
    for left, stud, right in zip(wall.studs, wall.studs[1:], wall.studs[2:], strict=False):
        share = (stud.along - left.along) / (right.along - left.along) if right.along > left.along else 0
        worst: tuple[Fraction, int] | None = None
        for h in range(len(wall.heights)):
            cells = [s.first.cells[h] for s in (left, stud, right)]
            a, b, c = cells
            if not (isinstance(a, Length) and isinstance(b, Length) and isinstance(c, Length)):
                continue
            if any(wall.place(s.name, h) in named for s in (left, stud, right)):
                continue
            proud = a.inches * (1 - share) + c.inches * share - b.inches
            if abs(proud) > JUMP and (worst is None or abs(proud) > abs(worst[0])):
                worst = proud, h
        if worst is None:
            continue
        reading = stud.first.readings[worst[1]]
        by = (
            format_length(abs(worst[0]), reading.unit, step=Fraction(1, 32), rounding="nearest")
            if (reading.unit == "in")
            else format_length(abs(worst[0]), "mm", step=Fraction(5, 127), rounding="nearest")
        )
        out.append(
            _note(
                "stud-stands-out",
                wall.place(stud.name, worst[1]),
                Sentence(
                    "within {jump} of the line through {left} and {right}",
                    jump=format_length(JUMP, mark=True),
                    left=left.name,
                    right=right.name,
                ),
                Sentence("{by} proud of it" if worst[0] > 0 else "{by} back of it", by=by),
                Sentence("Sight along the wall: is {name} really so?", name=stud.name),
                "practice-reading-slips",
            )
        )
    return out


def _unchecked(wall: WallGrid, by_place: dict[str, Reliability]) -> list[Finding]:
    places = [
        wall.place(stud.name, h, line.edge)
        for stud in wall.studs
        for line in stud.lines()
        for h in line.readings
    ]
    alone = [p for p in places if (known := by_place.get(p)) is not None and _would_not_show(known)]
    if not alone:
        return []
    return [
        _note(
            "readings-unchecked",
            f"wall {wall.name}",
            Sentence("a second measurement that covers each reading"),
            Sentence("nothing checks {places}: a misreading there would not show", places=_some(alone)),
            Sentence("Read those studs at heights between, or hold a level on them."),
            "baarda",
        )
    ]


def _would_not_show(reading: Reliability) -> bool:
    return reading.detectable is None or reading.detectable > ALONE


def _line(facts: SurveyFacts, wall: WallGrid) -> list[Finding]:
    names = {stud.name for stud in wall.studs}
    count = sum(len(line.readings) for stud in wall.studs for line in stud.lines())
    again = [each for each in facts.repeats.values() if isinstance(each.reading, Length)]
    if count < 4 or any(each.stud in names for each in again):
        return []
    return [
        _note(
            "line-not-rechecked",
            f"wall {wall.name}",
            Sentence("the first point read again last"),
            Sentence("no reading repeated: a bumped line would not show"),
            Sentence("Re-read the first point of wall {name} and enter it as a repeat.", name=wall.name),
            "practice-reading-slips",
        )
    ]


def _frame(facts: SurveyFacts, room: RoomGrid, frame: Frame) -> list[Finding]:
    out = []
    if "L" in room.walls and "R" in room.walls:
        if frame.opening_at_back is None:
            out.append(
                Finding(
                    "opening-not-measured",
                    Severity.ACT,
                    "opening",
                    Sentence("a width, or a gap between the L and R lines"),
                    Sentence("none that can be used"),
                    Sentence("Measure the width at the back, the middle and the front of the pan."),
                    "convention-3",
                )
            )
        elif not frame.growth_measured:
            out.append(
                _note(
                    "opening-one-depth",
                    "opening",
                    Sentence("widths at two depths or more"),
                    Sentence("one depth: the opening is taken to keep its width"),
                    Sentence("Measure a width at another depth."),
                    "convention-3",
                )
            )
    turned = frame.out_of_square or {}
    loose = [wall for wall in ("L", "R") if wall in room.walls and wall not in turned]
    if "B" in room.walls and loose:
        out.append(
            _note(
                "square-not-measured",
                " and ".join(f"wall {wall}" for wall in loose),
                Sentence("both diagonals, or a square off the back line"),
                Sentence("nothing says how the side line stands to the back line"),
                Sentence("Measure the two diagonals at the height of the pan."),
                "practice-square",
            )
        )
    return out
