"""The survey form as data: drawn for the job, blank where nothing is typed, with the checks for slips."""

from __future__ import annotations

import pytest

from tests.packet.cast import EMPTY, NAMED, job_of, text_of
from undertile.packet import survey_form


def test_a_job_just_begun_gets_three_blank_walls() -> None:
    form = survey_form(job_of(EMPTY))
    assert [wall.title for wall in form.walls] == ["back wall", "left wall", "right wall"]
    for wall in form.walls:
        assert not wall.grid.filled
        assert len(wall.grid.heights) == 5
        assert all(not blank.filled for blank in (*wall.blanks, wall.again))
    # heights to start with, common practice: floor, three between, top; in both units
    assert form.walls[0].grid.heights[2] == ('48"', "1219 mm")


def test_walls_that_are_named_are_drawn_and_no_others() -> None:
    form = survey_form(job_of(NAMED), language="es")
    assert [wall.title for wall in form.walls] == ["pared del fondo", "pared izquierda"]
    assert form.walls[0].blanks[0].filled == "150"
    assert form.walls[0].grid.heights[0] == ("50 mm", '1-15/16"')
    titles = [check.title for check in form.checks]
    assert not any("Anchos" in title for title in titles), "no width without a right wall"


@pytest.mark.parametrize("name", ["old-alcove", "square-pan", "steel-unit", "hand"])
def test_every_reading_typed_stands_in_its_box_as_typed(name: str) -> None:
    job = job_of(text_of(name))
    form = survey_form(job)
    for wall in form.walls:
        facts = next(w for key, w in job.survey.walls.items() if wall.grid.studs[0].startswith(key))
        for stud, own in facts.studs.items():
            typed = [value.text for value in own.readings.values() if not isinstance(value, str)]
            column = [text for key, text in wall.grid.filled.items() if key.startswith(f"{stud}|")]
            assert [text for text in column if text != "x"] == typed


def test_not_measured_is_blank_and_cannot_reach_is_x() -> None:
    """square-pan.toml: L3 at 850 is not measured, B4 at 2200 cannot be reached."""
    form = survey_form(job_of(text_of("square-pan")))
    back, left = form.walls
    assert "L3|850 mm" not in left.grid.filled
    assert back.grid.filled["B4|2200 mm"] == "x"


def test_the_checks_that_show_a_slip_are_asked_for() -> None:
    """Jobmap B9: widths at three depths and three heights, two diagonals, level, first point again."""
    form = survey_form(job_of(EMPTY))
    widths = form.checks[0].grid
    assert widths is not None
    assert (len(widths.studs), len(widths.heights)) == (3, 3)
    diagonals = next(check for check in form.checks if check.title.startswith("Diagonals"))
    assert len(diagonals.blanks) == 2
    assert any(check.title.startswith("Level") and len(check.blanks) == 3 for check in form.checks)
    assert all("B1" in w.again.text or "L1" in w.again.text or "R1" in w.again.text for w in form.walls)


def test_a_check_already_taken_is_printed_small_and_the_missing_ones_stay_blank() -> None:
    form = survey_form(job_of(text_of("hand")))
    gaps = next(check for check in form.checks if check.title.startswith("Left line"))
    assert [blank.filled for blank in gaps.blanks] == ["48-1/4", "48-1/4"]
    diagonals = next(check for check in form.checks if check.title.startswith("Diagonals"))
    assert [blank.filled for blank in diagonals.blanks] == ["", ""]


def test_a_twisted_stud_is_asked_at_both_edges() -> None:
    text = text_of("hand").replace(
        'B2 = { along = "24", readings = ["6-0", "5-13/16", "6-0"] }',
        'B2 = { along = "24", readings = ["6-0", "5-13/16", "6-0"], arris = ["6-1/8", "", "6-0"] }',
    )
    form = survey_form(job_of(text))
    assert form.walls[0].arris == ("B2",)
    assert form.walls[0].grid.filled['B2|2"'] == "6-0 / 6-1/8"


def test_places_along_are_printed_where_known() -> None:
    assert survey_form(job_of(text_of("hand"))).walls[0].along == ("8", "24", "40", "56")
