"""The store in SQLite: a file on a laptop, memory in a phone's browser. Works on SQLite 3.39 and later."""

from __future__ import annotations

import re
import secrets
from collections.abc import Collection, Iterable, Mapping, Sequence
from os import PathLike
from types import TracebackType

from undertile.errors import InputError, StoreError
from undertile.job.entry import Entry
from undertile.job.entry import Pen as Numbering
from undertile.job.fold import fold
from undertile.job.standing import UNDO, history
from undertile.job.trouble import shown
from undertile.store import backup, picture
from undertile.store.album import Album
from undertile.store.database import BUSY_S, Database
from undertile.store.interface import Appended, Draft, JobRow, Pen, Photo
from undertile.store.line import Line, key_of, line_of, number_of, read_line
from undertile.store.message import Piece
from undertile.store.schema import MIGRATIONS, Migration
from undertile.store.summary import digest, short
from undertile.store.undo import undo_drafts, undone
from undertile.store.when import newest

_JOB = re.compile("[0-9a-f]{32}")


class SqliteStore:
    """Jobs in one SQLite file, or in memory.

    Parameters
    ----------
    path : str or PathLike
        The file, made when it is not there; ``":memory:"`` keeps everything in memory.
    busy_s : float
        How long to wait for another process. [s]
    migrations : sequence of Migration

    Raises
    ------
    StoreError
        If it cannot be used: one clear line; the file stays as it is.
    """

    def __init__(
        self,
        path: str | PathLike[str] = ":memory:",
        *,
        busy_s: float = BUSY_S,
        migrations: Sequence[Migration] = MIGRATIONS,
    ) -> None:
        self._database = Database(path, busy_s=busy_s, migrations=migrations)
        self._db = self._database.db
        self._reading, self._writing = self._database.reading, self._database.writing
        self._album = Album(self._database)
        self._read: dict[str, Line] = {}
        self._summaries: dict[str, tuple[tuple[int, ...], str]] = {}

    def close(self) -> None:
        """Let go of the file."""
        self._database.close()

    def __enter__(self) -> SqliteStore:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    # Jobs -----------------------------------------------------------------------------------------------

    def jobs(self) -> list[JobRow]:
        """Every job, the one with the newest arrival first."""
        with self._reading() as db:
            rows = db.execute(
                "SELECT job.number, job.id, count(entry.arrival), coalesce(max(entry.arrival), 0), "
                "(SELECT count(*) FROM job_photo WHERE job_photo.job = job.number) "
                "FROM job LEFT JOIN entry ON entry.job = job.number GROUP BY job.number "
                "ORDER BY 4 DESC, 1 DESC"
            ).fetchall()
            return [
                JobRow(job, self._name(number), entries, self._time(number), photos)
                for number, job, entries, _, photos in rows
            ]

    def _name(self, number: int) -> str:
        """What the fold makes of the entries about the name alone: facts stand one by one."""
        rows = self._db.execute(
            "SELECT key, line FROM entry WHERE job = ? AND id IN "
            "(SELECT id FROM entry WHERE job = ? AND fact = 'name')",
            (number, number),
        )
        try:
            entries = [line.entry for line in map(self._line, rows) if line.entry is not None]
        except StoreError:  # a damaged name hides no other job; whoever opens this one is told
            return ""
        return fold(entries).job.name if entries else ""

    def _time(self, number: int) -> str:
        """Of its newest entry by the clocks: what came in last is another on each device."""
        rows = self._db.execute("SELECT DISTINCT time FROM entry WHERE job = ?", (number,))
        return newest(time for (time,) in rows)

    def create(self, job: str = "") -> str:
        """A new job's id, 128 random bits in hex; with an id, that job, made if it is not here yet."""
        job = job or secrets.token_hex(16)
        if not _JOB.fullmatch(job):
            raise InputError(f"expected a job's id, 32 digits 0-9 a-f, found {shown(job)}")
        with self._writing() as db:
            db.execute("INSERT OR IGNORE INTO job (id) VALUES (?)", (job,))
        return job

    def _number(self, job: str) -> int:
        row = self._db.execute("SELECT number FROM job WHERE id = ?", (job,)).fetchone()
        if row is None:
            raise InputError(f"expected a job that is here, found {shown(job)}; see the list of jobs")
        number: int = row[0]
        return number

    # The log --------------------------------------------------------------------------------------------

    def log(self, job: str) -> tuple[Entry, ...]:
        """Every entry that this version can read, in the order of ``merge``."""
        return tuple(line.entry for line in self.lines(job) if line.entry is not None)

    def lines(self, job: str) -> tuple[Line, ...]:
        """Every entry as text, those of a newer version too, in the same order."""
        with self._reading() as db:
            rows = db.execute(
                "SELECT key, line FROM entry WHERE job = ? ORDER BY id, line", (self._number(job),)
            ).fetchall()
            return tuple(map(self._line, rows))

    def unread(self, job: str) -> tuple[str, ...]:
        """Ids of entries that only a newer version can read: kept, handed on, and left out of ``log``."""
        return tuple(line.id for line in self.lines(job) if line.entry is None)

    def _line(self, row: tuple[str, str]) -> Line:
        """A row as a line; what has been read once is not parsed again."""
        key, text = row
        line = self._read.get(key)
        if line is None or line.text != text:
            if key_of(text) != key:
                self._summaries.clear()  # it counts as not here from now on
                raise StoreError(
                    "damaged",
                    f"{self._database.name}: an entry is damaged ({shown(text)}); "
                    "sync with another device or restore a backup: either brings it back",
                )
            line = self._read[key] = read_line(text)
        return line

    def keys(self, job: str) -> tuple[str, ...]:
        """The hash of every entry, sorted."""
        with self._reading() as db:
            rows = db.execute("SELECT key FROM entry WHERE job = ? ORDER BY key", (self._number(job),))
            return tuple(row[0] for row in rows)

    def digest(self, job: str) -> str:
        """A hash of the whole log: equal where the logs are equal."""
        return digest(self.keys(job))

    def append(self, job: str, entries: Iterable[Entry]) -> Appended:
        """Keep entries, all in one transaction; those known already are left as they are."""
        return self._append(job, [line_of(entry) for entry in entries])

    def append_lines(self, job: str, lines: Iterable[str]) -> Appended:
        """The same for entries as text, newer ones among them; what is no entry is refused alone."""
        read, refused = [], []
        for text in lines:
            try:
                read.append(read_line(text))
            except InputError as error:
                refused.append(str(error))
        kept = self._append(job, read)
        return Appended(kept.new, kept.known, kept.other, tuple(refused))

    def _append(self, job: str, lines: Sequence[Line]) -> Appended:
        new, known, other = [], [], []
        with self._writing() as db:
            number = self._number(job)
            for line in lines:
                if self._insert(number, line):
                    new.append(line.id)
                    same = db.execute(
                        "SELECT count(*) FROM entry WHERE job = ? AND id = ?", (number, line.id)
                    ).fetchone()[0]
                    if same > 1:
                        other.append(line.id)
                else:
                    known.append(line.id)
            self._count_past(lines)
        return Appended(tuple(new), tuple(known), tuple(other))

    def _insert(self, number: int, line: Line) -> bool:
        """Keep one line; False where it was here already."""
        key = line.key
        found = self._db.execute(
            "SELECT arrival, line FROM entry WHERE job = ? AND key = ?", (number, key)
        ).fetchone()
        if found is not None:
            if found[1] != line.text:  # the text on disk is damaged, this is the sound one
                self._db.execute("UPDATE entry SET line = ? WHERE arrival = ?", (line.text, found[0]))
            return False
        self._db.execute(
            "INSERT INTO entry (job, key, id, fact, time, line) VALUES (?, ?, ?, ?, ?, ?)",
            (number, key, line.id, line.fact, line.time, line.text),
        )
        self._read[key] = line
        return True

    def _count_past(self, lines: Iterable[Line]) -> None:
        """See that no number of these ids is given again by the device that gave it."""
        last: dict[str, int] = {}
        for line in lines:
            device = line.entry.device if line.entry is not None else line.id.rpartition("-")[0]
            last[device] = max(last.get(device, 0), number_of(device, line.id))
        for device, number in last.items():
            if number:
                self._database.passed(device, number)

    # Writing --------------------------------------------------------------------------------------------

    def pen(self, device: str, who: str, time: str, instrument: str = "") -> Pen:
        """A pen for a device."""
        return Pen(self, device, who, time, instrument)

    def write(self, job: str, pen: Pen, drafts: Iterable[Draft]) -> tuple[Entry, ...]:
        """Number drafts, make them entries and keep them, in one transaction."""
        with self._writing():
            job_number = self._number(job)
            number = self._database.next_number(pen.device)
            numbering = Numbering(pen.device, pen.who, pen.time, pen.instrument, number)
            entries = tuple(numbering.write(*draft) for draft in drafts)
            for entry in entries:
                self._insert(job_number, line_of(entry))
            self._count_past(map(line_of, entries))
        return entries

    def undo(self, job: str, pen: Pen, fact: str = "", seen: Collection[str] = ()) -> tuple[Entry, ...]:
        """Take back this device's last entry by entries that restore what stood before it."""
        taking_back = Pen(self, pen.device, pen.who, pen.time, UNDO)
        with self._writing():
            log = self.log(job)
            return undone(log, pen.device, fact, seen) or self.write(
                job, taking_back, undo_drafts(log, pen.device, fact)
            )

    def history(self, job: str, fact: str) -> tuple[Entry, ...]:
        """Every entry of one fact, each after all that it replaces."""
        return history(self.log(job), fact)

    # Photos ---------------------------------------------------------------------------------------------

    def photos(self, job: str) -> tuple[Photo, ...]:
        """Photos of a job whose content is here, by name."""
        with self._reading():
            return self._album.of(self._number(job))

    def add_photo(
        self, job: str, content: bytes, pen: Pen | None = None, facts: Mapping[str, str] | None = None
    ) -> Photo:
        """Keep a photo and, with a pen, the facts about it (``Photo.fact``), in one transaction."""
        kind = picture.judge(content)
        with self._writing():
            photo = self._album.add(self._number(job), content, kind)
            if pen is not None:
                drafts = [Draft(photo.fact(key), value) for key, value in (facts or {}).items()]
                self.write(job, pen, drafts)
        return photo

    def photo(self, name: str) -> bytes:
        """The content of a photo, by its name or its hash."""
        with self._reading():
            return self._album.content(picture.key_in(name))

    # Sync (sync.Side) -----------------------------------------------------------------------------------

    def ids(self) -> tuple[str, ...]:
        """The id of every job."""
        with self._reading() as db:
            return tuple(row[0] for row in db.execute("SELECT id FROM job ORDER BY id"))

    def sound_lines(self, job: str) -> dict[str, str]:
        """Every entry whose text is undamaged, as text by its hash."""
        with self._reading() as db:
            rows = db.execute("SELECT key, line FROM entry WHERE job = ?", (self._number(job),)).fetchall()
        return {key: text for key, text in rows if self._is_sound(key, text)}

    def _is_sound(self, key: str, text: str) -> bool:
        """Whether a text is what its hash says; one that has been read before is not hashed again."""
        line = self._read.get(key)
        return (line is not None and line.text == text) or key_of(text) == key

    def last_arrival(self) -> int:
        """A number that grows with every entry that comes in."""
        with self._reading() as db:
            last: int = db.execute("SELECT coalesce(max(arrival), 0) FROM entry").fetchone()[0]
            return last

    def ids_until(self, job: str, arrival: int) -> tuple[str, ...]:
        """Ids of the undamaged entries that had come in by then, in the order they did."""
        with self._reading() as db:
            rows = db.execute(
                "SELECT id, key, line FROM entry WHERE job = ? AND arrival <= ? ORDER BY arrival",
                (self._number(job), arrival),
            )
            return tuple(name for name, key, text in rows if self._is_sound(key, text))

    def summary(self, job: str) -> str:
        """The digest of everything that is here for a job (``summary.digest``)."""
        with self._reading() as db:
            number = self._number(job)
            # a log only grows: the same last arrival and as many of everything is the same log
            stamp = db.execute(
                "SELECT (SELECT count(*) FROM entry WHERE job = :job), "
                "(SELECT max(arrival) FROM entry WHERE job = :job), "
                "(SELECT count(*) FROM job_photo WHERE job = :job)",
                {"job": number},
            ).fetchone()
            stamp = (*stamp, len(self._album.damaged))
            known = self._summaries.get(job)
            if known is None or known[0] != stamp:
                keys = {short(key) for key in self.sound_lines(job)}
                keys |= {short(photo.key) for photo in self._album.of(number)}
                known = self._summaries[job] = (stamp, digest(sorted(keys)))
            return known[1]

    def begun(self, keys: Collection[str]) -> dict[str, int]:
        """Of photos of which a part is here: how much, by the beginning of the hash. [bytes]"""
        with self._reading():
            return self._album.begun(keys)

    def adopt_photo(self, job: str, key: str) -> bool:
        """Give a job a photo that is here already for another; False where it is not here."""
        with self._writing():
            return self._album.adopt(self._number(job), key)

    def take_piece(self, job: str, piece: Piece) -> Photo | None:
        """Keep a part of a photo; the photo, once it is whole and its hash is right."""
        with self._writing():
            number = self._number(job)
            whole = self._album.take_piece(piece)
        if whole is None:
            return None
        if picture.key_of(whole) != piece.hash:
            raise InputError("expected the content its hash says, found another; sync once more")
        kind = picture.judge(whole)
        with self._writing():
            return self._album.add(number, whole, kind)

    # One file -------------------------------------------------------------------------------------------

    def backup(self, path: str | PathLike[str]) -> None:
        """Write everything to one file, whole or not at all."""
        backup.write(self._database, path)

    def restore(self, path: str | PathLike[str]) -> Appended:
        """Bring in everything a backup holds; nothing that is here is taken away."""
        with backup.opened(path) as source, SqliteStore(source) as other, self._writing():
            done = Appended()
            for row in other.jobs():
                self.create(row.id)
                sound = other.sound_lines(row.id)
                done = done.plus(self.append_lines(row.id, sound.values()))
                if len(sound) < row.entries:
                    said = (
                        f"{row.name or row.id}: {row.entries - len(sound)} entries of the backup are damaged"
                    )
                    done = done.plus(Appended(refused=(f"{said}; sync, or take another backup too",)))
                for photo in other.photos(row.id):
                    try:
                        self.add_photo(row.id, other.photo(photo.name))
                    except (InputError, StoreError) as error:
                        done = done.plus(Appended(refused=(f"photo {photo.key[:8]}: {error}",)))
            self._database.take_counters(other._database)
        return done
