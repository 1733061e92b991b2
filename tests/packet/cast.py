"""Jobs the papers are tried on: the examples with their slips mended, and rooms made for one thing."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from undertile.job import Job, Rebuild, plan, read_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
MENDED = {
    "hand": (),
    "old-alcove": (
        ('"6-1/8",   "6-1/4",   "7-1/4"', '"6-1/8",   "6-1/4",   "6-1/4"'),
        ('"5-7/8",   "6-1/8",   "5-7/8"', '"5-7/8",   "5-7/8",   "5-7/8"'),
    ),
    "square-pan": (('"149", "174",', '"149", "147",'),),
}
"""Examples with every planted slip set right (docs/examples.md tells them)."""


def text_of(name: str) -> str:
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def job_of(text: str) -> Job:
    return read_job(text.encode())


@cache
def mended(name: str) -> Rebuild:
    """An example without its slips, planned."""
    text = text_of(name)
    for old, new in MENDED[name]:
        assert old in text
        text = text.replace(old, new)
    return planned(text)


@cache
def planned(text: str) -> Rebuild:
    """A job's text, planned once."""
    return plan(job_of(text))


@cache
def as_typed(name: str) -> Rebuild:
    """An example as it is, planned."""
    return planned(text_of(name))


def wall(studs: int, readings: tuple[str, ...] = ("6-0", "5-7/8", "6-1/8"), name: str = "") -> str:
    """A back wall alone: studs 16 apart, three heights, the middle reading from ``readings`` in turn."""
    rows = "\n".join(
        f'B{n} = {{ along = "{16 * n - 8}", readings = ["6-0", "{readings[n % len(readings)]}", "6-0"] }}'
        for n in range(1, studs + 1)
    )
    return (
        f"version = 2\nunit = \"in\"\nname = '''{name}'''\n[survey.walls.B]\nnominal = \"6-0\"\n"
        f'heights = ["2", "48", "90"]\ntop = "94-1/2"\n[survey.walls.B.studs]\n{rows}\n'
        '[framing.walls.B]\nkind = "wood"\nbearing = "no"\nbay = "clear"\n'
        '[framing.stock]\n"ply 1/8" = { thickness = "1/8" }\n'
    )


EMPTY = 'version = 2\nunit = "in"\n'
"""A job just begun: nothing at all."""
NAMED = 'version = 2\nunit = "mm"\n[survey.walls.L]\nnominal = "150"\n[survey.walls.B]\nnominal = "150"\n'
"""A job of which only walls are named."""
