"""Ask an ASGI app without a socket: what a worker in the phone does, and what tests do."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from dataclasses import dataclass
from string import printable
from typing import Any
from urllib.parse import quote, unquote

Message = MutableMapping[str, Any]
App = Callable[
    [Message, Callable[[], Awaitable[Message]], Callable[[Message], Awaitable[None]]], Awaitable[None]
]


@dataclass(frozen=True)
class Answer:
    """What an app said.

    Attributes
    ----------
    status : int
    headers : tuple of (str, str)
        Names in lower case.
    body : bytes
    """

    status: int
    headers: tuple[tuple[str, str], ...]
    body: bytes

    def header(self, name: str) -> str:
        """The first header of that name, or ""."""
        return next((value for key, value in self.headers if key == name), "")


async def ask(
    app: App,
    method: str,
    target: str,
    headers: Iterable[tuple[str, str]] = (),
    body: bytes = b"",
    server: tuple[str, int] = ("localhost", 80),
) -> Answer:
    """One request, one answer.

    Parameters
    ----------
    app : ASGI app
    method : str
    target : str
        Path and query as a browser would send them.
    headers : iterable of (str, str)
    body : bytes
    server : (str, int)
        Name and port the app believes it has.
    """
    path, _, query = target.partition("?")
    scope: Message = {
        "type": "http",
        "asgi": {"version": "3.0", "spec_version": "2.4"},
        "http_version": "1.1",
        "method": method,
        "scheme": "http",
        "path": unquote(path),
        "raw_path": path.encode(),
        # an address bar spells ñ as it is; what reads the query wants it quoted
        "query_string": quote(query, safe=printable).encode(),
        "root_path": "",
        "headers": [(b"host", server[0].encode())]
        + [(key.lower().encode("latin-1"), value.encode("latin-1")) for key, value in headers],
        "client": ("127.0.0.1", 0),
        "server": server,
        "state": {},
    }
    sent = False
    status, told, parts = 500, [], []

    async def receive() -> Message:
        nonlocal sent
        if sent:
            return {"type": "http.disconnect"}
        sent = True
        return {"type": "http.request", "body": body, "more_body": False}

    async def send(message: Message) -> None:
        nonlocal status, told
        if message["type"] == "http.response.start":
            status = message["status"]
            told = [
                (key.decode("latin-1").lower(), value.decode("latin-1")) for key, value in message["headers"]
            ]
        elif message["type"] == "http.response.body":
            parts.append(message.get("body", b""))

    await app(scope, receive, send)
    return Answer(status, tuple(told), b"".join(parts))
