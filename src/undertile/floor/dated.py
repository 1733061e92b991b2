"""Days typed of the floor that a joist may be passed by: an engineer's word, a sister fastened.

One that has not come yet by the clock of who asks passes nothing: the floor is judged without it.
"""

from __future__ import annotations

from collections.abc import Iterator

from undertile.findings import Finding, Severity
from undertile.floor.facts import FloorFacts, Joist
from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.days import Dated
from undertile.wood.notyet import behind, not_come


def words_typed(facts: FloorFacts) -> Iterator[Dated]:
    """Every such day, with where it is typed under ``floor``."""
    for name, joist in facts.joists.items():
        yield from _of(name, joist)


def _of(name: str, joist: Joist) -> Iterator[Dated]:
    if joist.engineer is not None and joist.engineer.when:
        said = Sentence("joist {name}, the engineer's word", name=name)
        yield Dated(joist.engineer.when, said, ("joists", name, "engineer", "when"))
    if joist.sister is not None and joist.sister.fastened:
        stands = Sentence("joist {name}, its sister fastened", name=name)
        yield Dated(joist.sister.fastened, stands, ("joists", name, "sister", "fastened"))


def counted(facts: FloorFacts, clock: Clock) -> FloorFacts:
    """The facts as they count: without such a day that has not come yet.

    Parameters
    ----------
    facts : FloorFacts
    clock : Clock

    Returns
    -------
    FloorFacts
        The same where there is none.
    """
    if not any(_not_come(each.day, clock) for each in words_typed(facts)):
        return facts
    joists = {name: _counted(joist, clock) for name, joist in facts.joists.items()}
    return facts.model_copy(update={"joists": joists})


def _counted(joist: Joist, clock: Clock) -> Joist:
    word, sister = joist.engineer, joist.sister
    if word is not None and _not_come(word.when, clock):
        word = word.model_copy(update={"when": ""})
    if sister is not None and _not_come(sister.fastened, clock):
        sister = sister.model_copy(update={"fastened": ""})
    return joist.model_copy(update={"engineer": word, "sister": sister})


def words_ahead(facts: FloorFacts, clock: Clock) -> Iterator[Finding]:
    """A finding for each such day that has not come yet."""
    if any(clock.waits(each.day) for each in words_typed(facts)):
        yield behind(clock, Severity.ACT)
    yield from not_come(words_typed(facts), clock)


def _not_come(day: str, clock: Clock) -> bool:
    return clock.ahead(day) or clock.waits(day)
