"""Run the main job: plan a bundled example, or whatever command follows.

    python3 scripts/run.py                          plan the first bundled example
    python3 scripts/run.py check examples/....toml  any undertile command
"""

import subprocess
import sys

import environment


def main():
    """Make the environment if need be, then run ``undertile`` in it."""
    python = environment.make()
    words = sys.argv[1:] or ["tour"]
    try:
        return subprocess.run([python, "-m", "undertile"] + words).returncode  # noqa: RUF005
    except KeyboardInterrupt:
        return 130


if __name__ == "__main__":
    sys.exit(main())
