"""What the bundle is made of: the versions the tests run with, nothing of it in the repository."""

from __future__ import annotations

import re
import subprocess
import zlib
from pathlib import Path

import pydantic
import pytest

from undertile.hosts.phone.icon import png
from undertile.hosts.phone.parts import PYODIDE_FILES, WHEELS

ROOT = Path(__file__).resolve().parents[2]


def plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def test_the_phone_runs_the_versions_that_the_tests_run() -> None:
    held = dict(
        line.split("==")
        for line in (ROOT / "constraints.txt").read_text(encoding="utf-8").split("\n")
        if "==" in line
    )
    tested = {plain(name): version for name, version in held.items()}
    assert {plain(wheel.name): wheel.version for wheel in WHEELS}.items() <= tested.items()


def test_the_native_part_is_the_one_that_pydantic_asks_for() -> None:
    """Published: the version pydantic names in its own code."""
    from pydantic.version import _COMPATIBLE_PYDANTIC_CORE_VERSION

    versions = {wheel.name: wheel.version for wheel in WHEELS}
    assert versions["pydantic"] == pydantic.VERSION
    assert versions["pydantic_core"] == _COMPATIBLE_PYDANTIC_CORE_VERSION


def test_nothing_that_others_made_is_in_the_repository() -> None:
    done = subprocess.run(["git", "ls-files"], capture_output=True, text=True, cwd=ROOT, check=True)
    files = done.stdout.split("\n")
    foreign = {*PYODIDE_FILES, "pyodide-lock.json"}
    assert not [
        each for each in files if Path(each).name in foreign or each.endswith((".wasm", ".whl", ".zip"))
    ]


@pytest.mark.parametrize("size", [16, 192])
def test_the_icon_is_a_picture_of_its_size(size: int) -> None:
    """Published: PNG 1.2, chunk layout, 8 bit truecolour."""
    content = png(size)
    assert content.startswith(b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR")
    assert (int.from_bytes(content[16:20]), int.from_bytes(content[20:24])) == (size, size)
    start = content.index(b"IDAT")
    length = int.from_bytes(content[start - 4 : start])
    assert len(zlib.decompress(content[start + 4 : start + 4 + length])) == size * (1 + 3 * size)
