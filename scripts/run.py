"""Run the main job: plan a bundled example, or whatever command follows.

python3 scripts/run.py                          plan the first bundled example
python3 scripts/run.py check examples/....toml  any undertile command
"""

import os
import subprocess
import sys

import environment

DEMONSTRATION = ["plan", "examples/old-alcove.toml"]
CALLED = ("py" if environment.WINDOWS else "python3") + " scripts/run.py"
SETTLE_FIRST = 1
"""Exit code for "settle something before the first cut": what the planted slips should give."""


def main():
    """Make the environment if need be, then run ``undertile`` in it."""
    python = environment.make()
    words = sys.argv[1:] or DEMONSTRATION
    try:
        folder = environment.ROOT if words == DEMONSTRATION else None
        command = [python, "-m", "undertile"] + words  # noqa: RUF005
        code = subprocess.run(command, cwd=folder, env=dict(os.environ, UNDERTILE_CALLED=CALLED)).returncode
    except KeyboardInterrupt:
        return 130
    if words == DEMONSTRATION and code == SETTLE_FIRST:
        sys.stdout.flush()
        environment.say("")
        environment.say("Two slips are planted in this example on purpose; DOUBT above names them. Try next:")
        environment.say("  " + CALLED + " explain examples/old-alcove.toml L3")
        environment.say("  " + CALLED + " check examples/steel-unit.toml")
        environment.say("  " + CALLED + " --help")
        return 0
    return code


if __name__ == "__main__":
    sys.exit(main())
