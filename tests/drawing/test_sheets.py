"""All sheets of a job: nothing collides or leaves the page, for the fattest job and the smallest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.drawing.cast import SMALLEST, doubtful, example, fattest, job, rebuild, smallest
from undertile.drawing import Recorder, Sheet, sheets
from undertile.errors import InputError
from undertile.job import Rebuild

LETTER, A4 = (8.5, 11.0), (210 / 25.4, 297 / 25.4)
"""Paper. [in] published: ANSI/ASME Y14.1 size A (Letter), ISO 216 A4."""


def faults(made: list[Sheet]) -> list[str]:
    out = []
    for sheet in made:
        for scene in {id(each): each for each in (sheet.scene, sheet.measured)}.values():
            seen = Recorder(scene)
            out += [
                f"{sheet.key}: {each}" for each in (*seen.collisions(), *seen.off_page(), *seen.crossed())
            ]
            wide, tall = scene.paper
            if wide > min(LETTER[0], A4[0]) - 0.99 or tall > min(LETTER[1], A4[1]) - 0.99:
                out.append(f"{sheet.key}: {wide:.2f} by {tall:.2f} in is larger than Letter and A4 can hold")
    return out


@pytest.mark.parametrize(
    ("unit", "twins", "language", "shown"),
    [
        ("in", False, "en", "in"),
        ("in", True, "es", "mm"),
        ("mm", True, "en", "mm"),
        ("mm", False, "es", "in"),
    ],
)
def test_the_fattest_job_collides_nowhere(unit: str, twins: bool, language: str, shown: str) -> None:
    made = sheets(fattest(unit, twins), unit=shown, language=language)  # type: ignore[arg-type]
    assert not faults(made)
    keys = [sheet.key for sheet in made]
    assert len(set(keys)) == len(keys)
    drawn = {text.text for sheet in made if sheet.key.startswith("wall-B") for text in sheet.scene.texts()}
    assert {f"B{i}" for i in range(1, 41)} <= drawn, "every stud stands on a sheet"


def test_the_smallest_job_is_two_sheets() -> None:
    made = sheets(smallest())
    assert [sheet.key for sheet in made] == ["wall-B", "opening"]
    assert not faults(made)


@pytest.mark.parametrize("name", ["hand", "old-alcove", "square-pan", "steel-unit"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_bundled_jobs_collide_nowhere(name: str, language: str) -> None:
    assert not faults(sheets(example(name), language=language))


def test_a_job_in_doubt_collides_nowhere() -> None:
    assert not faults(sheets(doubtful()))
    assert not faults(sheets(doubtful(), language="es"))


@pytest.mark.parametrize("heights", ['"2"', '"2", "3", "4", "5", "6", "7", "8"', ""])
def test_one_height_many_close_ones_and_none(heights: str) -> None:
    text = SMALLEST.replace('heights = ["2", "48"]', f"heights = [{heights}]")
    text = text.replace(', readings = ["", ""]', "")
    assert not faults(sheets(rebuild(job(text))))


def test_a_job_without_studs_has_no_sheets() -> None:
    assert sheets(rebuild(job('version = 2\nunit = "in"\n'))) == []


def test_without_any_result_there_is_still_a_sheet_to_write_on() -> None:
    bare = replace(smallest(), results={})
    assert [sheet.key for sheet in sheets(bare)] == ["wall-B", "opening"]


def test_other_units_say_so() -> None:
    def head(made: list[Sheet]) -> str:
        return next(text.text for text in made[0].scene.texts() if "scale" in text.text)

    assert head(sheets(example("hand"))).startswith("inches, scale ")
    made = sheets(example("hand"), unit="mm")
    assert head(made).startswith("mm, scale 1:")
    assert made[0].scene.unit == "mm"


def test_the_same_job_draws_the_same() -> None:
    def drawn(made: Rebuild) -> list[object]:
        return [sheet.scene.items for sheet in sheets(made)]

    assert drawn(example("square-pan")) == drawn(example("square-pan"))


def test_unknown_language() -> None:
    with pytest.raises(InputError, match="English"):
        sheets(example("hand"), language="la")
