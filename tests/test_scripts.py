"""The two commands of the README: they say what is missing, and make what they can."""

from __future__ import annotations

import importlib.util
import io
import re
import sys
from pathlib import Path
from types import ModuleType, SimpleNamespace

import pytest

from undertile.bench.engines.webkit import WebKit

ROOT = Path(__file__).resolve().parent.parent


def load(name: str) -> ModuleType:
    """A script as a module, without running it."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "scripts" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def environment(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    module = load("environment")
    monkeypatch.setattr(module, "find_newer", lambda: None)
    return module


def test_an_old_python_is_told_which_one_is_needed(
    environment: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(environment.sys, "version_info", (3, 9, 2))
    with pytest.raises(SystemExit) as stopped:
        environment.check_python()
    assert stopped.value.code == 2
    said = capsys.readouterr().err
    assert "Python 3.11 or later is needed; this is Python 3.9.2" in said
    assert {"Linux:", "macOS:", "Windows:"} <= set(said.split())


def test_a_python_without_venv_is_told_what_to_install(
    environment: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setitem(sys.modules, "ensurepip", None)
    with pytest.raises(SystemExit) as stopped:
        environment.check_python()
    assert stopped.value.code == 2
    assert f"python{sys.version_info[0]}.{sys.version_info[1]}-venv" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("output", "words"),
    [
        ("Failed to establish a new connection: [Errno -3] Temporary failure in name resolution", "network"),
        ("ERROR: No matching distribution found for ortools", "no ready-made build"),
        ("OSError: [Errno 28] No space left on device", "disk is full"),
        ("something else", "Delete the folder .venv"),
    ],
)
def test_a_failed_install_is_explained(environment: ModuleType, output: str, words: str) -> None:
    assert words in " ".join(environment.advice(output))


def test_a_newer_python_on_the_machine_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    module = load("environment")
    name = f"python3.{sys.version_info[1]}" + (".exe" if module.WINDOWS else "")
    (tmp_path / name).symlink_to(sys.executable)
    broken = tmp_path / "python3.19"
    broken.write_text("not a program", encoding="utf-8")
    monkeypatch.setenv("PATH", str(tmp_path))
    assert module.find_newer() == str(tmp_path / name)


@pytest.mark.parametrize("name", ["environment", "run", "test", "browser"])
def test_an_old_python_can_read_the_scripts_far_enough_to_say_so(name: str) -> None:
    """No form that Python before 3.6 cannot read: the oldest that people still have must not stop earlier."""
    text = (ROOT / "scripts" / f"{name}.py").read_text(encoding="utf-8")
    assert not re.search(
        r"\bf[\"']|\) ->|:=|^from __future__ import annotations|\[\*|, \*\w+[\]\)]", text, re.M
    )
    compile(text, name, "exec")


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch) -> tuple[ModuleType, list[list[str]], list[str]]:
    """The script that brings browsers, on a machine without any; what it calls and what it says."""
    monkeypatch.syspath_prepend(str(ROOT / "scripts"))
    browser = load("browser")
    calls: list[list[str]] = []
    said: list[str] = []

    def call(command: list[str], quiet: bool = False) -> tuple[int, str]:
        calls.append(command)
        return (100, "E: Unable to locate package") if "firefox-esr" in command else (0, "")

    monkeypatch.setattr(browser.environment, "call", call)
    monkeypatch.setattr(browser.environment, "say", said.append)
    monkeypatch.setattr(browser.shutil, "which", lambda name: "/bin/" + name if "get" in name else None)
    return browser, calls, said


def test_browsers_come_one_by_one_from_the_system_and_one_that_does_not_is_told(
    bare: tuple[ModuleType, list[list[str]], list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    browser, calls, said = bare
    monkeypatch.setattr(browser.os, "geteuid", lambda: 0, raising=False)
    browser.bring("/nowhere/python")
    brought = [" ".join(call[5:]) for call in calls if call[:2] == ["apt-get", "install"]]
    assert brought == ["chromium", "firefox-esr", " ".join(browser.WEBKIT)]
    assert WebKit.needs == browser.WEBKIT
    assert calls[0] == ["apt-get", "update", "-qq"]
    assert "E: Unable to locate package" in said


def test_nothing_is_installed_on_the_system_of_somebody_who_is_not_root(
    bare: tuple[ModuleType, list[list[str]], list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    browser, calls, _ = bare
    monkeypatch.setattr(browser.os, "geteuid", lambda: 1000, raising=False)
    browser.bring("/nowhere/python")
    assert not [call for call in calls if call[0] == "apt-get"]


def test_a_session_in_the_docs_must_tell_the_truth() -> None:
    docs = load("docs")
    real = "one\ntwo\nthree\nfour\n"
    assert docs.told("one\n...\nfour\n", real)
    assert docs.told("...\ntwo\nthree\n...\n", real)
    assert not docs.told("one\n...\nfive\n", real)
    assert not docs.told("two\n...\n", real)
    assert not docs.told("one\n...\nthree\n", real)
    assert not docs.told("...\nwo\n...\n", real)


def test_a_made_page_that_is_not_current_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    docs = load("docs")
    monkeypatch.setitem(docs.MAKERS, "sources", lambda: "new\n")
    text, wrong = docs.renewed("a\n<!-- made: sources -->\nold\n<!-- end -->\n")
    assert text == "a\n<!-- made: sources -->\nnew\n<!-- end -->\n"
    assert wrong == []


def test_progress_goes_to_stderr(environment: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    out, err = io.StringIO(), io.StringIO()
    monkeypatch.setattr(sys, "stdout", out)
    monkeypatch.setattr(sys, "stderr", err)
    environment.say("Installing")
    assert (out.getvalue(), err.getvalue()) == ("", "Installing\n")


@pytest.mark.parametrize(
    ("words", "long", "of_pytest"),
    [([], None, ["-n"]), (["--long"], "1", ["-n"]), (["--long", "-k", "x"], "1", ["-k"])],
)
def test_the_long_run_says_so_to_every_test(
    monkeypatch: pytest.MonkeyPatch, words: list[str], long: str | None, of_pytest: list[str]
) -> None:
    """independent: what a process started would see; the word itself is none of pytest's."""
    monkeypatch.syspath_prepend(str(ROOT / "scripts"))
    script = load("test")
    ran: list[tuple[list[str], dict[str, str]]] = []

    def run(command: list[str], cwd: str, env: dict[str, str]) -> SimpleNamespace:
        ran.append((command, env))
        return SimpleNamespace(returncode=0)

    monkeypatch.delenv("UNDERTILE_LONG", raising=False)
    monkeypatch.setenv("PYTHONDONTWRITEBYTECODE", "1")
    monkeypatch.setattr(script.environment, "make", lambda kind: "python")
    monkeypatch.setattr(script.browser, "bring", lambda python: None)
    monkeypatch.setattr(script.subprocess, "run", run)
    monkeypatch.setattr(script.sys, "argv", ["test.py", *words])
    assert script.main() == 0
    command, env = ran[-1]
    assert command[:4] == ["python", "-m", "pytest", *of_pytest]
    assert "--long" not in command
    assert env.get("UNDERTILE_LONG") == long
    assert "PYTHONDONTWRITEBYTECODE" not in env
