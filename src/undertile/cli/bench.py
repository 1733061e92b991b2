"""``undertile bench``: how fast the planner is, beside what a person would pick instead."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

from undertile.cli import page
from undertile.cli.console import paper
from undertile.errors import InputError


def run(cases: Sequence[str], *, rooms: int, limit_s: float, as_json: bool) -> int:
    """Measure the cases named, all without a name; a row each, as it comes."""
    from undertile.bench import CASES
    from undertile.bench import run as measure

    unknown = [name for name in cases if name not in CASES]
    if unknown:
        raise InputError(f"no case {', '.join(unknown)}: choose among {', '.join(CASES)}")
    rows = []
    with libraries_to_stderr():
        for row in measure(cases, rooms=rooms, limit_s=limit_s):
            rows.append(row)
            if sys.stderr.isatty():
                print(f"{row['case']}: {row['name']}, {row['size']} ...", file=sys.stderr)
    if as_json:
        print(json.dumps(rows, indent=2))
    else:
        console = paper()
        page.table(
            console,
            ["case", "s", "worst", "beside", "its s", "ratio", "equal"],
            [_row(row) for row in rows],
            right=[1, 2, 4, 5],
            firm=[1, 2, 4, 5, 6],
        )
    return 1 if any(row["equal"] is False for row in rows) else 0


@contextmanager
def libraries_to_stderr() -> Iterator[None]:
    """What a solver's own code writes to stdout (a banner) goes to stderr: stdout is the answer."""
    sys.stdout.flush()
    kept = os.dup(1)
    os.dup2(2, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)


def _row(row: dict[str, Any]) -> list[str]:
    peer = row["peer"] or "-"
    if "peer_closed" in row:
        peer += f", {row['peer_closed']} of {row['rooms']} closed"
    return [
        f"{row['name']}, {row['size']}",
        _seconds(row["seconds"]),
        _seconds(row.get("seconds_worst")),
        peer,
        _seconds(row["peer_seconds"]),
        "-" if row["ratio"] is None else f"{row['ratio']:.3g}",
        {None: "-", True: "yes", False: "NO"}[row["equal"]],
    ]


def _seconds(value: float | None) -> str:
    return "-" if value is None else f"{value:.3g}"
