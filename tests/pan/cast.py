"""A small cast for the pan's tests: rooms and plans put together by hand, no planner needed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Charge, FramingPlan, MemberPlan, Plane, Recipe
from undertile.lengths import Length, Unit
from undertile.pan.built import Built
from undertile.pan.facts import PanFacts
from undertile.survey.result import Frame, OffsetAt, StudOffsets, SurveyResult, WallOffsets

F = Fraction
NONE, NOMINAL, OPENING, FLANGE = F(0), F(6), F(241, 4), F(4)
HEIGHTS = (F(2), F(48), F(90))
STUDS = {"L": (F(2), F(18), F(34)), "B": (F(8), F(24), F(40), F(56)), "R": (F(2), F(18), F(34))}
"""Convention 8: where the studs stand."""


def inch(value: Fraction | int | str) -> Length:
    """A length as facts hold it."""
    return Length(Fraction(value))


def pan_facts(**changes: object) -> PanFacts:
    """Convention 8's pan, 60 by 32 actual, flange top at 4; ``changes`` go into its ``pan`` table."""
    pan: dict[str, object] = {"width": inch(60), "depth": inch(32), "flange_height": inch(4)}
    rest = {key: changes.pop(key) for key in ("drain", "way_in") if key in changes}
    return PanFacts.model_validate({"pan": pan | changes, **rest})


def survey(
    offsets: Mapping[str, Sequence[Fraction]] | None = None,
    *,
    walls: str = "LBR",
    heights: Sequence[Fraction] = HEIGHTS,
    opening: Fraction | None = OPENING,
    growth: Fraction = NONE,
    square: Mapping[str, Fraction] | None = None,
    sigma: float = 0.0,
    opening_sigma: float = 0.0,
    nominal: Fraction = NOMINAL,
) -> SurveyResult:
    """Convention 8's studs, all on nominal unless ``offsets`` says otherwise."""
    given = offsets or {}
    found = []
    for wall in walls:
        studs = []
        for i, along in enumerate(STUDS[wall], start=1):
            values = given.get(f"{wall}{i}", (F(0),) * len(heights))
            at = tuple(OffsetAt(h, v, sigma, "read", "6-0") for h, v in zip(heights, values, strict=True))
            studs.append(StudOffsets(f"{wall}{i}", along, at))
        found.append(WallOffsets(wall, nominal, tuple(heights), tuple(studs)))
    frame = Frame(
        opening_at_back=opening if {"L", "R"} <= set(walls) else None,
        opening_growth=growth,
        opening_sigma=opening_sigma,
        out_of_square=dict(square) if square else None,
        growth_measured=True,
    )
    return SurveyResult(tuple(found), frame)


def plan(
    room: SurveyResult,
    planes: Mapping[str, Plane] | None = None,
    done: Mapping[str, tuple[Recipe, Sequence[Fraction]]] | None = None,
    *,
    flange: Fraction = FLANGE,
    charges: tuple[Charge, ...] = (),
) -> FramingPlan:
    """A plan by hand: planes (nominal where not given), and for each stud touched its recipe and amounts."""
    planes = dict(planes or {})
    members = []
    for wall in room.walls:
        plane = planes.setdefault(wall.name, Plane(wall.name, F(0), F(0), F(0)))
        low = [h for h in wall.heights if h <= flange] or [wall.heights[0]]
        for stud in wall.studs:
            recipe, amounts = (done or {}).get(stud.name, (Recipe(), (F(0),) * len(wall.heights)))
            offsets = tuple(o.value for o in stud.offsets)
            target = tuple(
                plane.at(stud.along, h) + (0 if h <= max(low) else plane.step) for h in wall.heights
            )
            finished = tuple(o + a for o, a in zip(offsets, amounts, strict=True))
            members.append(
                MemberPlan(
                    wall.name,
                    stud.name,
                    stud.along,
                    wall.heights,
                    offsets,
                    finished,
                    target,
                    recipe,
                    F(0),
                    F(0),
                )
            )
    return FramingPlan("proved", planes, tuple(members), charges)


def convention_8(unit: Unit = "in", *, square: bool = True) -> Built:
    """The room worked by hand in convention 8 with its least plan."""
    offsets = {"B2": (F(0), F(3, 16), F(0)), "B4": (F(0), F(-1, 8), F(0))}
    room = survey(offsets, square={"L": F(0), "R": F(0)} if square else None)
    ahead = {side: Plane(side, F(1, 16), F(0), F(0)) for side in "LR"}
    planed = Recipe(("plane",), passes=2, depth=(F(0), F(1, 8), F(0)))
    strip = Recipe(("strip",))
    shimmed = Recipe(flange_shim=True)
    zero = (F(0),) * 3
    done: dict[str, tuple[Recipe, Sequence[Fraction]]] = {
        "B2": (planed, (F(0), F(-1, 8), F(0))),
        "B4": (strip, (F(0), F(1, 8), F(0))),
        **{f"{side}{i}": (shimmed, zero) for side in "LR" for i in (1, 2, 3)},
    }
    return Built(pan_facts(), room, FramingFacts(), plan(room, ahead, done), unit)


def with_pan(built: Built, **changes: object) -> Built:
    """The same room with another pan."""
    return replace(built, pan=pan_facts(**changes))
