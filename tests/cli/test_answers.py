"""Exit codes, problems on stderr, JSON, explain, as if."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.cli.conftest import EXAMPLES, JOBS, Ran
from undertile.lengths import parse_length

DECIMAL_INCH = re.compile(r"\d\.\d+\s*(?:\"|in\b|inch)")
HAND = EXAMPLES / "hand.toml"


def strings(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    if isinstance(value, dict):
        for key, each in value.items():
            yield from strings(each, f"{path}.{key}")
    elif isinstance(value, list):
        for each in value:
            yield from strings(each, path)
    else:
        yield path, value


# Exit codes and problems ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        ("plan", "no-such-file.toml"),
        ("plan",),
        ("frobnicate",),
        ("plan", HAND, "--unit", "cubits"),
        ("explain", HAND, "Q9"),
        ("plan", HAND, "--if", "B2 at 48"),
        ("plan", HAND, "--if", "B2 at 49 = 6"),
        ("plan", HAND, "--if", "B99 at 48 = 6"),
        ("plan", HAND, "--if", "B2 at 48 = frog"),
        ("plan", HAND, "--if", "survey.widths.none.reading = 60"),
        ("import", HAND, "no-such-grid.csv"),
        ("import", HAND, HAND, "--wall", "Q"),
    ],
    ids=lambda words: " ".join(str(word).split("/")[-1] for word in words),
)
def test_what_cannot_be_used_is_one_line_and_exit_2(words: tuple[Any, ...], run: Callable[..., Ran]) -> None:
    ran = run(*words)
    assert ran.code == 2
    assert ran.out == ""
    lines = ran.err.strip().split("\n")
    assert len(lines) == 1
    assert lines[0]
    assert "Traceback" not in ran.err


def test_every_problem_of_a_file_is_a_line_in_one_run(run: Callable[..., Ran], tmp_path: Path) -> None:
    text = HAND.read_text(encoding="utf-8")
    text = text.replace('readings = ["6-0", "5-13/16", "6-0"]', 'readings = ["6-0", "5.8125", "6-0"]')
    text = text.replace('depth = "32"\nflange', 'depht = "32"\nflange').replace(
        'bay = "clear"', 'bay = "clare"', 1
    )
    job = tmp_path / "job.toml"
    job.write_text(text, encoding="utf-8")
    ran = run("plan", job)
    assert ran.code == 2
    assert len(ran.err.strip().split("\n")) == 3  # independent: three slips were put in
    assert "depth" in ran.err
    assert "clear" in ran.err
    assert "5.8125" in ran.err


def test_a_fault_of_the_tool_is_said_in_one_line(
    run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object, **__: object) -> None:
        raise ZeroDivisionError("on purpose")

    monkeypatch.setattr("undertile.cli.commands.look", fails)
    ran = run("check", HAND)
    assert ran.code == 3
    assert len(ran.err.strip().split("\n")) == 1
    assert "your files are as they were" in ran.err
    monkeypatch.setenv("UNDERTILE_TRACE", "1")
    with pytest.raises(ZeroDivisionError):
        run("check", HAND)


def test_every_command_has_help_with_an_example(run: Callable[..., Ran]) -> None:
    from undertile.cli.app import app

    for command in app.registered_commands:
        name = command.name or command.callback.__name__  # type: ignore[union-attr]
        ran = run(name, "--help")
        assert ran.code == 0
        assert f"undertile {name} " in ran.out.split("Example")[1]


def test_a_job_is_read_from_stdin(run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch) -> None:
    import io

    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(HAND.read_bytes())))
    assert "A room worked by hand" in run("check", "-").out


# Numbers ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("job", ["square-pan", "steel-unit"])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_no_page_shows_a_decimal_inch(job: str, unit: str, run: Callable[..., Ran]) -> None:
    path = EXAMPLES / f"{job}.toml"
    for words in (("plan", path), ("check", path), ("explain", path, "plane", "B")):
        assert not DECIMAL_INCH.search(run(*words, "--unit", unit).out)
    for _, value in strings(json.loads(run("plan", path, "--json", "--unit", unit).out)):
        assert not DECIMAL_INCH.search(str(value))


def test_the_other_unit_changes_the_print_and_not_the_plan(run: Callable[..., Ran]) -> None:
    inches = json.loads(run("plan", HAND, "--json").out)["framing"]
    metric = json.loads(run("plan", HAND, "--json", "--unit", "mm").out)["framing"]
    assert inches["cost"] == metric["cost"]  # independent: a unit is no fact of the room
    for ours, theirs in zip(inches["members"], metric["members"], strict=True):
        for one, other in zip(ours["amounts"], theirs["amounts"], strict=True):
            assert parse_length(one).inches == parse_length(other).inches


@pytest.mark.parametrize("job", [*JOBS, "hand"])
def test_json_holds_every_fact_of_the_answer(job: str, run: Callable[..., Ran]) -> None:
    ran = run("plan", EXAMPLES / f"{job}.toml", "--json")
    answer = json.loads(ran.out)
    assert answer["exit"] == ran.code
    assert list(answer)[:4] == ["undertile", "command", "exit", "job"]
    for member in answer["framing"]["members"]:
        assert len(member["amounts"]) == len(member["heights"])
        assert member["reasons"]
    for check in answer["pan"]["checks"]:
        assert check["verdict"] in ("pass", "fail", "not shown")
        assert check["source"]
    for path, value in strings(answer):
        if path.endswith(("offsets", "finished", "target", "amounts")):
            assert re.fullmatch(r"-?[0-9/ .-]+(?:\"| mm| in)", value), (path, value)


def test_exit_code_and_words_agree(run: Callable[..., Ran]) -> None:
    assert "Nothing here stops the work" in run("plan", HAND).out
    doubted = run("plan", EXAMPLES / "square-pan.toml")
    assert doubted.code == 1
    assert "Settle before the first cut" in doubted.out


WET = EXAMPLES / "wet-corner.toml"


def test_a_floor_that_fails_is_settled_first_and_says_where_to_look(run: Callable[..., Ran]) -> None:
    # independent: `floor` of the same job fails by itself; the code is that of docs/command-line.md
    assert run("floor", WET).code == 1
    ran = run("plan", WET)
    assert ran.code == 1
    words = " ".join(ran.out.split())
    last = words[words.index("Settle before the first cut") :]
    assert "Nothing here stops the work" not in words
    assert "The floor does not pass: depth of the notch" in last
    assert f"See undertile floor {WET}" in last
    assert "Do not cover yet" in last
    assert f"See undertile water {WET}" in last
    order = words[words.index("Order of work") : words.index("Why not otherwise?")]
    for step in ("sister it from", "cut out patch 1", "lay patch 1", "Let B1 dry", "Let L1 dry"):
        assert order.index(step) < order.index("Plane B2.") < order.index("Set the pan")
    told = json.loads(run("plan", WET, "--json").out)
    assert told["exit"] == 1
    assert [each["kind"] for each in told["order_of_work"]][1:3] == ["floor cut", "floor joist"]


def test_the_papers_say_it_too(run: Callable[..., Ran], tmp_path: Path) -> None:
    # independent: the same job, the same code
    ran = run("papers", WET, "--out", tmp_path)
    assert ran.code == 1
    assert f"See undertile floor {WET}" in ran.err


def test_what_may_not_be_covered_yet_stops_no_first_cut(run: Callable[..., Ran], tmp_path: Path) -> None:
    # independent: the wet corner without its floor: no check fails, and the gate is shut
    head, _, rest = WET.read_text("utf-8").partition("# Floor ---")
    job = tmp_path / "wet.toml"
    job.write_text(head + rest[rest.index("# Walls ---") :], "utf-8")
    ran = run("plan", job)
    assert ran.code == 0
    assert "Nothing here stops the work" not in ran.out
    words = " ".join(ran.out.split())
    head = "Nothing stops the first cut. Before anything is covered"
    assert "Do not cover yet" in words[words.index(head) :]


# Explain ----------------------------------------------------------------------------------------------------


def test_explain_a_stud_shows_readings_plane_work_and_why(run: Callable[..., Ran]) -> None:
    ran = run("explain", HAND, "B2")
    words = " ".join(ran.out.split())
    assert ran.code == 0
    # published: convention 8: B2 reads 5-13/16 at 48, offset +3/16, planed 1/8, 1/16 proud is left
    assert "48 5-13/16 +3/16" in words
    assert "-1/8 +1/16 0" in words
    assert "why" in words


@pytest.mark.parametrize(
    "where", ["b2", "B2 at 48", "plane B", "wall B", "play", "play-16", "convention-3", "skew"]
)
def test_explain_takes_the_words_people_type(where: str, run: Callable[..., Ran]) -> None:
    assert run("explain", HAND, *where.split()).code == 0
    assert json.loads(run("explain", HAND, *where.split(), "--json").out)["command"] == "explain"


def test_explain_says_the_nearest_word_it_knows(run: Callable[..., Ran]) -> None:
    assert "play" in run("explain", HAND, "plya").err
    assert "valve" in run("explain", EXAMPLES / "old-alcove.toml", "valv").err


def test_every_figure_explained_cites_its_source(run: Callable[..., Ran]) -> None:
    out = run("explain", EXAMPLES / "old-alcove.toml", "valve").out
    assert "because" in out
    assert "source" in out


# As if ------------------------------------------------------------------------------------------------------


def test_as_if_changes_one_reading_and_no_file(run: Callable[..., Ran]) -> None:
    before = HAND.read_bytes()
    ran = run("plan", HAND, "--if", "B2 at 4' 0\" = 6", "--if", "B4 at 48 = 6-0")
    assert ran.code == 0
    # independent: without B2's and B4's work the hand-worked 43 minutes lose 12 and 7
    assert "together 24" in " ".join(ran.out.split())
    assert HAND.read_bytes() == before


def test_the_plan_says_what_a_doubt_is_worth(run: Callable[..., Ran]) -> None:
    job = EXAMPLES / "square-pan.toml"
    out = run("plan", job).out
    told = re.search(r"The plan costs (\S+); as typed (\S+)\.", " ".join(out.split()))
    assert told
    mended = json.loads(run("plan", job, "--if", "L2 at 400 = 147", "--json").out)["framing"]["cost"]
    typed = json.loads(run("plan", job, "--json").out)["framing"]["cost"]
    # independent: the same two plans asked for one by one
    assert (told[1], told[2]) == (f"${mended}", f"${typed}")


# Bench ------------------------------------------------------------------------------------------------------


def test_bench_prints_json_and_nothing_else_on_stdout() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "undertile", "bench", "moves", "--rooms", "1", "--json"],
        capture_output=True,
        text=True,
    )
    rows = json.loads(done.stdout)
    assert {"name", "size", "seconds", "peer", "peer_seconds", "ratio", "equal"} <= set(rows[0])
    assert rows[0]["equal"] is True  # independent: the same room planned anew at each step
    assert done.returncode == 0


def test_bench_names_the_cases_there_are(run: Callable[..., Ran]) -> None:
    ran = run("bench", "plam-5")
    assert ran.code == 2
    assert "plan-5" in ran.err


# What if a wall moves ---------------------------------------------------------------------------------------


def test_moving_either_side_wall_of_a_mirrored_room_costs_the_same(run: Callable[..., Ran]) -> None:
    ran = run("plan", HAND, "--steady", "--json")
    moves = json.loads(ran.out)["moves"]
    costs = {(step["wall"], step["by"]): step["around"]["cost"] for step in moves["steps"]}
    assert len(costs) == 6
    # independent: the side walls of the hand-worked room are mirror images of each other
    for by in ('1/16"', '-1/16"'):
        assert costs["L", by] == costs["R", by]
    # published: convention 8: the back plane 1/16 forward takes 21.5 minutes and not 19, so 2.5 min more;
    # four shims at $0.15 and one pass less on the way: 2.5 x 95 / 60 + 0.60 = 4.56
    least = json.loads(run("plan", HAND, "--json").out)["framing"]["cost"]
    assert round(float(costs["B", '1/16"']) - float(least), 2) == 4.56
    page = run("plan", HAND, "--steady").out
    assert "What if a wall moves a step?" in page
    assert "How steady is the plan?" in page
    assert "What if a wall moves" not in run("plan", HAND).out
