"""The points of a job laid out along the wood they are in: plates round the room, studs, joists, subfloor."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.wood.extent import CutLine, Line, Spot, State
from undertile.wood.history import Series
from undertile.wood.places import on_subfloor
from undertile.wood.say import length

ZERO = Fraction(0)


def lines_of(
    series: Iterable[Series], states: Mapping[str, State], width: Fraction | None
) -> tuple[tuple[Line, ...], tuple[str, ...]]:
    """Every line of points, and the points that lie on none.

    Parameters
    ----------
    series : iterable of Series
        Without the dry references.
    states : mapping of str to State
        By point.
    width : Fraction or None
        From wall L to wall R: joins the plate of wall R to that of wall B; None = not measured. [in]

    Returns
    -------
    lines : tuple of Line
    without : tuple of str
        Names of points that do not say where they are.
    """
    spots: dict[str, list[Spot]] = {}
    without = []
    for each in series:
        places = list(_places(each, width))
        if not places:
            without.append(each.name)
        for key, at in places:
            spots.setdefault(key, []).append(Spot(at, states[each.name], each.name))
    out = []
    for key, found in spots.items():
        found.sort(key=lambda spot: (spot.at, spot.name))
        low = ZERO if key.startswith(("stud", "joist", "subfloor")) or key == "plate R" else None
        out.append(Line(key, _worst_each(found), low))
    return tuple(sorted(out, key=lambda line: line.key)), tuple(without)


def _places(each: Series, width: Fraction | None) -> Iterable[tuple[str, Fraction]]:
    point = each.facts
    if point.member == "plate" and point.wall and point.along is not None:
        at = point.along.inches
        if point.wall == "R" and width is None:
            yield "plate R", at
        else:
            yield "plate", {"L": -at, "B": at}.get(point.wall, (width or ZERO) + at)
    elif point.member == "stud" and point.name and point.height is not None:
        yield f"stud {point.name}", point.height.inches
    elif point.member == "joist" and point.name and point.along is not None:
        yield f"joist {point.name}", point.along.inches
    elif point.member == "subfloor" and point.x is not None and point.y is not None:
        yield f"subfloor {point.layer}, y {float(point.y.inches):g}", point.x.inches
        yield f"subfloor {point.layer}, x {float(point.x.inches):g}", point.y.inches


def _worst_each(spots: list[Spot]) -> tuple[Spot, ...]:
    """One spot a place: two points in one place count as the worse."""
    rank = {"bad": 0, "unknown": 1, "good": 2}
    kept: dict[Fraction, Spot] = {}
    for spot in spots:
        if spot.at not in kept or rank[spot.state] < rank[kept[spot.at].state]:
            kept[spot.at] = spot
    return tuple(kept.values())


def spot_words(line: str, at: Fraction, width: Fraction | None, unit: Unit, *, layered: bool = False) -> str:
    """A place on a line in the room's own words.

    Parameters
    ----------
    line : str
        A line's key.
    at : Fraction
        [in]
    width : Fraction or None
        [in]
    unit : {"in", "mm"}
    layered : bool
        Whether places of the subfloor are read in more than the top layer.

    Returns
    -------
    str
        ``plate B at 36"``, ``B2 at 24"``, ``subfloor L 24", B 12"``.
    """
    if line == "plate":
        if at < 0:
            return f"plate L at {length(-at, unit)}"
        if width is not None and at > width:
            return f"plate R at {length(at - width, unit)}"
        return f"plate B at {length(at, unit)}"
    if line == "plate R":
        return f"plate R at {length(at, unit)}"
    if line.startswith("stud "):
        return f"{line[5:]} at {length(at, unit)}"
    if line.startswith("subfloor "):
        head, _, across = line.partition(", ")
        axis, _, other = across.partition(" ")
        there = length(Fraction(other).limit_denominator(1000), unit)
        pair = (there, length(at, unit)) if axis == "x" else (length(at, unit), there)
        return on_subfloor(head[9:], *pair, layered=layered)
    return f"{line} at {length(at, unit)}"


def direction(cut: CutLine) -> str:
    """Which way the cut lies from what is bad."""
    if cut.line == "plate":
        return Sentence("toward the front of wall L" if cut.side == "low" else "toward wall R")
    if cut.line.startswith("stud"):
        return Sentence("down" if cut.side == "low" else "up")
    if cut.line.startswith("subfloor"):
        if ", y " in cut.line:
            return Sentence("toward wall L" if cut.side == "low" else "toward wall R")
        return Sentence("toward wall B" if cut.side == "low" else "toward the front")
    return Sentence("toward the lower end" if cut.side == "low" else "toward the far end")
