"""The order of work on the crew sheet: the plan's own steps (``pan.order``), worded for the crew.

Only the wording is done here: which steps there are, in which order, at which studs and with which figures is
the plan's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction

from undertile.floor.result import FloorResult
from undertile.framing.terms import EDGE_BACK, EDGE_PROUD
from undertile.framing.words import WorkStep
from undertile.packet.content import Step
from undertile.packet.cover import COVERS, cover_line, may_cover
from undertile.packet.figures import amount, placed
from undertile.packet.fitting import waiting_pieces
from undertile.packet.plan_view import PlanView
from undertile.packet.told import told
from undertile.packet.words import Words
from undertile.pan.gaps import SHIM_OVER
from undertile.pan.seat import asked_depths
from undertile.pan.set_place import play_left, set_place
from undertile.wood.result import WoodResult

_MOVE = re.compile(r"Move the (.+), wall ([LBR])\.")
"""The one step whose figures are in its text alone."""
Wording = Callable[[PlanView, WorkStep, Words], Step]


def order_steps(
    view: PlanView,
    words: Words,
    water: WoodResult | None = None,
    floor: FloorResult | None = None,
    today: str = "",
) -> tuple[Step, ...]:
    """Every step, in the order it is done, each once.

    Parameters
    ----------
    view : PlanView
    words : Words
    water : WoodResult, optional
        What holds covering back, and what studs dry to; else as the job was planned with.
    floor : FloorResult, optional
        What is done on the floor; else as the job was planned with.
    today : str
        ``2026-03-04``: a date that has gone by unread is told so; "" = there is no clock.
    """
    own = view.rebuild.results
    water = own.get("wood") if water is None else water
    beside = {"wood": water, "floor": own.get("floor") if floor is None else floor}
    steps = list(_worded(view, words, water, view.steps_with(beside, today)))
    members = [member for wall in view.walls for member in view.members(wall)]
    if not any(member.touched or member.recipe.flange_shim for member in members):
        steps.insert(0, Step(words("order-nothing")))
    if not view.steps:
        steps.append(Step(words("order-missing")))
    return tuple(dict.fromkeys(steps))


def _worded(
    view: PlanView, words: Words, water: WoodResult | None, every: tuple[WorkStep, ...]
) -> Iterator[Step]:
    covering = cover_line(water, words)
    for step in every:
        if step.kind in COVERS and covering:
            yield Step(covering, stop=not may_cover(water))
            covering = ""
        wording = WORDINGS.get(step.kind)
        yield Step(step.text) if wording is None else wording(view, step, words)


def _studs(key: str) -> Wording:
    return lambda view, step, words: Step(words(key, studs=words.listed(in_order(view, list(step.studs)))))


def _wall(key: str, *, stop: bool = False) -> Wording:
    return lambda view, step, words: Step(words(key, wall=words.wall(step.walls[0])), stop=stop)


def _said(*, stop: bool = False) -> Wording:
    """The stage's own sentence."""
    return lambda view, step, words: Step(told(step.text, words), stop=stop)


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
    members = [m for wall in view.walls for m in view.members(wall) if m.name in step.studs]
    tapers = any(member.recipe.taper is not None for member in members)
    key = "order-strips-tapers" if tapers else "order-strips"
    text = words(key, studs=words.listed([member.name for member in members]))
    late = [each for each in waiting_pieces(view) if each.split()[0] in step.studs]
    return Step(f"{text} {words('order-leave-off', list=words.listed(late))}" if late else text)


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
    back = f"{words('order-set-back')} " if "B" in view.walls else ""
    if place.least == place.most:
        return Step(back + words("order-push-one"))
    for wall, left in (("L", place.left), ("R", place.right)):
        if not left:
            return Step(back + words("order-push-hard", wall=words.wall(wall)))
    if place.left != place.right:
        return Step(back + words("order-push-off", left=step.data["L"], right=step.data["R"]))
    text = back + words("order-push-centred", each=step.data["L"])
    play, left = _least_play(view), place.left + place.right
    if play is not None and play > left:
        text += " " + words("order-out-of-square", play=view.built.down(play))
    return Step(text)


def _least_play(view: PlanView) -> Fraction | None:
    """The least play straight across, of the depths asked. [in]"""
    pan, built, found = view.rebuild.job.pan.pan, view.built, []
    for depth in asked_depths(pan):
        opening = built.opening(depth)
        faces = [built.target(side, depth, built.seat_top(side)) for side in "LR"]
        if opening is None or built.width is None or None in faces:
            return None
        found.append(opening - sum((face for face in faces if face is not None), built.width))
    return min(found, default=None)


def _shim(view: PlanView, step: WorkStep, words: Words) -> Step:
    wall = words.listed([words.wall(each) for each in step.walls])
    listed = ", ".join(f"{name} {step.data[name]}" if name in step.data else name for name in step.studs)
    text = words("order-shims", wall=wall, list=listed)
    side = step.walls[0] if len(step.walls) == 1 else ""
    play = play_left(view.built, side) if side in ("L", "R") else Fraction(0)
    if play > SHIM_OVER:
        text += " " + words("order-shims-play", play=view.built.near(play))
    return Step(text)


def _board(view: PlanView, step: WorkStep, words: Words) -> Step:
    """The board, and how it meets each face that stays."""
    meets = [
        words(
            "order-board-meets",
            name=name,
            wall=words.wall(edge.wall),
            along=placed(edge.along.inches, view.unit),
            back=amount(EDGE_BACK if edge.step_back is None else edge.step_back.inches, view.unit),
            proud=amount(EDGE_PROUD if edge.step_proud is None else edge.step_proud.inches, view.unit),
        )
        for name, edge in view.rebuild.job.framing.edges.items()
    ]
    return Step(" ".join([words("order-board"), *meets]))


def _dry_fit(view: PlanView, step: WorkStep, words: Words) -> Step:
    tilt = view.rebuild.job.pan.way_in.tilt_height
    if tilt is None:
        return Step(words("order-dry-fit"))
    return Step(words("order-dry-fit-low", height=placed(tilt.inches, view.unit)))


def _after(view: PlanView, step: WorkStep, words: Words) -> Step:
    listed = [each for each in waiting_pieces(view) if each.split()[0] in step.studs]
    wall = words.listed([words.wall(each) for each in step.walls])
    return Step(words("order-after", wall=wall, list=", ".join(listed)), waits=True)


WORDINGS: Mapping[str, Wording] = {
    "floor stop": _said(stop=True),
    "floor joist": _said(),
    "floor engineer": _said(),
    "floor let dry": _said(),
    "floor wood": _said(),
    "floor cut": _said(),
    "floor dry": lambda view, step, words: Step(told(step.text, words), stop=step.data["may"] != "yes"),
    "floor patch": _said(),
    "floor level": _said(),
    "dry first": _said(),
    "first": _first,
    "valve": _valve,
    "shore": _wall("order-shoring", stop=True),
    "replace": _studs("order-replace"),
    "line": _plain("order-line"),
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
    "dry fit": _dry_fit,
    "set": _set,
    "shim": _shim,
    "fasten": _plain("order-fasten"),
    "after pan": _after,
    "verify again": _studs("order-verify-again"),
    "board screws": _board,
}
"""How each kind of step of ``pan.order.KINDS`` is worded."""
