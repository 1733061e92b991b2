"""The recorder sees what it is there to see."""

from __future__ import annotations

import pytest

from undertile.drawing import Recorder, Scene
from undertile.drawing.recorder import cuts
from undertile.drawing.scene import Box, Circle, Dim, Line, Poly, Text


def scene(*items: object) -> Scene:
    made = Scene("test", 1.0, Box(0, 0, 10, 10))
    made.add(*items)  # type: ignore[arg-type]
    return made


def test_a_text_in_another_is_seen() -> None:
    first, second = Text((1, 1), "B4", 1.0), Text((2, 1.2), "B5", 1.0)
    assert Recorder(scene(first, second)).collisions() == ["'B4' stands in 'B5'"]
    assert not Recorder(scene(first, Text((5, 1), "B5", 1.0))).collisions()


def test_what_leaves_the_page_is_seen() -> None:
    assert Recorder(scene(Text((9, 5), "leaves", 1.0))).off_page() == ["'leaves' leaves the page"]
    assert Recorder(scene(Line("STUD", (1, 1), (11, 1)))).off_page()
    assert not Recorder(scene(Text((1, 5), "stays", 1.0), Line("STUD", (1, 1), (9, 1)))).off_page()


def test_a_line_through_a_text_is_seen_unless_the_text_hides_it() -> None:
    line = Line("STUD", (0, 5.3), (10, 5.3))
    bare, hidden = Text((1, 5), "+1/8", 1.0), Text((1, 5), "+1/8", 1.0, halo=True)
    assert Recorder(scene(line, bare)).crossed()
    assert not Recorder(scene(line, hidden)).crossed()
    assert Recorder(scene(hidden, line)).crossed(), "a line drawn afterwards is on top"
    assert Recorder(scene(bare, Circle("DRAIN", (2, 5.3), 0.2))).crossed()


def test_a_dimension_keeps_its_own_figure_clear() -> None:
    dim = Dim((1, 1), (9, 1), "x", 2.0, '60-1/8"', 0.5)
    assert not Recorder(scene(dim)).crossed()
    assert dim.length == 8
    assert dim.label is not None
    assert dim.label.box.left > 1


@pytest.mark.parametrize(
    ("segment", "inside"),
    [
        (((0, 0), (4, 4)), True),
        (((0, 2), (4, 2)), True),
        (((0, 1), (4, 1)), False),
        (((0, 0), (1, 1)), False),
        (((0, 3), (1.9, 4.9)), False),
    ],
)
def test_cutting_a_box_by_hand(
    segment: tuple[tuple[float, float], tuple[float, float]], inside: bool
) -> None:
    # independent: by eye; an edge that only touches does not cut
    assert cuts(segment, Box(1, 1, 3, 3)) is inside


def test_an_unknown_layer_is_refused() -> None:
    with pytest.raises(KeyError, match="no layer WALLPAPER"):
        scene(Poly("WALLPAPER", ((0, 0), (1, 1))))
