"""Where words go: a paper of 80 to 100 columns, plain wherever colour or a letter is not to be had."""

from __future__ import annotations

import codecs
import os
import sys
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, TextIO, cast

if TYPE_CHECKING:
    from rich.console import Console

WIDEST = 100
"""Lines longer than this are hard to follow with the eye; a wide terminal stays half empty. [columns]"""
USUAL = 80
"""Width where nothing tells: a pipe, a file. [columns]"""
PATIENCE_S = 1.0
"""How long a person waits without a sign before wondering. [s]"""


_PLAIN = {"\u2032": "'", "\u2019": "'", "\u2033": '"', "\u201d": '"', "\u201c": '"'}
_PLAIN |= dict.fromkeys("\u2010\u2011\u2012\u2013\u2014\u2212", "-")


def plain_letters(error: UnicodeError) -> tuple[str, int]:
    """Letters a console cannot show, in ASCII: ``5½`` becomes ``5 1/2``, a prime a quote.

    Raises
    ------
    UnicodeError
        If the error is not about writing.
    """
    if not isinstance(error, UnicodeEncodeError):
        raise error
    out = []
    for char in error.object[error.start : error.end]:
        plain = unicodedata.normalize("NFKD", _PLAIN.get(char, char)).replace("\u2044", "/")
        plain = "".join(c for c in plain if ord(c) < 128) or "?"
        out.append(f" {plain}" if "/" in plain else plain)
    return "".join(out), error.end


def plain_where_needed() -> None:
    """Let stdout and stderr write any letter, in plain ones where theirs lack it (older Windows consoles)."""
    codecs.register_error("plain-letters", plain_letters)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="plain-letters")


class NoTrailingBlanks:
    """A stream that leaves out the blanks at the end of a line, which tables fill their columns with."""

    def __init__(self, stream: TextIO) -> None:
        self.stream = stream

    def write(self, text: str) -> int:
        """Write a text; rich hands over whole lines."""
        self.stream.write("\n".join(line.rstrip(" ") for line in text.split("\n")))
        return len(text)

    def __getattr__(self, name: str) -> Any:
        return getattr(self.stream, name)


def paper(file: TextIO | None = None) -> Console:
    """The console that answers are printed on; colour only on a terminal that wants it."""
    from rich.console import Console

    stream = file or sys.stdout
    console = Console(
        file=stream if stream.isatty() else cast(TextIO, NoTrailingBlanks(stream)),
        markup=False,
        emoji=False,
        highlight=False,
    )
    known = console.is_terminal or "COLUMNS" in os.environ
    console.width = min(console.width if known else USUAL, WIDEST)
    return console


def complain(lines: Iterable[str]) -> None:
    """Problems, one line each, on stderr."""
    for line in lines:
        print(" ".join(line.split()), file=sys.stderr)


@contextmanager
def working(what: str) -> Iterator[None]:
    """A moving mark on stderr once something takes over a second; nothing at all without a terminal."""
    if not sys.stderr.isatty():
        yield
        return
    import threading

    from rich.console import Console

    status = Console(stderr=True, markup=False, emoji=False).status(what, spinner="line")
    timer = threading.Timer(PATIENCE_S, status.start)
    timer.daemon = True
    timer.start()
    try:
        yield
    finally:
        timer.cancel()
        timer.join()
        status.stop()
