"""Three devices that type, take back, exchange, break off, lose and restore; and a model of what must hold.

The model is sets of texts: whatever a device has acknowledged it keeps, nothing appears that nobody wrote,
and once all have exchanged they hold the union, each text once, and fold to the same job.
"""

from __future__ import annotations

import tempfile
from dataclasses import dataclass, field
from pathlib import Path

from undertile.errors import InputError
from undertile.job import Entry, fold
from undertile.job.entry import ENTRY_VERSION
from undertile.store import SqliteStore, Talk, exchange, serve
from undertile.store.line import read_line
from undertile.store.message import read_message
from undertile.store.parcel import pack, take_in, unpack
from undertile.store.sync import answer, take

JOBS = ("1" * 32, "2" * 32)
FACTS = (
    "name",
    "unit",
    "survey.walls.B.nominal",
    "survey.walls.B.heights",
    "survey.walls.B.studs.B1.along",
    "survey.walls.B.studs.B1.readings.48",
    "survey.walls.B.studs.B1.readings.90",
)
VALUES = {
    "name": ("Mill Lane", "", "Old alcove"),
    "unit": ("in", "mm"),
    "survey.walls.B.nominal": ("6-0", "150 mm"),
    "survey.walls.B.heights": ('["48","90"]', '["48"]'),
    "survey.walls.B.studs.B1.along": ("8", "620/16", "no length"),
}
READINGS: tuple[str | None, ...] = ("6-0", "6-1/16", "x", "", None, "½")


@dataclass
class Device:
    """One device: a store, and the name its entries carry; a new one after it was lost."""

    number: int
    life: int = 0
    store: SqliteStore = field(default_factory=SqliteStore)

    @property
    def name(self) -> str:
        """What the ids of its entries begin with."""
        return f"d{self.number}.{self.life}"


class Walk:
    """Three devices and what must hold of them; every step ends with a check of the devices it touched.

    Raises
    ------
    AssertionError
        From any step, when something was lost, doubled or made up.
    """

    def __init__(self) -> None:
        self.devices = [Device(number) for number in range(3)]
        self.ever: set[tuple[str, str]] = set()
        self.held: list[set[tuple[str, str]]] = [set(), set(), set()]
        self.photos: list[set[tuple[str, str]]] = [set(), set(), set()]
        self.messages: list[str] = []
        self.given: set[str] = set()
        for number in (0, 1):
            self.devices[number].store.create(JOBS[number])

    # What the devices do --------------------------------------------------------------------------------

    def write(self, at: int, job: int, fact: int, value: int, settles: bool) -> None:
        """Type a value; ``settles`` replaces every entry of the fact that stands there."""
        device, name, address = self.devices[at], self._job(at, job), FACTS[fact % len(FACTS)]
        log = device.store.log(name)
        gone = {each for entry in log for each in entry.supersedes}
        standing = {entry.id for entry in log if entry.fact == address and entry.id not in gone}
        pool = VALUES.get(address, READINGS)
        entry = device.store.pen(device.name, f"who {at}", f"{1970 + value}-01-01T00:00Z").write(
            name, address, pool[value % len(pool)], standing if settles else ()
        )
        self._given(entry)
        self._kept(at, name, entry.to_line())

    def undo(self, at: int, job: int) -> None:
        """Take the last entry back, where that can be done."""
        device, name = self.devices[at], self._job(at, job)
        try:
            entries = device.store.undo(name, device.store.pen(device.name, f"who {at}", "2031"))
        except InputError:
            entries = ()
        self._given(*entries)
        self._kept(at, name, *(entry.to_line() for entry in entries))

    def forge(self, at: int, job: int, number: int) -> None:
        """An id that is known there comes with another content, as after a damaged copy."""
        device, name = self.devices[at], self._job(at, job)
        log = device.store.log(name)
        if log:
            old = log[number % len(log)]
            other = Entry(old.id, old.fact, f"forged {number}", old.time, old.who, old.device)
            device.store.append(name, [other])
            self._kept(at, name, other.to_line())

    def newer(self, at: int, job: int, number: int) -> None:
        """An entry that only a newer version can read, in a spelling of its own."""
        name = self._job(at, job)
        version = ENTRY_VERSION + 1 + number % 3
        text = (
            f'{{"x" : [1.50,"\\u00fc"], "id":"new-{number}","version":{version},  "value":{{"n":{number}}}}}'
        )
        self.devices[at].store.append_lines(name, [text])
        self._kept(at, name, text)

    def photo(self, at: int, job: int, content: bytes) -> None:
        """Take a photo, with a fact about it."""
        device, name = self.devices[at], self._job(at, job)
        before = {line.text for line in device.store.lines(name)}
        pen = device.store.pen(device.name, f"who {at}", "2031")
        photo = device.store.add_photo(name, content, pen, {"wall": "B"})
        self.photos[at].add((name, photo.name))
        self._kept(at, name, *({line.text for line in device.store.lines(name)} - before))

    # How they meet --------------------------------------------------------------------------------------

    def meet(self, at: int, other: int, room: int) -> None:
        """A whole exchange: both hold the union afterwards."""
        if at == other:
            return
        mine, theirs = self.devices[at].store, self.devices[other].store
        union, photos = self.held[at] | self.held[other], self.photos[at] | self.photos[other]
        assert exchange(mine, theirs, room=room).same, "an exchange of sound stores ends with both the same"
        self.held[at] = set(self._lines(at))
        self.held[other] = set(self._lines(other))
        assert union <= self.held[at] == self.held[other]
        self.photos[at], self.photos[other] = self._pictures(at), self._pictures(other)
        assert photos <= self.photos[at] == self.photos[other]
        self._check(at)
        self._check(other)

    def break_off(self, at: int, other: int, room: int, steps: int, cut: int) -> None:
        """An exchange that ends after some steps with an answer lost or cut short."""
        if at == other:
            return
        mine, theirs = self.devices[at].store, self.devices[other].store
        talk = Talk(mine, room=room)
        text: str | None = talk.first()
        for step in range(steps + 1):
            if text is None:
                break
            self.messages.append(text)
            message = read_message(text)
            take(theirs, message)
            reply = answer(theirs, message, room=room).to_text()
            if step == steps:
                try:
                    talk.next(reply[: cut % len(reply)])
                except InputError:
                    break
                raise AssertionError("an answer cut short was taken for a whole one")
            text = talk.next(reply)
        self._check(at)
        self._check(other)

    def hear_again(self, at: int, number: int) -> None:
        """An old message arrives late, once more, at whichever device."""
        if self.messages:
            reply, _ = serve(self.devices[at].store, self.messages[number % len(self.messages)])
            self.messages.append(reply)
            del self.messages[:-40]
            self._check(at)

    def hand_over(self, at: int, other: int, job: int) -> None:
        """One job as a file from one device to another."""
        name = self._job(at, job)
        source, target = self.devices[at].store, self.devices[other].store
        into, _ = take_in(target, unpack(pack(source, name)))
        assert into == name
        assert {(name, line.text) for line in source.lines(name)} <= self._lines(other)
        self._check(other)

    def restore(self, at: int) -> None:
        """The device is set up anew from a backup of itself, and goes on counting."""
        device = self.devices[at]
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "all.backup"
            device.store.backup(path)
            device.store.close()
            device.store = SqliteStore()
            device.store.restore(path)
        assert self._lines(at) >= self.held[at]
        self._check(at)

    def lose(self, at: int) -> None:
        """The device falls off the roof; what it alone had is gone, and a new one takes its place."""
        device = self.devices[at]
        device.store.close()
        self.devices[at] = Device(device.number, device.life + 1)
        self.held[at], self.photos[at] = set(), set()

    # What must hold -------------------------------------------------------------------------------------

    def settle(self) -> None:
        """All meet: everything that any device holds is on every one, once, and folds to one job."""
        left = set().union(*(self._lines(at) for at in range(3)))
        pictures = set().union(*(self._pictures(at) for at in range(3)))
        for _ in range(2):
            for at, other in ((0, 1), (1, 2), (2, 0)):
                assert exchange(self.devices[at].store, self.devices[other].store).same
        for at in range(3):
            assert self._lines(at) == left
            assert self._pictures(at) == pictures
        for name in self.devices[0].store.ids():
            entries = [
                entry for job, text in left if job == name and (entry := read_line(text).entry) is not None
            ]
            expected = fold(entries)
            for device in self.devices:
                assert fold(device.store.log(name)) == expected
            rows = {row.id: row.name for row in self.devices[2].store.jobs()}
            assert rows[name] == expected.job.name
        digests = [{job: each.store.digest(job) for job in each.store.ids()} for each in self.devices]
        assert digests[0] == digests[1] == digests[2]

    def close(self) -> None:
        """Let the stores go."""
        for device in self.devices:
            device.store.close()

    def _job(self, at: int, job: int) -> str:
        return self.devices[at].store.create(JOBS[job % 2])

    def _kept(self, at: int, job: str, *texts: str) -> None:
        self.ever.update((job, text) for text in texts)
        self.held[at].update((job, text) for text in texts)
        self._check(at)

    def _given(self, *entries: Entry) -> None:
        ids = [entry.id for entry in entries]
        assert len({*ids}) == len(ids), "an id was given twice"
        assert not self.given & {*ids}, "an id was given again"
        self.given.update(ids)

    def _check(self, at: int) -> None:
        lines = self._lines(at)
        assert self.held[at] <= lines, "something acknowledged is gone"
        assert lines <= self.ever, "something appeared that nobody wrote"
        pictures = self._pictures(at)
        assert self.photos[at] <= pictures
        self.held[at], self.photos[at] = lines, pictures

    def _lines(self, at: int) -> set[tuple[str, str]]:
        store = self.devices[at].store
        found = [(job, line.text) for job in store.ids() for line in store.lines(job)]
        assert len(found) == len(set(found)), "something is there twice"
        return set(found)

    def _pictures(self, at: int) -> set[tuple[str, str]]:
        store = self.devices[at].store
        return {(job, photo.name) for job in store.ids() for photo in store.photos(job)}
