"""The jobs that come with the tool."""

from __future__ import annotations

from pathlib import Path

from undertile.bundled import ORDER, bundled_jobs
from undertile.job import read_job

EXAMPLES = Path(__file__).parent.parent / "examples"


def test_every_example_is_bundled_as_it_stands_in_the_folder() -> None:
    jobs = bundled_jobs()
    assert tuple(jobs) == ORDER
    assert {path.stem: path.read_bytes() for path in EXAMPLES.glob("*.toml")} == jobs
    assert all(read_job(content).name for content in jobs.values())
