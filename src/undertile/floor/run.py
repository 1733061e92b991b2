"""One call for the floor: joists, panel, patch, level, bed, what moves, and what must stop."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Any

from undertile.findings import Check, Finding, Severity
from undertile.floor.bed import BedAnswer, bed_answer
from undertile.floor.care import dust_findings, joist_findings
from undertile.floor.carrying import by_engineer, cuts_judged, standing
from undertile.floor.covering import opened, patch_cover
from undertile.floor.dated import counted, words_ahead, words_early
from undertile.floor.facts import Bad, FloorFacts
from undertile.floor.flow import flow
from undertile.floor.joists import SHORT, JoistIs, joists_of
from undertile.floor.level import Cut, level_answer
from undertile.floor.loads import carried
from undertile.floor.openend import may_go
from undertile.floor.ownlimits import counted as as_usual
from undertile.floor.ownlimits import limit_findings, said_beside
from undertile.floor.panelcheck import panel_checks
from undertile.floor.patch import Layout
from undertile.floor.patches import bad_floor, patches
from undertile.floor.result import FloorResult
from undertile.floor.stiffness import joist_answer
from undertile.lengths import Length
from undertile.pan.say import say
from undertile.sentence import Sentence
from undertile.stage import units
from undertile.wood.clock import Clock
from undertile.wood.gone import counted as wood_counted

ZERO = Fraction(0)


def floor(facts: Mapping[str, Any], results: Mapping[str, Any]) -> FloorResult:
    """Everything about the floor.

    Parameters
    ----------
    facts : mapping
        ``floor``; ``pan`` for the footprint and the flange, ``survey`` for the heights read, where there are.
    results : mapping
        ``wood``, where there is one: how far the wet subfloor is opened.

    Returns
    -------
    FloorResult
    """
    clock = Clock.of(facts)
    unit, own_unit = units(facts)
    typed: FloorFacts = facts["floor"]
    its = as_usual(counted(typed, clock, facts.get("wood")), unit)
    loads = carried(its.loads, unit)
    joists = joists_of(its, unit)
    findings = [
        *words_ahead(typed, clock),
        *words_early(typed, facts.get("wood")),
        *limit_findings(typed, unit),
    ]
    bad = bad_floor(its, getattr(results.get("wood"), "patches", ()), findings, unit)
    findings += _missing(its, joists, bool(bad))
    checks: list[Check] = []
    checks += cuts_judged(its, joists, unit, findings)
    of_patch: list[Check] = []
    layouts, cuts, supplies = patches(its, bad, joists, of_patch, findings, unit, own_unit)
    checks += [*panel_checks(its, joists, loads, unit, layouts), *of_patch]
    for joist in joists:
        findings += joist_findings(joist, opened(joist, layouts))
    pan = getattr(facts.get("pan"), "pan", None)
    footprint = (_inches(pan, "width"), _inches(pan, "depth"))
    out = tuple(_cut_out(its, bad, layouts))
    level = level_answer(its.level, footprint, unit, out, may_go(results.get("wood"), unit))
    checks += level.checks
    findings += level.findings
    bed = None if its.bed is None else bed_answer(its.bed, unit, own_unit)
    if isinstance(bed, Check):
        checks.append(bed)
        bed = None
    elif bed is not None:
        checks += bed.checks
        findings += _bed_load(its, bed)
    findings += dust_findings(its, bool(bad), any(place.amount < 0 for place in level.places))

    def told(found: Iterable[Check]) -> Iterator[Check]:
        return said_beside(by_engineer(found, joists), typed, unit)

    checks = list(told(checks))
    answers = tuple(joist_answer(joist, its, loads) for joist in joists)
    answers = tuple(replace(each, checks=tuple(told(each.checks))) for each in answers)
    heights = [z.inches for wall in _walls(facts) for z in wall.heights]
    return FloorResult(
        its.joists_run,
        loads,
        answers,
        tuple(checks),
        layouts,
        cuts,
        supplies,
        level,
        flow(its.level, level, _inches(pan, "flange_height"), heights, unit),
        bed,
        tuple(findings),
        patch_cover(
            layouts,
            joists,
            wood_counted(facts["wood"], clock) if "wood" in facts else None,
            results.get("wood"),
            out_from_back=its.joists_run == "out from the back wall",
            findings=standing(facts.get("safety"), findings, Clock.of(facts)),
            checks=(*(check for each in answers for check in each.checks), *checks),
        ),
    )


def _inches(table: Any, name: str) -> Fraction | None:
    value = getattr(table, name, None)
    return value.inches if isinstance(value, Length) else None


def _cut_out(facts: FloorFacts, bad: Mapping[str, Bad], layouts: Sequence[Layout]) -> Iterator[Cut]:
    """What the patch takes out of the top layer: as laid out, and what is bad where no layout is there."""
    for each in bad.values():
        yield each.left.inches, each.right.inches, each.back.inches, each.front.inches
    for made in layouts:
        out = made.upper or made.lower
        across, along = (out.low.at, out.high.at), (out.near.at, out.far.at)
        yield (*across, *along) if facts.joists_run == "out from the back wall" else (*along, *across)


def _walls(facts: Mapping[str, Any]) -> Iterable[Any]:
    return getattr(facts.get("survey"), "walls", {}).values()


def _missing(facts: FloorFacts, joists: Sequence[JoistIs], cut: bool) -> Iterator[Finding]:
    """What the floor cannot be worked without, one line each."""

    def ask(code: str, where: str, expected: str, found: str, step: str) -> Finding:
        return Finding(code, Severity.ACT, where, expected, found, step, "convention-4")

    if (joists or cut) and facts.joists_run == "unknown":
        yield ask(
            "joists-run-unknown",
            "floor",
            Sentence("which way the joists run"),
            Sentence("it is not entered"),
            Sentence("Look from below or at the nail lines; write out from, or along, the back wall."),
        )
    if cut and not joists:
        yield ask(
            "joists-missing",
            "floor",
            Sentence("where the joists lie"),
            Sentence("a patch is asked for and no joist is entered"),
            Sentence("Measure each joist's center from the fixed wall."),
        )
    for joist in joists:
        if joist.make != "engineered" and joist.span is None:
            yield ask(
                "joist-span-missing",
                f"joist {joist.name}",
                Sentence("its clear span, bearing to bearing"),
                Sentence("the span is not measured"),
                Sentence("Measure it from below, inside face to inside face of what carries it."),
            )
        elif joist.span is not None and joist.depth is not None and joist.no_span:
            yield Finding(
                "joist-span-short",
                Severity.ACT,
                f"joist {joist.name}",
                Sentence(
                    "a clear span of at least {least}, twice its depth",
                    least=say(SHORT * joist.depth, joist.unit),
                ),
                Sentence("a span of {span}", span=say(joist.span, joist.unit)),
                Sentence("Measure span and depth again; nothing it carries is shown by such a span."),
                "practice-joist-span",
            )
    yield from _sistered(joists)
    at: dict[Fraction, str] = {}
    for joist in joists:
        if joist.at in at:
            yield ask(
                "joist-twice",
                f"joist {joist.name}",
                Sentence("one joist at one place"),
                Sentence("{name} is at the same place", name=at[joist.at]),
                Sentence("Keep one, enter the other as its sister, or correct where it is."),
            )
        at.setdefault(joist.at, joist.name)


def _sistered(joists: Sequence[JoistIs]) -> Iterator[Finding]:
    """Where a sister begins, where it is not known; the length on the bearing is a check of every joist."""
    for joist in joists:
        sister = joist.facts.sister
        if sister is None or joist.make == "engineered" or sister.start is not None or sister.length is None:
            continue
        yield Finding(
            "joist-sister-start-missing",
            Severity.NOTE,
            f"joist {joist.name}",
            Sentence("where its sister begins, from the first bearing's face"),
            Sentence("not measured"),
            Sentence("Measure it from below; till then its sister is counted from the bearing on."),
            "convention-4",
        )


def _bed_load(facts: FloorFacts, bed: BedAnswer) -> Iterator[Finding]:
    """The bed's weight belongs among the loads."""
    if not any(layer.what == "mortar bed" for layer in facts.loads.on_top.values()):
        yield Finding(
            "bed-not-in-loads",
            Severity.ACT,
            "floor",
            Sentence("the mortar bed among what the joists carry"),
            Sentence(
                "a bed of {weight} lb a sq ft is planned and is not in the loads", weight=-(-bed.load // 1)
            ),
            Sentence("Add it to the loads on top, so that the joists are judged with it."),
            "convention-4",
        )
