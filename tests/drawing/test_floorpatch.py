"""The floor patch on paper: true to the layout, dimensioned from two walls, nothing in another's way."""

from __future__ import annotations

import random
from fractions import Fraction as F
from pathlib import Path

import pytest

from tests.drawing.cast import job
from undertile.drawing import Recorder, Sheet, sheets, to_dxf
from undertile.drawing.scene import Circle, Dim, Poly, Text
from undertile.drawing.sheet import HEIGHT, WIDTH
from undertile.floor.result import FloorResult
from undertile.job import Job, Rebuild, plan, read_job
from undertile.job.stages import STAGES

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
FLOOR = [stage for stage in STAGES if stage.key in ("wood", "floor")]


def asked(a_job: Job) -> Rebuild:
    return plan(a_job, FLOOR)


def drawn(rebuild: Rebuild, **more: str) -> dict[str, Sheet]:
    made = sheets(rebuild, **more)  # type: ignore[arg-type]
    return {sheet.key: sheet for sheet in made if sheet.key.startswith("floor-")}


def faults(made: dict[str, Sheet]) -> list[str]:
    out = []
    for key, sheet in made.items():
        seen = Recorder(sheet.scene)
        out += [f"{key}: {each}" for each in (*seen.collisions(), *seen.off_page(), *seen.crossed())]
        wide, tall = sheet.scene.paper
        if wide > WIDTH + 0.01 or tall > HEIGHT:
            out.append(f"{key}: {wide:.2f} by {tall:.2f}")
    return out


def floor_job(seed: int) -> Job:
    """A floor of either way of joists, one layer or two, one stretch or several."""
    rng = random.Random(seed)
    run = rng.choice(("out from the back wall", "along the back wall"))
    apart = rng.choice((12, 16, 24))
    first = rng.randint(1, 12)
    joists = "\n".join(f'J{i + 1} = {{ at = "{first + i * apart}" }}' for i in range(132 // apart))
    stretches = []
    for name in "abc"[: rng.randint(1, 3)]:
        left, back = rng.randint(0, 80), rng.randint(0, 80)
        ends = left + rng.randint(3, 30), back + rng.randint(3, 30)
        stretches.append(
            f'{name} = {{ left = "{left}", right = "{ends[0]}", back = "{back}", front = "{ends[1]}" }}'
        )
    upper = 'upper = { thickness = "1/2" }' if rng.random() < 0.5 else ""
    unit = rng.choice(("in", "mm"))
    text = f"""
version = 2
unit = "in"
name = "A floor"
[floor]
joists_run = "{run}"
[floor.all_joists]
make = "sawn"
width = "1-1/2"
depth = "9-1/4"
span = "120"
[floor.joists]
{joists}
[floor.patch]
width = "120"
depth = "120"
edges = "{rng.choice(("joist centres", "cleats"))}"
lower = {{ thickness = "23/32" }}
{upper}
[floor.patch.panels.p]
thickness = "23/32"
[floor.patch.bad]
{chr(10).join(stretches)}
"""
    made = job(text)
    return made.model_copy(update={"unit": unit})


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_the_wet_corner_collides_nowhere(language: str, unit: str) -> None:
    made = drawn(asked(read_job(EXAMPLE)), language=language, unit=unit)
    assert list(made) == ["floor-patch", "floor-panels"]
    assert not faults(made)


@pytest.mark.parametrize("seed", range(24))
def test_floors_of_every_kind_collide_nowhere(seed: int) -> None:
    rebuild = asked(floor_job(seed))
    found: FloorResult = rebuild.results["floor"]
    for language in ("en", "es"):
        made = drawn(rebuild, language=language)
        assert sum(key.startswith("floor-patch") for key in made) == len(found.layouts)
        assert not faults(made)


@pytest.mark.parametrize("seed", range(24))
def test_dimensions_measure_what_they_say_from_the_two_walls(seed: int) -> None:
    rebuild = asked(floor_job(seed))
    found: FloorResult = rebuild.results["floor"]
    turned = found.runs == "along the back wall"
    for number, layout in enumerate(found.layouts, 1):
        made = drawn(rebuild)
        key = "floor-patch" if len(found.layouts) == 1 else f"floor-patch-{number}"
        dims = [item for item in made[key].scene.items if isinstance(item, Dim)]
        assert all(dim.a == (0.0, 0.0) for dim in dims), "from the corner of the two fixed walls"
        low = layout.lower
        u, v = {float(low.low.at), float(low.high.at)}, {float(low.near.at), float(low.far.at)}
        x, y = (v, u) if turned else (u, v)
        for axis, wanted in (("x", x), ("y", y)):
            measured = {dim.length for dim in dims if dim.axis == axis}
            assert wanted - {0.0} <= measured  # independent: the layout's own lines


def test_what_is_drawn_is_the_layout_in_true_inches() -> None:
    rebuild = asked(read_job(EXAMPLE))
    (layout,) = rebuild.results["floor"].layouts
    scene = drawn(rebuild)["floor-patch"].measured
    (cut,) = [item for item in scene.items if isinstance(item, Poly) and item.layer == "CUT"]
    xs, ys = [p[0] for p in cut.points], [p[1] for p in cut.points]
    # independent, by hand: J1 is soft on top, so the patch runs to wall L; J3 stands at 35-3/4
    assert (min(xs), max(xs), -max(ys), -min(ys)) == (0, 35.75, 0, 30)
    blocks = [item for item in scene.items if isinstance(item, Poly) and item.layer == "BLOCKING"]
    assert len(blocks) == len(layout.blocks) + len(layout.cleats) + 1  # one in the key
    assert to_dxf(scene).count(b"JOIST") >= 3


def test_every_piece_is_named_with_the_size_to_cut() -> None:
    rebuild = asked(read_job(EXAMPLE))
    made = drawn(rebuild)
    texts = {text.text for sheet in made.values() for text in sheet.scene.texts()}
    # independent, by hand: 35-3/4 less 1/8 at the wall and 1/16 at the line; 30 less the same
    assert 'P1 35-9/16" x 29-13/16"' in texts
    (piece,) = rebuild.results["floor"].layouts[0].pieces
    assert piece.size == (F(143, 4) - F(3, 16), 30 - F(3, 16))


def test_a_cut_on_a_joist_s_center_and_the_joist_have_one_figure() -> None:
    """independent: the wet corner is cut at 35-3/4, the center of J3; in mm 908.05, a line goes outward."""
    for unit, figure in (("in", '35-3/4"'), ("mm", "909 mm")):
        items = drawn(asked(read_job(EXAMPLE)), unit=unit)["floor-patch"].scene.items
        texts = {item.text for item in items if isinstance(item, Text)}
        assert f"J3 {figure}" in texts
        assert not any(text.startswith("J3 ~") for text in texts)
        assert figure in {item.text for item in items if isinstance(item, Dim)}


def test_a_job_without_a_patch_has_no_such_sheet() -> None:
    assert drawn(asked(job('version = 2\nunit = "in"\n'))) == {}


NARROW = """
version = 2
unit = "in"
name = "A narrow patch"
[floor]
joists_run = "out from the back wall"
[floor.all_joists]
make = "sawn"
width = "1-1/2"
depth = "9-1/4"
span = "144"
[floor.joists]
J1 = { at = "8" }
J2 = { at = "24" }
J3 = { at = "40" }
J4 = { at = "56" }
[floor.patch]
width = "94"
depth = "72"
lower = { thickness = "23/32", stuff = "plywood" }
[floor.patch.bad]
a = { left = "0", right = "20", back = "0", front = "14" }
[floor.patch.panels]
p = { thickness = "23/32", stuff = "plywood" }
"""


@pytest.mark.parametrize("text", [NARROW, EXAMPLE.read_text("utf-8")])
def test_no_name_of_a_piece_hides_a_screw(text: str, tmp_path: Path) -> None:
    """independent: every screw of the layout against the room each name takes."""
    file = tmp_path / "job.toml"
    file.write_text(text, "utf-8")
    seen = 0
    for sheet in drawn(asked(read_job(file))).values():
        screws = [each for each in sheet.scene.items if isinstance(each, Circle) and each.layer == "SCREW"]
        names = [each.box for each in sheet.scene.texts() if each.halo and each.bold]
        for screw in screws:
            x, y = screw.centre
            seen += 1
            assert not any(b.left < x < b.right and b.bottom < y < b.top for b in names), (x, y)
    assert seen > 10
