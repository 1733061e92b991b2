"""The floor under the pan as it is read: verdicts, what is not shown, what moves with it."""

from __future__ import annotations

from fractions import Fraction as F
from types import SimpleNamespace

import pytest

from tests.floor.cast import ask, checks, codes, facts, text
from undertile.findings import Verdict
from undertile.floor.levelgrid import grid_places
from undertile.lengths import MM
from undertile.pan.facts import PanFacts
from undertile.survey.facts import SurveyFacts

PLACES = {
    "a": ("0", "0"),
    "b": ("12", "0"),
    "c": ("24", "0"),
    "d": ("36", "0"),
    "e": ("0", "12"),
    "f": ("12", "12"),
    "g": ("24", "12"),
    "h": ("36", "12"),
    "i": ("0", "24"),
    "j": ("12", "24"),
    "k": ("24", "24"),
    "l": ("36", "24"),
    "m": ("0", "36"),
    "n": ("12", "36"),
    "o": ("24", "36"),
    "p": ("36", "36"),
}
"""A 36 x 36 pan read every 12 in."""


def level(changed: dict | None = None, left_out: str = "", **more: object):
    readings = dict.fromkeys(PLACES, "48") | (changed or {})
    spots = {
        name: {"x": x, "y": y, "reading": readings[name]}
        for name, (x, y) in PLACES.items()
        if name not in left_out
    }
    table = {"spots": spots, "right": "36", "front": "36", "surface": "concrete"} | more
    return facts(level=table)


def judged(its, **others: object):
    return checks(ask(its, **others))["pan-floor-level"]


@pytest.mark.parametrize(
    ("reading", "verdict", "near"),
    [
        ("48-1/8", "pass", True),
        ("48-1/64", "pass", False),
        ("48-5/32", "fail", True),
        ("48-1/2", "fail", False),
    ],
)
def test_highest_to_lowest_against_the_limit(reading: str, verdict: str, near: bool) -> None:
    # independent: 1/8 is the limit; two readings of 1/32 each are uncertain by 0.044, twice that is 0.088
    found = judged(level({"f": reading}))
    assert (found.verdict.value, found.within_uncertainty) == (verdict, near)


def test_a_larger_reading_is_a_lower_floor() -> None:
    # independent: read down from a level line (convention 2), so what reads more is filled
    found = ask(level({"f": "48-1/4"}))
    assert "lowest at f" in checks(found)["pan-floor-level"].because[0]
    assert {each.name: each.amount for each in found.level.places}["f"] > 0  # filled


def test_what_is_not_read_is_not_a_pass() -> None:
    # independent: the place left out stands at 36, 36
    found = judged(level(left_out="p"))
    assert found.verdict is Verdict.NOT_SHOWN
    assert '36" from the left wall, 36" from the back' in found.next_step
    blank = judged(level({"p": ""}))
    assert blank.verdict is Verdict.NOT_SHOWN
    assert judged(level({"p": "x"})).verdict is Verdict.NOT_SHOWN


def test_an_unread_spot_is_named_at_once_and_no_work_is_called_the_least() -> None:
    # independent: f hollow by 1/4 and h high by 1/4 fail by themselves; what is done waits for g, at 24 by 12
    found = ask(level({"f": "48-1/4", "h": "47-3/4", "g": ""}))
    check = checks(found)["pan-floor-level"]
    assert check.verdict is Verdict.FAIL
    assert check.next_step == 'g is not read: read it first, 24" from the left wall, 12" from the back.'
    assert found.level.work is None
    assert found.level.lies_between is None
    assert not any(each.amount for each in found.level.places)
    assert found.flow.moved == ()
    many = judged(level(dict.fromkeys("afgkp", "")))
    assert many.next_step == "a, f, g, k and 1 more are not read: read them first."
    assert "not read" not in judged(level(left_out="g")).next_step  # no spot there: its place is asked for


BAD = {"wet": {"left": "0", "right": "13", "back": "0", "front": "13"}}
"""Takes a, b, e and f out, the spots at 0 and 12 both ways; no joist is entered, so no layout is made."""


def cut(**again: str):
    """The 36 x 36 floor with a patch planned under its corner; ``again``: readings on the new panel."""
    its = level({"f": "48-1/4"})
    spots = {name: spot.model_dump() for name, spot in its.level.spots.items()}
    table = {name: {k: getattr(v, "text", v) for k, v in spot.items()} for name, spot in spots.items()}
    for name, reading in again.items():
        table[name]["on_new"] = reading
    return facts(level={"spots": table, "right": "36", "front": "36", "surface": "wood"}, patch={"bad": BAD})


def test_what_was_read_on_wood_that_goes_out_does_not_count() -> None:
    # independent: by the places alone, which of them lie inside the stretch cut out
    found = ask(cut())
    check = checks(found)["pan-floor-level"]
    assert found.level.on_old == ("a", "b", "e", "f")
    assert check.verdict is Verdict.NOT_SHOWN
    assert check.next_step == (
        "Once the new panel lies, read a, b, e and f on it: what was read there is of wood that goes out."
    )
    assert check.because[0].startswith("12 places read")
    assert found.level.work is None
    assert not any(each.amount for each in found.level.places)
    assert found.flow.read_again[0] == "Read the floor under the pan on the new panel, at a, b, e and f."
    some = ask(cut(a="48", b="48", e="48"))
    assert some.level.on_old == ("f",)
    assert checks(some)["pan-floor-level"].verdict is Verdict.NOT_SHOWN


def test_read_on_the_new_panel_it_is_judged_by_what_was_read_there() -> None:
    # independent: the hollow of 1/4 at f went out with the old wood; all else reads 48
    flat = ask(cut(**dict.fromkeys("abef", "48")))
    assert checks(flat)["pan-floor-level"].verdict is Verdict.PASS
    high = ask(cut(a="48", b="48", e="48", f="47-3/4"))
    assert checks(high)["pan-floor-level"].verdict is Verdict.FAIL
    assert {each.name: each.reading for each in high.level.places}["f"] == F(191, 4)
    assert high.level.work is not None


def test_a_spot_that_cannot_be_reached_on_the_new_panel_is_not_read() -> None:
    found = ask(cut(a="48", b="48", e="48", f="x"))
    check = checks(found)["pan-floor-level"]
    assert (check.verdict, found.level.on_old) == (Verdict.NOT_SHOWN, ())
    assert check.next_step.startswith("f is not read")


def test_the_level_line_measured_over_wood_that_goes_out_is_measured_again() -> None:
    its = cut()
    its = its.model_copy(update={"level": its.level.model_copy(update={"line_at": "f"})})
    found = ask(its)
    assert "above the floor at f, once the floor is done" in found.flow.read_again[1]


def test_two_readings_too_far_apart_fail_even_half_read() -> None:
    # independent: 1/2 is over 1/8 whatever the place left out reads
    assert judged(level({"a": "48-1/2"}, left_out="p")).verdict is Verdict.FAIL


def test_the_pan_s_own_size_is_the_footprint() -> None:
    # independent: the pan is 36 wide as typed; read at one corner, its far side is not
    spots = {"a": {"x": "0", "y": "0", "reading": "48"}}
    pan = SimpleNamespace(
        pan=PanFacts.model_validate({"pan": {"width": "36", "depth": "30"}}, context={"unit": "in"}).pan
    )
    its = facts(level={"spots": spots})
    assert "Measure the pan" in judged(its).next_step
    assert '36" from the left wall' in judged(its, pan=pan).next_step


def test_a_slope_that_the_sheet_allows() -> None:
    tilt = {n: f"48-{i}/16" for n, i in zip("bfjn", (1,) * 4, strict=True)}
    tilt |= dict.fromkeys("cgko", "48-2/16") | dict.fromkeys("dhlp", "48-3/16")
    assert judged(level(tilt)).verdict is Verdict.FAIL  # independent: 3/16 from left to right
    assert (
        judged(level(tilt, slope="1/16", reason="the pan's sheet")).verdict is Verdict.PASS
    )  # independent: 1/16 in a foot


def test_the_finished_floor_is_said_as_it_will_read() -> None:
    # independent, by hand: filled up to 1/8 below the highest, which reads 48
    found = ask(level({"f": "48-1/4"})).level
    assert found.lies_between is not None
    low, high = found.lies_between
    assert (high, low) == (48, F(385, 8))
    for each in found.places:
        assert high <= each.reading - each.amount <= low


def test_wood_is_sanded_no_deeper_than_a_sixteenth() -> None:
    # independent, by hand: a hump of 1/4 within 1/8: of concrete 1/8 is ground off, fewer than to fill 15
    # places; of wood no more than 1/16 may go (ours), so the 15 are filled
    hump = {"f": "47-3/4"}
    concrete, wood = (ask(level(hump, surface=each)) for each in ("concrete", "wood"))
    assert {each.name: each.amount for each in concrete.level.places if each.amount} == {"f": F(-1, 8)}
    assert min(each.amount for each in wood.level.places) >= F(-1, 16)
    assert sum(each.amount > 0 for each in wood.level.places) == 15
    assert codes(concrete) == ["floor-silica"]
    assert codes(wood) == []


def test_no_plane_is_said_with_what_to_do_instead() -> None:
    # independent, by hand: a hump of 3/4, less 1/4 ground and 1/4 filled round it, leaves 1/4, over 1/8
    found = ask(level({"f": "47-1/4"}, most_fill="1/4"))
    assert found.level.work is not None
    assert found.level.work.plane is None
    assert "pan-floor-no-plane" in codes(found)


def test_odd_readings_are_said_and_kept() -> None:
    # independent: 1-1/2 lower than all about it; all 16 stay
    found = ask(level({"f": "49-1/2"}))
    assert "floor-spot-odd" in codes(found)
    assert len(found.level.places) == 16
    twice = level()
    spots = dict(twice.level.spots)
    spots["z"] = spots["a"]
    its = twice.model_copy(update={"level": twice.level.model_copy(update={"spots": spots})})
    assert "floor-spot-twice" in codes(ask(its))


SURVEY = SurveyFacts.model_validate(
    {"walls": {"B": {"nominal": "6-0", "heights": ["2", "4-1/16", "48"]}}}, context={"unit": "in"}
)
PAN = PanFacts.model_validate(
    {"pan": {"width": "36", "depth": "36", "flange_height": "4"}}, context={"unit": "in"}
)


def test_what_moves_by_hand() -> None:
    # independent, by hand: all at 48 but a 1/4 hollow at f and the line's point a, which is 1/4 low too.
    # Zone 1/8 below 48: both filled 1/8. The highest place stays at 48: the seat and the flange do not move.
    its = level({"f": "48-1/4", "a": "48-1/4"}, line="48-1/4", line_at="a")
    found = ask(its, pan=PAN, survey=SURVEY)
    moved = {each.what: (each.was, each.becomes) for each in found.flow.moved}
    assert moved["the level line above the subfloor at a"] == ('48-1/4"', '48-1/8"')
    assert moved["from the level line down to the pan's seat"] == ('48"', '48"')
    assert moved["from the level line down to the top of the flange"] == ('44"', '44"')
    assert found.flow.read_again[0].endswith("at a, f.")
    assert found.flow.read_again[-1].startswith("Stud readings stay")


def test_a_ground_hump_takes_the_flange_down_and_heights_out_of_its_zone() -> None:
    # independent, by hand: one hump of 3/16 at f, floor at 48 elsewhere and at the line's point: 1/16 is
    # ground, the pan comes down by it; the zone ended 4-3/16 above the floor, now 4-1/8: 4-3/16 is out
    survey = SurveyFacts.model_validate(
        {"walls": {"B": {"nominal": "6-0", "heights": ["2", "4-3/16", "48"]}}}, context={"unit": "in"}
    )
    found = ask(level({"f": "47-13/16"}, line="48", line_at="a"), pan=PAN, survey=survey)
    moved = {each.what: (each.was, each.becomes) for each in found.flow.moved}
    assert moved["from the level line down to the pan's seat"] == ('47-13/16"', '47-7/8"')
    assert moved["from the level line down to the top of the flange"] == ('43-13/16"', '43-7/8"')
    assert any("height 4-3/16 moves out of it" in each for each in found.flow.read_again)


def test_nothing_moves_where_nothing_is_done() -> None:
    # independent: all at 48
    assert ask(level()).flow.moved == ()


@pytest.mark.parametrize("grid", ["", "8"])
@pytest.mark.parametrize(
    ("width", "depth", "unit"),
    [("60", "32", "in"), ("59-7/8", "31-3/4", "in"), ("36", "36", "in"), ("1203 mm", "897 mm", "mm")],
)
def test_places_laid_out_are_all_that_is_asked_for(width: str, depth: str, unit: str, grid: str) -> None:
    # independent: read at all of them nothing is missing; walked row by row, there and back
    its = facts(level={"right": width, "front": depth, **({"grid": grid} if grid else {})}).level
    places = grid_places(its, (None, None), unit)
    spots = {
        name: {
            "x": f"{x / MM} mm" if unit == "mm" else text(x),
            "y": f"{y / MM} mm" if unit == "mm" else text(y),
        }
        for name, x, y in places
    }
    spots = {name: {**spot, "reading": "48"} for name, spot in spots.items()}
    more = {"grid": grid} if grid else {}
    found = ask(facts(level={"spots": spots, "right": width, "front": depth, **more}))
    assert checks(found)["pan-floor-level"].verdict is Verdict.PASS
    assert len({name for name, _, _ in places}) == len(places)
    assert [y for _, _, y in places] == sorted(y for _, _, y in places)
    by_row: dict[F, list[F]] = {}
    for _, x, y in places:
        by_row.setdefault(y, []).append(x)
    for number, row in enumerate(by_row.values()):
        assert row == sorted(row, reverse=number % 2 == 1)
    mark = F(1) if unit == "in" else 10 * MM
    assert all(x % mark == 0 for _, x, _ in places if x != its.right.inches)


def test_no_place_is_laid_out_without_a_footprint() -> None:
    # independent: 60 by 32, no farther than 12 apart: six by four
    assert grid_places(facts(level={}).level, (None, F(32))) == ()
    assert len(grid_places(facts(level={}).level, (F(60), F(32)))) == 24
