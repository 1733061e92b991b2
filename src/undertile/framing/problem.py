"""The framing problem as the planner sees it: numbers only, every permission already resolved.

``limits`` turns facts (what a stud is, what code and craft allow) into this; ``search`` answers it. The
rules that bind a plan are written out in ``docs/methods/framing-contract.md``; section numbers there are
cited here as [contract n]. All lengths are exact ``Fraction`` inches, minutes and dollars ``Fraction``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

SIXTEENTH = Fraction(1, 16)
PASS = SIXTEENTH
"""Depth of one planing pass [contract 5]."""
PLANE_STEP = Fraction(1, 32)
"""Planed depths are whole multiples of this [contract 5]."""


@dataclass(frozen=True)
class StockItem:
    """Strip stock on the van.

    Attributes
    ----------
    name : str
    thickness : Fraction
        Actual. [in]
    price : Fraction
        Dollars a piece.
    dry_only : bool
        Loose card: never in the flange zone nor below flange + 6 in [contract 6].
    wood : bool
    """

    name: str
    thickness: Fraction
    price: Fraction = Fraction(0)
    dry_only: bool = False
    wood: bool = True


@dataclass(frozen=True)
class Member:
    """One stud (or batten) and what may be done to it.

    Attributes
    ----------
    name : str
    along : Fraction
        Centre along the wall. [in]
    offsets : tuple of Fraction, one per height of the wall
        Plus = proud of nominal (convention 2.2), the proud arris of a twisted stud. [in]
    plane_depth, plane_depth_sistered : tuple of Fraction, one per height
        Most that may be planed there, without and with a sister; 0 = never. [in]
    stock : tuple of int
        Indices into ``FramingProblem.stock`` allowed on this stud; () = no strips.
    dry_stock_ok : tuple of bool, one per height
        Whether ``dry_only`` stock may cover that height.
    taper, wet_bed, knock : bool
        Whether the treatment is offered.
    sister : Fraction or None
        Minutes, None = not offered.
    replace : Fraction or None
        Minutes, None = not offered.
    replace_dollars : Fraction
    rip_ok : bool
        False: planing may not run over the full height; at least one height read stays unplaned
        (bearing or unknown studs, convention 4.4) [contract 5].
    shoring : bool
        Replacing it needs shoring (once a wall).
    beside_pan : bool
        A flange gap here is shimmed (convention 3.4).
    goes_back : Fraction
        How far its face may still go back as the wood dries; a new face does not [contract 12]. [in]
    held : str or None
        A treatment family the person holds this stud to (convention 4.6).
    must : frozenset of str
        Families of which one is required (a soft stud must be sistered or replaced); empty = free.
    why : dict
        For each thing not offered or limited, the reason and source key:
        ``{"plane": ("steel", "convention-4")}``.
    """

    name: str
    along: Fraction
    offsets: tuple[Fraction, ...]
    plane_depth: tuple[Fraction, ...]
    plane_depth_sistered: tuple[Fraction, ...]
    stock: tuple[int, ...] = ()
    dry_stock_ok: tuple[bool, ...] = ()
    taper: bool = False
    wet_bed: bool = False
    knock: bool = False
    sister: Fraction | None = None
    replace: Fraction | None = None
    replace_dollars: Fraction = Fraction(5)
    rip_ok: bool = True
    shoring: bool = False
    beside_pan: bool = False
    goes_back: Fraction = Fraction(0)
    held: str | None = None
    must: frozenset[str] = frozenset()
    why: dict[str, tuple[str, str]] = field(default_factory=dict)


@dataclass(frozen=True)
class PlateSpot:
    """A plate read between studs [contract 9]: proud = its edge is cut (once a wall), low = no matter.

    Attributes
    ----------
    name : str
    along, height, offset : Fraction
        [in]
    cut : Fraction
        Most that may be cut off its edge there; 0 = never. [in]
    flange : bool
        Whether it lies in the flange zone.
    """

    name: str
    along: Fraction
    height: Fraction
    offset: Fraction
    cut: Fraction
    flange: bool


@dataclass(frozen=True)
class StepTerm:
    """Something that is right while the plane at one spot lies in an interval, and can be bought otherwise.

    Free while ``low <= v <= high`` with v the finished plane at (along, height) [contract 10]; outside it
    ``minutes`` and ``dollars`` are paid, and v must still lie within ``hard_low .. hard_high``. ``None`` =
    no bound. ``minutes is None``: it cannot be bought, the interval is a demand.
    """

    name: str
    wall: str
    along: Fraction
    height: Fraction
    low: Fraction | None
    high: Fraction | None
    minutes: Fraction | None
    dollars: Fraction = Fraction(0)
    hard_low: Fraction | None = None
    hard_high: Fraction | None = None
    remedy: str = ""
    why: str = ""
    source: str = "convention-4"


@dataclass(frozen=True)
class Channel:
    """Rows of channel over a whole wall [contract 8]; every face then lies on the plane.

    ``height`` actual channel height; ``packing`` most that may be packed behind it. [in]
    """

    height: Fraction
    packing: Fraction
    minutes: Fraction
    dollars: Fraction


@dataclass(frozen=True)
class WallProblem:
    """One wall.

    Attributes
    ----------
    name : str
        ``L``, ``B`` or ``R``.
    heights : tuple of Fraction, rising
        [in]
    flange : tuple of bool, one per height
        True in the flange zone (convention 3.3).
    step : Fraction
        How far the above-plane stands in front of the flange plane (convention 3.6). [in]
    members : tuple of Member, by rising ``along``
    leans : tuple of Fraction
        The leans offered, inch per inch of height; 0 alone = plumb [contract 2].
    t_low, t_high : Fraction
        Bounds on T at height 0 at every member [contract 2]. [in]
    top : Fraction or None
        Height a knocked-over stud turns about; None = not known, not offered.
    """

    name: str
    heights: tuple[Fraction, ...]
    flange: tuple[bool, ...]
    members: tuple[Member, ...]
    step: Fraction = Fraction(0)
    leans: tuple[Fraction, ...] = (Fraction(0),)
    t_low: Fraction = Fraction(-1)
    t_high: Fraction = Fraction(2)
    plates: tuple[PlateSpot, ...] = ()
    terms: tuple[StepTerm, ...] = ()
    channel: Channel | None = None
    top: Fraction | None = None


@dataclass(frozen=True)
class Demand:
    """A linear demand on the planes: ``low <= sum c * T_wall(along, height) <= high`` [contract 3].

    ``T`` is the flange plane (no ``step``). ``None`` = no bound on that side.

    Attributes
    ----------
    code : str
        ``play-16``, ``skew-L``, ``square``, ``drain-x-L``, ``hold-B-offset``.
    parts : tuple of (wall, along, height, coefficient)
    low, high : Fraction or None
        [in]
    title, why, source : str
        In the trade's words; what it came from; key into ``sources``.
    lazy : bool
        Rarely binds: looked at only once the rest is solved (the answer is the same).
    """

    code: str
    parts: tuple[tuple[str, Fraction, Fraction, Fraction], ...]
    low: Fraction | None
    high: Fraction | None
    title: str
    why: str = ""
    source: str = "convention-3"
    lazy: bool = False


@dataclass(frozen=True)
class Prices:
    """Minutes and dollars (convention 4.3); every figure may be changed by the person."""

    rate: Fraction = Fraction(95)
    factor: Fraction = Fraction(1)
    plane_setup: Fraction = Fraction(9)
    plane_dollars: Fraction = Fraction(1, 2)
    plane_pass: Fraction = Fraction(3, 2)
    plate_edge: Fraction = Fraction(8)
    strip_thin: Fraction = Fraction(7)
    strip_thick: Fraction = Fraction(10)
    strip_more: Fraction = Fraction(4)
    taper_first: Fraction = Fraction(15)
    taper_next: Fraction = Fraction(12)
    taper_dollars: Fraction = Fraction(3)
    sister_dollars: Fraction = Fraction(5)
    shoring: Fraction = Fraction(30)
    flange_shim: Fraction = Fraction(1)
    flange_shim_dollars: Fraction = Fraction(3, 20)
    wet_bed: Fraction = Fraction(6)
    wet_bed_dollars: Fraction = Fraction(1, 2)
    knock: Fraction = Fraction(15)
    verify: Fraction = Fraction(6)


@dataclass(frozen=True)
class FramingProblem:
    """Everything the planner needs.

    Attributes
    ----------
    walls : tuple of WallProblem
    demands : tuple of Demand
    stock : tuple of StockItem
    prices : Prices
    flatness : tuple of (length, gap)
        Straightedge rules that the finished faces must meet [contract 7]. [in]
    """

    walls: tuple[WallProblem, ...]
    demands: tuple[Demand, ...] = ()
    stock: tuple[StockItem, ...] = ()
    prices: Prices = Prices()
    flatness: tuple[tuple[Fraction, Fraction], ...] = ()
