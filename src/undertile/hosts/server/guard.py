"""What stands before the screens on a laptop: who may ask, how much, and what a browser may do with it.

A page of another site must not reach this server through the person's own browser: the name it was asked
under must be this machine's, and a change must come from its own pages. Nothing asked is ever logged.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Collection, Mapping, MutableMapping
from typing import Any

from undertile.hosts.bridge import App
from undertile.screens.app import OPEN
from undertile.screens.carried import MOST_FILE

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
    "connect-src 'self'; font-src 'self'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; "
    "form-action 'self'; frame-ancestors 'none'; object-src 'none'"
)
PHONE_POLICY = POLICY.replace("script-src 'self'", "script-src 'self' 'wasm-unsafe-eval'").replace(
    "object-src 'none'", "media-src 'self' blob:; object-src 'none'"
)
"""The same for the phone's bundle, which runs WebAssembly."""

HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "geolocation=(), microphone=(), payment=()",
}
MAX_BODY = 40_000_000
"""Bytes of one request: a photo of 30 MB (job/archive) with what is around it."""
LARGE = {OPEN: MOST_FILE["server"] + 1_000_000}
"""Paths that take more: a whole job with its photos."""
CHANGES = ("POST", "PUT", "PATCH", "DELETE")


class Guard:
    """An ASGI app that lets through what may pass.

    Parameters
    ----------
    app : ASGI app
    names : collection of str
        Names, without port, that this server may be asked under.
    phone : str
        Path under which the phone's bundle is.
    max_body : int
        Bytes of one request.
    large : mapping of str to int, optional
        Bytes of one request to a path that takes more.
    too_long : callable, optional
        What answers a person whose request is longer; one line by itself. Given how many bytes may come.
    """

    def __init__(
        self,
        app: App,
        names: Collection[str],
        phone: str = "/phone/",
        max_body: int = MAX_BODY,
        large: Mapping[str, int] | None = None,
        too_long: Callable[[Message, Receive, Send, int], Awaitable[None]] | None = None,
    ) -> None:
        self._app = app
        self._names = frozenset(name.lower() for name in names)
        self._phone = phone
        self._max_body = max_body
        self._large = large or {}
        self._too_long = too_long

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer one request, or refuse it in one line."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        told = {key.decode("latin-1").lower(): value.decode("latin-1") for key, value in scope["headers"]}
        most = max(self._max_body, self._large.get(scope["path"], 0))
        refused = self._refused(scope, told)
        if refused:
            await say(self._secured(scope, send), *refused)
            return
        length = told.get("content-length", "0")
        if not length.isdecimal() or int(length) > most:
            await self._refuse(scope, receive, send, most)
            return
        if scope["method"] in CHANGES:
            body = await self._body(receive, most)
            if body is None:
                await self._refuse(scope, receive, send, most)
                return
            receive = _again(body, receive)
        await self._app(scope, receive, self._secured(scope, send))

    async def _refuse(self, scope: Message, receive: Receive, send: Send, most: int) -> None:
        send = self._secured(scope, send)
        if self._too_long is not None and for_a_person(scope):
            await self._too_long(scope, receive, send, most)
            return
        await say(send, 413, f"Expected at most {most // 1_000_000} MB in one request; send a smaller file.")

    def _refused(self, scope: Message, told: dict[str, str]) -> tuple[int, str] | None:
        if _name_in(told.get("host", "")) not in self._names:
            return (
                421,
                "Expected to be asked under this machine's own name; open the address undertile printed.",
            )
        if scope["method"] in CHANGES:
            site = told.get("sec-fetch-site")
            origin = told.get("origin")
            own = f"{scope.get('scheme', 'http')}://{told.get('host', '')}"
            if site not in (None, "same-origin", "none") or (origin is not None and origin != own):
                return (
                    403,
                    "Expected a change from this tool's own pages, found one from another site; "
                    "nothing was done.",
                )
        return None

    async def _body(self, receive: Receive, most: int) -> bytes | None:
        """The whole body, or None when it is longer than allowed, whatever length was claimed."""
        parts, size = [], 0
        while True:
            message = await receive()
            if message["type"] != "http.request":
                break
            parts.append(message.get("body", b""))
            size += len(parts[-1])
            if size > most:
                return None
            if not message.get("more_body"):
                break
        return b"".join(parts)

    def _secured(self, scope: Message, send: Send) -> Send:
        phone = scope["path"].startswith(self._phone)
        ours = {**HEADERS, "content-security-policy": PHONE_POLICY if phone else POLICY}

        async def secured(message: Message) -> None:
            if message["type"] == "http.response.start":
                if phone and any(key == b"content-security-policy" for key, _ in message["headers"]):
                    ours.pop("content-security-policy")  # its page names by their hashes what runs in it
                kept = [pair for pair in message["headers"] if pair[0].decode("latin-1").lower() not in ours]
                added = [(key.encode(), value.encode()) for key, value in ours.items()]
                message = {**message, "headers": [*kept, *added]}
            await send(message)

        return secured


def for_a_person(scope: Message) -> bool:
    """Whether a page, or its twin in JSON, is what was asked for; a script gets one line."""
    accept = next((value.decode("latin-1") for key, value in scope["headers"] if key == b"accept"), "")
    return "text/html" in accept or "application/json" in accept


def _name_in(host: str) -> str:
    """The name in a Host header: ``localhost:8000``, ``[::1]:8000``."""
    if host.startswith("["):
        return host.partition("]")[0].removeprefix("[").lower()
    return host.partition(":")[0].lower()


def _again(body: bytes, receive: Receive) -> Receive:
    given = False

    async def again() -> Message:
        nonlocal given
        if given:
            return await receive()
        given = True
        return {"type": "http.request", "body": body, "more_body": False}

    return again


async def say(send: Send, status: int, text: str, kind: str = "text/plain; charset=utf-8") -> None:
    """One line as an answer."""
    body = text.encode()
    headers = [(b"content-type", kind.encode()), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
