"""The entry: one fact as one person typed it, once. Nothing in a log is ever changed or taken out.

Convention 7. An entry's ``value`` is the text exactly as typed and is interpreted only when a log is
folded, so every copy of a log is equal byte for byte.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, fields
from itertools import pairwise
from operator import attrgetter
from types import SimpleNamespace

from undertile.errors import FileError, InputError
from undertile.job.address import MAX_ADDRESS, split
from undertile.job.near import nearest
from undertile.job.trouble import shown

ENTRY_VERSION = 2
"""Version of the addresses entries use: that of the job file they fold to."""
MAX_VALUE = 10_000
"""Characters of one value: the longest is a list of 100 lengths of 64 characters."""
MAX_WORD = 200
MAX_SUPERSEDED = 200


@dataclass(frozen=True, slots=True)
class Entry:
    """One line of the record.

    Attributes
    ----------
    id : str
        Made where it was typed; never used twice.
    fact : str
        Address of the fact, as ``address`` spells it.
    value : str or None
        Exactly as typed: the text itself for texts, lengths, readings and choices (``""`` = not measured,
        ``x`` = cannot reach); ``true``/``false``; digits; a list as JSON. None = the fact is withdrawn.
    time : str
        When, as the device said it. Shown, never used to decide what stands.
    who, device, instrument : str
        ``instrument`` may be empty.
    supersedes : tuple of str
        Ids of the entries this one replaces, sorted.
    version : int
        Version of the address.
    """

    id: str
    fact: str
    value: str | None
    time: str
    who: str
    device: str
    instrument: str = ""
    supersedes: tuple[str, ...] = ()
    version: int = ENTRY_VERSION

    def __post_init__(self) -> None:
        object.__setattr__(self, "supersedes", tuple(sorted(set(self.supersedes))))
        wrong = _wrong(self)
        if wrong:
            raise InputError(f"entry {shown(self.id)}: {wrong[0]}")

    def to_line(self) -> str:
        """The entry as one line of JSON, the same text on every device."""
        return _LINE.encode({name: getattr(self, name) for name in _KNOWN})

    @property
    def sort_key(self) -> tuple[str, str]:
        """Order of a log: by id, then by content, never by time."""
        return self.id, self.to_line()


_LINE = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"))
_WORDS = ("id", "time", "who", "device", "instrument")
_KNOWN = tuple(each.name for each in fields(Entry))
_NEEDED = ("id", "fact", "value", "time", "who", "device")


def _wrong(entry: Entry | SimpleNamespace) -> list[str]:
    """What makes an entry unusable, each in words."""
    wrong = []
    for name in _WORDS:
        text = getattr(entry, name)
        if not isinstance(text, str) or len(text) > MAX_WORD or not (text.isprintable() and _is_utf8(text)):
            wrong.append(f"expected `{name}` as one line of text, found {shown(text)}; write it so")
        elif not text.strip() and name not in ("instrument",):
            wrong.append(f"expected `{name}`, found nothing; fill it in")
    if not isinstance(entry.fact, str) or len(entry.fact) > MAX_ADDRESS or not _is_utf8(entry.fact):
        wrong.append(f"expected `fact` as an address, found {shown(entry.fact)}; write it with dots")
    else:
        try:
            split(entry.fact)
        except InputError as error:
            wrong.append(f"`fact` {error}")
    value = entry.value
    if value is not None and not (isinstance(value, str) and len(value) <= MAX_VALUE and _is_utf8(value)):
        wrong.append(
            f"expected `value` as a text of at most {MAX_VALUE} characters, or null, found {shown(value)}; "
            "write it as typed"
        )
    if len(entry.supersedes) > MAX_SUPERSEDED or not all(
        isinstance(each, str) and 0 < len(each) <= MAX_WORD and _is_utf8(each) for each in entry.supersedes
    ):
        wrong.append(f"expected `supersedes` as at most {MAX_SUPERSEDED} ids; write the ids it replaces")
    if not isinstance(entry.version, int) or isinstance(entry.version, bool) or not 0 < entry.version < 10**6:
        wrong.append(f"expected `version` as a number, found {shown(entry.version)}; write {ENTRY_VERSION}")
    return wrong


def _is_utf8(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


@dataclass
class Pen:
    """Whoever types on one device: gives each entry its id.

    Attributes
    ----------
    device : str
        Unlike any other device's: the id is device and number.
    who : str
    time : str
        Of the entries to come; the host sets it.
    instrument : str
    next_number : int
        Kept by the host, so that no number is used twice.
    """

    device: str
    who: str
    time: str
    instrument: str = ""
    next_number: int = 1

    def write(self, fact: str, value: str | None, supersedes: Iterable[str] = ()) -> Entry:
        """A new entry.

        Raises
        ------
        InputError
            If the fact is no address or a text is too long.
        """
        entry = Entry(
            f"{self.device}-{self.next_number}",
            fact,
            value,
            self.time,
            self.who,
            self.device,
            self.instrument,
            tuple(supersedes),
        )
        self.next_number += 1
        return entry


def merge(*logs: Iterable[Entry]) -> tuple[Entry, ...]:
    """Two or more logs as one: their union, in an order that depends on nothing but the entries.

    Commutative, associative, idempotent. A known id with other content is kept beside the first and
    reported when the log is folded (convention 7.4).
    """
    union = {entry for log in logs for entry in log}
    in_order = sorted(union, key=attrgetter("id"))
    if any(one.id == two.id for one, two in pairwise(in_order)):
        in_order.sort(key=attrgetter("sort_key"))  # the content decides where ids do not, and is written out
    return tuple(in_order)


def write_log(log: Iterable[Entry]) -> str:
    """A log as JSON lines."""
    return "".join(entry.to_line() + "\n" for entry in merge(log))


def read_log(text: str, name: str = "log") -> tuple[Entry, ...]:
    """A log from JSON lines.

    Raises
    ------
    FileError
        If any line is no entry; every one is listed.
    """
    entries, problems = [], []
    for number, line in enumerate(text.split("\n"), 1):
        if line.strip():
            entry = _entry(line)
            if isinstance(entry, Entry):
                entries.append(entry)
            else:
                problems += [f"{name}, line {number}: {each}" for each in entry]
    if problems:
        raise FileError(problems)
    return merge(entries)


def read_entry(line: str) -> Entry:
    """One entry from one line of JSON.

    Raises
    ------
    FileError
        If it is none; everything wrong with it is listed.
    """
    found = _entry(line)
    if not isinstance(found, Entry):
        raise FileError(found)
    return found


def is_newer(line: str) -> bool:
    """Whether a line of a log says that a newer version wrote it.

    Such a line is handed on as it is: what else it says, this version may not know.
    """
    try:
        raw = json.loads(line)
        line.encode()
    except (ValueError, RecursionError):
        return False
    version = raw.get("version") if isinstance(raw, Mapping) else None
    return isinstance(version, int) and not isinstance(version, bool) and ENTRY_VERSION < version < 10**6


def _entry(line: str) -> Entry | list[str]:
    if len(line) > 4 * MAX_VALUE + 4 * MAX_WORD * MAX_SUPERSEDED:
        return [f"expected one entry, found a line of {len(line):,} characters; take it out"]
    try:
        raw = json.loads(line)
    except (ValueError, RecursionError):
        return ["expected one entry as JSON, found something else; restore the line from another copy"]
    if not isinstance(raw, Mapping):
        return [f"expected one entry in braces, found {shown(raw)}; restore the line from another copy"]
    wrong = [
        f"expected a key of an entry, found {shown(key)}; {nearest(key, _KNOWN)}"
        for key in raw
        if key not in _KNOWN
    ]
    wrong += [
        f"expected `{key}`, found nothing; restore the line from another copy"
        for key in _NEEDED
        if key not in raw
    ]
    supersedes = raw.get("supersedes", [])
    if not isinstance(supersedes, list) or not all(isinstance(each, str) for each in supersedes):
        wrong.append(
            f"expected `supersedes` as a list of ids, found {shown(supersedes)}; write the ids it replaces"
        )
    if wrong:
        return wrong
    told = {"instrument": "", "version": ENTRY_VERSION, **raw, "supersedes": tuple(supersedes)}
    try:
        return Entry(**told)
    except InputError:  # which names the first thing that is wrong; here all are wanted
        return _wrong(SimpleNamespace(**told))
