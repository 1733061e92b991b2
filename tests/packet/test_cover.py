"""Do not cover yet: one line, in both languages, before the first step that covers something."""

from __future__ import annotations

from pathlib import Path

from undertile.job import plan, read_job
from undertile.packet.cover import COVERS, cover_line, may_cover
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.words import Words
from undertile.pan.order import KINDS
from undertile.wood.facts import LeakFacts, WoodFacts
from undertile.wood.run import water

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
EN, ES = Words("en"), Words("es")


def test_where_nobody_speaks_of_water_nothing_is_said() -> None:
    found = water(WoodFacts())
    assert cover_line(found, EN) == cover_line(None, EN) == ""
    assert may_cover(found)
    assert may_cover(None)


def test_nothing_read_is_not_shown() -> None:
    found = water(WoodFacts(leak=LeakFacts(symptom="always wet")), walls=("L", "B", "R"))
    assert not may_cover(found)
    assert cover_line(found, EN) == (
        "Do not cover yet: moisture not shown, 8 sources of water not ruled out, 4 photos missing, "
        "inspection open."
    )
    assert cover_line(found, ES).startswith("No tape todavía: humedad sin mostrar, 8 fuentes de agua")


def test_it_stands_before_the_first_step_that_covers() -> None:
    """independent: the steps' own kinds, in the order of pan.order."""
    assert [kind for kind in KINDS if kind in COVERS] == list(COVERS)
    made = plan(read_job(EXAMPLES / "wet-corner.toml"))
    view = PlanView(made)
    line = cover_line(made.results["wood"], EN)
    steps = order_steps(view, EN)
    at = next(index for index, step in enumerate(steps) if step.text == line)
    assert steps[at].stop
    kinds = [step.kind for step in view.steps]
    assert at == next(index for index, kind in enumerate(kinds) if kind in COVERS)
    assert [step.text for step in steps].count(line) == 1
    dry = plan(read_job(EXAMPLES / "hand.toml"))
    assert not any("cover" in step.text for step in order_steps(PlanView(dry), EN))
