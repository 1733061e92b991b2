"""One member's step function, against every treatment of the contract tried one after the other."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from tests.depth import deep
from tests.framing.everystack import least_under, member_ways
from undertile.framing.frame import WallFrame
from undertile.framing.option import FAR, PLATE, SHORE, TAPER, Option
from undertile.framing.problem import FramingProblem, Member, StockItem, WallProblem
from undertile.framing.search import Bench
from undertile.framing.tables import FixedTable, fixed_option

F = Fraction
STOCK = (
    StockItem("thin", F(1, 8), F(3, 5)),
    StockItem("thick", F(11, 32), F(9, 5)),
    StockItem("card", F(1, 16), F(1, 4), dry_only=True),
)
NAMES = {"plate": PLATE, "taper": TAPER, "shore": SHORE}


def one_stud(seed: int) -> FramingProblem:
    """One random stud alone on a wall, read at three heights."""
    rng = random.Random(seed)
    zone = (True, False, False) if seed % 3 else (True, True, False)
    member = Member(
        "B1",
        F(8),
        tuple(F(rng.randrange(-10, 11), 32) for _ in range(3)),
        tuple(F(rng.choice((0, 1, 3, 4, 4)), 16) for _ in range(3)),
        tuple(F(rng.choice((0, 4, 8)), 16) for _ in range(3)),
        stock=rng.choice(((0, 1, 2), (0, 1), ())),
        dry_stock_ok=(False, rng.random() < 0.5, True),
        taper=rng.random() < 0.6,
        wet_bed=rng.random() < 0.4,
        knock=rng.random() < 0.4,
        sister=F(22) if rng.random() < 0.6 else None,
        replace=F(65) if rng.random() < 0.6 else None,
        rip_ok=rng.random() < 0.5,
        shoring=rng.random() < 0.5,
        beside_pan=rng.random() < 0.6,
        held=rng.choice((None, None, None, None, "plane", "strip", "sister", "leave")),
        must=rng.choice((frozenset(), frozenset(), frozenset({"sister", "replace"}))),
    )
    wall = WallProblem(
        "B",
        (F(2), F(48), F(90)),
        zone,
        (member,),
        step=rng.choice((F(0), F(1, 8))),
        leans=(F(0), F(1, 1536)),
        t_low=F(-1, 2),
        t_high=F(1),
        top=F(97),
    )
    return FramingProblem((wall,), stock=STOCK)


def least_at(frame: WallFrame, mask: int, t: Fraction) -> tuple[int, Option] | None:
    """The table's least cost at exactly one T, everything it waits for listed. [units]"""
    table = frame.table(0, mask)
    hair = 1e-9 * frame.unit
    out: frozenset[int] = frozenset()
    while True:
        cost, pick = table.query(float(t) - hair, float(t) + hair, mask, out)
        if pick is None:
            if cost >= FAR:
                return None
            assert table.expand(float(t) - hair, float(t) + hair, mask)
        elif pick.low <= t <= pick.high:
            return cost, pick
        else:
            out |= {id(pick)}


@pytest.mark.parametrize("seed", range(deep(8, 20)))
def test_the_step_function_is_the_least_of_every_treatment(seed: int) -> None:
    problem = one_stud(seed)
    bench = Bench.of(problem)
    wall = problem.walls[0]
    member = wall.members[0]
    rng = random.Random(seed + 1000)
    places = [F(rng.randrange(-16, 33), 32) for _ in range(5)]  # where stacks end
    places += [F(rng.randrange(-500, 1000), 1000) for _ in range(3)]  # and between
    for frame in bench.frames["B"]:
        for t in places:
            there = t + frame.lean * frame.pivot
            every = member_ways(problem, wall, member, t, frame.lean)
            for mask in frame.masks():
                paid = frozenset(name for name, bit in NAMES.items() if mask & bit)
                found = least_at(frame, mask, there * bench.unit)
                least = least_under(every, paid)  # independent: every treatment tried in turn
                got = None if found is None else bench.money.dollars(found[0])
                assert got == least, (mask, t, frame.lean, found)


@pytest.mark.parametrize("seed", range(8))
def test_a_stretch_costs_what_its_cheapest_place_costs_or_is_waited_for(seed: int) -> None:
    problem = one_stud(seed)
    bench = Bench.of(problem)
    frame = bench.frames["B"][0]
    wall, member = problem.walls[0], problem.walls[0].members[0]
    rng = random.Random(seed)
    for _ in range(3):
        a = F(rng.randrange(-16, 30), 32)
        b = a + F(rng.randrange(1, 8), 32)
        places = [a + (b - a) * F(n, 4) for n in range(5)]
        every = [member_ways(problem, wall, member, t, frame.lean) for t in places]
        for mask in frame.masks():
            paid = frozenset(name for name, bit in NAMES.items() if mask & bit)
            low = float((a + frame.lean * frame.pivot) * bench.unit)
            high = float((b + frame.lean * frame.pivot) * bench.unit)
            bound, _ = frame.table(0, mask).query(low, high, mask)
            for found in every:
                least = least_under(found, paid)  # independent: every treatment, within the stretch
                if least is not None:
                    assert bound < FAR
                    assert bench.money.dollars(bound) <= least


def test_a_hold_that_allows_nothing_leaves_no_stack() -> None:
    problem = one_stud(1)
    wall = problem.walls[0]
    member = replace(wall.members[0], held="strip", stock=(), must=frozenset())
    bench = Bench.of(replace(problem, walls=(replace(wall, members=(member,)),)))
    frame = bench.frames["B"][0]
    for n in range(-16, 33):
        assert least_at(frame, 7, F(n, 32) * bench.unit) is None  # independent: strips held, no stock


def test_a_given_table_answers_by_cost_stretch_and_charge() -> None:
    free, cut = fixed_option(0, 10, 50, ()), fixed_option(0, 2, 50, ("cut",), PLATE)
    bought = fixed_option(7, -5, 60, ("buy",))
    table = FixedTable([bought, free, cut])
    # independent: read off the three stretches above
    assert table.query(20, 30, 0) == (0, free)
    assert table.query(3, 5, 0) == (7, bought)
    assert table.query(3, 5, PLATE) == (0, cut)
    assert table.query(3, 5, PLATE, frozenset({id(cut)})) == (7, bought)
    assert table.query(61, 70, PLATE) == (FAR, None)
