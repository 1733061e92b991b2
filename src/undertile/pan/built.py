"""The walls as the plan leaves them: planes, finished faces between readings, and what each stud is.

Everything a consequence is worked from, exact, in the room's frame of ``pan.seat``. A face between studs or
heights is taken straight between the residuals (finished face minus plane) around it and level beyond the
last one: the board that lies on it is straight too.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import sqrt

from undertile.framing.build import PAST_PAN
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan, MemberPlan, Piece, Plane
from undertile.framing.say import own_unit
from undertile.framing.stud_is import StudIs, stud_is
from undertile.framing.words import waits_for_pan
from undertile.lengths import Unit
from undertile.pan.facts import PanFacts
from undertile.pan.say import say
from undertile.pan.seat import flange_heights, inches, squareness, wall_of
from undertile.sentence import Sentence
from undertile.survey.result import OffsetAt, SurveyResult

ZERO = Fraction(0)


@dataclass(frozen=True)
class Built:
    """The plan with the facts it came from; ``unit`` is what figures are printed in, ``own`` the job's."""

    pan: PanFacts
    survey: SurveyResult
    framing: FramingFacts
    plan: FramingPlan
    unit: Unit = "in"
    own_unit: Unit | None = None

    @property
    def own(self) -> Unit:
        """The job's own unit, that decides."""
        return self.own_unit or self.unit

    def down(self, value: Fraction, *, signed: bool = False) -> str:
        """A length in the job's unit that never prints more than it is: play, margins, clearances."""
        return say(value, self.unit, "down", signed=signed)

    def up(self, value: Fraction) -> str:
        """A length that never prints less than it is: gaps, steps, needs, the pan's own size."""
        return say(value, self.unit, "up")

    def near(self, value: Fraction) -> str:
        """A place or a thickness as measured: exact where either unit shows it, else to the nearest step."""
        return say(value, own_unit(value, self.unit))

    def moved(self, value: Fraction) -> str:
        """Where a plane lies, in words; a plane into the room is never printed as less."""
        if not value:
            return Sentence("on the nominal plane")
        return (
            Sentence("{value} into the room", value=self.up(value))
            if value > 0
            else Sentence("{value} back", value=self.down(-value))
        )

    @property
    def alcove(self) -> bool:
        """Whether both side walls are there."""
        return all(wall_of(self.survey, side) for side in "LR")

    @property
    def walls(self) -> tuple[str, ...]:
        """Walls of the job in the order left, back, right."""
        return tuple(name for name in "LBR" if wall_of(self.survey, name))

    @property
    def width(self) -> Fraction | None:
        """Actual width of the pan. [in]"""
        return inches(self.pan.pan.width)

    @property
    def depth(self) -> Fraction | None:
        """Actual depth of the pan. [in]"""
        return inches(self.pan.pan.depth)

    def plane(self, wall: str) -> Plane | None:
        """The wall's plane; None when there is no plan."""
        return self.plan.planes.get(wall)

    def target(self, wall: str, along: Fraction, height: Fraction) -> Fraction | None:
        """The plane at a spot with the step of the upper zone (convention 3.6). [in]"""
        plane = self.plane(wall)
        if plane is None:
            return None
        flange = self.flange(wall)
        return plane.at(along, height) + (ZERO if flange and height <= flange[-1] else plane.step)

    def flange(self, wall: str) -> tuple[Fraction, ...]:
        """Heights of one wall read in the flange zone, rising; none where it was not read there. [in]"""
        found, top = wall_of(self.survey, wall), inches(self.pan.pan.flange_height)
        if found is None or top is None:
            return ()
        return tuple(height for height in found.heights if height <= top)

    def seat_heights(self, wall: str) -> tuple[Fraction, ...]:
        """Heights at which the pan meets the plane: those, or the lowest read in their place. [in]"""
        return flange_heights(self.survey, self.pan.pan, wall)

    def seat_top(self, wall: str) -> Fraction:
        """The highest of them. [in]"""
        return max(self.seat_heights(wall), default=ZERO)

    def members(self, wall: str) -> tuple[MemberPlan, ...]:
        """The wall's studs by rising ``along``."""
        return self._members.get(wall, ())

    @cached_property
    def _members(self) -> dict[str, tuple[MemberPlan, ...]]:
        along = sorted(self.plan.members, key=lambda member: member.along)
        return {name: tuple(m for m in along if m.wall == name) for name in {m.wall for m in along}}

    def waits(self, member: MemberPlan) -> tuple[Piece, ...]:
        """Strips of a stud that go on only after the pan is set (convention 3.5)."""
        flange = self.flange(member.wall)
        return waits_for_pan(member, self.plane(member.wall), [h in flange for h in member.heights])

    def residual(
        self, wall: str, along: Fraction, height: Fraction, *, shimmed_over: Fraction | None = None
    ) -> Fraction:
        """Finished face minus plane at a spot, straight between the studs and heights around it. [in]

        ``shimmed_over``: a stud that lies further behind than that is shimmed to the plane.
        """
        members = self.members(wall)
        if not members:
            return ZERO
        values = [
            between(m.heights, [f - g for f, g in zip(m.finished, m.target, strict=True)], height)
            for m in members
        ]
        if shimmed_over is not None:
            values = [ZERO if value < -shimmed_over else value for value in values]
        return between([m.along for m in members], values, along)

    def face(self, wall: str, along: Fraction, height: Fraction) -> Fraction | None:
        """The finished face at a spot. [in]"""
        target = self.target(wall, along, height)
        return None if target is None else target + self.residual(wall, along, height)

    def opening(self, depth: Fraction) -> Fraction | None:
        """Distance between the nominal planes of L and R; None when not measured. [in]"""
        return self.survey.frame.opening(depth) if self.alcove else None

    def reading(self, wall: str, along: Fraction, height: Fraction) -> OffsetAt | None:
        """The survey's offset nearest a spot."""
        found = wall_of(self.survey, wall)
        if found is None or not found.studs:
            return None
        stud = min(found.studs, key=lambda s: abs(s.along - along))
        return min(stud.offsets, key=lambda o: abs(o.height - height), default=None)

    def sigma(self, *spots: tuple[str, Fraction, Fraction], opening: Fraction | None = None) -> float:
        """Standard uncertainty of a sum of faces, with that of the opening at a depth when it is part of it.

        The readings nearest the spots, taken as independent of the opening: never too small. [in]
        """
        squares = [] if opening is None else [self.survey.frame.sigma_at(opening) ** 2]
        for spot in spots:
            offset = self.reading(*spot)
            squares.append(offset.sigma**2 if offset else 0.0)
        return sqrt(sum(squares))

    def turn(self, wall: str) -> Fraction:
        """Turn of the wall's plane from the back line: its line and its skew; for B its skew. [in/in]"""
        plane = self.plane(wall)
        line = squareness(self.survey).turn.get(wall, ZERO)
        return line + (ZERO if plane is None else plane.skew)

    def stud(self, member: MemberPlan) -> StudIs:
        """What a stud is, its wall's answers filled in; unknown is the cautious case (convention 4.5)."""
        work = next((work for wall, work in self.framing.walls.items() if wall == member.wall), None)
        return stud_is(member.name, self.framing.studs.get(member.name), work)

    def beside_pan(self, member: MemberPlan) -> bool:
        """Whether the flange is fastened to a stud, as the planner counts it (convention 3.4, 8)."""
        if self.pan.pan.flange_height is None:
            return False
        if member.wall == "B":
            return self.width is not None and 0 <= member.along <= self.width
        return self.depth is not None and member.along <= self.depth + PAST_PAN


def between(at: list[Fraction] | tuple[Fraction, ...], values: list[Fraction], spot: Fraction) -> Fraction:
    """A value straight between those around ``spot``; the end value beyond the ends. [in]"""
    if spot <= at[0]:
        return values[0]
    for (low, before), (high, after) in zip(
        zip(at, values, strict=True), zip(at[1:], values[1:], strict=True), strict=False
    ):
        if spot <= high:
            return before + (after - before) * (spot - low) / (high - low)
    return values[-1]
