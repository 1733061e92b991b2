"""A moisture round on the pad: taps counted, the order walked, verdicts and odd values said, nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime
from typing import TYPE_CHECKING, Any

import pytest

from tests.screens.browsing import (
    HOME,
    LOOKS,
    SIZES,
    chromium,
    keys_take_a_glove,
    phone,
    said,
    shown,
    tap,
    wait_kept,
)
from tests.screens.cast import NOW, Site, bring, site, typed
from tests.screens.roundtaps import AWL_LACKS, ROUND, here, show, steady, thirty, walk_by_taps, walked
from undertile.screens.round.places import named

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser
POINT = "wood.points.{}.shown.4"
NOW_HERE = datetime.fromisoformat(NOW).astimezone().strftime("%Y-%m-%d %H:%M")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def fourth(at: Site, **more: str) -> str:
    """The wet corner with a fourth round begun."""
    job = bring(at, "wet-corner")
    pen = at.store.pen("dev0", "Bo", "2026-03-08T16:00:00")
    about = {"when": "2026-03-08 16:00", "air": "72 F", "humidity": "38", "wood": "70 F", **more}
    for part, value in about.items():
        pen.write(job, f"wood.visits.4.{part}", value)
    return job


def at_round(page: Page, job: str, visit: str = "4", **query: str) -> None:
    asked = "&".join(f"{key}={value}" for key, value in query.items())
    page.goto(f"{HOME}/job/{job}/water/round/{visit}?{asked}")


def test_thirty_points_in_the_order_walked_no_more_than_two_taps_each(browser: Browser, at: Site) -> None:
    """independent: readings fall by a formula of their own; what stands is read back from the log."""
    told = thirty()
    with phone(browser, at) as page:
        job, found = walked(at, page, told)
        assert shown(page, "place") == "All read"
        assert "dry on" in shown(page, "keys")
    assert [each.fact.split(".")[2] for each in found] == told.walked
    assert max(each.taps for each in found) <= 2
    assert sum(each.taps for each in found) == 30 + AWL_LACKS, "pinned: each in one tap, and one for the awl"
    stands = {entry.fact: entry.value for entry in at.store.log(job)}
    assert {fact: stands[fact] for fact in told.readings} == told.readings
    assert sum(fact.endswith(f".awl.{ROUND}") for fact in stands) == AWL_LACKS


def test_any_other_value_in_two_taps(browser: Browser, at: Site) -> None:
    """By hand: from 11 to 29.5 no value lies further than its ten."""
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job, at=POINT.format("plate-L-18"))
        for value in ("29.5", "0.5", "35", "19.5"):
            before = page.evaluate("globalThis.pad.taps")
            show(page, value)
            wait_kept(page)
            assert page.evaluate("globalThis.pad.taps") - before == 2
            assert at.value(job, POINT.format("plate-L-18")) == value
            steady(page)
            page.evaluate("fact => globalThis.pad.go(fact, false)", POINT.format("plate-L-18"))


@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_nothing_scrolls_and_every_key_takes_a_glove(
    browser: Browser, at: Site, size: tuple[int, int], language: str
) -> None:
    job = fourth(at)
    with phone(browser, at, size) as page:
        at_round(page, job, lang=language)
        for press in ("", "tens 1", "tens", "go wood.points.plate-L-18.awl.4"):
            if press:
                steady(page)
                tap(page, press)
            keys_take_a_glove(page, size, 14, also=", .pad-place strong, .pad-band p")


def test_where_to_put_the_pins_and_what_they_read_last(browser: Browser, at: Site) -> None:
    job = typed(at, thirty().facts)
    with phone(browser, at) as page:
        at_round(page, job, ROUND, at=f"wood.points.plate-B-16.shown.{ROUND}")
        assert shown(page, "place") == "plate B at 16 1/2 deep, same holes last 20.5", (
            "by hand: 9 + 16/e^(2/6)"
        )
        at_round(page, job, ROUND, at=f"wood.points.floor-18-6.shown.{ROUND}", lang="es")
        assert shown(page, "place").startswith("subpiso L 18, B 6 1/2 de hondo, mismos agujeros antes")


def test_the_verdict_comes_with_the_next_key_press(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job)
        show(page, "10.5")
        said(page, "Dry here: twice, and sound.")
        assert shown(page, "back-read").startswith("plate L at 18 10.5 % ✓ kept")
        assert here(page) == (POINT.format("plate-L-6"), "percent")


def test_a_rise_is_asked_about_read_again_or_a_wet_face(browser: Browser, at: Site) -> None:
    """By hand: from 20 to 26 is up 6; read again it stands, with a wet face it is no rise."""
    job = fourth(at)
    fact = POINT.format("plate-L-6")
    with phone(browser, at, SIZES[1]) as page:
        at_round(page, job, at=fact)
        show(page, "26")
        said(page, "Up 6 since last time?")
        steady(page)
        page.locator(".pad-band button", has_text="wet face").tap()
        wait_kept(page)
        assert at.value(job, "wood.points.plate-L-6.surface.4") == "wet"
        page.wait_for_function(
            "!document.querySelector('.pad-band').textContent.includes('Up 6')", polling=10
        )
        steady(page)
        tap(page, "undo")
        wait_kept(page)
        assert at.value(job, "wood.points.plate-L-6.surface.4") is None
        said(page, "Up 6 since last time?")
        steady(page)
        page.locator(".pad-band button", has_text="Read again").tap()
        assert here(page)[0] == fact
        show(page, "26")
        said(page, "Rising")
        assert at.value(job, fact) == "26"


def test_a_meter_s_range_is_said(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job, at=POINT.format("plate-B-16"))
        show(page, "5")
        said(page, "Down at least 13.5 since last time? Same holes?")  # what may be a slip comes first
        at_round(page, job, at=POINT.format("floor-6-30"))
        show(page, "6.5")
        said(page, "Outside the meter's 7 to 30: counts as only dry.")


def test_over_under_reach_and_skip_are_words(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job)
        points = ("plate-L-18", "plate-L-6", "plate-B-16", "plate-B-28")
        for press in ("under", "over", "reach", "skip"):
            steady(page)
            tap(page, press)
        wait_kept(page)
    assert [at.value(job, POINT.format(name)) for name in points] == ["under", "over", "x", ""]


def test_awl_and_pick_in_one_tap_each(browser: Browser, at: Site) -> None:
    job = fourth(at)
    base = "wood.points.plate-B-16"
    with phone(browser, at) as page:
        at_round(page, job, at=POINT.format("plate-B-16"))
        tap(page, f"go {base}.awl.4")
        tap(page, "pick snaps")
        wait_kept(page)
        assert at.value(job, f"{base}.pick.4") == "snaps"
        said(page, "CUT OUT")
        tap(page, "deep 3/16")
        wait_kept(page)
        assert at.value(job, f"{base}.awl.4") == "3/16"
        assert here(page) == (POINT.format("plate-B-16"), "percent"), "back where one was"


def test_the_awl_is_asked_for_where_none_was_pushed_in(browser: Browser, at: Site) -> None:
    """And not where the reading was passed over: nobody is there."""
    job = typed(at, thirty().facts)
    with phone(browser, at) as page:
        at_round(page, job, ROUND, at="wood.points.plate-B-4.shown.3")
        steady(page)
        tap(page, "reach")
        assert here(page)[1] == "percent"
        page.evaluate("globalThis.pad.go('wood.points.plate-B-10.shown.3', false)")
        show(page, "12")
        assert here(page) == ("wood.points.plate-B-10.awl.3", "awl")
        assert "Push the awl in" in shown(page, "place")
        steady(page)
        tap(page, "skip")
        wait_kept(page)
        assert here(page)[1] == "percent"


def test_undo_takes_back_one_by_one(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job)
        show(page, "10")
        show(page, "19")
        steady(page)
        tap(page, "wet")
        wait_kept(page)
        for fact, left in (("plate-B-16", 2), ("plate-L-6", 1), ("plate-L-18", 0)):
            steady(page)
            tap(page, "undo")
            wait_kept(page)
            assert here(page)[0] == POINT.format(fact)
            log = at.store.log(job)
            gone = {name for entry in log for name in entry.supersedes}
            stands = [
                e
                for e in log
                if e.id not in gone and e.fact.endswith(".4") and e.value and "points" in e.fact
            ]
            assert len(stands) == left


def test_a_new_place_by_taps_is_kept_with_its_first_reading(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at, SIZES[1]) as page:
        at_round(page, job, at=POINT.format("plate-B-40"))
        tap(page, "list")
        page.locator(".pad-list button", has_text="New place").tap()
        assert page.locator(".pad-choice [aria-pressed=true]").all_inner_texts() == ["plate", "back wall"]
        page.locator(".pad-choice button", has_text="52").tap()
        assert shown(page, "place").startswith("plate B at 52 along the grain first time")
        show(page, "12")
        wait_kept(page)
        steady(page)
        assert here(page)[1] == "awl"
        tap(page, "deep 0")
        wait_kept(page)
        assert here(page)[0] == POINT.format("plate-B-40"), "on with the round"
    base = "wood.points.plate-B-52"
    kept = {
        entry.fact.removeprefix(f"{base}."): entry.value for entry in at.store.log(job) if base in entry.fact
    }
    assert kept == {
        "member": "plate",
        "wall": "B",
        "along": "52",
        "material": "lumber",
        "species": "Douglas-fir",
        "open_faces": "one",
        "thickness": "1-1/2",
        "shown.4": "12",
        "awl.4": "0",
    }
    assert at.twin(f"/job/{job}/water/round/4")["judged"]["points"][f"{base}.shown.4"]["code"] == "again"


def test_the_pad_names_a_new_place_as_the_page_without_script_does(browser: Browser, at: Site) -> None:
    """independent: two programs, one in each language."""
    job = fourth(at)
    cases = [
        ("plate-B", ["16-1/2"]),
        ("floor", ["6", "30.5"]),
        ("B1", ["305 mm"]),
        ("plate-B", ["4"]),
        ("floor2", ["ä", "x y"]),
    ]
    with phone(browser, at) as page:
        at_round(page, job)
        for start, place in cases:
            made = page.evaluate(
                "([start, place]) => import('/static/newplace.js')"
                ".then(({named}) => named(start, place, globalThis.pad.sheet.places.taken))",
                [start, place],
            )
            taken = at.twin(f"/job/{job}/water/round/4")["places"]["taken"]
            assert made == named(start, place, taken)
    assert named("plate-B", ["4"], ["plate-B-4"]) == "plate-B-4-2", "what was cut out keeps its name"


def test_keys_and_a_meter_that_types(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job)
        page.keyboard.type("22 24 26.5")
        page.keyboard.press("Enter")
        said(page, "22 24 26.5 is far from")
        page.keyboard.press("Enter")
        page.keyboard.type("235")
        page.keyboard.press("Enter")
        said(page, "235 is no percent")
        page.keyboard.press("Escape")
        page.keyboard.press("o")
        page.keyboard.press("x")
        wait_kept(page)
    points = ("plate-L-18", "plate-L-6", "plate-B-16")
    assert [at.value(job, POINT.format(name)) for name in points] == ["22 24 26.5", "over", "x"]


def test_a_value_that_cannot_be_kept_stays_in_sight_until_it_is(browser: Browser, at: Site) -> None:
    job = fourth(at)
    with phone(browser, at) as page:
        at_round(page, job)
        page.evaluate(
            "globalThis.keep = globalThis.pad.host.take;"
            "globalThis.pad.host.take = () => Promise.reject(new Error('storage full')); true"
        )
        show(page, "10")
        said(page, "storage full")
        show(page, "19")
        page.evaluate("globalThis.pad.host.take = globalThis.keep; true")
        page.locator('.pad [data-press="retry"]').tap()
        wait_kept(page)
    assert at.value(job, POINT.format("plate-L-18")) == "10"
    assert at.value(job, POINT.format("plate-L-6")) == "19"


def test_without_script_it_is_a_form_and_begins_as_one(browser: Browser, at: Site) -> None:
    job = bring(at, "wet-corner")
    with phone(browser, at, java_script_enabled=False) as page:
        page.goto(f"{HOME}/job/{job}/water/round")
        assert page.get_by_label("Day and hour").input_value() == NOW_HERE, "offered, not kept"
        page.get_by_label("Air in the room, F").fill("70")
        page.get_by_label("Humidity, %").fill("41")
        page.get_by_role("button", name="Start reading").click()
        page.get_by_label("plate B 16", exact=True).fill("19.5")
        page.get_by_label("plate B 16 face").select_option("wet")
        page.get_by_role("button", name="Keep").click()
        assert page.get_by_label("plate B 16", exact=True).input_value() == "19.5"
        page.get_by_label("Which").select_option("floor")
        page.get_by_label("Where along it").fill("30, 18")
        page.get_by_role("button", name="New place").click()
        page.get_by_label("subfloor L 30, B 18").fill("12")
        page.get_by_role("button", name="Keep").click()
    assert at.value(job, "wood.visits.4.when") == NOW_HERE
    assert at.value(job, "wood.visits.4.air") == "70 F"
    assert at.value(job, "wood.visits.4.by") == "Ana"
    assert at.value(job, POINT.format("plate-B-16")) == "19.5"
    assert at.value(job, "wood.points.plate-B-16.surface.4") == "wet"
    assert at.value(job, POINT.format("floor-30-18")) == "12"
    assert at.value(job, "wood.points.floor-30-18.x") == "30"


def test_the_next_place_to_probe_is_one_tap_away(browser: Browser, at: Site) -> None:
    """The corner before its far points were read: the stage's own next place, read by its key."""
    gone = {"plate-B-40", "plate-B-28"}
    facts = [(e.fact, e.value or "") for e in at.store.log(bring(at, "wet-corner"))]
    left = [(fact, value) for fact, value in facts if not any(f".{name}." in fact for name in gone)]
    job = typed(at, [*left, ("wood.visits.4.when", "2026-03-08 16:00")])
    next_place: Any = at.twin(f"/job/{job}/water/round/4")["places"]["next"]
    assert next_place["facts"]["wall"] == "B"
    with phone(browser, at) as page:
        at_round(page, job)
        tap(page, "list")
        page.locator(".pad-list button", has_text="New place").tap()
        page.locator(".next-place").tap()
        assert shown(page, "place").startswith(f"{next_place['where']} at {next_place['at']}")
        show(page, "11")
        wait_kept(page)
    assert at.value(job, f"wood.points.{next_place['name']}.shown.4") == "11"


def test_a_round_goes_on_where_it_was_left(browser: Browser, at: Site) -> None:
    told = thirty()
    some = dict(list(told.readings.items())[:7])
    with phone(browser, at) as page:
        job = typed(at, told.facts)
        at_round(page, job, ROUND)
        assert len(walk_by_taps(page, some)) == 7
        at_round(page, job, ROUND)
        assert here(page)[0] == list(told.readings)[7]
