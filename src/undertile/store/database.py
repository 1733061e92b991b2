"""One SQLite database: opened, checked, brought up to date, and asked in whole transactions."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from os import PathLike
from pathlib import Path
from threading import RLock
from time import monotonic, sleep

from undertile.store.schema import MIGRATIONS, Migration, migrate
from undertile.store.trouble import told

BUSY_S = 10.0
"""How long to wait for another process that writes. [s]"""


class Database:
    """A connection that is sound and of this version.

    Parameters
    ----------
    path : str or PathLike
        ``":memory:"`` for none.
    busy_s : float
        How long to wait for another process. [s]
    migrations : sequence of Migration

    Raises
    ------
    StoreError
        If it cannot be used; the file stays as it is.
    """

    def __init__(
        self,
        path: str | PathLike[str] = ":memory:",
        *,
        busy_s: float = BUSY_S,
        migrations: Sequence[Migration] = MIGRATIONS,
    ) -> None:
        self.path = None if path == ":memory:" else Path(path)
        self.name = self.path.name if self.path else "the store"
        self._lock = RLock()
        with told(self.name):
            # one connection for whichever thread a host runs us in; the lock keeps their transactions apart
            self.db = sqlite3.connect(path, timeout=busy_s, isolation_level=None, check_same_thread=False)
        try:
            with told(self.name):
                self._open(migrations, busy_s)
        except BaseException:
            self.db.close()
            raise

    def _open(self, migrations: Sequence[Migration], busy_s: float) -> None:
        self.db.execute("PRAGMA foreign_keys=ON")
        if self.path is not None:
            self._write_ahead(busy_s)
            self.db.execute("PRAGMA synchronous=FULL")  # what was acknowledged outlives a power cut
            sound = self.db.execute("PRAGMA quick_check(1)").fetchone()[0]
            if sound != "ok":
                raise sqlite3.DatabaseError(f"malformed: {sound}")
        migrate(self.db, self.path, migrations)

    def _write_ahead(self, busy_s: float) -> None:
        """Log ahead of writing. Two that make one new file meet here, where SQLite itself may not wait."""
        last = monotonic() + busy_s
        while True:
            try:
                self.db.execute("PRAGMA journal_mode=WAL")
                return
            except sqlite3.OperationalError as error:
                if "locked" not in str(error) or monotonic() > last:
                    raise
                sleep(0.01)

    def close(self) -> None:
        """Let go of the file."""
        with self._lock:
            self.db.close()

    def __del__(self) -> None:
        with suppress(AttributeError, sqlite3.Error):  # one that could not be opened has nothing to let go
            self.db.close()

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The connection, to ask."""
        with self._lock, told(self.name):
            yield self.db

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction: all of it or, whatever happens, none of it. Inside another it is part of that."""
        with self._lock, told(self.name):
            if self.db.in_transaction:
                yield self.db
                return
            self.db.execute("BEGIN IMMEDIATE")
            try:
                yield self.db
                self.db.execute("COMMIT")
            except BaseException:
                if self.db.in_transaction:
                    self.db.execute("ROLLBACK")
                raise

    def passed(self, device: str, number: int) -> None:
        """See that a device's next number is past ``number``; part of a transaction."""
        self.db.execute(
            "INSERT INTO counter VALUES (?, ?) "
            "ON CONFLICT (device) DO UPDATE SET next = max(next, excluded.next)",
            (device, number + 1),
        )

    def next_number(self, device: str) -> int:
        """A device's next number."""
        row = self.db.execute("SELECT next FROM counter WHERE device = ?", (device,)).fetchone()
        return row[0] if row else 1

    def take_counters(self, other: Database) -> None:
        """See that every device's next number is past what ``other`` has given out."""
        for device, number in other.db.execute("SELECT device, next FROM counter"):
            self.passed(device, number - 1)
