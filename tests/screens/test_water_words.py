"""The water's screens in Spanish, their sources, and their forms without a script."""

from __future__ import annotations

import re
from collections.abc import Iterator
from urllib.parse import parse_qsl, urlsplit

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import forms_of
from tests.screens.watercast import SCREENS, after, look, strings, wood
from undertile.packet.words.cited import CITED, cited
from undertile.packet.words.glossary import TERMS
from undertile.sources import SOURCES


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def test_every_form_works_without_a_script(at: Site) -> None:
    job = bring(at, "wet-corner")
    seen = 0
    for path in (*SCREENS, "water/point?name=plate-B-16", "water/point?member=plate"):
        parts = urlsplit(f"/job/{job}/{path}")
        query = dict(parse_qsl(parts.query))
        page = at.page(parts.path, **query)
        assert not re.search(r"\son[a-z]+=", page), path
        for form in forms_of(at, parts.path, **query):
            assert form.buttons, (path, form.action)
            assert form.action.startswith(f"/job/{job}"), path
            seen += 1
    assert seen > 10


WORDS = re.compile(r"[A-Za-z]{3,} [A-Za-z]{2,}")
PERSONS = (
    "elbow behind the valve made anew",
    "a licensed plumber",
    "a house alone on its lot",
    "The wet corner",
)


@pytest.mark.parametrize("visit", ["1", "2", "3"])
def test_spanish_is_wholly_spanish(at: Site, visit: str) -> None:
    """independent: no sentence of two words is alike in both languages, but what persons wrote."""
    job = after(at, visit)
    paths = [*SCREENS, *(f"water/point?name={name}" for name in wood(at, job).points)]
    same = []
    for path in paths:
        english = list(strings(look(at, f"/job/{job}/{path}", lang="en")))
        spanish = list(strings(look(at, f"/job/{job}/{path}", lang="es")))
        assert len(english) == len(spanish) > 0, path
        for one, other in zip(english, spanish, strict=True):
            if one == other and WORDS.search(one) and not any(person in one for person in PERSONS):
                same.append((path, one))
    assert not same, same[:12]


def test_sources_are_told_in_the_crew_s_words() -> None:
    """independent: the glossary's list of words of other countries."""
    avoided = [stem for term in TERMS.values() for stem in term.avoid]
    assert set(CITED) <= set(SOURCES)
    assert not [
        (key, stem)
        for key in CITED
        for stem in avoided
        if re.search(rf"\b{re.escape(stem)}", cited(key).lower())
    ]
    assert cited("practice-awl").endswith("(práctica común, sin fuente)")
    assert cited("no such source") == "", "what has no Spanish stays English, and is marked"
