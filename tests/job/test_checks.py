"""Plausibility: what passes every other test and is still wrong."""

from __future__ import annotations

import pytest

from tests.job.cast import ROOM
from tests.job.test_file import WALL
from undertile.findings import Finding
from undertile.job import read_job
from undertile.job.checks import plausibility


def findings(text: str) -> dict[str, Finding]:
    return {finding.code: finding for finding in plausibility(read_job(text))}


def test_a_sound_room_raises_nothing() -> None:
    assert findings(ROOM) == {}


def test_a_bare_number_of_mm_in_an_inch_job_is_asked_about() -> None:
    found = findings(ROOM.replace("5-13/16", "1203"))["length-implausible"]
    assert found.where == "B2 at 48"
    assert '1203"' in found.found
    assert found.next_step == "If mm are meant, write 1203 mm."


def test_a_whole_survey_in_the_wrong_unit_is_one_finding() -> None:
    # independent: nine readings were typed in mm, three are named and six counted
    text = WALL.replace('"48"', '"48", "90"') + "\n".join(
        f'B{n} = {{ along = "{n}", readings = ["1500", "1501", "1502"] }}' for n in (1, 2, 3)
    )
    found = findings(text)["length-implausible"]
    assert found.where == "B1 at 2; B1 at 48; B1 at 90, and 6 more"


def test_a_marked_length_past_all_bounds_is_asked_about_too() -> None:
    assert findings(ROOM.replace("5-13/16", "9999 mm"))["length-implausible"].next_step == "Correct it."


@pytest.mark.parametrize(
    ("text", "where"),
    [
        ('[survey.widths]\nw = { depth = "30", height = "50", reading = "60" }', "widths, w, reading"),
        ('[pan.pan]\nwidth = "60"', "pan, width"),
        ('[survey.walls.B]\nnominal = "150"\nheights = ["2", "48", "90"]', "wall B, heights"),
    ],
)
def test_bare_inches_in_an_mm_job_are_asked_about(text: str, where: str) -> None:
    found = findings('version = 2\nunit = "mm"\n' + text)["length-too-short"]
    assert found.where == where
    assert found.next_step.startswith("If inches are meant")


def test_a_foot_and_twenty_feet_are_within_bounds() -> None:
    text = 'version = 2\nunit = "in"\n[survey.widths]\nw = { depth = "240", height = "2", reading = "12" }'
    assert findings(text) == {}


def test_a_back_wall_stud_past_the_widest_width_is_asked_about() -> None:
    room = ROOM + '[survey.widths]\nw = { depth = "1", height = "2", reading = "60-1/4" }\n'
    assert findings(room) == {}
    assert findings(room.replace('"40"', '"60-5/16"'))["stud-past-wall"].where == "B3"


def test_a_height_above_the_top_plate_is_asked_about() -> None:
    room = ROOM.replace('nominal = "6-0"', 'nominal = "6-0"\ntop = "89-15/16"')
    assert findings(room)["height-above-plate"].found == "`90`"
    assert findings(room.replace("89-15/16", "90")) == {}
