"""What the pan asks of the planes: rows against hand figures, published diagonals and exact geometry."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction as F
from math import asin, hypot, tan

import pytest

from tests.pan.cast import inch, pan_facts, survey
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.framing.problem import Demand
from undertile.lengths import parse_length
from undertile.pan.demands import LINEAR_SHARE, demands
from undertile.pan.facts import PanFacts
from undertile.pan.square import diagonals
from undertile.survey.result import SurveyResult

NO_FACTS = FramingFacts()
SQUARE = {"L": F(0), "R": F(0)}


def asked(facts: PanFacts, room: SurveyResult) -> dict[str, Demand]:
    """The rows by code; codes are unique."""
    rows, _ = demands(facts, room, NO_FACTS)
    by_code = {row.code: row for row in rows}
    assert len(by_code) == len(rows)
    return by_code


def value(row: Demand, planes: Mapping[str, Plane]) -> F:
    return sum((c * planes[wall].at(along, z) for wall, along, z, c in row.parts), F(0))


def holds(row: Demand, planes: Mapping[str, Plane]) -> bool:
    found = value(row, planes)
    return (row.low is None or found >= row.low) and (row.high is None or found <= row.high)


def planes(**parts: tuple[F, F]) -> dict[str, Plane]:
    """Planes by wall as (offset, skew); the rest on nominal."""
    return {
        wall: Plane(wall, parts.get(wall, (F(0), F(0)))[0], parts.get(wall, (F(0), F(0)))[1], F(0))
        for wall in "LBR"
    }


def test_play_of_the_room_worked_by_hand():
    # independent: convention 8 by hand: 60-1/4 - 60 - (1/8 .. 1/16) = 1/8 .. 3/16 for the two planes together
    rows = asked(pan_facts(), survey())
    plays = [row for code, row in rows.items() if code.startswith("play-")]
    assert [row.code for row in plays] == ["play-1", "play-16", "play-32"]
    assert {(row.low, row.high) for row in plays} == {(F(1, 8), F(3, 16))}
    on_nominal = planes()
    both_forward = planes(L=(F(1, 16), F(0)), R=(F(1, 16), F(0)))
    one_forward = planes(L=(F(1, 8), F(0)))
    assert not any(holds(row, on_nominal) for row in plays)
    assert all(holds(row, both_forward) for row in plays)
    assert all(holds(row, one_forward) for row in plays)


def test_play_follows_the_growth_of_the_opening():
    # independent: 1/128 an inch more opening over 16 in of depth is 1/8 more at 16 than at the back
    rows = asked(pan_facts(depths=(inch(0), inch(16))), survey(growth=F(1, 128)))
    assert rows["play-16"].low - rows["play-0"].low == F(1, 8)
    assert rows["play-0"].low == F(1, 8)


def test_play_is_asked_at_every_flange_height_read():
    # independent: heights 1 and 3 lie below a flange of 4, 48 does not
    room = survey({}, heights=(F(1), F(3), F(48)))
    codes = [code for code in asked(pan_facts(depths=(inch(16),)), room) if code.startswith("play")]
    assert codes == ["play-16-at-1", "play-16-at-3"]


def test_a_leaning_plane_counts_at_the_height_of_the_row():
    room = survey({}, heights=(F(0), F(4), F(48)))
    rows = asked(pan_facts(depths=(inch(16),)), room)
    leaning = planes() | {"L": Plane("L", F(1, 8), F(0), F(1, 64))}
    # independent: 1/8 + 4/64 = 3/16
    assert value(rows["play-16-at-0"], leaning) == F(1, 8)
    assert value(rows["play-16-at-4"], leaning) == F(3, 16)


def test_a_sheet_that_allows_shimming_widens_the_window_and_says_how_it_is_priced():
    rows = asked(pan_facts(shimmed_play=True), survey())
    # independent: 60-1/4 - 60 - 1/4 = 0
    assert rows["play-16"].low == 0
    assert rows["play-16"].high == F(3, 16)
    assert "every fastened stud shimmed" in rows["play-16"].why
    assert "plan's cost counts" in rows["play-16"].why


def test_the_sheet_sets_another_window():
    rows = asked(pan_facts(play_low=inch(0), play_high=inch("3/16")), survey())
    # independent: 60-1/4 - 60 - 3/16 = 1/16; 60-1/4 - 60 - 0 = 1/4
    assert (rows["play-1"].low, rows["play-1"].high) == (F(1, 16), F(1, 4))


@pytest.mark.parametrize("size", ["width", "depth"])
def test_a_size_not_measured_asks_nothing_and_the_carton_is_never_used(size: str):
    facts = pan_facts(**{size: None, f"carton_{size}": inch(60)})
    rows, findings = demands(facts, survey(square=SQUARE), NO_FACTS)
    codes = {row.code for row in rows}
    gone = {"width": {"play-16", "skew-B", "square"}, "depth": {"skew-L", "skew-R", "square", "play-32"}}[
        size
    ]
    assert not codes & gone
    found = {finding.code: finding for finding in findings}[f"pan-{size}-missing"]
    assert "carton" in found.found
    assert "not used" in found.found
    assert "over the outside faces of the flanges" in found.next_step


def test_no_width_measured_means_no_play_asked():
    rows, _ = demands(pan_facts(), survey(opening=None), NO_FACTS)
    assert not [row for row in rows if row.code.startswith(("play", "drop-in"))]


def test_skew_is_limited_to_an_eighth_over_the_pan():
    rows = asked(pan_facts(), survey(square=SQUARE))
    # independent: by hand, 1/8 over 32 is 1/256 an inch, and over 60 1/480
    for wall, over in (("L", 32), ("R", 32), ("B", 60)):
        row = rows[f"skew-{wall}"]
        assert holds(row, planes(**{wall: (F(1, 4), F(1, 8 * over))}))
        assert not holds(row, planes(**{wall: (F(1, 4), F(1, 8 * over) + F(1, 10**6))}))
        assert not holds(row, planes(**{wall: (F(1, 4), -F(1, 8 * over) - F(1, 10**6))}))


def test_a_line_out_of_square_shifts_the_limits_of_its_wall():
    # independent: the L line stands 1/8 into the room over 32: its plane may skew 0 in, or 1/4 back
    rows = asked(pan_facts(), survey(square={"L": F(1, 256), "R": F(-1, 256)}))
    assert (rows["skew-L"].low, rows["skew-L"].high) == (F(-1, 4), F(0))
    assert (rows["skew-R"].low, rows["skew-R"].high) == (F(0), F(1, 4))


def test_one_side_measured_and_the_widths_give_the_other():
    # independent: the opening gains nothing, so what L turns in, R turns out
    rows = asked(pan_facts(), survey(square={"L": F(1, 256)}))
    assert (rows["skew-R"].low, rows["skew-R"].high) == (F(0), F(1, 4))
    assert "follows from the other side" in rows["skew-R"].why


def test_one_side_measured_and_no_width_at_a_second_depth_leaves_the_other_assumed():
    room = survey(square={"L": F(1, 256)})
    rows = asked(pan_facts(), replace(room, frame=replace(room.frame, growth_measured=False)))
    # independent: it still agrees with an opening that is taken to keep its width
    assert (rows["skew-R"].low, rows["skew-R"].high) == (F(0), F(1, 4))
    assert "nothing measured says so" in rows["skew-R"].why


def test_squareness_not_measured_is_said_and_taken_from_the_growth_of_the_opening():
    by_code = asked(pan_facts(), survey(growth=F(1, 128)))
    # independent: 1/128 an inch of growth, half on each side, over 32 is 1/8 back on each
    assert (by_code["skew-L"].low, by_code["skew-L"].high) == (F(0), F(1, 4))
    assert "nothing measured says so" in by_code["skew-L"].why


@pytest.mark.parametrize(
    ("a", "b", "offset", "apart"),
    [
        # independent, geometry: d1^2 - d2^2 = 4 a b sin e, difference of the diagonals
        (60, 36, F(1, 4), 0.4288),
        (60, 32, F(1, 8), 0.2206),
        (48, 36, F(1, 4), 0.4000),
        (36, 36, F(1, 16), 0.0884),
    ],
)
def test_the_row_of_the_diagonals_gives_the_published_differences(a: int, b: int, offset: F, apart: float):
    rows = asked(pan_facts(width=inch(a), depth=inch(b)), survey(square=SQUARE))
    leaning = planes(L=(F(0), offset / b), R=(F(0), -offset / b))
    assert float(value(rows["square"], leaning)) / hypot(a, b) == pytest.approx(apart, abs=1e-4)


def test_the_row_of_the_diagonals_is_on_the_safe_side_of_the_exact_limit():
    rows = asked(pan_facts(), survey(square=SQUARE))
    # independent: sqrt(60^2 + 32^2) = 68 exactly, so the limit is 68/8 less the share kept back
    assert rows["square"].high == F(68, 8) * (1 - LINEAR_SHARE)
    assert rows["square"].low == -F(68, 8) * (1 - LINEAR_SHARE)
    assert rows["square"].lazy
    odd = asked(pan_facts(width=inch(59), depth=inch(33)), survey(square=SQUARE))["square"]
    assert odd.high is not None
    assert odd.high <= F(1, 8) * (1 - LINEAR_SHARE) * F(hypot(59, 33))


def test_what_the_linear_diagonals_leave_out_is_less_than_the_share_kept_back():
    # independent: exact geometry, 1000 seeded rooms inside the skew limits
    rng = random.Random(20240611)
    for _ in range(1000):
        width, depth = F(rng.randint(24 * 8, 72 * 8), 8), F(rng.randint(24 * 8, 72 * 8), 8)
        lines = {side: F(rng.randint(-64, 64), 64 * 32) for side in "LR"}
        turn = [F(rng.randint(-999, 999), 8000) / over for over in (depth, width, depth)]
        skews = dict(zip("LBR", turn, strict=True))
        skews["L"] -= lines["L"]
        skews["R"] -= lines["R"]
        offsets = [F(rng.randint(-24, 24), 16) for _ in range(3)]
        opening = width + F(rng.randint(0, 16), 64) + offsets[0] + offsets[2]
        room = survey(square=lines, opening=opening, growth=-lines["L"] - lines["R"])
        row = asked(pan_facts(width=inch(width), depth=inch(depth)), room)["square"]
        made = {w: Plane(w, o, skews[w], F(0)) for w, o in zip("LBR", offsets, strict=True)}
        shift = float(width * depth * (lines["L"] - lines["R"]))
        linear = (float(value(row, made)) + shift) / hypot(width, depth)
        start = offsets[1] + skews["B"] * offsets[0]
        first, second = diagonals(opening - offsets[0] - offsets[2], tuple(turn), start, depth)
        assert abs((first - second) - linear) <= float(LINEAR_SHARE) * abs(linear) + 1e-6
        if holds(row, made):
            assert abs(first - second) <= 1 / 8


def _fits_against_the_back(
    width: float, depth: float, room: float, left: Plane, right: Plane, back: Plane
) -> float:
    """Room to spare for a rigid rectangle lying on the back plane, by exact rotation; minus = none."""
    slope = float(back.skew)
    norm = hypot(1, slope)
    ux, uy = 1 / norm, slope / norm  # along the back plane
    vx, vy = -uy, ux  # out from it

    def left_face(y: float) -> float:
        return float(left.offset) + float(left.skew) * y

    def right_face(y: float) -> float:
        return room - float(right.offset) - float(right.skew) * y

    # Pan corners from its back left corner s along the back plane; clearance is linear in s.
    def clearances(s: float) -> tuple[float, float]:
        x0, y0 = s * ux, float(back.offset) + s * uy
        lefts = [(x0 + t * vx) - left_face(y0 + t * vy) for t in (0.0, depth)]
        rights = []
        for t in (0.0, depth):
            x, y = x0 + width * ux + t * vx, y0 + width * uy + t * vy
            rights.append(right_face(y) - x)
        return min(lefts), min(rights)

    low, high = -2.0, 4.0
    for _ in range(60):
        middle = (low + high) / 2
        if clearances(middle)[0] < clearances(middle)[1]:
            low = middle
        else:
            high = middle
    return sum(clearances(low))


def test_the_drop_in_rows_agree_with_laying_a_rectangle_on_the_back_plane():
    # independent: rigid rectangle placed by exact rotation, 1500 seeded rooms
    rng = random.Random(7)
    room = survey(square=SQUARE, opening=F(241, 4))
    rows = asked(pan_facts(), room)
    drops = [row for code, row in rows.items() if code.startswith("drop-in")]
    assert len(drops) == 2
    both = [0, 0]
    for _ in range(1500):
        made = planes(
            L=(F(rng.randint(0, 16), 128), F(rng.randint(-8, 8), 8 * 8 * 32)),
            R=(F(rng.randint(0, 16), 128), F(rng.randint(-8, 8), 8 * 8 * 32)),
            B=(F(rng.randint(-16, 16), 64), F(rng.randint(-8, 8), 8 * 8 * 60)),
        )
        straight = [value(rows[f"play-{d}"], made) <= F(1, 4) for d in (1, 32)]
        fits = all(holds(row, made) for row in drops) and all(straight)
        spare = _fits_against_the_back(60, 32, 60.25, made["L"], made["R"], made["B"])
        if abs(spare) > 0.004:  # the rows leave out second-order terms smaller than this
            assert fits == (spare > 0)
            both[fits] += 1
    assert min(both) > 100


def test_the_drain_rows_leave_exactly_the_planes_that_let_the_outlet_over_the_drain():
    # independent: a scan over places of the pan between the planes, 500 seeded rooms
    rng = random.Random(11)
    told = []
    for x in (F(479, 16), F(483, 16)):  # one drain that wall L may keep the outlet from, one that wall R may
        facts = pan_facts(
            play_low=inch(0),
            play_high=inch(1),
            outlet={"x": inch(30), "y": inch(10)},
            drain={"x": inch(x), "y": inch(10), "float_x": inch("1/16"), "float_y": inch("1/4")},
        )
        told.append((float(x), asked(facts, survey(square=SQUARE, opening=F(241, 4)))))
    answers = [0, 0]
    for _ in range(500):
        made = planes(
            L=(F(rng.randint(-8, 24), 128), F(rng.randint(-8, 8), 8 * 8 * 32)),
            R=(F(rng.randint(-8, 24), 128), F(rng.randint(-8, 8), 8 * 8 * 32)),
            B=(F(0), F(rng.randint(-8, 8), 8 * 8 * 60)),
        )
        x, rows = rng.choice(told)
        across = [row for code, row in rows.items() if code.startswith("drain-x")]
        loose = [row for row in across if not row.lazy]
        assert (len(across), len(loose)) == (8, 4)
        if not all(holds(row, made) for code, row in rows.items() if code.startswith(("play", "drop"))):
            continue
        slope = float(made["B"].skew)
        lefts = [float(made["L"].at(F(y), F(0))) + slope * y for y in (0, 32)]
        rights = [60.25 - float(made["R"].at(F(y), F(0))) - 60 + slope * y for y in (0, 32)]
        places = [step / 512 for step in range(-256, 257)]  # the pan's back left corner
        reach = [abs(at + 30 - slope * 10 - x) for at in places if max(lefts) <= at <= min(rights)]
        if not reach:
            continue
        spare = 1 / 16 - min(reach)
        if abs(spare) > 1 / 256:
            fits = all(holds(row, made) for row in across)
            assert fits == (spare > 0)
            answers[fits] += 1
            if fits:
                assert all(holds(row, made) for row in loose)  # the loose rows cut off no good plane
    assert min(answers) > 50


def test_the_drain_out_from_the_back_wall_is_asked_at_the_drains_place_along_it():
    facts = pan_facts(
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch(30), "y": inch("65/4"), "float_x": inch("1/4"), "float_y": inch("1/8")},
    )
    row = asked(facts, survey(square=SQUARE))["drain-y"]
    # independent: 16-1/4 - 16 = 1/4 forward, 1/8 either way
    assert (row.low, row.high) == (F(1, 8), F(3, 8))
    assert row.parts == (("B", F(30), F(2), F(1)),)


def test_a_drain_measured_from_the_right_is_the_mirror_image():
    left = pan_facts(
        outlet={"x": inch(20), "y": inch(16)},
        drain={"x": inch(21), "y": inch(16), "float_x": inch("1/2"), "float_y": inch("1/2")},
    )
    right = pan_facts(
        outlet={"x": inch(40), "y": inch(16)},
        drain={"x": inch(21), "y": inch(16), "float_x": inch("1/2"), "float_y": inch("1/2"), "side": "R"},
    )
    swap = {"L": "R", "R": "L", "B": "B"}
    ahead, behind = asked(left, survey(square=SQUARE)), asked(right, survey(square=SQUARE))
    for code, row in ahead.items():
        if not code.startswith("drain-x"):
            continue
        twin = behind[code.replace("-L-", "-?-").replace("-R-", "-L-").replace("-?-", "-R-")]
        # independent: symmetry; what stood at one end of the back wall stands at the other
        assert (row.low, row.high) == (twin.low, twin.high)
        assert {(swap[w], a, z, c) for w, a, z, c in row.parts if w != "B"} == {
            p for p in twin.parts if p[0] != "B"
        }
        assert {(60 - a, c) for w, a, _, c in row.parts if w == "B"} == {
            (a, c) for w, a, _, c in twin.parts if w == "B"
        }
    # independent: wall B runs from L, so 21 from R is 60-1/4 - 21
    assert behind["drain-y"].parts[0][1] == F(241, 4) - 21


def test_a_pan_given_in_millimetres_asks_the_same():
    # independent: 1524 mm = 60 in and 812.8 mm = 32 in exactly (25.4 mm an inch)
    metric = pan_facts(width=parse_length("1524 mm"), depth=parse_length("812.8 mm"))
    ours, theirs = asked(pan_facts(), survey(square=SQUARE)), asked(metric, survey(square=SQUARE))
    assert ours == theirs


def test_a_two_wall_corner_asks_for_its_corner_and_no_play():
    facts = pan_facts(
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch(30), "y": inch(16), "float_x": inch("1/4"), "float_y": inch("1/4")},
    )
    rows = asked(facts, survey(walls="LB", square={"L": F(0)}))
    assert not [code for code in rows if code.startswith(("play", "drop-in")) or code == "square"]
    corner = rows["square-L"]
    # independent: 1/16 over 32 on L and 1/8 over 60 on B close the corner 1/16 + 1/15 over 32: more than 1/8
    assert holds(corner, planes(L=(F(0), F(1, 512))))
    assert holds(corner, planes(L=(F(0), F(1, 512)), B=(F(0), F(-1, 480))))
    assert not holds(corner, planes(L=(F(0), F(1, 512)), B=(F(0), F(1, 480))))
    # independent: the pan stands against L, so L may not lie more than the float back either
    near = rows["drain-x-L-near"]
    assert near.low == F(-1, 4)
    assert rows["drain-x-L-turned-front"].high == F(1, 4)


def test_a_corner_on_the_right_asks_the_mirror_and_finds_the_drain_at_either_end():
    facts = pan_facts(
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch(30), "y": inch(16), "float_x": inch("1/4"), "float_y": inch("1/4"), "side": "R"},
    )
    rows = asked(facts, survey(walls="BR", square={"R": F(0)}))
    assert holds(rows["square-R"], planes(R=(F(0), F(1, 512)), B=(F(0), F(1, 480))))
    assert not holds(rows["square-R"], planes(R=(F(0), F(1, 512)), B=(F(0), F(-1, 480))))
    # independent: nothing ties wall R to B's left end, so both ends of B are asked for (studs at 8 and 56)
    assert rows["drain-y"].parts[0][1] == 8
    assert rows["drain-y-end"].parts[0][1] == 56


def test_a_single_wall_asks_only_what_it_can():
    rows = asked(pan_facts(), survey(walls="B"))
    assert set(rows) == {"skew-B"}


def test_a_drain_from_a_wall_that_is_not_there_is_asked_about():
    facts = pan_facts(
        outlet={"x": inch(30), "y": inch(16)},
        drain={"x": inch(30), "y": inch(16), "float_x": inch("1/4"), "float_y": inch("1/4")},
    )
    rows, findings = demands(facts, survey(walls="BR"), NO_FACTS)
    assert not [row for row in rows if row.code.startswith("drain-x")]
    assert "drain-side" in {finding.code for finding in findings}


def test_half_a_drain_is_asked_about():
    half = pan_facts(outlet={"x": inch(30), "y": inch(16)})
    assert "drain-missing" in {f.code for f in demands(half, survey(), NO_FACTS)[1]}
    other = pan_facts(drain={"x": inch(30), "y": inch(16), "float_x": inch(0), "float_y": inch(0)})
    assert "outlet-missing" in {f.code for f in demands(other, survey(), NO_FACTS)[1]}


def test_nothing_read_asks_nothing():
    assert demands(pan_facts(), SurveyResult((), survey().frame), NO_FACTS) == ((), ())


def test_moving_a_reference_line_moves_the_window_by_as_much():
    # independent: symmetry; the L line hung 3/8 farther out makes every L offset and the opening 3/8 more
    ours = asked(pan_facts(), survey(square=SQUARE))
    shifted = asked(pan_facts(), survey(square=SQUARE, opening=F(241, 4) + F(3, 8)))
    for code, row in ours.items():
        if not code.startswith(("play", "drop-in")):
            continue
        other = shifted[code]
        for before, after in ((row.low, other.low), (row.high, other.high)):
            assert (before is None) == (after is None)
            if before is not None and after is not None:
                assert after - before == F(3, 8)


def test_the_published_angle_gives_the_published_diagonals():
    # independent, geometry: 60 by 36, 1/4 out, diagonals 70.1855 and 69.7567
    slope = F(tan(asin(0.25 / 36)))
    first, second = diagonals(F(60), (slope, F(0), -slope), F(0), F(36))
    assert sorted((first, second)) == pytest.approx([69.7567, 70.1855], abs=5e-5)


def test_the_drop_in_rows_count_the_lines_as_well_as_the_planes():
    # independent: lines turned 1/256 an inch and planes skewed back by as much are the square room
    lines = {"L": F(1, 256), "R": F(-1, 256)}
    turned = asked(pan_facts(), survey(square=lines))
    plain = asked(pan_facts(), survey(square=SQUARE))
    made = planes(L=(F(1, 16), F(-1, 256)), R=(F(1, 16), F(1, 256)))
    straight = planes(L=(F(1, 16), F(0)), R=(F(1, 16), F(0)))
    for code in ("drop-in-L", "drop-in-R"):
        spare = turned[code].high - value(turned[code], made)
        assert spare == plain[code].high - value(plain[code], straight) == F(1, 8)


def test_where_a_plane_lies_does_not_turn_a_corner():
    # independent: a corner is square or not wherever its walls stand
    for walls, side in (("LB", "L"), ("BR", "R")):
        row = asked(pan_facts(), survey(walls=walls, square={side: F(0)}))[f"square-{side}"]
        here, there = planes(), planes(L=(F(1), F(0)), B=(F(3, 4), F(0)), R=(F(1), F(0)))
        assert value(row, here) == value(row, there) == 0


def test_a_lone_side_walls_line_counts_with_its_plane():
    # independent: the line turned 1/256 an inch in, pivoting at the drain's depth of 16: at the outlet's own
    # depth of 16 it stands where it stood; at the front, 16 on, 1/16 farther in
    facts = pan_facts(
        outlet={"x": inch(30), "y": inch(12)},
        drain={"x": inch(30), "y": inch(16), "float_x": inch("1/4"), "float_y": inch(8)},
    )
    rows = asked(facts, survey(walls="LB", square={"L": F(1, 256)}))
    assert rows["drain-x-L-near"].low == F(-1, 4) + F(4, 256)
    assert rows["drain-x-L-turned-front"].high == F(1, 4) - F(16, 256)
