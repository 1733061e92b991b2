"""What a job can hold, as a small tree read off the stages' facts: tables, maps by name, and leaves.

Everything in this room that walks a job (addresses, the file, the log, the schema, the docs test) walks
this tree, so a new stage needs no line in any of them. A map of readings is keyed by height: nothing
else is read more than once in one place.
"""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from undertile.bounds import Bound
from undertile.lengths import Length

LeafKind = Literal["text", "choice", "flag", "whole", "number", "length", "reading"]


@dataclass(frozen=True)
class Leaf:
    """One fact that can be set.

    Attributes
    ----------
    kind : LeafKind
        ``reading`` is a length or one of ``choices`` (not measured, cannot reach).
    many : bool
        A list of such values.
    choices : tuple of str
        For ``choice`` and ``reading``: the words allowed.
    doc : str
    limits : tuple of (str, number)
        By the name they have in JSON Schema: ``minimum``, ``exclusiveMinimum``, ``minLength``.
    bound : Bound or None
        What a length can be at all.
    examples : tuple of str
        Of a text that is not any text (a day, a temperature): how it is written.
    unsaid : bool
        A choice that is ``unknown`` where nobody says it: both mean the same.
    """

    kind: LeafKind
    many: bool = False
    choices: tuple[str, ...] = ()
    doc: str = ""
    limits: tuple[tuple[str, int], ...] = ()
    bound: Bound | None = None
    examples: tuple[str, ...] = ()
    unsaid: bool = False


@dataclass(frozen=True)
class Table:
    """A table with known keys; ``required`` are those without a default."""

    fields: Mapping[str, Node]
    required: tuple[str, ...] = ()
    doc: str = ""


@dataclass(frozen=True)
class ByName:
    """A table whose keys are names; ``names`` lists them when they are fixed.

    ``by_height``: the keys are heights, and so may be a list beside the nearest ``heights`` above it.
    """

    item: Node
    names: tuple[str, ...] = ()
    by_height: bool = False
    doc: str = ""


Node = Leaf | Table | ByName


class _Fields(Mapping[str, Node]):
    """The fields of a model, each read when it is first asked for: a first screen asks for few of them."""

    def __init__(self, model: type[BaseModel]) -> None:
        self._model = model
        self._read: dict[str, Node] = {}

    def __getitem__(self, name: str) -> Node:
        if name not in self._read:
            self._read[name] = _field(self._model, name, self._model.model_fields[name])
        return self._read[name]

    def __contains__(self, name: object) -> bool:
        return name in self._model.model_fields

    def __iter__(self) -> Iterator[str]:
        return iter(self._model.model_fields)

    def __len__(self) -> int:
        return len(self._model.model_fields)


def table_of(model: type[BaseModel]) -> Table:
    """The shape of a model.

    Raises
    ------
    TypeError
        From a field that is asked for, if no job file can hold its kind; ``keys_of`` asks for all.
    """
    required = tuple(name for name, info in model.model_fields.items() if info.is_required())
    return Table(_Fields(model), required, _first_line(model.__doc__))


def _field(model: type[BaseModel], name: str, info: FieldInfo) -> Node:
    try:
        node = _node(info.annotation, info.description or "")
        if not isinstance(node, Leaf):
            return node
        bound = next((each for each in info.metadata if isinstance(each, Bound)), node.bound)
        examples = tuple(map(str, info.examples or ())) or node.examples
        unsaid = node.kind == "choice" and info.default == "unknown"
        return replace(node, limits=_limits(info), bound=bound, examples=examples, unsaid=unsaid)
    except TypeError as error:
        raise TypeError(f"{model.__name__}.{name}: {error}") from None


def _limits(info: FieldInfo) -> tuple[tuple[str, int], ...]:
    names = {"ge": "minimum", "gt": "exclusiveMinimum", "le": "maximum", "lt": "exclusiveMaximum"}
    names |= {"min_length": "minLength", "max_length": "maxLength"}
    found = [(schema, getattr(each, own, None)) for each in info.metadata for own, schema in names.items()]
    return tuple((schema, int(value)) for schema, value in found if value is not None)


def _first_line(text: str | None) -> str:
    return (text or "").strip().split("\n", 1)[0]


def _node(annotation: Any, doc: str) -> Node:
    if get_origin(annotation) is Annotated:
        inner, *notes = get_args(annotation)
        said = [note.description for note in notes if isinstance(note, FieldInfo) and note.description]
        node = _node(inner, doc or (said[0] if said else ""))
        if not isinstance(node, Leaf):
            return node
        bound = next((note for note in notes if isinstance(note, Bound)), node.bound)
        shown = [note.examples for note in notes if isinstance(note, FieldInfo) and note.examples]
        return replace(node, bound=bound, examples=tuple(map(str, shown[0])) if shown else node.examples)
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        shape = table_of(annotation)
        return Table(shape.fields, shape.required, doc or shape.doc)
    origin = get_origin(annotation)
    if origin in (Union, types.UnionType):
        return _union([part for part in get_args(annotation) if part is not type(None)], doc)
    if origin is dict:
        keys, values = get_args(annotation)
        item = _node(values, "")
        by_height = isinstance(item, Leaf) and item.kind == "reading"
        return ByName(item, _words(keys), by_height, doc)
    if origin is tuple:
        item = _node(get_args(annotation)[0], "")
        if not isinstance(item, Leaf) or item.many or get_args(annotation)[1:] != (Ellipsis,):
            raise TypeError("only a tuple[value, ...] of plain values fits in a job; use a dict by name")
        return Leaf(item.kind, True, item.choices, doc or item.doc, bound=item.bound)
    return _plain(annotation, doc)


def _union(parts: list[Any], doc: str) -> Node:
    nodes = [_node(part, doc) for part in parts]
    if len(nodes) == 1:
        return nodes[0]
    words = [node for node in nodes if isinstance(node, Leaf) and node.kind == "choice"]
    rest = [node for node in nodes if node not in words]
    if len(words) == 1 and len(rest) == 1 and isinstance(rest[0], Leaf) and rest[0].kind == "length":
        return Leaf("reading", False, words[0].choices, doc or rest[0].doc)
    raise TypeError("a job holds either one kind of value, or a length beside its states")


_PLAIN: dict[Any, LeafKind] = {
    str: "text",
    bool: "flag",
    int: "whole",
    Decimal: "number",
    Length: "length",
}


def _plain(annotation: Any, doc: str) -> Leaf:
    if get_origin(annotation) is Literal:
        return Leaf("choice", False, _words(annotation), doc)
    if annotation not in _PLAIN:
        raise TypeError(f"{annotation!r} does not fit in a job file")
    return Leaf(_PLAIN[annotation], doc=doc)


def _words(annotation: Any) -> tuple[str, ...]:
    if get_origin(annotation) is Annotated:
        annotation = get_args(annotation)[0]
    return tuple(map(str, get_args(annotation))) if get_origin(annotation) is Literal else ()


def keys_of(node: Node) -> Iterator[tuple[tuple[str, ...], Node]]:
    """Every key of the tree with its node; ``*`` stands for a name, ``height`` for a height.

    Yields
    ------
    path : tuple of str
    node : Node
    """
    if isinstance(node, Table):
        for name, inner in node.fields.items():
            yield (name,), inner
            yield from (((name, *path), deeper) for path, deeper in keys_of(inner))
    elif isinstance(node, ByName):
        name = "height" if node.by_height else "*"
        yield (name,), node.item
        yield from (((name, *path), deeper) for path, deeper in keys_of(node.item))
