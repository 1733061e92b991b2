"""The browsers that are not Chromium: Firefox, and WebKit, which every browser on an iPhone is.

Both are the system's own packages. Each is driven through the little that its tests need (`Page`): open an
address, ask a script, tap, hear the console, take a picture. The profile outlives the process, so a kill can
be followed by a cold start.
"""

from __future__ import annotations

import atexit
import shutil
import time
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, ClassVar

from undertile.bench.killable import Killable
from undertile.errors import InputError

START_S = 60.0
WAIT_S = 90.0
PHONE = (390, 844)


class Gone(Exception):
    """The browser is no more, or went on to another page before it answered."""


class Wrong(Exception):
    """What a script threw in the page."""


@dataclass(frozen=True)
class Said:
    """One line of the page's console."""

    text: str


class Page(ABC):
    """The one page of a browser."""

    def __init__(self) -> None:
        self._heard: list[Callable[[Said], None]] = []

    @abstractmethod
    def goto(self, address: str) -> None:
        """Load an address, until it has loaded."""

    @abstractmethod
    def evaluate(self, script: str, argument: Any = None) -> Any:
        """What a JavaScript function makes of an argument, both plain data; a promise is waited for."""

    @abstractmethod
    def tap_at(self, x: float, y: float) -> None:
        """Touch a point of the page, through the browser's own input."""

    @abstractmethod
    def screenshot(self, path: Path) -> None:
        """What is on the screen, as PNG."""

    @abstractmethod
    def close(self) -> None:
        """Close this end of the way to a browser that has been killed; again does nothing."""

    def on(self, kind: str, heard: Callable[[Said], None]) -> None:
        """Call this with each line that the page writes to its console (kind "console")."""
        assert kind == "console"
        self._heard.append(heard)

    def say(self, text: str) -> None:
        for heard in self._heard:
            heard(Said(text))

    def tap(self, css: str) -> None:
        """Touch the middle of an element, which must be what lies there.

        Raises
        ------
        Wrong
            If there is none, or something else covers it.
        """
        x, y = self.evaluate(_MIDDLE, css)
        self.tap_at(x, y)


_MIDDLE = """(css) => {
  const found = [...document.querySelectorAll(css)].find((each) => each.getClientRects().length);
  if (!found) throw new Error(`nothing to tap: ${css}`);
  const box = found.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const there = document.elementFromPoint(x, y);
  if (!there || !found.contains(there)) throw new Error(`covered or out of sight: ${css}`);
  return [x, y];
}"""


def called(script: str) -> str:
    """The body of an async function of ``text``: argument and answer travel as JSON, an element as true."""
    made = f"const made = await ({script})(JSON.parse(text));"
    return f"{made} return JSON.stringify(made instanceof Node ? true : (made ?? null));"


class Engine(Killable, ABC):
    """A browser with a profile that outlives it.

    Parameters
    ----------
    profile : Path
        A folder; made if need be.
    """

    gone: ClassVar[type[Exception]] = Gone
    name: ClassVar[str]
    needs: ClassVar[tuple[str, ...]]
    """Its packages in Debian."""

    def __init__(self, profile: Path) -> None:
        self.profile = profile
        self.page: Page
        profile.mkdir(parents=True, exist_ok=True)
        atexit.register(self.close)
        self.start()

    @classmethod
    @abstractmethod
    def here(cls) -> bool:
        """Whether this machine has it."""

    @abstractmethod
    def start(self) -> None:
        """Start it with an empty page."""

    def again(self) -> None:
        """Start it again after a kill."""
        self.page.close()
        self.start()

    def close(self) -> None:
        """End it."""
        self.kill()
        if hasattr(self, "page"):
            self.page.close()

    def until(self, script: str, argument: Any = None, limit_s: float = WAIT_S) -> Any:
        """Ask a script again and again until what it returns is true.

        Raises
        ------
        TimeoutError
            With what the page shows by then.
        """
        ends = time.monotonic() + limit_s
        while True:
            try:
                if found := self.page.evaluate(script, argument):
                    return found
            except Gone:  # the page has gone over to another: ask that one
                if self._process is None or self._process.poll() is not None:
                    raise
            if time.monotonic() > ends:
                shows = self.page.evaluate("() => document.body.innerText")
                raise TimeoutError(f"{self.name}: {script}: not so after {limit_s} s; the page: {shows}")
            time.sleep(0.05)


def program(*names: str) -> str:
    """Path of the first of these programs that is here, or ""."""
    return next((path for name in names if (path := shutil.which(name))), "")


ENGINES = ("firefox", "webkit")


def engine(name: str) -> type[Engine]:
    """The engine of that name.

    Raises
    ------
    InputError
        If this machine lacks it.
    """
    from undertile.bench.engines.firefox import Firefox
    from undertile.bench.engines.webkit import WebKit

    known: dict[str, type[Engine]] = {each.name: each for each in (Firefox, WebKit)}
    asked = known[name]
    if not asked.here():
        needs = " ".join(asked.needs)
        raise InputError(f"expected {name}, found none; install it (Debian: apt-get install {needs})")
    return asked
