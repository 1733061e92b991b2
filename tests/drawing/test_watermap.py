"""Where the water went: true to the readings and cut lines, dimensioned from one corner, legible."""

from __future__ import annotations

import random
from typing import Any

import pytest

from tests.drawing.cast import job
from tests.drawing.drying_cast import POINT, REFERENCES, days
from tests.drawing.test_drying import wet_corner
from undertile.drawing import Recorder, Sheet, sheets, to_dxf
from undertile.drawing.scene import Circle, Dim, Line, Poly, Strokes
from undertile.drawing.sheet import HEIGHT, WIDTH
from undertile.job import Rebuild, plan
from undertile.job.stages import STAGES

WATER = [stage for stage in STAGES if stage.key == "wood"]


def drawn(rebuild: Rebuild, **more: str) -> Sheet:
    (made,) = [sheet for sheet in sheets(rebuild, **more) if sheet.key == "where-wet"]  # type: ignore[arg-type]
    return made


def faults(sheet: Sheet) -> list[str]:
    seen = Recorder(sheet.scene)
    out = [*seen.collisions(), *seen.off_page(), *seen.crossed()]
    wide, tall = sheet.scene.paper
    if wide > WIDTH + 0.01 or tall > HEIGHT:
        out.append(f"{wide:.2f} by {tall:.2f}")
    return out


def dims(sheet: Sheet) -> list[Dim]:
    return [item for item in sheet.scene.items if isinstance(item, Dim)]


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("visit", ["", "1", "2"])
def test_the_wet_corner_collides_nowhere(language: str, unit: str, visit: str) -> None:
    assert not faults(drawn(wet_corner(visit), language=language, unit=unit))


def test_cut_lines_stand_where_the_answer_has_them() -> None:
    rebuild = wet_corner()
    found = rebuild.results["wood"]
    sheet = drawn(rebuild)
    cuts = [item for item in sheet.scene.items if isinstance(item, Line) and item.layer == "CUT"]
    upright = {line.a[0] for line in cuts if line.a[0] == line.b[0] and line.b[1] - line.a[1] < 10}
    # independent, by hand: plate L is dry at 18, plate B at 40; left of the corner is minus
    assert {-18.0, 40.0} <= upright
    level = {(line.a[0] + line.b[0], line.a[1]) for line in cuts if line.a[1] == line.b[1]}
    assert (16.0, 24.0) in level, "B1 stands at 8, open to 24"
    assert (-4.0, 14.0) in level, "L1 stands at 2 on wall L, open to 14"
    (patch,) = found.patches
    assert (patch.left, patch.right, patch.back, patch.front) == (0, 30, 0, 30)


def test_dimensions_measure_what_they_say_from_the_corner_of_the_two_walls() -> None:
    # independent, by hand: plate L dry at 18, the patch 30 by 30, plate B dry at 40; all from one corner
    sheet = drawn(wet_corner())
    measured = sorted((dim.axis, round(dim.length, 9), dim.text) for dim in dims(sheet))
    assert measured == [("x", 18.0, '18"'), ("x", 30.0, '30"'), ("x", 40.0, '40"'), ("y", 30.0, '30"')]
    assert all(dim.a[0] == 0.0 for dim in dims(sheet) if dim.axis == "x")


def test_bad_is_filled_good_is_open_and_gone_is_crossed() -> None:
    rebuild = wet_corner()
    found = rebuild.results["wood"]
    marks = [
        item for item in drawn(rebuild).scene.items if isinstance(item, Circle) and item.layer == "READING"
    ]
    crosses = [
        item for item in drawn(rebuild).scene.items if isinstance(item, Strokes) and item.layer == "MARK"
    ]
    calls = [each for each in found.points if each.call != "gone"]
    assert len({each.bad for each in calls}) > 1
    assert sum(mark.fill == 0.0 for mark in marks) == sum(each.bad is True for each in calls)
    assert sum(mark.fill == 1.0 for mark in marks) == sum(each.bad is False for each in calls)
    assert len(crosses) == 1
    texts = [text.text for text in drawn(rebuild).scene.texts()]
    for each in calls:
        assert any(text.rstrip("*") == f"{each.value:.1f}" for text in texts), each.where


def test_the_first_visit_says_where_to_read_next() -> None:
    rebuild = wet_corner("1")
    sheet = drawn(rebuild)
    probe = rebuild.results["wood"].probe
    assert probe.probe.at == -18, "toward the front of wall L nothing is read dry"
    rings = [i for i in sheet.scene.items if isinstance(i, Circle) and i.layer == "MARK"]
    assert {ring.centre[0] for ring in rings} == {-18.0}
    texts = " ".join(text.text for text in sheet.scene.texts())
    assert 'Read next, ringed: plate L at 18"' in texts
    assert "read next" in texts
    assert "No further reading" in " ".join(t.text for t in drawn(wet_corner()).scene.texts())


def test_it_is_true_to_size_in_dxf() -> None:
    """independent: ezdxf reads the cut lines back; by hand: plate L at 18 and B at 40, the patch 30 by 30."""
    import io

    import ezdxf

    read = ezdxf.read(io.StringIO(to_dxf(drawn(wet_corner()).measured).decode()))  # type: ignore[attr-defined]
    cuts = [(line.dxf.start, line.dxf.end) for line in read.modelspace().query('LINE[layer=="CUT"]')]
    assert {-18, 40} <= {a.x for a, b in cuts if a.x == b.x}
    assert sorted(round((b - a).magnitude, 9) for a, b in cuts)[-4:] == [30, 30, 30, 30]


def some_points(seed: int) -> dict[str, Any]:
    """Points all over: plates of three walls, studs, two layers of subfloor, and some without a place."""
    rng = random.Random(seed)
    table: dict[str, Any] = {
        "meters": {"pins": {"kind": "pin", "set_to": "Douglas-fir"}},
        "visits": days(3),
        "points": dict(REFERENCES),
    }
    for number in range(4 + seed):
        shown = {str(v + 1): f"{rng.uniform(8, 30) - v:.1f}" for v in range(rng.randint(0, 3))}
        kind = rng.choice(("plate", "plate", "stud", "subfloor", "subfloor", "joist", "other"))
        point: dict[str, Any] = {**POINT, "member": kind, "shown": shown}
        if kind == "plate":
            point |= {"wall": rng.choice("LBR"), "along": str(rng.randint(1, 58))}
        elif kind == "stud":
            point |= {
                "name": rng.choice(("B1", "B2", "L1", "R3", "B99")),
                "height": str(rng.choice((2, 12, 24, 36))),
            }
        elif kind == "subfloor":
            point |= {
                "x": str(rng.randint(1, 58)),
                "y": str(rng.randint(1, 60)),
                "layer": rng.choice((1, 1, 1, 2)),
            }
            point |= {"material": "plywood"}
        elif kind == "joist":
            point |= {"name": "J1", "along": str(rng.randint(2, 40))}
        table["points"][f"p{number}"] = point
    return table


@pytest.mark.parametrize("seed", range(16))
def test_points_anywhere_collide_nowhere_and_none_is_left_out(seed: int) -> None:
    read = wet_corner().job
    rebuild = plan(job_with(read, some_points(seed)), WATER)
    sheet = drawn(rebuild)
    assert not faults(sheet)
    texts = " ".join(text.text for text in sheet.scene.texts())
    points = rebuild.results["wood"].points
    assert len(points) > 3
    for each in points:
        figure = "?" if each.value is None else f"{each.value:.1f}"
        if each.reads.startswith(("<", ">")):  # past the meter's range: never told as its end
            figure = f"{'under' if each.reads[0] == '<' else 'over'} {each.value:g}"
        facts = rebuild.job.facts()["wood"].points[each.name]  # type: ignore[attr-defined]
        if facts.member == "other":
            assert each.name in texts, "named among those without a place"
        else:
            assert figure in texts, each.where


def job_with(read: Any, water: dict[str, Any]) -> Any:
    from undertile.wood.facts import WoodFacts

    return read.model_copy(update={"wood": WoodFacts.model_validate(water, context={"unit": "in"})})


def test_without_a_survey_and_without_places_there_is_none() -> None:
    bare = plan(job('version = 2\nunit = "in"\n'), WATER)
    assert not [sheet for sheet in sheets(bare) if sheet.key == "where-wet"]


def test_the_floor_s_rectangle_is_four_lines_on_its_own_corner() -> None:
    sheet = drawn(wet_corner())
    poly = [item for item in sheet.scene.items if isinstance(item, Poly)]
    assert not poly, "a side that is not known could not be left open in one"
    cuts = [i for i in sheet.scene.items if isinstance(i, Line) and i.layer == "CUT"]
    long = [abs(line.a[0] - line.b[0]) + abs(line.a[1] - line.b[1]) for line in cuts]
    assert sum(each == pytest.approx(30) for each in long) == 4
