"""Play, drop-in, widths, gaps: the room of convention 8 and rooms moved off it by hand."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.pan.cast import convention_8, inch, pan_facts, plan, survey, with_pan
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan, Plane
from undertile.pan.built import Built
from undertile.pan.demands import demands
from undertile.pan.gaps import gap_checks
from undertile.pan.play import play_checks
from undertile.pan.say import say
from undertile.pan.set_place import off_plane

SQUARE = {"L": F(0), "R": F(0)}


def by_code(built: Built) -> dict[str, Check]:
    checks, _ = play_checks(built)
    assert len({check.code for check in checks}) == len(checks)
    return {check.code: check for check in checks}


def moved(left: F = F(0), right: F = F(0), *, skew: F = F(0), **kwargs: object) -> Built:
    """A room whose side planes are moved; the studs with them, so that every face lies on its plane."""
    room = survey(square=SQUARE, **kwargs)  # type: ignore[arg-type]
    planes = {"L": Plane("L", left, skew, F(0)), "R": Plane("R", right, -skew, F(0))}
    return Built(pan_facts(), room, FramingFacts(), plan(room, planes))


def test_the_room_worked_by_hand_drops_in_with_an_eighth():
    checks = by_code(convention_8())
    # independent: convention 8 by hand: opening 60-1/8, play 1/8, at the upper end of the window
    for code in ("play-1", "play-16", "play-32"):
        assert checks[code].value == '1/8"'
        assert checks[code].limit == '1/16" to 1/8"'
        assert checks[code].margin == '0"'
        assert checks[code].verdict is Verdict.PASS
    assert checks["drop-in"].value == 'play 1/8"'
    assert checks["drop-in"].verdict is Verdict.PASS
    assert "same at every depth" in checks["drop-in"].because[0]


def test_both_widths_are_given_bare_and_shimmed():
    width = by_code(convention_8())["width-16"]
    # independent: convention 8: studs stay at 60-1/4, shims bring the faces to the planes, 60-1/8
    assert width.value == '60-1/4" bare, 60-1/8" shimmed'
    assert width.verdict is Verdict.PASS


def test_the_six_flange_shims_of_the_room_worked_by_hand():
    built = convention_8()
    checks, steps = gap_checks(built)
    order = [step.text for step in steps]
    # independent: convention 8: six shims, 1/16 each, none at the back; set in the middle of 1/8 of play
    assert [check.value for check in checks] == ['1/16" behind', "no gap", '1/16" behind']
    assert next(line for line in order if "L1" in line).count('1/16"') == 4
    assert next(line for line in order if "R1" in line).count('1/16"') == 4
    assert not [line for line in order if "B1" in line]
    planned = {member.name for member in built.plan.members if member.recipe.flange_shim}
    listed = {name for name in ("L1", "L2", "L3", "R1", "R2", "R3") if any(name in line for line in order)}
    assert planned == listed


def test_too_little_play_fails_and_says_how_much_to_take_off():
    checks = by_code(moved(F(1, 8), F(1, 8)))
    # independent: 60-1/4 - 1/8 - 1/8 - 60 = 0, 1/16 short
    assert checks["play-16"].verdict is Verdict.FAIL
    assert checks["play-16"].margin == '-1/16"'
    assert 'back by 1/16" more' in checks["play-16"].next_step
    assert checks["drop-in"].verdict is Verdict.FAIL
    assert checks["drop-in"].next_step == checks["play-1"].next_step
    assert checks["play-16"].eats == 'wall L 1/8" into the room and wall R 1/8" into the room'


def test_too_much_play_fails_and_says_how_much_to_build_out():
    checks = by_code(moved())
    # independent: 60-1/4 - 60 = 1/4, 1/8 over the window
    assert checks["play-1"].verdict is Verdict.FAIL
    assert 'out by 1/8" more' in checks["play-1"].next_step


def test_play_up_to_a_quarter_passes_only_with_every_stud_shimmed():
    built = with_pan(moved(), shimmed_play=True)
    checks = by_code(built)
    # independent: play 1/4 is the most a sheet may allow (convention 3.2)
    assert checks["play-16"].verdict is Verdict.PASS
    assert any("every fastened stud shimmed" in line for line in checks["play-16"].because)
    findings = play_checks(built)[1]
    assert [finding.code for finding in findings] == ["play-shim-every-stud"]
    # independent: all faces lie on their planes, so all six side studs are beyond the plan's cost
    assert findings[0].data["studs"] == "L1,L2,L3,R1,R2,R3"


def test_it_binds_where_the_opening_closes():
    # independent: each side turns in 1/512 an inch: from 1/8 at the back (both 1/16 in) to 1/8 - 32/256 = 0
    checks = by_code(moved(F(1, 16), F(1, 16), skew=F(0)))
    assert checks["drop-in"].verdict is Verdict.PASS
    closing = moved(F(1, 16), F(1, 16))
    planes = {side: Plane(side, F(1, 16), F(1, 512), F(0)) for side in "LR"}
    closing = replace(closing, plan=plan(closing.survey, planes))
    checks = by_code(closing)
    assert checks["play-32"].value == '0"'
    assert checks["drop-in"].because[0].startswith('binds 32" from the back')
    assert checks["drop-in"].value == 'play 0" to 1/8"'


def test_a_leaning_parallelogram_has_play_everywhere_and_does_not_take_a_square_pan():
    # independent: play 1/8 at every depth; each side turned 3/16 over 32 the same way: 1/8 - 3/16 = -1/16
    built = moved(F(1, 16), F(1, 16), skew=F(3, 16) / 32)
    checks = by_code(built)
    assert {checks[f"play-{d}"].value for d in (1, 16, 32)} == {'1/8"'}
    assert checks["drop-in-square"].value == '-1/16" left over'
    assert checks["drop-in-square"].verdict is Verdict.FAIL
    assert checks["drop-in"].verdict is Verdict.FAIL


def test_a_square_pan_is_not_shown_when_nothing_says_the_lines_are_square():
    checks = by_code(convention_8(square=False))
    assert checks["drop-in-square"].verdict is Verdict.NOT_SHOWN
    assert "diagonals" in checks["drop-in-square"].next_step
    # what is shown stays shown, and says what it does not speak of
    assert checks["drop-in"].verdict is Verdict.PASS
    assert any(line.startswith("straight across only") for line in checks["drop-in"].because)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"width": None, "carton_width": inch(60)}, "over the outside faces of the flanges"),
    ],
)
def test_a_missing_width_is_asked_for_not_taken_off_the_carton(change: dict[str, object], words: str):
    checks = by_code(with_pan(convention_8(), **change))
    for code in ("drop-in", "play-16", "width-16"):
        assert checks[code].verdict is Verdict.NOT_SHOWN
        assert checks[code].value == ""
    assert words in checks["drop-in"].next_step


def test_no_opening_measured_is_not_shown():
    room = survey(opening=None)
    checks = by_code(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert checks["drop-in"].verdict is Verdict.NOT_SHOWN
    assert "three depths" in checks["drop-in"].next_step


def test_no_plan_is_not_shown():
    checks = by_code(Built(pan_facts(), survey(), FramingFacts(), FramingPlan("none")))
    assert {check.verdict for check in checks.values()} == {Verdict.NOT_SHOWN}


def test_an_open_side_has_no_play_and_nothing_read_is_not_shown():
    room = survey(walls="LB")
    checks = by_code(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert list(checks) == ["drop-in"]
    assert checks["drop-in"].verdict is Verdict.PASS
    assert checks["drop-in"].value == "open side"
    assert checks["drop-in"].because[0].startswith("nothing faces the pan across (no wall R)")
    assert any(
        line.startswith("not shown: what stands on the open side") for line in checks["drop-in"].because
    )
    # no size of a pan: nothing was asked of it, so nothing is shown
    for change in ({"width": None}, {"depth": None}):
        lone = Built(pan_facts(**change), survey(walls="B"), FramingFacts(), plan(survey(walls="B")))
        assert by_code(lone)["drop-in"].verdict is Verdict.NOT_SHOWN
        assert "width and depth" in by_code(lone)["drop-in"].next_step
    empty = replace(room, walls=())
    checks = by_code(Built(pan_facts(), empty, FramingFacts(), FramingPlan("none")))
    assert checks["drop-in"].verdict is Verdict.NOT_SHOWN


def test_play_within_its_uncertainty_is_said_to_be_so():
    near = moved(F(1, 16), F(1, 16), sigma=0.01, opening_sigma=0.01)
    assert by_code(near)["play-16"].within_uncertainty
    # independent: margin 1/32 at mid window against 2 x sqrt(3) x 1/512 = 0.0068
    sharp = moved(F(1, 16), F(3, 32), sigma=1 / 512, opening_sigma=1 / 512)
    assert by_code(sharp)["play-16"].verdict is Verdict.PASS
    assert not by_code(sharp)["play-16"].within_uncertainty


def test_readings_as_rough_as_the_window_show_nothing():
    # independent: opening uncertain by 1/16, the whole window of 1/16 to 1/8
    rough = by_code(moved(F(1, 16), F(3, 32), opening_sigma=1 / 16))
    assert rough["play-16"].verdict is Verdict.NOT_SHOWN
    assert "pinch sticks" in rough["play-16"].next_step
    assert rough["drop-in"].verdict is Verdict.NOT_SHOWN


def test_a_job_in_millimetres_prints_millimetres_and_no_inch():
    for check in by_code(convention_8("mm")).values():
        words = " ".join((check.value, check.limit, check.margin, check.where, check.title, *check.because))
        assert '"' not in words
    # independent: 1/8 in = 3.175 mm, the upper end of the window: printed up, as the window is
    assert by_code(convention_8("mm"))["drop-in"].value == "play 3.2 mm"
    assert by_code(convention_8("mm"))["drop-in"].margin == "0 mm"


@pytest.mark.parametrize(
    ("more", "value", "margin"),
    [
        # independent: the window is 1/16 to 1/8, its middle 3/32; past a 64th toward the nearer end
        (F(1, 128), '1/8"', '0"'),  # 15/128: 1/128 under the upper end
        (F(-1, 256), '7/64"', '+1/64"'),  # 27/256: 5/256 under it
        (F(-5, 128), '1/16"', '0"'),  # 9/128: 1/128 over the lower end
        (F(-7, 256), '5/64"', '+1/64"'),  # 21/256: 5/256 over it
        (F(0), '7/64"', '+1/64"'),  # a 64th itself: exact
    ],
)
def test_play_and_its_margin_as_printed_add_up_to_the_window(more: F, value: str, margin: str):
    checks = by_code(moved(F(9, 128), F(9, 128) - more))
    # independent: play is 60-1/4 - 2 x 9/128 - 60 = 7/64 and `more`
    assert (checks["play-16"].value, checks["play-16"].margin) == (value, margin)
    assert checks["drop-in"].value == f"play {value}"
    assert checks["drop-in"].margin == margin


def test_the_margin_of_a_width_is_that_of_the_narrower_as_printed():
    width = by_code(convention_8())["width-16"]
    # independent: 60-1/8 shimmed - 60 - 1/16 = 1/16, where the bare studs alone would have 3/16
    assert width.value.endswith('60-1/8" shimmed')
    assert width.margin == '+1/16"'


def test_a_proud_stud_in_the_flange_zone_fails_the_gap():
    room = survey({"L2": (F(1, 8), F(0), F(0))}, square=SQUARE)
    checks, _ = gap_checks(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert checks[0].verdict is Verdict.FAIL
    assert checks[0].value == '1/8" proud'


def test_a_gap_over_the_band_fails_and_a_gap_of_a_thirty_second_takes_no_shim():
    room = survey({"L1": (F(-3, 32), F(0), F(0)), "R1": (F(-1, 32), F(0), F(0))}, square=SQUARE)
    checks, order = gap_checks(Built(pan_facts(), room, FramingFacts(), plan(room)))
    # independent: convention 3.3: 1/16 at most behind; 3.4: over 1/32 is shimmed
    assert checks[0].verdict is Verdict.FAIL
    assert checks[2].value == '1/32" behind'
    assert checks[2].verdict is Verdict.PASS
    assert not [step for step in order if "R1" in step.studs]


def test_studs_past_the_pans_front_hold_no_flange():
    # independent: convention 8 shims the stud at 34 beside a pan of 32; 2 in is as far as that goes
    room = survey({"L3": (F(-1, 16), F(0), F(0))}, square=SQUARE)
    built = Built(pan_facts(depth=inch(31)), room, FramingFacts(), plan(room))
    assert [m.name for m in built.members("L") if built.beside_pan(m)] == ["L1", "L2"]
    assert not gap_checks(built)[1]


def test_a_flange_zone_not_read_shows_no_gap():
    room = survey({}, heights=(F(24), F(48)), square=SQUARE)
    checks, order = gap_checks(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert {check.verdict for check in checks} == {Verdict.NOT_SHOWN}
    assert 'at or below 4"' in checks[0].next_step
    assert not order


def test_the_room_mirrored_gives_the_mirrored_answer():
    # independent: symmetry
    one, other = by_code(moved(F(1, 16), F(3, 32))), by_code(moved(F(3, 32), F(1, 16)))
    for code, check in one.items():
        assert (check.value, check.margin, check.verdict) == (
            other[code].value,
            other[code].margin,
            other[code].verdict,
        )


def test_the_square_pan_is_the_room_its_rows_leave():
    # independent: rows over planes and the check afterwards are two ways to one answer, 200 seeded rooms
    rng = random.Random(3)
    for _ in range(200):
        lines = {side: F(rng.randint(-16, 16), 4096) for side in "LR"}
        room = survey({}, square=lines, growth=-lines["L"] - lines["R"])
        planes = {
            "L": Plane("L", F(rng.randint(-8, 8), 64), F(rng.randint(-16, 16), 4096), F(0)),
            "R": Plane("R", F(rng.randint(-8, 8), 64), F(rng.randint(-16, 16), 4096), F(0)),
            "B": Plane("B", F(rng.randint(-8, 8), 64), F(rng.randint(-16, 16), 8192), F(0)),
        }
        rows = [
            row for row in demands(pan_facts(), room, FramingFacts())[0] if row.code.startswith("drop-in")
        ]
        spare = min(
            row.high - sum((c * planes[w].at(a, z) for w, a, z, c in row.parts), F(0))
            for row in rows
            if row.high is not None
        )
        check = by_code(Built(pan_facts(), room, FramingFacts(), plan(room, planes)))["drop-in-square"]
        assert (check.verdict is Verdict.PASS) == (spare >= 0)
        printed = say(spare, "in", "down")
        assert check.margin.removeprefix("+") == printed


def test_uncertain_at_one_depth_only_is_said_of_the_whole():
    # independent: known best at the back; 32 in on, the growth makes it uncertain by 32/1000
    room = survey(square=SQUARE)
    frame = replace(room.frame, growth_sigma=0.001, depth_middle=1.0)
    planes = {"L": Plane("L", F(1, 16), F(0), F(0)), "R": Plane("R", F(3, 32), F(0), F(0))}
    checks = by_code(Built(pan_facts(), replace(room, frame=frame), FramingFacts(), plan(room, planes)))
    assert not checks["play-1"].within_uncertainty
    assert checks["play-32"].within_uncertainty
    assert checks["drop-in"].within_uncertainty


def test_what_the_pan_stands_off_each_wall_where_it_is_set():
    # independent, by hand: opening 60-1/8, pan 60: 1/8 of play, centred 1/16 a side at every depth
    built = moved(F(1, 16), F(1, 16))
    assert {off_plane(built, side, F(y)) for side in "LR" for y in (0, 16, 32)} == {F(1, 16)}
    assert off_plane(built, "B", F(30)) == 0
    # both sides turned the same way, 1/16 over 32: the pan keeps 1/8 - 1/16 = 1/16, 1/32 a side where the
    # walls come closest, at one end of each side, and 1/32 + 1/16 = 3/32 at its other end
    built = moved(F(1, 16), F(1, 16), skew=F(1, 16) / 32)
    ends = {side: {off_plane(built, side, F(y)) for y in (0, 32)} for side in "LR"}
    assert ends == {"L": {F(1, 32), F(3, 32)}, "R": {F(1, 32), F(3, 32)}}
    for y in (0, 16, 32):
        both = [off_plane(built, side, F(y)) for side in "LR"]
        assert sum(each for each in both if each is not None) == F(1, 8), "the play at that depth"
    # it does not drop in: where it stands cannot be said
    assert off_plane(moved(F(1, 8), F(1, 8), skew=F(1, 16) / 32), "L", F(2)) is None
