"""Finished inside size against the code minimum."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built
from undertile.pan.inside import inside_checks

FINISH = {"board": inch("1/2"), "membrane": inch(0), "mortar": inch("1/8"), "tile": inch("3/8")}
"""1 in on the studs, common practice's typical finish face."""


def room(
    width: F,
    depth: F,
    *,
    threshold: object = inch(0),
    planes: dict[str, Plane] | None = None,
    finish: dict[str, object] | None = None,
    walls: str = "LBR",
    unit: str = "in",
) -> dict[str, Check]:
    read = survey(walls=walls, opening=width)
    facts = pan_facts(width=inch(width), depth=inch(depth), threshold=threshold)
    framing = FramingFacts.model_validate({"finish": FINISH if finish is None else finish})
    built = Built(facts, read, framing, plan(read, planes), unit)  # type: ignore[arg-type]
    return {check.code: check for check in inside_checks(built)}


def test_width_and_depth_lose_the_finish_on_every_wall():
    found = room(F(60), F(32), threshold=inch(4))
    # independent: width 60 - 2; depth 32 - 2 - 1 = 29; 58 x 29 = 1682
    assert found["inside-area"].value == "1682 sq in"
    assert any('width 58"' in line for line in found["inside-area"].because)
    assert any('depth 29"' in line for line in found["inside-area"].because)


@pytest.mark.parametrize(
    ("width", "depth", "side", "area"),
    [
        # published: IRC P2708.1: 900 sq in and 30 in; sizes 2 and 1 larger than finished
        (F(32), F(31), Verdict.PASS, Verdict.PASS),  # 30 x 30 = 900
        (F(32), F(31) - F(1, 16), Verdict.FAIL, Verdict.FAIL),
        (F(38), F(27), Verdict.FAIL, Verdict.PASS),  # 36 x 26 = 936, under 1300
        # published: exception: 25 in one way where the area is 1300 or more
        (F(54), F(26), Verdict.PASS, Verdict.PASS),  # 52 x 25 = 1300
        (F(54) - F(1, 16), F(26), Verdict.FAIL, Verdict.PASS),
        (F(60), F(26) - F(1, 16), Verdict.FAIL, Verdict.PASS),  # 58 x 24-15/16
    ],
)
def test_the_published_minimum_to_the_edge(width: F, depth: F, side: Verdict, area: Verdict):
    found = room(width, depth)
    assert found["inside-side"].verdict is side
    assert found["inside-area"].verdict is area


def test_planes_into_the_room_cost_width_and_a_lapped_step_costs_depth_too():
    planes = {w: Plane(w, F(1, 4), F(0), F(0), F(3, 16)) for w in "LR"}
    planes["B"] = Plane("B", F(1, 4), F(0), F(0), F(3, 16))
    found = room(F(60), F(32), planes=planes)
    # independent: width 60 - 2 x 7/16 - 2 = 57-1/8; the back plane carries the pan along, its step does not
    assert any('width 57-1/8"' in line for line in found["inside-side"].because)
    assert any('depth 30-13/16"' in line for line in found["inside-side"].because)


def test_local_variants_are_noted():
    # published: Chicago Plumbing Code and UPC 408.6, 1024 sq in
    assert any("1024 sq in" in line for line in room(F(60), F(32))["inside-area"].because)


def test_a_threshold_nobody_measured_leaves_depth_not_shown():
    found = room(F(60), F(32), threshold=None)
    assert found["inside-side"].verdict is Verdict.NOT_SHOWN
    assert found["inside-area"].verdict is Verdict.NOT_SHOWN
    assert "threshold" in found["inside-side"].next_step
    # independent: 900 / 58 = 15.5, so the 30 in least dimension binds
    assert any('depth must come to 30"' in line for line in found["inside-area"].because)


def test_one_dimension_too_small_fails_whatever_the_other_is():
    # independent: 26 - 2 = 24 finished, under even the exception's 25
    found = room(F(26), F(60), threshold=None)
    assert found["inside-side"].verdict is Verdict.FAIL


def test_a_layer_not_measured_shows_neither():
    found = room(F(60), F(32), finish={k: v for k, v in FINISH.items() if k != "tile"})
    assert {check.verdict for check in found.values()} == {Verdict.NOT_SHOWN}
    assert "tile" in found["inside-area"].next_step


def test_an_open_side_says_what_the_job_does_not_hold():
    found = room(F(60), F(32), walls="LB")
    assert found["inside-area"].verdict is Verdict.NOT_SHOWN
    assert "panel on the open side" in found["inside-area"].next_step


def test_millimetres_come_with_square_centimetres():
    # independent: 900 sq in x 6.4516 = 5806.44 sq cm
    assert room(F(60), F(32), unit="mm")["inside-area"].limit == "at least 5806 sq cm"
