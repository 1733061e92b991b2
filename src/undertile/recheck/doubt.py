"""Which reading taken again looks misread: the survey's slips, with the plan as a weak expectation.

The prior, all of it (docs/methods/recheck.md). A changed face is expected where the plan put it, within what
the work and the reading scatter; it may as well follow its neighbours on the stud (all cut a little deep),
stand where it stood before (not done yet), or really stand somewhere else alone. A face that was not touched
is expected where the survey read it. A slip is worth saying when, with its own rate, it explains what was
typed better than all of these. Nothing typed is ever changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import exp, hypot, log, pi, sqrt
from statistics import median

from undertile.findings import Finding, Severity
from undertile.framing.say import said
from undertile.lengths import Length, Unit, format_length
from undertile.recheck.faces import Face, StudFaces, WallFaces
from undertile.recheck.say import spot
from undertile.sentence import Sentence
from undertile.survey.facts import Tool
from undertile.survey.hypotheses import OTHER_SPREADS
from undertile.survey.judge import ALARM, NAMED, SHOWN
from undertile.survey.result import Suspect
from undertile.survey.slips import SLIPS, without_slip

WORK = 1 / 32
"""How closely a crew hits a planned amount, one standard deviation (common practice). [in]"""
ALIKE = 1 / 16
"""How closely a face follows the error of the faces above and below it (ours). [in]"""
ALONE = 1 / 4
"""How far a face really off by itself may be (ours). [in]"""
AS_PLANNED, AS_NEIGHBOURS, AS_BEFORE, BY_ITSELF = 0.85, 0.10, 0.045, 0.005
"""Share of each before anything is read (ours)."""
UNTOUCHED_ALONE = 3e-5
"""The same of a face nobody touched: it does not move by itself (ours)."""
LEAST = 1e-300
MOVED = 3.0
"""Standard deviations of the mean from which untouched studs say that the line moved."""


@dataclass(frozen=True)
class Doubts:
    """What looks misread.

    Attributes
    ----------
    groups : tuple of tuple of Suspect
        One group for each misreading, explanations by falling odds.
    settle : dict of (stud, height) to str
        What settles a reading in doubt, as an imperative.
    moved : dict of wall to str
        Walls whose line no longer hangs where it hung, with what to do.
    findings : tuple of Finding
    """

    groups: tuple[tuple[Suspect, ...], ...]
    settle: dict[tuple[str, Fraction], str]
    moved: dict[str, str]
    findings: tuple[Finding, ...]


def doubts(walls: Sequence[WallFaces], tool: Tool, unit: Unit) -> Doubts:
    """Look at every reading taken again.

    Parameters
    ----------
    walls : sequence of WallFaces
    tool : str
        The readings were taken with.
    unit : {"in", "mm"}
    """
    groups: list[tuple[Suspect, ...]] = []
    settle: dict[tuple[str, Fraction], str] = {}
    moved: dict[str, str] = {}
    findings: list[Finding] = []
    for wall in walls:
        shift = _shift(wall)
        if shift is not None:
            found = _line_moved(wall, shift, unit)
            moved[wall.name] = found.next_step
            findings.append(found)
            continue  # every reading of the wall is off by the same: no single one is to blame
        turned = list(_turned(wall, tool, unit))
        for group, places in turned:
            groups.append(group)
            settle |= dict.fromkeys(places, group[0].settle)
        for stud in wall.studs:
            for face in _again(stud):
                if (stud.name, face.height) in settle:
                    continue
                one = _reading(wall, stud, face, tool, unit)
                if one:
                    groups.append(one)
                    settle[stud.name, face.height] = one[0].settle
    findings += [_finding(group) for group in groups]
    return Doubts(tuple(groups), settle, moved, tuple(findings))


def _again(stud: StudFaces) -> list[Face]:
    return [face for face in stud.faces if face.standing == "read again"]


def _normal(value: float, sigma: float) -> float:
    return exp(-value * value / (2 * sigma * sigma)) / (sigma * sqrt(2 * pi))


def _likely(stud: StudFaces, face: Face, offset: float) -> float:
    """How likely a face stands at an offset, before slips: logarithm of a density per inch."""
    untouched = hypot(face.sigma, face.sigma)
    if face.before is None or face.planned is None:  # a height the survey did not read: the plane alone
        plane = float(face.target)
        out = AS_PLANNED * _normal(offset - plane, hypot(face.sigma, 2 * WORK))
        out += (1 - AS_PLANNED) * _normal(offset - plane, ALONE)
    elif not stud.touched or face.before == face.planned:
        before = float(face.before)
        out = (1 - UNTOUCHED_ALONE) * _normal(offset - before, untouched)
        out += UNTOUCHED_ALONE * _normal(offset - before, ALONE)
    else:
        before, planned = float(face.before), float(face.planned)
        out = AS_PLANNED * _normal(offset - planned, hypot(face.sigma, WORK))
        out += AS_BEFORE * _normal(offset - before, untouched)
        out += BY_ITSELF * _normal(offset - planned, ALONE)
        out += AS_NEIGHBOURS * _normal(offset - planned - _common(stud, face), hypot(face.sigma, ALIKE))
    return log(out + LEAST)


def _common(stud: StudFaces, face: Face) -> float:
    """How far the other changed faces of the stud are off the plan: their median, 0 without any. [in]"""
    rest = [
        float(other.offset - other.planned)
        for other in _again(stud)
        if other.height != face.height
        and other.offset is not None
        and other.planned is not None
        and other.planned != other.before
    ]
    return median(rest) if rest else 0.0


def _reading(wall: WallFaces, stud: StudFaces, face: Face, tool: Tool, unit: Unit) -> tuple[Suspect, ...]:
    """The explanations of one reading, where a slip explains it; () where it is well as it is."""
    typed = face.reading
    if typed is None:
        return ()
    as_typed = _likely(stud, face, float(wall.nominal - typed.inches))
    options = _options(wall, stud, face, typed, tool)
    top = max(as_typed, *(weight for weight, *_ in options))
    total = exp(as_typed - top) + sum(exp(weight - top) for weight, *_ in options)
    slip = 1 - exp(as_typed - top) / total
    if slip < ALARM:
        return ()
    where = spot(stud.name, face.height, unit)
    settle = Sentence("Read {where} again", where=where)
    found = []
    for weight, kind, inches in sorted(options, key=lambda item: -item[0])[:SHOWN]:
        chance = exp(weight - top) / total
        if chance < 0.01:
            continue
        offered = "" if inches is None else _print(inches, typed)
        changes = ((where, offered),) if offered else ()
        found.append(
            Suspect(where, SLIPS[kind].words, face.text, offered, chance, settle, SLIPS[kind].code, changes)
        )
    return tuple(found)


def _options(
    wall: WallFaces, stud: StudFaces, face: Face, typed: Length, tool: Tool
) -> list[tuple[float, str, Fraction | None]]:
    """Every slip that may have made the typed length: its weight (a logarithm), kind, and what it was."""
    options: list[tuple[float, str, Fraction | None]] = []
    for each in without_slip(typed, tool, nominal=wall.nominal):
        offset = float(wall.nominal - each.inches)
        options.append((log(each.rate) + _likely(stud, face, offset), each.kind, each.inches))
    expected = face.planned if face.planned is not None else face.target
    away = float(wall.nominal - typed.inches - expected)
    odd = sum(share * _normal(away, spread) for spread, share in OTHER_SPREADS)
    options.append((log(SLIPS["other"].rate) + log(odd + LEAST), "other", None))
    return options


def _best(wall: WallFaces, stud: StudFaces, face: Face, tool: Tool) -> float:
    """The likeliest story of one reading by itself, as typed or with one slip: a logarithm."""
    if face.reading is None:
        return 0.0
    as_typed = _likely(stud, face, float(wall.nominal - face.reading.inches))
    return max(as_typed, *(weight for weight, *_ in _options(wall, stud, face, face.reading, tool)))


def _print(value: Fraction, like: Length) -> str:
    try:
        return format_length(value, like.unit)
    except ValueError:
        return said(value, like.unit)


def _turned(
    wall: WallFaces, tool: Tool, unit: Unit
) -> Iterator[tuple[tuple[Suspect, ...], tuple[tuple[str, Fraction], ...]]]:
    """Studs and rows typed in the other direction: one slip that explains a line better than one in each."""
    lines = [(f"stud {stud.name}", [(stud, face) for face in _again(stud)]) for stud in wall.studs]
    for height in wall.heights:
        row = [
            (stud, face)
            for stud in wall.studs
            if (face := stud.at(height)) is not None and face.standing == "read again"
        ]
        lines.append((f"row {wall.name} at {spot('', height, unit).removeprefix(' at ')}", row))
    for where, cells in lines:
        offsets = [face.offset for _, face in cells if face.offset is not None]
        if len(offsets) < 3 or offsets == offsets[::-1]:
            continue
        as_typed = sum(_best(wall, s, f, tool) for s, f in cells)
        turned = sum(_likely(s, f, float(o)) for (s, f), o in zip(cells, offsets[::-1], strict=True))
        gain = log(SLIPS["row reversed"].rate) + turned - as_typed
        odds = 1 / (1 + exp(-gain)) if gain > -30 else 0.0
        if odds >= ALARM:
            typed = " ".join(face.text for _, face in cells)
            offered = " ".join(face.text for _, face in reversed(cells))
            ends = [spot(cells[k][0].name, cells[k][1].height, unit) for k in (0, -1)]
            slip = SLIPS["row reversed"]
            suspect = Suspect(
                where,
                slip.words,
                typed,
                offered,
                odds,
                Sentence("Read {first} and {last} again", first=ends[0], last=ends[1]),
                slip.code,
            )
            yield (suspect,), tuple((stud.name, face.height) for stud, face in cells)


def _shift(wall: WallFaces) -> float | None:
    """How far the line has moved, by the studs that were not touched; None where they do not say so. [in]"""
    apart = [
        (float(face.offset - face.before), hypot(face.sigma, face.sigma))
        for stud in wall.studs
        for face in _again(stud)
        if face.offset is not None and face.before is not None and face.before == face.planned
    ]
    if len(apart) < 3:
        return None
    shift = median(value for value, _ in apart)
    sigma = max(s for _, s in apart)
    alike = [value for value, _ in apart if abs(value - shift) <= 2 * sigma]
    mean = sum(alike) / len(alike)
    enough = len(alike) * 3 >= len(apart) * 2 and abs(mean) >= MOVED * sigma / sqrt(len(alike))
    return mean if enough and abs(mean) > sigma else None


def _line_moved(wall: WallFaces, shift: float, unit: Unit) -> Finding:
    step = Fraction(1, 32)
    by = round(Fraction(shift) / step) * step
    new = format_length(wall.nominal - by, unit, step=Fraction(1, 64), rounding="nearest")
    return Finding(
        "again-line-moved",
        Severity.ACT,
        f"wall {wall.name}",
        Sentence("studs that were not touched read as at the survey"),
        Sentence(
            "they stand {by} prouder all alike: the line hangs elsewhere"
            if by > 0
            else "they stand {by} farther back all alike: the line hangs elsewhere",
            by=said(abs(by), unit),
        ),
        Sentence(
            "Hang the line of wall {wall} where it hung and read again, or give the reading that is zero "
            "on it "
            "now (nominal, about {new}).",
            wall=wall.name,
            new=new,
        ),
        "practice-reading-slips",
        {"shift": said(by, unit, signed=True)},
    )


def _finding(group: tuple[Suspect, ...]) -> Finding:
    best = group[0]
    known = best.offered and best.odds >= NAMED
    offered = (
        Sentence(
            "{offered} ({slip}: odds {odds})", offered=best.offered, slip=best.slip, odds=f"{best.odds:.0%}"
        )
        if known
        else Sentence("a reading like the plan's")
    )
    return Finding(
        "again-in-doubt",
        Severity.ACT,
        best.where,
        offered,
        Sentence("{typed} typed, which neither the plan nor the first survey explains", typed=best.typed),
        Sentence("{text}.", text=best.settle),
        "practice-reading-slips",
        {"kind": best.code, "typed": best.typed, "offered": best.offered, "odds": f"{best.odds:.3f}"},
    )
