"""The exchange with phones over HTTP: one text asks, one text answers (docs/methods/sync.md).

Nothing is kept between two requests but what came in, so a phone that lost an answer asks again.
"""

from __future__ import annotations

import json

from undertile.errors import InputError, StoreError
from undertile.hosts.server.guard import Message, Receive, Send, say
from undertile.store import Side, serve

PATH = "/sync"
MAX_BODY = 8_000_000
"""Bytes of one text; a phone sends some 400,000 characters at once."""


class Exchange:
    """An ASGI app that answers ``POST /sync``.

    Parameters
    ----------
    store : Side
    """

    def __init__(self, store: Side) -> None:
        self._store = store

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Keep what a phone brings and answer what it lacks."""
        if scope["method"] != "POST":
            await say(send, 405, "Expected POST with a text of the exchange.")
            return
        parts, size, more = [], 0, True
        while more and size <= MAX_BODY:
            told = await receive()
            if told["type"] == "http.disconnect":
                return  # cut short: nothing of it is taken
            parts.append(told.get("body", b""))
            size += len(parts[-1])
            more = told.get("more_body", False)
        if size > MAX_BODY:
            await _refuse(send, 413, f"sync: expected at most {MAX_BODY // 1_000_000} MB; start it again")
            return
        try:
            answer, _ = serve(self._store, b"".join(parts).decode())
        except UnicodeDecodeError:
            await _refuse(send, 400, "sync: expected a text in UTF-8, found something else; start it again")
        except InputError as error:
            await _refuse(send, 400, str(error))
        except StoreError as error:
            await _refuse(send, 503, str(error))
        else:
            await say(send, 200, answer, "application/json")


async def _refuse(send: Send, status: int, text: str) -> None:
    await say(send, status, json.dumps({"problems": [text]}), "application/json")
