"""Words and marks that a newcomer stumbled over, each held fast."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.screens.browsing import HOME, chromium, phone, shown
from tests.screens.cast import Site, bring, site, typed
from tests.screens.test_amiss import words
from undertile.packet.words import Words
from undertile.screens.words import Says

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.mark.parametrize("lang", ["en", "es"])
def test_why_the_whole_ends_after_every_place_of_it(at: Site, lang: str) -> None:
    """independent: the days on the page itself; the range of all ends after the last of the places'."""
    job = bring(at, "wet-corner")
    said = words(at.page(f"/job/{job}/water", lang=lang))
    ends = re.findall(r"2026-\d\d-\d\d (?:to|a) (2026-\d\d-\d\d)", said)
    head = re.search(r"(?:and|y) (2026-\d\d-\d\d)", said[said.index("?") :])
    assert head is not None
    assert ends
    assert max(ends) < head[1]
    why = {"en": "The last of several places dries later", "es": "El último de varios lugares seca más tarde"}
    assert why[lang] in said
    assert why[lang] in words(at.page(f"/job/{job}/papers/water", lang=lang), "<article")


def test_one_place_alone_needs_no_such_line(at: Site) -> None:
    job = typed(at, [("unit", "in"), ("wood.leak.symptom", "when used")])
    assert "The last of several" not in at.page(f"/job/{job}/water")


@pytest.mark.parametrize(
    ("lang", "key", "slots", "said"),
    [
        ("es", "round-go-on", {"visit": "4", "left": 1}, "Siga la visita 4: falta 1"),
        ("es", "round-go-on", {"visit": "4", "left": 12}, "Siga la visita 4: faltan 12"),
        ("es", "work-left", {"number": 1}, "falta 1 montante"),
        ("es", "work-left", {"number": 11}, "faltan 11 montantes"),
        ("en", "next-work", {"stud": "B2", "left": "1"}, "B2 next; 1 stud left"),
        ("en", "next-work", {"stud": "B2", "left": "21"}, "B2 next; 21 studs left"),
    ],
)
def test_one_is_said_as_one(lang: str, key: str, slots: dict[str, object], said: str) -> None:
    assert Says(lang)(key, **slots) == said  # type: ignore[arg-type]


def test_a_grave_word_is_the_trades(at: Site) -> None:
    assert [Says(lang).severity("act") for lang in ("en", "es")] == ["to do", "por hacer"]


def test_a_nominal_two_by_is_no_actual_two_inches() -> None:
    for key in ("floor-block", "floor-block-one", "floor-cleat", "floor-cleat-one"):
        assert "2x (nominal)" in Words("es")(key)
        assert "pulgadas" not in Words("es")(key)


def test_the_filled_mark_of_the_map_says_was_wet(at: Site) -> None:
    page = at.page(f"/job/{bring(at, 'wet-corner')}/water", lang="en")
    assert "is or was wet, or ruined" in page


@pytest.mark.browser
def test_the_pad_says_all_read_once_the_only_place_is(browser: Browser, at: Site) -> None:
    job = typed(at, [("unit", "in"), ("wood.visits.1.when", "2026-03-04 16:00")])
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/water/round/1?lang=es")
        assert shown(page, "place") == "Aún no hay qué leer"
        facts = "{member: 'plate', wall: 'L', along: '6'}"
        place = f"{{name: 'plate-L-6', where: 'solera L', at: '6', facts: {facts}}}"
        page.evaluate(f"globalThis.pad.addPlace({place})")
        assert "falta 1" in page.locator(".pad").inner_text()
        assert "faltan 1" not in page.locator(".pad").inner_text()


@pytest.mark.browser
def test_what_is_chosen_for_a_new_place_is_marked(browser: Browser, at: Site) -> None:
    """Whichever style sheet comes last."""
    job = typed(at, [("unit", "in"), ("wood.visits.1.when", "2026-03-04 16:00")])
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/water/round/1")
        link = "document.querySelector('link[href$=\"style.css\"]')"
        page.evaluate(f"new Promise((done) => {{ {link}.onload = done; document.head.append({link}); }})")
        more = ("aria-pressed=true id=one", "id=two")
        keys = "".join(f'<button class="key quiet" {each}>x</button>' for each in more)
        page.evaluate("text => document.body.insertAdjacentHTML('beforeend', text)", keys)
        ground = "id => getComputedStyle(document.getElementById(id)).backgroundColor"
        assert page.evaluate(ground, "one") != page.evaluate(ground, "two")


@pytest.mark.browser
def test_a_check_that_opens_says_so(browser: Browser, at: Site) -> None:
    job = bring(at, "wet-corner")
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/floor?lang=en")
        mark = "open => getComputedStyle(document.querySelector('.check summary'), '::after').content"
        assert page.evaluate(mark) == '"+"'
        page.locator(".check summary").first.tap()
        assert page.evaluate(mark) == '"−"'
