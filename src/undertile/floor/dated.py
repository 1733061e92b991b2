"""Days typed of the floor that a joist may be passed by: an engineer's word, a sister fastened.

One that has not come yet by the clock of who asks passes nothing: the floor is judged without it. Nor does
one from long before anything of this job: who looked, or fastened, then had not seen what is found now.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from undertile.findings import Finding, Severity
from undertile.floor.facts import FloorFacts, Joist
from undertile.sentence import Sentence, form
from undertile.wood.clock import Clock
from undertile.wood.days import FAR, Dated
from undertile.wood.facts import WoodFacts
from undertile.wood.notyet import behind, not_come
from undertile.wood.typed import read_moment

EARLY = "floor-day-early"
_SINCE = {
    "noticed": form("a day not over {days} days before the water was noticed, {since}"),
    "opened": form("a day not over {days} days before the wall was opened, {since}"),
    "visit": form("a day not over {days} days before the first visit, {since}"),
}
_DO = Sentence("Correct the day, or say since when the water was noticed; until then it counts for nothing.")


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


def counted(facts: FloorFacts, clock: Clock, wood: WoodFacts | None = None) -> FloorFacts:
    """The facts as they count: without such a day that has not come yet, or that is of long before the job.

    Parameters
    ----------
    facts : FloorFacts
    clock : Clock
    wood : WoodFacts, optional
        Of the same job: when its water was noticed, its wall opened, its first visit made.

    Returns
    -------
    FloorFacts
        The same where there is none.
    """
    counts = partial(_counts, clock=clock, since=_since(wood))
    if all(counts(each.day) for each in words_typed(facts)):
        return facts
    joists = {}
    for name, joist in facts.joists.items():
        word, sister = joist.engineer, joist.sister
        if word is not None and word.carries != "no" and word.when and not counts(word.when):
            word = None  # its day is asked about, its other halves are not
        if sister is not None and sister.fastened and not counts(sister.fastened):
            sister = sister.model_copy(update={"fastened": ""})
        joists[name] = joist.model_copy(update={"engineer": word, "sister": sister})
    return facts.model_copy(update={"joists": joists})


def words_ahead(facts: FloorFacts, clock: Clock) -> Iterator[Finding]:
    """A finding for each such day that has not come yet."""
    if any(clock.waits(each.day) for each in words_typed(facts)):
        yield behind(clock, Severity.ACT)
    yield from not_come(words_typed(facts), clock)


def words_early(facts: FloorFacts, wood: WoodFacts | None) -> Iterator[Finding]:
    """A finding for each such day of long before anything of the job."""
    since = _since(wood)
    for each in words_typed(facts):
        if since is not None and _early(each.day, since):
            expected = Sentence(_SINCE[since[0]], days=f"{FAR:.0f}", since=since[1])
            yield Finding(EARLY, Severity.ACT, each.what, expected, each.day, _DO, "convention-7")


def _since(wood: WoodFacts | None) -> tuple[str, str] | None:
    """The earliest day known of the job, and what it is of (as ``wood.leakdays`` has it)."""
    if wood is None:
        return None
    known = [("noticed", wood.leak.noticed), ("opened", wood.opened)]
    known += [("visit", each.when) for each in wood.visits.values()]
    return min((each for each in known if each[1]), key=lambda each: read_moment(each[1]).days, default=None)


def _early(day: str, since: tuple[str, str]) -> bool:
    return read_moment(day).days // 1 < read_moment(since[1]).days // 1 - FAR


def _counts(day: str, *, clock: Clock, since: tuple[str, str] | None) -> bool:
    early = since is not None and _early(day, since)
    return not (early or clock.ahead(day) or clock.waits(day))
