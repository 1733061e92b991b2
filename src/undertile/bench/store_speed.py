"""How long the store takes to keep a value, bring a log back, exchange, back up; beside bare SQLite."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median, quantiles
from time import perf_counter
from typing import Any

from undertile.job import Entry
from undertile.store import SqliteStore, Talk, serve

FACT = "survey.walls.B.studs.B1.readings.48"
VALUES = 200
LOG = 5_000


def case(rooms: int) -> Iterator[dict[str, Any]]:
    """Four rows; ``rooms`` is how often each is measured.

    The peers: one insert a transaction, as durable, in bare SQLite; the log's lines read back from a table;
    sending the whole log; SQLite's own copy of the file.
    """
    with tempfile.TemporaryDirectory() as folder:
        yield _values(Path(folder), rooms)
        yield _replayed(rooms)
        yield _exchanged(rooms)
        yield _backed_up(Path(folder), rooms)


def _row(
    name: str, size: str, own: list[float], peer: str, other: list[float], **more: Any
) -> dict[str, Any]:
    return {
        "name": name,
        "size": size,
        "seconds": median(own),
        "seconds_worst": max(own),
        "peer": peer,
        "peer_seconds": median(other),
        "ratio": median(other) / median(own),
        **more,
    }


def _values(folder: Path, rooms: int) -> dict[str, Any]:
    """One value typed: numbered, made an entry, kept so that a power cut cannot take it back."""
    own, bare = [], []
    store = SqliteStore(folder / "jobs.db")
    job, pen = store.create(), store.pen("phone-1", "Ann", "2031-05-02T09:00Z")
    db = sqlite3.connect(folder / "bare.db", isolation_level=None)
    db.execute("PRAGMA journal_mode=WAL")
    db.execute("PRAGMA synchronous=FULL")
    db.execute("CREATE TABLE line (text TEXT)")
    for _ in range(VALUES * rooms):
        own.append(_seconds(lambda: pen.write(job, FACT, "6-0")))
        bare.append(_seconds(lambda: db.execute("INSERT INTO line VALUES (?)", ("x" * 200,))))
    kept = len(store.log(job))
    store.close()
    db.close()
    p95 = quantiles(own, n=20)[-1]
    size = f"{VALUES * rooms} values, p95 {p95 * 1000:.1f} ms"
    return _row(
        "a value kept",
        size,
        own,
        "bare SQLite, one insert",
        bare,
        seconds_p95=p95,
        equal=kept == VALUES * rooms,
    )


def _lines(count: int = LOG) -> list[str]:
    return [Entry(f"a-{n}", FACT, "6-0", "2031-05-02T09:00Z", "Ann", "a").to_line() for n in range(count)]


def _replayed(rooms: int) -> dict[str, Any]:
    """A log put into a store in memory and asked for, as a phone does at its start."""
    lines = _lines()
    own, bare, equal = [], [], True
    for _ in range(rooms):
        store = SqliteStore()
        job = store.create()
        own.append(_seconds(lambda: (store.append_lines(job, lines), store.log(job))))  # noqa: B023
        equal &= [line.text for line in store.lines(job)] == sorted(lines)
        db = sqlite3.connect(":memory:")
        db.execute("CREATE TABLE line (text TEXT)")
        bare.append(
            _seconds(
                lambda: (
                    db.executemany("INSERT INTO line VALUES (?)", [(line,) for line in lines]),  # noqa: B023
                    db.execute("SELECT text FROM line").fetchall(),  # noqa: B023
                )
            )
        )
        db.close()
    return _row("a log brought back", f"{LOG} entries", own, "bare SQLite, nothing read", bare, equal=equal)


def _exchanged(rooms: int) -> dict[str, Any]:
    """One new entry goes over, both sides holding the same long log before."""
    lines = _lines()
    mine, theirs = SqliteStore(), SqliteStore()
    job = mine.create("ab" * 16)
    for store in (mine, theirs):
        store.create(job)
        store.append_lines(job, lines)
        store.summary(job)
    own, sizes, equal = [], [], True
    for number in range(rooms):
        mine.append(job, [Entry(f"b-{number}", FACT, "6-0", "2031", "Bo", "b")])
        start, sent = perf_counter(), 0
        talk = Talk(mine)
        text: str | None = talk.first()
        while text is not None:
            reply, _ = serve(theirs, text)
            sent += len(text) + len(reply)
            text = talk.next(reply)
        own.append(perf_counter() - start)
        sizes.append(sent)
        equal &= bool(talk.same) and mine.digest(job) == theirs.digest(job)
    whole = []
    for _ in range(rooms):
        other = SqliteStore()
        other.create(job)
        whole.append(_seconds(lambda: other.append_lines(job, [line.text for line in mine.lines(job)])))  # noqa: B023
    size = f"1 new in {LOG}, {max(sizes):,} characters both ways"
    return _row("an exchange", size, own, "the whole log sent", whole, equal=equal, characters=max(sizes))


def _backed_up(folder: Path, rooms: int) -> dict[str, Any]:
    """Everything to one file, read back; and out of it into an empty store."""
    path = folder / "many.db"
    with SqliteStore(path) as store:
        job = store.create()
        store.append_lines(job, _lines())
        own, bare, equal = [], [], True
        for _ in range(rooms):
            own.append(_seconds(lambda: store.backup(folder / "all.backup")))
            bare.append(_seconds(lambda: _copied(path, folder / "bare.backup")))
            with SqliteStore() as other:
                other.restore(folder / "all.backup")
                equal &= other.digest(job) == store.digest(job)
    return _row("a backup", f"{LOG} entries", own, "SQLite's own copy, not read back", bare, equal=equal)


def _copied(source: Path, target: Path) -> None:
    reader, writer = sqlite3.connect(source), sqlite3.connect(target)
    reader.backup(writer)
    writer.close()
    reader.close()


def _seconds(call: Callable[[], object]) -> float:
    start = perf_counter()
    call()
    return perf_counter() - start
