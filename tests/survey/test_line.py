"""Where a wall's line hangs: three readings that hold it, none that may be wrong or has two faces."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from undertile.survey.line import LineSpot, doubted_studs, line_spots
from undertile.survey.result import (
    Frame,
    OffsetAt,
    OffsetState,
    StudOffsets,
    SurveyResult,
    Suspect,
    WallOffsets,
)

HEIGHTS = (F(2), F(48), F(90))


def wall(*studs: tuple[F, ...], state: dict[tuple[int, int], OffsetState] | None = None) -> WallOffsets:
    """Studs 16 apart with these offsets, nominal 6; ``state`` of what is not read."""
    states = state or {}
    read = tuple(
        StudOffsets(
            f"B{i}",
            F(16 * i),
            tuple(
                OffsetAt(z, value, 0.03, states.get((i, h), "read"))
                for h, (z, value) in enumerate(zip(HEIGHTS, values, strict=True))
            ),
        )
        for i, values in enumerate(studs, 1)
    )
    return WallOffsets("B", F(6), HEIGHTS, read)


FLAT = (F(0), F(0), F(0))
PROUD = (F(1, 16), F(1, 4), F(-1, 8))


def test_two_readings_far_apart_at_the_lowest_height_and_one_at_the_top() -> None:
    # independent, by hand: 6 - 1/16 at the first stud, 6 at the last, 6 + 1/8 at the first above
    assert line_spots(wall(PROUD, FLAT, FLAT)) == (
        LineSpot("B1", F(2), F(95, 16)),
        LineSpot("B3", F(2), F(6)),
        LineSpot("B1", F(90), F(49, 8)),
    )


def test_what_is_not_read_in_doubt_or_twisted_holds_no_line() -> None:
    not_low: dict[tuple[int, int], OffsetState] = {(1, 0): "not measured", (1, 2): "cannot reach"}
    spots = line_spots(wall(FLAT, FLAT, FLAT, state=not_low))
    assert [(each.stud, each.height) for each in spots] == [("B2", 2), ("B3", 2), ("B2", 90)]
    spots = line_spots(wall(FLAT, FLAT, FLAT), frozenset({"B3"}))
    assert [each.stud for each in spots] == ["B1", "B2", "B1"]
    room = wall(FLAT, FLAT, FLAT)
    twisted = StudOffsets("B1", F(16), tuple(OffsetAt(z, F(0), 0.03, "read", twist=F(1, 8)) for z in HEIGHTS))
    spots = line_spots(WallOffsets("B", F(6), HEIGHTS, (twisted, *room.studs[1:])))
    assert [each.stud for each in spots] == ["B2", "B3", "B2"]


def test_one_stud_holds_no_line_and_nothing_above_leaves_two_readings() -> None:
    assert line_spots(wall(FLAT)) == ()
    low: dict[tuple[int, int], OffsetState] = {(i, h): "not measured" for i in (1, 2) for h in (1, 2)}
    assert len(line_spots(wall(FLAT, FLAT, state=low))) == 2


def test_studs_in_doubt_are_those_named_and_those_that_would_be_read_otherwise() -> None:
    suspects = (
        (
            Suspect(
                "B4 at 36", "a whole inch", "7", "6", 0.9, "", changes=(("B4 at 36", "6"), ("B2 at 2", "6"))
            ),
        ),
        (Suspect("width back-high", "tape case", "57", "60", 0.9, ""),),
    )
    assert doubted_studs(SurveyResult((), Frame(), suspects=suspects)) == {"B4", "B2"}


@given(st.lists(st.tuples(*[st.integers(-32, 32)] * 3), min_size=2, max_size=5))
def test_the_three_readings_hold_the_line_in_place(sixteenths: list[tuple[int, int, int]]) -> None:
    room = wall(*[tuple(F(v, 16) for v in each) for each in sixteenths])
    one, two, three = line_spots(room)
    along = {stud.name: stud.along for stud in room.studs}
    # independent: a line moved by offset + skew x along + lean x z that shows the same three readings has not
    # moved, for the three places are not on one line
    x1, x2, x3 = (along[each.stud] for each in (one, two, three))
    area = (x2 - x1) * (three.height - one.height) - (x3 - x1) * (two.height - one.height)
    assert area != 0
    for each in (one, two, three):
        (read,) = [
            o.value for s in room.studs if s.name == each.stud for o in s.offsets if o.height == each.height
        ]
        assert each.reading + read == 6
