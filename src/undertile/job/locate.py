"""On which line of a TOML text each key stands, found in one pass before the text is read.

The standard library's reader keeps no places. This pass knows just enough TOML to follow keys, tables,
inline tables and lists of a text that is valid; it stops without a word where it no longer follows,
which is also where the reader will refuse the text. It is the guard of the reader too: a text nested or
dotted deeper than any job is refused here, where the work is still in step with the text's length.
"""

from __future__ import annotations

import json
import re
from contextlib import suppress
from dataclasses import dataclass, field

MAX_PARTS = 12
"""Keys above one another; the deepest fact of a job has seven."""

MAX_PLACES = 20_000
"""Keys and list items; a room has under a thousand."""

Place = tuple[str | int, ...]

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_BASIC = re.compile(r'"(?:[^"\\\n]|\\[^\n])*"')
_LITERAL = re.compile(r"'[^'\n]*'")
_LONG = re.compile(r'"""(?:[^"\\]|\\.|"{1,2}(?!"))*"{3,5}', re.DOTALL)
_LONG_LITERAL = re.compile(r"'''(?:[^']|'{1,2}(?!'))*'{3,5}", re.DOTALL)
_OTHER = re.compile(r"[^,\]}\s#]+(?:[ ][^,\]}\s#]+)?")  # numbers, true, dates with a space in them

_ITEM = re.compile(r"item ([0-9]{1,6})")


class TooDeep(Exception):
    """The text goes deeper than any job, or on longer; ``line`` says where, ``what`` in words."""

    def __init__(self, line: int, what: str = "a few tables inside each other, found many") -> None:
        self.line = line
        self.what = what
        super().__init__(line)


@dataclass
class Places:
    """Line of each key, and of each item of a list, from the top of the text."""

    lines: dict[Place, int] = field(default_factory=dict)

    def line(self, path: tuple[str, ...]) -> int | None:
        """Line of a path, or of the nearest table above it that is in the text."""
        for depth in range(len(path), 0, -1):
            wanted = path[:depth]
            if wanted in self.lines:
                return self.lines[wanted]
            item = _ITEM.fullmatch(wanted[-1])
            if item and (*wanted[:-1], int(item[1]) - 1) in self.lines:
                return self.lines[(*wanted[:-1], int(item[1]) - 1)]
        return None


def locate(text: str) -> Places:
    """Where each key of a TOML text stands.

    Parameters
    ----------
    text : str
        With line ends as ``\\n``.

    Raises
    ------
    TooDeep
        If keys or brackets are nested deeper than any job, or there are more of them.
    """
    scan = _Scan(text)
    with suppress(_Lost):
        scan.run()
    return scan.places


class _Lost(Exception):
    """The text is no TOML from here on."""


class _Scan:
    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.counted = 0
        self.line = 1
        self.places = Places()
        self.tables: dict[Place, int] = {}

    def run(self) -> None:
        table: Place = ()
        while True:
            self.skip(_BLANK)
            if self.at >= len(self.text):
                return
            if self.text[self.at] == "[":
                table = self.header()
            else:
                self.pair(table)

    def header(self) -> Place:
        double = self.text.startswith("[[", self.at)
        line = self.line_here()
        self.at += 2 if double else 1
        table: Place = self.key()
        self.expect("]]" if double else "]")
        for depth in range(1, len(table)):
            self.note(table[:depth], line)
        if double:
            number = self.tables.get(table, -1) + 1
            self.tables[table] = number
            self.note(table, line)
            table = (*table, number)
        self.note(table, line)
        return table

    def pair(self, table: Place) -> None:
        line = self.line_here()
        path = (*table, *self.key())
        if len(path) > MAX_PARTS:
            raise TooDeep(line)
        for depth in range(len(table) + 1, len(path) + 1):
            self.note(path[:depth], line)
        self.expect("=")
        self.skip(_SPACE)
        self.value(path)

    def key(self) -> tuple[str, ...]:
        parts: list[str] = []
        while True:
            self.skip(_SPACE)
            found = self.take(_BARE) or self.take(_BASIC) or self.take(_LITERAL)
            if found is None:
                raise _Lost
            parts.append(_unquoted(found))
            if len(parts) > MAX_PARTS:
                raise TooDeep(self.line_here())
            self.skip(_SPACE)
            if not self.text.startswith(".", self.at):
                return tuple(parts)
            self.at += 1

    def value(self, path: Place) -> None:
        if len(path) > MAX_PARTS + 4:
            raise TooDeep(self.line_here())
        start = self.text[self.at : self.at + 3]
        if start.startswith("["):
            self.items(path)
        elif start.startswith("{"):
            self.inline(path)
        elif start == '"""':
            self.must(_LONG)
        elif start == "'''":
            self.must(_LONG_LITERAL)
        else:
            self.must(_BASIC if start[:1] == '"' else _LITERAL if start[:1] == "'" else _OTHER)

    def items(self, path: Place) -> None:
        self.at += 1
        number = 0
        while True:
            self.skip(_BLANK)
            if self.ends("]"):
                return
            self.note((*path, number), self.line_here())
            self.value((*path, number))
            number += 1
            self.skip(_BLANK)
            if self.ends("]"):
                return
            self.expect(",")

    def inline(self, path: Place) -> None:
        self.at += 1
        self.skip(_BLANK)
        if self.ends("}"):
            return
        while True:
            self.pair(path)
            self.skip(_BLANK)
            if self.ends("}"):
                return
            self.expect(",")
            self.skip(_BLANK)
            if self.ends("}"):
                return

    def note(self, path: Place, line: int) -> None:
        self.places.lines.setdefault(path, line)
        if len(self.places.lines) > MAX_PLACES:
            raise TooDeep(line, f"one room, found more than {MAX_PLACES:,} values")

    def line_here(self) -> int:
        self.line += self.text.count("\n", self.counted, self.at)
        self.counted = self.at
        return self.line

    def skip(self, pattern: re.Pattern[str]) -> None:
        found = pattern.match(self.text, self.at)
        self.at = found.end() if found else self.at

    def take(self, pattern: re.Pattern[str]) -> str | None:
        found = pattern.match(self.text, self.at)
        if found is None:
            return None
        self.at = found.end()
        return found[0]

    def must(self, pattern: re.Pattern[str]) -> None:
        if self.take(pattern) is None:
            raise _Lost

    def expect(self, mark: str) -> None:
        self.skip(_SPACE)
        if not self.ends(mark):
            raise _Lost

    def ends(self, mark: str) -> bool:
        if not self.text.startswith(mark, self.at):
            return False
        self.at += len(mark)
        return True


def _unquoted(key: str) -> str:
    if key[0] == "'":
        return key[1:-1]
    if key[0] != '"':
        return key
    try:
        return str(json.loads(key))
    except ValueError:
        return key[1:-1]
