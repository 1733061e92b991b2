"""What a word rules out by itself: with a reason, and where wood was wet no pipe and no drain without a test.

independent: each job is another with one fact changed; the rule is ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import EVERYTHING, POUR, PRESSURE, found, standing, told
from undertile.packet.words.sentences import SPANISH
from undertile.wood.leak import CANDIDATES
from undertile.wood.leakword import NO_REASON, NO_TEST, STAYS, doubted

GONE = "torn out, no leak seen"
WORDS: dict[str, Any] = {each: {"reason": GONE} for each in CANDIDATES}


def dry_corner() -> dict[str, Any]:
    """The corner as if it had never been wet."""
    facts = corner(3)
    for point in facts["points"].values():
        point["shown"] = dict.fromkeys(point["shown"], "10")
    return facts


def test_words_alone_find_no_source_where_wood_was_wet() -> None:
    its = answer(changed(corner(3), leak={"not_here": WORDS}))
    assert its.source.of("open") == STAYS
    assert not its.gate.open
    assert [each.where for each in its.gate.missing if each.kind == "source"]
    (said,) = [each for each in its.findings if each.code == "leak-word-alone"]
    assert said.severity == "act"
    assert said.where.count(";") == len(STAYS) - 1, "one line names them all"
    assert "no test has shown yet where the water came from" in said.expected
    words = its.source.statement
    assert words[0] == "No test has shown yet where the water comes from."
    assert not any(each.startswith("Cannot be the drain") for each in words)


def test_the_same_words_stand_where_no_wood_was_ever_wet() -> None:
    its = answer(changed(dry_corner(), leak={"not_here": WORDS}))
    assert set(its.source.of("not here")) == set(CANDIDATES)
    assert not [each for each in its.findings if each.code == "leak-word-alone"]
    once = changed(dry_corner(), leak={"not_here": WORDS}, points__plate_B_16__shown__1="18")
    assert answer(once).source.of("open") == STAYS, "wet once is wet"


def test_one_clean_test_beside_words_leaves_the_other_pipes_open() -> None:
    """independent: seven words and a pour are no more than the pour."""
    leak = {"pours": {"q": POUR}, "not_here": WORDS}
    assert found(leak).of("open") == ("supply", "riser")
    assert standing(leak | {"pressures": {"p": PRESSURE}}, "supply") == "excluded"
    assert found(leak | {"pressures": {"p": PRESSURE}}).settled, "pipes and drain tested, the rest torn out"


@pytest.mark.parametrize(
    "known",
    [
        {"pours": {"q": POUR | {"below": "wet"}}},
        {"mended": {"pan": {"when": "2026-03-05", "what": "curb made new"}}},
    ],
)
def test_a_word_stands_beside_a_source_that_is_known(known: dict[str, Any]) -> None:
    assert standing(known | {"not_here": {"riser": {"reason": GONE}}}, "riser") == "not here"


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
        assert doubted("neighbour", reason, unknown=True) is None
        assert doubted("drain", reason, unknown=False) is None
        assert doubted("drain", reason, unknown=True) == NO_TEST
    forms = [form for its in (NO_REASON, NO_TEST) for form in (its.expected, its.came, its.do)]
    assert {each.form for each in forms} <= set(SPANISH)  # type: ignore[attr-defined]
