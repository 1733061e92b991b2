"""What is worked out when the bundle is built, so that the phone need not at each start.

Python compiles more at a start than modules: the methods of every dataclass and the types of every field,
from text, and every pattern. They are the same each time. ``record`` notes them under the interpreter that
will run them, ``use`` looks them up by the very text they are made from; what is not among them is compiled
as ever. ``Packed`` finds modules in the bundle's zips where they lie in memory: no file is looked for.

Imports nothing of the project: it runs before the project can be imported.
"""

from __future__ import annotations

import dataclasses
import gc
import json
import marshal
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from importlib import import_module
from importlib.machinery import ModuleSpec
from types import CodeType, ModuleType
from typing import Any

NAME = "undertile_ahead.bin"
"""The file of what was worked out, beside the packages."""
HEAD = 16
"""Bytes before the code in a compiled file (importlib, ``MAGIC_NUMBER`` and after)."""

Members = Iterable[tuple[str, int, int]]
Read = Callable[[int, int], Any]
"""From where and to where in a zip [bytes] to what stands there."""
Texts = dict[str, CodeType]
Fields = dict[tuple[str, str, str], CodeType]
Patterns = dict[tuple[str | bytes, int], tuple[Any, ...]]
_KNOWN: list[dict[Any, Any]] = []
_EXEC = exec
_COMPILE = compile
_compiler: Any = re._compiler  # type: ignore[attr-defined]
_compile: Callable[..., Any] = _compiler.compile


def record() -> tuple[Texts, Fields, Patterns]:
    """From now on, note the code of every dataclass, field and pattern that is made."""
    texts: Texts = {}
    fields: Fields = {}
    patterns: Patterns = {}

    def run(text: str, globals: dict[str, Any], names: dict[str, Any]) -> None:
        texts[text] = compile(text, "<ahead>", "exec", dont_inherit=True)
        _EXEC(texts[text], globals, names)

    def read(text: str, name: str, mode: str) -> CodeType:
        fields[text, name, mode] = _COMPILE(text, name, mode, dont_inherit=True)
        return fields[text, name, mode]

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
    _annotations().compile = read
    return texts, fields, patterns


def _annotations() -> Any:
    """Where types that stand as text are read; of Python 3.14, which the phone has."""
    return import_module("annotationlib")


class _Beside:
    """A module with some names replaced."""

    def __init__(self, module: ModuleType, **names: Any) -> None:
        self.__dict__.update(vars(module), **names)


def written(recorded: tuple[Texts, Fields, Patterns]) -> bytes:
    """What was recorded, for ``use``."""
    return marshal.dumps(recorded)


def use(content: bytes) -> list[str]:
    """Look up from now on what was recorded.

    Parameters
    ----------
    content : bytes
        Of ``written``, by this same interpreter.

    Returns
    -------
    list of str
        Grows by the text of each dataclass and field that was not there.
    """
    texts, fields, patterns = marshal.loads(content)
    _KNOWN[:] = texts, fields, patterns
    lacking: list[str] = []
    make = _compiler._sre.compile

    def run(text: str, globals: dict[str, Any], names: dict[str, Any]) -> None:
        code = texts.get(text)
        if code is None:
            lacking.append(text)
        _EXEC(text if code is None else code, globals, names)

    def read(text: str, name: str, mode: str) -> CodeType:
        code = fields.get((text, name, mode))
        if code is None:
            lacking.append(text)
            code = _COMPILE(text, name, mode, dont_inherit=True)
        return code  # type: ignore[no-any-return]

    def compiled(pattern: Any, flags: int = 0) -> Any:
        known = patterns.get((pattern, int(flags))) if isinstance(pattern, (str, bytes)) else None
        if known is None:
            return _compile(pattern, flags)
        told, code, groups, names, order = known
        return make(pattern, told, list(code), groups, dict(names), order)

    setattr(dataclasses, "exec", run)  # noqa: B010
    _annotations().compile = read
    _compiler.compile = compiled
    return lacking


class Packed:
    """Finds modules among the compiled files of a zip, which lie in memory as they came.

    Parameters
    ----------
    folder : str
        Where they would be unpacked: modules believe that they are there.
    content : bytes-like or callable
        Of the zip, whose files are stored; or what reads of it (``Read``).
    members : iterable of (str, int, int)
        Each file's name, where its content begins, and its size in bytes.
    """

    def __init__(self, folder: str, content: Any, members: Members) -> None:
        self._folder = folder
        self._read: Read = content if callable(content) else _slices(memoryview(content))
        self._places: dict[str, tuple[str, int, int]] = {}
        for name, start, size in members:
            module = name.removesuffix(".pyc").removesuffix("/__init__").replace("/", ".")
            self._places[module] = (name, start + HEAD, start + size)

    def names(self) -> list[str]:
        """Of its modules, those a person may look at first at the front."""
        return sorted(self._places, key=lambda name: (".screens." not in name, name))

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
        _EXEC(marshal.loads(self._read(start, end)), module.__dict__)


def _slices(content: memoryview) -> Read:
    return lambda start, end: content[start:end]


class Zips:
    """The bundle's zips, which stay with whoever started this Python: nothing of them lies in its memory.

    Attributes
    ----------
    read : callable or None
        Which zip, from where and to where [bytes]; what comes has ``to_bytes`` (a view of the browser's).
    """

    def __init__(self, read: Callable[[int, int, int], Any] | None) -> None:
        self.read = read

    def of(self, which: int) -> Read:
        """What reads of one of them."""

        def read(start: int, end: int) -> Any:
            if self.read is None:
                raise ImportError("expected the bundle's zips, found none told")
            return self.read(which, start, end).to_bytes()

        return read


class Started:
    """A Python that has begun: what is left to do once the first screen stands.

    Attributes
    ----------
    lacking : list of str
        As ``use`` returns it.
    """

    def __init__(self, lacking: list[str], names: Iterable[str], zips: Zips) -> None:
        self.lacking = lacking
        self._zips = zips
        self._left: Iterator[str] = iter([name for name in names if name.startswith("undertile.")])

    def settled(self) -> None:
        """What is there now stays: look for what can be thrown away from here on, among what is new."""
        gc.freeze()
        gc.enable()

    def more(self) -> bool:
        """Read one more module, before somebody waits for it; whether there may be others."""
        name = next((each for each in self._left if each not in sys.modules), "")
        if name:
            import_module(name)
        return bool(name)

    def let_go(self) -> None:
        """Everything has been read: keep no more than what the modules need, for this memory is to be kept.

        What no module has asked for yet is compiled when it is asked for.
        """
        self._zips.read = None
        for known in _KNOWN:
            known.clear()
        gc.collect()
        self.settled()

    def again(self, read: Callable[[int, int, int], Any]) -> None:
        """This memory has been kept, and filled in again later, perhaps elsewhere."""
        self._zips.read = read
        if "random" in sys.modules:
            sys.modules["random"].seed()  # else it would go on alike at each start


_STARTED: list[Started] = []


def started() -> Started:
    """What ``start`` returned."""
    return _STARTED[0]


def start(folder: str, read: Callable[[int, int, int], Any], members: str) -> Started:
    """Find modules in these zips from now on, and use what was worked out ahead.

    Parameters
    ----------
    folder : str
        Where files that are no code have been unpacked.
    read : callable
        As ``Zips`` has it.
    members : str
        JSON: for each zip its compiled files.
    """
    gc.disable()  # what is made at a start stays
    zips = Zips(read)
    finders: list[Any] = [Packed(folder, zips.of(at), each) for at, each in enumerate(json.loads(members))]
    sys.meta_path[:0] = finders
    with open(f"{folder}/{NAME}", "rb") as file:
        lacking = use(file.read())
    _STARTED[:] = [Started(lacking, [name for finder in finders for name in finder.names()], zips)]
    return _STARTED[0]
