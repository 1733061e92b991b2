"""A program with children that can be started, starved and killed as one."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


class Killable:
    """What a browser is to the system: one process that was started, and all that it started."""

    _process: subprocess.Popen[bytes] | None = None

    def pids(self) -> list[int]:
        """Every process of it: the one started and its children."""
        if self._process is None:
            return []
        children: dict[int, list[int]] = {}
        for path in Path("/proc").glob("[0-9]*/stat"):
            try:
                fields = path.read_text(encoding="utf-8", errors="replace").rpartition(")")[2].split()
            except OSError:
                continue
            children.setdefault(int(fields[1]), []).append(int(path.parent.name))
        found, left = [], [self._process.pid]
        while left:
            pid = left.pop()
            found.append(pid)
            left += children.get(pid, [])
        return found

    def kill(self) -> None:
        """SIGKILL to all of it at once: no process gets to say goodbye."""
        if self._process is None:
            return
        pids = self.pids()
        os.kill(pids[0], signal.SIGSTOP)  # so that it starts no other meanwhile
        _signal([*{*pids, *self.pids()}], signal.SIGKILL)
        self._process.wait()
        self._process = None

    @contextmanager
    def slowed(self, share: float = 0.25, turn_s: float = 0.04) -> Iterator[None]:
        """Let all its processes run only a share of the time: a stand-in for a slower phone.

        The browser's own throttle does not reach workers; stopping the processes does.
        """
        ended = threading.Event()

        def take_turns() -> None:
            known, looked = self.pids(), time.monotonic()
            while not ended.is_set():
                if time.monotonic() - looked > 0.2:
                    known, looked = self.pids(), time.monotonic()
                _signal(known, signal.SIGSTOP)
                time.sleep(turn_s * (1 - share))
                _signal(known, signal.SIGCONT)
                time.sleep(turn_s * share)
            _signal(self.pids(), signal.SIGCONT)

        thread = threading.Thread(target=take_turns, daemon=True)
        thread.start()
        try:
            yield
        finally:
            ended.set()
            thread.join()


def with_us(command: list[str]) -> list[str]:
    """The same command, ended by the kernel when whoever starts it ends, however that comes about."""
    setpriv = shutil.which("setpriv")
    return [setpriv, "--pdeathsig", "KILL", *command] if setpriv else command


def _signal(pids: list[int], which: signal.Signals) -> None:
    for pid in pids:
        try:
            os.kill(pid, which)
        except ProcessLookupError:
            continue
