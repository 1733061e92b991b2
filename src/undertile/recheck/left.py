"""What is left to do, planned again from the faces as they are at least cost (docs/methods/recheck.md)."""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Literal

from undertile.findings import Finding, Severity
from undertile.framing.conflict import conflict_findings, explain
from undertile.framing.flatness import WallFlatness
from undertile.framing.plan import Charge, Conflict, FramingPlan, MemberPlan, Plane
from undertile.framing.problem import FramingProblem, Member
from undertile.framing.reasons import with_reasons
from undertile.framing.search import solve
from undertile.framing.stage import EXPLAIN_LIMIT_S, TIME_LIMIT_S, build
from undertile.lengths import Unit
from undertile.pan import STAGE as PAN
from undertile.recheck.band import limits, margin
from undertile.recheck.did import ticks_of
from undertile.recheck.faces import WallFaces
from undertile.recheck.opening import frame_now
from undertile.recheck.say import spots
from undertile.recheck.sunk import (
    STRIPS_OFF,
    Now,
    bought,
    facts_now,
    past_limits,
    problem_now,
    studs_now,
    survey_now,
    too_many_layers,
)
from undertile.sentence import Sentence, form
from undertile.stage import units
from undertile.survey.result import Frame, SurveyResult

ZERO = Fraction(0)
EARLIER = form(
    "{spots}: not read again, taken as first surveyed, though the stud was ticked for another plan: "
    "read it before anything is done there"
)
MOST_TRIES = 10
"""Choices of studs whose strips come off that are planned, each in well under a second as a rule."""


@dataclass(frozen=True)
class Left:
    """What is left to do.

    Attributes
    ----------
    state : str
        ``nothing`` (every face is right on its plane), ``nothing, planes moved`` (right on other planes that
        hold as well), ``proved``, ``open`` (a time limit was hit), ``none`` (cannot be brought right).
    members : tuple of MemberPlan
        Studs that are worked on again, amounts from the face as it is now.
    bare : tuple of str
        Studs whose strips come off first: their amounts count from the bare face.
    shims : tuple of str
        Studs whose flange shim goes in with the pan: part of setting it, not of the truing.
    charges : tuple of Charge
        Paid once a wall: plate edge, shoring, strips that come off, verifying the walls touched again.
    planes : dict of wall to Plane
    moved : tuple of str
        Walls whose plane is another than the one judged against.
    minutes, dollars, cost : Fraction
        Of the work left and its verifying, without the shims.
    shim_cost : Fraction
        Of the flange shims. [dollars]
    verify_minutes : Fraction
        In ``minutes``, for verifying.
    bound_gap : Fraction
        How far it may be from the least; 0 when proved. [dollars]
    taken : tuple of str
        What was not read again and is taken as planned, or as it was.
    conflict : Conflict or None
    findings : tuple of Finding
    """

    state: Literal["nothing", "nothing, planes moved", "proved", "open", "none"]
    members: tuple[MemberPlan, ...] = ()
    bare: tuple[str, ...] = ()
    shims: tuple[str, ...] = ()
    charges: tuple[Charge, ...] = ()
    planes: dict[str, Plane] | None = None
    moved: tuple[str, ...] = ()
    minutes: Fraction = ZERO
    dollars: Fraction = ZERO
    cost: Fraction = ZERO
    shim_cost: Fraction = ZERO
    verify_minutes: Fraction = ZERO
    bound_gap: Fraction = ZERO
    taken: tuple[str, ...] = ()
    conflict: Conflict | None = None
    findings: tuple[Finding, ...] = ()


def what_is_left(
    facts: Mapping[str, Any],
    results: Mapping[str, Any],
    walls: Sequence[WallFaces],
    doubted: Container[tuple[str, Fraction]],
    play_right: bool,
) -> Left:
    """Plan what is left, as typed.

    Parameters
    ----------
    facts, results : mapping
        As a stage gets them.
    walls : sequence of WallFaces
    doubted : container of (stud, height)
        Readings in doubt.
    play_right : bool
        No play fails on the planes judged against.
    """
    unit, own_unit = units(facts)
    survey: SurveyResult = results["survey"]
    plan: FramingPlan = results["framing"]
    now = studs_now(walls, plan, ticks_of(facts["recheck"].done, plan, own_unit))
    taken = _taken(now, unit)
    first = build(facts, results).problem
    findings = past_limits(first, now, doubted, unit, own_unit)
    frame = frame_now(survey, facts["recheck"], facts["pan"], walls, facts["survey"].sigma)
    if play_right and _all_right(walls, now, first):
        shims = tuple(m.name for m in plan.members if m.recipe.flange_shim)
        cost = sum((_shim_cost(first) for _ in shims), ZERO)
        planes = {wall.name: wall.plane for wall in walls}
        return Left("nothing", shims=shims, planes=planes, shim_cost=cost, taken=taken, findings=findings)
    paid = bought(plan, now)
    facts = {**facts, "framing": facts_now(facts["framing"], now)}
    results = {**results, "demands": _demands_now(facts, results, frame)}
    ask = _Ask(facts, results, replace(survey, frame=frame), now, paid, unit)
    best = _least(ask, _proud_on_strips(walls, now))
    sunk = {(w.name, t.remedy or t.name) for w in first.walls for t in w.terms} & paid
    taken += tuple(
        Sentence("wall {wall}, {what}: taken as done, as the work on that wall is", wall=wall, what=what)
        for wall, what in sorted(sunk)
    )
    return _left(best, walls, taken, findings, unit, own_unit)


def _demands_now(facts: Mapping[str, Any], results: Mapping[str, Any], frame: Frame) -> tuple[Any, ...]:
    """What is asked of the planes, the pan's part of it with the opening as measured again."""
    asked: tuple[Any, ...] = tuple(results.get("demands") or ())
    survey: SurveyResult = results["survey"]
    if frame == survey.frame or PAN.demands is None:
        return asked
    before = PAN.demands(facts, results)
    rest = tuple(each for each in asked if each not in before)
    return (*rest, *PAN.demands(facts, {**results, "survey": replace(survey, frame=frame)}))


@dataclass(frozen=True)
class _Solved:
    """``verify``: minutes to verify a wall once more, which the problem's own price leaves out."""

    problem: FramingProblem
    plan: FramingPlan
    bare: frozenset[str]
    verify: Fraction

    @property
    def total(self) -> Fraction:
        """With taking the strips off. [dollars]"""
        prices = self.problem.prices
        return (self.plan.cost or ZERO) + len(self.bare) * STRIPS_OFF * prices.factor * prices.rate / 60


@dataclass(frozen=True)
class _Ask:
    """What the planner is asked, with some studs' strips taken off first."""

    facts: Mapping[str, Any]
    results: Mapping[str, Any]
    survey: SurveyResult
    now: tuple[Now, ...]
    paid: frozenset[tuple[str, str]]
    unit: Unit

    def solved(self, bare: frozenset[str]) -> _Solved:
        built = build(self.facts, {**self.results, "survey": survey_now(self.survey, self.now, bare)})
        problem = problem_now(built.problem, self.now, bare, self.paid)
        plan = solve(problem, time_limit_s=TIME_LIMIT_S)
        while plan.planes and (over := too_many_layers(plan, self.now, bare)):
            problem = _without_stock(problem, over)
            plan = solve(problem, time_limit_s=TIME_LIMIT_S)
        return _Solved(problem, with_reasons(plan, problem, self.unit), bare, built.problem.prices.verify)


def _least(ask: _Ask, proud: frozenset[str]) -> _Solved:
    """The cheapest found of strips on and off: none off, the proud off, all off, then stud after stud.

    Each is proved least for itself; which studs' strips come off is tried, not proved.
    """
    stripped = frozenset(n.member.name for n in ask.now if n.done and n.member.recipe.pieces)
    tried: dict[frozenset[str], _Solved] = {}

    def solved(bare: frozenset[str]) -> _Solved:
        if bare not in tried:
            tried[bare] = ask.solved(bare)
        return tried[bare]

    def worth(each: _Solved) -> tuple[bool, Fraction]:
        return each.plan.cost is None, each.total

    best = min((solved(bare) for bare in dict.fromkeys((frozenset[str](), proud, stripped))), key=worth)
    for name in sorted(stripped):
        if len(tried) >= MOST_TRIES:
            break
        if best.plan.planes and (name in best.bare or best.plan.member(name).touched):
            best = min(best, solved(best.bare ^ {name}), key=worth)
    return best


def _without_stock(problem: FramingProblem, names: frozenset[str]) -> FramingProblem:
    def member(each: Member) -> Member:
        return replace(each, stock=()) if each.name in names else each

    walls = tuple(replace(wall, members=tuple(map(member, wall.members))) for wall in problem.walls)
    return replace(problem, walls=walls)


def _all_right(walls: Sequence[WallFaces], now: Sequence[Now], problem: FramingProblem) -> bool:
    """Whether every face lies in its band and every profile under every rule, on the planes judged against.

    A face never read again counts as it is taken; whether it is *shown* is the verdict's question, not this.
    """
    by_name = {each.member.name: each for each in now}
    for wall in walls:
        if any(
            margin(face) is not None and (margin(face) or ZERO) < 0 for s in wall.studs for face in s.faces
        ):
            return False
        own = next(each for each in problem.walls if each.name == wall.name)
        if wall.moved:
            return False
        values = []
        for member in own.members:
            stud, each = wall.stud(member.name), by_name[member.name]
            if not each.done and (member.must or member.held not in (None, "leave")):
                return False
            off = []
            for h, z in enumerate(own.heights):
                face = stud.at(z)
                low, high = limits(face) if face is not None else (ZERO, ZERO)
                off.append(each.offsets[h] - (face.target if face is not None else ZERO))
                if not low <= off[-1] <= high:
                    return False
            values.append(off)
        flat = WallFlatness(tuple(m.along for m in own.members), own.heights, problem.flatness)
        if flat.violated(values):
            return False
    return True


def _proud_on_strips(walls: Sequence[WallFaces], now: Sequence[Now]) -> frozenset[str]:
    """Studs whose strips stand proud of the band: they may have to come off."""
    proud = {
        stud.name
        for wall in walls
        for stud in wall.studs
        for face in stud.faces
        if (room := margin(face)) is not None and room < 0 and face.off is not None and face.off > 0
    }
    return frozenset(
        each.member.name
        for each in now
        if each.member.name in proud and each.done and each.member.recipe.pieces
    )


def _taken(now: Sequence[Now], unit: Unit) -> tuple[str, ...]:
    out = []
    for earlier, done, touched, words in (
        (False, True, True, form("{spots}: not read again, taken as planned")),
        (False, False, True, form("{spots}: not read again, taken as first surveyed, the work not done")),
        (False, False, False, form("{spots}: not read again, taken as first surveyed")),
        (True, False, True, EARLIER),
    ):
        places = [
            (each.member.name, each.member.heights[h])
            for each in now
            if (each.earlier, each.done, each.stud.touched) == (earlier, done, touched)
            for h in each.assumed
        ]
        if places:
            out.append(Sentence(words, spots=spots(places, unit)))
    return tuple(out)


def _shim_cost(problem: FramingProblem) -> Fraction:
    prices = problem.prices
    return prices.flange_shim * prices.factor * prices.rate / 60 + prices.flange_shim_dollars


def _left(
    best: _Solved,
    walls: Sequence[WallFaces],
    taken: tuple[str, ...],
    findings: tuple[Finding, ...],
    unit: Unit,
    own_unit: Unit,
) -> Left:
    plan, problem = best.plan, best.problem
    if not plan.planes:
        conflict = explain(problem, unit=unit, own=own_unit, time_limit_s=EXPLAIN_LIMIT_S)
        found = tuple(replace(each, code="again-no-plan") for each in conflict_findings(conflict))
        return Left("none", taken=taken, conflict=conflict, findings=(*findings, *found))
    prices = problem.prices
    shims = tuple(m.name for m in plan.members if m.recipe.flange_shim)
    members = tuple(_without_shim(m, problem) for m in plan.members if m.touched or m.name in best.bare)
    charges = [c for c in plan.charges if c.what != "verify" and (c.minutes or c.dollars)]
    charges += [
        Charge(
            plan.member(name).wall,
            "strips off",
            STRIPS_OFF,
            ZERO,
            f"{name} stands proud: its strips come off",
        )
        for name in sorted(best.bare)
    ]
    verify = best.verify
    touched = sorted({m.wall for m in members} | {c.wall for c in charges})
    charges += [Charge(wall, "verify", verify, ZERO, "touched again") for wall in touched]
    minutes = sum((m.minutes for m in members), ZERO) + sum((c.minutes for c in charges), ZERO)
    minutes *= prices.factor
    dollars = sum((m.dollars for m in members), ZERO) + sum((c.dollars for c in charges), ZERO)
    moved = tuple(w.name for w in walls if _other(plan.planes[w.name], w.plane))
    nothing = not members and not charges
    state: Any = plan.state
    if nothing:
        state = "nothing, planes moved" if moved else "nothing"
    if nothing and moved:
        findings = (*findings, _moved_finding(moved))
    return Left(
        state,
        members,
        tuple(sorted(best.bare)),
        shims,
        tuple(charges),
        plan.planes,
        moved,
        minutes,
        dollars,
        minutes * prices.rate / 60 + dollars,
        len(shims) * _shim_cost(problem),
        len(touched) * verify * prices.factor,
        plan.gap or ZERO,
        taken,
        None,
        findings,
    )


def _moved_finding(moved: Sequence[str]) -> Finding:
    return Finding(
        "again-planes-moved",
        Severity.NOTE,
        f"wall {', '.join(moved)}",
        Sentence("faces on the plane that was chosen"),
        Sentence("they are right on another plane that meets every demand as well"),
        Sentence(
            "Take that plane for the wall (recheck.planes, with the reason), and it is judged against it."
        ),
        "convention-4",
    )


def _without_shim(member: MemberPlan, problem: FramingProblem) -> MemberPlan:
    if not member.recipe.flange_shim:
        return member
    return replace(
        member,
        recipe=replace(member.recipe, flange_shim=False),
        minutes=member.minutes - problem.prices.flange_shim,
        dollars=member.dollars - problem.prices.flange_shim_dollars,
    )


def _other(one: Plane, two: Plane) -> bool:
    return (one.offset, one.skew, one.lean) != (two.offset, two.skew, two.lean)
