"""Which phones may come in: a code from the laptop's own screen, typed once, makes a phone known.

A code stands for ten minutes, for one phone. Wrong codes are slowed for the address they come from, and after
ten of them, from wherever, it is void. A phone then holds 256 random bits; only their hash is kept here.

A browser puts a cookie on the disk some seconds after it has it, and no page can hurry it. So a phone sends a
key of its own with the code, which it has on its disk before; the laptop keeps the key's hash before it says
yes. Ended before its cookie is on the disk, the phone comes in again by the key, whatever was started
anew meanwhile. A cookie that is shown ``PROVEN_S`` after it was given is on the disk: from then on the key,
which the page's own scripts can read, opens nothing.

A phone that is not seen for ``UNSEEN_DAYS`` is a stranger until it is paired again: one that was lost or sold
does not open this laptop for ever. What it holds stays on it, and is exchanged once it is paired.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import secrets
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from datetime import UTC, date, datetime
from pathlib import Path

from undertile.errors import StoreError
from undertile.hosts.server import private

DIGITS = 8
OPEN_S = 600
MOST_WRONG = 10
"""Ten guesses at one of 10^8 codes: one in ten million that a stranger comes in. (default of ours)"""
MOST_WAIT_S = 60.0
PROVEN_S = 600
"""Browsers write a cookie within a minute. (default of ours)"""
MIN_KEY = 32
"""Characters of a key that a phone leaves: 128 bits in hex."""
MAX_NAME = 40
MAX_DEVICES = 100
COOKIE_S = 34_560_000
"""400 days, the longest a browser keeps one; it begins anew on each day of use."""
UNSEEN_DAYS = 180
"""Longer than a winter's pause between two jobs. (default of ours, no source)"""


@dataclass(frozen=True)
class Device:
    """A phone that may come in.

    Attributes
    ----------
    id : str
    name : str
        Whose it is, as it stands beside what is typed on it.
    paired, seen : str
        Days, ISO 8601.
    digest : str
        SHA-256 of what it holds.
    """

    id: str
    name: str
    paired: str
    seen: str
    digest: str


@dataclass(frozen=True)
class Tried:
    """What became of a code.

    Attributes
    ----------
    token : str
        What the phone is to hold; "" where it may not come in.
    name : str
        What the phone is called from now on.
    why : str
        ``wrong``, ``slow``, ``closed`` or ``full``; "" where it may.
    wait_s : int
        When the next one will be looked at. [s]
    """

    token: str = ""
    name: str = ""
    why: str = ""
    wait_s: int = 0


def today() -> str:
    """The day, ISO 8601."""
    return datetime.now(UTC).date().isoformat()


class Pairing:
    """Codes, and the phones that came in by them.

    Parameters
    ----------
    path : Path
        Where the phones are kept.
    clock : callable
        Seconds that never go back.
    day : callable
        The day.

    Raises
    ------
    StoreError
        If what is kept cannot be read.
    """

    def __init__(
        self, path: Path, clock: Callable[[], float] = time.monotonic, day: Callable[[], str] = today
    ) -> None:
        self._path, self._clock, self._day = path, clock, day
        self._devices, self._left = _read(path)
        self._code = ""
        self._ends = 0.0
        self._wrong = 0
        self._waits: dict[str, tuple[int, float]] = {}
        self._given: dict[str, float] = {}
        self._started = clock()  # what was given before is older than this

    # Codes ----------------------------------------------------------------------------------------------

    def open(self) -> str:
        """A new code; the one before is void."""
        self._code = f"{secrets.randbelow(10**DIGITS):0{DIGITS}}"
        self._ends = self._clock() + OPEN_S
        self._wrong = 0
        self._waits.clear()
        return self._code

    @property
    def code(self) -> str:
        """The code that stands; "" while nobody may come in."""
        return self._code if self._clock() < self._ends else ""

    def close(self) -> None:
        """Let nobody in until a new code is asked for."""
        self._code, self._ends = "", 0.0

    def try_code(self, typed: str, name: str, address: str, key: str = "") -> Tried:
        """Judge a code that was typed.

        Parameters
        ----------
        typed : str
            Spaces and dashes in it do not count.
        name : str
            Whose phone it is.
        address : str
            Where it comes from.
        key : str
            What the phone may come in again by, should it lose what it is to hold; "" for nothing.
        """
        if not self.code:
            return Tried(why="closed")
        count, until = self._waits.get(address, (0, 0.0))
        left = until - self._clock()
        if left > 0:
            return Tried(why="slow", wait_s=int(left) + 1)
        plain = "".join(each for each in typed[:40] if each not in " -\u00a0")
        if hmac.compare_digest(plain.encode(), self._code.encode()):
            if sum(not self.stopped(each) for each in self._devices) >= MAX_DEVICES:
                return Tried(why="full")
            self.close()
            return Tried(*self._add(name, key))
        self._wrong += 1
        wait = min(2.0**count, MOST_WAIT_S)
        self._waits[address] = (count + 1, self._clock() + wait)
        if self._wrong >= MOST_WRONG:
            self.close()
            return Tried(why="closed")
        return Tried(why="wrong", wait_s=int(wait))

    def leave(self, device: Device, key: str) -> bool:
        """A phone just paired leaves a key, in place of the one before; whether it is taken."""
        if len(key) < MIN_KEY or device.id not in self._given or self._proven(device):
            return False
        self._keep(self._devices, {**self._left, device.id: _digest(key)})
        return True

    def again(self, key: str) -> Tried:
        """A phone that has lost what it held, by the key it left: it holds something new from now on."""
        digest = _digest(key)
        for device in self._devices:
            left = "" if self.stopped(device) else self._left.get(device.id, "")
            if left and hmac.compare_digest(left, digest):
                token = secrets.token_urlsafe(32)
                made = replace(device, digest=_digest(token))
                self._keep(tuple(made if each == device else each for each in self._devices), self._left)
                self._given[device.id] = self._clock()
                return Tried(token, made.name)
        return Tried(why="closed")

    def _proven(self, device: Device) -> bool:
        """Whether what it shows now was given to it long enough ago to be on its disk."""
        return self._clock() - self._given.get(device.id, self._started) >= PROVEN_S

    # Phones ---------------------------------------------------------------------------------------------

    @property
    def devices(self) -> tuple[Device, ...]:
        """Every phone that was paired and not taken off, the newest last."""
        return self._devices

    def stopped(self, device: Device) -> bool:
        """Whether a phone was not seen for so long that it may not come in.

        Asked anew each time and written nowhere: a laptop whose clock was wrong for a day has stopped nobody.
        """
        unseen = date.fromisoformat(self._day()) - date.fromisoformat(device.seen)
        return unseen.days > UNSEEN_DAYS

    def device_of(self, token: str) -> Device | None:
        """The phone that holds this; None where none does, or it has stopped."""
        digest = _digest(token)
        found = next((each for each in self._devices if hmac.compare_digest(each.digest, digest)), None)
        return None if found is None or self.stopped(found) else found

    def see(self, device: Device) -> bool:
        """Note that a phone was here with what it holds; whether this is its first time on this day."""
        left = self._left
        if device.id in left and self._proven(device):
            left = {key: value for key, value in left.items() if key != device.id}
        first = device.seen != self._day()
        if first or left is not self._left:
            seen = replace(device, seen=self._day())
            self._keep(tuple(seen if each == device else each for each in self._devices), left)
        return first

    def remove(self, name: str) -> bool:
        """Take a phone off, by its id: it is a stranger from now on."""
        left = tuple(each for each in self._devices if each.id != name)
        gone = len(left) < len(self._devices)
        if gone:
            self._keep(left, {key: value for key, value in self._left.items() if key != name})
        return gone

    def _add(self, name: str, key: str) -> tuple[str, str]:
        token = secrets.token_urlsafe(32)
        words = " ".join("".join(each for each in name if each.isprintable()).split())[:MAX_NAME]
        number = len(self._devices) + 1
        made = Device(
            secrets.token_hex(8), words or f"phone {number}", self._day(), self._day(), _digest(token)
        )
        left = {made.id: _digest(key)} if len(key) >= MIN_KEY else {}
        self._keep((*self._devices, made), {**self._left, **left})
        self._given[made.id] = self._clock()
        return token, made.name

    def _keep(self, devices: tuple[Device, ...], left: dict[str, str]) -> None:
        told = {"version": 1, "devices": [asdict(each) for each in devices], "left": left}
        private.write(self._path, json.dumps(told, indent=1).encode())
        # after it is kept: what a full disk refused does not hold until a restart
        self._devices, self._left = devices, left


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def _read(path: Path) -> tuple[tuple[Device, ...], dict[str, str]]:
    if not path.is_file():
        return (), {}
    try:
        told = json.loads(private.read(path))
        devices = tuple(Device(**each) for each in told["devices"])
        left = dict(told.get("left", {}))
        words = [*left.values(), *(word for each in devices for word in asdict(each).values())]
        if not all(isinstance(word, str) for word in words):
            raise TypeError
        for each in devices:
            date.fromisoformat(each.seen)
    except (ValueError, TypeError, KeyError):
        raise StoreError(
            "damaged",
            f"{path}: expected the list of paired phones, found a file that is none or is torn; "
            f"remove it and "
            "pair the phones again (their values stay on them)",
        ) from None
    return devices, left
