"""Both languages say the same things in the trade's words; every word asked for is there, none is idle."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest

import undertile.screens
from tests.screens.cast import MENDED, bring, site
from undertile.packet.words.glossary import TERMS
from undertile.screens.words import Says
from undertile.screens.words.fields import CHOICES, FIELDS
from undertile.screens.words.floor import FLOOR, FLOOR_CHOICES, FLOOR_FIELDS
from undertile.screens.words.pad import PAD
from undertile.screens.words.plan import PLAN
from undertile.screens.words.screens import SCREENS
from undertile.screens.words.survey import SURVEY
from undertile.screens.words.water import WATER
from undertile.screens.words.water_fields import WATER_CHOICES, WATER_FIELDS

PARTS = (FIELDS, PAD, SCREENS, SURVEY, PLAN, WATER, WATER_FIELDS, FLOOR, FLOOR_FIELDS)
ALL = {key: pair for part in PARTS for key, pair in part.items()}
HERE = Path(undertile.screens.__file__).parent


def slots(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def test_no_key_is_there_twice() -> None:
    assert len(ALL) == sum(len(part) for part in PARTS)


@pytest.mark.parametrize("key", ALL)
def test_both_languages_have_the_same_slots(key: str) -> None:
    english, spanish = ALL[key]
    assert bool(english) == bool(spanish)
    assert slots(english) == slots(spanish)


@pytest.mark.parametrize("table", [ALL, CHOICES, WATER_CHOICES, FLOOR_CHOICES])
def test_spanish_uses_the_papers_words(table: dict[str, tuple[str, str]]) -> None:
    """independent: the glossary's list of words of other countries, kept for the papers."""
    avoided = [stem for term in TERMS.values() for stem in term.avoid]
    bad = [
        (key, stem)
        for key, (_, spanish) in table.items()
        for stem in avoided
        if re.search(rf"\b{re.escape(stem)}", spanish.lower()) and key != "batten"  # which a listón is
    ]
    assert bad == []


def test_every_word_asked_for_is_there_and_none_is_idle() -> None:
    asked: set[str] = set()
    prefixes: set[str] = set()
    texts = [*HERE.rglob("*.py"), *(HERE / "templates").glob("*.html"), *(HERE / "static").glob("*.js")]
    for path in texts:
        if path.parent.name == "words" and path.name != "__init__.py":
            continue
        text = path.read_text(encoding="utf-8")
        asked |= set(re.findall(r"""["']([a-z_]+(?:[-.][\w-]+)*)["']""", text))
        prefixes |= set(re.findall(r"""[f]?["'`]([a-z-]+[-.])(?:["']|\$?\{)""", text))
    idle = [key for key in ALL if key not in asked and not any(key.startswith(each) for each in prefixes)]
    assert [key for key in idle if "." not in key] == ["pass", "fail"], "verdicts, by their own names"


def test_a_choice_a_person_named_stays_as_it_is() -> None:
    assert Says("es").choice("مرحاض 🛁") == "مرحاض 🛁"


@pytest.mark.parametrize("lang", ["en", "es"])
def test_the_order_of_work_on_a_screen_does_not_speak_as_if_it_were_the_paper(lang: str) -> None:
    """By hand: words that only the sheet in the hand can say."""
    at = site()
    job = bring(at, "old-alcove", MENDED)
    for screen in ("plan", "stud/B4", "work"):
        page = at.page(f"/job/{job}/{screen}", lang=lang)
        for word in (
            *("this sheet", "head of its page", "sheet made again"),
            *("esta hoja", "hoja de nuevo", "en su página"),
        ):
            assert word not in page, (screen, word)
    at.store.close()
