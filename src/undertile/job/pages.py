"""The pages that are made from the facts: the schema, and every key in docs/job-file.md.

``python -m undertile.job.pages docs`` writes both anew; a test holds them current.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from undertile.job.model import VERSION, job_shape
from undertile.job.schema import schema_text
from undertile.job.shape import ByName, Leaf, Node, Table

SCHEMA = "job.schema.json"
PAGE = "job-file.md"
BEGIN = "<!-- every key: made by `python -m undertile.job.pages docs` -->"
END = "<!-- end of every key -->"

_KINDS = {
    "text": "text",
    "flag": "`true` or `false`",
    "whole": "whole number",
    "number": "number",
    "length": "length",
    "reading": 'reading: length, `""` or `"x"`',
}


def every_key() -> str:
    """Every key a job file can hold, table by table, in Markdown."""
    version = Leaf("choice", choices=(str(VERSION),), doc="version of the job file")
    shape = job_shape()
    head = {key: node for key, node in shape.fields.items() if isinstance(node, Leaf | ByName)}
    lines = ["### At the top", "", *_rows({"version": version, **head}, ("version", *shape.required))]
    for key, node in shape.fields.items():
        if not isinstance(node, Leaf):
            lines += _tables(node, key)
    return "\n".join(lines) + "\n"


def _tables(node: Node, name: str) -> Iterator[str]:
    """A table and the tables in it."""
    if isinstance(node, Leaf):
        return
    if isinstance(node, ByName) and not isinstance(node.item, Leaf):
        part = "|".join(node.names) if node.names else "NAME"
        yield from _tables(node.item, f"{name}.{part}")
        return
    fields = node.fields if isinstance(node, Table) else dict.fromkeys(node.names or ("NAME",), node.item)
    yield from ("", f"### `[{name}]`", "", *([_sentence(node.doc), ""] if node.doc else []))
    yield from _rows(fields, node.required if isinstance(node, Table) else ())
    for key, inner in fields.items():
        if isinstance(inner, Table) or (isinstance(inner, ByName) and not inner.by_height):
            yield from _tables(inner, f"{name}.{key}")


def _sentence(text: str) -> str:
    text = text.replace("``", "`")
    return text if text.endswith((".", "?")) else text[:1].upper() + text[1:] + "."


def _rows(fields: Mapping[str, Node], required: Sequence[str]) -> Iterator[str]:
    yield "| key | holds | |"
    yield "|---|---|---|"
    for key, node in fields.items():
        needed = " **needed**" if key in required else ""
        doc = node.doc.replace("|", "\\|") if not isinstance(node, Table) else ""
        yield f"| `{key}` | {_holds(node)}{needed} | {doc} |"


def _holds(node: Node) -> str:
    if isinstance(node, Table):
        return "table, below"
    if isinstance(node, ByName):
        return "readings by height" if node.by_height else "by name, below"
    kind = ", ".join(f"`{word}`" for word in node.choices) if node.kind == "choice" else _KINDS[node.kind]
    if node.bound is not None:
        kind += f", {node.bound.short}"
    return f"list, each {kind}" if node.many else kind


def with_every_key(page: str) -> str:
    """The page with its part between the marks made anew.

    Raises
    ------
    ValueError
        If the page has no such part.
    """
    before, begin, rest = page.partition(BEGIN)
    _, end, after = rest.partition(END)
    if not begin or not end:
        raise ValueError(f"{PAGE} has no part between {BEGIN} and {END}")
    return f"{before}{BEGIN}\n\n{every_key()}\n{END}{after}"


def main(folder: str) -> None:
    """Write both pages anew in a folder."""
    docs = Path(folder)
    (docs / SCHEMA).write_text(schema_text(), encoding="utf-8", newline="\n")
    page = docs / PAGE
    page.write_text(with_every_key(page.read_text(encoding="utf-8")), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "docs")
