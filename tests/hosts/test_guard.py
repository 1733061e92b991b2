"""The guard: this machine's own pages pass, another site's and what is too long do not."""

from __future__ import annotations

import asyncio

import pytest

from undertile.hosts.bridge import Answer, ask
from undertile.hosts.server.guard import Guard, Message, Receive, Send, say

LIMIT = 1000


async def echo(scope: Message, receive: Receive, send: Send) -> None:
    body = (await receive()).get("body", b"")
    await say(send, 200, f"{len(body)} bytes")


def told(method: str = "GET", host: str = "localhost:8420", body: bytes = b"", **headers: str) -> Answer:
    pairs = [(key.replace("_", "-"), value) for key, value in headers.items()]
    return asyncio.run(
        ask(Guard(echo, ["localhost", "::1"], max_body=LIMIT), method, "/", pairs, body, (host, 80))
    )


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("localhost:8420", 200),
        ("LOCALHOST", 200),
        ("[::1]:8420", 200),
        ("evil.example", 421),
        ("localhost.evil.example:8420", 421),
        ("", 421),
    ],
)
def test_only_under_its_own_name(host: str, status: int) -> None:
    """A name that others made to point here (DNS rebinding) is refused."""
    assert told(host=host).status == status


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"sec_fetch_site": "same-origin", "origin": "http://localhost:8420"}, 200),
        ({"origin": "http://evil.example"}, 403),
        ({"origin": "http://localhost:9999"}, 403),
        ({"origin": "null"}, 403),
        ({"sec_fetch_site": "cross-site"}, 403),
        ({"sec_fetch_site": "same-site"}, 403),
    ],
)
def test_a_change_comes_from_its_own_pages(headers: dict[str, str], status: int) -> None:
    assert told("POST", body=b"x", **headers).status == status
    assert told("GET", **headers).status == 200


def test_what_is_too_long_is_refused_whatever_was_claimed() -> None:
    assert told("POST", body=b"x" * LIMIT).body == b"1000 bytes"
    assert told("POST", body=b"x" * (LIMIT + 1)).status == 413
    assert told("POST", body=b"x", content_length="99999999999").status == 413
    assert told("POST", body=b"x", content_length="-1").status == 413


def test_every_answer_says_what_a_browser_may_do() -> None:
    """Published: W3C Content Security Policy 3; no inline script, no other site, no frame around it."""
    for answer in (told(), told(host="evil.example")):
        policy = answer.header("content-security-policy")
        assert "default-src 'none'" in policy
        assert "frame-ancestors 'none'" in policy
        assert "unsafe-inline" not in policy
        assert "unsafe-eval" not in policy
        assert "http" not in policy
        assert answer.header("x-content-type-options") == "nosniff"
