"""The pad stands before the phone's storage is open: what is typed waits, not shown as taken before."""

from __future__ import annotations

import json

import pytest

from tests.hosts.test_phone import PAD_UP, SHOWN, readings, typed
from undertile.bench.browser import LOG, READY, Browser, Site
from undertile.bench.phone_kills import PAD

LAST_KEPT = """async (value) => {
  const found = await (await caches.open("last-screen")).match("last-screen.json");
  return found && (await found.text()).includes(value);
}"""
WAITS = """() => {
  const open = IDBFactory.prototype.open;
  const held = [];
  IDBFactory.prototype.open = function (...given) {
    const told = {};
    held.push(() => {
      const asked = open.apply(indexedDB, given);
      for (const kind of ["onsuccess", "onerror", "onupgradeneeded"]) {
        asked[kind] = (event) => {
          told.result = event.target.result;
          told.error = event.target.error;
          told[kind]?.(event);
        };
      }
    });
    return told;
  };
  window.letItOpen = () => {
    IDBFactory.prototype.open = open;
    for (const each of held) each();
  };
  window.Worker = class { postMessage() {} terminate() {} };
}"""
"""The storage opens when it is told to, and there is no Python."""
PLANT = """async ([text, page]) => {
  window.undertile.screen.toLast = () => {};
  const cache = await caches.open("last-screen");
  const [{ url }] = await cache.keys();
  if (text !== null) return cache.put(url, new Response(text));
  await cache.delete(url);
  await window.undertile.log.keepPage(window.undertile.path(), page);
}"""
"""Another text where the screen last shown is kept, or none there and another page in the log."""
STATE = "() => window.undertile.screen.pad.pad.rows.map((row) => [row.value, row.state]).slice(0, 3)"


def started_anew(browser: Browser, site: Site) -> None:
    """The browser killed and started again without a network, at the pad, the storage not open."""
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.add_init_script(f"({WAITS})()")
    browser.page.goto(site.address + PAD)
    browser.until(PAD_UP)


def test_what_is_typed_before_the_storage_is_open_waits_for_it(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(LAST_KEPT, '"value":"151"')
    started_anew(browser, site)
    assert browser.page.evaluate("() => window.undertile.log") is None
    assert browser.page.evaluate(STATE)[0] == ["151", ""]
    typed(browser, "152")
    assert browser.page.evaluate(STATE)[1] == ["152", "keeping"]
    assert not browser.page.evaluate(SHOWN)
    browser.page.evaluate("() => window.letItOpen()")
    browser.until(SHOWN)
    assert browser.page.evaluate(STATE)[:2] == [["151", ""], ["152", "kept"]]
    assert readings(browser) == ["151", "152"]


def test_half_a_value_typed_before_the_storage_is_open_stays(at_pad: Browser, site: Site) -> None:
    """Keys pressed before and after are one value: 151 never becomes 1."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    started_anew(browser, site)
    browser.page.keyboard.type("15")
    browser.page.evaluate("() => window.letItOpen()")
    browser.until("() => window.undertile.log && window.undertile.counts.all > 0")
    browser.page.keyboard.type("1")
    browser.page.keyboard.press("Enter")
    browser.until(SHOWN)
    assert readings(browser) == ["151"]


def test_a_pad_nobody_has_touched_begins_where_the_storage_says(at_pad: Browser, site: Site) -> None:
    """The screen kept for the start may be a value behind: a kill between the two."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate("() => { window.undertile.screen.toLast = () => {}; }")
    typed(browser, "151")
    browser.until(SHOWN)
    started_anew(browser, site)
    assert browser.page.evaluate(STATE)[0][0] in (None, "")
    browser.page.evaluate("() => window.letItOpen()")
    browser.until("() => window.undertile.screen.pad.pad?.rows[0].value === '151'")
    assert browser.page.evaluate("() => window.undertile.screen.pad.pad.at") == 1


def kept_screen(sheet: str) -> str:
    """A screen with a pad and this sheet."""
    told = f'<script id="pad-sheet" type="application/json">{sheet}</script>'
    html = f'<div id="pad" hidden></div><div id="pad-list"></div>{told}'
    return json.dumps({"path": PAD[1:], "html": html, "typed": {}, "language": "en"})


@pytest.mark.parametrize(
    ("text", "page", "at"),
    [
        (kept_screen('{"job":"x"}'), None, PAD),
        (kept_screen("{torn"), None, ""),
        ("{}", None, ""),
        ("5", None, ""),
        (None, json.loads(kept_screen('{"job":"x"}')), PAD),
        (None, 5, PAD),
        (None, None, "#%zz"),
    ],
    ids=[
        "a sheet of another shape",
        "a torn sheet",
        "nothing in it",
        "a number",
        "a kept page",
        "a kept number",
        "an address that is none",
    ],
)
def test_a_kept_screen_that_cannot_be_drawn_keeps_no_start_back(
    at_pad: Browser, site: Site, text: str | None, page: object, at: str
) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(LAST_KEPT, '"value":"151"')
    browser.page.evaluate(PLANT, [text, page])
    log = browser.page.evaluate(LOG)
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.goto(site.address + at)
    browser.until(READY)
    browser.until("() => Boolean(window.undertile.bundle)")
    assert browser.page.evaluate("() => window.undertile.screen.shown === window.undertile.screen.path")
    if at:
        assert browser.page.evaluate(STATE)[0][0] == "151"
        typed(browser, "152")
        browser.until(SHOWN)
        assert readings(browser) == ["151", "152"]
        browser.until(LAST_KEPT, '"value":"152"')
    else:
        assert (
            browser.page.evaluate("() => document.querySelector('#place').innerText").strip() != "undefined"
        )
        assert browser.page.evaluate(LOG) == log
