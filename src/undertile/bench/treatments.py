"""What may be done to one member and what it costs [contract 5, 8], exact and apart from the planner.

Section numbers of ``docs/methods/framing-contract.md`` are cited as [contract n]. Used by ``verify``.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.plan import Recipe
from undertile.framing.problem import FramingProblem, Member, StockItem, WallProblem

Stock = dict[tuple[str, Fraction], StockItem]
"""The stock allowed on a member, by name and thickness."""

ZERO = Fraction(0)
BAND = Fraction(1, 16)
SHIM_OVER = Fraction(1, 32)
GRID = Fraction(1, 32)
PASS_DEPTH = Fraction(1, 16)
PASSES = 4
PASSES_SISTERED = 8
THICK_OVER = Fraction(1, 4)
STACK = Fraction(3, 4)
PIECES = 3
TAPER_LOW, TAPER_HIGH = Fraction(1, 8), Fraction(3, 4)
KNOCK_MOST = Fraction(3, 8)
BED_MOST = Fraction(3, 16)
SISTER_REACH = Fraction(3, 2)

LEAVE, PLANE, STRIP, TAPER = frozenset[str](), {"plane"}, {"strip"}, {"taper"}
KNOCK, BED, SISTER, REPLACE, CHANNEL = "knock over", "wet bed", "sister", "replace", "channel"
TREATMENTS = frozenset(
    frozenset(families)
    for families in (
        LEAVE,
        PLANE,
        STRIP,
        {"plane", "strip"},
        TAPER,
        {"plane", "taper"},
        {KNOCK},
        {BED},
        {SISTER},
        {"plane", SISTER},
        {REPLACE},
        {CHANNEL},
    )
)
"""Exactly one of these [contract 5]."""


@dataclass
class Tally:
    """Minutes (before ``factor``) and dollars, and for whom."""

    minutes: Fraction = ZERO
    dollars: Fraction = ZERO

    def add(self, minutes: Fraction, dollars: Fraction = ZERO) -> None:
        """Add a charge."""
        self.minutes += minutes
        self.dollars += dollars


def treatment_of(families: frozenset[str]) -> str:
    """The name a hold goes by: a sister is one with or without planing [contract 5]."""
    if SISTER in families:
        return SISTER
    return " + ".join(name for name in ("plane", "strip", "taper") if name in families) or (
        next(iter(families)) if families else "leave"
    )


def added_by(
    wall: WallProblem, member: Member, recipe: Recipe, stock: Stock, say: list[str]
) -> list[Fraction]:
    """S at every height: strips, taper or knock-over [contract 5]. [in]"""
    heights = wall.heights
    added = [ZERO] * len(heights)
    families = frozenset(recipe.families)
    if ("strip" in families) != bool(recipe.pieces):
        say.append("strips named without pieces, or pieces without the name")
    if len(recipe.pieces) > PIECES:
        say.append(f"{len(recipe.pieces)} pieces, at most {PIECES}")
    for piece in recipe.pieces:
        item = stock.get((piece.stock, piece.thickness))
        if item is None:
            say.append(f"no stock {piece.stock} of {piece.thickness} allowed here")
        if not 0 <= piece.first <= piece.last < len(heights):
            say.append(f"piece over heights {piece.first}..{piece.last}, of {len(heights)}")
            continue
        for h in range(piece.first, piece.last + 1):
            added[h] += piece.thickness
            if item is not None and item.dry_only and not member.dry_stock_ok[h]:
                say.append(f"dry-only {piece.stock} at height {heights[h]}")
    if any(thickness > STACK for thickness in added):
        say.append("strips over 3/4 in all")
    if ("taper" in families) != (recipe.taper is not None):
        say.append("taper named without its ends, or ends without the name")
    if recipe.taper is not None:
        bottom, top = recipe.taper
        if not member.taper:
            say.append("taper not offered")
        for end in (bottom, top):
            if not TAPER_LOW <= end <= TAPER_HIGH or (end * 16).denominator != 1:
                say.append(f"taper end {end}")
        run = heights[-1] - heights[0]
        if run == 0 and bottom != top:
            say.append("taper over one height with two ends")
        for h, z in enumerate(heights):
            added[h] += bottom + (top - bottom) * ((z - heights[0]) / run if run else ZERO)
    if (KNOCK in families) != (recipe.knock is not None):
        say.append("knock-over named without its amount, or amount without the name")
    if recipe.knock is not None:
        m = recipe.knock
        if not member.knock or wall.top is None or wall.top <= 0:
            say.append("knock-over not offered")
        elif not 0 < abs(m) <= KNOCK_MOST or (m * 16).denominator != 1:
            say.append(f"foot knocked over by {m}")
        else:
            for h, z in enumerate(heights):
                added[h] += m * (wall.top - z) / wall.top
    return added


def planed_by(member: Member, recipe: Recipe, count: int, say: list[str]) -> list[Fraction]:
    """d at every height, judged [contract 5]. [in]"""
    families = frozenset(recipe.families)
    if "plane" not in families:
        if recipe.passes or any(recipe.depth):
            say.append("planed without the name")
        return [ZERO] * count
    depth = list(recipe.depth)
    if len(depth) != count:
        say.append(f"{len(depth)} planed depths for {count} heights")
        return [ZERO] * count
    sistered = SISTER in families
    k = recipe.passes
    if not 1 <= k <= (PASSES_SISTERED if sistered else PASSES):
        say.append(f"{k} passes")
    limits = member.plane_depth_sistered if sistered else member.plane_depth
    for h, d in enumerate(depth):
        most = min(k * PASS_DEPTH, limits[h])
        if (d / GRID).denominator != 1 or not 0 <= d <= most:
            say.append(f"planed {d} at height {h}, at most {most} by thirty-seconds")
    if not member.rip_ok and all(depth):
        say.append("planed over its full height")
    return depth


def faces_of(
    problem: FramingProblem,
    wall: WallProblem,
    member: Member,
    recipe: Recipe,
    goals: list[Fraction],
    say: list[str],
) -> tuple[list[Fraction], list[Fraction]]:
    """Finished faces and planed depths, with what is wrong about the treatment [contract 5, 8]. [in]"""
    families = frozenset(recipe.families)
    count = len(wall.heights)
    if families not in TREATMENTS or len(recipe.families) != len(families):
        say.append(f"not a treatment: {' + '.join(recipe.families)}")
    name = treatment_of(families)
    if member.held is not None and name != member.held:
        say.append(f"held to {member.held}, planned {name}")
    if member.must and name not in member.must:
        say.append(f"must be one of {sorted(member.must)}, planned {name}")
    allowed = {(problem.stock[s].name, problem.stock[s].thickness): problem.stock[s] for s in member.stock}
    added = added_by(wall, member, recipe, allowed, say)
    depth = planed_by(member, recipe, count, say)
    offsets = member.offsets
    if families & {SISTER, REPLACE, CHANNEL}:
        for h, g in enumerate(goals):
            o = offsets[h]
            if SISTER in families and not (o - depth[h] <= g <= o + SISTER_REACH):
                say.append(f"height {wall.heights[h]}: sister face {g - o} from the old one")
            if CHANNEL in families and wall.channel is not None:
                packed = g - o - wall.channel.height
                if not 0 <= packed <= wall.channel.packing:
                    say.append(f"height {wall.heights[h]}: {packed} packed behind the channel")
        if SISTER in families and member.sister is None:
            say.append("sister not offered")
        if REPLACE in families and member.replace is None:
            say.append("replace not offered")
        return list(goals), depth
    if BED in families:
        if not member.wet_bed:
            say.append("wet bed not offered")
        faces = list(offsets)
        for h, g in enumerate(goals):
            if not wall.flange[h] and offsets[h] < g - BAND:
                faces[h] = g
                if g - offsets[h] > BED_MOST:
                    say.append(f"height {wall.heights[h]}: bed of {g - offsets[h]}")
        if faces == list(offsets):
            say.append("wet bed with no height bedded")
        return faces, depth
    return [o + s - d for o, s, d in zip(offsets, added, depth, strict=True)], depth


def tally_of(problem: FramingProblem, member: Member, recipe: Recipe, shim: bool) -> Tally:
    """Minutes and dollars of one member alone [contract 4, 5]."""
    prices = problem.prices
    families = frozenset(recipe.families)
    out = Tally()
    if shim:
        out.add(prices.flange_shim, prices.flange_shim_dollars)
    if "plane" in families:
        out.add(prices.plane_setup + recipe.passes * prices.plane_pass, prices.plane_dollars)
    if recipe.pieces:
        thick = any(piece.thickness > THICK_OVER for piece in recipe.pieces)
        out.add(prices.strip_thick if thick else prices.strip_thin)
        out.add((len(recipe.pieces) - 1) * prices.strip_more)
        for piece in recipe.pieces:
            out.add(
                ZERO,
                next(
                    (
                        problem.stock[s].price
                        for s in member.stock
                        if (problem.stock[s].name, problem.stock[s].thickness)
                        == (piece.stock, piece.thickness)
                    ),
                    ZERO,
                ),
            )
    if "taper" in families:
        out.add(prices.taper_next, prices.taper_dollars)
    if KNOCK in families:
        out.add(prices.knock)
    if BED in families:
        out.add(prices.wet_bed, prices.wet_bed_dollars)
    if SISTER in families:
        out.add(member.sister or ZERO, prices.sister_dollars)
    if REPLACE in families:
        out.add(member.replace or ZERO, member.replace_dollars)
    return out
