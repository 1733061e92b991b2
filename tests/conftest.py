"""Tests marked ``browser``: left out with a word where there is no Chromium; in CI that is a failure."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from tests.depth import deep

# without a deadline: a loaded machine is slow, not wrong
settings.register_profile("undertile", deadline=None, max_examples=deep(100, 500))
settings.load_profile("undertile")

BROWSERS = ("chromium", "chromium-browser")
LOOK_AT_PLANS = {"cli", "drawing", "packet", "screens"}
"""Folders whose tests look at what a plan says: none of them tests how it is found, but for these files."""
LONG = {
    *("tests/test_project.py", "cli/test_answers.py", "cli/test_words.py"),
    *("framing/test_against_solvers.py", "hosts/test_innode.py"),
}
"""Files without a browser that took longest when they were last measured; it is only their order."""
FIND_PLANS = {"test_at_once.py", "test_slices.py"}
"""What these test is the search itself: that it was done before would change what they see."""


def browser_path() -> str:
    """Chromium of the system, "" where there is none."""
    return next((found for name in BROWSERS if (found := shutil.which(name))), "")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what needs a browser where there is none, and say so; the long files first."""
    if "PYTEST_XDIST_WORKER" in os.environ:
        longest_first(items)
    needing = [item for item in items if item.get_closest_marker("browser")]
    if not needing or browser_path():
        return
    if os.environ.get("CI"):
        raise pytest.UsageError(f"{len(needing)} tests need Chromium and there is none: install `chromium`")
    items[:] = [item for item in items if item not in needing]
    config.hook.pytest_deselected(items=needing)
    config.stash[_LEFT_OUT] = len(needing)


def longest_first(items: list[pytest.Item]) -> None:
    """The long files first, so that no process is left alone with one at the end.

    One file builds the phone's bundle while the screens are looked at by another process; the others that
    need it come after.
    """
    ranks: dict[Path, int] = {}
    for item in items:
        rank = 4
        if "bundle" in getattr(item, "fixturenames", ()):
            rank = 2
        elif item.get_closest_marker("browser"):
            rank = 1
        elif "/".join(item.path.parts[-2:]) in LONG:
            rank = 3
        ranks[item.path] = min(rank, ranks.get(item.path, rank))
    building = next((path for path, rank in ranks.items() if rank == 2), None)
    items.sort(key=lambda item: 0 if item.path == building else ranks[item.path])


@pytest.fixture(autouse=True, scope="module")
def _plans_found_once(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[None]:
    """See ``once.py``."""
    if request.path.parent.name not in LOOK_AT_PLANS or request.path.name in FIND_PLANS:
        yield
        return
    from tests.once import searched_once

    shared = tmp_path_factory.getbasetemp().parent / "plans" if "PYTEST_XDIST_WORKER" in os.environ else None
    with searched_once(shared):
        yield


_LEFT_OUT = pytest.StashKey[int]()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """The word about what was left out."""
    left = config.stash.get(_LEFT_OUT, 0)
    if left:
        terminalreporter.write_line(f"Left out: {left} browser tests (no Chromium here; install `chromium`).")
