"""Outlet over the drain, by hand and by scanning places of the pan."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.pan.cast import convention_8, inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built
from undertile.pan.demands import demands
from undertile.pan.drain import drain_checks
from undertile.pan.facts import PanFacts
from undertile.pan.gaps import gap_checks
from undertile.pan.set_place import pan_place, set_steps

SQUARE = {"L": F(0), "R": F(0)}


def facts(
    x: F | int = 30,
    y: F | int = 16,
    *,
    side: str = "L",
    float_x: F = F(1, 4),
    float_y: F = F(1, 4),
    outlet: F | int = 30,
):
    return pan_facts(
        outlet={"x": inch(outlet), "y": inch(16)},
        drain={"x": inch(x), "y": inch(y), "float_x": inch(float_x), "float_y": inch(float_y), "side": side},
    )


def answer(built: Built) -> tuple[dict[str, Check], list[str]]:
    checks = {check.code: check for check in drain_checks(built)}
    return checks, [step.text for step in set_steps(built) if step.kind == "set"]


def test_the_room_worked_by_hand_over_a_drain_in_the_middle():
    checks, order = answer(replace(convention_8(), pan=facts()))
    # independent: the pan stands from 1/16 to 3/16 off the L line, in the middle 1/8; outlet at 30-1/8: the
    # float of 1/4 needs no push, and leaves 1/4 - 1/8
    assert checks["drain-across"].value == '1/8" to the right of it'
    assert checks["drain-across"].margin == '+1/8"'
    assert order == ['Set the pan 1/16" off wall L, 1/16" off wall R.']
    assert checks["drain-out"].value == "over it"


@pytest.mark.parametrize(
    ("x", "float_x", "text"),
    [
        # independent: corner of the pan from 1/16 to 3/16, in the middle 1/8; outlet 30, so it is over the
        # drain at x - 30, and the float reaches that far on either side
        (F(30) - F(1, 8), F(1, 4), 'Set the pan 1/16" off wall L, 1/16" off wall R.'),
        (F(30) - F(9, 64), F(1, 4), "Set the pan hard against wall L."),
        (F(30) + F(5, 32), F(1, 32), 'Set the pan 1/16" off wall L, 1/16" off wall R.'),
        (F(30) + F(5, 32), F(1, 64), 'Set the pan 3/32" off wall L, 1/32" off wall R.'),
        (F(30) + F(7, 16), F(1, 4), "Set the pan hard against wall R."),
    ],
)
def test_it_is_pushed_aside_only_where_the_drain_needs_it(x: F, float_x: F, text: str):
    assert answer(replace(convention_8(), pan=facts(x, float_x=float_x)))[1] == [text]


def test_there_is_a_dry_fit_and_a_set_whether_or_not_a_drain_is_known():
    # independent: play 1/8, in the middle 1/16 on each side
    steps = set_steps(convention_8())
    assert [step.kind for step in steps] == ["dry fit", "set", "fasten"]
    assert steps[1].text == 'Set the pan 1/16" off wall L, 1/16" off wall R.'
    assert steps[1].data == {"L": '1/16"', "R": '1/16"'}
    assert not set_steps(replace(convention_8(), pan=PanFacts()))


def test_the_play_put_on_top_of_the_shims_is_the_one_left_on_that_side():
    def shims(x: F) -> dict[str, str]:
        steps = gap_checks(replace(convention_8(), pan=facts(x)))[1]
        return {step.walls[0]: step.text for step in steps}

    # independent: hard against L nothing is left there and the whole 1/8 at R
    hard = shims(F(30) - F(1, 4))
    assert "play left" not in hard["L"]
    assert 'the play left on that side (1/8") on top' in hard["R"]
    assert all('(1/16") on top' in text for text in shims(F(30)).values())


def test_a_drain_the_play_can_reach_is_met_exactly():
    checks, order = answer(replace(convention_8(), pan=facts(F(30) + F(1, 8))))
    # independent: 30-1/8 lies between 30-1/16 and 30-3/16: 1/16 off either wall
    assert checks["drain-across"].value == "over it"
    assert order == ['Set the pan 1/16" off wall L, 1/16" off wall R.']


def test_a_drain_beyond_the_float_fails_and_says_how_far():
    checks, _ = answer(replace(convention_8(), pan=facts(F(30) + F(5, 8))))
    # independent: 30-5/8 less 30-3/16 is 7/16, less the float 3/16
    check = checks["drain-across"]
    assert check.value == '7/16" to the left of it'
    assert check.margin == '-3/16"'
    assert check.verdict is Verdict.FAIL
    assert 'Move the drain 3/16" left' in check.next_step


def test_measured_from_the_right_it_is_the_same_drain():
    # independent: 60-1/4 between the lines: 30-1/8 from L is 30-1/8 from R
    left, _ = answer(replace(convention_8(), pan=facts(F(241, 8))))
    right, _ = answer(replace(convention_8(), pan=facts(F(241, 8), side="R")))
    assert left["drain-across"].value == right["drain-across"].value == "over it"


def test_out_from_the_back_wall():
    checks, _ = answer(replace(convention_8(), pan=facts(y=F(16) + F(3, 8), float_y=F(1, 8))))
    # independent: 16 - 16-3/8 = -3/8, float 1/8
    check = checks["drain-out"]
    assert check.value == '3/8" too far back'
    assert check.margin == '-1/4"'
    assert check.verdict is Verdict.FAIL


def test_the_back_plane_carries_the_outlet_with_it():
    built = convention_8()
    planes = dict(built.plan.planes) | {"B": Plane("B", F(1, 4), F(1, 480), F(0))}
    built = replace(built, pan=facts(), plan=plan(built.survey, planes))
    # independent: 1/4 and 30/480 = 1/16 at the drain
    assert answer(built)[0]["drain-out"].value == '5/16" too far out'


@pytest.mark.parametrize("missing", ["drain", "outlet", "width"])
def test_what_is_missing_is_asked_for(missing: str):
    full = facts()
    if missing == "drain":
        half = pan_facts(outlet={"x": inch(30), "y": inch(16)})
    elif missing == "outlet":
        half = pan_facts(drain=full.drain.model_dump() if full.drain else None)
    else:
        half = pan_facts(
            width=None,
            outlet={"x": inch(30), "y": inch(16)},
            drain=full.drain.model_dump() if full.drain else None,
        )
    checks, order = answer(replace(convention_8(), pan=half))
    assert checks["drain-across"].verdict is Verdict.NOT_SHOWN
    assert missing in checks["drain-across"].next_step
    assert order[0].startswith("Set the pan")


def test_neither_drain_nor_outlet_says_nothing():
    assert drain_checks(convention_8()) == []


def test_a_pan_that_does_not_drop_in_has_no_place_over_a_drain():
    built = convention_8()
    planes = {side: Plane(side, F(1, 4), F(0), F(0)) for side in "LR"}
    built = replace(built, pan=facts(), plan=plan(built.survey, planes))
    check = answer(built)[0]["drain-across"]
    assert check.verdict is Verdict.NOT_SHOWN
    assert "does not drop in" in check.next_step


def test_a_pan_against_one_wall_stands_where_that_wall_puts_it():
    room = survey({}, walls="LB", square={"L": F(0)})
    planes = {"L": Plane("L", F(3, 16), F(0), F(0))}
    checks, order = answer(Built(facts(), room, FramingFacts(), plan(room, planes)))
    # independent: 3/16 + 30 - 30
    assert checks["drain-across"].value == '3/16" to the right of it'
    assert order == ["Set the pan against wall L and wall B."]
    room = survey({}, walls="BR", square={"R": F(0)})
    planes = {"R": Plane("R", F(3, 16), F(0), F(0))}
    checks, _ = answer(Built(facts(side="R"), room, FramingFacts(), plan(room, planes)))
    # independent: mirror of it: outlet 30 from the right flange, pushed left by the wall
    assert checks["drain-across"].value == '3/16" to the left of it'
    checks, _ = answer(Built(facts(), room, FramingFacts(), plan(room, planes)))
    assert checks["drain-across"].verdict is Verdict.NOT_SHOWN


def test_the_check_agrees_with_the_rows_that_asked_for_it():
    # independent: two ways to the same answer (rows over planes; the pan's place), 400 seeded rooms
    rng = random.Random(5)
    pan = facts(float_x=F(1, 16), float_y=F(1, 8), x=F(241, 8))
    room = survey({}, square={"L": F(1, 1024), "R": F(-1, 1024)})
    rows = [r for r in demands(pan, room, FramingFacts())[0] if r.code.startswith("drain")]
    seen = set()
    for _ in range(400):
        planes = {
            "L": Plane("L", F(rng.randint(-8, 16), 128), F(rng.randint(-8, 8), 8 * 8 * 64), F(0)),
            "R": Plane("R", F(rng.randint(-8, 16), 128), F(rng.randint(-8, 8), 8 * 8 * 64), F(0)),
            "B": Plane("B", F(rng.randint(-16, 16), 64), F(rng.randint(-8, 8), 8 * 8 * 60), F(0)),
        }
        built = Built(pan, room, FramingFacts(), plan(room, planes))
        place = pan_place(built)
        assert place is not None
        if place[0] > place[1]:
            continue
        checks, _ = answer(built)

        def ok(prefix: str, planes: dict[str, Plane] = planes) -> bool:
            return all(
                (row.low is None or v >= row.low) and (row.high is None or v <= row.high)
                for row in rows
                if row.code.startswith(prefix)
                for v in [sum((c * planes[w].at(a, z) for w, a, z, c in row.parts), F(0))]
            )

        verdicts = (ok("drain-x"), ok("drain-y"))
        assert verdicts == (
            checks["drain-across"].verdict is Verdict.PASS,
            checks["drain-out"].verdict is Verdict.PASS,
        )
        seen.add(verdicts)
    assert len(seen) == 4


def test_one_drain_told_from_either_side_of_a_room_out_of_square():
    # independent: L line 1/256 an inch in, R as much out: 30 from L at y 16 is 60-1/4 - 30 from R there
    room = survey({}, square={"L": F(1, 256), "R": F(-1, 256)})
    planes = {side: Plane(side, F(1, 16), F(0), F(0)) for side in "LR"}
    told = [
        answer(Built(pan, room, FramingFacts(), plan(room, planes)))[0]["drain-across"]
        for pan in (facts(30), facts(F(121, 4), side="R"))
    ]
    assert told[0].value == told[1].value
    assert told[0].margin == told[1].margin


def test_a_leaning_back_plane_counts_where_it_stands_farthest_out():
    # independent: flange heights 0 and 4, lean 1/64: 4/64 = 1/16 out at the flange's top
    room = survey({}, heights=(F(0), F(4), F(48)), square=SQUARE)
    planes = {"B": Plane("B", F(0), F(0), F(1, 64))}
    checks, _ = answer(Built(facts(), room, FramingFacts(), plan(room, planes)))
    assert checks["drain-out"].value == '1/16" too far out'


def test_a_lone_walls_line_carries_the_pan():
    # independent: line 1/256 an inch in from the drain at 16: the front, 16 on, is 1/16 farther in
    room = survey({}, walls="LB", square={"L": F(1, 256)})
    checks, _ = answer(Built(facts(), room, FramingFacts(), plan(room)))
    assert checks["drain-across"].value == '1/16" to the right of it'
