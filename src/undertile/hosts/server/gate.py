"""What stands before the tool in a network: a paired phone comes in, anybody else gets the pairing page.

Judged before a body is read, so a stranger cannot fill this machine's memory either. Nothing is logged.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from urllib.parse import parse_qsl, quote

from undertile.hosts.bridge import App
from undertile.hosts.server.app import Paths
from undertile.hosts.server.guard import LARGE, Guard, Message, Receive, Send, say
from undertile.hosts.server.pages import language_of, page, says, script, style
from undertile.hosts.server.pairing import COOKIE_S, DIGITS, Device, Pairing, Tried

COOKIE = "__Host-undertile"
"""The prefix binds it to this name, this path and HTTPS (RFC 6265bis, 4.1.3.2)."""
NAME = "undertile-name"
MAX_ASKED = 2_000
"""Bytes that a stranger may send."""
INSIDE = "/phone/"
_NOT_PAIRED = "Expected a paired phone; open this address in the phone's browser and type the laptop's code."
_STATUS = {"wrong": 403, "slow": 429, "closed": 403, "full": 403}


class Gate:
    """An ASGI app before the tool.

    Parameters
    ----------
    inside : callable
        The app for a paired phone.
    pairing : Pairing
    name : str
        The one name this laptop may be asked under.
    desk : str
        Where the laptop shows the code.
    """

    def __init__(self, inside: Callable[[Device], Paths], pairing: Pairing, name: str, desk: str) -> None:
        self._inside, self._pairing, self._names, self._desk = inside, pairing, (name,), desk
        self._outside = Guard(self._ask_for_code, self._names, max_body=MAX_ASKED)
        self._apps: dict[str, App] = {}

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Let a paired phone in; ask anybody else for the code."""
        if scope["type"] != "http":
            return
        token = _cookie(_headers(scope).get("cookie", ""))
        device = self._pairing.device_of(token) if token else None
        if device is None:
            await self._outside(scope, receive, send)
            return
        if scope["method"] == "POST" and scope["path"].endswith("/pair"):
            await Guard(self._leave_key(device), self._names, max_body=MAX_ASKED)(scope, receive, send)
            return
        if self._pairing.see(device):
            send = _renewed(send, token)
        app = self._apps.get(device.id)
        if app is None:
            paths = self._inside(device)
            guard = Guard(paths, self._names, large=LARGE, too_long=paths.too_long)
            app = self._apps[device.id] = guard
        await app(scope, receive, send)

    def _leave_key(self, device: Device) -> App:
        """What takes a key from a phone that is in (``Pairing.leave``)."""

        async def left(scope: Message, receive: Receive, send: Send) -> None:
            form = dict(parse_qsl((await receive()).get("body", b"").decode("utf-8", "replace")))
            taken = self._pairing.leave(device, form.get("again", ""))
            if "application/json" not in _headers(scope).get("accept", ""):  # it typed the code a second time
                to = _own(form.get("to", "")).encode("ascii", "ignore")
                await _send(send, 303, "text/plain", b"", [(b"location", to)])
                return
            told = json.dumps({"paired": True, "name": device.name, "left": taken}).encode()
            await _send(send, 200, "application/json", told, [])

        return left

    # Strangers ------------------------------------------------------------------------------------------

    async def _ask_for_code(self, scope: Message, receive: Receive, send: Send) -> None:
        headers, path = _headers(scope), scope["path"]
        if path == "/lan.css" and scope["method"] == "GET":
            await say(send, 200, style().decode(), "text/css; charset=utf-8")
        elif path == "/lan.js" and scope["method"] == "GET":
            await say(send, 200, script().decode(), "text/javascript; charset=utf-8")
        elif scope["method"] == "POST" and path.endswith("/pair"):
            await self._try(scope, headers, (await receive()).get("body", b""), send)
        elif scope["method"] == "GET" and "text/html" in headers.get("accept", ""):
            await self._page(scope, headers, send, 401, path)
        else:
            await say(send, 401, _NOT_PAIRED)

    async def _try(self, scope: Message, headers: Mapping[str, str], body: bytes, send: Send) -> None:
        form = dict(parse_qsl(body.decode("utf-8", "replace")))
        address = (scope.get("client") or ("",))[0]
        key = form.get("again", "")
        if key and "code" not in form:
            tried = self._pairing.again(key)
        else:
            tried = self._pairing.try_code(form.get("code", ""), form.get("name", ""), address, key)
        quiet = "application/json" in headers.get("accept", "")
        to = form.get("to", "")
        if not tried.token:
            said = self._said(tried, scope, headers)
            more = [(b"retry-after", str(tried.wait_s).encode())] if tried.wait_s else []
            if quiet:
                told = {"why": tried.why, "wait_s": tried.wait_s, "problems": [said]}
                await _send(send, _STATUS[tried.why], "application/json", json.dumps(told).encode(), more)
            else:
                await self._page(
                    scope, headers, send, _STATUS[tried.why], to, said, form.get("name", ""), more
                )
            return
        more = [(b"set-cookie", _kept(tried.token)), (b"set-cookie", _called(tried.name))]
        if quiet:
            pairing = json.dumps({"paired": True, "name": tried.name}).encode()
            await _send(send, 200, "application/json", pairing, more)
        else:
            more.append((b"location", _own(to).encode("ascii", "ignore")))
            await _send(send, 303, "text/plain", b"", more)

    def _said(self, tried: Tried, scope: Message, headers: Mapping[str, str]) -> str:
        language = language_of(headers, scope["query_string"].decode("latin-1"))
        return says(language, tried.why, wait=tried.wait_s, desk=self._desk)

    async def _page(
        self,
        scope: Message,
        headers: Mapping[str, str],
        send: Send,
        status: int,
        to: str,
        said: str = "",
        name: str = "",
        more: list[tuple[bytes, bytes]] | None = None,
    ) -> None:
        language = language_of(headers, scope["query_string"].decode("latin-1"))
        content = page(
            "pair",
            language,
            title=says(language, "pair"),
            said=said,
            action=f"{INSIDE}pair" if to.startswith(INSIDE) else "/pair",
            to=_own(to),
            name=name,
            digits=DIGITS,
            desk=self._desk,
        )
        await _send(send, status, "text/html; charset=utf-8", content, more or [])


def _own(to: str) -> str:
    """A path of this server to go on to, whatever a stranger wrote there."""
    plain = to.startswith("/") and not to.startswith("//") and to.isascii() and to.isprintable()
    return to if plain and "\\" not in to and len(to) < 300 and to not in ("/", "/pair") else INSIDE


def _headers(scope: Message) -> dict[str, str]:
    return {key.decode("latin-1").lower(): value.decode("latin-1") for key, value in scope["headers"]}


def _cookie(told: str) -> str:
    for each in told.split(";"):
        key, _, value = each.strip().partition("=")
        if key == COOKIE:
            return value
    return ""


def _kept(token: str) -> bytes:
    return f"{COOKIE}={token}; Path=/; Secure; HttpOnly; SameSite=Lax; Max-Age={COOKIE_S}".encode()


def _called(name: str) -> bytes:
    """The name for the page's own script to read: the phone calls itself so in what it types. No secret."""
    return f"{NAME}={quote(name)}; Path=/; Secure; SameSite=Lax; Max-Age={COOKIE_S}".encode()


def _renewed(send: Send, token: str) -> Send:
    async def renewed(message: Message) -> None:
        if message["type"] == "http.response.start":
            message = {**message, "headers": [*message["headers"], (b"set-cookie", _kept(token))]}
        await send(message)

    return renewed


async def _send(send: Send, status: int, kind: str, body: bytes, more: list[tuple[bytes, bytes]]) -> None:
    headers = [(b"content-type", kind.encode()), (b"content-length", str(len(body)).encode())]
    headers += [(b"cache-control", b"no-store"), *more]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
