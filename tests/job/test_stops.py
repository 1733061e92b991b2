"""Stops of the stages after the water keep its gate shut; a plan that nobody worked out is not shown.

Convention 6.2: a stop stands until a person lifts it with name and reason. independent: one fact is changed
in a job whose gate lacks nothing of the framing.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from undertile.findings import Severity
from undertile.framing import search
from undertile.job import Job, plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.cover import cover_line
from undertile.packet.words import Words
from undertile.packet.words.sentences import SPANISH
from undertile.wood.gate import Missing
from undertile.wood.result import WoodResult

HAND = (Path(__file__).resolve().parents[2] / "examples" / "hand.toml").read_text(encoding="utf-8")
WET = '\n[wood.leak]\nsymptom = "wet after use"\n'
HELD = '\n[framing.studs.B2]\nkind = "steel"\nhold = { treatment = "plane", reason = "the owner asks" }\n'
OUT = '\n[framing.studs.B2]\nbearing = "yes"\nhold = { treatment = "replace", reason = "it is split" }\n'


def job(*more: str, laps: bool = False) -> Job:
    text = HAND
    if laps:
        assert 'detail = "stops"' in text
        text = text.replace('detail = "stops"', 'detail = "laps"', 1)
    return read_job(text + WET + "".join(more))


def lifted(stop: str, where: str, **more: str) -> str:
    told = {"stop": stop, "where": where, "by": "P. Dorn", "reason": "shored, letter 4", **more}
    return "\n[safety.lifted.one]\n" + "\n".join(f'{key} = "{value}"' for key, value in told.items()) + "\n"


def whole(its: Job) -> WoodResult:
    found: WoodResult = plan(its, today="2026-11-20", whole=False).results["wood"]
    return found


def quick(its: Job, **known: Any) -> WoodResult:
    """Water, floor and house alone: nothing is searched."""
    asked = [each for each in STAGES if each.key in ("safety", "wood", "floor")]
    found: WoodResult = plan(its, asked, today="2026-11-20", known=known).results["wood"]
    return found


def of(found: WoodResult, *kinds: str) -> list[Missing]:
    return [each for each in found.gate.missing if each.kind in kinds]


def in_spanish(found: WoodResult) -> None:
    for each in of(found, "stop", "plan"):
        forms = [getattr(said, "form", None) for said in (each.where, each.what, each.next_step)]
        assert [form for form in forms if form is not None and form not in SPANISH] == []


@pytest.mark.parametrize(
    ("its", "code", "where", "found_quickly"),
    [
        (job(HELD), "hold-not-offered", "B2", True),
        (job(laps=True), "flange-not-measured", "pan", True),
        (job(OUT), "bearing-stud-out", "B2", False),
    ],
    ids=["hold", "flange", "bearing"],
)
def test_a_stop_of_the_framing_keeps_it_shut_until_a_person_lifts_it(
    its: Job, code: str, where: str, found_quickly: bool
) -> None:
    made = plan(its, whole=False)
    assert code in [each.code for each in made.findings if each.severity is Severity.STOP]
    answer = whole(its)
    stops = of(answer, "stop")
    assert [each.where for each in stops] == [where]
    assert "Only a person lifts it, with name and reason." in stops[0].next_step
    in_spanish(answer)
    at_once = of(quick(its), "stop")
    assert bool(at_once) is found_quickly
    if found_quickly:
        assert (at_once[0].where, at_once[0].what) == (stops[0].where, stops[0].what)
    known = quick(its, framing=made.results["framing"])
    assert of(known, "stop", "plan") == of(answer, "stop", "plan"), (
        "a plan known from elsewhere says the same, unasked"
    )


def test_each_of_them_is_lifted_with_name_and_reason() -> None:
    for text, laps, code, where in (
        (HELD, False, "hold-not-offered", "B2"),
        ("", True, "flange-not-measured", "pan"),
        (OUT, False, "bearing-stud-out", "B2"),
    ):
        assert of(whole(job(text, lifted(code, where), laps=laps)), "stop") == []
        assert of(whole(job(text, lifted(code, "B3"), laps=laps)), "stop") != []


def test_what_is_not_planned_is_not_shown_and_no_search_is_made_for_the_gate(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    its = job()
    assert of(whole(its), "stop", "plan") == []

    def searched(*_given: Any, **_named: Any) -> Any:
        raise AssertionError("searched")

    monkeypatch.setattr(search, "solve", searched)
    found = quick(its)
    (lacks,) = of(found, "stop", "plan")
    assert lacks.kind == "plan"
    assert "a stop of the plan would not show" in lacks.what
    assert "the studs not planned" in cover_line(found, Words("en"))
    assert "montantes sin plan" in cover_line(found, Words("es"))
    assert not found.gate.open
    in_spanish(found)
    before = [each.kind for each in found.gate.missing]
    assert before.index("plan") < before.index("photo"), "photos come when the work is done"


def test_where_no_plan_holds_what_it_would_stop_is_not_shown() -> None:
    """independent: a pan wider than the room has no plan."""
    wide = read_job(HAND.replace('width = "60"', 'width = "75"', 1) + WET)
    made = plan(wide)
    assert made.results["framing"].state == "none"
    (lacks,) = of(made.results["wood"], "plan")
    assert "no plan of them that holds" in lacks.what
    in_spanish(made.results["wood"])


def test_where_no_stud_is_read_or_nobody_speaks_of_water_no_plan_is_asked_for() -> None:
    bare = read_job('version = 2\nunit = "in"\n' + WET)
    assert of(quick(bare), "plan") == []
    assert of(quick(read_job(HAND)), "plan", "stop") == []
    assert quick(read_job(HAND)).gate.missing == plan(read_job(HAND)).results["wood"].gate.missing


def test_a_soft_stud_is_said_once() -> None:
    soft = job("\n[framing.studs.B2]\nsoft = true\n")
    assert [each.where for each in of(quick(soft), "stop")] == ["B2"]
    assert [each.where for each in of(whole(soft), "stop")] == ["B2"]


def test_stops_foreseen_follow_the_facts_they_come_from() -> None:
    """independent: the same question asked of three jobs in turn, kept answers between."""
    for _ in range(2):
        assert [each.where for each in of(quick(job(HELD)), "stop")] == ["B2"]
        assert of(quick(job()), "stop") == []
        assert [each.where for each in of(quick(job(laps=True)), "stop")] == ["pan"]
