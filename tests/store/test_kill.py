"""A writing process killed at random moments; the long run is ``python -m undertile.bench.sync_soak``."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from pathlib import Path

KILLS = """
import json, sys
from pathlib import Path
from undertile.bench.store_kill import kills
print(json.dumps(kills(36, Path(sys.argv[1]))))
"""


def test_no_acknowledged_entry_is_lost_or_doubled(tmp_path: Path) -> None:
    memory = Path("/dev/shm")  # a kill is not a power cut: the disk's own waiting adds nothing but time
    with tempfile.TemporaryDirectory(dir=memory if memory.is_dir() else tmp_path) as folder:
        # an interpreter of its own: each writer would load all of pytest again
        done = subprocess.run([sys.executable, "-c", KILLS, folder], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    row = json.loads(done.stdout)
    assert row["kills"] == 36
    assert row["acknowledged"] > 100
    assert (row["lost"], row["doubled"], row["unsound"]) == (0, 0, 0)
    assert row["unsaid"] <= 36 * 4  # at most the entries of the last call of each life
