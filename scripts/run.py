"""Run the main job: plan a bundled example, or whatever command follows.

python3 scripts/run.py                          plan the first bundled example, print its papers and drawings
python3 scripts/run.py check examples/....toml  any undertile command
"""

import os
import subprocess
import sys

import environment

JOB = "examples/old-alcove.toml"
MENDED = ["--if", "L3 at 54 = 5-7/8", "--if", "B4 at 36 = 6-1/4"]
"""The two slips that are planted in it, as if they were read again."""
OUT = os.path.join("out", "old-alcove")
DEMONSTRATION = ["plan", JOB]
HANDED_OVER = (["papers", JOB, "--out", OUT] + MENDED, ["draw", JOB, "--out", OUT] + MENDED)  # noqa: RUF005
CALLED = ("py" if environment.WINDOWS else "python3") + " scripts/run.py"
SETTLE_FIRST = 1
"""Exit code for "settle something before the first cut": what the planted slips should give."""


def main():
    """Make the environment if need be, then run ``undertile`` in it."""
    python = environment.make()
    words = sys.argv[1:] or DEMONSTRATION
    try:
        if words == DEMONSTRATION:
            return show(python)
        return call(python, words, None)
    except KeyboardInterrupt:
        return 130


def call(python, words, folder):
    """Run ``undertile`` with these words; its exit code."""
    command = [python, "-m", "undertile"] + words  # noqa: RUF005
    return subprocess.run(command, cwd=folder, env=dict(os.environ, UNDERTILE_CALLED=CALLED)).returncode


def show(python):
    """The demonstration: the plan, then what the crew is handed once the two slips are read again."""
    code = call(python, DEMONSTRATION, environment.ROOT)
    sys.stdout.flush()
    if code != SETTLE_FIRST:
        return code
    environment.say("")
    environment.say("Two slips are planted in this example on purpose; DOUBT above names them.")
    environment.say("What the crew would be handed once they are read again:")
    environment.say("")
    for words in HANDED_OVER:
        code = call(python, words, environment.ROOT)
        sys.stdout.flush()
        if code > SETTLE_FIRST:
            return code
    environment.say("")
    environment.say("Look at " + os.path.join(OUT, "crew-sheet.pdf") + ". Try next:")
    environment.say("  " + CALLED + " explain " + JOB + " L3")
    environment.say("  " + CALLED + " check examples/steel-unit.toml")
    environment.say("  " + CALLED + " --help")
    return 0


if __name__ == "__main__":
    sys.exit(main())
