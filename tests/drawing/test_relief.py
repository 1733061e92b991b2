"""The relief: before and after at one scale, read at a glance."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest

from tests.drawing.cast import doubtful, example, smallest
from undertile.drawing import Scene, sheets
from undertile.drawing.scene import Poly, Strokes
from undertile.framing.plan import FramingPlan
from undertile.job import Rebuild


def relief(made: Rebuild, wall: str) -> Scene:
    return next(sheet.scene for sheet in sheets(made) if sheet.key == f"relief-{wall}")


def ink(scene: Scene, layer: str, right: bool) -> float:
    """Length of a layer's hatching in one half of the sheet, over the key. [in of the room]"""
    middle = (scene.page.left + scene.page.right) / 2
    return sum(
        hypot(b[0] - a[0], b[1] - a[1])
        for item in scene.items
        if isinstance(item, Strokes) and item.layer == layer
        for a, b in item.segments
        if (a[0] > middle) is right and a[1] > 2
    )


def test_before_is_hatched_and_after_is_white() -> None:
    scene = relief(example("hand"), "B")
    assert ink(scene, "PROUD", right=False) > 0
    assert ink(scene, "BACK", right=False) > 0
    assert ink(scene, "PROUD", right=True) == 0 == ink(scene, "BACK", right=True)


def test_the_hatched_ground_is_as_large_as_the_bow() -> None:
    # independent: B2 stands 3/16 proud at 48 alone, its neighbours at 0, 16 in off, the next heights 46 and
    # 42 off: the face over 1/16 (plane at 0) is a pyramid's foot shrunk to two thirds of each way
    scene = relief(example("hand"), "B")
    proud = [item for item in scene.items if isinstance(item, Strokes) and item.layer == "PROUD"]
    points = [point for item in proud for segment in item.segments for point in segment if point[1] > 2]
    low, high = min(y for _, y in points), max(y for _, y in points)
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    assert (high - 48) / 42 == pytest.approx(2 / 3, abs=0.05)
    assert (48 - low) / 46 == pytest.approx(2 / 3, abs=0.05)
    assert (right - left) / 32 == pytest.approx(2 / 3, abs=0.08)


def test_studs_are_bent_as_often_as_it_says() -> None:
    scene = relief(example("hand"), "B")
    said = next(text.text for text in scene.texts() if "bent" in text.text)
    times = int(said.split("bent ")[1].split()[0])
    bent = [item for item in scene.items if isinstance(item, Poly) and item.layer == "STUD-LINE"]
    before = bent[:4]
    out = max(max(x for x, _ in line.points) - min(x for x, _ in line.points) for line in before)
    # independent: the worst stud of the room worked by hand is 3/16 out at one height
    assert out == pytest.approx(times * 3 / 16)


def test_without_a_plan_there_is_only_before() -> None:
    made = example("hand")
    none = replace(made, results={**made.results, "framing": FramingPlan("none")})
    texts = [text.text for text in relief(none, "B").texts()]
    assert "Before: the wall as it was found" in texts
    assert "After: the wall as it will be" not in texts
    assert any("there is no plan yet" in text for text in texts)


def test_readings_in_doubt_are_marked_and_warned_of() -> None:
    texts = [text.text for text in relief(doubtful(), "B").texts()]
    assert "!" in texts
    assert any(text.startswith("DO NOT CUT YET") for text in texts)


def test_unread_spots_have_a_ring_and_words() -> None:
    texts = [text.text for text in relief(example("square-pan"), "L").texts()]
    assert any(text.startswith("Rings: not read") for text in texts)


def test_one_stud_makes_no_face() -> None:
    assert not [sheet for sheet in sheets(smallest()) if sheet.key.startswith("relief")]
