"""From what a stud is to what may be done to it (docs/methods/limits.md).

Safety is inside the planner, not a filter after it: a treatment that is not offered here cannot be in a
plan. Each refusal and each limit keeps its reason and source in ``Member.why``. Unknown is the cautious
case (convention 4.5): an unknown stud is bearing, unknown stuff is not planed nor sistered, an unknown bay
may hold wires.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.facts import Bay, Hold, Hole, Kind, Service, Stud, WallWork, YesNo
from undertile.framing.prices import PriceList
from undertile.framing.problem import Member, StockItem
from undertile.framing.say import place, said
from undertile.lengths import Unit

CRAFT = Fraction(1, 4)
"""Planing a stud alone, 4 passes [in] (convention 4.3, 4.4; common practice)."""
CRAFT_SISTERED = Fraction(1, 2)
"""Planing a stud that gets a sister, 8 passes [in] (convention 4.3)."""
NOTCH_BEARING = Fraction(1, 4)
NOTCH_FREE = Fraction(2, 5)
"""Share of the stud's depth that may be notched, IRC R602.6: bearing or exterior, and not bearing."""
LEAST_STUD = Fraction(3, 2)
"""Depth taken for a stud not measured: two-by lumber laid flat, the shallowest in use (ours). [in]"""
LEAST_BATTEN = Fraction(3, 4)
"""Thickness taken for a batten not measured: one-by (ours). [in]"""
HOLE_EDGE = Fraction(5, 8)
"""A hole's edge to the face, IRC R602.6. [in]"""
SERVICE = Fraction(5, 4)
"""A pipe or cable to the face without a plate, NEC 300.4 and IRC P2603.2.1. [in]"""
PLATED = Fraction(1, 4)
"""Wood kept before a pipe or cable behind a plate (ours, after the screw tip's 1/4). [in]"""
CARD_ABOVE_FLANGE = Fraction(6)
"""Loose card starts this far above the flange's top (convention 4.3). [in]"""
MOST_STRIPS = Fraction(3, 4)
"""All strips on one stud together [contract 5]. [in]"""

Why = dict[str, tuple[str, str]]

_NOT_PLANED: dict[Kind, tuple[str, str]] = {
    "steel": ("steel is never planed", "convention-4"),
    "treated": ("treated wood is never planed: the treatment is in the face", "convention-4"),
    "engineered": ("an engineered member is never cut", "convention-4"),
    "unknown": ("what the stud is made of is not known, and unknown stuff is not planed", "convention-4"),
}
_NOT_SISTERED: dict[Kind, tuple[str, str]] = {
    "steel": ("a steel stud takes no sister", "convention-4"),
    "treated": ("only plain wood is sistered", "convention-4"),
    "engineered": ("only plain wood is sistered; an engineered member is the engineer's", "convention-4"),
    "unknown": ("what the stud is made of is not known, and only wood is sistered", "convention-4"),
}


@dataclass(frozen=True)
class StudIs:
    """One stud with every blank filled from its wall. Lengths in inches."""

    name: str
    kind: Kind = "unknown"
    bearing: YesNo = "unknown"
    bay: Bay = "unknown"
    fixed: bool = False
    free_behind: YesNo = "unknown"
    depth: Fraction | None = None
    notch: Fraction = Fraction(0)
    brace: bool = False
    soft: bool = False
    holes: tuple[tuple[str, Hole], ...] = ()
    services: tuple[tuple[str, Service], ...] = ()
    hold: Hold | None = None
    wood_allowed: bool = True
    wet_bed: bool = False

    @property
    def bears(self) -> bool:
        """Whether it counts as bearing: yes, or not known."""
        return self.bearing != "no"


def stud_is(name: str, stud: Stud | None, work: WallWork | None) -> StudIs:
    """What one stud is: its own facts, then its wall's, then unknown.

    Parameters
    ----------
    name : str
    stud : Stud or None
    work : WallWork or None
        Of its wall.

    Returns
    -------
    StudIs
    """
    work, stud = work or WallWork(), stud or Stud()
    depth = stud.depth if stud.depth is not None else work.depth
    return StudIs(
        name,
        stud.kind if stud.kind is not None else work.kind,
        stud.bearing if stud.bearing is not None else work.bearing,
        stud.bay if stud.bay is not None else work.bay,
        stud.fixed if stud.fixed is not None else work.fixed,
        stud.free_behind if stud.free_behind is not None else work.free_behind,
        depth.inches if depth is not None else None,
        stud.notch.inches if stud.notch is not None else Fraction(0),
        stud.brace,
        stud.soft,
        tuple(stud.holes.items()),
        tuple(stud.services.items()),
        stud.hold,
        work.wood_allowed,
        work.wet_bed,
    )


def section_of(height: Fraction, heights: Sequence[Fraction]) -> tuple[int, ...]:
    """Heights (by index) whose depth decides the cut at one height.

    The face runs straight between the heights read: on one of them, that one; between two, both; past the
    last one read, the nearest, for the cut runs on.
    """
    if height <= heights[0]:
        return (0,)
    if height >= heights[-1]:
        return (len(heights) - 1,)
    for h, z in enumerate(heights):
        if z == height:
            return (h,)
        if z > height:
            return (h - 1, h)
    raise AssertionError("heights rise")  # pragma: no cover


def plane_depths(
    stud: StudIs, heights: Sequence[Fraction], *, sistered: bool = False, unit: Unit = "in"
) -> tuple[tuple[Fraction, ...], Why]:
    """The most that may be planed off a stud at each height, and what says so.

    The smallest counts (convention 4.4): craft; the notch share less what is notched already; no hole and
    cut in one section; a pipe or cable keeps its distance to the new face unless a plate covers it.

    Parameters
    ----------
    stud : StudIs
    heights : sequence of Fraction, rising
        [in]
    sistered : bool
        Whether a sister stands beside it.
    unit : {"in", "mm"}
        For words.

    Returns
    -------
    depths : tuple of Fraction, one per height
        0 = never. [in]
    why : dict
        ``plane`` for what holds over the whole stud, ``plane at 48`` for one height.
    """
    nothing = tuple(Fraction(0) for _ in heights)
    refused = _never_planed(stud)
    if refused is not None:
        return nothing, {"plane": refused}
    craft = CRAFT_SISTERED if sistered and stud.kind == "wood" else CRAFT
    share, words, source = _notch_share(stud, unit)
    depth, why = craft, (f"craft: at most {said(craft, unit)}", "practice-planing")
    if share < craft:
        depth, why = max(share, Fraction(0)), (words, source)
    if depth == 0:
        return nothing, {"plane": why}
    depths = [depth] * len(heights)
    reasons: Why = {"plane limit": why}
    for name, hole in stud.holes:
        for h in section_of(hole.height.inches, heights):
            depths[h] = Fraction(0)
            reasons[f"plane at {place(heights[h], unit)}"] = (
                f"hole {name} at {place(hole.height.inches, unit)}: no hole and cut in one section",
                "irc-r602.6",
            )
    for name, service in stud.services:
        limit, text = _service_limit(name, service, unit)
        for h in section_of(service.height.inches, heights):
            if limit < depths[h]:
                depths[h] = limit
                source = "irc-p2603.2.1" if service.what == "pipe" else "nec-300.4"
                reasons[f"plane at {place(heights[h], unit)}"] = (text, source)
    return tuple(depths), reasons


def _never_planed(stud: StudIs) -> tuple[str, str] | None:
    if stud.kind in _NOT_PLANED:
        return _NOT_PLANED[stud.kind]
    if stud.brace:
        return ("a let-in brace crosses its face, and a brace is never cut", "convention-4")
    if stud.soft:
        return ("soft wood is cut out, not planed", "convention-4")
    return None


def _notch_share(stud: StudIs, unit: Unit) -> tuple[Fraction, str, str]:
    """What the code leaves to be taken, in words, with its source."""
    if stud.kind == "batten":
        depth = stud.depth if stud.depth is not None else LEAST_BATTEN
        left = NOTCH_BEARING * depth
        words = f"a batten keeps three quarters of its thickness ({_depth(stud, depth, unit)})"
        return left, words, "convention-4"
    depth = stud.depth if stud.depth is not None else LEAST_STUD
    share = NOTCH_BEARING if stud.bears else NOTCH_FREE
    left = share * depth - stud.notch
    percent = "25 % of a bearing stud's depth" if stud.bears else "40 % of the depth"
    words = f"notches: {percent} ({_depth(stud, depth, unit)})"
    if stud.notch:
        words += f", {said(stud.notch, unit)} is notched already"
    return left, words, "irc-r602.6"


def _depth(stud: StudIs, depth: Fraction, unit: Unit) -> str:
    text = said(depth, unit)
    return text if stud.depth is not None else f"depth not measured, {text} taken"


def _service_limit(name: str, service: Service, unit: Unit) -> tuple[Fraction, str]:
    clear = service.clear.inches
    spot = f"{service.what} {name} at {place(service.height.inches, unit)}"
    if service.plated:
        return max(
            clear - PLATED, Fraction(0)
        ), f"{spot} is plated: {said(PLATED, unit)} of wood stays before it"
    limit = max(clear - SERVICE, Fraction(0))
    return limit, (
        f"{spot} is {said(clear, unit)} behind the face and keeps {said(SERVICE, unit)} to the new one; "
        "put a nail plate there and say so to plane deeper"
    )


def permissions(
    stud: StudIs,
    *,
    along: Fraction,
    heights: Sequence[Fraction],
    offsets: Sequence[Fraction],
    stock: Sequence[StockItem],
    prices: PriceList,
    flange_top: Fraction | None,
    top: Fraction | None = None,
    beside_pan: bool = False,
    unit: Unit = "in",
) -> Member:
    """Everything the planner may do to one stud, with the reason for what it may not.

    Parameters
    ----------
    stud : StudIs
    along : Fraction
        [in]
    heights, offsets : sequences of Fraction
        [in]
    stock : sequence of StockItem
        On the van.
    prices : PriceList
    flange_top : Fraction or None
        Height of the pan's flange; None = not known. [in]
    top : Fraction or None
        Height of the wall's top plate. [in]
    beside_pan : bool
    unit : {"in", "mm"}

    Returns
    -------
    Member
    """
    why: Why = {"kerf": ("kerf-and-pull is not priced in this contract", "convention-4")}
    alone, reasons = plane_depths(stud, heights, unit=unit)
    why.update(reasons)
    with_sister, _ = plane_depths(stud, heights, sistered=True, unit=unit)
    if any(alone) and stud.bears and stud.kind == "wood":
        bears = "bears" if stud.bearing == "yes" else "is not known and counts as bearing"
        why["rip"] = (
            f"the stud {bears}: planed over its full height it changes grade, so one height stays unplaned; "
            "ask an engineer for a full rip",
            "convention-4",
        )
    if stud.hold is not None:
        why["held"] = (f"held to {stud.hold.treatment}: {stud.hold.reason}", "convention-4")
    if stud.soft:
        why["must"] = ("the stud is soft: it gets a sister or is replaced", "convention-4")
    dry = tuple(flange_top is not None and z >= flange_top + CARD_ABOVE_FLANGE for z in heights)
    sister = _sister(stud, prices, why)
    replace, replace_dollars = _replace(stud, prices, why)
    return Member(
        name=stud.name,
        along=along,
        offsets=tuple(offsets),
        plane_depth=alone,
        plane_depth_sistered=with_sister,
        stock=_strips(stud, stock, dry, why),
        dry_stock_ok=dry,
        taper=_taper(stud, why),
        wet_bed=_wet_bed(stud, why),
        knock=_knock(stud, top, why),
        sister=sister,
        replace=replace,
        replace_dollars=replace_dollars,
        rip_ok=not (stud.kind == "wood" and stud.bears),
        shoring=replace is not None and stud.bears,
        beside_pan=beside_pan,
        held=stud.hold.treatment if stud.hold is not None else None,
        must=frozenset({"sister", "replace"}) if stud.soft else frozenset(),
        why=why,
    )


def _strips(stud: StudIs, stock: Sequence[StockItem], dry: Sequence[bool], why: Why) -> tuple[int, ...]:
    kept = [
        i for i, s in enumerate(stock) if (stud.wood_allowed or not s.wood) and 0 < s.thickness <= MOST_STRIPS
    ]
    if not stock:
        why["strip"] = ("no strip stock is listed on the van", "convention-4")
    elif not kept and not stud.wood_allowed:
        why["strip"] = ("wood is not allowed here, and no other strip stock is listed", "convention-4")
    elif not kept:
        why["strip"] = (f"no stock between 0 and {said(MOST_STRIPS)} thick is listed", "convention-4")
    elif any(stock[i].dry_only for i in kept) and not all(dry):
        why["card"] = (
            f"loose card never in the flange zone nor below {said(CARD_ABOVE_FLANGE)} above the flange",
            "convention-4",
        )
    return tuple(kept)


def _taper(stud: StudIs, why: Why) -> bool:
    if not stud.wood_allowed:
        why["taper"] = ("wood is not allowed here", "convention-4")
    return stud.wood_allowed


def _wet_bed(stud: StudIs, why: Why) -> bool:
    if not stud.wet_bed:
        why["wet bed"] = ("off until it is chosen for the wall", "convention-4")
    elif stud.soft:
        why["wet bed"] = ("soft wood is not covered", "convention-4")
    return stud.wet_bed and not stud.soft


def _knock(stud: StudIs, top: Fraction | None, why: Why) -> bool:
    refused = None
    if stud.kind not in ("wood", "treated"):
        refused = "only a wood stud is knocked over"
    elif stud.fixed:
        refused = "it may not be moved"
    elif stud.bears:
        refused = "it bears" if stud.bearing == "yes" else "whether it bears is not known"
    elif stud.free_behind != "yes":
        refused = "its foot is not free behind" if stud.free_behind == "no" else "what is behind is not known"
    elif top is None:
        refused = "the height of the top plate is not measured"
    if refused is not None:
        why["knock over"] = (refused, "convention-4")
    return refused is None


def _sister(stud: StudIs, prices: PriceList, why: Why) -> Fraction | None:
    refused: tuple[str, str] | None = None
    if stud.fixed:
        refused = ("the bay may not be opened", "convention-4")
    elif stud.kind in _NOT_SISTERED:
        refused = _NOT_SISTERED[stud.kind]
    elif not stud.wood_allowed:
        refused = ("wood is not allowed here", "convention-4")
    if refused is not None:
        why["sister"] = refused
        return None
    if stud.kind == "batten":
        why["sister is"] = (
            "a straight batten beside it on packers; priced as a sister (ours)",
            "convention-4",
        )
    if stud.bay == "clear":
        return prices["sister"]
    bay = "is not known and may hold wires" if stud.bay == "unknown" else f"holds a {stud.bay}"
    why["sister minutes"] = (f"the bay {bay}: the longer time counts", "convention-4")
    return prices["sister_wire"]


def _replace(stud: StudIs, prices: PriceList, why: Why) -> tuple[Fraction | None, Fraction]:
    wood, steel = prices["replace_dollars"], prices["reset_steel_dollars"]
    refused = None
    if stud.fixed:
        refused = "it may not be replaced or moved"
    elif stud.kind == "engineered":
        refused = "an engineered member is replaced only by its maker or an engineer"
    elif stud.kind == "batten":
        refused = (
            "how far the masonry lets a batten back is not known; a batten beside it on packers is offered"
        )
    if refused is not None:
        why["replace"] = (refused, "convention-4")
        return None, wood
    dollars = steel if stud.kind == "steel" else wood
    if not stud.bears:
        if stud.kind == "steel":
            why["replace is"] = ("re-set in its track", "practice-minutes")
            return prices["reset_steel"], dollars
        return prices["replace"], dollars
    bears = "it bears" if stud.bearing == "yes" else "whether it bears is not known, so it counts as bearing"
    why["replace minutes"] = (f"{bears}: shore the wall and ask before it comes out", "convention-4")
    return prices["replace_bearing"], dollars


def offered(member: Member) -> frozenset[str]:
    """The treatment families that a member may get, ``leave`` among them."""
    found = {
        "leave": True,
        "plane": any(member.plane_depth),
        "strip": bool(member.stock),
        "taper": member.taper,
        "wet bed": member.wet_bed,
        "knock over": member.knock,
        "sister": member.sister is not None,
        "replace": member.replace is not None,
    }
    if member.must:
        found = {family: ok and family in member.must for family, ok in found.items()}
    return frozenset(family for family, ok in found.items() if ok)
