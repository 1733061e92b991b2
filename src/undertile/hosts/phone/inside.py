"""What the worker in the phone's browser calls: the app over a store in memory, filled from the page's log.

The page keeps the log; this is a copy that can be thrown away. What Python itself writes (an undo, a form)
is handed back as text, and counts as taken only once the page has kept it. All arguments and results are
texts and bytes, so nothing here knows that it runs in a browser.
"""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from undertile.errors import InputError
from undertile.hosts.bridge import App, ask
from undertile.job.entry import Entry
from undertile.screens.app import create_app
from undertile.screens.host import Host, Picture
from undertile.screens.slices import Progress
from undertile.store import Appended, Draft, Pen, Photo, SqliteStore
from undertile.store.message import Piece
from undertile.store.parcel import file_name, pack
from undertile.store.picture import judge

Send = Callable[[str], object]
Redraw = Callable[[bytes, str], Awaitable[bytes]]
"""A picture and its kind to the same picture as JPEG, upright and of a sane size, and nothing else in it."""


@dataclass
class News:
    """What a store was given since it was last asked.

    Attributes
    ----------
    made : dict of job id to list of str
        Entries this device wrote, and new jobs without any.
    came : dict of job id to list of str
        Entries of others, from a file or by the exchange.
    photos : list of (str, Photo)
        Job and photo, wherever it is from.
    """

    made: dict[str, list[str]] = field(default_factory=dict)
    came: dict[str, list[str]] = field(default_factory=dict)
    photos: list[tuple[str, Photo]] = field(default_factory=list)


class KeptStore(SqliteStore):
    """A store in memory that tells what was written since it was last asked."""

    def __init__(self) -> None:
        super().__init__(":memory:")
        self._news = News()
        self._told: set[tuple[str, str]] = set()

    def replay(self, job: str, lines: Iterable[str]) -> Appended:
        """Entries that the page has kept already."""
        lines = list(lines)
        self._told.update((job, line) for line in lines)
        self._make(job)
        return super().append_lines(job, lines)

    def _make(self, job: str) -> None:
        super().create(job)

    def create(self, job: str = "") -> str:
        """A new job, which the page is told of though it has no entry yet."""
        job = super().create(job)
        self._news.made.setdefault(job, [])
        return job

    def append(self, job: str, entries: Iterable[Entry]) -> Appended:
        """Keep entries and remember the new ones."""
        entries = tuple(entries)
        done = super().append(job, entries)
        self._note(self._news.came, job, (entry.to_line() for entry in entries))
        return done

    def append_lines(self, job: str, lines: Iterable[str]) -> Appended:
        """Keep entries as text and remember the new ones."""
        before = {line.text for line in self.lines(job)}
        done = super().append_lines(job, lines)
        self._note(self._news.came, job, (line.text for line in self.lines(job) if line.text not in before))
        return done

    def write(self, job: str, pen: Pen, drafts: Iterable[Draft]) -> tuple[Entry, ...]:
        """Write entries and remember them."""
        entries = super().write(job, pen, drafts)
        self._note(self._news.made, job, (entry.to_line() for entry in entries))
        return entries

    def add_photo(
        self, job: str, content: bytes, pen: Pen | None = None, facts: Mapping[str, str] | None = None
    ) -> Photo:
        """Keep a photo and remember it."""
        photo = super().add_photo(job, content, pen, facts)
        self._news.photos.append((job, photo))
        return photo

    def take_piece(self, job: str, piece: Piece) -> Photo | None:
        """Keep a part of a photo and remember the photo, once it is whole."""
        photo = super().take_piece(job, piece)
        if photo is not None:
            self._news.photos.append((job, photo))
        return photo

    def adopt_photo(self, job: str, key: str) -> bool:
        """Give a job a photo that is here already for another, and remember it."""
        before = {photo.name for photo in self.photos(job)}
        adopted = super().adopt_photo(job, key)
        self._news.photos += [(job, photo) for photo in self.photos(job) if photo.name not in before]
        return adopted

    def _note(self, news: dict[str, list[str]], job: str, lines: Iterable[str]) -> None:
        for line in lines:
            if (job, line) not in self._told:
                self._told.add((job, line))
                news.setdefault(job, []).append(line)

    def taken(self) -> News:
        """What was written since the last call."""
        news, self._news = self._news, News()
        return news


class SecondWorker:
    """Searches that run in the page's second worker: asked by messages, answered by messages.

    Parameters
    ----------
    send : callable
        Takes one message as JSON text.
    """

    def __init__(self, send: Send) -> None:
        self._send = send
        self._running: dict[str, str] = {}
        self._progress: dict[str, Progress] = {}
        self._found: dict[str, bytes] = {}
        self._early: set[str] = set()
        self._stopped: set[str] = set()

    def start(self, job: str, key: str, log: str) -> None:
        """Begin, unless it runs or is done; an older search of the same job is given up."""
        if key in self._found or (self._running.get(job) == key and key not in self._early):
            return
        self._early.discard(key)  # it may lie there still, waiting for the second worker: now somebody waits
        self._running[job] = key
        self._send(json.dumps({"search": key, "job": job, "log": log}))

    def ahead(self, job: str, key: str, log: str) -> None:
        """Begin though nobody has asked yet: in no other search's way, and not where a person stopped it."""
        if key in self._found or key in self._stopped or job in self._running:
            return
        self._running[job] = key
        self._early.add(key)
        self._send(json.dumps({"search": key, "job": job, "log": log, "early": True}))

    def progress(self, key: str) -> Progress | None:
        """How far it is; None when nothing of it is known."""
        return self._progress.get(key)

    def found(self, key: str) -> bytes | None:
        """What it came to; None until then."""
        return self._found.get(key)

    def cancel(self, key: str) -> None:
        """Give it up."""
        self._stopped.add(key)
        for job, running in list(self._running.items()):
            if running == key:
                del self._running[job]
                self._send(json.dumps({"cancel": key}))

    def heard(self, key: str, looked: int, bound: str) -> None:
        """The second worker says how far it is."""
        from fractions import Fraction

        self._progress[key] = Progress(looked, Fraction(bound))

    def came(self, key: str, answer: bytes) -> None:
        """The second worker has an answer."""
        self._forget(key)
        self._found[key] = answer
        while len(self._found) > 4:
            del self._found[next(iter(self._found))]

    def lost(self, key: str) -> None:
        """The second worker gave it up or died: it can be asked for again."""
        self._forget(key)

    def _forget(self, key: str) -> None:
        self._progress.pop(key, None)
        self._early.discard(key)
        self._running = {job: each for job, each in self._running.items() if each != key}


class PageNotes:
    """What the phone remembers beside the record (``screens.host.Notes``): the page keeps it.

    Parameters
    ----------
    send : callable
        Takes one message as JSON text.
    """

    def __init__(self, send: Send) -> None:
        self._send = send
        self._known: dict[tuple[str, str], str] = {}

    def came(self, job: str, name: str, text: str) -> None:
        """What the page has kept, at a start."""
        self._known[job, name] = text

    def read(self, job: str, name: str) -> str:
        """The text; "" where there is none."""
        return self._known.get((job, name), "")

    def keep(self, job: str, name: str, text: str) -> None:
        """Keep it in place of the one before."""
        self._known[job, name] = text
        self._send(json.dumps({"note": name, "job": job, "text": text}))


class Inside:
    """The whole tool on this phone.

    Parameters
    ----------
    settings : str
        JSON: ``device``, ``who``, ``language``, ``instrument``, ``alone`` (no second worker).
    send : callable
        For messages to the second worker, and to the page's notes.
    redraw : callable, optional
        The browser's own decoder and encoder; without it no photo can be taken in.
    make_app : callable
        What makes the app of a store and a host.
    """

    def __init__(
        self,
        settings: str,
        send: Send,
        redraw: Redraw | None = None,
        make_app: Callable[[Any, Host], App] = create_app,
    ) -> None:
        self.store = KeptStore()
        self._time = ""
        self.host = Host(kind="phone", device="", who="", now=lambda: self._time, soon=[])
        self.told(settings, send, redraw)
        self.app = make_app(self.store, self.host)

    def told(self, settings: str, send: Send, redraw: Redraw | None = None) -> None:
        """Whose phone this is: at the start, before anything is asked."""
        told = json.loads(settings)
        self.searches = SecondWorker(send)
        self.notes = PageNotes(send)
        self._redraw = redraw
        host = self.host
        host.device, host.who = told["device"], told.get("who") or "unnamed"
        host.language, host.instrument = told.get("language") or "en", told.get("instrument") or ""
        host.notes = self.notes
        host.searches = None if told.get("alone") else self.searches
        host.ahead = None if told.get("alone") else self.searches.ahead
        host.clean_photo = None if redraw is None else self._clean

    async def _clean(self, content: bytes) -> Picture:
        """A photo judged before it is unpacked, then drawn anew: all but its pixels stays behind."""
        assert self._redraw is not None
        kind = judge(content)
        try:
            drawn = await self._redraw(content, kind)
        except Exception as error:
            if kind == "heic":
                raise InputError(
                    "expected a photo this browser can open, found HEIC, which it does not; choose Most "
                    "Compatible in the phone's camera settings, or send a copy as JPEG"
                ) from None
            raise InputError(
                f"expected a photo this browser can open, found one it cannot ({error}); save it as JPEG"
            ) from None
        judge(drawn)
        return Picture(drawn, "jpg")

    def replay(self, job: str, lines: str) -> str:
        """Entries the page has kept, one a line; answers what could not be read, a line each."""
        done = self.store.replay(job, filter(None, lines.split("\n")))
        return "\n".join(done.refused)

    def bring_photo(self, job: str, content: bytes) -> None:
        """A photo the page has kept."""
        SqliteStore.create(self.store, job)
        SqliteStore.add_photo(self.store, job, content)

    async def ask(
        self, method: str, target: str, headers: str, body: bytes, time: str
    ) -> tuple[str, bytes, list[bytes]]:
        """One request.

        Parameters
        ----------
        method, target : str
        headers : str
            JSON, an object.
        body : bytes
        time : str
            Now, as the phone's clock has it.

        Returns
        -------
        head : str
            JSON: ``status``, ``headers``, ``made`` and ``came`` (lines by job), ``photos`` (job and name).
        body : bytes
        photos : list of bytes
            In the order of ``photos`` in the head.
        """
        self._time = time
        answer = await ask(self.app, method, target, json.loads(headers).items(), body)
        news = self.store.taken()
        head = {
            "status": answer.status,
            "headers": dict(answer.headers),
            "made": news.made,
            "came": news.came,
            "photos": [[job, photo.name] for job, photo in news.photos],
        }
        return json.dumps(head), answer.body, [self.store.photo(photo.name) for _, photo in news.photos]

    def more(self) -> bool:
        """While nobody waits: work out one thing that is likely to be asked next; whether there was one."""
        soon = self.host.soon
        if soon:
            soon.pop(0)()
        return bool(soon)

    def everything(self) -> tuple[str, list[bytes]]:
        """All that this copy knows, for a page whose own storage has lost it.

        Returns
        -------
        told : str
            JSON: ``lines`` by job, ``photos`` (job and name).
        photos : list of bytes
            In the order of ``photos``.
        """
        jobs = self.store.ids()
        lines = {job: [line.text for line in self.store.lines(job)] for job in jobs}
        photos = [(job, photo.name) for job in jobs for photo in self.store.photos(job)]
        return json.dumps({"lines": lines, "photos": photos}), [self.store.photo(name) for _, name in photos]

    def archive(self, job: str, time: str) -> tuple[str, bytes]:
        """A job with its log and photos as one file: its name and its content."""
        return file_name(self.store, job, time, "undertile.zip"), pack(self.store, job)


_AHEAD: list[Inside] = []
_ONCE = "2026-01-01T00:00:00Z"
_WALKED = ("", "/read", "/read/B", "/moves", "/history")


def make_ahead() -> None:
    """Make the tool before it is known whose phone it is: this memory is to be kept (shell/heap.js).

    A bundled job is walked through once, in a copy that is thrown away: what is worked out when something is
    asked for the first time is worked out here.
    """
    made = Inside('{"device": ""}', _nobody)
    made.app.state.load()  # type: ignore[attr-defined]
    _AHEAD.append(made)
    walk = _walked(Inside('{"device": "ahead", "alone": true}', _thrown_away))
    try:
        walk.send(None)  # by hand: a loop would leave something of the browser's in this memory
    except StopIteration:
        return
    raise RuntimeError("expected screens that wait for nothing, found one that waits")


async def _walked(away: Inside) -> None:
    form = '{"content-type": "application/x-www-form-urlencoded", "accept": "application/json"}'
    _, told, _ = await away.ask("POST", "/", form, b"bundled=old-alcove", _ONCE)
    job = json.loads(told)["href"]
    for place in _WALKED:
        for kind in ("text/html", "application/json"):
            await away.ask("GET", job + place, json.dumps({"accept": kind}), b"", _ONCE)
    kind = '{"content-type": "application/json", "accept": "application/json"}'
    await away.ask("POST", f"{job}/entries", kind, b'{"entries": [], "only": "judged"}', _ONCE)


def _thrown_away(message: str) -> None:
    """Of the walk nothing stays."""


def _nobody(message: str) -> None:
    raise RuntimeError(f"expected to be told whose phone this is before {message}")


def begin(settings: str, send: Send, redraw: Redraw | None = None) -> Inside:
    """The tool of this phone: as it was made ahead, else made now. Parameters as of ``Inside``."""
    if not _AHEAD:
        return Inside(settings, send, redraw)
    made = _AHEAD.pop()
    made.told(settings, send, redraw)
    return made


def search(log: str, report: Callable[[int, str], object]) -> Iterator[bytes]:
    """What the second worker runs: the plan of a log, then the same with the plans that lose.

    ``report`` hears boxes looked at and the bound.
    """
    from undertile.screens.slices import search as look_for

    def look(progress: Progress) -> bool:
        report(progress.looked, str(progress.bound))
        return True

    return look_for(log, look)


__all__ = ["Inside", "KeptStore", "SecondWorker", "begin", "make_ahead", "search"]
