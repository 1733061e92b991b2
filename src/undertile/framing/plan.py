"""The answer: planes, what to do to each member at each height, what it costs and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.findings import Finding
from undertile.framing.dries import Dries


@dataclass(frozen=True)
class Plane:
    """Where a wall's stud faces end up (convention 2.4). ``at`` gives T in the flange zone. [in]"""

    wall: str
    offset: Fraction
    skew: Fraction
    lean: Fraction
    step: Fraction = Fraction(0)

    def at(self, along: Fraction, height: Fraction) -> Fraction:
        """T at a spot, without ``step``. [in]"""
        return self.offset + self.skew * along + self.lean * height


@dataclass(frozen=True)
class Piece:
    """One strip: stock name, actual thickness, and the run of heights it covers (indices, inclusive)."""

    stock: str
    thickness: Fraction
    first: int
    last: int


@dataclass(frozen=True)
class Recipe:
    """What is done to one member, before prices.

    ``families``: () leave, or of plane, strip, taper, knock over, wet bed, sister, replace, channel.
    ``depth``: what the plane takes at each height. ``added``: what strips, taper, knock or bed add.
    ``reset``: the replacing is a steel stud set again in its track, not a new stud.
    """

    families: tuple[str, ...] = ()
    passes: int = 0
    depth: tuple[Fraction, ...] = ()
    pieces: tuple[Piece, ...] = ()
    taper: tuple[Fraction, Fraction] | None = None
    knock: Fraction | None = None
    flange_shim: bool = False
    reset: bool = False

    @property
    def name(self) -> str:
        """``leave``, ``plane``, ``plane + strip``, ...; a steel stud is ``re-set``."""
        named = ["re-set" if self.reset and each == "replace" else each for each in self.families]
        return " + ".join(named) or "leave"


@dataclass(frozen=True)
class MemberPlan:
    """One stud of the plan.

    Attributes
    ----------
    offsets, finished, target, amounts : tuple of Fraction, one per height
        As read; after the work; the plane; finished - offset (convention 2.5). [in]
    minutes, dollars : Fraction
        Of this member alone (its flange shim with it), before ``factor``.
    reasons : tuple of str
        Why this and not less, and why not the next cheaper thing.
    """

    wall: str
    name: str
    along: Fraction
    heights: tuple[Fraction, ...]
    offsets: tuple[Fraction, ...]
    finished: tuple[Fraction, ...]
    target: tuple[Fraction, ...]
    recipe: Recipe
    minutes: Fraction
    dollars: Fraction
    reasons: tuple[str, ...] = ()

    @property
    def amounts(self) -> tuple[Fraction, ...]:
        """Signed amounts at each height, + added, - taken off (convention 2.5). [in]"""
        return tuple(f - o for f, o in zip(self.finished, self.offsets, strict=True))

    @property
    def touched(self) -> bool:
        """Whether anything but a flange shim is done."""
        return bool(self.recipe.families)


@dataclass(frozen=True)
class Charge:
    """Something paid once a wall or once a job: verify, plate edge, shoring, first taper, valve, backer."""

    wall: str
    what: str
    minutes: Fraction
    dollars: Fraction
    why: str = ""


@dataclass(frozen=True)
class RunnerUp:
    """A plan that loses: what it does differently, what it costs more and why."""

    what: str
    cost: Fraction | None
    more: Fraction | None
    why: str


@dataclass(frozen=True)
class Conflict:
    """Demands that cannot all hold, and for each the smallest change that frees it.

    Attributes
    ----------
    demands : tuple of str
        With their numbers and sources. Leave any one away and the others can hold.
    frees : tuple of (demand, change)
        Each is enough by itself (with ``more``: one for every conflict).
    partial : tuple of (demand, change)
        Not enough by itself: the change says what is in the way then.
    given : tuple of str
        What takes part and is not asked by anybody: bands, how far out planes are looked for.
    undecided : str
        What was not known in the time; ``""`` when all was.
    more : tuple of Conflict
        Further conflicts that share nothing with this one; each has to be freed too.
    """

    demands: tuple[str, ...]
    frees: tuple[tuple[str, str], ...]
    partial: tuple[tuple[str, str], ...] = ()
    given: tuple[str, ...] = ()
    undecided: str = ""
    more: tuple[Conflict, ...] = ()


@dataclass(frozen=True)
class FramingPlan:
    """The plan and its proof.

    ``state``: ``proved`` (gap 0), ``open`` (a time limit was hit: ``bound`` says how far), ``none`` (no plan
    meets every demand: see ``conflict``). ``dries``: the studs that are still to dry. Money in dollars, time
    in minutes.
    """

    state: Literal["proved", "open", "none"]
    planes: dict[str, Plane] = field(default_factory=dict)
    members: tuple[MemberPlan, ...] = ()
    charges: tuple[Charge, ...] = ()
    minutes: Fraction = Fraction(0)
    dollars: Fraction = Fraction(0)
    cost: Fraction | None = None
    bound: Fraction | None = None
    nodes: int = 0
    runner_ups: tuple[RunnerUp, ...] = ()
    conflict: Conflict | None = None
    findings: tuple[Finding, ...] = ()
    dries: tuple[Dries, ...] = ()

    @property
    def gap(self) -> Fraction | None:
        """How far the plan may be from the least, in dollars; 0 when proved."""
        if self.cost is None or self.bound is None:
            return None
        return self.cost - self.bound

    def member(self, name: str) -> MemberPlan:
        """The plan of one stud.

        Raises
        ------
        KeyError
            If the job has no such stud.
        """
        for member in self.members:
            if member.name == name:
                return member
        raise KeyError(name)
