"""What a host tells the screens: which device this is, who holds it, and what it can do besides.

A hook the host lacks is ``None``: the screen then says in plain words what cannot be done here.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from typing import Literal, Protocol

from undertile.screens.slices import Progress
from undertile.screens.words import Language


@dataclass(frozen=True)
class Paper:
    """One paper the host can hand out: its title in the trade's words and where it is."""

    title: str
    href: str


@dataclass(frozen=True)
class Picture:
    """A photo made fit to keep: turned upright, of a sane size, without the place it was taken."""

    content: bytes
    kind: Literal["jpg", "png", "webp"]


class Searches(Protocol):
    """Where plans are looked for, so that no key press waits: a second worker, a process.

    A search is known by its key (the hash of the log) and runs ``slices.search``.
    """

    def start(self, job: str, key: str, log: str) -> None:
        """Begin, unless it runs or is done; an older search of the same job is given up."""

    def progress(self, key: str) -> Progress | None:
        """How far it is; None when nothing of it is known."""

    def found(self, key: str) -> bytes | None:
        """What it came to, the last of what ``slices.search`` yielded; None until then."""

    def cancel(self, key: str) -> None:
        """Give it up."""


class Notes(Protocol):
    """What this device remembers of a job beside the record: texts by name, which nobody misses for long.

    Nothing here is exchanged, copied or counted, and neither call ever fails: what cannot be kept is not.
    """

    def read(self, job: str, name: str) -> str:
        """The text; "" where there is none."""

    def keep(self, job: str, name: str, text: str) -> None:
        """Keep it in place of the one before; "" lets it go."""


@dataclass
class Host:
    """The host the screens run on.

    Attributes
    ----------
    kind : {"phone", "server"}
    device : str
        Unlike any other device's: begins every id made here.
    who : str
        Name of the person holding it.
    now : callable
        The time, as ISO 8601 text.
    language : {"en", "es"}
    instrument : str
        What readings are taken with, as noted beside each.
    searches : Searches or None
        None: a plan is looked for at once, and the page waits for it.
    papers : callable or None
        ``await papers(job, language)``: the papers that can be had here.
    kept : callable or None
        ``kept(job)``: one line on what is not yet copied elsewhere, "" when all is.
    clean_photo : callable or None
        ``await clean_photo(content)``: re-encoded and judged; raises ``InputError`` with one clear line.
    soon : list of callable or None
        What is likely to be asked next, put there by a screen: worked out while nobody waits.
    ahead : callable or None
        ``ahead(job, key, log)``: look for a plan that nobody has asked for yet, where it is in nobody's way;
        None: a plan is looked for when it is asked for.
    notes : Notes or None
        None: nothing is remembered past a start.
    """

    kind: Literal["phone", "server"]
    device: str
    who: str
    now: Callable[[], str]
    language: Language = "en"
    instrument: str = ""
    searches: Searches | None = None
    papers: Callable[[str, Language], Awaitable[tuple[Paper, ...]]] | None = None
    kept: Callable[[str], str] | None = None
    clean_photo: Callable[[bytes], Awaitable[Picture]] | None = None
    soon: list[Callable[[], object]] | None = None
    ahead: Callable[[str, str, str], object] | None = None
    notes: Notes | None = None
