"""A page of the app in Chromium, without a socket: the test client answers what the browser asks."""

from __future__ import annotations

import atexit
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from typing import Any

from playwright.sync_api import Browser, Error, Page, Playwright, Request, Route, sync_playwright

from tests.conftest import browser_path
from tests.screens.cast import Site
from undertile.bench.browser import BARE, PATIENT

HOME = "http://undertile.test"
PATIENCE_MS = 60_000
"""Only ends a test that hangs: a busy machine is slow, not wrong."""
SIZES = ((390, 844), (360, 640))
LOOKS = ((SIZES[0], "en"), (SIZES[1], "es"))
"""Each size and each language once; the longer words on the smaller phone."""


class _One:
    """The browser that the tests of this folder share: each page has a context of its own."""

    play: Playwright | None = None
    browser: Browser | None = None


@contextmanager
def chromium() -> Iterator[Browser]:
    """Debian's Chromium, headless: started once, ended by ``close`` (``conftest.py``)."""
    if _One.browser is None or not _One.browser.is_connected():
        close()
        _One.play = sync_playwright().start()
        atexit.register(close)  # for the commands beside the tests
        args = ["--no-sandbox", *PATIENT, *BARE]
        _One.browser = _One.play.chromium.launch(executable_path=browser_path(), args=args)
    yield _One.browser


def close() -> None:
    """End the shared browser, if there is one: what drives it holds the thread's event loop."""
    if _One.browser is not None:
        with suppress(Error):
            _One.browser.close()
    if _One.play is not None:
        _One.play.stop()
    _One.browser = _One.play = None


@contextmanager
def phone(browser: Browser, at: Site, size: tuple[int, int] = SIZES[0], **more: Any) -> Iterator[Page]:
    """A phone's page over a site; an error in a script of ours fails the test."""
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]}, has_touch=True, is_mobile=True, **more
    )
    page = context.new_page()
    page.set_default_timeout(PATIENCE_MS)
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.on("requestfailed", lambda request: faults.append(_failed(request)))

    def answer(route: Route) -> None:
        asked = route.request
        path = asked.url.removeprefix(HOME)
        if path == asked.url:
            route.fulfill(status=404, body="")
            return
        headers = {key: value for key, value in asked.headers.items() if key != "accept-encoding"}
        got = at.client.request(asked.method, path, content=asked.post_data_buffer, headers=headers)
        route.fulfill(status=got.status_code, headers=dict(got.headers), body=got.content)

    page.route("**/*", answer)
    yield page
    context.close()
    told = [each for each in faults if each]
    if told:
        raise AssertionError(told)


def _failed(request: Request) -> str:
    """What was asked for and not had; "" where the page itself went on to another."""
    return "" if "ERR_ABORTED" in (request.failure or "") else f"{request.url}: {request.failure}"


def tap(page: Page, press: str) -> None:
    """One tap on a key of the pad, as a thumb does it."""
    page.locator(f'.pad [data-press="{press}"]').first.tap()


def shown(page: Page, part: str) -> str:
    """What a part of the pad says."""
    return " ".join(page.locator(f".pad-{part}").inner_text().split())


def said(page: Page, words: str) -> None:
    """Until the pad says so."""
    page.wait_for_function(
        "words => document.querySelector('.pad-band').textContent.includes(words)", arg=words, polling=10
    )


def keys_take_a_glove(page: Page, size: tuple[int, int], least: int, also: str = "") -> None:
    """Nothing scrolls, every key of the pad is of 60 px and in sight, and no word hangs out of its own."""
    assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    sizes = page.evaluate(
        "[...document.querySelectorAll('.pad-keys .pad-key')].map(key => key.getBoundingClientRect())"
        ".map(box => [box.width, box.height, box.right, box.bottom])"
    )
    assert len(sizes) >= least
    assert all(width >= 60 and height >= 60 for width, height, *_ in sizes)
    assert all(right <= size[0] and bottom <= size[1] for *_, right, bottom in sizes)
    spilt = page.evaluate(
        "css => [...document.querySelectorAll(css)]"
        ".filter(each => each.scrollWidth > 1 + each.clientWidth).map(each => each.textContent)",
        f".pad-key{also}",
    )
    assert spilt == []


def wait_kept(page: Page) -> None:
    """Until everything tapped is kept."""
    page.wait_for_function("globalThis.pad.waiting.length === 0", polling=10)
