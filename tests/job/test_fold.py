"""What stands of a log, and the job it comes to."""

from __future__ import annotations

import itertools
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.job.cast import OTHER, READING, SETUP, jobs, pen, said
from tests.job.test_entry import LOGS
from undertile.errors import InputError
from undertile.findings import Severity
from undertile.job import Entry, Folded, Job, fold, history, merge
from undertile.job.fold import value_of
from undertile.job.plain import entries_of, taken_apart
from undertile.job.shape import Leaf, LeafKind
from undertile.job.standing import circles, facts_of


def reading(folded: Folded, stud: str = "B2", height: str = "48") -> Fraction | str | None:
    its = folded.job.survey.walls["B"].studs[stud].readings.get(height)
    return its if its is None or isinstance(its, str) else its.inches


def codes(folded: Folded) -> list[str]:
    return sorted(finding.code for finding in folded.findings)


# What stands --------------------------------------------------------------------------------------------


def test_one_entry_is_the_fact() -> None:
    folded = fold([*SETUP, said("r", "5-13/16")])
    assert reading(folded) == Fraction(93, 16)  # independent: 5 x 16 + 13 = 93 by hand
    assert folded.findings == folded.clashes == folded.left_out == ()


def test_a_correction_stands_and_the_clock_has_no_say() -> None:
    first = said("r1", "5-13/16", time="2031-12-31T00:00Z")
    later = said("r2", "5-3/16", supersedes=("r1",), time="1999-01-01T00:00Z")
    assert reading(fold([*SETUP, first, later])) == Fraction(83, 16)  # independent: 5 x 16 + 3 by hand


def test_a_corrected_correction_does_not_bring_the_first_back() -> None:
    chain = [
        said("r1", "6-0"),
        said("r2", "5-0", supersedes=("r1",)),
        said("r3", "6-1/16", supersedes=("r2",)),
    ]
    folded = fold([*SETUP, *chain])
    assert reading(folded) == Fraction(97, 16)  # independent: 6 x 16 + 1 by hand
    assert not folded.clashes


def test_two_corrections_of_one_reading_are_shown_and_neither_is_used() -> None:
    first = said("r1", "6-0")
    ann = said("r2", "5-13/16", supersedes=("r1",), who="Ann", device="phone-1")
    bo = said("r3", "6-3/16", supersedes=("r1",), who="Bo", device="phone-2")
    folded = fold([*SETUP, first, ann, bo])
    assert reading(folded) is None
    assert [clash.entries for clash in folded.clashes] == [(ann, bo)]
    assert folded.left_out == (READING,)
    (finding,) = folded.findings
    assert (finding.code, finding.severity, finding.where) == ("entries-clash", Severity.ACT, "B2 at 48")
    for word in ("5-13/16", "6-3/16", "Ann", "Bo", "phone-1", "phone-2", "2031-05-02T09:00Z"):
        assert word in finding.found
    assert finding.data["value r2"] == "5-13/16"


def test_a_clash_is_settled_by_an_entry_that_supersedes_both() -> None:
    two = [said("r1", "5-13/16"), said("r2", "6-3/16")]
    settled = said("r3", "6-3/16", supersedes=("r1", "r2"))
    assert reading(fold([*SETUP, *two, settled])) == Fraction(99, 16)  # independent: 6 x 16 + 3 by hand
    half = said("r3", "6-3/16", supersedes=("r1",))
    assert codes(fold([*SETUP, *two, half])) == ["entries-clash"]


def test_two_entries_with_the_same_text_are_a_clash_that_says_so() -> None:
    folded = fold([*SETUP, said("r1", "6-0"), said("r2", "6-0")])
    assert reading(folded) is None
    assert "the same text" in folded.findings[0].found


def test_a_height_typed_another_way_is_the_same_fact() -> None:
    other = said("r2", "6-0", fact="survey.walls.B.studs.B2.readings.4' 0\"")
    assert codes(fold([*SETUP, said("r1", "6-1/8"), other])) == ["entries-clash"]


def test_a_fact_can_be_withdrawn_and_that_is_not_the_same_as_not_measured() -> None:
    read = said("r1", "6-0")
    withdrawn = fold([*SETUP, read, said("r2", None, supersedes=("r1",))])
    blank = fold([*SETUP, read, said("r2", "", supersedes=("r1",))])
    assert reading(withdrawn) is None
    assert reading(blank) is None
    assert not withdrawn.findings
    assert not blank.findings
    assert [
        entry.value for entry in history([*SETUP, read, said("r2", None, supersedes=("r1",))], READING)
    ] == [
        "6-0",
        None,
    ]


def test_cannot_reach_is_kept_as_a_state() -> None:
    assert reading(fold([*SETUP, said("r", "x")])) == "x"


# What is wrong with a log -------------------------------------------------------------------------------


def test_a_known_id_with_other_content_is_reported_and_not_used() -> None:
    folded = fold([*SETUP, said("r", "6-0"), said("r", "9-0", fact=OTHER)])
    assert codes(folded) == ["entry-id-reused"]
    assert reading(folded) is None
    assert reading(folded, "B1") is None
    assert folded.left_out == tuple(sorted((READING, OTHER)))


def test_the_same_entry_twice_is_once() -> None:
    assert not fold([*SETUP, said("r", "6-0"), said("r", "6-0")]).findings


def test_a_circle_of_supersedes_is_reported_and_the_fact_is_not_lost_without_a_word() -> None:
    folded = fold([*SETUP, said("r1", "6-0", supersedes=("r2",)), said("r2", "5-0", supersedes=("r1",))])
    assert codes(folded) == ["entries-clash", "supersedes-circle"]
    assert folded.left_out == (READING,)


def test_an_entry_that_supersedes_itself_still_stands() -> None:
    folded = fold([*SETUP, said("r1", "6-0", supersedes=("r1",))])
    assert codes(folded) == ["supersedes-circle"]
    assert reading(folded) == 6


def test_a_circle_is_settled_from_outside() -> None:
    circle = [said("r1", "6-0", supersedes=("r2",)), said("r2", "5-0", supersedes=("r1",))]
    folded = fold([*SETUP, *circle, said("r3", "6-1/8", supersedes=("r1", "r2"))])
    assert codes(folded) == ["supersedes-circle"]
    assert reading(folded) == Fraction(49, 8)  # independent: 6 x 8 + 1 by hand


def test_an_unknown_id_in_supersedes_is_reported_and_the_new_value_stands() -> None:
    folded = fold([*SETUP, said("r1", "6-0", supersedes=("gone",))])
    assert codes(folded) == ["supersedes-unknown"]
    assert folded.findings[0].data == {"fact": READING, "ids": "gone, r1"}
    assert reading(folded) == 6


def test_an_entry_cannot_silence_another_fact() -> None:
    folded = fold([*SETUP, said("r1", "6-0"), said("o", "5-0", fact=OTHER, supersedes=("r1",))])
    assert codes(folded) == ["supersedes-other-fact"]
    assert (reading(folded), reading(folded, "B1")) == (6, 5)


def test_facts_that_no_job_has_are_kept_and_said() -> None:
    newer = Entry("z", "tile.size", "12", "t", "Ann", "phone-1", version=9)
    folded = fold([*SETUP, said("q", "1", fact="survey.wals.B.nominal"), newer])
    assert codes(folded) == ["entry-fact-unknown", "entry-newer"]
    assert [finding.data for finding in folded.findings] == [{"ids": "q"}, {"ids": "z"}]
    assert "write walls" in next(f.found for f in folded.findings if f.code == "entry-fact-unknown")


# What cannot be used is left out, and the rest works ------------------------------------------------------


@pytest.mark.parametrize(
    ("fact", "value", "code"),
    [
        (READING, "6-", "fact-unusable"),
        (READING, "6.5", "fact-unusable"),
        ("framing.occupied", "yes", "fact-unusable"),
        ("framing.rate", "1e999999999", "fact-unusable"),
        ("framing.rate", "-5", "fact-unusable"),
        ("framing.rate", "9" * 20, "fact-unusable"),
        ("survey.walls.L.heights", "2, 48", "fact-unusable"),
        ("survey.walls.L.heights", "[" * 4000, "fact-unusable"),
        ("survey.walls.L.heights", '["2", 48]', "fact-unusable"),
        ("survey.walls.L.heights", '{"2": 48}', "fact-unusable"),
        ("framing.walls.B.kind", "wod", "fact-unusable"),
        ("survey.walls.B.studs.B2.readings.47", "6-0", "height-not-listed"),
        ("survey.walls.B.studs.L1.along", "9", "stud-misnamed"),
        ("survey.walls.B.studs.B3.along", "-3", "along-outside-wall"),
        ("survey.widths.w.reading", "60", "fact-missing"),
        ("framing.studs.B9.kind", "wood", "stud-unknown"),
        (f"framing.stock.{'n' * 61}.thickness", "1/8", "fact-unusable"),
    ],
)
def test_what_cannot_be_read_is_left_out_with_a_finding_and_stays_in_the_log(
    fact: str, value: str, code: str
) -> None:
    folded = fold([*SETUP, said("ok", "6-1/8", fact=OTHER), said("bad", value, fact=fact)])
    assert code in codes(folded)
    assert fact in folded.left_out
    assert reading(folded, "B1") == Fraction(49, 8)  # independent: by hand
    assert all("left out" in finding.next_step for finding in folded.findings)


def test_two_studs_at_one_place_are_both_left_out_until_one_is_corrected() -> None:
    folded = fold([*SETUP, said("a3", "24", fact="survey.walls.B.studs.B3.along")])
    assert set(folded.job.survey.walls["B"].studs) == {"B1"}
    assert "studs-at-one-place" in codes(folded)


def test_without_a_unit_nothing_is_guessed() -> None:
    folded = fold([entry for entry in SETUP if entry.fact != "unit"])
    assert codes(folded) == ["job-unit-missing"]
    assert "4 facts wait" in folded.findings[0].next_step  # independent: SETUP less its unit, counted by hand
    assert folded.job.survey.walls == {}
    assert len(folded.left_out) == 4
    clash = fold([*SETUP, said("u2", "mm", fact="unit")])
    assert codes(clash) == ["entries-clash", "job-unit-missing"]
    assert clash.job.survey.walls == {}


def test_an_mm_job_reads_its_heights_in_mm() -> None:
    log = [
        said("u", "mm", "unit"),
        said("n", "150", "survey.walls.B.nominal"),
        said("h", '["50", "1219.2"]', "survey.walls.B.heights"),
        said("a", "400", "survey.walls.B.studs.B1.along"),
        said("r", "151", "survey.walls.B.studs.B1.readings.50 mm"),
        said("q", "149.5", "survey.walls.B.studs.B1.readings.48"),
    ]
    folded = fold(log)
    assert folded.findings == ()
    # independent: 1219.2 / 25.4 = 48; keys are spelled as the wall spells its heights
    assert set(folded.job.survey.walls["B"].studs["B1"].readings) == {"50", "1219.2"}


@pytest.mark.parametrize(
    ("kind", "text", "value"),
    [
        ("whole", "12", 12),
        ("whole", "-3", -3),
        ("whole", "1.5", None),
        ("whole", "--3", None),
        ("whole", "", None),
        ("whole", "\u0663", None),
        ("whole", "9" * 12, None),
        ("number", "1.50", Decimal("1.50")),
        ("number", "1.5.0", None),
        ("number", "1e3", None),
        ("number", "--1", None),
        ("number", "", None),
        ("number", "9" * 25, None),
        ("flag", "true", True),
        ("flag", "false", False),
        ("flag", "True", None),
        ("text", "true", "true"),
    ],
)
def test_a_text_is_read_as_its_fact_s_kind_or_not_at_all(kind: LeafKind, text: str, value: object) -> None:
    if value is not None:
        assert value_of(text, Leaf(kind)) == value
        return
    with pytest.raises(ValueError):  # noqa: PT011 -- the message is made by the caller
        value_of(text, Leaf(kind))


def test_a_log_of_more_than_one_room_is_said_and_keeps_its_head() -> None:
    flood = [said(f"f{n}", "1/8", fact=f"framing.stock.s{n}.thickness") for n in range(6000)]
    folded = fold([*SETUP, said("n2", "Big one", fact="name"), *flood])
    assert codes(folded) == ["job-too-large"]
    assert (folded.job.name, folded.job.unit) == ("Big one", "in")
    assert folded.job.framing.stock == folded.job.survey.walls == {}
    assert len(folded.left_out) == 6004  # independent: the flood, and SETUP less its unit


# Properties ---------------------------------------------------------------------------------------------


@given(LOGS.filter(lambda log: len(log) < 6))
def test_no_log_breaks_the_fold_and_its_order_does_not_matter(log: list[Entry]) -> None:
    answers = [fold(order) for order in itertools.islice(itertools.permutations(log), 24)]
    assert all(answer == answers[0] for answer in answers)


@given(LOGS)
def test_no_standing_fact_vanishes_without_being_named(log: list[Entry]) -> None:
    facts, _ = facts_of(log)
    folded = fold(log)
    named = {word for finding in folded.findings for word in finding.data.values()}
    for fact in facts.values():
        assert fact.standing, "a fact with entries always has one that stands"
    for address in folded.left_out:
        said = any(address == name or address.startswith(f"{name}.") for name in named)
        assert said or "job-unit-missing" in codes(folded) or "entry-id-reused" in codes(folded)


@settings(max_examples=deep(20, 40), deadline=None)
@given(jobs(), st.randoms())
def test_a_job_taken_to_entries_folds_back_to_itself(job: Job, dice: object) -> None:
    log = list(entries_of(job, pen()))
    dice.shuffle(log)  # type: ignore[attr-defined]
    folded = fold(log)
    assert folded.findings == ()
    assert folded.job == job
    assert _sorted(taken_apart(folded.job)) == _sorted(taken_apart(job))  # every text exactly as typed


def _sorted(value: object) -> object:
    return {key: _sorted(value[key]) for key in sorted(value)} if isinstance(value, dict) else value


@given(st.dictionaries(st.sampled_from("abcdef"), st.sets(st.sampled_from("abcdef"), max_size=3)))
def test_circles_are_those_that_plain_reachability_finds(edges: dict[str, set[str]]) -> None:
    edges = {node: {to for to in edges.get(node, ()) if to in edges} for node in edges}
    # independent: close the relation step by step, then group nodes that reach each other
    reach = {node: set(to) for node, to in edges.items()}
    for _ in edges:
        reach = {node: to | {far for near in to for far in reach[near]} for node, to in reach.items()}
    expected = {
        tuple(sorted({node} | {other for other in reach if other in reach[node] and node in reach[other]}))
        for node in reach
        if node in reach[node]
    }
    assert circles(edges) == sorted(expected)


def test_a_very_long_chain_of_corrections_needs_no_recursion() -> None:
    chain = [said("c00000", "6-0")]
    chain += [said(f"c{n:05}", "6-0", supersedes=(f"c{n - 1:05}",)) for n in range(1, 5000)]
    folded = fold([*SETUP, *chain])
    assert folded.findings == ()
    assert reading(folded) == 6


# History ------------------------------------------------------------------------------------------------


def test_the_history_of_a_fact_runs_from_what_was_replaced_to_what_replaced_it() -> None:
    log = merge(
        [*SETUP],
        [said("z", "6-0"), said("m", "5-0", supersedes=("z",)), said("a", "6-1/8", supersedes=("m",))],
    )
    assert [entry.id for entry in history(log, 'survey.walls.B.studs.B2.readings.48"')] == ["z", "m", "a"]
    assert history(log, OTHER) == ()
    with pytest.raises(InputError, match="no fact of a job"):
        history(log, "survey.wall")


def test_the_history_of_a_circle_has_every_entry_once() -> None:
    log = [said("r1", "6-0", supersedes=("r2",)), said("r2", "5-0", supersedes=("r1",)), said("r3", "7")]
    assert sorted(entry.id for entry in history(log, READING)) == ["r1", "r2", "r3"]
