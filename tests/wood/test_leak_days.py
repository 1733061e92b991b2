"""Tests of a day that tells nothing of this water: before it was noticed, or of a time that no visit knows.

independent: days counted by the calendar; the rule is ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import COLD, EVERYTHING, NEXT, OUTSIDE, POUR, PRESSURE
from undertile.packet.words.sentences import SPANISH
from undertile.wood.asof import as_of
from undertile.wood.clock import Clock
from undertile.wood.facts import WoodFacts
from undertile.wood.leak import CANDIDATES
from undertile.wood.result import WoodResult

SINGLE = {
    "pressures": {"p": PRESSURE},
    "pours": {"q": POUR},
    "outsides": {"o": OUTSIDE},
    "colds": {"c": COLD},
    "next_doors": {"n": NEXT},
}
OPENED = "2026-03-02 10:00"


def dated(day: str, **more: Any) -> WoodResult:
    """Every test on one day, the wall opened on March 2, visits from then to March 5."""
    tests = {
        kind: {name: each | {"when": f"{day}{each['when'][10:]}"} for name, each in some.items()}
        for kind, some in EVERYTHING.items()
    }
    facts = {"opened": OPENED, "leak": tests | more.pop("leak", {})} | more
    return answer(changed(corner(3), **facts))


def asked(its: WoodResult) -> list[str]:
    found = [each for each in its.findings if each.code == "leak-test-asked"]
    assert len(found) == len({each.found for each in found}), "one line for all of one day"
    return [each.found for each in found for _ in each.where.split("; ")]


@pytest.mark.parametrize(
    ("day", "tells"),
    [
        ("2026-03-02", True),  # the day it was opened, whatever the hour
        ("2026-03-01", False),
        ("2025-10-20", False),
        ("2024-03-03", False),
        ("2026-05-04", True),  # 60 days after March 5
        ("2026-05-05", False),  # noon of it is less than 61, and more than 60 days after 16:00 of March 5
    ],
)
def test_a_test_tells_from_the_opening_on_and_near_to_a_visit(day: str, tells: bool) -> None:
    its = dated(day, leak={"sprays": {}})
    out = set(its.source.of("excluded"))
    assert out == (set(CANDIDATES) - {"enclosure"} if tells else set())
    assert asked(its) == ([] if tells else [day] * len(SINGLE | {"fills": {}}))
    assert bool([each for each in its.gate.missing if each.kind == "source"])


def test_what_such_a_test_finds_it_finds() -> None:
    its = dated("2024-03-03", leak={"pours": {"q": POUR | {"when": "2024-03-03", "below": "wet"}}})
    assert its.source.of("found") == ("drain",)
    assert its.source.of("excluded") == ()


def test_every_zone_of_a_spray_is_asked_about_by_its_own_day() -> None:
    assert "enclosure" in dated("2026-03-03").source.of("excluded")
    early = dated("2026-02-20")
    assert "enclosure" in early.source.of("open")
    assert len(asked(early)) == len(EVERYTHING["sprays"]) + 6


def test_a_person_says_since_when_the_water_was_noticed() -> None:
    early = dated("2026-02-20")
    (said, *_) = [each for each in early.findings if each.code == "leak-test-asked"]
    assert said.expected == f"a day not before the wall was opened, {OPENED}"
    assert "since when the water was noticed" in said.next_step
    its = dated("2026-02-20", leak={"noticed": "2026-02-15"})
    assert set(its.source.of("excluded")) == set(CANDIDATES)
    late = dated("2026-02-14", leak={"noticed": "2026-02-15"})
    assert set(late.source.of("open")) == set(CANDIDATES)
    after = dated("2026-03-02", leak={"noticed": "2026-03-04"})
    assert asked(after) == [], "opened before it was noticed: the earlier counts"


def test_opened_of_the_same_wrong_year_makes_no_test_of_two_years_ago_tell() -> None:
    its = dated("2024-03-03", opened="2024-03-02 10:00")
    assert its.source.of("excluded") == ()
    (said, *_) = [each for each in its.findings if each.code == "leak-test-asked"]
    assert said.expected == "a day within 60 days of a visit (2026-03-02 is the nearest)"


def test_a_test_of_today_is_made_before_the_next_visit() -> None:
    tests = {
        kind: {n: each | {"when": "2026-08-03"} for n, each in some.items()} for kind, some in SINGLE.items()
    }
    facts = changed(corner(3), opened=OPENED, leak=tests)
    assert len(asked(answer(facts))) == len(SINGLE)
    assert asked(answer(facts, clock=Clock(today="2026-08-03"))) == []
    assert asked(answer(facts, clock=Clock(entered="2026-08-04"))) == []
    assert len(asked(answer(facts, clock=Clock(today="2026-12-03")))) == len(SINGLE)


def test_where_nobody_says_when_it_was_opened_the_first_visit_counts() -> None:
    assert asked(dated("2026-03-02", opened="")) == []
    (said, *_) = [each for each in dated("2026-03-01", opened="").findings if each.code == "leak-test-asked"]
    assert said.expected == "a day not before the first visit, 2026-03-02 16:00"


def test_the_day_it_was_noticed_is_a_day_like_others() -> None:
    facts = WoodFacts.model_validate(
        changed(corner(3), leak={"noticed": "2026-03-05"}), context={"unit": "in"}
    )
    assert as_of(facts, "2").leak.noticed == ""
    assert as_of(facts, "3").leak.noticed == "2026-03-05"


def test_what_is_said_of_such_days_is_said_in_spanish_too() -> None:
    for its in (dated("2024-03-03"), dated("2026-02-20", leak={"noticed": "2026-02-25"})):
        for each in (each for each in its.findings if each.code == "leak-test-asked"):
            assert {each.expected.form, each.next_step.form} <= set(SPANISH)  # type: ignore[attr-defined]
    opened = dated("2026-02-20").source.outcomes[0]
    assert opened.nothing.form in SPANISH  # type: ignore[attr-defined]
