"""WebKit, as GNOME builds it (WebKitGTK), in a window on a screen of its own (Xvfb).

Its automation (WebDriver) opens only a profile that is thrown away; so a small program of ours (`window`)
shows the page and is driven by lines of JSON. It needs the system's Python, to which the bindings belong.
"""

from __future__ import annotations

import itertools
import json
import os
import select
import subprocess
from pathlib import Path
from typing import Any

from undertile.bench.engines import PHONE, START_S, WAIT_S, Engine, Gone, Page, Wrong, called, program
from undertile.bench.killable import with_us
from undertile.errors import InputError

SYSTEM_PYTHON = "/usr/bin/python3"
WINDOW = Path(__file__).with_name("window.py")
BINDINGS = "import gi; gi.require_version('Gtk', '3.0'); gi.require_version('WebKit2', '4.1')"
DROPPED = ("PYTHONPATH", "PYTHONHOME", "VIRTUAL_ENV", "LD_LIBRARY_PATH", "WAYLAND_DISPLAY")


class WebKitPage(Page):
    """The page, over the standard streams of its window."""

    def __init__(self, process: subprocess.Popen[bytes], display: str) -> None:
        super().__init__()
        self._process = process
        self._display = display
        self._numbers = itertools.count(1)
        self._rest = b""

    def ask(self, do: str, limit_s: float = WAIT_S, **told: Any) -> Any:
        """One command, and its result; what the console says meanwhile is passed on."""
        number = next(self._numbers)
        line = json.dumps({"id": number, "do": do, **told}) + "\n"
        assert self._process.stdin is not None
        try:
            self._process.stdin.write(line.encode())
            self._process.stdin.flush()
        except OSError as error:
            raise Gone(do) from error
        while True:
            message = self._next(limit_s)
            if "said" in message:
                self.say(message["said"])
            if message.get("id") == number:
                break
        if "gone" in message:
            raise Gone(message["gone"])
        if "wrong" in message:
            raise Wrong(message["wrong"])
        return message["result"]

    def _next(self, limit_s: float) -> dict[str, Any]:
        assert self._process.stdout is not None
        source = self._process.stdout.fileno()
        while b"\n" not in self._rest:
            if not select.select([source], [], [], limit_s)[0]:
                raise TimeoutError(f"WebKit: no answer for {limit_s} s")
            more = os.read(source, 1 << 16)
            if not more:
                raise Gone("the browser has ended")
            self._rest += more
        line, _, self._rest = self._rest.partition(b"\n")
        told: dict[str, Any] = json.loads(line)
        return told

    def close(self) -> None:
        for pipe in (self._process.stdin, self._process.stdout):
            assert pipe is not None
            pipe.close()

    def goto(self, address: str) -> None:
        self.ask("goto", address=address)

    def evaluate(self, script: str, argument: Any = None) -> Any:
        return json.loads(self.ask("evaluate", body=called(script), text=json.dumps(argument)))

    def tap_at(self, x: float, y: float) -> None:
        command = ["xdotool", "mousemove", str(round(x)), str(round(y)), "click", "1"]
        subprocess.run(command, env={**os.environ, "DISPLAY": self._display}, check=True)

    def screenshot(self, path: Path) -> None:
        self.ask("screenshot", path=str(path))


class WebKit(Engine):
    """WebKitGTK on a screen that nobody sees."""

    name = "webkit"
    needs = ("libwebkit2gtk-4.1-0", "gir1.2-webkit2-4.1", "python3-gi", "xvfb", "xdotool")
    _screen: subprocess.Popen[bytes] | None = None
    _display = ""

    @classmethod
    def here(cls) -> bool:
        if not (program("Xvfb") and program("xdotool") and Path(SYSTEM_PYTHON).exists()):
            return False
        command = [SYSTEM_PYTHON, "-c", BINDINGS]
        return subprocess.run(command, capture_output=True, env=_clean()).returncode == 0

    def start(self) -> None:
        if self._screen is None:
            self._open_screen()
        told = self.profile / "said.txt"
        home = self.profile / "home"
        home.mkdir(exist_ok=True)
        more = {"DISPLAY": self._display, "GDK_BACKEND": "x11", "WEBKIT_DISABLE_DMABUF_RENDERER": "1"}
        more |= {"HOME": str(home), "XDG_RUNTIME_DIR": str(home), "GSETTINGS_BACKEND": "memory"}
        more["NO_AT_BRIDGE"] = "1"  # no helper for readers: there is nobody to read to
        with told.open("wb") as said:
            self._process = subprocess.Popen(
                with_us([SYSTEM_PYTHON, str(WINDOW), str(self.profile), *map(str, PHONE)]),
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=said,
                bufsize=0,
                env=_clean() | more,
                start_new_session=True,
            )
        self.page = WebKitPage(self._process, self._display)
        try:
            self.page.ask("hello", START_S)
        except (Gone, TimeoutError) as error:
            words = told.read_text(encoding="utf-8", errors="replace").strip()[-300:]
            raise InputError(f"expected WebKit to start, found that it did not: {words}") from error

    def _open_screen(self) -> None:
        read, write = os.pipe()
        width, height = PHONE
        command = ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{width}x{height}x24"]
        command += ["-nolisten", "tcp"]
        self._screen = subprocess.Popen(
            with_us(command),
            pass_fds=[write],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        os.close(write)
        with os.fdopen(read) as numbers:
            self._display = f":{numbers.readline().strip()}"

    def close(self) -> None:
        """End it, and the screen."""
        super().close()
        if self._screen is not None:
            self._screen.terminate()
            self._screen.wait()
            self._screen = None


def _clean() -> dict[str, str]:
    return {key: value for key, value in os.environ.items() if key not in DROPPED}
