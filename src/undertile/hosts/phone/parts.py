"""What the bundle is made of besides our own code: exact versions, and the hash each file must have.

Nothing of this is in the repository. ``collect`` fetches it from the registries of its makers when a
bundle is built, and refuses a file with another hash.
"""

from __future__ import annotations

from dataclasses import dataclass

PYODIDE = "314.0.7"
"""Of the npm package ``pyodide``: CPython 3.14.2 for WebAssembly."""
PYODIDE_SHA512 = "0YvXxEhfEdpLfb/XkM2BFAeMROq0iMUX2bzzH9pOttyMcWkwq+HbE5uyuGD82LN7y2q+SNvi/6V5JEsOlD2R1A=="
PYODIDE_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm")
STDLIB = "python_stdlib.zip"

PYTHON = "3.14"
ABI = "cp314"
PLATFORM = "pyemscripten_2026_0_wasm32"


@dataclass(frozen=True)
class Wheel:
    """One package of the Python package index.

    Attributes
    ----------
    name, version : str
    sha256 : str
        Of the wheel.
    platform, python : str
        Which wheel; ``PLATFORM`` takes pure ones too.
    without : tuple of str
        Beginnings of the names inside that the phone never imports.
    """

    name: str
    version: str
    sha256: str
    platform: str = PLATFORM
    python: str = PYTHON
    without: tuple[str, ...] = ()


_STARLETTE = "authentication config endpoints schemas staticfiles templating testclient"
_MIDDLEWARE = "authentication base cors gzip httpsredirect opentelemetry sessions trustedhost wsgi"

WHEELS = (
    Wheel(
        "annotated-types",
        "0.8.0",
        "f072f4d804ea359e4eaf198b1af7a8b0943881a87f31bb764f8bf219bb9419e0",
        without=("annotated_types/test_cases.py",),
    ),
    Wheel(
        "anyio",
        "4.16.0",
        "c66ae634e0b8228396b801741beb3294326d4b6102f7bba4041c0dfb58c29026",
        without=("anyio/_backends/_trio.py", "anyio/pytest_plugin.py", "anyio/streams/file.py"),
    ),
    Wheel(
        "jinja2",
        "3.1.6",
        "85ece4451f492d0c13c5dd7c13a64681a86afae63a5f347908daf103ce6d2f67",
        without=("jinja2/ext.py", "jinja2/meta.py", "jinja2/nativetypes.py", "jinja2/sandbox.py"),
    ),
    Wheel(
        "markupsafe",
        "3.0.4",
        "6da83a088f8ef93b2d483a8232a4dbf4d69d3d8496b568a03c56becac43e1808",
        # The index has no wheel of it for WebAssembly. Any wheel carries the same Python text, which does
        # without its compiled part; that part is left out.
        platform="manylinux2014_x86_64",
        python="3.11",
        without=("markupsafe/_speedups",),
    ),
    Wheel(
        "pydantic",
        "2.14.4",
        "653a2ad9f6d8858529c77c72717d0ea991d6c6837fe683246b2f4b2bbfc3fadc",
        without=("pydantic/v1/", "pydantic/mypy.py", "pydantic/experimental/"),
    ),
    Wheel("pydantic_core", "2.50.5", "b2910ec0fa5aeb9bef70156f2b79f4783978fdcfaa7b2f1b5d1814458d2e79a1"),
    Wheel(
        "starlette",
        "1.10.0",
        "478c0ab3b4ced6e82719849c118fa406f0278a3499c1a898cd15cd31bdc38ce4",
        without=(
            *(f"starlette/{name}.py" for name in _STARLETTE.split()),
            *(f"starlette/middleware/{name}.py" for name in _MIDDLEWARE.split()),
        ),
    ),
    Wheel("typing_extensions", "4.16.0", "481caa481374e813c1b176ada14e97f1f67a4539ce9cfeb3f350d78d6370c2e8"),
    Wheel("typing-inspection", "0.4.5", "bc210535442b39e1bf2805e0c7a17dfd6a4ace760c84c7f7d16245d23a6b1c39"),
)
"""``pydantic`` names the one ``pydantic_core`` it works with; a test compares these with constraints.txt."""

FOR_TESTS = Wheel(
    "hypothesis", "6.170.17", "dc3512b8619b627c7feffac5937abe985fc49745c85335c1753e7d0738add85b"
)
"""Not in the bundle: the one package of the everyday tests that needs a build for WebAssembly."""

_ALONE = (
    "_markupbase _pydatetime _pyio antigravity argparse bdb cProfile cmd code compileall configparser "
    "doctest fileinput filecmp ftplib getpass graphlib imaplib mailbox modulefinder netrc nturl2path "
    "optparse pdb pickletools plistlib poplib profile pstats pty pyclbr pydoc sched shelve smtplib "
    "socketserver symtable tabnanny tarfile this timeit trace tty wave webbrowser zipapp"
)
_FOLDERS = (
    "_pyrepl ctypes/macholib email/mime ensurepip idlelib lib2to3 multiprocessing pydoc_data turtledemo "
    "unittest venv wsgiref xml xmlrpc"
)
_INSIDE = (
    "asyncio/__main__ asyncio/proactor_events asyncio/tools asyncio/windows_events asyncio/windows_utils "
    "concurrent/futures/process ctypes/_aix ctypes/util ctypes/wintypes html/parser "
    "http/server importlib/metadata/diagnose json/__main__ json/tool logging/config logging/handlers "
    "sqlite3/__main__ sysconfig/__main__ urllib/robotparser zipfile/__main__"
)
_CODECS = (
    "cp037 cp273 cp424 cp500 cp7 cp855 cp856 cp857 cp858 cp86 cp869 cp874 cp875 cp1006 cp1026 cp1125 cp1140 "
    "hp_roman8 koi8 kz1048 mac_ palmos ptcp154 tis_620"
)
_FROZEN = (
    "__hello__ _collections_abc _sitebuiltins abc codecs genericpath importlib/_bootstrap "
    "importlib/_bootstrap_external importlib/machinery importlib/util io ntpath os posixpath runpy site stat "
    "zipimport"
)
FROZEN = ("__phello__/", *(f"{name}.py" for name in _FROZEN.split()))
"""What of the standard library is part of the interpreter itself, and looked for nowhere else."""
NOT_NEEDED = (
    *(f"{name}.py" for name in (_ALONE + " " + _INSIDE).split()),
    *(f"{name}/" for name in _FOLDERS.split()),
    *(f"encodings/{name}" for name in _CODECS.split()),
)
"""What of the standard library nothing imports that is on the phone; a test looks at every import."""
