"""Each joist under the tile chosen: deflection, strength, what knowing would save, what a remedy buys."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from undertile.findings import Check, Verdict
from undertile.floor.facts import FloorFacts, Sister, Tile
from undertile.floor.joists import JoistIs, sister_stiffness, sister_stretch, to_measure
from undertile.floor.loads import Carried, pounds
from undertile.floor.lumber import (
    GRADES,
    REPETITIVE,
    SPECIES,
    WIDEST_SPACING,
    Values,
    inertia,
    kinds,
    stamped,
    values,
)
from undertile.floor.mended import all_covered
from undertile.floor.netsection import Place, cannot_be, not_by_net_section, worst_place
from undertile.floor.shear import shear_check
from undertile.floor.spans import LIMIT, line_load
from undertile.floor.untold import STIFFEN, least_shown, ways_open
from undertile.lengths import Length
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence, form, joined

TILE: dict[Tile, int] = {"ceramic": 360, "stone": 720, "unknown": 720}
"""Span over deflection that tile asks for; not known which is the cautious one."""
SAME = Sentence("Measure the same as for the live load.")


@dataclass(frozen=True)
class Way:
    """A remedy and what it comes to.

    ``becomes``: span over deflection with it, ``L/612``; "" where it changes nothing that can be counted.
    """

    what: str
    words: str
    becomes: str
    verdict: Verdict


@dataclass(frozen=True)
class JoistAnswer:
    """One joist judged."""

    joist: JoistIs
    checks: tuple[Check, ...]
    ways: tuple[Way, ...] = ()


@dataclass(frozen=True)
class _Case:
    """One joist with what it carries."""

    joist: JoistIs
    facts: FloorFacts
    loads: Carried

    @cached_property
    def worst(self) -> Place | None:
        """Where bending weighs most on what is left of it; its sizes and span measured."""
        return worst_place(self.joist)

    @property
    def judged(self) -> Fraction:
        """The load the tile's limit is held against. [lb/sq ft]"""
        dead = self.loads.dead if self.facts.loads.judged_under == "live and dead" else 0
        return self.loads.live + dead

    def ratio(
        self,
        psf: Fraction,
        worth: Values | None = None,
        sister: Sister | None = None,
        spacing: Fraction | None = None,
    ) -> tuple[Fraction, Fraction] | None:
        """Deflection and span over it; None where it cannot be worked."""
        beam = self.joist.beam(worth, sister)
        carries = self.joist.spacing if spacing is None else spacing
        if beam is None or carries is None:
            return None
        down = beam.worst(line_load(psf, carries))
        return down, beam.span / down if down else Fraction(10**9)


def joist_answer(joist: JoistIs, facts: FloorFacts, loads: Carried) -> JoistAnswer:
    """Judge one joist.

    Parameters
    ----------
    joist : JoistIs
    facts : FloorFacts
        For the tile chosen, and what a sister would be cut from.
    loads : Carried

    Returns
    -------
    JoistAnswer
        ``joist-code``, live load alone [IRC R301.7]; ``joist-tile``, under the tile; ``joist-strength``;
        ``joist-shear``.
    """
    case = _Case(joist, facts, loads)
    early = _cannot(case)
    checks = [_deflection(case, "code", early)]
    if early and joist.missing and joist.make != "engineered":
        early = SAME  # what to measure is said once
    if facts.tile != "none":
        tiled = _deflection(case, "tile", early)
        under_dead = facts.loads.judged_under == "live and dead"
        checks.append(_judged_as(case, tiled) if under_dead else tiled)
    wrong = any(check.verdict is not Verdict.PASS for check in checks)
    checks.append(_judged_as(case, _strength(case, early)))
    shear = shear_check(joist, loads, early, _weigh(case) if loads.unweighed else "")
    checks.append(_judged_as(case, shear))
    return JoistAnswer(joist, tuple(checks), _ways(case) if wrong and not early else ())


def _judged_as(case: _Case, check: Check) -> Check:
    """Under a dead load that may be more: only what fails already is shown."""
    return least_shown(check) if case.facts.tile != "none" and case.loads.bare else check


def _cannot(case: _Case) -> str:
    """Why nothing can be worked: what to measure; "" when it can."""
    joist = case.joist
    if joist.make == "engineered":
        return Sentence("Look the span up in the maker's table: sawn lumber's values are not its own.")
    if joist.missing:
        return to_measure(joist, case.facts)
    if joist.no_span:
        step = form("Measure span and depth of joist {name} again: {span} is no span for a depth of {depth}.")
        assert joist.span is not None
        assert joist.depth is not None
        span, depth = say(joist.span, joist.unit), say(joist.depth, joist.unit)
        return Sentence(step, name=joist.name, span=span, depth=depth)
    if joist.soft_unprobed:
        step = form("Probe how deep joist {name} is soft: what is left of it is not known.")
        return Sentence(step, name=joist.name)
    if wrong := cannot_be(joist):
        return wrong
    if joist.beam() is None:
        gone = form("Joist {name} is soft or cut right through: it carries nothing there.")
        return Sentence(gone, name=joist.name)
    return ""


def _topic(case: _Case, code: str, title: str, source: str) -> Topic:
    return Topic(f"joist-{code}-{case.joist.name}", title, f"joist {case.joist.name}", source)


def _deflection(case: _Case, which: str, early: str) -> Check:
    joist, tile = case.joist, case.facts.tile
    limit = LIMIT if which == "code" else TILE[tile]
    if which == "code":
        topic = _topic(case, "code", "Joist under live load", "irc-r301.7")
        psf = case.loads.live
        said: str = Sentence("live load {pounds} lb a sq ft", pounds=pounds(psf))
    else:
        topic = _topic(case, "tile", "Joist under the tile", "tile-deflection")
        psf, said = case.judged, _made_up(case)
    asked = Sentence("L/{limit} or stiffer", limit=limit)
    if early:
        return topic.not_shown(asked, early)
    if which == "tile" and case.loads.unweighed:
        return topic.not_shown(asked, _weigh(case))
    found = case.ratio(psf)
    if found is None or joist.span is None or joist.worth is None:
        return topic.not_shown(asked, early)
    down, ratio = found
    because = (*_size_words(case), said)
    verdict = Verdict.PASS if ratio >= limit else Verdict.FAIL
    step: str = Sentence("Stiffen it: see what each way buys.")
    if ways_open(case.facts, case.loads):
        step = STIFFEN
    if verdict is Verdict.FAIL:
        verdict, step = _knowing(case, lambda worth: case.ratio(psf, worth), limit, step)
    if which == "tile" and tile == "unknown" and verdict is not Verdict.PASS and ratio >= TILE["ceramic"]:
        step = Sentence("Choose the tile: it holds for ceramic, not for stone.")
        verdict = Verdict.NOT_SHOWN
    bends = form("L/{ratio}, {down} in {span}")
    if joist.facts.soft:
        bends = form("L/{ratio} what is soft left out, {down} in {span}")
    elif joist.facts.notches:
        bends = form("L/{ratio} less its notches, {down} in {span}")
    return topic.said(
        verdict,
        Sentence(
            bends,
            ratio=ratio // 1,
            down=say(down, joist.unit, "up"),
            span=say(joist.span, joist.unit),
        ),
        asked,
        margin=say(joist.span / limit - down, joist.unit, "down", signed=True),
        because=because,
        eats=_heavier(case) if which == "tile" else "",
        step=step,
    )


def _weigh(case: _Case) -> str:
    return Sentence("Give the weight of {names}.", names=", ".join(case.loads.unweighed))


def _made_up(case: _Case) -> str:
    """The load in words, part by part."""
    loads = case.loads
    parts: list[str] = [Sentence("live {pounds}", pounds=pounds(loads.live))]
    if case.facts.loads.judged_under == "live and dead":
        parts.append(Sentence("floor itself {pounds}", pounds=pounds(loads.base)))
        parts += [
            Sentence("{what} {pounds}", what=words, pounds=pounds(weight)) for words, weight in loads.parts
        ]
    return Sentence("{parts} lb a sq ft", parts=joined(parts))


def _heavier(case: _Case) -> str:
    dead = case.loads.dead
    if dead <= 20:
        return ""
    return Sentence("dead load {pounds} lb a sq ft, the span tables count 10 or 20", pounds=pounds(dead))


CLEATS = form("cleats and blocks at its side count for nothing (common practice, no source)")
"""Over 30 in a two-by-four takes less than a twentieth off the bend, and its screws give: not counted."""


def _size_words(case: _Case) -> tuple[str, ...]:
    joist = case.joist
    if joist.width is None or joist.depth is None or joist.spacing is None or joist.worth is None:
        return ()
    unit = joist.unit
    size = Sentence(
        "actual {width} x {depth}, {spacing} apart",
        width=say(joist.width, unit),
        depth=say(joist.depth, unit),
        spacing=say(joist.spacing, unit),
    )
    out: list[str] = [size, joist.worth.words]
    if joist.facts.sister is not None:
        out.append(Sentence("with the sister that stands beside it"))
        out.append(Sentence(CLEATS))
    if joist.facts.soft:
        out.append(Sentence("what is soft counts for nothing"))
    return tuple(out)


def _knowing(
    case: _Case,
    ask: Callable[[Values], tuple[Fraction, Fraction] | None],
    limit: int,
    step: str,
) -> tuple[Verdict, str]:
    """What knowing species and grade would save: where one of them would pass, it is not shown."""
    joist = case.joist
    if joist.depth is None or joist.worth is None or joist.worth.known:
        return Verdict.FAIL, step
    least: dict[str, str] = {}
    for wood, grade in kinds(joist.species, joist.grade):
        found = ask(values(wood, grade, joist.depth))
        if found is not None and found[1] >= limit:
            least[wood] = max(least.get(wood, grade), grade, key=GRADES.index)
    if not least:
        return Verdict.FAIL, step
    passing = joined(
        (
            Sentence("{wood} or better", wood=stamped(wood, least[wood]))
            if least[wood] != GRADES[0]
            else stamped(wood, least[wood])
            for wood in SPECIES
            if wood in least
        ),
        "{first}; {then}",
    )
    return Verdict.NOT_SHOWN, Sentence("Find the grade stamp: it passes as {woods}.", woods=passing)


def _strength(case: _Case, early: str) -> Check:
    joist = case.joist
    topic = _topic(case, "strength", "Strength of the joist", "nds-bending")
    limit = Sentence("100 % of its bending value")
    if early:
        return topic.not_shown(limit, early)
    if case.loads.unweighed:
        return topic.not_shown(limit, _weigh(case))
    if joist.facts.soft and not all_covered(joist):
        return topic.not_shown(
            limit, Sentence("Have an engineer say what a joist with a soft place carries.")
        )
    if untold := not_by_net_section(joist, case.facts.cut_limits):
        return topic.not_shown(limit, untold)
    share = _share(case, joist.worth)
    if share is None:
        return topic.not_shown(limit, early)
    cut = case.worst
    at = "" if cut is None else cut.words
    said: str = Sentence("{share} %", share=-(-share * 100 // 1))
    if at:
        said = Sentence("{share} %, {where}", share=-(-share * 100 // 1), where=at)
    verdict = Verdict.PASS if share <= 1 else Verdict.FAIL
    step: str = Sentence("Have an engineer say what carries it.")
    if verdict is Verdict.FAIL:

        def ask(worth: Values) -> tuple[Fraction, Fraction] | None:
            its = _share(case, worth)
            return None if its is None else (its, Fraction(1 if its <= 1 else 0))

        verdict, step = _knowing(case, ask, 1, step)
    return topic.said(
        verdict,
        said,
        limit,
        margin=f"{(1 - share) * 100 // 1:+d} %",
        because=(
            *_size_words(case),
            *((Sentence("what is left at {where}, by net section", where=at),) if at else ()),
            Sentence("live and dead {pounds} lb a sq ft", pounds=pounds(case.loads.live + case.loads.dead)),
        ),
        step=step,
    )


def _share(case: _Case, worth: Values | None) -> Fraction | None:
    """Stress over bending value where it is most, in what is left of the joist there.

    A sister all along takes its share by stiffness, as if the joist were whole: the cautious end.
    """
    joist = case.joist
    if worth is None or joist.width is None or joist.depth is None or joist.span is None:
        return None
    if joist.spacing is None:
        return None

    part, beside = Fraction(1), joist.facts.sister
    if beside is not None and sister_stretch(beside, joist.span) == (Fraction(0), joist.span):
        alone = worth.stiffness * inertia(joist.width, joist.depth)
        part = alone / (alone + sister_stiffness(beside))
    load = line_load(case.loads.live + case.loads.dead, joist.spacing) * part
    value = worth.bending * (REPETITIVE if joist.spacing <= WIDEST_SPACING else 1)
    worst = case.worst
    return None if worst is None else load * worst.stress / value


def _ways(case: _Case) -> tuple[Way, ...]:
    """What a sister, a joist between, a beam in the middle and blocking buy under the tile's load."""
    joist, tile = case.joist, case.facts.tile
    if joist.width is None or joist.depth is None or joist.spacing is None or joist.span is None:
        return ()
    if ways_open(case.facts, case.loads):
        return ()
    limit = LIMIT if tile == "none" else TILE[tile]
    psf = case.loads.live if tile == "none" else case.judged
    stock = case.facts.sister_stock or Sister(width=Length(joist.width), depth=Length(joist.depth))
    worth = values(stock.species, stock.grade, stock.depth.inches)
    unit = joist.unit

    def way(what: str, words: str, found: tuple[Fraction, Fraction] | None) -> Way:
        if found is None:
            return Way(what, words, "", Verdict.NOT_SHOWN)
        return Way(what, words, f"L/{found[1] // 1}", Verdict.PASS if found[1] >= limit else Verdict.FAIL)

    size = f"{say(stock.width.inches, unit)} x {say(stock.depth.inches, unit)}"
    halved = _halved(case, psf)
    return (
        way(
            "sister",
            Sentence("a sister {size}, {wood}, from bearing to bearing", size=size, wood=worth.words),
            case.ratio(psf, sister=Sister(**{**dict(stock), "start": None, "length": None})),
        ),
        way(
            "joist between",
            Sentence("a joist like it in each bay beside it"),
            case.ratio(psf, spacing=joist.spacing / 2),
        ),
        way(
            "beam",
            Sentence("a beam below its middle, spans of {span}", span=say(joist.span / 2, unit)),
            halved,
        ),
        Way(
            "blocking",
            Sentence("blocking: nothing under an even load; it holds panel edges"),
            "",
            Verdict.NOT_SHOWN,
        ),
    )


def _halved(case: _Case, psf: Fraction) -> tuple[Fraction, Fraction] | None:
    """Simple spans half as long: an even joist gets eight times as stiff for its span."""
    if case.joist.facts.soft or case.joist.facts.sister is not None:
        return None
    found = case.ratio(psf)
    return None if found is None else (found[0] / 16, found[1] * 8)
