"""Run what the phone runs inside Pyodide under Node.js, without a browser: a script, or tests of the core.

    python -m undertile.bench.innode                      the everyday tests of the core
    python -m undertile.bench.innode tests/job -q -k fold words for pytest

Another Python (3.14, 32 bits, another compiler) must give the same answers as the one here. Tests that
start a process or need a package without a WebAssembly build stay here, and the summary says how many.
"""

from __future__ import annotations

import os
import subprocess
import sys
import sysconfig
import tempfile
import zipfile
from collections.abc import Mapping, Sequence
from pathlib import Path

from undertile.hosts.phone import build
from undertile.hosts.phone.collect import collect_pyodide, collect_wheel, find_tool
from undertile.hosts.phone.parts import FOR_TESTS, STDLIB

ROOT = Path(__file__).resolve().parents[3]
SITE = "/lib/python3.14/site-packages"
CORE = (
    "tests/test_lengths.py",
    "tests/test_length_text.py",
    "tests/test_ruler.py",
    "tests/survey",
    "tests/framing",
    "tests/pan",
    "tests/job",
)
RUN_TESTS = """
import os, re, sys
sys.path[:0] = ["/mnt/repo"]
sys.path.append("/mnt/site")
sys.dont_write_bytecode = True
os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
os.chdir("/mnt/repo")
import errno, pytest
from _pytest.outcomes import Skipped

OUTSIDE = "numpy highspy ortools scipy shapely matplotlib jsonschema undertile.bench undertile.cli".split()
IMPORT = re.compile("^(?:import|from) (" + "|".join(map(re.escape, OUTSIDE)) + r")\\b", re.M)

class Stays:
    def __init__(self):
        self.files, self.tests = [], 0
    def pytest_ignore_collect(self, collection_path):
        if collection_path.suffix == ".py" and IMPORT.search(collection_path.read_text("utf-8")):
            self.files.append(str(collection_path).removeprefix("/mnt/repo/"))
            return True
    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self, item):
        try:
            return (yield)
        except OSError as error:
            if error.errno != errno.ENOTSUP:
                raise
            self.tests += 1
            raise Skipped("starts a process")
    def pytest_terminal_summary(self, terminalreporter):
        told = f"{len(self.files)} files and {self.tests} tests stay on the laptop"
        terminalreporter.write_line(f"{told}: they need a package or a process")

int(pytest.main([*WORDS, "-p", "no:cacheprovider"], plugins=[Stays()]))
"""


def run(
    script: str, words: Sequence[str] = (), mounts: Mapping[str, Path] | None = None, whole: bool = False
) -> tuple[int, str]:
    """Run a Python script with the bundle's packages and our own code.

    Parameters
    ----------
    script : str
        Its text; ``WORDS`` holds the words. Its last expression is the exit code.
    words : sequence of str
    mounts : mapping of str to Path
        Folders to show, or zips to unpack, by the place they are shown at.
    whole : bool
        With Pyodide's own standard library, which has what the phone's leaves out.

    Returns
    -------
    code : int
    printed : str
    """
    files = dict(build.python_files(lambda text: None))
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder)
        for name in ("stdlib", "packages", "undertile"):
            (place / f"{name}.zip").write_bytes(files[f"py/{name}.zip"])
        with zipfile.ZipFile(place / "core.zip", "w") as core:
            core.writestr(build.CORE, files["py/core.wasm"])
        (place / "script.py").write_text(script, encoding="utf-8")
        command = [find_tool("node"), str(Path(build.__file__).with_name("innode.mjs"))]
        pyodide = collect_pyodide(lambda text: None)
        command += [str(pyodide), str(pyodide / STDLIB if whole else place / "stdlib.zip")]
        command.append(str(place / "script.py"))
        command += [f"{SITE}={place / name}.zip" for name in ("packages", "core", "undertile")]
        command += [f"{at}={shown}" for at, shown in (mounts or {}).items()]
        if whole:
            command.append(f"{SITE}={collect_wheel(FOR_TESTS, lambda text: None)}")
        done = subprocess.run([*command, "--", *words], capture_output=True, text=True, env=_plain())
    return done.returncode, done.stdout + done.stderr


def run_tests(words: Sequence[str]) -> tuple[int, str]:
    """Run tests of this checkout."""
    site = Path(sysconfig.get_paths()["purelib"])
    return run(RUN_TESTS, words, {"/mnt/repo": ROOT, "/mnt/site": site}, whole=True)


def _plain() -> dict[str, str]:
    return {key: value for key, value in os.environ.items() if not key.startswith("NODE_")}


def main() -> int:
    """The command."""
    code, printed = run_tests(sys.argv[1:] or CORE)
    print(printed)
    return code


if __name__ == "__main__":
    sys.exit(main())
