"""What moved since the walls were read: heights with the floor, wood cut out, wood that dries."""

from __future__ import annotations

from collections.abc import Iterator

from undertile.floor.result import FloorResult
from undertile.job import Rebuild
from undertile.lengths import Unit
from undertile.packet.content import MovedPart
from undertile.packet.figures import placed
from undertile.packet.told import told
from undertile.packet.words import Words
from undertile.survey.facts import SurveyFacts
from undertile.wood.facts import Point, WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.say import dry_text, from_to


def what_moved(rebuild: Rebuild, words: Words) -> MovedPart | None:
    """What moved, None where nothing did or nothing of floor and water is known.

    Parameters
    ----------
    rebuild : Rebuild
        With the answers of ``wood`` and ``floor`` among its results.
    words : Words
    """
    floor: FloorResult | None = rebuild.results.get("floor")
    wood: WoodResult | None = rebuild.results.get("wood")
    heights: tuple[tuple[str, str, str], ...] = ()
    again: tuple[str, ...] = ()
    if floor is not None:
        heights = tuple(
            (
                told(each.what, words),
                each.was or words("moved-unknown"),
                each.becomes or words("moved-measure"),
            )
            for each in floor.flow.moved
            if not each.becomes or each.was != each.becomes
        )
        again = tuple(told(line, words) for line in floor.flow.read_again)
    made = MovedPart(heights, again, tuple(_out(rebuild, wood, words)), tuple(_shrinks(rebuild, wood, words)))
    return None if made.empty else made


def _out(rebuild: Rebuild, wood: WoodResult | None, words: Words) -> Iterator[str]:
    """Studs and plates of walls that were read, cut out or to be cut out; each place once."""
    survey, facts = rebuild.job.facts()["survey"], rebuild.job.facts()["wood"]
    assert isinstance(survey, SurveyFacts)
    assert isinstance(facts, WoodFacts)
    seen: dict[str, str] = {}
    out = {each.name for each in wood.series if each.facts.out} if wood is not None else set(facts.points)
    for name, point in facts.points.items():
        where = _where(point, survey, words, rebuild.unit)
        if not where:
            continue
        verdict = wood.point(name) if wood is not None else None
        if point.out and name in out:
            seen[where] = words("moved-stud-out", where=where, day=str(point.out)[:10])
        elif verdict is not None and verdict.call == "cut out":
            seen.setdefault(where, words("moved-stud-to-cut", where=where))
    yield from seen.values()


def _where(point: Point, survey: SurveyFacts, words: Words, unit: Unit) -> str:
    """A stud by its name, a plate by its wall and place; "" where nothing of it was read for the walls."""
    if point.member == "stud":
        return point.name if any(point.name in wall.studs for wall in survey.walls.values()) else ""
    if point.member == "plate" and point.wall in survey.walls:
        place = "" if point.along is None else placed(point.along.inches, unit)
        key = "moved-plate-at" if place else "moved-plate"
        return words(key, wall=words.wall(str(point.wall)), along=place)
    return ""


def _shrinks(rebuild: Rebuild, wood: WoodResult | None, words: Words) -> Iterator[str]:
    found = wood.shrinkage if wood is not None else ()
    for each in found:
        by = told(from_to(each.least, each.most, rebuild.unit), words)
        if each.since:
            yield words("moved-shrunk", stud=each.stud, by=by, wet=each.reads)
            continue
        yield words("moved-shrink", stud=each.stud, by=by, wet=each.reads, dry=dry_text(each.dry))
    if any(not each.since for each in found):
        yield words("moved-shrink-note")
