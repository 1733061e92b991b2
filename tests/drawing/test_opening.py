"""The opening in plan: play, squareness, the pan's place, and the enlargement that is stated."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tests.drawing.cast import example, job, rebuild
from undertile.drawing import Scene, Sheet, sheets
from undertile.drawing.labels import words
from undertile.drawing.plangeometry import plan_view, times_for
from undertile.drawing.playtable import play_rows
from undertile.drawing.scene import Line, Poly
from undertile.drawing.walldata import room_of
from undertile.framing.plan import FramingPlan
from undertile.job import Rebuild
from undertile.pan.set_place import set_place


def opening(made: Rebuild) -> Sheet:
    return next(sheet for sheet in sheets(made) if sheet.key == "opening")


def said(scene: Scene) -> str:
    return " ".join(text.text for text in scene.texts())


def planes(scene: Scene) -> list[Line]:
    """Planes of the side walls; the back wall's and the key's lie level."""
    lines = [item for item in scene.items if isinstance(item, Line) and item.layer == "PLANE"]
    return [line for line in lines if abs(line.a[1] - line.b[1]) > 20]


def x_at(line: Line, y: float) -> float:
    (x0, y0), (x1, y1) = line.a, line.b
    return x0 + (x1 - x0) * (y - y0) / (y1 - y0)


def test_the_room_worked_by_hand() -> None:
    # published: convention 8. opening 60-1/8 between the planes, play 1/8, at depths 1, 16 and 32
    made = example("hand")
    scene = opening(made).measured
    left, right = planes(scene)
    for depth in (1, 16, 32):
        assert x_at(right, -depth) - x_at(left, -depth) == pytest.approx(60.125)
    (pan,) = (item for item in scene.items if isinstance(item, Poly) and item.layer == "PAN")
    xs = [x for x, _ in pan.points]
    assert max(xs) - min(xs) == pytest.approx(60)
    room = room_of(made, "in", words("en"))
    view = plan_view(room)
    assert view is not None
    rows = play_rows(room, view)
    assert [row.opening for row in rows] == ['60-1/8"'] * 3
    # its widths rest on one gap: the readings do not show the play, and no figure is printed
    assert {(row.play, row.verdict.value) for row in rows} == {("", "not shown")}


@pytest.mark.parametrize("name", ["old-alcove", "steel-unit"])
def test_drawn_play_is_the_play_that_was_judged(name: str) -> None:
    made = example(name)
    scene = opening(made).measured
    left, right = sorted(planes(scene), key=lambda line: line.a[0])
    pan = float(made.job.pan.pan.width.inches)
    checks = made.results["pan"]
    for depth in made.job.pan.pan.depths:
        drawn = x_at(right, -float(depth.inches)) - x_at(left, -float(depth.inches)) - pan
        value = checks.check(f"play-{depth.text}").value.removesuffix('"')
        # independent: measured off the drawing; the check's figure is rounded to 1/64
        assert abs(drawn - float(Fraction(value))) < 1 / 64 + 1e-6


def test_the_enlargement_is_stated_and_true_along_the_wall() -> None:
    sheet = opening(example("old-alcove"))
    view = plan_view(room_of(example("old-alcove"), "in", words("en")))
    assert view is not None
    times = times_for(view)
    assert times > 1
    assert f"gaps and offsets are drawn {times} times their size" in said(sheet.scene)
    assert "nothing enlarged" in said(sheet.measured)

    def gaps(scene: Scene) -> list[float]:
        left = min(planes(scene), key=lambda line: line.a[0] + line.b[0])
        (pan,) = (item for item in scene.items if isinstance(item, Poly) and item.layer == "PAN")
        edge = min(pan.points)[0]
        return [edge - x_at(left, y) for y in (-2, -16, -31)]

    small, large = gaps(sheet.measured), gaps(sheet.scene)
    assert large == pytest.approx([times * gap for gap in small], rel=0.02)
    assert [line.a[1] for line in planes(sheet.scene)] == [line.a[1] for line in planes(sheet.measured)]


def test_a_pan_against_one_wall_touches_it_and_the_back() -> None:
    scene = opening(example("square-pan")).measured
    left = min(planes(scene), key=lambda line: line.a[0] + line.b[0])
    (pan,) = (item for item in scene.items if isinstance(item, Poly) and item.layer == "PAN")
    gaps = [x - x_at(left, y) for x, y in (pan.points[0], pan.points[3])]
    # independent: a rigid pan pushed to a wall touches it at one end and stands clear at the other
    assert min(gaps) == pytest.approx(0, abs=1e-3)
    assert max(gaps) >= -1e-3
    assert "One side is open" in said(scene)


def test_no_pan_is_said_and_nothing_is_invented() -> None:
    made = example("hand")
    text = "\n".join(
        f'[survey.walls.{w}]\nnominal = "6-0"\nheights = ["2", "48"]\n[survey.walls.{w}.studs]\n'
        f'{w}1 = {{ along = "2", readings = ["6-0", "6-0"] }}'
        for w in "LBR"
    )
    drawn = opening(rebuild(job(f'version = 2\nunit = "in"\n{text}'))).scene
    assert "The pan is not measured" in said(drawn)
    assert "width from wall to wall is not measured" in said(drawn)
    assert not any(item.layer in ("PAN", "PLANE") for item in drawn.items)
    assert made.job.pan.pan.width is not None


def test_a_pan_that_does_not_drop_in_is_drawn_binding() -> None:
    made = example("old-alcove")
    pan = made.job.pan.pan
    wide = pan.model_copy(update={"width": replace(pan.width, inches=Fraction(61), text="61")})
    changed = made.job.model_copy(update={"pan": made.job.pan.model_copy(update={"pan": wide})})
    scene = opening(replace(made, job=changed)).scene
    assert "does not drop in" in said(scene)
    assert "FAIL" in said(scene)


def test_without_a_plan_studs_are_drawn_as_read() -> None:
    made = example("hand")
    none = replace(made, results={**made.results, "framing": FramingPlan("none")})
    scene = opening(none).scene
    assert not planes(scene)
    assert "not shown" in said(scene)
    assert any(item.layer == "STUD" for item in scene.items)


def test_diagonals_and_drain_are_the_checks_own() -> None:
    made = example("old-alcove")
    text = said(opening(made).scene)
    assert made.results["pan"].check("diagonals").value.removeprefix("differ ") in text
    assert f"margin {made.results['pan'].check('drain-across').margin}" in text


def test_a_pan_set_aside_for_its_drain_says_how_far() -> None:
    made = example("old-alcove")

    def with_pan(**changes: object) -> Rebuild:
        facts = made.job.pan
        pan = facts.pan.model_copy(
            update={"width": replace(facts.pan.width, inches=Fraction(119, 2), text="")}
        )
        moved = facts.model_copy(update={"pan": pan, **changes})
        return replace(made, job=made.job.model_copy(update={"pan": moved}))

    view = plan_view(room_of(with_pan(), "in", words("en")))
    assert view is not None
    place = set_place(view.built)
    assert place is not None
    assert place.wanted is not None
    drain = made.job.pan.drain
    # the drain a quarter of the play right of the middle, and its float too short to reach the middle
    aside = (place.most - place.least) / 4
    over = (place.least + place.most) / 2 + aside - place.wanted
    moved = drain.model_copy(
        update={
            "x": replace(drain.x, inches=drain.x.inches + over, text=""),
            "float_x": replace(drain.float_x, inches=aside / 2, text=""),
        }
    )
    text = said(opening(with_pan(drain=moved)).scene)
    # independent: three quarters of the play at the left, one at the right
    near, play = view.built.near, place.most - place.least
    assert (
        f"The pan is set {near(play * 3 / 4)} off the left wall, {near(play / 4)} off the right wall." in text
    )


def test_play_is_told_with_what_out_of_square_leaves_of_it() -> None:
    # independent, by hand: pan 59-13/16, play 1/16 to 1/8: 59-7/8 to 59-15/16 between the planes. Both
    # side walls lean 1/16 over 48: 31-7/8 of pan take 0.0415 of 0.0625, 0.021 is left, 1/64 when rounded down
    text = said(opening(example("old-alcove")).scene)
    assert 'Clear between the planes: 59-7/8" to 59-15/16".' in text
    assert (
        'Walls out of square leave 1/64" of it: centered, about 1/64" each side where it is tightest.' in text
    )
    assert "strips, no shims" in text
    assert "with shims" in text
    # published: convention 8, walls square: nothing is taken
    assert "out of square" not in said(opening(example("hand")).scene)
