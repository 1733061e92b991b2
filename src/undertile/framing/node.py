"""What a node of the search holds: for each wall the planes left, and the leans and charges it may have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from operator import attrgetter

from undertile.framing.bends import Bend
from undertile.framing.frame import WallFrame
from undertile.framing.option import FAR
from undertile.framing.region import Choice, HalfPlane, Polygon, Region, Seen, WallLimits, look

Bends = Mapping[WallFrame, Sequence[Bend]]
"""What has come up so far, by wall and lean."""
RANK = attrgetter("bound", "tilt")
"""Ways by cost; among equals the plumbest first."""


@dataclass(slots=True)
class Way:
    """One lean and set of charges that a wall may still have in a node.

    ``bound`` is what the wall costs at least that way; ``region`` is None until it is looked at over the
    node's own polygon (the bound is then an older, lower one). ``own`` is what demands on the wall alone
    leave of its planes at this lean. ``seen`` is what the last look saw, over this polygon or a wider
    one.
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
    seen: Seen | None = None


@dataclass(slots=True)
class Side:
    """One wall in a node: the polygon of its planes, and its ways, the least first and looked at.

    ``spans`` is what is known of the polygon (``walls.Spans``).
    """

    polygon: Polygon
    ways: list[Way]
    spans: dict[tuple[float, float], tuple[float, float]] = field(default_factory=dict)

    @property
    def best(self) -> Region:
        """The least way."""
        region = self.ways[0].region
        assert region is not None
        return region


@dataclass(slots=True)
class Node:
    """Walls together; ``psi`` bounds the partner's quantity, ``partner`` its cost there. [units]

    ``sure``: the partner has been searched there; else it costs no less than that, and is searched when the
    node is taken.
    """

    sides: tuple[Side, ...]
    psi: tuple[float, float]
    partner: int = 0
    sure: bool = True

    def __iter__(self) -> Iterator[Side]:
        return iter(self.sides)

    def __getitem__(self, k: int) -> Side:
        return self.sides[k]

    def __len__(self) -> int:
        return len(self.sides)


def sort_out(polygon: Polygon, ways: Sequence[Way], bends: Bends) -> Side | None:
    """Look at ways in the order of their bounds until the least is sure; None when none is left."""
    queue = sorted(ways, key=RANK)
    done: list[Way] = []
    best = None
    ranges: list[tuple[float, float]] = []  # the same for every way: their spots stand at the same places
    for at, way in enumerate(queue):
        if best is not None and RANK(best) <= RANK(way):
            done += queue[at:]
            break
        if way.region is None or way.region.polygon is not polygon:
            now: Seen = []
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
                way.seen,
                now,
                bends.get(way.frame, ()),
            )
            if region is None:
                continue
            if isinstance(region, int):
                bound, region = region, None
            else:
                bound = region.bound
            way = Way(
                bound if bound > way.bound else way.bound,
                way.tilt,
                way.frame,
                way.lean,
                way.own,
                way.mask,
                way.limits,
                way.choices,
                region,
                now,
            )
            if region is None:
                done.append(way)
                continue
        done.append(way)
        if best is None or RANK(way) < RANK(best):
            best = way
    if best is None:
        return None
    done.sort(key=RANK)
    return Side(polygon, done)
