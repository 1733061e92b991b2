"""The cautions: said where the facts make them particular, by published bounds; lifted by a person alone."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from pydantic import ValidationError

from undertile.findings import Severity
from undertile.packet.told import foreign
from undertile.packet.words import Words
from undertile.safety.cautions import SafetyResult, cautions
from undertile.safety.facts import SafetyFacts
from undertile.sources import SOURCES

OFF = {"power": {"by": "Ann"}, "water": {"by": "Ann"}}


def ask(**said: Any) -> SafetyResult:
    """With power and water proved off, so that nothing is said of them."""
    return cautions(SafetyFacts.model_validate({"off": OFF, **said}))


def codes(**said: Any) -> set[str]:
    return {each.code for each in ask(**said).findings} - {"asbestos-age"}


def severity(code: str, **said: Any) -> Severity:
    return next(each.severity for each in ask(**said).findings if each.code == code)


def test_nothing_entered_is_nothing_said() -> None:
    """The hold line of every sheet asks for it all the same."""
    assert cautions(SafetyFacts()) == SafetyResult()


@pytest.mark.parametrize(
    ("year", "said"),
    [
        # published: 40 CFR 745, housing before 1978; OSHA 1926.1101, no later than 1980
        (1962, {"lead-not-sampled", "asbestos-not-sampled"}),
        (1977, {"lead-not-sampled", "asbestos-not-sampled"}),
        (1978, {"asbestos-not-sampled"}),
        (1980, {"asbestos-not-sampled"}),
        (1981, set()),
    ],
)
def test_by_age(year: int, said: set[str]) -> None:
    assert codes(year=year) == said


def test_age_alone_never_clears_asbestos() -> None:
    for said in ({"year": 2005}, {"water": "clean"}):
        (found,) = ask(**said).findings
        assert (found.code, found.severity) == ("asbestos-age", Severity.NOTE)


def test_samples_answer_it() -> None:
    none = {"answer": "none found", "by": "lab"}
    assert codes(year=1950, lead={"trim": none}, asbestos={"flooring": none}) == set()
    assert ask(year=2005, asbestos={"flooring": none}).findings == ()
    waiting: dict[str, Any] = {"lead": {"trim": {}}, "asbestos": {"flooring": {}}}
    assert codes(year=1950, **waiting) == {"lead-not-sampled", "asbestos-no-answer"}
    found = {"answer": "found"}
    both = {"lead": {"trim": found}, "asbestos": {"flooring": found}}
    assert codes(year=2005, **both) == {"lead-found", "asbestos-found"}
    assert severity("lead-found", **both) is severity("asbestos-found", **both) is Severity.STOP


@pytest.mark.parametrize(
    ("area", "code", "how_loud"),
    [
        # published: EPA 402-K-01-001 table 2: less than 10, 10 to 100, greater than 100 sq ft
        ("9.9", "mold-small", Severity.NOTE),
        ("10", "mold-medium", Severity.ACT),
        ("100", "mold-medium", Severity.ACT),
        ("100.5", "mold-large", Severity.STOP),
    ],
)
def test_mold_by_area(area: str, code: str, how_loud: Severity) -> None:
    assert codes(mold={"wall B": {"square_feet": area}}) == {code}
    assert severity(code, mold={"wall B": {"square_feet": area}}) is how_loud


def test_mold_adds_up_and_what_is_gone_does_not_count() -> None:
    # independent: 6 + 5 is over ten, 6 alone is not
    two: dict[str, Any] = {"wall B": {"square_feet": "6"}, "ceiling below": {"square_feet": "5"}}
    assert ask(mold=two).mold == Decimal(11)
    assert codes(mold=two) == {"mold-medium"}
    two["wall B"]["gone"] = "2026-03-05"
    assert codes(mold=two) == {"mold-small"}
    two["ceiling below"]["gone"] = "2026-03-06"
    assert codes(mold=two) == set()


def test_foul_water() -> None:
    assert codes(water="sewage") == {"water-sewage"}
    assert severity("water-sewage", water="sewage") is Severity.STOP
    assert codes(water="used") == {"water-used"}
    assert codes(water="clean") == set()


def test_a_wall_of_two_owners() -> None:
    assert severity("wall-shared", shared={"R": {"whose": "number 16"}}) is Severity.ACT
    asked = {"R": {"whose": "number 16", "asked": "Mr Lund: own studs only"}}
    assert severity("wall-shared", shared=asked) is Severity.NOTE


def test_power_and_water_are_asked_for_once_something_is_entered() -> None:
    found = cautions(SafetyFacts.model_validate({"water": "clean", "off": {"power": {"by": "Ann"}}}))
    assert [each.data for each in found.findings if each.code == "not-shut-off"] == [{"what": "water"}]


def test_only_a_person_lifts_a_stop_and_it_stays_as_a_note() -> None:
    lift = {"stop": "water-sewage", "where": "everything it reached", "by": "Ben", "reason": "disinfected"}
    found = next(
        each for each in ask(water="sewage", lifted={"1": lift}).findings if each.code == "water-sewage"
    )
    assert found.severity is Severity.NOTE
    assert "Ben: disinfected" in found.found
    wrong = {**lift, "where": "the kitchen"}
    assert codes(water="sewage", lifted={"1": wrong}) == {"water-sewage"}
    assert severity("water-sewage", water="sewage", lifted={"1": wrong}) is Severity.STOP
    for needed in ("by", "reason"):
        with pytest.raises(ValidationError):
            ask(lifted={"1": {**lift, needed: ""}})


EVERYTHING: tuple[dict[str, Any], ...] = (
    {"year": 1950, "water": "sewage", "mold": {"a": {"square_feet": "120"}}},
    {"lead": {"trim": {"answer": "found"}}, "asbestos": {"flooring": {"answer": "found"}, "mastic": {}}},
    {"water": "used", "mold": {"a": {"square_feet": "12"}}, "shared": {"L": {"whose": "number 3"}}},
    {"year": 1990, "mold": {"a": {"square_feet": "2"}}, "shared": {"L": {"whose": "3", "asked": "yes"}}},
)


@pytest.mark.parametrize("said", EVERYTHING)
def test_every_caution_has_its_source_and_its_spanish(said: dict[str, Any]) -> None:
    words = Words("es")
    found = cautions(SafetyFacts.model_validate(said)).findings
    assert len(found) > 2
    order = [Severity.STOP, Severity.ACT, Severity.NOTE]
    assert [order.index(each.severity) for each in found] == sorted(order.index(e.severity) for e in found)
    for each in found:
        assert each.source in SOURCES
        assert each.next_step
        assert "undertile explain" not in words.finding(each.code, str(each.where))
        assert not any(
            foreign(text, words) for text in (each.where, each.expected, each.found, each.next_step)
        )
