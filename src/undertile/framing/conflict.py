"""No plan: why, in the trade's words, and the smallest change that frees it (docs/methods/conflict.md)."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.framing.conflictwords import Words, band_words
from undertile.framing.contradiction import Contradiction, Contradictions, find_contradictions
from undertile.framing.plan import Conflict
from undertile.framing.problem import FramingProblem
from undertile.framing.say import said
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined, with_first


def explain(
    problem: FramingProblem,
    *,
    unit: Unit = "in",
    own: Unit | None = None,
    time_limit_s: float = 10.0,
    clock: Callable[[], float] = time.monotonic,
) -> Conflict:
    """Why a room has no plan, in the trade's words, and what frees it.

    Parameters
    ----------
    problem : FramingProblem
        One that ``solve`` answered with ``none``.
    unit : {"in", "mm"}
        For words.
    own : {"in", "mm"}, optional
        The job's own unit: amounts are whole steps of it; else ``unit``.
    time_limit_s : float
        What is not worked out by then is said in ``undecided``. [s]
    clock : callable
        Seconds.

    Returns
    -------
    Conflict
        The first conflict; the others under ``more``.

    Raises
    ------
    PlanError
        If there is no wall, or a wall without studs.
    """
    found = find_contradictions(problem, own or unit, time_limit_s=time_limit_s, clock=clock)
    words = Words(problem, unit)
    undecided = _undecided(found, time_limit_s)
    if not found.contradictions:
        given = _ranges(problem, unit, [wall.name for wall in problem.walls]) if found.nothing_helps else ()
        return Conflict((), (), given=given, undecided=undecided)
    first, *rest = (_in_words(contradiction, problem, words, unit) for contradiction in found.contradictions)
    return replace(first, undecided=undecided, more=tuple(rest))


def _undecided(found: Contradictions, time_limit_s: float) -> str:
    if found.nothing_helps:
        return Sentence("even with everything asked let go no plane lies where planes are looked for")
    if not found.contradictions and found.all:
        return Sentence("nothing conflicts: a plan exists")
    after = f"{time_limit_s:g}"
    if not found.contradictions:
        return Sentence("cut short after {after} s: which demands conflict is not known", after=after)
    if not found.sure:
        return Sentence(
            "cut short after {after} s: fewer demands may conflict than are named, and smaller changes "
            "may do",
            after=after,
        )
    return "" if found.all else Sentence("more conflicts than these were not looked for")


def _in_words(contradiction: Contradiction, problem: FramingProblem, words: Words, unit: Unit) -> Conflict:
    frees: dict[str, list[str]] = {}
    partial: dict[str, list[str]] = {}
    for freed in contradiction.frees:
        change = words.change(freed.item, freed.spec)
        if freed.enough == "conflict":
            change = Sentence("{change}; the other conflicts have to be freed too", change=change)
        elif freed.enough == "these" and freed.still:
            others = joined((words.title(each) for each in freed.still), "{first}; {then}")
            change = Sentence(
                "{change}; then this is still in the way: {others}", change=change, others=others
            )
        elif freed.enough == "these":
            change = Sentence("{change}; something else is then still in the way", change=change)
        into = partial if freed.enough == "these" else frees
        into.setdefault(change, []).append(words.title(freed.item))
    given: tuple[str, ...] = ()
    if any(item.kind in ("stud", "hold", "must", "plate") for item in contradiction.items):
        given = (band_words(unit),)
    if contradiction.range_binds:
        walls = dict.fromkeys(wall for item in contradiction.items for wall in words.walls_of(item))
        given = (*given, *_ranges(problem, unit, walls))
    return Conflict(tuple(map(words.line, contradiction.items)), _told(frees), _told(partial), given)


def _told(changes: dict[str, list[str]]) -> tuple[tuple[str, str], ...]:
    """Each change once, with every demand it frees."""
    return tuple((joined(titles, "{first} and {then}"), change) for change, titles in changes.items())


def _ranges(problem: FramingProblem, unit: Unit, names: Iterable[str]) -> tuple[str, ...]:
    """How far out planes are looked for."""
    kept = set(names)
    return tuple(
        Sentence(
            "the plane of wall {wall} is looked for from {low} to {high}, measured as offsets are",
            wall=wall.name,
            low=said(wall.t_low, unit, signed=True),
            high=said(wall.t_high, unit, signed=True),
        )
        for wall in problem.walls
        if wall.name in kept
    )


def conflict_findings(conflict: Conflict) -> tuple[Finding, ...]:
    """Every conflict as something to act on, and what was not known.

    Parameters
    ----------
    conflict : Conflict

    Returns
    -------
    tuple of Finding
        ``no-plan`` for each conflict; ``no-plan-undecided`` when something was cut short.
    """
    found = [_finding(each) for each in (conflict, *conflict.more) if each.demands]
    if conflict.undecided:
        found.append(
            Finding(
                "no-plan-undecided",
                Severity.ACT,
                "the plan",
                Sentence("what stands in the way, and the smallest change that frees it"),
                conflict.undecided,
                Sentence("Free what is named and plan again."),
                "convention-4",
                {"given": "; ".join(conflict.given)} if conflict.given else {},
            )
        )
    return tuple(found)


def _finding(conflict: Conflict) -> Finding:
    changes = [change for _, change in conflict.frees or conflict.partial]
    text = joined(changes, "{first}; or {then}") or Sentence("take one of them back")
    return Finding(
        "no-plan",
        Severity.ACT,
        "the plan",
        Sentence("a plan that meets everything asked"),
        Sentence("it cannot be had: {demands}", demands=joined(conflict.demands, "{first}; {then}")),
        Sentence("{text}.", text=with_first(text, "upper")),
        "convention-4",
        {"demands": " | ".join(conflict.demands), "given": " | ".join(conflict.given)},
    )
