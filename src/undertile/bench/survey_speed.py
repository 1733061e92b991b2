"""How fast a survey is checked, slips searched, beside a general library that adjusts anew every time.

``python -m undertile.bench.survey_speed --json``. The peer is numpy: one least-squares solution of the whole
system, then one more for every correction of a single reading, as a plain program would do it. Both must
find the same best correction with the same misfit left. The peer's time leaves out reading and layout.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter
from typing import Any

from undertile.bench.slip_plant import plant
from undertile.bench.slip_rooms import clean_survey
from undertile.survey import read
from undertile.survey.checks import sighted
from undertile.survey.facts import SurveyFacts
from undertile.survey.read import adjust_survey
from undertile.survey.roomfit import RoomFit
from undertile.survey.slips import without_slip

SEED = 404
REPEATS = 5
LEAST = 90
"""Things typed in a survey that is timed, at least. Few rooms have so many: one is looked for first."""


@dataclass(frozen=True)
class Whole:
    """A room as one system: design rows, observed values and sigmas, numbered as ``RoomFit.observations``."""

    rows: list[list[float]]
    values: list[float]
    sigmas: list[float]


def whole_system(facts: SurveyFacts) -> tuple[Whole, RoomFit]:
    """The room's observation equations, every unknown in one system; diagonals linear where the room's are.

    Parameters
    ----------
    facts : SurveyFacts

    Returns
    -------
    (Whole, RoomFit)
    """
    grid, checks, fit = adjust_survey(facts)
    nominal = {wall: float(layout.nominal) for wall, layout in grid.walls.items()}
    start: dict[tuple[str, str], int] = {}
    size = 0
    for key, line in fit.fits.items():
        start[key] = size
        size += len(line.fit.unknowns) if line.fit is not None else 0
    out = Whole([], [], [])

    def add(parts: Sequence[tuple[int, float]], value: float, sigma: float) -> None:
        row = [0.0] * (size + 3)
        for i, a in parts:
            row[i] += a
        out.rows.append(row)
        out.values.append(value)
        out.sigmas.append(sigma)

    for key, line in fit.fits.items():
        if line.layout is None:
            continue
        zero = next(z for wall, z in nominal.items() if wall == line.line.wall)
        typed = [zero - float(length.inches) for length in line.line.readings.values()]
        typed += [0.0] * (len(line.layout.rows) - len(typed))
        for row, value, sigma in zip(line.layout.rows, typed, line.layout.sigmas, strict=True):
            add([(start[key] + i, a) for i, a in row.items()], value, sigma)
    at = {key: line.fit.unknowns for key, line in fit.fits.items() if line.fit is not None}
    for check in checks.used:
        value, frame, faces = check.value, check.frame, check.faces
        if check.sight is not None:
            length, frame, faces = sighted(check.sight, fit.about, at)
            value += sum(w * at[key][i] for key, row in faces.items() for i, w in row.items()) - length
            value += sum(a * b for a, b in zip(frame, fit.about, strict=True))
        parts = [(start[key] + i, w) for key, row in faces.items() for i, w in row.items()]
        add([*parts, *((size + p, a) for p, a in enumerate(frame))], value, check.sigma)
    return out, fit


def single_corrections(facts: SurveyFacts, fit: RoomFit) -> list[tuple[int, float]]:
    """Every correction of one thing typed: observation number, change of the observation. [in]"""
    grid, _, _ = adjust_survey(facts)
    out = []
    for i, seen in enumerate(fit.observations):
        if not seen.slope:
            continue
        if seen.line is not None:
            line = fit.fits[seen.line]
            typed = line.line.readings[line.read[seen.index]]
            found = grid.stud(seen.line[0])
            nominal = found[0].nominal if found is not None else None
            corrections = without_slip(typed, "rule", nominal=nominal)
        else:
            check = fit.checks[seen.index]
            typed = check.length
            signed = check.kind in ("level", "square")
            corrections = without_slip(typed, check.tool, signed=signed)
        out += [(i, float(u.inches - typed.inches) * seen.slope) for u in corrections if not u.spread]
    return out


def brute_force(whole: Whole, corrections: Sequence[tuple[int, float]]) -> tuple[float, tuple[int, float]]:
    """Adjust anew for every correction: the least misfit, and which correction leaves it."""
    import numpy as np

    weights = 1 / np.array(whole.sigmas)
    design = np.array(whole.rows) * weights[:, None]
    plain = np.array(whole.values) * weights

    def misfit(values: Any) -> float:
        solution = np.linalg.lstsq(design, values, rcond=None)[0]
        left = values - design @ solution
        return float(left @ left)

    best = (misfit(plain), (-1, 0.0))
    for i, change in corrections:
        values = plain.copy()
        values[i] += change * weights[i]
        best = min(best, (misfit(values), (i, change)))
    return best


def case(rng: random.Random, least: int) -> dict[str, Any]:
    """One survey of ``least`` things typed or more, with a slip in it, timed both ways."""
    while True:
        survey = clean_survey(rng)
        if len(survey.values) >= least and plant(rng, survey, "mirror half"):
            break
    facts = survey.facts()
    times = []
    for _ in range(REPEATS):
        start = perf_counter()
        read(facts)
        times.append(perf_counter() - start)
    whole, fit = whole_system(facts)
    corrections = single_corrections(facts, fit)
    start = perf_counter()
    left, best = brute_force(whole, corrections)
    peer = perf_counter() - start
    own = min((fit.omega - fit.gain({i: d}), (i, d)) for i, d in corrections)
    seconds = median(times)
    return {
        "name": "survey check",
        "size": len(survey.values),
        "corrections": len(corrections),
        "seconds": seconds,
        "peer": "numpy lstsq, anew for every correction",
        "peer_seconds": peer,
        "ratio": peer / seconds,
        "equal": abs(own[0] - left) < 1e-7 * max(1.0, left) and own[1] == best,
    }


def main(arguments: Sequence[str] | None = None) -> int:
    """Command line of the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--surveys", type=int, default=5, help="surveys to time (default 5)")
    least = f"things typed in each, at least (default {LEAST})"
    parser.add_argument("--least", type=int, default=LEAST, help=least)
    parser.add_argument("--json", action="store_true", help="print a list of JSON objects")
    chosen = parser.parse_args(arguments)
    if chosen.surveys < 1 or not 1 <= chosen.least <= 100:
        parser.error("--surveys needs 1 or more, --least 1 to 100")
    rng = random.Random(SEED)
    cases = [case(rng, chosen.least) for _ in range(chosen.surveys)]
    if chosen.json:
        print(json.dumps(cases, indent=1))
    else:
        for row in cases:
            print(
                f"{row['size']} typed: {row['seconds'] * 1000:.1f} ms, {row['peer']} "
                f"({row['corrections']}) {row['peer_seconds'] * 1000:.0f} ms, ratio {row['ratio']:.0f}, "
                f"{'same answer' if row['equal'] else 'ANOTHER ANSWER'}"
            )
    return 0 if all(row["equal"] for row in cases) else 1


if __name__ == "__main__":
    sys.exit(main())
