"""What the water record says, as plain data in one language."""

from __future__ import annotations

from dataclasses import dataclass

from undertile.packet.content import Head


@dataclass(frozen=True)
class VisitRow:
    """One visit: its name, day, who, meter, the room's air, what wood comes to in it, what was since."""

    visit: str
    day: str
    by: str
    meter: str
    air: str
    humidity: str
    equilibrium: str
    since: str


@dataclass(frozen=True)
class ReadingRow:
    """One place: what the meter showed on each visit of its table, as typed, and below it corrected."""

    place: str
    stuff: str
    shown: tuple[str, ...]
    corrected: tuple[str, ...]


@dataclass(frozen=True)
class ReadingTable:
    """Readings of some visits."""

    visits: tuple[str, ...]
    rows: tuple[ReadingRow, ...]


@dataclass(frozen=True)
class PlaceRow:
    """One place judged: newest figure, its give or take, what it is held against, why, what to do."""

    place: str
    value: str
    give: str
    call: str
    why: str
    do: str


@dataclass(frozen=True)
class TestRow:
    """One test: what, when, its numbers, what it rules out, what it finds, what it could not tell."""

    test: str
    day: str
    by: str
    why: str
    excludes: str
    finds: str
    nothing: str


@dataclass(frozen=True)
class StandRow:
    """One place water can come from: how it stands, and why."""

    what: str
    stands: str
    why: str
    open: bool


@dataclass(frozen=True)
class RecordSheet:
    """Everything on the record, in its order and in one language.

    Attributes
    ----------
    cover : str
        Whether anything may be covered.
    when : str
        When the whole may be closed.
    cause : tuple of str
        The cause in plain words: tested, found, mended, ruled out, not tested.
    claims : str
        That it claims no more.
    tests : tuple of TestRow
    stands : tuple of StandRow
    untested : tuple of str
        What no test has ruled out.
    next_test : str
        The one that would tell most; "" where none is left.
    meters : tuple of str
    visits : tuple of VisitRow
    readings, references : tuple of ReadingTable
    how : tuple of str
        How figures were corrected, and which were not.
    places : tuple of PlaceRow
    extent : tuple of str
        How far to open, and where to read next.
    equipment : tuple of (str, str)
        What ran, and for how long.
    covered : tuple of str
        Photos before it is covered, and the inspection.
    missing : tuple of (str, str)
        What keeps it shut: what, and what to do.
    sources : tuple of str
    """

    head: Head
    title: str
    cover: str
    when: str
    cause: tuple[str, ...]
    claims: str
    tests: tuple[TestRow, ...]
    stands: tuple[StandRow, ...]
    untested: tuple[str, ...]
    next_test: str
    meters: tuple[str, ...]
    visits: tuple[VisitRow, ...]
    readings: tuple[ReadingTable, ...]
    references: tuple[ReadingTable, ...]
    how: tuple[str, ...]
    places: tuple[PlaceRow, ...]
    extent: tuple[str, ...]
    equipment: tuple[tuple[str, str], ...]
    covered: tuple[str, ...]
    missing: tuple[tuple[str, str], ...]
    sources: tuple[str, ...]
