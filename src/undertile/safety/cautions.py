"""The usual cautions, each in its place: only what the facts make particular, the rest is the hold line's.

Nothing is said while nothing is entered. Numbers are those of the publications cited, changeable by nobody
here: local code and licensed trades decide.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from undertile.findings import Finding, Severity
from undertile.safety.facts import Mold, SafetyFacts, Sampled
from undertile.safety.lifts import lift
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.facts import WoodFacts
from undertile.wood.proof import Since, since
from undertile.wood.typed import read_moment

LEAD_BEFORE = 1978
"""Housing built before is under the lead rule, 40 CFR 745.80 to 745.92."""
ASBESTOS_UNTIL = 1980
"""Flooring, mastic and texture put in no later are presumed to hold it, OSHA 1926.1101."""
SMALL, LARGE = Decimal(10), Decimal(100)
"""Mold: small under the first, large over the second, EPA 402-K-01-001 table 2. [sq ft]"""


_SAMPLED: dict[Sampled, str] = {
    "flooring": Sentence("flooring"),
    "mastic": Sentence("mastic"),
    "plaster or texture": Sentence("plaster or texture"),
    "pipe wrap": Sentence("pipe wrap"),
    "board": Sentence("old board"),
    "other": Sentence("what was sampled"),
}


@dataclass(frozen=True)
class SafetyResult:
    """What to know before somebody gets hurt.

    Attributes
    ----------
    findings : tuple of Finding
        The loudest first.
    mold : Decimal
        What is still there, all places together. [sq ft]
    """

    findings: tuple[Finding, ...] = ()
    mold: Decimal = Decimal(0)


def cautions(facts: SafetyFacts, clock: Clock = NO_CLOCK, wood: WoodFacts | None = None) -> SafetyResult:
    """Every caution that the facts make particular.

    Parameters
    ----------
    facts : SafetyFacts
    clock : Clock, optional
        Of who asks: mold is not gone on a day that has not come yet.
    wood : WoodFacts, optional
        When the wall was opened: mold of which nobody says when it was noted is not gone before.

    Returns
    -------
    SafetyResult
        Empty while nothing is entered.
    """
    if facts == SafetyFacts():
        return SafetyResult()
    limit = since(wood or WoodFacts())
    odd = {name: why for name, each in facts.mold.items() if (why := _not_gone(each, clock, limit))}
    there = [each.square_feet for name, each in facts.mold.items() if not each.gone or name in odd]
    mold = sum(there, Decimal(0))
    found = [
        *_lead(facts),
        *_asbestos(facts),
        *_foul(facts),
        *_mold(mold),
        *(_gone_odd(name, facts.mold[name], why) for name, why in odd.items()),
        *_shared(facts),
        *_off(facts),
    ]
    rank = {Severity.STOP: 0, Severity.ACT: 1, Severity.NOTE: 2}
    standing = lift(found, facts.lifted.values(), clock=clock)
    return SafetyResult(tuple(sorted(standing, key=lambda each: rank[each.severity])), mold)


def _lead(facts: SafetyFacts) -> Iterator[Finding]:
    expected = Sentence("paint of before 1978 sampled, or the work done lead-safe")
    found = sorted(place for place, each in facts.lead.items() if each.answer == "found")
    for place in found:
        yield Finding(
            "lead-found",
            Severity.STOP,
            place,
            expected,
            Sentence("lead in the paint"),
            Sentence(
                "No dry scraping, no open flame; a certified renovator does it lead-safe, gutting is never a "
                "minor repair. Local rules decide."
            ),
            "epa-rrp",
        )
    answered = [each for each in facts.lead.values() if each.answer != "not yet"]
    if facts.year is not None and facts.year < LEAD_BEFORE and not answered:
        yield Finding(
            "lead-not-sampled",
            Severity.ACT,
            Sentence("the house"),
            expected,
            Sentence("built in {year}, no paint sampled", year=facts.year),
            Sentence(
                "Sample the paint that will be disturbed, or have a certified renovator work lead-safe."
            ),
            "epa-rrp",
        )


def _asbestos(facts: SafetyFacts) -> Iterator[Finding]:
    expected = Sentence("what will be disturbed answered by a laboratory before dust")
    for what, each in facts.asbestos.items():
        if each.answer == "found":
            yield Finding(
                "asbestos-found",
                Severity.STOP,
                _SAMPLED[what],
                expected,
                Sentence("asbestos"),
                Sentence("Leave it whole and wet, close the room; a licensed abatement firm takes it out."),
                "osha-1926.1101",
            )
        elif each.answer == "not yet":
            yield Finding(
                "asbestos-no-answer",
                Severity.ACT,
                _SAMPLED[what],
                expected,
                Sentence("sampled, and no answer yet"),
                Sentence("Do not disturb it until the answer is there."),
                "osha-1926.1101",
            )
    if facts.asbestos:
        return
    if facts.year is not None and facts.year <= ASBESTOS_UNTIL:
        yield Finding(
            "asbestos-not-sampled",
            Severity.ACT,
            Sentence("the house"),
            expected,
            Sentence(
                "built in {year}, nothing sampled: old flooring, mastic and texture count as it",
                year=facts.year,
            ),
            Sentence("Sample what will be disturbed, keep it wet and whole until the answer is there."),
            "osha-1926.1101",
        )
    else:
        yield Finding(
            "asbestos-age",
            Severity.NOTE,
            Sentence("the house"),
            expected,
            Sentence("nothing sampled; its age alone does not clear it"),
            Sentence(
                "Ask the local office: many rules want a sample whatever the age, most of all where there "
                "are many homes."
            ),
            "asbestos-local",
        )


def _foul(facts: SafetyFacts) -> Iterator[Finding]:
    if facts.water == "sewage":
        yield Finding(
            "water-sewage",
            Severity.STOP,
            Sentence("everything it reached"),
            Sentence("cleaned and disinfected before anybody works or dries there"),
            Sentence("sewage"),
            Sentence(
                "Gloves, boots, eyes and lungs covered; board, insulation and panels it soaked go out, they "
                "are not dried; wood is cleaned and disinfected first."
            ),
            "s500-category",
        )
    elif facts.water == "used":
        yield Finding(
            "water-used",
            Severity.NOTE,
            Sentence("everything it reached"),
            Sentence("dried within 48 hours, else taken out where it is porous"),
            Sentence("water out of the tub, shower or drain"),
            Sentence("Gloves; board and insulation that stayed wet over two days go out."),
            "s500-category",
        )


def _mold(square_feet: Decimal) -> Iterator[Finding]:
    if not square_feet:
        return
    told = Sentence("{area} sq ft in all", area=f"{square_feet.normalize():f}")
    where, expected = (
        Sentence("mold"),
        Sentence("the water stopped, the mold gone before anything is covered"),
    )
    if square_feet > LARGE:
        yield Finding(
            "mold-large",
            Severity.STOP,
            where,
            expected,
            told,
            Sentence(
                "Over 100 sq ft: full containment under suction, and people who do this for a living; nobody "
                "else goes on here."
            ),
            "epa-mold",
        )
    elif square_feet >= SMALL:
        yield Finding(
            "mold-medium",
            Severity.ACT,
            where,
            expected,
            told,
            Sentence(
                "10 to 100 sq ft: close the room off with sheet, a fan with a HEPA filter; mask, gloves, "
                "goggles."
            ),
            "epa-mold",
        )
    else:
        yield Finding(
            "mold-small",
            Severity.NOTE,
            where,
            expected,
            told,
            Sentence("Under 10 sq ft: N-95 mask, gloves, goggles; wipe wood damp, bag what is porous."),
            "epa-mold",
        )


def _not_gone(mold: Mold, clock: Clock, limit: Since) -> str:
    """What the day on which it is gone should have been; "" where nothing is against it, or none is said."""
    if not mold.gone:
        return ""
    if clock.ahead(mold.gone):
        return clock.expected
    if not mold.noted:
        return limit.expected if limit.early(mold.gone) else ""
    if read_moment(mold.gone).days // 1 < read_moment(mold.noted).days // 1:
        return Sentence("a day not before it was noted, {noted}", noted=mold.noted)
    return ""


def _gone_odd(name: str, mold: Mold, expected: str) -> Finding:
    return Finding(
        "mold-gone-odd",
        Severity.ACT,
        Sentence("mold, {name}", name=name),
        expected,
        Sentence("gone {day}", day=mold.gone),
        Sentence("Correct the day, or write when it was noted; until then it counts as still there."),
        "convention-7",
    )


def _shared(facts: SafetyFacts) -> Iterator[Finding]:
    for wall, each in facts.shared.items():
        yield Finding(
            "wall-shared",
            Severity.NOTE if each.asked else Severity.ACT,
            f"wall {wall}",
            Sentence("its fire and sound layers left whole, or the owner's and the official's word"),
            Sentence("{whose}; {asked}", whose=each.whose, asked=each.asked)
            if each.asked
            else Sentence("{whose}; nobody was asked", whose=each.whose),
            Sentence(
                "Cut and drill no deeper than your own studs; ask before one comes out. Local code decides."
            ),
            "irc-r302-shared",
        )


def _off(facts: SafetyFacts) -> Iterator[Finding]:
    said = {"power": Sentence("the circuit"), "water": Sentence("the supply")}
    proved = {
        "power": Sentence("off, locked, and proved dead on each wire"),
        "water": Sentence("off and drained before a wall is opened"),
    }
    for what, where in said.items():
        if what not in facts.off:
            yield Finding(
                "not-shut-off",
                Severity.NOTE,
                where,
                proved[what],
                Sentence("nobody says so"),
                Sentence("Shut it off, prove it, write down who did."),
                "convention-6",
                {"what": what},
            )
