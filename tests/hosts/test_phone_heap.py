"""Python's memory kept on the phone: a start from it shows what a plain start shows; one that is broken, cut
short, of another bundle or senseless is not used, and nothing is lost."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import CDPSession

from tests.depth import deep
from tests.hosts.laptop import MEMORY_KEPT
from tests.hosts.test_phone import SHOWN, readings, typed
from undertile.bench.browser import LOG, READY, Browser, Site
from undertile.bench.phone_kills import JOB, PAD, PAD_UP
from undertile.hosts.phone.ahead import Started, Zips
from undertile.hosts.phone.build import SHELL

KEEP_GOOD = """async () => {
  const place = await navigator.storage.getDirectory();
  const good = await (await place.getFileHandle("heap.bin")).getFile();
  const out = await (await place.getFileHandle("good.bin", { create: true })).createWritable();
  await out.write(await good.arrayBuffer());
  await out.close();
}"""
CHANGE = r"""async (how) => {
  const place = await navigator.storage.getDirectory();
  const good = await place.getFileHandle("good.bin");
  const bytes = new Uint8Array(await (await good.getFile()).arrayBuffer());
  const words = new Uint32Array(bytes.buffer, 0, 5);
  const start = Math.ceil((20 + words[1]) / 4096) * 4096;
  let content = bytes;
  if (how === "a bit") bytes[start + 12345678] ^= 1;
  if (how === "cut") content = bytes.subarray(0, bytes.length >> 1);
  if (how === "head") bytes[0] ^= 1;
  const head = new TextDecoder().decode(bytes.subarray(20, 20 + words[1]));
  const written = (told) => bytes.set(new TextEncoder().encode(told), 20);
  const other = (digit) => (digit === "1" ? "2" : "1");
  if (how === "a digit of the head") written(head.replace(/(?<="runs":\[\[)\d/, other));
  if (how === "senseless" || how === "of another") { // with sums that are right
    if (how === "senseless") bytes.fill(0, start);
    else written(head.replace(/"mark":"./, '"mark":"-'));
    words[2] = words[3] = 0;
    const lanes = [0, 0, 0, 0];
    let order = 0;
    new Int32Array(bytes.buffer).forEach((word, at) => {
      lanes[at % 4] = (lanes[at % 4] + word) | 0;
      if (at % 4 === 3) order = (order + lanes.reduce((all, lane, by) => all ^ (lane << by), 0)) | 0;
    });
    words[2] = lanes.reduce((all, lane) => all ^ lane, 0);
    words[3] = order;
  }
  const file = await place.getFileHandle("heap.bin", { create: true });
  for (;;) {
    try {
      const out = await file.createWritable();
      await out.write(content);
      return await out.close();
    } catch (error) { // a worker that was just stopped may hold it for a moment
      if (error.name !== "NoModificationAllowedError") throw error;
      await new Promise((next) => setTimeout(next, 20));
    }
  }
}"""
HALFWAY = """() => {
  window.Worker = class extends Worker {
    constructor(...given) {
      super(...given);
      this.addEventListener("message", ({ data }) => {
        if (data.state === "unpacked") window.filled = data.from;
      });
    }
  };
  indexedDB.open("undertile").onsuccess = ({ target: { result } }) => {
    const { objectStoreNames: names } = result;
    const transaction = result.transaction(names, "readwrite");
    const on = () => (transaction.objectStore(names[0]).count().onsuccess = on);
    on();
  };
}"""
"""The memory is filled in, and Python never comes up: what it reads from the log is never answered."""
HOLD = """() => new Promise((resolve, reject) => {
  const script = `(async () => {
    const place = await navigator.storage.getDirectory();
    const file = await place.getFileHandle("heap.trying", { create: true });
    self.held = await file.createSyncAccessHandle();
    self.held.write(new Uint8Array(1), { at: 0 });
    self.postMessage("held");
  })()`;
  window.holder = new Worker(URL.createObjectURL(new Blob([script])));
  window.holder.onmessage = resolve;
  window.holder.onerror = reject;
}).then(() => {})"""
"""As a tab that has begun to fill the memory in, and has not come to the end."""
IS_KEPT = """() => navigator.storage.getDirectory()
  .then((place) => place.getFileHandle("heap.bin"))
  .then((file) => file.getFile())
  .then((file) => file.size > 0, () => false)"""
STOP = "() => [window.undertile.engine, window.undertile.planner.engine].forEach((each) => each?.stop())"
FROM = "() => window.undertile.engine.from"
RESTARTS = "() => window.undertile.engine.restarts"
BODY = """async (target) => {
  const headers = { accept: "text/html", cookie: "lang=en" };
  const { head, content } = await window.undertile.ask({ method: "GET", target, headers });
  return [head.status, new TextDecoder().decode(content)];
}"""
NOT_GOOD = ("a bit", "cut", "head", "a digit of the head", "senseless", "of another")
MADE_AGAIN = deep(NOT_GOOD[-1:], NOT_GOOD)
"""After which of them the start from the one made again is looked at: it takes as long as all else here."""
SCREENS = ("", "/room", "/read", "/read/B", "/doubts", "/pan", "/water", "/floor", "/papers/form", "/history")


@pytest.fixture
def at_pad(site: Site, visited: Path, tmp_path: Path) -> Iterator[Browser]:
    """A browser that has kept Python's memory, started again at the pad without a network."""
    shutil.copytree(visited, tmp_path / "profile", ignore=shutil.ignore_patterns("Singleton*"))
    browser = Browser(tmp_path / "profile")
    site.stop()
    try:
        yield browser
    finally:
        browser.close()


def started(browser: Browser, site: Site) -> None:
    """At the pad, Python up, and its screen fresh."""
    browser.page.goto(site.address + PAD)
    browser.until(PAD_UP)
    browser.until(READY)


def lines(browser: Browser) -> list[str]:
    return [record["line"] for record in browser.page.evaluate(LOG)]


def test_a_start_from_the_memory_shows_what_a_plain_start_shows(at_pad: Browser, site: Site) -> None:
    """Independent: the plain start, for every screen byte by byte."""
    browser = at_pad
    started(browser, site)
    typed(browser, "151")
    browser.until(SHOWN)
    assert browser.page.evaluate(FROM) == "memory"
    again = [browser.page.evaluate(BODY, f"/job/{JOB}{place}") for place in SCREENS]
    browser.page.evaluate("() => { window.undertile.engine.plainly = true; }")
    browser.page.evaluate("() => window.undertile.engine.restart('asked')")
    browser.until(READY)
    assert browser.page.evaluate(FROM) == "bundle"
    plain = [browser.page.evaluate(BODY, f"/job/{JOB}{place}") for place in SCREENS]
    assert [status for status, _ in plain] == [200] * len(SCREENS)
    assert again == plain


def test_a_memory_that_is_not_good_is_not_used_and_made_again(at_pad: Browser, site: Site) -> None:
    """One after the other in one browser: each is the good memory but for one thing."""
    browser = at_pad
    started(browser, site)
    assert browser.page.evaluate(FROM) == "memory"
    browser.page.evaluate(KEEP_GOOD)
    for number, how in enumerate(NOT_GOOD):
        typed(browser, str(151 + 2 * number))
        browser.until(SHOWN)
        log = lines(browser)
        browser.page.evaluate(STOP)
        browser.page.evaluate(CHANGE, how)
        browser.page.goto("about:blank")
        started(browser, site)
        assert browser.page.evaluate(FROM) == "bundle", how
        assert browser.page.evaluate(RESTARTS) == 0, how
        assert lines(browser) == log, how
        assert any(json.loads(line)["value"] == str(151 + 2 * number) for line in log)
        typed(browser, str(152 + 2 * number))
        browser.until(SHOWN)
        assert len(lines(browser)) == len(log) + 1, how
        if how in MADE_AGAIN:
            browser.until(MEMORY_KEPT)
            browser.page.reload()
            browser.until(READY)
            assert browser.page.evaluate(FROM) == "memory", how


def test_a_start_ended_while_it_filled_the_memory_in_is_not_made_again(at_pad: Browser, site: Site) -> None:
    """A memory that no start comes up from: dropped, made once more, and then not for ever."""
    browser = at_pad
    for values, again in ((["151"], True), (["151", "152"], False)):
        browser.page.add_init_script(f"({HALFWAY})()")
        browser.page.goto("about:blank")
        browser.page.goto(site.address + PAD)
        browser.until("() => window.filled")
        assert browser.page.evaluate("() => window.filled") == "memory"
        assert browser.page.evaluate("() => window.undertile.stage") != "ready"
        browser.kill()
        browser.again()
        started(browser, site)
        assert browser.page.evaluate(FROM) == "bundle"
        assert browser.page.evaluate(RESTARTS) == 0
        typed(browser, values[-1])
        browser.until(SHOWN)
        assert readings(browser) == values
        browser.until(MEMORY_KEPT)
        assert browser.page.evaluate(IS_KEPT) is again
    browser.page.reload()
    browser.until(READY)
    assert browser.page.evaluate(FROM) == "bundle"


def test_while_another_tab_fills_the_memory_in_it_is_used_all_the_same(at_pad: Browser, site: Site) -> None:
    """The note of a start that is not over yet is none of a start that was ended."""
    browser = at_pad
    browser.context.new_cdp_session(browser.page).send("Page.setBypassCSP", {"enabled": True})  # for HOLD
    started(browser, site)
    browser.page.evaluate(HOLD)
    other = browser.context.new_page()
    other.goto(site.address + PAD)
    while not other.evaluate(READY):
        other.wait_for_timeout(20)
    assert other.evaluate(FROM) == "memory"
    assert browser.page.evaluate(IS_KEPT)


NO_MEMORY = """() => navigator.storage.getDirectory().then(async (place) => {
  for (const name of ["heap.bin", "heap.json"]) await place.removeEntry(name).catch(() => {});
})"""
USED = "() => navigator.storage.estimate().then(({ usage }) => usage)"


def leave(browser: Browser, site: Site, room: int) -> CDPSession:
    """Let the browser itself have so many bytes left; for as long as what is returned is open."""
    asked = browser.context.new_cdp_session(browser.page)
    told = {"origin": site.address.rstrip("/"), "quotaSize": browser.page.evaluate(USED) + room}
    asked.send("Storage.overrideQuotaForOrigin", told)
    return asked


def test_what_is_typed_takes_the_room_of_the_memory(at_pad: Browser, site: Site) -> None:
    """Nothing is left, and the memory is there: it goes, the value is taken, and none is made again."""
    browser = at_pad
    started(browser, site)
    browser.until(MEMORY_KEPT)
    assert browser.page.evaluate(IS_KEPT)
    asked = leave(browser, site, -1_000_000)
    typed(browser, "151")
    browser.until(SHOWN)
    assert readings(browser) == ["151"]
    assert not browser.page.evaluate(IS_KEPT)
    assert "no room" not in browser.page.inner_text("#strip")
    asked.send("Storage.overrideQuotaForOrigin", {"origin": site.address.rstrip("/")})
    browser.page.reload()
    browser.until(READY)
    browser.until(MEMORY_KEPT)
    assert not browser.page.evaluate(IS_KEPT)
    assert readings(browser) == ["151"]


def test_a_memory_that_finds_no_room_takes_none_from_what_is_typed(at_pad: Browser, site: Site) -> None:
    """20 MB are left, less than the memory takes: it is begun, written nowhere, and every value is taken."""
    browser = at_pad
    started(browser, site)
    browser.page.evaluate(STOP)
    browser.page.evaluate(NO_MEMORY)
    leave(browser, site, 20_000_000)
    browser.page.reload()
    browser.until(PAD_UP)
    typed(browser, "151")
    browser.until(SHOWN)
    browser.until(MEMORY_KEPT)
    assert not browser.page.evaluate(IS_KEPT)
    typed(browser, "152")
    browser.until(SHOWN)
    browser.kill()
    browser.again()
    started(browser, site)
    assert readings(browser) == ["151", "152"]


def test_an_interpreter_that_dies_is_not_started_from_the_memory_again(at_pad: Browser, site: Site) -> None:
    browser = at_pad
    started(browser, site)
    assert browser.page.evaluate(FROM) == "memory"
    browser.page.evaluate("() => window.undertile.engine.died('in a test')")
    browser.until(READY)
    assert browser.page.evaluate(FROM) == "bundle"
    typed(browser, "151")
    browser.until(SHOWN)
    assert readings(browser)


def test_no_two_starts_draw_the_same_random_numbers() -> None:
    """A memory filled in twice would go on alike: it is told to begin anew."""
    drawn = []
    for _ in range(2):
        random.seed(7)  # as the memory had it
        Started([], [], Zips(None)).again(lambda which, start, end: b"")
        drawn.append([random.getrandbits(64) for _ in range(4)])
    assert drawn[0] != drawn[1]


def test_sums_tell_where_words_changed_places(node: str, tmp_path: Path) -> None:
    """By hand: lanes a..d over two rounds of four words."""
    script = tmp_path / "sums.mjs"
    text = (SHELL / "heap.js").read_text(encoding="utf-8")
    ask = """
      const of = (...words) => sums(new Uint8Array(new Uint32Array(words).buffer)).join();
      const told = [of(1, 2, 3, 4, 5, 6, 7, 8), of(5, 6, 7, 8, 1, 2, 3, 4), of(2, 1, 3, 4, 5, 6, 7, 8)];
      process.stdout.write(told.join(" "));
    """
    script.write_text(text.replace("import.meta.url", '"file:///x/y/"') + ask, encoding="utf-8")
    done = subprocess.run([node, str(script)], capture_output=True, text=True, check=True)
    one, two, three = done.stdout.split()
    mixed = (1 ^ 2 << 1 ^ 3 << 2 ^ 4 << 3) + (6 ^ 8 << 1 ^ 10 << 2 ^ 12 << 3)
    assert one == f"{6 ^ 8 ^ 10 ^ 12},{mixed}"
    assert len({one, two, three}) == 3
