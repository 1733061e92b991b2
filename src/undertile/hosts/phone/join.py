"""The page's modules as one file each for the page and the worker: a phone need not fetch them one by one.

They stay plain modules in the source. Each becomes a function that is called once and gives what the module
exports; where two need each other, the first calls the other's functions, once both have been read. Only
the forms of import and export that our modules use are known; any other is refused when the bundle is built.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from posixpath import dirname, join, normpath

from undertile.errors import InputError

_IMPORT = re.compile(r'^import (?:\{ (?P<names>[^}]+) \}|\* as (?P<whole>\w+)) from "(?P<place>[^"]+)";$')
_EXPORT = re.compile(r"^export (?P<kind>(?:async )?function\*?|class|const) (?P<name>\w+)")
_SHARED = "undertileModules"
"""Where the second of two finds the modules of the first."""
_OTHER = re.compile(r"^(?:import|export)\b(?! ?\()")


def joined(entry: str, read: Callable[[str], str]) -> str:
    """A module and all that it imports, as one module.

    Parameters
    ----------
    entry : str
        Its path in the bundle; the others stand where it says. It must lie where the joined one will.
    read : callable
        Path to text.

    Raises
    ------
    InputError
        If a module imports or exports in a way not known here.
    """
    done: dict[str, str] = {}
    _add(entry, read, done, ())
    return "\n".join(done.values())


def joined_in_two(entry: str, rest: str, read: Callable[[str], str]) -> tuple[str, str]:
    """A module and all that it imports, and another, which that one asks for while it runs, with what it
    imports besides: no module stands in both.

    Parameters
    ----------
    entry, rest : str
        Their paths in the bundle. What ``rest`` exports, the second of the two exports.
    read : callable
        Path to text.

    Raises
    ------
    InputError
        If a module imports or exports in a way not known here.
    """
    done: dict[str, str] = {}
    _add(entry, read, done, ())
    first = list(done)
    gives = _add(rest, read, done, ())
    shared = "{ " + ", ".join(_name(path) for path in first) + " }"
    own = [text for path, text in done.items() if path not in first]
    return (
        "\n".join([*(done[path] for path in first), f"globalThis.{_SHARED} = {shared};"]),
        "\n".join(
            [
                f"const {shared} = globalThis.{_SHARED};",
                *own,
                f"export const {{ {', '.join(gives)} }} = {_name(rest)};",
            ]
        ),
    )


def _add(path: str, read: Callable[[str], str], done: dict[str, str], above: tuple[str, ...]) -> list[str]:
    """Put a module behind those it needs; the names that it exports, none where it was there before."""
    if path in done:
        return []
    head: list[str] = []
    body: list[str] = []
    gives: list[str] = []
    for number, line in enumerate(read(path).split("\n"), 1):
        found = _IMPORT.match(line)
        given = _EXPORT.match(line)
        if found:
            place = normpath(join(dirname(path), found["place"]))
            if place in (*above, path):
                head += _later(place, found["names"])
            else:
                _add(place, read, done, (*above, path))
                head.append(_now(place, found))
        elif given:
            gives.append(given["name"])
            body.append(line.removeprefix("export "))
        elif _OTHER.match(line):
            raise InputError(f"{path}, line {number}: expected an import or export known here, found {line}")
        else:
            body.append(line)
    text = "\n".join([*head, *body])
    done[path] = (
        f"// {path}\nconst {_name(path)} = (() => {{\n{text}\nreturn {{ {', '.join(gives)} }};\n}})();"
    )
    return gives


def _name(path: str) -> str:
    return "$" + re.sub(r"\W", "_", path.removesuffix(".js"))


def _now(place: str, found: re.Match[str]) -> str:
    names = found["whole"] or "{ " + found["names"].replace(" as ", ": ") + " }"
    return f"const {names} = {_name(place)};"


def _later(place: str, names: str | None) -> Iterator[str]:
    """Functions of a module that is still being read, called by name once they are called."""
    if names is None:
        raise InputError(f"{place}: expected names where two modules need each other, found all of one")
    for name in names.split(", "):
        first, _, own = name.partition(" as ")
        yield f"const {own or first} = (...told) => {_name(place)}.{first}(...told);"


__all__ = ["joined", "joined_in_two"]
