"""Exact lengths: what people write on a stud, read without a guess and printed without a decimal inch.

Inside, every length is a rational number of inches; one inch is 25.4 mm exactly [1]_, so one millimetre
is 5/127 in. A text is read in one pass over its characters; what could mean two things is refused in one
line that says what was understood and what to write instead (docs/methods/lengths.md; the decisions
behind it are in docs/decisions/lengths-read-without-a-guess.md).

This module is ground floor: it imports the standard library and ``errors`` only. The two pydantic
fields at the bottom load pydantic when a model is built, not before.

References
----------
.. [1] NIST Special Publication 811 (2008), appendix B: 1 inch = 2.54 E-02 m, exact.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import floor
from typing import TYPE_CHECKING, Annotated, Any, Literal, NoReturn

from undertile.errors import LengthError

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
    from pydantic_core import CoreSchema

Unit = Literal["in", "mm"]
Whole = Literal["inches", "feet"]
Rounding = Literal["up", "down", "nearest"]

MM: Fraction = Fraction(5, 127)
SIXTEENTH: Fraction = Fraction(1, 16)
MAX_TEXT = 64

_STRONG = SIXTEENTH / 2  # a strong or shy sixteenth is half a sixteenth over or under
_FINEST_READ = 64  # the finest ruler anyone reads; a finer fraction in a text is a slip
_FINEST_PRINT = 128  # the mean of two 64ths is still an exact print
_STEPS: dict[str, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(1, 2**k) for k in range(8)),
    "mm": tuple(MM * Fraction(tenths, 10) for tenths in (1, 2, 5, 10, 20, 50, 100)),
}

_SAME: dict[str, str] = {
    **dict.fromkeys("-\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d", "-"),
    **dict.fromkeys("+\uff0b", "+"),
    **dict.fromkeys("/\u2044\u2215", "/"),
    **dict.fromkeys("'`\u00b4\u2018\u2019\u201b\u2032\u02b9\u02bc", "'"),
    **dict.fromkeys('"\u201c\u201d\u201e\u201f\u2033\u02ba', '"'),
    **dict.fromkeys(" \t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f", " "),
}
_GLYPHS: dict[str, tuple[int, int]] = {
    **{"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)},
    **{"⅓": (1, 3), "⅔": (2, 3), "⅙": (1, 6), "⅚": (5, 6), "⅐": (1, 7), "⅑": (1, 9), "⅒": (1, 10)},
    **{"⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "↉": (0, 3)},
}
_WORDS: dict[str, str] = {
    **dict.fromkeys(("in", "inch", "inches"), '"'),
    **dict.fromkeys(("ft", "foot", "feet"), "'"),
    **{"mm": "m", "cm": "c", "strong": "+", "shy": "-"},
}
# A shape is the text with each whole number as n, each decimal as d, and the marks ' " m c / + - and space.
_INCHES = re.compile(r"""([+-]?)(?:(n)'(?:-(?=n))?)?(n[- ]n/n|n/n|n-n|n)?("?)([+-]?)""")
_METRIC = re.compile(r"([+-]?)([nd])([mc])")
_LIKE = "3-15/16, 4' 2-1/2\" or 1203 mm"


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
    def __get_pydantic_json_schema__(
        cls, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return _LengthRule().__get_pydantic_json_schema__(schema, handler)


def parse_length(
    text: str, unit: Unit | None = None, *, what: str = "", whole: Whole | None = None
) -> Length:
    """Read one length as a person writes it.

    Parameters
    ----------
    text : str
        ``3-15/16``, ``3 15/16"``, ``4' 2-1/2"``, ``3/8+`` (strong), ``1203 mm``, ``120.3 cm``, ``3½``.
    unit : {"in", "mm"}, optional
        The job's unit, for a number without a mark. Without it only a fraction is read (as inches), and 0.
    what : str
        The place, put before the message of a refusal.
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
    """
    return _Reader(text, unit, what, whole).length()


class _Reader:
    """One text being read: its shape, its numbers, and where to complain."""

    def __init__(self, text: str, unit: Unit | None, what: str, whole: Whole | None) -> None:
        self.text, self.unit, self.what, self.whole = text, unit, what, whole
        self.numbers: list[str] = []
        if not text.strip():
            self.refuse("is empty", f"a length like {_LIKE}")
        if len(text) > MAX_TEXT:
            self.refuse(f"is {len(text)} characters long, too long for one length", f"one like {_LIKE}")
        self.shape = self.scan()

    def refuse(self, understood: str, instead: str) -> NoReturn:
        shown = self.text if len(self.text) <= MAX_TEXT else self.text[:24] + "..."
        shown = "".join(c if c.isprintable() else f"<U+{ord(c):04X}>" for c in shown)
        place = f"{' '.join(self.what.split())}: " if self.what else ""
        raise LengthError(f"{place}`{shown}` {understood}; write {instead}")

    def scan(self) -> str:
        """The shape of the text, in one pass; the numbers are kept aside in order."""
        text = self.text.strip()
        shape: list[str] = []
        at, end = 0, len(text)
        while at < end:
            start, char = at, text[at]
            at += 1
            if "0" <= char <= "9":
                while at < end and "0" <= text[at] <= "9":
                    at += 1
                kind = "n"
                if at + 1 < end and text[at] == "." and "0" <= text[at + 1] <= "9":
                    kind, at = "d", at + 1
                    while at < end and "0" <= text[at] <= "9":
                        at += 1
                self.numbers.append(text[start:at])
                shape.append(kind)
            elif char in _GLYPHS or char == "⅟":
                if shape and shape[-1] in "nd":
                    shape.append(" ")  # 3½ is 3 and 1/2, never 31/2
                numerator, denominator = _GLYPHS.get(char, (1, 0))
                self.numbers.append(str(numerator))
                shape += ["n", "/"]
                if char != "⅟":
                    self.numbers.append(str(denominator))
                    shape.append("n")
            elif char.isascii() and char.isalpha():
                while at < end and text[at].isascii() and text[at].isalpha():
                    at += 1
                shape.append(self.word(text[start:at]))
                if at < end and text[at] == "." and shape[-1] in "'\"mc":
                    at += 1  # "in." is how the word is shortened
            elif char in _SAME:
                shape.append(_SAME[char])
            else:
                self.refuse_character(char)
        return self.tidy("".join(shape))

    @staticmethod
    def tidy(shape: str) -> str:
        """Drop the spaces that say nothing; a space counts between two numbers or before a minus only."""
        shape = " ".join(shape.split()).replace("''", '"')
        shape = shape.replace(" - ", "-").replace("- ", "-")
        shape = re.sub(r" ?([/+'\"mc]) ?", r"\1", shape)
        return shape[:-2] + "-" if shape.endswith(" -") else shape

    def word(self, word: str) -> str:
        known = _WORDS.get(word.lower())
        if known is None:
            if word.lower() in ("m", "meter", "meters", "metre", "metres"):
                self.refuse("is in metres", "it in mm, like 1203 mm")
            self.refuse(f"has the word {word}, which is no unit read here", f"one length like {_LIKE}")
        return known

    def refuse_character(self, char: str) -> NoReturn:
        if char == ",":
            self.refuse(
                "has a comma, which may mark thousands or a decimal", "it without, like 1203 mm or 120.3 cm"
            )
        if char == ".":
            self.refuse("has a point that is not inside a number", "digits on both sides, like 0.5 mm")
        import unicodedata

        name = f"{unicodedata.name(char, 'no name')} (U+{ord(char):04X})"
        if char.isdigit() or char.isnumeric():
            self.refuse(f"has {name}, not a plain digit", f"it with 0-9, like {_LIKE}")
        self.refuse(f"has {name}, which is no part of a length", f"one length like {_LIKE}")

    def length(self) -> Length:
        unit: Unit
        metric = _METRIC.fullmatch(self.shape)
        if metric is None and self.unit == "mm":
            metric = re.fullmatch(r"([+-]?)([nd])()", self.shape)
        if metric is not None:
            unit, value = "mm", Fraction(self.numbers[0]) * MM * (10 if metric[3] == "c" else 1)
            sign = metric[1]
        else:
            inches = _INCHES.fullmatch(self.shape)
            if inches is None or not (inches[2] or inches[3]):
                self.refuse_shape()
            unit, value = "in", self.inches(inches)
            sign = inches[1]
        return Length(-value if sign == "-" else value, unit, self.text)

    def inches(self, found: re.Match[str]) -> Fraction:
        sign, feet, body, mark, tail = found.groups()
        numbers = [int(n) for n in self.numbers]
        value = Fraction(12 * numbers.pop(0) if feet else 0)
        if body is None:
            if tail or mark:
                self.refuse_shape()
            return value
        if self.unit == "mm" and not (feet or mark):
            self.refuse(
                "is an inch form without a mark, and the job is in mm",
                f'{self.text.strip()}" if inches are meant, or the length in mm like 1203 mm',
            )
        if body == "n-n":
            return value + self.whole_and_whole(numbers, feet, tail)
        if body != "n/n":
            first = numbers.pop(0)
            if feet and first > 11:
                total = format_length(value + first, feet=True)
                self.refuse(f"has {first} inches after the feet, a foot or more", f"it like {total}")
            value += first
        if body == "n":
            if not (feet or mark or self.unit or value == 0):
                self.refuse(
                    f"is the number {value} without a unit", f'{value}" or {value} mm, whichever is meant'
                )
        else:
            value += self.fraction(value, *numbers, sign=sign)
        return value + self.strong(value, body, mark, tail, sign) if tail else value

    def fraction(self, before: Fraction, over: int, under: int, *, sign: str) -> Fraction:
        if under == 0:
            self.refuse(f"has the fraction {over}/0", f"the fraction as on the rule, like {_LIKE}")
        part = Fraction(over, under)
        total = -(before + part) if sign == "-" else before + part
        if under & (under - 1) or under > _FINEST_READ:
            self.refuse(f"has the fraction {over}/{under}, which is on no ruler", _on_ruler(total))
        if over >= under:
            self.refuse(f"has the improper fraction {over}/{under}", _on_ruler(total))
        return part

    def strong(self, value: Fraction, body: str, mark: str, tail: str, sign: str) -> Fraction:
        word, change = ("strong", _STRONG) if tail == "+" else ("shy", -_STRONG)
        if body == "n" and not mark:
            self.refuse(
                f"ends in {tail} right after a whole number: {word}, or a fraction cut off",
                f'{value}"{tail} if {word} is meant, or the whole fraction like {value}-1/16',
            )
        if value.denominator > 16:
            self.refuse(
                f"is finer than a sixteenth, and {word} means half a sixteenth", _on_ruler(value + change)
            )
        if sign == "-" and value:
            more, less = format_length(-(value + _STRONG)), format_length(-(value - _STRONG))
            self.refuse(f"has a minus in front and {tail} behind, two ways to read it", f"{more} or {less}")
        if value + change < 0:
            self.refuse("is a shy zero, which is less than nothing", format_length(change))
        return change

    def whole_and_whole(self, numbers: list[int], feet: str | None, tail: str) -> int:
        first, second = numbers
        if second == 0 and not (feet or tail):
            if self.whole is None:
                self.refuse(
                    f"may be {first} feet or {first} inches", f'{first}\' 0" or {first}", whichever is meant'
                )
            return first * (12 if self.whole == "feet" else 1)
        options = [f"{first}' {second}\""] if second < 12 and not feet else []
        if second < 16:
            options.append(f"{first}-{second}/16")
        self.refuse(
            f"has two whole numbers, {first} and {second}, and no fraction",
            " or ".join(options) or f"one length like {_LIKE}",
        )

    def refuse_shape(self) -> NoReturn:
        shape = self.shape.lstrip("+-")
        metric = "m" in shape or "c" in shape
        if metric and ("'" in shape or '"' in shape):
            self.refuse("mixes inches and mm", "it in one unit")
        if metric and "/" in shape:
            self.refuse(
                "is a fraction of a millimetre", "mm with a decimal, like 120.5 mm, or inches with a mark"
            )
        if metric and shape[-1] in "+-":
            self.refuse(
                "is strong or shy, which is half a sixteenth of an inch", "the mm alone, like 120.5 mm"
            )
        if shape in ("d", 'd"', "n'd\"", "n'd", "n'-d\"", "n'-d", "d'") and not metric:
            self.refuse_decimal(shape)
        if shape in ("n/n'", "n n/n'", "n-n/n'"):
            self.refuse("is a fraction of a foot", "feet and inches, like 4' 2-1/2\"")
        if self.numbers and not any(c in "/'\"mc" for c in shape) and len(self.numbers) > 1:
            self.refuse("is more than one number", f"one length like {_LIKE}")
        self.refuse("is not one length", f"it like {_LIKE}")

    def refuse_decimal(self, shape: str) -> NoReturn:
        last = Fraction(self.numbers[-1])
        value = last * 12 if shape == "d'" else last
        if len(self.numbers) == 2:
            value += 12 * int(self.numbers[0])
        instead = _on_ruler(-value if self.shape[0] == "-" else value)
        if shape == "d" and self.unit is None:
            self.refuse("is a decimal without a unit", f"{self.numbers[-1]} mm, or for inches {instead}")
        self.refuse(f"is a decimal {'foot' if shape == chr(100) + chr(39) else 'inch'}", instead)


def _on_ruler(value: Fraction) -> str:
    """The value as a ruler shows it, or its two neighbours in sixteenths. [in]"""
    if value.denominator <= _FINEST_READ and value.denominator & (value.denominator - 1) == 0:
        return format_length(value, mark=True)
    step = Fraction(1, 64) if value.denominator & (value.denominator - 1) == 0 else SIXTEENTH
    low = format_length(value, mark=True, step=step, rounding="down")
    high = format_length(value, mark=True, step=step, rounding="up")
    return f"{low} or {high}, whichever is nearer what you see"


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
        A plus before what is more than zero.
    mark : bool
        ``"`` after inches; mm always carry theirs.
    feet : bool
        ``4' 2-1/2"``; inches only.
    step : Fraction, optional
        Step to round to, itself a length in inches: ``SIXTEENTH``, ``MM / 2``. [in]
    rounding : {"up", "down", "nearest"}, optional
        ``up`` never prints less than the value, ``down`` never more, also below zero; ``nearest`` takes a
        tie away from zero, so that a mirrored room prints mirrored.

    Returns
    -------
    str
        Reads back to the same value with ``parse_length``, unless it was rounded or is in 128ths.

    Raises
    ------
    LengthError
        If the value has no exact print in the unit and no step and rounding are given; if one is given
        without the other; if the step is none of the unit's own; if feet are asked for in mm.
    """
    exact = value.inches if isinstance(value, Length) else value
    if unit is None:
        unit = value.unit if isinstance(value, Length) else "in"
    if (step is None) != (rounding is None):
        raise LengthError("a step and a rounding (up, down, nearest) go together; give both or neither")
    if feet and unit == "mm":
        raise LengthError("feet go with inches; print mm without feet")
    if step is not None:
        if step not in _STEPS[unit]:
            raise LengthError(
                f"a step of {step} in is none of a {unit} ruler; write the step in inches: 1/16, or MM / 2"
            )
        exact = _rounded(exact, step, rounding)
    size = abs(exact)
    sign = "-" if exact < 0 else "+" if signed and exact else ""
    if unit == "mm":
        return f"{sign}{_decimal(size / MM)} mm"
    if size.denominator > _FINEST_PRINT or size.denominator & (size.denominator - 1):
        raise LengthError(f"{exact} in has no exact print in inches; give a step and a rounding direction")
    if feet and size >= 12:
        return f"{sign}{size // 12}' {_mixed(size % 12, zero=True)}\""
    return f'{sign}{_mixed(size)}"' if mark or feet else f"{sign}{_mixed(size)}"


def _mixed(size: Fraction, *, zero: bool = False) -> str:
    whole, part = divmod(size, 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole or zero else str(part)


def _decimal(size: Fraction) -> str:
    """A finite decimal, exact."""
    places, rest = 0, size
    while rest.denominator != 1 and places < MAX_TEXT // 2:
        rest *= 10
        places += 1
    if rest.denominator != 1:
        raise LengthError(f"{size} mm has no exact print in mm; give a step and a rounding direction")
    digits = str(rest.numerator).rjust(places + 1, "0")
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def _rounded(value: Fraction, step: Fraction, rounding: Rounding | None) -> Fraction:
    count = value / step
    if rounding == "down":
        return floor(count) * step
    if rounding == "up":
        return -floor(-count) * step
    near = floor(abs(count) + Fraction(1, 2)) * step
    return near if count >= 0 else -near


def format_both(value: Fraction | Length, unit: Unit | None = None, *, signed: bool = False) -> str:
    """Print a length with the other unit beside it: ``3-15/16" (about 100 mm)``.

    The exact one comes first. "about" says the figure was rounded to the nearest 1/2 mm or 1/32 in; a
    value exact in neither unit has "about" on both.

    Parameters
    ----------
    value : Fraction or Length
        [in]
    unit : {"in", "mm"}, optional
        Unit to print first where the value is exact in both.
    signed : bool
        A plus before what is more than zero.

    Returns
    -------
    str
    """
    exact = value.inches if isinstance(value, Length) else value
    first: Unit = unit or (value.unit if isinstance(value, Length) else "in")
    other: Unit = "mm" if first == "in" else "in"
    if not _prints(exact, first) and _prints(exact, other):
        first, other = other, first
    head = format_length(exact, first, signed=signed, mark=True) if _prints(exact, first) else None
    return f"{head or _about(exact, first, signed)} ({_about(exact, other, signed)})"


def _prints(value: Fraction, unit: Unit) -> bool:
    try:
        format_length(value, unit)
    except LengthError:
        return False
    return True


def _about(value: Fraction, unit: Unit, signed: bool) -> str:
    step = MM / 2 if unit == "mm" else Fraction(1, 32)
    text = format_length(value, unit, signed=signed, mark=True, step=step, rounding="nearest")
    return text if _rounded(value, step, "nearest") == value else f"about {text}"


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

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {
            "type": "string",
            "minLength": 1,
            "maxLength": MAX_TEXT,
            "pattern": r"[0-9¼½¾⅛⅜⅝⅞]",
            "examples": ["3-15/16", "4' 2-1/2\"", "3/8+", "1203 mm"] + (["6-0"] if self.whole else []),
            "description": "An exact length as typed: inches with fractions, feet and inches, or mm; "
            "a number without a mark is in the job's unit.",
        }

    def read(self, value: Any, info: ValidationInfo) -> Length:
        if isinstance(value, Length):
            return value
        unit = info.context.get("unit") if isinstance(info.context, Mapping) else None
        if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**MAX_TEXT:
            if unit is None:
                raise LengthError(
                    f'{value} has no unit; write it as a text in quotes, like 3-15/16" or 1203 mm'
                )
            value = str(value)
        if not isinstance(value, str):
            raise LengthError(
                f"a {type(value).__name__} is not a length; write it as a text in quotes, like 3-15/16 or 1203 mm"
            )
        return parse_length(value, unit, whole=self.whole)


def _written(value: Length) -> str:
    """The typed text; for a computed length a text that reads back to the same value in any job."""
    if value.text:
        return value.text
    if value.unit == "in" and (value.inches.denominator > _FINEST_READ or not _prints(value.inches, "in")):
        return format_length(value, "mm")  # every fraction in 128ths is exact in mm
    return format_length(value, "in" if not _prints(value.inches, "mm") else value.unit, mark=True)


LengthField = Annotated[Length, _LengthRule()]
ReadingField = Annotated[Length, _LengthRule(whole="inches")]
