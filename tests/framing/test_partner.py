"""Two tied groups, one priced by the other, against the same walls searched as one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from tests.depth import deep
from undertile.bench.rooms import room
from undertile.framing.bound import Group
from undertile.framing.found import Found
from undertile.framing.join import value_of
from undertile.framing.partner import Partner, Stopped
from undertile.framing.problem import Demand, FramingProblem
from undertile.framing.search import Bench, solve

F = Fraction
TIGHT = F(1, 64)
FEATURES = frozenset({"demands", "lean"})


def alcove(seed: int, most: Fraction = TIGHT) -> FramingProblem:
    """Six studs in three walls, squared to within ``most``."""
    problem = room(seed, studs=6, heights=3, features=FEATURES, layout="alcove")
    demands = tuple(replace(d, low=-most, high=most) if d.code == "square" else d for d in problem.demands)
    return replace(problem, demands=demands)


Tick = Callable[[int, int], bool]


def never(nodes: int, bound: int) -> bool:
    """Never stopped."""
    return False


def tied(problem: FramingProblem, tick: Tick = never) -> tuple[Bench, Group, Partner, list[Demand]]:
    """Left and right as one group, the back wall its partner."""
    bench = Bench.of(problem)

    def within(names: set[str]) -> list[Demand]:
        return [d for d in problem.demands if {p[0] for p in d.parts} <= names]

    group = Group(["L", "R"], [bench.frames["L"], bench.frames["R"]], within({"L", "R"}), tick)
    back = Group(["B"], [bench.frames["B"]], within({"B"}), tick)
    own = [*within({"L", "R"}), *within({"B"})]
    ties = [d for d in problem.demands if d not in own]
    group.partner = partner = Partner(group, back, ties, tick)
    return bench, group, partner, ties


def as_one(problem: FramingProblem) -> tuple[Bench, int | None]:
    """The least of all walls searched as one group."""
    bench = Bench.of(problem)
    names = [wall.name for wall in problem.walls]
    return bench, Group(names, [bench.frames[n] for n in names], problem.demands, never).run().bound


@pytest.mark.parametrize("seed", deep([0, 3, 6, 9, 12], [0, 1, 3, 5, 6, 7, 9, 10, 11, 12]))
def test_a_priced_partner_gives_the_least_of_all_walls_searched_as_one(seed: int) -> None:
    problem = alcove(seed)
    bench, whole = as_one(problem)
    _, group, partner, ties = tied(problem)
    outcome = group.run()
    assert ties
    assert outcome.bound == whole  # independent: one search over all coordinates
    answer = outcome.found
    assert answer is not None
    assert isinstance(answer.partner, Found)
    for demand in ties:  # and the planes of both meet what ties them
        value = value_of(demand, [(group, answer), (partner.other, answer.partner)])
        assert demand.low is not None
        assert demand.high is not None
        assert demand.low <= value <= demand.high
    plan = solve(problem)
    assert plan.cost == bench.money.dollars(outcome.bound or 0)


def test_the_tie_binds_in_some_of_those_rooms() -> None:
    costs = [(solve(alcove(s)).cost, solve(alcove(s, F(10))).cost) for s in (0, 1, 3, 5, 6, 7)]
    # independent: a tighter square never costs less, and here it costs more somewhere
    assert all(tight is None or (loose is not None and loose <= tight) for tight, loose in costs)
    assert any(tight is not None and loose is not None and loose < tight for tight, loose in costs)


def test_what_a_partner_costs_rises_as_its_stretch_shrinks() -> None:
    _, _, partner, _ = tied(alcove(3))
    unit = partner.unit
    wide = partner.least((-1e30, 1e30))
    free = partner.other.run().bound
    assert wide == free  # independent: a stretch that holds nothing back
    before = wide
    for n in range(5):
        there = partner.least((-unit / 8 / 2**n, unit / 8 / 2**n))
        assert there is None or (before is not None and there >= before)
        before = there if there is not None else before


def test_what_is_known_of_a_stretch_is_never_over_its_least() -> None:
    _, _, partner, _ = tied(alcove(3))
    unit = partner.unit
    assert partner.at_least((-1e30, 1e30)) == (0, False), "nothing is known yet"
    partner.least((-1e30, 1e30))
    stretches = [(at * unit / 16, (at + 1) * unit / 16) for at in range(-4, 4)]
    known = [partner.at_least(each) for each in stretches]
    searched = [partner.least(each) for each in stretches]  # independent: each searched
    assert any(not sure for _, sure in known)
    for (bound, sure), least in zip(known, searched, strict=True):
        assert least == bound if sure else least is None or (bound is not None and bound <= least)
    assert [partner.at_least(each) for each in stretches] == [(each, True) for each in searched]
    assert partner.at_least((unit * 1e6, unit * 2e6)) == (None, True), "no plane lies there"


def test_ties_over_two_quantities_are_refused() -> None:
    problem = alcove(3)
    _, group, partner, ties = tied(problem)
    other = replace(ties[0], code="another", parts=(("L", F(0), F(2), F(1)), ("B", F(0), F(2), F(1))))
    with pytest.raises(ValueError, match="another is over another quantity than"):
        Partner(group, partner.other, [ties[0], other], never)


def test_a_partner_stopped_on_the_way_stops_the_search() -> None:
    problem = alcove(3)
    _, group, partner, _ = tied(problem)
    partner.tick = lambda nodes, bound: True
    with pytest.raises(Stopped):
        group.run()
