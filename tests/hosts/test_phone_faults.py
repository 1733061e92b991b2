"""What can go wrong on a phone, made to go wrong in a real browser: nothing shown as kept is lost by it."""

from __future__ import annotations

import io
import json
import shutil
import threading
import zipfile
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

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
from tests.hosts.test_server_photo import photo
from tests.store.cast import NEWER, png
from tests.store.test_picture import heic
from undertile.bench import phone_kills
from undertile.bench.browser import LOG, READY, USABLE, WAIT_S, Browser, Site, phone
from undertile.bench.phone_kills import JOB, PAD
from undertile.job import read_job
from undertile.job.entry import read_log
from undertile.job.standing import facts_of
from undertile.store import UNDO, undo_drafts

OPEN_IS = "(number) => window.undertile.counts.open === number"
"""How many entries are nowhere but on this phone; the page counts them after it has shown them as kept."""
NUMBER = len(phone_kills.lines())
"""Entries the job came with."""
OFFER = "() => document.querySelector('#strip').innerText.includes('newer version is on this phone')"
GO = "(target) => { location.hash = `#${target}`; }"
NO_PYTHON = "window.Worker = class { postMessage() {} terminate() {} };"
FORGET = "() => navigator.storage.getDirectory().then((place) => place.removeEntry('heap.bin'))"
"""Python's memory, which the phone has kept."""
FIRST = "survey.walls.B.studs.B1.readings.50 mm"


def entries(browser: Browser) -> list[dict[str, Any]]:
    return [json.loads(record["line"]) for record in browser.page.evaluate(LOG)]


# A phone without room -----------------------------------------------------------------------------------


EVICT = "indexeddb,cache_storage,service_workers,file_systems"


def evicted(browser: Browser, address: str = "") -> None:
    """The browser throws away what a site keeps, as Chromium does by itself where the disk is full: the site
    at an address, else the one that is open."""
    origin = address.rstrip("/") or browser.page.evaluate("() => location.origin")
    session = browser.context.new_cdp_session(browser.page)
    session.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": EVICT})


def test_what_the_browser_throws_away_under_an_open_page_comes_back_whole(at_pad: Browser) -> None:
    """Entries of others and photos too: Python's copy has them, and goes on from there."""
    browser = at_pad
    browser.until(READY)
    content = photo((90, 70))
    assert browser.page.evaluate(TAKE, [f"/job/{JOB}/photos", "a.jpg", list(content)])["status"] == 200
    browser.page.evaluate(
        "([job, line]) => window.undertile.log.keep(job, [line], { copied: 1 })", [JOB, NEWER]
    )
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until("() => performance.getEntriesByName('undertile-judged').length > 0")
    before = browser.page.evaluate(LOG)
    photos = browser.page.evaluate(KEPT)
    assert photos
    evicted(browser)
    browser.until("() => document.querySelector('#strip').innerText.includes('were brought back')")
    after = browser.page.evaluate(LOG)
    assert sorted(each["line"] for each in after) == sorted(each["line"] for each in before)
    assert browser.page.evaluate(KEPT) == photos
    typed(browser, "152")
    browser.until("() => window.undertile.stage === 'ready'")
    browser.until(SHOWN)
    mine = [each for each in entries(browser) if ".readings." in each["fact"]]
    assert [each["value"] for each in sorted(mine, key=lambda each: each["id"])] == ["151", "152"]
    assert len({each["id"] for each in entries(browser)}) == len(after) + 1, "no number twice"


def test_what_the_browser_throws_away_under_a_closed_page_comes_back_from_the_second_place(
    at_pad: Browser, site: Site
) -> None:
    """What no other copy has, with the phone's own name and number, though all else is gone."""
    browser = at_pad
    browser.until(READY)  # a page left while its workers start may fall over in Chromium
    browser.page.evaluate("(job) => window.undertile.log.copied(job, 1e9)", JOB)
    for value in ("151", "152"):
        typed(browser, value)
        browser.until(SHOWN)
    device = entries(browser)[-1]["device"]
    kept = [record["line"] for record in browser.page.evaluate(LOG) if not record["copied"]]
    assert len(kept) == 2 < len(entries(browser))
    # In a browser that has opened nothing of this site: at whatever address here, the service worker answers
    # with the tool, and where the storage goes while that opens it, Chromium may never answer
    # (test_phone_late).
    browser.leave()
    browser.again()
    evicted(browser, site.address)
    browser.page.goto(f"{site.address}#/job/{JOB}")
    browser.until("() => document.querySelector('#strip').innerText.includes('were brought back')")
    found = browser.page.evaluate(LOG)
    assert sorted(each["line"] for each in found) == sorted(kept)
    assert all(each["own"] and not each["copied"] for each in found)
    made = browser.page.evaluate(
        "(job) => window.undertile.take(job, [{ fact: 'name', value: 'Hall' }])", JOB
    )
    assert made[0]["device"] == device
    assert made[0]["id"] not in {each["id"] for each in found}


def test_the_second_place_holds_no_more_than_what_is_nowhere_else(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    spared = """() => Object.keys(localStorage).filter((key) => key.startsWith("undertile.entry.")).length"""
    before = browser.page.evaluate(spared)
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(f"() => ({spared})() === {before + 1}")
    browser.page.evaluate("(job) => window.undertile.log.copied(job, 1e9)", JOB)
    browser.until(f"() => ({spared})() === 0")
    browser.page.evaluate(
        "() => { Storage.prototype.setItem = () => { throw new DOMException('x', 'QuotaExceededError'); }; }"
    )
    typed(browser, "152")
    browser.until(SHOWN)
    assert readings(browser) == ["151", "152"], "a value does not depend on it"


def test_a_browser_set_to_keep_nothing_takes_nothing_and_says_so(site: Site, tmp_path: Path) -> None:
    """Chromium's own setting that sites may keep no data: storage is refused for real."""
    profile = tmp_path / "profile"
    (profile / "Default").mkdir(parents=True)
    told = {"profile": {"default_content_setting_values": {"cookies": 2}}}
    (profile / "Default" / "Preferences").write_text(json.dumps(told), encoding="utf-8")
    browser = Browser(profile)
    try:
        browser.page.goto(site.address)
        browser.until("() => document.querySelector('#strip').innerText.includes('would be lost')")
        assert browser.page.evaluate(DENIED) not in ("", None), "the browser refuses it, not this test"
        why = browser.page.evaluate(
            f"() => window.undertile.take('{JOB}', [{{ fact: 'name', value: 'x' }}]).catch((e) => e.why)"
        )
        assert why == "denied"
    finally:
        browser.close()


DENIED = """() => new Promise((resolve) => {
  try {
    const asked = indexedDB.open("x");
    asked.onsuccess = () => resolve("");
    asked.onerror = () => resolve(asked.error.name);
  } catch (error) {
    resolve(error.name);
  }
})"""

# A clock wrong by years ---------------------------------------------------------------------------------


def test_a_clock_wrong_by_years_changes_no_order_and_no_value(at_pad: Browser, site: Site) -> None:
    """published: convention 7.3. The clock is put to 2099, then to 1970, between two values of one fact."""
    browser = at_pad
    for year, value in ((2099, "151"), (1970, "153")):
        browser.page.evaluate(
            """(year) => {
              const now = Date.UTC(year, 0, 1);
              window.Date = class extends (window.realDate ||= Date) {
                constructor(...all) { all.length ? super(...all) : super(now); }
              };
            }""",
            year,
        )
        browser.page.evaluate(f"() => window.undertile.screen.pad.pad.go('{FIRST}', false)")
        typed(browser, value)
        browser.until(SHOWN)
    mine = [each for each in entries(browser) if each["fact"] == FIRST]
    assert [each["time"][:4] for each in mine] == ["2099", "1970"]
    assert mine[1]["supersedes"] == [mine[0]["id"]]
    browser.page.reload()
    browser.until(READY)
    rows = {row["fact"]: row for row in json.loads(browser.page.evaluate(TWIN))["rows"]}
    assert (rows[FIRST]["value"], rows[FIRST]["clash"]) == ("153", False)


# Two tabs -----------------------------------------------------------------------------------------------


def test_what_python_writes_while_another_tab_types_is_numbered_anew(at_pad: Browser, site: Site) -> None:
    """The other tab takes the number between Python's answer and its keeping: the one moment that matters."""
    one = at_pad
    one.until(READY)
    two = one.context.new_page()
    two.add_init_script(NO_PYTHON)  # it types without
    two.goto(site.address + PAD)
    while not two.evaluate(PAD_UP):
        two.wait_for_timeout(20)
    one.page.evaluate(
        """() => {
          const { log } = window.undertile;
          const keep = log.keep.bind(log);
          log.keep = async (...all) => {
            log.keep = keep;
            window.raced = true;
            await new Promise((go) => { window.go = go; });
            return keep(...all);
          };
        }"""
    )
    form = """([target, body]) => {
      const headers = { "content-type": "application/x-www-form-urlencoded" };
      const request = { method: "POST", target, headers, body: new TextEncoder().encode(body) };
      window.written = window.undertile.ask(request).then(({ head }) => head.made);
    }"""
    one.page.evaluate(form, [f"/job/{JOB}/entries", "fact=place&value=upstairs"])
    one.until("() => Boolean(window.raced && window.go)")
    two.keyboard.type("151")
    two.keyboard.press("Enter")
    while not two.evaluate(SHOWN):
        two.wait_for_timeout(20)
    one.page.evaluate("() => window.go()")
    made = one.page.evaluate("() => window.written")
    (line,) = made[JOB]
    found = entries(one)
    ids = [each["id"] for each in found]
    assert len(set(ids)) == len(ids), "no number twice"
    assert [each for each in found if each["fact"] == "place"] == [json.loads(line)], "kept once"
    assert readings(one) == ["151"]


# Taking back --------------------------------------------------------------------------------------------


def test_the_pad_on_the_phone_takes_back_as_the_store_does(at_pad: Browser) -> None:
    """independent: ``store.undo_drafts`` over the same log says what each step back is to write."""
    browser = at_pad
    go = f"() => window.undertile.screen.pad.pad.go('{FIRST}', false)"
    for value in ("151", "153"):
        browser.page.evaluate(go)
        typed(browser, value)
        browser.until(SHOWN)
    typed(browser, "154")
    browser.until(SHOWN)
    device = entries(browser)[-1]["device"]
    for number in range(3):
        log = read_log("\n".join(json.dumps(each) for each in entries(browser)))
        expected = undo_drafts(log, device)
        browser.page.keyboard.press("Backspace")
        browser.until(f"() => window.undertile.counts.all === {len(log) + 1}")
        browser.until(SHOWN)
        last = entries(browser)[-1]
        assert [(last["fact"], last["value"], tuple(last["supersedes"]))] == [
            tuple(each) for each in expected
        ]
        assert (last["instrument"], last["device"]) == (UNDO, device), number
    log = read_log("\n".join(json.dumps(each) for each in entries(browser)))
    facts = {each.entries[0].fact: each for each in facts_of(log)[0].values()}
    assert [each.value for each in facts[FIRST].standing] == [None]
    browser.until(READY)
    undo = {"method": "POST", "target": f"/job/{JOB}/undo", "headers": {"accept": "application/json"}}
    told = browser.page.evaluate(
        "async (request) => new TextDecoder().decode((await window.undertile.ask(request)).content)", undo
    )
    assert "nothing to take back" in json.loads(told)["error"], "the history's button means the same"
    assert len(entries(browser)) == len(log)


# An old phone, a newer log ------------------------------------------------------------------------------

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


# Files --------------------------------------------------------------------------------------------------


def opened(browser: Browser, path: Path | dict[str, Any]) -> None:
    """A file chosen on the phone's Jobs page."""
    browser.page.evaluate(GO, "/")
    browser.page.evaluate("() => window.undertile.screen.go('/', { again: true })")
    browser.until("() => document.querySelector('#open-file')")
    browser.page.set_input_files("#open-file", path)  # type: ignore[arg-type]
    browser.page.click("#open button")


@pytest.mark.parametrize(
    ("language", "open_", "sure", "said"),
    [
        ("en", "not yet copied", "It is elsewhere now", "of them in a file on this phone"),
        ("es", "sin copiar", "Ya está en otra parte", "de ellos en un archivo de este teléfono"),
    ],
)
def test_a_file_saved_on_this_phone_stays_in_the_count_until_it_is_said_to_be_elsewhere(
    at_pad: Browser, language: str, open_: str, sure: str, said: str
) -> None:
    """Saved, one more value typed, closed and opened: the tap takes off what the file has, and no more."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(READY)
    browser.page.evaluate("(to) => window.undertile.set('language', to)", language)
    with browser.page.expect_download() as found:
        browser.page.evaluate("() => { window.undertile.carry.save(); }")
    name = found.value.suggested_filename
    browser.until("(words) => document.querySelector('#strip').innerText.includes(words)", sure, limit_s=30)
    assert browser.page.evaluate(OPEN_IS, NUMBER + 1)
    assert f"{NUMBER + 1} {open_}" in browser.page.inner_text("#copies")
    typed(browser, "152")
    browser.until(OPEN_IS, NUMBER + 2, limit_s=30)

    browser.page.reload()
    browser.until(READY)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')", limit_s=30)
    assert browser.page.evaluate(OPEN_IS, NUMBER + 2), "after a start too"
    browser.page.click("#phone")
    browser.until("(words) => document.querySelector('#sheet').innerText.includes(words)", said, limit_s=30)
    sheet = browser.page.inner_text("#sheet")
    assert f"{NUMBER + 1} {said}: {name}" in sheet
    browser.page.click(f"#sheet button:text-is('{sure}')")
    browser.until(OPEN_IS, 1, limit_s=30)
    assert f"1 {open_}" in browser.page.inner_text("#copies"), "what was typed after the file is not in it"
    browser.page.click("#phone")
    browser.until("() => document.querySelector('#sheet[open] h2')", limit_s=30)
    assert said not in browser.page.inner_text("#sheet"), "said once"


def test_copies_and_files_go_out_and_in_on_another_phone(at_pad: Browser, site: Site, tmp_path: Path) -> None:
    """By the key with what is not yet copied and the sheet of the phone; and on the page of the jobs."""
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(READY)
    browser.page.evaluate(GO, f"/job/{JOB}")
    browser.until("() => !document.querySelector('.pad-keys')")
    with browser.page.expect_download() as found:
        browser.page.click("#copies")
    saved = found.value.suggested_filename
    found.value.save_as(tmp_path / saved)
    browser.until("() => document.querySelector('#strip').innerText.includes('not elsewhere yet')")
    assert "not yet copied" in browser.page.inner_text("#copies")
    browser.page.click("#strip button:not(:last-child)")
    browser.until("() => document.querySelector('#copies').innerText.includes('all copied elsewhere')")

    opened(browser, Path("examples/hand.toml"))
    browser.until("() => /^#\\/job\\/[0-9a-f]{32}/.test(location.hash)")
    browser.until("() => document.querySelector('#place .said')")
    assert "values new here" in browser.page.inner_text("#place .said")
    made = browser.page.evaluate("() => window.undertile.screen.job()")
    assert made != JOB
    own = [record for record in browser.page.evaluate(LOG) if record["job"] == made]
    assert own
    assert all(record["own"] and not record["copied"] for record in own), "its own, and nowhere else yet"

    browser.page.evaluate(GO, "/")
    browser.until("() => document.querySelector('#copies summary')")
    browser.page.click("#copies summary")
    for ending in ("copy", "file"):
        with browser.page.expect_download() as found:
            browser.page.click(f"#copies a[href='/job/{made}/{ending}']")
        found.value.save_as(tmp_path / ending)
    assert found.value.suggested_filename.endswith(".toml")
    assert read_job(tmp_path / "file") == read_job(Path("examples/hand.toml"))
    assert browser.page.evaluate(f"() => window.undertile.counts.byJob.has('{made}')"), "on this phone"
    browser.page.click("#strip button:not(:last-child)")
    browser.until(f"() => !window.undertile.counts.byJob.has('{made}')", limit_s=30)

    with phone(tmp_path / "other", site) as other:
        other.page.click("#phone")
        other.page.set_input_files("#sheet input[type=file]", tmp_path / saved)
        other.until(f"() => location.hash === '#/job/{JOB}'")
        assert readings(other) == ["151"]
        other.until("() => window.undertile.counts.open === 0 && window.undertile.counts.all > 0")
        opened(other, tmp_path / "copy")
        other.until(f"() => location.hash.startsWith('#/job/{made}')")
        came = [record for record in other.page.evaluate(LOG) if record["job"] == made]
        assert sorted(each["line"] for each in came) == sorted(each["line"] for each in own)
        assert not any(record["own"] for record in came)
        all_there = len(other.page.evaluate(LOG))
        for name, content, says in (
            ("bomb.zip", bomb(tmp_path / "copy"), "200 bytes out of one"),
            ("path.zip", bomb(tmp_path / "copy", "../../evil", b"x"), "take it out"),
            ("torn.zip", (tmp_path / "copy").read_bytes()[:500], "none or is torn"),
        ):
            opened(other, {"name": name, "mimeType": "application/zip", "buffer": content})
            other.until("(says) => document.querySelector('#place').innerText.includes(says)", says)
            assert len(other.page.evaluate(LOG)) == all_there


def bomb(path: Path, name: str = f"photos/{'a' * 64}.jpg", content: bytes = bytes(40_000_000)) -> bytes:
    """A sound copy with one more file in it."""
    out = io.BytesIO(path.read_bytes())
    with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, content)
    return out.getvalue()


def test_photos_taken_on_the_phone_are_kept_or_refused_in_one_line(at_pad: Browser, tmp_path: Path) -> None:
    browser = at_pad
    browser.until(READY)
    sound = photo((900, 700))
    for name, content, says in (
        ("half.jpg", sound[: len(sound) // 2], "stops early"),
        ("huge.png", png(20_000, 10_000), "found 200; save it smaller"),
        ("phone.heic", heic(400, 300), "Most Compatible"),
        ("page.html.jpg", b"<script>alert(1)</script>", "another kind of file"),
    ):
        answer = browser.page.evaluate(TAKE, [f"/job/{JOB}/photos", name, list(content)])
        assert answer["status"] == 400
        assert says in answer["error"], name
        assert answer["photos"] == 0
    hostile = browser.page.evaluate(TAKE, [f"/job/{JOB}/photos", '../../"x\r\n.jpg', list(sound)])
    assert (hostile["status"], hostile["photos"]) == (200, 1)
    ((job, name),) = [(job, each) for job, each in browser.page.evaluate(KEPT)]
    assert job == JOB
    assert len(name) == 64 + len(".jpg")
    assert name[:64].isalnum()


TAKE = """async ([target, name, content]) => {
  const data = new FormData();
  data.append("place", "wall B");
  data.append("photo", new File([new Uint8Array(content)], name));
  const whole = new Response(data);
  const headers = { accept: "application/json", "content-type": whole.headers.get("content-type") };
  const body = new Uint8Array(await whole.arrayBuffer());
  const { head, content: told } = await window.undertile.ask({ method: "POST", target, headers, body });
  const { error } = JSON.parse(new TextDecoder().decode(told));
  return { status: head.status, photos: head.photos.length, error };
}"""
KEPT = "async () => (await window.undertile.log.photos()).map(({ job, name }) => [job, name])"


@pytest.fixture(autouse=True)
def _no_copies_left(tmp_path: Path) -> Iterator[None]:
    """Profiles of several phones are large: they go when a test is done."""
    yield
    for each in tmp_path.iterdir():
        if each.is_dir():
            shutil.rmtree(each, ignore_errors=True)
