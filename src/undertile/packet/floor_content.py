"""What the floor sheet says, as plain data in one language."""

from __future__ import annotations

from dataclasses import dataclass

from undertile.packet.content import BringRow, Head, MovedPart


@dataclass(frozen=True)
class JoistRow:
    """One joist: where, actual size, clear span, and how stiff under live load and under the tile."""

    name: str
    at: str
    size: str
    span: str
    carries: str
    under_tile: str


@dataclass(frozen=True)
class PieceRow:
    """One piece of a patch: its name, layer, and size across the joists and along them."""

    name: str
    layer: str
    across: str
    along: str


@dataclass(frozen=True)
class PatchPart:
    """One patch: its cut lines in words, and its pieces."""

    title: str
    lines: tuple[str, ...]
    pieces: tuple[PieceRow, ...]


@dataclass(frozen=True)
class CutRow:
    """One panel or offcut as it is cut."""

    source: str
    pieces: tuple[str, ...]


@dataclass(frozen=True)
class CutPart:
    """What is cut for one layer; ``says``: how many whole panels, and whether fewer may do."""

    layer: str
    rows: tuple[CutRow, ...]
    says: tuple[str, ...]


@dataclass(frozen=True)
class LevelCell:
    """One place of the floor: its name, what it reads, the mark of what is done, what it reads then."""

    name: str
    reads: str
    mark: str
    then: str


@dataclass(frozen=True)
class LevelPart:
    """The floor under the pan.

    Attributes
    ----------
    asked : str
    verdict : str
        ``pass``, ``fail``, ``not shown``.
    xs, ys : tuple of str
        From the left wall, from the back wall.
    cells : tuple of rows
        By y, then x; None = nothing is read there.
    work : tuple of (place, from the left wall, from the back wall, what to do, reads then)
    says : tuple of str
        How long it takes, and what it comes to.
    """

    asked: str
    verdict: str
    xs: tuple[str, ...]
    ys: tuple[str, ...]
    cells: tuple[tuple[LevelCell | None, ...], ...]
    work: tuple[tuple[str, str, str, str, str], ...]
    says: tuple[str, ...]


@dataclass(frozen=True)
class BedPart:
    """A mortar bed: what and how much, and every side's run and fall."""

    lines: tuple[tuple[str, str], ...]
    sides: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True)
class FloorSheet:
    """Everything on the floor sheet, in its order.

    ``cover``: whether the patch may be laid over what is under it, "" where nobody speaks of water; ``may``:
    whether it does.
    """

    head: Head
    title: str
    hold: tuple[str, str]
    stops: tuple[str, ...] = ()
    fails: tuple[str, ...] = ()
    unknown: tuple[str, ...] = ()
    cover: str = ""
    may: bool = True
    order: tuple[str, ...] = ()
    acts: tuple[str, ...] = ()
    patches: tuple[PatchPart, ...] = ()
    cuts: tuple[CutPart, ...] = ()
    bring: tuple[BringRow, ...] = ()
    level: LevelPart | None = None
    moved: MovedPart | None = None
    bed: BedPart | None = None
    joists: tuple[JoistRow, ...] = ()
    along: str = ""
    loads: str = ""
    ways: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    rules: tuple[tuple[str, str], ...] = ()
