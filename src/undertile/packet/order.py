"""The order of work on the crew sheet: the plan's own steps (``pan.order``), worded for the crew.

Only the wording is done here: which steps there are, in which order, at which studs and with which figures is
the plan's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from undertile.framing.words import WorkStep, bottom_up
from undertile.packet.content import Step
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import LETTERS
from undertile.packet.words import Words
from undertile.pan.set_place import set_place

_MOVE = re.compile(r"Move the (.+), wall ([LBR])\.")
"""The one step whose figures are in its text alone."""
Wording = Callable[[PlanView, WorkStep, Words], Step]


def order_steps(view: PlanView, words: Words) -> tuple[Step, ...]:
    """Every step, in the order it is done, each once."""
    steps = list(_worded(view, words))
    members = [member for wall in view.walls for member in view.members(wall)]
    if not any(member.touched or member.recipe.flange_shim for member in members):
        steps.insert(0, Step(words("order-nothing")))
    if not view.steps:
        steps.append(Step(words("order-missing")))
    return tuple(dict.fromkeys(steps))


def _worded(view: PlanView, words: Words) -> Iterator[Step]:
    for step in view.steps:
        wording = WORDINGS.get(step.kind)
        yield Step(step.text) if wording is None else wording(view, step, words)


def _studs(key: str) -> Wording:
    return lambda view, step, words: Step(words(key, studs=words.listed(in_order(view, list(step.studs)))))


def _wall(key: str, *, stop: bool = False) -> Wording:
    return lambda view, step, words: Step(words(key, wall=words.wall(step.walls[0])), stop=stop)


def _plain(key: str) -> Wording:
    return lambda view, step, words: Step(words(key))


def in_order(view: PlanView, names: list[str]) -> list[str]:
    """Studs wall by wall, as a crew walks the room."""
    every = [member.name for wall in view.walls for member in view.members(wall)]
    return sorted(names, key=every.index)


def _first(view: PlanView, step: WorkStep, words: Words) -> Step:
    found = _MOVE.fullmatch(step.text)
    if found is None:
        return Step(step.text)
    return Step(words("order-move", what=words(f"thing-{found[1]}"), wall=words.wall(found[2])))


def _valve(view: PlanView, step: WorkStep, words: Words) -> Step:
    if not {"least", "most", "way"} <= set(step.data):
        return Step(words("order-reblock-plain"))
    way = words("way-back" if step.data["way"].startswith("back") else "way-room")
    return Step(words("order-reblock", low=step.data["least"], high=step.data["most"], way=way))


def _nail_plate(view: PlanView, step: WorkStep, words: Words) -> Step:
    what = words(f"over-{step.data['what_it_is']}", name=step.data["service"])
    return Step(
        words("order-nail-plate", stud=step.studs[0], height=step.data["height"], what=what), stop=True
    )


def _backer(view: PlanView, step: WorkStep, words: Words) -> Step:
    own, other = step.data["corner"].split("-")
    return Step(words("order-backer", a=own, b=other))


def _strips(view: PlanView, step: WorkStep, words: Words) -> Step:
    text = words("order-strips", studs=words.listed(in_order(view, list(step.studs))))
    members = {member.name: member for wall in view.walls for member in view.members(wall)}
    late = [name for name in step.studs if view.waits(members[name])]
    return Step(
        f"{text} {words('order-leave-off', studs=words.listed(in_order(view, late)))}" if late else text
    )


def _verify(view: PlanView, step: WorkStep, words: Words) -> Step:
    text = words("order-verify", walls=words.listed([words.wall(w) for w in view.walls if w in step.walls]))
    return Step(f"{text} {words('order-reread')}" if step.studs else text)


def _set(view: PlanView, step: WorkStep, words: Words) -> Step:
    place = set_place(view.built)
    if place is None:
        walls = words.listed([words.wall(wall) for wall in view.walls])
        return Step(
            words("order-set-not-shown") if view.built.alcove else words("order-set-against", walls=walls)
        )
    if place.least > place.most:
        return Step(words("order-set-once"), stop=True)
    if place.least == place.most:
        return Step(words("order-push-one"))
    for wall, left in (("L", place.left), ("R", place.right)):
        if not left:
            return Step(words("order-push-hard", wall=words.wall(wall)))
    return Step(words("order-push-off", left=step.data["L"], right=step.data["R"]))


def _shim(view: PlanView, step: WorkStep, words: Words) -> Step:
    wall = words.listed([words.wall(each) for each in step.walls])
    listed = ", ".join(f"{name} {step.data[name]}" if name in step.data else name for name in step.studs)
    if "play" in step.data:
        return Step(words("order-shims-play", wall=wall, list=listed, play=step.data["play"]))
    return Step(words("order-shims", wall=wall, list=listed))


def _after(view: PlanView, step: WorkStep, words: Words) -> Step:
    listed = [
        f"{member.name} {letter}"
        for wall in view.walls
        for member in view.members(wall)
        if member.name in step.studs
        for letter, piece in zip(LETTERS, bottom_up(member.recipe.pieces), strict=False)
        if piece in view.waits(member)
    ]
    wall = words.listed([words.wall(each) for each in step.walls])
    return Step(words("order-after", wall=wall, list=", ".join(listed)), waits=True)


WORDINGS: Mapping[str, Wording] = {
    "first": _first,
    "valve": _valve,
    "shore": _wall("order-shoring", stop=True),
    "replace": _studs("order-replace"),
    "re-set": _studs("order-re-set"),
    "plane": _studs("order-plane"),
    "plate edge": _wall("order-plate"),
    "knock over": _studs("order-knock"),
    "sister": _studs("order-sister"),
    "nail plate": _nail_plate,
    "backer": _backer,
    "channel": _wall("order-channel"),
    "build out": _strips,
    "wet bed": _studs("order-wet-bed"),
    "verify": _verify,
    "dry fit": _plain("order-dry-fit"),
    "set": _set,
    "shim": _shim,
    "after pan": _after,
    "verify again": _studs("order-verify-again"),
    "board screws": _plain("order-board"),
}
"""How each kind of step of ``pan.order.KINDS`` is worded."""
