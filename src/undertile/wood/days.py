"""Days that cannot be so, and what is counted in days: found from what is typed alone, without a clock."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, form
from undertile.wood.facts import WoodFacts
from undertile.wood.leakstands import NAMES
from undertile.wood.places import has_layers, place_of
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

    numbered = [each for each in rounds if each.name.isdigit()]
    for before, after in pairwise(numbered):
        if int(before.name) > int(after.name):
            yield odd(
                f"visit {after.name}",
                Sentence("a day before visit {name}'s, {when}", name=before.name, when=before.facts.when),
                after.facts.when,
            )
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


def days_typed(facts: WoodFacts) -> Iterator[tuple[str, str]]:
    """Every day typed of the water but those of cutting out, with what it is of.

    Parameters
    ----------
    facts : WoodFacts

    Returns
    -------
    iterator of (day, what)
        Visits, tests, mending, photos, equipment, opening and inspection, as typed.
    """
    yield from ((each.when, f"visit {name}") for name, each in facts.visits.items())
    for table, what in TESTS.items():
        for name, test in getattr(facts.leak, table).items():
            yield test.when, Sentence(what, name=name)
    for candidate, mended in facts.leak.mended.items():
        yield mended.when, Sentence("mended, {name}", name=NAMES[candidate])
    for surface, day in facts.cover.photos.items():
        yield day, Sentence("photo, {name}", name=surface)
    for name, each in facts.equipment.items():
        yield each.on, Sentence("equipment {name}", name=name)
        if each.off:
            yield each.off, Sentence("equipment {name}", name=name)
    if facts.opened:
        yield facts.opened, Sentence("opened")
    if facts.cover.inspected:
        yield facts.cover.inspected, Sentence("inspection")


def days_far_apart(facts: WoodFacts) -> Iterator[Finding]:
    """Days so far after everything before them that one of the two may be mistyped: a year, a month.

    Parameters
    ----------
    facts : WoodFacts
    """
    typed = sorted(((read_moment(day).days, day, what) for day, what in days_typed(facts)), key=_first)
    for (before, when, other), (after, day, what) in pairwise(typed):
        if after - before > FAR:
            yield Finding(
                "day-far-off",
                Severity.NOTE,
                what,
                Sentence(
                    "a day within {days} days of what comes before it ({other}, {when})",
                    days=f"{FAR:.0f}",
                    other=other,
                    when=when,
                ),
                day,
                Sentence("Correct the day that is wrong, if one is; all counting of days stands on it."),
                "convention-7",
            )


def days_ahead(facts: WoodFacts, today: str) -> Iterator[Finding]:
    """Days later than the clock of who asks; one day is left for clocks and zones that differ.

    Parameters
    ----------
    facts : WoodFacts
    today : str
        ``2026-03-04``; "" = there is no clock, and nothing is said.
    """
    if not today:
        return
    end = read_moment(today).days // 1 + 2
    layered = has_layers(facts.points.values())
    outs = (
        (point.out, place_of(name, point, layered=layered))
        for name, point in facts.points.items()
        if point.out
    )
    for day, what in (*days_typed(facts), *outs):
        if read_moment(day).days >= end:
            yield Finding(
                "day-ahead",
                Severity.ACT,
                what,
                Sentence("a day not after today, {today}", today=today),
                day,
                Sentence("Correct the day; all counting of days stands on it."),
                "convention-7",
            )


def _first(each: tuple[float, str, str]) -> float:
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
