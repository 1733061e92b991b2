"""What holds of the project as a whole: who may import whom, what the docs name, what no file holds."""

from __future__ import annotations

import ast
import importlib
import inspect
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import undertile
from undertile.sources import SOURCES

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "src" / "undertile"
MODULES = sorted(PACKAGE.rglob("*.py"))
UPWARD = (
    "survey wood safety framing pan cutting floor recheck job drawing packet store screens hosts bench cli"
)
FLOORS = {name: floor for floor, name in enumerate(UPWARD.split(), 1)}
"""Design, "Arrows point one way"; what is in none of these rooms is ground floor, 0."""
CARRIED = {"pydantic", "pydantic_core", "starlette", "jinja2"}
"""What the phone carries besides the standard library."""
FONTS = {"font-source-sans-pro"}
"""Packages that are only files: nothing imports them."""
ONLY_IN = {"typer": "cli", "rich": "cli", "typst": "packet", "ezdxf": "drawing"} | dict.fromkeys(
    ("numpy", "highspy", "ortools", "matplotlib", "playwright", "brotli", "websockets", "gi"), "bench"
)
ONLY_IN |= dict.fromkeys(("uvicorn", "cryptography", "segno", "zeroconf", "ifaddr", "PIL"), "hosts")
OTHER_NAMES = {"PIL": "pillow", "fontTools": "fonttools", "Pynite": "PyNiteFEA"}
"""Modules that are called otherwise than their package."""
IMPURE = {"datetime", "io", "os", "pathlib", "shutil", "socket", "sqlite3", "subprocess", "sys"}
"""Standard modules of files, clocks and the outside: not for a stage."""


def room(path: Path) -> str:
    """The room a module is in; "" for the ground floor."""
    parts = path.relative_to(PACKAGE).parts
    return parts[0] if len(parts) > 1 else {"__main__.py": "cli"}.get(parts[0], "")


@cache
def tree(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"), feature_version=(3, 11))


@cache
def imports(path: Path) -> tuple[str, ...]:
    """Every module a file imports, also inside functions; those for type checking only are left out."""
    return tuple(_imports(path))


def _imports(path: Path) -> Iterator[str]:
    for node in _running(tree(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: imports by full name only"
            assert node.module is not None
            if node.module == "undertile":
                yield from (f"undertile.{alias.name}" for alias in node.names)
            else:
                yield node.module


def _running(node: ast.AST) -> Iterator[ast.AST]:
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.If) and "TYPE_CHECKING" in ast.dump(child.test):
            continue
        yield child
        yield from _running(child)


def name_of(path: Path) -> str:
    return ".".join(("undertile", *path.relative_to(PACKAGE).with_suffix("").parts)).removesuffix(".__init__")


ids = [str(path.relative_to(PACKAGE)) for path in MODULES]


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_arrows_point_one_way(path: Path) -> None:
    own = FLOORS.get(room(path), 0)
    for name in imports(path):
        parts = name.split(".")
        if parts[0] != "undertile" or len(parts) < 2:
            continue
        assert FLOORS.get(parts[1], 0) <= own, f"{ids[MODULES.index(path)]} imports {name}, which is above it"


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_a_room_uses_only_what_it_may(path: Path) -> None:
    for name in imports(path):
        top = name.split(".")[0]
        if top == "undertile" or top in sys.stdlib_module_names:
            if room(path) in ("survey", "safety", "wood", "framing", "pan", "cutting", "floor", "recheck"):
                assert top not in IMPURE, f"a stage is pure and may not import {name}"
            continue
        assert top in CARRIED or ONLY_IN.get(top) == room(path), f"{name} may not be imported here"


def test_packages_the_rooms_use_are_declared() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = [*project["dependencies"], *project["optional-dependencies"]["paper"]]
    declared += project["optional-dependencies"]["lan"]
    names = {re.split(r"[<>=~! ]", each)[0] for each in declared} - FONTS
    used = {
        OTHER_NAMES.get(name.split(".")[0], name.split(".")[0])
        for path in MODULES
        if room(path) != "bench"
        for name in imports(path)
    }
    outside = used - set(sys.stdlib_module_names) - {"undertile", "pydantic_core"}
    assert names == outside


def test_packages_the_tests_use_are_declared() -> None:
    """What is on one machine by chance is not on the next."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = {re.split(r"[<>=~! ]", each)[0].replace("-", "_") for each in declared}
    files = [*(ROOT / "tests").rglob("*.py"), *(path for path in MODULES if room(path) == "bench")]
    used = {OTHER_NAMES.get(top, top) for path in files for top in (n.split(".")[0] for n in imports(path))}
    own = {"undertile", "tests", "environment", *sys.stdlib_module_names}
    own |= {"gi"}  # the system's, for its Python (bench/engines/window.py)
    assert used - own <= names


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_modules_are_of_a_size_to_read(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    if "words" in path.parts or path.name == "labels.py":
        return  # a table of words in two languages is one topic, however long
    assert lines <= 450, f"{lines} lines: what is the second topic?"


def test_every_file_of_tests_holds_one() -> None:
    """An empty one runs nothing, and nothing would say so."""
    files = list((ROOT / "tests").rglob("test_*.py"))
    assert len(files) > 100
    holds = re.compile(r"^(?:def test_|class Test|Test\w+ = )", re.M)
    assert [path.name for path in files if not holds.search(path.read_text(encoding="utf-8"))] == []


def functions(path: Path) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Public functions and methods of public classes."""
    for node in tree(path).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node.name, node
        elif isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            for inner in node.body:
                if isinstance(inner, ast.FunctionDef) and not inner.name.startswith("_"):
                    yield f"{node.name}.{inner.name}", inner


def section(doc: str, head: str) -> list[str]:
    """Names of a numpydoc section's entries."""
    found = re.search(rf"(?m)^{head}\n-+\n((?:.|\n)*?)(?=\n\n?[A-Z][a-z]+\n-{{3,}}|\Z)", doc)
    if not found:
        return []
    rows = [line for line in found[1].split("\n") if line and not line.startswith(" ")]
    return [name.strip(" *") for row in rows for name in row.split(" : ")[0].split(",")]


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_docstrings_name_the_parameters_there_are(path: Path) -> None:
    for name, node in functions(path):
        doc = inspect.cleandoc(ast.get_docstring(node) or "")
        told = section(doc, "Parameters")
        if not told:
            continue
        args = node.args
        real = [each.arg for each in (*args.posonlyargs, *args.args, *args.kwonlyargs)]
        real += [each.arg for each in (args.vararg, args.kwarg) if each]
        real = [each for each in real if each not in ("self", "cls")]
        assert told == real, f"{name} documents {told}, takes {real}"


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_modules_and_public_classes_say_what_they_are(path: Path) -> None:
    body = tree(path)
    assert ast.get_docstring(body)
    for node in body.body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            assert ast.get_docstring(node), node.name


@pytest.mark.parametrize("path", MODULES, ids=ids)
def test_exported_names_exist_and_stand_once(path: Path) -> None:
    head = path.read_text(encoding="utf-8")[:400]
    if path.name == "__main__.py" or "Runs inside Pyodide" in head or "Run by the system's Python" in head:
        return
    names = getattr(importlib.import_module(name_of(path)), "__all__", None)
    if names is None:
        return
    module = importlib.import_module(name_of(path))
    assert len(set(names)) == len(names)
    assert all(hasattr(module, each) for each in names)


# Docs ---------------------------------------------------------------------------------------------------


def doc(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


CHECK_DOCS = """
import runpy, sys
from tests.once import searched_once
sys.argv = ["scripts/docs.py", "--check"]
with searched_once():
    runpy.run_path(sys.argv[0], run_name="__main__")
"""
"""The command of docs/, many of whose sessions plan the same room."""


def test_made_pages_and_sessions_are_current() -> None:
    done = subprocess.run([sys.executable, "-c", CHECK_DOCS], capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stdout + done.stderr


NO_CODES = {"job-file.md", "utf-8", "utf-8-sig", "re-set", "hem-fir", "spruce-pine-fir"}
"""Words that look like a code and are none."""


def codes() -> Iterator[tuple[str, str]]:
    """Codes of findings and checks as the source writes them, with the module; a made-up end is cut off."""
    for path in MODULES:
        if room(path) in ("packet", "bench", "cli", "screens", "hosts", "drawing", "store"):
            continue
        for node in ast.walk(tree(path)):
            values: list[ast.expr] = []
            if isinstance(node, ast.Call):
                values = [*node.args, *(each.value for each in node.keywords)]
            elif isinstance(node, ast.AnnAssign | ast.Assign) and node.value is not None:
                values = [node.value]
            for text in map(_head, values):
                known = text in SOURCES or text in NO_CODES
                if re.fullmatch(r"[a-z]+(-[a-z0-9.]+)+|[a-z]+(-[a-z]+)*-", text) and not known:
                    yield text.rstrip("-"), ids[MODULES.index(path)]


def _head(node: ast.expr) -> str:
    """A constant text, or the constant beginning of an f-string when it ends in a dash."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return "" if node.value.endswith("-") else node.value
    if isinstance(node, ast.JoinedStr) and node.values and isinstance(node.values[0], ast.Constant):
        head = str(node.values[0].value)
        return head if head.endswith("-") else ""
    return ""


def test_every_finding_is_in_the_docs() -> None:
    page = doc("docs/findings.md")
    missing = sorted({f"{code} ({where})" for code, where in codes() if f"`{code}" not in page})
    assert not missing


def test_every_source_that_is_cited_is_kept_and_in_the_docs() -> None:
    page = doc("docs/sources.md")
    assert all(f"`{key}`" in page for key in SOURCES)


def test_every_command_is_in_the_docs_with_an_example() -> None:
    from undertile.cli.app import app

    page = doc("docs/command-line.md")
    names = [each.name or each.callback.__name__ for each in app.registered_commands if each.callback]
    assert names
    for name in names:
        start = page.index(f"### undertile {name}\n")
        assert "Example" in page[start : start + 3000], name


def test_every_setting_of_the_environment_is_in_the_docs() -> None:
    page = doc("docs/command-line.md")
    named = {
        found
        for path in MODULES
        if room(path) != "bench"  # what a check sets for the program it starts is no setting of ours
        for found in re.findall(r"environ(?:\.get\(|\[)\"([A-Z_]+)\"", path.read_text(encoding="utf-8"))
    }
    assert {each for each in named if each not in page} == set()


# README, CI, version ------------------------------------------------------------------------------------


def command_under(heading: str) -> str:
    """The one line alone in the code block under a heading of the README."""
    found = re.search(rf"(?m)^## {heading}\n(?:.|\n)*?```sh\n((?:.|\n)*?)```", doc("README.md"))
    assert found, heading
    lines = found[1].strip().split("\n")
    assert len(lines) == 1, f"one command alone, found {lines}"
    return lines[0]


def test_the_readme_has_one_command_to_run_and_one_to_test() -> None:
    for heading in ("Run it", "Test it"):
        command = command_under(heading)
        assert (ROOT / command.split()[1]).is_file()


def test_the_readme_s_python_prints_what_it_says() -> None:
    found = re.search(r"```python\n((?:.|\n)*?)```\n\n```text\n((?:.|\n)*?)```", doc("README.md"))
    assert found
    done = subprocess.run([sys.executable, "-c", found[1]], capture_output=True, text=True, cwd=ROOT)
    assert done.stdout == found[2], done.stderr


def test_ci_calls_the_readme_s_test_command() -> None:
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    lines = [line for line in script.split("\n") if line and not line.startswith(("#", "set ", "cd "))]
    assert lines == [command_under("Test it")]


def test_one_version_everywhere() -> None:
    project = tomllib.loads(doc("pyproject.toml"))["project"]
    assert project["version"] == undertile.__version__
    newest = re.search(r"(?m)^## (\S+)", doc("CHANGELOG.md"))
    assert newest
    assert newest[1] in (undertile.__version__, "Unreleased")


def test_the_oldest_python_is_the_same_everywhere() -> None:
    project = tomllib.loads(doc("pyproject.toml"))
    assert project["project"]["requires-python"] == ">=3.11"
    assert "OLDEST = (3, 11)" in doc("scripts/environment.py")
    assert "Python 3.11" in doc("README.md")
    assert project["tool"]["mypy"]["python_version"] == "3.11"


def test_tools_the_project_installs_are_held_to_a_version() -> None:
    project = tomllib.loads(doc("pyproject.toml"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    held = {
        line.split("==")[0].lower().replace("_", "-")
        for line in doc("constraints.txt").split("\n")
        if "==" in line
    }
    assert {re.split(r"[<>=~! ]", each)[0].lower() for each in wanted} <= held


# What no file may hold ----------------------------------------------------------------------------------


def texts() -> Iterator[tuple[Path, str]]:
    for path in sorted(ROOT.rglob("*")):
        parts = path.relative_to(ROOT).parts
        hidden = any(part.startswith(".") and part != ".ci" for part in parts[:-1])
        made = any(part in ("__pycache__", "build", "dist", "out", "venv") for part in parts)
        if path.is_file() and not hidden and not made and not parts[0].endswith(".egg-info"):
            try:
                yield path, path.read_text(encoding="utf-8")
            except UnicodeDecodeError:
                continue


def test_no_file_names_a_place_on_somebody_s_machine() -> None:
    place = re.compile(r"(?<![\w./<])/(?:home|root|tmp|work|Users|opt|mnt)/\w|[A-Z]:\\\\?Users")
    # folders of the phone's own Python, on no machine
    inside = re.compile(r"/mnt/(?:pack|repo|root|s\w*)\b|/home/pyodide\b")
    found = [
        f"{path.relative_to(ROOT)}: {hit[0]}"
        for path, text in texts()
        if (hit := place.search(inside.sub("", text)))
    ]
    assert not [each for each in found if not each.startswith("tests/test_project.py")]


def test_no_test_is_passed_over_and_nothing_is_left_for_later() -> None:
    later = re.compile(r"#.*\b(?:" + "TO" + "DO|FIX" + r"ME)\b|mark\.(?:skip|xfail)|pytest\.(?:skip|xfail)\(")
    found = [
        f"{path.relative_to(ROOT)}: {hit[0]}"
        for path, text in texts()
        if path.suffix in (".py", ".md", ".toml") and (hit := later.search(text))
    ]
    assert not [each for each in found if not each.startswith("tests/test_project.py")]


# Start-up -----------------------------------------------------------------------------------------------


def loaded_after(words: str) -> set[str]:
    """Modules loaded once a command has run in a fresh interpreter."""
    code = (
        "import sys; from undertile.cli import main; "
        f"main({words!r}.split()); print('|'.join(sorted(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    return set(done.stdout.strip().split("\n")[-1].split("|"))


def test_help_starts_without_loading_the_stages() -> None:
    heavy = {"undertile.survey", "undertile.framing", "undertile.job", "rich", "numpy", "highspy", "ortools"}
    assert not loaded_after("--version") & heavy


def test_a_plan_needs_no_package_that_only_the_tests_have() -> None:
    assert not loaded_after("plan examples/hand.toml") & {
        "numpy",
        "highspy",
        "ortools",
        "hypothesis",
        "pytest",
    }
