"""What can go wrong on a phone, made to go wrong in a real browser: nothing shown as kept is lost by it."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.hosts.test_phone import (
    PAD_UP,
    SHOWN,
    TWIN,
    readings,
    typed,
)
from tests.hosts.test_phone import changed as changed
from tests.hosts.test_server_photo import photo
from tests.store.cast import NEWER
from undertile.bench import phone_kills
from undertile.bench.browser import LOG, READY, Browser, Site
from undertile.bench.phone_kills import JOB, PAD
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

# An address that is none ---------------------------------------------------------------------------------


@pytest.mark.parametrize("address", ["#%zz", "#/job/%zz/plan", "#?lang=%zz"])
def test_an_address_that_cannot_be_read_leads_to_the_jobs(at_pad: Browser, address: str) -> None:
    """independent: none is a percent-encoding (RFC 3986, 2.1); at a start: test_phone_early."""
    browser = at_pad
    faults: list[str] = []
    browser.page.on("pageerror", lambda error: faults.append(str(error)))
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(READY)
    browser.page.evaluate("(to) => { location.hash = to; }", address)
    browser.until("() => document.querySelector('#open-file') && window.undertile.screen.shown === '/'")
    assert readings(browser) == ["151"]
    browser.page.evaluate("(to) => { location.hash = to; }", PAD)
    browser.until(PAD_UP)
    assert faults == []


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


@pytest.fixture(autouse=True)
def _no_copies_left(tmp_path: Path) -> Iterator[None]:
    """Profiles of several phones are large: they go when a test is done."""
    yield
    for each in tmp_path.iterdir():
        if each.is_dir():
            shutil.rmtree(each, ignore_errors=True)
