"""The pad in a browser: taps counted, nothing scrolls, a slip is named, what is not kept stays in sight."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import pytest

from tests.screens.browsing import (
    HOME,
    SIZES,
    chromium,
    keys_take_a_glove,
    phone,
    said,
    shown,
    tap,
    wait_kept,
)
from tests.screens.cast import MENDED, NOW, Site, bring, site, typed, wall
from tests.screens.roundtaps import steady
from tests.screens.taps import count, read_by_taps, room
from undertile.errors import InputError
from undertile.store import UNDO

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def text(page: Page) -> Any:
    return page.evaluate("globalThis.pad.rows.map(row => row.value)")


def test_sixty_five_readings_by_taps(browser: Browser, at: Site) -> None:
    """One tap where the whole inch is the last one's, never more than three; every reading kept as meant.

    independent: the readings are typed from the bundled job and read back from the log.
    """
    facts, readings = room()
    job = typed(at, facts)
    with phone(browser, at, SIZES[1]) as page:
        found = count(at, job, readings, page, "up")
    assert len(found) == 65
    assert all(each.taps == 1 for each in found if each.same)
    assert max(each.taps for each in found) <= 3
    stands = {entry.fact: entry.value for entry in at.store.log(job)}
    assert {fact: stands[fact] for fact in readings} == {
        fact: text.removesuffix("-0") for fact, text in readings.items()
    }
    assert sum(each.taps for each in found) == 67, "pinned: 65 readings in 67 taps"


def test_millimetres_by_taps(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2, "mm", '["50", "900", "1900"]'))
    base = "survey.walls.B.studs"
    values = ["152", "148", "161", "139", "120", "158"]
    keys = [f"{base}.{stud}.readings.{z}" for stud in ("B1", "B2") for z in ("50 mm", "900 mm", "1900 mm")]
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        found = read_by_taps(page, dict(zip(keys, values, strict=True)), "mm")
    assert [each.text for each in found] == values
    assert [each.taps for each in found] == [1, 1, 3, 3, 2, 3], "counted by hand on the keys"
    assert [at.value(job, key) for key in keys] == values


@pytest.mark.parametrize(
    ("size", "unit", "language"),
    [(SIZES[0], "in", "es"), (SIZES[0], "mm", "en"), (SIZES[1], "in", "en"), (SIZES[1], "mm", "es")],
)
def test_nothing_scrolls_and_every_key_takes_a_glove(
    browser: Browser, at: Site, size: tuple[int, int], unit: str, language: str
) -> None:
    """Every two of size, unit and language meet once."""
    job = typed(at, wall("B", 3, unit))
    with phone(browser, at, size) as page:
        page.goto(f"{HOME}/job/{job}/read/B?lang={language}")
        for _ in ("the parts of an inch", "the whole inches"):
            keys_take_a_glove(page, size, 20)
            if page.locator('[data-press="others"]').count():
                tap(page, "others")


def test_strong_and_shy_by_key_and_by_slide(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        tap(page, "strong")
        tap(page, "part 6 2")
        tap(page, "shy")
        tap(page, "part 6 3")
        tap(page, "strong")
        tap(page, "part 6 0")
        wait_kept(page)
        key = page.locator('.pad [data-press="part 6 6"]').bounding_box()
        assert key
        x, y = key["x"] + key["width"] / 2, key["y"] + key["height"] / 2
        page.mouse.move(x, y)
        page.mouse.down()
        page.mouse.move(x, y - 40)
        page.mouse.up()
        wait_kept(page)
        assert text(page)[:4] == ["6-1/8+", "6-3/16-", "6-1/32", "6-3/8+"]


def test_a_glove_that_bounces_types_once(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        page.evaluate("for (const _ of [1, 2]) globalThis.pad.press('part 6 1', '')")
        wait_kept(page)
        assert text(page)[:2] == ["6-1/16", None]


def test_undo_takes_back_one_by_one_and_the_record_keeps_all(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        for press in ("part 6 1", "part 6 2", "reach"):
            tap(page, press)
        wait_kept(page)
        assert text(page)[:3] == ["6-1/16", "6-1/8", "x"]
        for left in (2, 1, 0):
            steady(page)
            tap(page, "undo")
            wait_kept(page)
            assert [value for value in text(page) if value is not None] == ["6-1/16", "6-1/8"][:left]
        assert shown(page, "place").startswith("B1 at 2")
    readings = [entry for entry in at.store.log(job) if ".readings." in entry.fact]
    assert len(readings) == 6
    assert [entry.value for entry in readings].count(None) == 3
    assert [entry.instrument for entry in readings if entry.value is None] == [UNDO] * 3
    with pytest.raises(InputError, match="nothing to take back"):  # a second time, it would go forward again
        at.store.undo(job, at.store.pen(at.host.device, "Ann", NOW), readings[0].fact)


def test_what_somebody_has_replaced_since_is_not_taken_back_and_the_pad_goes_on(
    browser: Browser, at: Site
) -> None:
    job = typed(at, wall("B", 2))
    fact = "survey.walls.B.studs.B1.readings.2"
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        tap(page, "part 6 1")
        wait_kept(page)
        (mine,) = (entry for entry in at.store.log(job) if entry.fact == fact)
        at.store.pen("phone-2", "Bo", NOW).write(job, fact, "6-3/8", (mine.id,))
        tap(page, "undo")
        said(page, "replaced since")
        tap(page, "part 6 2")
        wait_kept(page)
    log = [entry for entry in at.store.log(job) if entry.fact == fact]
    gone = {name for entry in log for name in entry.supersedes}
    assert {entry.value for entry in log if entry.id not in gone} == {"6-3/8", "6-1/8"}, "convention 7.3"


def test_skip_and_cannot_reach_are_states_not_zero(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 1))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        tap(page, "skip")
        tap(page, "reach")
        wait_kept(page)
        assert shown(page, "back-read").startswith("B1 at 24 cannot reach")
    base = "survey.walls.B.studs.B1.readings"
    assert at.value(job, f"{base}.2") == ""
    assert at.value(job, f"{base}.24") == "x"


def test_a_slip_is_named_while_its_owner_is_on_the_ladder(browser: Browser, at: Site) -> None:
    """The mended room but for one reading; the slip of docs/examples.md typed, named, mended, all by taps."""
    job = bring(at, "old-alcove", {**MENDED, "survey.walls.B.studs.B4.readings.36": ""})
    with phone(browser, at, SIZES[1]) as page:
        page.goto(f"{HOME}/job/{job}/read/B?at=survey.walls.B.studs.B4.readings.36")
        assert shown(page, "place").startswith("B4 at 36")
        tap(page, "whole 7")
        tap(page, "part 7 4")
        wait_kept(page)
        said(page, "6-1/4")
        assert shown(page, "band").startswith("B4 at 36: 7-1/4? 6-1/4 would fit.")
        page.locator(".pad-band button").tap()
        assert shown(page, "place").startswith("B4 at 36")
        tap(page, "whole 6")
        tap(page, "part 6 4")
        wait_kept(page)
        page.wait_for_function("document.querySelector('.pad-band').textContent === ''", polling=10)
    assert at.twin(f"/job/{job}/doubts")["doubts"] == []


def test_keyboard_and_a_meter_that_types(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        page.keyboard.type("5 7/8")
        page.keyboard.press("Enter")
        page.keyboard.type("150 mm")
        page.keyboard.press("Tab")
        page.keyboard.type("6-")
        page.keyboard.press("Enter")
        assert "no length" in shown(page, "band"), "half a number is refused, and stays to be finished"
        page.keyboard.type("1/4")
        page.keyboard.press("Enter")
        page.keyboard.type("152")
        page.keyboard.press("Enter")
        assert "far from" in shown(page, "band"), "152 in is asked about before it is taken"
        page.keyboard.press("Escape")
        page.keyboard.press("x")
        page.keyboard.press("ArrowUp")
        assert shown(page, "place").startswith("B1 at 72")
        wait_kept(page)
        assert text(page)[:4] == ["5 7/8", "150 mm", "6-1/4", "x"]
    assert at.value(job, "survey.walls.B.studs.B1.readings.24") == "150 mm"


def test_a_value_that_cannot_be_kept_stays_in_sight_until_it_is(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 2))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        page.evaluate(
            "globalThis.keep = globalThis.pad.host.take;"
            "globalThis.pad.host.take = () => Promise.reject(new Error('storage full')); true"
        )
        tap(page, "part 6 1")
        said(page, "storage full")
        assert "✓" not in shown(page, "back-read")
        tap(page, "part 6 2")
        page.evaluate("globalThis.pad.host.take = globalThis.keep; true")
        page.locator('.pad [data-press="retry"]').tap()
        wait_kept(page)
        assert text(page)[:2] == ["6-1/16", "6-1/8"]
    assert at.value(job, "survey.walls.B.studs.B1.readings.2") == "6-1/16"
    assert at.value(job, "survey.walls.B.studs.B1.readings.24") == "6-1/8"


@pytest.mark.parametrize(
    ("order", "places"),
    [
        ("up", ["B1 2", "B1 48", "B1 90", "B2 2"]),
        ("down", ["B1 90", "B1 48", "B1 2", "B2 90"]),
        ("zigzag", ["B1 2", "B1 48", "B1 90", "B2 90"]),
        ("out", ["B1 2", "B2 2", "B1 48", "B2 48"]),
        ("in", ["B2 2", "B1 2", "B2 48", "B1 48"]),
    ],
)
def test_rows_go_in_either_direction(browser: Browser, at: Site, order: str, places: list[str]) -> None:
    job = typed(at, wall("B", 2, heights='["2", "48", "90"]'))
    with phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        tap(page, "list")
        page.locator(".pad-list select").first.select_option(order)
        page.locator(".pad-list-head button").tap()
        found = []
        for part in range(1, 5):
            row = page.evaluate("(pad => pad.rows[pad.at].label + ' ' + pad.rows[pad.at].at)(globalThis.pad)")
            found.append(row)
            tap(page, f"part 6 {part}")
        assert found == places


def test_it_works_without_script(browser: Browser, at: Site) -> None:
    job = typed(at, wall("B", 1))
    with phone(browser, at, java_script_enabled=False) as page:
        page.goto(f"{HOME}/job/{job}/read/B")
        page.get_by_label("B1 48").fill("5-7/8")
        page.get_by_role("button", name="Keep").click()
        assert page.get_by_label("B1 48").input_value() == "5-7/8"
    assert at.value(job, "survey.walls.B.studs.B1.readings.48") == "5-7/8"


TOUCHES = """() => [
  ...document.querySelectorAll('.pad-keys.over .pad-key, .pad-band .pad-key'),
].filter((key) => {
  const words = document.createRange();
  words.selectNodeContents(key);
  const [box, inside] = [key.getBoundingClientRect(), words.getBoundingClientRect()];
  return inside.width && (inside.left - box.left < 8 || box.right - inside.right < 8);
}).map((key) => key.textContent)"""
"""Keys whose words come nearer to an edge than a border and a letter's breadth."""


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("language", ["en", "es"])
def test_no_word_of_a_wide_key_touches_its_border(
    browser: Browser, at: Site, size: tuple[int, int], language: str
) -> None:
    """independent: the words' own box against the key's, as the browser laid them out."""
    job = bring(at, "old-alcove")
    wet = bring(at, "wet-corner")
    seen = set()
    with phone(browser, at, size) as page:
        for path in (f"/job/{job}/read/B", f"/job/{wet}/water/round/3", f"/job/{wet}/floor/read"):
            page.goto(f"{HOME}{path}?lang={language}")
            page.wait_for_function("document.querySelector('.pad-keys').children.length > 0")
            assert page.evaluate(TOUCHES) == []
            seen |= set(page.locator(".pad-keys.over .pad-key, .pad-band .pad-key").all_inner_texts())
            listed = page.locator('[data-press="list"]').first
            listed.tap()
            broken = page.evaluate(
                "[...document.querySelectorAll('.pad-list li strong')]"
                ".filter(each => each.getClientRects().length && each.offsetHeight > 40).length"
            )
            assert broken == 0, "a figure stands on one line"
            starts = page.evaluate(
                "[...document.querySelectorAll('.pad-list li span')]"
                ".map(each => each.getBoundingClientRect().left)"
            )
            assert len(set(starts)) == 1, "places stand under each other"
    assert {"Pick a reading", "Escoja una lectura"} & {" ".join(each.split()) for each in seen}
