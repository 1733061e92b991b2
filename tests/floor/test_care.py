"""Decay, bearings and stops: what stops the work, and who may lift it."""

from __future__ import annotations

import pytest

from tests.floor.cast import KNOWN, ask, checks, codes, facts, row, verdicts
from undertile.findings import Severity, Verdict
from undertile.floor.facts import FloorFacts
from undertile.floor.run import floor
from undertile.job.shape import table_of
from undertile.packet.words.sentences import SPANISH


def soft(**own: object):
    its = {"start": "12", "length": "6", "depth": "1"} | own
    return facts(all_joists=KNOWN, joists=row(J2={"soft": {"a": its}}), joists_run="out from the back wall")


@pytest.mark.parametrize(
    ("own", "code", "severity"),
    [
        ({"start": "0"}, "joist-decay-bearing", Severity.STOP),
        ({"at_bearing": True}, "joist-decay-bearing", Severity.STOP),
        (
            {"start": "140"},
            "joist-decay-bearing",
            Severity.STOP,
        ),  # independent: 140 and 6 pass the span of 144
        ({"start": "60"}, "joist-decay-middle", Severity.STOP),  # independent: 48 to 96 is the middle
        ({"start": "42", "length": "7"}, "joist-decay-middle", Severity.STOP),
        ({"start": "42"}, "joist-soft", Severity.ACT),
        ({"depth": "1-5/8"}, "joist-decay-deep", Severity.STOP),  # independent: 9-1/4 over 6 is 1.542
        ({"depth": "1-1/2"}, "joist-soft", Severity.ACT),  # independent: 1.5 is under 1.542
        ({"depth": None}, "joist-decay-deep", Severity.STOP),
    ],
)
def test_decay_by_where_it_is(own: dict, code: str, severity: Severity) -> None:
    own = {key: value for key, value in own.items() if value is not None} | (
        {} if own.get("depth", "") is not None else {"depth": None}
    )
    found = [each for each in ask(soft(**own)).findings if each.code.startswith("joist-")]
    assert [(each.code, each.severity) for each in found] == [(code, severity)]
    assert severity is Severity.ACT or "Shore" in found[0].next_step


def test_how_deep_it_may_be_prints_no_more_than_it_is() -> None:
    """independent: 9-1/4 over 6 is 98.67 sixty-fourths: 98 of them print, 1-17/32."""
    (found,) = [each for each in ask(soft(depth="1-5/8")).findings if each.code == "joist-decay-deep"]
    assert '1-17/32"' in str(found.expected)


def test_a_joist_of_unknown_span_may_be_soft_in_the_middle() -> None:
    bare = {key: value for key, value in KNOWN.items() if key != "span"}
    its = facts(all_joists=bare, joists=row(J2={"soft": {"a": {"start": "12", "length": "6", "depth": "1"}}}))
    found = {each.code: each for each in ask(its).findings}
    stop = found["joist-decay-middle"]
    assert stop.severity is Severity.STOP
    # independent: at 12 of 144 it is off the middle third: the span is what tells
    assert stop.next_step.startswith("Measure its clear span first")
    assert "Shore" in stop.next_step
    its = facts(
        all_joists=KNOWN, joists=row(J2={"soft": {"a": {"start": "12", "length": "6", "depth": "1"}}})
    )
    assert "joist-decay-middle" not in codes(ask(its))


def test_a_sister_reaches_four_feet_past_and_no_further_than_the_joist() -> None:
    """Common practice: 4 ft past what is bad."""
    (found,) = [each for each in ask(soft(start="40")).findings if each.code == "joist-soft"]
    assert 'from 0" to 94"' in found.next_step  # independent: 40 less 48 is off the joist; 46 and 48 is 94


def test_in_mm_a_sister_s_ends_are_sawn_to_whole_millimeters_outward() -> None:
    """independent: 1300.2 and 150 and 48 times 25.4 is 2669.4, up 2670; 1300.2 less 1219.2 is 81."""
    mm = {"width": "38", "depth": "235", "span": "5000", "make": "sawn", "species": "douglas fir-larch"}
    a = {"start": "1300.2", "length": "150", "depth": "25"}
    joists = {f"J{i}": {"at": str(400 * i)} for i in (1, 2, 3)}
    joists["J2"]["soft"] = {"a": a}  # type: ignore[assignment]
    its = FloorFacts.model_validate({"all_joists": mm, "joists": joists}, context={"unit": "mm"})
    found = floor({"floor": its, "unit": "mm"}, {})
    (told,) = [each for each in found.findings if each.code == "joist-soft"]
    assert "from 81 mm to 2670 mm at least" in told.next_step


@pytest.mark.parametrize(
    ("length", "on", "verdict"),
    [
        ("1-1/2", "wood or metal", "pass"),  # published: IRC R502.6
        ("1-7/16", "wood or metal", "fail"),
        ("3", "masonry", "pass"),
        ("2-15/16", "masonry", "fail"),
        # independent: not known what it bears on, it passes where both do and fails where neither does
        ("3", "unknown", "pass"),
        ("2", "unknown", "not shown"),
        ("1", "unknown", "fail"),
    ],
)
def test_length_on_a_bearing(length: str, on: str, verdict: str) -> None:
    its = facts(all_joists=KNOWN | {"bearing": length, "bearing_on": on}, joists=row(many=1))
    assert checks(ask(its))["joist-bearing-J1"].verdict.value == verdict


def test_cutting_the_floor_open_asks_for_the_usual_care_once() -> None:
    its = facts(
        all_joists=KNOWN,
        joists=row(),
        joists_run="out from the back wall",
        patch={"bad": {"a": {"left": "20", "right": "40", "back": "8", "front": "30"}}},
    )
    assert codes(ask(its)).count("floor-asbestos") == 1


def test_what_is_missing_is_one_line_each() -> None:
    bad = {"bad": {"a": {"left": "20", "right": "40", "back": "8", "front": "30"}}}
    assert codes(ask(facts(patch=bad)))[:2] == ["joists-run-unknown", "joists-missing"]
    twice = row() | {"X": {"at": "8"}}
    assert "joist-twice" in codes(
        ask(facts(all_joists=KNOWN, joists=twice, joists_run="along the back wall"))
    )
    far = {"bad": {"a": {"left": "70", "right": "100", "back": "8", "front": "30"}}}
    found = ask(facts(all_joists=KNOWN, joists=row(many=3), joists_run="out from the back wall", patch=far))
    assert "patch-no-edge" in codes(found)
    assert found.layouts == ()


def test_a_job_can_hold_every_fact() -> None:
    table = table_of(FloorFacts)
    assert set(table.fields) == set(FloorFacts.model_fields)
    assert table.required == ()


def test_every_finding_and_check_has_a_source_that_is_kept() -> None:
    from undertile.sources import SOURCES

    its = soft(start="0", depth="2")
    found = ask(its.model_copy(update={"tile": "stone"}))
    assert found.findings
    assert all(each.source in SOURCES for each in (*found.findings, *found.checks))
    assert all(check.next_step for check in found.checks if check.verdict is not Verdict.PASS)


@pytest.mark.parametrize(
    ("start", "length", "lacks"),
    [
        (None, "60", True),
        ("0", "60", False),
        (None, None, False),  # it reaches from bearing to bearing
    ],
)
def test_where_a_sister_begins_is_asked_where_it_is_not_known(
    start: str | None, length: str | None, lacks: bool
) -> None:
    beside = {"width": "1-1/2", "depth": "9-1/4", "start": start, "length": length}
    sister = {key: value for key, value in beside.items() if value is not None}
    found = ask(facts(all_joists=KNOWN, joists=row(many=2, J1={"sister": sister})))
    said = [each for each in found.findings if each.code == "joist-sister-start-missing"]
    assert [each.where for each in said] == (["joist J1"] if lacks else [])


@pytest.mark.parametrize("sistered", [False, True])
def test_a_length_on_its_bearing_that_nobody_measured_is_not_shown(sistered: bool) -> None:
    """convention 5.1; independent: the same joists with it measured pass, and nothing else changes."""
    own = {"sister": {"width": "1-1/2", "depth": "9-1/4"}} if sistered else {}
    joists = row(many=2, J1=own)
    found = ask(facts(all_joists=KNOWN, joists=joists))
    for name in ("J1", "J2"):
        lacks = checks(found)[f"joist-bearing-{name}"]
        assert (lacks.verdict, lacks.value, lacks.source) == (Verdict.NOT_SHOWN, "", "irc-r502.6")
        assert lacks.limit == 'at least 3"', "not known on what: as on masonry"
        assert lacks.where == f"joist {name}"
        assert "how much of each rests" in lacks.next_step, "alike for each, so that a face says it once"
        assert lacks.next_step.form in SPANISH  # type: ignore[attr-defined]
    on_wood = ask(facts(all_joists=KNOWN | {"bearing_on": "wood or metal"}, joists=joists))
    assert checks(on_wood)["joist-bearing-J1"].limit == 'at least 1-1/2"'
    measured = ask(facts(all_joists=KNOWN | {"bearing": "3"}, joists=joists))
    before, after = verdicts(found), verdicts(measured)
    assert {code for code in before if before[code] is not after[code]} == {
        "joist-bearing-J1",
        "joist-bearing-J2",
    }
    assert after["joist-bearing-J1"] is Verdict.PASS


def test_an_engineered_joist_is_not_asked_for_it() -> None:
    """Its maker's table says it."""
    found = ask(facts(all_joists=KNOWN | {"make": "engineered"}, joists=row(many=2)))
    assert not [code for code in checks(found) if code.startswith("joist-bearing")]
