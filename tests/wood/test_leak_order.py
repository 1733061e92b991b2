"""Tests and repairs of one day: by their hours; where one has none, the worse order counts and it is asked.

independent: each order worked by hand, and the same day with hours; the rule is ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import POUR, PRESSURE, standing
from undertile.packet.words.sentences import SPANISH

DAY = "2026-03-04"


def poured(*tests: tuple[str, str], mended: str = "") -> dict[str, Any]:
    leak: dict[str, Any] = {
        "pours": {f"p{n}": POUR | {"when": when, "below": below} for n, (when, below) in enumerate(tests)}
    }
    if mended:
        leak["mended"] = {"drain": {"when": mended, "what": "joint made anew"}}
    return leak


@pytest.mark.parametrize(
    ("tests", "mended", "stands", "asks"),
    [
        # wet, mended, dry, with every hour: that is known
        ([(f"{DAY} 08:00", "wet"), (f"{DAY} 12:00", "dry")], f"{DAY} 10:00", "mended", False),
        ([(f"{DAY} 12:00", "wet"), (f"{DAY} 08:00", "dry")], f"{DAY} 10:00", "found", False),
        # one hour missing: it may have been the worse order
        ([(f"{DAY}", "wet"), (f"{DAY}", "dry")], f"{DAY}", "open", True),
        ([(f"{DAY} 08:00", "wet"), (f"{DAY}", "dry")], f"{DAY} 10:00", "open", True),
        ([(f"{DAY}", "wet"), (f"{DAY} 12:00", "dry")], f"{DAY} 10:00", "open", True),
        ([(f"{DAY} 08:00", "wet"), (f"{DAY} 12:00", "dry")], DAY, "open", True),
        ([(f"{DAY}", "dry")], DAY, "open", True),
        ([(f"{DAY}", "wet"), ("2026-03-05", "dry")], DAY, "open", True),
        # on days of their own no hour is missing
        ([("2026-03-03", "wet"), ("2026-03-05", "dry")], DAY, "mended", False),
        ([("2026-03-03", "wet"), (f"{DAY}", "dry"), ("2026-03-05", "dry")], DAY, "mended", False),
        # of two days that settle it by themselves nothing is asked
        ([("2026-03-04", "wet"), ("2026-03-04", "dry")], "2026-03-05", "open", False),
    ],
)
def test_of_one_day_the_worse_order_counts(
    tests: list[tuple[str, str]], mended: str, stands: str, asks: bool
) -> None:
    leak = poured(*tests, mended=mended)
    if asks or stands != "open":
        assert standing(leak, "drain") == stands
    its = answer(changed(corner(3), leak=leak))
    asked = [each for each in its.findings if each.source == "leak-order"]
    assert bool(asked) is asks
    if asks:
        assert asked[0].code == "leak-test-asked"
        (lacks,) = [each for each in its.gate.missing if "drain below" in each.where]
        assert lacks.next_step == asked[0].next_step
        for said in (asked[0].expected, asked[0].found, asked[0].next_step):
            assert said.form in SPANISH  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", ["a", "z"])
def test_two_tests_without_a_repair_are_no_clean_pair_whatever_they_are_called(name: str) -> None:
    leak = poured((DAY, "dry"))
    leak["pours"][name] = POUR | {"when": DAY, "below": "wet"}
    leak["pours"]["m"] = POUR | {"when": DAY}
    assert standing(leak, "drain") == "found"


@pytest.mark.parametrize("clean", ["2026-03-04", "2026-03-04 09:00"])
@pytest.mark.parametrize("fell", ["2026-03-04", "2026-03-04 10:00"])
@pytest.mark.parametrize("mended", ["2026-03-04", "2026-03-04 12:00"])
def test_pipes_clean_fallen_and_mended_on_one_day_are_open(clean: str, fell: str, mended: str) -> None:
    tests = {"a": PRESSURE | {"when": clean}, "b": PRESSURE | {"when": fell, "last": 54}}
    did = {"when": mended, "what": "elbow"}
    leak = {"pressures": tests, "mended": {"supply": did, "riser": did}}
    assert {standing(leak, each) for each in ("supply", "riser")} == {"open"}
