"""A finished plan in the trade's words: recipe lines, marks on the studs, the order of work."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.framing.plan import FramingPlan, MemberPlan, Piece, Plane
from undertile.framing.problem import FramingProblem, WallProblem
from undertile.framing.say import place, said
from undertile.lengths import Unit

_ZERO = Fraction(0)


def at_heights(heights: Sequence[Fraction], chosen: Sequence[int], unit: Unit = "in") -> str:
    """Heights in words: ``at 48``, ``from 24 to 72``, ``over the full height``, ``at 2 and from 48 to 90``.

    Parameters
    ----------
    heights : sequence of Fraction
        Those read. [in]
    chosen : sequence of int, rising
        Indices, at least one.
    unit : {"in", "mm"}
    """
    if len(chosen) == len(heights) > 1:
        return "over the full height"
    runs: list[list[int]] = []
    for h in chosen:
        if runs and h == runs[-1][-1] + 1:
            runs[-1].append(h)
        else:
            runs.append([h])
    return " and ".join(
        f"at {place(heights[run[0]], unit)}"
        if len(run) == 1
        else f"from {place(heights[run[0]], unit)} to {place(heights[run[-1]], unit)}"
        for run in runs
    )


def each_height(heights: Sequence[Fraction], values: Sequence[Fraction], unit: Unit = "in") -> str:
    """Amounts by height, those at nothing left out: ``1/16 at 24, 3/16 at 48``."""
    texts = [said(v, unit, mark=False) for v in values]
    if len(set(texts)) == 1 and values[0] and len(values) > 1:
        return f"{texts[0]} over the full height"
    spots = zip(heights, values, texts, strict=True)
    return ", ".join(f"{text} at {place(z, unit)}" for z, v, text in spots if v)


def recipe_line(member: MemberPlan, unit: Unit = "in", waits: Sequence[Piece] = ()) -> str:
    """What is done to one member, in one line, in the order it is done.

    Parameters
    ----------
    member : MemberPlan
    unit : {"in", "mm"}
    waits : sequence of Piece
        Its strips that go on only after the pan is set (`waiting`): marked so.

    Returns
    -------
    str
        ``plane 2 passes at 48 (1/8 off); strip 7/32 from 24 to 72 (after the pan)``; ``leave``.
    """
    return "; ".join(text for _, text in _parts(member, unit, waits)) or "leave"


def _parts(member: MemberPlan, unit: Unit, waits: Sequence[Piece] = ()) -> Iterator[tuple[str, str]]:
    """Each thing done: (family, line)."""
    recipe, z = member.recipe, member.heights
    if recipe.passes:
        yield "plane", plane_line(member, unit)
    for family in recipe.families:
        if family == "strip":
            for piece in bottom_up(recipe.pieces):
                late = " (after the pan)" if piece in waits else ""
                yield "strip", strip_line(member, piece, unit) + late
        elif family == "taper" and recipe.taper is not None:
            low, high = (said(t, unit, mark=False) for t in recipe.taper)
            yield "taper", f"tapered rip {low} at {place(z[0], unit)} to {high} at {place(z[-1], unit)}"
        elif family == "knock over" and recipe.knock is not None:
            way = "into the room" if recipe.knock > 0 else "back"
            yield "knock over", f"knock the foot {said(abs(recipe.knock), unit, mark=False)} {way}"
        elif family == "wet bed":
            yield "wet bed", f"wet bed {each_height(z, member.amounts, unit)}"
        elif family == "sister":
            ahead = each_height(
                z, [f - o for f, o in zip(member.finished, member.offsets, strict=True)], unit
            )
            yield (
                "sister",
                "sister, its face on the plane" + (f": {ahead} in front of the old" if ahead else ""),
            )
        elif family == "replace":
            new = "replace, the new face on the plane"
            yield "replace", "re-set in its track, its face on the plane" if recipe.reset else new
        elif family == "channel":
            yield "channel", "under the channel"
    if recipe.flange_shim:
        yield "shim", "plastic shim behind the flange"


def plane_line(member: MemberPlan, unit: Unit = "in") -> str:
    """``plane 2 passes at 48 (1/8 off)``, ``plane up to 3 passes: 1/16 at 24, 3/16 at 48``."""
    recipe = member.recipe
    cut = [h for h, d in enumerate(recipe.depth) if d > 0]
    passes = f"{recipe.passes} pass{'es' if recipe.passes > 1 else ''}"
    depths = {recipe.depth[h] for h in cut}
    if not cut:  # paid for, and the face as it stands is where it should be
        return f"plane {passes}"
    if len(depths) == 1:
        off = said(depths.pop(), unit, mark=False)
        return f"plane {passes} {at_heights(member.heights, cut, unit)} ({off} off)"
    return f"plane up to {passes}: {each_height(member.heights, recipe.depth, unit)}"


def strip_line(member: MemberPlan, piece: Piece, unit: Unit = "in") -> str:
    """``strip 7/32 from 24 to 72``; with the stock's own name where that says more."""
    where = at_heights(member.heights, range(piece.first, piece.last + 1), unit)
    return f"strip {stock_words(piece.stock, piece.thickness, unit)} {where}"


def stock_words(name: str, thickness: Fraction, unit: Unit = "in") -> str:
    """Stock by its own name, with its thickness behind it where the name does not hold it."""
    thick = said(thickness, unit, mark=False)
    if re.search(rf"(?<![\w/-]){re.escape(thick)}(?![\w/])", name):
        return name.removesuffix('"')
    return f"{name} ({thick})"


def bottom_up(pieces: Iterable[Piece]) -> list[Piece]:
    """Strips in the order they go on: from the bottom, the longer under the shorter."""
    return sorted(pieces, key=lambda p: (p.first, -p.last, -p.thickness, p.stock))


@dataclass(frozen=True)
class Mark:
    """What the carpenter writes on the stud's face at one height (common practice).

    Attributes
    ----------
    height : Fraction
        [in]
    take, add : Fraction
        Off, and on; 0 = nothing. [in]
    text : str
        ``X -1/8``, ``↑ +7/32``, ``X -1/16 ↑ +1/8``, ``S`` where a sister, ``N`` where a new stud decides.
    """

    height: Fraction
    take: Fraction
    add: Fraction
    text: str


def marks(member: MemberPlan, unit: Unit = "in") -> tuple[Mark, ...]:
    """Marks for a stud's face, by height from the bottom; none for a stud that is left.

    Parameters
    ----------
    member : MemberPlan
    unit : {"in", "mm"}

    Returns
    -------
    tuple of Mark
        X = take off, arrow up = add, O = shim behind the flange at the lowest height.
    """
    recipe, amounts = member.recipe, member.amounts
    found = []
    for h, z in enumerate(member.heights):
        take = recipe.depth[h] if recipe.passes and recipe.depth else _ZERO
        add = max(amounts[h] + take, _ZERO)
        bits = [f"X {said(-take, unit, mark=False)}"] if take else []
        if "replace" in recipe.families:
            bits, add = ["N"], _ZERO
        elif "channel" in recipe.families:
            bits = []
        elif add:
            bits.append(f"↑ {said(add, unit, signed=True, mark=False)}")
        if "sister" in recipe.families:
            bits.append("S")
        if h == 0 and recipe.flange_shim:
            bits.append("O")
        if bits:
            found.append(Mark(z, take, add, " ".join(bits)))
    return tuple(found)


Stage = Literal[
    "first", "replace", "plane", "knock over", "sister", "build out", "wet bed", "verify", "pan", "after pan"
]
STAGES: tuple[Stage, ...] = (
    "first",
    "replace",
    "plane",
    "knock over",
    "sister",
    "build out",
    "wet bed",
    "verify",
    "pan",
    "after pan",
)
_STAGE_OF: dict[str, Stage] = {
    "plane": "plane",
    "knock over": "knock over",
    "sister": "sister",
    "replace": "replace",
    "taper": "build out",
    "strip": "build out",
    "wet bed": "wet bed",
    "shim": "pan",
}
_CHARGE_STAGE: dict[str, Stage] = {
    "shoring": "replace",
    "plate edge": "plane",
    "channel": "build out",
    "verify": "verify",
}
_CHARGE_WORDS = {
    "shoring": "shore wall {wall} before a stud comes out",
    "plate edge": "plane the plate edge of wall {wall}, or the board rides on it",
    "channel": "channel wall {wall} in rows, each packed to the plane",
    "verify": "verify wall {wall} with straightedge and laser; read again what was touched",
}


@dataclass(frozen=True)
class WorkLine:
    """One line of the order of work.

    Attributes
    ----------
    stage : str
        One of ``STAGES``, in that order.
    wall, stud : str
        ``stud`` is "" for work on a wall.
    text : str
    """

    stage: Stage
    wall: str
    stud: str
    text: str


def order_of_work(plan: FramingPlan, problem: FramingProblem, unit: Unit = "in") -> tuple[WorkLine, ...]:
    """The framing's part of the work in the order it is done (convention 3.5).

    ``pan.order.work_steps`` gives the whole list, the pan's part with it.

    Parameters
    ----------
    plan : FramingPlan
    problem : FramingProblem
        It was made for.
    unit : {"in", "mm"}

    Returns
    -------
    tuple of WorkLine
    """
    walls = {wall.name: wall for wall in problem.walls}
    waits = {member.name: waiting(member, walls[member.wall], plan) for member in plan.members}
    return work_lines(plan, waits, unit)


def work_lines(
    plan: FramingPlan, waits: Mapping[str, Sequence[Piece]], unit: Unit = "in"
) -> tuple[WorkLine, ...]:
    """The framing's part of the work in the order it is done.

    What is moved first; studs replaced; all planing; feet knocked over; sisters; strips and tapers from the
    bottom to the top; wet beds; walls verified before anything stands in front of them; shims with the pan;
    strips that narrow the pan's way in, after it is set.

    Parameters
    ----------
    plan : FramingPlan
    waits : mapping of stud to its strips that wait for the pan (`waiting`)
    unit : {"in", "mm"}

    Returns
    -------
    tuple of WorkLine
    """
    lines: list[tuple[int, Fraction, int, WorkLine]] = []

    def put(stage: Stage, wall: str, stud: str, text: str, height: Fraction = _ZERO) -> None:
        rank = STAGES.index(stage)
        lines.append(
            (
                rank,
                height if stage in ("build out", "after pan") else _ZERO,
                len(lines),
                WorkLine(stage, wall, stud, text),
            )
        )

    for charge in plan.charges:
        if charge.what == "first taper":
            continue  # the jig: part of the first taper's line
        words = _CHARGE_WORDS.get(charge.what, "{what}, wall {wall}")
        if charge.what != "plate edge":
            put(
                _CHARGE_STAGE.get(charge.what, "first"),
                charge.wall,
                "",
                words.format(wall=charge.wall, what=charge.what),
            )
    for member in plan.members:
        late = waits.get(member.name, ())
        for family, text in _parts(member, unit):
            if family in ("strip", "channel"):
                continue
            put(_STAGE_OF[family], member.wall, member.name, f"{member.name}: {text}", member.heights[0])
        for piece in bottom_up(member.recipe.pieces):
            text = f"{member.name}: {strip_line(member, piece, unit)}"
            if piece in late:
                text += ", after the pan is set"
            put(
                "after pan" if piece in late else "build out",
                member.wall,
                member.name,
                text,
                member.heights[piece.first],
            )
    for charge in plan.charges:
        if charge.what == "plate edge":  # with the planing of its wall, after its studs
            put("plane", charge.wall, "", _CHARGE_WORDS["plate edge"].format(wall=charge.wall))
    return tuple(line for *_, line in sorted(lines, key=lambda item: item[:3]))


def waiting(member: MemberPlan, wall: WallProblem, plan: FramingPlan) -> tuple[Piece, ...]:
    """Strips of a member that go on only after the pan is set, from the bottom up (`waits_for_pan`)."""
    return waits_for_pan(member, plan.planes.get(member.wall), wall.flange)


def waits_for_pan(member: MemberPlan, plane: Plane | None, flange: Sequence[bool]) -> tuple[Piece, ...]:
    """Strips that narrow the pan's way in and can wait (convention 3.5), from the bottom up.

    Those start above the flange zone and their face stands in front of the flange plane. What lies on a strip
    that waits waits with it.

    Parameters
    ----------
    member : MemberPlan
    plane : Plane or None
        Its wall's.
    flange : sequence of bool, one per height
        Whether a height lies in the flange zone; none does where no pan is asked for.

    Returns
    -------
    tuple of Piece
    """
    if plane is None or not any(flange):
        return ()
    late: list[Piece] = []
    for piece in bottom_up(member.recipe.pieces):
        run = range(piece.first, piece.last + 1)
        proud = any(member.finished[h] > plane.at(member.along, member.heights[h]) for h in run)
        on_top = any(under.first <= piece.last and piece.first <= under.last for under in late)
        if not flange[piece.first] and (proud or on_top):
            late.append(piece)
    return tuple(late)


@dataclass(frozen=True)
class WorkStep:
    """One step of the whole order of work: framing's and the pan's in one list (``pan.order``).

    Attributes
    ----------
    kind : str
        What is done: one of ``pan.order.KINDS``.
    walls, studs : tuple of str
        Where; () for work on no wall or stud of its own.
    text : str
        One or two sentences.
    data : dict
        The step's own figures by name, as they print: a shim's thickness by stud, play by wall.
    """

    kind: str
    walls: tuple[str, ...]
    studs: tuple[str, ...]
    text: str
    data: dict[str, str] = field(default_factory=dict)
