"""The model and the checker are two writings of one contract: what one accepts the other must."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.depth import deep
from undertile.bench import cpsat, milp
from undertile.bench.cpsat import GRID, as_whole
from undertile.bench.general import Answer
from undertile.bench.hand import hand_room
from undertile.bench.linear import Model, Row, Var
from undertile.bench.milp import WIDEN, as_plain
from undertile.bench.model import UNIT, Framing, Stud
from undertile.bench.planes import maximise_last
from undertile.bench.rooms import room
from undertile.bench.treatments import BAND
from undertile.bench.verify import Key, Priced, price
from undertile.framing.plan import Plane, Recipe
from undertile.framing.problem import FramingProblem


def assignment(framing: Framing, planes: dict[str, Plane], recipes: dict[Key, Recipe]) -> dict[int, F]:
    """Every variable of the model, as the plan has it."""
    got = price(framing.problem, planes, recipes)
    values = {v.index: F(0) for v in framing.model.variables}
    named = {v.name: v for v in framing.model.variables}

    def put(var: Var | None, value: F | int | bool) -> None:
        if var is not None:
            values[var.index] = F(value)

    for name, wall in framing.walls.items():
        plane, w = planes[name], wall.problem
        put(wall.first, (plane.offset + plane.skew * w.members[0].along) * UNIT)
        put(wall.last, (plane.offset + plane.skew * w.members[-1].along) * UNIT)
        put(wall.leans[w.leans.index(plane.lean)], 1)
        for var, what in ((wall.edge, "plate edge"), (wall.tapers, "first taper"), (wall.shoring, "shoring")):
            put(var, f"{name} {what}" in got.shared)
        for n, (term, bought) in enumerate(zip(w.terms, wall.bought, strict=True)):
            put(bought, f"{name} {n} {term.name}" in got.shared)
        for stud in wall.studs:
            put(stud.t, (plane.offset + plane.skew * stud.member.along) * UNIT)
            if recipes[name, stud.member.name].families == ("channel",):
                put(wall.channel, 1)
            else:
                _stud(
                    framing.problem, stud, recipes[name, stud.member.name], got, (name, stud.member.name), put
                )
    # what only helps: worked out from the rest
    for stud in (s for wall in framing.walls.values() for s in wall.studs):
        who = stud.member.name
        for n, layer in enumerate(stud.pieces):
            cover = [sum(values[covers[h].index] for _, _, covers in layer) for h in range(len(stud.depth))]
            for h, on in enumerate(cover):
                put(named[f"{who} layer {n} starts {h}"], on == 1 and (h == 0 or cover[h - 1] == 0))
        for h, d in enumerate(stud.depth):
            put(named.get(f"{who} not planed at {h}"), values[d.index] == 0)
        if stud.knock is not None:
            put(named[f"{who} knocked back"], values[stud.knock.index] < 0)
        put(
            named.get(f"{who} thick"),
            any(
                framing.problem.stock[s].thickness > F(1, 4) and values[z.index]
                for layer in stud.pieces
                for s, z, _ in layer
            ),
        )
    return values


def _stud(problem: FramingProblem, stud: Stud, recipe: Recipe, got: Priced, key: Key, put: object) -> None:
    assert callable(put)
    families = set(recipe.families)
    put(stud.sister_planed, families == {"plane", "sister"})
    if "sister" in families:
        families = {"sister"}
    put(next(v for name, v in stud.choice.items() if set(name) == families), 1)
    put(stud.passes, recipe.passes)
    for var, d in zip(stud.depth, recipe.depth or (F(0),) * len(stud.depth), strict=True):
        put(var, d * 32)
    order = {problem.stock[s].name: s for s in stud.member.stock}
    pieces = sorted(recipe.pieces, key=lambda piece: -order[piece.stock])
    for piece, layer in zip(pieces, stud.pieces, strict=False):
        _, chosen, covers = next(each for each in layer if each[0] == order[piece.stock])
        put(chosen, 1)
        for h in range(piece.first, piece.last + 1):
            put(covers[h], 1)
    for var, end in zip(stud.taper or (), recipe.taper or (F(0), F(0)), strict=False):
        put(var, end * 16)
    put(stud.knock, (recipe.knock or F(0)) * 16)
    for h, var in stud.bed.items():
        put(var, "wet bed" in families and stud.member.offsets[h] < got.targets[key][h] - BAND)
    put(stud.shim, key in got.shims)


def holds(row: Row, values: dict[int, F]) -> bool:
    if any(values[v.index] for v in row.unless) or not all(values[v.index] for v in row.when):
        return True
    value = sum((c * values[i] for i, c in row.terms), F(0))
    return (row.low is None or row.low <= value) and (row.high is None or value <= row.high)


@pytest.mark.parametrize("seed", range(deep(6, 8)))
def test_the_model_accepts_what_the_checker_accepts_at_the_same_cost(seed: int) -> None:
    problem = room(seed, studs=6, heights=3)
    answer: Answer = cpsat.solve(problem, time_limit=300)
    if answer.status == "none":
        assert milp.solve(problem, time_limit=300).status == "none"  # independent: the other solver
        return
    assert price(problem, answer.planes, answer.recipes).violations == []
    framing = Framing(problem)
    values = assignment(framing, answer.planes, answer.recipes)
    # independent: two writings of one contract, the checker's and the model's
    assert [row for row in framing.model.rows if not holds(row, values)] == []
    objective = framing.model.objective
    assert objective.constant + sum(c * values[i] for i, c in objective.terms.items()) == answer.cost


def test_big_m_rows_say_what_the_conditional_rows_say() -> None:
    model = Model()
    x, y = model.var("x", 0, 5), model.var("y", -3, 3)
    a, b = model.yes("a"), model.yes("b")
    model.hold(2, x + y, None, unless=(a,))
    model.hold(None, x - y * 2, 1, when=(b,))
    for row in model.rows:
        terms, low, high = as_plain(model, row)
        for value in ((i, j, k, m) for i in range(6) for j in range(-3, 4) for k in (0, 1) for m in (0, 1)):
            total = sum(c * value[i] for i, c in terms.items())
            plain = (low is None or low <= total) and (high is None or total <= high)
            # independent: every point of the box tried
            assert plain == holds(row, {i: F(v) for i, v in enumerate(value)})


def test_rows_with_a_plane_are_let_out_never_in() -> None:
    framing = Framing(hand_room())
    for row in framing.model.rows:
        continuous = any(not framing.model.variables[i].whole for i, _ in row.terms)
        _, low, high = as_plain(framing.model, row)
        if continuous and not row.unless and not row.when:
            assert row.low is None or low == row.low - WIDEN
            assert row.high is None or high == row.high + WIDEN
        whole, bottom, top = as_whole(framing.model, row, GRID)
        if not continuous:
            scale = F(whole[0][1]) / dict(row.terms)[whole[0][0]]
            # independent: a row of whole variables is only multiplied
            assert all(c == dict(row.terms)[i] * scale for i, c in whole)
            assert bottom is None or bottom == row.low * scale
            assert top is None or top == row.high * scale


def test_the_exact_simplex_answers_small_programs() -> None:
    one = F(1)
    # independent: by hand, s <= x, s <= 2 - x, s <= 5: greatest s is 1, at x = 1
    rows = [[-one, one], [one, one], [F(0), one]]
    assert maximise_last(rows, [F(0), F(2), F(5)]) == [1, 1]
    # independent: by hand, x >= 3 and x <= 2 cannot both hold
    assert maximise_last([[-one, F(0)], [one, F(0)], [F(0), one]], [F(-3), F(2), one]) is None
