"""Every treatment of the contract, one after the other, at a given plane: slow, and apart from the planner.

Written from ``docs/methods/framing-contract.md`` alone; section numbers are cited as [contract n].
Straightedge rules are left to the caller. Lengths in inches, money in dollars, all ``Fraction``.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache, lru_cache
from itertools import combinations_with_replacement, product

from undertile.framing.problem import FramingProblem, Member, Prices, StockItem, WallProblem

F = Fraction
BAND = F(1, 16)
STEP = F(1, 32)
PASS = F(1, 16)


def money(prices: Prices, minutes: Fraction, dollars: Fraction) -> Fraction:
    """[contract 11]."""
    return minutes * prices.factor * prices.rate / 60 + dollars


Stack = tuple[tuple[Fraction, ...], Fraction, Fraction]
"""What strips add at each height, minutes, dollars."""


@lru_cache(maxsize=256)
def strip_stacks(stock: tuple[StockItem, ...], prices: Prices, dry_ok: tuple[bool, ...]) -> tuple[Stack, ...]:
    """The cheapest one to three pieces for everything that they can add [contract 5]."""
    heights = range(len(dry_ok))
    pieces = [
        (item, [item.thickness if first <= h <= last else F(0) for h in heights])
        for item in stock
        for first in heights
        for last in range(first, len(dry_ok))
        if not item.dry_only or all(dry_ok[first : last + 1])
    ]
    best: dict[tuple[Fraction, ...], tuple[Fraction, Stack]] = {}
    for count in (1, 2, 3):
        for chosen in combinations_with_replacement(pieces, count):
            added = tuple(sum(at, F(0)) for at in zip(*(lies for _, lies in chosen), strict=True))
            if max(added) > F(3, 4):
                continue
            thick = any(item.thickness > F(1, 4) for item, _ in chosen)
            minutes = (prices.strip_thick if thick else prices.strip_thin) + (count - 1) * prices.strip_more
            dollars = sum((item.price for item, _ in chosen), F(0))
            cost = money(prices, minutes, dollars)
            if added not in best or cost < best[added][0]:
                best[added] = (cost, (added, minutes, dollars))
    return tuple(stack for _, stack in best.values())


def depths(member: Member, passes: int, sistered: bool) -> list[list[Fraction]]:
    """The depths that so many passes may plane at each height."""
    most = member.plane_depth_sistered if sistered else member.plane_depth
    return [[n * STEP for n in range(2 * passes + 1) if n * STEP <= limit] for limit in most]


def held_to(member: Member, families: tuple[str, ...]) -> bool:
    """Whether hold and must allow these families."""
    if member.must and not member.must & set(families):
        return False
    if member.held is None:
        return True
    if member.held == "sister":
        return "sister" in families
    return families == (() if member.held == "leave" else (member.held,))


def ways(
    problem: FramingProblem, wall: WallProblem, member: Member, goals: Sequence[Fraction]
) -> Iterator[tuple[Fraction, frozenset[str]]]:
    """Cost of every way to bring one member to its targets, and the wall charges that way asks for."""
    p, n = problem.prices, len(wall.heights)
    zone = wall.flange
    o = member.offsets
    zero = (F(0),) * n

    @cache
    def fits_at(h: int, added: Fraction, passes: int, cut_flange: bool, shimmed: bool) -> tuple[bool, bool]:
        """Whether some depth brings the face into its band, and whether none at all does."""
        at = depths(member, passes, False)[h] if cut_flange or not zone[h] else [F(0)]
        return any(lies(h, o[h] + added - d, shimmed) for d in at), lies(h, o[h] + added, shimmed)

    @cache
    def lies(h: int, face: Fraction, shimmed: bool) -> bool:
        r = face - goals[h]
        if not zone[h]:
            return -BAND <= r <= BAND
        return (-BAND if shimmed else -STEP) <= r <= 0

    stacks: list[tuple[tuple[str, ...], Sequence[Fraction], Fraction, Fraction, frozenset[str]]]
    stacks = [((), zero, F(0), F(0), frozenset())]
    stock = tuple(problem.stock[i] for i in member.stock)
    stacks += [
        (("strip",), s, m, d, frozenset())
        for s, m, d in strip_stacks(stock, p, member.dry_stock_ok or (True,) * n)
    ]
    if member.taper:
        z0, z1 = wall.heights[0], wall.heights[-1]
        for b, t in product(range(2, 13), repeat=2):
            wedge = [F(b, 16) + F(t - b, 16) * (z - z0) / (z1 - z0) for z in wall.heights]
            stacks.append((("taper",), wedge, p.taper_next, p.taper_dollars, frozenset({"taper"})))
    if member.knock and wall.top is not None:
        for m in range(-6, 7):
            if m:
                lean = [F(m, 16) * (wall.top - z) / wall.top for z in wall.heights]
                stacks.append((("knock over",), lean, p.knock, F(0), frozenset()))
    shims = (False, True) if member.beside_pan else (True,)
    for shimmed in shims:
        pays = shimmed and member.beside_pan
        shim = (p.flange_shim, p.flange_shim_dollars) if pays else (F(0), F(0))
        for families, added, minutes, dollars, charge in stacks:
            for passes in range(5):
                if passes and families == ("knock over",):
                    break
                if not held_to(member, (("plane",) if passes else ()) + families):
                    continue
                for cut_flange in (False, True) if passes else (False,):
                    fits = [fits_at(h, added[h], passes, cut_flange, shimmed) for h in range(n)]
                    if not all(some for some, _ in fits):
                        continue
                    if not member.rip_ok and not any(none for _, none in fits):
                        continue  # planed over its full height [contract 5]
                    minutes_all, dollars_all = minutes + shim[0], dollars + shim[1]
                    if passes:
                        minutes_all += p.plane_setup + passes * p.plane_pass
                        dollars_all += p.plane_dollars
                    need = charge | ({"plate"} if cut_flange else frozenset())
                    yield money(p, minutes_all, dollars_all), need
        if member.wet_bed and held_to(member, ("wet bed",)):
            low = [h for h in range(n) if not zone[h] and o[h] < goals[h] - BAND]
            rest = [h for h in range(n) if h not in low]
            thin = all(goals[h] - o[h] <= F(3, 16) for h in low)
            if low and thin and all(lies(h, o[h], shimmed) for h in rest):
                yield money(p, p.wet_bed + shim[0], p.wet_bed_dollars + shim[1]), frozenset()
    if member.sister is not None and all(g - a <= F(3, 2) for g, a in zip(goals, o, strict=True)):
        for passes in range(9):
            if not held_to(member, ("plane", "sister") if passes else ("sister",)):
                continue
            needed = []
            for h, at in enumerate(depths(member, passes, True)):
                needed.append(next((d for d in at if o[h] - d <= goals[h]), None))
            if any(d is None for d in needed) or (not member.rip_ok and all(needed)):
                continue
            cuts = any(d and zone[h] for h, d in enumerate(needed))
            minutes, dollars = member.sister, p.sister_dollars
            if passes:
                minutes += p.plane_setup + passes * p.plane_pass
                dollars += p.plane_dollars
            yield money(p, minutes, dollars), frozenset({"plate"} if cuts else ())
    if member.replace is not None and held_to(member, ("replace",)):
        need = frozenset({"shore"} if member.shoring else ())
        yield money(p, member.replace, member.replace_dollars), need


def goals_of(wall: WallProblem, t: Fraction, lean: Fraction) -> list[Fraction]:
    """Targets of a member whose plane stands at ``t`` at height 0 [contract 2]."""
    return [
        t + lean * z + (0 if zone else wall.step) for z, zone in zip(wall.heights, wall.flange, strict=True)
    ]


def member_ways(
    problem: FramingProblem, wall: WallProblem, member: Member, t: Fraction, lean: Fraction
) -> dict[frozenset[str], Fraction]:
    """The member's least cost at one plane, by the wall charges it asks for."""
    out: dict[frozenset[str], Fraction] = {}
    if wall.t_low <= t <= wall.t_high:
        for cost, need in ways(problem, wall, member, goals_of(wall, t, lean)):
            out[need] = min(cost, out.get(need, cost))
    return out


def least_under(found: dict[frozenset[str], Fraction], paid: frozenset[str]) -> Fraction | None:
    """The least of these with the wall charges ``paid`` paid elsewhere; None when there is no way."""
    return min((cost for need, cost in found.items() if need <= paid), default=None)


def least_wall(
    problem: FramingProblem, wall: WallProblem, plane: tuple[Fraction, Fraction, Fraction]
) -> F | None:
    """The wall's least cost at one plane (offset, skew, lean), without step terms, plates and channel."""
    offset, skew, lean = plane
    p = problem.prices
    charges = {"plate": p.plate_edge, "taper": p.taper_first - p.taper_next, "shore": p.shoring}
    best: Fraction | None = None
    every = [member_ways(problem, wall, m, offset + skew * m.along, lean) for m in wall.members]
    for bits in product((False, True), repeat=3):
        paid = frozenset(name for name, on in zip(charges, bits, strict=True) if on)
        total = money(p, p.verify + sum((charges[name] for name in paid), F(0)), F(0))
        each = [least_under(found, paid) for found in every]
        if None in each:
            continue
        total += sum((c for c in each if c is not None), F(0))
        best = total if best is None else min(best, total)
    return best
