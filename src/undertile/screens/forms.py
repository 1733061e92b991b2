"""Facts to fill in and what comes back: rows of a form out of the log, drafts of entries out of a form.

A row carries what stood when the page was made (``stands``) and what it said (``was``). Only a changed row
becomes an entry, and it supersedes what the person saw, so that two people's changes meet as a clash and
never bury each other.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping
from typing import Any

from undertile.errors import InputError
from undertile.job.address import Path, join
from undertile.job.model import fact_at
from undertile.job.shape import Leaf
from undertile.lengths import Unit
from undertile.screens import labels
from undertile.screens.amiss import trouble
from undertile.screens.context import Context, View
from undertile.store.interface import Draft

_BARE = re.compile(r"[+-]?[0-9]+(?:[.,][0-9]+)?")
UNKNOWN = "unknown"
"""What a choice is where nobody says it, mostly."""
MOST_ROWS = 400
"""Rows of one form; a whole room of readings is 240."""
MOST_BESIDE = 18
"""Letters that fit beside a head on a phone."""


def row(ctx: Context, address: str, label: str, *, hint: str = "", wide: bool = False) -> View:
    """One fact as a row of a form."""
    path, leaf = fact_at(address)
    value, ids = ctx.standing(address)
    shown = _shown(value, leaf)
    letter = letter_of(path, ctx.unit)
    if letter and not label.endswith(f", {letter}"):
        label = f"{label}, {letter}"
    out: View = {
        "fact": join(path),
        "label": label,
        "value": shown,
        "said": ctx.says.choice(shown, path[-1]) if _choices(leaf) else shown,
        "stands": list(ids),
        "clash": len(ids) > 1,
        "kind": "many" if leaf.many else leaf.kind,
        "choices": [
            {"value": word, "label": ctx.says.choice(word, path[-1])}
            for word in _choices(leaf)
            if not (leaf.unsaid and word == UNKNOWN)
        ],
        "silent": _silent(ctx, leaf, shown, path[-1]),
        "hint": hint,
        "wide": wide,
        "trouble": trouble(ctx, join(path)),
    }
    return {**out, "letter": letter} if letter else out


def _silent(ctx: Context, leaf: Leaf, shown: str, key: str) -> View:
    """The choice of saying nothing: *not known* where that means the same, offered once.

    A job in which that was typed keeps it: sending the form as it stands changes nothing.
    """
    if not leaf.unsaid:
        return {"value": "", "label": ctx.says("not-said")}
    return {"value": shown if shown == UNKNOWN else "", "label": ctx.says.choice(UNKNOWN, key)}


def letter_of(path: Path, unit: Unit) -> str:
    """The degrees a bare number is in, said in the label of its box; "" where it is no temperature."""
    warm = {
        ("wood", "visits"): ("air", "wood"),
        ("wood", "points"): ("temperatures",),
        ("wood", "leak", "colds"): ("surface", "air"),
    }
    for base, names in warm.items():
        rest = path[len(base) + 1 :]
        if path[: len(base)] == base and rest and rest[0] in names:
            return "F" if unit == "in" else "C"
    return ""


def _choices(leaf: Leaf) -> tuple[str, ...]:
    if leaf.kind == "flag":
        return ("true", "false")
    return leaf.choices if leaf.kind == "choice" else ()


def _shown(value: str | None, leaf: Leaf) -> str:
    """A standing value as a person types it: lists with commas."""
    if value is None:
        return ""
    if leaf.many:
        try:
            found = json.loads(value)
        except ValueError:
            return value
        if isinstance(found, list) and all(isinstance(each, str) for each in found):
            return ", ".join(found)
    return value


def drafts_of(ctx: Context, form: Iterable[tuple[str, str]]) -> list[Draft]:
    """The entries a form asks for, one for each row that changed.

    Parameters
    ----------
    ctx : Context
    form : iterable of (name, value)
        ``fact.N``, ``value.N``, ``was.N``, ``stands.N`` (ids, spaces between), ``withdraw.N``, ``letter.N``
        (the unit said beside the box: it goes after a bare number); or ``fact``
        and ``value`` alone, in pairs. A row that does not say what stood replaces what stands now; one that
        goes ``with.N`` another counts only when that one changed.

    Raises
    ------
    InputError
        If a fact is none of a job, or there are too many rows.
    """
    rows: dict[str, dict[str, str]] = {}
    pairs: dict[str, list[str]] = {"fact": [], "value": [], "stands": []}
    for name, value in form:
        if name in pairs:
            pairs[name].append(value)
            continue
        kind, dot, number = name.partition(".")
        if dot and kind in ("fact", "value", "was", "stands", "withdraw", "with", "letter"):
            rows.setdefault(number, {})[kind] = value
    for at, fact in enumerate(pairs["fact"]):
        told = {key: values[at] for key, values in pairs.items() if at < len(values)}
        rows[f"pair {at}"] = {"fact": fact, **told}
    if len(rows) > MOST_ROWS:
        raise InputError(f"expected at most {MOST_ROWS} facts at once, found {len(rows)}; send fewer")
    found = {name: _draft(ctx, each) for name, each in rows.items()}
    return [
        draft
        for name, draft in found.items()
        if draft is not None
        and not _sent_twice(ctx, draft)
        and ("with" not in rows[name] or found.get(rows[name]["with"]) is not None)
    ]


def _sent_twice(ctx: Context, draft: Draft) -> bool:
    """Whether this device has just said the same on the same ground: a glove that pressed twice."""
    fact = ctx.fact(draft.fact)
    if fact is None or len(fact.standing) != 1:
        return False
    stands = fact.standing[0]
    return (stands.device, stands.value, stands.supersedes) == (
        ctx.host.device,
        draft.value,
        tuple(sorted(draft.supersedes)),
    )


def _draft(ctx: Context, each: Mapping[str, str]) -> Draft | None:
    if not each.get("fact"):
        return None
    path, leaf = fact_at(each["fact"])
    fact = join(path)
    ids = tuple(each["stands"].split()) if "stands" in each else ctx.standing(fact)[1]
    if "withdraw" in each:
        return Draft(fact, None, ids) if ids else None
    if "value" not in each:
        return None
    value = each["value"].strip()
    if "was" in each and value == each["was"]:
        return None
    if each.get("letter") and _BARE.fullmatch(value):
        value = f"{value} {each['letter']}"
    if not value and leaf.kind != "reading":
        return Draft(fact, None, ids) if ids else None
    if leaf.many:
        parts = [part.strip() for part in value.replace(";", ",").split(",")]
        value = json.dumps([part for part in parts if part], ensure_ascii=False)
    return Draft(fact, value, ids)


def said(ctx: Context, address: str) -> str:
    """A fact in the person's words."""
    return labels.said(ctx.says, address)


def told(ctx: Context, address: str, value: str | None) -> str:
    """A value of a fact as a person says it: its states, and a choice by the words of its box."""
    if value is None or value.strip() in ("", "x"):
        return ctx.says.value(value)
    try:
        path, leaf = fact_at(address)
    except InputError:  # of a newer version
        return value
    if path[:2] == ("recheck", "done") and path[-1] == "did":
        from undertile.screens.ticked import did_words

        return did_words(ctx.says, value, ctx.unit)
    if path[:1] == ("photos",):
        return _of_photo(ctx, path[-1], value)
    shown = _shown(value, leaf)
    return ctx.says.choice(shown, path[-1]) if _choices(leaf) else shown


def _of_photo(ctx: Context, key: str, value: str) -> str:
    """What is said of a photo, in the words of the page it was taken on."""
    try:
        if key == "wall":
            return ctx.says.sheet(value)
        return ctx.says(f"stage-{value}") if key == "stage" else ctx.says.choice(value, key)
    except KeyError:  # of a newer version
        return value


def group(ctx: Context, title: str, rows: Iterable[View], note: str = "") -> dict[str, Any]:
    """Rows under one head; ``said`` is what they come to while they are folded away."""
    told = list(rows)
    values = [each["said"] for each in told if each["said"]]
    said = in_short(values) or ctx.says("filled-of", done=str(len(values)), of=str(len(told)))
    return {"title": title, "rows": told, "note": note, "said": said if values else ""}


def in_short(texts: list[str]) -> str:
    """What stands beside a head: the values themselves where they are few and short; else ``""``."""
    line = " · ".join(texts)
    return line if len(texts) == 1 or len(line) <= MOST_BESIDE else ""
