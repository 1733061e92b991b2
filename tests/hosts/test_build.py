"""The bundle: whole by its own list, the same each time, without what no phone runs, within its bytes."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterator
from pathlib import Path

import brotli
import pytest

from undertile.bench.innode import SITE, run
from undertile.bundled import ORDER
from undertile.cli.hosts import export_phone
from undertile.errors import InputError
from undertile.hosts.phone import build
from undertile.hosts.phone.collect import collect_pyodide, collect_wheels
from undertile.hosts.phone.parts import FROZEN, NOT_NEEDED, STDLIB, WHEELS
from undertile.job.shape import Leaf

BUDGET = 7_300_000
"""Bytes over the wire (issue: 9 MB or less, brotli; pinned: 6.92 MB, and room for what is to come)."""
LOOSER = 1.175
"""What quality 5 gives more than the 11 that a host packs with once (measured here on this bundle)."""

PROGRAMS = "ast calendar dis gzip inspect mimetypes pickle platform py_compile random tokenize uuid zipfile"
LEFT = {
    "run as a program on a laptop": {
        *(("argparse", name) for name in PROGRAMS.split()),
        *(("_pyrepl", "site"), ("doctest", "heapq"), ("pydoc", "_sitebuiltins")),
    },
    "by a system that is no phone's browser": {
        *(("asyncio/windows_events", "asyncio"), ("asyncio/windows_events", "asyncio/events")),
        *(("concurrent/futures/process", "concurrent/futures"), ("plistlib", "platform")),
    },
    "where what is compiled is lacking: here it is not": {("_pydatetime", "datetime")},
    "by whoever packs or unpacks such a file: a phone does zips alone": {
        *(("tarfile", "shutil"), ("tarfile", "pyodide/_package_loader")),
    },
    "by whoever opens an FTP address: no browser does": {("ftplib", "urllib/request")},
    "goes on without where it is not": {("markupsafe/_speedups", "markupsafe")},
    "for who reads the types alone": {
        *(("jinja2/ext", "jinja2/environment"), ("jinja2/sandbox", "jinja2/filters")),
        ("starlette/middleware/sessions", "starlette/requests"),
    },
    "for models made with version 1": {("pydantic/v1", "pydantic/_internal/_generate_schema")},
}
"""Why an import of what was left out, by whom, is never come to."""
IMPORTS = """
import ast, json, zipfile
found = {}
def imports(name, tree):
    package = name.removesuffix(".py").split("/")[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package[: len(package) + 1 - node.level] if node.level else []
            place = ".".join([*above, *filter(None, [node.module])])
            yield from (place, *(f"{place}.{alias.name}" for alias in node.names))
with zipfile.ZipFile("/texts/texts.zip") as texts:
    for name in texts.namelist():
        found[name] = sorted(set(imports(name, ast.parse(texts.read(name)))))
with open("/texts/found.json", "w") as out:
    json.dump(found, out)
0
"""


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


def test_what_is_written_for_a_host_of_files_alone_says_so_and_is_the_same_tool(
    bundle: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """By the command itself; the parts of it are those of the bundle that a laptop serves."""
    files = {path.relative_to(bundle).as_posix(): path.read_bytes() for path in bundle.rglob("*.*")}
    monkeypatch.setattr(build, "bundle_files", lambda say: iter(files.items()))
    export_phone(str(tmp_path / "out"))
    capsys.readouterr()
    listed = {place: json.loads((place / "bundle.json").read_text()) for place in (bundle, tmp_path / "out")}
    assert "alone" not in listed[bundle]
    assert listed[tmp_path / "out"] == {"alone": True, **listed[bundle]}
    assert build.check_bundle(tmp_path / "out") == []
    for name, content in files.items():
        assert name == "bundle.json" or (tmp_path / "out" / name).read_bytes() == content


def test_another_worker_is_another_version(bundle: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its cache is its own: filling, or throwing away, that of the worker in use could strand a phone."""
    shell = {**dict(build._shell()), "sw.js": b"// another\n"}
    monkeypatch.setattr(build, "_shell", lambda: shell)
    monkeypatch.setattr(build, "python_files", lambda say: _python(bundle))
    made = dict(build.bundle_files(lambda text: None))
    old, new = (json.loads(text) for text in ((bundle / "bundle.json").read_bytes(), made["bundle.json"]))
    assert new["files"] == old["files"]
    assert new["version"] != old["version"]


def _python(bundle: Path) -> Iterator[tuple[str, bytes]]:
    """What took long to make, from where it was made."""
    yield from ((f"py/{path.name}", path.read_bytes()) for path in (bundle / "py").iterdir())


def test_no_phone_carries_what_only_a_laptop_runs(bundle: Path) -> None:
    ours = inside(bundle, "undertile")
    assert {"undertile/job/fold.pyc", "undertile/screens/app.pyc", "undertile/hosts/phone/inside.pyc"} <= ours
    rooms = ("undertile/cli/", "undertile/bench/", "undertile/hosts/server/")
    assert not [name for name in ours if name.startswith(rooms) or name.endswith((".py", "phone/build.pyc"))]
    assert any(name.startswith("undertile/screens/compiled/") for name in ours)
    assert {f"undertile/examples/{name}.toml" for name in ORDER} <= ours


def test_nothing_that_was_left_out_is_ever_asked_for(bundle: Path, tmp_path: Path) -> None:
    """Independent: every import in the text of what is there, ours, the packages' and the standard library's
    own, wherever it stands, read by the phone's Python: a fault too finds what it needs."""
    left = (*NOT_NEEDED, *(name for wheel in WHEELS for name in wheel.without))
    texts = dict(build._own()) | dict(build._members(collect_pyodide(print) / STDLIB, left))
    for path in collect_wheels(print).values():
        texts |= dict(build._members(path, left))
    build_text = {name: content for name, content in texts.items() if name.endswith(".py")}
    (tmp_path / "texts.zip").write_bytes(build._packed(iter(build_text.items())))
    code, printed = run(IMPORTS, mounts={"/texts": tmp_path})
    assert code == 0, printed
    found = json.loads((tmp_path / "found.json").read_text(encoding="utf-8"))
    gone = {name.removesuffix(".py").rstrip("/") for name in left if "/cp" not in name}
    asked = {(each.replace(".", "/"), name) for name, its in found.items() for each in its}
    assert len(asked) > 5000
    wrong = {
        (lost, name.removesuffix(".py").removesuffix("/__init__"))
        for each, name in asked
        for lost in gone
        if f"{each}/".startswith(f"{lost}/")
    }
    assert wrong == set().union(*LEFT.values())


def test_what_is_in_the_interpreter_is_looked_for_nowhere_else(bundle: Path) -> None:
    """Independent: the interpreter says so itself."""
    gone = [name.removesuffix(".py").rstrip("/").replace("/", ".") for name in FROZEN]
    names = [name for name in gone if not name.startswith("importlib._")]
    loaders = "[sys.modules[name].__spec__.loader.__name__ for name in ('_frozen_importlib', 'os', 'codecs')]"
    code, printed = run(
        f"import _imp, importlib, sys\nprint([name for name in {names} if not _imp.is_frozen(name)])\n"
        f"print(importlib._bootstrap is sys.modules['_frozen_importlib'])\nprint({loaders})\n0"
    )
    assert code == 0, printed
    assert printed.splitlines() == ["[]", "True", str(["FrozenImporter"] * 3)]


CODES = f"""
import marshal, types, zipfile
from undertile.job.shape import Leaf
from undertile.lengths import parse_length
def codes(code):
    yield code
    for each in code.co_consts:
        if isinstance(each, types.CodeType):
            yield from codes(each)
said, unlined, columns, number = [], [], 0, 0
for which in ("stdlib", "packages", "undertile"):
    with zipfile.ZipFile("/zips/py/" + which + ".zip") as packed:
        for name in packed.namelist():
            if name.endswith(".pyc"):
                for code in codes(marshal.loads(packed.read(name)[16:])):
                    number += 1
                    said += [name] * bool(code.co_flags & 0x4000000)  # CO_HAS_DOCSTRING
                    unlined += [name] * (not any(line is not None for _, _, line in code.co_lines()))
                    columns += any(each[2] is not None for each in code.co_positions())
print(number > 20000, said, unlined, columns)
print(zipfile.ZipFile.__doc__ == ".", zipfile.is_zipfile.__doc__)
print(Leaf.__doc__)
try:
    parse_length("")
except Exception as error:
    while error.__traceback__.tb_next:
        error.__traceback__ = error.__traceback__.tb_next
    at = error.__traceback__
    print(at.tb_frame.f_code.co_filename.removeprefix("{SITE}/"), at.tb_lineno, at.tb_frame.f_code.co_name)
0
"""


def test_code_goes_without_what_only_its_reader_needs(bundle: Path) -> None:
    """Independent: no text and no column in any code, read by the phone's Python; a fault still says file,
    line and function, and that line of the text is the one that raises it."""
    code, printed = run(CODES, mounts={"/zips": bundle})
    assert code == 0, printed
    counts, others, ours, place = printed.splitlines()
    assert counts == "True [] [] 0"
    assert others == "True None"
    assert ours == (Leaf.__doc__ or "").split("\n")[0] != "", "job/shape.py shows it"
    name, line, function = place.split()
    text = (build.PACKAGE.parent / name).read_text(encoding="utf-8").split("\n")
    assert text[int(line) - 1].strip().startswith("raise LengthError(")
    assert name == "undertile/length_text.py"
    assert f"def {function}(" in "\n".join(text[: int(line)])


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
