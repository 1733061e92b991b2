"""Do not cover yet: computed from moisture, tests, photos and inspection, each missing thing by its name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.lengths import Unit
from undertile.sentence import Sentence, form, listed
from undertile.wood.extent import CutLine
from undertile.wood.facts import Cover, Point, Surface, WoodFacts
from undertile.wood.history import Round
from undertile.wood.leak import NAMES, Source
from undertile.wood.leakorder import SOURCE as HOURS
from undertile.wood.leakword import NOT_TORN
from undertile.wood.limits import taken
from undertile.wood.ofroom import shared
from undertile.wood.places import surface_of
from undertile.wood.proof import AGAIN, CALL, WRITE, Since
from undertile.wood.say import length
from undertile.wood.verdict import CALLS, PointVerdict

LEAST = 3
"""Readings on wall and floor framing before it is enclosed (CALGreen 4.505.3; elsewhere good practice)."""
LOW = Fraction(24)
"""A wall is read by its plate, or a stud no higher than this: water stands low (common practice). [in]"""
FIRST = ("safety", "stop")
"""Kinds that come before the rest: nobody works where they stand."""
ALSO = (*FIRST, "typed", "new", "day")
"""Kinds that the floor changes nothing of."""
SAID = (*ALSO, "plan")
"""Kinds whose heading is shown only where there is one."""
LAST = ("photo", "inspection")
"""Kinds that come when the work is done."""
_MEND = Sentence("Mend it, then make the same test again.")
READ_LATELY = "practice-read-lately"
"""Source of what is missing because it was read too long ago."""
NO_READING = "enclose-19"
"""Source of what is missing because too little is read."""


@dataclass(frozen=True)
class Missing:
    """One thing that keeps the gate shut.

    Attributes
    ----------
    kind : str
        ``safety`` (what can hurt someone), ``stop`` (a stop of wood or framing), ``typed`` (typed and not
        counted), ``moisture``, ``day`` (dated after today), ``new`` (framing cut out, and no new wood read),
        ``patch`` (wood that a patch takes out), ``joists`` (what of the floor is not sound), ``plan`` (no
        plan of the studs that is read), ``source``, ``photo`` or ``inspection``.
    where : str
    what : str
        What is missing or wrong.
    next_step : str
    source : str
    """

    kind: str
    where: str
    what: str
    next_step: str
    source: str


@dataclass(frozen=True)
class Gate:
    """Whether anything may be covered.

    Attributes
    ----------
    open : bool
    missing : tuple of Missing
        In the order of the work: safety, stops, source, moisture, new wood, days, floor, plan, photos,
        inspection.
    read_on : str
        The day the moisture stands on: it is read again on the morning of covering.
    stands_on : tuple of str
        What an open answer leaves out or takes on a person's word: surfaces that are not judged, sources no
        test ruled out, no inspection, limits looser than the usual, with why.
    """

    open: bool
    missing: tuple[Missing, ...]
    read_on: str
    stands_on: tuple[str, ...] = ()


def gate(
    facts: WoodFacts,
    verdicts: Sequence[PointVerdict],
    source: Source,
    rounds: Sequence[Round],
    walls: Sequence[str],
    cuts: Sequence[CutLine] = (),
    floor: Sequence[Missing] = (),
    also: Sequence[Missing] = (),
    last: Sequence[Missing] = (),
    *,
    looser: Sequence[str] = (),
    unit: Unit = "in",
) -> Gate:
    """The gate before the board goes on.

    Parameters
    ----------
    facts : WoodFacts
    verdicts : sequence of PointVerdict
        Without the dry references.
    source : Source
    rounds : sequence of Round
    walls : sequence of str
        Walls of the survey: what will be covered where the facts do not say; where neither does, all of it.
    cuts : sequence of CutLine
        How far to open.
    floor : sequence of Missing
        What of the floor keeps it shut.
    also : sequence of Missing
        Of the kinds ``ALSO``: what can hurt someone, stops, what is typed and not counted, new wood, what is
        dated after today.
    last : sequence of Missing
        Of the kinds ``LAST``: `proof_missing`.
    looser : sequence of str
        Looser figures of the floor that were taken.
    unit : {"in", "mm"}
        For words.

    Returns
    -------
    Gate
    """
    surfaces = facts.cover.surfaces or _surfaces(walls)
    first = [each for each in also if each.kind in FIRST]
    missing = [
        *first,
        *_source(source),
        *_moisture(facts, verdicts, surfaces, unit, assumed=not facts.cover.surfaces and not walls),
        *_open_ends(verdicts, cuts),
        *(each for each in also if each.kind not in FIRST),
        *_patch(verdicts),
        *floor,
        *last,
    ]
    on = (
        *_left_out(facts.cover.surfaces, walls),
        *_by_word(source, facts),
        *taken(facts.allowed, unit),
        *looser,
    )
    return Gate(not missing, tuple(missing), rounds[-1].facts.when if rounds else "", on)


def _left_out(chosen: Sequence[Surface], walls: Sequence[str]) -> Iterator[Sentence]:
    """Surfaces of the room that nobody judges, because they were left out of what will be covered."""
    left = [each for each in _surfaces(walls) if each not in chosen]
    if chosen and left:
        said = form("only {these}; left out of what will be covered, and not judged: {left}")
        yield Sentence(said, these=_named(chosen), left=_named(left))


def _by_word(source: Source, facts: WoodFacts) -> Iterator[Sentence]:
    """Sources that stand in the house and that no test ruled out; an inspection nobody asks for."""
    said = facts.leak.not_here
    words = [NAMES[each] for each in source.of("not here") if not (each in said and said[each].out)]
    if words:
        yield Sentence("by a word and no test: {names}", names=listed(words))
    if facts.cover.inspection == "not asked for":
        yield Sentence("no rough inspection: it was said that none is asked for")


def _named(surfaces: Sequence[Surface]) -> str:
    return listed([Sentence("{where}", where=each) for each in surfaces])


def _surfaces(walls: Sequence[str]) -> tuple[Surface, ...]:
    if not walls:  # unknown is the cautious case (convention 4.5)
        return ("wall L", "wall B", "wall R", "floor")
    out: list[Surface] = []
    if "L" in walls:
        out.append("wall L")
    if "B" in walls:
        out.append("wall B")
    if "R" in walls:
        out.append("wall R")
    return (*out, "floor")


def _source(source: Source) -> list[Missing]:
    """What leaks first, then what is open in the order of the tests: the same test is next everywhere."""
    tests = source.next_tests
    ranks = {each: at for at, test in reversed(list(enumerate(tests))) for each in test.covers}
    out = []
    for each in sorted(
        source.stands,
        key=lambda one: (one.standing != "found", ranks.get(one.candidate, len(tests))),
    ):
        if each.standing == "found":
            out.append(
                Missing(
                    "source",
                    NAMES[each.candidate],
                    Sentence("it leaks and is not mended: {why}", why=each.why),
                    _MEND if each.asked is None else each.asked.do,
                    each.source,
                )
            )
        elif each.standing == "open":
            step = each.do or next(
                (test.do for test in tests if each.candidate in test.covers), Sentence("Test it.")
            )
            if each.asked is not None and (each.asked.source == HOURS or each.asked == NOT_TORN):
                step = each.asked.do
            out.append(Missing("source", NAMES[each.candidate], each.why, step, each.source))
    return out


def _moisture(
    facts: WoodFacts,
    verdicts: Sequence[PointVerdict],
    surfaces: Sequence[Surface],
    unit: Unit,
    *,
    assumed: bool,
) -> list[Missing]:
    asked = [each for each in verdicts if each.call not in ("gone", "goes out")]
    out = [
        Missing(
            "moisture",
            each.where,
            Sentence("{call}: {why}", call=CALLS[each.call], why=shared(each)),
            each.next_step,
            each.source,
        )
        for each in asked
        if each.call != "close"
    ]
    if not out:  # while a place is wet the rest is read again with it
        out = _old(facts, asked)
    for surface in surfaces:
        there = [each.name for each in verdicts if each.call != "gone" and _in(facts, each.name, surface)]
        if there and surface != "floor" and not any(_low(facts.points[name]) for name in there):
            low = length(LOW, unit)
            what = Sentence("read only over {low} above the floor, and water stands below", low=low)
            step = Sentence("Read its plate, or a stud no higher than {low}.", low=low)
            out.append(Missing("moisture", surface, what, step, NO_READING))
        if not there:
            step = Sentence("Read its plate and studs." if surface != "floor" else "Read the subfloor.")
            if assumed:
                step = Sentence("{read} Or say what will be covered, if it is not.", read=step)
            out.append(Missing("moisture", surface, Sentence("no reading in it"), step, NO_READING))
    read = [each for each in asked if each.value is not None]
    if 0 < len(read) < LEAST:
        what = Sentence("{number} of at least {least} readings", number=len(read), least=LEAST)
        step = Sentence("Read more places.")
        out.append(Missing("moisture", Sentence("the framing"), what, step, NO_READING))
    return out


def _old(facts: WoodFacts, asked: Sequence[PointVerdict]) -> list[Missing]:
    """Dry places that were read too long ago to cover by."""
    most = facts.allowed.read_within
    step = Sentence("Read it again before it is covered: a room gets wet again.")
    return [
        Missing(
            "moisture",
            each.where,
            Sentence("dry, as read {days} days ago; at most {most}", days=each.old, most=most),
            step,
            READ_LATELY,
        )
        for each in asked
        if each.old
    ]


def _open_ends(verdicts: Sequence[PointVerdict], cuts: Sequence[CutLine]) -> list[Missing]:
    """Where nobody knows how far it was wet, though the last wet place there is dry or out by now."""
    settled = {each.name: each for each in verdicts if each.call in ("close", "gone", "goes out")}
    ends = dict.fromkeys(cut.bad.name for cut in cuts if cut.at is None and cut.bad.name in settled)
    what = Sentence("how far it was wet is not known: nothing past it is read dry")
    step = Sentence("Read the next place past it.")
    return [Missing("moisture", settled[name].where, what, step, "practice-open-past") for name in ends]


def _patch(verdicts: Sequence[PointVerdict]) -> list[Missing]:
    """Wood that a planned patch takes out: not waited for, but nothing covers it while it is there."""
    return [
        Missing("patch", each.where, each.called, each.next_step, each.source)
        for each in verdicts
        if each.call == "goes out"
    ]


def _low(point: Point) -> bool:
    """Whether a place in a wall is one that water reaches first; a stud's height nobody said is not known."""
    return point.member == "plate" or (point.height is not None and point.height.inches <= LOW)


def _in(facts: WoodFacts, name: str, surface: Surface) -> bool:
    return surface in surface_of(facts.points[name])


def proof_missing(
    facts: WoodFacts, walls: Sequence[str], since: Mapping[Surface, Since], inspected: Since
) -> list[Missing]:
    """Photos and inspection that are missing, or show nothing of what is covered now.

    Parameters
    ----------
    facts : WoodFacts
    walls : sequence of str
        As `gate`.
    since : mapping of str to Since
        From when on a photo of each surface counts (``wood.changed``).
    inspected : Since
        From when on an inspection does.

    Returns
    -------
    list of Missing
        Of the kinds ``LAST``.
    """
    return [
        *_photos(facts.cover, facts.cover.surfaces or _surfaces(walls), since),
        *_inspection(facts.cover, inspected),
    ]


def _photos(cover: Cover, surfaces: Sequence[Surface], since: Mapping[Surface, Since]) -> list[Missing]:
    out = []
    for each in surfaces:
        what, step = Sentence("no photo before it is covered"), Sentence("Take it square on, a tape in it.")
        if each in cover.photos:
            if not since[each].early(cover.photos[each]):
                continue
            what, step = since[each].says(cover.photos[each]), AGAIN
        out.append(Missing("photo", each, what, step, "practice-cover"))
    return out


def _inspection(cover: Cover, limit: Since) -> list[Missing]:
    said = {
        "unknown": (
            Sentence("not known whether one is asked for"),
            Sentence("Ask the local authority, then write it down."),
        ),
        "called": (Sentence("called, not passed yet"), Sentence("Wait for it.")),
        "failed": (Sentence("failed"), Sentence("Mend what was found and call again.")),
    }
    if cover.inspection == "passed" and not cover.inspected:
        said["passed"] = Sentence("passed, and no day is written"), WRITE
    elif cover.inspection == "passed" and limit.early(cover.inspected):
        said["passed"] = limit.says(cover.inspected), CALL
    if cover.inspection not in said:
        return []
    what, step = said[cover.inspection]
    return [Missing("inspection", Sentence("rough inspection"), what, step, "practice-cover")]
