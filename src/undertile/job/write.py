"""Writing a job file: the same job is the same text, and each stud's readings stand under their heights."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from undertile.job.model import VERSION, Job, job_shape
from undertile.job.plain import taken_apart
from undertile.job.shape import ByName, Leaf, Node, Table

WIDTH = 140
"""Columns of an entry on one line; a longer one gets a table of its own."""

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES = {'"': '\\"', "\\": "\\\\", "\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}


def write_job(job: Job) -> str:
    """The job as the text of a job file.

    Returns
    -------
    str
        ``read_job`` gives an equal job back, every length with the text it was typed with. What nobody set
        is not written, and neither are the comments of a file that was read.
    """
    taken = taken_apart(job)
    shape = job_shape()
    head = {key: value for key, value in taken.items() if isinstance(shape.fields[key], Leaf)}
    lines = [f"version = {VERSION}", *(f"{key} = {_value(value)}" for key, value in head.items())]
    for key, value in taken.items():
        if key not in head:
            lines += _section((key,), value, shape.fields[key], ())
    return "\n".join(lines) + "\n"


def _section(
    path: tuple[str, ...], table: Mapping[str, Any], node: Node, heights: Sequence[str]
) -> list[str]:
    """A table under its own head: its facts, its entries of one line each, then its tables."""
    inner = {key: _inner(node, key) for key in table}
    if "heights" in inner and isinstance(node, Table):
        heights = table["heights"]
    facts = [key for key in table if _on_a_line(inner[key])]
    body = [f"{_key(key)} = {_value(_beside(table[key], inner[key], heights))}" for key in facts]
    rows: dict[str, str] = {}
    if isinstance(node, ByName) and isinstance(node.item, Table):
        rows = _rows(table, node.item, heights)
        body += rows.values()
    deeper = [key for key in table if key not in facts and key not in rows]
    lines = ["", f"[{'.'.join(map(_key, path))}]", *body] if body else []
    for key in deeper:
        lines += _section((*path, key), table[key], inner[key], heights)
    return lines


def _inner(node: Node, key: str) -> Node:
    return node.fields[key] if isinstance(node, Table) else node.item  # type: ignore[union-attr]


def _on_a_line(node: Node) -> bool:
    return isinstance(node, Leaf) or (
        isinstance(node, ByName) and isinstance(node.item, Leaf) and node.by_height
    )


def _beside(value: Any, node: Node, heights: Sequence[str]) -> Any:
    """Readings by height as a list beside the wall's heights, where every one has its place there."""
    if isinstance(node, Leaf) or not heights or not set(value) <= set(heights):
        return value
    return [value.get(height, "") for height in heights]


def _rows(tables: Mapping[str, Any], node: Table, heights: Sequence[str]) -> dict[str, str]:
    """The entries that fit on one line each, in columns."""
    cells = {
        key: {field: _cell(_beside(value, node.fields[field], heights)) for field, value in table.items()}
        for key, table in tables.items()
        if all(_on_a_line(node.fields[field]) for field in table)
    }
    wide: dict[tuple[str, int], int] = {}
    for fields in cells.values():
        for field, tokens in fields.items():
            for at, token in enumerate(tokens):
                wide[field, at] = max(wide.get((field, at), 0), len(token))
    stem = max((len(_key(key)) for key in cells), default=0)
    rows = {key: f"{_key(key):{stem}} = {{ {_columns(fields, wide)} }}" for key, fields in cells.items()}
    return {key: row for key, row in rows.items() if len(row) <= WIDTH}


def _cell(value: Any) -> list[str]:
    return [_value(each) for each in value] if isinstance(value, list) else ["", _value(value)]


def _columns(fields: Mapping[str, list[str]], wide: Mapping[tuple[str, int], int]) -> str:
    """Fields side by side; what a list or a value lacks in width stands after its comma."""
    parts = []
    last = list(fields)[-1]
    for field, tokens in fields.items():
        one = len(tokens) == 2 and tokens[0] == ""
        body = (
            tokens[1] if one else "[" + _padded(tokens, [wide[field, at] for at in range(len(tokens))]) + "]"
        )
        comma = "" if field == last else ","
        pad = wide[field, 1] + len(field) + 4 if one and field != last else 0
        parts.append(f"{field} = {body}{comma}".ljust(pad))
    return " ".join(parts)


def _padded(tokens: Sequence[str], widths: Sequence[int]) -> str:
    padded = [f"{token},".ljust(width + 1) for token, width in zip(tokens[:-1], widths, strict=False)]
    return " ".join([*padded, *tokens[-1:]])


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value)
    if isinstance(value, Decimal):
        return f"{value:f}"
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{_key(key)} = {_value(each)}" for key, each in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(_value, value)) + "]"
    return _text(value)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _text(text: str) -> str:
    if '"' in text and "'" not in text and text.isprintable():
        return f"'{text}'"  # an inch mark reads better so
    return '"' + "".join(_ESCAPES.get(char) or _escaped(char) for char in text) + '"'


def _escaped(char: str) -> str:
    return char if char.isprintable() or ord(char) > 0x7F else f"\\u{ord(char):04X}"
