"""A stop of any part is lifted by a person, by its code and place; taken back, it stands again."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.cast import bring, site
from undertile.findings import Finding, Severity
from undertile.job import plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.words.sentences import SPANISH
from undertile.safety.facts import Lifted
from undertile.safety.lifts import counted, lift
from undertile.screens.slices import key_of
from undertile.wood.clock import NO_CLOCK, Clock

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SOFT = "\n[framing.studs.B2]\nsoft = true\n"
WHO = Lifted(stop="stud-soft", where="B2", by="Ben", reason="probed again, sound", date="2026-03-04")


def table(where: str = "B2") -> str:
    return f'\n[safety.lifted.1]\nstop = "stud-soft"\nwhere = "{where}"\nby = "Ben"\nreason = "sound"\n'


def finding(code: str, where: str, severity: Severity = Severity.STOP) -> Finding:
    return Finding(code, severity, where, "sound wood", "soft", "Look.", "convention-4")


def test_code_and_place_both_have_to_meet() -> None:
    stops = (finding("stud-soft", "B2"), finding("stud-soft", "B3"), finding("decay-bearing", "B2"))
    done = lift(stops, [WHO])
    assert [each.severity for each in done] == [Severity.NOTE, Severity.STOP, Severity.STOP]
    assert done[0].found == "soft; lifted by Ben, 2026-03-04: probed again, sound"
    assert lift(done, [WHO]) == done  # lifting twice is lifting once


def test_only_stops_are_lifted_and_a_lift_that_meets_none_is_said_of_a_whole_job() -> None:
    act = (finding("stud-soft", "B2", Severity.ACT),)
    assert lift(act, [WHO], whole=True) == act
    assert lift((), [WHO]) == ()
    (odd,) = lift((), [WHO], whole=True)
    assert (odd.code, odd.where) == ("stop-not-there", "B2")


@pytest.mark.parametrize(("where", "stands"), [("", True), ("B2", False), ("B3", True)])
def test_a_stop_of_the_framing_is_lifted_in_the_job(where: str, stands: bool) -> None:
    job = read_job((EXAMPLES / "hand.toml").read_text("utf-8") + SOFT + (table(where) if where else ""))
    rebuild = plan(job, STAGES)
    assert (("stud-soft", "B2") in [(each.code, each.where) for each in rebuild.stops]) is stands
    said = [each for each in rebuild.findings if each.code == "stop-not-there"]
    assert [each.where for each in said] == ([where] if where == "B3" else [])


def test_without_the_part_asked_every_stop_stands() -> None:
    job = read_job((EXAMPLES / "hand.toml").read_text("utf-8") + SOFT + table())
    few = plan(job, [stage for stage in STAGES if stage.key in ("survey", "framing")])
    assert "stud-soft" in [each.code for each in few.stops]


def test_on_the_screens_a_lift_sets_no_search_going_and_can_be_taken_back() -> None:
    at = site()
    job = bring(at, "hand")
    at.send(job, {"fact": "framing.studs.B2.soft", "value": "true"})
    at.page(f"/job/{job}/plan")

    state = list(at.answers._kept.values())[-1]
    at.answers.plan(state)
    assert state.rebuild is not None
    assert "stud-soft" in [each.code for each in state.rebuild.stops]
    drafts = [
        {"fact": f"safety.lifted.1.{key}", "value": value}
        for key, value in {"stop": "stud-soft", "where": "B2", "by": "Ben", "reason": "sound"}.items()
    ]
    at.send(job, *drafts)
    at.page(f"/job/{job}/plan")
    after = list(at.answers._kept.values())[-1]
    assert key_of(after.folded.job) == key_of(state.folded.job)
    assert after.rebuild is not None
    assert after.printed is not None
    assert after.view is not None
    for told in (after.rebuild.findings, after.printed.findings, after.view.findings):
        (soft,) = [each for each in told if each.code == "stud-soft"]
        assert soft.severity is Severity.NOTE
        assert "lifted by Ben: sound" in soft.found
    for _ in drafts:
        at.client.post(f"/job/{job}/undo", headers={"accept": "application/json"})
    at.page(f"/job/{job}/plan")
    again = list(at.answers._kept.values())[-1]
    assert again.rebuild is not None
    assert "stud-soft" in [each.code for each in again.rebuild.stops]
    at.store.close()


EARLY = Clock("2026-03-01")
"""Three days before the lift's own day: past what clocks and zones may differ by."""


def test_a_lift_of_a_day_that_has_not_come_lifts_nothing_yet_and_the_stop_says_so() -> None:
    """independent: the same lift with the day come, with none, and with what is no day."""
    stop = (finding("stud-soft", "B2"),)
    (waits,) = lift(stop, [WHO], clock=EARLY)
    assert waits.severity is Severity.STOP
    assert waits.found == "soft; lifted by Ben on 2026-03-04, which has not come yet"
    assert waits.found.form in SPANISH  # type: ignore[attr-defined]
    assert lift((waits,), [WHO], clock=EARLY) == (waits,)
    (done,) = lift((waits,), [WHO], clock=Clock("2026-03-04"))
    assert done.severity is Severity.NOTE
    for day in ("2026-03-01", "2026-03-02", "", "soon"):
        (done,) = lift(stop, [WHO.model_copy(update={"date": day})], clock=EARLY)
        assert done.severity is Severity.NOTE, day
    assert list(counted([WHO], EARLY)) == []
    assert list(counted([WHO], NO_CLOCK)) == [WHO]


@pytest.mark.parametrize(("today", "shut"), [("2026-03-01", True), ("2026-03-04", False), ("", False)])
def test_every_part_holds_the_day_of_a_lift_against_today(today: str, shut: bool) -> None:
    """independent: one job asked on two days; a stop of the framing, floor, house and wood each."""
    soft_end = 'corner = { start = "4"', 'corner = { start = "0"'
    text = (EXAMPLES / "wet-corner.toml").read_text("utf-8").replace(*soft_end) + SOFT
    text += '\n[safety]\nwater = "sewage"\n[wood.leak.pressures.air]\nwhen = "2026-02-28"\n'
    text += 'medium = "air"\nfirst = 30\nlast = 30\nminutes = 15\n'
    places = {
        "stud-soft": "B2",
        "joist-decay-bearing": "J1 soft corner",
        "water-sewage": "everything it reached",
        "air-test": "pressure test, air",
    }
    for code, where in places.items():
        told = {"stop": code, "where": where, "by": "Ben", "reason": "seen", "date": "2026-03-04"}
        lines = "".join(f'{key} = "{value}"\n' for key, value in told.items())
        text += f"\n[safety.lifted.{code}]\n{lines}"
    made = plan(read_job(text), STAGES, today=today, whole=False)
    assert {each.code for each in made.stops if each.code in places} == (set(places) if shut else set())
    missing = made.results["wood"].gate.missing
    held = {str(each.where) for each in missing if each.kind in ("safety", "stop")}
    assert held == ({"B2", "everything it reached", "pressure test, air"} if shut else set())
    assert made.results["floor"].covers is not None
    assert any(each.kind == "stop" for each in made.results["floor"].covers.holds) is shut
    assert bool(made.lifts) is not shut
