"""The drying charts on a screen: all by what keeps the gate shut, one on its own, readable on a phone."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.screens.browsing import HOME, SIZES, chromium, phone
from tests.screens.cast import Site, bring, site
from undertile.screens.pages import water_charts


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def test_all_points_are_there_the_one_that_keeps_the_gate_shut_first(at: Site) -> None:
    job = bring(at, "wet-corner")
    twin = at.twin(f"/job/{job}/water/charts", lang="en")
    water = at.twin(f"/job/{job}/water")
    assert len(twin["charts"]) == sum(group["number"] for group in water["groups"])
    assert twin["charts"][0]["place"] == "plate B at 16", "of the wood that stays, its range ends last"
    assert re.search(r"2026-03-\d\d to 2026-04-\d\d", twin["next"]["why"])
    page = at.page(f"/job/{job}/water/charts")
    assert page.count("<svg") == len(twin["charts"])
    assert at.page(f"/job/{job}/water/charts", lang="es").count("solera") > 3


def test_the_water_screen_shows_those_that_decide_when_and_a_point_its_own(at: Site) -> None:
    job = bring(at, "wet-corner")
    twin = at.twin(f"/job/{job}/water", lang="en")
    every = at.twin(f"/job/{job}/water/charts", lang="en")["charts"]
    assert [each["place"] for each in twin["charts"]] == [each["place"] for each in every[:3]]
    page = at.page(f"/job/{job}/water/point", name="plate-B-16", lang="en")
    assert 'class="chart"' in page
    assert 'class="chart"' not in at.page(f"/job/{job}/water/point", name="ref-closet"), "it has no goal"


def test_one_point_says_when_and_every_reading(at: Site) -> None:
    """independent: the readings as the example's file has them."""
    job = bring(at, "wet-corner")
    twin = at.twin(f"/job/{job}/water/charts", point="plate-B-16", lang="en")
    assert [row["shown"] for row in twin["one"]["rows"]] == ["26", "23.5", "20.5"]
    assert re.match(r"2026-03-\d\d to 2026-03-\d\d, past\. ", twin["next"]["why"])
    assert not twin["before"], "it is the first"
    assert twin["after"]
    assert at.twin(f"/job/{job}/water/charts", point="plate-L-6", lang="en")["before"]
    answer = at.client.get(f"/job/{job}/water/charts", params={"point": "nobody"})
    assert answer.status_code == 404
    assert "nobody" in answer.text


@pytest.mark.parametrize(
    ("language", "late", "every", "read"),
    [
        ("en", "Those days are past: last read", "Read every place again", "Read it now"),
        ("es", "Esos días ya pasaron", "Lea todo otra vez", "Léalo ahora"),
    ],
)
def test_days_gone_by_are_said_on_every_screen_that_shows_them(
    at: Site, language: str, late: str, every: str, read: str
) -> None:
    """independent: the cast's clock stands months after the example's last reading, by the calendar.

    Days gone by are no step to take: what is next is to read again."""
    job = bring(at, "wet-corner")
    charts = at.twin(f"/job/{job}/water/charts", lang=language)
    assert late in charts["next"]["why"]
    assert charts["next"]["text"] == every
    assert at.client.get(charts["next"]["href"]).status_code == 200
    gone = [each for each in charts["charts"] if each["when"].endswith((", past", ", pasó"))]
    assert gone
    assert all(f"{each['when']}</text>" in each["svg"] for each in gone), "none of it is cut off"
    one = at.twin(f"/job/{job}/water/charts", point="plate-B-16", lang=language)
    place = at.twin(f"/job/{job}/water/point", name="plate-B-16", lang=language)
    assert late in one["next"]["why"]
    assert one["next"]["text"].startswith(read)
    assert late in f"{place['next']['text']} {place['next']['why']}"
    assert not re.search(r"2026-\d\d-\d\d", place["next"]["text"]), "no days to wait for"
    pad = at.twin(f"/job/{job}/water/round/3", lang=language)
    told = pad["judged"]["points"]["wood.points.plate-B-16.shown.3"]
    assert told["code"] == "dates-past"
    ends = re.findall(r"2026-\d\d-\d\d", one["next"]["why"])
    assert [day in told["text"] for day in ends] == [True, True], (
        "its days, in as few words as the band holds"
    )
    # said once of the whole on the water screen, and not again at each of its places
    water = at.twin(f"/job/{job}/water", lang=language)
    assert late in water["when"]["last"]
    assert not any(late in each["do"] for group in water["groups"] for each in group["points"])
    order = [step["text"] for step in at.twin(f"/job/{job}/plan", lang=language)["order"]]
    assert sum(late in step for step in order) == 2, "B1 and L1 each by its own days"


def test_many_points_come_a_page_at_a_time(at: Site, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(water_charts, "ON_A_SCREEN", 5)
    job = bring(at, "wet-corner")
    seen: list[str] = []
    first, where = "0", f"/job/{job}/water/charts"
    for _ in range(10):
        twin = at.twin(where, **{"from": first})
        seen += [each["href"] for each in twin["charts"]]
        if not twin["more"]:
            break
        first = twin["more"]["href"].rpartition("from=")[2]
    # independent: the example's 23 places but its 6 dry references
    assert len(seen) == len(set(seen)) == 17
    assert len(at.twin(f"/job/{job}/water/charts", **{"from": "99"})["charts"]) == 5


def test_a_job_without_points_says_so(at: Site) -> None:
    twin = at.twin(f"/job/{bring(at, 'hand')}/water/charts", lang="en")
    assert twin["charts"] == []
    assert "No point" in twin["next"]["text"]


@pytest.mark.browser
@pytest.mark.parametrize(("size", "scheme"), [(SIZES[0], "dark"), (SIZES[1], "light")])
def test_a_phone_shows_them_whole_and_legible(at: Site, size: tuple[int, int], scheme: str) -> None:
    job = bring(at, "wet-corner")
    with chromium() as browser, phone(browser, at, size, color_scheme=scheme) as page:
        for address in ("", "?point=plate-B-16"):
            page.goto(f"{HOME}/job/{job}/water/charts{address}")
            wide = page.evaluate("document.documentElement.scrollWidth")
            assert wide <= size[0]
            least = page.evaluate(
                "Math.min(...[...document.querySelectorAll('svg.chart text')]"
                ".map(t => parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a))"
            )
            assert least >= 10, "no figure smaller than ten pixels"
            ink = page.evaluate("getComputedStyle(document.querySelector('svg.chart text')).fill")
            ground = page.evaluate("getComputedStyle(document.querySelector('svg.chart .ground')).fill")
            body = page.evaluate("getComputedStyle(document.body).backgroundColor")
            assert ground == body
            assert ink != ground
            cut = page.evaluate(
                "[...document.querySelectorAll('svg.chart')].flatMap(s => {"
                "const b = s.getBoundingClientRect();"
                "return [...s.querySelectorAll('text')].filter(t => { const r = t.getBoundingClientRect();"
                "return r.left < b.left - 1 || r.right > b.right + 1 || r.bottom > b.bottom + 2.5"
                "|| r.top < b.top - 4 }).map(t => t.textContent) })"
            )
            assert cut == []


@pytest.mark.parametrize(("language", "said"), [("en", "asked about"), ("es", "por confirmar")])
def test_a_value_asked_about_stands_so_and_not_large(at: Site, language: str, said: str) -> None:
    """independent: 205 is ten times the example's 20.5; no wood in a wall reads it."""
    job = bring(at, "wet-corner", {"wood.points.plate-B-16.shown.3": "205"})
    place = at.twin(f"/job/{job}/water/point", name="plate-B-16", lang=language)
    assert said in place["head"]["asked"]
    assert place["head"]["give"] == ""
    page = at.page(f"/job/{job}/water/point", name="plate-B-16", lang=language)
    assert re.search(r'class="percent asked">205\.0 % \?<', page)
    assert said in place["point"]["picture"]
    other = at.twin(f"/job/{job}/water/point", name="plate-B-28", lang=language)
    assert other["head"]["asked"] == ""
