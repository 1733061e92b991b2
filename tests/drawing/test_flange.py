"""The flange detail: what stands on what, at full size."""

from __future__ import annotations

import pytest

from tests.drawing.cast import example, fattest, smallest
from undertile.drawing import Scene, sheets
from undertile.drawing.scene import Dim, Poly
from undertile.job import Rebuild


def flange(made: Rebuild, **more: str) -> Scene:
    return next(sheet.scene for sheet in sheets(made, **more) if sheet.key == "flange")  # type: ignore[arg-type]


def spans(scene: Scene, layer: str) -> list[tuple[float, float]]:
    """From x to x of a layer's boxes, left to right; the pan's deck left out."""
    boxes = [
        item
        for item in scene.items
        if isinstance(item, Poly) and item.layer == layer and len(item.points) == 4
    ]
    return sorted((min(x for x, _ in b.points), max(x for x, _ in b.points)) for b in boxes)


def test_stops_stands_in_one_line_behind_the_plane() -> None:
    scene = flange(example("old-alcove"))
    (strip,) = spans(scene, "STRIP")
    (shim,) = spans(scene, "SHIM")
    (board,) = spans(scene, "BOARD")
    # independent: strip 1/8, then shim 1/16, end at the plane, x = 0; there the board starts (convention
    # 3.6); the ply that fills the bow from 18 up is not in this section
    assert strip[1] - strip[0] == pytest.approx(1 / 8)
    assert strip[1] == shim[0] == pytest.approx(-0.0625)
    assert shim[1] == 0 == board[0]
    foot = min(
        y for item in scene.items if isinstance(item, Poly) and item.layer == "BOARD" for _, y in item.points
    )
    assert foot == pytest.approx(4.25), "flange at 4, gap 1/4"


def test_laps_stands_on_the_flange() -> None:
    scene = flange(example("square-pan"))
    flange_wide = spans(scene, "PAN")[0]
    (board,) = spans(scene, "BOARD")
    # independent: above-plane = flange plane + flange thickness, 5 mm (convention 3.6)
    assert flange_wide == (0, pytest.approx(5 / 25.4))
    assert board[0] == pytest.approx(5 / 25.4)
    top = float(example("square-pan").job.pan.pan.flange_height.inches)
    foot = min(
        y for item in scene.items if isinstance(item, Poly) and item.layer == "BOARD" for _, y in item.points
    )
    assert foot < top


def test_what_is_not_measured_is_said_and_not_drawn() -> None:
    scene = flange(example("hand"))
    said = " ".join(text.text for text in scene.texts())
    assert "Board: not measured, not drawn." in said
    assert "flange: thickness not measured" in said
    assert not spans(scene, "BOARD")
    assert not spans(scene, "PAN")


def test_no_flange_height_no_detail() -> None:
    assert not [sheet for sheet in sheets(smallest()) if sheet.key == "flange"]


def test_the_print_can_be_checked() -> None:
    dims = [item for item in flange(example("old-alcove")).items if isinstance(item, Dim)]
    assert any(dim.text == '2"' and dim.length == 2 for dim in dims)
    dims = [item for item in flange(example("square-pan")).items if isinstance(item, Dim)]
    assert any(dim.text == "50 mm" and dim.length == pytest.approx(50 / 25.4) for dim in dims)


def test_every_stud_beside_the_pan_is_listed() -> None:
    said = [text.text for text in flange(fattest()).texts()]
    assert {f"B{i}" for i in range(1, 38)} <= set(said)
