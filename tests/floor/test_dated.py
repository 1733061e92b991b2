"""An engineer's word and a sister's day that have not come yet pass no joist."""

from __future__ import annotations

from typing import Any

import pytest

from tests.floor.cast import KNOWN, ask, facts, row
from tests.floor.test_goesout import EXAMPLE, INSIDE, out_on
from undertile.findings import Severity, Verdict
from undertile.floor.carrying import failing
from undertile.job import Rebuild, plan, read_job
from undertile.job.stages import STAGES
from undertile.wood.facts import WoodFacts

TODAY, FAR = "2026-03-25", "2031-03-06"
WORD = 'J2 = { engineer = { carries = "yes", by = "Eli", when = "%s" }, at'


def rebuilt(*swaps: tuple[str, str], today: str = TODAY, entered: str = "") -> Rebuild:
    text = EXAMPLE.read_text("utf-8")
    for old, new in swaps:
        assert old in text
        text = text.replace(old, new)
    stages = [each for each in STAGES if each.key in ("wood", "floor")]
    return plan(read_job(text.encode()), stages, today=today, entered=entered)


def lacks(found: Rebuild) -> set[str]:
    return {each.where for each in found.results["wood"].gate.missing if each.kind == "joists"}


@pytest.mark.parametrize(
    ("day", "today", "entered", "answered"),
    [
        ("2026-03-06", TODAY, "", True),
        (FAR, "", "", True),  # nothing is known of today
        # independent: 2031 is after 2026, by the calendar
        (FAR, TODAY, "", False),
        (FAR, "", TODAY, False),
        ("2026-03-06", "2019-01-01", TODAY, False),  # the clock is behind the record: one line, and it waits
    ],
)
def test_an_engineers_word_of_a_day_to_come_answers_nothing(
    day: str, today: str, entered: str, answered: bool
) -> None:
    found = rebuilt(("J2 = { at", WORD % day), today=today, entered=entered)
    assert ("J2 notch pipe" in lacks(found)) is not answered
    said = [each for each in found.results["floor"].findings if each.code in ("day-ahead", "clock-behind")]
    assert [each.where for each in said] == (
        []
        if answered
        else ["this device's clock"]
        if today == "2019-01-01"
        else ["joist J2, the engineer's word"]
    )


def test_a_sister_fastened_on_a_day_to_come_does_not_stand() -> None:
    """independent: the same sister without a day; convention 2.6."""
    sister: dict[str, Any] = {"width": "1-1/2", "depth": "9-1/4", "species": "douglas fir-larch"}
    soft = {"a": {"start": "12", "length": "6", "depth": "1"}}

    def codes(**more: str) -> list[str]:
        its = facts(all_joists=KNOWN, joists=row(J2={"soft": soft, "sister": sister | more}))
        return [each.code for each in ask(its, today=TODAY).findings]

    assert "joist-soft" not in codes(fastened="2026-03-06")
    assert sorted(codes(fastened=FAR)) == sorted(["day-ahead", *codes()])


@pytest.mark.parametrize("out", ["2031-02-01", "2026-02-01"])
def test_a_cut_out_day_that_cannot_be_so_counts_for_nothing_either_way(out: str) -> None:
    """independent: dry or wet, the places inside the patch are as they are without that day."""
    plain, odd = rebuilt(), rebuilt(*out_on(out, *sorted(INSIDE)))
    for name in INSIDE:
        assert odd.results["wood"].point(name) == plain.results["wood"].point(name)
        assert odd.results["wood"].point(name).call == "goes out"
    assert odd.results["wood"].gate == plain.results["wood"].gate
    assert odd.results["floor"].covers == plain.results["floor"].covers


def test_what_an_engineer_answered_fails_no_more_for_the_exit_code() -> None:
    """independent: docs/command-line.md, 1 is what must be settled; the check's own figures stay a fail."""

    def of(found: Rebuild) -> tuple[set[str], set[str]]:
        floor = found.results["floor"]
        every = {check.where for check in floor.checks if check.verdict is Verdict.FAIL}
        return every, {check.where for check in failing(floor.checks, [each.joist for each in floor.joists])}

    before, answered = of(rebuilt()), of(rebuilt(("J2 = { at", WORD % "2026-03-06")))
    assert "J2 notch pipe" in before[1]
    assert before[0] == before[1]
    assert answered == (before[0], {each for each in before[1] if not each.startswith("J2 ")})


FIRST = "2026-03-02"
"""The first day known of the wet corner: its opening and its first visit."""


@pytest.mark.parametrize(
    ("day", "answered"),
    [
        # independent: 31 days of January, 28 of February and one: March 2 is 60 days after January 1
        ("2026-01-01", True),
        ("2025-12-31", False),
        ("1990-05-01", False),
    ],
)
def test_an_engineers_word_of_long_before_the_job_answers_nothing(day: str, answered: bool) -> None:
    found = rebuilt(("J2 = { at", WORD % day))
    assert ("J2 notch pipe" in lacks(found)) is not answered
    floor = found.results["floor"]
    said = [each for each in floor.findings if each.code in ("floor-day-early", "joist-engineer")]
    if answered:
        assert [each.severity for each in said] == [Severity.NOTE]
    else:  # one line, and who and what are not asked for as well
        (asked,) = said
        assert asked.severity is Severity.ACT
        assert asked.where == "joist J2, the engineer's word"
        assert asked.found == day
        assert FIRST in asked.expected


def test_the_earliest_day_known_of_the_job_counts() -> None:
    """independent: noticed in 2025, a word of that summer is of this water."""
    noticed = ("[wood.leak]\n", '[wood.leak]\nnoticed = "2025-08-01"\n')
    assert "J2 notch pipe" in lacks(rebuilt(("J2 = { at", WORD % "2025-08-20")))
    found = rebuilt(("J2 = { at", WORD % "2025-08-20"), noticed)
    assert "J2 notch pipe" not in lacks(found)


def test_a_no_of_long_ago_is_still_a_no() -> None:
    """independent: what closes needs a good day, what warns does not."""
    no = WORD.replace('"yes"', '"no"') % "1990-05-01"
    found = rebuilt(("J2 = { at", no))
    assert any("does not carry" in each.found for each in found.results["floor"].findings)
    assert "J2 notch pipe" in lacks(found)


def test_a_sister_of_long_before_the_job_mends_nothing() -> None:
    """independent: the same sister without a day; where nothing is known of the job's days, none is early."""
    sister: dict[str, Any] = {"width": "1-1/2", "depth": "9-1/4", "species": "douglas fir-larch"}
    soft = {"a": {"start": "12", "length": "6", "depth": "1"}}

    def told(opened: str = FIRST, **more: str) -> list[str]:
        its = facts(all_joists=KNOWN, joists=row(J2={"soft": soft, "sister": sister | more}))
        wood = WoodFacts.model_validate({"opened": opened}, context={"unit": "in"})
        return [each.code for each in ask(its, today=TODAY, wood=wood).findings]

    assert "joist-soft" not in told(fastened="2026-03-06")
    assert sorted(told(fastened="1999-01-01")) == sorted(["floor-day-early", *told()])
    assert "joist-soft" not in told("", fastened="1999-01-01")


def again(found: Rebuild) -> list[str]:
    """What the gate waits for to be measured again."""
    steps = (each.next_step for each in found.results["wood"].gate.missing if each.kind == "joists")
    return [each for each in steps if "again: it cannot be in it" in each]


@pytest.mark.parametrize(
    ("cut", "where"),
    [
        # independent: deeper than the joist's 7-1/4; past the end of its span of 126; a hole wider than it
        ('notches = { odd = { start = "8", length = "2", depth = "9" } }', "J2 notch odd"),
        ('notches = { odd = { start = "500", length = "2", depth = "1" } }', "J2 notch odd"),
        ('notches = { odd = { start = "120", length = "10", depth = "1" } }', "J2 notch odd"),
        ('holes = { odd = { at = "22", diameter = "9", top = "1" } }', "J2 hole odd"),
    ],
)
def test_an_engineers_word_does_not_make_good_what_cannot_be(cut: str, where: str) -> None:
    here = EXAMPLE.read_text("utf-8")
    (line,) = [each for each in here.splitlines() if each.startswith("J2 = { at")]
    word = WORD % "2026-03-06"
    odd = line.replace("J2 = { at", f"{word}").replace(line[line.index(", notches") :], f", {cut} }}")
    found = rebuilt((line, odd))
    (asked,) = [each for each in found.results["floor"].findings if each.where == where]
    assert asked.severity is Severity.ACT
    assert len(again(found)) == 1
    fine = odd.replace(cut, 'notches = { odd = { start = "8", length = "2", depth = "1" } }')
    assert not again(rebuilt((line, fine)))
