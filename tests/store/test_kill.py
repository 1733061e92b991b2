"""A writing process killed at random moments; the long run is ``python -m undertile.bench.sync_soak``."""

from __future__ import annotations

import tempfile
from pathlib import Path

from undertile.bench.store_kill import kills


def test_no_acknowledged_entry_is_lost_or_doubled(tmp_path: Path) -> None:
    memory = Path("/dev/shm")  # a kill is not a power cut: the disk's own waiting adds nothing but time
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else tmp_path) as folder:
        row = kills(36, Path(folder))
    assert row["kills"] == 36
    assert row["acknowledged"] > 100
    assert (row["lost"], row["doubled"], row["unsound"]) == (0, 0, 0)
    assert row["unsaid"] <= 36 * 4  # at most the entries of the last call of each life
