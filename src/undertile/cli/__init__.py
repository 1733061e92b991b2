"""The command line: parse, call, print. No formula lives here.

``main`` is the entry of the ``undertile`` command and of ``python -m undertile``.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence


def main(words: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code (docs/command-line.md).

    Parameters
    ----------
    words : sequence of str, optional
        The words after ``undertile``; else those the process was started with.

    Returns
    -------
    int
        0 nothing is wrong, 1 something must be settled before the first cut, 2 unusable input.
    """
    from undertile.cli.app import run
    from undertile.cli.console import plain_where_needed

    plain_where_needed()
    return run(list(sys.argv[1:] if words is None else words))
