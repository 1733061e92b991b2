"""A browser that neither opens the phone's storage nor refuses it: said, and nothing is shown as kept."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.hosts.test_phone import PAD_UP, SHOWN, STRIP, readings, typed
from tests.hosts.test_phone_early import LAST_KEPT, STATE, WAITS, started_anew
from undertile.bench.browser import Browser, Site

SOONER = """() => {
  const later = window.setTimeout;
  window.setTimeout = (work, ms, ...rest) => later(work, ms === 8000 ? 400 : ms, ...rest);
}"""
"""The limit is pinned, and not waited for."""
WAITED = """() => {
  const { setTimeout: later, clearTimeout: forget } = window;
  window.waited = [];
  window.setTimeout = (work, ms, ...rest) => {
    const one = later(work, ms, ...rest);
    if (ms === 8000) window.waited.push(one);
    return one;
  };
  window.clearTimeout = (one) => {
    window.waited = window.waited.map((each) => (each === one ? "ended" : each));
    forget(one);
  };
}"""
"""What became of the limit."""
SAID = {
    "en": ("has not opened this phone's storage", "a value typed now is not kept", "start it anew"),
    "es": (
        "no ha abierto el almacenamiento",
        "lo que escriba ahora no queda guardado",
        "cierre el navegador y ábralo de nuevo",
    ),
}
KEEPS = ("What you type is kept", "Every value you typed is kept", "Lo que escriba se guarda", "kept here")


def test_a_storage_that_never_opens_is_said_on_the_start_page_and_it_goes_on_when_it_does(
    site: Site, tmp_path: Path
) -> None:
    """A first visit: else there is a bar on the page and nothing else, for ever."""
    browser = Browser(tmp_path / "profile")
    try:
        for script in (SOONER, WAITS):
            browser.page.add_init_script(f"({script})()")
        browser.page.goto(site.address)
        browser.until(f"() => ({STRIP})().includes('storage')")
        told = browser.page.evaluate(STRIP)
        assert all(part in told for part in SAID["en"]), told
        assert "×" not in told, "it stays until its cause is gone"
        label = browser.page.get_attribute("#copies", "aria-label") or ""
        assert "not counted yet" in label, "not measured is not zero"
        browser.page.click("#phone")
        browser.until("() => document.querySelector('#sheet').open")
        assert "not counted yet" in browser.page.inner_text("#sheet")
        assert "0 kept" not in browser.page.inner_text("#sheet")
        keys = browser.page.locator("#sheet button, #sheet input").all_inner_texts()
        assert keys == ["Close"], "nothing could be kept"
        browser.page.evaluate("() => document.querySelector('#sheet').close()")
        browser.page.evaluate("() => window.letItOpen()")
        browser.until("() => window.undertile.opened")
        assert "storage" not in browser.page.evaluate(STRIP)
        assert browser.page.inner_text("#copies").strip() == "0 kept here"
    finally:
        browser.close()


@pytest.mark.parametrize("language", ["en", "es"])
def test_what_is_typed_meanwhile_is_not_shown_as_kept_and_is_kept_once_it_opens(
    at_pad: Browser, site: Site, language: str
) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.page.evaluate("(language) => window.undertile.set('language', language)", language)
    browser.page.evaluate("() => window.undertile.screen.toLast(window.undertile.screen.path)")
    browser.until(LAST_KEPT, '"value":"151"')
    browser.until(
        "async (language) => (await window.undertile.log.setting('language')) === language", language
    )
    started_anew(browser, site, also=SOONER)
    typed(browser, "152")
    browser.until(f"(words) => ({STRIP})().includes(words)", SAID[language][0])
    told = browser.page.evaluate(STRIP)
    assert all(part in told for part in SAID[language]), told
    for state in ("slow", "stuck"):  # Python waits for the same storage
        browser.page.evaluate("(state) => window.undertile.engineIs(state)", state)
        assert not [each for each in KEEPS if each in browser.page.evaluate(STRIP)]
    assert browser.page.evaluate(STATE)[1] == ["152", "keeping"]
    assert not browser.page.evaluate(SHOWN)
    browser.page.evaluate("() => window.letItOpen()")
    browser.until(SHOWN)
    assert SAID[language][0] not in browser.page.evaluate(STRIP)
    assert readings(browser) == ["151", "152"], "each once"


def test_a_start_that_opens_in_time_says_nothing_of_it(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    browser.page.add_init_script(f"({WAITED})()")
    browser.page.reload()
    browser.until(PAD_UP)
    browser.until("() => window.undertile.opened")
    assert browser.page.evaluate("() => window.waited") == ["ended"]
