"""A process that writes to a store, killed at random moments: what it had acknowledged must be there, once.

A killed process says nothing about a power cut; for that the store asks SQLite for ``synchronous=FULL``.
"""

from __future__ import annotations

import multiprocessing
import random
import sqlite3
from collections import Counter
from contextlib import suppress
from multiprocessing.connection import Connection
from pathlib import Path
from time import perf_counter
from typing import Any

from undertile.store import SqliteStore

JOB = "5" * 32
FACT = "survey.walls.B.studs.B1.readings.48"
DEVICE = "phone-1"


def write_for_ever(path: str, seed: int, acknowledged: Connection) -> None:
    """Write entries, singly and several at once, take some back, and tell the id of each once it is kept."""
    rng = random.Random(seed)
    with SqliteStore(path) as store:
        store.create(JOB)
        number = 0
        while True:
            number += 1
            pen = store.pen(DEVICE, "Ann", f"{seed}")
            if number % 7 == 0:
                entries = store.undo(JOB, pen)
            elif number % 5 == 0:
                entries = pen.write_all(JOB, [(FACT, f"{seed}/{number}", ())] * rng.randint(2, 4))  # type: ignore[list-item]
            else:
                entries = (pen.write(JOB, FACT, f"{seed}/{number}"),)
            acknowledged.send([entry.id for entry in entries])


def kills(times: int, folder: Path, seed: int = 1) -> dict[str, Any]:
    """Kill a writing process again and again and look at the file after each.

    Parameters
    ----------
    times : int
    folder : Path
        Where the file is made.
    seed : int

    Returns
    -------
    dict
        ``kills``; ``acknowledged``, of these ``lost`` and ``doubled``; ``kept`` in all; ``unsaid``: kept but
        killed before it could be told; ``unsound`` files; ``seconds``.
    """
    context = _context()
    path = folder / "killed.db"
    rng = random.Random(seed)
    said: set[str] = set()
    row = {"kills": 0, "acknowledged": 0, "lost": 0, "doubled": 0, "kept": 0, "unsaid": 0, "unsound": 0}
    start = perf_counter()
    for number in range(times):
        hear, tell = context.Pipe(duplex=False)
        child = context.Process(target=write_for_ever, args=(str(path), number, tell), daemon=True)
        child.start()
        tell.close()
        said.update(_until(hear, rng))
        child.kill()
        child.join()
        with suppress(EOFError, OSError):  # what it said before it died counts too
            while True:
                said.update(hear.recv())
        hear.close()
        row["kills"] += 1
        _look(path, said, row)
    return {**row, "acknowledged": len(said), "seconds": perf_counter() - start}


def _context() -> Any:
    """Processes that begin with this module loaded where the system can, so that a kill costs little."""
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([__name__])
    return context


def _until(hear: Connection, rng: random.Random) -> set[str]:
    """Listen until a random moment: some entries in, or before the first."""
    said: set[str] = set()
    for _ in range(rng.choice((0, 1, 2, 4, 9))):
        said.update(hear.recv())
    hear.poll(rng.uniform(0, 0.01) if said else rng.uniform(0, 0.05))
    return said


def _look(path: Path, said: set[str], row: dict[str, int]) -> None:
    if not path.exists():
        row["lost"] += len(said)
        return
    raw = sqlite3.connect(path)
    try:
        row["unsound"] += raw.execute("PRAGMA integrity_check").fetchone()[0] != "ok"
    finally:
        raw.close()
    with SqliteStore(path) as store:
        ids = Counter(line.id for line in store.lines(store.create(JOB)))
    row["lost"] += len(said - set(ids))
    row["doubled"] += sum(count > 1 for count in ids.values())
    row["kept"] = len(ids)
    row["unsaid"] = len(set(ids) - said)
