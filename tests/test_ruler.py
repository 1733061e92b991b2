"""The print: exact, reduced, in the asked unit; rounding only in a stated direction."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import ceil
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from undertile.errors import LengthError
from undertile.lengths import (
    MM,
    SIXTEENTH,
    Length,
    Rounding,
    Unit,
    format_both,
    format_length,
    parse_length,
)

ANY_VALUE = st.fractions(min_value=-500, max_value=500, max_denominator=5000)
STEPS: dict[Unit, tuple[Fraction, ...]] = {
    "in": (Fraction(1), Fraction(1, 2), SIXTEENTH, Fraction(1, 32), Fraction(1, 64)),
    "mm": (MM, MM / 2, MM / 10, 5 * MM),
}
UNIT_AND_STEP = st.sampled_from([(unit, step) for unit in STEPS for step in STEPS[unit]])


@pytest.mark.parametrize(
    ("value", "how", "shown"),
    [
        # independent: reduced by hand
        (Fraction(63, 16), {}, "3-15/16"),
        (Fraction(-6, 32), {}, "-3/16"),
        (Fraction(1, 4), {"signed": True}, "+1/4"),
        (Fraction(-1, 4), {"signed": True}, "-1/4"),
        (Fraction(0), {"signed": True}, "0"),
        (Fraction(0), {"mark": True}, '0"'),
        (Fraction(48), {}, "48"),
        (Fraction(63, 16), {"mark": True}, '3-15/16"'),
        (Fraction(127, 128), {}, "127/128"),
        (Fraction(101, 2), {"feet": True}, "4' 2-1/2\""),
        (Fraction(97, 2), {"feet": True}, "4' 0-1/2\""),
        (Fraction(48), {"feet": True}, "4' 0\""),
        (Fraction(12), {"feet": True}, "1' 0\""),
        (Fraction(5, 2), {"feet": True}, '2-1/2"'),
        (Fraction(-101, 2), {"feet": True}, "-4' 2-1/2\""),
        (Fraction(101, 2), {"feet": True, "signed": True}, "+4' 2-1/2\""),
        (1203 * MM, {"unit": "mm"}, "1203 mm"),
        (Fraction(241, 2) * MM, {"unit": "mm"}, "120.5 mm"),
        (Fraction(-1, 20) * MM, {"unit": "mm"}, "-0.05 mm"),
        (MM, {"unit": "mm", "signed": True, "mark": True}, "+1 mm"),
        (Fraction(1, 16), {"unit": "mm"}, "1.5875 mm"),  # independent: 25.4 / 16
        (Fraction(41, 200), {"unit": "mm"}, "5.207 mm"),  # independent: 0.205 x 25.4
    ],
)
def test_prints_exactly_and_reduced(value: Fraction, how: dict[str, Any], shown: str) -> None:
    assert format_length(value, **how) == shown


def test_a_length_prints_in_the_unit_it_was_typed_in() -> None:
    # independent: the typed text itself
    assert format_length(parse_length("1203 mm")) == "1203 mm"
    assert format_length(parse_length("120.3 cm")) == "1203 mm"
    assert format_length(parse_length("3-15/16")) == "3-15/16"
    assert format_length(parse_length("127 mm"), "in") == "5"


@settings(deadline=None)
@given(ANY_VALUE.filter(lambda value: value.denominator not in (1, 2, 4, 8, 16, 32, 64, 128)))
def test_inches_without_an_exact_print_are_never_rounded_in_silence(value: Fraction) -> None:
    with pytest.raises(LengthError, match="give a step and a rounding"):
        format_length(value, "in")


def test_mm_without_an_exact_print_are_never_rounded_in_silence() -> None:
    with pytest.raises(LengthError, match="give a step and a rounding"):
        format_length(MM / 3, "mm")
    with pytest.raises(LengthError, match="no exact print in mm"):
        format_length(MM / 2**80, "mm")  # finite, yet longer than any text that is read back


@settings(deadline=None)
@given(ANY_VALUE)
def test_exact_mm_agree_with_the_decimal_module(value: Fraction) -> None:
    # independent: decimal arithmetic of the standard library, 25.4 mm to the inch
    thousandths = Fraction(round(value * 1000), 1000)
    shown = format_length(thousandths, "mm").removesuffix(" mm")
    assert Decimal(shown) == Decimal(thousandths.numerator) * Decimal("25.4") / thousandths.denominator


@settings(deadline=None)
@given(ANY_VALUE, UNIT_AND_STEP, st.sampled_from(("up", "down", "nearest")))
def test_rounding_goes_the_stated_way_and_less_than_a_step(
    value: Fraction, unit_and_step: tuple[Unit, Fraction], rounding: Rounding
) -> None:
    # independent: what up, down and nearest mean, checked on the printed text
    unit, step = unit_and_step
    shown = parse_length(format_length(value, unit, step=step, rounding=rounding), unit).inches
    assert (shown / step).denominator == 1
    assert abs(shown - value) < step
    if rounding == "up":
        assert shown >= value
    elif rounding == "down":
        assert shown <= value
    else:
        assert abs(shown - value) <= step / 2


@settings(deadline=None)
@given(ANY_VALUE, UNIT_AND_STEP)
def test_a_mirrored_value_rounds_mirrored(value: Fraction, unit_and_step: tuple[Unit, Fraction]) -> None:
    # independent: symmetry; nearest is odd, up and down trade places
    unit, step = unit_and_step

    def shown(value: Fraction, rounding: Rounding) -> Fraction:
        return parse_length(format_length(value, unit, step=step, rounding=rounding), unit).inches

    assert shown(-value, "nearest") == -shown(value, "nearest")
    assert shown(-value, "up") == -shown(value, "down")


def test_a_tie_goes_away_from_zero() -> None:
    # independent: 1/32 lies midway between 0 and 1/16
    assert format_length(Fraction(1, 32), step=SIXTEENTH, rounding="nearest") == "1/16"
    assert format_length(Fraction(-1, 32), step=SIXTEENTH, rounding="nearest") == "-1/16"


def test_lumber_faces_in_mm_as_the_lumber_standard_gives_them() -> None:
    # published (from memory): PS 20, minimum dressed dry sizes in both units
    for inches, mm in (("1-1/2", 38), ("3-1/2", 89), ("5-1/2", 140), ("7-1/4", 184), ("9-1/4", 235)):
        assert format_length(parse_length(inches, "in"), "mm", step=MM, rounding="nearest") == f"{mm} mm"


def test_the_steps_are_those_the_methods_page_lists() -> None:
    # independent: the documented list, 1 to 1/128 in and 0.1, 0.2, 0.5, 1, 2, 5, 10 mm
    listed: dict[Unit, set[Fraction]] = {
        "in": {Fraction(1, 2**k) for k in (0, 1, 2, 3, 4, 5, 6, 7)},
        "mm": {MM * Fraction(step) for step in ("0.1", "0.2", "0.5", "1", "2", "5", "10")},
    }
    tried = (
        {Fraction(1, n) for n in range(1, 300)}
        | {MM * Fraction(n, 20) for n in range(1, 500)}
        | {Fraction(2)}
    )
    for unit, steps in listed.items():
        taken = set()
        for step in tried:
            try:
                format_length(Fraction(1, 3), unit, step=step, rounding="nearest")
            except LengthError:
                continue
            taken.add(step)
        assert taken == steps


@pytest.mark.parametrize(
    ("how", "complaint"),
    [
        ({"step": SIXTEENTH}, "go together"),
        ({"rounding": "up"}, "go together"),
        ({"step": Fraction(1, 10), "rounding": "up"}, "on no in ruler"),
        ({"step": MM, "rounding": "up"}, "on no in ruler"),
        # half an inch where half a mm was meant would be a silent slip, so it is refused
        ({"unit": "mm", "step": Fraction(1, 2), "rounding": "up"}, "on no mm ruler"),
        ({"step": SIXTEENTH, "rounding": "sideways"}, "no direction"),
        ({"step": Fraction(0), "rounding": "up"}, "on no in ruler"),
        ({"step": -SIXTEENTH, "rounding": "up"}, "on no in ruler"),
        ({"unit": "mm", "feet": True}, "feet go with inches"),
        ({"unit": "cm"}, "neither in nor mm"),
        ({"unit": "cm", "step": MM, "rounding": "up"}, "on no cm ruler"),
    ],
)
def test_what_cannot_be_meant_is_refused(how: dict[str, Any], complaint: str) -> None:
    with pytest.raises(LengthError, match=complaint) as caught:
        format_length(Fraction(3), **how)
    assert len(str(caught.value).splitlines()) == 1


@pytest.mark.parametrize(
    ("value", "unit", "shown"),
    [
        # independent: by hand, 25.4 mm to the inch
        (Fraction(63, 16), None, '3-15/16" (about 100 mm)'),  # 100.0125
        (Fraction(5), None, '5" (127 mm)'),
        (Fraction(1, 2), None, '1/2" (about 12.5 mm)'),  # 12.7
        (Fraction(-3, 16), None, '-3/16" (about -5 mm)'),  # -4.7625
        (parse_length("1203 mm"), None, '1203 mm (about 47-3/8")'),  # 47.362
        (parse_length("1203 mm"), "in", '1203 mm (about 47-3/8")'),  # the exact one stands first
        (parse_length("127 mm"), None, '127 mm (5")'),
        (Fraction(1, 3), None, 'about 11/32" (about 8.5 mm)'),  # 0.3333, 8.4667
        (Fraction(41, 200), None, '5.207 mm (about 7/32")'),  # 0.205 = 6.56/32
        (Fraction(0), "mm", '0 mm (0")'),
        (Length(Fraction(1, 4)), "mm", '6.35 mm (1/4")'),
    ],
)
def test_the_other_unit_stands_beside(value: Fraction | Length, unit: Unit | None, shown: str) -> None:
    assert format_both(value, unit) == shown


def test_both_units_carry_the_sign() -> None:
    # independent: 1/4 in is 6.35 mm, to the half 6.5
    assert format_both(Fraction(1, 4), signed=True) == '+1/4" (about +6.5 mm)'


# a 128th prints exactly but is on no rule, so it does not read back
@settings(deadline=None)
@given(ANY_VALUE.filter(lambda value: value.denominator != 128), st.sampled_from(("in", "mm")))
def test_about_stands_exactly_where_a_figure_is_rounded(value: Fraction, unit: Unit) -> None:
    # independent: each printed figure read back and compared with the value
    for figure in format_both(value, unit).removesuffix(")").split(" ("):
        text = figure.removeprefix("about ")
        back = parse_length(text).inches
        assert (back == value) == (text == figure)
        step = MM / 2 if text.endswith("mm") else Fraction(1, 32)
        assert abs(back - value) <= step / 2


@settings(deadline=None)
@given(ANY_VALUE)
def test_nearest_agrees_with_a_count_of_half_steps(value: Fraction) -> None:
    # independent: nearest = half steps, counted up from zero, halved upward
    count = abs(value) / SIXTEENTH
    halves = ceil((int(count * 2)) / 2)
    shown = parse_length(format_length(value, step=SIXTEENTH, rounding="nearest"), "in").inches
    assert abs(shown) == halves * SIXTEENTH
