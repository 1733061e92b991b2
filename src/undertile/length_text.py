"""What people write for a length, read without a guess.

One pass over the characters gives the text's *shape*: ``n`` for a whole number, ``d`` for a decimal,
``'`` ``"`` ``m`` ``c`` for the marks, ``s`` ``y`` for strong and shy, ``/ + -`` and the space; the numbers
are kept aside in order. A few known shapes are lengths. Every other one is refused in one line that says
what was understood and what to write instead. Work grows with the length of the text, which is limited.

``lengths.parse_length`` is the door the rest of the house uses; what each form means, and why some are
refused, is in docs/methods/lengths.md and docs/decisions/lengths-read-without-a-guess.md.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Literal, NoReturn

from undertile.errors import LengthError
from undertile.ruler import FINEST_READ, MAX_TEXT, MM, SIXTEENTH, Unit, on_ruler
from undertile.sentence import Sentence

Whole = Literal["inches", "feet"]

LIKE = Sentence("3-15/16, 4' 2-1/2\" or 1203 mm")
ONE = Sentence("one length like {like}", like=LIKE)
SO = Sentence("it like {like}", like=LIKE)
HALF_SIXTEENTH = SIXTEENTH / 2  # what strong adds and shy takes off

MARKS: dict[str, str] = {
    char: plain
    for plain, chars in {
        "-": "-\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe63\uff0d",
        "+": "+\uff0b",
        "/": "/\u2044\u2215",
        "'": "'`\u00b4\u2018\u2019\u201b\u2032\u02b9\u02bc",
        '"': '"\u201c\u201d\u201e\u201f\u2033\u02ba',
        " ": " \t\u00a0\u2002\u2003\u2007\u2009\u200a\u202f",
    }.items()
    for char in chars
}
GLYPHS: dict[str, tuple[int, int]] = {
    **{"¼": (1, 4), "½": (1, 2), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)},
    **{"⅓": (1, 3), "⅔": (2, 3), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5), "⅙": (1, 6)},
    **{"⅚": (5, 6), "⅐": (1, 7), "⅑": (1, 9), "⅒": (1, 10), "↉": (0, 3)},
}
ONE_OVER = "⅟"
_WORDS: dict[str, str] = {
    **dict.fromkeys(("in", "inch", "inches"), "i"),
    **dict.fromkeys(("ft", "foot", "feet"), "f"),
    **{"mm": "m", "cm": "c", "strong": "s", "shy": "y"},
}
_STRONG_OR_SHY = {"+": "strong", "s": "strong", "-": "shy", "y": "shy"}
_INCHES = re.compile(
    r"""(?P<sign>[+-]?)(?:(?P<feet>n)'(?:-(?=n))?)?(?P<body>n[- ]n/n|n/n|n-n|n)?"""
    r"""(?:(?P<mark>"?)(?P<tail>[-+sy]?)|(?P<tail2>[-+sy])")"""
)
_COMMA = re.compile(r"([+-]?[0-9]+),([0-9]+)( ?[cm]m)?")
_METRIC = re.compile(r"([+-]?)[nd]([mc]?)")
_DECIMAL = re.compile(r"""[+-]?(?:n'-?)?d(['"]?)""")


def read_length_text(text: str, unit: Unit | None, what: str, whole: Whole | None) -> tuple[Fraction, Unit]:
    """The exact value in inches and the unit the text was typed in; see ``lengths.parse_length``.

    Raises
    ------
    LengthError
        If the text is not exactly one length.
    """
    return _Reader(text, unit, what, whole).value()


class _Reader:
    """One text being read: its shape, its numbers, and the place to name in a refusal."""

    def __init__(self, text: str, unit: Unit | None, what: str, whole: Whole | None) -> None:
        self.place = f"{' '.join(what.split())}: " if what else ""
        if unit not in (None, "in", "mm"):
            raise LengthError(f"{self.place}the unit {unit!r} is neither in nor mm; write one of the two")
        if not text.strip():
            line = f"{self.place}nothing was typed; write a length like {LIKE}"
            raise LengthError(
                line, "", Sentence("nothing was typed"), Sentence("a length like {like}", like=LIKE)
            )
        self.text, self.unit, self.whole = text.strip(), unit, whole
        if len(text) > MAX_TEXT:
            self.refuse(Sentence("is {count} characters, too long for one length", count=len(text)), ONE)
        self.numbers: list[str] = []
        self.shape = self.scan()
        self.minus = "-" if self.shape.startswith("-") else ""

    def refuse(self, understood: str, instead: str) -> NoReturn:
        shown = self.text if len(self.text) <= MAX_TEXT else f"{self.text[:24]}..."
        shown = "".join(c if c.isprintable() else " " if c.isspace() else "?" for c in shown)
        line = f"{self.place}`{shown}` {understood}; write {instead}"
        raise LengthError(line, shown, understood, instead)

    # --- characters to shape

    def scan(self) -> str:
        text, end = self.text, len(self.text)
        shape: list[str] = []
        at = 0
        while at < end:
            start, char = at, text[at]
            if _is_digit(char):
                at = _past(text, at, _is_digit)
                kind = "n"
                if text[at : at + 1] == "." and at + 1 < end and _is_digit(text[at + 1]):
                    kind, at = "d", _past(text, at + 1, _is_digit)
                self.numbers.append(text[start:at])
                shape.append(kind)
                continue
            at += 1
            if char in MARKS:
                shape.append(MARKS[char])
            elif char in GLYPHS or char == ONE_OVER:
                if shape and shape[-1] in "nd":
                    shape.append(" ")  # 3½ is 3 and 1/2, never 31/2
                shape.append("n/" if char == ONE_OVER else "n/n")
                self.numbers += ["1"] if char == ONE_OVER else map(str, GLYPHS[char])
            elif _is_letter(char):
                at = _past(text, at, _is_letter)
                shape.append(self.word(text[start:at]))
                if text[at : at + 1] == "." and shape[-1] in "ifmc":
                    at += 1  # "in." is how the word is shortened
            else:
                self.refuse_character(char)
        return _tidy("".join(shape))

    def word(self, word: str) -> str:
        known = _WORDS.get(word.lower())
        if known is None and word.lower() in ("m", "meter", "meters", "metre", "metres"):
            self.refuse(Sentence("is in metres, which are not read here"), Sentence("mm, like 1203 mm"))
        if known is None:
            self.refuse(Sentence("has the word {word}, which is no unit read here", word=word), ONE)
        return known

    def refuse_character(self, char: str) -> NoReturn:
        if char == ",":
            understood = Sentence("has a comma, which marks thousands to one and a decimal to another")
            comma = _COMMA.fullmatch(self.text)
            if comma and (comma[3] or self.unit == "mm"):
                before, after, unit = comma[1], comma[2], comma[3] or " mm"
                self.refuse(understood, _either(f"{before}{after}{unit}", f"{before}.{after}{unit}"))
            self.refuse(understood, Sentence("it without one, like {like}", like=LIKE))
        if char == ".":
            self.refuse(
                Sentence("has a point without a digit on both sides"), Sentence("it like 0.5 mm or 120 mm")
            )
        import unicodedata

        name = f"{unicodedata.name(char, 'a control character')} (U+{ord(char):04X})"
        if char.isnumeric():
            self.refuse(
                Sentence("has {name}, no plain digit", name=name),
                Sentence("it with 0-9, like {like}", like=LIKE),
            )
        self.refuse(Sentence("has {name}, which is no part of a length", name=name), ONE)

    # --- shape to value

    def value(self) -> tuple[Fraction, Unit]:
        metric = _METRIC.fullmatch(self.shape)
        if metric is not None and (metric[2] or self.unit == "mm"):
            size = Fraction(self.numbers[0]) * MM * (10 if metric[2] == "c" else 1)
            return (-size if self.minus else size), "mm"
        found = _INCHES.fullmatch(self.shape)
        if found is None or not (found["feet"] or found["body"]):
            self.refuse_shape()
        size = self.inches(found)
        return (-size if self.minus else size), "in"

    def inches(self, found: re.Match[str]) -> Fraction:
        feet, body = found["feet"], found["body"]
        tail = found["tail2"] or found["tail"]
        mark = bool(found["mark"] or found["tail2"])
        if (body is None and (mark or tail)) or (body == "n-n" and (feet or tail)):
            self.refuse_shape()
        numbers = [int(number) for number in self.numbers]
        size = Fraction(12 * numbers.pop(0) if feet else 0)
        if body == "n-n":
            size = self.two_wholes(*numbers)
        elif body is not None:
            part = (
                Fraction(0)
                if body == "n"
                else self.fraction(numbers[-2], numbers[-1], size + sum(numbers[:-2]))
            )
            whole = 0 if body == "n/n" else numbers[0]
            if feet and whole > 11:
                self.refuse(
                    Sentence("has {whole} inches after the feet", whole=whole),
                    self.ruler(size + whole + part),
                )
            if body == "n" and not (feet or mark):
                self.check_bare_whole(whole, tail)
            size += whole + part
            if tail:
                size += self.strong_or_shy(size, tail)
        if self.unit == "mm" and not (feet or mark):
            self.refuse(
                Sentence("has no inch mark, and the job is in mm"),
                Sentence("{ruler} for inches, or mm like 120.5 mm", ruler=self.ruler(size)),
            )
        return size

    def fraction(self, over: int, under: int, before: Fraction) -> Fraction:
        """The fraction if a rule has it; ``before`` is what stands in front of it, for the refusal. [in]"""
        shown = f"{over}/{under}"
        if under == 0:
            self.refuse(Sentence("has the fraction {shown}, which is no number", shown=shown), SO)
        part = Fraction(over, under)
        if under & (under - 1) or under > FINEST_READ:
            self.refuse(
                Sentence("has the fraction {shown}, which is on no rule", shown=shown),
                self.ruler(before + part),
            )
        if part >= 1:
            self.refuse(
                Sentence("has the fraction {shown}, an improper fraction", shown=shown),
                self.ruler(before + part),
            )
        return part

    def check_bare_whole(self, whole: int, tail: str) -> None:
        number = f"{self.minus}{whole}"
        if tail:
            word = _STRONG_OR_SHY[tail]
            self.refuse(
                Sentence("is a whole number {word}, or a fraction cut short", word=word),
                Sentence(
                    '{number}" {word} if so, or all of the fraction like {number}-1/16',
                    number=number,
                    word=word,
                ),
            )
        if whole and self.unit is None:
            self.refuse(
                Sentence("is the number {number} without a unit", number=number),
                _either(f'{number}"', f"{number} mm"),
            )

    def strong_or_shy(self, size: Fraction, tail: str) -> Fraction:
        word = _STRONG_OR_SHY[tail]
        change = HALF_SIXTEENTH if word == "strong" else -HALF_SIXTEENTH
        if self.minus:
            either = Sentence(
                "{one} or {other}", one=self.ruler(size + change), other=self.ruler(size - change)
            )
            self.refuse(
                Sentence("has a minus in front and is {word}, which can mean two lengths", word=word),
                either,
            )
        if size.denominator > SIXTEENTH.denominator:
            self.refuse(
                Sentence("is {word}, half a sixteenth, on a finer fraction", word=word),
                self.ruler(size + change),
            )
        if size + change < 0:
            self.refuse(Sentence("is shy of nothing"), self.ruler(size + change))
        return change

    def two_wholes(self, first: int, second: int) -> Fraction:
        """``6-0``: feet and inches to one, inches and nothing to another."""
        feet = f"{self.minus}{first}' {second}\""
        if self.numbers[1] == "0":
            if self.whole is None:
                self.refuse(
                    Sentence("may be {first} feet or {first} inches", first=first),
                    _either(feet, f'{self.minus}{first}"'),
                )
            return Fraction(first * (12 if self.whole == "feet" else 1))
        inches = f'{self.minus}{first}-{second}/16"' if second else f'{self.minus}{first}"'
        options = [feet] * (second < 12) + [inches] * (second < 16)
        instead: str = SO
        if options:
            instead = (
                options[0] if len(options) == 1 else Sentence("{one} or {other}", one=feet, other=inches)
            )
        said = Sentence("is {first} and {second} without saying of what", first=first, second=second)
        self.refuse(said, instead)

    # --- no length

    def refuse_shape(self) -> NoReturn:
        shape = self.shape
        metric = "m" in shape or "c" in shape
        decimal = _DECIMAL.fullmatch(shape)
        if not self.numbers:
            self.refuse(Sentence("has no number in it"), ONE)
        if decimal:
            self.refuse_decimal(foot=decimal[1] == "'")
        if metric and ("'" in shape or '"' in shape):
            self.refuse(
                Sentence("mixes inches and mm"), Sentence("it in one of them, like {like}", like=LIKE)
            )
        if metric and "/" in shape:
            self.refuse(Sentence("is a fraction of a mm"), Sentence("it like 120.5 mm, or with an inch mark"))
        if metric and _METRIC.fullmatch(shape[:-1]):
            self.refuse(Sentence("is strong or shy, which goes with inches"), Sentence("it like 120.5 mm"))
        if shape.endswith("n/n'"):
            self.refuse(Sentence("has a fraction of a foot"), Sentence("feet and inches like 4' 2-1/2\""))
        if shape[1:2] in ("+", "-") and shape[0] in "+-":
            self.refuse(Sentence("has more than one sign in front"), ONE)
        if "~" in shape:
            self.refuse_spaced_minus()
        if "s" in shape or "y" in shape:
            self.refuse(
                Sentence("has strong or shy in the wrong place"), Sentence("it behind, like 3/8 strong")
            )
        if len(self.numbers) > 1:
            self.refuse(Sentence("is more than one number, not put together as one length"), SO)
        self.refuse(Sentence("is a number with marks that do not go together"), SO)

    def refuse_spaced_minus(self) -> NoReturn:
        either = Sentence("the hyphen close up, like {like}", like=LIKE)
        if self.shape in ("n~n/n", 'n~n/n"'):
            whole, over, under = map(int, self.numbers)
            part = self.fraction(over, under, Fraction(whole))
            either = _either(self.ruler(whole + part), self.ruler(whole - part))
        self.refuse(Sentence("has a minus set apart, which may join or take away"), either)

    def refuse_decimal(self, *, foot: bool) -> NoReturn:
        size = Fraction(self.numbers[-1]) * (12 if foot else 1)
        if len(self.numbers) > 1:
            size += 12 * int(self.numbers[0])
        instead = self.ruler(size)
        if self.unit is None and self.shape.lstrip("+-") == "d":
            bare = f"{self.minus}{self.numbers[0]}"
            self.refuse(
                Sentence("is the number {number} without a unit", number=bare),
                Sentence("{bare} mm, or for inches {instead}", bare=bare, instead=instead),
            )
        self.refuse(Sentence("is a decimal foot" if foot else "is a decimal inch"), instead)

    def ruler(self, size: Fraction) -> str:
        return on_ruler(-size if self.minus else size, feet="'" in self.shape)


def _either(one: str, other: str) -> Sentence:
    return Sentence("{one} or {other}, as is meant", one=one, other=other)


def _is_digit(char: str) -> bool:
    return "0" <= char <= "9"


def _is_letter(char: str) -> bool:
    return char.isascii() and char.isalpha()


def _past(text: str, at: int, kind: Callable[[str], bool]) -> int:
    """The first place from ``at`` whose character is not of the kind."""
    while at < len(text) and kind(text[at]):
        at += 1
    return at


def _tidy(shape: str) -> str:
    """Drop the spaces that say nothing; ``~`` stands for a minus set apart between two numbers."""
    shape = " ".join(shape.split()).replace("''", '"').replace("f", "'").replace("i", '"')
    shape = re.sub(r"(?<=[nd])(?: - ?|- )(?=[nd])", "~", shape)
    return re.sub(r" ?([-/+'\"mcsy]) ?", r"\1", shape)
