"""What the water part has to say: each finding with its place, limit, next step and source."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.findings import Finding, Severity
from undertile.lengths import Unit
from undertile.sentence import Sentence, form, joined
from undertile.wood.clock import Clock
from undertile.wood.dryfirst import dry_first_order, dry_when, read_again_order
from undertile.wood.dryfit import THINNEST
from undertile.wood.facts import WoodFacts
from undertile.wood.fed import FedOdds
from undertile.wood.gate import Gate
from undertile.wood.held import DAY
from undertile.wood.history import History
from undertile.wood.leak import NAMES, Source
from undertile.wood.leakdays import TOGETHER, day_findings
from undertile.wood.leakorder import order_findings
from undertile.wood.leakshown import named
from undertile.wood.leakword import word_findings
from undertile.wood.newwood import bare_stops, misplaced
from undertile.wood.notyet import days_ahead
from undertile.wood.odd import odd
from undertile.wood.ofroom import held_by_room, together
from undertile.wood.proof import proof_findings
from undertile.wood.say import dry_text, from_to, goal_text, in_hundred, length, listed, moisture, some_of
from undertile.wood.say import points as points_of
from undertile.wood.shrink import MAY_LIE_BACK, StudShrinkage
from undertile.wood.torn import odd_torn
from undertile.wood.verdict import PointVerdict, soundness

KINDS = {
    "safety": Sentence("safety"),
    "stop": Sentence("stops"),
    "typed": Sentence("what is typed and not counted"),
    "source": Sentence("source"),
    "moisture": Sentence("moisture"),
    "day": Sentence("days after today"),
    "patch": Sentence("wood that goes out"),
    "new": Sentence("new wood"),
    "joists": Sentence("the floor"),
    "plan": Sentence("the plan of the studs"),
    "photo": Sentence("photo"),
    "inspection": Sentence("inspection"),
}


def all_findings(
    facts: WoodFacts,
    read: History,
    of_references: Sequence[Finding],
    points: Sequence[PointVerdict],
    without: Sequence[str],
    source: Source,
    shrunk: Sequence[StudShrinkage],
    no_depth: Sequence[str],
    shut: Gate,
    stops: Sequence[Finding],
    clock: Clock,
    unit: Unit,
) -> tuple[Finding, ...]:
    """Every finding, the loudest first; none while nothing is read or tested.

    Parameters
    ----------
    facts : WoodFacts
    read : History
    of_references : sequence of Finding
    points : sequence of PointVerdict
    without : sequence of str
        Points that do not say where they are.
    source : Source
    shrunk : sequence of StudShrinkage
    no_depth : sequence of str
        Wet studs whose depth is not measured.
    shut : Gate
    stops : sequence of Finding
        `wood_stops`.
    clock : Clock
    unit : {"in", "mm"}

    Returns
    -------
    tuple of Finding
    """
    if not (facts.points or facts.visits or source.outcomes):
        return ()
    found = [
        *stops,
        *_points(points),
        *_places(without),
        *_source(source),
        *odd_torn(facts, clock),
        *of_references,
        *days_ahead(facts, clock),
        *proof_findings(facts),
        *read.findings,
        *misplaced(read.series),
        *_jumps(read),
        *_thin(read, points, unit),
        *_shrinks(shrunk, no_depth, points, unit),
        *gate_finding(shut),
    ]
    rank = {Severity.STOP: 0, Severity.ACT: 1, Severity.NOTE: 2}
    return tuple(sorted(found, key=lambda each: rank[each.severity]))


def wood_stops(facts: WoodFacts, read: History, clock: Clock) -> tuple[Finding, ...]:
    """What stops work by the wood and its tests: each keeps the gate shut too (``wood.stops``)."""
    return (*_decay(facts, read), *bare_stops(read.series, clock), *_air_on_plastic(facts))


def _decay(facts: WoodFacts, read: History) -> Iterator[Finding]:
    """Decay where something bears on it: an engineer's question."""
    for each in read.series:
        unsound = soundness(each)
        if unsound is None or each.facts.out or each.facts.member not in ("stud", "joist", "plate"):
            continue
        if each.facts.bearing == "no":
            continue
        bears = Sentence("it bears" if each.facts.bearing == "yes" else "it may bear")
        yield Finding(
            "decay-bearing",
            Severity.STOP,
            each.where,
            Sentence("sound wood where something bears on it"),
            joined([unsound[0], bears], "{first}; {then}"),
            Sentence("Shore it before anything is cut, and ask an engineer; local code decides."),
            "practice-decay-bearing",
        )


def _points(points: Sequence[PointVerdict]) -> Iterator[Finding]:
    # a goal under dry wood has its own finding, of the goal
    room = [each for each in points if held_by_room(each) and each.forecast.no != "goal under dry"]
    for one in together([each for each in room if not each.may_be_fed]):
        yield Finding(
            "point-no-date",
            Severity.ACT,
            some_of(one.wheres),
            one.points[0].limit,
            one.why,
            one.next_step,
            one.points[0].source,
        )
    for each in points:
        if each.may_be_fed:
            assert each.fed is not None
            yield Finding(
                "point-fed",
                Severity.ACT,
                each.where,
                Sentence("it dries about as its neighbors do"),
                _behind(each.fed),
                Sentence("Look for water at it before trusting any date; read it again tomorrow."),
                "fed-odds",
                {"odds": f"{each.fed.odds:.2f}"},
            )
        elif each.call == "no date" and not held_by_room(each) and each.source != DAY:
            # those are of all places: each has its own line
            yield Finding(
                "point-no-date", Severity.ACT, each.where, each.limit, each.why, each.next_step, each.source
            )
        elif each.call == "cut out":
            yield Finding(
                "point-cut-out", Severity.ACT, each.where, each.limit, each.why, each.next_step, each.source
            )
        elif each.call == "open further":
            yield Finding(
                "point-open-further",
                Severity.ACT,
                each.where,
                Sentence("a dry reading past the last wet one"),
                each.why,
                each.next_step,
                each.source,
            )
        if each.call == "close" and each.near and each.goal.value is not None and each.value is not None:
            yield Finding(
                "moisture-near-limit",
                Severity.NOTE,
                each.where,
                Sentence("at most {value}", value=goal_text(each.goal.value)),
                Sentence(
                    "{value}, give or take {number}",
                    value=moisture(each.value),
                    number=f"{each.give_or_take or 0:.1f}",
                ),
                Sentence("It passes within the meter's own error: the goal lies under 19 for that."),
                "meter-error",
            )


def _jumps(read: History) -> Iterator[Finding]:
    """Newest readings that wood does not give (``wood.odd``)."""
    for each in read.series:
        if each.facts.out or each.last is None or each.last.slip is not None:
            continue
        visit = each.last.round.name
        found = odd(each, visit)
        if found is not None:
            by = points_of(found.by)
            yield Finding(
                "reading-jumped",
                Severity.NOTE,
                Sentence("{where}, visit {visit}", where=each.where, visit=visit),
                Sentence("a reading that follows from the one before, as wood dries"),
                Sentence(
                    "{by} since visit {visit}",
                    by=Sentence("at least {by}", by=by) if found.least else by,
                    visit=found.visit,
                ),
                Sentence("Read it again in the same holes, or say that its face is wet."),
                "reading-jump",
                {"by": f"{found.by:g}"},
            )


def _thin(read: History, points: Sequence[PointVerdict], unit: Unit) -> Iterator[Finding]:
    """Dates of wood so thin that the law by thickness squared was left for it."""
    size = length(THINNEST, unit)
    fitted = {each.name for each in points if each.forecast.fit is not None}
    for each in read.series:
        thick = each.facts.thickness
        if each.name in fitted and thick is not None and thick.inches < THINNEST:
            yield Finding(
                "thin-wood",
                Severity.NOTE,
                each.where,
                Sentence("wood {size} thick or more, for a time by its thickness", size=size),
                Sentence("{size} thick", size=thick.text),
                Sentence("Its time is begun from that of {size}; read it daily.", size=size),
                "drying-fit",
            )


def _behind(fed: FedOdds) -> str:
    """What it did beside its neighbours."""
    odds = in_hundred(fed.odds)
    if fed.change is None:
        return Sentence("over the meter's range while its neighbors fell: {odds} that it is fed", odds=odds)
    return Sentence(
        "{change} between two visits, its neighbors {expected}: {odds} that it is fed",
        change=points_of(fed.change),
        expected=points_of(fed.expected or 0.0),
        odds=odds,
    )


def _places(without: Sequence[str]) -> Iterator[Finding]:
    if without:
        yield Finding(
            "point-without-place",
            Severity.NOTE,
            some_of(without),
            Sentence("a place: along a plate, a height on a stud, x and y on the subfloor"),
            Sentence("no place"),
            Sentence("Say where it is; until then it is judged, but tells nothing of how far to open."),
            "practice-open-past",
        )


def _source(source: Source) -> Iterator[Finding]:
    for each in source.stands:
        if each.standing == "found":
            yield Finding(
                "leak-found",
                Severity.ACT,
                NAMES[each.candidate],
                Sentence("no water from it"),
                each.why,
                Sentence("Mend it, then make the same test again; test the others too."),
                each.source,
            )
        if each.do:
            yield Finding(
                "leak-came-and-went",
                Severity.ACT,
                NAMES[each.candidate],
                Sentence("a repair written between a test that shows water and a clean one"),
                each.why,
                each.do,
                each.source,
            )
        if each.said:
            yield Finding(
                "leak-said-otherwise",
                Severity.ACT,
                NAMES[each.candidate],
                Sentence("no water from it, as was said: {reason}", reason=each.said),
                each.shown,
                Sentence("The test counts. Take the word back, or make the test again after a repair."),
                each.source,
            )
    yield from word_findings(source.stands)
    yield from order_findings(source.stands)
    yield from day_findings(source.outcomes)
    for test in source.outcomes:
        its = test.asked
        if its is not None and its.source not in TOGETHER:
            yield Finding(
                "leak-test-asked", Severity.ACT, test.test, its.expected, its.came, its.do, its.source
            )
        elif test.nothing and its is None:
            yield Finding(
                "leak-test-short",
                Severity.NOTE,
                test.test,
                Sentence("a test that can tell"),
                test.why,
                Sentence("It shows nothing yet: {why}.", why=test.nothing),
                test.source,
            )


def _air_on_plastic(facts: WoodFacts) -> Iterator[Finding]:
    for name, each in facts.leak.pressures.items():
        if each.medium == "air":
            yield Finding(
                "air-test",
                Severity.STOP,
                Sentence("pressure test, {name}", name=named(name, each.when)),
                Sentence(
                    "water; air only where code and the pipe's maker allow it, "
                    "never on plastic pipe otherwise"
                ),
                Sentence("air at {psi} psi", psi=each.first),
                Sentence("Let it off and test with water."),
                "convention-6",
            )


_GOES_BACK = {
    "": form(
        "{value} at {where}; its face goes back {range} until it reads {dry}, as dry wood does in this house"
    ),
    "read wet": form(
        "{value} at {where} when its face was read, dry since; its face goes back {range} in all, until it "
        "reads {dry}, as dry wood does in this house"
    ),
    "not known": form(
        "{value} at {where} once, dry since, and it is not known when its face was read; read at its "
        "wettest, its face goes back {range} in all, until it reads {dry}, as dry wood does in this house"
    ),
}


def _shrinks(
    shrunk: Sequence[StudShrinkage], no_depth: Sequence[str], points: Sequence[PointVerdict], unit: Unit
) -> Iterator[Finding]:
    for each in shrunk:
        order: str = Sentence("True it as planned: the plan leaves room for that.")
        if each.most > MAY_LIE_BACK and each.since:
            order = read_again_order([each.stud], each.since)
        elif each.most > MAY_LIE_BACK:
            when = dry_when(each.stud, points)
            order = joined([dry_first_order([each.stud], each.goal), when], "{first} {then}")
        yield Finding(
            "stud-will-shrink",
            Severity.NOTE,
            each.stud,
            Sentence("trued as dry as it will be when it is closed"),
            Sentence(
                _GOES_BACK[each.since],
                value=each.reads,
                where=each.where,
                range=from_to(each.least, each.most, unit),
                dry=dry_text(each.dry),
            ),
            order,
            "wood-handbook-shrinkage",
            {"least": f"{each.least} in", "most": f"{each.most} in"},
        )
    if no_depth:
        yield Finding(
            "stud-depth-for-shrinkage",
            Severity.NOTE,
            listed(no_depth),
            Sentence("the actual depth of a stud that is wet"),
            Sentence("not measured"),
            Sentence("Measure it face to back: how far it shrinks goes with it."),
            "wood-handbook-shrinkage",
        )


def gate_finding(shut: Gate) -> Iterator[Finding]:
    """What is still missing before anything is covered, in one finding; none where the gate is open."""
    if shut.open:
        return
    kinds = [KINDS[kind] for kind in KINDS if any(m.kind == kind for m in shut.missing)]
    yield Finding(
        "do-not-cover",
        Severity.ACT,
        Sentence("walls and floor"),
        Sentence("source, moisture, floor, photos and inspection settled before anything is covered"),
        Sentence("{number} missing: {kinds}", number=len(shut.missing), kinds=listed(kinds)),
        Sentence("{where}: {do}", where=shut.missing[0].where, do=shut.missing[0].next_step),
        "convention-5",
    )
