"""Which entries of a log stand. Decided by *supersedes* alone, never by a clock (convention 7.3)."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from undertile.errors import InputError
from undertile.findings import Finding, Severity
from undertile.job.address import Path, join, say
from undertile.job.entry import ENTRY_VERSION, Entry, merge
from undertile.job.model import fact_at
from undertile.job.shape import Leaf
from undertile.job.trouble import shown
from undertile.sentence import Sentence

Key = tuple[Path, str]
"""A fact and an id: what an entry stands under."""
N = TypeVar("N", str, Key)
UNDO = "undo"
"""The instrument of an entry that takes another back."""
RESTATED = "unit"
"""The instrument of an entry that writes what stood with its unit (``job.rewritten``): nobody read anew."""


@dataclass(frozen=True)
class Fact:
    """One fact with the entries that set it.

    Attributes
    ----------
    path : tuple of str
        Canonical.
    leaf : Leaf
    entries : tuple of Entry
        Every entry of this fact, by id.
    standing : tuple of Entry
        Those that no other replaces: one when all is well, two or more is a clash. A value that was taken
        back before anything was built on it makes none.
    disputed : bool
        A standing entry's id has another content too: no one can say which is sound.
    """

    path: Path
    leaf: Leaf
    entries: tuple[Entry, ...]
    standing: tuple[Entry, ...]
    disputed: bool = False


def facts_of(log: Iterable[Entry]) -> tuple[dict[Path, Fact], list[Finding]]:
    """Every fact of a log with what stands of it, and what is wrong with the log itself.

    Returns
    -------
    facts : dict of path to Fact
    findings : list of Finding
        Ids used twice, unknown ids and other facts in ``supersedes``, circles, facts no job has.
    """
    entries = merge(log)
    findings: list[Finding] = []
    by_fact, of_id = _sorted_out(entries, findings)
    struck = _struck(of_id, findings)
    facts = {}
    for path, (leaf, its) in by_fact.items():
        standing = _said_still(its, tuple(entry for entry in its if (path, entry.id) not in struck))
        disputed = any(len(of_id[entry.id]) > 1 for entry in standing)
        facts[path] = Fact(path, leaf, its, standing, disputed)
    return facts, findings


def _sorted_out(
    entries: Iterable[Entry], findings: list[Finding]
) -> tuple[dict[Path, tuple[Leaf, tuple[Entry, ...]]], dict[str, list[tuple[Path, Entry]]]]:
    """Entries by fact and by id; those that no job can hold are reported and kept out of the fold."""
    by_fact: dict[Path, tuple[Leaf, list[Entry]]] = {}
    of_id: dict[str, list[tuple[Path, Entry]]] = defaultdict(list)
    for entry in entries:
        if entry.version > ENTRY_VERSION:
            findings.append(_newer(entry))
            continue
        try:
            path, leaf = fact_at(entry.fact)
        except InputError as error:
            findings.append(_unknown_fact(entry, error))
            continue
        by_fact.setdefault(path, (leaf, []))[1].append(entry)
        of_id[entry.id].append((path, entry))
    for same in of_id.values():
        if len(same) > 1:
            findings.append(_reused(same))
    return {path: (leaf, tuple(its)) for path, (leaf, its) in by_fact.items()}, of_id


def _said_still(entries: Iterable[Entry], standing: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """What stands beside a value that its own typist took back: as if that value had never been typed.

    Not where another value was built on the one taken back, nor where a person had withdrawn the fact before
    it: then someone says "nothing" against someone's value, and that is a clash.
    """
    if len(standing) < 2:
        return standing
    of_id = {entry.id: entry for entry in entries}
    before = {entry.id: _before(entry, of_id) for entry in standing}
    gone = {
        entry.id
        for entry in standing
        if entry.value is None
        and entry.instrument == UNDO
        and not any(of_id[each].value is None and of_id[each].instrument != UNDO for each in before[entry.id])
        and not any(set(entry.supersedes) & before[other.id] for other in standing if other.id != entry.id)
    }
    return tuple(entry for entry in standing if entry.id not in gone) or (
        min(standing, key=lambda each: each.id),
    )


def _before(entry: Entry, of_id: Mapping[str, Entry]) -> set[str]:
    """Ids of all that an entry replaced, and of all that those did."""
    seen: set[str] = set()
    ahead = list(entry.supersedes)
    while ahead:
        each = ahead.pop()
        if each in of_id and each not in seen:
            seen.add(each)
            ahead += of_id[each].supersedes
    return seen


def _struck(of_id: Mapping[str, list[tuple[Path, Entry]]], findings: list[Finding]) -> set[Key]:
    """Facts and ids of entries that another entry of the same fact replaces."""
    edges: dict[Key, set[Key]] = {(path, own): set() for own, same in of_id.items() for path, _ in same}
    for own, same in of_id.items():
        for path, entry in same:
            for old in entry.supersedes:
                if (path, old) in edges:
                    edges[path, own].add((path, old))
                elif old in of_id:
                    findings.append(_other_fact(path, entry, of_id[old][0][0], old))
                else:
                    findings.append(_unknown_id(path, entry, old))
    circle_of: dict[Key, int] = {}
    for number, circle in enumerate(circles(edges)):
        findings.append(_circle(circle))
        circle_of.update(dict.fromkeys(circle, number))
    return {
        old
        for own, olds in edges.items()
        for old in olds
        if own not in circle_of or circle_of[own] != circle_of.get(old)
    }


def circles(edges: Mapping[N, Collection[N]]) -> list[tuple[N, ...]]:
    """Groups of nodes that reach each other, and nodes that reach themselves, each sorted.

    Strongly connected components without recursion; components of one node count only with an edge to
    itself. Every target must be a key.
    """
    index: dict[N, int] = {}
    low: dict[N, int] = {}
    open_nodes: list[N] = []
    is_open: set[N] = set()
    found: list[tuple[N, ...]] = []
    for root in edges:
        if root in index:
            continue
        work = [(root, iter(edges[root]))]
        index[root] = low[root] = len(index)
        open_nodes.append(root)
        is_open.add(root)
        while work:
            node, rest = work[-1]
            for target in rest:
                if target not in index:
                    index[target] = low[target] = len(index)
                    open_nodes.append(target)
                    is_open.add(target)
                    work.append((target, iter(edges[target])))
                    break
                if target in is_open:
                    low[node] = min(low[node], index[target])
            else:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[node])
                if low[node] == index[node]:
                    at = open_nodes.index(node)
                    group = open_nodes[at:]
                    del open_nodes[at:]
                    is_open.difference_update(group)
                    if len(group) > 1 or node in edges[node]:
                        found.append(tuple(sorted(group)))
    return sorted(found)


def first_said(fact: Fact, entry: Entry) -> Entry:
    """The entry in which a value was typed, of one that only writes it again with its unit."""
    of_id = {each.id: each for each in fact.entries}
    seen = {entry.id}
    while entry.instrument == RESTATED and len(entry.supersedes) == 1:
        before = of_id.get(entry.supersedes[0])
        if before is None or before.id in seen:
            break
        seen.add(before.id)
        entry = before
    return entry


def history(log: Iterable[Entry], fact: str) -> tuple[Entry, ...]:
    """Every entry of one fact, each after all that it replaces; ids decide among equals.

    Parameters
    ----------
    log : iterable of Entry
    fact : str
        Address, a height in it in any form.

    Raises
    ------
    InputError
        If the job has no such fact.
    """
    path, _ = fact_at(fact)
    facts, _ = facts_of(log)
    left = list(facts[path].entries) if path in facts else []
    out: list[Entry] = []
    while left:
        waiting = {entry.id for entry in left}
        ready = [entry for entry in left if not waiting & set(entry.supersedes) - {entry.id}]
        step = ready or left  # a circle has no first: its entries go by id
        out += step
        left = [entry for entry in left if entry not in step]
    return tuple(out)


def said_by(entry: Entry) -> str:
    """An entry as a clash shows it: value, who, when, where."""
    value = "withdrawn" if entry.value is None else shown(entry.value) if entry.value else "not measured"
    by = f"{entry.who} at {entry.time} on {entry.device}"
    return f"{value} by {by}" + (f" with {entry.instrument}" if entry.instrument else "")


def _finding(
    code: str, where: Path | str, expected: str, found: str, next_step: str, ids: Iterable[str]
) -> Finding:
    at = where if isinstance(where, str) else say(where)
    data = {"ids": ", ".join(sorted(set(ids)))}
    if not isinstance(where, str):
        data["fact"] = join(where)
    return Finding(code, Severity.ACT, at, expected, found, next_step, "convention-7", data)


def _newer(entry: Entry) -> Finding:
    return _finding(
        "entry-newer",
        f"entry {shown(entry.id)}",
        Sentence("version {version} or older", version=ENTRY_VERSION),
        Sentence("version {version}, written by a newer undertile", version=entry.version),
        Sentence("Update this copy; the entry is kept, and left out until then."),
        [entry.id],
    )


def _unknown_fact(entry: Entry, error: InputError) -> Finding:
    return _finding(
        "entry-fact-unknown",
        f"entry {shown(entry.id)}",
        Sentence("a fact of a job"),
        str(error),
        Sentence("Type the fact again under its right name; the entry is kept, and left out."),
        [entry.id],
    )


def _reused(same: list[tuple[Path, Entry]]) -> Finding:
    said = "; ".join(f"{say(path)}: {said_by(entry)}" for path, entry in same)
    return _finding(
        "entry-id-reused",
        same[0][0],
        Sentence("one content under the id {id}", id=shown(same[0][1].id)),
        Sentence("{number} contents: {said}", number=len(same), said=said),
        Sentence(
            "Find out which copy is sound and write the fact again, superseding this id; left out until then."
        ),
        [same[0][1].id],
    )


def _unknown_id(path: Path, entry: Entry, old: str) -> Finding:
    return _finding(
        "supersedes-unknown",
        path,
        Sentence("entries that are in this log"),
        Sentence("{entry} supersedes {old}, which is not here", entry=shown(entry.id), old=shown(old)),
        Sentence("Merge the log that holds it; until then the new value stands as it is."),
        [entry.id, old],
    )


def _other_fact(path: Path, entry: Entry, other: Path, old: str) -> Finding:
    return _finding(
        "supersedes-other-fact",
        path,
        Sentence("an entry to supersede entries of its own fact"),
        Sentence(
            "{entry} supersedes {old}, which is about {other}",
            entry=shown(entry.id),
            old=shown(old),
            other=say(other),
        ),
        Sentence(
            "Withdraw {other} by an entry of its own if it is wrong; it stands until then.", other=say(other)
        ),
        [entry.id, old],
    )


def _circle(circle: tuple[Key, ...]) -> Finding:
    ids = [each for _, each in circle]
    return _finding(
        "supersedes-circle",
        circle[0][0],
        Sentence("an order of replacement with a last entry"),
        Sentence("{ids} replace each other in a circle", ids=", ".join(map(shown, ids))),
        Sentence("Settle it with a new entry that supersedes all of them; computed with none until then."),
        ids,
    )
