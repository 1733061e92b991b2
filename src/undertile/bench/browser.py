"""A real browser and a static site on this machine, both of which can be killed, starved or made to lie."""

from __future__ import annotations

import atexit
import http.server
import os
import shutil
import subprocess
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from playwright.sync_api import Error, Page, Playwright, sync_playwright

from undertile.bench.killable import Killable
from undertile.errors import InputError
from undertile.hosts.phone.build import build_bundle, check_bundle, source_mark
from undertile.hosts.phone.collect import cache_folder
from undertile.hosts.server.files import KINDS

NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome")
START_S = 180.0
WAIT_S = 180.0
SOON_S, SELDOM_S = 0.01, 0.1
"""How often a page is asked whether something is so: each time costs it some 8 ms of a core."""
IN_USE_S = 3600.0
"""A bundle asked for so lately may still be served to a browser, by this process or another."""
PHONE = {"width": 390, "height": 844}
PATIENT = ("--ipc-connection-timeout=180", "--disable-hang-monitor", "--disable-gpu-watchdog")
"""Chromium ends a process of its own that is not heard of for some seconds; on a starved machine it is only
slow. (Pages that crashed were seen under load alone; shared memory is on disk as it is, and no process was
short of memory.)"""
BARE = ("--disable-features=WebUIOmniboxPopup,WebUIOmniboxAimPopup,WebUIOmniboxFullPopup",)
"""Behind the address bar Chromium keeps pages of its own ready, for each window anew: more than half of what
its start takes, and nobody types an address here."""


def find_browser() -> str:
    """Path of Chromium.

    Raises
    ------
    InputError
        If there is none.
    """
    for name in NAMES:
        found = shutil.which(name)
        if found:
            return found
    raise InputError("expected Chromium, found none; install it (Debian: apt-get install chromium)")


def bundle_of_this_source(say: Callable[[str], None] = lambda text: None) -> Path:
    """The phone's bundle of this source, built once and kept in the cache folder."""
    folder = cache_folder() / "bundles" / source_mark()
    if not (folder / "bundle.json").is_file() or check_bundle(folder):
        build_bundle(folder, say)
        for old in sorted(folder.parent.iterdir(), key=lambda path: path.stat().st_mtime)[:-6]:
            if time.time() - old.stat().st_mtime > IN_USE_S:
                shutil.rmtree(old, ignore_errors=True)
    os.utime(folder)
    return folder


class Site:
    """A static site that keeps its port when it is stopped and started again.

    Attributes
    ----------
    folder : Path
        What it serves; may be changed while it runs.
    spoil : callable or None
        Given a path and its content, what is sent instead; None sends the content, an exception cuts the
        connection.
    asked : list of str
        Every path asked for.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.spoil: Callable[[str, bytes], bytes] | None = None
        self.asked: list[str] = []
        self._port = 0
        self._server: http.server.ThreadingHTTPServer | None = None
        self.start()

    @property
    def address(self) -> str:
        """Where it is."""
        return f"http://localhost:{self._port}/"

    def start(self) -> None:
        """Serve; the first time on any free port."""
        site = self

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                site._answer(self)

            def log_message(self, format: str, *args: Any) -> None:
                pass

        self._server = http.server.ThreadingHTTPServer(("127.0.0.1", self._port), Handler)
        self._port = self._server.server_address[1]
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def restore(self, folder: Path) -> None:
        """Serve that folder, whole and honest, whatever was done to it before."""
        self.folder, self.spoil = folder, None
        self.asked.clear()
        if self._server is None:
            self.start()

    def stop(self) -> None:
        """Answer nothing any more."""
        if self._server is not None:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    def _answer(self, request: http.server.BaseHTTPRequestHandler) -> None:
        name = request.path.partition("?")[0].lstrip("/") or "index.html"
        self.asked.append(name)
        path = self.folder / name
        if not path.is_file():
            request.send_error(404)
            return
        content = path.read_bytes()
        size = len(content)
        if self.spoil is not None:
            content = self.spoil(name, content)
        request.send_response(200)
        request.send_header("Content-Type", KINDS.get(path.suffix, "application/octet-stream"))
        request.send_header("Content-Length", str(size))
        request.send_header("Cache-Control", "no-cache")
        request.end_headers()
        try:
            request.wfile.write(content)
        except OSError:
            return
        if len(content) != size:
            request.close_connection = True


class _Driver:
    """What drives the browsers: one at a time may run, and it holds the thread's event loop while it does."""

    users = 0
    running: Playwright | None = None

    @classmethod
    def taken(cls) -> Playwright:
        cls.users += 1
        if cls.running is None:
            cls.running = sync_playwright().start()
        return cls.running

    @classmethod
    def given_back(cls) -> None:
        cls.users -= 1
        if cls.users == 0 and cls.running is not None:
            cls.running.stop()
            cls.running = None


@contextmanager
def one_driver() -> Iterator[None]:
    """What drives the browsers, once started in here, drives every later one in here too."""
    _Driver.users += 1
    try:
        yield
    finally:
        _Driver.given_back()


class Browser(Killable):
    """Chromium without a window, with a profile that outlives it.

    Parameters
    ----------
    profile : Path
    flags : str
        More switches.
    """

    gone = Error
    """What is raised by whoever asks a browser that has been killed."""

    def __init__(self, profile: Path, *flags: str) -> None:
        self.profile = profile
        self._flags = flags
        atexit.register(self.kill)
        self._driver = _Driver.taken()
        self.page: Page
        self.start()

    def start(self) -> None:
        """Start it and take its first page."""
        self.profile.mkdir(parents=True, exist_ok=True)
        port_file = self.profile / "DevToolsActivePort"
        port_file.unlink(missing_ok=True)
        for left in self.profile.glob("Singleton*"):
            left.unlink()
        command = [find_browser(), "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run"]
        command += ["--disable-background-networking", "--disable-component-update", "--disable-sync"]
        command += ["--disable-dev-shm-usage", "--hide-scrollbars", "--remote-debugging-port=0"]
        command += [*PATIENT, *BARE, f"--user-data-dir={self.profile}", *self._flags, "about:blank"]
        self._process = subprocess.Popen(
            command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
        )
        until = time.monotonic() + START_S
        while not port_file.is_file() or not port_file.read_text(encoding="utf-8").strip():
            if time.monotonic() > until or self._process.poll() is not None:
                raise InputError("expected Chromium to start, found that it did not")
            time.sleep(0.02)
        port = port_file.read_text(encoding="utf-8").split("\n")[0]
        browser = self._driver.chromium.connect_over_cdp(f"http://127.0.0.1:{port}")
        context = browser.contexts[0]
        self.page = context.pages[0] if context.pages else context.new_page()
        self.context = context
        self.page.set_viewport_size(PHONE)  # type: ignore[arg-type]

    def again(self) -> None:
        """Start it again after a kill."""
        with suppress(Error):
            self.context.browser.close()  # type: ignore[union-attr]
        self.start()

    def close(self) -> None:
        """End it and what drives it."""
        self.kill()
        _Driver.given_back()

    def leave(self) -> None:
        """End it as a person does: what it still holds in memory gets to the disk. ``close`` is still due."""
        asked = self.context.browser.new_browser_cdp_session()  # type: ignore[union-attr]
        with suppress(Error):  # it may be gone before it answers
            asked.send("Browser.close")
        self.ended()

    def until(self, script: str, argument: Any = None, limit_s: float = WAIT_S) -> Any:
        """Ask a script again and again until what it returns is true; the policy allows no waiting inside.

        Raises
        ------
        TimeoutError
            With what the page shows by then.
        """
        ends = time.monotonic() + limit_s
        rest_s = SOON_S
        while True:
            found = None
            try:
                found = self.page.evaluate(script, argument)
            except Error as error:
                if "navigation" not in error.message:  # the page has gone over to another: ask that one
                    raise
            if found:
                return found
            if time.monotonic() > ends:
                raise TimeoutError(
                    f"{script}: not so after {limit_s} s; the page: {self.page.inner_text('body')}"
                )
            time.sleep(rest_s)
            rest_s = min(rest_s * 1.2, SELDOM_S)


READY = "() => window.undertile?.stage === 'ready' && !document.querySelector('#place').dataset.old"
"""Python is up and its first screen stands."""
USABLE = "() => performance.getEntriesByName('undertile-usable').length > 0"
LOG = """() => new Promise((resolve, reject) => {
  const asked = indexedDB.open("undertile");
  asked.onerror = () => reject(asked.error);
  asked.onsuccess = () => {
    const all = asked.result.transaction("entries").objectStore("entries").getAll();
    all.onsuccess = () => { asked.result.close(); resolve(all.result); };
  };
})"""
"""Every record of the phone's log, read past the tool's own code."""


@contextmanager
def phone(profile: Path, site: Site, *flags: str) -> Iterator[Browser]:
    """A browser that has the tool: it has opened the site, and Python is up."""
    browser = Browser(profile, *flags)
    try:
        browser.page.goto(site.address)
        browser.until(READY)
        yield browser
    finally:
        browser.close()
