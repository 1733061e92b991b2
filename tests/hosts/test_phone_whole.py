"""Is the whole tool on this phone? What the sheet says is what lies in the phone's cache, each time anew."""

from __future__ import annotations

import json
import threading
from pathlib import Path

import pytest

from tests.hosts.test_phone import STRIP
from undertile.bench.browser import READY, Browser, Site

WHOLE = "The whole tool is on this phone: it opens without a network."
LOST = "static/mark.svg"
SAID = "() => document.querySelector('#sheet[open] #whole')?.innerText ?? ''"
SAYS = f"(words) => ({SAID})().includes(words)"
TAKEN = """async (path) => {
  for (const name of await caches.keys()) await (await caches.open(name)).delete(path);
}"""
ALTERED = """async (path) => {
  const name = (await caches.keys()).find((each) => /^undertile-[0-9a-f]+$/.test(each));
  const cache = await caches.open(name);
  const { headers } = await cache.match(path);
  await cache.put(path, new Response("other", { headers }));
}"""
HELD = """async (path) => {
  const found = await caches.match(path);
  if (!found) return "";
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await found.arrayBuffer()));
  return [...sum].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}"""
HASTE = """const later = window.setTimeout;
window.setTimeout = (run, time, ...more) => later(run, [15000, 20000].includes(time) ? 50 : time, ...more);"""
"""The long waits of a page are short."""
MUTE = """const post = ServiceWorker.prototype.postMessage;
ServiceWorker.prototype.postMessage = function (told, ...more) {
  return told?.ask === "whole" ? undefined : post.call(this, told, ...more);
};"""
"""The worker never hears that it is asked."""
NONE = "Object.defineProperty(Navigator.prototype, 'serviceWorker', { value: undefined });"


def listed(bundle: Path) -> dict[str, list[str]]:
    found: dict[str, list[str]] = json.loads((bundle / "bundle.json").read_text(encoding="utf-8"))["files"]
    return found


def all_of(bundle: Path) -> int:
    """independent: the files of the list on disk, and the page once more at the address a start opens."""
    return len(listed(bundle)) + 1


def sheet(browser: Browser) -> None:
    browser.page.evaluate("() => document.querySelector('#sheet').close()")
    browser.page.click("#phone")


def at_jobs(browser: Browser, site: Site, *scripts: str) -> None:
    """The list of jobs, where the phone has its button, in a page that runs these first."""
    for script in scripts:
        browser.page.add_init_script(script)
    browser.page.goto("about:blank")
    browser.page.goto(f"{site.address}#/")
    browser.until(READY)


def cut(name: str, content: bytes) -> bytes:
    raise ConnectionError("no network")


def test_it_is_counted_while_it_comes_and_whole_once_a_start_needs_no_network(
    site: Site, bundle: Path, tmp_path: Path
) -> None:
    """The last file held back; then all of it, said once with what is next; then a new browser offline."""
    may_come = threading.Event()

    def late(name: str, content: bytes) -> bytes:
        if name == LOST:
            may_come.wait(60)
        return content

    site.spoil = late
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.goto(site.address)
        browser.until("() => window.undertile?.opened")
        browser.page.click("#phone")
        browser.until(SAYS, f"{all_of(bundle) - 2} of {all_of(bundle)} files")  # nor does its page begin yet
        assert "The whole tool" not in browser.page.evaluate(SAID)
        may_come.set()
        browser.until(SAYS, WHOLE)
        browser.until(f"() => ({STRIP})().includes('is on this phone now')")
        assert "Next: add this page to the home screen" in browser.page.evaluate(STRIP)
        browser.page.evaluate("() => document.querySelector('#sheet').close()")
        browser.page.click("#strip button")
        assert browser.page.evaluate(STRIP) == ""
        site.stop()
        browser.kill()
        browser.again()
        browser.context.set_offline(True)
        browser.page.goto(site.address)
        browser.until("() => window.undertile?.opened")
        sheet(browser)
        browser.until(SAYS, WHOLE)
        assert browser.page.evaluate(STRIP) == "", "said once"
    finally:
        may_come.set()
        browser.close()


@pytest.mark.parametrize("lose", [TAKEN, ALTERED])
def test_what_the_browser_has_lost_is_missed_and_fetched_again(
    at_pad: Browser, site: Site, bundle: Path, lose: str
) -> None:
    """independent: what lies in the cache at the end is hashed here and compared with the list."""
    at_jobs(at_pad, site)
    at_pad.page.evaluate(lose, LOST)
    site.spoil = cut
    sheet(at_pad)
    at_pad.until(SAYS, f"{all_of(bundle) - 1} of {all_of(bundle)} files")
    assert "The whole tool" not in at_pad.page.evaluate(SAID)
    site.spoil = lambda name, content: content.replace(b"svg", b"gvs")  # of another version: not taken
    sheet(at_pad)
    at_pad.until(SAYS, f"{all_of(bundle) - 1} of {all_of(bundle)} files")
    site.spoil = None
    sheet(at_pad)
    at_pad.until(SAYS, WHOLE)
    assert at_pad.page.evaluate(HELD, LOST) == listed(bundle)[LOST][0]


def test_a_later_start_misses_it_by_itself(at_pad: Browser, site: Site, bundle: Path) -> None:
    """Without the sheet: said where it cannot be mended, and mended where it can."""
    at_pad.page.evaluate(TAKEN, LOST)
    site.spoil = cut
    at_jobs(at_pad, site, HASTE)
    at_pad.until(f"() => ({STRIP})().includes('{all_of(bundle) - 1} of {all_of(bundle)} files')")
    site.spoil = None
    at_jobs(at_pad, site)
    at_pad.until(f"async (hash) => (await ({HELD})('{LOST}')) === hash", listed(bundle)[LOST][0])
    assert at_pad.page.evaluate(STRIP) == ""


@pytest.mark.parametrize(
    ("so", "said"), [(HASTE + MUTE, "is not known"), (NONE, "cannot be opened again without a network")]
)
def test_what_is_not_answered_is_never_yes(at_pad: Browser, site: Site, so: str, said: str) -> None:
    at_jobs(at_pad, site, so)
    sheet(at_pad)
    at_pad.until(SAYS, said)
    assert "The whole tool" not in at_pad.page.evaluate(SAID)
