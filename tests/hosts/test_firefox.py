"""Entry, kill and cold start in Firefox, which is on Android phones too."""

from __future__ import annotations

import pytest

from tests.hosts.engine_walk import Finger, walked
from tests.hosts.engine_walk import finger as finger
from undertile.bench.browser import Site


@pytest.mark.parametrize("engine_name", ["firefox"])
def test_entry_kill_and_cold_start_then_the_plan(finger: Finger, site: Site) -> None:
    walked(finger, site)
