"""Plans looked for in a process of their own, so that no page waits for one."""

from __future__ import annotations

import multiprocessing
from collections.abc import Callable
from fractions import Fraction
from multiprocessing.connection import Connection
from time import monotonic
from typing import Any

from undertile.screens.slices import Progress, search

REPORT_S = 0.1
KEPT = 8
"""Answers kept until the screens have read them."""


class Processes:
    """Searches in processes: one for each job, the newest log of a job only."""

    def __init__(self, run: Callable[..., None] | None = None) -> None:
        self._context = multiprocessing.get_context("spawn")
        self._run = run or _search
        self._running: dict[str, tuple[str, Any, Connection]] = {}
        self._progress: dict[str, Progress] = {}
        self._found: dict[str, bytes] = {}
        self._died: set[str] = set()

    def start(self, job: str, key: str, log: str) -> None:
        """Begin, unless it runs or is done; an older search of the same job is given up."""
        self._listen()
        if key in self._found or self._running.get(job, ("",))[0] == key:
            return
        self._end(job)
        if key in self._died:  # not again and again: here its error is seen
            self._found[key] = list(search(log))[-1]
            return
        ours, theirs = self._context.Pipe(duplex=False)
        process = self._context.Process(target=self._run, args=(log, theirs), daemon=True)
        process.start()
        theirs.close()
        self._running[job] = (key, process, ours)

    def progress(self, key: str) -> Progress | None:
        """How far it is; None when nothing of it is known."""
        self._listen()
        return self._progress.get(key)

    def found(self, key: str) -> bytes | None:
        """What it came to; None until then."""
        self._listen()
        return self._found.get(key)

    def cancel(self, key: str) -> None:
        """Give it up."""
        for job, (running, _, _) in list(self._running.items()):
            if running == key:
                self._end(job)

    def close(self) -> None:
        """Give up everything."""
        for job in list(self._running):
            self._end(job)

    def _end(self, job: str) -> None:
        if job in self._running:
            key, process, ours = self._running.pop(job)
            process.terminate()
            process.join()
            ours.close()
            self._progress.pop(key, None)

    def _listen(self) -> None:
        for job, (key, _, ours) in list(self._running.items()):
            try:
                while job in self._running and ours.poll():
                    told = ours.recv()
                    if told is None:
                        self._end(job)
                    elif isinstance(told, bytes):
                        self._found.pop(key, None)  # the newest last: it is kept longest
                        self._found[key] = told
                        while len(self._found) > KEPT:
                            del self._found[next(iter(self._found))]
                    else:
                        self._progress[key] = Progress(told[0], Fraction(told[1]))
            except (EOFError, OSError):  # it died without an answer
                if key not in self._found:
                    self._died.add(key)
                self._end(job)


def _search(log: str, answer: Connection) -> None:
    told = 0.0

    def look(progress: Progress) -> bool:
        nonlocal told
        if monotonic() - told > REPORT_S:
            told = monotonic()
            answer.send((progress.looked, str(progress.bound)))
        return True

    for found in search(log, look):
        answer.send(found)
    answer.send(None)
    answer.close()
