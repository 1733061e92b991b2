"""What lacks at every joist alike is one line on every face, with all of them by name."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.cast import site
from undertile.cli import main
from undertile.findings import Finding, Severity, together
from undertile.job import plan, read_job
from undertile.job.entry import Pen
from undertile.job.plain import entries_of
from undertile.packet.floor import floor_sheet

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
TEXT = EXAMPLE.read_text("utf-8").replace('span = "126"\n', "")


def finding(where: str, found: str = "not measured") -> Finding:
    return Finding("span", Severity.ACT, where, "a span", found, "Measure it.", "convention-4")


def test_alike_is_told_once_and_another_figure_for_itself() -> None:
    told = together([finding("J1"), finding("J2", "9"), finding("J3"), finding("J1")])
    assert [each.where for each in told] == ["J1 and J3", "J2"]


def test_five_joists_without_a_span_are_one_line_on_every_face(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """independent: the example has five joists and one span for all of them; it is taken out."""
    at = site()
    job = at.store.create()
    at.store.append(job, entries_of(read_job(TEXT.encode()), Pen("import", "Bo", "2026-11-24T08:00:00")))
    for lang, said in (("en", "Joist J1, joist J2, joist J3, joist J4 and joist J5"), ("es", "igueta J5")):
        told = at.twin(f"/job/{job}/floor", lang=lang)["findings"]
        (one,) = [each["text"] for each in told if each["code"] == "joist-span-missing"]
        assert said.casefold() in one.casefold()
    at.store.close()
    sheet = floor_sheet(plan(read_job(TEXT.encode())))
    assert sheet is not None
    assert sum("span" in each and "J5" in each for each in sheet.acts) == 1
    path = tmp_path / "job.toml"
    path.write_text(TEXT, "utf-8")
    main(["floor", str(path)])
    assert " ".join(capsys.readouterr().out.split()).count("the span is not measured. Expected:") == 1
