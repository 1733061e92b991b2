"""Groups searched apart, put together on planes a person can mark."""

from __future__ import annotations

from fractions import Fraction

import pytest

from undertile.bench.hand import hand_room
from undertile.bench.rooms import PURE, room
from undertile.framing.bound import Group
from undertile.framing.found import Found
from undertile.framing.join import join, markable, meets_all
from undertile.framing.problem import Demand, FramingProblem
from undertile.framing.search import Bench

F = Fraction


def apart(problem: FramingProblem) -> list[tuple[Group, Found]]:
    """Left and right searched as one, the back wall alone."""
    bench = Bench.of(problem)
    out = []
    for names in ({"L", "R"}, {"B"}):
        inner = [d for d in problem.demands if {p[0] for p in d.parts} <= names]
        walls = [w.name for w in problem.walls if w.name in names]
        group = Group(walls, [bench.frames[n] for n in walls], inner, lambda nodes, bound: False)
        found = group.run().found
        assert found is not None
        out.append((group, found))
    return out


def holds(group: Group, found: Found) -> bool:
    """Whether the stacks and the group's demands hold at the planes, row by row."""
    return all(
        sum((c * x for c, x in zip(a, found.point, strict=True)), F(0)) <= b
        for a, b in group.rows_of(found.leans, found.picks)
    )


@pytest.mark.parametrize("seed", range(8))
def test_markable_planes_keep_the_stacks_and_every_row_of_them(seed: int) -> None:
    for group, found in apart(room(seed, studs=6, heights=3, features=PURE, layout="alcove")):
        again = markable(group, found)
        assert (again.cost, again.picks, again.leans) == (found.cost, found.picks, found.leans)
        assert holds(group, again)  # independent: every exact row looked at


def test_the_planes_of_the_hand_room_can_be_marked() -> None:
    for group, found in apart(hand_room()):
        again = markable(group, found)
        # published: convention 8: the side planes 1/16 forward, the back plane at 0
        expected = F(0) if group.names == ["B"] else F(1, 16)
        assert [x / group.unit for x in again.point] == [expected] * len(again.point)


def test_a_demand_between_the_groups_moves_their_planes_or_is_named() -> None:
    runs = apart(hand_room())
    spot = F(2)

    def between(low: Fraction, high: Fraction) -> Demand:
        return Demand("tie", (("L", F(2), spot, F(1)), ("B", F(8), spot, F(1))), low, high, "both", lazy=True)

    # published: convention 8: the side planes stand 1/16 forward, the back plane at 0
    within = between(F(1, 16), F(1, 16))
    joined = join(runs, [within])
    assert not isinstance(joined, Demand)
    assert meets_all(joined, [within])
    assert [f.cost for _, f in joined] == [f.cost for _, f in runs]
    # independent: neither plane can come an inch into the room with the stacks that were found
    far = between(F(1), F(2))
    assert join(runs, [far]) is far
