"""How honest the close dates are, and how soon a fed point is seen: thousands of simulated moisture logs.

``python -m undertile.bench.drying --logs 2000 --json``. The wood is Fick's slab (``bench.drying_wood``),
never the fitted laws. What is simulated and what is counted stands in ``docs/methods/drying.md``; the tuning
seed is 101, the seed of the figures 303.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from time import process_time
from typing import Any

from undertile.bench.drying_wood import Log, fed_rounds, logs
from undertile.wood.closing import last_of
from undertile.wood.dryfit import LONGEST, Dried, DryFit, expected_tau, fit, whole_days
from undertile.wood.fed import Pair, fed_odds
from undertile.wood.forecast import Forecast, whole_day
from undertile.wood.typed import day_text

SEED = 303
VISITS = (3, 4, 5, 6, 8)
SAID = 0.5
"""Odds from which a point is called possibly fed."""


@dataclass
class Dates:
    """Close dates after so many visits."""

    logs: int = 0
    given: int = 0
    held: int = 0
    early: int = 0
    late: int = 0
    width: float = 0.0
    refused_rightly: int = 0
    refused: int = 0

    def shares(self) -> dict[str, float]:
        """Shares; ``covered`` of the dates given."""
        given, refused = max(1, self.given), max(1, self.refused)
        return {
            "logs": self.logs,
            "dates_given": self.given / max(1, self.logs),
            "covered": self.held / given,
            "there_before_it": self.early / given,
            "there_after_it": self.late / given,
            "mean_days_wide": self.width / given,
            "refused_and_never_or_over_60_days": self.refused_rightly / refused,
        }


@dataclass
class Flags:
    """Possibly fed, by the second visit."""

    rounds: int = 0
    fed: int = 0
    caught: int = 0
    at_pins: int = 0
    caught_at_pins: int = 0
    dry: int = 0
    alarms: int = 0
    odds: list[tuple[float, bool]] = field(default_factory=list)

    def shares(self) -> dict[str, Any]:
        """Share caught, share of sound points accused, and whether the odds are what they say."""
        classes = {}
        for low, high in ((0.02, 0.2), (0.2, 0.5), (0.5, 0.8), (0.8, 1.01)):
            own = [was for odds, was in self.odds if low <= odds < high]
            if own:
                classes[f"{low:.2f}-{min(high, 1):.2f}"] = {"said": len(own), "fed": sum(own) / len(own)}
        return {
            "rounds": self.rounds,
            "fed_points": self.fed,
            "caught": self.caught / max(1, self.fed),
            "fed_at_the_pins": self.at_pins,
            "caught_at_the_pins": self.caught_at_pins / max(1, self.at_pins),
            "sound_points": self.dry,
            "false_alarms": self.alarms / max(1, self.dry),
            "by_odds": classes,
        }


def fitted(log: Log, visits: int) -> DryFit | None:
    """The fit after so many visits; None where fewer than three numbers can be used."""
    taken = log.visits[:visits]
    readings = []
    for at, visit in enumerate(taken):
        if visit.shown is not None:
            air = visit.air if at + 1 >= len(taken) else (visit.air + taken[at + 1].air) / 2
            readings.append(Dried(visit.day, visit.shown, air))
    if len(readings) < 3:
        return None
    ahead = sum(visit.air for visit in taken[-3:]) / len(taken[-3:])
    expected = expected_tau(log.thickness_in, log.open_faces)
    return fit(readings, log.goal, expected=expected, air_ahead=ahead)


def close_dates(count: int, seed: int = SEED, visits: Sequence[int] = VISITS) -> dict[int, Dates]:
    """How often the stated range holds the day the slab is down to its goal, by number of visits.

    Parameters
    ----------
    count : int
        Logs.
    seed : int
    visits : sequence of int

    Returns
    -------
    dict of int to Dates
    """
    found = {each: Dates() for each in visits}
    rng = random.Random(seed)
    for log in logs(rng, count):
        for number in visits:
            if number > len(log.visits):
                continue
            last = log.visits[number - 1]
            if last.shown is not None and last.shown <= log.goal:
                continue  # no date is asked for
            answer = fitted(log, number)
            if answer is None:
                continue
            _count(found[number], answer, max(0.0, log.there - last.day))
    return found


def _count(dates: Dates, answer: DryFit, truth: float) -> None:
    _count_range(dates, whole_days(answer), truth)


def fed_flags(count: int, seed: int = SEED, days_between: float = 1.5) -> Flags:
    """Share of fed points seen by the second visit, and of sound ones accused.

    Parameters
    ----------
    count : int
        Rounds of points, each with none to two fed.
    seed : int
    days_between : float
        From the first visit to the second. [d]

    Returns
    -------
    Flags
    """
    flags = Flags()
    rng = random.Random(seed)
    for points in fed_rounds(rng, count, days_between):
        flags.rounds += 1
        pairs = [Pair(each.name, each.first, each.second, each.air) for each in points]
        odds = fed_odds(pairs, days_between)
        for each in points:
            said = odds[each.name].odds
            flags.odds.append((said, bool(each.fed)))
            if each.fed:
                flags.fed += 1
                flags.caught += said > SAID
                flags.at_pins += each.fed == "at the pins"
                flags.caught_at_pins += each.fed == "at the pins" and said > SAID
            else:
                flags.dry += 1
                flags.alarms += said > SAID
    return flags


def whole_jobs(count: int, seed: int = SEED, points: int = 8, *, alike: bool = False) -> tuple[Dates, Dates]:
    """How often the range of a whole job holds the day on which its last point is down to its goal.

    Jobs of so many wet points after three to five visits; a job with a point that has no date has none.

    Parameters
    ----------
    count : int
        Jobs.
    seed : int
    points : int
    alike : bool
        Of one build, air, goal and start, so that any may be the last; else as different as they come.

    Returns
    -------
    tuple of Dates
        As it is told (``closing.last_of``), and for comparison the latest last day of the points' own ranges.
    """
    told, largest = Dates(), Dates()
    rng = random.Random(seed + 1)
    house = (lambda number: random.Random(seed * 100_003 + number // points)) if alike else None
    single = logs(rng, count * points, alike=house)
    for _ in range(count):
        number = rng.choice((3, 4, 5))
        dates, truths = [], []
        refused = False
        for log in [next(single) for _ in range(points)]:
            last = log.visits[min(number, len(log.visits)) - 1]
            if last.shown is not None and last.shown <= log.goal:
                continue
            answer = fitted(log, number)
            days = None if answer is None else whole_days(answer)
            refused = refused or days is None
            if days is not None:
                dates.append(Forecast("", answer, days, day_text(days[0]), day_text(days[1])))
            truths.append(max(0.0, log.there - last.day))
        if not truths:
            continue
        low, high = ("", "") if refused else last_of(dates)
        _count_range(told, None if not high else (whole_day(low), whole_day(high)), max(truths))
        own = None
        if not refused:
            own = max(whole_day(one.soonest) for one in dates), max(whole_day(one.latest) for one in dates)
        _count_range(largest, own, max(truths))
    return told, largest


def _count_range(dates: Dates, days: tuple[int, int] | None, truth: float) -> None:
    dates.logs += 1
    if days is None:
        dates.refused += 1
        dates.refused_rightly += truth > LONGEST
        return
    low, high = days
    dates.given += 1
    dates.held += low <= truth <= high
    dates.early += truth < low
    dates.late += truth > high
    dates.width += high - low


def cases(count: int) -> Iterator[dict[str, Any]]:
    """One row for each number of visits, and one for each wait before the second visit."""
    for number, dates in close_dates(count).items():
        yield {"name": "close date", "visits": number, **dates.shares()}
    for points, alike in ((8, False), (3, True), (7, True), (20, True)):
        told, largest = whole_jobs(count * 2 // points, points=points, alike=alike)
        name = f"whole job of {points} points{', alike' if alike else ''}"
        yield {"name": name, **told.shares(), "largest_covered": largest.shares()["covered"]}
    for days in (1.0, 2.0):
        yield {
            "name": "fed by the second visit",
            "days_between": days,
            **fed_flags(count // 4, SEED, days).shares(),
        }


def rows(count: int) -> Iterator[dict[str, Any]]:
    """The same as ``cases``, in the benchmark's form: what it counts, and the seconds it took.

    Parameters
    ----------
    count : int
        Logs.
    """
    start = process_time()
    for found in cases(count):
        name = found.pop("name")
        what = f"{found.pop('visits')} visits" if "visits" in found else f"{count} logs"
        seconds, start = process_time() - start, process_time()
        yield {
            "name": name,
            "size": what,
            "seconds": seconds,
            "peer": None,
            "peer_seconds": None,
            "ratio": None,
            "equal": None,
            **found,
        }


def main(words: Sequence[str]) -> int:
    """Measure and print."""
    parser = argparse.ArgumentParser(prog="undertile.bench.drying", description=__doc__)
    parser.add_argument("--logs", type=int, default=2000)
    parser.add_argument("--json", action="store_true")
    asked = parser.parse_args(words)
    rows = list(cases(asked.logs))
    if asked.json:
        print(json.dumps(rows, indent=2))
        return 0
    for row in rows:
        print(", ".join(f"{k} {v:.3f}" if isinstance(v, float) else f"{k} {v}" for k, v in row.items()))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
