"""What a sheet asks a job's results: the plan, its problem, the pan's view of it, what waits, what stops."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any, Literal

from undertile.cutting import CutList, Strip, cut_list
from undertile.cutting.pieces import layers
from undertile.errors import FileError
from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan, MemberPlan, Piece
from undertile.framing.planing import PLATED, SERVICE
from undertile.framing.problem import FramingProblem, WallProblem
from undertile.framing.stage import build
from undertile.framing.words import WorkStep, waiting
from undertile.job import Rebuild
from undertile.lengths import Unit
from undertile.pan.before import before_steps
from undertile.pan.built import Built, between
from undertile.pan.facts import PanFacts
from undertile.pan.fasteners import Need, packing_beside, screw_need
from undertile.pan.gaps import SHIM_OVER, gap_at
from undertile.pan.order import whole_order
from undertile.pan.set_place import off_plane
from undertile.survey.line import LineSpot, doubted_studs, line_spots
from undertile.survey.result import Frame, OffsetAt, SurveyResult, Suspect, WallOffsets

WALLS = ("B", "L", "R")
"""The order a crew walks the room in: the back wall first (common practice)."""


@dataclass(frozen=True)
class Behind:
    """A pipe or cable behind a stud's face; ``plate``: no screw there without a nail plate. [in]"""

    what: Literal["pipe", "wire"]
    height: Fraction
    left: Fraction
    plate: bool


@dataclass(frozen=True)
class PlanView:
    """A job's results as the sheets ask for them."""

    rebuild: Rebuild

    @property
    def unit(self) -> Unit:
        """What the sheets print in."""
        return self.rebuild.unit

    @property
    def own_unit(self) -> Unit:
        """The job's own, that decides where words do not."""
        unit: Unit = self.rebuild.job.unit
        return unit

    @cached_property
    def survey(self) -> SurveyResult:
        """What the survey answers; empty where it could not."""
        return self.rebuild.results.get("survey") or SurveyResult((), Frame())

    @property
    def suspects(self) -> tuple[tuple[Suspect, ...], ...]:
        """Readings in doubt."""
        return tuple(group for group in self.survey.suspects if group)

    @cached_property
    def plan(self) -> FramingPlan | None:
        """The plan where there is one with planes."""
        plan: FramingPlan | None = self.rebuild.results.get("framing")
        return plan if plan is not None and plan.planes else None

    @property
    def no_plan(self) -> FramingPlan | None:
        """The planner's answer where it has no planes; None where it could not answer at all."""
        plan: FramingPlan | None = self.rebuild.results.get("framing")
        return plan if plan is not None and not plan.planes else None

    @property
    def safe(self) -> bool:
        """Whether an amount may be printed: there is a plan and no reading is in doubt."""
        return self.plan is not None and not self.suspects

    @cached_property
    def problem(self) -> FramingProblem:
        """The framing problem the plan answers."""
        return build(self.rebuild.job.told_in(self.unit), self.rebuild.results).problem

    @cached_property
    def built(self) -> Built:
        """The plan as the pan's checks see it."""
        pan: PanFacts = self.rebuild.job.pan
        framing: FramingFacts = self.rebuild.job.framing
        return Built(pan, self.survey, framing, self.plan or FramingPlan("none"), self.unit, self.own_unit)

    @property
    def checks(self) -> tuple[Check, ...]:
        """The consequences of the planes."""
        return tuple(getattr(self.rebuild.results.get("pan"), "checks", ()))

    @property
    def fails(self) -> tuple[Check, ...]:
        """Checks that fail."""
        return tuple(check for check in self.checks if check.verdict is Verdict.FAIL)

    @property
    def steps(self) -> tuple[WorkStep, ...]:
        """The whole order of work: floor's and water's, framing's and the pan's."""
        return self.steps_with(self.rebuild.results)

    def steps_with(self, results: Mapping[str, Any], today: str = "") -> tuple[WorkStep, ...]:
        """The same with floor and water from other results: they are read anew and the walls stay planned.

        ``today``, ``2026-03-04``: a date that has gone by unread is told so; "" = there is no clock.
        """
        own = self.rebuild.results
        before = before_steps({**results, "framing": own.get("framing")}, self.rebuild.lifts, today)
        return whole_order(getattr(own.get("pan"), "steps", ()), before)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding."""
        return self.rebuild.findings

    def stops_at(self, stud: str) -> tuple[Finding, ...]:
        """What stops work at one stud (convention 5.3)."""
        return tuple(
            each
            for each in self.findings
            if each.severity is Severity.STOP and each.where.split(" ")[0] == stud
        )

    @property
    def walls(self) -> tuple[str, ...]:
        """Walls of the plan in the order a crew walks them."""
        return tuple(name for name in WALLS if self.plan and name in self.plan.planes)

    def members(self, wall: str) -> tuple[MemberPlan, ...]:
        """A wall's studs by rising ``along``."""
        members = self.plan.members if self.plan else ()
        return tuple(sorted((m for m in members if m.wall == wall), key=lambda m: m.along))

    def read(self, wall: str) -> WallOffsets:
        """A wall as surveyed."""
        return next(each for each in self.survey.walls if each.name == wall)

    def line(self, wall: str) -> tuple[LineSpot, ...]:
        """Readings by which a wall's line is hung again as it hung."""
        return line_spots(self.read(wall), doubted_studs(self.survey))

    def offsets(self, member: MemberPlan) -> tuple[OffsetAt, ...]:
        """A stud's readings, one for each height."""
        return next(s for s in self.read(member.wall).studs if s.name == member.name).offsets

    def wall_problem(self, wall: str) -> WallProblem:
        """A wall as the planner sees it."""
        return next(each for each in self.problem.walls if each.name == wall)

    def waits(self, member: MemberPlan) -> tuple[Piece, ...]:
        """Strips of a stud that go on only after the pan is set (convention 3.5)."""
        return waiting(member, self.wall_problem(member.wall), self.plan) if self.plan else ()

    @cached_property
    def cuts(self) -> CutList | None:
        """What is cut from which board; None where a length in the job cannot be used."""
        try:
            return cut_list(self.rebuild)
        except FileError:
            return None

    def strips(self, member: MemberPlan, piece: Piece) -> tuple[Strip, ...]:
        """What is cut for one strip of a stud, from the bottom up; none where its length is not known."""
        if self.cuts is None:
            return ()
        layer = dict(layers(member.recipe.pieces))[piece]
        return tuple(
            strip
            for strip in self.cuts.strips(member.name)
            if strip.stock == piece.stock and strip.layer == layer and self._covers(member, piece, strip)
        )

    def _covers(self, member: MemberPlan, piece: Piece, strip: Strip) -> bool:
        z = member.heights
        above = piece.last + 1 == len(z) or strip.low < z[piece.last + 1]
        below = piece.first == 0 or strip.high > z[piece.first - 1]
        return above and below

    def shim(self, member: MemberPlan) -> Fraction | None:
        """Thickness of the plastic shim behind the flange at a stud; None where none is set. [in]"""
        if not member.recipe.flange_shim or not self.built.beside_pan(member):
            return None
        gap = gap_at(member, self.built.flange(member.wall))
        return gap if gap > SHIM_OVER else None

    @cached_property
    def stand_off(self) -> dict[str, Fraction]:
        """How far the flange, with the pan set, still stands off studs beyond their shims, where that is over
        `SHIM_OVER`: the play on that side there, and a gap too small for a shim of the plan. [in]
        """
        found = {}
        for wall in self.walls:
            for member in self.members(wall):
                play = off_plane(self.built, wall, member.along)
                if play is None or not self.built.beside_pan(member):
                    continue
                gap = gap_at(member, self.built.flange(wall))
                left = play + max(gap - (self.shim(member) or 0), Fraction(0))
                if left > SHIM_OVER:
                    found[member.name] = left
        return found

    @cached_property
    def to_buy(self) -> frozenset[str]:
        """Studs whose board screw is not the one on the van."""
        every = (member for wall in self.walls for member in self.members(wall))
        needs = {member.name: self.screw(member) for member in every}
        return frozenset(name for name, need in needs.items() if need is not None and need.on_van is False)

    def services(self, member: MemberPlan) -> tuple[Behind, ...]:
        """Pipes and cables behind a stud's face once it is planed; a new stud is bored anew.

        A plate is asked for where code or the screw's tip asks for one; without a board's thickness the tip
        is not known, and it is.
        """
        if "replace" in member.recipe.families:
            return ()
        need, board = self.screw(member), self.rebuild.job.framing.finish.board
        depth = list(member.recipe.depth or (Fraction(0),) * len(member.heights))
        found = []
        for _, service in self.built.stud(member).services:
            height = service.height.inches
            left = service.clear.inches - max(between(member.heights, depth, height), Fraction(0))
            room = None
            if need is not None and need.screw is not None and board is not None:
                room = left - (need.screw - board.inches - packing_beside(member, height))
            near = left < SERVICE or room is None or room < PLATED
            plate = not service.plated and (near or self._plate_is_planned(member, height))
            found.append(Behind(service.what, height, left, plate))
        return tuple(found)

    def _plate_is_planned(self, member: MemberPlan, height: Fraction) -> bool:
        at = self.built.near(height)
        return any(
            step.kind == "nail plate" and step.studs == (member.name,) and step.data.get("height") == at
            for step in self.steps
        )

    def screw(self, member: MemberPlan) -> Need | None:
        """The board screw a stud takes; None where the board is not measured."""
        board = self.rebuild.job.framing.finish.board
        return None if board is None else screw_need(self.built, member, board.inches)

    def bears(self, member: MemberPlan) -> bool:
        """Whether a stud bears, or may (convention 4.5)."""
        return self.built.stud(member).bears
