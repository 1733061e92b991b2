"""Every length and every number that a job can hold: what cannot be is refused in one line, the rest judged.

The bounds are the trade's own sense, worked by hand (independent): a thing that is there is more than nothing
thick; a float, a play and a limit have no sign; nothing stands below the floor it is measured from.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

import pytest

from undertile.bounds import Bound
from undertile.errors import FileError
from undertile.findings import Finding, Severity
from undertile.job import read_job
from undertile.job.checks import plausibility
from undertile.job.model import job_shape
from undertile.job.settle import settle
from undertile.job.shape import Leaf, keys_of

STUDS = {"L1": {"along": "2", "readings": {}}}
ROOM: dict[str, Any] = {
    "unit": "in",
    "survey": {"walls": {"L": {"nominal": "6", "heights": ["2", "90"], "top": "94-1/2", "studs": STUDS}}},
}
NEEDED: dict[str, dict[str, Any]] = {
    "survey.walls.*.plates.*": {"along": "2", "height": "2"},
    "survey.widths.*": {"depth": "2", "height": "2", "reading": "60"},
    "survey.diagonals.*": {"corner": "BL", "depth": "2", "height": "2", "reading": "60"},
    "survey.levels.*": {"stud": "L1", "low": "2", "high": "90", "reading": "0"},
    "survey.repeats.*": {"stud": "L1", "height": "2", "reading": "6"},
    "survey.gaps.*": {"depth": "2", "reading": "48"},
    "survey.squares.*": {"wall": "L", "over": "36", "out": "0"},
    "survey.walls.*.studs.*": {"along": "2"},
    "framing.studs.*.holes.*": {"height": "2", "diameter": "1", "edge": "1"},
    "framing.studs.*.services.*": {"height": "2", "clear": "1"},
    "framing.stock.*": {"thickness": "1/8"},
    "framing.stock.*.other_lengths.*": {"length": "96"},
    "framing.things.*": {"wall": "L", "along": "2", "height": "2"},
    "framing.valve": {
        **{"wall": "L", "along": "2", "height": "2", "reading": "7"},
        **{"window_low": "1", "window_high": "2"},
    },
    "framing.edges.*": {"wall": "L", "along": "2", "readings": {"2": "5"}},
    "framing.walls.*.hold": {"reason": "so"},
    "recheck.straightedges.*": {"wall": "L", "way": "up", "length": "24", "gap": "0"},
    "recheck.planes.*": {"reason": "so"},
    "pan.drain": {"x": "3", "y": "3", "float_x": "0", "float_y": "0"},
    "pan.pan.outlet": {"x": "3", "y": "3"},
    "framing.corners.*": {"wood": "1"},
    "wood.visits.*": {"when": "2026-03-04"},
    "floor.joists.*": {"at": "8"},
    "floor.joists.*.notches.*": {"start": "8", "length": "1", "depth": "1"},
    "floor.joists.*.holes.*": {"at": "8", "diameter": "1", "top": "2"},
    "floor.joists.*.soft.*": {"start": "8", "length": "6"},
    "floor.joists.*.sister": {"width": "1-1/2", "depth": "9-1/4"},
    "floor.sister_stock": {"width": "1-1/2", "depth": "9-1/4"},
    "floor.loads.on_top.*": {"what": "mortar bed", "thickness": "1"},
    "floor.patch.bad.*": {"left": "8", "right": "24", "back": "8", "front": "24"},
    "floor.patch.panels.*": {"thickness": "23/32"},
    "floor.patch.panels.*.offcuts.*": {"length": "48", "width": "24"},
    "floor.level.spots.*": {"x": "0", "y": "0"},
    "floor.bed": {"width": "36", "depth": "36", "drain_x": "18", "drain_y": "18"},
    "wood.points.*": {"member": "stud"},
    "wood.points.*.chips.*": {"wet": 12, "dry": 10},
    "wood.equipment.*": {"what": "heater", "on": "2026-03-04"},
    "wood.leak.dials.*": {"when": "2026-03-04", "first": 1, "last": 1, "minutes": 30, "finest": 1},
    "wood.leak.pressures.*": {"when": "2026-03-04", "first": 60, "last": 60, "minutes": 15},
    "wood.leak.pours.*": {"when": "2026-03-04", "gallons": 5, "minutes": 15, "below": "dry"},
    "wood.leak.fills.*": {"when": "2026-03-04", "drop": "0", "hours": 24, "below": "dry"},
    "wood.leak.sprays.*": {"when": "2026-03-04", "zone": "curb", "minutes": 10, "shows": "dry"},
    "wood.leak.outsides.*": {"when": "2026-03-04", "minutes": 15, "shows": "dry"},
    "wood.leak.colds.*": {"when": "2026-03-04", "surface": "60 F", "air": "70 F", "humidity": 50},
    "wood.leak.next_doors.*": {"when": "2026-03-04", "minutes": 15, "shows": "dry"},
}
"""What must stand beside a fact for its table to be one."""

MORE_THAN_NOTHING = [
    "floor.joists.*.width",
    "floor.joists.*.depth",
    "floor.joists.*.span",
    "floor.joists.*.bearing",
    "floor.joists.*.notches.*.length",
    "floor.joists.*.notches.*.depth",
    "floor.joists.*.holes.*.diameter",
    "floor.joists.*.soft.*.length",
    "floor.joists.*.sister.width",
    "floor.joists.*.sister.depth",
    "floor.joists.*.sister.length",
    "floor.all_joists.width",
    "floor.all_joists.depth",
    "floor.all_joists.span",
    "floor.all_joists.spacing",
    "floor.all_joists.bearing",
    "floor.sister_stock.width",
    "floor.sister_stock.depth",
    "floor.sister_stock.length",
    "floor.cut_limits.notch_depth",
    "floor.cut_limits.notch_length",
    "floor.cut_limits.end_notch",
    "floor.cut_limits.hole",
    "floor.loads.on_top.*.thickness",
    "floor.patch.width",
    "floor.patch.depth",
    "floor.patch.lower.thickness",
    "floor.patch.upper.thickness",
    "floor.patch.panels.*.thickness",
    "floor.patch.panels.*.length",
    "floor.patch.panels.*.width",
    "floor.patch.panels.*.offcuts.*.length",
    "floor.patch.panels.*.offcuts.*.width",
    "floor.patch.offset",
    "floor.patch.screw_edge",
    "floor.patch.screw_field",
    "floor.level.right",
    "floor.level.front",
    "floor.level.grid",
    "floor.bed.width",
    "floor.bed.depth",
    "floor.bed.at_drain",
    "floor.bed.bag",
    "floor.bed.bag_weight",
    "floor.bed.density",
    "wood.meters.*.give_or_take",
    "wood.points.*.layer",
    "wood.points.*.thickness",
    "wood.points.*.chips.*.wet",
    "wood.points.*.chips.*.dry",
    "wood.equipment.*.count",
    "wood.allowed.most",
    "wood.allowed.never",
    "wood.allowed.read_within",
    "wood.allowed.past_the_last",
    "wood.leak.dials.*.minutes",
    "wood.leak.dials.*.finest",
    "wood.leak.pressures.*.minutes",
    "wood.leak.pressures.*.finest",
    "wood.leak.pours.*.gallons",
    "wood.leak.pours.*.litres",
    "wood.leak.pours.*.minutes",
    "wood.leak.fills.*.hours",
    "wood.leak.sprays.*.minutes",
    "wood.leak.outsides.*.minutes",
    "wood.leak.next_doors.*.minutes",
    "framing.studs.*.holes.*.diameter",
    "framing.studs.*.depth",
    "framing.walls.*.depth",
    "framing.walls.*.channel_height",
    "framing.stock.*.thickness",
    "framing.stock.*.length",
    "framing.stock.*.offcuts",
    "framing.stock.*.other_lengths.*.length",
    "framing.finish.board",
    "framing.finish.mortar",
    "framing.finish.tile",
    "framing.finish.tile_edge",
    "framing.finish.screw",
    "pan.pan.width",
    "pan.pan.depth",
    "pan.pan.carton_width",
    "pan.pan.carton_depth",
    "pan.pan.flange_height",
    "pan.pan.flange_thickness",
    "pan.way_in.door",
    "pan.way_in.tilt_height",
    "survey.squares.*.over",
    "recheck.straightedges.*.length",
    "recheck.feeler",
    "framing.rate",
    "safety.mold.*.square_feet",
]
NOTHING_OR_MORE = [
    "floor.joists.*.at",
    "floor.joists.*.notches.*.start",
    "floor.joists.*.holes.*.at",
    "floor.joists.*.holes.*.top",
    "floor.joists.*.soft.*.start",
    "floor.joists.*.soft.*.depth",
    "floor.joists.*.sister.start",
    "floor.sister_stock.start",
    "floor.cut_limits.keep",
    "floor.loads.live",
    "floor.loads.base",
    "floor.loads.point",
    "floor.loads.on_top.*.weight",
    "floor.patch.bad.*.left",
    "floor.patch.bad.*.right",
    "floor.patch.bad.*.back",
    "floor.patch.bad.*.front",
    "floor.patch.panels.*.on_van",
    "floor.patch.panels.*.price",
    "floor.patch.gap",
    "floor.patch.kerf",
    "floor.level.line",
    "floor.level.spots.*.x",
    "floor.level.spots.*.y",
    "floor.level.left",
    "floor.level.back",
    "floor.level.limit",
    "floor.level.slope",
    "floor.level.most_off",
    "floor.level.most_fill",
    "floor.level.sigma",
    "floor.level.minutes.off_setup",
    "floor.level.minutes.off_place",
    "floor.level.minutes.off_step",
    "floor.level.minutes.fill_setup",
    "floor.level.minutes.fill_place",
    "floor.level.minutes.fill_step",
    "floor.bed.drain_x",
    "floor.bed.drain_y",
    "floor.bed.slope",
    "floor.bed.steepest",
    "floor.bed.top",
    "photos.*.height",
    "survey.walls.*.nominal",
    "survey.walls.*.heights",
    "survey.walls.*.top",
    "survey.walls.*.studs.*.along",
    "survey.walls.*.plates.*.along",
    "survey.walls.*.plates.*.height",
    "survey.widths.*.depth",
    "survey.widths.*.height",
    "survey.diagonals.*.depth",
    "survey.diagonals.*.height",
    "survey.levels.*.low",
    "survey.levels.*.high",
    "survey.repeats.*.height",
    "survey.gaps.*.depth",
    "wood.meters.*.low",
    "wood.points.*.along",
    "wood.points.*.height",
    "wood.points.*.x",
    "wood.points.*.y",
    "wood.points.*.depth",
    "wood.points.*.awl.*",
    "wood.points.*.swollen",
    "wood.allowed.over_reference",
    "wood.leak.pours.*.after",
    "wood.leak.fills.*.drop",
    "wood.leak.fills.*.bowl",
    "wood.leak.sprays.*.after",
    "wood.leak.outsides.*.after",
    "framing.studs.*.notch",
    "framing.studs.*.holes.*.height",
    "framing.studs.*.holes.*.edge",
    "framing.studs.*.services.*.height",
    "framing.studs.*.services.*.clear",
    "framing.walls.*.plumb_limit",
    "framing.stock.*.price",
    "framing.stock.*.on_van",
    "framing.stock.*.other_lengths.*.price",
    "framing.stock.*.other_lengths.*.on_van",
    "framing.saw.kerf",
    "framing.saw.square_end",
    "framing.things.*.along",
    "framing.things.*.height",
    "framing.things.*.minutes",
    "framing.things.*.relief",
    "framing.things.*.keep_off",
    "framing.valve.along",
    "framing.valve.height",
    "framing.valve.reblock_reach",
    "framing.valve.keep_off",
    "framing.edges.*.along",
    "framing.edges.*.step_back",
    "framing.edges.*.step_proud",
    "framing.corners.*.wood",
    "framing.finish.membrane",
    "framing.prices.*",
    "pan.pan.play_low",
    "pan.pan.play_high",
    "pan.pan.depths",
    "pan.pan.outlet.x",
    "pan.pan.outlet.y",
    "pan.pan.threshold",
    "pan.pan.skew_limit",
    "pan.pan.diagonal_limit",
    "pan.drain.x",
    "pan.drain.y",
    "pan.drain.float_x",
    "pan.drain.float_y",
    "recheck.walls.*.nominal",
    "recheck.walls.*.heights",
    "recheck.straightedges.*.gap",
    "recheck.straightedges.*.height",
    "recheck.done.*.minutes",
]
EITHER_WAY = {
    "safety.year": "1599",
    "wood.meters.*.high": "14",
    "framing.walls.*.hold.offset": "12-1/16",
    "framing.walls.*.hold.skew": "6-1/16",
    "framing.walls.*.hold.lean": "-6-1/16",
    "recheck.planes.*.offset": "-12-1/16",
    "recheck.planes.*.skew": "6-1/16",
    "recheck.planes.*.lean": "6-1/16",
    "framing.valve.window_low": "-12-1/16",
    "framing.valve.window_high": "12-1/16",
}
JUDGED = [
    "floor.level.spots.*.reading",
    "floor.level.spots.*.on_new",
    "wood.visits.*.humidity",
    "wood.leak.dials.*.first",
    "wood.leak.dials.*.last",
    "wood.leak.pressures.*.first",
    "wood.leak.pressures.*.last",
    "wood.leak.colds.*.humidity",
    "survey.walls.*.studs.*.readings.height",
    "survey.walls.*.studs.*.arris.height",
    "survey.walls.*.plates.*.reading",
    "survey.widths.*.reading",
    "survey.diagonals.*.reading",
    "survey.levels.*.reading",
    "survey.repeats.*.reading",
    "survey.gaps.*.reading",
    "survey.squares.*.out",
    "survey.sigma.*",
    "framing.things.*.reading",
    "framing.valve.reading",
    "framing.edges.*.readings.height",
    "recheck.sigma.*",
    "recheck.walls.*.studs.*.readings.height",
    "recheck.walls.*.studs.*.arris.height",
    "recheck.widths.*.depth",
    "recheck.widths.*.height",
    "recheck.widths.*.reading",
    "recheck.diagonals.*.depth",
    "recheck.diagonals.*.height",
    "recheck.diagonals.*.reading",
]
"""Readings, and how well a tool reads: never refused, whatever they say. (A width's or a diagonal's place is
held in the survey's own lines above; read again, it is the same model.)"""

OTHER_RULES = (
    "survey.walls.*.heights",
    "recheck.walls.*.heights",
    "survey.levels.*.high",
    "survey.repeats.*.height",
    "pan.pan.play_high",
)
"""Where 0 can be, and another fact beside it would have to be another too."""

NAMES = {
    "survey.walls.*": "L",
    "framing.walls.*": "L",
    "framing.studs.*": "L1",
    "framing.corners.*": "B-L",
    "framing.prices.*": "sister",
    "recheck.walls.*": "L",
    "recheck.planes.*": "L",
    "recheck.done.*": "L1",
    "photos.*": "0" * 32,
}


def table(path: str, value: Any) -> Mapping[str, Any]:
    """A room with one fact set, and beside it what its table needs."""
    raw: dict[str, Any] = {
        "unit": "in",
        "survey": {"walls": {"L": {**ROOM["survey"]["walls"]["L"], "studs": {"L1": {"along": "2"}}}}},
    }
    at, so_far = raw, ""
    parts = path.split(".")
    for part in parts[:-1]:
        so_far = f"{so_far}.{part}".lstrip(".")
        name = NAMES.get(so_far, "n") if part == "*" else part
        if so_far == "survey.walls.*.studs.*":
            name = "L1"
        at = at.setdefault(name, {})
        for key, text in NEEDED.get(so_far, {}).items():
            at.setdefault(key, text)
    last = NAMES.get(path, "n") if parts[-1] == "*" else parts[-1]
    at[last] = value
    return raw


def leaves() -> dict[str, Leaf]:
    kinds = ("length", "reading", "whole", "number")
    found = {".".join(path): node for path, node in keys_of(job_shape())}
    return {path: node for path, node in found.items() if isinstance(node, Leaf) and node.kind in kinds}


def test_every_length_and_number_of_a_job_has_its_bound_listed_here() -> None:
    listed = [*MORE_THAN_NOTHING, *NOTHING_OR_MORE, *EITHER_WAY, *JUDGED]
    assert len(listed) == len(set(listed))
    assert set(leaves()) == set(listed)


def value_of(path: str, text: str) -> Any:
    leaf = leaves()[path]
    plain: Any = int(text) if leaf.kind in ("whole", "number") else text
    return [plain, "90"] if leaf.many and path.endswith("heights") else [plain] if leaf.many else plain


@pytest.mark.parametrize(
    ("path", "text"),
    [
        *[(path, text) for path in MORE_THAN_NOTHING for text in ("0", "-1")],
        *[(path, "-1") for path in NOTHING_OR_MORE],
        *EITHER_WAY.items(),
    ],
)
def test_what_cannot_be_is_refused_in_one_line_at_its_place(path: str, text: str) -> None:
    job, troubles = settle(table(path, value_of(path, text)), "in")
    assert job is None
    own = [each for each in troubles if path.split(".")[-1] in ("*", *each.path)]
    assert len(own) == 1
    line = own[0].line()
    assert text in line
    assert "; " in line  # what to do
    assert "\n" not in line


@pytest.mark.parametrize("path", [path for path in NOTHING_OR_MORE if path not in OTHER_RULES])
def test_nothing_is_something_where_it_can_be(path: str) -> None:
    _, troubles = settle(table(path, value_of(path, "0")), "in")
    assert troubles == []


def test_a_reading_is_never_refused_however_odd() -> None:
    text = """
version = 2
unit = "in"
[survey.walls.L]
nominal = "6-0"
heights = ["2", "48"]
[survey.walls.L.studs]
L1 = { along = "2", readings = ["-6-1/8", "0"] }
[survey.widths]
w = { depth = "3", height = "2", reading = "-60" }
"""
    assert read_job(text) is not None


def test_a_price_that_no_work_has_is_refused_with_the_nearest_one() -> None:
    with pytest.raises(FileError) as refused:
        read_job('version = 2\nunit = "in"\n[framing.prices]\nstrips = 5\n')
    (line,) = refused.value.problems
    assert "line 4: framing.prices.strips: expected a price of this job, found `strips`; write strip_" in line


def test_a_notch_as_deep_as_its_stud_is_refused() -> None:
    raw = table("framing.studs.*.notch", "3-1/2")
    raw["framing"]["studs"]["L1"]["depth"] = "3-1/2"
    _, (trouble,) = settle(raw, "in")
    assert trouble.expected == "`notch` less than `depth`"


def test_a_bound_says_where_it_ends() -> None:
    bound = Bound("so", "so", "do", Fraction(0), Fraction(2), above=True)
    assert [bound.holds(Fraction(n)) for n in (-1, 0, 1, 2, 3)] == [False, False, True, True, False]


# --- what can be and is still asked about


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
