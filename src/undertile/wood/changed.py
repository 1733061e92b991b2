"""What was changed behind each surface, and when: a photo or an inspection of before shows none of it.

Wood cut out or put in, a repair, a pan or walls torn out, a sister. Where in the walls a pipe was mended
nobody types, so each wall is photographed after it (ours, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.facts import Candidate, Surface, WoodFacts
from undertile.wood.gone import counted
from undertile.wood.places import WALLS, has_layers, new_on_gone, place_of, surface_of
from undertile.wood.proof import Since, since
from undertile.wood.torn import torn_counted
from undertile.wood.typed import Moment, read_moment

NAMES: dict[Candidate, Sentence] = {
    "supply": Sentence("the supply pipes"),
    "riser": Sentence("the pipe to the head"),
    "drain": Sentence("the drain"),
    "pan": Sentence("the pan"),
    "enclosure": Sentence("the walls of the shower"),
    "roof or window": Sentence("roof or window"),
    "condensation": Sentence("the cold surface"),
    "neighbour": Sentence("the neighbor's side"),
}
UNDER: tuple[Candidate, ...] = ("drain", "pan")
"""What stands in the floor; the rest of what water comes from stands in the walls, or behind them."""


@dataclass(frozen=True)
class Change:
    """One thing done to what will be covered.

    Attributes
    ----------
    day : str
        As typed.
    what : Sentence
        What was done, as a noun.
    surfaces : tuple of str
        Behind which it may be; none = not known of any, and only the inspection is held against it.
    """

    day: str
    what: Sentence
    surfaces: tuple[Surface, ...]

    @property
    def moment(self) -> Moment:
        """When."""
        return read_moment(self.day)


def changes(facts: WoodFacts, floor: Any = None, clock: Clock = NO_CLOCK) -> Iterator[Change]:
    """All that is known to have been changed, without days that cannot be so or have not come.

    Parameters
    ----------
    facts : WoodFacts
    floor : FloorFacts or None
    clock : Clock, optional

    Yields
    ------
    Change
    """
    for each in _all(facts, floor, clock):
        if not clock.ahead(each.day):
            yield each


def _all(facts: WoodFacts, floor: Any, clock: Clock) -> Iterator[Change]:
    layered = has_layers(facts.points.values())
    for name, point in counted(facts, clock).points.items():
        where = place_of(name, point, layered=layered)
        if point.out:
            yield Change(point.out, Sentence("cutting out {where}", where=where), surface_of(point))
        if point.new and not new_on_gone(point):
            yield Change(point.new, Sentence("putting in {where}", where=where), surface_of(point))
    for candidate, mended in facts.leak.mended.items():
        what = Sentence("mending {name}", name=NAMES[candidate])
        yield Change(mended.when, what, ("floor",) if candidate in UNDER else WALLS)
    for candidate, said in torn_counted(facts, clock).not_here.items():
        if said.out:
            what = Sentence("tearing out {name}", name=NAMES[candidate])
            yield Change(said.out, what, ("floor",) if candidate in UNDER else WALLS)
    for name, joist in getattr(floor, "joists", {}).items():
        if joist.sister is not None and joist.sister.fastened:
            what = Sentence("fastening the sister of {joist}", joist=name)
            yield Change(joist.sister.fastened, what, ("floor",))


def shown_since(
    facts: WoodFacts, floor: Any = None, clock: Clock = NO_CLOCK
) -> tuple[Mapping[Surface, Since], Since]:
    """From when on a photo of each surface, and an inspection, can show what is covered now.

    Parameters
    ----------
    facts : WoodFacts
    floor : FloorFacts or None
    clock : Clock, optional

    Returns
    -------
    by_surface : mapping of str to Since
        The newest change behind it, or the opening where that is newer.
    inspection : Since
        The newest of all.
    """
    opened, every = since(facts), list(changes(facts, floor, clock))
    surfaces: tuple[Surface, ...] = (*WALLS, "floor")
    of = {each: _newest(opened, [one for one in every if each in one.surfaces]) for each in surfaces}
    return of, _newest(opened, every)


def _newest(opened: Since, every: list[Change]) -> Since:
    last = max(every, key=lambda each: each.moment, default=None)
    if last is None or (opened.day and last.moment.days // 1 < read_moment(opened.day).days // 1):
        return opened
    return Since(last.day, opened=False, what=last.what)
