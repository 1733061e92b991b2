"""Test everything: lint, format, types, then the tests.

python3 scripts/test.py             all of it
python3 scripts/test.py --lint      lint, format and types only (what pre-commit calls)
python3 scripts/test.py --long      all of it, with more rooms, examples and screens (UNDERTILE_LONG=1)
python3 scripts/test.py -k play     words for pytest: only the tests that match
"""

import os
import subprocess
import sys

import browser
import environment

LINT = (
    ("lint", ["ruff", "check", "."]),
    ("format", ["ruff", "format", "--check", "--quiet", "."]),
    ("types", ["mypy"]),
)

TWO_AT_A_TIME = ["-n", "2", "--dist", "loadfile", "--no-loadscope-reorder"]
"""Two processes, each test file in one of them, in the order of tests/conftest.py: the long files first.

By itself pytest-xdist begins with the files of many tests: one that is a whole job on a phone comes last,
and the other core stands idle meanwhile.
"""


def main():
    """Make the environment if need be, run each check, and say which ones failed."""
    words = [word for word in sys.argv[1:] if word != "--long"]
    settings = {"UNDERTILE_LONG": "1"} if "--long" in sys.argv[1:] else {}
    python = environment.make("test")
    checks = [(name, [python, "-m"] + command) for name, command in LINT]  # noqa: RUF005
    if words != ["--lint"]:
        checks = checks if not words else []
        browser.bring(python)
        checks.append(("tests", [python, "-m", "pytest"] + (words or TWO_AT_A_TIME)))
    failed = []
    for name, command in checks:
        sys.stdout.write("== " + name + "\n")
        sys.stdout.flush()
        if subprocess.run(command, cwd=environment.ROOT, env={**clean(), **settings}).returncode:
            failed.append(name)
    if failed:
        sys.stdout.write("Failed: " + ", ".join(failed) + "\n")
    return 1 if failed else 0


def clean():
    """The environment variables, less those that would change what the tools print or load.

    Nor does each process that a test starts compile everything anew.
    """
    drop = ("PYTHONPATH", "PYTHONHOME", "PYTEST_ADDOPTS", "MYPYPATH", "PYTHONDONTWRITEBYTECODE")
    return {key: value for key, value in os.environ.items() if key not in drop}


if __name__ == "__main__":
    sys.exit(main())
