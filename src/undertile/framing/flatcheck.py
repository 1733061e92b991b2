"""The flatness verdict of a wall: pass, fail, or not shown (docs/methods/flatness.md, convention 5).

One check serves planned faces and faces read again after the work. A profile shows a rule only if it is
read closely enough, everywhere read, and well enough; until then it is *not shown*, and the answer says
what to read or to lay on the wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import hypot, sqrt

from undertile.findings import Check, Verdict
from undertile.framing.flatness import Gap, Line, profiles, straightedge, widest_gap
from undertile.framing.plan import FramingPlan
from undertile.framing.problem import WallProblem
from undertile.framing.say import code_place, place, rule_length, said
from undertile.lengths import MM, Unit, format_length
from undertile.sentence import Sentence, form, joined
from undertile.survey.result import WallOffsets

READINGS_PER_LENGTH = 4
"""A straightedge must span this many spacings of the readings: 6 in for the 24 in rule (trade practice)."""
COVERAGE = 2.0
"""Standard uncertainties either side that count as "within its uncertainty" (about 95 %)."""


@dataclass(frozen=True)
class Judged:
    """One profile under one rule.

    Attributes
    ----------
    verdict : Verdict
    gap : Gap or None
        None with fewer than three readings.
    sigma : float
        Standard uncertainty of the widest gap; of the worst a gap there could have when it is 0. [in]
    within_uncertainty : bool
        The gap is within two standard uncertainties of the limit.
    lacks : str
        Why a pass is not shown: ``few``, ``unread``, ``spacing``, ``uncertain``; "" otherwise.
    """

    verdict: Verdict
    gap: Gap | None
    sigma: float = 0.0
    within_uncertainty: bool = False
    lacks: str = ""


def judge(
    positions: Sequence[Fraction],
    values: Sequence[Fraction],
    length: Fraction,
    limit: Fraction,
    *,
    sigmas: Sequence[float] | None = None,
    read: Sequence[bool] | None = None,
    straight_between: bool = False,
) -> Judged:
    """Judge one profile under one straightedge rule.

    Parameters
    ----------
    positions, values, length
        As in :func:`undertile.framing.flatness.widest_gap`. [in]
    limit : Fraction
        Widest gap allowed. [in]
    sigmas : sequence of float, optional
        Standard uncertainty of each value; without it the values are taken as sure. [in]
    read : sequence of bool, optional
        False where a value is an estimate, not a reading.
    straight_between : bool
        True where nothing but the board stands between the readings (a line along a height).

    Returns
    -------
    Judged
        ``fail`` as soon as the gap is over the limit. ``not shown`` if it is not and there are fewer than
        three readings, one of them is an estimate, they are more than a quarter of the straightedge apart, or
        twice the uncertainty of the gap is as large as the limit.
    """
    worst = widest_gap(positions, values, length)
    if worst is None:
        return Judged(Verdict.NOT_SHOWN, None, lacks="few")
    sigma = _sigma(positions, length, worst, sigmas)
    near = sigmas is not None and abs(float(worst.gap - limit)) <= COVERAGE * sigma
    if worst.gap > limit:
        return Judged(Verdict.FAIL, worst, sigma, near)
    apart = max(b - a for a, b in pairwise(positions))
    lacks = ""
    if read is not None and not all(read):
        lacks = "unread"
    elif not straight_between and apart * READINGS_PER_LENGTH > length:
        lacks = "spacing"
    elif COVERAGE * sigma >= limit:
        lacks = "uncertain"
    return Judged(Verdict.NOT_SHOWN if lacks else Verdict.PASS, worst, sigma, near, lacks)


def _sigma(
    positions: Sequence[Fraction], length: Fraction, worst: Gap, sigmas: Sequence[float] | None
) -> float:
    if sigmas is None:
        return 0.0
    if worst.at is not None:
        own = float(sum(w for _, w in worst.rests)) * sigmas[worst.at]
        return hypot(own, *(float(w) * sigmas[j] for j, w in worst.rests))
    edge = straightedge(tuple(positions), length)
    return max(
        (
            sqrt(
                (float(sum(w for _, w in row)) * sigmas[at]) ** 2
                + sum((float(w) * sigmas[j]) ** 2 for j, w in row)
            )
            for at in range(1, len(positions) - 1)
            for row in edge.rows[at]
        ),
        default=0.0,  # no two readings under one straightedge: the spacing says so
    )


@dataclass(frozen=True)
class FaceGrid:
    """Faces of one wall on one plane, planned or read again.

    Attributes
    ----------
    wall : str
    names : tuple of str, one per member
    alongs : tuple of Fraction, strictly rising
        [in]
    heights : tuple of Fraction, strictly rising
        [in]
    faces : tuple over members of tuples over heights
        Residuals from the plane, so that a step between the zones does not count. [in]
    sigmas : the same shape of float, optional
    read : the same shape of bool, optional
    """

    wall: str
    names: tuple[str, ...]
    alongs: tuple[Fraction, ...]
    heights: tuple[Fraction, ...]
    faces: tuple[tuple[Fraction, ...], ...]
    sigmas: tuple[tuple[float, ...], ...] | None = None
    read: tuple[tuple[bool, ...], ...] | None = None


def wall_checks(
    grid: FaceGrid,
    rules: Sequence[tuple[Fraction, Fraction]],
    *,
    unit: Unit = "in",
    source: str = "a108.02-4.2.2",
) -> tuple[Check, ...]:
    """Flatness of a wall: one check for each rule up the studs, along the heights and across.

    Each answers for all its lines at once: *fail* if one fails, else *not shown* if one is, else *pass*;
    it names the line that decides.

    Parameters
    ----------
    grid : FaceGrid
    rules : sequence of (length, limit)
        [in]
    unit : {"in", "mm"}
        To print in.
    source : str
        Key of the rule.

    Returns
    -------
    tuple of Check
    """
    lines = profiles(grid.alongs, grid.heights)
    groups = [(way, title, [line for line in lines if line.direction == way]) for way, title in WAYS.items()]
    found = []
    for length, limit in rules:
        for key, title, members in groups:
            if key == "across" and not members:
                continue  # no third point on any sloping line: the rule does not speak of it [contract 7]
            found.append(_check(grid, length, limit, key, title, members, unit, source))
    return tuple(found)


WAYS = {
    "up": form("Up each stud, {length} straightedge"),
    "along": form("Along each height, {length} straightedge"),
    "across": form("Across studs and heights, {length} straightedge"),
}
"""Which way the straightedge lies, and the title of its check."""
_RANK = {Verdict.FAIL: 2, Verdict.NOT_SHOWN: 1, Verdict.PASS: 0}


def _check(
    grid: FaceGrid,
    length: Fraction,
    limit: Fraction,
    key: str,
    title: str,
    lines: list[Line],
    unit: Unit,
    source: str,
) -> Check:
    rule = Sentence("{limit} under {length}", limit=said(limit, unit), length=rule_length(length, unit))
    code = f"flat-{grid.wall}-{key}-{code_place(length)}"
    title = Sentence(title, length=rule_length(length, unit))
    where = f"wall {grid.wall}"
    if not lines:
        return Check(
            code,
            title,
            where,
            "",
            rule,
            "",
            Verdict.NOT_SHOWN,
            source,
            (
                Sentence(
                    "fewer than three heights on a stud are read"
                    if key == "up"
                    else "fewer than three studs are read"
                ),
            ),
            next_step=Sentence(
                "Read at least three heights on a stud, or lay a {length} straightedge on the wall."
                if key == "up"
                else "Read at least three studs, or lay a {length} straightedge on the wall.",
                length=rule_length(length, unit),
            ),
        )
    judged = [(line, _judge_line(grid, line, length, limit, key)) for line in lines]
    line, worst = max(
        judged, key=lambda item: (_RANK[item[1].verdict], item[1].gap.gap if item[1].gap else -1)
    )
    gap = worst.gap.gap if worst.gap else Fraction(0)
    spot = line_name(grid, line, unit)
    return Check(
        code,
        title,
        Sentence("wall {wall}, {line}", wall=grid.wall, line=spot),
        said(gap, unit, "up"),
        rule,
        said(limit - gap, unit, "down", signed=True),
        worst.verdict,
        source,
        _because(grid, line, worst, unit),
        eats=_dip(grid, line, worst, unit),
        next_step=_next(line, worst, spot, length, unit),
        within_uncertainty=worst.within_uncertainty,
    )


def _judge_line(grid: FaceGrid, line: Line, length: Fraction, limit: Fraction, key: str) -> Judged:
    return judge(
        line.positions,
        [grid.faces[m][h] for m, h in line.cells],
        line.window(length),
        limit,
        sigmas=None if grid.sigmas is None else [grid.sigmas[m][h] for m, h in line.cells],
        read=None if grid.read is None else [grid.read[m][h] for m, h in line.cells],
        straight_between=key == "along",
    )


def line_name(grid: FaceGrid, line: Line, unit: Unit = "in") -> str:
    """A line in the room's words: ``B2``, ``at 48``, ``from B1 at 2 to B4 at 72``."""
    (m, h), (k, g) = line.cells[0], line.cells[-1]
    if m == k:
        return grid.names[m]
    if h == g:
        return Sentence("at {at}", at=place(grid.heights[h], unit))
    low, high = place(grid.heights[h], unit), place(grid.heights[g], unit)
    return Sentence(
        "from {first} at {low} to {last} at {high}",
        first=grid.names[m],
        low=low,
        last=grid.names[k],
        high=high,
    )


def _cell(grid: FaceGrid, line: Line, index: int, unit: Unit) -> str:
    m, h = line.cells[index]
    return Sentence("{name} at {height}", name=grid.names[m], height=place(grid.heights[h], unit))


def _because(grid: FaceGrid, line: Line, worst: Judged, unit: Unit) -> tuple[str, ...]:
    if worst.gap is None:
        return (Sentence("fewer than three readings on this line"),)
    if worst.gap.at is None:
        return (Sentence("the straightedge bridges nothing: no reading lies behind its neighbors"),)

    def face(index: int) -> str:
        m, h = line.cells[index]
        return Sentence(
            "{spot} ({face})",
            spot=_cell(grid, line, index, unit),
            face=said(grid.faces[m][h], unit, signed=True),
        )

    return (
        Sentence("rests on or between {faces}", faces=joined(face(j) for j, _ in worst.gap.rests)),
        Sentence("under it {face}", face=face(worst.gap.at)),
    )


def _dip(grid: FaceGrid, line: Line, worst: Judged, unit: Unit) -> str:
    if worst.gap is None or worst.gap.at is None:
        return ""
    return Sentence(
        "the face at {spot} lies behind the faces around it", spot=_cell(grid, line, worst.gap.at, unit)
    )


def _next(line: Line, worst: Judged, spot: str, length: Fraction, unit: Unit) -> str:
    edge = Sentence("lay a {length} straightedge on it", length=rule_length(length, unit))
    level = line.cells[0][1] == line.cells[-1][1]
    if worst.verdict is Verdict.PASS:
        return ""
    if worst.verdict is Verdict.FAIL:
        return Sentence(
            "Bring out the low place or take down its neighbors {spot}, then read it again."
            if level
            else "Bring out the low place or take down its neighbors on {spot}, then read it again.",
            spot=spot,
        )
    if worst.lacks == "unread":
        if level:
            return Sentence("Read every stud {spot}, or {edge}.", spot=spot, edge=edge)
        return Sentence(
            "Read every place {spot}, or {edge}." if " " in spot else "Read all of {spot}, or {edge}.",
            spot=spot,
            edge=edge,
        )
    if worst.lacks == "spacing":
        apart = length / READINGS_PER_LENGTH
        step = said(apart, unit, "down")
        if unit == "mm":
            step = format_length(apart, unit, step=MM, rounding="down")
        return Sentence("Read {spot} every {step} or closer, or {edge}.", spot=spot, step=step, edge=edge)
    return Sentence("Read {spot} again with a finer rule, or {edge}.", spot=spot, edge=edge)


_NEW_FACE = ("sister", "replace", "channel")


def planned_faces(wall: WallProblem, plan: FramingPlan, read: WallOffsets) -> FaceGrid:
    """A wall's faces as the plan leaves them, with how sure the readings behind them are.

    A new face (sister, replacement, channel) is set to the plane, so it does not hang on a reading; every
    other face is as sure as the reading under it, and an estimate where nothing was read.

    Parameters
    ----------
    wall : WallProblem
    plan : FramingPlan
    read : WallOffsets
        The survey's.

    Returns
    -------
    FaceGrid
        For :func:`wall_checks`.
    """
    studs = {stud.name: stud for stud in read.studs}
    members = [plan.member(member.name) for member in wall.members]
    new = [any(family in _NEW_FACE for family in member.recipe.families) for member in members]
    return FaceGrid(
        wall.name,
        tuple(member.name for member in members),
        tuple(member.along for member in members),
        wall.heights,
        tuple(tuple(f - t for f, t in zip(m.finished, m.target, strict=True)) for m in members),
        tuple(
            tuple(0.0 if fresh else spot.sigma for spot in studs[m.name].offsets)
            for m, fresh in zip(members, new, strict=True)
        ),
        tuple(
            tuple(fresh or spot.state == "read" for spot in studs[m.name].offsets)
            for m, fresh in zip(members, new, strict=True)
        ),
    )
