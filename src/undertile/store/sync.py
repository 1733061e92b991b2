"""Two stores brought to the same: what each lacks goes over, in any order, at any age, as often as wanted.

An exchange is a row of questions and answers. Each answer follows from what a store holds and the question
alone, so an exchange that broke off is taken up by starting it again, and a server keeps nothing between two
steps (docs/methods/sync.md).
"""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from undertile.errors import InputError, StoreError
from undertile.store import summary
from undertile.store.interface import Appended, Photo, Store
from undertile.store.message import JobTalk, Message, Piece, read_message
from undertile.store.summary import short

ROOM = 400_000
"""Characters of entries and photos in one message: a second or two on a weak connection."""
PIECE = 200_000
"""Bytes of a photo in one message at most."""
LEAST_PIECE = 1_000
MAX_OFFER = 2_000
"""Keys offered at once; the others come in the next round."""


class Side(Store, Protocol):
    """What an exchange asks of a store besides the rest."""

    def ids(self) -> tuple[str, ...]:
        """The id of every job."""
        ...

    def sound_lines(self, job: str) -> Mapping[str, str]:
        """Every entry whose text is undamaged, as text by its hash."""
        ...

    def last_arrival(self) -> int:
        """A number that grows with every entry that comes in."""
        ...

    def ids_until(self, job: str, arrival: int) -> tuple[str, ...]:
        """Ids of the undamaged entries that had come in by then, in the order they did."""
        ...

    def summary(self, job: str) -> str:
        """The digest of everything that is here for a job (``summary.digest``)."""
        ...

    def begun(self, keys: Collection[str]) -> Mapping[str, int]:
        """Of photos of which a part is here: how much, by the beginning of the hash. [bytes]"""
        ...

    def adopt_photo(self, job: str, key: str) -> bool:
        """Give a job a photo that is here already for another; False where it is not here."""
        ...

    def take_piece(self, job: str, piece: Piece) -> Photo | None:
        """Keep a part of a photo; the photo, once it is whole and its hash is right.

        Raises
        ------
        InputError
            If the whole is not what its hash says, or no photo that may be kept; its parts are dropped.
        """
        ...


@dataclass
class Taken:
    """What came in.

    Attributes
    ----------
    entries : dict of job id to Appended
    lines : dict of job id to list of str
        The new entries as text.
    photos : dict of job id to list of Photo
        Photos that are whole now.
    refused : list of str
        One line for each thing that was not taken.
    """

    entries: dict[str, Appended] = field(default_factory=dict)
    lines: dict[str, list[str]] = field(default_factory=dict)
    photos: dict[str, list[Photo]] = field(default_factory=dict)
    refused: list[str] = field(default_factory=list)

    def add(self, more: Taken) -> None:
        """Add what came later."""
        for job, each in more.entries.items():
            self.entries[job] = self.entries.get(job, Appended()).plus(each)
        for job, lines in more.lines.items():
            self.lines.setdefault(job, []).extend(lines)
        for job, photos in more.photos.items():
            self.photos.setdefault(job, []).extend(photos)
        self.refused += [each for each in more.refused if each not in self.refused]


class _Shelf:
    """Everything a store has for one job, by key."""

    def __init__(self, store: Side, job: str) -> None:
        self.lines = {short(key): text for key, text in store.sound_lines(job).items()}
        self.photos = {short(photo.key): photo for photo in store.photos(job)}
        self.keys: Sequence[str] = sorted({*self.lines, *self.photos})


def hello(store: Side, jobs: Collection[str] | None = None) -> Message:
    """The first question: what is here, in one digest a job.

    Parameters
    ----------
    store : Side
    jobs : collection of str, optional
        Only these; all when None.
    """
    chosen = [job for job in store.ids() if jobs is None or job in jobs]
    talks = {job: JobTalk(have={"": store.summary(job)}) for job in chosen}
    return Message(talks, every=jobs is None)


def take(store: Side, message: Message) -> Taken:
    """Keep what a message brings; each job in a transaction of its own."""
    taken = Taken()
    for job, talk in message.jobs.items():
        if not talk.is_open:
            continue
        store.create(job)
        if talk.lines:
            here = set(store.sound_lines(job).values())
            told = store.append_lines(job, talk.lines)
            taken.entries[job] = told
            taken.refused += told.refused
            taken.lines[job] = [text for text in store.sound_lines(job).values() if text not in here]
        for piece in talk.pieces:
            try:
                photo = store.take_piece(job, piece)
            except InputError as error:
                taken.refused.append(f"photo {piece.hash[:8]}: {error}")
            else:
                taken.photos.setdefault(job, []).extend([photo] if photo else [])
    return taken


def answer(store: Side, message: Message, *, room: int = ROOM) -> Message:
    """What to say to a message, once it is taken.

    Parameters
    ----------
    store : Side
    message : Message
    room : int
        Characters of entries and photos to send at most; one thing is sent at least, the rest is offered.

    Returns
    -------
    Message
        Not ``is_open`` where nothing is left to say.
    """
    reply = Message()
    left = room
    for job, talk in sorted(message.jobs.items()):
        if talk.is_open:
            said, left = _about(store, job, talk, left, room)
            reply.jobs[job] = said
    if message.every:
        rest = [job for job in store.ids() if job not in message.jobs]
        reply.jobs.update(hello(store, rest).jobs)
    return reply


def _about(store: Side, job: str, talk: JobTalk, left: int, room: int) -> tuple[JobTalk, int]:
    """The answer about one job, and the room left after it."""
    shelf = _Shelf(store, job)
    said = JobTalk()
    send: set[str] = set()
    lack: set[str] = set()
    for branch, digest in talk.have.items():
        mine = summary.under(shelf.keys, branch)
        if summary.digest(mine) == digest:
            said.same = digest if not branch else said.same
        elif summary.is_leaf(mine, branch):
            said.listed[branch] = list(mine)
        else:
            said.have.update(summary.branches(shelf.keys, branch))
    for branch, theirs in talk.listed.items():
        mine = summary.under(shelf.keys, branch)
        send |= set(mine) - set(theirs)
        lack |= set(theirs) - set(mine)
    lack |= {key for key in talk.offer if key not in shelf.lines and key not in shelf.photos}
    lack = {key for key in lack if not store.adopt_photo(job, key)}
    going_on = {short(piece.hash) for piece in talk.pieces} - set(shelf.photos)
    begun = store.begun(lack | going_on)
    lack |= going_on & set(begun)  # one whose parts were dropped is asked for in the next round, not for ever
    said.want = {key: begun.get(key, 0) for key in sorted(lack)[:MAX_OFFER]}
    left = _sent(store, shelf, said, {**dict.fromkeys(send, -1), **talk.want}, left, room)
    return said, left


def _sent(store: Side, shelf: _Shelf, said: JobTalk, asked: Mapping[str, int], left: int, room: int) -> int:
    """Put what is asked for into an answer, entries first, while there is room; offer the rest."""
    for key in sorted(asked, key=lambda key: (key in shelf.photos, key)):
        at = asked[key]
        if key in shelf.lines and (left > 0 or left == room):
            said.lines.append(shelf.lines[key])
            left -= len(shelf.lines[key])
        elif key in shelf.photos and at >= 0 and (left > 0 or left == room):
            photo = shelf.photos[key]
            try:
                content = store.photo(photo.name)[at : at + min(PIECE, max(room, LEAST_PIECE))]
            except StoreError:  # damaged: from now on it counts as not here
                continue
            if content:
                said.pieces.append(Piece(photo.key, photo.size, at, content))
                left -= len(content) * 4 // 3
        elif (key in shelf.lines or key in shelf.photos) and len(said.offer) < MAX_OFFER:
            said.offer.append(key)
    return left


def serve(store: Side, text: str) -> tuple[str, Taken]:
    """One step of the side that is asked: keep what came, and what to answer.

    Raises
    ------
    InputError
        If the text is no message.
    """
    message = read_message(text)
    taken = take(store, message)
    return answer(store, message).to_text(), taken


class Talk:
    """The side that asks: gives texts to send and is given the answers; knows no network.

    Examples
    --------
    ``text = talk.first()``, then ``text = talk.next(answer)`` until that is None. To break off at any moment
    loses nothing; a new ``Talk`` goes on from there.

    Attributes
    ----------
    taken : Taken
        All that came in.
    copied : dict of job id to tuple of str
        Ids of the entries that the other side has been seen to hold too.
    same : bool or None
        Whether both sides ended the same; None before the end.
    """

    def __init__(self, store: Side, jobs: Collection[str] | None = None, *, room: int = ROOM) -> None:
        self.taken = Taken()
        self.copied: dict[str, tuple[str, ...]] = {}
        self.same: bool | None = None
        self._store, self._jobs, self._room = store, jobs, room
        self._asked = Message()
        self._round: tuple[str, str] | None = None
        self._greeting = True
        self._arrival = 0

    def first(self) -> str:
        """The first text to send."""
        self._arrival = self._store.last_arrival()
        self._asked, self._greeting = hello(self._store, self._jobs), True
        return self._asked.to_text()

    def next(self, text: str) -> str | None:
        """Keep what an answer brings and give the next text to send; None at the end.

        Raises
        ------
        InputError
            If the answer is none, or cut short; nothing of it is kept then.
        """
        reply = read_message(text)
        self.taken.add(take(self._store, reply))
        if self._greeting:
            self._note_copied(reply)
            self.same = not any(talk.is_open for talk in reply.jobs.values())
            here = (self._asked.to_text(), text)
            if self.same or here == self._round:  # nothing has moved since the last round: nothing will
                return None
            self._round = here
        before = self._asked.to_text()
        self._asked, self._greeting = answer(self._store, reply, room=self._room), False
        said = self._asked.to_text()
        # a side that only ever asks the same again is greeted anew, and then given up
        return said if self._asked.is_open and said != before else self.first()

    def _note_copied(self, reply: Message) -> None:
        """Only what was here when the question was asked is known to be there."""
        for job, talk in reply.jobs.items():
            mine = self._asked.jobs.get(job)
            if mine is not None and talk.same and talk.same == mine.have.get(""):
                self.copied[job] = self._store.ids_until(job, self._arrival)


def exchange(mine: Side, theirs: Side, *, room: int = ROOM) -> Talk:
    """Bring two stores to the same, both ways, by the same texts that would go over a network."""
    talk = Talk(mine, room=room)
    text: str | None = talk.first()
    while text is not None:
        message = read_message(text)
        take(theirs, message)
        text = talk.next(answer(theirs, message, room=room).to_text())
    return talk
