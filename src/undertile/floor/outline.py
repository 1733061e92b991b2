"""Where the floor is cut: on joist centres or cleats, at least two spans; the seams of both layers.

All in the joists' own frame: u across the joists from the fixed wall that they are measured from, v along
them from the other one. A cut line is the middle of the gap: both sides keep half of it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations, pairwise
from typing import Literal

from undertile.floor.joists import JoistIs

ZERO = Fraction(0)
SPANS = 2
"""A patch runs over two spans at least: three joists (common practice)."""
LEAST = Fraction(16)
"""A patch or a piece of it is this wide at least, both ways (common practice). [in]"""
SLIVER = Fraction(6)
"""A strip of old floor narrower than this along a wall comes out too (ours). [in]"""
BEARS = Fraction(1, 2)
"""A panel's end bears this much on a joist, or there is a cleat (APA E30, from memory). [in]"""
OVERHANG = Fraction(3)
"""Floor past the last joist, up to a wall, may hang over this much (ours). [in]"""
OFF_JOIST = Fraction(1)
"""A seam of the second layer keeps this from a joist's edges (ours). [in]"""

EdgeKind = Literal["joist", "cleat", "wall", "blocks", "off joists"]


@dataclass(frozen=True)
class Edge:
    """One edge of the patch: where, what it lies on, and the joist's name. [in]"""

    at: Fraction
    kind: EdgeKind
    joist: str = ""


@dataclass(frozen=True)
class Outline:
    """A rectangle to cut out: edges along the joists (``low``, ``high``) and across (``near``, ``far``)."""

    low: Edge
    high: Edge
    near: Edge
    far: Edge

    @property
    def across(self) -> Fraction:
        """[in]"""
        return self.high.at - self.low.at

    @property
    def along(self) -> Fraction:
        """[in]"""
        return self.far.at - self.near.at

    def meets(self, other: Outline) -> bool:
        """Whether the two touch or overlap."""
        return (
            self.low.at <= other.high.at
            and other.low.at <= self.high.at
            and self.near.at <= other.far.at
            and other.near.at <= self.far.at
        )


@dataclass(frozen=True)
class Ground:
    """What an outline is chosen on. ``across``, ``along``: where the floor ends, None = not known. [in]"""

    joists: tuple[JoistIs, ...]
    across: Fraction | None
    along: Fraction | None
    cleats: bool
    gap: Fraction


Box = tuple[Fraction, Fraction, Fraction, Fraction]
"""low, high across the joists; near, far along them. [in]"""


def outline(ground: Ground, bad: Box) -> Outline | None:
    """The smallest rectangle that takes out what is bad and lies on joists; None where none can.

    Parameters
    ----------
    ground : Ground
    bad : Box

    Returns
    -------
    Outline or None
        Over two spans where the floor has them, else over what there is.
    """
    low, high, near, far = bad
    ends = _along(ground, near, far)
    between = (ends[0].at, ends[1].at)
    lows = [*_edges(ground, between, first=True), Edge(ZERO, "wall")]
    highs = _edges(ground, between, first=False)
    if ground.across is not None:
        highs.append(Edge(ground.across, "wall"))
    pairs = [(a, b) for a in lows for b in highs if a.at <= low and b.at >= high and b.at - a.at >= LEAST]
    if not pairs:
        return None
    enough = [pair for pair in pairs if spans(ground.joists, pair[0].at, pair[1].at) >= SPANS]
    a, b = min(enough or pairs, key=lambda pair: (pair[1].at - pair[0].at, pair[0].kind == "wall"))
    return Outline(a, b, *ends)


def spans(joists: Sequence[JoistIs], low: Fraction, high: Fraction) -> int:
    """Bays that a panel from one line to another runs over; a joist whose face is on the line counts."""
    half = [(joist.at, (joist.width or ZERO) / 2) for joist in joists]
    return max(sum(low - w <= at <= high + w for at, w in half) - 1, 0)


def _along(ground: Ground, near: Fraction, far: Fraction) -> tuple[Edge, Edge]:
    """The edges across the joists: as asked, to the wall where only a sliver would stay, 16 in at least."""
    start = near if near >= SLIVER else ZERO
    end = far
    if ground.along is not None and ground.along - far < SLIVER:
        end = ground.along
    if end - start < LEAST:
        end = start + LEAST
        if ground.along is not None and end > ground.along:
            end = ground.along
            start = max(end - LEAST, ZERO)
    first: EdgeKind = "wall" if start == 0 else "blocks"
    last: EdgeKind = "wall" if end == ground.along else "blocks"
    return Edge(start, first), Edge(end, last)


def _edges(ground: Ground, between: tuple[Fraction, Fraction], *, first: bool) -> list[Edge]:
    """Lines a patch may begin (or end) on: sound joists, on their centre or beside them on a cleat."""
    out = []
    for joist in ground.joists:
        if soft_top(joist, between):
            continue
        width = joist.width
        on_centre = width is not None and (width - ground.gap) / 2 >= BEARS
        if ground.cleats or (width is not None and not on_centre):
            if width is not None:
                face = joist.at + width / 2 if first else joist.at - width / 2
                out.append(Edge(face, "cleat", joist.name))
        else:
            out.append(Edge(joist.at, "joist", joist.name))
    return out


def soft_top(joist: JoistIs, between: tuple[Fraction, Fraction]) -> bool:
    """Whether a joist is soft on top, or nobody said where, within a stretch: no edge is fastened to it."""
    return any(
        soft.side != "bottom"
        and soft.start.inches <= between[1]
        and soft.start.inches + soft.length.inches >= between[0]
        for soft in joist.facts.soft.values()
    )


def rows(
    length: Fraction, width: Fraction, gap: Fraction, taken: Sequence[Fraction] = (), off: Fraction = ZERO
) -> tuple[Fraction, ...] | None:
    """Seams between rows of panels, from the near edge; each row of a panel's width, none under 16 in.

    Parameters
    ----------
    length : Fraction
        [in]
    width : Fraction
        Of a panel, actual. [in]
    gap : Fraction
        [in]
    taken : sequence of Fraction
        Seams below, which these keep ``off`` of.
    off : Fraction
        [in]

    Returns
    -------
    tuple of Fraction or None
        None where no first row keeps off them.
    """
    pitch = width + gap
    first = pitch
    while first >= LEAST:
        seams = _rows_from(first, length, pitch)
        if seams is not None and all(abs(seam - below) >= off for seam in seams for below in taken):
            return seams
        first -= 1
    return None


def _rows_from(first: Fraction, length: Fraction, pitch: Fraction) -> tuple[Fraction, ...] | None:
    if length <= first:
        return ()
    seams = [first]
    while length - seams[-1] > pitch:
        seams.append(seams[-1] + pitch)
    short = LEAST - (length - seams[-1])
    if short > 0:
        before = seams[-2] if len(seams) > 1 else ZERO
        seams[-1] -= short
        if seams[-1] - before < LEAST:
            return None
    return tuple(seams)


def breaks(
    low: Fraction,
    high: Fraction,
    longest: Fraction,
    places: Sequence[Fraction],
    fits: Sequence[Fraction],
    avoid: Sequence[Fraction] = (),
    off: Fraction = ZERO,
) -> tuple[Fraction, ...] | None:
    """Where the panels of one row end: the fewest ends, the shortest panel as long as can be.

    Parameters
    ----------
    low, high : Fraction
        Of the row. [in]
    longest : Fraction
        A panel and its gap. [in]
    places : sequence of Fraction
        Where a panel may end.
    fits : sequence of Fraction
        Joists, for the spans that each panel must run over; empty = not asked.
    avoid : sequence of Fraction
        Ends in the row before, or below: none within ``off``, none in the same place.
    off : Fraction
        [in]

    Returns
    -------
    tuple of Fraction or None
    """
    free = [
        place
        for place in sorted(set(places))
        if low < place < high and all(abs(place - other) >= off and place != other for other in avoid)
    ]
    for many in range(len(free) + 1):
        good = [chosen for chosen in combinations(free, many) if _holds(low, high, longest, chosen, fits)]
        if good:
            return max(good, key=lambda chosen: min(b - a for a, b in pairwise((low, *chosen, high))))
    return None


def _holds(
    low: Fraction, high: Fraction, longest: Fraction, chosen: Sequence[Fraction], fits: Sequence[Fraction]
) -> bool:
    parts = list(pairwise((low, *chosen, high)))
    if any(b - a > longest for a, b in parts):
        return False
    if len(parts) == 1:
        return True
    if not fits:
        return all(b - a >= LEAST for a, b in parts)
    return all(sum(a <= at <= b for at in fits) > SPANS for a, b in parts)


def grown(lower: Outline, ground: Ground, off: Fraction) -> Outline:
    """The second layer's outline: past the first's by ``off`` but at a wall, and off the joists."""

    def line(edge: Edge, way: int) -> Edge:
        if edge.kind == "wall":
            return edge
        end = ZERO if way < 0 else ground.across
        for at in _steps(edge.at, way, off):
            if (way < 0 and at <= 0) or (end is not None and way > 0 and at >= end):
                return Edge(ZERO if end is None else end, "wall")
            if all(abs(at - j.at) >= (j.width or ZERO) / 2 + OFF_JOIST for j in ground.joists):
                return Edge(at, "off joists")
        return edge

    def across(edge: Edge, way: int) -> Edge:
        if edge.kind == "wall":
            return edge
        at, end = edge.at + way * off, ZERO if way < 0 else ground.along
        if (way < 0 and at < SLIVER) or (way > 0 and end is not None and end - at < SLIVER):
            return Edge(ZERO if end is None else end, "wall")
        return Edge(at, "off joists")

    return Outline(line(lower.low, -1), line(lower.high, 1), across(lower.near, -1), across(lower.far, 1))


def _steps(start: Fraction, way: int, off: Fraction) -> Iterator[Fraction]:
    for step in range(97):
        yield start + way * (off + Fraction(step, 4))
