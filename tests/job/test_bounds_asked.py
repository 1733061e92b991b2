"""What can be and is still asked about: a name for a size, a carton for a pan, a place above the plate."""

from __future__ import annotations

import pytest

from tests.job.bounds_listed import table
from undertile.findings import Finding, Severity
from undertile.job.checks import plausibility
from undertile.job.settle import settle


def asked(path: str, value: str, **more: str) -> list[Finding]:
    raw = table(path, value)
    for key, text in more.items():
        raw["pan"]["pan"][key] = text  # type: ignore[index]
    job, troubles = settle(raw, raw["unit"])
    assert job is not None, troubles
    return list(plausibility(job))


@pytest.mark.parametrize(
    ("nominal", "dressed"),
    # published: PS 20, minimum dressed dry sizes
    [("2", "1-1/2"), ("3", "2-1/2"), ("4", "3-1/2"), ("6", "5-1/2"), ("8", "7-1/4"), ("10", "9-1/4"),
     ("12", "11-1/4")],
)  # fmt: skip
def test_a_stud_as_deep_as_its_name_is_asked_about(nominal: str, dressed: str) -> None:
    (one,) = asked("framing.studs.*.depth", nominal)
    assert (one.code, one.severity, one.where) == ("size-looks-nominal", Severity.ACT, "L1, depth")
    assert one.expected.endswith(f"is {dressed}")
    assert f"write {nominal}-0" in one.next_step
    assert asked("framing.studs.*.depth", f"{nominal}-0") == []
    assert asked("framing.studs.*.depth", dressed) == []


@pytest.mark.parametrize(
    ("path", "where"),
    [
        ("floor.all_joists.depth", "all joists, depth"),
        ("floor.joists.*.depth", "joist n, depth"),
        ("floor.joists.*.sister.depth", "sister of joist n, depth"),
        ("floor.sister_stock.depth", "sister stock, depth"),
    ],
)
def test_a_joist_by_its_name_is_asked_about(path: str, where: str) -> None:
    (one,) = asked(path, "10")
    assert (one.code, one.where) == ("size-looks-nominal", where)
    assert one.expected.endswith("is 9-1/4")  # published: PS 20
    assert asked(path, "10-0") == asked(path, "9-1/4") == []
    (thick,) = asked(path.replace("depth", "width"), "2")
    assert thick.expected == "actual width; a dressed piece sold as 2 is 1-1/2"


def test_a_pan_as_wide_as_its_carton_is_asked_about() -> None:
    (one,) = asked("pan.pan.width", "60", carton_width="60")
    assert (one.code, one.where, one.found) == ("size-looks-nominal", "pan, width", "`60`")
    assert asked("pan.pan.width", "60-0", carton_width="60") == []
    assert asked("pan.pan.width", "59-13/16", carton_width="60") == []


def test_plywood_by_its_name_is_asked_about_and_hardboard_is_not() -> None:
    raw = table("framing.stock.*.thickness", "1/4")
    raw["framing"]["stock"] = {"ply 1/4": {"thickness": "1/4"}, "hardboard": {"thickness": "1/4"}}
    job, _ = settle(raw, "in")
    assert job is not None
    (one,) = plausibility(job)
    assert (one.code, one.severity, one.where) == ("size-looks-nominal", Severity.NOTE, "stock ply 1/4")


def test_stock_too_thick_for_any_strip_is_said_to_stay_out_of_the_plan() -> None:
    # published: convention 4.3, 3/4 in all
    assert asked("framing.stock.*.thickness", "3/4") == []
    (one,) = asked("framing.stock.*.thickness", "13/16")
    assert one.code == "stock-not-used"


@pytest.mark.parametrize(
    "path",
    [
        "framing.studs.*.services.*.height",
        "framing.studs.*.holes.*.height",
        "framing.things.*.height",
        "framing.valve.height",
        "survey.walls.*.plates.*.height",
    ],
)
def test_what_stands_above_the_top_plate_is_said(path: str) -> None:
    job, _ = settle(table(path, "184"), "in")
    assert job is not None
    (one,) = plausibility(job)
    assert (one.code, one.found) == ("height-above-plate", "`184`")
    assert "wall L, 94-1/2" in one.expected
    below, _ = settle(table(path, "94-1/2"), "in")
    assert below is not None
    assert plausibility(below) == ()
