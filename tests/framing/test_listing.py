"""What is kept of one search for the next: keyed by all it depends on, bounded; no answer depends on it."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import fields, replace
from fractions import Fraction
from typing import Any

import pytest

from tests.depth import deep
from tests.framing.smallwall import small_wall
from undertile.bench.rooms import room
from undertile.framing.listing import KEPT, aside, forget_listings, how_kept
from undertile.framing.moves import Planner
from undertile.framing.problem import FramingProblem, Member, Prices
from undertile.framing.runnerups import runner_ups
from undertile.framing.search import Bench, solve
from undertile.framing.tables import Table

F = Fraction


@pytest.fixture(autouse=True)
def nothing_kept() -> Iterator[None]:
    forget_listings()
    yield
    forget_listings()


def tables(problem: FramingProblem) -> list[Table]:
    """Every stud's table at every lean."""
    found = []
    for frames in Bench.of(problem).frames.values():
        for frame in frames:
            made = [frame.table(i, 0) for i in range(len(frame.shapes))]
            found += [table for table in made if isinstance(table, Table)]
    return found


def listed(problem: FramingProblem) -> list[Any]:
    """What every table holds, and what it goes on to list at two places."""
    out: list[Any] = []
    for table in tables(problem):
        out.append((table.entries, table.listing.least))
        for t in (table.origin + table.cell // 2, (table.origin + table.end) // 2):
            for _ in range(3):
                out.append(table.query(t, t, 0))
                table.expand(t, t, 0)
    return out


def small(**changes: object) -> FramingProblem:
    """A small wall with its first stud changed."""
    problem = small_wall(0)
    wall = problem.walls[0]
    first: Member = replace(wall.members[0], **changes)  # type: ignore[arg-type]
    return replace(problem, walls=(replace(wall, members=(first, *wall.members[1:])), *problem.walls[1:]))


def changed_member(name: str, was: Any) -> Any:
    """Another value for one fact of a stud."""
    if isinstance(was, bool):
        return not was
    if isinstance(was, Fraction):
        return was + F(1, 32)
    if isinstance(was, frozenset):
        return frozenset({"sister"})
    if was is None:
        return "plane" if name == "held" else F(33)
    if isinstance(was, tuple) and name == "stock":
        return was[1:]
    if isinstance(was, tuple) and name == "dry_stock_ok":
        return tuple(not each for each in was) or (False, True, True)
    return tuple(each + F(1, 32) for each in was)


SAID_ONLY = {"name", "along", "why"}
"""Independent: what a stud is called, where it stands and why are no part of what lies on it (contract 5)."""


@pytest.mark.parametrize("name", sorted({each.name for each in fields(Member)} - SAID_ONLY))
def test_another_fact_of_a_stud_is_another_listing(name: str) -> None:
    problem = small()
    first = tables(problem)[0].listing
    assert tables(problem)[0].listing is first  # the same facts: kept
    was = getattr(problem.walls[0].members[0], name)
    other = small(**{name: changed_member(name, was)})
    listed(problem)
    assert tables(other)[0].listing is not first
    warm = listed(other)
    forget_listings()
    assert warm == listed(other)


def test_a_stud_of_another_name_elsewhere_has_the_same_listing() -> None:
    first = tables(small())[0].listing
    moved = small(name="Z9", along=small().walls[0].members[0].along + F(1, 2), why={"plane": ("a", "b")})
    assert tables(moved)[0].listing is first


def other_rooms() -> dict[str, FramingProblem]:
    """A small wall with one fact of the room changed."""
    problem = small()
    wall = problem.walls[0]
    rooms = {
        f"price {each.name}": replace(
            problem, prices=replace(problem.prices, **{each.name: getattr(problem.prices, each.name) * 2})
        )
        for each in fields(Prices)
    }
    item = problem.stock[0]
    for name, other in {
        "thickness": replace(item, thickness=item.thickness / 2),
        "price": replace(item, price=item.price + 1),
        "dry_only": replace(item, dry_only=True),
    }.items():
        rooms[f"stock {name}"] = replace(problem, stock=(other, *problem.stock[1:]))
    rooms["flatness"] = replace(problem, flatness=((F(24), F(1, 16)), (F(60), F(1, 32))))
    for name, fact in {
        "heights": tuple(z + F(i) for i, z in enumerate(wall.heights)),
        "flange": (*wall.flange[:-1], not wall.flange[-1]),
        "step": wall.step + F(1, 16),
        "t_low": wall.t_low - F(1, 16),
        "t_high": wall.t_high + F(1, 16),
        "top": F(99),
    }.items():
        rooms[f"wall {name}"] = replace(problem, walls=(replace(wall, **{name: fact}),))  # type: ignore[arg-type]
    rooms["unit"] = small(goes_back=F(1, 7 * 32))
    rooms["one stud more"] = replace(
        problem,
        walls=(replace(wall, members=(*wall.members, replace(wall.members[-1], name="B9", along=F(99)))),),
    )
    return rooms


@pytest.mark.parametrize("what", sorted(other_rooms()))
def test_another_fact_of_the_room_is_another_listing(what: str) -> None:
    problem, other = small(), other_rooms()[what]
    first = {id(table.listing) for table in tables(problem)}
    listed(problem)
    assert not first & {id(table.listing) for table in tables(other)}
    warm = listed(other)
    forget_listings()
    assert warm == listed(other)


def test_what_is_kept_is_bounded_and_what_was_asked_for_last_stays() -> None:
    last = tables(small())
    for n in range(KEPT):
        last = tables(small(goes_back=F(n, 3200)))[:1]
        assert how_kept()[2] <= KEPT
    assert how_kept()[2] == KEPT
    before = how_kept()[0]
    assert tables(small(goes_back=F(KEPT - 1, 3200)))[0].listing is last[0].listing
    assert how_kept()[0] > before


def test_what_is_listed_aside_is_the_same_and_pushes_nothing_out() -> None:
    problem = small()
    kept = listed(problem)
    first = tables(problem)[0].listing
    with aside():
        for n in range(KEPT + 1):
            tables(small(goes_back=F(n, 3200)))
        assert listed(problem) == kept
    assert tables(problem)[0].listing is first


def test_the_plans_that_lose_leave_the_next_plan_what_it_begins_from() -> None:
    """Ours, no source: of this room's losers 150 listings are their own, and none of them is kept."""
    problem = room(3, studs=10, heights=4, layout="alcove")
    plan = solve(problem)
    made = how_kept()[1]
    assert made == 50  # pinned: ten studs, five leans
    lost = runner_ups(Planner(problem), plan, time_limit_s=600, most=99)
    assert sum(each.what.startswith("no ") for each in lost) >= 3
    assert solve(problem) == plan
    assert how_kept()[1] == made


def reread(problem: FramingProblem, rng: random.Random) -> FramingProblem:
    """The same room, one stud read otherwise at one height."""
    wall = rng.choice(problem.walls)
    m = rng.randrange(len(wall.members))
    member = wall.members[m]
    offsets = list(member.offsets)
    offsets[rng.randrange(len(offsets))] += F(rng.choice((-4, -2, -1, 1, 2, 4)), 32)
    members = (*wall.members[:m], replace(member, offsets=tuple(offsets)), *wall.members[m + 1 :])
    walls = tuple(replace(each, members=members) if each is wall else each for each in problem.walls)
    return replace(problem, walls=walls)


@pytest.mark.parametrize("seed", deep((0, 2), range(12)))
def test_a_plan_after_a_changed_reading_is_the_plan_of_a_search_that_starts_from_nothing(seed: int) -> None:
    """Independent: each asked again with nothing kept."""
    rng = random.Random(seed)
    problem = room(seed, studs=4, heights=3)
    asked = [problem]
    for _ in range(6):
        problem = reread(problem, rng)
        asked.append(problem)
    warm = []
    for each in asked:
        plan = solve(each)
        warm.append((plan, runner_ups(Planner(each), plan, time_limit_s=600, most=99)))
    costs = [plan.cost for plan, _ in warm if plan.cost is not None]
    assert len(set(costs)) > 1
    for each, (plan, lost) in zip(asked, warm, strict=True):
        forget_listings()
        assert solve(each) == plan
        assert runner_ups(Planner(each), plan, time_limit_s=600, most=99) == lost


def variants(seed: int) -> list[FramingProblem]:
    """A room, and the same with one reading changed, or with one wall's readings level."""
    problem = room(seed, studs=4 + seed % 2, heights=3)
    out = [problem]
    for k, wall in enumerate(problem.walls):
        first = wall.members[0]
        lower = replace(first, offsets=(first.offsets[0] - F(1, 16), *first.offsets[1:]))
        level = tuple(replace(m, offsets=(F(0),) * len(m.offsets)) for m in wall.members)  # many ties
        for members in ((lower, *wall.members[1:]), level):
            walls = (*problem.walls[:k], replace(wall, members=members), *problem.walls[k + 1 :])
            out.append(replace(problem, walls=walls))
    return out


@pytest.mark.parametrize("seed", range(4))
def test_no_answer_depends_on_what_was_asked_before(seed: int) -> None:
    rooms = variants(seed)
    cold = []
    for problem in rooms:
        forget_listings()
        cold.append(solve(problem))
    rng = random.Random(seed)
    for _ in range(3):
        forget_listings()
        order = [*range(len(rooms)), *range(len(rooms))]
        rng.shuffle(order)
        for n in order:
            assert solve(rooms[n]) == cold[n]  # planes, stacks, cost, bound and nodes


@pytest.mark.parametrize("seed", range(3))
def test_a_search_given_up_leaves_no_trace(seed: int) -> None:
    problem = room(seed, studs=6, heights=4)
    cold = solve(problem)
    for after in (0.5, 3, 8):
        forget_listings()
        ticks = iter(range(10**9))
        solve(problem, time_limit_s=after, clock=lambda ticks=ticks: float(next(ticks)))  # type: ignore[misc]
        assert solve(problem) == cold
