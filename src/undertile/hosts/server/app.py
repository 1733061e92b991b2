"""The server's whole app: the screens, the exchange, the phone's bundle, behind the guard."""

from __future__ import annotations

from collections.abc import Callable, Collection
from pathlib import Path

from undertile.hosts.bridge import App
from undertile.hosts.server.beside import PATH as BESIDE
from undertile.hosts.server.beside import Beside, Stands
from undertile.hosts.server.files import Bundle
from undertile.hosts.server.guard import LARGE, Guard, Message, Receive, Send, say
from undertile.hosts.server.sync import PATH as SYNC
from undertile.hosts.server.sync import Exchange
from undertile.screens.app import create_app
from undertile.screens.host import Host
from undertile.store import Side

PHONE = "/phone/"
DESK = "/lan"
LOCAL = ("localhost", "127.0.0.1", "::1")


def make(
    store: Side,
    host: Host,
    phone: Callable[[], Path | None],
    names: Collection[str] = LOCAL,
    desk: App | None = None,
    stands: Stands | None = None,
) -> App:
    """The app for one person on this machine.

    Parameters
    ----------
    store : Side
    host : Host
    phone : callable
        Where the phone's bundle is, or None while there is none.
    names : collection of str
        Names this server may be asked under.
    desk : ASGI app, optional
        Where phones are paired and taken off; for this machine alone.
    stands : Stands, optional
        Who stands where, shared with the phones.
    """
    return Guard(Paths(store, host, phone, desk, stands), names, large=LARGE)


class Paths:
    """The app without its guard: which path is whose.

    Parameters
    ----------
    store : Side
    host : Host
    phone : callable
        Where the phone's bundle is, or None while there is none.
    desk : ASGI app, optional
    stands : Stands, optional
    """

    def __init__(
        self,
        store: Side,
        host: Host,
        phone: Callable[[], Path | None],
        desk: App | None = None,
        stands: Stands | None = None,
    ) -> None:
        self._beside = Beside(store, host.who, stands) if stands is not None else None
        self._screens: App = create_app(store, host)
        self._exchange = Exchange(store)
        self._desk = desk
        self._phone = phone

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer one request."""
        path = scope.get("path", "")
        if scope["type"] != "http":
            await self._screens(scope, receive, send)
        elif path == SYNC:
            await self._exchange(scope, receive, send)
        elif path == BESIDE and self._beside is not None:
            await self._beside(scope, receive, send)
        elif self._desk is not None and (path in (DESK, f"{DESK}.css") or path.startswith(f"{DESK}/")):
            await self._desk(scope, receive, send)
        elif path == PHONE.rstrip("/"):
            await _send(send, 308, [(b"location", PHONE.encode())])
        elif path.startswith(PHONE):
            await self._bundle(scope, receive, send)
        else:
            await self._screens(scope, receive, send)

    async def _bundle(self, scope: Message, receive: Receive, send: Send) -> None:
        folder = self._phone()
        if folder is None:
            await say(send, 503, _NO_BUNDLE)
            return
        await Bundle(folder, PHONE)(scope, receive, send)


_NO_BUNDLE = (
    "The phone's bundle is not made yet. It takes about a minute, once, with a network: look at the window "
    "that undertile serve runs in, or run: undertile export-phone FOLDER"
)


async def _send(send: Send, status: int, headers: list[tuple[bytes, bytes]], body: bytes = b"") -> None:
    length = (b"content-length", str(len(body)).encode())
    await send({"type": "http.response.start", "status": status, "headers": [*headers, length]})
    await send({"type": "http.response.body", "body": body})
