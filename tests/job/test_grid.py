"""Grids of readings, pasted from a spreadsheet and handed back to one."""

from __future__ import annotations

import csv
import io
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.job.cast import READING, ROOM, SETUP, jobs, pen, said
from undertile.job import GridReport, Job, fold, merge, read_grid, read_job, write_grid
from undertile.job.plain import entries_of, taken_apart
from undertile.job.sheet import WALLS

ROWS = """\
stud,along,2,48,90
B1,8,6-0,6-0,6-0
B2,24,6-0,5-13/16,
B3,40,6-0,x,6-0
"""
COLUMNS = """\
height,B1,B2,B3
along,8,24,40
2,6-0,6-0,6-0
48,6-0,5-13/16,x
90,6-0,,6-0
"""
FACTS = {
    "survey.walls.B.heights": '["2", "48", "90"]',
    "survey.walls.B.studs.B1.along": "8",
    "survey.walls.B.studs.B1.readings.2": "6-0",
    "survey.walls.B.studs.B1.readings.48": "6-0",
    "survey.walls.B.studs.B1.readings.90": "6-0",
    "survey.walls.B.studs.B2.along": "24",
    "survey.walls.B.studs.B2.readings.2": "6-0",
    "survey.walls.B.studs.B2.readings.48": "5-13/16",
    "survey.walls.B.studs.B3.along": "40",
    "survey.walls.B.studs.B3.readings.2": "6-0",
    "survey.walls.B.studs.B3.readings.48": "x",
    "survey.walls.B.studs.B3.readings.90": "6-0",
}
"""independent: written out by hand from the grid"""


def facts(report: GridReport) -> dict[str, str | None]:
    return {entry.fact: entry.value for entry in report.entries}


# What is understood -------------------------------------------------------------------------------------


@pytest.mark.parametrize("grid", [ROWS, COLUMNS])
@pytest.mark.parametrize("mark", [",", ";", "\t"])
def test_either_way_round_and_any_separator_is_the_same_grid(grid: str, mark: str) -> None:
    report = read_grid(grid.replace(",", mark), pen(), "in")
    assert report.problems == ()
    assert facts(report) == FACTS


@pytest.mark.parametrize("way", ["rows", "columns"])
def test_the_same_grid_turned_by_a_general_reader_is_the_same_facts(way: str) -> None:
    # independent: the csv module turns the table
    turned = [list(line) for line in zip(*csv.reader(io.StringIO(ROWS)), strict=True)]
    text = "\n".join("\t".join(line) for line in turned) if way == "columns" else ROWS
    assert facts(read_grid(text.replace("stud", "", 1), pen(), "in")) == FACTS


@pytest.mark.parametrize(
    "cell",
    ['"3-15/16"""', "3-15/16", '3-15/16"', " 3-15/16 ", "3 15/16", "3\u201315/16", "3\u00a015/16"],
)
def test_cells_are_read_as_people_and_spreadsheets_write_them(cell: str) -> None:
    report = read_grid(f"stud,48\nB2,{cell}", pen(), "in")
    assert report.problems == ()
    kept = facts(report)[READING]
    assert kept == cell.strip().strip('"').replace('""', '"') or kept == '3-15/16"'


@pytest.mark.parametrize("word", ["x", "X", "can't reach", "Can\u2019t  reach", "cannot reach", "no alcanza"])
def test_cannot_reach_is_kept_as_x(word: str) -> None:
    assert facts(read_grid(f"stud,48\nB2,{word}", pen(), "in"))[READING] == "x"


@pytest.mark.parametrize("word", ["", "  ", "not measured", "no medido"])
def test_a_blank_is_not_measured_and_makes_no_entry(word: str) -> None:
    report = read_grid(f"stud,2,48\nB2,6,{word}", pen(), "in")
    assert READING not in facts(report)
    assert report.problems == ()


@pytest.mark.parametrize(
    "grid",
    [
        "wall,B\nstud,48\n2,5-13/16",
        "stud,wall,48\n2,back,5-13/16",
        "wall,stud,48\nB,2,5-13/16",
        "#,wall,h 48,notes\n2,Fondo,5-13/16,by the pipe",
        "Montante,Pared,Altura 48\n2,b,5-13/16",
        "height,B2\n@ 4' 0\",5-13/16",
        "no.,B-side\n",
        ",48\nb2,5-13/16",
        "\n\nstud,,48,,\n\nB2,,5-13/16,,\n\n",
    ],
)
def test_heads_as_people_write_them(grid: str) -> None:
    report = read_grid(grid, pen(), "in")
    if grid.startswith("no."):
        assert len(report.problems) == 1
        assert not report.entries
    elif "Altura" in grid:
        assert "Altura 48" in report.problems[0]  # a head it does not know is said, not guessed
    else:
        assert report.problems == ()
        assert facts(report)[READING] == "5-13/16"


def test_bare_numbers_both_ways_are_asked_about_and_settled_by_the_call() -> None:
    grid = ",1,2\n1,6-0,6-1/16\n2,6-1/8,6-3/16"
    asked = read_grid(grid, pen(), "in", wall="L")
    assert asked.entries == ()
    assert "which way the grid runs" in asked.problems[0]
    rows = facts(read_grid(grid, pen(), "in", wall="L", studs_in="rows"))
    columns = facts(read_grid(grid, pen(), "in", wall="L", studs_in="columns"))
    assert rows["survey.walls.L.studs.L1.readings.2"] == "6-1/16"
    assert columns["survey.walls.L.studs.L1.readings.2"] == "6-1/8"


def test_a_stud_without_a_wall_is_asked_about() -> None:
    report = read_grid("stud,48\n2,6-0", pen(), "in")
    assert report.entries == ()
    assert "row 2, column A: expected a stud with its wall, like B1, found `2`" in report.problems[0]


def test_the_other_edge_of_a_twisted_stud_has_a_line_of_its_own() -> None:
    report = read_grid("stud,48\nB2,5-13/16\nB2 arris,5-7/8", pen(), "in")
    assert facts(report)["survey.walls.B.studs.B2.arris.48"] == "5-7/8"
    assert report.problems == ()


# Units --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "grid",
    ["stud (mm),50,1219.2\nB2,152,147.5", "unit,mm\nstud,50,1219.2\nB2,152,147.5"],
)
def test_an_mm_grid_in_an_inch_job_keeps_its_unit(grid: str) -> None:
    report = read_grid(grid, pen(), "in")
    # independent: 1219.2 mm = 48 in by hand, so the fact is that of 48
    assert facts(report)[READING] == "147.5 mm"
    assert facts(report)["survey.walls.B.heights"] == '["50 mm", "1219.2 mm"]'
    assert facts(read_grid("stud,50,1219.2\nB2,152,147.5", pen(), "in", unit="mm")) == facts(report)


def test_an_inch_grid_in_an_mm_job_keeps_its_unit() -> None:
    report = read_grid("stud (in),48\nB2,5-13/16", pen(), "mm")
    assert facts(report) == {READING: '5-13/16"', "survey.walls.B.heights": '["48\\""]'}


def test_a_grid_in_the_unit_of_its_mm_job_stays_as_typed() -> None:
    report = read_grid("stud,50,1219.2\nB2,152,147.5", pen(), "mm")
    assert facts(report)[READING] == "147.5"


# What is not understood ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("cell", "says"),
    [
        ("15-Mar", "the date `15-Mar`, which a spreadsheet makes of a fraction"),
        ("2031-03-15", "the date"),
        ("3/15/2031", "the date"),
        ("Mar-16", "the date"),
        ("5.8125", "decimal inch"),
        ("?", "no part of a length"),
        ("-", "no number"),
        ("n/a", "expected a reading"),
        ("6-", "cut short"),
        ("5-13/16 5-7/8", "expected a reading"),
        ("#REF!", "expected a reading"),
        ("=A1", "expected a reading"),
    ],
)
def test_a_cell_that_is_no_reading_gets_its_line_and_the_others_are_read(cell: str, says: str) -> None:
    report = read_grid(f"stud\t2\t48\t90\nB2\t6-0\t{cell}\t6-1/16", pen(), "in")
    (line,) = report.problems
    assert line.startswith("row 2, column C (B2 at 48): expected a reading, blank (not measured) or x")
    assert says in line
    assert "; " in line
    assert len(facts(report)) == 3  # heights, and the two good readings


def test_every_cell_row_and_column_that_is_not_understood_is_said_once() -> None:
    grid = "\n".join(
        [
            "Smith house",  # row 1: a title
            "wall,B",
            "stud,along,2,48,9o,90,90,",  # E3 no height, G3 again, H3 nothing above data
            "1,8,6-0,15-Mar,,6,6,7",  # D4
            "2,2.5,6-0,,,?,,",  # B5, F5
            "zz,1,6-0",  # A6
            "1,,6",  # A7 again
            "L2,3,6-0",
        ]
    )
    report = read_grid(grid, pen(), "in")
    where = [line.split(":")[0].split(" (")[0] for line in report.problems]
    assert where == [
        "row 1, column A",
        "row 3, column E",
        "row 3, column G",
        "row 3, column H",
        "row 4, column D",
        "row 5, column B",
        "row 5, column F",
        "row 6, column A",
        "row 7, column A",
    ]
    assert set(facts(report)) == {
        "survey.walls.B.heights",
        "survey.walls.L.heights",
        "survey.walls.B.studs.B1.along",
        "survey.walls.B.studs.B1.readings.2",
        "survey.walls.B.studs.B1.readings.90",
        "survey.walls.B.studs.B2.readings.2",
        "survey.walls.L.studs.L2.along",
        "survey.walls.L.studs.L2.readings.2",
    }


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "found no such grid"),
        ("hello", "found no such grid"),
        ("stud,48", "found no such grid"),
        ('stud,48\nB1,"6-0\nB2,6-0', "quote mark"),
        ('stud,48\nB1,"6-0" x', "quote mark"),
        ('stud,48\nB1,"6\n0"', "several lines in one cell"),
        ("wall,Q\nstud,48\nB1,6", "expected L, B or R"),
        ("unit,cubits\nstud,48\nB1,6", "expected in or mm"),
        ("x" * 2_000_001, "2,000,001 characters"),
        ("stud,48\nB1," + "6" * 200_000, "far too long"),
        ("stud,48\nB1," + "6" * 9_000, "expected a reading"),
        ("\0,\0\n\0,\0", "which way the grid runs"),
    ],
)
def test_a_text_that_is_no_grid_is_said_in_one_line(text: str, says: str) -> None:
    report = read_grid(text, pen(), "in")
    assert len(report.problems) == 1
    assert says in report.problems[0]
    assert len(report.problems[0]) < 300


def test_sixty_thousand_readings_pasted_by_mistake_are_one_line() -> None:
    row = ",".join(["6-1/16"] * 50)
    grid = "stud," + ",".join(str(n) for n in range(1, 51)) + "\n"
    grid += "\n".join(f"B{n},{row}" for n in range(1, 1201))
    report = read_grid(grid, pen(), "in")
    assert report.entries == ()
    # independent: 1 + 50 heads, 1200 names, 60,000 readings
    assert report.problems == (
        "expected one room's grid of at most 5,000 cells, found 61,251; copy the readings of one room alone",
    )


@settings(max_examples=deep(120, 300))
@given(st.text(st.sampled_from('B12 ,;\t\n"-/6x§studheight48\r'), max_size=80), st.sampled_from(("in", "mm")))
def test_no_text_breaks_the_reader(text: str, unit: str) -> None:
    report = read_grid(text, pen(), unit)  # type: ignore[arg-type]
    assert all(len(line.splitlines()) == 1 for line in report.problems)
    assert report.entries or report.problems or "," in text or ";" in text or "\t" in text


# Into a record ------------------------------------------------------------------------------------------


def test_a_grid_read_into_a_log_supersedes_what_stands_and_repeats_nothing() -> None:
    log = [*SETUP, said("r", "6-0")]
    report = read_grid(ROWS, pen(), "in", log=log)
    by_fact = {entry.fact: entry for entry in report.entries}
    assert by_fact[READING].supersedes == ("r",)
    assert "survey.walls.B.heights" not in by_fact  # the same heights stand already
    assert "survey.walls.B.studs.B1.along" not in by_fact
    folded = fold(merge(log, report.entries))
    assert folded.findings == ()
    assert folded.job.survey.walls["B"].studs["B2"].readings["48"].text == "5-13/16"
    again = read_grid(ROWS, pen(), "in", log=merge(log, report.entries))
    assert again == GridReport((), ())


def test_new_heights_find_their_place_among_those_that_stand() -> None:
    report = read_grid("stud,24,4' 0\",60\nB1,6,6,6", pen(), "in", log=SETUP)
    heights = next(entry for entry in report.entries if entry.fact.endswith("heights"))
    # independent: 2 < 24 < 48 < 60 < 90; 4' 0" is the 48 that stands, as it was typed there
    assert json.loads(heights.value or "") == ["2", "24", "48", "60", "90"]
    assert heights.supersedes == ("h",)


def test_a_clash_of_heights_is_settled_by_a_grid() -> None:
    log = [*SETUP, said("h2", '["2", "60"]', "survey.walls.B.heights")]
    report = read_grid(ROWS, pen(), "in", log=log)
    folded = fold(merge(log, report.entries))
    assert folded.findings == ()
    assert [height.text for height in folded.job.survey.walls["B"].heights] == ["2", "48", "60", "90"]


# Out ----------------------------------------------------------------------------------------------------


def test_a_room_is_written_as_a_grid_that_a_spreadsheet_opens() -> None:
    job = read_job(ROOM)
    assert write_grid(job) == ROWS.replace("stud", "stud (in)")
    assert write_grid(job, studs_in="columns") == COLUMNS.replace("height", "height (in)")


@settings(max_examples=40, deadline=None)
@given(jobs(), st.sampled_from(("rows", "columns")), st.sampled_from(",;\t"))
def test_what_is_written_reads_back_to_every_reading(job: Job, way: str, mark: str) -> None:
    walls = taken_apart(job).get("survey", {}).get("walls", {})
    studs = {name: stud for wall in walls.values() for name, stud in wall.get("studs", {}).items()}
    report = read_grid(write_grid(job, studs_in=way, separator=mark), pen(), job.unit)  # type: ignore[arg-type]
    wanted = {
        entry.fact: entry.value
        for entry in entries_of(job, pen())
        if ".studs." in entry.fact and entry.fact.startswith("survey.")
    }
    if studs:
        assert report.problems == ()
        assert {fact: value for fact, value in facts(report).items() if ".studs." in fact} == wanted


def test_the_words_for_walls_lead_to_the_three_walls() -> None:
    assert set(WALLS.values()) == {"L", "B", "R"}
