"""The framing contract as one linear model with whole variables, from the contract page alone.

``docs/methods/framing-contract.md`` section by section; read the two side by side. No table, interval or
bound of the planner is used: every treatment is spelled out in 0-1 variables, strips as layers that start
and go on from height to height, planes as their T at the first and the last member of the wall.

Lengths are counted in 1/1600 in, which makes sixteenths, thirty-seconds and the listed stock whole; numbers
stay exact (``Fraction``) until a solver takes them. Straightedge rows [contract 7] are a continuous family:
``Framing.flat`` adds those that a found plan breaks, one by one.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil
from typing import Protocol

from undertile.bench.linear import ZERO, Lin, Model, Var, grain, total
from undertile.bench.straightedge import Row
from undertile.framing.problem import FramingProblem, Member, WallProblem

UNIT = 1600
"""Parts of an inch."""
SIXTEENTH, THIRTY_SECOND = Fraction(UNIT, 16), Fraction(UNIT, 32)
FAR = 10
"""Bound on the plane one panel (96 in) along from a wall's only member, either way. [in]"""
Name = tuple[str, ...]

LEAVE: Name = ()
PLANE: Name = ("plane",)
STRIP: Name = ("strip",)
PLANE_STRIP: Name = ("plane", "strip")
TAPER: Name = ("taper",)
PLANE_TAPER: Name = ("plane", "taper")
KNOCK: Name = ("knock over",)
BED: Name = ("wet bed",)
SISTER: Name = ("sister",)
REPLACE: Name = ("replace",)


@dataclass
class Stud:
    """The variables of one member. ``None`` or absent: not offered."""

    member: Member
    t: Var
    """T at height 0 at this member."""
    choice: dict[Name, Var]
    sister_planed: Var | None
    passes: Var
    depth: list[Var]
    pieces: list[list[tuple[int, Var, list[Var]]]]
    """By layer: (stock, chosen, covers height h)."""
    taper: tuple[Var, Var] | None
    knock: Var | None
    bed: dict[int, Var]
    shim: Var | None
    residual: list[Lin] = field(default_factory=list)
    """o + S - d - g at each height: r of a face that does not follow the plane."""
    flat: dict[int, Var] = field(default_factory=dict)
    """r, made when a straightedge row first asks for it."""


@dataclass
class Wall:
    """The variables of one wall."""

    problem: WallProblem
    first: Var
    last: Var
    leans: list[Var]
    channel: Var | None
    edge: Var
    tapers: Var
    shoring: Var
    studs: list[Stud]
    bought: list[Var | None]

    def t(self, along: Fraction) -> Lin:
        """T at height 0, straight between the first and the last member [contract 2]."""
        members = self.problem.members
        start = members[0].along
        run = members[-1].along - start or Fraction(96)
        part = (along - start) / run
        return self.first * (1 - part) + self.last * part

    def leaning(self, height: Fraction) -> Lin:
        """lean z [contract 2]."""
        leans = zip(self.leans, self.problem.leans, strict=True)
        return total([v * (lean * height * UNIT) for v, lean in leans])

    def plane(self, along: Fraction, height: Fraction) -> Lin:
        """T(a, z) = t(a) + lean z [contract 2]."""
        return self.t(along) + self.leaning(height)

    def target(self, along: Fraction, height: Fraction, flange: bool) -> Lin:
        """g: T in the flange zone, T + step above it [contract 2]."""
        return self.plane(along, height) + (0 if flange else self.problem.step * UNIT)


class Framing:
    """The model of a problem; ``ties`` makes touched members least among equal costs [contract 11]."""

    def __init__(self, problem: FramingProblem, *, ties: bool = False) -> None:
        self.problem = problem
        self.model = Model()
        self.walls = {wall.name: self._wall(wall) for wall in problem.walls}
        for demand in problem.demands:  # [contract 3]
            value = total([self.walls[w].plane(a, z) * c for w, a, z, c in demand.parts])
            self.model.hold(_units(demand.low), value, _units(demand.high))
        self._pay()
        studs = [stud for wall in self.walls.values() for stud in wall.studs]
        self.step, self.base = grain(self.model.objective), self.model.objective.constant
        """Every cost is ``base`` and a whole number of ``step``. [dollars]"""
        self.tie = self.step / (len(studs) + 1) if ties else Fraction(0)
        if ties:
            self.model.least(*((1 - stud.choice[LEAVE], self.tie) for stud in studs))

    def cost_at_least(self, bound: Fraction) -> Fraction:
        """The least cost that some plan may have when cost and ties together are at least ``bound``."""
        most_tied = self.step - self.tie if self.tie else Fraction(0)
        return self.base + self.step * ceil((bound - most_tied - self.base) / self.step)

    # 1 walls and planes

    def _wall(self, wall: WallProblem) -> Wall:
        m, name = self.model, wall.name
        low, high = wall.t_low * UNIT, wall.t_high * UNIT
        far = 0 if len(wall.members) > 1 else FAR * UNIT
        made = Wall(
            wall,
            m.var(f"{name} T first", low, high, whole=False),
            m.var(f"{name} T last", low - far, high + far, whole=False),
            [m.yes(f"{name} lean {lean}") for lean in wall.leans],
            m.yes(f"{name} channel") if wall.channel is not None else None,
            m.yes(f"{name} plate edge"),
            m.yes(f"{name} tapers"),
            m.yes(f"{name} shoring"),
            [],
            [],
        )
        m.hold(1, total(made.leans), 1)  # one lean of those offered [contract 2]
        channel = () if made.channel is None else (made.channel,)
        for member in wall.members:
            made.studs.append(self._stud(made, member))
        for spot in wall.plates:  # [contract 9]
            over = spot.offset * UNIT - made.target(spot.along, spot.height, spot.flange)
            allowed = 0 if spot.flange else SIXTEENTH
            m.hold(None, over, allowed, unless=(made.edge, *channel))
            m.hold(None, over, allowed + spot.cut * UNIT, unless=channel)
        zone = [z for z, flange in zip(wall.heights, wall.flange, strict=True) if flange]
        for term in wall.terms:  # [contract 10]
            v = made.target(term.along, term.height, bool(zone) and term.height <= max(zone))
            if term.minutes is None:
                m.hold(_units(term.low), v, _units(term.high))
                made.bought.append(None)
                continue
            bought = m.yes(f"{name} {term.name} bought")
            m.hold(_units(term.low), v, _units(term.high), unless=(bought,))
            m.hold(_units(term.hard_low), v, _units(term.hard_high), when=(bought,))
            made.bought.append(bought)
        return made

    # 2 members

    def _stud(self, wall: Wall, member: Member) -> Stud:
        m, w = self.model, wall.problem
        count = len(w.heights)
        stud = self._choices(wall, member)
        pick = stud.choice

        def chosen(*names: Name) -> Lin:
            return total([pick[name] for name in names if name in pick])

        # planing [contract 5]: k passes, depth in thirty-seconds, at most 2 k of them
        sistered = ZERO if stud.sister_planed is None else Lin.of(stud.sister_planed)
        alone = chosen(PLANE, PLANE_STRIP, PLANE_TAPER)
        m.hold(0, stud.passes - alone - sistered, None)
        m.hold(None, stud.passes - alone * 4 - sistered * 8, 0)
        for h, d in enumerate(stud.depth):
            most = int(member.plane_depth[h] * 32)
            most_sistered = int(member.plane_depth_sistered[h] * 32)
            m.hold(None, d - stud.passes * 2, 0)
            m.hold(None, d - alone * most - sistered * most_sistered, 0)
            if w.flange[h]:  # [contract 6]
                m.hold(None, d - wall.edge * 16, 0)
        if stud.sister_planed is not None:
            m.hold(0, pick[SISTER] - stud.sister_planed, None)
        if not member.rip_ok:  # not planed over its full height
            spared = [m.yes(f"{member.name} not planed at {h}") for h in range(count)]
            m.hold(1, total(spared), None)
            for d, spare in zip(stud.depth, spared, strict=True):
                m.hold(None, d + spare * 16, 16)
        # strips [contract 5]: a layer is one stock item over one unbroken run
        stack = [ZERO] * count
        if stud.pieces:
            m.hold(0, total([z for _, z, _ in stud.pieces[0]]) - chosen(STRIP, PLANE_STRIP), 0)
        for n, layer in enumerate(stud.pieces):
            used = total([z for _, z, _ in layer])
            m.hold(None, used, 1)
            if n:
                before = stud.pieces[n - 1]
                m.hold(None, used - total([z for _, z, _ in before]), 0)
                # layers in order of stock, empty ones last: the same pile counted once
                order = [z * (s + 1) for s, z, _ in layer]
                m.hold(None, total(order) - total([z * (s + 1) for s, z, _ in before]), 0)
            cover = [total([covers[h] for _, _, covers in layer]) for h in range(count)]
            starts = [m.yes(f"{member.name} layer {n} starts {h}") for h in range(count)]
            m.hold(None, total(starts), 1)
            for h in range(count):
                m.hold(0, starts[h] - cover[h] + (cover[h - 1] if h else ZERO), None)
            for s, used_here, covers in layer:
                thickness = self.problem.stock[s].thickness * UNIT
                m.hold(0, total(covers) - used_here, None)
                for h in range(count):
                    m.hold(None, covers[h] - used_here, 0)
                    stack[h] = stack[h] + covers[h] * thickness
        for h in range(count):
            if stud.pieces:
                m.hold(None, stack[h], Fraction(3, 4) * UNIT)
        # taper: ends in sixteenths, 1/8 to 3/4, straight between [contract 5]
        if stud.taper is not None:
            on = chosen(TAPER, PLANE_TAPER)
            for end in stud.taper:
                m.hold(0, end - on * 2, None)
                m.hold(None, end - on * 12, 0)
            run = w.heights[-1] - w.heights[0]
            if run == 0:
                m.hold(0, stud.taper[0] - stud.taper[1], 0)
            for h, z in enumerate(w.heights):
                part = (z - w.heights[0]) / run if run else Fraction(0)
                stack[h] = stack[h] + (stud.taper[0] * (1 - part) + stud.taper[1] * part) * SIXTEENTH
            m.hold(0, wall.tapers - on, None)
        # knock over: m sixteenths, 0 < |m| <= 6, turning about the top [contract 5]
        if stud.knock is not None and w.top is not None:
            back = m.yes(f"{member.name} knocked back")
            m.hold(0, pick[KNOCK] - back, None)
            m.hold(None, stud.knock - pick[KNOCK] * 6 + back * 7, 0)
            m.hold(0, stud.knock - pick[KNOCK] + back * 7, None)
            for h, z in enumerate(w.heights):
                stack[h] = stack[h] + stud.knock * (SIXTEENTH * (w.top - z) / w.top)
        if member.shoring and REPLACE in pick:
            m.hold(0, wall.shoring - pick[REPLACE], None)
        self._faces(wall, stud, stack)
        return stud

    def _choices(self, wall: Wall, member: Member) -> Stud:
        """The variables of a member and the one treatment it gets [contract 5]."""
        m, w = self.model, wall.problem
        count, name = len(w.heights), f"{w.name} {member.name}"
        names = [LEAVE, PLANE]
        names += [STRIP, PLANE_STRIP] if member.stock else []
        names += [TAPER, PLANE_TAPER] if member.taper else []
        names += [KNOCK] if member.knock and w.top else []
        names += [BED] if member.wet_bed else []
        names += [SISTER] if member.sister is not None else []
        names += [REPLACE] if member.replace is not None else []
        pick = {each: m.yes(f"{name} {' + '.join(each) or 'leave'}") for each in names}
        options = {" + ".join(each) or "leave": v for each, v in pick.items()}
        if wall.channel is not None:
            options["channel"] = wall.channel
        m.hold(1, total(list(options.values())), 1)
        if member.held is not None:
            m.hold(1, total([v for each, v in options.items() if each == member.held]), 1)
        if member.must:
            m.hold(1, total([v for each, v in options.items() if each in member.must]), 1)
        layers = []
        for n in range(3 if member.stock else 0):
            layer = []
            for s in member.stock:
                item = self.problem.stock[s]
                covers = [
                    m.var(
                        f"{name} layer {n} {item.name} at {h}",
                        0,
                        0 if item.dry_only and not member.dry_stock_ok[h] else 1,
                    )
                    for h in range(count)
                ]
                layer.append((s, m.yes(f"{name} layer {n} {item.name}"), covers))
            layers.append(layer)
        return Stud(
            member,
            self._t(wall, member),
            pick,
            m.yes(f"{name} sister planed") if SISTER in pick else None,
            m.var(f"{name} passes", 0, 8),
            [m.var(f"{name} planed at {h}", 0, 16) for h in range(count)],
            layers,
            (m.var(f"{name} taper foot", 0, 12), m.var(f"{name} taper head", 0, 12))
            if member.taper
            else None,
            m.var(f"{name} knocked", -6, 6) if KNOCK in pick else None,
            {h: m.yes(f"{name} bed at {h}") for h in range(count) if BED in pick and not w.flange[h]},
            m.yes(f"{name} flange shim") if member.beside_pan else None,
        )

    def _t(self, wall: Wall, member: Member) -> Var:
        """t(a_i), within its bounds and on the line through the first and the last [contract 2]."""
        w = wall.problem
        if member is w.members[0]:
            return wall.first
        if member is w.members[-1]:
            return wall.last
        t = self.model.var(f"{w.name} {member.name} T", w.t_low * UNIT, w.t_high * UNIT, whole=False)
        self.model.hold(0, t - wall.t(member.along), 0)
        return t

    def follows(self, wall: Wall, stud: Stud) -> tuple[Var, ...]:
        """The choices whose face is the plane: sister, replace, channel [contract 5, 8]."""
        own = [stud.choice[name] for name in (SISTER, REPLACE) if name in stud.choice]
        return (*own, *(() if wall.channel is None else (wall.channel,)))

    def _faces(self, wall: Wall, stud: Stud, stack: list[Lin]) -> None:
        """Bands, and what sisters, beds and channel need [contract 4, 5, 8]."""
        m, w, member = self.model, wall.problem, stud.member
        follow = self.follows(wall, stud)
        if stud.bed:
            m.hold(0, total(list(stud.bed.values())) - stud.choice[BED], None)
        elif BED in stud.choice:
            m.hold(0, stud.choice[BED], 0)  # no height above the flange zone to bed
        for h, z in enumerate(w.heights):
            o = member.offsets[h] * UNIT
            g = stud.t + wall.leaning(z) + (0 if w.flange[h] else w.step * UNIT)
            residual = o + stack[h] - stud.depth[h] * THIRTY_SECOND - g
            stud.residual.append(residual)
            bed = (stud.bed[h],) if h in stud.bed else ()
            back = member.goes_back * UNIT  # [contract 12]
            m.hold(back - SIXTEENTH, residual, 0 if w.flange[h] else SIXTEENTH, unless=(*follow, *bed))
            if stud.shim is not None and w.flange[h]:
                m.hold(back - THIRTY_SECOND, residual, None, unless=(*follow, stud.shim))
                if back:
                    m.hold(None, stud.depth[h], 0, unless=(*follow, stud.shim))
            if bed:
                m.hold(None, bed[0] - stud.choice[BED], 0)
                # bedded where o < g - 1/16; the model lets the limit in, the exact check does not
                m.hold(SIXTEENTH, g - o, Fraction(3, 16) * UNIT, when=bed)
            if SISTER in stud.choice:
                sister = (stud.choice[SISTER],)
                m.hold(None, o - stud.depth[h] * THIRTY_SECOND - g, 0, when=sister)
                m.hold(None, g - o, Fraction(3, 2) * UNIT, when=sister)
            if wall.channel is not None and w.channel is not None:
                high = w.channel.height + w.channel.packing
                m.hold(w.channel.height * UNIT, g - o, high * UNIT, when=(wall.channel,))

    # 3 straightedge rows

    def flat(self, name: str, row: Row) -> None:
        """Add one straightedge row of wall ``name`` [contract 7]."""
        wall = self.walls[name]
        parts = [self._flat_residual(wall, i, h) * c for (i, h), c in row.coefficients]
        if row.dries is not None:  # the dip gone back, unless its face is new [contract 12]
            (i, _), weight = row.dries
            stud = wall.studs[i]
            gone = stud.member.goes_back * UNIT
            parts.append((1 - total([Lin.of(each) for each in self.follows(wall, stud)])) * (weight * gone))
        self.model.hold(None, total(parts), row.gap * UNIT)

    def _flat_residual(self, wall: Wall, i: int, h: int) -> Var:
        stud = wall.studs[i]
        if h not in stud.flat:
            m, flange = self.model, wall.problem.flange[h]
            r = m.var(f"{stud.member.name} r {h}", -SIXTEENTH, 0 if flange else SIXTEENTH, whole=False)
            on_plane = self.follows(wall, stud) + ((stud.bed[h],) if h in stud.bed else ())
            m.hold(0, r - stud.residual[h], 0, unless=on_plane)
            for each in on_plane:
                m.hold(0, r, 0, when=(each,))
            stud.flat[h] = r
        return stud.flat[h]

    # 4 cost

    def _pay(self) -> None:
        """Dollars: minutes x factor x rate / 60 and dollars [contract 11]."""
        p = self.problem.prices
        worth = p.factor * p.rate / 60

        def pay(what: Lin | Var, minutes: Fraction, dollars: Fraction = Fraction(0)) -> None:
            self.model.least((what, minutes * worth + dollars))

        for wall in self.walls.values():
            pay(Lin({}, Fraction(1)), p.verify)
            pay(wall.edge, p.plate_edge)
            pay(wall.tapers, p.taper_first - p.taper_next)
            pay(wall.shoring, p.shoring)
            if wall.channel is not None and wall.problem.channel is not None:
                pay(wall.channel, wall.problem.channel.minutes, wall.problem.channel.dollars)
            for bought, term in zip(wall.bought, wall.problem.terms, strict=True):
                if bought is not None and term.minutes is not None:
                    pay(bought, term.minutes, term.dollars)
            for stud in wall.studs:
                self._pay_stud(stud, pay)

    def _pay_stud(self, stud: Stud, pay: Pay) -> None:
        p, pick, member = self.problem.prices, stud.choice, stud.member
        for name in pick:
            if "plane" in name:
                pay(pick[name], p.plane_setup, p.plane_dollars)
            if "strip" in name:
                pay(pick[name], p.strip_thin - p.strip_more)
            if "taper" in name:
                pay(pick[name], p.taper_next, p.taper_dollars)
        pay(stud.passes, p.plane_pass)
        if stud.sister_planed is not None:
            pay(stud.sister_planed, p.plane_setup, p.plane_dollars)
        thick = self.model.yes(f"{member.name} thick") if stud.pieces else None
        thicks = []
        for layer in stud.pieces:
            for s, z, _ in layer:
                pay(z, p.strip_more, self.problem.stock[s].price)
                if thick is not None and self.problem.stock[s].thickness > Fraction(1, 4):
                    self.model.hold(0, thick - z, None)
                    thicks.append(z)
        if thick is not None:
            self.model.hold(0, total(thicks) - thick, None)
            pay(thick, p.strip_thick - p.strip_thin)
        if KNOCK in pick:
            pay(pick[KNOCK], p.knock)
        if BED in pick:
            pay(pick[BED], p.wet_bed, p.wet_bed_dollars)
        if SISTER in pick and member.sister is not None:
            pay(pick[SISTER], member.sister, p.sister_dollars)
        if REPLACE in pick and member.replace is not None:
            pay(pick[REPLACE], member.replace, member.replace_dollars)
        if stud.shim is not None:
            pay(stud.shim, p.flange_shim, p.flange_shim_dollars)


class Pay(Protocol):
    """Adds a price to what is made least."""

    def __call__(self, what: Lin | Var, minutes: Fraction, dollars: Fraction = ...) -> None: ...


def _units(inches: Fraction | None) -> Fraction | None:
    return None if inches is None else inches * UNIT
