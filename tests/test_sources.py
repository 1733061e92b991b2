"""What every source owes: a code or standard names its edition, or says that it was not checked."""

from __future__ import annotations

import re

import pytest

from undertile.packet.words.cited import CITED
from undertile.sources import SOURCES

CODE = re.compile(
    r"\b(IRC|NEC|ANSI|ASTM|CFR|OSHA|CALGreen|UFGS|PS 20|ISO|ASHRAE|NDS|NESHAP|TCNA|S500)\b|[A-Z]\d{3}\.\d"
)
"""What names a code or a standard."""

EDITION = re.compile(
    r"edition not checked|\((?:19|20)\d\d(?:-20\d\d)? (?:text|on|rule)\)|NDS (?:Supplement )?(?:19|20)\d\d"
)
EDICION = re.compile(
    r"edición sin revisar|\((?:texto|desde|regla) (?:19|20)\d\d(?:-20\d\d)?\)"
    r"|NDS (?:Supplement )?(?:19|20)\d\d"
)

CODES = sorted(key for key, source in SOURCES.items() if source.kind != "ours" and CODE.search(source.title))


def test_the_codes_are_found_by_their_names() -> None:
    """independent: by the key, which begins with the body that writes the code."""
    by_key = {key for key in SOURCES if re.match(r"(irc|nec|a108|astm|iso|osha|nds|ufgs|ps20|s500)", key)}
    assert len(by_key) >= 20
    assert by_key <= set(CODES)
    assert {"shield-plate", "enclose-19", "asbestos-local", "epa-rrp"} <= set(CODES)


@pytest.mark.parametrize("key", CODES)
def test_a_code_names_its_edition_or_says_it_is_not_checked(key: str) -> None:
    title = SOURCES[key].title
    assert EDITION.search(title), title
    assert EDICION.search(CITED[key]), CITED[key]
    assert ("edition not checked" in title) == ("edición sin revisar" in CITED[key])
    assert re.findall(r"\b(?:19|20)\d\d\b", title) == re.findall(r"\b(?:19|20)\d\d\b", CITED[key])


@pytest.mark.parametrize("title", ["IRC R301.7, floors bend L/360 at most", "EPA rule: housing before 1978"])
def test_a_year_in_passing_is_no_edition(title: str) -> None:
    assert not EDITION.search(title)
