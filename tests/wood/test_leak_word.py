"""What a word rules out by itself: with a reason, and where wood was wet nothing that every shower has.

Pipes and the drain need a test; a pan and walls a test, or the day on which they were torn out.

independent: each job is another with one fact changed; the rule is ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import EVERYTHING, POUR, PRESSURE, found, standing, told
from undertile.packet.words.sentences import SPANISH
from undertile.wood.clock import Clock
from undertile.wood.facts import NotHere
from undertile.wood.leak import CANDIDATES
from undertile.wood.leakword import NO_REASON, NO_TEST, NOT_TORN, STAYS, doubted
from undertile.wood.torn import TEARS

GONE = "torn out, no leak seen"
WORDS: dict[str, Any] = {each: {"reason": GONE} for each in CANDIDATES}
TORN: dict[str, Any] = WORDS | {each: {"reason": GONE, "out": "2026-03-02"} for each in TEARS}


def dry_corner() -> dict[str, Any]:
    """The corner as if it had never been wet."""
    facts = corner(3)
    for point in facts["points"].values():
        point["shown"] = dict.fromkeys(point["shown"], "10")
    return facts


def test_words_alone_find_no_source_where_wood_was_wet() -> None:
    its = answer(changed(corner(3), leak={"not_here": WORDS}))
    assert its.source.of("open") == (*STAYS, *TEARS)
    assert not its.gate.open
    assert [each.where for each in its.gate.missing if each.kind == "source"]
    pipes, torn = [each for each in its.findings if each.code == "leak-word-alone"]
    assert pipes.severity == torn.severity == "act"
    assert pipes.where.count(";") == len(STAYS) - 1, "one line names them all"
    assert "one leak does not exclude another" in pipes.expected
    assert torn.where.count(";") == len(TEARS) - 1
    assert "the day on which it was torn out" in torn.expected
    words = its.source.statement
    assert words[0] == "No test has shown yet where the water comes from."
    assert not any(each.startswith("Cannot be the drain") for each in words)


def test_the_same_words_stand_where_no_wood_was_ever_wet() -> None:
    its = answer(changed(dry_corner(), leak={"not_here": WORDS}))
    assert set(its.source.of("not here")) == set(CANDIDATES)
    assert not [each for each in its.findings if each.code == "leak-word-alone"]
    once = changed(dry_corner(), leak={"not_here": WORDS}, points__plate_B_16__shown__1="18")
    assert answer(once).source.of("open") == (*STAYS, *TEARS), "wet once is wet"


def test_one_clean_test_beside_words_leaves_the_other_pipes_open() -> None:
    """independent: seven words and a pour are no more than the pour."""
    leak = {"pours": {"q": POUR}, "not_here": TORN}
    assert found(leak).of("open") == ("supply", "riser")
    assert standing(leak | {"pressures": {"p": PRESSURE}}, "supply") == "excluded"
    assert found(leak | {"pressures": {"p": PRESSURE}}).settled, "pipes and drain tested, the rest torn out"


@pytest.mark.parametrize(
    "known",
    [
        {"pours": {"q": POUR | {"below": "wet"}}},
        {"mended": {"supply": {"when": "2026-03-05", "what": "elbow made new"}}},
    ],
)
def test_one_source_that_is_known_rules_out_no_other_by_a_word(known: dict[str, Any]) -> None:
    """independent: "looked, all fine" beside a leak that was found is no test of the rest."""
    for each in ("riser", *TEARS):
        assert standing(known | {"not_here": {each: {"reason": "looked, all fine"}}}, each) == "open"
    neighbour = {"not_here": {"neighbour": {"reason": "a house alone"}}}
    assert standing(known | neighbour, "neighbour") == "not here"


def test_what_was_torn_out_is_no_source_from_the_day_it_was() -> None:
    its = found({"not_here": TORN})
    assert its.of("not here")[: len(TEARS)] == TEARS
    why = {each.candidate: each.why for each in its.stands}
    assert why["pan"] == f"torn out 2026-03-02: {GONE}"
    drain = {"not_here": {"drain": {"reason": GONE, "out": "2026-03-02"}}}
    assert standing(drain, "drain") == "open", "a drain stays"


@pytest.mark.parametrize(
    ("day", "code", "expected"),
    [
        ("2026-05-20", "out-day-odd", "a day within 30 days of the newest one typed"),
        ("2027-03-02", "out-day-odd", "a day within 30 days of the newest one typed"),
    ],
)
def test_a_day_of_tearing_out_long_after_all_else_counts_for_nothing(
    day: str, code: str, expected: str
) -> None:
    its = answer(changed(corner(3), leak={"not_here": {"pan": {"reason": GONE, "out": day}}}))
    assert "pan" in its.source.of("open")
    (said,) = [each for each in its.findings if each.code == code]
    assert (said.expected, said.found) == (expected, f"torn out {day}")


def test_a_day_of_tearing_out_that_has_not_come_counts_for_nothing() -> None:
    leak = {"not_here": {"pan": {"reason": GONE, "out": "2026-03-20"}}}
    its = answer(changed(corner(3), leak=leak), clock=Clock("2026-03-10"))
    assert "pan" in its.source.of("open")
    (said,) = [each for each in its.findings if each.code == "day-ahead"]
    assert said.found == "2026-03-20"
    assert [each for each in its.gate.missing if each.kind == "day"]
    later = answer(changed(corner(3), leak=leak), clock=Clock("2026-03-21"))
    assert "pan" in later.source.of("not here")


@pytest.mark.parametrize("reason", ["x", "-", "?", "no", "n/a", "1 2", "..."])
@pytest.mark.parametrize("candidate", ["neighbour", "drain"])
def test_a_reason_that_cannot_be_read_is_none(reason: str, candidate: str) -> None:
    known = {"pours": {"q": POUR | {"below": "wet"}}} if candidate != "drain" else {}
    leak = known | {"not_here": {candidate: {"reason": reason}}}
    stands = next(each for each in found(leak).stands if each.candidate == candidate)
    assert stands.standing == "open"
    assert stands.why == "said that it cannot be, and no reason that can be read; not tested"
    (said,) = told(leak, "leak-word-alone")
    assert said.next_step.startswith("Write why it cannot be, or test it")


def test_a_word_without_a_reason_takes_nothing_from_a_test() -> None:
    leak = EVERYTHING | {"not_here": {"drain": {"reason": "x"}}}
    assert standing(leak, "drain") == "excluded"
    assert found(leak).settled
    assert told(leak, "leak-word-alone") == []


def test_what_is_doubted() -> None:
    for reason in ("new", "sin vecino", "нет соседа"):
        said = NotHere(reason=reason)
        assert doubted("neighbour", said, wet=True) is None
        assert doubted("drain", said, wet=False) is None
        assert doubted("drain", said, wet=True) == NO_TEST
        assert doubted("pan", said, wet=True) == NOT_TORN
    forms = [form for its in (NO_REASON, NO_TEST, NOT_TORN) for form in (its.expected, its.came, its.do)]
    assert {each.form for each in forms} <= set(SPANISH)  # type: ignore[attr-defined]
