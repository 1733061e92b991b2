"""The bundle: whole by its own list, the same each time, without what no phone runs, within its bytes."""

from __future__ import annotations

import ast
import io
import json
import zipfile
from pathlib import Path

import brotli
import pytest

from undertile.bundled import ORDER
from undertile.errors import InputError
from undertile.hosts.phone import build
from undertile.hosts.phone.collect import collect_wheels

BUDGET = 9_000_000
"""Bytes over the wire (issue: 9 MB or less, brotli)."""
LOOSER = 1.19
"""What quality 5 gives more than the 11 that a host packs with once (measured here on this bundle)."""

LEFT: set[tuple[str, str]] = set()
"""Imports of what was left out that no phone reaches: module and file."""


def inside(bundle: Path, name: str) -> set[str]:
    with zipfile.ZipFile(bundle / "py" / f"{name}.zip") as packed:
        return set(packed.namelist())


def test_the_bundle_is_what_its_list_says(bundle: Path) -> None:
    assert build.check_bundle(bundle) == []
    listed = json.loads((bundle / "bundle.json").read_text(encoding="utf-8"))
    there = {path.relative_to(bundle).as_posix() for path in bundle.rglob("*") if path.is_file()}
    assert there - {"sw.js", "bundle.json"} == set(listed["files"])
    assert f'"version": "{listed["version"]}"' in (bundle / "sw.js").read_text(encoding="utf-8")


def test_two_builds_of_one_source_are_one_version(bundle: Path) -> None:
    """The one kept on disk, whenever it was built, and one made now."""
    made = dict(build.bundle_files(lambda text: None))
    assert {path.relative_to(bundle).as_posix() for path in bundle.rglob("*") if path.is_file()} == set(made)
    for name, content in made.items():
        assert (bundle / name).read_bytes() == content, name


def test_no_phone_carries_what_only_a_laptop_runs(bundle: Path) -> None:
    ours = inside(bundle, "undertile")
    assert {"undertile/job/fold.pyc", "undertile/screens/app.pyc", "undertile/hosts/phone/inside.pyc"} <= ours
    rooms = ("undertile/cli/", "undertile/bench/", "undertile/hosts/server/")
    assert not [name for name in ours if name.startswith(rooms) or name.endswith((".py", "phone/build.pyc"))]
    assert any(name.startswith("undertile/screens/compiled/") for name in ours)
    assert {f"undertile/examples/{name}.toml" for name in ORDER} <= ours


def test_nothing_that_was_left_out_is_ever_asked_for(bundle: Path) -> None:
    """Independent: every import in the text of ours and of the packages, wherever it stands."""
    packed = [*(name for name in build.NOT_NEEDED if not name.startswith("encodings/"))]
    gone = {name.removesuffix(".py").rstrip("/").replace("/", ".") for name in packed}
    texts = list(build._own())
    for wheel, path in collect_wheels(lambda text: None).items():
        texts += build._members(path, wheel.without)
    asked = set()
    for name, content in texts:
        if name.endswith(".py"):
            for node in ast.walk(ast.parse(content)):
                if isinstance(node, ast.Import):
                    asked |= {(alias.name, name) for alias in node.names}
                elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
                    asked.add((node.module, name))
    wrong = {each for each in asked for lost in gone if f"{each[0]}.".startswith(f"{lost}.")}
    assert wrong <= LEFT, wrong - LEFT


def test_everything_is_compiled_by_the_interpreter_that_runs_it(bundle: Path) -> None:
    """Published: the magic number of CPython 3.14 is 3627 (CPython, pycore_magic_number.h)."""
    for name in ("stdlib", "packages", "undertile"):
        with zipfile.ZipFile(bundle / "py" / f"{name}.zip") as packed:
            codes = [each for each in packed.namelist() if each.endswith(".pyc")]
            assert codes
            assert {packed.read(each)[:4] for each in codes} == {(3627).to_bytes(2, "little") + b"\r\n"}
            left = [each for each in packed.namelist() if each.endswith(".py")]
            assert all(each.startswith("anyio/") for each in left)


def test_the_bundle_keeps_to_its_bytes(bundle: Path) -> None:
    sizes = {
        path.name: len(brotli.compress(path.read_bytes(), quality=5))
        for path in bundle.rglob("*")
        if path.is_file()
    }
    assert sum(sizes.values()) < BUDGET * LOOSER, sorted(sizes.items(), key=lambda each: -each[1])[:6]


def test_a_folder_of_something_else_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("mine", encoding="utf-8")
    with pytest.raises(InputError, match="choose another folder"):
        build.build_bundle(tmp_path)
    assert (tmp_path / "letter.txt").read_text(encoding="utf-8") == "mine"


def test_a_file_that_was_changed_is_found(bundle: Path, tmp_path: Path) -> None:
    listed = {"version": "x", "files": {"a.txt": [build._hash(b"one"), 3], "b.txt": [build._hash(b"two"), 3]}}
    (tmp_path / "bundle.json").write_text(json.dumps(listed), encoding="utf-8")
    (tmp_path / "a.txt").write_bytes(b"one")
    (tmp_path / "b.txt").write_bytes(b"twO")
    assert build.check_bundle(tmp_path) == ["b.txt"]


def test_a_zip_is_packed_the_same_whatever_the_order() -> None:
    one, two = ("a.py", b"1"), ("b.py", b"2")
    assert build._packed(iter([one, two])) == build._packed(iter([two, one]))
    with zipfile.ZipFile(io.BytesIO(build._packed(iter([one])))) as packed:
        assert packed.namelist() == ["a.py"]
