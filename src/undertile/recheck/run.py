"""The one call of the re-check: from facts and the stages before it to the whole answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.build import LARGE_TILE, RULES_LARGE, RULES_SMALL
from undertile.framing.facts import FramingFacts
from undertile.framing.holds import LEAN_OVER, PLUMB_LIMIT
from undertile.framing.plan import FramingPlan
from undertile.framing.studfindings import wall_work
from undertile.lengths import Unit
from undertile.pan.facts import PanFacts
from undertile.pan.seat import inches
from undertile.recheck.asked import asked
from undertile.recheck.band import face_verdict, wall_lean
from undertile.recheck.did import ticks_of, worked_before
from undertile.recheck.doubt import doubts
from undertile.recheck.faces import WallFaces, tool_now, walls_now
from undertile.recheck.facts import RecheckFacts
from undertile.recheck.fit import Fit, plays, square_check
from undertile.recheck.flat import FEELER, lines_flat
from undertile.recheck.left import what_is_left
from undertile.recheck.proof import (
    DoneStud,
    Proof,
    ProofPlay,
    ProofWall,
    Tolerance,
    digest,
    gaps_of,
    photo_names,
    readings_of,
)
from undertile.recheck.result import RecheckResult, WallVerdict
from undertile.recheck.say import worst
from undertile.recheck.verdict import judge_wall
from undertile.sentence import Sentence
from undertile.stage import units
from undertile.survey.result import SurveyResult


def begun(facts: RecheckFacts) -> bool:
    """Whether anything was read again, laid on or ticked."""
    read = any(stud.readings or stud.arris for wall in facts.walls.values() for stud in wall.studs.values())
    return bool(read or facts.widths or facts.diagonals or facts.straightedges or facts.done)


def tolerance_of(framing: FramingFacts) -> Tolerance:
    """The published tolerance of the tile chosen; without one the stricter, as in the plan."""
    edge = inches(framing.finish.tile_edge)
    large = edge is None or edge >= LARGE_TILE
    (short, short_limit), (long, long_limit) = RULES_LARGE if large else RULES_SMALL
    return Tolerance(
        "a108.02-4.2.2" if large else "a108-flat-small",
        long,
        long_limit,
        short,
        short_limit,
        PLUMB_LIMIT,
        LEAN_OVER,
        "ufgs-thinset-plumb",
    )


def recheck(facts: Mapping[str, Any], results: Mapping[str, Any]) -> RecheckResult:
    """Judge what was read again, and plan what is left.

    Parameters
    ----------
    facts, results : mapping
        Facts of every stage by key; results of the stages before. ``older_laid``: names of straightedges that
        were laid before what is under them was changed, where the record tells.

    Returns
    -------
    RecheckResult
    """
    found = judged(facts, results)
    if found.state != "read":
        return found
    doubted = {(stud, height) for stud, height, _ in found.settle}
    play_right = all(check.verdict is not Verdict.FAIL for check in found.room)
    left = what_is_left(facts, results, found.faces, doubted, play_right)
    return replace(found, left=left, findings=(*found.findings, *left.findings))


def judged(facts: Mapping[str, Any], results: Mapping[str, Any]) -> RecheckResult:
    """Every verdict and the proof, without what is left (which asks the planner).

    Parameters
    ----------
    facts, results : mapping
        As of :func:`recheck`.

    Returns
    -------
    RecheckResult
        ``left`` is None.
    """
    again: RecheckFacts = facts["recheck"]
    plan: FramingPlan | None = results.get("framing")
    if plan is None or not plan.planes:
        return RecheckResult("no plan", findings=(_no_plan(),) if begun(again) else ())
    unit, own_unit = units(facts)
    before = worked_before(again.done, plan, own_unit)
    asked_for = asked(plan, before)
    if not begun(again):
        return RecheckResult("not begun", asked_for, asked_for)
    survey: SurveyResult = results["survey"]
    pan: PanFacts = facts["pan"]
    own = facts["survey"].sigma
    sigma = tool_now(again, own, again.tool)
    walls = walls_now(again, survey, plan, asked_for, inches(pan.pan.flange_height), sigma, before)
    found = doubts(walls, again.tool, unit)
    tolerance = tolerance_of(facts["framing"])
    rules = (
        (tolerance.short_length, tolerance.short_limit),
        (tolerance.long_length, tolerance.long_limit),
    )
    feeler = again.feeler.inches if again.feeler is not None else FEELER
    older = facts.get("older_laid", frozenset())
    verdicts = []
    for wall in walls:
        on_it = {name: each for name, each in again.straightedges.items() if each.wall == wall.name}
        laid = [each for name, each in on_it.items() if name not in older]
        gone = [each for name, each in on_it.items() if name in older]
        lines = lines_flat(wall, rules, laid, feeler, unit, gone)
        limit = _plumb_limit(facts["framing"], wall.name)
        verdicts.append(judge_wall(wall, lines, found, limit, tolerance.source, unit))
    fit = Fit(again, pan, survey, walls, own, unit)
    low = [face for wall in walls for stud in wall.studs for face in stud.faces if face.flange]
    faces_shown = all(face_verdict(face) is Verdict.PASS for face in low) and not found.moved
    play = plays(fit)
    square = square_check(fit, results.get("pan"), faces_shown)
    room = (*(each.check for each in play), *((square,) if square is not None else ()))
    verdict = worst([*(wall.verdict for wall in verdicts), *(check.verdict for check in room)])
    spots = {
        (stud.name, face.height)
        for wall in walls
        for stud in wall.studs
        for face in stud.faces
        if face.off is None
    }
    missing = tuple(each for each in asked_for if (each.stud, each.height) in spots)
    proof = _proof(
        again, walls, tuple(verdicts), play, square, tolerance, sigma, float(feeler), verdict, plan, own_unit
    )
    return RecheckResult(
        "read",
        asked_for,
        missing,
        verdict,
        tuple(verdicts),
        room,
        walls,
        found.groups,
        tuple((stud, height, step) for (stud, height), step in found.settle.items()),
        proof=proof,
        findings=(*_strangers(again, plan), *found.findings),
    )


def _plumb_limit(framing: FramingFacts, wall: str) -> Fraction:
    limit = inches(wall_work(framing, wall).plumb_limit)
    return PLUMB_LIMIT if limit is None else abs(limit)


def _proof(
    facts: RecheckFacts,
    walls: tuple[WallFaces, ...],
    verdicts: tuple[WallVerdict, ...],
    play: tuple[ProofPlay, ...],
    square: Check | None,
    tolerance: Tolerance,
    sigma: float,
    feeler: float,
    verdict: Verdict,
    plan: FramingPlan,
    own_unit: Unit,
) -> Proof:
    pages = []
    for wall, judged in zip(walls, verdicts, strict=True):
        again = facts.walls.get(wall.name)  # type: ignore[call-overload]
        faces = [stud.checks[0] for stud in judged.studs]
        rank = {Verdict.FAIL: 0, Verdict.NOT_SHOWN: 1, Verdict.PASS: 2}
        pages.append(
            ProofWall(
                wall.name,
                judged.verdict,
                gaps_of(judged.lines),
                judged.checks[-1],
                wall_lean(wall, faces),
                min(faces, key=lambda check: rank[check.verdict]),
                readings_of(wall),
                wall.nominal,
                judged.stands,
                again.by if again is not None and again.by else facts.by,
                again.date if again is not None and again.date else facts.date,
                judged.show,
            )
        )
    every = [
        *(
            (f"wall {wall.wall}", c)
            for wall in verdicts
            for c in (*(s.checks[0] for s in wall.studs), *wall.checks)
        ),
        *(("room", each.check) for each in play),
        *(("room", check) for check in ((square,) if square is not None else ())),
    ]
    planned = {member.name: member.minutes for member in plan.members}
    ticks = ticks_of(facts.done, plan, own_unit)
    return Proof(
        tolerance,
        verdict,
        tuple(pages),
        tuple(each.check for each in play),
        play,
        square,
        facts.by,
        facts.date,
        facts.instrument,
        facts.tool,
        sigma,
        feeler,
        tuple(
            (Sentence("{title}: {where}", title=c.title, where=c.where), c.next_step)
            for _, c in every
            if c.verdict is Verdict.NOT_SHOWN
        ),
        tuple(
            (Sentence("{title}: {where} {value}", title=c.title, where=c.where, value=c.value), c.next_step)
            for _, c in every
            if c.verdict is Verdict.FAIL
        ),
        photo_names(walls),
        tuple(
            DoneStud(
                name,
                planned.get(name, Fraction(0)),
                None if each.minutes is None else Fraction(each.minutes),
                each.by or facts.by,
                each.date or facts.date,
                ticks[name],
                each.did,
            )
            for name, each in facts.done.items()
        ),
        digest(facts, walls),
    )


def _strangers(facts: RecheckFacts, plan: FramingPlan) -> tuple[Finding, ...]:
    """Walls read again that the plan does not have."""
    return tuple(
        Finding(
            "again-not-planned",
            Severity.ACT,
            f"wall {name}",
            Sentence("a wall with a plan"),
            Sentence("it is read again and has no plan: its readings are judged against nothing"),
            Sentence("Read wall {wall} in the survey first.", wall=name),
            "convention-5",
        )
        for name in facts.walls
        if name not in plan.planes
    )


def _no_plan() -> Finding:
    return Finding(
        "again-no-plan-to-judge",
        Severity.ACT,
        "recheck",
        Sentence("a plan to judge the faces against"),
        Sentence("there is none, so nothing read again can be judged"),
        Sentence("See what stands in the way of the plan."),
        "convention-5",
    )
