"""A small cast for the floor's tests: lengths, joists in a row, a floor asked as a stage is asked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from undertile.findings import Check, Verdict
from undertile.floor.facts import FloorFacts
from undertile.floor.result import FloorResult
from undertile.floor.run import floor

F = Fraction
SIZES = {"2x6": F(11, 2), "2x8": F(29, 4), "2x10": F(37, 4), "2x12": F(45, 4)}
"""Published: PS 20, actual depth of dry lumber 1-1/2 in thick. [in]"""


WEIGHTLESS: dict[str, Any] = {"cover": {"what": "other", "thickness": "3/8", "weight": "0"}}
"""What lies on top is said, and weighs nothing: a hand calculation then has the floor itself alone."""


def facts(**tables: Any) -> FloorFacts:
    """Facts as a job file has them; where nothing is said of what lies on top it is weightless."""
    tables["loads"] = {"on_top": WEIGHTLESS, **tables.get("loads", {})}
    return FloorFacts.model_validate(tables, context={"unit": "in"})


def row(first: int | str = 8, apart: str = "16", many: int = 5, **own: Mapping[str, Any]) -> dict[str, Any]:
    """Joists J1.. in a row; ``own`` adds to one of them by name."""
    step, start = F(apart), F(first)
    return {f"J{i + 1}": {"at": text(start + i * step), **own.get(f"J{i + 1}", {})} for i in range(many)}


def text(value: Fraction) -> str:
    """An exact length as typed."""
    whole, rest = divmod(value, 1)
    if not rest:
        return str(whole)
    return f"{whole}-{rest.numerator}/{rest.denominator}" if whole else f"{rest.numerator}/{rest.denominator}"


KNOWN: dict[str, Any] = {
    "make": "sawn",
    "width": "1-1/2",
    "depth": "9-1/4",
    "species": "douglas fir-larch",
    "grade": "no 2",
    "span": "144",
}
"""Joists of which everything is known: a dry 2x10, 12 ft clear."""


def laid(job: str, **on_new: str) -> str:
    """The wet corner's text with its patch laid: each spot of the cut read again, as before unless said."""

    def read_again(found: re.Match[str]) -> str:
        return f'{found[1]}, on_new = "{on_new.get(found[2], found[3])}" }}'

    out, many = re.subn(r'(?m)^(([abc][123]) = .*reading = "(.*)") }$', read_again, job)
    assert many == 9  # 0 to 24 by 0 to 22, inside 0 to 35-3/4 by 0 to 30
    return out


def ask(its: FloorFacts, **others: Any) -> FloorResult:
    """The floor's answer."""
    return floor({"floor": its, "unit": "in", **others}, {})


def checks(found: FloorResult) -> dict[str, Check]:
    """Checks by code; every code once."""
    out = {check.code: check for check in found.checks}
    assert len(out) == len(found.checks)
    return out


def verdicts(found: FloorResult) -> dict[str, Verdict]:
    return {code: check.verdict for code, check in checks(found).items()}


def codes(found: FloorResult) -> list[str]:
    return [finding.code for finding in found.findings]
