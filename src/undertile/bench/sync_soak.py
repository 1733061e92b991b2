"""Long checks of the store: random walks of three devices, and kills.

``python -m undertile.bench.sync_soak --walks 2000 --kills 200``. Exit code 1 where anything was lost, doubled
or did not converge; the seed of a walk that failed is printed and runs alone with ``--seed N --walks 1``.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tempfile
import zlib
from collections.abc import Sequence
from pathlib import Path
from time import perf_counter
from typing import Any

from undertile.bench.store_kill import kills
from undertile.bench.sync_walk import Walk

ROOMS = (1, 400, 3_000, 400_000)


def picture(seed: int, size: int) -> bytes:
    """A small sound PNG with ``size`` random bytes in a private chunk."""
    rng = random.Random(seed)
    head = (4).to_bytes(4, "big") + (3).to_bytes(4, "big") + bytes((8, 2, 0, 0, 0))
    body = zlib.compress(rng.randbytes(39))
    out = b"\x89PNG\r\n\x1a\n"
    for name, chunk in ((b"IHDR", head), (b"prVt", rng.randbytes(size)), (b"IDAT", body), (b"IEND", b"")):
        out += len(chunk).to_bytes(4, "big") + name + chunk + zlib.crc32(name + chunk).to_bytes(4, "big")
    return out


def walk(seed: int, steps: int) -> int:
    """One random walk, settled at its end; the number of entries at its end.

    Raises
    ------
    AssertionError
        If something was lost, doubled, made up, or the devices differ at the end.
    """
    rng = random.Random(seed)
    its = Walk()
    for _ in range(steps):
        at, other, job, number = rng.randrange(3), rng.randrange(3), rng.randrange(2), rng.randrange(50)
        room = rng.choice(ROOMS)
        kind = rng.choices(
            ("write", "undo", "forge", "newer", "photo", "meet", "break", "again", "hand", "restore", "lose"),
            (40, 6, 3, 3, 3, 14, 14, 6, 4, 1, 1),
        )[0]
        if kind == "write":
            its.write(at, job, number, rng.randrange(40), rng.random() < 0.7)
        elif kind == "undo":
            its.undo(at, job)
        elif kind == "forge":
            its.forge(at, job, number)
        elif kind == "newer":
            its.newer(at, job, number)
        elif kind == "photo":
            its.photo(at, job, picture(number % 6, rng.choice((0, 2_500))))
        elif kind == "meet":
            its.meet(at, other, room)
        elif kind == "break":
            its.break_off(at, other, room, rng.randrange(7), rng.randrange(10_000))
        elif kind == "again":
            its.hear_again(at, number)
        elif kind == "hand":
            its.hand_over(at, other, job)
        elif kind == "restore":
            its.restore(at)
        else:
            its.lose(at)
    its.settle()
    entries = len(its.held[0])
    its.close()
    return entries


def walks(count: int, steps: int, seed: int) -> dict[str, Any]:
    """Many walks, from ``seed`` on: how many converged, and the seeds of those that did not."""
    start = perf_counter()
    failed: list[dict[str, Any]] = []
    entries = 0
    for each in range(seed, seed + count):
        try:
            entries += walk(each, steps)
        except AssertionError as error:
            failed.append({"seed": each, "why": str(error)})
    return {
        "walks": count,
        "steps": steps,
        "entries": entries,
        "failed": failed,
        "seconds": perf_counter() - start,
    }


def main(words: Sequence[str]) -> int:
    """Run both and print one JSON line each."""
    parser = argparse.ArgumentParser(prog="python -m undertile.bench.sync_soak", description=__doc__)
    parser.add_argument("--walks", type=int, default=2000)
    parser.add_argument("--steps", type=int, default=60)
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    told = parser.parse_args(words)
    walked = walks(told.walks, told.steps, told.seed)
    print(json.dumps({"case": "walks", **walked}), flush=True)
    with tempfile.TemporaryDirectory() as folder:
        killed = kills(told.kills, Path(folder), told.seed)
    print(json.dumps({"case": "kills", **killed}))
    bad = walked["failed"] or killed["lost"] or killed["doubled"] or killed["unsound"]
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
