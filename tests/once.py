"""Each framing problem searched for once in a run of the tests, however many of them look at its plan.

The search is a pure function of the problem and of the planes held (``tests/framing`` tests it, and never
by this): most of the time of the command line's and the screens' tests went into finding the same few plans
again. What a time limit broke off is not kept. Processes of one run hand each other what they found in a
folder of that run, which no later run looks into.
"""

from __future__ import annotations

import hashlib
import os
import pickle
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager
from pathlib import Path
from unittest.mock import patch

from undertile.framing import moves, search, trial
from undertile.framing.plan import FramingPlan, Plane
from undertile.framing.search import Bench

_REAL = search.search
_KNOWN: dict[tuple[str, str], FramingPlan] = {}


class _Run:
    """Where the processes of this run put what they found; None where there is but one."""

    folder: Path | None = None


def _kept(
    bench: Bench, tick: Callable[[int, int], bool], held: Mapping[str, Plane] | None = None
) -> FramingPlan:
    text = bench.__dict__.get("as_text") or repr(bench.problem)
    bench.__dict__["as_text"] = text
    key = (text, repr(sorted((held or {}).items(), key=lambda each: each[0])))
    if key not in _KNOWN:
        found = _handed(key)
        if found is None:
            found = _REAL(bench, tick, held)
            if found.state == "open":
                return found
            _hand_on(key, found)
        _KNOWN[key] = found
    return _KNOWN[key]


def _place(folder: Path, key: tuple[str, str]) -> Path:
    return folder / hashlib.sha256(repr(key).encode()).hexdigest()


def _handed(key: tuple[str, str]) -> FramingPlan | None:
    """What another process of this run found."""
    if _Run.folder is None or not (kept := _place(_Run.folder, key)).is_file():
        return None
    found: FramingPlan = pickle.loads(kept.read_bytes())
    return found


def _hand_on(key: tuple[str, str], found: FramingPlan) -> None:
    if _Run.folder is not None:
        _Run.folder.mkdir(exist_ok=True)
        kept = _place(_Run.folder, key)
        written = kept.with_suffix(f".{os.getpid()}")
        written.write_bytes(pickle.dumps(found))
        written.replace(kept)  # whole or not at all


@contextmanager
def searched_once(folder: Path | None = None) -> Iterator[None]:
    """While it lasts, everything that plans looks here first, then in the folder of the run, if any."""
    _Run.folder = folder
    with ExitStack() as stack:
        for module in (search, moves, trial):
            stack.enter_context(patch.object(module, "search", _kept))
        yield
