"""How often a wrong reading is caught, named and falsely alarmed, on simulated surveys.

``python -m undertile.bench.slips --rooms 400 --json``. What is simulated and what is counted stands in
``docs/methods/slips.md``; the tuning seed is 101, the seed of the figures 303.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import sqrt
from typing import Any

from undertile.bench.slip_plant import KINDS, natural_survey, plant
from undertile.bench.slip_rooms import Planted, Survey, clean_survey
from undertile.findings import Finding, Severity
from undertile.lengths import parse_length
from undertile.survey import read
from undertile.survey.facts import SurveyFacts
from undertile.survey.read import adjust_survey
from undertile.survey.result import SurveyResult, Suspect
from undertile.survey.slips import SLIPS
from undertile.survey.stats import normal_cdf

EVALUATION_SEED = 303
ALARMS = {slip.code for slip in SLIPS.values()} | {"misfit-undecided", "misfit-unexplained"}
NAMES = {slip.code for kind, slip in SLIPS.items() if kind != "other"}
KIND_ONLY = {"tape case": "tape-case", "cm side": "cm-side"}
"""Slips whose exact size cannot be known: right when the kind and the place are."""
SIZES = ((0.0, 0.124), (0.124, 0.249), (0.249, 1e9))
ODDS = (0.5, 0.7, 0.9, 0.97, 1.01)


@dataclass
class Tally:
    """Counts over some planted slips."""

    planted: int = 0
    caught: int = 0
    rightly: int = 0
    wrongly: int = 0
    placed: int = 0
    power: float = 0.0

    def shares(self) -> dict[str, float]:
        """Shares of the planted slips."""
        n = max(1, self.planted)
        return {
            "planted": self.planted,
            "caught": self.caught / n,
            "named_rightly": self.rightly / n,
            "named_wrongly": self.wrongly / n,
            "place_rightly": self.placed / n,
            "theoretical_power": self.power / n,
        }


@dataclass
class Report:
    """Everything measured in one run."""

    rooms: int
    seed: int
    false_alarms: int = 0
    asked: int = 0
    kinds: dict[str, Tally] = field(default_factory=dict)
    sizes: dict[str, Tally] = field(default_factory=dict)
    offered: list[tuple[float, bool]] = field(default_factory=list)
    offered_by_kind: list[tuple[float, bool]] = field(default_factory=list)
    natural: Tally = field(default_factory=Tally)
    natural_clean: int = 0
    natural_false: int = 0

    def as_json(self) -> dict[str, Any]:
        """Shares instead of counts, and the calibration by class of odds."""
        return {
            "rooms": self.rooms,
            "seed": self.seed,
            "false_alarms": self.false_alarms / max(1, self.rooms),
            "asked_on_clean": self.asked / max(1, self.rooms),
            "by_kind": {kind: tally.shares() for kind, tally in self.kinds.items()},
            "by_size": {name: tally.shares() for name, tally in sorted(self.sizes.items())},
            "natural": {k: v for k, v in self.natural.shares().items() if k != "theoretical_power"},
            "natural_clean": self.natural_clean,
            "natural_false_alarms": self.natural_false / max(1, self.natural_clean),
            "calibration_natural": calibration(self.offered),
            "calibration_by_kind": calibration(self.offered_by_kind),
        }


def calibration(offered: Iterable[tuple[float, bool]]) -> list[dict[str, float]]:
    """Of the corrections offered in each class of odds: how many, mean odds, share right."""
    out = []
    pairs = list(offered)
    for low, high in pairwise(ODDS):
        inside = [(odds, right) for odds, right in pairs if low <= odds < high]
        if inside:
            mean = sum(odds for odds, _ in inside) / len(inside)
            share = sum(right for _, right in inside) / len(inside)
            out.append({"from": low, "offered": len(inside), "mean_odds": mean, "right": share})
    return out


def alarms(result: SurveyResult) -> list[Finding]:
    """Findings that say something was misread."""
    return [f for f in result.findings if f.code in ALARMS and f.severity is Severity.ACT]


def named_groups(result: SurveyResult) -> list[tuple[Finding, tuple[Suspect, ...]]]:
    """Findings that offer a correction, each with its group of suspects."""
    said = [
        f for f in result.findings if f.code in ALARMS - {"misfit-unexplained"} and f.severity is Severity.ACT
    ]
    return [(f, g) for f, g in zip(said, result.suspects, strict=True) if f.code in NAMES]


def is_right(survey: Survey, slip: Planted, finding: Finding, group: Sequence[Suspect]) -> bool:
    """Whether the correction offered first is the planted slip undone."""
    top = group[0]
    if slip.kind in KIND_ONLY:
        return finding.code == KIND_ONLY[slip.kind] and [top.where] == list(slip.right)
    if slip.kind == "line moved":
        return finding.code == "line-moved" and _same_move(survey, slip, finding)
    have = {place: parse_length(text, "in").inches for place, text in top.changes}
    return have == {place: parse_length(text, "in").inches for place, text in slip.right.items()}


def _same_move(survey: Survey, slip: Planted, finding: Finding) -> bool:
    first = next(iter(slip.right))
    order = next(order for order in survey.order.values() if first in order)
    start = finding.data["from"]
    if start not in order or abs(order.index(start) - order.index(first)) > 1:
        return False
    shifts = [
        float(parse_length(text, "in").inches - survey.values[place]) for place, text in slip.right.items()
    ]
    shift = float(parse_length(finding.data["shift"], "in").inches)
    return abs(shift - sum(shifts) / len(shifts)) <= 1 / 16 + 1e-9


def theoretical_power(truth: SurveyFacts, survey: Survey, slip: Planted, critical: float) -> float:
    """Power of Baarda's test along the planted change, at the clean survey's own redundancy."""
    _, _, fit = adjust_survey(truth)
    index = {seen.place: i for i, seen in enumerate(fit.observations) if seen.slope}
    change = {}
    for place, text in slip.right.items():
        if place in index:
            i = index[place]
            wrong = float(survey.values[place] - parse_length(text, "in").inches)
            change[i] = wrong * fit.observations[i].slope
    off = sqrt(max(0.0, fit.curvature(change)))
    return normal_cdf(off - critical) + normal_cdf(-off - critical)


def _count(
    tallies: Sequence[Tally], caught: bool, rightly: bool, wrongly: bool, placed: bool, power: float
) -> None:
    for tally in tallies:
        tally.planted += 1
        tally.caught += caught
        tally.rightly += rightly
        tally.wrongly += wrongly
        tally.placed += placed
        tally.power += power


def measure(
    rooms: int, seed: int, kinds: Sequence[str] = KINDS, say: Callable[[str], None] = lambda line: None
) -> Report:
    """Run the three experiments.

    Parameters
    ----------
    rooms : int
        Surveys in the clean and the natural experiment, and of each kind in the third.
    seed : int
    kinds : sequence of str
    say : callable
        Told of progress, one line at a time.

    Returns
    -------
    Report
    """
    report = Report(rooms, seed)
    rng = random.Random(f"{seed} clean")
    for _ in range(rooms):
        result = read(clean_survey(rng).facts())
        report.false_alarms += bool(alarms(result))
        report.asked += any(f.code == "look-again" for f in result.findings)
    say(f"clean: {report.false_alarms} false alarms in {rooms}")
    for kind in kinds:
        rng = random.Random(f"{seed} {kind}")
        report.kinds[kind] = Tally()
        for _ in range(rooms):
            _one_of_kind(rng, kind, report)
        say(f"{kind}: {report.kinds[kind].shares()}")
    rng = random.Random(f"{seed} natural")
    for _ in range(rooms):
        _natural(rng, report)
    say("natural mix done")
    return report


def _one_of_kind(rng: random.Random, kind: str, report: Report) -> None:
    survey = clean_survey(rng)
    truth = survey.facts()
    if not plant(rng, survey, kind):
        return
    slip = survey.planted[0]
    result = read(survey.facts())
    critical = result.global_test["critical"] if result.global_test else 4.0
    groups = named_groups(result)
    marks = [is_right(survey, slip, finding, group) for finding, group in groups]
    placed = any(set(slip.right) & _places(group[0]) for group in result.suspects)
    report.offered_by_kind += [(g[0].odds, right) for (_, g), right in zip(groups, marks, strict=True)]
    size = next(f"{n}" for n, (low, high) in enumerate(SIZES) if low <= slip.size < high)
    tallies = [report.kinds[kind]]
    if len(slip.right) == 1:
        place = next(iter(slip.right))
        group = "width" if place.startswith("width") else "reading" if " at " in place else "other check"
        by_tape = f"{group}{', covered by ' + survey.tool if slip.covered and group == 'reading' else ''}"
        name = ("under 1/8", "1/8 to 1/4", "1/4 and more")[int(size)]
        tallies.append(report.sizes.setdefault(f"{by_tape}: {name}", Tally()))
        if slip.covered and group == "reading":
            tallies.append(report.sizes.setdefault(f"reading, covered: {name}", Tally()))
    _count(
        tallies,
        bool(alarms(result)),
        any(marks),
        bool(marks) and not any(marks),
        placed,
        theoretical_power(truth, survey, slip, critical),
    )


def _places(suspect: Suspect) -> set[str]:
    """Places a suspect names; of a moved line its first reading."""
    first = suspect.where.partition(" from ")[2].removesuffix(" on")
    return {place for place, _ in suspect.changes} | {suspect.where, first}


def _natural(rng: random.Random, report: Report) -> None:
    survey = natural_survey(rng)
    result = read(survey.facts())
    groups = named_groups(result)
    if not survey.planted:
        report.natural_clean += 1
        report.natural_false += bool(alarms(result))
    for finding, group in groups:
        right = any(is_right(survey, slip, finding, group) for slip in survey.planted)
        report.offered.append((group[0].odds, right))
    for slip in survey.planted:
        marks = [is_right(survey, slip, finding, group) for finding, group in groups]
        near = [g for _, g in groups if set(slip.right) & _places(g[0])]
        said = any(set(slip.right) & _places(s) for group in result.suspects for s in group)
        placed = any(set(slip.right) & _places(group[0]) for group in result.suspects)
        _count([report.natural], any(marks) or said, any(marks), bool(near) and not any(marks), placed, 0.0)


def main(arguments: Sequence[str] | None = None) -> int:
    """Command line of the benchmark."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rooms", type=int, default=200, help="surveys in each experiment (default 200)")
    parser.add_argument("--seed", type=int, default=EVALUATION_SEED, help="303 for the figures, 101 to tune")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    chosen = parser.parse_args(arguments)
    if chosen.rooms < 1:
        parser.error(f"--rooms needs a number of surveys from 1 up, not {chosen.rooms}")
    report = measure(chosen.rooms, chosen.seed, say=lambda line: print(line, file=sys.stderr))
    if chosen.json:
        print(json.dumps(report.as_json(), indent=1))
    else:
        print(table(report))
    return 0


def table(report: Report) -> str:
    """The report as text."""
    out = [
        f"clean surveys: {report.false_alarms} false alarms and {report.asked} questions in {report.rooms}",
        f"{'':44}planted caught rightly wrongly place  theory",
    ]
    rows = [*report.kinds.items(), *sorted(report.sizes.items()), ("natural mix", report.natural)]
    for name, tally in rows:
        s = tally.shares()
        theory = "" if tally is report.natural else f"{s['theoretical_power']:7.0%}"
        out.append(
            f"{name:44}{s['planted']:7.0f}{s['caught']:7.0%}{s['named_rightly']:8.0%}"
            f"{s['named_wrongly']:8.0%}{s['place_rightly']:7.0%}{theory}"
        )
    out.append(f"natural mix, no slip: {report.natural_false} false alarms in {report.natural_clean}")
    for name, pairs in (("natural", report.offered), ("by kind", report.offered_by_kind)):
        for row in calibration(pairs):
            out.append(
                f"odds from {row['from']:.2f} ({name}): {row['offered']:.0f} offered at a mean of "
                f"{row['mean_odds']:.1%}, right {row['right']:.1%}"
            )
    return "\n".join(out)


if __name__ == "__main__":
    raise SystemExit(main())
