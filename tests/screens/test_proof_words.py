"""The proof says a thing once on a line."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest

from tests.screens.cast import bring, site

LINES = ("p", "li", "tr", "h2", "h3", "summary", "section", "dl", "dt", "dd")


class Lines(HTMLParser):
    """What stands on a line of a page: of a row of a table, of an item, of a paragraph."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.all: list[str] = [""]
        self.skip = 0
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.skip += tag in ("script", "style")
        if tag in LINES:
            self.all.append("")

    def handle_endtag(self, tag: str) -> None:
        self.skip -= tag in ("script", "style")

    def handle_data(self, data: str) -> None:
        if not self.skip:
            self.all[-1] += f" {data}"


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("path", ["proof", "papers/proof", "more", "moves"])
def test_no_line_says_plumb_twice(path: str, language: str) -> None:
    """independent: the words of each line, counted."""
    at = site()
    job = bring(at, "read-again")
    lines = Lines(at.page(f"/job/{job}/{path}", lang=language)).all
    found = [" ".join(line.split()) for line in lines if re.search(r"\b(plumb|plomo)\b", line, re.IGNORECASE)]
    twice = [line for line in found if len(re.findall(r"\b(?:plumb|plomo)\b", line, re.IGNORECASE)) > 1]
    assert path == "moves" or found
    assert twice == []
    if path == "papers/proof":  # the column says it, so what stands in it does not
        assert any(re.search("no lean|sin inclinación", line) for line in lines)
        assert not [line for line in found if "1/" in line and "96" not in line and "120" not in line]
    at.store.close()


def test_the_proof_says_a_step_and_which_minutes_were_planned() -> None:
    """By hand, of the bundled job read again: one wall of it is not all read."""
    at = site()
    job = bring(at, "read-again")
    told = at.twin(f"/job/{job}/proof")
    assert told["next"]["text"] == "See what is left to read or to do"
    assert told["next"]["why"] == "The room: not shown"
    assert told["next"]["href"] == f"/job/{job}/recheck"
    stud = next(each for each in told["proof"]["done"] if each["actual"])
    for lang, words in (
        ("en", "planned {planned}, took {actual} min"),
        ("es", "planeado {planned}, tomó {actual} min"),
    ):
        assert words.format(**stud) in at.page(f"/job/{job}/proof", lang=lang)
    at.store.close()
