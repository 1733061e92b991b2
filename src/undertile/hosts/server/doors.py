"""Two small apps beside the tool: how a phone gets in (anybody, plain HTTP), and the laptop's own desk."""

from __future__ import annotations

import io
from collections.abc import Callable
from urllib.parse import parse_qs

import segno

from undertile.hosts.server.app import DESK
from undertile.hosts.server.authority import Authority
from undertile.hosts.server.guard import HEADERS, POLICY, Message, Receive, Send, say
from undertile.hosts.server.naming import Named
from undertile.hosts.server.pages import language_of, page, says, style
from undertile.hosts.server.pairing import UNSEEN_DAYS, Pairing
from undertile.screens.words import Language

FILE = "undertile-laptop.crt"
MOST_ASKED = 120
"""Characters of what was asked for that an answer repeats."""


def _anchor(named: Named) -> str:
    return f"Undertile on {named.name}"


def _told(scope: Message) -> tuple[dict[str, str], str]:
    headers = {key.decode("latin-1").lower(): value.decode("latin-1") for key, value in scope["headers"]}
    return headers, scope["query_string"].decode("latin-1")


class Welcome:
    """Over plain HTTP to anybody: the certificate and how to trust it. No job, no code, nothing to send.

    Parameters
    ----------
    named : Named
    authority : Authority
    """

    def __init__(self, named: Named, authority: Authority) -> None:
        self._named, self._authority = named, authority

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            return
        path = scope["path"]
        if scope["method"] not in ("GET", "HEAD") or path not in ("/", f"/{FILE}", "/lan.css"):
            language = language_of(*_told(scope))
            content = page("nothing", language, title=says(language, "nothing"), asked=path[:MOST_ASKED])
            await _answer(send, 404, "text/html; charset=utf-8", content)
        elif path == "/lan.css":
            await _answer(send, 200, "text/css; charset=utf-8", style())
        elif path == "/":
            language = language_of(*_told(scope))
            content = page(
                "welcome",
                language,
                title=says(language, "title"),
                name=self._named.name,
                address=self._named.address,
                file=FILE,
                anchor=_anchor(self._named),
                fingerprint=self._authority.fingerprint,
            )
            await _answer(send, 200, "text/html; charset=utf-8", content)
        else:
            await _answer(send, 200, "application/x-x509-ca-cert", self._authority.der)


async def _answer(send: Send, status: int, kind: str, body: bytes) -> None:
    told = {**HEADERS, "content-security-policy": POLICY, "content-type": kind}
    told |= {"content-length": str(len(body)), "cache-control": "no-store"}
    headers = [(key.encode(), value.encode()) for key, value in told.items()]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})


class Desk:
    """On this machine alone, behind its guard: the code, its QR, the paired phones.

    Parameters
    ----------
    named : Named
    authority : Authority
    pairing : Pairing
    welcome : callable
        Where a phone begins now; "" in no network.
    language : {"en", "es"}
    """

    def __init__(
        self,
        named: Named,
        authority: Authority,
        pairing: Pairing,
        welcome: Callable[[], str],
        language: Language = "en",
    ) -> None:
        self._named, self._authority, self._pairing = named, authority, pairing
        self._welcome, self._language = welcome, language

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Answer one request under ``/lan``."""
        asked = (scope["method"], scope["path"].removeprefix(DESK))
        if asked == ("GET", ""):
            await say(send, 200, self._page(scope), "text/html; charset=utf-8")
        elif asked == ("GET", ".css"):
            await say(send, 200, style().decode(), "text/css; charset=utf-8")
        elif asked == ("GET", "/qr.svg") and self._welcome():
            await say(send, 200, qr(self._welcome()), "image/svg+xml")
        elif asked == ("POST", "/code"):
            self._pairing.open()
            await _back(send)
        elif asked == ("POST", "/close"):
            self._pairing.close()
            await _back(send)
        elif asked == ("POST", "/off"):
            body = (await receive()).get("body", b"")  # the guard has read it whole
            for each in parse_qs(body.decode("utf-8", "replace")).get("id", []):
                self._pairing.remove(each)
            await _back(send)
        else:
            await say(send, 404, "No such page here.")

    def _page(self, scope: Message) -> str:
        language = language_of(*_told(scope), self._language)
        return page(
            "desk",
            language,
            title=says(language, "desk"),
            welcome=self._welcome(),
            code=self._pairing.code,
            devices=[(each, self._pairing.stopped(each)) for each in self._pairing.devices],
            days=UNSEEN_DAYS,
            fingerprint=self._authority.fingerprint,
            ends=self._authority.ends.date().isoformat(),
            anchor=_anchor(self._named),
        ).decode()


async def _back(send: Send) -> None:
    headers = [(b"location", DESK.encode()), (b"content-length", b"0")]
    await send({"type": "http.response.start", "status": 303, "headers": headers})
    await send({"type": "http.response.body", "body": b""})


def qr(text: str) -> str:
    """A QR code (ISO/IEC 18004) as an SVG image."""
    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(out, kind="svg", scale=8, border=4, light="white")
    return out.getvalue().decode()


def qr_for_terminal(text: str) -> str:
    """A QR code as text for a terminal."""
    out = io.StringIO()
    segno.make(text, error="l", micro=False).terminal(out, border=2, compact=True)
    return out.getvalue().rstrip("\n")
