"""Every screen, for every kind of job, in both languages: what is next stands first, the twin agrees."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html.parser import HTMLParser
from typing import Any

import pytest

from tests.screens.cast import Site, bring, in_one, plans_of, site, typed, wall
from undertile.screens.app import SCREENS

PATHS = [path for path in SCREENS if path != "/"]
ODD = "مرحاض 🛁 <b>&\"'"
"""A name from right to left, with a picture and with what HTML is made of."""

NO_WALLS = ("empty", "named only", "water noticed")


class Text(HTMLParser):
    """What a page says, and what it is made of."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.skip = 0
        self.feed(in_one(page))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self.skip += tag in ("script", "style")
        for name in ("value", "aria-label", "alt"):
            if name in dict(attrs):
                self.words.append(dict(attrs)[name] or "")

    def handle_endtag(self, tag: str) -> None:
        self.skip -= tag in ("script", "style")

    def handle_data(self, data: str) -> None:
        if not self.skip:
            self.words.append(data)

    @property
    def text(self) -> str:
        return " ".join(" ".join(self.words).split())


def jobs(at: Site) -> Iterator[tuple[str, str, str]]:
    """Name, id, and a stud of each kind of job."""
    yield "hand", bring(at, "hand"), "B2"
    yield "two slips", bring(at, "old-alcove"), "B4"
    yield "mm", bring(at, "square-pan"), "B2"
    yield "steel", bring(at, "steel-unit"), "L1"
    yield "wet", bring(at, "wet-corner"), "B2"
    yield "water noticed", typed(at, [("unit", "in"), ("wood.leak.symptom", "always wet")]), ""
    yield "empty", at.store.create(), ""
    yield "named only", typed(at, [("name", ODD), ("unit", "in")]), ""
    yield "nothing read", typed(at, [("name", ODD), *wall("B", 5)]), "B3"
    clash = bring(at, "hand")
    at.store.pen("dev2", ODD, "2031-01-01T00:00:00").write(clash, "survey.walls.B.studs.B2.readings.48", "6")
    yield "clash", clash, "B2"
    unread = bring(at, "hand", {"survey.walls.B.studs.B2.readings.48": "six and a bit", "pan.pan.width": ""})
    yield "unusable", unread, "B2"
    yield "no plan", bring(at, "hand", {"pan.pan.width": "63"}), "B2"
    forty = [("name", "Forty"), *wall("B", 40, heights='["2", "48"]')]
    for k in range(1, 41):
        forty += [(f"survey.walls.B.studs.B{k}.readings.{z}", "6") for z in ("2", "48")]
    yield "forty studs", typed(at, forty), "B40"


def only_wet(path: str) -> bool:
    """A screen of a visit or a joist: only the job with the wet corner has them."""
    return "{visit}" in path or "{joist}" in path


@pytest.fixture(scope="module")
def cast() -> Iterator[tuple[Site, list[tuple[str, str, str]]]]:
    at = site()
    at.answers.kept = 40
    found = list(jobs(at))
    yield at, found
    at.store.close()


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("language", ["en", "es"])
def test_it_says_what_is_next_first_for_every_job(
    cast: tuple[Site, list[tuple[str, str, str]]], path: str, language: str
) -> None:
    at, every = cast
    shown = 0
    for kind, job, stud in every:
        if ("{name}" in path and not stud) or (only_wet(path) and kind != "wet"):
            continue
        address = path.format(id=job, wall="B", name=stud, visit="2", joist="J2")
        answer = at.client.get(address, params={"lang": language}, headers={"accept": "text/html"})
        if "{wall}" in path and kind in NO_WALLS:
            assert answer.status_code == 404
            continue
        assert answer.status_code == 200, (kind, answer.text[:400])
        page = Text(answer.text)
        assert ("html", {"lang": language}) in page.tags
        words = [tag for tag, attrs in page.tags if "next" in (attrs.get("class") or "").split()]
        assert len(words) == 1, kind
        twin = at.twin(address, lang=language)
        if "rows" not in twin:
            text = twin["next"]["text"]
            assert " ".join(text.split()) in page.text, kind
        assert not re.search(r"\{\w+\}", page.text), "a slot that nothing filled"
        shown += 1
    assert shown == 1 if only_wet(path) else shown > 3


FIGURES = {"mark", "shown", "value", "plane", "after", "minutes", "time", "cost", "text", "do"}


def figures(told: Any) -> Iterator[str]:
    """Every figure of a twin: what a person may cut by."""
    if isinstance(told, dict):
        for key, value in told.items():
            if key in FIGURES and isinstance(value, str):
                if value and not value.startswith("/"):
                    yield value
            elif key not in ("choices", "judged", "words", "stands", "fact", "others", "places"):
                yield from figures(value)
    elif isinstance(told, list):
        for each in told:
            yield from figures(each)


@pytest.mark.parametrize("path", [each for each in PATHS if "papers" not in each and "pad" not in each])
def test_the_twin_says_what_the_page_says(cast: tuple[Site, list[tuple[str, str, str]]], path: str) -> None:
    at, every = cast
    seen = 0
    for kind, job, stud in every:
        if ("{name}" in path and not stud) or ("{wall}" in path and kind in NO_WALLS):
            continue
        if only_wet(path) and kind != "wet":
            continue
        address = path.format(id=job, wall="B", name=stud, visit="2", joist="J2")
        page = Text(at.page(address, lang="en")).text.replace(" ", "")
        for figure in figures(at.twin(address, lang="en")):
            assert "".join(figure.split()) in page, (kind, figure)
            seen += 1
    assert seen, "a twin with figures"


def test_names_are_shown_as_typed_and_never_as_html(cast: tuple[Site, list[tuple[str, str, str]]]) -> None:
    at, every = cast
    job = next(job for kind, job, _ in every if kind == "nothing read")
    page = at.page(f"/job/{job}")
    assert "<b>&\"'" not in page
    assert "مرحاض 🛁" in page
    assert 'dir="auto"' in page


def test_the_pad_sheet_in_the_page_is_the_twin(cast: tuple[Site, list[tuple[str, str, str]]]) -> None:
    import json

    at, every = cast
    assert sum(bool(stud) for _, _, stud in every) > 5
    for kind, job, stud in every:
        if stud:
            page = at.page(f"/job/{job}/read/{stud[0]}")
            found = re.search(r'id="pad-sheet">(.*?)</script>', page, re.DOTALL)
            assert found, kind
            assert "<" not in found[1], "nothing in it may end the element"
            assert json.loads(found[1]) == at.twin(f"/job/{job}/read/{stud[0]}")


def test_amounts_wait_until_doubts_are_settled() -> None:
    at = site()
    job = bring(at, "old-alcove")
    told = at.twin(f"/job/{job}/plan")
    assert told["gate"]["state"] == "settle"
    assert "walls" not in told
    assert not plans_of(at), "nothing was searched for"
    at.store.close()


def test_the_room_worked_by_hand() -> None:
    """published: convention 8, the room worked by hand: 43 minutes; B2 two passes at 48, B4 one strip."""
    at = site()
    job = bring(at, "hand")
    told = at.twin(f"/job/{job}/plan")
    assert told["total"]["time"] == "43 min"
    assert told["total"]["proved"] is True
    back = next(wall for wall in told["walls"] if wall["wall"] == "B")
    marks = {row["height"]: [cell["mark"] for cell in row["cells"]] for row in back["rows"]}
    assert marks == {"90": [""] * 4, "48": ["", "X -1/8", "", "↑ +1/8"], "2": [""] * 4}
    assert [stud["minutes"] for stud in back["studs"]] == ["0", "12", "0", "7"]
    left = next(wall for wall in told["walls"] if wall["wall"] == "L")
    assert [stud["name"] for stud in left["studs"]] == ["L3", "L2", "L1"], "as one stands before it"
    assert [cell["mark"] for cell in left["rows"][-1]["cells"]] == ["O"] * 3, "six flange shims, three a side"
    at.store.close()


def test_without_the_browser_s_accept_it_is_a_page() -> None:
    at = site()
    assert at.client.get("/", headers={"accept": "*/*"}).headers["content-type"].startswith("text/html")
    at.store.close()
