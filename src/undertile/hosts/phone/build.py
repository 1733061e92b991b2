"""Build the phone's bundle: static files for any HTTPS host, with everything compiled ahead.

    index.html, sw.js, shell/, static/     the page, its styles and its script in it, and its worker
    py/                                    Pyodide, its standard library, the packages, our own code
    bundle.json                            every file with the hash of its content; ``alone`` where no
                                           laptop answers

The same source and pins give the same bytes.
"""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
import shutil
import subprocess
import tempfile
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import undertile
from undertile.bundled import bundled_jobs
from undertile.errors import InputError
from undertile.hosts.phone.collect import Say, cache_folder, collect_pyodide, collect_wheels, find_tool
from undertile.hosts.phone.icon import png
from undertile.hosts.phone.join import joined, joined_in_two
from undertile.hosts.phone.parts import FROZEN, NOT_NEEDED, PYODIDE, PYODIDE_FILES, STDLIB
from undertile.job.entry import ENTRY_VERSION

PACKAGE = Path(undertile.__file__).parent
SHELL = Path(__file__).parent / "shell"
STAYS_HERE = ("cli/", "bench/", "hosts/server/", "__main__.py")
"""Rooms that no phone runs."""
OF_THE_PHONE = (
    "hosts/__init__.py",
    "hosts/bridge.py",
    "hosts/phone/__init__.py",
    "hosts/phone/ahead.py",
    "hosts/phone/inside.py",
)
STATIC = "screens/static/"
LIST, ALONE = "bundle.json", "alone"
PRINTED = "static/print.css"
"""For paper alone."""
ICON_SIZES = (192, 512)
PAGE, REST, WORKER = "shell/page.js", "shell/rest.js", "shell/worker.js"
"""Each with all that it imports; the first stands in the page itself, the second has what it needs later."""
_PLACE = f'new URL("{PAGE}", document.baseURI).href'
"""Where a script that stands in the page would lie."""
CORE = "pydantic_core/_pydantic_core.cpython-314-wasm32-emscripten.so"
"""What of the packages is no Python: a file of its own, which the browser compiles while it comes."""

_DATE = (1980, 1, 1, 0, 0, 0)
_SCRIPT = '<script type="module" blocking="render">'
"""Nothing is drawn before it has put the last screen in place: a frame without would be drawn for nothing."""
_ENDS = re.compile(r"</(?:script|style)|<!--", re.IGNORECASE)


def build_bundle(
    target: Path, say: Say = lambda text: None, *, alone: bool = False
) -> Mapping[str, tuple[str, int]]:
    """Write the bundle into a folder.

    Parameters
    ----------
    target : Path
        Made new, or a bundle from before: that one is replaced whole.
    say : callable
        Told in a line what takes time.
    alone : bool
        For a host of files alone: the list says so, and no phone asks there for a laptop. All else is the
        same.

    Returns
    -------
    mapping of str to (str, int)
        Each file with its SHA-256 and its size in bytes.

    Raises
    ------
    InputError
        If a part cannot be had, or the target is a folder of something else.
    """
    if target.exists() and any(target.iterdir()) and not (target / "bundle.json").is_file():
        raise InputError(
            f"{target}: expected a new folder or a bundle from before, found other files; "
            "choose another folder"
        )
    files = dict(bundle_files(say))
    if alone:
        files[LIST] = json.dumps({ALONE: True, **json.loads(files[LIST])}, indent=1).encode()
    target.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="part-", dir=target.parent) as beside:
        part = Path(beside) / "bundle"
        for name, content in files.items():
            path = part / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        _swap(part, target, Path(beside) / "before")
    return {name: (_hash(content), len(content)) for name, content in files.items()}


def _swap(part: Path, target: Path, before: Path) -> None:
    """Put a finished bundle in its place; where somebody else has just put the same one, that one stays."""
    listed = LIST
    if (target / listed).is_file():
        same = (target / listed).read_bytes() == (part / listed).read_bytes()
        if same and not check_bundle(target):
            return
    if target.exists():
        target.replace(before)
    part.replace(target)


def bundle_files(say: Say) -> Iterator[tuple[str, bytes]]:
    """Every file of the bundle, the service worker and the list of hashes last."""
    files: dict[str, bytes] = dict(python_files(say))
    files |= _shell()
    worker = files.pop("sw.js").decode()
    files |= _marked(files)
    listed = {name: [_hash(content), len(content)] for name, content in sorted(files.items())}
    # with the worker's text: two workers of one version would fill one cache, and throw it away if that fails
    version = _hash(json.dumps(listed).encode() + worker.encode())[:16]
    manifest = json.dumps({"version": version, "files": listed}, indent=1)
    yield from files.items()
    yield "sw.js", f"const BUNDLE = {manifest};\n{worker}".encode()
    yield "bundle.json", manifest.encode()


def _marked(files: Mapping[str, bytes]) -> Iterator[tuple[str, bytes]]:
    """The worker, told which code the memory is of that it may find kept (shell/heap.js)."""
    its = [name for name in sorted(files) if name.startswith("py/") or name == WORKER]
    mark = _hash("".join(_hash(files[name]) for name in its).encode())[:16].encode()
    yield WORKER, files[WORKER].replace(b"of no bundle", mark)


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def python_files(say: Say) -> Iterator[tuple[str, bytes]]:
    pyodide = collect_pyodide(say)
    for name in PYODIDE_FILES:
        yield f"py/{name}", (pyodide / name).read_bytes()
    info = json.loads((pyodide / "pyodide-lock.json").read_text(encoding="utf-8"))["info"]
    yield "py/pyodide-lock.json", json.dumps({"info": info, "packages": {}}).encode()
    packed = {
        "stdlib": _packed(_members(pyodide / STDLIB, (*NOT_NEEDED, *FROZEN))),
        "packages": _packed(
            member for wheel, path in collect_wheels(say).items() for member in _members(path, wheel.without)
        ),
        "undertile": _packed(_own()),
    }
    zips = compiled(packed, say)
    zips["undertile"] = with_templates(zips, say)
    zips["packages"], core = _without(zips["packages"], CORE)
    yield "py/core.wasm", core
    yield from ((f"py/{name}.zip", content) for name, content in zips.items())


def _members(path: Path, without: tuple[str, ...]) -> Iterator[tuple[str, bytes]]:
    with zipfile.ZipFile(path) as wheel:
        for name in wheel.namelist():
            typed = name.endswith((".pyi", "py.typed")) or "/tests/" in name or ".dist-info/" in name
            if name.endswith(".dist-info/METADATA"):  # pydantic asks for its own version there
                yield name, wheel.read(name).partition(b"\n\n")[0] + b"\n"
            elif not (name.endswith("/") or typed or name.startswith(without or ("\0",))):
                yield name, wheel.read(name)


def _without(packed: bytes, name: str) -> tuple[bytes, bytes]:
    """A zip without one of its files, and that file."""
    with zipfile.ZipFile(io.BytesIO(packed)) as archive:
        left = ((each, archive.read(each)) for each in archive.namelist() if each != name)
        return _packed(left), archive.read(name)


def _own() -> Iterator[tuple[str, bytes]]:
    for path in sorted(PACKAGE.rglob("*")):
        name = path.relative_to(PACKAGE).as_posix()
        if path.is_dir() or "__pycache__" in name or name.startswith((*STAYS_HERE, STATIC, "examples/")):
            continue
        if not name.startswith("hosts/") or name in OF_THE_PHONE:
            yield f"undertile/{name}", path.read_bytes()
    for name, content in bundled_jobs().items():  # from the package or from beside it
        yield f"undertile/examples/{name}.toml", content


def _static() -> Iterator[tuple[str, bytes]]:
    for path in sorted((PACKAGE / STATIC).rglob("*")):
        if path.is_file():
            yield f"static/{path.relative_to(PACKAGE / STATIC).as_posix()}", path.read_bytes()


def _shell() -> Iterator[tuple[str, bytes]]:
    """The page with its styles and its script in it: at a start each file more is asked for by itself."""
    static = dict(_static())
    modules = {name: content for name, content in static.items() if name.endswith(".js")}
    modules |= {f"shell/{path.name}": path.read_bytes() for path in SHELL.glob("*.js")}
    styles = {name: content for name, content in static.items() if name.endswith(".css")}
    styles |= {f"shell/{path.name}": path.read_bytes() for path in SHELL.glob("*.css")}
    script, rest = joined_in_two(PAGE, REST, lambda each: modules[each].decode())
    second = f"rest-{_hash((script + rest).encode())[:16]}.js"  # one that goes with another page is not found
    script = script.replace('"rest.js"', f'"{second}"').replace("import.meta.url", _PLACE)
    own = _InPage(
        script,
        "".join(text.decode() for name, text in styles.items() if name != PRINTED),
        styles[PRINTED].decode(),
    )
    yield f"shell/{second}", rest.encode()
    yield WORKER, joined(WORKER, lambda each: modules[each].decode()).encode()
    yield from ((name, content) for name, content in static.items() if name not in {**modules, **styles})
    for path in sorted(SHELL.iterdir()):
        if path.name == "index.html":
            yield "index.html", own.page(path.read_text(encoding="utf-8")).encode()
        elif path.name == "sw.js":
            yield "sw.js", own.named(path.read_text(encoding="utf-8")).encode()
        elif path.suffix not in (".js", ".css"):
            yield f"shell/{path.name}", path.read_bytes()
    for size in ICON_SIZES:
        yield f"shell/icon-{size}.png", png(size)


@dataclass(frozen=True)
class _InPage:
    """What stands in the page itself; its policy names it by its hash, so that nothing else runs."""

    script: str
    styles: str
    paper: str

    def page(self, text: str) -> str:
        """The page's text with it.

        Raises
        ------
        InputError
            If a part would end its element.
        """
        for part in (self.script, self.styles, self.paper):
            if found := _ENDS.search(part):
                raise InputError(f"expected text that may stand in a page, found {found[0]}")
        text = text.replace("    <!-- styles -->", f"    <style>{self.styles}</style>")
        text = text.replace("    <!-- script -->", f"    {_SCRIPT}{self.script}</script>")
        paper = f'    <template id="paper"><style media="print">{self.paper}</style></template>'
        text = text.replace("    <!-- paper -->", paper)
        return self.named(text.replace('data-entry-version="0"', f'data-entry-version="{ENTRY_VERSION}"'))

    def named(self, text: str) -> str:
        """A policy with the hashes."""
        text = text.replace("'own script'", _source(self.script))
        return text.replace("'own styles'", f"{_source(self.styles)} {_source(self.paper)}")


def _source(text: str) -> str:
    """A text as a policy names it (Content Security Policy Level 3, 2.3.1)."""
    return f"'sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}'"


def _packed(members: Iterator[tuple[str, bytes]]) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, content in sorted(members):
            archive.writestr(zipfile.ZipInfo(name, _DATE), content)
    return out.getvalue()


def compiled(packed: Mapping[str, bytes], say: Say) -> dict[str, bytes]:
    """Zips of Python text as zips of compiled code, by name; what was compiled before comes from the cache.

    Parameters
    ----------
    packed : mapping of str to bytes
        Zips by name.
    say : callable
    """
    script = Path(__file__).with_name("compile.py")
    kept = cache_folder() / "compiled"
    kept.mkdir(parents=True, exist_ok=True)
    told = script.read_bytes() + script.with_suffix(".mjs").read_bytes() + PYODIDE.encode()
    place = {name: kept / f"{name}-{_hash(told + content)[:24]}.zip" for name, content in packed.items()}
    lacking = [name for name in packed if not place[name].is_file()]
    if lacking:
        say(f"Compiling {', '.join(lacking)} for the phone ...")
        work = Path(tempfile.mkdtemp(prefix="work-", dir=kept))  # its own: two may build at the same time
        for name in lacking:
            (work / f"{name}.in.zip").write_bytes(packed[name])
        run_in_node(script, work)
        for name in lacking:
            _forget(kept, name)
            (work / f"{name}.zip").replace(place[name])
        shutil.rmtree(work)
    return {name: place[name].read_bytes() for name in packed}


def with_templates(zips: Mapping[str, bytes], say: Say) -> bytes:
    """Our own zip with the screens' templates compiled too, by the Jinja2 and Python that will use them."""
    kept = cache_folder() / "compiled"
    script = Path(__file__).with_name("templates.py")
    told = script.read_bytes() + script.with_name("compile.mjs").read_bytes()
    mark = _hash(told + b"".join(_hash(each).encode() for each in zips.values()))[:24]
    place = kept / f"whole-{mark}.zip"
    if not place.is_file():
        say("Compiling the screens' templates for the phone ...")
        work = Path(tempfile.mkdtemp(prefix="work-", dir=kept))
        for name, content in zips.items():
            (work / f"{name}.zip").write_bytes(content)
        run_in_node(script, work)
        _forget(kept, "whole")
        (work / "whole.zip").replace(place)
        shutil.rmtree(work)
    return place.read_bytes()


def _forget(kept: Path, name: str) -> None:
    """Keep the last few zips of a name."""
    for old in sorted(kept.glob(f"{name}-*.zip"), key=lambda path: path.stat().st_mtime)[:-3]:
        old.unlink()


def run_in_node(script: Path, work: Path) -> None:
    """Run a Python script inside Pyodide under Node, with a folder mounted at ``/mnt/pack``.

    Raises
    ------
    InputError
        If it fails, with the last line it wrote.
    """
    starter = Path(__file__).with_name("compile.mjs")
    command = [
        find_tool("node"),
        str(starter),
        str(collect_pyodide(lambda text: None)),
        str(work),
        str(script),
    ]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode:
        said = (done.stderr.strip() or done.stdout.strip()).split("\n")
        raise InputError(
            f"expected Node.js to compile the phone's code, found: {said[-1]}; "
            "Node.js 20 or later is needed; run the same command again"
        )


def source_mark() -> str:
    """A name for the bundle of exactly this source: the same files, the same mark."""
    digest = hashlib.sha256(PYODIDE.encode())
    for _, content in sorted([*_own(), *_shell()]):
        digest.update(_hash(content).encode())
    for name in ("build.py", "compile.mjs", "compile.py", "join.py", "parts.py", "templates.py"):
        digest.update((SHELL.parent / name).read_bytes())
    return digest.hexdigest()[:16]


def check_bundle(folder: Path) -> list[str]:
    """What in a folder differs from its own list of hashes; nothing when it is whole."""
    listed = json.loads((folder / "bundle.json").read_text(encoding="utf-8"))["files"]
    return [
        name
        for name, (digest, _) in listed.items()
        if not (folder / name).is_file() or _hash((folder / name).read_bytes()) != digest
    ]


__all__ = ["build_bundle", "bundle_files", "check_bundle", "compiled", "run_in_node", "source_mark"]
