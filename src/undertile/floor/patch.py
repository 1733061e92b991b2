"""The patch laid out: pieces, blocking, cleats and screws (docs/methods/floor-patch.md)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from undertile.floor.joists import JoistIs
from undertile.floor.mended import beside as beside_joist
from undertile.floor.outline import (
    OVERHANG,
    ZERO,
    Edge,
    Ground,
    Outline,
    breaks,
    grown,
    rows,
)
from undertile.lengths import MM

LayerName = Literal["lower", "upper"]
GAP = Fraction(1, 8)
"""Between panels, all round (APA E30; a panel maker's sheet). [in]"""
OFFSET = Fraction(6)
"""Seams of a second layer off those below (common practice). [in]"""
EDGE, FIELD = Fraction(6), Fraction(8)
"""Screws apart at supported edges and in the field; code asks 6 and 12, 8 is practice. [in]"""
INSET = Fraction(3, 8)
"""A screw's middle from a panel's edge (APA E30). [in]"""
INTO_JOIST = Fraction(5, 4)
"""How far a screw reaches into the joist at least (ours). [in]"""
PANEL = (Fraction(96), Fraction(48))
"""A whole panel, where its size is not measured. [in]"""
PANEL_MM = (2400 * MM, 1200 * MM)
"""In a job in mm, where more than one size is sold: pieces of the smaller one come out of any. A layout is
drawn by it, nothing is cut by it (ours). [in]"""
CLEAT = Fraction(3, 2)
"""Thickness of a cleat or block: two-by lumber (ours; measured on site). [in]"""
WALL = "the wall"
"""What a cleat lies along, or a block ends at, where it is no joist."""


@dataclass(frozen=True)
class Piece:
    """One piece of panel, its edges as cut. u across the joists, v along them. [in]"""

    name: str
    layer: LayerName
    low: Fraction
    high: Fraction
    near: Fraction
    far: Fraction

    @property
    def size(self) -> tuple[Fraction, Fraction]:
        """Along the panel's strong axis (across the joists), and across it. [in]"""
        return self.high - self.low, self.far - self.near


@dataclass(frozen=True)
class Block:
    """A block between two joists, or a wall and one, under an edge; ``at`` along the joists. [in]

    ``after``: joists whose sister is still to come, or stands on a side nobody typed: it is measured then,
    and its ends here are those of the bare bay.
    """

    at: Fraction
    low: Fraction
    high: Fraction
    between: tuple[str, str]
    after: tuple[str, ...] = ()

    @property
    def length(self) -> Fraction:
        """[in]"""
        return self.high - self.low


@dataclass(frozen=True)
class CleatAt:
    """A two-by along a joist's side, or along a wall, under an edge. [in]"""

    beside: str
    at: Fraction
    near: Fraction
    far: Fraction

    @property
    def length(self) -> Fraction:
        """[in]"""
        return self.far - self.near


@dataclass(frozen=True)
class Screws:
    """Screws of one layer: where, and how many more hold the old floor's edges again."""

    layer: LayerName
    places: tuple[tuple[Fraction, Fraction], ...]
    old_edges: int = 0

    @property
    def count(self) -> int:
        """All of them."""
        return len(self.places) + self.old_edges


@dataclass(frozen=True)
class Layout:
    """One patch.

    Attributes
    ----------
    names : tuple of str
        The bad stretches it takes out.
    lower : Outline
    upper : Outline or None
    pieces, blocks, cleats, screws : tuples
    staggered : bool
        Panel ends of neighbouring rows do not line up.
    off_below : bool
        The second layer's seams keep off those below.
    """

    names: tuple[str, ...]
    lower: Outline
    upper: Outline | None
    pieces: tuple[Piece, ...]
    blocks: tuple[Block, ...]
    cleats: tuple[CleatAt, ...]
    screws: tuple[Screws, ...]
    staggered: bool = True
    off_below: bool = True


@dataclass(frozen=True)
class Rules:
    """What a layout is made with. [in]"""

    gap: Fraction = GAP
    offset: Fraction = OFFSET
    edge: Fraction = EDGE
    field: Fraction = FIELD
    panel: tuple[Fraction, Fraction] = PANEL
    upper_panel: tuple[Fraction, Fraction] = PANEL
    tongue: bool = False
    two_layers: bool = False


@dataclass(frozen=True)
class _Rows:
    """One layer's rows: seams along v, and in each row where panels end."""

    seams: tuple[Fraction, ...]
    ends: tuple[tuple[Fraction, ...], ...]
    good: bool


def layout(ground: Ground, lower: Outline, names: tuple[str, ...], rules: Rules, first: int = 0) -> Layout:
    """Everything that goes into one outline.

    Parameters
    ----------
    ground : Ground
    lower : Outline
    names : tuple of str
    rules : Rules
    first : int
        Pieces are numbered on from here.

    Returns
    -------
    Layout
    """
    below = _lower_rows(ground, lower, rules)
    pieces = list(_pieces("lower", lower, below, rules.gap, first))
    blocks = tuple(_blocks(ground, lower, below, rules))
    cleats = tuple(_cleats(ground, lower))
    screws = [_lower_screws(ground, lower, pieces, blocks, rules)]
    upper = grown(lower, ground, rules.offset) if rules.two_layers else None
    off_below = True
    if upper is not None:
        above = _upper_rows(ground, lower, upper, below, rules)
        off_below = above.good
        over = list(_pieces("upper", upper, above, rules.gap, first))
        pieces += over
        screws.append(Screws("upper", tuple(p for each in over for p in _upper_screws(each, rules))))
    return Layout(names, lower, upper, tuple(pieces), blocks, cleats, tuple(screws), below.good, off_below)


def _lower_rows(ground: Ground, out: Outline, rules: Rules) -> _Rows:
    seams = rows(out.along, rules.panel[1], rules.gap) or ()
    centres = [joist.at for joist in ground.joists if out.low.at <= joist.at <= out.high.at]
    ends: list[tuple[Fraction, ...]] = []
    good = True
    for _ in range(len(seams) + 1):
        before = ends[-1] if ends else ()
        longest = rules.panel[0] + rules.gap
        found = breaks(out.low.at, out.high.at, longest, centres, centres, before)
        if found is None:
            good = False
            found = breaks(out.low.at, out.high.at, longest, centres, ()) or ()
        ends.append(found)
    return _Rows(tuple(out.near.at + seam for seam in seams), tuple(ends), good)


def _upper_rows(ground: Ground, lower: Outline, upper: Outline, below: _Rows, rules: Rules) -> _Rows:
    taken = [each - upper.near.at for each in (*below.seams, lower.near.at, lower.far.at)]
    found = rows(upper.along, rules.upper_panel[1], rules.gap, taken, rules.offset)
    seams = found if found is not None else rows(upper.along, rules.upper_panel[1], rules.gap) or ()
    middles = [(a.at + b.at) / 2 for a, b in pairwise(ground.joists)]
    under = [end for row in below.ends for end in row] + [lower.low.at, lower.high.at]
    ends: list[tuple[Fraction, ...]] = []
    good = found is not None
    longest = rules.upper_panel[0] + rules.gap
    for _ in range(len(seams) + 1):
        before = ends[-1] if ends else ()
        free = [at for at in middles if at not in before]
        row = breaks(upper.low.at, upper.high.at, longest, free, (), under, rules.offset)
        if row is None:
            good = False
            row = breaks(upper.low.at, upper.high.at, longest, middles, ()) or ()
        ends.append(row)
    return _Rows(tuple(upper.near.at + seam for seam in seams), tuple(ends), good)


def _pieces(layer: LayerName, out: Outline, made: _Rows, gap: Fraction, number: int) -> Iterator[Piece]:
    """Each piece with its gaps taken off: half at a line, the whole at a wall."""

    def off(edge: Edge | None) -> Fraction:
        return gap if edge is not None and edge.kind == "wall" else gap / 2

    lines = (out.near.at, *made.seams, out.far.at)
    for i, (near, far) in enumerate(pairwise(lines)):
        ends = (out.low.at, *made.ends[i], out.high.at)
        for j, (low, high) in enumerate(pairwise(ends)):
            number += 1
            yield Piece(
                f"{'P' if layer == 'lower' else 'U'}{number}",
                layer,
                low + off(out.low if j == 0 else None),
                high - off(out.high if j == len(ends) - 2 else None),
                near + off(out.near if i == 0 else None),
                far - off(out.far if i == len(lines) - 2 else None),
            )


def _supports(ground: Ground, out: Outline) -> list[JoistIs]:
    return [
        j
        for j in ground.joists
        if out.low.at <= j.at + (j.width or ZERO) / 2 and j.at - (j.width or ZERO) / 2 <= out.high.at
    ]


def _blocks(ground: Ground, out: Outline, made: _Rows, rules: Rules) -> Iterator[Block]:
    """Under every edge across the joists that lies between them."""
    lines = [out.near.at, *(() if rules.tongue else made.seams), out.far.at]
    held = _supports(ground, out)
    beside = {edge.joist for edge in (out.low, out.high) if edge.kind == "cleat"}
    for at in lines:
        middle = at
        if at == out.near.at and out.near.kind == "wall":
            middle = at + CLEAT / 2
        elif at == out.far.at and out.far.kind == "wall":
            middle = at - CLEAT / 2
        for one, other in pairwise(held):
            low = one.at + (one.width or ZERO) / 2
            high = other.at - (other.width or ZERO) / 2
            if one.name in beside and out.low.joist == one.name:
                low += CLEAT
            if other.name in beside and out.high.joist == other.name:
                high -= CLEAT
            takes = (beside_joist(one, middle), beside_joist(other, middle))
            after = tuple(each.name for each, took in zip((one, other), takes, strict=True) if took is None)
            low += ZERO if takes[0] is None else takes[0][1]
            high -= ZERO if takes[1] is None else takes[1][0]
            if low < high:
                yield Block(middle, low, high, (one.name, other.name), after)
        for edge, joist in ((out.low, held[:1]), (out.high, held[-1:])):
            if joist and _cleat_on(edge, held):
                yield from _to_wall(edge, joist[0], middle)


def _to_wall(edge: Edge, joist: JoistIs, middle: Fraction) -> Iterator[Block]:
    """The block between a cleat along the wall and the joist next to it."""
    half, took = (joist.width or ZERO) / 2, beside_joist(joist, middle)
    back, on = (ZERO, ZERO) if took is None else took
    after = () if took is not None else (joist.name,)
    if edge.at < joist.at:
        low, high, between = edge.at + CLEAT, joist.at - half - back, (WALL, joist.name)
    else:
        low, high, between = joist.at + half + on, edge.at - CLEAT, (joist.name, WALL)
    if high - low > OVERHANG:  # a narrower strip may hang over as it does without a cleat
        yield Block(middle, low, high, between, after)


def _cleat_on(edge: Edge, held: Sequence[JoistIs]) -> bool:
    """Whether a cleat goes along the wall: the joist next to it is too far for the panel to hang over."""
    return edge.kind == "wall" and bool(held) and min(abs(j.at - edge.at) for j in held) > OVERHANG


def _cleats(ground: Ground, out: Outline) -> Iterator[CleatAt]:
    held = _supports(ground, out)
    for edge, way in ((out.low, 1), (out.high, -1)):
        if edge.kind == "cleat":
            yield CleatAt(f"joist {edge.joist}", edge.at + way * CLEAT / 2, out.near.at, out.far.at)
        elif _cleat_on(edge, held):
            yield CleatAt(WALL, edge.at + way * CLEAT / 2, out.near.at, out.far.at)


def apart(length: Fraction, spacing: Fraction) -> int:
    """Screws in a row of a length between its first and last, no farther apart than ``spacing``."""
    return int(-(-length // spacing)) + 1 if length > 0 else 1


def _row(start: Fraction, end: Fraction, spacing: Fraction) -> list[Fraction]:
    many = apart(end - start, spacing)
    if many == 1:
        return [(start + end) / 2]
    return [start + (end - start) * k / (many - 1) for k in range(many)]


def _lower_screws(
    ground: Ground,
    out: Outline,
    pieces: Sequence[Piece],
    blocks: Sequence[Block],
    rules: Rules,
) -> Screws:
    places: list[tuple[Fraction, Fraction]] = []
    held = {block.at for block in blocks}
    for piece in pieces:
        lines: list[tuple[Fraction, Fraction]] = []
        for joist in ground.joists:
            half = (joist.width or ZERO) / 2
            if piece.low + INSET < joist.at < piece.high - INSET:
                lines.append((joist.at, rules.field))
            elif joist.at - half <= piece.low <= joist.at + half + rules.gap:
                lines.append((piece.low + INSET, rules.edge))
            elif joist.at - half - rules.gap <= piece.high <= joist.at + half:
                lines.append((piece.high - INSET, rules.edge))
        if out.low.kind == "wall" and piece.low <= out.low.at + rules.gap and _nailed(ground, out.low, out):
            lines.append((piece.low + INSET, rules.edge))
        if (
            out.high.kind == "wall"
            and piece.high >= out.high.at - rules.gap
            and _nailed(ground, out.high, out)
        ):
            lines.append((piece.high - INSET, rules.edge))
        lines.sort()
        ups = [piece.near + INSET, piece.far - INSET]
        for at, spacing in lines:
            places += [(at, v) for v in _row(ups[0], ups[1], spacing)]
        for v, side in ((ups[0], piece.near), (ups[1], piece.far)):
            if any(abs(at - side) <= CLEAT for at in held):
                for (a, _), (b, _) in pairwise(lines):
                    places += [(u, v) for u in _row(a, b, rules.edge)[1:-1]]
    old = 0
    for edge in (out.low, out.high):
        if edge.kind == "joist":
            old += apart(out.along, rules.edge)
    for end in (out.near, out.far):  # blocked ends
        if end.kind == "blocks":
            line = [block for block in blocks if block.at == end.at]
            old += sum(max(apart(block.length, rules.edge) - 2, 1) for block in line)
    return Screws("lower", tuple(dict.fromkeys(places)), old)


def _nailed(ground: Ground, edge: Edge, out: Outline) -> bool:
    return any(cleat.beside == WALL and abs(cleat.at - edge.at) <= CLEAT for cleat in _cleats(ground, out))


def _upper_screws(piece: Piece, rules: Rules) -> Iterator[tuple[Fraction, Fraction]]:
    """Round the edges and on a grid between, into the layer below only."""
    us, vs = (piece.low + INSET, piece.high - INSET), (piece.near + INSET, piece.far - INSET)
    round_u, round_v = _row(*us, rules.edge), _row(*vs, rules.edge)
    seen = dict.fromkeys([(u, v) for u in round_u for v in vs] + [(u, v) for u in us for v in round_v])
    yield from seen
    for u in _row(*us, rules.field)[1:-1]:
        for v in _row(*vs, rules.field)[1:-1]:
            yield u, v
