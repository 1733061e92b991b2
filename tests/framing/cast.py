"""A small cast for the framing tests: convention 8's room and studs put together by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from typing import Any

from undertile.framing.build import PanSeat
from undertile.framing.facts import FramingFacts
from undertile.framing.problem import Demand
from undertile.lengths import Length
from undertile.survey.result import Frame, OffsetAt, PlateOffset, StudOffsets, SurveyResult, WallOffsets

F = Fraction
NOMINAL = F(6)  # published: convention 8, nominal 6-0
HEIGHTS = (F(2), F(48), F(90))  # published: convention 8
STUDS = {  # published: convention 8
    "L": (F(2), F(18), F(34)),
    "B": (F(8), F(24), F(40), F(56)),
    "R": (F(2), F(18), F(34)),
}
OPENING = F(241, 4)  # published: convention 8, 60-1/4
STOCK = ("1/16", "1/8", "41/200", "7/32", "11/32", "15/32", "23/32", "3/4")  # published: convention 8
SEAT = PanSeat(F(4), F(1, 8), "stops", F(60), F(32))


def inch(value: Fraction | int | str) -> Length:
    """A length as facts hold it."""
    return Length(Fraction(value))


def survey(
    offsets: Mapping[str, Sequence[Fraction]] | None = None,
    *,
    walls: str = "LBR",
    heights: Sequence[Fraction] = HEIGHTS,
    studs: Mapping[str, Sequence[Fraction]] = STUDS,
    opening: Fraction | None = OPENING,
    top: Fraction | None = None,
    twist: Mapping[str, Fraction] | None = None,
    plates: Sequence[PlateOffset] = (),
) -> SurveyResult:
    """Studs all on nominal unless ``offsets`` says otherwise."""
    given, twisted = offsets or {}, twist or {}
    found = []
    for wall in walls:
        read = []
        for i, along in enumerate(studs[wall], start=1):
            name = f"{wall}{i}"
            values = given.get(name, (F(0),) * len(heights))
            read.append(
                StudOffsets(
                    name,
                    along,
                    tuple(
                        OffsetAt(z, v, 0.0, "read", "6-0", twist=twisted.get(name))
                        for z, v in zip(heights, values, strict=True)
                    ),
                )
            )
        mine = tuple(p for p in plates if p.name.startswith(wall))
        found.append(WallOffsets(wall, NOMINAL, tuple(heights), tuple(read), mine, top))
    return SurveyResult(tuple(found), Frame(opening))


def easy_wall(**changes: Any) -> dict[str, Any]:
    """A wall of plain wood that bears nothing, bays clear (convention 8)."""
    return {"kind": "wood", "bearing": "no", "bay": "clear"} | changes


def facts(**changes: Any) -> FramingFacts:
    """Convention 8: all wood, not bearing, bays clear, its stock without price."""
    base: dict[str, Any] = {
        "walls": {wall: easy_wall() for wall in "LBR"},
        "stock": {name: {"thickness": inch(name)} for name in STOCK},
    }
    return FramingFacts.model_validate(base | changes)


def minutes_only() -> dict[str, Decimal]:
    """Prices with every dollar at 0 (convention 8 counts minutes only)."""
    names = ("plane_dollars", "taper_dollars", "sister_dollars", "replace_dollars", "flange_shim_dollars")
    return dict.fromkeys(names, Decimal(0))


def play_demands() -> tuple[Demand, ...]:
    """Convention 8: play 1/16 to 1/8 at depths 1, 16, 32; skew over the pan and diagonals within 1/8."""
    rows = []
    for depth in (F(1), F(16), F(32)):
        rows.append(
            Demand(
                f"play-{depth}",
                (("L", depth, F(2), F(1)), ("R", depth, F(2), F(1))),
                F(241, 4) - 60 - F(1, 8),
                F(241, 4) - 60 - F(1, 16),
                f"Play {depth} from the back",
            )
        )
    for wall, over in (("L", F(32)), ("R", F(32)), ("B", F(60))):
        rows.append(
            Demand(
                f"skew-{wall}",
                ((wall, over, F(2), F(1)), (wall, F(0), F(2), F(-1))),
                F(-1, 8),
                F(1, 8),
                f"Wall {wall} over the pan",
            )
        )
    return tuple(rows)


OFFSETS = {  # published: convention 8, readings 5-13/16 and 6-1/8 against nominal 6-0
    "B2": (F(0), F(3, 16), F(0)),
    "B4": (F(0), F(-1, 8), F(0)),
}
