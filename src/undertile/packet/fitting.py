"""What is looked at and measured when the pan goes in: before mortar is mixed, and with the pan set."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.words import bottom_up
from undertile.packet.content import Tick
from undertile.packet.figures import amount, placed
from undertile.packet.plan_view import PlanView
from undertile.packet.whys import Whys
from undertile.packet.words import Words
from undertile.pan.gaps import SHIM_OVER
from undertile.pan.play import width_between
from undertile.pan.seat import DIAGONAL_LIMIT, asked_depths, inches, play_window

LETTERS = "abcdefghijklmnopqrstuvwxyz"
"""A strip of a stud by the order it goes on."""


def waiting_pieces(view: PlanView) -> tuple[str, ...]:
    """Strips that wait for the pan, by stud and letter: ``B4 b``."""
    return tuple(
        f"{member.name} {letter}"
        for wall in view.walls
        for member in view.members(wall)
        for letter, piece in zip(LETTERS, bottom_up(member.recipe.pieces), strict=False)
        if piece in view.waits(member)
    )


def before_mortar(view: PlanView, words: Words, whys: Whys) -> tuple[Tick, ...]:
    """Dry fit and sizes; nothing where there is no pan."""
    pan, unit = view.rebuild.job.pan.pan, view.unit
    if pan.width is None and pan.depth is None:
        return ()
    ticks = []
    if any(member.touched for wall in view.walls for member in view.members(wall)):
        ticks.append(Tick(words("mortar-boxes")))
    if waits := waiting_pieces(view):
        ticks.append(Tick(words("mortar-waits", list=words.listed(waits))))
    if pan.width is not None and pan.depth is not None:
        sizes = {"width": placed(pan.width.inches, unit), "depth": placed(pan.depth.inches, unit)}
        ticks.append(Tick(words("mortar-pan", **sizes), box=True))
    ticks += _widths(view, words, whys)
    if view.built.alcove:
        limit = inches(pan.diagonal_limit)
        value = amount(DIAGONAL_LIMIT if limit is None else limit, unit)
        said = words("differ-at-most", value=value)
        ticks.append(Tick(words("mortar-diagonals", limit=said), box=True))
    ticks.append(Tick(words("mortar-rock")))
    if view.rebuild.job.pan.drain is not None:
        ticks.append(Tick(words("mortar-outlet")))
    ticks.append(Tick(words("mortar-else")))
    return tuple(ticks)


def before_fastening(view: PlanView, words: Words) -> tuple[Tick, ...]:
    """Shims and the drain's joint, with the pan set and its flange not yet fastened."""
    pan, unit = view.rebuild.job.pan.pan, view.unit
    if pan.width is None and pan.depth is None:
        return ()
    ticks = []
    members = [member for wall in view.walls for member in view.members(wall)]
    shims = [f"{m.name} {amount(gap, unit)}" for m in members if (gap := view.shim(m)) is not None]
    if shims:
        ticks.append(Tick(words("fasten-shims", list=", ".join(shims))))
    ticks.append(Tick(words("fasten-flange", gap=amount(SHIM_OVER, unit))))
    if loose := view.stand_off:
        listed = ", ".join(f"{name} {view.built.up(gap)}" for name, gap in loose.items())
        ticks.append(Tick(words("fasten-loose", list=listed, gap=amount(SHIM_OVER, unit))))
    if view.rebuild.job.pan.drain is not None:
        ticks.append(Tick(words("fasten-drain")))
    return tuple(ticks)


def _widths(view: PlanView, words: Words, whys: Whys) -> list[Tick]:
    """Clear opening between the planes at each depth asked: as planned, and from least to most."""
    pan, unit, built = view.rebuild.job.pan.pan, view.unit, view.built
    if pan.width is None or not built.alcove or not {"L", "R"} <= set(view.walls):
        return []
    window, said = play_window(pan), []
    for depth in asked_depths(pan):
        opening = built.opening(depth)
        faces = [built.target(side, depth, built.seat_top(side)) for side in "LR"]
        if opening is None or None in faces:
            continue
        planned = opening - sum((face for face in faces if face is not None), Fraction(0))
        wood, _ = width_between(built, depth, built.seat_top("L"))
        behind = wood - planned
        figures = {
            "depth": placed(depth, unit),
            "wood": built.near(wood),
            "least": built.near(pan.width.inches + window.low + behind),
            "most": built.near(pan.width.inches + window.widest + behind),
        }
        said.append(words("mortar-width", **figures))
    if not said:
        return []
    low, high = amount(window.low, unit), amount(window.widest, unit)
    mark = whys.mark(
        words("why-width"),
        "",
        words("why-width-rule", pan=placed(pan.width.inches, unit), low=low, high=high),
        words.source("practice-pan-fit"),
        "undertile explain JOB play",
    )
    return [Tick(text, box=True, why=mark) for text in said]
