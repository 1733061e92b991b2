"""The order of work on the crew sheet: framing's steps and the pan's, each printed once (common practice).

Framing says which stud belongs to which stage; the pan says how it is set, shimmed and what waits. Where the
pan's own words carry figures (which side it is pushed to), they are read back from them by fixed forms; a
line of another form is kept as it is worded, so that nothing is lost.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from undertile.framing.words import bottom_up, order_of_work
from undertile.packet.content import Step
from undertile.packet.figures import amount
from undertile.packet.plan_view import WALLS, PlanView
from undertile.packet.studs import LETTERS
from undertile.packet.words import Words

_HARD = re.compile(r"Set the pan hard against wall ([LR])\.")
_OFF = re.compile(r"Set the pan (.+) off wall L, (.+) off wall R\.")
_ONE = re.compile(r"The pan has one place only\.")
_DRY = re.compile(r"Dry fit the pan before mortar is mixed: straight down, no rocking\.")
_REBLOCK = re.compile(
    r"Re-block the valve: move the body (.+?) to (.+?) (back into the wall|toward the room)\."
)
_TOLD = (
    re.compile(r"Set plastic flange shims at the studs of wall [LBR] before fastening: .*"),
    re.compile(r"After the pan is set, put on the strips above the flange of wall [LBR]: .*"),
    re.compile(r"Board screws, wall [LBR]: .*"),
    re.compile(r"Put a backer at corner .*"),
)
"""What the pan says and the sheet words from the plan itself."""
_CORNER = re.compile(r"put a backer at corner ([LBR])-([LBR])")


def order_steps(view: PlanView, words: Words) -> tuple[Step, ...]:
    """Every step, in the order it is done, each once."""
    steps = [*_framing(view, words), *_pan(view, words)]
    if not any(member.touched or member.recipe.flange_shim for w in view.walls for member in view.members(w)):
        steps = [Step(words("order-nothing")), *steps]
    return tuple(steps)


def _framing(view: PlanView, words: Words) -> Iterator[Step]:
    assert view.plan is not None
    lines = order_of_work(view.plan, view.problem, view.unit)
    at_stage: dict[str, list[str]] = {}
    for line in lines:
        if line.stud:
            names = at_stage.setdefault(line.stage, [])
            if line.stud not in names:
                names.append(line.stud)
    charges = view.plan.charges
    for charge in charges:
        if charge.what == "re-block the valve":
            yield _reblock(view, words)
        elif charge.what.startswith("move the "):
            what = words(f"thing-{charge.what.removeprefix('move the ')}")
            yield Step(words("order-move", what=what, wall=words.wall(charge.wall)))
    for charge in charges:
        if charge.what == "shoring":
            yield Step(words("order-shoring", wall=words.wall(charge.wall)), stop=True)
    keys = {"replace": "replace", "plane": "plane", "knock over": "knock", "sister": "sister"}
    for stage, key in keys.items():
        if stage in at_stage:
            yield Step(words(f"order-{key}", studs=words.listed(in_order(view, at_stage[stage]))))
        if stage == "plane":
            for charge in charges:
                if charge.what == "plate edge":
                    yield Step(words("order-plate", wall=words.wall(charge.wall)))
    for charge in charges:
        if charge.what == "channel":
            yield Step(words("order-channel", wall=words.wall(charge.wall)))
    for stage, key in {"build out": "strips", "wet bed": "wet-bed"}.items():
        if stage in at_stage:
            yield Step(words(f"order-{key}", studs=words.listed(in_order(view, at_stage[stage]))))


def in_order(view: PlanView, names: list[str]) -> list[str]:
    """Studs wall by wall, as a crew walks the room."""
    every = [member.name for wall in view.walls for member in view.members(wall)]
    return sorted(names, key=every.index)


def _reblock(view: PlanView, words: Words) -> Step:
    for line in view.pan_order:
        if found := _REBLOCK.fullmatch(line):
            way = words("way-back" if found[3].startswith("back") else "way-room")
            return Step(words("order-reblock", low=found[1], high=found[2], way=way))
    return Step(words("order-reblock-plain"))


def _pan(view: PlanView, words: Words) -> Iterator[Step]:
    assert view.plan is not None
    members = [member for wall in view.walls for member in view.members(wall)]
    if any(member.touched for member in members):
        yield Step(words("order-reread"))
    for line in view.pan_order:
        if _DRY.fullmatch(line):
            yield Step(words("order-dry-fit"))
        elif found := _HARD.fullmatch(line):
            yield Step(words("order-push-hard", wall=words.wall(found[1])))
        elif found := _OFF.fullmatch(line):
            yield Step(words("order-push-off", left=found[1], right=found[2]))
        elif _ONE.fullmatch(line):
            yield Step(words("order-push-one"))
        elif not _REBLOCK.fullmatch(line) and not any(form.fullmatch(line) for form in _TOLD):
            yield Step(line)
    yield from _shims(view, words)
    yield from _after(view, words)
    for charge in view.plan.charges:
        if found := _CORNER.fullmatch(charge.what):
            yield Step(words("order-backer", a=found[1], b=found[2]))
    if view.screw(members[0]) is not None:
        yield Step(words("order-board"))
    verified = {charge.wall for charge in view.plan.charges if charge.what == "verify"}
    walls = [words.wall(wall) for wall in WALLS if wall in verified]
    if walls:
        yield Step(words("order-verify", walls=words.listed(walls)))


def _shims(view: PlanView, words: Words) -> Iterator[Step]:
    for wall in view.walls:
        gaps = [(member.name, view.shim(member)) for member in view.members(wall)]
        listed = ", ".join(f"{name} {amount(gap, view.unit)}" for name, gap in gaps if gap is not None)
        if listed:
            key = "order-shims-play" if view.built.alcove and wall in "LR" else "order-shims"
            yield Step(words(key, wall=words.wall(wall), list=listed))


def _after(view: PlanView, words: Words) -> Iterator[Step]:
    for wall in view.walls:
        listed = [
            f"{member.name} {letter}"
            for member in view.members(wall)
            for letter, piece in zip(LETTERS, bottom_up(member.recipe.pieces), strict=False)
            if piece in view.waits(member)
        ]
        if listed:
            yield Step(words("order-after", wall=words.wall(wall), list=", ".join(listed)), waits=True)
