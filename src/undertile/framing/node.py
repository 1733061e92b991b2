"""What a node of the search holds: for each wall the planes left, and the leans and charges it may have."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from undertile.framing.frame import WallFrame
from undertile.framing.option import FAR
from undertile.framing.region import Choice, HalfPlane, Polygon, Region, WallLimits, look


@dataclass(slots=True)
class Way:
    """One lean and set of charges that a wall may still have in a node.

    ``bound`` is what the wall costs at least that way; ``region`` is None until it is looked at over the
    node's own polygon (the bound is then an older, lower one). ``own`` is what demands on the wall alone
    leave of its planes at this lean.
    """

    bound: int
    tilt: int
    frame: WallFrame
    lean: int
    own: tuple[HalfPlane, ...]
    mask: int
    limits: WallLimits
    choices: tuple[Choice, ...]
    region: Region | None = None


@dataclass(slots=True)
class Side:
    """One wall in a node: the polygon of its planes, and its ways, the least first and looked at."""

    polygon: Polygon
    ways: list[Way]

    @property
    def best(self) -> Region:
        """The least way."""
        region = self.ways[0].region
        assert region is not None
        return region


@dataclass(slots=True)
class Node:
    """Walls together; ``psi`` bounds the partner's quantity, ``partner`` its cost there. [units]"""

    sides: tuple[Side, ...]
    psi: tuple[float, float]
    partner: int = 0

    def __iter__(self) -> Iterator[Side]:
        return iter(self.sides)

    def __getitem__(self, k: int) -> Side:
        return self.sides[k]

    def __len__(self) -> int:
        return len(self.sides)


def sort_out(polygon: Polygon, ways: Sequence[Way]) -> Side | None:
    """Look at ways in the order of their bounds until the least is sure; None when none is left."""
    queue = sorted(ways, key=_rank)
    done: list[Way] = []
    best = None
    ranges: list[tuple[float, float]] = []  # the same for every way: their spots stand at the same places
    while queue:
        way = queue[0]
        if best is not None and _rank(best) <= _rank(way):
            break
        queue.pop(0)
        if way.region is None or way.region.polygon is not polygon:
            region = look(
                way.frame,
                way.lean,
                way.mask,
                way.limits,
                way.choices,
                polygon,
                FAR if best is None else best.bound,
                way.own,
                ranges,
            )
            if region is None:
                continue
            if isinstance(region, int):
                bound, region = region, None
            else:
                bound = region.bound
            way = Way(
                max(bound, way.bound),
                way.tilt,
                way.frame,
                way.lean,
                way.own,
                way.mask,
                way.limits,
                way.choices,
                region,
            )
            if region is None:
                done.append(way)
                continue
        done.append(way)
        if best is None or _rank(way) < _rank(best):
            best = way
    if best is None:
        return None
    return Side(polygon, sorted([*done, *queue], key=_rank))


def _rank(way: Way) -> tuple[int, int]:
    return way.bound, way.tilt
