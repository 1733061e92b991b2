"""Photos in the database, by the hash of their content; one content is kept once for all jobs."""

from __future__ import annotations

from undertile.errors import InputError, StoreError
from undertile.job.trouble import shown
from undertile.store import picture
from undertile.store.database import Database
from undertile.store.interface import Photo


class Album:
    """The photos of a database; its methods are parts of a transaction that the caller holds."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self._db = database.db

    def of(self, job: int) -> tuple[Photo, ...]:
        """Photos of a job, by name."""
        rows = self._db.execute(
            "SELECT key, kind, size FROM job_photo JOIN photo USING (key) WHERE job = ? ORDER BY key", (job,)
        )
        return tuple(Photo(f"{key}.{kind}", size) for key, kind, size in rows)

    def add(self, job: int, content: bytes, kind: str) -> Photo:
        """Keep a content for a job."""
        key = picture.key_of(content)
        self._db.execute(
            "INSERT INTO photo VALUES (?, ?, ?, ?) "
            "ON CONFLICT (key) DO UPDATE SET content = excluded.content",
            (key, kind, len(content), content),
        )
        self._db.execute("INSERT OR IGNORE INTO job_photo VALUES (?, ?)", (job, key))
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
            raise StoreError(
                "damaged",
                f"{self._database.name}: photo {key[:12]} is damaged; "
                "sync with another device or restore a backup: either brings it back",
            )
        return content
