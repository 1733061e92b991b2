"""Every screen in Spanish: what stays English on it is a short list, each with its reason."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from tests.packet.test_words import ENGLISH
from tests.screens.cast import Site, bring, site
from tests.screens.test_every_screen import NO_WALLS, PATHS, jobs, only_wet

MARKED: dict[str, str] = {
    r"English": "the way to the English screens is in English",
    r"`.*` is .* If mm are meant, write .*": "what was typed is doubted by the reader of lengths",
}
"""Texts marked as English on a Spanish page, and why they may be."""

UNMARKED: dict[str, str] = {
    r"Square pan, plaster and cabinet|Guest bath, read again": "names of jobs, as typed",
    r"a house alone on its lot|elbow behind the valve made anew|a licensed plumber": "reasons, as typed",
    r"cross-line laser on its first marks, steel rule 12 in": "the instrument, as typed",
    r"nothing was typed|`.*` is|`.*`, which|unit: none that stands": (
        "what cannot be read, said by the reader of lengths"
    ),
}
"""Texts with English words on a Spanish page that nobody marked: what people typed, and what is not put in
Spanish yet."""
VOID = frozenset({"input", "br", "meta", "link", "img", "hr", "wbr", "path", "line", "rect", "circle", "use"})


class Read(HTMLParser):
    """Text nodes of a page, those marked as English apart."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.open: list[tuple[str, str | None]] = []
        self.marked: list[str] = []
        self.plain: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in VOID:
            above = self.open[-1][1] if self.open else None
            self.open.append((tag, dict(attrs).get("lang") or above))

    def handle_endtag(self, tag: str) -> None:
        while self.open and self.open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        text = " ".join(data.split())
        if text and not any(tag in ("script", "style") for tag, _ in self.open):
            (self.marked if self.open and self.open[-1][1] == "en" else self.plain).append(text)


def english(text: str) -> bool:
    """Whether it has two words or more that only English has."""
    return len(set(re.findall(r"[a-z']+", text.lower())) & (ENGLISH - {"a", "no", "son"})) > 1


Cast = tuple[Site, list[tuple[str, str, str]]]


def pages(cast: Cast, path: str) -> Iterator[tuple[str, Read]]:
    at, every = cast
    for kind, job, stud in every:
        if ("{name}" in path and not stud) or (only_wet(path) and kind != "wet"):
            continue
        if "{wall}" in path and kind in NO_WALLS:
            continue
        address = path.format(id=job, wall="B", name=stud, visit="2", joist="J2")
        for typed in ({}, {"typed": "1"}):
            yield kind, Read(at.page(address, lang="es", **typed))


@pytest.fixture(scope="module")
def cast() -> Iterator[Cast]:
    at = site()
    at.answers.kept = 60
    yield at, [*jobs(at), ("read again", bring(at, "read-again"), "B2")]
    at.store.close()


@pytest.mark.parametrize("path", PATHS)
def test_a_spanish_screen_is_spanish(cast: Cast, path: str) -> None:
    """independent: the words of the page against a list of English words, whoever made the sentence."""
    left = []
    seen = list(pages(cast, path))
    assert seen
    for kind, page in seen:
        left += [(kind, text) for text in page.marked if not any(re.fullmatch(one, text) for one in MARKED)]
        left += [
            (kind, text)
            for text in page.plain
            if english(text) and not any(re.search(one, text) for one in UNMARKED)
        ]
    assert not left, left[:5]


def test_the_reader_sees_english() -> None:
    """independent: a page that was not put in Spanish is found."""
    page = Read(
        '<html lang="es"><body><p>the wall is not read</p><p lang="en">a <b>stud</b></p></body></html>'
    )
    assert page.marked == ["a", "stud"]
    assert [text for text in page.plain if english(text)] == ["the wall is not read"]
