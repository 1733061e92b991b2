"""The mixing valve: finished face against the window its sheet prints, after the plane is chosen.

Depth is from the body datum to the finished face: plane at the valve, and board, membrane, mortar and tile on
it, less where the datum stands. A plane farther into the room makes the valve deeper. Judged on the plane, as
the planner does [framing contract 10]; the studs beside it may stand off the plane by their band, and that is
said.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check
from undertile.framing.facts import Valve
from undertile.framing.flatcheck import COVERAGE
from undertile.framing.terms import REBLOCK_REACH
from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.pan.seat import wall_of
from undertile.sentence import Sentence, joined, listed

LAYERS = {
    "board": Sentence("board"),
    "membrane": Sentence("membrane"),
    "mortar": Sentence("mortar"),
    "tile": Sentence("tile"),
}
"""What goes on the studs, from the wood out, and how it is called."""
REMEDY = "re-block the valve"


def finish_stack(built: Built) -> tuple[Fraction, tuple[str, ...], str]:
    """Thickness of what goes on the studs, the names of what is not given, and the stack in words.

    Returns
    -------
    stack : Fraction
        Sum of the layers given. [in]
    missing : tuple of str
    words : str
        ``board 1/2", membrane 1/32", ...``
    """
    layers = {name: getattr(built.framing.finish, name) for name in LAYERS}
    missing = tuple(LAYERS[name] for name, value in layers.items() if value is None)
    given = {name: value.inches for name, value in layers.items() if value is not None}
    words = joined(
        Sentence("{layer} {thickness}", layer=LAYERS[name], thickness=built.near(value))
        for name, value in given.items()
    )
    return sum(given.values(), ZERO), missing, words


def valve_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """The valve's depth window; nothing when the job has no valve.

    Returns
    -------
    checks : list of Check
    order : list of WorkStep
    """
    valve = built.framing.valve
    if valve is None:
        return [], []
    topic = Topic(
        "valve-depth", "Valve body to finished face", f"valve on wall {valve.wall}", "practice-valve"
    )
    limit = window(valve.window_low.inches, valve.window_high.inches, built.unit)
    stack, missing, words = finish_stack(built)
    wall = wall_of(built.survey, valve.wall)
    plane = built.target(valve.wall, valve.along.inches, valve.height.inches)
    if missing:
        return [
            topic.not_shown(limit, Sentence("Measure the thickness of {missing}.", missing=listed(missing)))
        ], []
    if wall is None or plane is None:
        return [topic.not_shown(limit, Sentence("Read the studs of wall {wall}.", wall=valve.wall))], []
    datum = wall.nominal - valve.reading.inches
    check, order = _judged(built, valve, topic, plane + stack - datum, words)
    return [check], order


def _judged(
    built: Built, valve: Valve, topic: Topic, depth: Fraction, words: str
) -> tuple[Check, list[WorkStep]]:
    spot = (valve.wall, valve.along.inches, valve.height.inches)
    plane, off = built.target(*spot) or ZERO, built.residual(*spot)
    low, high = valve.window_low.inches, valve.window_high.inches
    because = [
        Sentence("on the studs: {words}", words=words),
        Sentence("wall {wall}: plane {plane} at the valve", wall=valve.wall, plane=built.moved(plane)),
    ]
    if off:
        because.append(
            Sentence(
                "the studs beside it lie {off} proud of it"
                if off > 0
                else "the studs beside it lie {off} behind it",
                off=built.up(abs(off)),
            )
        )
    lacks = low - depth if depth < low else depth - high
    way = Sentence("back into the wall" if depth < low else "toward the room")
    reach = REBLOCK_REACH if valve.reblock_reach is None else valve.reblock_reach.inches
    eats = Sentence("wall {wall} {plane}", wall=valve.wall, plane=built.moved(plane)) if plane else ""
    planned = any(charge.what == REMEDY for charge in built.plan.charges)
    if lacks > 0 and planned and lacks <= reach:
        check = topic.judge(
            low if depth < low else high,
            low,
            high,
            built.unit,
            shown=lambda value: Sentence(
                "{value} after re-blocking by {by} {way}", value=value, by=built.up(lacks), way=way
            ),
            because=[
                *because,
                Sentence("as it is: {depth}; re-blocking is in the plan", depth=built.near(depth)),
            ],
            eats=eats,
        )
        most = built.down(min(lacks + high - low, reach))
        text = Sentence(
            "Re-block the valve: move the body {lacks} to {most} {way}.",
            lacks=built.up(lacks),
            most=most,
            way=way,
        )
        data = {"what": REMEDY, "least": built.up(lacks), "most": most, "way": way}
        return check, [WorkStep("valve", (valve.wall,), (), text, data)]
    check = topic.judge(
        depth,
        low,
        high,
        built.unit,
        sigma=max(built.sigma(spot), float(abs(off)) / COVERAGE),
        because=because,
        eats=eats,
        fix=_fix(built, valve, lacks, way, reach),
    )
    return check, []


def _fix(built: Built, valve: Valve, lacks: Fraction, way: str, reach: Fraction) -> str:
    short = built.up(max(lacks, ZERO))
    if not valve.may_reblock:
        return Sentence(
            "The valve may not be re-blocked and lacks {short}: move the plane, or change the finish.",
            short=short,
        )
    if lacks > reach:
        return Sentence(
            "It lacks {short} and re-blocking reaches {reach}: move the plane or the pipes.",
            short=short,
            reach=built.down(reach),
        )
    return Sentence("Re-block the valve {short} {way}, or move the plane.", short=short, way=way)
