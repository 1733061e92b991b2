"""What is in the way at a stud stands before what would hit it, and where the work is ticked."""

from __future__ import annotations

from collections.abc import Iterator
from html import unescape

import pytest

from tests.screens.cast import MENDED, Site, bring, in_one, site


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def job(at: Site) -> str:
    return bring(at, "old-alcove", MENDED)


@pytest.mark.parametrize(
    ("language", "plate", "staple"),
    [("en", "nail plate", "staple each strip"), ("es", "placa protectora", "engrape cada tira")],
)
def test_the_nail_plate_comes_before_the_staples(
    at: Site, job: str, language: str, plate: str, staple: str
) -> None:
    """published: convention 4.4 (a wire keeps its distance or gets a plate)."""
    sheet = at.twin(f"/job/{job}/papers/crew", lang=language)["sheet"]
    (card,) = [card for wall in sheet["walls"] for card in wall["cards"] if card["name"] == "B4"]
    for steps in (card["steps"], at.twin(f"/job/{job}/stud/B4", lang=language)["doing"]["steps"]):
        texts = [step["text"] for step in steps]
        (at_plate,) = [n for n, text in enumerate(texts) if plate in text]
        (at_staple,) = [n for n, text in enumerate(texts) if staple in text]
        assert at_plate < at_staple
        assert steps[at_plate]["stop"]


@pytest.mark.parametrize(("language", "wire"), [("en", "Wire"), ("es", "Cable")])
def test_do_it_tells_the_wire_and_the_strip_that_waits(at: Site, job: str, language: str, wire: str) -> None:
    """published: convention 3.5; the studs with a strip that waits are those of the order of work."""
    told = at.twin(f"/job/{job}/work", lang=language)
    mind = {each["name"]: each["mind"] for each in told["studs"]}
    guard, late = mind["B4"]
    assert guard["stop"]
    assert guard["text"].startswith(wire)
    assert late["waits"]
    assert late["text"].startswith("b: ")
    waiting = {name for name, steps in mind.items() if any(step["waits"] for step in steps)}
    after = " ".join(step["text"] for step in told["order"] if step["waits"])
    assert "B4" in waiting
    assert waiting == {name for name in mind if f" {name} " in after}
    assert guard["text"].split(".")[0] in unescape(in_one(at.page(f"/job/{job}/work", lang=language)))
    assert mind["B3"] == []
