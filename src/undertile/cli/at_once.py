"""Plannings that need nothing of each other, over the machine's processors, with their progress on stderr."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from types import TracebackType
from typing import Any


class AtOnce:
    """A pool whose ``each`` goes where ``map`` goes.

    Parameters
    ----------
    what : str
        Said while it works, where stderr is a terminal.
    count : int
        How many plannings there will be in all.
    """

    def __init__(self, what: str, count: int) -> None:
        self.what, self.count, self.done = what, count, 0
        self.pool: ProcessPoolExecutor | None = None

    def __enter__(self) -> AtOnce:
        workers = min(self.count, os.cpu_count() or 1)
        if workers > 1:
            self.pool = ProcessPoolExecutor(workers)
        self._tell()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.pool is not None:
            self.pool.shutdown(wait=True, cancel_futures=True)
        if sys.stderr.isatty():
            print("\r\033[K", end="", file=sys.stderr, flush=True)

    def each(self, work: Callable[[Any], Any], tasks: Sequence[Any]) -> Iterator[Any]:
        """Every answer in the order of the tasks; in turn where there are no processes."""
        ready: list[Any] = []
        if self.pool is not None:
            try:
                for answer in self.pool.map(work, tasks):
                    ready.append(answer)
                    self.done += 1
                    self._tell()
            except (BrokenProcessPool, OSError):
                self.pool = None
        for task in tasks[len(ready) :]:
            ready.append(work(task))
            self.done += 1
            self._tell()
        return iter(ready)

    def _tell(self) -> None:
        if sys.stderr.isatty():
            print(f"\r\033[K{self.what}: {self.done} of {self.count}", end="", file=sys.stderr, flush=True)
