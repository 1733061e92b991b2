"""A phone's page and the laptop over HTTPS: 100 values, the laptop killed half-way, both hold the same."""

from __future__ import annotations

import base64
import hashlib
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from tests.hosts.server_room import NAME, NOW, free_port, settled
from tests.hosts.test_server_photo import photo
from undertile.bench.browser import LOG, READY, Browser
from undertile.hosts.server.lan import FOLDER
from undertile.store import SqliteStore

SERVE = """
import sys
from pathlib import Path
from undertile.hosts.server import lan, naming, serve
lan.addresses = lambda: []  # nothing is announced from a test
listening = lan.listening
lan.listening = lambda port, bind, *more: listening(port, "127.0.0.1", *more)
serve.PhoneBundle.folder = lambda self: Path(sys.argv[3])
serve.serve(print, folder=Path(sys.argv[1]), port=int(sys.argv[2]), who="Lee", lan=True, phone=False)
"""
JOB = "a" * 32
VALUES = 100
TYPED = """([job, count]) => {
  const fact = (k) => `survey.walls.B.studs.B${k + 1}.along`;
  const drafts = Array.from({ length: count }, (_, k) => ({ fact: fact(k), value: `${k}.5` }));
  return (async () => {
    await window.undertile.log.addJob(job);
    for (const draft of drafts) await window.undertile.take(job, [draft]);
  })();
}"""
HELD = """() => {
  const page = window.undertile;
  page.sync.room = 900; // a few values in a text, so that there are many
  const real = window.fetch;
  let asked = 0;
  window.fetch = async (...all) => {
    if (String(all[0]).endsWith("/sync") && ++asked === 9) {
      window.held = true;
      await new Promise((go) => { window.go = go; });
      window.held = false;
    }
    return real(...all);
  };
}"""
SPOILED = """() => {
  const page = window.undertile;
  page.sync.room = 900;
  const real = window.fetch;
  window.spoiled = 0;
  let asked = 0;
  window.fetch = async (...all) => {
    const answer = await real(...all);
    if (!String(all[0]).endsWith("/sync") || ++asked > 18 || asked % 3 === 0) return answer;
    window.spoiled += 1;
    if (asked % 3 === 1) {
      await real(...all); // the same twice
      return answer;
    }
    page.sync.soon(50);
    if (asked % 2) throw new TypeError("lost");
    return new Response((await answer.text()).slice(0, -9)); // cut short
  };
}"""
"""Of the first answers a third comes after its question was sent twice, a third is lost or cut short."""
OPEN = "() => window.undertile.counts.open"
STATE = "() => window.undertile.sync.state"
COPIES = "() => document.querySelector('#copies').innerText"
PHOTO = """([job, name, text]) => {
  const content = Uint8Array.from(atob(text), (each) => each.charCodeAt(0));
  return window.undertile.log.addPhoto(job, name, content);
}"""
SEEN = """async (name) => {
  const answer = await window.undertile.ask({ method: "GET", target: `/photo/${name}` });
  return answer.head.status === 200;
}"""
PHOTOS = "async () => (await window.undertile.log.photos()).map(({ job, name }) => [job, name]).sort()"


class Laptop:
    """`undertile serve --lan` in a process of its own, that can be killed."""

    def __init__(self, place: Path, bundle: Path) -> None:
        self.place, self.bundle = place, bundle
        self.port, self.desk = free_port(), free_port()
        settled(place, self.port, free_port())
        self.address = f"https://{NAME}:{self.port}"
        self._process: subprocess.Popen[bytes] | None = None
        self.start()

    def start(self) -> None:
        command = [sys.executable, "-c", SERVE, str(self.place), str(self.desk), str(self.bundle)]
        self._process = subprocess.Popen(command, stdout=subprocess.DEVNULL, start_new_session=True)
        for _ in range(1200):
            try:
                self._get("/lan")
                return
            except OSError:
                if self._process.poll() is not None:
                    break
                time.sleep(0.05)
        self.kill()
        raise TimeoutError("expected the laptop to serve, found that it does not")

    def kill(self) -> None:
        if self._process is not None:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait()
            self._process = None

    def store(self) -> SqliteStore:
        return SqliteStore(self.place / "jobs.sqlite")

    def count(self) -> int:
        with self.store() as store:
            return len(store.log(JOB)) if JOB in store.ids() else 0

    def _get(self, path: str, post: bool = False) -> str:
        from urllib.request import urlopen

        with urlopen(f"http://localhost:{self.desk}{path}", b"" if post else None, timeout=10) as reply:
            text: str = reply.read().decode()
            return text

    def code(self) -> str:
        """What the person reads on the laptop."""
        page = self._get("/lan/code", post=True)
        return page.partition('class="code">')[2].partition("<")[0]

    def take_off(self) -> None:
        from urllib.request import urlopen

        known = self._get("/lan").partition('name="id" value="')[2].partition('"')[0]
        urlopen(f"http://localhost:{self.desk}/lan/off", f"id={known}".encode(), timeout=10).close()

    def flags(self) -> tuple[str, str]:
        """Chromium trusts this certificate alone, and finds the name here."""
        leaf = x509.load_pem_x509_certificate((self.place / FOLDER / "server.crt").read_bytes())
        key = leaf.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
        pin = base64.b64encode(hashlib.sha256(key).digest()).decode()
        return f"--ignore-certificate-errors-spki-list={pin}", f"--host-resolver-rules=MAP {NAME} 127.0.0.1"


@pytest.fixture
def laptop(bundle: Path, tmp_path: Path) -> Iterator[Laptop]:
    made = Laptop(tmp_path / "laptop", bundle)
    yield made
    made.kill()


def paired(laptop: Laptop, profile: Path, name: str) -> Browser:
    """A phone whose person has typed the code and opened the tool."""
    browser = Browser(profile, *laptop.flags())
    browser.page.goto(laptop.address + "/")
    assert browser.page.locator("form").count() == 1
    browser.page.fill("#code", laptop.code())
    browser.page.fill("#name", name)
    browser.page.click("button")
    browser.until("() => location.pathname === '/phone/'")
    browser.until(READY)
    return browser


def records(browser: Browser) -> list[str]:
    found: list[dict[str, Any]] = browser.page.evaluate(LOG)
    return sorted(each["line"] for each in found if each["job"] == JOB)


def lines(laptop: Laptop) -> list[str]:
    with laptop.store() as store:
        return sorted(line.text for line in store.lines(JOB))


def synced(browser: Browser) -> None:
    browser.page.evaluate("() => { window.undertile.sync.state = ''; window.undertile.sync.soon(0); }")
    browser.until("() => window.undertile.sync.state === 'same' && window.undertile.counts.open === 0")


def test_a_hundred_values_with_the_laptop_killed_half_way(laptop: Laptop, tmp_path: Path) -> None:
    one = paired(laptop, tmp_path / "one", "Ann")
    try:
        assert (
            one.page.evaluate("async () => (await navigator.serviceWorker.ready).active.state") == "activated"
        )
        one.page.evaluate(HELD)
        one.page.evaluate(TYPED, [JOB, VALUES])
        one.until("() => window.held")
        part = laptop.count()
        assert 0 < part < VALUES
        assert one.page.evaluate(OPEN) == VALUES, "part of it is over there; nothing counts before it says so"
        laptop.kill()
        one.page.evaluate("() => window.go()")
        one.until("() => window.undertile.sync.state === 'away'")
        assert one.page.evaluate(OPEN) == VALUES
        assert one.page.evaluate(COPIES).startswith(f"{VALUES} not yet copied")

        laptop.start()
        synced(one)
        assert laptop.count() == VALUES
        assert records(one) == lines(laptop)
        assert one.page.evaluate(COPIES) == "all copied"

        content = photo((900, 700), "PNG")  # the phone has a photo, the laptop gets one and types a value
        name = f"{hashlib.sha256(content).hexdigest()}.png"
        one.page.evaluate(PHOTO, [JOB, name, base64.b64encode(content).decode()])
        with laptop.store() as store:
            store.pen("d" * 32, "Lee", NOW).write(JOB, "place", "the laptop's \u2028 1203 mm")
            other = store.add_photo(JOB, photo((800, 600), "PNG", compress_level=0))
        assert other.size > 400_000, "in several pieces"
        synced(one)
        with laptop.store() as store:
            assert store.photo(name) == content
        assert one.page.evaluate(PHOTOS) == sorted([[JOB, name], [JOB, other.name]])
        assert records(one) == lines(laptop)
        one.until(SEEN, other.name)  # the screens on the phone have it too

        two = paired(laptop, tmp_path / "two", "Bo")  # a second phone gets all of it
        try:
            synced(two)
            assert records(two) == lines(laptop)
            two.page.reload()
            two.until(READY)
            assert two.page.evaluate(SEEN, name), "after a cold start too"
            assert two.page.evaluate(SEEN, other.name)
            assert two.page.evaluate(PHOTOS) == one.page.evaluate(PHOTOS)
        finally:
            two.close()
    finally:
        one.close()


def test_a_phone_taken_off_keeps_what_it_has_and_can_be_paired_again(laptop: Laptop, tmp_path: Path) -> None:
    phone = paired(laptop, tmp_path / "one", "Ann")
    try:
        laptop.take_off()
        phone.page.evaluate(TYPED, [JOB, 3])
        phone.until("() => window.undertile.sync.state === 'stranger'")
        assert laptop.count() == 0
        assert phone.page.evaluate(OPEN) == 3
        assert "does not know this phone" in phone.page.inner_text("#strip")
        phone.page.reload()
        phone.until(READY)
        assert len(records(phone)) == 3, "the tool opens all the same, from the phone"
        phone.until("() => document.querySelector('#strip').innerText.includes('does not know')")
        phone.page.click("#strip button")
        phone.page.fill("#sync-code", "12")
        phone.page.click("#sheet button:not([type])")
        phone.until("() => document.querySelector('#sheet [role=alert]').innerText")
        phone.page.click("#sheet button[type=button]")
        phone.page.click("#strip button")
        phone.page.fill("#sync-code", laptop.code())
        phone.page.click("#sheet button:not([type])")
        phone.until("() => window.undertile.sync.state === 'same' && window.undertile.counts.open === 0")
        assert laptop.count() == 3
        assert phone.page.evaluate(STATE) == "same"
        assert json.loads(lines(laptop)[0])["fact"].startswith("survey.walls.B")
    finally:
        phone.close()


def test_answers_that_are_cut_lost_or_doubled_are_harmless(laptop: Laptop, tmp_path: Path) -> None:
    phone = paired(laptop, tmp_path / "one", "Ann")
    try:
        phone.page.evaluate(SPOILED)
        phone.page.evaluate(TYPED, [JOB, 20])
        phone.until("() => window.undertile.counts.open === 0 && window.undertile.sync.state === 'same'")
        assert phone.page.evaluate("() => window.spoiled") >= 6
        assert laptop.count() == 20, "once each"
        assert records(phone) == lines(laptop)
    finally:
        phone.close()
