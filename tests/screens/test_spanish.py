"""Every screen in Spanish: what stays English on it is a short list, each with its reason."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser

import pytest

from tests.packet.test_words import ENGLISH
from tests.screens.cast import Site, bring, site
from tests.screens.test_every_screen import NO_WALLS, PATHS, jobs, only_wet
from undertile.drawing.stuffwords import STUFF
from undertile.screens.words import Says

MARKED: dict[str, str] = {
    r"English": "the way to the English screens is in English",
    r"`.*` is .* If mm are meant, write .*": "what was typed is doubted by the reader of lengths",
}
"""Texts marked as English on a Spanish page, and why they may be."""

UNMARKED: dict[str, str] = {
    r"Square pan, plaster and cabinet|Guest bath, read again": "names of jobs, as typed",
    r"a house alone on its lot|elbow behind the valve made anew|a licensed plumber": "reasons, as typed",
    r"cross-line laser on its first marks, steel rule 12 in": "the instrument, as typed",
    r"`.*` is|`.*`, which|unit: none that stands": ("what cannot be read, said by the reader of lengths"),
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


MATERIAL = re.compile(rf"(?<![-\w])(?:{'|'.join(STUFF)}|water|about|nothing)(?![-\w])", re.IGNORECASE)
"""What a room is made of: one word each, which a count of English words to a text does not find."""
TYPED = re.compile(
    r"Square pan, plaster and cabinet|Unit 3C, steel and masonry|A room worked by hand"
    r"|Southern pine|Spruce-pine-fir|Wood Handbook|steel rule 12 in"
)
"""Names of jobs, species as the stamp on the lumber has them, a book's title, an instrument as typed."""


@pytest.mark.parametrize("path", ["/", *PATHS])
def test_what_a_room_is_made_of_is_said_in_spanish(cast: Cast, path: str) -> None:
    """independent: the pages' words, wherever they come from, against a list of materials."""
    left = []
    for kind, page in pages(cast, path):
        texts = [TYPED.sub("", text) for text in (*page.plain, *page.marked)]
        left += [(kind, text) for text in texts if MATERIAL.search(text)]
    assert not left, left[:5]


def test_the_words_for_materials_are_on_the_screens(cast: Cast) -> None:
    """independent: what the bundled jobs have on the van, in the words of a Mexican hardware store."""
    at, every = cast
    said = {
        kind: " ".join(Read(at.page(f"/job/{job}/pan", lang="es")).plain)
        for kind, job, _ in every
        if kind in ("hand", "two slips", "mm", "steel")
    }
    for kind, words in (
        ("hand", ("fibra dura 1/8", "plástico 1/16", "triplay 5.2 mm")),
        ("two slips", ("cartón 1/16",)),
        ("mm", ("fibra dura 3 mm", "triplay 1/4")),
        ("steel", ("cemento 1/4",)),
    ):
        for each in words:
            assert each in said[kind]


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("hardboard 1/8", "fibra dura 1/8"),
        ("Ply 5.2 mm", "triplay 5.2 mm"),
        ('plywood 23/32"', 'triplay 23/32"'),
        ("cement board 1/2", "tablero de cemento 1/2"),
        ("tile", "loseta"),
        ("ply of Tom's 1/4", "ply of Tom's 1/4"),
        ("plywood-thin", "plywood-thin"),
        ("my ply", "my ply"),
        ("tiler", "tiler"),
        ("triplay 9 mm", "triplay 9 mm"),
    ],
)
def test_a_person_s_own_name_for_stock_stays(name: str, said: str) -> None:
    assert Says("es").stuff(name) == said
    assert Says("en").stuff(name) == name


def test_the_reader_sees_english() -> None:
    """independent: a page that was not put in Spanish is found."""
    page = Read(
        '<html lang="es"><body><p>the wall is not read</p><p lang="en">a <b>stud</b></p></body></html>'
    )
    assert page.marked == ["a", "stud"]
    assert [text for text in page.plain if english(text)] == ["the wall is not read"]
