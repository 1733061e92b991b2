"""What moves with the floor: the level line's height, the flange and its zone, and what must be read again.

Stud readings hang on the level line and do not move (convention 1.3). The pan rests on the highest finished
place under it; it rested, or would have, on the highest place as it was.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from undertile.floor.facts import Level
from undertile.floor.level import LevelAnswer, PlaceWork
from undertile.framing.say import place as height_place
from undertile.lengths import Unit
from undertile.pan.say import say
from undertile.sentence import Sentence, form, listed


@dataclass(frozen=True)
class Moved:
    """One height that the work on the floor changes; "" = not known."""

    what: str
    was: str
    becomes: str


@dataclass(frozen=True)
class Flow:
    """Everything that moves, and what to read again, in order."""

    moved: tuple[Moved, ...] = ()
    read_again: tuple[str, ...] = ()


def flow(
    level: Level,
    answer: LevelAnswer,
    flange: Fraction | None,
    heights: Iterable[Fraction] = (),
    unit: Unit = "in",
) -> Flow:
    """What the least work on the floor moves.

    Parameters
    ----------
    level : Level
    answer : LevelAnswer
    flange : Fraction or None
        Top of the flange above what the pan stands on. [in]
    heights : iterable of Fraction
        Heights at which studs were read, as they count above the subfloor now. [in]
    unit : {"in", "mm"}

    Returns
    -------
    Flow
        Empty where nothing is done.
    """
    if answer.on_old:
        return _with_patch(level, answer, unit)
    worked = [each for each in answer.places if each.amount]
    if not worked:
        return Flow()
    moved: list[Moved] = []
    names = ", ".join(each.name for each in worked)
    again: list[str] = [
        Sentence("Read the floor under the pan again from the level line, at {names}.", names=names)
    ]
    again += _line(level, answer, moved, unit)
    seat_was = min(each.reading for each in answer.places)
    seat = min(_finished(each) for each in answer.places)
    down = Sentence("from the level line down to the pan's seat")
    moved.append(Moved(down, say(seat_was, unit), say(seat, unit)))
    if flange is not None:
        moved.append(
            Moved(
                Sentence("from the level line down to the top of the flange"),
                say(seat_was - flange, unit),
                say(seat - flange, unit),
            )
        )
        again += _zone(level, seat_was - flange, seat - flange, heights, unit)
    again.append(Sentence("Stud readings stay as they are: they hang on the level line."))
    return Flow(tuple(moved), tuple(again))


def _with_patch(level: Level, answer: LevelAnswer, unit: Unit) -> Flow:
    """While the patch is to be laid: what is read on it; how much moves is not known before."""
    moved: list[Moved] = []
    names = listed(answer.on_old)
    again: list[str] = [Sentence("Read the floor under the pan on the new panel, at {names}.", names=names)]
    if level.line_at in answer.on_old:
        again += _line(level, answer, moved, unit)
    again.append(Sentence("Stud readings stay as they are: they hang on the level line."))
    return Flow(tuple(moved), tuple(again))


def _finished(place: PlaceWork) -> Fraction:
    """The reading there after the work: less where it was filled."""
    return place.reading - place.amount


def _line(level: Level, answer: LevelAnswer, moved: list[Moved], unit: Unit) -> list[str]:
    at = level.line_at or Sentence("its named point")
    what = Sentence("the level line above the subfloor at {at}", at=at)
    if level.line is None:
        moved.append(Moved(what, "", ""))
        step = form("Measure the level line's height above the floor at {at}, once the floor is done.")
        return [Sentence(step, at=at)]
    there = next((each for each in answer.places if each.name == level.line_at), None)
    becomes = "" if there is None or _on_another(level) else say(level.line.inches - there.amount, unit)
    moved.append(Moved(what, say(level.line.inches, unit), becomes))
    step = form("Measure the level line's height above the floor at {at} again, once the floor is done.")
    return [Sentence(step, at=at)]


def _on_another(level: Level) -> bool:
    """Whether the line's height is of the old panel and its named point was read on the new one."""
    spot = level.spots.get(level.line_at)
    return spot is not None and spot.on_new != "" and spot.on_new != spot.reading


def _zone(level: Level, was: Fraction, now: Fraction, heights: Iterable[Fraction], unit: Unit) -> list[str]:
    """Heights read that the flange zone takes in or lets go; nothing where the line's height is not known."""
    if level.line is None or _on_another(level):
        return []
    top_was, top = level.line.inches - was, level.line.inches - now
    changed = sorted({z for z in heights if (z <= top_was) != (z <= top)})
    if not changed:
        return []
    said = ", ".join(height_place(z, unit) for z in changed)
    into = form("The flange zone ends at {top} now: height {heights} moves into it; plan the walls again.")
    out_of = form(
        "The flange zone ends at {top} now: height {heights} moves out of it; plan the walls again."
    )
    step = into if top > top_was else out_of
    return [Sentence(step, top=say(top, unit), heights=said)]
