"""What screens and hosts ask of a store. SQLite answers it today; the interface names no database.

A store keeps and moves entries and photos and knows nothing of their meaning (convention 7.2).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from os import PathLike
from typing import NamedTuple, Protocol

from undertile.job.address import join
from undertile.job.entry import Entry
from undertile.job.photo import MARK
from undertile.store.line import Line


@dataclass(frozen=True)
class JobRow:
    """One job in a list of jobs.

    Attributes
    ----------
    id : str
        32 hex digits.
    name : str
        As its log has it; ``""`` where none stands.
    entries : int
    time : str
        Of the newest entry by the clocks they were typed by, as its device said it: the same on every device
        that holds the same log; ``""`` where none tells a time.
    photos : int
        Photos whose content is here.
    """

    id: str
    name: str
    entries: int
    time: str
    photos: int


@dataclass(frozen=True)
class Appended:
    """What became of entries handed in.

    Attributes
    ----------
    new : tuple of str
        Ids kept now.
    known : tuple of str
        Ids that were here already, with the same content.
    other : tuple of str
        Ids that were here with another content; kept beside it (convention 7.4), and among ``new``.
    refused : tuple of str
        A line in words for each that is no entry; nothing of it is kept.
    """

    new: tuple[str, ...] = ()
    known: tuple[str, ...] = ()
    other: tuple[str, ...] = ()
    refused: tuple[str, ...] = ()

    def plus(self, more: Appended) -> Appended:
        """The two together."""
        return Appended(
            self.new + more.new, self.known + more.known, self.other + more.other, self.refused + more.refused
        )


class Draft(NamedTuple):
    """An entry to be written: fact, value as typed (None = withdrawn), ids it supersedes."""

    fact: str
    value: str | None
    supersedes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Pen:
    """Whoever types on one device; its entries are numbered in the transaction that keeps them.

    Attributes
    ----------
    store : Store
    device : str
        Unlike any other device's.
    who, time, instrument : str
    """

    store: Store
    device: str
    who: str
    time: str
    instrument: str = ""

    def write(self, job: str, fact: str, value: str | None, supersedes: Iterable[str] = ()) -> Entry:
        """Write and keep one entry; it is durable once this returns.

        Raises
        ------
        InputError
            If the job is not here, or the fact is no address or a text is too long.
        StoreError
            If it cannot be kept; nothing is written then.
        """
        return self.write_all(job, [Draft(fact, value, tuple(supersedes))])[0]

    def write_all(self, job: str, drafts: Iterable[Draft]) -> tuple[Entry, ...]:
        """Write and keep several entries, all of them or none."""
        return self.store.write(job, self, drafts)


@dataclass(frozen=True)
class Photo:
    """One photo of a job: its name (hash and kind) and size [bytes]; its facts are entries of the log."""

    name: str
    size: int

    @property
    def key(self) -> str:
        """SHA-256 of the content in hex."""
        return self.name.partition(".")[0]

    def fact(self, key: str) -> str:
        """The address of a fact about it (``wall``, ``stud``, ``height``, ``stage``, ``note``)."""
        return join(("photos", self.key[:MARK], key))


class Store(Protocol):
    """Many jobs, each a log of entries with photos.

    Every method that takes a job raises ``InputError`` where it is not here, and ``StoreError`` where the
    place the jobs are kept in cannot be used: full, read-only, damaged, in use, written by a newer version.
    """

    def jobs(self) -> list[JobRow]:
        """Every job, the one with the newest arrival first."""
        ...

    def create(self, job: str = "") -> str:
        """A new job's id, 128 random bits in hex; with an id, that job, made if it is not here yet."""
        ...

    def log(self, job: str) -> tuple[Entry, ...]:
        """Every entry that this version can read, in the order of ``merge``."""
        ...

    def lines(self, job: str) -> tuple[Line, ...]:
        """Every entry as text, those of a newer version too, in the same order."""
        ...

    def unread(self, job: str) -> tuple[str, ...]:
        """Ids of entries that only a newer version can read: kept, handed on, and left out of ``log``."""
        ...

    def digest(self, job: str) -> str:
        """A hash of the whole log: equal where the logs are equal."""
        ...

    def append(self, job: str, entries: Iterable[Entry]) -> Appended:
        """Keep entries, all in one transaction; those known already are left as they are."""
        ...

    def append_lines(self, job: str, lines: Iterable[str]) -> Appended:
        """The same for entries as text, newer ones among them; what is no entry is refused alone."""
        ...

    def pen(self, device: str, who: str, time: str, instrument: str = "") -> Pen:
        """A pen for a device."""
        ...

    def write(self, job: str, pen: Pen, drafts: Iterable[Draft]) -> tuple[Entry, ...]:
        """Number drafts, make them entries and keep them, in one transaction."""
        ...

    def undo(self, job: str, pen: Pen, fact: str = "", seen: Collection[str] = ()) -> tuple[Entry, ...]:
        """Take back this device's last entry by entries that restore what stood before it; of a photo all
        that was said of it as it was taken.

        Parameters
        ----------
        job : str
        pen : Pen
        fact : str
            The last one of this fact; of any when "".
        seen : collection of str
            Ids of what is to be taken back: where it has been, nothing is written and that is returned.

        Raises
        ------
        InputError
            If there is nothing to take back, or somebody has replaced it since.
        """
        ...

    def history(self, job: str, fact: str) -> tuple[Entry, ...]:
        """Every entry of one fact, each after all that it replaces."""
        ...

    def photos(self, job: str) -> tuple[Photo, ...]:
        """Photos of a job whose content is here, by name."""
        ...

    def add_photo(
        self, job: str, content: bytes, pen: Pen | None = None, facts: Mapping[str, str] | None = None
    ) -> Photo:
        """Keep a photo and, with a pen, the facts about it (``Photo.fact``), in one transaction.

        Raises
        ------
        InputError
            If it is no whole JPEG, PNG, WebP or HEIC picture, or too large.
        """
        ...

    def photo(self, name: str) -> bytes:
        """The content of a photo, by its name or its hash."""
        ...

    def backup(self, path: str | PathLike[str]) -> None:
        """Write everything to one file, whole or not at all."""
        ...

    def restore(self, path: str | PathLike[str]) -> Appended:
        """Bring in everything a backup holds; nothing that is here is taken away."""
        ...
