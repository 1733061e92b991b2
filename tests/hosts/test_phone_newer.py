"""A phone and its log of unlike ages, and updates broken off: nothing kept is lost, the tool opens."""

from __future__ import annotations

import json
import threading
import zipfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from tests.hosts.laptop import MEMORY_KEPT
from tests.hosts.test_inside import Phone
from tests.hosts.test_phone import (
    CACHES,
    CHANGED_OVER,
    KNOWN,
    PAD_UP,
    SHOWN,
    STRIP,
    TWIN,
    UPDATE,
    a_newer_version,
    readings,
    typed,
)
from tests.hosts.test_phone import changed as changed
from tests.hosts.test_phone_early import LAST_KEPT
from tests.hosts.test_phone_faults import FORGET, GO, NUMBER, OFFER, OPEN_IS
from tests.hosts.test_phone_faults import _no_copies_left as _no_copies_left
from tests.store.cast import NEWER
from undertile.bench.browser import READY, USABLE, WAIT_S, Browser, Site
from undertile.bench.phone_kills import JOB, PAD
from undertile.job.entry import read_log

NEWER_STORE = """() => new Promise((resolve, reject) => {
  window.undertile.log.db.close();
  const asked = indexedDB.open("undertile", 99);
  asked.onupgradeneeded = () => asked.result.createObjectStore("tomorrow");
  asked.onsuccess = () => { asked.result.close(); resolve(true); };
  asked.onerror = () => reject(asked.error);
})"""
OLDER_STORE = """() => new Promise((resolve, reject) => {
  const asked = indexedDB.open("undertile", 1);
  asked.onupgradeneeded = () => {
    const db = asked.result;
    const entries = db.createObjectStore("entries", { keyPath: "n", autoIncrement: true });
    entries.createIndex("id", ["job", "id"]);
    entries.createIndex("fact", ["job", "fact"]);
    entries.createIndex("copied", ["copied", "job"]);
    const settings = db.createObjectStore("settings");
    db.createObjectStore("jobs").put(1, JOB);
    db.createObjectStore("photos", { keyPath: ["job", "name"] });
    db.createObjectStore("pages");
    const device = "e".repeat(32);
    settings.put(device, "device");
    settings.put(2, "next");
    const entry = { id: `${device}-1`, fact: "place", value: "upstairs", time: "2026-11-25T08:00:00Z",
      who: "Kim", device, instrument: "", supersedes: [], version: 2 };
    entries.add({ job: JOB, id: entry.id, fact: "place", line: JSON.stringify(entry), own: 1, copied: 0 });
  };
  asked.onsuccess = () => { asked.result.close(); resolve(true); };
  asked.onerror = () => reject(asked.error);
})""".replace("JOB", json.dumps(JOB))


def test_a_line_of_a_newer_version_stays_and_leaves_as_it_came(at_pad: Browser, tmp_path: Path) -> None:
    browser = at_pad
    browser.until(READY)
    browser.page.evaluate(
        "([job, line]) => window.undertile.log.keep(job, [line], { copied: 1 })", [JOB, NEWER]
    )
    browser.page.reload()
    browser.until(READY)
    typed(browser, "151")
    browser.until(SHOWN)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')")
    with browser.page.expect_download() as found:
        browser.page.click("#copies")
    found.value.save_as(tmp_path / "copy.zip")
    with zipfile.ZipFile(tmp_path / "copy.zip") as archive:
        lines = archive.read("log.jsonl").decode().split("\n")
    assert NEWER in lines
    assert any('"value":"151"' in line for line in lines)


def test_an_older_page_still_takes_and_hands_on_what_a_newer_one_keeps(at_pad: Browser, site: Site) -> None:
    """As after an update that was taken back: this page knows version 2 of the place, it finds version 99."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.page.evaluate(NEWER_STORE)
    browser.page.reload()
    browser.until(PAD_UP)
    browser.until(KNOWN)
    typed(browser, "152")
    browser.until(SHOWN)
    assert readings(browser) == ["151", "152"]
    browser.until(OPEN_IS, NUMBER + 2)
    browser.until(READY)
    rows = json.loads(browser.page.evaluate(TWIN))["rows"]
    assert [row["value"] for row in rows[:2]] == ["151", "152"]


def test_what_an_older_version_kept_is_there_after_the_update(site: Site, tmp_path: Path) -> None:
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.goto(site.address + "bundle.json")
        browser.page.evaluate(OLDER_STORE)
        browser.page.goto(f"{site.address}#/job/{JOB}")
        browser.until("() => document.querySelector('#place').innerText.includes('upstairs')")
        browser.until(OPEN_IS, 1)  # still to be handed on
        made = browser.page.evaluate(
            "(job) => window.undertile.take(job, [{ fact: 'name', value: 'Hall' }])", JOB
        )
        assert made[0]["id"] == f"{'e' * 32}-2", "the same phone goes on counting"
    finally:
        browser.close()


# Updates ------------------------------------------------------------------------------------------------


def test_a_browser_killed_in_the_middle_of_an_update_opens_the_old_tool_with_everything(
    at_pad: Browser, changed: Path, site: Site
) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    before = browser.page.evaluate(CACHES)
    a_newer_version(changed)
    held, go_on = threading.Event(), threading.Event()

    def hold(name: str, content: bytes) -> bytes:
        if name == "static/mark.svg":
            held.set()
            go_on.wait()  # half of the update is here, the rest is on its way
        return content

    site.spoil = hold
    browser.until("() => Boolean(window.undertile.bundle)")
    browser.page.evaluate("() => { window.undertile.bundle.update().catch(() => {}); }")
    assert held.wait(WAIT_S)
    browser.kill()
    go_on.set()
    site.stop()
    browser.again()
    browser.page.goto(site.address + PAD)
    browser.until(USABLE)
    browser.until(PAD_UP)
    assert readings(browser) == ["151"]
    browser.until(OPEN_IS, NUMBER + 1)
    browser.until(READY)
    site.spoil = None
    site.start()
    browser.page.evaluate(UPDATE)
    browser.until(OFFER)
    browser.page.click("#strip button")
    browser.until(CHANGED_OVER)
    assert before != browser.page.evaluate(CACHES)
    browser.until(USABLE)
    assert readings(browser) == ["151"]


def test_a_broken_update_strands_nothing_that_was_not_handed_on(
    at_pad: Browser, changed: Path, site: Site, tmp_path: Path
) -> None:
    """A new version whose Python cannot start: what is on the phone still counts, and leaves as a file.

    Of a phone that has kept no memory of Python: one that has would start from it, as this bundle is the old
    one but for a file.
    """
    browser = at_pad
    browser.until(MEMORY_KEPT)  # or the worker of plans would make it again
    browser.page.evaluate(FORGET)
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(OPEN_IS, NUMBER + 1)
    a_newer_version(changed, "py/undertile.zip", lambda content: content[:1000])
    browser.page.evaluate(UPDATE)
    browser.until(OFFER)
    browser.page.click("#strip button")
    browser.until("() => window.undertile?.stage === 'dead'", limit_s=120)
    assert "Every value you typed is kept here" in browser.page.evaluate(STRIP)
    browser.until(OPEN_IS, NUMBER + 1)
    browser.until(PAD_UP)
    typed(browser, "152")
    browser.until(SHOWN)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')")
    with browser.page.expect_download() as found:
        browser.page.click("#copies")
    found.value.save_as(tmp_path / "log.jsonl")
    assert found.value.suggested_filename == f"{JOB}.log.jsonl"
    log = read_log((tmp_path / "log.jsonl").read_text(encoding="utf-8"))
    assert len(log) == NUMBER + 2
    browser.until("() => document.querySelector('#strip').innerText.includes('not elsewhere yet')")
    assert browser.page.evaluate(OPEN_IS, NUMBER + 2), "a file on this phone is no copy elsewhere"
    browser.page.click("#strip button:not(:last-child)")
    browser.until(OPEN_IS, 0)
    text = (tmp_path / "log.jsonl").read_bytes()
    with ThreadPoolExecutor() as beside:  # what drives the browser holds this thread's event loop
        answer = beside.submit(lambda: Phone().ask("POST", "/open", text, "application/json")).result()
    (lines,) = answer["came"].values()  # as another phone takes it in
    values = [json.loads(line) for line in lines]
    assert sorted(each["value"] for each in values if ".readings." in each["fact"]) == ["151", "152"]


TORN = """async () => {
  const [name] = await caches.keys();
  window.undertile.screen.toLast = () => {};
  clearTimeout(window.undertile.screen.lasting);
  return (await caches.open(name)).delete("./");
}"""
"""As a kill leaves it that comes while the last screen is written: Chromium throws the old one away, then
writes the new one; 9 of 150 kills aimed at that moment came in between."""


def test_a_browser_killed_while_it_keeps_the_last_screen_opens_the_tool_all_the_same(
    at_pad: Browser, site: Site
) -> None:
    """Without a network: the page that a start opens is on the phone twice, and one is never written over."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(LAST_KEPT, '"value":"151"')
    assert browser.page.evaluate(TORN)
    site.stop()
    browser.kill()
    browser.again()
    browser.page.goto(site.address + PAD)
    browser.until(PAD_UP)
    browser.until(KNOWN)
    assert readings(browser) == ["151"]
    browser.until(LAST_KEPT, "pad-sheet")  # and the next start has it again
