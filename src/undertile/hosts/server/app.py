"""The server's whole app: the screens, the exchange, the phone's bundle, behind the guard."""

from __future__ import annotations

from collections.abc import Callable, Collection
from pathlib import Path

from starlette.applications import Starlette
from starlette.requests import Request

from undertile.hosts.bridge import App
from undertile.hosts.server.beside import PATH as BESIDE
from undertile.hosts.server.beside import Beside, Stands
from undertile.hosts.server.files import Bundle
from undertile.hosts.server.guard import LARGE, Guard, Message, Receive, Send, for_a_person, say
from undertile.hosts.server.sync import PATH as SYNC
from undertile.hosts.server.sync import Exchange
from undertile.screens.app import create_app
from undertile.screens.host import Host
from undertile.store import Side

PHONE = "/phone/"
DESK = "/lan"
LINES = (404, 405, 503)
"""What the parts beside the screens refuse in one line; a person gets the screens' own page for it."""
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
    paths = Paths(store, host, phone, desk, stands)
    return Guard(paths, names, large=LARGE, too_long=paths.too_long)


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
        self._screens: Starlette = create_app(store, host)
        self._exchange = Exchange(store)
        self._desk = desk
        self._phone = phone

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self._screens(scope, receive, send)
            return
        refused = begun = 0

        async def sent(message: Message) -> None:
            nonlocal refused, begun
            if message["type"] == "http.response.start" and message["status"] in LINES and _line(message):
                refused = message["status"]
            elif not refused:
                begun = 1
                await send(message)

        try:
            await self._of(scope, receive, sent if for_a_person(scope) else send)
        except Exception:
            if for_a_person(scope) and not begun:
                await self._refuse(scope, receive, send, 500)
            raise  # whoever runs this writes down what broke
        if refused:
            await self._refuse(scope, receive, send, refused)

    async def too_long(self, scope: Message, receive: Receive, send: Send, most: int) -> None:
        """The page for what is longer than may be (``Guard``)."""
        await self._refuse(scope, receive, send, 413, most=f"{most // 1_000_000} MB")

    async def _of(self, scope: Message, receive: Receive, send: Send) -> None:
        path = scope.get("path", "")
        if path == SYNC:
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

    async def _refuse(
        self, scope: Message, receive: Receive, send: Send, status: int, **slots: object
    ) -> None:
        answer: App = self._screens.state.refused(Request(scope), status, **slots)
        await answer(scope, receive, send)


def _line(message: Message) -> bool:
    return any(key == b"content-type" and kind.startswith(b"text/plain") for key, kind in message["headers"])


_NO_BUNDLE = (
    "The phone's bundle is not made yet. It takes about a minute, once, with a network: look at the window "
    "that undertile serve runs in, or run: undertile export-phone FOLDER"
)


async def _send(send: Send, status: int, headers: list[tuple[bytes, bytes]], body: bytes = b"") -> None:
    length = (b"content-length", str(len(body)).encode())
    await send({"type": "http.response.start", "status": status, "headers": [*headers, length]})
    await send({"type": "http.response.body", "body": body})
