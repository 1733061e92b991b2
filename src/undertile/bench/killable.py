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

END_S = 60.0


class Killable:
    """What a browser is to the system: one process that was started, and all that it started."""

    _process: subprocess.Popen[bytes] | None = None

    def pids(self) -> list[int]:
        """Every process of it: the one started, its children, and what else of its session still runs."""
        if self._process is None:
            return []
        children: dict[int, list[int]] = {}
        orphans: list[int] = []
        for path in Path("/proc").glob("[0-9]*/stat"):
            try:
                fields = path.read_text(encoding="utf-8", errors="replace").rpartition(")")[2].split()
            except OSError:
                continue
            own, gone = int(path.parent.name), fields[0] in "ZX"
            children.setdefault(int(fields[1]), []).append(own)
            if int(fields[3]) == self._process.pid and not gone:
                orphans.append(own)
        found: list[int] = []
        left = [self._process.pid]
        while left:
            pid = left.pop()
            found.append(pid)
            left += children.get(pid, [])
        return [*found, *(pid for pid in orphans if pid not in found)]

    def kill(self) -> None:
        """SIGKILL to all of it at once: no process gets to say goodbye; over when none is left.

        One that is still writing to a slow disk holds the lock of its data, and who comes next and finds it
        locked may throw the data away.

        Raises
        ------
        TimeoutError
            If one does not end.
        """
        if self._process is None:
            return
        pids = self.pids()
        os.kill(pids[0], signal.SIGSTOP)  # so that it starts no other meanwhile
        until = time.monotonic() + END_S
        left = [*{*pids, *self.pids()}]
        while left:
            if time.monotonic() > until:
                raise TimeoutError(f"expected {left} to end, found that they did not in {END_S} s")
            _signal(left, signal.SIGKILL)
            self._process.poll()
            left = [pid for pid in {*left, *self.pids()} if _runs(pid)]
            time.sleep(0.005)
        self._process.wait()
        self._process = None

    def ended(self) -> None:
        """Wait until it and all that it started have ended by themselves.

        Raises
        ------
        TimeoutError
            If one does not end.
        """
        left = self.pids()
        until = time.monotonic() + END_S
        while left:
            if time.monotonic() > until:
                raise TimeoutError(f"expected {left} to end, found that they did not in {END_S} s")
            time.sleep(0.005)
            left = [pid for pid in left if _runs(pid)]
        if self._process is not None:
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


def _runs(pid: int) -> bool:
    """Whether a process is still there, and more than a name that nobody has asked after."""
    try:
        text = Path(f"/proc/{pid}/stat").read_text(encoding="utf-8", errors="replace")
    except OSError:
        return False
    return text.rpartition(")")[2].split()[0] not in "ZX"


def _signal(pids: list[int], which: signal.Signals) -> None:
    for pid in pids:
        try:
            os.kill(pid, which)
        except ProcessLookupError:
            continue
