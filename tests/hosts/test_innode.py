"""The same code in the phone's Python, without a browser: the plan byte for byte, and tests of the core."""

from __future__ import annotations

import json
import platform

from undertile.bench.innode import ROOT, run, run_tests
from undertile.cli.as_json import plain, text
from undertile.job import plan, read_job

EXAMPLE = "examples/hand.toml"
FEW = [
    *("tests/test_length_text.py", "tests/survey/test_line.py", "tests/framing/test_stacks.py"),
    *("tests/framing/test_flatcheck.py", "tests/pan/test_square.py", "tests/job/test_migrate.py"),
]
"""Of each room of the core what is quickly done."""
PLAN = """
import undertile
undertile.__path__.append("/mnt/repo/src/undertile")
import platform
from undertile.cli.as_json import plain, text
from undertile.job import plan, read_job
rebuild = plan(read_job("/mnt/repo/%s"))
print(platform.system(), platform.python_version())
print(text({key: plain(each, rebuild.job.unit) for key, each in rebuild.results.items()}))
0
"""


def test_the_plan_in_the_phone_is_the_laptop_s_byte_for_byte(node: str) -> None:
    """Independent: another Python, another compiler, 32 bits."""
    code, printed = run(PLAN % EXAMPLE, mounts={"/mnt/repo": ROOT})
    assert code == 0, printed
    where, _, found = printed.partition("\n")
    assert where.startswith("Emscripten 3.14")
    assert not platform.system().startswith("Emscripten")
    rebuild = plan(read_job(ROOT / EXAMPLE))
    here = text({key: plain(each, rebuild.job.unit) for key, each in rebuild.results.items()})
    assert json.loads(found)["framing"]["minutes"] == "43", "convention 8: the room worked by hand"
    assert found.rstrip("\n") == here.rstrip("\n")


def test_tests_of_the_core_pass_in_the_phone_s_python(node: str) -> None:
    """A few here; all by ``python -m undertile.bench.innode``."""
    code, printed = run_tests(FEW)
    assert code == 0, printed
    assert " passed" in printed


def test_a_script_that_fails_is_a_failure(node: str) -> None:
    code, printed = run("raise ValueError('on purpose')")
    assert code == 1
    assert "on purpose" in printed
