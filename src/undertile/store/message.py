"""What two devices say to each other: one JSON text a step, judged before a word of it is believed."""

from __future__ import annotations

import base64
import binascii
import json
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeVar

from undertile.errors import InputError
from undertile.job.archive import MAX_PHOTO
from undertile.job.trouble import shown
from undertile.store.line import MAX_LINE

VERSION = 1
MAX_MESSAGE = 16_000_000
"""Characters of one message."""
MAX_ITEMS = 100_000
"""Branches, keys, entries or pieces of one job in one message."""

T = TypeVar("T")

_JOB = re.compile(r"[0-9a-f]{32}")
_KEY = re.compile(r"[0-9a-f]{32}")
_HASH = re.compile(r"[0-9a-f]{64}")
_BRANCH = re.compile(r"[0-9a-f]{0,8}")


@dataclass(frozen=True)
class Piece:
    """A part of a photo's content.

    Attributes
    ----------
    hash : str
        Of the whole content, 64 hex digits.
    size : int
        Of the whole. [bytes]
    at : int
        Where the part begins. [bytes]
    content : bytes
    """

    hash: str
    size: int
    at: int
    content: bytes


@dataclass
class JobTalk:
    """What is said about one job; every part may be empty.

    Attributes
    ----------
    same : str
        Digest that both sides have: the job is the same on both.
    have : dict of branch to digest
    listed : dict of branch to keys
        Everything the sender has there.
    offer : list of keys
        The sender has them and the receiver, as far as can be told, does not.
    want : dict of key to int
        What the sender lacks, from which byte on.
    lines : list of str
        Entries.
    pieces : list of Piece
    """

    same: str = ""
    have: dict[str, str] = field(default_factory=dict)
    listed: dict[str, list[str]] = field(default_factory=dict)
    offer: list[str] = field(default_factory=list)
    want: dict[str, int] = field(default_factory=dict)
    lines: list[str] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)

    @property
    def is_open(self) -> bool:
        """Whether anything is to be answered."""
        return bool(self.have or self.listed or self.offer or self.want or self.lines or self.pieces)


@dataclass
class Message:
    """One step of an exchange.

    Attributes
    ----------
    jobs : dict of job id to JobTalk
    every : bool
        All jobs of the sender are named: what is not, the sender does not have.
    """

    jobs: dict[str, JobTalk] = field(default_factory=dict)
    every: bool = False

    @property
    def is_open(self) -> bool:
        """Whether anything is to be answered."""
        return self.every or any(talk.is_open for talk in self.jobs.values())

    def to_text(self) -> str:
        """The message as JSON; entries are texts in it, so that nobody on the way respells them."""
        jobs = {job: _plain(talk) for job, talk in sorted(self.jobs.items())}
        told = {"sync": VERSION, "every": self.every, "jobs": jobs}
        return json.dumps(told, ensure_ascii=False, separators=(",", ":"))


def _plain(talk: JobTalk) -> dict[str, Any]:
    pieces = [
        {
            "hash": piece.hash,
            "size": piece.size,
            "at": piece.at,
            "content": base64.b64encode(piece.content).decode(),
        }
        for piece in talk.pieces
    ]
    parts = {
        "same": talk.same,
        "have": talk.have,
        "list": talk.listed,
        "offer": talk.offer,
        "want": talk.want,
        "lines": talk.lines,
        "pieces": pieces,
    }
    return {key: value for key, value in parts.items() if value}


def read_message(text: str) -> Message:
    """A message from text that came from outside; keys of a newer version are passed over.

    Raises
    ------
    InputError
        If it is none, whole or cut short: one clear line. Nothing of it may be used then.
    """
    if len(text) > MAX_MESSAGE:
        raise InputError(f"sync: expected at most {MAX_MESSAGE // 1_000_000} MB, found more; start it again")
    try:
        raw = json.loads(text)
        text.encode()
    except (ValueError, RecursionError):
        raise InputError(
            "sync: expected an answer in JSON, found one that is cut short or something else; start it again "
            "(what came before is kept)"
        ) from None
    if not isinstance(raw, Mapping) or type(raw.get("sync")) is not int:
        raise InputError(
            "sync: expected an answer of another undertile, found something else; check the address"
        )
    if raw["sync"] > VERSION:
        raise InputError(
            f"sync: expected version {VERSION}, found {shown(raw['sync'])} of a newer undertile; "
            "update this one (nothing is lost)"
        )
    jobs = _table(raw, "jobs")
    return Message(
        {_text(job, _JOB, "a job's id"): _talk(each) for job, each in jobs.items()}, raw.get("every") is True
    )


def _talk(raw: Any) -> JobTalk:
    if not isinstance(raw, Mapping):
        raise _wrong("a table for a job", raw)
    same = raw.get("same", "")
    return JobTalk(
        _text(same, _KEY, "a digest") if same else "",
        {_branch(branch): _key(each) for branch, each in _table(raw, "have").items()},
        {_branch(branch): _many(keys, _key) for branch, keys in _table(raw, "list").items()},
        _many(raw.get("offer", []), _key),
        {_key(key): _whole(at) for key, at in _table(raw, "want").items()},
        _many(raw.get("lines", []), _line),
        _many(raw.get("pieces", []), _piece),
    )


def _wrong(expected: str, found: Any) -> InputError:
    return InputError(f"sync: expected {expected}, found {shown(found)}; start it again")


def _table(raw: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    found = raw.get(key, {})
    if not isinstance(found, Mapping) or len(found) > MAX_ITEMS:
        raise _wrong(f"`{key}` as a table", found)
    return found


def _many(raw: Any, each: Callable[[Any], T]) -> list[T]:
    if not isinstance(raw, list) or len(raw) > MAX_ITEMS:
        raise _wrong("a list", raw)
    return [each(one) for one in raw]


def _text(raw: Any, pattern: re.Pattern[str], what: str) -> str:
    if not isinstance(raw, str) or not pattern.fullmatch(raw):
        raise _wrong(what, raw)
    return raw


def _key(raw: Any) -> str:
    return _text(raw, _KEY, "a key of 32 hex digits")


def _branch(raw: Any) -> str:
    return _text(raw, _BRANCH, "a branch of at most 8 hex digits")


def _whole(raw: Any) -> int:
    if not isinstance(raw, int) or isinstance(raw, bool) or not 0 <= raw <= MAX_PHOTO:
        raise _wrong("a number of bytes", raw)
    return raw


def _line(raw: Any) -> str:
    if not isinstance(raw, str) or len(raw) > MAX_LINE:
        raise _wrong("an entry as text", raw)
    return raw


def _piece(raw: Any) -> Piece:
    if not isinstance(raw, Mapping):
        raise _wrong("a piece of a photo", raw)
    try:
        content = base64.b64decode(raw.get("content", ""), validate=True)
    except (binascii.Error, TypeError, ValueError):
        raise _wrong("a piece of a photo in base64", raw.get("content")) from None
    piece = Piece(
        _text(raw.get("hash"), _HASH, "a hash of 64 hex digits"),
        _whole(raw.get("size")),
        _whole(raw.get("at")),
        content,
    )
    if not content or piece.at + len(content) > piece.size:
        raise _wrong("a piece within its photo", f"{piece.at} + {len(content)} of {piece.size}")
    return piece
