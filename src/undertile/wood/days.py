"""Days as typed, those that cannot be so by what else is typed, and what is counted in days; no clock."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, form
from undertile.wood.facts import WoodFacts
from undertile.wood.leakshown import named
from undertile.wood.leakstands import NAMES
from undertile.wood.say import listed
from undertile.wood.typed import read_moment

if TYPE_CHECKING:
    from undertile.wood.history import Round

FAR = 60.0
"""Two days of a job further apart, with nothing in between, are asked about (ours, no source). [d]"""
TESTS = {
    "dials": form("water meter, {name}"),
    "pressures": form("pressure test, {name}"),
    "pours": form("water down the drain, {name}"),
    "fills": form("pan filled, {name}"),
    "sprays": form("spray, {name}"),
    "outsides": form("hose outside, {name}"),
    "colds": form("coldest surface, {name}"),
    "next_doors": form("neighbor's water, {name}"),
}
"""Tables of tests, and what one of each is called."""


def dates_out_of_order(facts: WoodFacts, rounds: Sequence[Round]) -> Iterator[Finding]:
    """Days that contradict each other."""

    def odd(where: str, expected: str, found: str) -> Finding:
        do = Sentence("Correct the day that is wrong; nothing is lost.")
        return Finding("dates-out-of-order", Severity.ACT, where, expected, found, do, "convention-7")

    for one, other in _contradicted(facts, rounds):
        said = _LATER if int(other.name) < int(one.name) else _SOONER
        expected = Sentence(said, name=other.name, when=other.facts.when)
        yield odd(f"visit {one.name}", expected, one.facts.when)
    for before, after in pairwise(rounds):
        if before.moment.days == after.moment.days:
            yield odd(
                f"visit {after.name}",
                Sentence("another hour than visit {name}", name=before.name),
                after.facts.when,
            )
    if facts.opened and rounds and read_moment(facts.opened).days > rounds[-1].moment.days:
        yield odd(
            Sentence("opened"),
            Sentence("a day before the last visit, {when}", when=rounds[-1].facts.when),
            facts.opened,
        )
    for name, each in facts.equipment.items():
        if each.off and read_moment(each.off).days < read_moment(each.on).days:
            yield odd(
                Sentence("equipment {name}", name=name),
                Sentence("off after it was on, {on}", on=each.on),
                Sentence("off {day}", day=each.off),
            )
    if facts.trued and facts.trued not in facts.visits:
        yield Finding(
            "visit-unknown",
            Severity.ACT,
            Sentence("trued"),
            Sentence("a visit of the job: {visits}", visits=listed(list(facts.visits)) or "none yet"),
            facts.trued,
            Sentence("Name the visit nearest to the truing."),
            "convention-7",
        )


_SOONER = form("a day before visit {name}'s, {when}")
_LATER = form("a day after visit {name}'s, {when}")


def _contradicted(facts: WoodFacts, rounds: Sequence[Round]) -> Iterator[tuple[Round, Round]]:
    """Visits out of the order of their numbers, each with the one it is held against.

    That is the nearest by number of those that are sure; where one of two is wrong and nothing tells which,
    the second is held against the first. One just begun puts none in doubt that something was read on.
    """
    numbered = [each for each in rounds if each.name.isdigit()]
    names = {visit for point in facts.points.values() for visit in point.shown}
    read = [each for each in numbered if each.name in names]
    doubted = _disordered(read)
    known = [each for each in read if each.name not in doubted]
    begun = (each for each in numbered if each.name not in names)
    doubted |= {each.name for each in begun if any(_turned(each, one) for one in known)}
    by_number = sorted(numbered, key=lambda each: int(each.name))
    told = set()
    for one in by_number:
        sure = [
            each
            for each in by_number
            if one.name in doubted and each.name not in doubted and _turned(one, each)
        ]
        if sure:
            told.add(one.name)
            yield one, min(sure, key=lambda each: abs(int(each.name) - int(one.name)))
    rest = [each for each in numbered if each.name not in told]
    for before, after in pairwise(rest):
        if int(before.name) > int(after.name):
            yield after, before


def _turned(one: Round, two: Round) -> bool:
    """Whether two visits' days run against their numbers."""
    return (int(one.name) < int(two.name)) != (one.moment.days < two.moment.days)


def misdated(rounds: Sequence[Round]) -> tuple[str, ...]:
    """Visits whose day cannot stand beside the others': out of the order of their numbers, or at one hour.

    Parameters
    ----------
    rounds : sequence of Round
        By day.

    Returns
    -------
    tuple of str
        In the order of their days. Where one of two visits is wrong and nothing tells which, both.
    """
    odd = _disordered([each for each in rounds if each.name.isdigit()])
    for before, after in pairwise(rounds):
        if before.moment.days == after.moment.days:
            odd |= {before.name, after.name}
    return tuple(each.name for each in rounds if each.name in odd)


def _disordered(numbered: Sequence[Round]) -> set[str]:
    """Of visits by day those that no longest run in the order of their numbers is sure to hold."""
    numbers = [int(each.name) for each in numbered]
    up_to = _longest(numbers)
    onward = _longest([-number for number in reversed(numbers)])[::-1]
    most = max(up_to, default=0)
    fits = [at for at in range(len(numbers)) if up_to[at] + onward[at] - 1 == most]
    # in every longest run that is in order: the only one at its place in it
    sure = {at for at in fits if sum(up_to[other] == up_to[at] for other in fits) == 1}
    return {each.name for at, each in enumerate(numbered) if at not in sure}


def _longest(numbers: Sequence[int]) -> list[int]:
    """Length of the longest rising run that ends at each."""
    out: list[int] = []
    for at, number in enumerate(numbers):
        out.append(1 + max((out[before] for before in range(at) if numbers[before] < number), default=0))
    return out


@dataclass(frozen=True)
class Dated:
    """A day as typed.

    Attributes
    ----------
    day : str
    what : str
        What it is of.
    path : tuple of str
        Where it is typed, under ``wood``.
    """

    day: str
    what: str
    path: tuple[str, ...]


def days_typed(facts: WoodFacts) -> Iterator[Dated]:
    """Every day typed of the water but those of cutting out.

    Parameters
    ----------
    facts : WoodFacts

    Returns
    -------
    iterator of Dated
        Visits, tests, mending, photos, equipment, opening, inspection and new wood.
    """
    for name, visit in facts.visits.items():
        yield Dated(visit.when, f"visit {name}", ("visits", name, "when"))
    for table, what in TESTS.items():
        for name, test in getattr(facts.leak, table).items():
            yield Dated(test.when, Sentence(what, name=named(name, test.when)), ("leak", table, name, "when"))
    if facts.leak.noticed:
        yield Dated(facts.leak.noticed, Sentence("water noticed"), ("leak", "noticed"))
    for candidate, mended in facts.leak.mended.items():
        did = Sentence("mended, {name}", name=NAMES[candidate])
        yield Dated(mended.when, did, ("leak", "mended", candidate, "when"))
    for candidate, said in facts.leak.not_here.items():
        if said.out:
            torn = Sentence("torn out, {name}", name=NAMES[candidate])
            yield Dated(said.out, torn, ("leak", "not_here", candidate, "out"))
    for surface, day in facts.cover.photos.items():
        yield Dated(day, Sentence("photo, {name}", name=surface), ("cover", "photos", surface))
    for name, each in facts.equipment.items():
        runs = Sentence("equipment {name}", name=name)
        yield Dated(each.on, runs, ("equipment", name, "on"))
        if each.off:
            yield Dated(each.off, runs, ("equipment", name, "off"))
    for name, point in facts.points.items():
        if point.new:
            yield Dated(point.new, Sentence("new wood, {name}", name=name), ("points", name, "new"))
        if point.bare:
            bare = Sentence("nothing stands there, {name}", name=name)
            yield Dated(point.bare, bare, ("points", name, "bare"))
    if facts.opened:
        yield Dated(facts.opened, Sentence("opened"), ("opened",))
    if facts.cover.inspected:
        yield Dated(facts.cover.inspected, Sentence("inspection"), ("cover", "inspected"))


def days_far_apart(facts: WoodFacts, ahead: Callable[[str], bool]) -> Iterator[Finding]:
    """Days so far after everything before them that one of the two may be mistyped: a year, a month.

    Parameters
    ----------
    facts : WoodFacts
    ahead : callable
        Whether a day has not come yet: that is said of it already.
    """
    came = (each for each in days_typed(facts) if not ahead(each.day))
    typed = sorted(((read_moment(each.day).days, each) for each in came), key=_first)
    comes = form("a day within {days} days of what comes before it ({other}, {when})")
    for at, ((before, one), (after, two)) in enumerate(pairwise(typed)):
        if after - before > FAR:
            said, odd, other = comes, two, one
            if at == 0 and len(typed) > 2:  # one day alone before all the others is the odd one
                said, odd, other = _AFTER, one, two
            yield Finding(
                "day-far-off",
                Severity.NOTE,
                odd.what,
                Sentence(said, days=f"{FAR:.0f}", other=other.what, when=other.day),
                odd.day,
                Sentence("Correct the day that is wrong, if one is; all counting of days stands on it."),
                "convention-7",
            )


_AFTER = form("a day within {days} days of what comes after it ({other}, {when})")


def _first(each: tuple[float, Dated]) -> float:
    return each[0]


def equipment_days(facts: WoodFacts, until: float | None) -> dict[str, float]:
    """Days each kind of equipment ran, count times days; what is still on counts to the last visit.

    Parameters
    ----------
    facts : WoodFacts
    until : float or None
        [d]

    Returns
    -------
    dict of str to float
        [d]
    """
    days: dict[str, float] = {}
    for each in facts.equipment.values():
        start = read_moment(each.on).days
        end = read_moment(each.off).days if each.off else until
        if end is not None and end >= start:
            days[each.what] = days.get(each.what, 0.0) + each.count * (end - start)
    return days
