"""`undertile serve --lan` in a process of its own that can be killed, and phones that pair with it."""

from __future__ import annotations

import atexit
import base64
import hashlib
import json
import os
import shutil
import signal
import subprocess
import sys
import time
from dataclasses import dataclass
from pathlib import Path
from urllib.request import urlopen

from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat

from tests.hosts.server_room import NAME, free_port, settled
from undertile.bench.browser import READY, Browser
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
MEMORY_KEPT = "() => window.undertile.planner?.engine?.state === 'ready'"
"""The worker of plans is up, which keeps Python's memory before it says so."""


class Laptop:
    """`undertile serve --lan`, with the bundle given.

    Parameters
    ----------
    place : Path
        Its data folder. One that was settled before keeps its name, its port and the phones it knows.
    bundle : Path
    """

    def __init__(self, place: Path, bundle: Path) -> None:
        self.place, self.bundle = place, bundle
        self.desk = free_port()
        if not (place / FOLDER / "name.json").is_file():
            settled(place, free_port(), free_port())
        self.port = json.loads((place / FOLDER / "name.json").read_text(encoding="utf-8"))["port"]
        self.address = f"https://{NAME}:{self.port}"
        self._process: subprocess.Popen[bytes] | None = None
        atexit.register(self.kill)
        self.start()

    def start(self) -> None:
        """Serve; wait until it answers."""
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
        """SIGKILL to all of it."""
        if self._process is not None:
            os.killpg(self._process.pid, signal.SIGKILL)
            self._process.wait()
            self._process = None

    def store(self) -> SqliteStore:
        """Its jobs, seen by another."""
        return SqliteStore(self.place / "jobs.sqlite")

    def count(self, job: str) -> int:
        """Entries of a job; 0 where it is not here."""
        with self.store() as store:
            return len(store.log(job)) if job in store.ids() else 0

    def _get(self, path: str, post: bool = False) -> str:
        with urlopen(f"http://localhost:{self.desk}{path}", b"" if post else None, timeout=60) as reply:
            text: str = reply.read().decode()
            return text

    def page(self, path: str) -> str:
        """A page as the laptop itself shows it."""
        return self._get(path)

    def code(self) -> str:
        """What the person reads on the laptop."""
        page = self._get("/lan/code", post=True)
        return page.partition('class="code">')[2].partition("<")[0]

    def take_off(self) -> None:
        """The first phone in the list, taken off."""
        known = self._get("/lan").partition('name="id" value="')[2].partition('"')[0]
        urlopen(f"http://localhost:{self.desk}/lan/off", f"id={known}".encode(), timeout=60).close()

    def flags(self) -> tuple[str, str]:
        """Chromium trusts this certificate alone, and finds the name here."""
        leaf = x509.load_pem_x509_certificate((self.place / FOLDER / "server.crt").read_bytes())
        key = leaf.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
        pin = base64.b64encode(hashlib.sha256(key).digest()).decode()
        return f"--ignore-certificate-errors-spki-list={pin}", f"--host-resolver-rules=MAP {NAME} 127.0.0.1"


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


@dataclass(frozen=True)
class Known:
    """A laptop and the phones that were paired with it and have the tool, as they lie on their disks.

    Attributes
    ----------
    place : Path
        Folders ``laptop``, and one for each phone by its person's name.
    bundle : Path
    """

    place: Path
    bundle: Path
    names = ("Ann", "Bo")

    def make(self) -> None:
        """Pair them, once for all tests that do not test the pairing."""
        laptop = Laptop(self.place / "laptop", self.bundle)
        try:
            for name in self.names:
                browser = paired(laptop, self.place / name, name)
                try:
                    browser.page.evaluate("async () => (await navigator.serviceWorker.ready).active.state")
                    synced(browser)
                    browser.until(MEMORY_KEPT)
                    browser.leave()
                finally:
                    browser.close()
        finally:
            laptop.kill()

    def laptop(self, to: Path) -> Laptop:
        """That laptop, started from a folder of its own; one of them at a time."""
        shutil.copytree(self.place / "laptop", to)
        return Laptop(to, self.bundle)

    def phone(self, laptop: Laptop, name: str, to: Path) -> Browser:
        """That person's phone, with the tool opened anew."""
        shutil.copytree(self.place / name, to, ignore=shutil.ignore_patterns("Singleton*"))
        browser = Browser(to, *laptop.flags())
        browser.page.goto(f"{laptop.address}/phone/")
        browser.until(READY)
        return browser


def synced(browser: Browser) -> None:
    """Until this phone and the laptop have said that they hold the same."""
    browser.page.evaluate("() => { window.undertile.sync.state = ''; window.undertile.sync.soon(0); }")
    browser.until("() => window.undertile.sync.state === 'same' && window.undertile.counts.open === 0")
