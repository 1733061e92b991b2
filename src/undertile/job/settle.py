"""From a nested table, as a file or a log gives it, to a job; and every trouble found on the way.

Three looks at the same table, none of which stops at the first trouble: its shape (keys and kinds), its
facts against each other (``consistency``), its values (the stages' own models).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cached_property
from typing import Any

from pydantic import ValidationError

from undertile.errors import BoundError, LengthError
from undertile.job.address import Path, marked
from undertile.job.consistency import contradictions
from undertile.job.model import Job, job_shape
from undertile.job.near import nearest
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.job.trouble import Trouble, refused, shown
from undertile.lengths import Length, Unit, parse_length
from undertile.sentence import Sentence, form

MAX_NAME = 60
MAX_SAID = 12
MAX_ITEMS = 100
MAX_CHARACTERS = 2000
MAX_DIGITS = 9
MAX_VALUES = 10_000
"""Keys and values of one job: a room of 120 studs read at 40 heights would be 5,000."""
MAX_COMPARED = 500
"""Past this many troubles no nearest word is looked up any more: the first ones are the ones read."""


@dataclass(frozen=True)
class _Heights:
    """The heights a wall lists, in their order: exact value (None = unreadable) and typed text."""

    rows: tuple[tuple[Fraction | None, str], ...]

    @cached_property
    def _spelled(self) -> dict[Fraction | None, str]:
        return dict(reversed(self.rows))

    def spelled(self, height: Fraction) -> str | None:
        """The height as the wall spells it, the first time it does."""
        return self._spelled.get(height)

    def __str__(self) -> str:
        first = [shown(text).strip("`") for _, text in self.rows[:MAX_SAID]]
        return ", ".join([*first, *(["..."] if len(self.rows) > MAX_SAID else [])]) or "none listed yet"


def settle(raw: Mapping[str, Any], unit: Unit) -> tuple[Job | None, list[Trouble]]:
    """The job a nested table stands for, or everything that is wrong with it.

    Parameters
    ----------
    raw : mapping
        Tables, lists, texts, flags and numbers (``int``, ``Decimal``) by key; without ``version``.
    unit : {"in", "mm"}
        Unit of a number without a mark.

    Returns
    -------
    job : Job or None
        None exactly when there are troubles.
    troubles : list of Trouble
    """
    count = _count(raw)
    if count > MAX_VALUES:
        return None, [_too_many(count)]
    walk = _Walk(unit)
    plain = walk.table(raw, job_shape(), (), None)
    troubles = walk.troubles
    troubles += contradictions(plain, unit)
    bad = {trouble.path for trouble in troubles}
    try:
        job = Job.model_validate(plain, context={"unit": unit})
    except ValidationError as error:
        troubles += _judged(error, bad)
        return None, troubles
    return (None if troubles else job), troubles


@dataclass
class _Walk:
    """One look at keys and kinds; what is wrong is left out of the answer and listed."""

    unit: Unit
    troubles: list[Trouble] = field(default_factory=list)

    def table(self, raw: Any, node: Table, path: Path, heights: _Heights | None) -> dict[str, Any]:
        out: dict[str, Any] = {}
        if not isinstance(raw, Mapping):
            self.wrong(
                path,
                Sentence("a table"),
                shown(raw),
                Sentence("write its facts by name: {fields}", fields=_first(node.fields)),
            )
            return out
        if "heights" in node.fields:
            heights = self.heights(raw.get("heights"))
        for key, value in raw.items():
            inner = node.fields.get(key)
            here = (*path, key)
            if inner is None:
                self.wrong(
                    here, Sentence("a known key"), shown(key), self.nearest(key, node.fields), "key-unknown"
                )
                continue
            self.put(out, key, self.value(value, inner, here, heights))
        return out

    def by_name(self, raw: Any, node: ByName, path: Path, heights: _Heights | None) -> dict[str, Any]:
        if node.by_height:
            return self.by_height(raw, node, path, heights)
        out: dict[str, Any] = {}
        if not isinstance(raw, Mapping):
            self.wrong(
                path,
                Sentence("a table of entries by name"),
                shown(raw),
                Sentence("write each under its own name"),
            )
            return out
        for key, value in raw.items():
            here = (*path, key)
            if node.names and key not in node.names:
                self.wrong(
                    here, Sentence("a known name"), shown(key), self.nearest(key, node.names), "key-unknown"
                )
            elif not key.strip() or len(key) > MAX_NAME or not key.isprintable():
                self.wrong(
                    here,
                    Sentence("a name of 1 to {most} characters", most=MAX_NAME),
                    shown(key),
                    Sentence("give it a short name"),
                )
            else:
                self.put(out, key, self.value(value, node.item, here, heights))
        return out

    def by_height(self, raw: Any, node: ByName, path: Path, heights: _Heights | None) -> dict[str, Any]:
        if isinstance(raw, list):
            return self.beside_heights(raw, node, path, heights)
        out: dict[str, Any] = {}
        if not isinstance(raw, Mapping):
            expected = Sentence("a list beside the wall's heights, or a table by height")
            self.wrong(path, expected, shown(raw), _READINGS)
            return out
        seen: set[Fraction] = set()
        for key, value in raw.items():
            here = (*path, key)
            height = self.height(key, here)
            if height is None or (isinstance(value, str) and not value.strip()):
                continue
            spelled = marked(height) if heights is None else heights.spelled(height.inches)
            if height.inches in seen:
                self.wrong(
                    here,
                    Sentence("each height once"),
                    Sentence("{key} again", key=shown(key)),
                    Sentence("keep one of the two"),
                )
            elif spelled is None and heights is not None:
                self.wrong(
                    here,
                    Sentence("one of the wall's heights ({heights})", heights=heights),
                    shown(key),
                    Sentence("add it to the wall's `heights`, or correct it"),
                    "height-not-listed",
                )
            elif spelled is not None:
                self.put(out, spelled, self.value(value, node.item, here, heights))
            seen.add(height.inches)
        return out

    def beside_heights(
        self, raw: list[Any], node: ByName, path: Path, heights: _Heights | None
    ) -> dict[str, Any]:
        if heights is None:
            found = Sentence("a list, with no heights above it to stand beside")
            self.wrong(path, Sentence("a table by height"), found, _BY_HEIGHT)
            return {}
        if len(raw) != len(heights.rows):
            self.wrong(
                path,
                Sentence(
                    "{rows} values, one for each of the wall's heights ({heights})",
                    rows=len(heights.rows),
                    heights=heights,
                ),
                str(len(raw)),
                Sentence('write one for each, "" where not measured, "x" where it cannot be reached'),
                "readings-count",
            )
            return {}
        out: dict[str, Any] = {}
        for (_, text), value in zip(heights.rows, raw, strict=True):
            self.put(out, text, self.value(value, node.item, (*path, text), heights))
        return out

    def heights(self, raw: Any) -> _Heights:
        """The heights listed; what is unreadable among them is said elsewhere and keeps its place."""
        rows: list[tuple[Fraction | None, str]] = []
        for text in map(_typed, raw if isinstance(raw, list) else []):
            try:
                rows.append((parse_length(text, self.unit).inches, text))
            except LengthError:
                rows.append((None, text))
        return _Heights(tuple(rows))

    def height(self, key: str, here: Path) -> Length | None:
        try:
            return parse_length(key, self.unit)
        except LengthError as error:
            self.no_length(here, "a height", error)
            return None

    def value(self, raw: Any, node: Node, path: Path, heights: _Heights | None) -> Any:
        if isinstance(node, Table):
            return self.table(raw, node, path, heights) or None
        if isinstance(node, ByName):
            return self.by_name(raw, node, path, heights) or None
        if not node.many:
            return self.leaf(raw, node, path)
        if not isinstance(raw, list):
            self.wrong(path, Sentence("a list"), shown(raw), Sentence('write ["...", "..."]'))
            return None
        if len(raw) > MAX_ITEMS:
            self.wrong(
                path,
                Sentence("a list of at most {most}", most=MAX_ITEMS),
                str(len(raw)),
                Sentence("keep those of one room"),
            )
            return None
        return [self.leaf(item, node, (*path, f"item {at}")) for at, item in enumerate(raw, 1)]

    def leaf(self, raw: Any, node: Leaf, path: Path) -> Any:
        if node.kind == "flag":
            if isinstance(raw, bool):
                return raw
            self.wrong(
                path, Sentence("true or false"), shown(raw), Sentence("write true or false, without quotes")
            )
        elif node.kind in ("whole", "number"):
            return self.number(raw, node, path)
        elif node.kind in ("length", "reading") and _is_text_or_digits(raw):
            text = _typed(raw)
            return None if node.kind == "reading" and not text.strip() else text
        elif not isinstance(raw, str):
            self.wrong(
                path,
                (Sentence("a text") if node.kind == "text" else Sentence("a text in quotes")),
                shown(raw),
                _QUOTES,
            )
        elif len(raw) > MAX_CHARACTERS:
            self.wrong(
                path,
                Sentence("at most {most} characters", most=f"{MAX_CHARACTERS:,}"),
                f"{len(raw):,}",
                Sentence("shorten it"),
            )
        elif node.kind == "choice" and raw not in node.choices:
            words = Sentence("one of {words}", words=", ".join(node.choices))
            self.wrong(path, words, shown(raw), self.nearest(raw, node.choices))
        else:
            return raw
        return None

    def number(self, raw: Any, node: Leaf, path: Path) -> Any:
        kinds = (int,) if node.kind == "whole" else (int, Decimal)
        expected: str = Sentence("a whole number" if node.kind == "whole" else "a number")
        if isinstance(raw, bool) or not isinstance(raw, kinds):
            self.wrong(path, expected, shown(raw), Sentence("write it in digits, without quotes"))
            return None
        exact = Decimal(raw) if not isinstance(raw, int) or abs(raw) < 10**18 else Decimal("Infinity")
        exponent = exact.as_tuple().exponent
        if not isinstance(exponent, int) or exact.adjusted() >= MAX_DIGITS or -exponent > MAX_DIGITS:
            expected = Sentence(
                "{what} of at most {most} digits before and behind the point", what=expected, most=MAX_DIGITS
            )
            self.wrong(path, expected, shown(raw), Sentence("write it in plain digits"))
            return None
        return raw

    def put(self, out: dict[str, Any], key: str, value: Any) -> None:
        if value is not None:
            out[key] = value

    def nearest(self, word: str, known: Iterable[str]) -> str:
        return nearest(word, known) if len(self.troubles) < MAX_COMPARED else Sentence("take it out")

    def no_length(self, path: Path, expected: str, error: LengthError) -> None:
        found, do = refused(error)
        self.troubles.append(Trouble(path, expected, found, do))

    def wrong(self, path: Path, expected: str, found: str, do: str, code: str = "fact-unusable") -> None:
        self.troubles.append(Trouble(path, expected, found, do, code))


_QUOTES = Sentence('write it in quotes, like "..."')
_READINGS = 'write readings = ["...", "..."], one for each of the wall\'s heights'
_BY_HEIGHT = 'write { "48" = "...", "90" = "..." }'


def _count(raw: Mapping[str, Any]) -> int:
    """Keys and list items, however deep, counted without recursion."""
    count = 0
    waiting: list[Any] = [raw]
    while waiting:
        inner = waiting.pop()
        count += len(inner)
        waiting += [
            each
            for each in (inner.values() if isinstance(inner, Mapping) else inner)
            if isinstance(each, Mapping | list)
        ]
    return count


def _too_many(count: int) -> Trouble:
    expected = Sentence("one room, at most {most} values", most=f"{MAX_VALUES:,}")
    return Trouble(
        (),
        expected,
        f"{count:,}",
        Sentence("keep the readings of one room in one job"),
        "job-too-large",
    )


def _is_text_or_digits(value: Any) -> bool:
    return isinstance(value, int | Decimal | str) and not isinstance(value, bool)


def _typed(value: Any) -> str:
    """A value where a length is expected, as its text; a number stands for the digits it was typed with."""
    if isinstance(value, int) and abs(value) >= 10**18:
        return "a very long number"
    return str(value)


def _first(known: Iterable[str]) -> str:
    return ", ".join(list(known)[:4])


def _judged(error: ValidationError, bad: set[Path]) -> list[Trouble]:
    """What the stages' models say of values, one trouble for each place."""
    by_path: dict[Path, Trouble] = {}
    for one in error.errors(include_url=False):
        path, node = _place(one["loc"])
        if path in bad:
            continue
        trouble = _said(one, path, node)
        if path in by_path and one["type"] == "literal_error":
            continue
        by_path[path] = trouble
    return list(by_path.values())


def _place(loc: tuple[int | str, ...]) -> tuple[Path, Node]:
    """The path in the job of a model's complaint; labels of a union's members are left off."""
    path: list[str] = []
    node: Node = job_shape()
    for part in loc:
        if isinstance(node, Table) and isinstance(part, str) and part in node.fields:
            node = node.fields[part]
        elif isinstance(node, ByName):
            node = node.item
        elif not (isinstance(node, Leaf) and node.many and isinstance(part, int)):
            break
        path.append(f"item {part + 1}" if isinstance(part, int) else part)
    return tuple(path), node


_BOUNDS = {
    "greater_than": form("more than {gt}"),
    "greater_than_equal": form("{ge} or more"),
    "less_than": form("less than {lt}"),
    "less_than_equal": form("{le} or less"),
}


def _said(one: Any, path: Path, node: Node) -> Trouble:
    context = one.get("ctx", {})
    if one["type"] == "missing":
        group = path[:-1]
        doc = Sentence(" ({doc})", doc=Sentence(node.doc)) if node.doc else ""
        return Trouble(
            group,
            Sentence("`{key}`{doc}", key=path[-1], doc=doc),
            Sentence("none"),
            Sentence("add `{key}`", key=path[-1]),
            "fact-missing",
            (group,),
            str(path[-1]),
        )
    broken = context.get("error")
    if isinstance(broken, BoundError):
        return Trouble(path, broken.expected, shown(broken.typed), broken.do)
    if isinstance(broken, LengthError):
        found, do = refused(broken)
        reading = isinstance(node, Leaf) and node.kind == "reading"
        return Trouble(
            path, (Sentence('a reading, "" or "x"') if reading else Sentence("a length")), found, do
        )
    if one["type"] in _BOUNDS:
        return Trouble(
            path, Sentence(_BOUNDS[one["type"]], **context), shown(one["input"]), Sentence("correct it")
        )
    if one["type"] == "string_too_short":
        return Trouble(
            path, Sentence("a text"), Sentence("an empty one"), Sentence("write it in a few words")
        )
    if isinstance(broken, ValueError):
        found, _, do = str(broken).partition("; ")
        return Trouble(
            path, Sentence("facts that can be"), found, do or Sentence("correct it"), "facts-contradict"
        )
    return Trouble(path, Sentence("a value its stage can use"), shown(one["input"]), str(one["msg"]).lower())
