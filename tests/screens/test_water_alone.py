"""The water's answer asked alone, after each value of a round: the whole job's own, and nothing else worked.

independent: the whole job answered stage by stage is the second method.
"""

from __future__ import annotations

from collections import OrderedDict
from typing import Any

import pytest

from tests.screens.cast import Site, bring, site
from undertile.job import fold, plan
from undertile.screens.answers import State
from undertile.screens.plans import Plans

SHOWN = "wood.points.plate-B-16.shown.3"


def state_of(at: Site, job: str) -> State:
    return State(tuple(at.store.log(job)), OrderedDict())


def alike(at: Site, job: str) -> None:
    """Before the plan is known it lacks, and nothing else differs; then it is the whole job's own answer."""
    state = state_of(at, job)
    whole = plan(fold(at.store.log(job)).job, entered=state.entered)
    alone = state.water
    assert alone is not None
    lacks = [each for each in alone.gate.missing if each.kind == "plan"]
    # in mm no reading of a stud stands as typed, and there is nothing to plan
    assert len(lacks) == ("framing" in whole.results)
    assert (*whole.results["wood"].gate.missing, *lacks) == (
        *(each for each in alone.gate.missing if each.kind != "plan"),
        *lacks,
    )
    state.known[state.key] = Plans(whole)
    assert state.water == whole.results["wood"] == state.beside.results["wood"]


@pytest.mark.parametrize(
    ("fact", "value"),
    [
        (SHOWN, "28"),
        (SHOWN, "9"),
        ("wood.points.floor-6-6.shown.3", "11"),
        ("wood.points.floor-6-6.out", "2026-03-07"),
        ("floor.joists_run", "along the back wall"),
        ("floor.joists.J2.at", "20"),
        ("floor.patch.edges", "cleats"),
        ("survey.widths.0.reading", "58-1/2"),
        ("unit", "mm"),
    ],
)
def test_it_is_the_answer_of_the_whole_job_after_any_value(fact: str, value: str) -> None:
    at = site()
    job = bring(at, "wet-corner")
    alike(at, job)
    stands = at.twin(f"/job/{job}/history", fact=fact)["stands"].split()
    at.send(job, {"fact": fact, "value": value, "supersedes": stands})
    alike(at, job)
    at.store.close()


def test_the_floor_is_not_answered_for_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of the floor only where its patches lie: joists, levels and cut lists are not worked with every key."""

    def worked(*_given: Any, **_named: Any) -> Any:
        raise AssertionError("asked")

    at = site()
    job = bring(at, "wet-corner")
    for name in ("joist_answer", "level_answer", "panel_checks", "patches", "patch_cover"):
        monkeypatch.setattr(f"undertile.floor.run.{name}", worked)
    found = state_of(at, job).water
    assert found is not None
    assert [each.name for each in found.points if each.call == "goes out"]
    judged = at.twin(f"/job/{job}/water/round/3")["judged"]["points"]
    assert judged["wood.points.floor-6-6.shown.3"]["code"] == "goes-out"
    at.store.close()
