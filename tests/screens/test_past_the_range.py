"""Over and under the meter's range on the screens, the record and the command line: no measured number."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.screens.cast import EXAMPLES, Site, bring, site
from undertile.cli import main
from undertile.job import plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.record import water_record

OVER, UNDER = "plate-B-28", "plate-B-40"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def job_of(at: Site) -> str:
    shown = {OVER: "over", UNDER: "under"}
    job = bring(at, "wet-corner", {f"wood.points.{name}.shown.3": value for name, value in shown.items()})
    for name, value in shown.items():
        assert at.value(job, f"wood.points.{name}.shown.3") == value
    return job


def test_the_screens_say_more_than_and_less_than(at: Site) -> None:
    """independent: the meter's ends, 30 and 7."""
    job = job_of(at)
    water = at.twin(f"/job/{job}/water")
    points = {each["name"]: each for group in water["groups"] for each in group["points"]}
    assert (points[OVER]["value"], points[OVER]["give"]) == (">30 %", "")
    assert (points[UNDER]["value"], points[UNDER]["give"]) == ("<7 %", "")
    page = at.page(f"/job/{job}/water")
    assert "30.0 %" not in page
    assert "7.0 %" not in page
    alone = at.twin(f"/job/{job}/water/point", name=OVER)
    assert alone["point"]["readings"][-1]["corrected"] == ">30 %"


def test_the_pad_asks_about_a_rise_of_at_least_so_much(at: Site) -> None:
    """independent: 16.5 or 18.5 before and 30 or more now; read twice it is no slip, and rises."""
    job = job_of(at)
    twice = at.twin(f"/job/{job}/water/round/3")["judged"]["points"][f"wood.points.{OVER}.shown.3"]
    assert twice["text"] == "Rising at least 11.5 since last time: look for water."
    job = bring(at, "wet-corner")
    fact = f"wood.points.{OVER}.shown.4"
    at.send(job, {"fact": "wood.visits.4.when", "value": "2026-03-09 16:00"}, {"fact": fact, "value": "over"})
    told = at.twin(f"/job/{job}/water/round/4")["judged"]["points"][fact]
    assert told["text"] == "Up at least 13.5 since last time?"
    page = at.twin(f"/job/{job}/water/round/4", lang="es")["judged"]["points"][fact]
    assert page["text"] == "¿Subió al menos 13.5 desde la última vez?"


def test_the_command_line_and_the_record_have_no_measured_number_either(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """independent: as on the screens."""
    typed = tmp_path / "past.toml"
    text = (EXAMPLES / "wet-corner.toml").read_text(encoding="utf-8")
    for name, shown in ((OVER, "over"), (UNDER, "under")):
        head, own = text.split(f"[wood.points.{name}]")
        own = re.sub(r'"3" = "[0-9.]+"', f'"3" = "{shown}"', own, count=1)
        text = f"{head}[wood.points.{name}]{own}"
    typed.write_text(text, encoding="utf-8")
    main(["water", str(typed)])
    page = capsys.readouterr().out
    assert re.search(r"plate B at 28 +20.5 18.5 over +>30 ", page)
    assert re.search(r"plate B at 40 +11.5 11 under +<7 ", page)
    assert "7.0 %" not in page
    sheet = water_record(plan(read_job(typed), STAGES), date="2026-03-07")
    rows = {row.place: (row.value, row.give) for row in sheet.places}
    assert rows["plate B at 28"] == (">30 %", "-")
    assert rows["plate B at 40"] == ("<7 %", "-")


def test_places_without_a_date_that_are_not_named_are_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """independent: eleven without a date, of which three go out with the patch; four named."""
    main(["water", str(EXAMPLES / "wet-corner.toml"), "--visit", "1"])
    page = capsys.readouterr().out
    assert "No date yet: 8 places have none." in page
    assert "and 4 more" in page
