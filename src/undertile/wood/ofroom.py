"""No date for a reason of the room or the goal and not of the place: said once for all it holds back."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from undertile.sentence import Sentence
from undertile.wood.say import moisture
from undertile.wood.verdict import NO, PointVerdict

OF_ROOM = ("no air", "damp air", "damp lately", "goal under dry")


@dataclass(frozen=True)
class Together:
    """Places that one line speaks of.

    Attributes
    ----------
    points : tuple of PointVerdict
    why, next_step : str
    """

    points: tuple[PointVerdict, ...]
    why: str
    next_step: str

    @property
    def wheres(self) -> list[str]:
        """The places."""
        return [each.where for each in self.points]


def held_by_room(point: PointVerdict) -> bool:
    """Whether a place has no date because of the room's air or of its goal, and of nothing of its own."""
    no = point.forecast.no
    return point.call == "no date" and no in OF_ROOM and point.next_step == NO[no][1]


def shared(point: PointVerdict) -> str:
    """Why a place has no date, without its own reading where that is not why: alike for all it holds back."""
    if not held_by_room(point):
        return point.why
    return Sentence(NO[point.forecast.no][0], air=moisture(point.forecast.air or 0))


def together(points: Sequence[PointVerdict]) -> Iterator[Together]:
    """The places in their order, those that the room's air holds back in one where the first of them stands.

    Parameters
    ----------
    points : sequence of PointVerdict

    Yields
    ------
    Together
        By reason and by what each is held against; a place that nothing is shared with alone, in its words.
    """
    groups: dict[tuple[object, ...], list[PointVerdict]] = {}
    for each in points:
        key: tuple[object, ...] = (each.name,)
        if held_by_room(each):
            key = (each.forecast.no, each.limit, each.forecast.air)
        groups.setdefault(key, []).append(each)
    for its in groups.values():
        first = its[0]
        yield Together(tuple(its), shared(first) if len(its) > 1 else first.why, first.next_step)
