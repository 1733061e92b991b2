"""Throw texts at the length reader: ``python -m tests.fuzz.lengths --seconds 20``.

Three things must hold for every text: the answer is a length or one clear line, never another error;
a second reader, written from the documented forms alone and in another way, accepts the same texts with
the same values; and what is printed for an accepted length reads back to it.
"""

from __future__ import annotations

import argparse
import random
import re
import sys
import time
import unicodedata
from collections.abc import Iterator
from fractions import Fraction

from undertile.errors import LengthError
from undertile.lengths import Unit, Whole, format_length, parse_length

PIECES = (
    *("0", "1", "3", "7", "12", "15", "16", "17", "32", "48", "64", "128", "1203", "0.5", "120.3", "3.5"),
    *("/", "/", "\u2044", "-", "-", "\u2212", "\u2013", "+", " ", " ", "\u00a0", "'", "\u2019", "\u2032"),
    *('"', "\u201d", "\u2033", "''", "in", "in.", "inches", "ft", "feet", "mm", "mm", "cm", "m", "MM"),
    *("½", "¼", "⅜", "⅞", "⅓", "⅟", "strong", "shy", ",", ".", "x", "\u0663", "²", "\n", "`", "~", "n", "{"),
)
WHOLE_TEXTS = (
    *(
        "3-15/16",
        '3 15/16"',
        "4' 2-1/2\"",
        "4'-2 1/2\"",
        "6-0",
        "1203 mm",
        "120.3 cm",
        "15/16",
        "3½",
        "-3/16",
    ),
    *("3/8+", "3/8-", '3/8"+', "3-15/16+", "4 ft 2 in", "0", "48", '4"-', "4'", "-4' 11-63/64\"", "⅟16"),
)
_FRACTION = (
    r"(?:(?P<over>[0-9]+) ?/ ?(?P<under>[0-9]+)"
    r"|{(?P<over_g>[0-9]+)/(?P<under_g>[0-9]+)}"
    r"|{1/} ?(?P<under_o>[0-9]+))"
)
_END = r"(?![a-z])"
_FOOT = rf"(?:'|(?:ft|foot|feet){_END}\.?)"
_INCH = rf"(?:\"|(?:in|inch|inches){_END}\.?)"
_TAIL = rf"(?:(?:\+|strong{_END})|(?:-|shy{_END}))"


def _inch_form(body: str) -> re.Pattern[str]:
    feet = rf"(?:(?P<feet>[0-9]+) ?{_FOOT} ?(?:- ?)?)?"
    end = rf"(?: ?(?P<mark>{_INCH})?(?: ?(?P<tail>{_TAIL}))?| ?(?P<tail2>{_TAIL}) ?(?P<mark2>{_INCH}))"
    return re.compile(rf"(?P<sign>[+-] ?)?{feet}{body}{end}")


_INCH_FORMS = (
    _inch_form(rf"(?P<whole>[0-9]+)(?:[ ]|-|(?={{)){_FRACTION}"),
    _inch_form(_FRACTION),
    _inch_form(r"(?P<whole>[0-9]+)"),
)
_FEET_ONLY = re.compile(rf"(?P<sign>[+-] ?)?(?P<feet>[0-9]+) ?{_FOOT}")
_TWO_WHOLES = re.compile(rf"(?P<sign>[+-] ?)?(?P<first>[0-9]+)-0 ?(?P<mark>{_INCH})?")
_METRIC = re.compile(rf"(?P<sign>[+-] ?)?(?P<size>[0-9]+(?:\.[0-9]+)?)(?: ?(?P<unit>mm|cm){_END}\.?)?")


def second_reading(text: str, unit: Unit | None, whole: Whole | None) -> Fraction | None:
    """The exact value in inches by the documented forms, or None for what is no length."""
    if len(text) > 64:
        return None
    plain = _plain(text)
    if plain is None:
        return None
    found = _METRIC.fullmatch(plain)
    if found and (found["unit"] or unit == "mm"):
        value = Fraction(found["size"]) / Fraction("25.4") * (10 if found["unit"] == "cm" else 1)
        return -value if _minus(found) else value
    if found := _TWO_WHOLES.fullmatch(plain):
        if whole is None or (unit == "mm" and not found["mark"]):
            return None
        value = Fraction(found["first"]) * (12 if whole == "feet" else 1)
        return -value if _minus(found) else value
    if found := _FEET_ONLY.fullmatch(plain):
        value = Fraction(12 * int(found["feet"]))
        return -value if _minus(found) else value
    for form in _INCH_FORMS:
        if found := form.fullmatch(plain):
            return _inch_value(found.groupdict(), unit)
    return None


def _inch_value(found: dict[str, str | None], unit: Unit | None) -> Fraction | None:
    mark = bool(found["mark"] or found["mark2"])
    tail = found["tail"] or found["tail2"]
    whole = int(found.get("whole") or 0)
    over = int(found.get("over") or found.get("over_g") or (1 if found.get("under_o") else 0))
    under_text = found.get("under") or found.get("under_g") or found.get("under_o")
    part = Fraction(0)
    if under_text is not None:
        if int(under_text) not in (1, 2, 4, 8, 16, 32, 64) or over >= int(under_text):
            return None
        part = Fraction(over, int(under_text))
    elif not found["feet"] and not mark and (tail or (unit is None and whole)):
        return None
    if (found["feet"] and whole >= 12) or (unit == "mm" and not found["feet"] and not mark):
        return None
    value = 12 * int(found["feet"] or 0) + whole + part
    if tail:
        if _minus(found) or (value * 16).denominator != 1:
            return None
        value += Fraction(1, 32) if tail in ("+", "strong") else -Fraction(1, 32)
        if value < 0:
            return None
    return -value if _minus(found) else value


def _minus(found: dict[str, str | None] | re.Match[str]) -> bool:
    return (found["sign"] or "").startswith("-")


def _plain(text: str) -> str | None:
    """The text in ASCII, fraction glyphs in braces; None where a character has no place in a length."""
    out = []
    for char in text.strip():
        name, kind = unicodedata.name(char, ""), unicodedata.category(char)
        if unicodedata.decomposition(char).startswith("<fraction>"):
            out.append("{" + unicodedata.normalize("NFKC", char).replace("\u2044", "/") + "}")
        elif kind == "Zs" or char == "\t":
            out.append(" ")
        elif kind == "Pd" or name == "MINUS SIGN":
            out.append("-")
        elif name == "FRACTION SLASH":
            out.append("/")
        elif "DOUBLE" in name and ("QUOTATION" in name or "PRIME" in name):
            out.append('"')
        elif ("SINGLE" in name and "QUOTATION" in name) or name in ("PRIME", "GRAVE ACCENT"):
            out.append("'")
        elif char.isascii() and (char.isalnum() or char in "+-/'\"."):
            out.append(char.lower())
        else:
            return None
    # a space inside counts once; two single marks are one double mark
    return re.sub(" +", " ", "".join(out)).replace("''", '"')


def texts(dice: random.Random) -> Iterator[str]:
    """Endless texts: pieces thrown together, and known lengths with one thing changed."""
    while True:
        if dice.random() < 0.5:
            yield "".join(dice.choice(PIECES) for _ in range(dice.randint(1, 7)))
        else:
            text = dice.choice(WHOLE_TEXTS)
            at = dice.randint(0, len(text))
            cut = dice.randint(0, 2)
            yield text[:at] + dice.choice(("", *PIECES)) + text[at + cut :]


def options(line: str) -> list[str]:
    """The texts a refusal offers in so many words; none where it only gives a likeness."""
    instead = line.rsplit("; write ", 1)[1]
    if re.search(r"\blike ", instead):
        return []
    instead = re.sub(r", (?:as is meant|whichever is nearer)", "", instead)
    return re.split(r", or exactly |, or for inches | or ", instead)


def check(text: str, unit: Unit | None, whole: Whole | None) -> bool:
    """Whether the text is a length; raises AssertionError where a promise does not hold."""
    second = second_reading(text, unit, whole)
    case = f"{text!r} unit={unit} whole={whole}"
    try:
        length = parse_length(text, unit, what="B2 at 48", whole=whole)
    except LengthError as refusal:
        line = str(refusal)
        if second is not None:
            raise AssertionError(f"{case}: refused ({line}), yet a second reader has {second}") from refusal
        if len(line.splitlines()) != 1 or not line.startswith("B2 at 48: ") or "; write " not in line:
            raise AssertionError(f"{case}: not one clear line: {line!r}") from refusal
        for option in options(line):
            try:
                parse_length(option, unit)
            except LengthError as second_refusal:
                raise AssertionError(f"{case}: told to write {option!r}: {second_refusal}") from refusal
        return False
    if length.inches != second:
        raise AssertionError(f"{case}: read as {length.inches}, a second reader has {second}")
    prints = [format_length(length, mark=True)]
    prints += [format_length(length, feet=True)] if length.unit == "in" else []
    prints += [format_length(length, "mm")]
    for shown in prints:
        if parse_length(shown) != length or length.text != text:
            raise AssertionError(f"{case}: printed as {shown}, which reads back to another length")
    return True


def run(*, seed: int, count: int | None = None, seconds: float | None = None) -> tuple[int, int]:
    """Check ``count`` texts, or as many as fit in ``seconds``; returns how many were read and refused."""
    dice = random.Random(seed)
    end = time.monotonic() + seconds if seconds is not None else None
    read = refused = 0
    for text in texts(dice):
        if (count is not None and read + refused >= count) or (end is not None and time.monotonic() > end):
            break
        unit: Unit | None = dice.choice((None, "in", "mm"))
        whole: Whole | None = dice.choice((None, None, "inches", "feet"))
        if check(text, unit, whole):
            read += 1
        else:
            refused += 1
    return read, refused


def main() -> int:
    arguments = argparse.ArgumentParser(prog="python -m tests.fuzz.lengths", description=__doc__)
    arguments.add_argument("--seconds", type=float, default=10.0)
    arguments.add_argument("--seed", type=int, default=random.SystemRandom().randrange(2**32))
    chosen = arguments.parse_args()
    try:
        read, refused = run(seed=chosen.seed, seconds=chosen.seconds)
    except AssertionError as broken:
        print(f"seed {chosen.seed}: {broken}")
        return 1
    print(f"seed {chosen.seed}: {read + refused} texts, {read} read, {refused} refused, no promise broken")
    return 0


if __name__ == "__main__":
    sys.exit(main())
