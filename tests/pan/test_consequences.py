"""Everything together: order, uniqueness, mirror images, nothing passed that is not shown."""

from __future__ import annotations

import re

import pytest

from tests.pan.cast import convention_8, inch, pan_facts
from undertile.findings import Severity, Verdict
from undertile.framing.build import PanSeat
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan
from undertile.framing.problem import Demand
from undertile.pan import STAGE
from undertile.pan.built import Built
from undertile.pan.consequences import PanResult, consequences
from undertile.pan.facts import PanFacts
from undertile.sources import SOURCES
from undertile.survey.result import Frame, SurveyResult


def full(unit: str = "in") -> tuple[Built, FramingFacts, PanFacts]:
    """Convention 8's room with everything that can be asked."""
    framing = FramingFacts.model_validate(
        {
            "walls": {
                w: {"kind": "wood", "bearing": "no", "bay": "clear", "depth": inch("7/2")} for w in "LBR"
            },
            "studs": {"B2": {"services": {"riser": {"height": inch(48), "clear": inch("3/2")}}}},
            "finish": {
                "board": inch("1/2"),
                "membrane": inch("1/32"),
                "mortar": inch("1/8"),
                "tile": inch("5/16"),
                "tile_edge": inch(12),
                "screw": inch("13/8"),
            },
            "valve": {
                "wall": "L",
                "along": inch(16),
                "height": inch(44),
                "reading": inch(8),
                "window_low": inch("17/8"),
                "window_high": inch("25/8"),
            },
            "edges": {"plaster": {"wall": "R", "along": inch(36), "readings": {'48"': inch("87/16")}}},
            "corners": {"B-L": {"wood": inch("3/2")}},
        }
    )
    pan = pan_facts(
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch("241/8"), "y": inch(16), "float_x": inch("1/4"), "float_y": inch("1/4")},
        threshold=inch(3),
        way_in={"door": inch(34)},
    )
    return convention_8(unit), framing, pan  # type: ignore[arg-type]


def run(unit: str = "in") -> PanResult:
    built, framing, pan = full(unit)
    return consequences(pan, built.survey, framing, built.plan, unit)  # type: ignore[arg-type]


def test_the_first_question_is_answered_first():
    # issue: does the pan drop in; what else moves
    codes = [check.code for check in run().checks]
    assert codes[0] == "drop-in"
    order = ["drop-in", "gap-L", "way-in-door", "diagonals", "drain-across", "valve-depth", "edge-plaster-48"]
    order += ["backing-B-L", "screws-L", "plate-B2-riser", "notch-B2", "inside-side", "plumb-L"]
    assert [code for code in codes if code in order] == order


def test_codes_are_unique_and_sources_exist():
    result = run()
    codes = [check.code for check in result.checks]
    assert len(codes) == len(set(codes))
    assert {check.source for check in result.checks} <= set(SOURCES)
    assert {finding.source for finding in result.findings} <= set(SOURCES)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_passes_gives_no_step_and_what_does_not_always_does(unit: str):
    for check in run(unit).checks:
        assert bool(check.next_step) == (check.verdict is not Verdict.PASS), check.code
        if check.verdict is Verdict.NOT_SHOWN and not check.code.startswith("flat"):
            assert check.value == "", check.code


def test_no_face_shows_a_decimal_inch():
    for check in run().checks:
        words = " ".join(
            (check.value, check.limit, check.margin, check.next_step, check.eats, *check.because)
        )
        assert not re.search(r"\d\.\d", words), check


def test_inches_and_millimetres_give_the_same_verdicts():
    # independent: the unit is for print only
    inches, metric = run("in"), run("mm")
    assert [check.verdict for check in inches.checks] == [check.verdict for check in metric.checks]
    for check in metric.checks:
        if not check.code.startswith(("screws", "plate", "tip")):
            assert '"' not in f"{check.value} {check.limit} {check.margin}", check


def test_the_room_worked_by_hand_passes_what_it_was_made_to_pass():
    result = run()
    for code in (
        "drop-in",
        "drop-in-square",
        "gap-L",
        "gap-B",
        "gap-R",
        "diagonals",
        "drain-across",
        "valve-depth",
    ):
        assert result.check(code).verdict is Verdict.PASS
    with pytest.raises(KeyError):
        result.check("no such thing")


def test_a_job_just_begun_shows_nothing_and_passes_nothing():
    empty = SurveyResult((), Frame())
    result = consequences(PanFacts(), empty, FramingFacts(), FramingPlan("none"))
    assert result.checks
    assert {check.verdict for check in result.checks} == {Verdict.NOT_SHOWN}


def test_no_plan_shows_no_consequence_of_planes():
    built, framing, pan = full()
    result = consequences(pan, built.survey, framing, FramingPlan("none"))
    passed = {check.code for check in result.checks if check.verdict is Verdict.PASS}
    assert passed == {"way-in-door"}  # the door does not hang on the planes


def test_every_failure_is_a_finding_too():
    built, framing, _ = full()
    tight = pan_facts(width=inch("241/4"))
    result = consequences(tight, built.survey, framing, built.plan)
    failing = {check.code for check in result.checks if check.verdict is Verdict.FAIL}
    assert "drop-in" in failing
    found = {f.data["check"] for f in result.findings if f.code.startswith("fails-")}
    assert found == failing
    assert {f.severity for f in result.findings if f.code.startswith("fails-")} == {Severity.ACT}


def test_the_stage_answers_from_facts_and_results():
    built, framing, pan = full()
    facts = {"pan": pan, "framing": framing, "unit": "in"}
    asked = STAGE.demands(facts, {"survey": built.survey}) if STAGE.demands else ()
    rows = {row.code for row in asked if isinstance(row, Demand)}
    assert {"play-16", "skew-L", "square", "drain-y"} <= rows
    # the framing learns how the pan sits with what it asks
    (seat,) = (row for row in asked if isinstance(row, PanSeat))
    assert (seat.width, seat.depth, seat.flange_height) == (60, 32, 4)
    result = STAGE.run(facts, {"survey": built.survey, "framing": built.plan})
    assert result.check("drop-in").verdict is Verdict.PASS


def test_the_stage_still_answers_when_the_stages_before_did_not():
    result = STAGE.run({"pan": PanFacts(), "framing": FramingFacts(), "unit": "mm"}, {})
    assert result.check("drop-in").verdict is Verdict.NOT_SHOWN
    assert STAGE.demands is not None
    asked = STAGE.demands({"pan": PanFacts(), "framing": FramingFacts()}, {})
    assert not [row for row in asked if isinstance(row, Demand)]


def test_what_the_demands_miss_is_handed_on():
    built, framing, _ = full()
    facts = {"pan": pan_facts(width=None, carton_width=inch(60)), "framing": framing, "unit": "in"}
    result = STAGE.run(facts, {"survey": built.survey, "framing": built.plan})
    assert "pan-width-missing" in {finding.code for finding in result.findings}


def test_order_of_work_puts_the_pan_before_what_hangs_above():
    lines = run().order_of_work
    fit = next(i for i, line in enumerate(lines) if line.startswith("Dry fit"))
    shims = next(i for i, line in enumerate(lines) if "flange shims" in line)
    screws = next(i for i, line in enumerate(lines) if line.startswith("Board screws"))
    assert fit < shims < screws
