"""Which tests need a browser or Node.js, and what is said where there is none: nothing is left out in silence."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from undertile.bench.browser import NAMES, Browser, Site, bundle_of_this_source, phone

NEEDS = {"bundle": ("node", "npm"), "site": ("node", "npm", "chromium"), "node": ("node", "npm")}
"""Fixture to what it needs on the machine."""


def lacking(name: str) -> list[str]:
    """What of a fixture's needs is not here."""
    return [
        need
        for need in NEEDS.get(name, ())
        if not any(map(shutil.which, NAMES if need == "chromium" else (need,)))
    ]


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what cannot run here, and say so; where everything must run, that is a failure."""
    out: dict[pytest.Item, list[str]] = {}
    for item in items:
        lacks = [need for name in getattr(item, "fixturenames", ()) for need in lacking(name)]
        if lacks:
            out[item] = lacks
    if not out:
        return
    told = ", ".join(sorted({need for lacks in out.values() for need in lacks}))
    if os.environ.get("CI"):
        raise pytest.UsageError(f"{len(out)} tests need {told}, which this machine lacks; they may not be left out here")
    config.stash[LEFT_OUT] = f"{len(out)} tests of the phone left out: no {told} on this machine"
    config.hook.pytest_deselected(items=list(out))
    items[:] = [item for item in items if item not in out]


LEFT_OUT = pytest.StashKey[str]()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """Say again at the end what was left out."""
    if LEFT_OUT in config.stash:
        terminalreporter.write_line(config.stash[LEFT_OUT], yellow=True)


@pytest.fixture(scope="session")
def bundle() -> Path:
    """The phone's bundle of this source."""
    return bundle_of_this_source()


@pytest.fixture(scope="session")
def node() -> str:
    """Node.js."""
    return shutil.which("node") or ""


@pytest.fixture
def site(bundle: Path) -> Iterator[Site]:
    """A static site with the bundle."""
    made = Site(bundle)
    yield made
    made.stop()


@pytest.fixture
def opened(site: Site, tmp_path: Path) -> Iterator[Browser]:
    """A browser that has visited the site once."""
    with phone(tmp_path / "profile", site) as browser:
        yield browser
