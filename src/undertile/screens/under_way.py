"""Leak tests under way: begun on the screens, and not yet ended with the numbers that make them tests."""

from __future__ import annotations

from functools import cache
from typing import Any, get_args

from undertile.errors import BoundError
from undertile.screens.context import Context, View


@cache
def _asked() -> dict[str, tuple[str, ...]]:
    """What each kind of test must have, by its table; what was mended and what cannot be are no tests."""
    from undertile.wood.facts import LeakFacts  # only where there is water: quick at first

    found = {}
    for kind, field in LeakFacts.model_fields.items():
        inside: tuple[Any, ...] = get_args(field.annotation)
        if kind not in ("symptom", "noticed", "mended", "not_here"):
            its = inside[1].model_fields
            found[kind] = tuple(name for name, one in its.items() if one.is_required())
    return found


def under_way(ctx: Context) -> list[View]:
    """Each test that somebody began and nobody ended, the newest first.

    Parameters
    ----------
    ctx : Context

    Returns
    -------
    list of dict
        ``text``, ``why`` (what is still to type) and ``href``: its form, open and first on its screen.
    """
    typed: dict[tuple[str, str], set[str]] = {}
    newest: dict[tuple[str, str], str] = {}
    for path, fact in ctx.state.facts.items():
        if path[:2] != ("wood", "leak") or len(path) != 5:
            continue
        for entry in fact.standing:
            if entry.value:
                key = (path[2], path[3])
                its = typed.setdefault(key, set())
                if path[4] != "when" or _is_a_day(entry.value):
                    its.add(path[4])
                newest[key] = max(newest.get(key, ""), entry.time)
    asked = _asked() if typed else {}
    out = []
    for kind, name in sorted(typed, key=lambda key: newest[key], reverse=True):
        lacks = [field for field in asked.get(kind, ()) if field not in typed[kind, name]]
        if lacks:
            out.append(_step(ctx, kind, name, lacks))
    return out


def _is_a_day(typed: str) -> bool:
    """Whether a day can be read; a test of one that cannot is not over: its day is asked, not a new test."""
    from undertile.wood.typed import read_moment

    try:
        read_moment(typed)
    except BoundError:
        return False
    return True


def _step(ctx: Context, kind: str, name: str, lacks: list[str]) -> View:
    says = ctx.says
    fields = [says.field("tests" if each in ("when", "by") else kind, each) for each in lacks]
    return {
        "text": says("water-next-finish", test=says(f"part-{kind}"), name=name),
        "why": says("water-next-finish-why", fields=", ".join(fields)),
        "href": ctx.href("water", "leak", type=kind),
    }
