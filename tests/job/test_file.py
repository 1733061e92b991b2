"""The job file: what is read, and everything that is refused, each in one line, all in one run."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.job.cast import ROOM
from undertile.errors import FileError
from undertile.job import read_job

HEAD = 'version = 2\nunit = "in"\n'
WALL = HEAD + '[survey.walls.B]\nnominal = "6-0"\nheights = ["2", "48"]\n[survey.walls.B.studs]\n'


def problems(content: str | bytes | Path) -> tuple[str, ...]:
    with pytest.raises(FileError) as refused:
        read_job(content)
    for problem in refused.value.problems:
        assert problem.strip()
        assert len(problem.splitlines()) == 1, problem
    return refused.value.problems


# What is read -------------------------------------------------------------------------------------------


def test_a_room_is_read_with_every_text_as_typed() -> None:
    job = read_job(ROOM)
    studs = job.survey.walls["B"].studs
    assert (job.name, job.unit, job.place) == ("Corner shower", "in", "upstairs")
    assert studs["B2"].readings["48"].text == "5-13/16"
    assert studs["B3"].readings["48"] == "x"
    assert "90" not in studs["B2"].readings  # blank is not measured, and never zero
    assert job.framing.studs["B2"].bay == "pipe"


def test_readings_may_be_a_table_by_height_in_any_form() -> None:
    job = read_job(WALL + "B1 = { along = '8', readings = { \"4' 0\\\"\" = '5-13/16' } }")
    assert job.survey.walls["B"].studs["B1"].readings["48"].text == "5-13/16"


def test_an_mm_job_reads_bare_numbers_as_mm() -> None:
    text = WALL.replace('"in"', '"mm"').replace('"6-0"', '"152.4"').replace('["2", "48"]', '["50", "1219.2"]')
    job = read_job(text + 'B1 = { along = 400, readings = ["151", 149.5] }')
    stud = job.survey.walls["B"].studs["B1"]
    assert stud.along.inches * 127 == 400 * 5  # independent: 1 mm = 5/127 in, from 1 in = 25.4 mm
    assert stud.readings["1219.2"].text == "149.5"


def test_an_empty_job_is_a_job_just_begun() -> None:
    assert read_job(HEAD).survey.walls == {}
    assert read_job(HEAD + "[framing.walls.B]\n[pan]\n") == read_job(HEAD)


def test_a_path_and_its_content_and_its_bytes_are_one_job(tmp_path: Path) -> None:
    path = tmp_path / "room.toml"
    path.write_text(ROOM, encoding="utf-8")
    assert read_job(path) == read_job(str(path)) == read_job(ROOM) == read_job(ROOM.encode())


@pytest.mark.parametrize("change", [lambda text: "\ufeff" + text, lambda text: text.replace("\n", "\r\n")])
def test_a_byte_order_mark_and_windows_line_ends_are_no_problem(change: object) -> None:
    assert read_job(change(ROOM).encode()) == read_job(ROOM)  # type: ignore[operator]


def test_a_height_on_the_subfloor_itself_is_a_height() -> None:
    assert read_job(WALL.replace('"2"', '"0"')).survey.walls["B"].heights[0].inches == 0


# What is refused ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"\xff\xfev\x00", "expected text in UTF-8"),
        (b"version = 2\nname = '\xe9'", "line 2: expected text in UTF-8"),
        (b"version = 2\n\x00", "line 2: expected text, found a NUL byte"),
        (b"PK\x03\x04rest", "found a zip archive"),
        (b"#" * 1_000_001, "at most 1 MB"),
        (b"version = 2\rname = 'a'", "expected TOML"),
        (b"a = " + b"[" * 100_000, "expected a few tables inside each other"),
        (b"a = " + b"{a=" * 100_000, "expected a few tables inside each other"),
        (b"a." * 100_000 + b"a = 1", "expected a few tables inside each other"),
        (b"[" + b"a." * 100_000 + b"a]", "expected a few tables inside each other"),
        (b"a = " + b"1" * 100_000, "line 1: expected a number of at most 9 digits"),
        (b"a = [" + b"1," * 200_000 + b"]", "more than 20,000 values"),
        (b"x = 1\nx = 2", "stands twice"),
        (b"unit = in", "stand in quotes"),
        (b'a = "\\ud800"', "expected TOML"),
    ],
)
def test_what_is_no_job_file_at_all_is_one_clear_line(content: bytes, says: str) -> None:
    found = problems(content)
    assert len(found) == 1
    assert says in found[0]


def test_a_file_that_is_not_there_or_is_a_folder_is_one_clear_line(tmp_path: Path) -> None:
    assert "cannot be read" in problems(tmp_path / "gone.toml")[0]
    assert "cannot be read" in problems(tmp_path)[0]
    assert "cannot be read" in problems("no\0name")[0]
    assert "cannot be read" in problems("")[0]


@pytest.mark.parametrize(
    ("content", "line"),
    [
        (f"[framing]\nrate = 1e{'9' * 20}", 4),
        (f"[framing]\nrate = {'9' * 5000}", 4),
        (f'name = "1e{"9" * 20}, {"9" * 5000}"\n\n[framing]\nrate = -1e-{"9" * 20}', 6),
    ],
    ids=["larger than any Python holds", "longer than Python reads", "the same in a text first"],
)
def test_a_number_that_python_itself_gives_up_on_is_named_with_its_line(content: str, line: int) -> None:
    """independent: counted by hand. How large is too large differs: 1e999999999 already is on 32 bits."""
    (problem,) = problems(HEAD + content)
    assert problem == (
        f"job file, line {line}: expected a number of at most 9 digits, found one far too long; correct it"
    )


@pytest.mark.parametrize(
    ("version", "says"),
    [
        ("3", "written by a newer undertile; update this one"),
        ("99999999999999999999", "written by a newer undertile"),
        ("0", "expected 2, found the number 0"),
        ("-1", "expected 2"),
        ('"2"', "expected 2, found `2`"),
        ("2.0", "expected 2"),
        ("true", "expected 2, found true"),
    ],
)
def test_a_version_that_is_not_known_is_refused_in_one_line(version: str, says: str) -> None:
    (line,) = problems(f"version = {version}\nunit = 'in'\nnonsense = 1")
    assert says in line


BAD: tuple[tuple[str, str, int, tuple[str, ...]], ...] = (
    ("no version", 'unit = "in"', 0, ("expected `version`", "write version = 2")),
    ("no unit", "version = 2", 0, ("unit", "in or mm", 'write unit = "in"')),
    ("wrong unit", 'version = 2\nunit = "inch"', 2, ("unit", "found `inch`")),
    ("unknown key", HEAD + 'plase = "x"', 3, ("found `plase`", "write place")),
    ("unknown key below", WALL + 'B1 = { along = "8", redings = [] }', 7, ("B1.redings", "write readings")),
    ("unknown wall", HEAD + '[survey.walls.N]\nnominal = "6-0"', 3, ("found `N`", "L, B, R")),
    ("unknown choice", HEAD + '[framing.walls.B]\nkind = "wod"', 4, ("found `wod`", "write wood")),
    ("text for number", HEAD + '[framing]\nrate = "95"', 4, ("expected a number", "without quotes")),
    ("number for text", HEAD + "place = 5", 3, ("expected a text", "the number 5")),
    ("flag in words", HEAD + '[framing]\noccupied = "yes"', 4, ("true or false", "`yes`")),
    ("list for table", HEAD + "survey = [1]", 3, ("expected a table", "found a list")),
    ("table for text", HEAD + "name = { a = 1 }", 3, ("expected a text", "found a table")),
    ("date", HEAD + "name = 2031-01-01", 3, ("expected a text", "found a date")),
    ("huge number", HEAD + "[framing]\nrate = 1e999999999", 4, ("at most 9 digits",)),
    ("nan", HEAD + "[framing]\nrate = nan", 4, ("at most 9 digits",)),
    ("too little", HEAD + "[framing]\nrate = 0", 4, ("more than 0",)),
    (
        "no reason",
        HEAD
        + WALL[len(HEAD) :]
        + 'B1 = { along = "8" }\n[framing.studs.B1]\nhold = { treatment = "leave", reason = "" }',
        9,
        ("hold.reason", "an empty one"),
    ),
    ("decimal inch", WALL + 'B1 = { along = "8.5" }', 7, ("B1.along", "decimal inch", "8-1/2")),
    (
        "flag for length",
        WALL + "B1 = { along = true }",
        7,
        ("B1.along", "expected a text in quotes, found true"),
    ),
    ("unreadable height", WALL.replace('"48"', '"4o"'), 5, ("heights.item 2", "has the word o")),
    ("no length", WALL + 'B1 = { along = "8", readings = ["6-", ""] }', 7, ("cut short",)),
    (
        "missing fact",
        HEAD + '[survey.widths.w1]\ndepth = "1"\nheight = "2"',
        3,
        ("survey.widths.w1", "`reading`"),
    ),
    (
        "too few readings",
        WALL + 'B1 = { along = "8", readings = ["6-0"] }',
        7,
        ("2 values", "found 1", "(2, 48)"),
    ),
    (
        "too many readings",
        WALL + 'B1 = { along = "8", readings = ["6", "6", "6"] }',
        7,
        ("2 values", "found 3"),
    ),
    (
        "height not listed",
        WALL + 'B1 = { along = "8", readings = { 47 = "6" } }',
        7,
        ("(2, 48)", "found `47`"),
    ),
    (
        "height twice",
        WALL + "B1 = { along = '8', readings = { 48 = '6', '48\"' = '7' } }",
        7,
        ("each height once",),
    ),
    ("heights repeat", WALL.replace('"48"', '"48", "4\' 0\\""'), 5, ("each height once", "`48`")),
    ("height below", WALL.replace('"2"', '"-2"'), 5, ("above the subfloor",)),
    ("wrong wall", WALL + 'L1 = { along = "8" }', 7, ("a stud of wall B", "move it to wall L")),
    ("no stud name", WALL + 'one = { along = "8" }', 7, ("a stud of wall B", "name it B1")),
    ("leading zero", WALL + 'B01 = { along = "8" }', 7, ("a stud of wall B",)),
    (
        "not rising",
        WALL + 'B1 = { along = "8" }\nB2 = { along = "7" }',
        8,
        ("more than B1, at `8`", "found `7`"),
    ),
    ("outside", WALL + 'B1 = { along = "-8" }', 7, ("0 or more", "found `-8`")),
    ("one place", WALL + 'B1 = { along = "8" }\nB2 = { along = "8" }', 8, ("B1 and B2 at the same",)),
    (
        "unknown stud held",
        WALL + 'B1 = { along = "8" }\n[framing.studs.B7]\nhold = { treatment = "leave", reason = "pipe" }',
        9,
        ("B7", "a stud of the survey", "write B1"),
    ),
    (
        "unknown stud level",
        WALL
        + 'B1 = { along = "8" }\n[survey.levels]\na = { stud = "B9", low = "2", high = "48", reading = "0" }',
        9,
        ("survey.levels.a.stud", "`B9`"),
    ),
    (
        "level upside down",
        WALL
        + 'B1 = { along = "8" }\n[survey.levels]\na = { stud = "B1", low = "48", high = "2", reading = "0" }',
        9,
        ("`low` less than `high`",),
    ),
    (
        "repeat nowhere",
        WALL + 'B1 = { along = "8" }\n[survey.repeats]\na = { stud = "B1", height = "47", reading = "6" }',
        9,
        ("a height of wall B (2, 48)",),
    ),
    (
        "window",
        HEAD + '[framing.valve]\nwall = "B"\nalong = "1"\nheight = "2"\nreading = "6"\n'
        'window_low = "3"\nwindow_high = "2"',
        3,
        ("`window_low` less than",),
    ),
    ("empty name", HEAD + '[framing.stock.""]\nthickness = "1/8"', 3, ("a name of 1 to 60",)),
    ("long text", HEAD + f"name = '{'n' * 2001}'", 3, ("at most 2,000 characters",)),
    ("long list", HEAD + f"[pan.pan]\ndepths = [{'1,' * 101}]", 4, ("at most 100",)),
)


@pytest.mark.parametrize(
    ("content", "line", "says"), [case[1:] for case in BAD], ids=[case[0] for case in BAD]
)
def test_each_mistake_is_one_line_with_its_place_and_what_to_do(
    content: str, line: int, says: tuple[str, ...]
) -> None:
    (problem,) = problems(content)
    assert problem.startswith(f"job file, line {line}: " if line else "job file: ")
    assert "expected" in problem
    assert "found" in problem
    assert ";" in problem
    for words in says:
        assert words in problem


def test_every_problem_is_said_in_the_one_run() -> None:
    # independent: the mistakes of BAD that can stand in one file, counted by hand
    content = "\n".join(
        [
            "version = 2",
            'unit = "inch"',  # 1
            'plase = "x"',  # 2
            "[survey.walls.B]",
            'nominal = "6-0"',
            'heights = ["2", "48"]',
            "[survey.walls.B.studs]",
            'B1 = { along = "8", redings = [] }',  # 3
            'B2 = { along = "8.5", readings = ["6-0"] }',  # 4, 5
            "B3 = { readings = [true, '6-'] }",  # 6, 7, 8
            "[framing]",
            'rate = "95"',  # 9
            "[framing.walls.B]",
            'kind = "wod"',  # 10
            "[framing.studs]",
            'B9 = { bay = "pipe" }',  # 11
        ]
    )
    found = problems(content)
    assert len(found) == 11
    numbers = [int(line.split("line ")[1].split(":")[0]) for line in found]
    assert numbers == sorted(numbers) == [2, 3, 8, 9, 9, 10, 10, 10, 12, 14, 16]


def test_a_flood_of_problems_is_cut_and_counted() -> None:
    keys = "\n".join(f"k{number} = 1" for number in range(900))
    found = problems(HEAD + keys)
    assert len(found) == 501
    assert found[-1].endswith("and 400 more problems like these; correct these first")  # 900 - 500 by hand


def test_sixty_thousand_readings_are_answered_with_one_line() -> None:
    heights = ", ".join(f'"{height}"' for height in range(1, 31))
    row = ", ".join(['"6-1/16"'] * 30)
    studs = "\n".join(f'B{n} = {{ along = "{n}", readings = [{row}] }}' for n in range(1, 2001))
    text = WALL.replace('"2", "48"', heights) + studs
    assert len(problems(text)) == 1


def test_the_nominal_size_off_the_carton_is_no_problem_of_the_file() -> None:
    assert read_job(HEAD + '[pan.pan]\ncarton_width = "60"').pan.pan.width is None
