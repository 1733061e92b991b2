"""What people write: every documented form is read exactly, everything else refused in one clear line."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.lengths import options
from undertile.errors import LengthError
from undertile.length_text import GLYPHS, MARKS, ONE_OVER
from undertile.lengths import MAX_TEXT, MM, Unit, parse_length


def refusal(text: str, unit: Unit | None = None, **more: Any) -> str:
    with pytest.raises(LengthError) as caught:
        parse_length(text, unit, **more)
    line = str(caught.value)
    assert len(line.splitlines()) == 1
    assert "write " in line
    return line


# --- what is read

F = Fraction
FORMS = [
    # independent: each by hand, 16ths counted, 12 in to the foot
    *(("3-15/16", F(63, 16)), ('3 15/16"', F(63, 16)), ("3-15/16 in", F(63, 16)), ("15/16", F(15, 16))),
    *(("3-15/16in.", F(63, 16)), ("3-15/16 Inches", F(63, 16)), ("0-15/16", F(15, 16)), ("8/16", F(1, 2))),
    *(("4' 2-1/2\"", F(101, 2)), ("4'-2 1/2\"", F(101, 2)), ("4' - 2 1/2\"", F(101, 2))),
    *(("4'2-1/2", F(101, 2)), ("4 ft 2-1/2 in", F(101, 2)), ("4ft2-1/2in", F(101, 2)), ("4'", F(48))),
    *(("4' 0\"", F(48)), ("4'-0\"", F(48)), ("4' 11", F(59)), ("4' 1/2\"", F(97, 2)), ("0' 3\"", F(3))),
    *(("3½", F(7, 2)), ("3 ½", F(7, 2)), ("3-½", F(7, 2)), ("⅞", F(7, 8)), ("4'2⅜″", F(403, 8))),
    *(("3⅟16", F(49, 16)), ("3 15⁄16”", F(63, 16)), ("3–15∕16", F(63, 16)), ("4’ 2½”", F(101, 2))),
    *(("4′-2½″", F(101, 2)), ("3''", F(3)), ("3’’", F(3)), ("3′′", F(3)), ('0"', F(0)), ("0/16", F(0))),
    *(("-3/16", F(-3, 16)), ("−3/16", F(-3, 16)), ("– 3/16", F(-3, 16)), ("+1/4", F(1, 4))),
    *(("-4' 2-1/2\"", F(-101, 2)), ("+ 3½", F(7, 2)), ("-0", F(0)), ("0", F(0)), ("  3/8\n", F(3, 8))),
    *(("3/8+", F(13, 32)), ("3/8-", F(11, 32)), ("3/8 +", F(13, 32)), ("3/8 -", F(11, 32))),
    *(('3/8"+', F(13, 32)), ('3/8+"', F(13, 32)), ("3-15/16+", F(127, 32)), ("3-15/16-", F(125, 32))),
    *(("3/8 strong", F(13, 32)), ("3/8 in shy", F(11, 32)), ('4"+', F(129, 32)), ('4"−', F(127, 32))),
    *(("4' 2-1/2\"+", F(1617, 32)), ("⅜+", F(13, 32)), ("+3/8+", F(13, 32)), ("007/008", F(7, 8))),
    *(("1203 mm", 1203 * MM), ("1203mm", 1203 * MM), ("120.3 cm", 1203 * MM), ("120.3 CM.", 1203 * MM)),
    *(("-0.5 mm", -MM / 2), ("0 mm", F(0)), ("+12.700 mm", F(1, 2))),
]


@pytest.mark.parametrize(("text", "inches"), FORMS, ids=[text for text, _ in FORMS])
def test_every_written_form_is_read_exactly(text: str, inches: Fraction) -> None:
    length = parse_length(text)
    assert length.inches == inches
    assert length.text == text
    assert length.unit == ("mm" if re.search("[mc]m", text, re.IGNORECASE) else "in")


def test_a_bare_number_is_in_the_jobs_unit() -> None:
    # independent: the unit's own meaning
    assert parse_length("1203", "in").inches == 1203
    assert parse_length("1203", "mm").inches == 1203 * MM
    assert parse_length("120.5", "mm").inches == Fraction(241, 2) * MM
    assert parse_length('48"', "mm").inches == 48
    assert parse_length("48 mm", "in").inches == 48 * MM


def test_six_and_nothing_is_read_only_where_the_place_says_which() -> None:
    # independent: 6 in, or 6 x 12 in
    assert parse_length("6-0", whole="inches").inches == 6
    assert parse_length('6-0"', whole="inches").inches == 6
    assert parse_length("-6-0", whole="inches").inches == -6
    assert parse_length("6-0", whole="feet").inches == 72
    for whole in ("inches", "feet"):
        assert options(refusal("4-7", whole=whole)) == ["4' 7\"", '4-7/16"']
        refusal("6-0-0", whole=whole)
        refusal("6-0+", whole=whole)
        refusal("4'6-0", whole=whole)


def test_every_fraction_glyph_has_the_value_unicode_gives_it() -> None:
    # independent: the Unicode character database
    numeric = {
        char: Fraction(unicodedata.numeric(char)).limit_denominator(100)
        for char in map(chr, range(0x80, 0x3000))
        if unicodedata.decomposition(char).startswith("<fraction>")
    }
    assert numeric.pop(ONE_OVER) == 1
    assert {char: Fraction(*pair) for char, pair in GLYPHS.items()} == numeric
    for char, value in numeric.items():
        if value.denominator in (1, 2, 4, 8) and value:
            assert parse_length(f"3{char}").inches == 3 + value


def test_every_mark_is_what_unicode_calls_it() -> None:
    # independent: names in the Unicode character database
    words = {
        "-": "MINUS|HYPHEN|DASH|BAR",
        "+": "PLUS",
        "/": "SLASH|SOLIDUS",
        "'": "APOSTROPHE|PRIME|SINGLE|ACCENT",
        '"': "DOUBLE|QUOTATION",
        " ": "SPACE|EM SPACE",
    }
    for char, plain in MARKS.items():
        if char != "\t":
            assert re.search(words[plain], unicodedata.name(char)), unicodedata.name(char)


@settings(deadline=None)
@given(st.integers(0, 200), st.integers(0, 63), st.sampled_from("-+"))
def test_strong_and_shy_are_half_a_sixteenth(whole: int, sixteenths: int, tail: str) -> None:
    # independent: half a sixteenth is 1/32
    over = sixteenths % 16
    value = whole + Fraction(over, 16)
    change = Fraction(1, 32) if tail == "+" else -Fraction(1, 32)
    if value + change >= 0:
        assert parse_length(f"{whole}-{over}/16{tail}").inches == value + change
    else:
        assert options(refusal(f"{whole}-{over}/16{tail}")) == ['-1/32"']


# --- what is refused: the text, what was understood, what to write

REFUSED = [
    ("", None, "nothing was typed", []),
    (" \n ", None, "nothing was typed", []),
    ("abc", None, "the word abc", []),
    ("3-15/16 furlongs", None, "the word furlongs", []),
    ("1.203 m", None, "in metres", []),
    ("in", None, "no number", []),
    ("-", None, "no number", []),
    ("48", None, "the number 48 without a unit", ['48"', "48 mm"]),
    ("-48", None, "the number -48 without a unit", ['-48"', "-48 mm"]),
    ("3.5", None, "the number 3.5 without a unit", ["3.5 mm", '3-1/2"']),
    ("3.5", "in", "a decimal inch", ['3-1/2"']),
    ("-3.0625 in", None, "a decimal inch", ['-3-1/16"']),
    ('3.9"', None, "a decimal inch", ['3-7/8"', '3-15/16"', "99.06 mm"]),
    ("0.205 in", None, "a decimal inch", ['3/16"', '1/4"', "5.207 mm"]),
    ("4' 2.5\"", None, "a decimal inch", ["4' 2-1/2\""]),
    ("4.5'", None, "a decimal foot", ["4' 6\""]),
    ("1/2 ft", None, "a fraction of a foot", []),
    ("4-0", None, "may be 4 feet or 4 inches", ["4' 0\"", '4"']),
    ("-4-0", "in", "may be 4 feet or 4 inches", ["-4' 0\"", '-4"']),
    ("4-7", "in", "4 and 7 without saying of what", ["4' 7\"", '4-7/16"']),
    ("4-13", "in", "4 and 13 without saying of what", ['4-13/16"']),
    ("4-20", "in", "4 and 20 without saying of what", []),
    ("6-00", "in", "6 and 0 without saying of what", ["6' 0\"", '6"']),
    ("4' 14\"", None, "14 inches after the feet", ["5' 2\""]),
    ("-4' 12-1/2\"", None, "12 inches after the feet", ["-5' 0-1/2\""]),
    ("16/16", None, "16/16, an improper fraction", ['1"']),
    ("3-17/16", None, "17/16, an improper fraction", ['4-1/16"']),
    ("1/3", None, "1/3, which is on no rule", ['5/16"', '3/8"']),
    ("2⅔", None, "2/3, which is on no rule", ['2-5/8"', '2-11/16"']),
    ("6/12", None, "6/12, which is on no rule", ['1/2"']),
    ("2/128", None, "2/128, which is on no rule", ['1/64"']),
    ("5/128", None, "5/128, which is on no rule", ['1/32"', '3/64"', "0.9921875 mm"]),
    ("3/0", None, "3/0, which is no number", []),
    ("1,203 mm", None, "a comma", ["1203 mm", "1.203 mm"]),
    ("1203,5", "mm", "a comma", ["12035 mm", "1203.5 mm"]),
    ("3,5", "in", "a comma", []),
    ("1 203 mm", None, "more than one number", []),
    ("3 15", "in", "more than one number", []),
    ("½2", None, "more than one number", []),
    ("3/8+1/4", None, "more than one number", []),
    ("3-15/16 4-1/8", None, "more than one number", []),
    ("3 - 15/16", None, "a minus set apart", ['3-15/16"', '2-1/16"']),
    ("3 -15/16", None, "a minus set apart", ['3-15/16"', '2-1/16"']),
    ("--3/8", None, "more than one sign", []),
    ("4+", "in", "a whole number strong", []),
    ("4-", "in", "a whole number shy", []),
    ("-3/8+", None, "two lengths", ['-13/32"', '-11/32"']),
    ("3/32+", None, "on a finer fraction", ['1/8"']),
    ('0"-', None, "shy of nothing", ['-1/32"']),
    ("1203 mm+", None, "strong or shy, which goes with inches", []),
    ("4'+", None, "marks that do not go together", []),
    ("shy 3/8", None, "strong or shy in the wrong place", []),
    ("1/2 mm", None, "a fraction of a mm", []),
    ("4' 50 mm", None, "mixes inches and mm", []),
    ("3-15/16", "mm", "no inch mark", []),
    ("5. mm", None, "a point without a digit", []),
    (".5 mm", None, "a point without a digit", []),
    ("٣ mm", None, "ARABIC-INDIC DIGIT THREE", []),
    ("3² in", None, "SUPERSCRIPT TWO", []),
    ("３ mm", None, "FULLWIDTH DIGIT THREE", []),
    ("3\u200b/8", None, "ZERO WIDTH SPACE", []),
    ("3/8\n1/2", None, "a control character", []),
    ("1e3 mm", None, "the word e", []),
    ("3/8" + " " * 62, None, "65 characters", []),
]


@pytest.mark.parametrize(
    ("text", "unit", "understood", "instead"), REFUSED, ids=[repr(r[0]) for r in REFUSED]
)
def test_a_refusal_says_what_was_understood_and_what_to_write(
    text: str, unit: Unit | None, understood: str, instead: list[str]
) -> None:
    # independent: the offered values by hand, 25.4 mm to the inch
    line = refusal(text, unit, what="B2 at 48")
    assert line.startswith("B2 at 48: ")
    assert understood in line
    assert options(line) == instead
    for option in instead:
        parse_length(option, unit)


def test_a_bare_fraction_in_a_mm_job_names_both_ways_out() -> None:
    line = refusal("3-15/16", "mm")
    assert '3-15/16"' in line
    assert "mm like" in line


def test_a_text_of_64_characters_is_still_read() -> None:
    # independent: leading noughts and spaces change nothing
    assert parse_length("3/8".rjust(MAX_TEXT, "0")).inches == Fraction(3, 8)
    assert parse_length("3/8".rjust(MAX_TEXT)).inches == Fraction(3, 8)
    assert "65 characters" in refusal("3/8".rjust(MAX_TEXT + 1, "0"))


def test_the_place_never_breaks_the_line() -> None:
    assert refusal("x", what="B2\nat 48").startswith("B2 at 48: ")


def test_a_unit_that_is_none_is_not_taken_for_inches() -> None:
    wrong: Any = "cm"
    assert "neither in nor mm" in refusal("48", wrong)


@pytest.mark.parametrize("piece", ["9", "- ", "1/", "'", "½", " ", "in ", "3-15/16\t", "\x00"])
def test_sixty_thousand_pasted_readings_are_one_short_line(piece: str) -> None:
    line = refusal(piece * 60_000, "in", what="B2 at 48")
    assert len(line) < 200  # pinned: a line, not the paste back


@settings(deadline=None)
@given(st.text(max_size=80), st.sampled_from((None, "in", "mm")), st.sampled_from((None, "inches", "feet")))
def test_any_text_is_a_length_or_one_line(text: str, unit: Unit | None, whole: Any) -> None:
    line = ""
    try:
        length = parse_length(text, unit, what="here", whole=whole)
    except LengthError as refused:
        line = str(refused)
    if line:
        assert len(line.splitlines()) == 1
        assert line.startswith("here: ")
        assert "; write " in line
    else:
        assert len(text) <= MAX_TEXT
        assert length.text == text


@settings(deadline=None)
@given(st.text(alphabet=st.characters(categories=("Nd", "Nl", "No")), min_size=1, max_size=4))
def test_no_foreign_digit_is_taken_for_a_number(text: str) -> None:
    # independent: only 0-9 and the fraction glyphs have a meaning here
    if not all(char in "0123456789" or char in GLYPHS or char == ONE_OVER for char in text):
        assert "no plain digit" in refusal(text, "mm")
