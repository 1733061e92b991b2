"""Compile packed Python text ahead. Runs inside Pyodide, on a folder mounted at ``/mnt/pack``.

``NAME.in.zip`` -> ``NAME.zip``: each ``x.py`` becomes ``x.pyc`` beside where it was, everything else goes
over as it is. Unchecked: what is served is what was compiled, so no date is compared at start.
"""

import importlib.util
import marshal
import os
import sys
import zipfile

_DATE = (1980, 1, 1, 0, 0, 0)
_KEEP_TEXT = "anyio/"
"""anyio reads its own text for lazy imports: its ``__init__`` files stay, compiled beside in the cache."""


def _pyc(text: bytes, name: str) -> bytes:
    code = compile(text, name, "exec", dont_inherit=True, optimize=0)
    head = importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little")  # hash-based, unchecked
    return head + importlib.util.source_hash(text) + marshal.dumps(code)


def _compiled(source: str, target: str) -> None:
    with zipfile.ZipFile(source) as packed, zipfile.ZipFile(target + ".part", "w") as out:

        def put(name: str, content: bytes) -> None:
            info = zipfile.ZipInfo(name, _DATE)
            info.external_attr = 0o644 << 16
            out.writestr(info, content)  # stored: it is compressed on the wire, and read faster

        for name in sorted(packed.namelist()):
            content = packed.read(name)
            if not name.endswith(".py"):
                put(name, content)
            elif name.startswith(_KEEP_TEXT) and name.endswith("__init__.py"):
                put(name, content)
                folder, _, leaf = name.rpartition("/")
                put(
                    f"{folder}/__pycache__/{leaf[:-3]}.{sys.implementation.cache_tag}.pyc",
                    _pyc(content, name),
                )
            else:
                put(name + "c", _pyc(content, name))
    os.replace(target + ".part", target)


for _name in sorted(os.listdir("/mnt/pack")):
    if _name.endswith(".in.zip"):
        _compiled(f"/mnt/pack/{_name}", f"/mnt/pack/{_name.removesuffix('.in.zip')}.zip")
