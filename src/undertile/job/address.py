"""The address of a fact: its keys from the top of the job, joined by dots.

``survey.walls.B.studs.B2.readings.48``. A part that holds a dot, or starts with a quote, is written in
quotes as in JSON: ``framing.stock."0.205 ply".thickness``. A height may be typed in any form; in a
canonical address it is bare inches (``48``, ``4-1/2``) where it is on a ruler and mm otherwise
(``1203 mm``), whatever the job's unit, so that one height is one fact in every copy of the record.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Any

from undertile.errors import InputError, LengthError
from undertile.job.near import nearest
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.job.stages import STAGES
from undertile.lengths import Length, Unit, format_length, parse_length
from undertile.ruler import FINEST_READ, is_dyadic

Path = tuple[str, ...]

MAX_ADDRESS = 300
"""Characters of one address; the longest real one is under a hundred."""

_QUOTED = re.compile(r'"(?:[^"\\]|\\.)*"')
_PLAIN = re.compile(r"[^.\"\s\x00-\x1f\x7f](?:[^.\x00-\x1f\x7f]*[^.\s\x00-\x1f\x7f])?")


def join(path: Sequence[str | int]) -> str:
    """The address of a path: parts joined by dots, quoted where they must be."""
    return ".".join(_part(str(part)) for part in path)


@lru_cache(maxsize=4096)
def _part(part: str) -> str:
    if part.isprintable():
        return part if _PLAIN.fullmatch(part) else json.dumps(part, ensure_ascii=False)
    return json.dumps(part)


@lru_cache(maxsize=4096)
def split(address: str) -> Path:
    """The parts of an address.

    Raises
    ------
    InputError
        If it is not parts joined by dots.
    """
    if len(address) > MAX_ADDRESS:
        raise InputError(f"an address of {len(address)} characters; one has at most {MAX_ADDRESS}")
    return tuple(_parts(address))


def _parts(address: str) -> Iterator[str]:
    at = 0
    while True:
        quoted = _QUOTED.match(address, at)
        found = quoted or _PLAIN.match(address, at)
        if found is None:
            raise InputError(
                f"{_shown(address)} is no address; expected keys joined by dots, "
                "like survey.walls.B.studs.B2.readings.48"
            )
        yield _unquoted(found[0]) if quoted else found[0]
        at = found.end()
        if at == len(address):
            return
        if address[at] != ".":
            raise InputError(
                f"{_shown(address)} has {_shown(address[at])} after {_shown(found[0])}; expected a dot"
            )
        at += 1


def _unquoted(part: str) -> str:
    try:
        return str(json.loads(part))
    except ValueError:
        raise InputError(f"{part} is no quoted part of an address; write it as in JSON") from None


def _shown(text: str) -> str:
    text = text if len(text) <= 80 else text[:77] + "..."
    return json.dumps(text, ensure_ascii=not text.isprintable())


def canonical(path: Sequence[str], shape: Node, unit: Unit = "in") -> tuple[Path, Leaf]:
    """The one spelling of a fact's path, and what kind of fact it is.

    Parameters
    ----------
    path : sequence of str
    shape : Node
        What a job can hold.
    unit : {"in", "mm"}
        Unit of a bare height; in an address already written it is inches.

    Raises
    ------
    InputError
        If the job has no such fact: one line with the nearest known key.
    """
    out: list[str] = []
    node = shape
    for part in path:
        if isinstance(node, Leaf):
            raise InputError(f"{join(path)} goes past {join(out)}, which is one value")
        if isinstance(node, Table):
            if part not in node.fields:
                raise InputError(f"{join([*out, part])} is no fact of a job; {nearest(part, node.fields)}")
            node = node.fields[part]
        else:
            part = _name(part, node, out, unit)
            node = node.item
        out.append(part)
    if not isinstance(node, Leaf):
        raise InputError(f"{join(path)} is a table; set the facts in it one by one")
    return tuple(out), node


def _name(part: str, node: ByName, before: list[str], unit: Unit) -> str:
    if node.names and part not in node.names:
        raise InputError(f"{join([*before, part])} is no fact of a job; {nearest(part, node.names)}")
    if not node.by_height:
        return part
    try:
        return height_key(parse_length(part, unit))
    except LengthError as error:
        raise InputError(f"{join([*before, part])}: the height {error}") from None


def height_key(height: Length) -> str:
    """A height as an address spells it: bare inches on a ruler, else mm.

    Examples
    --------
    >>> height_key(parse_length("4' 0\\"")), height_key(parse_length("1203 mm"))
    ('48', '1203 mm')
    """
    on_ruler = is_dyadic(height.inches, FINEST_READ)
    return format_length(height.inches, "in") if on_ruler else format_length(height.inches, "mm")


def marked(height: Length) -> str:
    """A height with its unit's mark, readable in a job of either unit."""
    on_ruler = is_dyadic(height.inches, FINEST_READ)
    return format_length(height.inches, "in" if on_ruler else "mm", mark=True)


_LEFT_UNSAID = {stage.key for stage in STAGES} - {"pan", "recheck"}
"""Stages whose facts are told without their name."""


def say(path: Sequence[Any]) -> str:
    """A path in the room's own words: ``B2 at 48``, ``wall B, top``, ``pan, width``."""
    parts = [str(part) for part in path]
    if parts[:2] == ["survey", "walls"] and len(parts) >= 3:
        if len(parts) >= 5 and parts[3] == "studs":
            stud, rest = parts[4], parts[5:]
            if len(rest) == 2 and rest[0] == "readings":
                return f"{stud} at {rest[1]}"
            return ", ".join([stud, *rest])
        return ", ".join([f"wall {parts[2]}", *parts[3:]])
    if parts[:2] == ["recheck", "walls"] and len(parts) >= 3:
        return f"{say(('survey', *parts[1:]))}, read again"
    if parts[:1] == ["photos"] and len(parts) >= 2:
        return ", ".join([f"photo {parts[1][:8]}", *parts[2:]])
    if parts[:2] == ["wood", "points"] and len(parts) >= 3:
        if len(parts) == 5 and parts[3] == "shown":
            return f"{parts[2]}, visit {parts[4]}"
        return ", ".join(parts[2:])
    if parts[:2] == ["wood", "visits"] and len(parts) >= 3:
        return ", ".join([f"visit {parts[2]}", *parts[3:]])
    if parts[:2] == ["floor", "joists"] and len(parts) >= 3:
        return ", ".join([f"joist {parts[2]}", *parts[3:]])
    if parts[:3] == ["floor", "level", "spots"] and len(parts) >= 4:
        return ", ".join([f"floor at {parts[3]}", *(part for part in parts[4:] if part != "reading")])
    if parts[:2] == ["framing", "studs"] and len(parts) >= 3:
        return ", ".join(parts[2:])
    if len(parts) > 1 and (parts[0] in _LEFT_UNSAID or parts[:2] == ["pan", "pan"]):
        parts = parts[1:]
    return ", ".join(parts) or "job"
