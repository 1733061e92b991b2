"""Exact planes for decisions that are already made, or the certainty that there are none.

A solver in floating point says what to do to each member and who pays for what. With those fixed, what is
left is linear in each wall's offset and skew: ``find_planes`` answers it in ``Fraction`` by the simplex
method on the dual (a handful of variables, Bland's rule), so that no tolerance of a solver passes for a plan.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from undertile.bench.straightedge import Row, broken_rows, lines_of
from undertile.bench.treatments import (
    BAND,
    BED_MOST,
    CHANNEL,
    REPLACE,
    SHIM_OVER,
    SISTER,
    SISTER_REACH,
    ZERO,
    added_by,
)
from undertile.bench.verify import Key, target
from undertile.framing.plan import Plane, Recipe
from undertile.framing.problem import FramingProblem, Member, WallProblem

ROUNDS = 40


@dataclass
class Decisions:
    """What a solver chose, planes aside.

    Attributes
    ----------
    leans : dict of Fraction, by wall
    recipes : dict of Recipe, by (wall, member)
    bedded : dict of frozenset of int, by (wall, member)
        Heights with a bed.
    shims : set of (wall, member)
        Who may have a flange shim.
    edges : set of str
        Walls where the plate edge is paid.
    bought : set of (wall, int)
        Step terms that are paid for.
    """

    leans: dict[str, Fraction] = field(default_factory=dict)
    recipes: dict[Key, Recipe] = field(default_factory=dict)
    bedded: dict[Key, frozenset[int]] = field(default_factory=dict)
    shims: set[Key] = field(default_factory=set)
    edges: set[str] = field(default_factory=set)
    bought: set[tuple[str, int]] = field(default_factory=set)


class Rows:
    """Rows ``a x <= b`` over the planes, the tightest kept; ``strict`` ones must hold with room to spare."""

    def __init__(self, names: list[str]) -> None:
        self.column = {name: 2 * n for n, name in enumerate(names)}
        self.rows: dict[tuple[Fraction, ...], tuple[Fraction, bool]] = {}
        self.broken = False

    def below(
        self, parts: list[tuple[str, Fraction, Fraction]], most: Fraction | None, *, strict: bool = False
    ) -> None:
        """``sum of c (offset + skew along) <= most`` over (wall, along, c)."""
        if most is None:
            return
        row = [ZERO] * (2 * len(self.column))
        for wall, along, c in parts:
            row[self.column[wall]] += c
            row[self.column[wall] + 1] += c * along
        if not any(row):
            self.broken = self.broken or most < 0 or (strict and most == 0)
            return
        size = max(abs(c) for c in row)
        key, value = tuple(c / size for c in row), (most / size, not strict)
        self.rows[key] = min(self.rows.get(key, value), value)

    def within(
        self, parts: list[tuple[str, Fraction, Fraction]], low: Fraction | None, high: Fraction | None
    ) -> None:
        """``low <= sum <= high``, ``None`` = no bound."""
        self.below(parts, high)
        self.below([(w, a, -c) for w, a, c in parts], None if low is None else -low)

    def solve(self) -> list[Fraction] | None:
        """A point that meets every row, strict ones with room; ``None`` if there is none."""
        if self.broken:
            return None
        width = 2 * len(self.column)
        table = [[*key, ZERO if closed else Fraction(1)] for key, (_, closed) in self.rows.items()]
        limits = [most for most, _ in self.rows.values()]
        table.append([ZERO] * width + [Fraction(1)])
        limits.append(Fraction(1))
        point = maximise_last(table, limits)
        return None if point is None or point[-1] <= 0 else point


def maximise_last(rows: list[list[Fraction]], limits: list[Fraction]) -> list[Fraction] | None:
    """The x that makes its last entry greatest under ``rows x <= limits``; the last row bounds that entry.

    Simplex on the dual: least ``limits y`` under ``rows^T y = (0, .., 0, 1)``, y >= 0, with Bland's rule. The
    multipliers of the equations are x. ``None`` when no x meets the rows (the dual falls without end).
    """
    n, m = len(rows[0]), len(rows)
    # n equations; columns: m of y, then n unit columns that carry the inverse of the basis
    eqs = [[rows[j][i] for j in range(m)] + [Fraction(int(k == i)) for k in range(n)] for i in range(n)]
    right = [ZERO] * (n - 1) + [Fraction(1)]
    basis = [m + i for i in range(n)]
    costs = [*limits, *([ZERO] * n)]

    def pivot(r: int, c: int) -> None:
        inverse = 1 / eqs[r][c]
        eqs[r] = [v * inverse if v else v for v in eqs[r]]
        right[r] *= inverse
        for i in range(n):
            factor = eqs[i][c]
            if i != r and factor:
                eqs[i] = [a - factor * b if b else a for a, b in zip(eqs[i], eqs[r], strict=True)]
                right[i] -= factor * right[r]
        basis[r] = c

    pivot(n - 1, m - 1)
    for r in range(n - 1):  # the unit columns stand at 0: trade each for a real one where it can be
        c = next((j for j in range(m) if eqs[r][j]), None)
        if c is not None:
            pivot(r, c)
    while True:
        prices = [costs[b] for b in basis]
        entering = None
        for j in range(m):
            if j not in basis and costs[j] < sum(
                (p * eqs[i][j] for i, p in enumerate(prices) if p and eqs[i][j]), ZERO
            ):
                entering = j
                break
        if entering is None:
            return [sum((p * eqs[i][m + k] for i, p in enumerate(prices) if p), ZERO) for k in range(n)]
        ratios = [
            (right[i] / eqs[i][entering], basis[i], i)
            for i in range(n)
            if eqs[i][entering] > 0 and basis[i] < m
        ]
        # a unit column left in the basis stands at 0 in a row without any real column: nothing to pivot
        if not ratios:
            return None
        pivot(min(ratios)[2], entering)


def find_planes(
    problem: FramingProblem, made: Decisions
) -> tuple[dict[str, Plane] | None, dict[str, list[Row]]]:
    """Planes that fit the decisions exactly, straightedge rules included.

    Returns
    -------
    planes : dict of Plane or None
    rows : dict of list of Row, by wall
        Straightedge rows that were met on the way and that a model should know.
    """
    rows = Rows([wall.name for wall in problem.walls])
    fixed: dict[str, dict[tuple[int, int], Fraction | None]] = {}
    for wall in problem.walls:
        fixed[wall.name] = _wall_rows(problem, wall, made, rows)
    for demand in problem.demands:
        shift = sum((c * made.leans[w] * z for w, _, z, c in demand.parts), ZERO)
        parts = [(w, a, c) for w, a, _, c in demand.parts]
        rows.within(
            parts,
            None if demand.low is None else demand.low - shift,
            None if demand.high is None else demand.high - shift,
        )
    seen: dict[str, list[Row]] = {wall.name: [] for wall in problem.walls}
    lines = {wall.name: lines_of(wall) for wall in problem.walls} if problem.flatness else {}
    for _ in range(ROUNDS):
        point = rows.solve()
        if point is None:
            return None, seen
        planes = {
            wall.name: Plane(
                wall.name,
                point[rows.column[wall.name]],
                point[rows.column[wall.name] + 1],
                made.leans[wall.name],
                wall.step,
            )
            for wall in problem.walls
        }
        clear = True
        for wall in problem.walls if problem.flatness else ():
            rest = {}
            for (i, h), face in fixed[wall.name].items():
                g = target(wall, planes[wall.name], wall.members[i].along, wall.heights[h], wall.flange[h])
                rest[i, h] = ZERO if face is None else face - g
            back = {
                i: ZERO if fixed[wall.name][i, 0] is None else member.goes_back
                for i, member in enumerate(wall.members)
            }
            for row in broken_rows(lines[wall.name], rest, problem.flatness, back):
                clear = False
                seen[wall.name].append(row)
                _flat_row(wall, made.leans[wall.name], fixed[wall.name], row, rows)
        if clear:
            return planes, seen
    return None, seen


def _flat_row(
    wall: WallProblem,
    lean: Fraction,
    fixed: dict[tuple[int, int], Fraction | None],
    row: Row,
    rows: Rows,
) -> None:
    """``sum of c (face - g) <= gap`` over the faces that do not follow the plane."""
    parts, most = [], row.gap
    for (i, h), c in row.coefficients:
        face = fixed[i, h]
        if face is not None:
            a, z = wall.members[i].along, wall.heights[h]
            parts.append((wall.name, a, -c))
            most += c * (lean * z + (ZERO if wall.flange[h] else wall.step) - face)
    if row.dries is not None:  # [contract 12]
        (i, h), weight = row.dries
        most -= ZERO if fixed[i, h] is None else weight * wall.members[i].goes_back
    rows.below(parts, most)


def _wall_rows(
    problem: FramingProblem, wall: WallProblem, made: Decisions, rows: Rows
) -> dict[tuple[int, int], Fraction | None]:
    """Rows of one wall; its fixed faces, ``None`` where the face follows the plane."""
    name, lean = wall.name, made.leans[wall.name]
    one = Fraction(1)
    faces: dict[tuple[int, int], Fraction | None] = {}
    channelled = False
    for i, member in enumerate(wall.members):
        key = (name, member.name)
        recipe = made.recipes[key]
        spot = [(name, member.along, one)]
        rows.within(spot, wall.t_low, wall.t_high)
        added = _added(problem, wall, member, recipe)
        depth = recipe.depth or (ZERO,) * len(wall.heights)
        families = set(recipe.families)
        for h, z in enumerate(wall.heights):
            ahead = lean * z + (ZERO if wall.flange[h] else wall.step)  # g = t + ahead
            o = member.offsets[h]
            face = o + added[h] - depth[h]
            if families & {SISTER, REPLACE, CHANNEL}:
                faces[i, h] = None
                if SISTER in families:
                    rows.within(spot, o - depth[h] - ahead, o + SISTER_REACH - ahead)
                if CHANNEL in families and wall.channel is not None:
                    channelled = True
                    least = o + wall.channel.height - ahead
                    rows.within(spot, least, least + wall.channel.packing)
            elif h in made.bedded.get(key, ()):
                faces[i, h] = None
                rows.below(spot, o + BED_MOST - ahead)
                rows.below([(name, member.along, -one)], ahead - o - BAND, strict=True)
            else:
                faces[i, h] = face
                shim = member.beside_pan and wall.flange[h] and key not in made.shims
                rows.within(
                    spot,
                    face - (ZERO if wall.flange[h] else BAND) - ahead,
                    face + (SHIM_OVER if shim else BAND) - member.goes_back - ahead,
                )
    if not channelled:
        for plate in wall.plates:
            cut = plate.cut if name in made.edges else ZERO
            allowed = (ZERO if plate.flange else BAND) + cut
            ahead = lean * plate.height + (ZERO if plate.flange else wall.step)
            rows.within([(name, plate.along, one)], plate.offset - allowed - ahead, None)
    zone = [z for z, flange in zip(wall.heights, wall.flange, strict=True) if flange]
    for n, term in enumerate(wall.terms):
        paid = (name, n) in made.bought
        low, high = (term.hard_low, term.hard_high) if paid else (term.low, term.high)
        low_down = bool(zone) and term.height <= max(zone)
        ahead = lean * term.height + (ZERO if low_down else wall.step)
        rows.within(
            [(name, term.along, one)],
            None if low is None else low - ahead,
            None if high is None else high - ahead,
        )
    return faces


def _added(problem: FramingProblem, wall: WallProblem, member: Member, recipe: Recipe) -> list[Fraction]:
    stock = {(problem.stock[s].name, problem.stock[s].thickness): problem.stock[s] for s in member.stock}
    return added_by(wall, member, recipe, stock, [])
