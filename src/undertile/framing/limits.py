"""From what a stud is to what may be done to it (docs/methods/limits.md).

Safety is inside the planner, not a filter after it: a treatment that is not offered here cannot be in a
plan. Each refusal and each limit keeps its reason and source in ``Member.why``. Unknown is the cautious
case (convention 4.5): an unknown stud is bearing, unknown stuff is not planed nor sistered, an unknown bay
may hold wires.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from undertile.framing.facts import Kind
from undertile.framing.planing import Why, plane_depths
from undertile.framing.prices import PriceList
from undertile.framing.problem import Member, StockItem
from undertile.framing.say import FAMILIES, SERVICES, place, said
from undertile.framing.stud_is import StudIs
from undertile.lengths import Unit
from undertile.sentence import Sentence

CARD_ABOVE_FLANGE = Fraction(6)
"""Loose card starts this far above the flange's top (convention 4.3). [in]"""
MOST_STRIPS = Fraction(3, 4)
"""All strips on one stud together [contract 5]. [in]"""

_NOT_SISTERED: dict[Kind, tuple[str, str]] = {
    "steel": (Sentence("a steel stud takes no sister"), "convention-4"),
    "treated": (Sentence("only plain wood is sistered"), "convention-4"),
    "engineered": (
        Sentence("only plain wood is sistered; an engineered member is the engineer's"),
        "convention-4",
    ),
    "unknown": (Sentence("what the stud is made of is not known, and only wood is sistered"), "convention-4"),
}


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
    why: Why = {"kerf": (Sentence("kerf-and-pull is not priced in this contract"), "convention-4")}
    alone, reasons = plane_depths(stud, heights, unit=unit)
    why.update(reasons)
    with_sister, _ = plane_depths(stud, heights, sistered=True, unit=unit)
    if any(alone) and stud.bears and stud.kind == "wood":
        why["rip"] = (
            Sentence(
                "the stud bears: planed over its full height it changes grade, so one height stays unplaned; "
                "ask an engineer for a full rip"
                if stud.bearing == "yes"
                else "the stud is not known and counts as bearing: planed over its full height it changes "
                "grade, so one height stays unplaned; ask an engineer for a full rip"
            ),
            "convention-4",
        )
    if stud.hold is not None:
        why["held"] = (
            Sentence(
                "held to {treatment}: {reason}",
                treatment=FAMILIES[stud.hold.treatment],
                reason=stud.hold.reason,
            ),
            "convention-4",
        )
    if stud.soft:
        why["must"] = (Sentence("the stud is soft: it gets a sister or is replaced"), "convention-4")
    dry = tuple(flange_top is not None and z >= flange_top + CARD_ABOVE_FLANGE for z in heights)
    sister = _sister(stud, prices, why)
    replace, replace_dollars = _replace(stud, prices, why, unit)
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
        why["strip"] = (Sentence("no strip stock is listed on the van"), "convention-4")
    elif not kept and not stud.wood_allowed:
        why["strip"] = (
            Sentence("wood is not allowed here, and no other strip stock is listed"),
            "convention-4",
        )
    elif not kept:
        why["strip"] = (
            Sentence("no stock between 0 and {most} thick is listed", most=said(MOST_STRIPS)),
            "convention-4",
        )
    elif any(stock[i].dry_only for i in kept) and not all(dry):
        why["card"] = (
            Sentence(
                "loose card never in the flange zone nor below {above} above the flange",
                above=said(CARD_ABOVE_FLANGE),
            ),
            "convention-4",
        )
    return tuple(kept)


def _taper(stud: StudIs, why: Why) -> bool:
    if not stud.wood_allowed:
        why["taper"] = (Sentence("wood is not allowed here"), "convention-4")
    return stud.wood_allowed


def _wet_bed(stud: StudIs, why: Why) -> bool:
    if not stud.wet_bed:
        why["wet bed"] = (Sentence("off until it is chosen for the wall"), "convention-4")
    elif stud.soft:
        why["wet bed"] = (Sentence("soft wood is not covered"), "convention-4")
    return stud.wet_bed and not stud.soft


def _knock(stud: StudIs, top: Fraction | None, why: Why) -> bool:
    refused = None
    if stud.kind not in ("wood", "treated"):
        refused = Sentence("only a wood stud is knocked over")
    elif stud.fixed:
        refused = Sentence("it may not be moved")
    elif stud.bears:
        refused = Sentence("it bears") if stud.bearing == "yes" else Sentence("whether it bears is not known")
    elif stud.free_behind != "yes":
        refused = (
            Sentence("its foot is not free behind")
            if stud.free_behind == "no"
            else Sentence("what is behind is not known")
        )
    elif top is None:
        refused = Sentence("the height of the top plate is not measured")
    elif stud.standing:
        refused = Sentence("{thing} stands at it and would go along", thing=stud.standing[0].said)
    if refused is not None:
        why["knock over"] = (refused, "convention-4")
    return refused is None


def _sister(stud: StudIs, prices: PriceList, why: Why) -> Fraction | None:
    refused: tuple[str, str] | None = None
    if stud.fixed:
        refused = (Sentence("the bay may not be opened"), "convention-4")
    elif stud.kind in _NOT_SISTERED:
        refused = _NOT_SISTERED[stud.kind]
    elif not stud.wood_allowed:
        refused = (Sentence("wood is not allowed here"), "convention-4")
    if refused is not None:
        why["sister"] = refused
        return None
    if stud.kind == "batten":
        why["sister is"] = (
            Sentence("a straight batten beside it on packers; priced as a sister (ours)"),
            "convention-4",
        )
    if stud.bay == "clear":
        return prices["sister"]
    longer = Sentence("the bay is not known and may hold wires: the longer time counts")
    if stud.bay != "unknown":
        longer = Sentence("the bay holds a {what}: the longer time counts", what=SERVICES[stud.bay])
    why["sister minutes"] = (longer, "convention-4")
    return prices["sister_wire"]


def _replace(stud: StudIs, prices: PriceList, why: Why, unit: Unit) -> tuple[Fraction | None, Fraction]:
    wood, steel = prices["replace_dollars"], prices["reset_steel_dollars"]
    refused = None
    if stud.fixed:
        refused = Sentence("it may not be replaced or moved")
    elif stud.kind == "engineered":
        refused = Sentence("an engineered member is replaced only by its maker or an engineer")
    elif stud.kind == "batten":
        refused = Sentence(
            "how far the masonry lets a batten back is not known; a batten beside it on packers is offered"
        )
    if refused is not None:
        why["replace"] = (refused, "convention-4")
        return None, wood
    if stud.standing:
        first = stud.standing[0]
        why["replace"] = (
            Sentence(
                "{thing} at {height} stands at it; once it is off, set its keep_off to 0",
                thing=first.said,
                height=place(first.height, unit),
            ),
            "practice-keep-off",
        )
        return None, wood
    dollars = steel if stud.kind == "steel" else wood
    if not stud.bears:
        if stud.kind == "steel":
            why["replace is"] = (Sentence("re-set in its track"), "practice-minutes")
            return prices["reset_steel"], dollars
        return prices["replace"], dollars
    shore = Sentence(
        "it bears: shore the wall and ask before it comes out"
        if stud.bearing == "yes"
        else "whether it bears is not known, so it counts as bearing: shore the wall and ask before it "
        "comes out"
    )
    why["replace minutes"] = (shore, "convention-4")
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
