"""Who stands at which reading just now, so that two people do not read the same stud.

It is said, held in memory for some seconds and forgotten: no part of the record, and nothing depends on it.
The answer also carries the log's digest, by which a phone sees that there is something new to fetch.
"""

from __future__ import annotations

import json
import re
import time
from collections.abc import Callable
from dataclasses import dataclass

from undertile.errors import InputError
from undertile.hosts.server.guard import Message, Receive, Send, say
from undertile.store import Side

PATH = "/beside"
HELD_S = 20.0
"""How long somebody stands where he last said; a pad says it every few seconds."""
MOST = 32
"""People held at once; who came first goes first."""
MOST_BODY = 2_000
_JOB = re.compile("[0-9a-f]{32}")


@dataclass(frozen=True)
class Stand:
    """One person at one reading.

    Attributes
    ----------
    who : str
    job, fact : str
        ``fact`` is the address of the reading.
    time : float
        When it was said. [s]
    """

    who: str
    job: str
    fact: str
    time: float


class Stands:
    """What is known of who stands where; one for the laptop and all its phones.

    Parameters
    ----------
    now : callable
        Seconds, from anywhere.
    """

    def __init__(self, now: Callable[[], float] = time.monotonic) -> None:
        self._now = now
        self._held: dict[str, Stand] = {}

    def say(self, device: str, who: str, job: str, fact: str) -> list[dict[str, str]]:
        """Somebody is at a reading, or with "" at none; who else is in that job, and where."""
        now = self._now()
        self._held.pop(device, None)
        self._held = {key: each for key, each in self._held.items() if now - each.time < HELD_S}
        if fact:
            self._held[device] = Stand(who, job, fact, now)
            while len(self._held) > MOST:
                del self._held[next(iter(self._held))]
        return [
            {"who": each.who, "fact": each.fact}
            for key, each in self._held.items()
            if key != device and each.job == job
        ]


class Beside:
    """An ASGI app that answers ``POST /beside``: ``{device, job, fact}`` to ``{others, digest}``.

    Parameters
    ----------
    store : Side
    who : str
        Whose phone asks.
    stands : Stands
    """

    def __init__(self, store: Side, who: str, stands: Stands) -> None:
        self._store, self._who, self._stands = store, who, stands

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """Note where one stands, and tell where the others do."""
        if scope["method"] != "POST":
            await say(send, 405, "Expected POST with where you are.")
            return
        try:
            device, job, fact = _told((await receive()).get("body", b""))
        except InputError as error:
            await say(send, 400, json.dumps({"problems": [str(error)]}), "application/json")
            return
        here = job in self._store.ids()
        answer = {
            "others": self._stands.say(device, self._who, job, fact),
            "digest": self._store.digest(job) if here else "",
        }
        await say(send, 200, json.dumps(answer), "application/json")


def _told(body: bytes) -> tuple[str, str, str]:
    """What was said: device, job, fact.

    Raises
    ------
    InputError
        If it is anything else.
    """
    expected = "beside: expected device, job and fact, found another thing; open the pad again"
    if len(body) > MOST_BODY:
        raise InputError(expected)
    try:
        told = json.loads(body)
    except ValueError:
        raise InputError(expected) from None
    found = [told.get(key) for key in ("device", "job", "fact")] if isinstance(told, dict) else [None]
    texts = [each for each in found if isinstance(each, str)]
    if len(texts) != 3 or not texts[0] or not _JOB.fullmatch(texts[1]):
        raise InputError(expected)
    return texts[0], texts[1], texts[2]
