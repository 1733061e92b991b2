"""Floor and water in the order of work, and what they leave open: the same wherever it is said."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from tests.packet.cast import MENDED, as_typed, mended, planned, text_of
from undertile.findings import Severity, Verdict
from undertile.floor.result import FloorResult
from undertile.job import Rebuild
from undertile.packet import crew_sheet
from undertile.packet.open_parts import open_parts
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.told import foreign, told
from undertile.packet.words import Words
from undertile.pan.before import BEFORE, before_steps
from undertile.pan.order import KINDS, whole_order
from undertile.sentence import Sentence

EN, ES = Words("en"), Words("es")
SECOND = (
    'lower = { thickness = "23/32", stuff = "plywood" }',
    'lower = { thickness = "23/32", stuff = "plywood" }\nupper = { thickness = "19/32", stuff = "plywood" }',
)


def wet() -> Rebuild:
    return as_typed("wet-corner")


def changed(*pairs: tuple[str, str]) -> Rebuild:
    text = text_of("wet-corner")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    return planned(text)


def by_kind(rebuild: Rebuild) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for step in PlanView(rebuild).steps:
        found.setdefault(step.kind, []).append(step.text)
    return found


def results(rebuild: Rebuild, **other: Any) -> dict[str, Any]:
    return {**rebuild.results, **other}


# The order ----------------------------------------------------------------------------------------------


def test_floor_and_wet_studs_come_before_the_walls_are_worked_and_the_pan_is_set() -> None:
    """independent: the findings, layouts and readings of the stages themselves, one by one."""
    rebuild = wet()
    kinds = [step.kind for step in PlanView(rebuild).steps]
    assert kinds == sorted(kinds, key=KINDS.index)
    for kind in ("floor joist", "floor patch", "floor level", "dry first"):
        assert kinds.index("line") < kinds.index(kind) < kinds.index("plane") < kinds.index("set")
    steps, floor = by_kind(rebuild), rebuild.results["floor"]
    (soft,) = (each for each in floor.findings if each.code == "joist-soft")
    assert steps["floor joist"] == [f"Floor, {soft.where}: {soft.next_step}"]
    assert len(steps["floor patch"]) == len(floor.layouts) == 1
    for line in floor.flow.read_again:
        assert line in steps["floor level"][0]
    # independent: the plan's own findings, and the water's own goal
    first = [each.where for each in rebuild.results["framing"].findings if each.code == "stud-dry-first"]
    assert first == ["B1", "L1"]
    wood = rebuild.results["wood"]
    (goal,) = {each.goal.value for each in wood.points if each.where.startswith(("B1 at", "L1 at"))}
    points = {each.where: each.forecast for each in wood.points}
    days = {stud: (points[f"{stud} at 2"].soonest, points[f"{stud} at 2"].latest) for stud in first}
    assert steps["dry first"] == [
        f"Let {stud} dry to {goal:g} % and read it again before it is trued. Between {soonest} and {latest}, "
        "eight times in ten."
        for stud, (soonest, latest) in days.items()
    ]
    # one order and one figure on every face
    every = [each for each in rebuild.findings if each.where in first and each.code.startswith("stud-")]
    assert {each.code for each in every} == {"stud-dry-first", "stud-will-shrink"}
    order = "Let {} dry to {:g} % and read it again before it is trued."
    assert all(each.next_step.startswith(order.format(each.where, goal)) for each in every)


def test_level_is_a_step_only_where_something_is_done_there() -> None:
    """independent: the places' amounts, with them and with none."""
    rebuild = wet()
    floor: FloorResult = rebuild.results["floor"]
    assert floor.level.places
    one = replace(floor.level.places[0], amount=floor.level.places[0].reading / 768)
    head = "Bring the floor under the pan level (floor sheet)."
    for places, said in (((one,), True), ((replace(one, amount=one.amount * 0),), False)):
        other = replace(floor, level=replace(floor.level, places=places))
        steps = before_steps(results(rebuild, floor=other))
        assert any(step.text.startswith(head) for step in steps) is said


def test_a_second_layer_is_a_step_of_its_own() -> None:
    """independent: the pieces of the layout, by layer."""
    rebuild = changed(SECOND)
    (made,) = rebuild.results["floor"].layouts
    names = {layer: [p.name for p in made.pieces if p.layer == layer] for layer in ("lower", "upper")}
    assert names["upper"]
    lower, upper = by_kind(rebuild)["floor patch"]
    assert all(name in lower for name in names["lower"])
    assert all(name in upper for name in names["upper"])
    assert "second layer" in upper
    assert "second layer" not in lower


def test_a_stop_of_the_floor_comes_first_until_a_person_lifts_it() -> None:
    """independent: a joist soft at its bearing is a stop of the floor (docs/methods/joists.md)."""
    rebuild = changed(('corner = { start = "4"', 'corner = { start = "0"'))
    (stop,) = (each for each in rebuild.results["floor"].findings if each.severity is Severity.STOP)
    order = order_steps(PlanView(rebuild), EN)
    at = next(n for n, step in enumerate(order) if stop.next_step in step.text)
    assert order[at].stop
    assert at < next(n for n, step in enumerate(order) if "patch 1" in step.text)
    assert open_parts(rebuild, EN)[0].text.startswith(f"The floor stops the work: {stop.where}.")
    lift = (
        f'[safety.lifted.one]\nstop = "{stop.code}"\nwhere = "{stop.where}"\nby = "Kim"\nreason = "shored"\n'
    )
    lifted = planned(changed_text(('corner = { start = "4"', 'corner = { start = "0"')) + lift)
    assert "floor stop" not in by_kind(lifted)
    assert "stops the work" not in open_parts(lifted, EN)[0].text


def changed_text(*pairs: tuple[str, str]) -> str:
    text = text_of("wet-corner")
    for old, new in pairs:
        text = text.replace(old, new)
    return text


@pytest.mark.parametrize("name", MENDED)
def test_without_floor_and_water_the_order_is_as_it_was(name: str) -> None:
    """independent: the pan's own steps, untouched."""
    rebuild = mended(name)
    assert before_steps(rebuild.results) == ()
    assert PlanView(rebuild).steps == rebuild.results["pan"].steps
    assert open_parts(rebuild, EN) == ()


def test_nothing_to_do_yet_stays_so() -> None:
    """independent: the steps of floor and water alone are no order of work."""
    assert before_steps(wet().results)
    assert whole_order((), before_steps(wet().results)) == ()


def test_both_languages_say_the_same_steps() -> None:
    """independent: each step's text is the stage's sentence, and nothing of it stays English."""
    steps = [step for step in PlanView(wet()).steps if step.kind in BEFORE]
    assert {step.kind for step in steps} == set(BEFORE) - {"floor stop"}
    spanish = [step.text for step in crew_sheet(wet(), language="es").order]
    for step in steps:
        assert isinstance(step.text, Sentence)
        assert not foreign(step.text, ES)
        assert told(step.text, ES) in spanish
        assert told(step.text, ES) != step.text
    assert len(spanish) == len(crew_sheet(wet()).order)


# What is open -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("words", [EN, ES], ids=["en", "es"])
def test_a_line_for_each_part_and_every_failing_check_with_what_to_do(words: Words) -> None:
    """independent: the floor's own checks and the water's own gate."""
    rebuild = wet()
    floor, water = open_parts(rebuild, words)
    failing = [each for each in rebuild.results["floor"].checks if each.verdict is Verdict.FAIL]
    assert (floor.part, floor.settle_first) == ("floor", True)
    assert len(floor.fails) == len(failing) >= 2
    for line, check in zip(floor.fails, failing, strict=True):
        assert told(check.next_step, words) in line
    assert (water.part, water.settle_first) == ("water", False)
    assert not rebuild.results["wood"].gate.open
    acts = crew_sheet(rebuild, language=words.language).acts
    assert acts[: len(failing)] == floor.fails


def test_a_floor_that_passes_says_nothing() -> None:
    """independent: with the checks that fail taken away nothing is left to say of the floor."""
    rebuild = wet()
    floor: FloorResult = rebuild.results["floor"]
    good = replace(
        floor, floor_checks=tuple(each for each in floor.floor_checks if each.verdict is not Verdict.FAIL)
    )
    assert all(each.verdict is not Verdict.FAIL for each in good.checks)
    left = open_parts(replace(rebuild, results=results(rebuild, floor=good)), EN)
    assert [each.part for each in left] == ["water"]
