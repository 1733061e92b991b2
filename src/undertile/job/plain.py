"""A job taken apart: a nested table of what was set, as typed; and the same as entries."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from pydantic import BaseModel

from undertile.job.address import canonical, join
from undertile.job.entry import Entry, Pen
from undertile.job.model import Job, job_shape
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.lengths import Length, Unit, format_length
from undertile.ruler import FINEST_READ, is_dyadic


def taken_apart(job: Job) -> dict[str, Any]:
    """The nested table of everything that was set in a job: tables, texts as typed, flags, numbers, lists.

    Without ``version``; defaults that nobody set are left out, and so are empty tables.
    """
    return _table(job, job_shape())


def _table(model: BaseModel, node: Table) -> dict[str, Any]:
    out: dict[str, Any] = {}
    for key, inner in node.fields.items():
        value = getattr(model, key)
        if value is None or not (key in model.model_fields_set or isinstance(inner, Table | ByName)):
            continue
        taken = _taken(value, inner)
        if taken or not isinstance(inner, Table | ByName):
            out[key] = taken
    return out


def _taken(value: Any, node: Node) -> Any:
    if isinstance(node, Table):
        return _table(value, node)
    if isinstance(node, ByName):
        items = {str(key): _taken(item, node.item) for key, item in value.items()}
        return {key: item for key, item in items.items() if item not in ("", {})}
    if node.many:
        return [_text(each) for each in value]
    return _text(value)


def _text(value: Any) -> Any:
    if not isinstance(value, Length):
        return value
    if value.text:
        return value.text
    if is_dyadic(value.inches, FINEST_READ) and value.unit == "in":
        return format_length(value.inches, "in", mark=True)
    return format_length(value.inches, "mm")


def leaves(taken: Mapping[str, Any], unit: Unit) -> Iterator[tuple[str, str]]:
    """Every fact of a nested table as its canonical address and its text."""
    yield from _leaves(taken, job_shape(), (), unit)


def _leaves(taken: Any, node: Node, path: tuple[str, ...], unit: Unit) -> Iterator[tuple[str, str]]:
    if isinstance(node, Leaf):
        address, _ = canonical(path, job_shape(), unit)
        yield join(address), text_of(taken)
        return
    for key, value in taken.items():
        inner = node.fields[key] if isinstance(node, Table) else node.item
        yield from _leaves(value, inner, (*path, key), unit)


def text_of(value: Any) -> str:
    """A value as an entry's text."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return json.dumps(list(value), ensure_ascii=False)
    if isinstance(value, Decimal):
        return f"{value:f}"
    return str(value)


def entries_of(job: Job, pen: Pen) -> tuple[Entry, ...]:
    """A job as the first entries of a log: one for each fact that was set.

    Parameters
    ----------
    job : Job
    pen : Pen
        Who brings the job in, on which device, when.
    """
    return tuple(pen.write(address, text) for address, text in leaves(taken_apart(job), job.unit))
