"""The JSON Schema of the job file (draft 2020-12), made from the same facts that read it."""

from __future__ import annotations

import json
from typing import Any

from undertile.job.model import VERSION, job_shape
from undertile.job.settle import MAX_NAME
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.lengths import MAX_TEXT

DIALECT = "https://json-schema.org/draft/2020-12/schema"

_LENGTH = {
    "description": "An exact length as typed: 3-15/16, 4' 2-1/2\", 3/8+ (strong), 1203 mm. "
    "A number without a mark is in the job's unit.",
    "type": ["string", "number"],
    "maxLength": MAX_TEXT,
    "pattern": "[0-9\u00bc-\u00be\u2150-\u215f]",
}
_READING = {
    "description": 'A reading: a length, "" (not measured) or "x" (cannot reach).',
    "anyOf": [{"enum": ["", "x"]}, {"$ref": "#/$defs/length"}],
}


def job_schema() -> dict[str, Any]:
    """The schema of the current job file.

    Returns
    -------
    dict
        Plain JSON values. It says what a file may hold; what facts say of each other (a stud's name and
        its wall, a list beside the heights) is judged by ``read_job``.
    """
    body = _schema(job_shape(), False)
    version = {"description": "version of the job file", "const": VERSION}
    return {
        "$schema": DIALECT,
        "title": "undertile job file",
        "description": "One job: what is read, known and chosen, as typed (docs/job-file.md).",
        "type": "object",
        "properties": {"version": version, **body["properties"]},
        "required": ["version", *body["required"]],
        "additionalProperties": False,
        "$defs": {"length": _LENGTH, "reading": _READING},
    }


def schema_text() -> str:
    """The schema as it is kept in ``docs/job.schema.json``."""
    return json.dumps(job_schema(), indent=1, ensure_ascii=False) + "\n"


def _schema(node: Node, beside: bool) -> dict[str, Any]:
    """The schema of one node; ``beside``: a table above it lists heights."""
    doc = {"description": node.doc} if node.doc else {}
    if isinstance(node, Leaf):
        return doc | _leaf(node)
    if isinstance(node, Table):
        beside = beside or "heights" in node.fields
        fields = {name: _schema(inner, beside) for name, inner in node.fields.items()}
        required = {"required": list(node.required)} if node.required else {}
        return doc | {"type": "object", "properties": fields, **required, "additionalProperties": False}
    return doc | _by_name(node, beside)


def _by_name(node: ByName, beside: bool) -> dict[str, Any]:
    item = _schema(node.item, beside)
    if not node.by_height:
        names: dict[str, Any] = {"enum": list(node.names)} if node.names else dict(_NAME)
        return {"type": "object", "propertyNames": names, "additionalProperties": item}
    table = {"type": "object", "propertyNames": {"$ref": "#/$defs/length"}, "additionalProperties": item}
    return {"anyOf": [{"type": "array", "items": item}, table]} if beside else table


_NAME = {"minLength": 1, "maxLength": MAX_NAME}
_KINDS: dict[str, dict[str, Any]] = {
    "text": {"type": "string"},
    "flag": {"type": "boolean"},
    "whole": {"type": "integer"},
    "number": {"type": "number"},
    "length": {"$ref": "#/$defs/length"},
    "reading": {"$ref": "#/$defs/reading"},
}


def _leaf(node: Leaf) -> dict[str, Any]:
    if node.many:
        return {"type": "array", "items": _leaf(Leaf(node.kind, False, node.choices))}
    kind = {"enum": list(node.choices)} if node.kind == "choice" else _KINDS[node.kind]
    examples = {"examples": list(node.examples)} if node.examples else {}
    return kind | dict(node.limits) | examples
