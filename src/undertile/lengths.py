"""Exact lengths: read what people write, print fractions of an inch or mm, keep the typed text.

Inside, every length is a rational number of inches and 1 mm is 5/127 in. ``length_text`` reads, ``ruler``
prints; this is the door to both, with the value they share and the fields that pydantic models use.
What each form means is in docs/methods/lengths.md.

Ground floor: standard library only; pydantic is loaded when a model is built, not before.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated, Any

from undertile.errors import LengthError
from undertile.length_text import Whole, read_length_text
from undertile.ruler import (
    FINEST_READ,
    MAX_TEXT,
    MM,
    SIXTEENTH,
    Rounding,
    Unit,
    is_dyadic,
    print_about,
    print_exact,
    prints_exactly,
    rounded,
)

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
    from pydantic_core import CoreSchema

__all__ = [
    "MAX_TEXT",
    "MM",
    "SIXTEENTH",
    "Length",
    "LengthField",
    "ReadingField",
    "Rounding",
    "Unit",
    "Whole",
    "format_both",
    "format_length",
    "parse_length",
]


@dataclass(frozen=True, order=True, slots=True)
class Length:
    """One exact length, with the unit and text it was typed in.

    Equality, hash and order go by the exact value only.

    Attributes
    ----------
    inches : Fraction
        Exact value. [in]
    unit : {"in", "mm"}
        The unit it was typed in; cm counts as mm.
    text : str
        Exactly as typed; ``""`` when computed.
    """

    inches: Fraction
    unit: Unit = field(default="in", compare=False)
    text: str = field(default="", compare=False)

    def __post_init__(self) -> None:
        if not isinstance(self.inches, Fraction):
            raise TypeError(f"Length takes a Fraction of inches, not {type(self.inches).__name__}")

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return _LengthRule().__get_pydantic_core_schema__(source, handler)

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return _LengthRule().__get_pydantic_json_schema__(core, handler)


def parse_length(
    text: str, unit: Unit | None = None, *, what: str = "", whole: Whole | None = None
) -> Length:
    """Read one length as a person writes it.

    Parameters
    ----------
    text : str
        ``3-15/16``, ``3 15/16"``, ``4' 2-1/2"``, ``3/8+`` (strong), ``3½``, ``1203 mm``, ``120.3 cm``.
    unit : {"in", "mm"}, optional
        The job's unit, for a number without a mark. Without it only a fraction (in inches) and 0 are read.
    what : str
        The place, put in front of a refusal: ``B2 at 48``.
    whole : {"inches", "feet"}, optional
        What ``6-0`` means here; without it that form is refused, for it can mean either.

    Returns
    -------
    Length
        Exact, with the unit and text as typed.

    Raises
    ------
    LengthError
        If the text is not exactly one length: one line, what was understood and what to write instead.

    Examples
    --------
    >>> parse_length("3-15/16").inches
    Fraction(63, 16)
    >>> parse_length("100 mm").inches == 100 * MM
    True
    """
    return _parsed(text, unit, what, whole)


@lru_cache(maxsize=4096)
def _parsed(text: str, unit: Unit | None, what: str, whole: Whole | None) -> Length:
    """Kept: a room is read again with every value typed, and all its other lengths were there before."""
    value, typed_in = read_length_text(text, unit, what, whole)
    return Length(value, typed_in, text)


def format_length(
    value: Fraction | Length,
    unit: Unit | None = None,
    *,
    signed: bool = False,
    mark: bool = False,
    feet: bool = False,
    step: Fraction | None = None,
    rounding: Rounding | None = None,
) -> str:
    """Print a length: fractions of an inch reduced, or mm; never a decimal inch.

    Parameters
    ----------
    value : Fraction or Length
        [in]
    unit : {"in", "mm"}, optional
        Unit to print in; else the unit it was typed in, or inches.
    signed : bool
        A plus in front of what is more than zero.
    mark : bool
        ``"`` after inches; mm always carry theirs.
    feet : bool
        ``4' 2-1/2"`` from a foot up; inches only.
    step : Fraction, optional
        Step to round to, itself in inches whatever the unit: ``SIXTEENTH``, ``MM / 2``. Inches take 1 to
        1/128, mm take 0.1, 0.2, 0.5, 1, 2, 5 and 10 mm. [in]
    rounding : {"up", "down", "nearest"}, optional
        ``up`` never prints less than the value and ``down`` never more, below zero too; ``nearest`` takes
        a tie away from zero, so that a mirrored room prints mirrored.

    Returns
    -------
    str
        Reads back to the same value, unless it was rounded or is in 128ths of an inch.

    Raises
    ------
    LengthError
        If the value has no exact print in the unit and no step and rounding are given, if one is given
        without the other, if the step is on no ruler of the unit, or if feet are asked for in mm.

    Examples
    --------
    >>> format_length(Fraction(-6, 32)), format_length(1203 * MM, "mm")
    ('-3/16', '1203 mm')
    >>> format_length(Fraction(1, 3), step=SIXTEENTH, rounding="down", mark=True)
    '5/16"'
    """
    exact, own = _taken_apart(value)
    unit = unit or own
    if step is not None and rounding is not None:
        exact = rounded(exact, unit, step, rounding)
    elif step is not None or rounding is not None:
        raise LengthError("a step and a rounding (up, down, nearest) go together; give both or neither")
    return print_exact(exact, unit, signed=signed, mark=mark, feet=feet)


def format_both(value: Fraction | Length, unit: Unit | None = None, *, signed: bool = False) -> str:
    """Print a length with the other unit beside it.

    The exact one stands first. "about" says that a figure was rounded to the nearest 1/2 mm or 1/32 in; a
    value exact in neither unit has it on both.

    Parameters
    ----------
    value : Fraction or Length
        [in]
    unit : {"in", "mm"}, optional
        Unit to print first where it is exact; else the unit it was typed in, or inches.
    signed : bool
        A plus in front of what is more than zero.

    Returns
    -------
    str

    Examples
    --------
    >>> format_both(Fraction(63, 16))
    '3-15/16" (about 100 mm)'
    """
    exact, own = _taken_apart(value)
    first: Unit = unit or own
    other: Unit = "mm" if first == "in" else "in"
    if not prints_exactly(exact, first):
        if not prints_exactly(exact, other):
            return f"{print_about(exact, first, signed=signed)} ({print_about(exact, other, signed=signed)})"
        first, other = other, first
    head = print_exact(exact, first, signed=signed, mark=True)
    return f"{head} ({print_about(exact, other, signed=signed)})"


def _taken_apart(value: Fraction | Length) -> tuple[Fraction, Unit]:
    return (value.inches, value.unit) if isinstance(value, Length) else (value, "in")


@dataclass(frozen=True)
class _LengthRule:
    """How a pydantic field takes and gives a length."""

    whole: Whole | None = None

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core import core_schema

        return core_schema.with_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                _written, return_schema=core_schema.str_schema()
            ),
        )

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {
            "type": "string",
            "maxLength": MAX_TEXT,
            "pattern": r"^[^,\r\n]*[0-9¼-¾⅐-⅟↉][^,\r\n]*$",
            "examples": ["3-15/16", "4' 2-1/2\"", "3/8+", "1203 mm", *(["6-0"] if self.whole else [])],
            "description": "An exact length as typed: inches with fractions, feet and inches, or mm. "
            "A number without a mark is in the job's unit.",
        }

    def read(self, value: Any, info: ValidationInfo) -> Length:
        if isinstance(value, Length):
            return value
        unit = info.context.get("unit") if isinstance(info.context, Mapping) else None
        if isinstance(value, int) and not isinstance(value, bool) and unit and abs(value) < 10**MAX_TEXT:
            value = str(value)
        if not isinstance(value, str):
            number = type(value) in (int, float) and abs(value) < 10**MAX_TEXT
            shown = f"the number {value}" if number else f"a {type(value).__name__}"
            raise LengthError(f"{shown} is no length; write it in quotes, like \"3-15/16\" or '1203 mm'")
        return parse_length(value, unit, whole=self.whole)


def _written(value: Length) -> str:
    """The typed text; for a computed length, a text that reads back to the same value in any job."""
    if not isinstance(value, Length):
        from pydantic_core import PydanticSerializationUnexpectedValue

        raise PydanticSerializationUnexpectedValue  # so that a union with a state tries its next member
    if value.text:
        return value.text
    if value.unit == "mm" and prints_exactly(value.inches, "mm"):
        return print_exact(value.inches, "mm")
    if is_dyadic(value.inches, FINEST_READ):
        return print_exact(value.inches, "in", mark=True)
    return print_exact(value.inches, "mm")  # 128ths too: a finite decimal of a mm


LengthField = Annotated[Length, _LengthRule()]
ReadingField = Annotated[Length, _LengthRule(whole="inches")]
