"""No plan: a minimal set of what was asked that conflicts, and the smallest change that frees each.

Minimal: with everything else let go these alone leave no plan, and any one of them let go leaves one. Where a
room has several such sets that share nothing, each is found. Every change named was tried: with it a plan
exists, with one step less none does (docs/methods/conflict.md).
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from undertile.framing.loosen import LEAN_MOST, LEAN_STEP, Item, Spec, family_of, items_of, wish_of
from undertile.framing.problem import SIXTEENTH, FramingProblem
from undertile.framing.say import STEP
from undertile.framing.trial import Trial
from undertile.lengths import Unit

MOST = Fraction(3)
"""A change is looked for up to here. [in]"""
MOST_SETS = 4
"""So many sets that share nothing are looked for."""

Enough = Literal["room", "conflict", "these"]


@dataclass(frozen=True)
class Freed:
    """The smallest change at one item of a conflict.

    Attributes
    ----------
    item : Item
    spec : tuple of (Item, Fraction or None)
        What is changed: the item, or all that the same wish sets, or a thing moved; None = let go.
    enough : {"room", "conflict", "these"}
        With it the room has a plan; or has one once the other conflicts are freed; or only these demands no
        longer conflict and something else is in the way.
    still : tuple of Item
        What is then in the way, for ``these``; empty when it was not worked out.
    """

    item: Item
    spec: tuple[tuple[Item, Fraction | None], ...]
    enough: Enough
    still: tuple[Item, ...] = ()

    @property
    def amount(self) -> Fraction | None:
        """How large the change is, signed for a move; None = let go, no amount up to 3 in does. [in]"""
        return self.spec[0][1]


@dataclass(frozen=True)
class Contradiction:
    """Items that cannot all hold, and what frees each (those not worked out in the time are left out)."""

    items: tuple[Item, ...]
    frees: tuple[Freed, ...]
    range_binds: bool = False
    """Whether a plan would exist were planes looked for further out."""


@dataclass(frozen=True)
class Contradictions:
    """Every conflict found.

    Attributes
    ----------
    contradictions : tuple of Contradiction
    sure : bool
        Nothing was cut short by the time: every set is minimal, every change the smallest.
    all : bool
        Nothing but these is in the way; False where more were not looked for.
    nothing_helps : bool
        Even with everything let go there is no plan.
    questions : int
        How often the room was asked.
    """

    contradictions: tuple[Contradiction, ...]
    sure: bool
    all: bool
    nothing_helps: bool
    questions: int


def find_contradictions(
    problem: FramingProblem,
    unit: Unit = "in",
    *,
    time_limit_s: float = 10.0,
    clock: Callable[[], float] = time.monotonic,
) -> Contradictions:
    """Why a room has no plan.

    Parameters
    ----------
    problem : FramingProblem
        One without a plan.
    unit : {"in", "mm"}
        Amounts are whole multiples of 1/32 in, or of 1/2 mm.
    time_limit_s : float
        [s]
    clock : callable
        Seconds.

    Returns
    -------
    Contradictions
        None at all when a plan exists after all, or nothing was known in the time.
    """
    return _Finder(problem, unit, Trial(problem, unit, time_limit_s, clock)).run()


class _Finder:
    """One room, its items, and the questions asked of it."""

    def __init__(self, problem: FramingProblem, unit: Unit, trial: Trial) -> None:
        self.problem, self.unit, self.trial = problem, unit, trial
        self.items = items_of(problem)
        self.families = {item: family_of(item, problem) for item in self.items}
        self.sure = True

    def run(self) -> Contradictions:
        """Find sets that share nothing until the rest has a plan; then what frees each."""
        active = self.items
        if self.possible(self._without(())) is False:
            return Contradictions((), self.sure, True, True, self.trial.questions)
        cores: list[tuple[Item, ...]] = []
        possible = self.possible({})
        while possible is False and len(cores) < MOST_SETS:
            cores.append(self._told(self._core((), False, active)))
            gone = self._shared(cores[-1])
            active = tuple(item for item in active if item not in gone)
            possible = self.possible(self._without(active))
        contradictions = tuple(self._contradiction(core, cores) for core in cores)
        return Contradictions(contradictions, self.sure, possible is True, False, self.trial.questions)

    def possible(self, spec: Spec) -> bool | None:
        """As the trial, noting what was not known."""
        answer = self.trial.possible(spec)
        self.sure = self.sure and answer is not None
        return answer

    def _shared(self, core: tuple[Item, ...]) -> dict[Item, Fraction | None]:
        """What no other conflict may share with this one: its items and wishes, but other studs."""
        every = (each for i in core for each in ((i,) if i.kind == "stud" else self.families[i]))
        return dict.fromkeys(every)

    def _without(self, kept: Iterable[Item]) -> dict[Item, Fraction | None]:
        """Everything let go but these."""
        held = set(kept)
        return {item: None for item in self.items if item not in held}

    def _core(self, kept: tuple[Item, ...], new: bool, items: tuple[Item, ...]) -> tuple[Item, ...]:
        """A minimal part of ``items`` that has no plan together with ``kept``, the first ones preferred.

        Halves, so that a small set among many items takes few questions. An answer not known counts as a
        plan: the set then may be larger than it need be, and ``sure`` is off.
        """
        if new and self.possible(self._without(kept)) is False:
            return ()
        if len(items) == 1:
            return items
        half = (len(items) + 1) // 2
        first, second = items[:half], items[half:]
        late = self._core((*kept, *first), bool(first), second)
        early = self._core((*kept, *late), bool(late), first)
        return (*early, *late)

    @staticmethod
    def _told(core: tuple[Item, ...]) -> tuple[Item, ...]:
        """In the order to be told in: the published tolerances last."""
        return tuple(sorted(core, key=lambda item: item.kind in ("lean", "straightedge")))

    # -- what frees a conflict --------------------------------------------------------------------------

    def _contradiction(self, core: tuple[Item, ...], cores: Sequence[tuple[Item, ...]]) -> Contradiction:
        frees = []
        for item in core:
            freed = self._freed(item, core, cores)
            if freed is not None:
                frees.append(freed)
        return Contradiction(core, tuple(frees), self._range_binds(core))

    def _places(
        self, item: Item, core: tuple[Item, ...], cores: Sequence[tuple[Item, ...]]
    ) -> Iterator[tuple[Enough, dict[Item, Fraction | None], tuple[Item, ...]]]:
        """What is let go besides, from nothing to everything else; and what is loosened."""
        one, all_of_it = (item,), self.families[item]
        others = self._others(core, cores)
        for chosen in dict.fromkeys((one, all_of_it)):
            yield "room", {}, chosen
            if others:
                yield "conflict", {i: None for i in others if i not in chosen}, chosen
        yield "these", self._without(core), one

    def _others(
        self, core: tuple[Item, ...], cores: Sequence[tuple[Item, ...]]
    ) -> dict[Item, Fraction | None]:
        """Every wish of the other conflicts, let go."""
        wishes = (self.families[i] for other in cores if other is not core for i in other)
        return {item: None for family in wishes for item in family}

    def _freed(self, item: Item, core: tuple[Item, ...], cores: Sequence[tuple[Item, ...]]) -> Freed | None:
        for enough, base, chosen in self._places(item, core, cores):
            gone: dict[Item, Fraction | None] = dict.fromkeys(chosen)
            if self.possible({**base, **gone}) is True:
                spec = self._smallest(base, chosen) or gone
                still = self._still(item, self._others(core, cores)) if enough == "these" else ()
                return Freed(item, tuple(spec.items()), enough, still)
        return None

    def _still(self, item: Item, others: Spec) -> tuple[Item, ...]:
        """What is in the way once the wish behind an item and the other conflicts are let go."""
        gone = {*others, *self.families[item]}
        rest = tuple(each for each in self.items if each not in gone)
        if self.trial.late or self.possible(self._without(rest)) is not False:
            return ()
        return self._told(self._core((), False, rest))

    def _smallest(self, base: Spec, chosen: tuple[Item, ...]) -> dict[Item, Fraction | None] | None:
        """The smallest amount of these that frees; None when only letting go does."""
        kind = chosen[0].kind
        if kind in ("hold", "must"):
            return None
        if kind == "stud":
            return self._moved_studs(base, chosen)
        step, most = STEP[self.unit], MOST
        if kind == "lean":
            step, most = LEAN_STEP, LEAN_MOST
        rungs = _rungs(int(most / step))
        least = self._climb(base, chosen, step, rungs)
        if least is None:
            return None
        spec: dict[Item, Fraction | None] = dict.fromkeys(chosen, least * step)
        for other in self._said_better(chosen, least * step):
            if self.possible({**base, **other}) is True:
                return other
        return spec

    def _climb(
        self, base: Spec, chosen: tuple[Item, ...], step: Fraction, rungs: Sequence[int]
    ) -> int | None:
        """The least whole number of steps that frees: the first rung that does, then halving below it."""
        low = 0
        for high in rungs:
            if self.possible({**base, **dict.fromkeys(chosen, high * step)}) is True:
                break
            low = high
        else:
            return None
        while high - low > 1:
            middle = (low + high) // 2
            if self.possible({**base, **dict.fromkeys(chosen, middle * step)}) is True:
                high = middle
            else:
                low = middle
        return high

    def _said_better(
        self, chosen: tuple[Item, ...], amount: Fraction
    ) -> Iterator[dict[Item, Fraction | None]]:
        """The same change as something a person does: a held plane put one way, a drain moved."""
        item = chosen[0]
        if item.side == "both":
            yield {replace(item, side="low"): amount}
            yield {replace(item, side="high"): amount}
        wish = wish_of(item.name) if item.kind == "demand" else ""
        if wish == "drain-y" or wish.startswith("drain-x-"):
            away = (item.side == "high") == (wish != "drain-x-R")
            yield {Item("move drain", "", 0, wish[6]): amount if away else -amount}

    def _moved_studs(self, base: Spec, chosen: tuple[Item, ...]) -> dict[Item, Fraction | None] | None:
        """How far studs that may not be replaced would have to stand otherwise, back or out."""
        step = STEP[self.unit]
        moves = tuple(replace(item, kind="move stud") for item in chosen)
        near = self._reach(base, chosen)
        best: int | None = None
        for sign in (-1, 1):
            rungs = set(_rungs(int(MOST / step)))
            if near is not None and near * sign > 0:
                rungs.add(-(-abs(near) // step))
            elif near:
                continue
            rungs = {k for k in rungs if best is None or k < abs(best)}
            found = self._climb(base, moves, sign * step, sorted(rungs))
            if found is not None:
                best = sign * found
        return None if best is None else dict.fromkeys(moves, best * step)

    def _reach(self, base: Spec, chosen: tuple[Item, ...]) -> Fraction | None:
        """How far the first stud stands from where some plan has it replaced; 0 or None: no guide. [in]"""
        item = chosen[0]
        plan = self.trial.plan({**base, **dict.fromkeys(chosen)})
        member = next((m for m in plan.members if m.wall == item.wall and m.name == item.name), None)
        if member is None:
            return None
        wall = next(w for w in self.problem.walls if w.name == item.wall)
        needs = [g - o for g, o in zip(member.target, member.offsets, strict=True)]
        least = max(need - SIXTEENTH for need in needs)
        most = min(
            need + (0 if flange else SIXTEENTH) for need, flange in zip(needs, wall.flange, strict=True)
        )
        if least > most:
            return None
        return min(max(least, Fraction(0)), most) if least > 0 or most < 0 else Fraction(0)

    def _range_binds(self, core: tuple[Item, ...]) -> bool:
        """Whether the conflict is also one with how far out planes are looked for."""
        if any(item.kind not in ("demand", "term") for item in core) or self.trial.late:
            return False
        walls = tuple(
            replace(wall, t_low=wall.t_low - MOST, t_high=wall.t_high + MOST) for wall in self.problem.walls
        )
        left = max(self.trial.end - self.trial.clock(), 0.0)
        wider = Trial(replace(self.problem, walls=walls), self.unit, left, self.trial.clock)
        return wider.possible(self._without(core)) is True


def _rungs(most: int) -> tuple[int, ...]:
    """1, 2, 4, ... up to the most."""
    out = [1]
    while out[-1] * 2 < most:
        out.append(out[-1] * 2)
    return (*out, most)
