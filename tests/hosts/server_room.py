"""A real server for phones on this machine: uvicorn, TLS, the certificate trusted by the client alone."""

from __future__ import annotations

import asyncio
import http.client
import json
import socket
import ssl
import threading
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from undertile.hosts.server.app import make
from undertile.hosts.server.lan import FOLDER, Lan
from undertile.hosts.server.photo import clean_photo
from undertile.hosts.server.running import Served, run_all
from undertile.screens.host import Host
from undertile.store import SqliteStore

NAME = "undertile-test.local"
NOW = "2026-11-25T08:00:00+00:00"
DEVICE = "d" * 32


def free_port() -> int:
    """A port nobody has."""
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        port: int = asked.getsockname()[1]
        return port


def settled(place: Path, phone_port: int, welcome: int) -> None:
    """The name and ports as if they had been chosen before."""
    folder = place / FOLDER
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / "name.json"
    path.write_text(json.dumps({"name": NAME, "port": phone_port, "welcome": welcome}), encoding="utf-8")
    path.chmod(0o600)


@dataclass
class Reply:
    """What a server said."""

    status: int
    headers: http.client.HTTPMessage
    body: bytes

    @property
    def text(self) -> str:
        return self.body.decode()


@dataclass
class Room:
    """The server and what a client needs to talk to it."""

    place: Path
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.port, self.welcome, self.desk = free_port(), free_port(), free_port()
        settled(self.place, self.port, self.welcome)
        self.lan = Lan(self.place, self.said.append)
        self._servers: list[Any] = []
        self._ready = threading.Event()
        self._thread = threading.Thread(target=self._run, daemon=True)
        self._thread.start()
        assert self._ready.wait(30)

    def _run(self) -> None:
        with SqliteStore(self.place / "jobs.sqlite") as store:
            host = Host("server", DEVICE, "Lee", lambda: NOW, clean_photo=clean_photo)
            local = socket.create_server(("127.0.0.1", self.desk))
            app = make(store, host, lambda: None, desk=self.lan.desk(host), stands=self.lan.stands)
            address = f"http://localhost:{self.desk}"
            served = [
                Served(app, local),
                *self.lan.served(store, host, lambda: None, address, "127.0.0.1"),
            ]

            def started(servers: list[Any]) -> None:
                self._servers = servers

            async def beside() -> None:
                while not all(each.started for each in self._servers):
                    await asyncio.sleep(0.005)
                self._ready.set()
                await asyncio.Event().wait()

            asyncio.run(run_all(served, beside, started))

    def stop(self) -> None:
        for each in self._servers:
            each.should_exit = True
        self._thread.join()

    def store(self) -> SqliteStore:
        """The same file, seen by another."""
        return SqliteStore(self.place / "jobs.sqlite")

    def ask(
        self, method: str, path: str, body: bytes = b"", token: str = "", name: str = NAME, **told: str
    ) -> Reply:
        """One request over TLS; the certificate is checked against the name and the authority alone."""
        context = ssl.create_default_context(cafile=str(self.place / FOLDER / "authority.crt"))
        raw = socket.create_connection(("127.0.0.1", self.port), timeout=30)
        connection = http.client.HTTPConnection(name, self.port)
        connection.sock = context.wrap_socket(raw, server_hostname=NAME)
        return _asked(connection, method, path, body, token, told)

    def ask_plain(self, port: int, method: str, path: str, body: bytes = b"", **told: str) -> Reply:
        """The same over plain HTTP: the page for anybody, or the laptop's own."""
        return _asked(http.client.HTTPConnection("localhost", port, timeout=30), method, path, body, "", told)

    def pair(self, name: str = "Ann") -> str:
        """Pair a phone; what it holds from then on."""
        form = urlencode({"code": self.lan.pairing.open(), "name": name}).encode()
        reply = self.ask("POST", "/pair", form)
        assert reply.status == 303, reply.text
        return reply.headers["set-cookie"].partition(";")[0].partition("=")[2]


def _asked(
    connection: http.client.HTTPConnection,
    method: str,
    path: str,
    body: bytes,
    token: str,
    told: dict[str, str],
) -> Reply:
    headers = {key.replace("_", "-"): value for key, value in told.items()}
    if token:
        headers["cookie"] = f"__Host-undertile={token}"
    if method == "POST":
        headers.setdefault("content-type", "application/x-www-form-urlencoded")
    try:
        connection.request(method, path, body or None, headers)
        answer = connection.getresponse()
        return Reply(answer.status, answer.headers, answer.read())
    finally:
        connection.close()
