"""On a host of files alone nobody is asked for an exchange; a laptop that serves the same files is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.hosts.test_phone import SHOWN, typed
from tests.hosts.test_phone import changed as changed
from undertile.bench.browser import READY, Browser, Site
from undertile.bench.phone_kills import prepared

STATE = "() => window.undertile.sync.state"


def marked(folder: Path) -> None:
    """As ``export-phone`` writes the list (test_build)."""
    path = folder / "bundle.json"
    told = json.loads(path.read_text(encoding="utf-8"))
    path.write_text(json.dumps({"alone": True, **told}), encoding="utf-8")


@pytest.mark.parametrize("alone", [True, False])
def test_a_host_of_files_alone_is_posted_nothing_and_the_console_has_no_error(
    changed: Path, site: Site, tmp_path: Path, alone: bool
) -> None:
    """independent: what the browser itself says it has sent, and its console; a pad is open, a value kept.

    The same files without that word may be a laptop's: there it is asked, which shows that this can fail.
    """
    if alone:
        marked(changed)
    posted: list[str] = []
    errors: list[str] = []
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.on("request", lambda told: posted.append(told.url) if told.method == "POST" else None)
        browser.page.on("console", lambda told: errors.append(told.text) if told.type == "error" else None)
        browser.page.goto(site.address)
        browser.until(READY)
        prepared(browser)
        typed(browser, "151")
        browser.until(SHOWN)
        browser.until(f"() => ({STATE})() === 'none'")
        browser.page.reload()
        browser.until(READY)
        browser.until(f"() => ({STATE})() === 'none'")
        browser.page.evaluate("() => window.undertile.sync.run()")
    finally:
        browser.close()
    if alone:
        assert (posted, errors) == ([], [])
    else:
        assert "sync" in {url.rsplit("/", 1)[1] for url in posted}
        assert errors
