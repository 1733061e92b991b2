"""Which readings are asked for again: by hand on the bundled room."""

from __future__ import annotations

from fractions import Fraction

from tests.recheck.cast import example
from undertile.recheck.asked import asked, walking


def test_only_what_was_touched_and_its_neighbours_in_the_order_of_walking() -> None:
    """independent: by hand. B2 and R2 are planed and B4 stripped at 26 and 50; one height more either side of
    those, the neighbours at 26 and 50; the left wall is not touched, so nothing of it is asked for."""
    found = [(each.stud, each.height, each.why.startswith("next to")) for each in asked(example().plan)]
    two, middle = [2, 26, 50, 74], [26, 50]
    expected = [
        *(("B1", z, True) for z in middle),
        *(("B2", z, False) for z in two),
        *(("B3", z, True) for z in middle),
        *(("B4", z, False) for z in two),
        *(("R1", z, True) for z in middle),
        *(("R2", z, False) for z in two),
        *(("R3", z, True) for z in middle),
    ]
    assert found == [(stud, Fraction(z), beside) for stud, z, beside in expected]


def test_the_left_wall_is_walked_from_the_opening_to_the_back() -> None:
    """independent: L3 stands at the opening (convention 1.2), so it is met first."""
    room = example()
    turned = [m for m in room.plan.members if m.wall == "L"]
    order = [m.name for m in walking(turned)]
    assert order == ["L3", "L2", "L1"]


def test_before_the_work_the_whole_list_is_asked_and_nothing_is_judged() -> None:
    room = example()
    found = room.again({})
    assert found.state == "not begun"
    assert found.missing == found.asked
    assert (found.walls, found.left, found.proof) == ((), None, None)
