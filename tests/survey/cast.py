"""A room to survey: convention 8's alcove with everything that checks it, to be slipped in by the tests."""

from __future__ import annotations

from copy import deepcopy
from fractions import Fraction
from math import hypot
from typing import Any

from undertile.lengths import format_length
from undertile.survey import read
from undertile.survey.facts import SurveyFacts
from undertile.survey.result import SurveyResult

F = Fraction
HEIGHTS = ("2", "24", "48", "72", "90")
# published: convention 8, with two more heights as its studs run straight between the three given
BACK: dict[str, tuple[int, tuple[str, ...]]] = {
    "B1": (8, ("6-0", "6-0", "6-0", "6-0", "6-0")),
    "B2": (24, ("6-0", "5-29/32", "5-13/16", "5-7/8", "6-0")),
    "B3": (40, ("6-0", "6-0", "6-0", "6-0", "6-0")),
    "B4": (56, ("6-0", "6-1/16", "6-1/8", "6-1/16", "6-0")),
}
SIDES = (2, 18, 34)
OPENING = F(241, 4)  # published: convention 8, 60-1/4 between the nominal planes


def inch(text: str) -> str:
    """Marked as inches, as a job in inches would read it."""
    return text if text.endswith(("mm", '"', "-0")) else f'{text}"'


def room() -> dict[str, Any]:
    """The alcove as a table of facts: nothing misread, every check exact to the sixteenth."""
    heights = [inch(z) for z in HEIGHTS]

    def wall(studs: dict[str, tuple[int, tuple[str, ...]]]) -> dict[str, Any]:
        return {
            "nominal": "6-0",
            "heights": list(heights),
            "studs": {
                name: {
                    "along": inch(str(along)),
                    "readings": {z: inch(r) for z, r in zip(heights, readings, strict=True)},
                }
                for name, (along, readings) in studs.items()
            },
        }

    flat = ("6-0",) * 5
    length = F(round(hypot(60.25, 34) * 16), 16)
    return {
        "walls": {
            "L": wall({f"L{i + 1}": (along, flat) for i, along in enumerate(SIDES)}),
            "B": wall(BACK),
            "R": wall({f"R{i + 1}": (along, flat) for i, along in enumerate(SIDES)}),
        },
        "widths": {
            f"w{i + 1}": {"depth": inch(str(depth)), "height": inch(z), "reading": inch("60-1/4")}
            for i, (depth, z) in enumerate((d, z) for d in SIDES for z in ("2", "48", "72"))
        },
        "diagonals": {
            name: {
                "corner": corner,
                "depth": inch("34"),
                "height": inch("2"),
                "reading": format_length(length, mark=True),
            }
            for name, corner in (("d1", "BL"), ("d2", "BR"))
        },
        "levels": {
            "v1": {"stud": "B2", "low": inch("2"), "high": inch("48"), "reading": inch("3/16")},
            "v2": {"stud": "L2", "low": inch("2"), "high": inch("72"), "reading": inch("0")},
        },
        "repeats": {
            f"p{i + 1}": {"stud": stud, "height": inch("2"), "reading": "6-0"}
            for i, stud in enumerate(("L1", "B1", "R1"))
        },
    }


def with_readings(table: dict[str, Any], **readings: str) -> dict[str, Any]:
    """A copy with readings changed: ``B2_48="5-3/16"``."""
    out = deepcopy(table)
    for key, text in readings.items():
        stud, z = key.split("_")
        out["walls"][stud[0]]["studs"][stud]["readings"][inch(z)] = text if text in ("", "x") else inch(text)
    return out


def facts(table: dict[str, Any]) -> SurveyFacts:
    """The table as facts."""
    return SurveyFacts.model_validate(table)


def survey(table: dict[str, Any]) -> SurveyResult:
    """The table read."""
    return read(facts(table))


def codes(result: SurveyResult) -> list[str]:
    """Codes of the findings, in order."""
    return [finding.code for finding in result.findings]
