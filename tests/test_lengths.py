"""The value, the round trip, and the fields that models use."""

from __future__ import annotations

import doctest
import json
import re
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any, Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict, ValidationError

import undertile.lengths
from tests.fuzz import lengths as fuzz
from undertile.errors import LengthError
from undertile.lengths import (
    MM,
    Length,
    LengthField,
    ReadingField,
    Unit,
    format_length,
    parse_length,
)

# From nothing to 40 ft either way, on the rulers people read: 16ths, 32nds, 64ths, tenths of a mm.
ON_INCH_RULER = st.builds(
    Fraction, st.integers(-40 * 12 * 64, 40 * 12 * 64), st.sampled_from((16, 32, 64))
).filter(lambda value: abs(value) <= 480)
ON_MM_RULER = st.integers(-122_000, 122_000).map(lambda tenths: MM * Fraction(tenths, 10))


# --- the value


def test_an_inch_is_25_4_mm_exactly() -> None:
    # published: NIST SP 811 (2008), appendix B.8, 1 in = 2.54 E-02 m exact (known value; table not re-read)
    assert MM * Fraction("25.4") == 1
    assert parse_length("25.4 mm") == parse_length('1"')
    # published: the same table, 1 ft = 3.048 E-01 m exact (known value; table not re-read)
    assert parse_length("304.8 mm") == parse_length("1'") == parse_length("30.48 cm")


def test_equality_hash_and_order_go_by_the_value_only() -> None:
    typed, computed = parse_length("2.54 cm"), Length(Fraction(1))
    assert typed == computed  # independent: 1 in is 25.4 mm
    assert hash(typed) == hash(computed)
    assert not typed < computed
    assert typed <= computed
    assert {typed: "same"}[computed] == "same"
    assert (typed.unit, typed.text) == ("mm", "2.54 cm")


@settings(deadline=None)
@given(st.lists(ON_INCH_RULER | ON_MM_RULER, min_size=2, max_size=9), st.sampled_from(("in", "mm")))
def test_lengths_sort_as_their_fractions_do(values: list[Fraction], unit: Unit) -> None:
    # independent: the order of the rationals
    lengths = [Length(value, unit if at % 2 else "in", str(-at)) for at, value in enumerate(values)]
    assert [length.inches for length in sorted(lengths)] == sorted(values)


@pytest.mark.parametrize("wrong", [3.9375, 3, "3-15/16"])
def test_a_length_holds_a_fraction_and_nothing_else(wrong: Any) -> None:
    with pytest.raises(TypeError, match="takes a Fraction of inches"):
        Length(wrong)


# --- the round trip


@settings(deadline=None)
@given(ON_INCH_RULER, st.booleans(), st.booleans(), st.sampled_from(("in", "mm", None)))
def test_inches_read_back_as_printed(value: Fraction, signed: bool, feet: bool, job: Unit | None) -> None:
    # independent: symmetry of print and read, in every style, in a job of either unit
    marked = format_length(value, "in", signed=signed, feet=feet, mark=True)
    assert parse_length(marked, job).inches == value
    bare = format_length(value, "in", signed=signed)
    assert parse_length(bare, "in").inches == value
    assert parse_length(marked).unit == "in"
    assert "." not in marked + bare


@settings(deadline=None)
@given(ON_INCH_RULER | ON_MM_RULER, st.booleans(), st.sampled_from(("in", "mm", None)))
def test_mm_read_back_as_printed(value: Fraction, signed: bool, job: Unit | None) -> None:
    # independent: symmetry; a 64th of an inch is a finite decimal of a mm, so it comes back exactly too
    text = format_length(value, "mm", signed=signed)
    back = parse_length(text, job)
    assert back.inches == value
    assert back.unit == "mm"
    assert text.endswith(" mm")


@settings(deadline=None)
@given(ON_MM_RULER)
def test_cm_are_ten_mm(value: Fraction) -> None:
    # independent: the decimal point moved by one place
    digits = format_length(value, "mm").removesuffix(" mm")
    whole, _, part = digits.partition(".")
    moved = f"{whole}0" if not part else f"{whole}{part[0]}" + (f".{part[1:]}" if part[1:] else "")
    assert parse_length(f"{digits} cm") == parse_length(f"{moved} mm")


# --- fields of a model

State = Literal["cannot reach"]


class Stud(BaseModel):
    model_config = ConfigDict(extra="forbid")

    along: LengthField
    readings: dict[str, ReadingField | State | None] = {}
    other_way_round: State | LengthField | None = None
    bare: Length | None = None


def in_job(unit: str | None, **facts: Any) -> Stud:
    return Stud.model_validate(facts, context={"unit": unit} if unit else None)


def test_a_text_read_before_is_read_again_for_its_own_unit() -> None:
    """What is kept of a text is kept with everything that was asked: never one job's answer for another."""
    for _ in range(2):
        assert parse_length("100", "in").inches == 100
        assert parse_length("100", "mm").inches == 100 * MM
        assert parse_length("6-0", "in", whole="inches").inches == 6
        for refused in ({}, {"what": "B2 at 48"}):
            with pytest.raises(LengthError, match="^B2 at 48: " if refused else "^`6-0`"):
                parse_length("6-0", "in", **refused)


def test_a_field_reads_text_in_the_jobs_unit() -> None:
    assert in_job("in", along="48").along.inches == 48  # independent: 48 inches are 48 inches
    assert in_job("mm", along="48").along.inches == 48 * MM
    assert in_job(None, along="3-15/16").along.inches == Fraction(63, 16)  # independent: 3 x 16 + 15
    with pytest.raises(ValidationError, match="without a unit"):
        in_job(None, along="48")


def test_a_whole_number_is_taken_only_where_the_job_has_a_unit() -> None:
    length = in_job("mm", along=1203).along
    assert length.inches == 1203 * MM
    assert length.text == "1203"
    with pytest.raises(ValidationError, match="the number 1203 is no length; write it in quotes"):
        in_job(None, along=1203)


@pytest.mark.parametrize("wrong", [3.5, True, None, float("nan"), 10**70, ["3"], {"inches": 3}, b"3-15/16"])
def test_what_is_no_text_is_refused_in_one_line(wrong: Any) -> None:
    with pytest.raises(ValidationError) as caught:
        in_job("in", along=wrong)
    (problem,) = caught.value.errors()
    assert "is no length; write it in quotes" in problem["msg"]
    assert len(problem["msg"].splitlines()) == 1


def test_six_and_nothing_is_six_inches_only_for_a_reading() -> None:
    stud = in_job("in", along="8", readings={"2": "6-0", "48": "5-13/16", "90": "6-1/8"})
    # independent: convention 8, nominal 6-0 between 5-13/16 and 6-1/8
    assert [reading.inches for reading in stud.readings.values() if isinstance(reading, Length)] == [
        6,
        Fraction(93, 16),
        Fraction(49, 8),
    ]
    with pytest.raises(ValidationError, match="may be 6 feet or 6 inches"):
        in_job("in", along="6-0")


def test_a_state_beside_a_length_keeps_its_meaning_both_ways() -> None:
    stud = in_job("in", along="8", readings={"2": "cannot reach", "48": None}, other_way_round="cannot reach")
    assert stud.readings == {"2": "cannot reach", "48": None}
    assert stud.model_dump() == {
        "along": "8",
        "readings": {"2": "cannot reach", "48": None},
        "other_way_round": "cannot reach",
        "bare": None,
    }
    stud = in_job("in", along="8", readings={"2": "6-0"}, other_way_round="3/8+", bare="1'")
    assert json.loads(stud.model_dump_json()) == {
        "along": "8",
        "readings": {"2": "6-0"},
        "other_way_round": "3/8+",
        "bare": "1'",
    }


@settings(deadline=None)
@given(ON_INCH_RULER | ON_MM_RULER, st.sampled_from(("in", "mm")), st.sampled_from(("in", "mm")))
def test_a_computed_length_is_written_so_that_any_job_reads_it_back(
    value: Fraction, unit: Unit, job: Unit
) -> None:
    # independent: symmetry; nothing is lost through a file, whichever unit the job has
    written = Stud(along=Length(value, unit)).model_dump_json()
    assert Stud.model_validate_json(written, context={"unit": job}).along.inches == value


def test_a_computed_128th_goes_through_a_file_as_mm() -> None:
    # independent: 25.4 / 128 = 0.1984375; no rule has 128ths, so as inches it would be refused on reading
    assert Stud(along=Length(Fraction(1, 128))).model_dump()["along"] == "0.1984375 mm"


def test_a_computed_length_is_written_in_its_own_unit_where_that_is_exact() -> None:
    # independent: 127 mm are 5 in
    assert Stud(along=Length(Fraction(5), "mm")).model_dump()["along"] == "127 mm"
    assert Stud(along=Length(Fraction(5), "in")).model_dump()["along"] == '5"'
    assert Stud(along=Length(MM, "in")).model_dump()["along"] == "1 mm"


def test_a_computed_length_with_no_exact_text_is_not_written_at_all() -> None:
    with pytest.raises(Exception, match="no exact print"):
        Stud(along=Length(Fraction(1, 3))).model_dump()


def test_the_schema_takes_every_text_that_is_read() -> None:
    schema = Stud.model_json_schema()
    along = schema["properties"]["along"]
    assert (along["type"], along["maxLength"]) == ("string", 64)
    assert all(parse_length(example, "in") for example in along["examples"])
    assert schema == Stud.model_json_schema(mode="serialization") | {"required": ["along"]}
    for text in (*fuzz.WHOLE_TEXTS, "⅞", "−3⁄8", "4’ 2½”"):
        assert re.search(along["pattern"], text), text
    for text in ("", "abc", "1,203 mm", "3\n4"):
        assert not re.search(along["pattern"], text), text


# --- the module


def test_pydantic_is_not_loaded_before_a_model_is_built() -> None:
    code = "import sys, undertile.lengths; print('pydantic' in sys.modules or 'pydantic_core' in sys.modules)"
    shown = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == "False"


def test_what_the_module_offers_is_there() -> None:
    for name in undertile.lengths.__all__:
        assert hasattr(undertile.lengths, name), name


def test_the_examples_in_code_and_docs_run() -> None:
    assert doctest.testmod(undertile.lengths).failed == 0
    page = Path(__file__).parent.parent / "docs" / "methods" / "lengths.md"
    result = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert result.failed == 0
    assert result.attempted > 10  # pinned: the page is not empty


def test_a_few_thousand_thrown_texts_break_no_promise() -> None:
    read, refused = fuzz.run(seed=20260101, count=4000)
    assert read > 300  # pinned: about one in eight is a length, else the throw is too wild to say much
    assert refused > 300


def test_the_fuzz_notices_a_wrong_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    def off_by_a_sixteenth(text: str, *args: Any, **more: Any) -> Length:
        length = parse_length(text, *args, **more)
        return Length(length.inches + Fraction(1, 16), length.unit, text)

    monkeypatch.setattr(fuzz, "parse_length", off_by_a_sixteenth)
    with pytest.raises(AssertionError, match="a second reader has"):
        fuzz.run(seed=1, count=200)


def test_the_fuzz_notices_a_refusal_of_a_good_text(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(text: str, *args: Any, **more: Any) -> Length:
        raise LengthError("B2 at 48: no; write it like 3")

    monkeypatch.setattr(fuzz, "parse_length", refuse)
    with pytest.raises(AssertionError, match="refused"):
        fuzz.run(seed=1, count=200)
