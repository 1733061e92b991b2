"""What is worked out when the bundle is built, so that the phone need not at each start.

Python compiles more at a start than modules: the methods of every dataclass, from text, and every pattern.
Both are the same each time. ``record`` notes them under the interpreter that will run them, ``use`` looks
them up by the very text they are made from; what is not among them is compiled as ever. ``Packed`` finds
modules in the bundle's zips where they lie in memory, so that no file is unpacked or looked for.

Imports nothing of the project: it runs before the project can be imported.
"""

from __future__ import annotations

import dataclasses
import marshal
import re
import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from importlib.machinery import ModuleSpec
from types import CodeType, ModuleType
from typing import Any

NAME = "undertile_ahead.bin"
"""The file of what was worked out, beside the packages."""
HEAD = 16
"""Bytes before the code in a compiled file (importlib, ``MAGIC_NUMBER`` and after)."""

Members = Iterable[tuple[str, int, int]]
Texts = dict[str, CodeType]
Patterns = dict[tuple[str | bytes, int], tuple[Any, ...]]
_EXEC = exec
_compiler: Any = re._compiler  # type: ignore[attr-defined]
_compile: Callable[..., Any] = _compiler.compile


def record() -> tuple[Texts, Patterns]:
    """From now on, note the code of every dataclass and of every pattern that is made."""
    texts: Texts = {}
    patterns: Patterns = {}

    def run(text: str, globals: dict[str, Any], names: dict[str, Any]) -> None:
        texts[text] = compile(text, "<ahead>", "exec", dont_inherit=True)
        _EXEC(texts[text], globals, names)

    def made(*told: Any) -> Any:
        flags, code, groups, names, order = told[1:]
        told_of["last"] = (int(flags), tuple(map(int, code)), groups, dict(names), tuple(order))
        return make(*told)

    def compiled(pattern: Any, flags: int = 0) -> Any:
        found = _compile(pattern, flags)
        if isinstance(pattern, (str, bytes)):
            patterns[pattern, int(flags)] = told_of["last"]
        return found

    told_of: dict[str, tuple[Any, ...]] = {}
    sre = _compiler._sre
    make = sre.compile
    _compiler._sre = _Beside(sre, compile=made)
    _compiler.compile = compiled
    setattr(dataclasses, "exec", run)  # noqa: B010
    return texts, patterns


class _Beside:
    """A module with some names replaced."""

    def __init__(self, module: ModuleType, **names: Any) -> None:
        self.__dict__.update(vars(module), **names)


def written(texts: Texts, patterns: Patterns) -> bytes:
    """What was recorded, for ``use``."""
    return marshal.dumps((texts, patterns))


def use(content: bytes) -> list[str]:
    """Look up from now on what was recorded.

    Parameters
    ----------
    content : bytes
        Of ``written``, by this same interpreter.

    Returns
    -------
    list of str
        Grows by the text of each dataclass that was not there.
    """
    texts, patterns = marshal.loads(content)
    lacking: list[str] = []
    make = _compiler._sre.compile

    def run(text: str, globals: dict[str, Any], names: dict[str, Any]) -> None:
        code = texts.get(text)
        if code is None:
            lacking.append(text)
        _EXEC(text if code is None else code, globals, names)

    def compiled(pattern: Any, flags: int = 0) -> Any:
        known = patterns.get((pattern, int(flags))) if isinstance(pattern, (str, bytes)) else None
        if known is None:
            return _compile(pattern, flags)
        told, code, groups, names, order = known
        return make(pattern, told, list(code), groups, dict(names), order)

    setattr(dataclasses, "exec", run)  # noqa: B010
    _compiler.compile = compiled
    return lacking


class Packed:
    """Finds modules among the compiled files of a zip, which lie in memory as they came.

    Parameters
    ----------
    folder : str
        Where they would be unpacked: modules believe that they are there.
    content : bytes-like
        Of the zip, whose files are stored.
    members : iterable of (str, int, int)
        Each file's name, where its content begins, and its size in bytes.
    """

    def __init__(self, folder: str, content: Any, members: Members) -> None:
        self._folder = folder
        self._content = memoryview(content)
        self._places: dict[str, tuple[str, int, int]] = {}
        for name, start, size in members:
            module = name.removesuffix(".pyc").removesuffix("/__init__").replace("/", ".")
            self._places[module] = (name, start + HEAD, start + size)

    def find_spec(
        self, name: str, path: Sequence[str] | None = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """Where a module is; None where it is not here."""
        place = self._places.get(name)
        if place is None:
            return None
        at = f"{self._folder}/{place[0]}"
        packs = at.endswith("/__init__.pyc")
        spec = ModuleSpec(name, self, origin=at, is_package=packs)  # type: ignore[arg-type]
        spec.has_location = True
        if packs:
            spec.submodule_search_locations = [at.rpartition("/")[0]]
        return spec

    def create_module(self, spec: ModuleSpec) -> None:
        """A module like any other."""

    def exec_module(self, module: ModuleType) -> None:
        """Run its code."""
        _, start, end = self._places[module.__name__]
        _EXEC(marshal.loads(self._content[start:end]), module.__dict__)


def start(folder: str, zips: Sequence[tuple[Any, Members]]) -> list[str]:
    """Find modules in these zips from now on, and use what was worked out ahead.

    Parameters
    ----------
    folder : str
        Where files that are no code have been unpacked.
    zips : sequence of (bytes-like, members)

    Returns
    -------
    list of str
        As ``use`` returns it.
    """
    finders: Mapping[int, Any] = {at: Packed(folder, *each) for at, each in enumerate(zips)}
    sys.meta_path[:0] = finders.values()
    with open(f"{folder}/{NAME}", "rb") as file:
        return use(file.read())
