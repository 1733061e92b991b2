"""Referees and measurements: what the product is held against, and how fast it is beside its peers.

``run`` measures named cases and gives one row each: name, size, seconds, peer, peer_seconds, ratio, equal,
and what else the case counts. Nothing here is needed to plan a job; peers come with the ``test`` extra.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

__all__ = ["CASES", "run"]

Row = dict[str, Any]


def _plan(size: int) -> Callable[[int, float], Iterator[Row]]:
    def case(rooms: int, limit_s: float) -> Iterator[Row]:
        from undertile.bench.framing import plan_cases

        yield from plan_cases(size, rooms, limit_s)

    return case


def _many(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.framing import alone

    yield alone(13, rooms * 20, limit_s)


def _moves(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.framing import moves

    yield from moves(13, rooms)


def _survey(rooms: int, limit_s: float) -> Iterator[Row]:
    import random

    from undertile.bench import survey_speed

    rng = random.Random(survey_speed.SEED)
    for _ in range(rooms):
        yield survey_speed.case(rng, survey_speed.LEAST)


def _cutting(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.cutting import case

    yield from case(rooms, limit_s)


def _papers(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.papers import case

    yield from case(rooms)


def _drawings(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.drawings import case

    yield from case(rooms)


def _phone(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.phone import cases

    yield from cases(rooms)


def _phone_bytes(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.phone import only_bytes

    yield from only_bytes()


def _phone_values(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.phone import only_values

    yield from only_values(rooms)


def _start(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.start import case

    yield case(max(5, rooms))


def _store(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.store_speed import case

    yield from case(rooms)


def _drying(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.drying import rows

    yield from rows(rooms * 100)


def _water_charts(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.water_charts import case

    yield from case(rooms)


def _floor(rooms: int, limit_s: float) -> Iterator[Row]:
    from undertile.bench.floor import case

    yield from case(rooms, limit_s)


CASES: dict[str, Callable[[int, float], Iterator[Row]]] = {
    "plan-5": _plan(5),
    "plan-13": _plan(13),
    "plan-40": _plan(40),
    "many-13": _many,
    "moves": _moves,
    "survey": _survey,
    "cutting": _cutting,
    "papers": _papers,
    "drawings": _drawings,
    "drying": _drying,
    "water-charts": _water_charts,
    "floor": _floor,
    "store": _store,
    "phone": _phone,
    "phone-bytes": _phone_bytes,
    "phone-values": _phone_values,
    "start": _start,
}
"""Case name to what measures it, given rooms and a time limit for one answer."""
PARTS = ("phone-bytes", "phone-values")
"""Rows of another case by themselves."""


def run(names: Sequence[str] = (), *, rooms: int = 5, limit_s: float = 20.0) -> Iterator[Row]:
    """Measure cases, one row after the other.

    Parameters
    ----------
    names : sequence of str
        Of ``CASES``; all but ``PARTS`` when empty.
    rooms : int
        Rooms (or surveys) for each; ``many-13`` takes twenty times as many.
    limit_s : float
        For one answer. [s]

    Raises
    ------
    KeyError
        If a name is not known.
    """
    for name in names or [each for each in CASES if each not in PARTS]:
        case = CASES[name]
        for row in case(rooms, limit_s):
            yield {"case": name, **row}
