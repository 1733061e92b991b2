"""What the proof page says, as plain data in one language."""

from __future__ import annotations

from dataclasses import dataclass

from undertile.packet.content import Head


@dataclass(frozen=True)
class GapCell:
    """One straightedge of one wall: gap with its limit, where, how it is known, verdict."""

    gap: str
    limit: str
    where: str
    by: str
    verdict: str
    close: str


@dataclass(frozen=True)
class WallRow:
    """One wall in the table of verdicts."""

    wall: str
    verdict: str
    gaps: tuple[GapCell, ...]
    plumb: str
    plumb_verdict: str
    face: str
    face_where: str
    face_verdict: str
    rests: str


@dataclass(frozen=True)
class ReadingCell:
    """One reading as typed; ``state``: ``again``, ``first``, ``open`` (asked for, not read) or ``never``."""

    text: str
    state: str


@dataclass(frozen=True)
class ReadingGrid:
    """The readings of one wall as one stands before it, the highest on top; None: never to be read."""

    title: str
    zero: str
    studs: tuple[str, ...]
    heights: tuple[str, ...]
    cells: tuple[tuple[ReadingCell | None, ...], ...]


@dataclass(frozen=True)
class ProofSheet:
    """Everything on the page, in its order and in one language.

    ``cover``: whether anything may be covered, "" where nobody speaks of water; ``closed``: what is dry, on
    which readings.
    """

    head: Head
    title: str
    verdict: str
    word: str
    says: str
    rules: tuple[tuple[str, str], ...]
    walls: tuple[WallRow, ...]
    gap_heads: tuple[str, ...]
    pan: tuple[tuple[str, str, str], ...]
    grids: tuple[ReadingGrid, ...]
    fails: tuple[str, ...]
    shows: tuple[str, ...]
    about: tuple[tuple[str, str], ...]
    sigma: str
    digest: str
    photos: tuple[str, ...]
    cover: str = ""
    closed: tuple[str, ...] = ()
