"""Which tests need a browser or Node.js; where there is none that is said, nothing is left out in silence."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from tests.hosts.laptop import MEMORY_KEPT, Known, Laptop
from undertile.bench.browser import Browser, Site, bundle_of_this_source, find_browser, one_driver, phone
from undertile.bench.engines import ENGINES, engine
from undertile.bench.phone_kills import PAD, PAD_UP, prepared
from undertile.errors import InputError
from undertile.hosts.phone.collect import find_tool

NEEDS = {"bundle": ("node", "npm"), "one_site": ("node", "npm", "chromium"), "node": ("node", "npm")}
"""Fixture to what it needs on the machine; a test with an ``engine_name`` needs that engine, not Chromium."""


def lacking(item: pytest.Item) -> list[str]:
    """What of a test's needs is not here."""
    needs = {need for name in getattr(item, "fixturenames", ()) for need in NEEDS.get(name, ())}
    if (callspec := getattr(item, "callspec", None)) and "engine_name" in callspec.params:
        needs = needs - {"chromium"} | {callspec.params["engine_name"]}
    return [need for need in sorted(needs) if not here(need)]


@cache
def here(need: str) -> bool:
    """Whether a program is on this machine."""
    try:
        if need in ENGINES:
            engine(need)
        else:
            find_browser() if need == "chromium" else find_tool(need)
    except InputError:
        return False
    return True


HERE = Path(__file__).parent
WAITED_IN_VAIN = pytest.mark.flaky(
    reruns=1, only_rerun=["TimeoutError", "Timeout .* exceeded", "Page crashed", "Target crashed"]
)
"""A real browser on a busy machine may take longer than a test waits, and now and then its page's process
falls over: asked once more, and told as a rerun. A value lost or a figure that differs is no such thing and
fails at once."""


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what cannot run here, and say so; where everything must run, that is a failure."""
    out: dict[pytest.Item, list[str]] = {}
    for item in items:
        if item.path.is_relative_to(HERE):
            item.add_marker(WAITED_IN_VAIN)
        if lacks := lacking(item):
            out[item] = lacks
    if not out:
        return
    told = ", ".join(sorted({need for lacks in out.values() for need in lacks}))
    if os.environ.get("CI"):
        raise pytest.UsageError(
            f"{len(out)} tests need {told}, which this machine lacks; they may not be left out here"
        )
    config.stash[LEFT_OUT] = f"{len(out)} tests of the phone left out: no {told} on this machine"
    config.hook.pytest_deselected(items=list(out))
    items[:] = [item for item in items if item not in out]


LEFT_OUT = pytest.StashKey[str]()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter, config: pytest.Config) -> None:
    """Say again at the end what was left out."""
    if LEFT_OUT in config.stash:
        terminalreporter.write_line(config.stash[LEFT_OUT], yellow=True)


@pytest.fixture(scope="module", autouse=True)
def _one_driver() -> Iterator[None]:
    """What drives the browsers takes as long to start as a browser does: once a file, and only if need be."""
    with one_driver():
        yield


@pytest.fixture(scope="session")
def bundle() -> Path:
    """The phone's bundle of this source."""
    return bundle_of_this_source()


@pytest.fixture(scope="session")
def node() -> str:
    """Node.js."""
    return find_tool("node")


@pytest.fixture(scope="session")
def one_site(bundle: Path) -> Iterator[Site]:
    made = Site(bundle)
    yield made
    made.stop()


@pytest.fixture
def site(one_site: Site, bundle: Path) -> Site:
    """A static site with the bundle."""
    one_site.restore(bundle)
    return one_site


@pytest.fixture(scope="session")
def known(bundle: Path, tmp_path_factory: pytest.TempPathFactory) -> Known:
    """A laptop and two phones that know each other."""
    made = Known(tmp_path_factory.mktemp("known"), bundle)
    made.make()
    return made


@pytest.fixture
def laptop(known: Known, tmp_path: Path) -> Iterator[Laptop]:
    """That laptop, serving, with no job yet."""
    made = known.laptop(tmp_path / "laptop")
    yield made
    made.kill()


@pytest.fixture(scope="session")
def visited(one_site: Site, bundle: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The profile of a browser that has visited the site, brought in a job and opened its pad.

    It has kept Python's memory, as a phone that was used once: a start from it takes a third less.
    """
    profile = tmp_path_factory.mktemp("visited")
    one_site.restore(bundle)
    with phone(profile, one_site) as browser:
        prepared(browser)
        browser.until(MEMORY_KEPT)
        browser.leave()
    return profile


@pytest.fixture
def at_pad(site: Site, visited: Path, tmp_path: Path) -> Iterator[Browser]:
    """A browser at the pad of that job."""
    shutil.copytree(visited, tmp_path / "profile", ignore=shutil.ignore_patterns("Singleton*"))
    browser = Browser(tmp_path / "profile")
    try:
        browser.page.goto(site.address + PAD)
        browser.until(PAD_UP)
        browser.until("() => window.undertile.opened")  # the pad stands before its log (test_phone_early)
        yield browser
    finally:
        browser.close()
