"""Firefox by WebDriver BiDi (W3C), which it speaks itself over a WebSocket; no driver program is needed."""

from __future__ import annotations

import base64
import itertools
import json
import os
import re
import subprocess
import time
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from websockets.exceptions import ConnectionClosed
from websockets.sync.client import connect

from undertile.bench.engines import PHONE, START_S, WAIT_S, Engine, Gone, Page, Wrong, called, program
from undertile.bench.killable import with_us
from undertile.errors import InputError

LISTENS = re.compile(r"WebDriver BiDi listening on (ws://[\d.]+:\d+)")
MOST_BYTES = 64 * 2**20
PREFERENCES = {
    "toolkit.startup.max_resumed_crashes": -1,  # a browser killed three times would ask for its safe mode
    "browser.sessionstore.resume_from_crash": False,
    "browser.startup.page": 0,
    "browser.shell.checkDefaultBrowser": False,
    "browser.aboutwelcome.enabled": False,
    "datareporting.policy.dataSubmissionEnabled": False,
    "toolkit.telemetry.enabled": False,
    "app.normandy.enabled": False,
    "app.update.auto": False,
    "network.captive-portal-service.enabled": False,
    "network.connectivity-service.enabled": False,
    "browser.safebrowsing.malware.enabled": False,
    "browser.safebrowsing.phishing.enabled": False,
    "services.settings.server": "data:,",
    "extensions.update.enabled": False,
    "ui.useOverlayScrollbars": 1,  # as on a phone: they take no room
}
"""It asks nobody anything and comes up the same after a kill."""


class FirefoxPage(Page):
    """The page, over the socket."""

    def __init__(self, address: str) -> None:
        super().__init__()
        self._open = ExitStack()
        self._socket = self._open.enter_context(
            connect(address, max_size=MOST_BYTES, compression=None, proxy=None)
        )
        self._numbers = itertools.count(1)
        self.ask("session.new", {"capabilities": {"alwaysMatch": {}}})
        self._context = self.ask("browsingContext.getTree", {})["contexts"][0]["context"]
        self.ask("session.subscribe", {"events": ["log.entryAdded"]})
        width, height = PHONE
        size = {"width": width, "height": height}
        self.ask("browsingContext.setViewport", {"context": self._context, "viewport": size})

    def ask(self, method: str, told: dict[str, Any]) -> Any:
        """One command of the protocol, and its result; what the console says meanwhile is passed on."""
        number = next(self._numbers)
        try:
            self._socket.send(json.dumps({"id": number, "method": method, "params": told}))
            while True:
                message = json.loads(self._socket.recv(timeout=WAIT_S))
                if message.get("method") == "log.entryAdded":
                    self.say(message["params"].get("text") or "")
                if message.get("id") == number:
                    break
        except ConnectionClosed as error:
            raise Gone(method) from error
        if message["type"] == "error":
            left = message["error"] in ("no such frame", "unknown error") or "destroyed" in message["message"]
            raise (Gone if left else Wrong)(f"{method}: {message['error']}: {message['message']}")
        return message["result"]

    def close(self) -> None:
        self._open.close()

    def goto(self, address: str) -> None:
        self.ask("browsingContext.navigate", {"context": self._context, "url": address, "wait": "complete"})

    def evaluate(self, script: str, argument: Any = None) -> Any:
        told = {
            "functionDeclaration": f"async (text) => {{ {called(script)} }}",
            "arguments": [{"type": "string", "value": json.dumps(argument)}],
            "target": {"context": self._context},
            "awaitPromise": True,
        }
        result = self.ask("script.callFunction", told)
        if result["type"] == "exception":
            raise Wrong(result["exceptionDetails"]["text"])
        return json.loads(result["result"]["value"])

    def tap_at(self, x: float, y: float) -> None:
        steps = [
            {"type": "pointerMove", "x": round(x), "y": round(y)},
            {"type": "pointerDown", "button": 0},
            {"type": "pause", "duration": 20},
            {"type": "pointerUp", "button": 0},
        ]
        finger = {
            "type": "pointer",
            "id": "finger",
            "parameters": {"pointerType": "touch"},
            "actions": steps,
        }
        self.ask("input.performActions", {"context": self._context, "actions": [finger]})

    def screenshot(self, path: Path) -> None:
        told = self.ask("browsingContext.captureScreenshot", {"context": self._context})
        path.write_bytes(base64.b64decode(told["data"]))


class Firefox(Engine):
    """Firefox without a window."""

    name = "firefox"
    needs = ("firefox-esr",)

    @classmethod
    def here(cls) -> bool:
        return bool(program("firefox-esr", "firefox"))

    def start(self) -> None:
        lines = [f"user_pref({json.dumps(key)}, {json.dumps(to)});" for key, to in PREFERENCES.items()]
        (self.profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
        home = self.profile / "home"
        home.mkdir(exist_ok=True)
        told = self.profile / "said.txt"
        command = [program("firefox-esr", "firefox"), "--headless", "--no-remote"]
        command += ["--profile", str(self.profile), "--remote-debugging-port", "0", "about:blank"]
        with told.open("wb") as said:
            self._process = subprocess.Popen(
                with_us(command),
                stdout=subprocess.DEVNULL,
                stderr=said,
                env={**os.environ, "HOME": str(home), "MOZ_CRASHREPORTER_DISABLE": "1"},
                start_new_session=True,
            )
        until = time.monotonic() + START_S
        while not (listens := LISTENS.search(told.read_text(encoding="utf-8", errors="replace"))):
            if time.monotonic() > until or self._process.poll() is not None:
                raise InputError(f"expected Firefox to start, found that it did not: {_end_of(told)}")
            time.sleep(0.02)
        self.page = FirefoxPage(f"{listens[1]}/session")


def _end_of(path: Path) -> str:
    return path.read_text(encoding="utf-8", errors="replace").strip()[-300:]
