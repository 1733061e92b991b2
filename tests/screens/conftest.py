"""One browser for every screen's tests, ended before another folder's begin."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens import browsing


@pytest.fixture(scope="package", autouse=True)
def one_browser() -> Iterator[None]:
    """Whatever opened it first, it is closed here."""
    yield
    browsing.close()
