"""The page of the job file: every key is on it, and what it shows is true."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from undertile.job import Pen, read_grid, read_job
from undertile.job.model import job_shape
from undertile.job.pages import main, with_every_key
from undertile.job.shape import keys_of

DOCS = Path(__file__).parents[2] / "docs"
PAGE = (DOCS / "job-file.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL)


def test_every_key_of_a_job_is_on_the_page() -> None:
    for path, _ in keys_of(job_shape()):
        if path[-1] not in ("*", "height"):
            assert f"`{path[-1]}`" in PAGE or f"`[{path[-1]}]`" in PAGE, ".".join(path)


def test_the_page_is_current() -> None:
    assert with_every_key(PAGE) == PAGE, "run: python -m undertile.job.pages docs"


def test_the_pages_are_made_anew_by_the_command(tmp_path: Path) -> None:
    for name in ("job-file.md", "job.schema.json"):
        (tmp_path / name).write_text((DOCS / name).read_text(encoding="utf-8"), encoding="utf-8")
    main(str(tmp_path))
    for name in ("job-file.md", "job.schema.json"):
        assert (tmp_path / name).read_bytes() == (DOCS / name).read_bytes()


def test_a_page_without_the_marks_is_refused() -> None:
    with pytest.raises(ValueError, match="no part between"):
        with_every_key("# A page")


@pytest.mark.parametrize("block", BLOCKS)
def test_every_job_file_on_the_page_is_one(block: str) -> None:
    assert read_job(block).unit == "in"


def test_both_grids_on_the_page_are_one_grid() -> None:
    part = PAGE.split("either way round:")[1].split("- One head line")[0]
    lines = [line[4:] for line in part.splitlines() if line.strip()]
    rows = "\n".join(line[:32].strip() for line in lines if line[:32].strip())
    columns = "\n".join(line[32:].strip() for line in lines)
    pen = Pen("d", "Ann", "t")
    reports = [read_grid(text, pen, "in") for text in (rows, columns)]
    assert [report.problems for report in reports] == [(), ()]
    assert {e.fact: e.value for e in reports[0].entries} == {e.fact: e.value for e in reports[1].entries}
    assert len(reports[0].entries) == 12  # independent: heights, 3 alongs, 8 readings, counted on the page
