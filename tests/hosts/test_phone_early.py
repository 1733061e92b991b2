"""The pad stands before the phone's storage is open: what is typed waits, not shown as taken before."""

from __future__ import annotations

import json
import os
from html import escape

from tests.hosts.test_phone import PAD_UP, SHOWN, readings, typed
from undertile.bench.browser import LOG, READY, Browser, Site
from undertile.bench.phone_kills import JOB, PAD

LAST_KEPT = """async (value) => {
  for (const name of await caches.keys()) {
    const found = await (await caches.open(name)).match("./");
    if (!found) continue;
    const last = new DOMParser().parseFromString(await found.text(), "text/html").getElementById("last");
    if (last && (last.dataset.typed + last.dataset.set + last.innerHTML).includes(value)) return true;
  }
  return false;
}"""
"""The page as the next start opens it has the screen in it, and this in the screen."""
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
PLANT = """async ([kept, page]) => {
  window.undertile.screen.toLast = () => {};
  const [name] = await caches.keys();
  const cache = await caches.open(name);
  const built = await cache.match("index.html");
  const text = (await built.text()).replace('<script type="module"', (script) => kept + script);
  const headers = { "content-type": built.headers.get("content-type") };
  await cache.put("./", new Response(text, { headers }));
  if (!kept) await window.undertile.log.keepPage(window.undertile.path(), page);
}"""
"""Something else where the screen last shown is kept, or nothing there and another page in the log."""
STATE = "() => window.undertile.screen.pad.pad.rows.map((row) => [row.value, row.state]).slice(0, 3)"


def started_anew(browser: Browser, site: Site, at: str = PAD, up: str = PAD_UP, also: str = "") -> None:
    """The browser killed and started again without a network, at the pad, the storage not open."""
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.add_init_script(f"({WAITS})()")
    if also:
        browser.page.add_init_script(f"({also})()")
    browser.page.goto(site.address + at)
    browser.until(up)


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


def test_a_value_typed_over_one_the_kept_screen_does_not_know_takes_none_away(
    at_pad: Browser, site: Site
) -> None:
    """independent: two values of one place stand side by side until a person says (convention 7.3)."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate("() => { window.undertile.screen.toLast = () => {}; }")
    typed(browser, "151")
    browser.until(SHOWN)
    started_anew(browser, site)
    typed(browser, "152")  # blind: the place it stands at was read before
    browser.page.evaluate("() => window.letItOpen()")
    browser.until(SHOWN)
    first, second = [json.loads(each["line"]) for each in browser.page.evaluate(LOG)][-2:]
    assert (first["value"], second["value"]) == ("151", "152")
    assert first["fact"] == second["fact"]
    assert second["supersedes"] == []


def test_a_pad_somebody_has_begun_on_stays_though_another_screen_was_open_last(
    at_pad: Browser, site: Site
) -> None:
    """A phone ended in the moment another screen was opened: what is kept for the start is the one before."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate("to => window.undertile.log.set('path', to)", f"/job/{JOB}/room")
    started_anew(browser, site, "")
    browser.page.keyboard.type("15")
    browser.page.evaluate("() => window.letItOpen()")
    browser.until("() => window.undertile.opened")
    browser.page.keyboard.type("1")
    browser.page.keyboard.press("Enter")
    browser.until(SHOWN)
    assert readings(browser) == ["151"]
    assert browser.page.evaluate("() => document.body.dataset.screen") == "pad"


HOLDS = """() => {
  const own = window.setTimeout;
  window.setTimeout = (then, ms, ...told) => {
    if (ms === 800) window.letGo = then;
    else return own(then, ms, ...told);
  };
}"""
"""The moment in which a pad holds still ends when it is told to."""


def test_a_pad_that_stands_elsewhere_than_the_one_before_it_holds_still_for_a_moment(
    at_pad: Browser, site: Site
) -> None:
    """What a thumb on its way meant for one place is not taken at another."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate("() => { window.undertile.screen.toLast = () => {}; }")
    typed(browser, "151")
    browser.until(SHOWN)
    started_anew(browser, site, also=HOLDS)
    browser.page.evaluate("() => window.letItOpen()")
    browser.until("() => window.undertile.screen.pad.pad?.rows[0].value === '151'")
    browser.page.keyboard.type("152")
    browser.page.keyboard.press("Enter")
    assert browser.page.evaluate("() => document.querySelector('#pad').dataset.hold") == "yes"
    assert readings(browser) == ["151"]
    browser.page.evaluate("() => window.letGo()")
    assert browser.page.evaluate("() => document.querySelector('#pad').dataset.hold") is None
    typed(browser, "152")
    browser.until("() => window.undertile.screen.pad.pad.rows[1].state === 'kept'")
    assert readings(browser) == ["151", "152"]


CHOSEN = "() => window.undertile.screen.pad.pad.set.order"
NO_SMALL_STORE = """() => {
  Storage.prototype.getItem = () => { throw new Error("asked before the log is open"); };
}"""
"""Where it is asked, whoever waits for the pad waits for it too; and then the pad would not know."""


def test_what_was_chosen_for_the_pad_holds_from_the_first_moment(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    other = "down" if browser.page.evaluate(CHOSEN) == "up" else "up"
    browser.page.evaluate("to => window.undertile.screen.pad.pad.change('order', to)", other)
    browser.until(LAST_KEPT, f'"order":"{other}"')
    started_anew(browser, site, also=NO_SMALL_STORE)
    assert browser.page.evaluate("() => window.undertile.log") is None
    assert browser.page.evaluate(CHOSEN) == other
    browser.page.evaluate("() => window.letItOpen()")
    browser.until("() => window.undertile.opened")
    assert browser.page.evaluate(CHOSEN) == other


SAYS_SO = "() => getComputedStyle(document.querySelector('#place'), '::before').content"


def test_a_screen_from_before_says_so_until_it_is_worked_out_anew(at_pad: Browser, site: Site) -> None:
    """A figure that may be old never stands as if it were today's; over the pad nothing lies."""
    browser = at_pad
    assert browser.page.evaluate(SAYS_SO) == "none"
    browser.page.goto(f"{site.address}#/job/{JOB}/room")
    browser.until("() => document.body.dataset.screen === 'room'")
    browser.until(READY)
    assert browser.page.evaluate(SAYS_SO) == "none"
    browser.until(LAST_KEPT, "B8")
    started_anew(browser, site, f"#/job/{JOB}/room", "() => document.body.dataset.screen === 'room'")
    assert browser.page.evaluate(SAYS_SO) == '"As last shown, not worked out anew yet."'
    if folder := os.environ.get("UNDERTILE_PICTURES"):
        browser.page.screenshot(path=f"{folder}/as-last-shown.png")


FACTS = {"path": PAD[1:], "language": "en", "title": "", "home": "", "href": "/", "screen": "pad", "job": ""}
ROWS = '[{"fact":"a","kind":"reading","label":"L1","at":"2","group":"L","value":null,"stands":[]}]'
SHEET = f'{{"job":"{"0" * 32}","unit":"mm","words":{{}},"rows":{ROWS}}}'
"""Enough of a sheet to open a pad with."""


def screen(sheet: str = SHEET) -> str:
    """A screen with a pad and this sheet."""
    told = f'<script id="pad-sheet" type="application/json">{sheet}</script>'
    return f'<div id="pad" hidden></div><div id="pad-list"></div>{told}'


def kept(html: str, typed: str = "{}", **other: str) -> str:
    """A screen as it is kept in the page."""
    told = {**FACTS, "root": "", "typed": typed, **other}
    facts = "".join(f' data-{name}="{escape(value)}"' for name, value in told.items())
    return f'<template id="last"{facts}>{html}</template>'


def cold(browser: Browser, site: Site, at: str) -> None:
    """Killed and started again without a network."""
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.goto(site.address + at)


def test_what_is_planted_here_would_be_drawn_if_it_were_whole(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate(PLANT, [kept(screen()), None])
    cold(browser, site, PAD)
    browser.until("() => performance.getEntriesByName('undertile-seen').length > 0")


CANNOT_BE_DRAWN: dict[str, tuple[str, object, str]] = {
    "a sheet of another shape": (kept(screen('{"job":"x"}')), None, PAD),
    "a torn sheet": (kept(screen("{torn")), None, ""),
    "what was typed torn": (kept(screen(), typed="{torn"), None, PAD),
    "nothing in it": ('<template id="last"></template>', None, ""),
    "a kept page": ("", {"html": screen('{"job":"x"}')}, PAD),
    "a kept number": ("", 5, PAD),
    "an address that is none": ("", None, "#%zz"),
}
"""What stands where the last screen is kept, what in the log, and the address that the start is given."""
STANDS_THERE = "() => window.undertile.screen.shown === window.undertile.screen.path"


def test_a_kept_screen_that_cannot_be_drawn_keeps_no_start_back(at_pad: Browser, site: Site) -> None:
    """One after the other on one phone: each is planted on a pad that was well, and begins with a kill."""
    browser = at_pad
    values: list[str] = []

    def taken() -> None:
        values.append(str(151 + len(values)))
        typed(browser, values[-1])
        browser.until(SHOWN)
        browser.until(LAST_KEPT, f'"value":"{values[-1]}"')

    for how, (text, page, at) in CANNOT_BE_DRAWN.items():
        browser.page.evaluate("(to) => { location.hash = to; }", PAD)
        browser.until(f"() => window.undertile.screen.shown === '{PAD[1:]}'")
        browser.until(PAD_UP)
        taken()
        browser.page.evaluate(PLANT, [text, page])
        log = browser.page.evaluate(LOG)
        cold(browser, site, at)
        browser.until(READY)
        browser.until("() => Boolean(window.undertile.bundle)")
        assert browser.page.evaluate(
            "() => window.undertile.screen.shown === window.undertile.screen.path"
        ), how
        assert browser.page.evaluate(LOG) == log, how
        if at:
            assert browser.page.evaluate(STATE)[0][0] == "151", how
            taken()
            assert readings(browser) == values, how
        else:
            shows = browser.page.evaluate("() => document.querySelector('#place').innerText")
            assert shows.strip() != "undefined", how


BAR = """() => {
  const bar = document.querySelector("#copies");
  return [bar.innerText.trim(), bar.getAttribute("aria-label"), document.documentElement.lang].join(" | ");
}"""
ENGLISH, SPANISH = "Save a copy | en", "Guardar copia | es"


def test_the_bar_speaks_the_language_of_the_phone_at_once_and_at_each_start(
    at_pad: Browser, site: Site
) -> None:
    """Whoever chooses one, on a sheet, by an address or in another tab, reads it everywhere from then on."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(f"() => ({BAR})().includes('not yet copied')")
    assert ENGLISH in browser.page.evaluate(BAR)
    browser.page.evaluate("() => void window.undertile.set('language', 'es')")
    assert browser.page.evaluate(BAR).split(" | ")[0].endswith("sin copiar")
    assert SPANISH in browser.page.evaluate(BAR)
    browser.page.evaluate("() => { location.hash += '?lang=en'; }")
    browser.until(f"() => ({BAR})().includes('not yet copied')")
    assert ENGLISH in browser.page.evaluate(BAR)
    browser.until(f"() => location.hash === '{PAD}'")
    browser.until("() => window.undertile.stage === 'ready'")
    for lang in ("es", "en"):
        browser.page.evaluate("(lang) => { location.hash += `?lang=${lang}`; }", lang)
        browser.until("(lang) => window.undertile.screen.pad.sheet?.language === lang", lang)
    other = browser.context.new_page()
    other.goto(site.address)
    other.evaluate("() => window.undertile.opening.then(() => window.undertile.set('language', 'es'))")
    browser.until(f"() => ({BAR})().includes('sin copiar')")
    other.close()
    started_anew(browser, site)
    browser.page.evaluate("() => window.letItOpen()")
    browser.until(f"() => ({BAR})().includes('sin copiar')")
    assert SPANISH in browser.page.evaluate(BAR)


def test_a_pad_kept_in_another_language_is_shown_anew(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    browser.page.evaluate("() => { window.undertile.screen.toLast = () => {}; }")
    browser.page.evaluate("() => window.undertile.set('language', 'es')")
    cold(browser, site, PAD)
    browser.until("() => window.undertile.screen.pad.sheet?.language === 'es'")
    assert SPANISH in browser.page.evaluate(BAR)


def test_the_page_as_it_was_built_stays_beside_the_one_with_the_screen(at_pad: Browser, site: Site) -> None:
    """An update takes from the cache what has not changed, by its hash: that file is never written over."""
    browser = at_pad
    browser.until(LAST_KEPT, "pad-sheet")
    kept = browser.page.evaluate(
        """async () => {
          const [name] = await caches.keys();
          return (await (await caches.open(name)).match("index.html")).text();
        }"""
    )
    assert kept == (site.folder / "index.html").read_text(encoding="utf-8")


BEGIN_OLD = """async () => {
  const headers = { "content-type": "application/x-www-form-urlencoded", accept: "application/json" };
  const body = new TextEncoder().encode("bundled=old-alcove");
  const answer = await window.undertile.ask({ method: "POST", target: "/", headers, body });
  return JSON.parse(new TextDecoder().decode(answer.content)).href;
}"""
IN_DOUBT = "() => window.undertile.screen.pad.pad.judged.doubts.map((each) => each.fact)"
L3_AT_54 = "survey.walls.L.studs.L3.readings.54"


def test_a_reading_in_doubt_typed_anew_is_not_asked_for_again(at_pad: Browser, site: Site) -> None:
    """Opened at that reading (docs/examples.md: L3 at 54 is a planted slip), typed anew, and killed before
    anything else was worked out."""
    browser = at_pad
    browser.until(READY)
    pad = f"{browser.page.evaluate(BEGIN_OLD)}/read/L?at={L3_AT_54}"
    browser.page.evaluate("(to) => { location.hash = to; }", f"#{pad}")
    row = "() => { const pad = window.undertile.screen.pad?.pad; return pad?.rows[pad.at]?.fact || ''; }"
    browser.until(f"() => ({row})() === '{L3_AT_54}'")
    browser.until(LAST_KEPT, "L3.readings.54")
    assert L3_AT_54 in browser.page.evaluate(IN_DOUBT)
    # Python dies before it can judge
    browser.page.evaluate("() => { window.undertile.screen.kept = () => {}; }")
    typed(browser, "5-7/8")
    browser.until(SHOWN)
    browser.until(LAST_KEPT, '"value":"5-7/8"')
    started_anew(browser, site, f"#{pad}")
    for _ in ("before the log is open", "after"):
        assert L3_AT_54 not in browser.page.evaluate(IN_DOUBT)
        assert browser.page.evaluate(row) != L3_AT_54
        browser.page.evaluate("() => window.letItOpen()")
        browser.until("() => window.undertile.opened")
