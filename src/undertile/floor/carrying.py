"""What is said of each joist and of the panel on them, and what of it keeps the water's gate shut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from undertile.findings import Check, Finding, Verdict
from undertile.floor.care import bearing_check, joist_findings
from undertile.floor.covering import opened, under_patch
from undertile.floor.facts import FloorFacts
from undertile.floor.joists import JoistIs
from undertile.floor.loads import Carried
from undertile.floor.mended import word_stands
from undertile.floor.netsection import member_of
from undertile.floor.notches import cut_checks, impossible
from undertile.floor.panelcheck import panel_checks
from undertile.floor.patch import Layout
from undertile.floor.sound import Hold, holds, joist_at
from undertile.floor.stiffness import joist_answer
from undertile.lengths import Unit
from undertile.safety.cautions import cautions
from undertile.safety.facts import SafetyFacts
from undertile.safety.lifts import lift
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.gate import Missing


def cuts_judged(
    facts: FloorFacts, joists: Sequence[JoistIs], unit: Unit, findings: list[Finding]
) -> Iterator[Check]:
    """Notches, holes and bearings; what cannot be in a joist is added to the findings."""
    for joist in joists:
        member = replace(member_of(joist, facts.cut_limits), unit=unit)
        yield from cut_checks(member)
        findings += impossible(member)
        if (bears := bearing_check(joist, facts.all_joists.bearing_on)) is not None:
            yield bears


def standing(
    safety: SafetyFacts | None, findings: Sequence[Finding], clock: Clock = NO_CLOCK
) -> Iterable[Finding]:
    """The floor's findings and the safety's own, what a person lifted taken off (convention 6.2)."""
    if safety is None:
        return findings
    return lift((*findings, *cautions(safety, clock).findings), safety.lifted.values(), clock=clock)


def not_sound(
    facts: Mapping[str, Any],
    joists: Sequence[JoistIs],
    layouts: Sequence[Layout],
    loads: Carried,
    *,
    wanted: bool = False,
    spanned: Iterable[Check] = (),
) -> tuple[Missing, ...]:
    """What of the floor keeps the water's gate shut.

    Parameters
    ----------
    facts : mapping
        ``floor``, ``unit``; ``safety`` for what a person lifted.
    joists : sequence of JoistIs
    layouts : sequence of Layout
        The patches planned. Where there is none, and none is wanted, nothing is opened: what is only not
        shown of a joist then keeps nothing shut, what fails does.
    loads : Carried
    wanted : bool
        Something is to be cut out: one that cannot be laid out is not known to be sound under it.
    spanned : iterable of Check
        Whether each patch runs over two spans (``patches.span_checks``).

    Returns
    -------
    tuple of Missing
        Each place once, the gravest of it.
    """
    its, unit = facts["floor"], facts.get("unit", "in")
    findings: list[Finding] = []
    # a joist's own answers first: they name what of it is to be measured
    checks = [check for joist in joists for check in joist_answer(joist, its, loads).checks]
    checks += cuts_judged(its, joists, unit, findings)
    checks += [*panel_checks(its, joists, loads, unit, layouts), *spanned]
    for joist in joists:
        findings += joist_findings(joist, opened(joist, layouts))
    on = under_patch(joists, layouts) if layouts else joists
    every = holds(on, joists, standing(facts.get("safety"), findings, Clock.of(facts)), checks)
    told: dict[str, Missing] = {}
    if wanted and not layouts:
        told["floor"] = open_floor(Sentence("the patch cannot be laid out yet"))
    for each in every:
        if layouts or wanted or each.kind != "not shown":
            told.setdefault(each.joist or each.where, _missing(each))
    return tuple(told.values())


def by_engineer(checks: Iterable[Check], joists: Sequence[JoistIs]) -> Iterator[Check]:
    """Checks as they are; where an engineer's word stands for the joist it is not asked for again."""
    own = {joist.name: joist for joist in joists}
    for check in checks:
        name = joist_at(check.where, list(own)) if check.code.startswith("joist-") else ""
        word = own[name].facts.engineer if name and word_stands(own[name]) else None
        if word is None or check.verdict is Verdict.PASS:
            yield check
        else:
            step = Sentence(
                "Nothing more at joist {name}: {by} said on {day} that it carries.",
                name=name,
                by=word.by,
                day=word.when,
            )
            yield replace(check, next_step=step)


def answered(check: Check, joists: Iterable[JoistIs]) -> bool:
    """Whether an engineer's word stands for the joist a check is of."""
    own = {joist.name: joist for joist in joists}
    name = joist_at(check.where, list(own)) if check.code.startswith("joist-") else ""
    return bool(name) and word_stands(own[name])


def failing(checks: Iterable[Check], joists: Sequence[JoistIs]) -> tuple[Check, ...]:
    """Checks that fail and that no engineer's word answers: what waits for somebody."""
    return tuple(each for each in checks if each.verdict is Verdict.FAIL and not answered(each, joists))


def open_floor(what: str) -> Missing:
    """The floor as a whole: something of it is not known, and unknown is the cautious case."""
    return Missing("joists", "floor", what, Sentence("See what the floor asks for."), "convention-5")


def not_read(name: str) -> Missing:
    """A joist under a patch on which nothing is read."""
    what = Sentence("nothing is read on it under the patch")
    step = Sentence("Read it where the floor is open.")
    return Missing("joists", f"joist {name}", what, step, "convention-5")


def _missing(hold: Hold) -> Missing:
    what = {
        "stop": Sentence("a stop that nobody lifted"),
        "soft": Sentence("soft and not mended"),
        "fails": Sentence("fails and waits for an engineer" if hold.engineer else "fails"),
        "not shown": Sentence("not shown to carry it"),
    }
    return Missing("joists", hold.where, what[hold.kind], hold.step, "convention-5")
