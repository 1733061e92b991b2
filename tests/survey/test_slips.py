"""Every mistake of a tired person, undone: what would have been typed."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.lengths import MM, Length, parse_length
from undertile.survey.slips import SLIPS, without_slip

F = Fraction


def offered(text: str, tool: str = "rule", **more: object) -> dict[str, set[Fraction]]:
    """Kinds and exact lengths offered for a typed text."""
    out: dict[str, set[Fraction]] = {}
    for u in without_slip(parse_length(text, "in"), tool, **more):  # type: ignore[arg-type]
        out.setdefault(u.kind, set()).add(u.inches)
    return out


@pytest.mark.parametrize(
    ("typed", "kind", "should"),
    # independent: hand calculation on a rule, one or more for each slip of common practice
    [
        ('3-15/16"', "mirror inch", F(65, 16)),  # 4-1/16 counted back from 4
        ('4-1/16"', "mirror inch", F(63, 16)),
        ('3/8"', "mirror half", F(5, 8)),
        ('5-3/16"', "mirror half", F(93, 16)),  # 5-13/16
        ('6-1/8"', "inch off", F(41, 8)),
        ('6-1/8"', "inch off", F(57, 8)),
        ('59-1/2"', "six nine", F(113, 2)),  # 56-1/2
        ('66"', "six nine", F(99)),
        ('34-1/2"', "transposed", F(87, 2)),  # 43-1/2
        ('59"', "transposed", F(95)),
        ('6-7/16"', "transposed", F(967, 16)),  # 60-7/16 written 06
        ('5-1/16"', "wrong sixteenths", F(41, 8)),
        ('5-1/8"', "wrong sixteenths", F(81, 16)),
        ('5-3/16"', "misheard", F(85, 16)),  # five sixteenths
        ('15"', "misheard", F(50)),
        ('60-1/4"', "misheard", F(65, 4)),
        ('15-1/2"', "cm side", F(15.5) * 10 * MM),
        ('152"', "mm typed", 152 * MM),  # 5.98 in
        ('-5-7/8"', "minus typed", F(47, 8)),
        ('-6-1/8"', "mirror inch", F(47, 8)),  # a minus and a mirror
        ("6 mm", "inches typed", F(6)),
        ("15.2 mm", "cm typed", 152 * MM),
    ],
)
def test_a_slip_is_undone(typed: str, kind: str, should: Fraction) -> None:
    assert should in offered(typed).get(kind, set())


def test_three_for_five_eighths_is_one_offer_however_it_came_about() -> None:
    # independent: counted from the wrong side of the half and misheard lead to the same 5-5/8
    found = [u for u in without_slip(parse_length('5-3/8"', "in"), "rule") if u.inches == F(45, 8)]
    assert [u.kind for u in found] == ["mirror half"]
    assert found[0].rate == pytest.approx(SLIPS["mirror half"].rate + SLIPS["misheard"].rate)


def test_a_lost_sign_mirrors_a_level_about_nothing_and_a_reading_about_its_nominal() -> None:
    # independent: hand calculation
    assert F(1, 8) in offered('-1/8"', "level", signed=True)["sign lost"]
    readings = without_slip(parse_length('5-7/16"', "in"), "rule", nominal=F(21, 4))
    assert F(81, 16) in {u.inches for u in readings}  # 5-1/4 less 3/16


def test_only_a_tape_has_a_case() -> None:
    taped = [u for u in without_slip(parse_length('57-1/4"', "in"), "tape") if u.kind == "tape case"]
    assert {u.inches for u in taped} == {F(241, 4), F(217, 4)}  # about 3 in either way
    assert all(u.spread > 0 for u in taped)
    assert "tape case" not in offered('57-1/4"', "sticks")


def test_millimetres_have_slips_of_their_own() -> None:
    # independent: hand calculation
    found = {(u.kind, int(u.inches / MM)) for u in without_slip(Length(1197 * MM, "mm", "1197 mm"), "rule")}
    assert ("mirror inch", 1203) in found  # counted back from 120 cm
    assert ("centimetre off", 1187) in found
    assert ("centimetre off", 1297) in found
    assert ("six nine", 1167) in found
    assert ("transposed", 1179) in found
    assert not any(kind == "mirror half" for kind, _ in found)


@given(st.integers(0, 1600), st.sampled_from(["rule", "tape", "sticks", "laser meter"]))
def test_no_offer_is_the_typed_length_nor_less_than_nothing(sixteenths: int, tool: str) -> None:
    typed = Length(F(sixteenths, 16), "in", "")
    found = without_slip(typed, tool, nominal=F(6))  # type: ignore[arg-type]
    exact = [u.inches for u in found if not u.spread]
    assert typed.inches not in exact
    assert len(exact) == len(set(exact))
    assert all(u.inches >= 0 and 0 < u.rate < 0.02 for u in found)


@given(st.integers(16, 1600))
def test_counting_back_from_the_inch_twice_is_no_slip(sixteenths: int) -> None:
    # independent: a mirror is its own inverse
    typed = Length(F(sixteenths, 16), "in", "")
    for once in (u for u in without_slip(typed, "rule") if u.kind in ("mirror inch", "mirror half")):
        again = {u.inches for u in without_slip(Length(once.inches, "in", ""), "rule")}
        assert typed.inches in again


def test_every_kind_of_slip_has_its_words() -> None:
    for kind, slip in SLIPS.items():
        assert slip.words, kind
        assert slip.code == "-".join(slip.code.lower().split()), kind
        assert 0 < slip.rate <= 0.02


def test_no_reading_is_mended_to_less_than_nothing() -> None:
    for text in ("-6-1/8", "0", "1/4", "152", "-3 mm"):
        assert all(u.inches >= 0 for u in without_slip(parse_length(text, "in"), "rule", nominal=F(6)))
