"""Compile packed Python text ahead. Runs inside Pyodide, on a folder mounted at ``/mnt/pack``.

``NAME.in.zip`` -> ``NAME.zip``: each ``x.py`` becomes ``x.pyc`` beside where it was, everything else goes
over as it is. Unchecked: what is served is what was compiled, so nothing is compared at start. No text that
only a reader of the code needs goes along.
"""

import ast
import importlib.util
import marshal
import os
import sys
import zipfile

_DATE = (1980, 1, 1, 0, 0, 0)
_KEEP_TEXT = "anyio/"
"""anyio reads its own text for lazy imports: its ``__init__`` files stay, compiled beside in the cache."""


_Documented = ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef
_HEAD = importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8)
"""Hash-based and unchecked: nobody looks at the hash, whose eight bytes no host can make smaller."""


def _pyc(text: bytes, name: str) -> bytes:
    tree = ast.parse(text, name)
    for each in ast.walk(tree):
        if isinstance(each, _Documented):
            _without_doc(each, ours=name.startswith("undertile/"))
    return _HEAD + marshal.dumps(compile(tree, name, "exec", dont_inherit=True, optimize=0))


def _without_doc(node: _Documented, ours: bool) -> None:
    """Take the docstring off, and any text after it that would become one.

    A class keeps a line: of ours job/shape.py shows the first; where there is none the standard library
    writes one into each dataclass at each start.
    """
    said = ast.get_docstring(node)
    if said is None:
        return
    first = node.body[0]
    while node.body and isinstance(node.body[0], ast.Expr) and isinstance(node.body[0].value, ast.Constant):
        del node.body[0]
    if isinstance(node, ast.ClassDef):
        line = (said.split("\n")[0] if ours else "") or "."
        node.body.insert(0, ast.copy_location(ast.Expr(ast.copy_location(ast.Constant(line), first)), first))
    elif not node.body and not isinstance(node, ast.Module):
        node.body = [ast.copy_location(ast.Pass(), first)]


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
