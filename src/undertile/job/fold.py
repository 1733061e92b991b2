"""The fold: the job as it stands, out of a log of entries. The order of the log does not matter."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from functools import lru_cache
from typing import Any, get_args

from undertile.findings import Finding, Severity
from undertile.job.address import Path, height_key, join, say
from undertile.job.entry import Entry
from undertile.job.model import HEAD, Job, job_shape
from undertile.job.readdays import with_read_days
from undertile.job.settle import settle
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.job.standing import Fact, facts_of, said_by
from undertile.job.trouble import Trouble, shown
from undertile.lengths import Unit, parse_length
from undertile.sentence import Sentence


@dataclass(frozen=True)
class Clash:
    """Two or more standing entries for one fact: computed with none of them (convention 7.3)."""

    fact: str
    entries: tuple[Entry, ...]


@dataclass(frozen=True)
class Folded:
    """What a log comes to.

    Attributes
    ----------
    job : Job
        Holds every fact that stands and can be read; nothing else.
    findings : tuple of Finding
        One for each fact left out, and for each flaw of the log itself.
    clashes : tuple of Clash
    left_out : tuple of str
        Addresses of standing facts that are not in the job, sorted.
    """

    job: Job
    findings: tuple[Finding, ...] = ()
    clashes: tuple[Clash, ...] = ()
    left_out: tuple[str, ...] = ()


def fold(log: Iterable[Entry]) -> Folded:
    """The job as a log has it.

    Parameters
    ----------
    log : iterable of Entry
        In any order.

    Returns
    -------
    Folded
        Never raises for the content of entries: what cannot stand is left out, with a finding.
    """
    return folded(*facts_of(log))


def folded(facts: Mapping[Path, Fact], flaws: Iterable[Finding]) -> Folded:
    """The same, of a log's facts and flaws as ``facts_of`` has them."""
    findings = list(flaws)
    clashes = []
    standing: dict[Path, tuple[Leaf, str]] = {}
    every: set[Path] = set()
    for fact in facts.values():
        if len(fact.standing) > 1:
            clashes.append(Clash(join(fact.path), fact.standing))
            findings.append(_clash(fact))
        elif not fact.standing or fact.standing[0].value is None:
            continue
        elif not fact.disputed:
            standing[fact.path] = (fact.leaf, fact.standing[0].value)
        every.add(fact.path)
    job, kept, troubles = _built(standing)
    findings += [trouble.finding() for trouble in troubles]
    left_out = tuple(sorted(map(join, every - kept)))
    job = with_read_days(job, facts, kept)
    return Folded(job, tuple(findings), tuple(clashes), left_out)


def _built(standing: Mapping[Path, tuple[Leaf, str]]) -> tuple[Job, set[Path], list[Trouble]]:
    """The job of what can be read, the facts in it, and what was wrong with the others."""
    values, troubles = _read(standing)
    unit = _unit(values.get(("unit",)))
    if unit is None:
        waiting = len(standing) - sum(path[0] in ("name", "place", "unit") for path in standing)
        troubles.append(_no_unit(waiting))
        head = {path[0]: value for path, value in values.items() if path[0] in ("name", "place")}
        kept: set[Path] = {(key,) for key in head}
        return Job.model_validate({**head, "unit": "in"}), kept, troubles
    while True:
        job, wrong = settle(nested(values), unit)
        if job is not None:
            return job, set(values), troubles
        troubles += [replace(trouble, path=_spelled(trouble.path, unit)) for trouble in wrong]
        gone = {_spelled(path, unit) for trouble in wrong for path in trouble.dropped}
        left = {path: value for path, value in values.items() if not _lies_in(path, gone)}
        if len(left) == len(values):  # a stage that will not say which fact it minds: only the head is sure
            left = {path: value for path, value in values.items() if path[0] in HEAD}
        values = left


def _unit(text: Any) -> Unit | None:
    return text if text in get_args(Unit) else None


def _lies_in(path: Path, gone: set[Path]) -> bool:
    return any(path[:depth] in gone for depth in range(1, len(path) + 1))


def _spelled(path: Path, unit: Unit) -> Path:
    node: Node = job_shape()
    out: list[str] = []
    for part in path:
        if isinstance(node, Table):
            node = node.fields[part]
        elif isinstance(node, ByName):
            if node.by_height:
                part = height_key(parse_length(part, unit))
            node = node.item
        else:
            break  # the place in a list: the list is one fact
        out.append(part)
    return tuple(out)


def nested(values: Mapping[Path, Any]) -> dict[str, Any]:
    """Facts by path as a nested table; heights, bare inches in an address, are marked."""
    out: dict[str, Any] = {}
    for path, value in sorted(values.items(), key=lambda item: _in_order(item[0])):
        table = out
        node: Node = job_shape()
        for part in path[:-1]:
            node = node.fields[part] if isinstance(node, Table) else node.item  # type: ignore[union-attr]
            table = table.setdefault(part, {})
        last = path[-1]
        if isinstance(node, ByName) and node.by_height and not last.endswith("mm"):
            last += '"'
        table[last] = value
    return out


@lru_cache(maxsize=4096)
def _in_order(path: Path) -> tuple[tuple[int, str], ...]:
    """B2 before B10: runs of digits count as numbers; walls and fields in the order their shape has."""
    node: Node = job_shape()
    out: list[tuple[int, str]] = []
    for part in path:
        known = (
            list(node.fields) if isinstance(node, Table) else node.names if isinstance(node, ByName) else ()
        )
        if part in known:
            out.append((list(known).index(part), ""))
        else:
            pieces = _DIGITS.split(part)
            out += [(int(piece[:9]) if piece.isdecimal() else -1, piece) for piece in pieces]
        node = node.fields[part] if isinstance(node, Table) else node.item  # type: ignore[union-attr]
    return tuple(out)


_DIGITS = re.compile(r"([0-9]+)")


def _read(standing: Mapping[Path, tuple[Leaf, str]]) -> tuple[dict[Path, Any], list[Trouble]]:
    """Texts as values of their facts' kinds."""
    values: dict[Path, Any] = {}
    troubles: list[Trouble] = []
    for path, (leaf, text) in standing.items():
        try:
            values[path] = value_of(text, leaf)
        except ValueError:
            expected = _EXPECTED["list" if leaf.many else leaf.kind]
            troubles.append(
                Trouble(
                    path, expected, shown(text), Sentence("type it again as {expected}", expected=expected)
                )
            )
    return values, troubles


_EXPECTED = {
    "list": Sentence('a list of texts, like ["2", "48"]'),
    "flag": Sentence("true or false"),
    "whole": Sentence("a whole number in digits"),
    "number": Sentence("a number in digits"),
}


def value_of(text: str, leaf: Leaf) -> Any:
    """An entry's text as a value of its fact's kind; lengths and choices stay text.

    Raises
    ------
    ValueError
        If it is none.
    """
    if leaf.many:
        return _list(text)
    if leaf.kind == "flag":
        return {"true": True, "false": False}[text] if text in ("true", "false") else _no()
    if leaf.kind == "whole":
        return int(text) if len(text) < 12 and text.isascii() and text.lstrip("-").isdigit() else _no()
    if leaf.kind == "number":
        return _number(text)
    return text


def _no() -> Any:
    raise ValueError


def _number(text: str) -> Decimal:
    if len(text) > 24 or not text.isascii() or not text.replace(".", "", 1).lstrip("-").isdigit():
        raise ValueError
    try:
        return Decimal(text)
    except InvalidOperation:
        raise ValueError from None


def _list(text: str) -> list[str]:
    try:
        found = json.loads(text)
    except RecursionError:
        raise ValueError from None
    if not isinstance(found, list) or not all(isinstance(each, str) for each in found):
        raise ValueError
    return found


def _clash(fact: Fact) -> Finding:
    same = len({entry.value for entry in fact.standing}) == 1
    return Finding(
        code="entries-clash",
        severity=Severity.ACT,
        where=say(fact.path),
        expected=Sentence("one standing entry for one fact"),
        found=" against ".join(said_by(entry) for entry in fact.standing)
        + (" (the same text)" if same else ""),
        next_step=Sentence(
            "Settle it with an entry that supersedes all of them; computed with none until then."
        ),
        source="convention-7",
        data={
            "fact": join(fact.path),
            "ids": ", ".join(entry.id for entry in fact.standing),
            **{f"value {entry.id}": "" if entry.value is None else entry.value for entry in fact.standing},
        },
    )


def _no_unit(waiting: int) -> Trouble:
    return Trouble(
        ("unit",),
        Sentence("in or mm, before a number without a mark can be read"),
        Sentence("none that stands"),
        Sentence("settle the job's unit ({waiting} facts wait for it)", waiting=f"{waiting:,}"),
        "job-unit-missing",
    )
