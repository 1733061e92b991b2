"""The order of work, whole: the framing's and the pan's steps as one list (jobmap C6, convention 3.5).

What the floor and the water ask for comes before the walls are worked (``pan.before``). Walls are verified
before the pan stands in front of them; what can only go on after the pan is set is read
again after that. Every face of the tool shows this list: page, JSON and paper.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from undertile.framing.plan import FramingPlan, Piece
from undertile.framing.say import place, said
from undertile.framing.words import WorkLine, WorkStep, work_lines
from undertile.lengths import Unit
from undertile.pan.before import BEFORE
from undertile.survey.line import doubted_studs, line_spots
from undertile.survey.result import SurveyResult

KINDS = (
    "line",
    *BEFORE,
    "first",
    "valve",
    "shore",
    "replace",
    "re-set",
    "plane",
    "plate edge",
    "knock over",
    "sister",
    "nail plate",
    "backer",
    "channel",
    "build out",
    "wet bed",
    "verify",
    "dry fit",
    "set",
    "shim",
    "fasten",
    "after pan",
    "verify again",
    "board screws",
)
"""Kinds of steps in the order they are done."""
FROM_PAN = frozenset(
    {"valve", "nail plate", "backer", "dry fit", "set", "shim", "fasten", "after pan", "board screws"}
)
"""Kinds that the pan's consequences bring; the rest is the framing's."""
_TREATED = {
    "plane": "Plane {}.",
    "knock over": "Knock over the foot of {}.",
    "sister": "Sister {}.",
    "wet bed": "Wet beds, one board at a time: {}.",
}


def work_steps(
    plan: FramingPlan,
    waits: Mapping[str, Sequence[Piece]],
    pan: Iterable[WorkStep] = (),
    unit: Unit = "in",
    survey: SurveyResult | None = None,
) -> tuple[WorkStep, ...]:
    """Every step in the order it is done, each once.

    Parameters
    ----------
    plan : FramingPlan
        Without planes there is nothing to do yet.
    waits : mapping of stud to its strips that wait for the pan (`framing.words.waiting`)
    pan : iterable of WorkStep
        What the pan's consequences bring, of the kinds `FROM_PAN`.
    unit : {"in", "mm"}
    survey : SurveyResult, optional
        For where each wall's line hangs.

    Returns
    -------
    tuple of WorkStep
    """
    if not plan.planes:
        return ()
    pan = tuple(pan)
    lines = () if survey is None else _lines(plan, survey, unit)
    steps = [*lines, *_framing(plan, waits, pan, unit), *pan, *_again(waits)]
    return tuple(sorted(steps, key=lambda step: KINDS.index(step.kind)))


def whole_order(steps: Iterable[WorkStep], before: Iterable[WorkStep]) -> tuple[WorkStep, ...]:
    """The order of work with what floor and water bring into it (`pan.before`); "nothing to do yet" stays so.

    Added here and not in the pan's answer: floor and water are read anew without planning the walls again.
    """
    steps = tuple(steps)
    if not steps:
        return ()
    return tuple(sorted((*steps, *before), key=lambda step: KINDS.index(step.kind)))


def _lines(plan: FramingPlan, survey: SurveyResult, unit: Unit) -> Iterator[WorkStep]:
    """Every line is hung again as it hung, and marked before a cut takes its readings away."""
    told: dict[str, str] = {}
    for wall in survey.walls:
        spots = line_spots(wall, doubted_studs(survey)) if wall.name in plan.planes else ()
        if spots:
            listed = ", ".join(
                f"{said(each.reading, unit)} ({each.stud} at {place(each.height, unit)})" for each in spots
            )
            told[wall.name] = listed
    if told:
        walls = "; ".join(f"wall {wall} {listed}" for wall, listed in told.items())
        text = (
            f"Hang each wall's line where it hung: the rule shows on {walls}. Before the first cut mark both "
            "its ends up high, on ceiling or top plates, clear of the pan: for each re-read it hangs plumb "
            "from there."
        )
        yield WorkStep("line", tuple(told), (), text, told)


def _framing(
    plan: FramingPlan, waits: Mapping[str, Sequence[Piece]], pan: tuple[WorkStep, ...], unit: Unit
) -> Iterator[WorkStep]:
    lines = work_lines(plan, waits, unit)
    told = {step.data["what"] for step in pan if "what" in step.data}
    for line in lines:
        if line.stage == "first" and line.text.rpartition(", wall ")[0] not in told:
            yield WorkStep("first", (line.wall,), (), _sentence(line.text))
    reset = {member.name for member in plan.members if member.recipe.reset}
    for line in lines:
        if line.stud or line.stage in ("first", "verify"):
            continue
        kind = {"replace": "shore", "plane": "plate edge", "build out": "channel"}[line.stage]
        yield WorkStep(kind, (line.wall,), (), _sentence(line.text))
    new = _at(lines, "replace")
    if out := tuple(name for name in new if name not in reset):
        yield _treated(plan, "replace", out, f"Replace {', '.join(out)}.")
    if back := tuple(name for name in new if name in reset):
        yield _treated(plan, "re-set", back, f"Re-set in the track, face on the plane: {', '.join(back)}.")
    for kind, words in _TREATED.items():
        if studs := _at(lines, kind):
            yield _treated(plan, kind, studs, words.format(", ".join(studs)))
    if studs := _at(lines, "build out"):
        text = f"Strips and tapers, from the bottom up: {', '.join(studs)}."
        if late := [name for name in studs if waits.get(name)]:
            text += f" Leave off at {', '.join(late)} what is marked (after the pan)."
        yield _treated(plan, "build out", studs, text)
    shimmed = {name for step in pan if step.kind == "shim" for name in step.studs}
    if bare := tuple(name for name in _at(lines, "pan") if name not in shimmed):
        yield _treated(plan, "shim", bare, f"Set plastic flange shims before fastening: {', '.join(bare)}.")
    if (last := _at(lines, "after pan")) and not any(step.kind == "after pan" for step in pan):
        text = f"After the pan is set, put on the strips marked (after the pan): {', '.join(last)}."
        yield _treated(plan, "after pan", last, text)
    if walls := tuple(line.wall for line in lines if line.stage == "verify"):
        yield _verify(plan, walls, waits)


def _verify(plan: FramingPlan, walls: tuple[str, ...], waits: Mapping[str, Sequence[Piece]]) -> WorkStep:
    listed = f"wall{'s' if len(walls) > 1 else ''} {', '.join(walls)}"
    studs = tuple(member.name for member in plan.members if member.touched)
    text = f"Verify with straightedge and laser while nothing stands in front: {listed}."
    if studs:
        text += " Read again what was touched."
    if any(waits.values()):
        text += " What waits for the pan is read after it."
    return WorkStep("verify", walls, studs, text)


def _again(waits: Mapping[str, Sequence[Piece]]) -> Iterator[WorkStep]:
    """What waited for the pan is verified once it is on."""
    studs = tuple(name for name, late in waits.items() if late)
    if studs:
        walls = tuple(dict.fromkeys(name[0] for name in studs))
        yield WorkStep(
            "verify again",
            walls,
            studs,
            f"Verify above the flange, now that those strips are on: read {', '.join(studs)} again.",
        )


def _at(lines: Sequence[WorkLine], stage: str) -> tuple[str, ...]:
    """Studs of a stage in its order, each once."""
    return tuple(dict.fromkeys(line.stud for line in lines if line.stage == stage and line.stud))


def _treated(plan: FramingPlan, kind: str, studs: tuple[str, ...], text: str) -> WorkStep:
    return WorkStep(kind, tuple(dict.fromkeys(plan.member(name).wall for name in studs)), studs, text)


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}."
