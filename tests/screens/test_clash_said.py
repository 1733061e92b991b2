"""A clash that stands is said wherever a screen would call all well; the whole record can be read."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import Site, bring, site
from undertile.screens.pages.history import MOST

FACT = "survey.walls.B.studs.B2.readings.48"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def clash(at: Site, job: str) -> None:
    at.store.pen("dev9", "Cy", "2026-11-24T09:00:00").write(job, FACT, "6-15/16")


def test_doubts_and_papers_do_not_call_all_well_over_a_clash(at: Site) -> None:
    job = bring(at, "hand")
    assert at.twin(f"/job/{job}/doubts")["none"]
    assert at.twin(f"/job/{job}/papers")["next"]["href"].endswith("/papers/crew")
    clash(at, job)
    assert not at.twin(f"/job/{job}/doubts")["none"]
    assert at.twin(f"/job/{job}/papers")["next"]["href"].endswith("/doubts")


def test_every_entry_of_the_record_is_listed_on_some_page(at: Site) -> None:
    """independent: the log itself."""
    job = bring(at, "wet-corner")
    log = {entry.id for entry in at.store.log(job)}
    assert len(log) > MOST
    seen: list[str] = []
    path = f"/job/{job}/history"
    query: dict[str, str] = {}
    while True:
        told = at.twin(path, **query)
        seen += [each["id"] for each in told["entries"]]
        if not told["more"]:
            break
        assert told["older"] in at.page(path, **query).replace("&amp;", "&")
        query = dict([told["older"].partition("?")[2].split("=")])
    assert sorted(seen) == sorted(log)
    assert at.twin(path, **{"from": "x"})["first"] == 0


def test_no_button_is_printed(at: Site) -> None:
    job = bring(at, "hand")
    with chromium() as browser, phone(browser, at) as page:
        for screen in ("plan", "work"):
            page.goto(f"{HOME}/job/{job}/{screen}")
            page.emulate_media(media="print")
            shown = page.evaluate(
                "[...document.querySelectorAll('button, .key')].filter((each) => each.offsetParent).length"
            )
            assert shown == 0
            page.emulate_media(media="screen")
            assert page.evaluate("document.querySelectorAll('button, .key').length")
