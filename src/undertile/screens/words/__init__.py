"""Every word on a screen, in English and in Spanish, through one dictionary.

Trade words are the papers' own (``packet.words.glossary``); the stages' own sentences are said by their forms
(``packet.told``), titles of checks and slips by their codes as the papers say them. What only English has
(where a figure was published) is marked as English where it stands on a Spanish page.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal

from undertile.findings import Check, Finding, Verdict
from undertile.lengths import Unit, format_length
from undertile.packet.figures import amount
from undertile.packet.metric import in_unit
from undertile.packet.places import place_words
from undertile.packet.told import foreign, titled, told
from undertile.packet.words import Words
from undertile.packet.words.cited import cited
from undertile.screens.words.charts import CHARTS
from undertile.screens.words.fields import CHOICES, FIELDS
from undertile.screens.words.floor import FLOOR, FLOOR_CHOICES, FLOOR_FIELDS
from undertile.screens.words.metric import METRIC
from undertile.screens.words.pad import PAD as PAD_WORDS
from undertile.screens.words.plan import PLAN
from undertile.screens.words.round import ROUND
from undertile.screens.words.safety import SAFETY, SAFETY_CHOICES
from undertile.screens.words.screens import SCREENS
from undertile.screens.words.survey import SURVEY
from undertile.screens.words.values import value_words
from undertile.screens.words.water import WATER
from undertile.screens.words.water_fields import WATER_CHOICES, WATER_FIELDS
from undertile.sentence import Sentence
from undertile.sources import SOURCES, cite

__all__ = ["LANGUAGES", "PAD", "English", "Language", "Says"]

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = ("en", "es")
PAD = tuple(PAD_WORDS)
"""Keys of what the pad says."""
_ALL: Mapping[str, tuple[str, str]] = {
    **FIELDS,
    **PAD_WORDS,
    **SCREENS,
    **SURVEY,
    **PLAN,
    **ROUND,
    **CHARTS,
    **WATER,
    **WATER_FIELDS,
    **FLOOR,
    **FLOOR_FIELDS,
    **SAFETY,
}
_CHOICES: Mapping[str, tuple[str, str]] = {
    **CHOICES,
    **WATER_CHOICES,
    **FLOOR_CHOICES,
    **SAFETY_CHOICES,
}
_SETTLE = {
    "Re-read {where}": "settle-reread",
    "Measure {where} again": "settle-measure",
    "Hold the level on {stud} again ({where})": "settle-level",
    "Set the line back on its first mark and re-read from {where} on": "settle-line",
}
"""The measurement that settles a doubt (``survey.judge``) by its form, as a pad says it."""
_REPEAT = "repeat "
"""How the survey begins the place of what was read again."""
_LETTERS = re.compile(r"[a-z]{3}")
_TYPED = re.compile(r"`[^`]*`")
"""What somebody typed, shown as typed: it is of no language."""


class English(str):
    """A text that stays English on a page of another language; the page marks it as such."""

    foreign = True


@dataclass(frozen=True)
class Says:
    """The words of one language.

    Attributes
    ----------
    language : {"en", "es"}
    unit : {"in", "mm"}
        Of the job: one in mm is not spoken to in inches, gallons and pounds (``metric``).
    again : mapping of str to str
        What was read again, by its key in the file, as a place: ``first-again`` is no word of the trade.
    """

    language: Language = "en"
    unit: Unit = "in"
    again: Mapping[str, str] = field(default_factory=dict, compare=False)

    def __call__(self, key: str, **slots: object) -> str:
        """One sentence with its slots filled.

        Raises
        ------
        KeyError
            If there is no such sentence.
        """
        pair = METRIC[key] if self.unit == "mm" and key in METRIC else _ALL[key]
        text = pair[LANGUAGES.index(self.language)]
        return _one(text.format_map(slots)) if slots else text

    @property
    def papers(self) -> Words:
        """The papers' words in the same language."""
        return Words(self.language)

    @property
    def english(self) -> bool:
        """Whether the stages' own sentences can be shown as they are."""
        return self.language == "en"

    def repeat(self, key: str) -> str:
        """What was read again, by where it is; by its key where that is not said."""
        spot = self.again.get(key)
        return key if spot is None else self.place(spot)

    def choice(self, word: str, of: str = "") -> str:
        """A word of the record, of one fact, as a person says it; a name a person gave stays as it is."""
        pair = _CHOICES.get(f"{of}.{word}", _CHOICES.get(word))
        return word if pair is None else pair[LANGUAGES.index(self.language)]

    def stuff(self, name: str) -> str:
        """Stock as it is called: its plain word in this language, a name of a person's own as typed."""
        return self.papers.stuff(name)

    def field(self, part: str, name: str) -> str:
        """The label of a fact."""
        return self(f"{part}.{name}")

    def sheet(self, name: str) -> str:
        """A wall, or the checks."""
        return self("checks") if name == "checks" else self.papers.wall(name)

    def place(self, where: str) -> str:
        """A place as the stages name it."""
        spot = self.again.get(where.removeprefix(_REPEAT)) if where.startswith(_REPEAT) else None
        return place_words(where if spot is None else f"{spot}, read again", self.papers)

    def photo_place(self, place: str) -> str:
        """Where a photo was taken."""
        return self("the-room") if place in ("", "room") else self.place(place)

    def told(self, text: str) -> str:
        """A sentence of a stage; what has no words in this language is marked as English."""
        text = in_unit(text, self.unit)
        if self.english:
            return str(text)
        known = isinstance(text, Sentence) or not _LETTERS.search(_TYPED.sub("", text))
        return English(text) if not known or foreign(text, self.papers) else told(text, self.papers)

    def figure(self, text: str) -> str:
        """A figure of a check with the few words around it."""
        if isinstance(text, Sentence) and not foreign(text, self.papers):
            return told(text, self.papers)
        return value_words(text, self.language)

    def slip(self, code: str, words: str) -> str:
        """What may have been done wrong."""
        try:
            return self.papers.slip(code)
        except KeyError:
            return words

    def settle(self, text: str) -> str:
        """The one measurement that settles a doubt."""
        key = _SETTLE.get(text.form) if isinstance(text, Sentence) else None
        if key is None or not isinstance(text, Sentence):
            return _stop(self.told(text))
        where = text.slots.get("stud", text.slots["where"])
        return self(key, where=self.told(where) if isinstance(where, Sentence) else self.place(str(where)))

    def look(self, finding: Finding) -> str:
        """A reading that stands out."""
        return f"{self.place(finding.where)}: {self('pad-look')}"

    def finding(self, finding: Finding) -> dict[str, Any]:
        """A finding: how grave, where, what is and what to do.

        Where its sentences have no words in this language it is said by its code, and the stage's own English
        with its figures stands beneath, marked as such.
        """
        its = (finding.found, finding.expected, finding.next_step)
        where = self.place(finding.where)
        said = f"{where}: {self.is_should(*its)}"
        unsaid = any(isinstance(self.told(part), English) for part in its)
        if unsaid:
            said = self.papers.finding(finding.code, where)
        return {
            "code": finding.code,
            "severity": finding.severity.value,
            "word": self.severity(finding.severity.value),
            "text": said,
            "detail": English(Says().is_should(*its)) if unsaid else "",
            "source": self.source(finding.source),
        }

    def is_should(self, found: str, expected: str, do: str) -> str:
        """What is, what should be and what to do (convention 5.3), in one line."""
        is_it, should, step = (self.told(part) for part in (found, expected, do))
        said = (
            _stop(self("is-should", found=is_it.rstrip("."), expected=should.rstrip(".")))
            if should
            else is_it
        )
        return " ".join(part for part in (_stop(said), _stop(step)) if part)

    def expected_found(self, expected: str, found: str, do: str) -> str:
        """What was expected, what came, what to do, in one line; what was typed stands in quotation marks."""
        should, is_it, step = (self.told(part) for part in (expected, found, do))
        came = _TYPED.sub(lambda typed: f"“{typed[0][1:-1]}”", is_it.rstrip("."))
        said = self("expected-found", expected=should.rstrip("."), found=came)
        return f"{_stop(said)} {_stop(step)}"

    def severity(self, severity: str) -> str:
        """Stop, to do, note."""
        words = {"stop": ("STOP", "ALTO"), "act": ("to do", "por hacer"), "note": ("note", "nota")}
        return words[severity][LANGUAGES.index(self.language)]

    def verdict(self, verdict: Verdict) -> str:
        """Pass, fail, not shown."""
        return self(verdict.value.replace(" ", "-"))

    def check(self, check: Check) -> dict[str, Any]:
        """A check as a screen shows it."""
        return {
            "code": check.code,
            "title": self._title(check),
            "where": self.place(check.where),
            "value": self.figure(check.value),
            "limit": self.figure(check.limit),
            "margin": self.figure(check.margin),
            "verdict": check.verdict.value,
            "word": self.verdict(check.verdict) + (f", {self('close')}" if check.within_uncertainty else ""),
            "because": [self.told(line) for line in check.because],
            "eats": self.told(check.eats),
            "do": self.told(check.next_step),
            "source": self.source(check.source),
        }

    def _title(self, check: Check) -> str:
        """Its own title, which tells it from others of its kind; where that has no Spanish its kind's."""
        try:
            return titled(check, self.papers)
        except KeyError:
            return check.title

    def demand(self, code: str) -> str:
        """What is asked of the planes, by its code."""
        try:
            return self.papers.check(code)
        except KeyError:
            return code

    def source(self, key: str) -> str:
        """Where a rule comes from."""
        text = cite(key) if key in SOURCES else key
        return text if self.english else cited(key) or English(text)

    def value(self, value: str | None) -> str:
        """A value as typed; its states in words."""
        if value is None:
            return self("withdrawn")
        if not value.strip():
            return self("empty")
        return self("reach") if value.strip() == "x" else value

    def time(self, text: str) -> str:
        """A time as a person reads it: day and minute."""
        return text[:16].replace("T", " ")

    def minutes(self, value: Fraction) -> str:
        """Minutes as people say them."""
        return format_length(value) if (value * 4).denominator == 1 else f"~{float(value):.1f}"

    def clock(self, value: Fraction) -> str:
        """Hours and minutes, up to the next whole minute."""
        whole = -(-value.numerator // value.denominator)
        hours, rest = divmod(whole, 60)
        return f"{hours} h {rest:02d} min" if hours else f"{rest} min"

    def dollars(self, value: Fraction) -> str:
        """Dollars to the nearest cent."""
        whole = abs(cents(value))
        return f"{'-' if value < 0 and whole else ''}${whole // 100:,}.{whole % 100:02d}"

    def dollars_more(self, value: Fraction, than: Fraction) -> str:
        """How much more, as the two amounts print: whoever subtracts them finds the same."""
        between = cents(value) - cents(than)
        return self.dollars(Fraction(between, 100) if between else value - than)

    def mark(self, text: str) -> str:
        """A carpenter's mark: what is not exact on a rule carries the sheets' ``~``."""
        return text.replace("about ", "~")

    def moved(self, by: Fraction, unit: Unit) -> str:
        """How far a wall was moved."""
        if not by:
            return self("not-moved")
        return self("moved-in" if by > 0 else "moved-back", amount=amount(abs(by), unit))


def cents(value: Fraction) -> int:
    """To the nearest, half a cent away from nothing."""
    whole = (abs(value) * 100 + Fraction(1, 2)).__floor__()
    return -whole if value < 0 else whole


def _one(text: str) -> str:
    """One of them is said as one: ``falta 1 montante``, ``1 stud left``."""
    text = re.sub(r"\b([Ff])altan 1(?![\d.,/-])( \w+?)?s?\b", r"\1alta 1\2", text)
    return re.sub(r"(?<![\d.,/-])\b1 (stud|place|reading|photo)s\b", r"1 \1", text)


def _stop(text: str) -> str:
    return text if not text or text.endswith((".", "?", "!")) else f"{text}."
