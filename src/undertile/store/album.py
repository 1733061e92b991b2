"""Photos in the database, by the hash of their content; one content is kept once for all jobs."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.errors import InputError, StoreError
from undertile.job.trouble import shown
from undertile.store import picture
from undertile.store.database import Database
from undertile.store.interface import Photo
from undertile.store.message import Piece
from undertile.store.summary import short

MAX_BEGUN = 10
"""Photos on their way at once; the parts of one begun earlier are dropped and asked for again."""


class Album:
    """The photos of a database; its methods are parts of a transaction that the caller holds.

    Attributes
    ----------
    damaged : set of str
        Hashes of contents that were found damaged: they count as not here until a sound copy comes.
    """

    def __init__(self, database: Database) -> None:
        self._database = database
        self._db = database.db
        self.damaged: set[str] = set()

    def of(self, job: int) -> tuple[Photo, ...]:
        """Photos of a job, by name."""
        rows = self._db.execute(
            "SELECT key, kind, size FROM job_photo JOIN photo USING (key) WHERE job = ? ORDER BY key", (job,)
        )
        return tuple(Photo(f"{key}.{kind}", size) for key, kind, size in rows if key not in self.damaged)

    def add(self, job: int, content: bytes, kind: str) -> Photo:
        """Keep a content for a job."""
        key = picture.key_of(content)
        self._db.execute(
            "INSERT INTO photo VALUES (?, ?, ?, ?) "
            "ON CONFLICT (key) DO UPDATE SET content = excluded.content",
            (key, kind, len(content), content),
        )
        self._db.execute("INSERT OR IGNORE INTO job_photo VALUES (?, ?)", (job, key))
        self.damaged.discard(key)
        return Photo(f"{key}.{kind}", len(content))

    def content(self, key: str) -> bytes:
        """A content, whole and sound.

        Raises
        ------
        InputError
            If it is not here.
        StoreError
            If it is damaged.
        """
        row = self._db.execute("SELECT content FROM photo WHERE key = ?", (key,)).fetchone()
        if row is None:
            raise InputError(
                f"expected a photo that is here, found {shown(key)}; sync with the device that took it"
            )
        content: bytes = row[0]
        if picture.key_of(content) != key:
            self.damaged.add(key)
            raise StoreError(
                "damaged",
                f"{self._database.name}: photo {key[:12]} is damaged; "
                "sync with another device or restore a backup: either brings it back",
            )
        return content

    # Parts of photos on their way -----------------------------------------------------------------------

    def begun(self, keys: Iterable[str]) -> dict[str, int]:
        """Photos of which a part is here: how much, by the beginning of the hash. [bytes]"""
        wanted = set(keys)
        rows = self._db.execute("SELECT key, sum(length(content)) FROM piece GROUP BY key")
        return {short(key): size for key, size in rows if short(key) in wanted}

    def adopt(self, job: int, key: str) -> bool:
        """Give a job a photo that is here for another, by the beginning of its hash."""
        row = self._db.execute(
            "SELECT key FROM photo WHERE key >= ? AND key < ?", (key, key + "g")
        ).fetchone()
        if row is None or row[0] in self.damaged:
            return False
        self._db.execute("INSERT OR IGNORE INTO job_photo VALUES (?, ?)", (job, row[0]))
        return True

    def take_piece(self, piece: Piece) -> bytes | None:
        """Keep a part that goes on where the last one ended; the whole content with the last one."""
        here = self._db.execute(
            "SELECT coalesce(sum(length(content)), 0) FROM piece WHERE key = ?", (piece.hash,)
        ).fetchone()[0]
        if piece.at != here:  # one that came twice, or out of turn: it is asked for again
            return None
        if here + len(piece.content) < piece.size:
            self._db.execute("INSERT INTO piece VALUES (?, ?, ?)", (piece.hash, piece.at, piece.content))
            self._db.execute(
                "DELETE FROM piece WHERE key NOT IN (SELECT key FROM piece GROUP BY key "
                "ORDER BY max(rowid) DESC LIMIT ?)",
                (MAX_BEGUN,),
            )
            return None
        rows = self._db.execute("SELECT content FROM piece WHERE key = ? ORDER BY at", (piece.hash,))
        whole = b"".join([*(row[0] for row in rows), piece.content])
        self._db.execute("DELETE FROM piece WHERE key = ?", (piece.hash,))
        return whole
