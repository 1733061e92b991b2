"""The mistakes people make with a rule, as changes of what was typed.

Each slip turns a typed length into what it would have been without that slip. How often each happens is
common practice and judgement, no source (``practice-reading-slips``); only their proportions matter to the
odds, and they can be seen here in one place.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.lengths import MM, Length
from undertile.sentence import Sentence
from undertile.survey.facts import Tool

_HALF = Fraction(1, 2)


@dataclass(frozen=True)
class Slip:
    """One kind of mistake.

    Attributes
    ----------
    code : str
        Of the finding that offers its correction.
    words : str
        What happened, as printed.
    rate : float
        How often, per reading it can happen to.
    """

    code: str
    words: str
    rate: float


SLIPS: dict[str, Slip] = {
    "mirror inch": Slip("reading-mirrored", Sentence("counted back from the wrong side of the inch"), 2.0e-3),
    "mirror half": Slip("reading-mirrored", Sentence("counted from the wrong side of the half"), 2.0e-3),
    "inch off": Slip("reading-inch-off", Sentence("a whole inch off, or the burned inch"), 1.6e-3),
    "centimetre off": Slip("reading-inch-off", Sentence("a whole centimetre or decimetre off"), 1.6e-3),
    "six nine": Slip("reading-six-nine", Sentence("6 and 9 taken for each other"), 4e-4),
    "transposed": Slip("reading-transposed", Sentence("two digits exchanged"), 5e-4),
    "wrong sixteenths": Slip(
        "reading-wrong-fraction", Sentence("eighths for sixteenths, or the reverse"), 1.0e-3
    ),
    "misheard": Slip("reading-misheard", Sentence("misheard, three for five or fifteen for fifty"), 3e-4),
    "sign lost": Slip("sign-lost", Sentence("proud for back"), 5e-3),
    "tape case": Slip("tape-case", Sentence("the length of the tape's case left out or put in twice"), 4e-3),
    "cm side": Slip("cm-side", Sentence("read on the centimetre side of the tape"), 2e-4),
    "mm typed": Slip("cm-side", Sentence("millimetres written as inches"), 2e-4),
    "inches typed": Slip("cm-side", Sentence("inches written as millimetres"), 2e-4),
    "cm typed": Slip("cm-side", Sentence("centimetres written as millimetres"), 2e-4),
    "minus typed": Slip("sign-lost", Sentence("a minus typed where none can be"), 5e-3),
    "zero typed": Slip("reading-off", Sentence("0 typed where nothing was read"), 5e-3),
    "row reversed": Slip("row-reversed", Sentence("typed in the other direction"), 1.5e-3),
    "rows swapped": Slip("rows-swapped", Sentence("two neighbors exchanged"), 1.5e-3),
    "line moved": Slip("line-moved", Sentence("the line moved part-way"), 2e-2),
    "other": Slip("reading-off", Sentence("misread in some other way"), 8e-4),
}
"""Every kind, with its rate: per reading (minus typed, zero typed: per reading less than nothing, or 0); per
signed reading (sign lost), taped length (tape case), row or stud (row reversed), pair of neighbours (rows
swapped), wall (line moved)."""

CASE = Fraction(3)
CASE_SPREAD = 1 / 4
"""Length of a tape's case, and how far cases differ (one standard deviation); common practice. [in]"""
CM_SPREAD = 1 / 16
"""A number read off the wrong side is seldom read to the millimetre (one standard deviation). [in]"""

_TEENS = {13: 30, 14: 40, 15: 50, 16: 60, 17: 70, 18: 80, 19: 90}
_MISHEARD = {**_TEENS, **{tens: teen for teen, tens in _TEENS.items()}}


@dataclass(frozen=True)
class Unslipped:
    """What a typed length would have been without a slip.

    Attributes
    ----------
    kind : str
        Key of ``SLIPS``.
    inches : Fraction
    rate : float
    spread : float
        0 where the correction is exact; else how well its size is known (one standard deviation). [in]
    """

    kind: str
    inches: Fraction
    rate: float
    spread: float = 0.0


def without_slip(
    typed: Length, tool: Tool, *, nominal: Fraction | None = None, signed: bool = False
) -> list[Unslipped]:
    """Every length that a known slip would have turned into the typed one.

    Parameters
    ----------
    typed : Length
    tool : str
        What it was read with: only a tape has a case.
    nominal : Fraction, optional
        Of the wall, for a line reading: a lost sign mirrors about it. [in]
    signed : bool
        Whether the measurement has a sign of its own (level, square).

    Returns
    -------
    list of Unslipped
        Each length once, under its likeliest kind, with the rates of all kinds that lead to it added up.
    """
    value = typed.inches
    size = abs(value)
    found = list(_mm(size) if typed.unit == "mm" else _inches(size))
    if value < 0 and signed:
        found = [Unslipped(u.kind, -u.inches, u.rate, u.spread) for u in found]
    if value < 0 and not signed:  # a line hangs in front of the wood: a minus is a slip, and may not be alone
        found = [Unslipped(u.kind, u.inches, u.rate / 2, u.spread) for u in found]
        found.append(Unslipped("minus typed", size, _rate("minus typed")))
    elif signed:
        found.append(Unslipped("sign lost", -value, SLIPS["sign lost"].rate))
    elif nominal is not None:
        found.append(Unslipped("sign lost", 2 * nominal - value, SLIPS["sign lost"].rate / 10))
    if tool == "tape":
        rate = _rate("tape case")
        found.append(Unslipped("tape case", value + CASE, rate * 0.8, CASE_SPREAD))
        found.append(Unslipped("tape case", value - CASE, rate * 0.2, CASE_SPREAD))
    rough: list[Unslipped] = []
    merged: dict[Fraction, Unslipped] = {}
    for u in found:
        if u.inches == value or (u.inches < 0 and not signed):
            continue
        if u.spread:
            rough.append(u)
            continue
        have = merged.get(u.inches)
        if have is None:
            merged[u.inches] = u
        else:
            kind = have.kind if have.rate >= u.rate else u.kind
            merged[u.inches] = Unslipped(kind, u.inches, have.rate + u.rate)
    return [*merged.values(), *rough]


def _rate(kind: str) -> float:
    return SLIPS[kind].rate


def _inches(size: Fraction) -> Iterator[Unslipped]:
    whole, part = divmod(size, 1)
    if part not in (0, _HALF):
        near = whole if part < _HALF else whole + 1
        yield Unslipped("mirror inch", 2 * near - size, _rate("mirror inch"))
        yield Unslipped("mirror half", whole + 1 - part, _rate("mirror half"))
    for change in (-1, 1):
        yield Unslipped("inch off", size + change, _rate("inch off") / 2)
    for digits in _six_nine(whole):
        yield Unslipped("six nine", digits + part, _rate("six nine"))
    for digits in _exchanged(whole):
        yield Unslipped("transposed", digits + part, _rate("transposed"))
    top, under = part.numerator, part.denominator
    if under > 1:
        if 2 * top < under and under >= 8:
            yield Unslipped("wrong sixteenths", whole + 2 * part, _rate("wrong sixteenths"))
        if under in (4, 8):
            yield Unslipped("wrong sixteenths", whole + part / 2, _rate("wrong sixteenths"))
        if top in (3, 5) and under >= 8:
            yield Unslipped("misheard", whole + Fraction(8 - top, under), _rate("misheard"))
    if whole in _MISHEARD:
        yield Unslipped("misheard", _MISHEARD[int(whole)] + part, _rate("misheard"))
    yield Unslipped("cm side", size * 10 * MM, _rate("cm side"), CM_SPREAD)
    if part == 0:
        yield Unslipped("mm typed", size * MM, _rate("mm typed"))


def _mm(size: Fraction) -> Iterator[Unslipped]:
    mm = size / MM
    near = round(mm / 10) * 10
    if mm % 5:
        yield Unslipped("mirror inch", (2 * near - mm) * MM, _rate("mirror inch"))
    for change in (-100, -10, 10, 100):
        yield Unslipped("centimetre off", (mm + change) * MM, _rate("centimetre off") / 4)
    whole, part = divmod(mm, 1)
    for digits in _six_nine(whole):
        yield Unslipped("six nine", (digits + part) * MM, _rate("six nine"))
    for digits in _exchanged(whole):
        yield Unslipped("transposed", (digits + part) * MM, _rate("transposed"))
    if part == 0 or part == _HALF:
        yield Unslipped("inches typed", mm, _rate("inches typed"))
    yield Unslipped("cm typed", size * 10, _rate("cm typed"))


def _six_nine(whole: int) -> Iterator[int]:
    turn = str.maketrans("69", "96")
    text = str(int(whole))
    spots = [i for i, c in enumerate(text) if c in "69"]
    for i in spots:
        yield int(text[:i] + text[i].translate(turn) + text[i + 1 :])
    if len(spots) > 1:
        yield int(text.translate(turn))


def _exchanged(whole: int) -> Iterator[int]:
    text = str(int(whole))
    if 0 < whole < 10:
        yield int(whole) * 10  # 60 written 06
    for i in range(len(text) - 1):
        if text[i] != text[i + 1]:
            swapped = text[:i] + text[i + 1] + text[i] + text[i + 2 :]
            if swapped[0] != "0":
                yield int(swapped)
