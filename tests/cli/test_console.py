"""Where words go: narrow papers, no colour, consoles that lack letters."""

from __future__ import annotations

import codecs
import io
import re
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, JOBS, Ran
from undertile.cli.console import NoTrailingBlanks, plain_letters, plain_where_needed, working

PAGES = [
    *(("plan", f"{job}.toml") for job in (*JOBS, "hand")),
    *(("check", f"{job}.toml") for job in (*JOBS, "hand")),
    ("explain", "old-alcove.toml", "L3"),
    ("explain", "square-pan.toml", "plane", "B"),
    ("explain", "steel-unit.toml", "valve"),
]


@pytest.mark.parametrize("page", PAGES, ids=" ".join)
def test_pages_fit_80_columns_with_no_colour_in_plain_ascii(
    page: tuple[str, ...], run: Callable[..., Ran]
) -> None:
    command, job, *rest = page
    out = run(command, EXAMPLES / job, *rest).out
    assert out
    assert max(map(len, out.split("\n"))) <= 80
    assert "\x1b" not in out
    assert out.isascii()
    assert all(line == line.rstrip() for line in out.split("\n"))


def test_a_doubt_is_a_word_whether_there_is_colour_or_not(
    run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch
) -> None:
    job = EXAMPLES / "square-pan.toml"
    assert "DOUBT" in run("check", job).out
    monkeypatch.setenv("FORCE_COLOR", "1")
    coloured = run("check", job).out
    assert "DOUBT" in coloured
    assert "\x1b[" in coloured
    monkeypatch.setenv("NO_COLOR", "1")
    colours = re.compile(r"\x1b\[[0-9;]*3[0-7][0-9;]*m")
    assert colours.search(coloured)
    assert not colours.search(run("check", job).out)


def test_letters_a_console_lacks_are_written_plainly() -> None:
    codecs.register_error("plain-letters", plain_letters)
    # independent: what a person would write instead
    assert "5½ at 4′ 2″ − 1".encode("ascii", "plain-letters") == b"5 1/2 at 4' 2\" - 1"
    assert "Café Ω".encode("ascii", "plain-letters") == b"Cafe ?"


def test_a_console_of_an_old_code_page_does_not_fail(
    run: Callable[..., Ran], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    text = (
        (EXAMPLES / "hand.toml")
        .read_text(encoding="utf-8")
        .replace("A room worked", "Ein Räumchen ⅝ – worked")
    )
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    raw = io.BytesIO()
    monkeypatch.setattr(sys, "stdout", io.TextIOWrapper(raw, encoding="cp437"))
    plain_where_needed()
    from undertile.cli import main

    assert main(["check", str(tmp_path / "job.toml")]) == 0
    sys.stdout.flush()
    assert "Ein Räumchen  5/8 - worked" in raw.getvalue().decode("cp437")


def test_blanks_at_the_end_of_a_line_are_left_out() -> None:
    out = io.StringIO()
    NoTrailingBlanks(out).write("a  \n  b   \nc")  # type: ignore[arg-type]
    assert out.getvalue() == "a\n  b\nc"


def test_nothing_moves_on_stderr_without_a_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    with working("Planning"):
        pass
    assert capsys.readouterr() == ("", "")
