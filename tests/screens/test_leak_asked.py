"""The leak's screen says what it asks of a test, and what a test shows against a word, in both languages."""

from __future__ import annotations

import pytest

from tests.screens.cast import Site, bring, site

WET_DRAIN = {
    "wood.leak.pours.a.when": "2026-03-07",
    "wood.leak.pours.a.gallons": "6",
    "wood.leak.pours.a.minutes": "15",
    "wood.leak.pours.a.below": "wet",
    "wood.leak.not_here.drain.reason": "CHANGED",
}
NOT_SAID = {
    "wood.leak.pressures.third.when": "2026-03-08",
    "wood.leak.pressures.third.first": "60",
    "wood.leak.pressures.third.last": "60",
    "wood.leak.pressures.third.minutes": "20",
}


def with_more(at: Site, facts: dict[str, str]) -> str:
    """The wet corner with some facts typed on top."""
    job = bring(at, "wet-corner")
    pen = at.store.pen("dev0", "Bo", "2026-11-24T09:00:00")
    for fact, value in facts.items():
        pen.write(job, fact, value)
    return job


@pytest.mark.parametrize(
    ("language", "both"),
    [("en", ("water showed", "as was said: CHANGED")), ("es", ("salió agua", "como se dijo: CHANGED"))],
)
def test_a_word_and_the_test_against_it_stand_together(language: str, both: tuple[str, str]) -> None:
    """independent: a pour that is wet below finds the drain; typed as one that cannot be, it stays found."""
    at = site()
    job = with_more(at, WET_DRAIN)
    seen = at.twin(f"/job/{job}/water/leak", lang=language)
    (drain,) = [each for each in seen["stands"] if each["candidate"] == "drain"]
    assert drain["standing"] == "found"
    page = at.page(f"/job/{job}/water/leak", lang=language)
    assert all(words in page for words in both)


@pytest.mark.parametrize(
    ("language", "asked"), [("en", "not said whether water or air"), ("es", "no se dice si agua o aire")]
)
def test_a_test_without_its_word_prints_no_word(language: str, asked: str) -> None:
    """independent: nobody typed what the pipes of the third test were filled with."""
    at = site()
    job = with_more(at, NOT_SAID)
    page = at.page(f"/job/{job}/water/leak", lang=language)
    assert asked in page
    made = at.twin(f"/job/{job}/water/leak", lang=language)["made"]
    (third,) = [each for each in made if "third" in str(each["test"])]
    assert not str(third["why"]).startswith(("water in", "agua en"))
