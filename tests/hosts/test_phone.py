"""The tool in a real browser: cold start without a network, nothing lost, words where nothing can be kept."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from undertile.bench import phone_kills
from undertile.bench.browser import LOG, READY, USABLE, Browser, Site
from undertile.bench.phone_kills import JOB, PAD
from undertile.bench.phone_kills import PAD_UP as PAD_UP

STRIP = "() => document.querySelector('#strip').innerText"
SHOWN = "() => document.querySelector('.pad-back-read em')?.textContent.startsWith('✓')"
VALUE = "() => document.querySelector('.pad-back-read strong')?.textContent"
TWIN = """async () => {
  const request = { method: "GET", target: window.undertile.path(), headers: { accept: "application/json" } };
  return new TextDecoder().decode((await window.undertile.ask(request)).content);
}"""
COPIES = "() => document.querySelector('#copies').innerText"


STANDS = "() => !document.querySelector('#pad[data-hold]')"
"""A key pressed now is meant for the place that the pad shows (screens/static/pad.js)."""


def typed(browser: Browser, text: str) -> None:
    """Type one value on the pad with real keys, once a person has seen where it stands."""
    browser.until(STANDS)
    browser.page.keyboard.type(text)
    browser.page.keyboard.press("Enter")


def readings(browser: Browser) -> list[str]:
    return [
        entry["value"]
        for record in browser.page.evaluate(LOG)
        if ".readings." in (entry := json.loads(record["line"]))["fact"]
    ]


def test_a_cold_start_without_a_network_takes_values_before_python_is_up(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.add_init_script(
        "window.Worker = class { postMessage() {} terminate() {} };"
    )  # no Python at all
    browser.page.goto(site.address + PAD)
    browser.until(PAD_UP)
    # where the log says: the screen it was drawn from may be a value behind (test_phone_early)
    browser.until(KNOWN)
    typed(browser, "152")
    browser.until(SHOWN)
    assert browser.page.evaluate("() => window.undertile.stage") != "ready"
    assert readings(browser) == ["151", "152"]
    assert browser.page.evaluate("() => window.undertile.screen.pad.pad.rows[0].value") == "151"
    browser.until(f"() => ({COPIES})().startsWith('{2 + len(phone_kills.lines())} not yet copied')")
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.goto(site.address + PAD)
    browser.until(READY)
    rows = json.loads(browser.page.evaluate(TWIN))["rows"]
    assert [row["value"] for row in rows[:3]] == ["151", "152", None]


def test_no_value_shown_as_taken_is_lost_when_the_browser_is_killed(at_pad: Browser, site: Site) -> None:
    """A few kills; 200 by ``python -m undertile.bench.phone_kills``."""
    tally = phone_kills.kills(2, 11, at_pad, site)
    assert tally.kills == 2
    assert tally.shown
    assert (tally.lost, tally.doubled, tally.torn) == ([], [], [])


def test_a_loss_would_be_seen() -> None:
    lines = phone_kills.lines()
    records: list[dict[str, Any]] = [{"id": json.loads(line)["id"], "line": line} for line in lines]
    entry = {
        **json.loads(lines[0]),
        "id": "x-9",
        "fact": "survey.walls.B.studs.B1.readings.48",
        "value": "150.001",
    }
    line = json.dumps(entry, separators=(",", ":"))
    twice = [{"id": "x-9", "line": line}, {"id": "x-9", "line": line}]
    tally = phone_kills.Tally(shown=["150.001", "150.002"])
    phone_kills._compare([*records, *twice, {"id": "x-9", "line": line.replace("{", "{ ")}], tally)
    assert tally.lost == ["150.002"]
    assert set(tally.doubled) == {"150.001", "x-9"}
    assert len(tally.torn) == 1


FOLLOWS = """() => {
  const page = window.undertile;
  const { pad } = page.screen.pad;
  const after = page.afterKeeping;
  window.found = [];
  page.afterKeeping = function (...told) {
    window.found.push(pad.rows[0].state);
    return after.apply(this, told);
  };
}"""
"""What the pad shows of its first value when the page begins with what follows from it."""


def test_a_value_is_shown_as_kept_before_anything_follows_from_it(at_pad: Browser) -> None:
    """Pinned: who judges, counts and sends it would take the time it is shown in (bench: a value kept)."""
    at_pad.until(READY)
    at_pad.page.evaluate(FOLLOWS)
    typed(at_pad, "151")
    assert at_pad.until("() => window.found.length && window.found") == ["kept"]
    at_pad.until(SHOWN)


def test_two_tabs_share_one_log_and_number_no_entry_twice(at_pad: Browser, site: Site) -> None:
    one = at_pad
    two = one.context.new_page()
    two.goto(site.address + PAD)
    while not two.evaluate(PAD_UP):
        two.wait_for_timeout(20)
    for k in range(3):
        typed(one, str(151 + 2 * k))
        two.keyboard.type(str(152 + 2 * k))
        two.keyboard.press("Enter")
    one.until(f"() => window.undertile.counts.all === {6 + len(phone_kills.lines())}")
    records = one.page.evaluate(LOG)
    ids = [record["id"] for record in records]
    assert len(set(ids)) == len(ids)
    assert sorted(readings(one)) == ["151", "152", "153", "154", "155", "156"]


def test_where_nothing_can_be_kept_nothing_is_taken_and_the_page_says_so(site: Site, tmp_path: Path) -> None:
    browser = Browser(tmp_path / "profile")
    try:
        refuse = "IDBFactory.prototype.open = () => { throw new DOMException('denied', 'SecurityError'); };"
        browser.page.add_init_script(refuse)
        browser.page.goto(site.address)
        browser.until("() => document.querySelector('#strip').innerText.includes('would be lost')")
        why = browser.page.evaluate(
            f"() => window.undertile.take('{JOB}', [{{ fact: 'name', value: 'x' }}]).catch((e) => e.why)"
        )
        assert why == "denied"
    finally:
        browser.close()


def test_a_full_disk_is_said_and_what_is_kept_stays(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    full = """() => {
      window.kept = IDBObjectStore.prototype.add;
      IDBObjectStore.prototype.add = function (...all) {
        const request = window.kept.apply(this, all);
        this.transaction.abort = this.transaction.abort.bind(this.transaction);
        throw new DOMException("no room", "QuotaExceededError");
      };
    }"""
    browser.page.evaluate(full)
    typed(browser, "152")
    browser.until("() => document.querySelector('.pad-band').innerText.includes('no room')")
    assert readings(browser) == ["151"]
    assert not browser.page.evaluate(SHOWN)
    assert "no room left" in browser.page.evaluate(STRIP)
    browser.page.evaluate("() => { IDBObjectStore.prototype.add = window.kept; }")
    browser.page.click("[data-press='retry']")
    browser.until(SHOWN)
    assert readings(browser) == ["151", "152"]


def test_a_dead_interpreter_is_started_again_and_knows_everything(at_pad: Browser) -> None:
    browser = at_pad
    typed(browser, "151")
    browser.until(SHOWN)
    browser.page.evaluate(
        "() => window.undertile.engine.worker.onerror(new ErrorEvent('error', { message: 'x' }))"
    )
    assert "starting again" in browser.page.evaluate(STRIP)
    typed(browser, "152")
    browser.until("() => window.undertile.stage === 'ready'")
    rows = json.loads(browser.page.evaluate(TWIN))["rows"]
    assert [row["value"] for row in rows[:2]] == ["151", "152"]


@pytest.fixture
def changed(bundle: Path, site: Site, tmp_path: Path) -> Path:
    """A site that can be given another version: a copy of the bundle."""
    folder = tmp_path / "site"
    shutil.copytree(bundle, folder)
    site.folder = folder
    return folder


def a_newer_version(
    folder: Path,
    name: str = "static/mark.svg",
    change: Callable[[bytes], bytes] = lambda content: content + b"<!-- newer -->\n",
) -> None:
    """The same bundle with one file changed and listed anew."""
    path = folder / name
    path.write_bytes(change(path.read_bytes()))
    told = json.loads((folder / "bundle.json").read_text(encoding="utf-8"))
    old = told["version"]
    content = path.read_bytes()
    told["files"][name] = [hashlib.sha256(content).hexdigest(), len(content)]
    told["version"] = "f" * 16
    (folder / "bundle.json").write_text(json.dumps(told), encoding="utf-8")
    worker = (folder / "sw.js").read_text(encoding="utf-8")
    head, rest = worker.split(";\n", 1)
    assert old in head
    (folder / "sw.js").write_text(f"const BUNDLE = {json.dumps(told)};\n{rest}", encoding="utf-8")


KNOWN = "() => performance.getEntriesByName('undertile-known').length > 0"
"""The pad stands where the log says."""
UPDATE = """async () => {
  while (!window.undertile.bundle) await new Promise((done) => setTimeout(done, 20));
  await window.undertile.bundle.update().catch(() => {});
}"""
"""The pad is usable before the page looks after its bundle."""
CHANGED_OVER = """async () => {
  const kept = (await caches.keys()).filter((name) => name.startsWith("undertile-"));
  const registration = await navigator.serviceWorker.getRegistration();
  const { active, installing, waiting } = registration ?? {};
  const alone = active?.state === "activated" && !installing && !waiting;
  const answers = alone && navigator.serviceWorker.controller === active;
  return answers && kept.join() === "undertile-ffffffffffffffff,undertile-ffffffffffffffff-start";
}"""
"""The newer version alone is on the phone and answers for this page."""
CACHES = "async () => (await caches.keys()).filter((name) => name.startsWith('undertile-')).sort()"


def unchanged(browser: Browser, before: list[str]) -> None:
    """The old version is there at once; a try that has begun again meanwhile leaves nothing behind."""
    assert set(before) <= set(browser.page.evaluate(CACHES))
    browser.until(f"async (before) => (await ({CACHES})()).join() === before.join()", before)


def test_a_half_downloaded_update_changes_nothing_and_a_whole_one_waits(
    at_pad: Browser, changed: Path, site: Site
) -> None:
    browser = at_pad
    before = browser.page.evaluate(CACHES)
    a_newer_version(changed)
    site.spoil = lambda name, content: content[: len(content) // 2] if name == "static/mark.svg" else content
    browser.page.evaluate(UPDATE)
    browser.until("() => document.querySelector('#strip').innerText.includes('did not arrive whole')")
    unchanged(browser, before)
    typed(browser, "151")
    browser.until(SHOWN)

    site.spoil = lambda name, content: (
        content.replace(b"newer", b"older") if name == "static/mark.svg" else content
    )
    asked = len(site.asked)
    browser.page.evaluate("() => window.undertile.strip.drop('bundle')")
    browser.page.evaluate(UPDATE)
    browser.until("() => document.querySelector('#strip').innerText.includes('not what the bundle lists')")
    unchanged(browser, before)

    site.spoil = None
    browser.page.evaluate(UPDATE)
    browser.until(
        "() => document.querySelector('#strip').innerText.includes('newer version is on this phone')"
    )
    fetched = [name for name in site.asked[asked:] if name.startswith("py/")]
    assert fetched == [], "what did not change is not fetched again"
    typed(browser, "152")
    browser.until(SHOWN)
    browser.page.click("#strip button")
    browser.until(CHANGED_OVER)
    browser.until(USABLE)
    site.stop()
    browser.kill()
    browser.again()
    browser.page.goto(site.address + PAD)
    browser.until(USABLE)
    assert readings(browser) == ["151", "152"]


TOLD = """window.told = [];
new MutationObserver(() => {
  const says = document.querySelector("#strip")?.innerText.includes("Fetching the tool");
  window.told.push([Boolean(says), Boolean(navigator.serviceWorker.controller)]);
}).observe(document, { subtree: true, childList: true });
window.Worker = class { postMessage() {} terminate() {} };"""
"""Whenever the page changes: is the tool said to be on its way, and does the worker answer already."""


def test_a_first_visit_says_it_fetches_until_a_start_finds_the_tool_without_a_network(
    site: Site, tmp_path: Path
) -> None:
    """And not only until the last file is here; killed in that moment, it opens."""
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.add_init_script(TOLD)
        browser.page.goto(site.address)
        browser.until("() => window.told.some(([says]) => says) && !window.told.at(-1)[0]")
        told = browser.page.evaluate("() => window.told")
        browser.kill()
        begun = next(number for number, (says, _) in enumerate(told) if says)
        assert [answers for says, answers in told[begun:] if not says] != []
        assert all(answers for says, answers in told[begun:] if not says)
        site.stop()
        browser.again()
        browser.page.goto(site.address)
        browser.until("() => Boolean(window.undertile)")
    finally:
        browser.close()


BEGUN = """async (body) => {
  const headers = { "content-type": "application/x-www-form-urlencoded", accept: "application/json" };
  const request = { method: "POST", target: "/", headers, body: new TextEncoder().encode(body) };
  return JSON.parse(new TextDecoder().decode((await window.undertile.ask(request)).content)).href;
}"""
LIVE = "() => document.querySelector('#place').getAttribute('aria-busy') === 'false'"


def test_what_is_next_is_the_same_after_a_kill_without_looking_for_the_plan(
    at_pad: Browser, site: Site
) -> None:
    browser = at_pad
    browser.until(READY)
    home = browser.page.evaluate(BEGUN, "bundled=hand")
    browser.page.evaluate(f"() => {{ location.hash = '#{home}/plan'; }}")
    browser.until("() => document.querySelector('[data-screen=plan] .total')")
    browser.page.evaluate(f"() => {{ location.hash = '#{home}'; }}")
    browser.until(f"() => window.undertile.path() === '{home}' && ({LIVE})()")
    before = json.loads(browser.page.evaluate(TWIN))["next"]
    assert before["text"] == "Start with B2"
    browser.until("async () => (await window.undertile.log.notes()).length === 1")
    site.stop()
    browser.kill()
    browser.again()
    browser.context.set_offline(True)
    browser.page.goto(f"{site.address}#{home}")
    browser.until(READY)
    assert json.loads(browser.page.evaluate(TWIN))["next"] == before


BADGE = """([language, open, width]) => {
  const { undertile } = window;
  undertile.useLanguage(language);
  undertile.stage = "starting";
  undertile.counted = true;
  undertile.counts = { all: open, open, byJob: new Map() };
  undertile.draw();
  const bar = document.querySelector("#bar").getBoundingClientRect();
  const range = document.createRange();
  range.selectNodeContents(document.querySelector("#copies"));
  const pill = document.querySelector("#copies .open").getBoundingClientRect();
  return [...range.getClientRects(), pill].every(
    (each) => each.top >= bar.top && each.bottom <= bar.bottom && each.left >= 0 && each.right <= width);
}"""


@pytest.mark.parametrize("size", [(390, 844), (360, 640)])
def test_what_is_not_yet_copied_is_in_sight_whole_at_a_start(at_pad: Browser, size: tuple[int, int]) -> None:
    """Beside the turning sign of a start, in either language; so many values no job has."""
    at_pad.until(READY)
    at_pad.page.set_viewport_size({"width": size[0], "height": size[1]})
    for language in ("en", "es"):
        for number in (1, 128, 99999):
            assert at_pad.page.evaluate(BADGE, [language, number, size[0]]), (language, number)


def test_what_was_taken_back_is_said_once(at_pad: Browser) -> None:
    """The address a start comes back to says it no more, and a wall moved by steps stands where it stood."""
    browser = at_pad
    browser.until(READY)
    home = browser.page.evaluate(BEGUN, "bundled=hand")
    browser.page.evaluate(f"() => {{ location.hash = '#{home}/history?undone=3&lang=en'; }}")
    browser.until(f"() => window.undertile.screen.shown === '{home}/history'")
    assert "3" in browser.page.inner_text("main .said")
    assert browser.page.evaluate("() => window.undertile.path()") == f"{home}/history"
    browser.until(f"async () => (await window.undertile.log.setting('path')) === '{home}/history'")
    browser.page.evaluate(f"() => {{ location.hash = '#{home}/moves'; }}")
    browser.until("() => document.querySelector('form.drag button[name=B]')")
    browser.page.evaluate("() => document.querySelectorAll('form.drag button[name=B]')[1].click()")
    browser.until("() => document.querySelector('section.move[data-wall=B]').dataset.by === '1'")
    browser.until("async () => (await window.undertile.log.setting('path')).endsWith('/moves?B=1')")


def test_an_entry_says_the_day_of_whoever_holds_the_phone(at_pad: Browser) -> None:
    """independent: the browser's own clock in words; the laptop says its times so too."""
    typed(at_pad, "151")
    at_pad.until(SHOWN)
    last = json.loads(at_pad.page.evaluate(LOG)[-1]["line"])
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}[+-]\d\d:\d\d", last["time"])
    day = "(text) => new Date(text).toLocaleDateString('sv')"
    assert last["time"][:10] == at_pad.page.evaluate(day, last["time"])
