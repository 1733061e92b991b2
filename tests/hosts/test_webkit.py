"""Entry, kill and cold start in WebKit, which every browser on an iPhone is."""

from __future__ import annotations

import pytest

from tests.hosts.engine_walk import Finger, walked
from tests.hosts.engine_walk import finger as finger
from undertile.bench.browser import Site


@pytest.mark.parametrize("engine_name", ["webkit"])
def test_entry_kill_and_cold_start_then_the_plan(finger: Finger, site: Site) -> None:
    walked(finger, site)
