"""Every stud's face as it stands now: read again where it was, else as first surveyed, else missing.

What was asked for and is not read again is missing: neither the plan nor the first survey stands in for it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from undertile.framing.facts import PlaneHold
from undertile.framing.holds import LEAN_OVER
from undertile.framing.plan import FramingPlan, MemberPlan, Plane
from undertile.lengths import Length, parse_length
from undertile.recheck.asked import Asked, changed
from undertile.recheck.facts import RecheckFacts, RereadWall
from undertile.survey.result import SurveyResult, WallOffsets
from undertile.survey.tools import SIGMA, usable

Standing = Literal["read again", "cannot reach", "missing", "first survey", "estimated"]


@dataclass(frozen=True)
class Face:
    """One stud's face at one height.

    Attributes
    ----------
    height : Fraction
        [in]
    standing : str
        What it rests on: read again; asked for and cannot be reached, or missing; the first survey's reading,
        or its estimate.
    offset : Fraction or None
        Now, plus = proud; None where it was asked for and not read. [in]
    sigma : float
        Standard uncertainty of ``offset``. [in]
    target : Fraction
        The plane there. [in]
    before, planned : Fraction or None
        As first surveyed, and as the plan leaves it; None at a height that was not surveyed. [in]
    flange : bool
        In the flange zone (convention 3.3).
    text : str
        The reading it rests on, as typed.
    why : str
        Why it was asked for; "" where it was not.
    reading : Length or None
        Taken again, as typed.
    """

    height: Fraction
    standing: Standing
    offset: Fraction | None
    sigma: float
    target: Fraction
    before: Fraction | None
    planned: Fraction | None
    flange: bool
    text: str = ""
    why: str = ""
    reading: Length | None = None

    @property
    def off(self) -> Fraction | None:
        """Off the plane, plus = proud of it. [in]"""
        return None if self.offset is None else self.offset - self.target


@dataclass(frozen=True)
class StudFaces:
    """One stud; ``faces`` by rising height, heights read on other studs only left out."""

    wall: str
    name: str
    along: Fraction
    touched: bool
    faces: tuple[Face, ...]

    def at(self, height: Fraction) -> Face | None:
        """The face at a height, None where this stud has none there."""
        return next((face for face in self.faces if face.height == height), None)


@dataclass(frozen=True)
class WallFaces:
    """One wall.

    Attributes
    ----------
    name : str
    plane : Plane
        It is judged against.
    nominal : Fraction
        Reading that counts as zero on the line of the re-check. [in]
    studs : tuple of StudFaces
        By rising ``along``.
    moved : str
        Why the plane is not the plan's; "" where it is.
    """

    name: str
    plane: Plane
    nominal: Fraction
    studs: tuple[StudFaces, ...]
    moved: str = ""

    @property
    def heights(self) -> tuple[Fraction, ...]:
        """Every height with a face, rising. [in]"""
        return tuple(sorted({face.height for stud in self.studs for face in stud.faces}))

    def stud(self, name: str) -> StudFaces:
        """One stud.

        Raises
        ------
        KeyError
            If the wall has no such stud.
        """
        for stud in self.studs:
            if stud.name == name:
                return stud
        raise KeyError(name)


def tool_now(facts: RecheckFacts, survey: Mapping[str, Length], tool: str) -> float:
    """Standard uncertainty of a tool now: its own figure, else the survey's, else the usual. [in]"""
    for own in (facts.sigma, survey):
        figure = own.get(tool)  # type: ignore[call-overload]
        if figure is not None and usable(figure):
            return float(figure.inches)
    return SIGMA[tool]  # type: ignore[index]


def judged_plane(plane: Plane, hold: PlaneHold | None, alongs: Sequence[Fraction]) -> Plane:
    """The plan's plane with what a person has moved since (skew over the studs, lean over 8 ft)."""
    if hold is None:
        return plane
    long = max(alongs) - min(alongs)
    parts: dict[str, Fraction] = {}
    if hold.offset is not None:
        parts["offset"] = hold.offset.inches
    if hold.skew is not None and long:
        parts["skew"] = hold.skew.inches / long
    if hold.lean is not None:
        parts["lean"] = hold.lean.inches / LEAN_OVER
    return replace(plane, **parts)  # type: ignore[arg-type]


def walls_now(
    facts: RecheckFacts,
    survey: SurveyResult,
    plan: FramingPlan,
    asked_for: Sequence[Asked],
    flange_top: Fraction | None,
    sigma: float,
    before: Mapping[str, object] | None = None,
) -> tuple[WallFaces, ...]:
    """Every wall of the plan as it stands.

    Parameters
    ----------
    facts : RecheckFacts
    survey : SurveyResult
    plan : FramingPlan
        With planes.
    asked_for : sequence of Asked
    flange_top : Fraction or None
        Height of the pan's flange. [in]
    sigma : float
        Standard uncertainty of a reading taken again. [in]
    before : mapping, optional
        Studs that were worked on for an earlier plan: they are touched too.

    Returns
    -------
    tuple of WallFaces
    """
    why = {(each.stud, each.height): each.why for each in asked_for}
    out = []
    for wall in survey.walls:
        if wall.name not in plan.planes:
            continue
        again = facts.walls.get(wall.name, None)  # type: ignore[call-overload]
        hold = facts.planes.get(wall.name)  # type: ignore[call-overload]
        members = sorted((m for m in plan.members if m.wall == wall.name), key=lambda m: m.along)
        plane = judged_plane(plan.planes[wall.name], hold, [m.along for m in members])
        nominal = again.nominal.inches if again is not None and again.nominal is not None else wall.nominal
        studs = tuple(
            replace(stud, touched=stud.touched or stud.name in (before or {}))
            for stud in (
                _stud(wall, member, plane, again, nominal, why, flange_top, sigma) for member in members
            )
        )
        out.append(WallFaces(wall.name, plane, nominal, studs, hold.reason if hold is not None else ""))
    return tuple(out)


def _stud(
    wall: WallOffsets,
    member: MemberPlan,
    plane: Plane,
    again: RereadWall | None,
    nominal: Fraction,
    why: Mapping[tuple[str, Fraction], str],
    flange_top: Fraction | None,
    sigma: float,
) -> StudFaces:
    first = next(stud for stud in wall.studs if stud.name == member.name)
    reread = _readings(again, member.name)
    faces = []
    for z in sorted({*member.heights, *reread}):
        flange = flange_top is not None and z <= flange_top
        target = plane.at(member.along, z) + (Fraction(0) if flange else plane.step)
        h = member.heights.index(z) if z in member.heights else None
        before = first.offsets[h] if h is not None else None
        planned = member.finished[h] if h is not None else None
        asked_why = why.get((member.name, z), "")
        was = before.value if before is not None else None
        common = {"target": target, "before": was, "planned": planned, "flange": flange, "why": asked_why}
        value = reread.get(z)
        if isinstance(value, Length):
            offset = nominal - value.inches
            faces.append(
                Face(z, "read again", offset, sigma, text=value.text, reading=value, **common)  # type: ignore[arg-type]
            )
        elif asked_why:
            state: Standing = "cannot reach" if value == "x" else "missing"
            faces.append(Face(z, state, None, sigma, **common))  # type: ignore[arg-type]
        elif before is not None:
            state = "first survey" if before.state == "read" else "estimated"
            faces.append(Face(z, state, was, before.sigma, text=before.text, **common))  # type: ignore[arg-type]
    return StudFaces(member.wall, member.name, member.along, bool(changed(member)), tuple(faces))


def _readings(wall: RereadWall | None, name: str) -> dict[Fraction, Length | str]:
    """What was typed at each height, the proud arris of a twisted stud (convention 2.3)."""
    out: dict[Fraction, Length | str] = {}
    stud = wall.studs.get(name) if wall is not None else None
    if wall is None or stud is None:
        return out
    by_text = {height.text: height.inches for height in wall.heights}
    unit = wall.heights[0].unit if wall.heights else "in"
    for cells in (stud.readings, stud.arris):
        for key, cell in cells.items():
            z = by_text[key] if key in by_text else parse_length(key, unit).inches
            have = out.get(z)
            if cell == "" or (isinstance(have, Length) and not isinstance(cell, Length)):
                continue
            nearer = isinstance(have, Length) and isinstance(cell, Length) and have.inches <= cell.inches
            if not nearer:
                out[z] = cell
    return out


def off_at(wall: WallFaces, along: Fraction, height: Fraction) -> tuple[Fraction, float] | None:
    """Face off its plane at a spot and its uncertainty, straight between the studs around it. [in]"""
    spots: list[tuple[Fraction, Fraction | None, float]] = []
    for stud in wall.studs:
        face = stud.at(height)
        if face is not None:
            spots.append((stud.along, face.off, face.sigma))
    if not spots:
        return None
    around = _around(spots, along)
    if any(off is None for _, off, _ in around):
        return None
    sigma = max(s for *_, s in around)
    (low, first, _), (high, last, _) = around[0], around[-1]
    if first is None or last is None:
        return None
    share = Fraction(0) if high == low else (along - low) / (high - low)
    return first + (last - first) * share, sigma


def _around(
    spots: Sequence[tuple[Fraction, Fraction | None, float]], along: Fraction
) -> Sequence[tuple[Fraction, Fraction | None, float]]:
    if along <= spots[0][0]:
        return spots[:1]
    for low, high in pairwise(spots):
        if along <= high[0]:
            return (low, high)
    return spots[-1:]
