"""The line: one entry as text, the form in which entries are kept, copied and compared.

A line of this version is kept in the one spelling of ``Entry.to_line``. A line of a newer version is kept and
handed on byte for byte as it came: this copy may not know what else it says (docs/decisions/store.md).
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass

from undertile.errors import FileError, InputError
from undertile.job.address import join, split
from undertile.job.entry import ENTRY_VERSION, MAX_WORD, Entry, is_newer, read_entry
from undertile.job.trouble import shown

MAX_LINE = 250_000
"""Characters of one line, with room for what a newer version adds."""


@dataclass(frozen=True, slots=True)
class Line:
    """One entry as text.

    Attributes
    ----------
    text : str
        Without a line end; the same on every device.
    id : str
    fact : str
        Its address as ``address.join`` spells it, ``""`` where a newer version hides it.
    time : str
    entry : Entry or None
        None where only a newer version can read it.
    """

    text: str
    id: str
    fact: str
    time: str
    entry: Entry | None

    @property
    def key(self) -> str:
        """The hash of the text, 64 hex digits: equal keys are equal entries."""
        return key_of(self.text)


def key_of(text: str) -> str:
    """SHA-256 of a text in hex."""
    return hashlib.sha256(text.encode()).hexdigest()


def line_of(entry: Entry) -> Line:
    """An entry as a line."""
    return Line(entry.to_line(), entry.id, join(split(entry.fact)), entry.time, entry)


def read_line(text: str) -> Line:
    """A line from text that came from outside.

    Raises
    ------
    InputError
        If it is no entry of this version and none of a newer one.
    """
    text = text.strip("\r\n \t")
    if len(text) > MAX_LINE or "\n" in text or "\r" in text:
        raise InputError(f"expected one entry on one line, found {len(text):,} characters; send it again")
    try:
        entry = read_entry(text)
    except FileError as error:
        if is_newer(text):
            return _newer(text, None)
        raise InputError("; ".join(error.problems)) from None
    return line_of(entry) if entry.version <= ENTRY_VERSION else _newer(text, entry)


def _newer(text: str, entry: Entry | None) -> Line:
    """A line of a newer version, as it came."""
    raw = json.loads(text)
    name, fact, time = raw.get("id"), raw.get("fact"), raw.get("time")
    if not isinstance(name, str) or not 0 < len(name) <= MAX_WORD or not name.isprintable():
        raise InputError(f"expected an entry with an id, found {shown(name)}; send it again")
    try:
        address = join(split(fact)) if isinstance(fact, str) else ""
    except InputError:
        address = ""
    return Line(text, name, address, time if isinstance(time, str) and len(time) <= MAX_WORD else "", entry)


def number_of(device: str, name: str) -> int:
    """The number in an id that a device made, 0 where the id is none of its own."""
    head, dash, number = name.rpartition("-")
    own = dash and head == device and number.isascii() and number.isdecimal() and len(number) <= 15
    return int(number) if own else 0
