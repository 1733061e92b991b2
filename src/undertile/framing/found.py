"""What a search of a group of walls comes to, and what closing a node may say instead."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.flatness import WallRow
from undertile.framing.option import Option
from undertile.framing.region import WallLimits
from undertile.framing.settle import Settled


@dataclass(frozen=True)
class Found:
    """A group's answer: per wall its lean index, charges, limits, stacks, faces; and the planes."""

    cost: int
    leans: tuple[int, ...]
    masks: tuple[int, ...]
    limits: tuple[WallLimits, ...]
    picks: tuple[tuple[Option, ...], ...]
    point: tuple[Fraction, ...]
    faces: tuple[Settled, ...]
    partner: Found | None = None


@dataclass(frozen=True)
class Apart:
    """Only the partner does not go with the picks; ``at`` lies between the two where known. [units]"""

    at: float | None = None


@dataclass(frozen=True)
class Dearer:
    """The partner costs more in the node's own stretch than around it; None: it has no plan there."""

    cost: int | None


FailedRow = tuple[int, WallRow, Settled]
"""Wall index, the straightedge row that no depth of planing meets, the faces it fails on."""


@dataclass
class Outcome:
    """What a search came to: the plan, the bound, the nodes, and whether it was stopped."""

    found: Found | None
    bound: int | None
    nodes: int
    stopped: bool
