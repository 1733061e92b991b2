"""How often one reading that is off by a given amount is caught, beside what theory allows there.

``python -m undertile.bench.slip_sizes --rooms 400``. The rooms are those of ``slip_rooms``; the slip is a
plain shift of one line reading by exactly the size, up or down, so it is of no known kind unless by chance.
A size class of ``slips`` mixes slips of 1/4 with slips of inches; here each size stands alone
(docs/methods/slips.md).
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction

from undertile.bench.slip_rooms import MM, Planted, Survey, clean_survey
from undertile.bench.slips import EVALUATION_SEED, alarms, theoretical_power
from undertile.survey import read

SIZES = {
    "1/8": Fraction(1, 8),
    "3/16": Fraction(3, 16),
    "1/4": Fraction(1, 4),
    "5/16": Fraction(5, 16),
    "3/8": Fraction(3, 8),
    "1/2": Fraction(1, 2),
    "1": Fraction(1),
    "2": Fraction(2),
}


@dataclass
class Row:
    """One size and kind of place: counts, and the sum of the theoretical powers."""

    size: str
    covered: bool
    planted: int = 0
    caught: int = 0
    asked: int = 0
    placed: int = 0
    power: float = 0.0


def shifted(rng: random.Random, survey: Survey, size: Fraction, covered: bool) -> bool:
    """Shift one reading of a survey by a size; False where the survey has no such reading."""
    readings = [p for places in survey.order.values() for p in places if (p in survey.covered) == covered]
    if not readings:
        return False
    place = rng.choice(readings)
    right = survey.values[place]
    by = size if survey.unit == "in" else round(size / MM) * MM
    wrong = right + rng.choice((-1, 1)) * by
    survey.planted.append(Planted("shift", {place: survey.text(right)}, float(by), covered))
    survey.values[place] = wrong
    return True


def measure(
    rooms: int, seed: int, sizes: Sequence[str] = tuple(SIZES), say: Callable[[str], None] = lambda line: None
) -> list[Row]:
    """Rows by size, readings that a width covers first.

    Parameters
    ----------
    rooms : int
        Surveys for each row.
    seed : int
    sizes : sequence of str
        Keys of ``SIZES``.
    say : callable
        Told of progress, one line at a time.
    """
    out = []
    for covered in (True, False):
        for name in sizes:
            rng = random.Random(f"{seed} size {name} {covered}")
            row = Row(name, covered)
            for _ in range(rooms):
                survey = clean_survey(rng)
                truth = survey.facts()
                if not shifted(rng, survey, SIZES[name], covered):
                    continue
                result = read(survey.facts())
                (slip,) = survey.planted
                (place,) = slip.right
                critical = result.global_test["critical"] if result.global_test else 4.0
                row.planted += 1
                row.caught += bool(alarms(result))
                row.asked += any(f.code == "look-again" for f in result.findings)
                row.placed += any(place == s.where for group in result.suspects for s in group)
                row.power += theoretical_power(truth, survey, slip, critical)
            out.append(row)
            say(f"{row}")
    return out


def main(arguments: Sequence[str] | None = None) -> int:
    """Command line of the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rooms", type=int, default=200, help="surveys for each row (default 200)")
    parser.add_argument("--seed", type=int, default=EVALUATION_SEED, help="303 for the figures, 101 to tune")
    parser.add_argument("--sizes", nargs="*", choices=tuple(SIZES), default=list(SIZES))
    parser.add_argument("--json", action="store_true", help="print one JSON list")
    chosen = parser.parse_args(arguments)
    if chosen.rooms < 1:
        parser.error(f"--rooms needs a number of surveys from 1 up, not {chosen.rooms}")
    rows = measure(chosen.rooms, chosen.seed, chosen.sizes, lambda line: print(line, file=sys.stderr))
    if chosen.json:
        print(json.dumps([asdict(row) for row in rows], indent=1))
    else:
        print(table(rows))
    return 0


def table(rows: Sequence[Row]) -> str:
    """The rows as text, shares in percent."""
    heads = "".join(f"{word:>8}" for word in ("planted", "caught", "asked", "place", "theory"))
    out = [f"{'off by':8}{'a width covers it':20}{heads}"]
    for row in rows:
        n = max(1, row.planted)
        shares = "".join(f"{x / n:8.0%}" for x in (row.caught, row.asked, row.placed, row.power))
        out.append(f"{row.size:8}{'yes' if row.covered else 'no':20}{row.planted:8}{shares}")
    return "\n".join(out)


if __name__ == "__main__":
    raise SystemExit(main())
