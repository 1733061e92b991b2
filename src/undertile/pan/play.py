"""Does the pan drop in: play at every depth and height, where it binds, and the width stud to stud.

Play is the opening between the planes less the pan (convention 3.2). The planes are where boards and flange
end up; the bare studs may lie up to 1/16 behind, so both widths are given (convention 3.4).
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.say import code_place
from undertile.pan.built import ZERO, Built
from undertile.pan.gaps import SHIM_OVER, gap_at
from undertile.pan.judge import Topic, printed, worst
from undertile.pan.say import window
from undertile.pan.seat import Window, asked_depths, flange_heights, play_window, squareness
from undertile.sentence import Sentence, joined, listed

FIT = "practice-pan-fit"


def play_checks(built: Built) -> tuple[list[Check], list[Finding]]:
    """Drop-in first, then play at each depth and height, the square pan, and the widths.

    Returns
    -------
    checks : list of Check
    findings : list of Finding
    """
    if not built.alcove:
        return [_open_side(built)], []
    spots = [
        (depth, height)
        for depth in asked_depths(built.pan.pan)
        for height in flange_heights(built.survey, built.pan.pan)
    ]
    rows = [_play_at(built, *spot) for spot in spots]
    square = _square_pan(built)
    checks = [_drop_in(built, spots, rows, square), *rows, square, *(_width_at(built, *s) for s in spots)]
    return checks, _shim_every_stud(built, spots)


def _open_side(built: Built) -> Check:
    """A corner or a single wall: nothing faces the pan across, so there is no play to have."""
    topic = Topic("drop-in", "Does the pan drop in", "pan", FIT)
    if not built.walls:
        return topic.not_shown(_limit(built)[1], Sentence("Read the walls around the pan."))
    sides = [side for side in "LR" if side not in built.walls]
    nothing = Sentence(
        "nothing faces the pan across (no {walls}), so there is no play to keep", walls=walls_named(sides)
    )
    if built.width is None or built.depth is None:
        step = Sentence(
            "Measure the pan's width and depth over the outside faces of the flanges, at their widest."
        )
        return topic.not_shown("", step, because=(nothing,))
    if not built.plan.planes:
        return topic.not_shown("", Sentence("There is no plan yet: see what the planner says is in the way."))
    walls = walls_named(built.walls)
    return topic.said(
        Verdict.PASS,
        Sentence("open side"),
        "",
        because=(
            nothing,
            Sentence(
                "shown: the flange, the turn and the drain at {walls}, each on its own line", walls=walls
            ),
            Sentence(
                "not shown: what stands on the open side (a panel, a door, a fixture); this job does not "
                "hold it"
            ),
        ),
    )


def walls_named(walls: Sequence[str], *, many: bool = True) -> str:
    """``wall L``, ``walls L and R``; a line hangs at each, so of lines it is ``wall L and R``."""
    if len(walls) > 1 and many:
        return Sentence("walls {walls}", walls=listed(walls))
    return Sentence("wall {walls}", walls=listed(walls))


def _measure(built: Built) -> str:
    """What is missing before play can be shown; "" when nothing is."""
    if built.width is None:
        return Sentence("Measure the pan's width over the outside faces of the flanges, at their widest.")
    if built.survey.frame.opening_at_back is None:
        return Sentence("Measure the inside width from wall L to wall R at three depths in the flange zone.")
    if built.plane("L") is None or built.plane("R") is None:
        return Sentence("There is no plan for the side walls yet: see what the planner says is in the way.")
    return ""


def _limit(built: Built) -> tuple[Window, str]:
    allowed = play_window(built.pan.pan)
    return allowed, window(allowed.low, allowed.widest, built.unit)


def _code(built: Built, what: str, depth: Fraction, height: Fraction) -> str:
    many = len(flange_heights(built.survey, built.pan.pan)) > 1
    at = f"-at-{code_place(height)}" if many else ""
    return f"{what}-{code_place(depth)}{at}"


def _at(built: Built, wall: str, along: Fraction, height: Fraction) -> Fraction:
    """The flange plane, without the step above. [in]"""
    plane = built.plane(wall)
    return ZERO if plane is None else plane.at(along, height)


def _play_value(built: Built, depth: Fraction, height: Fraction) -> tuple[Fraction, Fraction]:
    """Play and the opening between the nominal planes at a spot. [in]"""
    opening = built.opening(depth) or ZERO
    planes = _at(built, "L", depth, height) + _at(built, "R", depth, height)
    return opening - planes - (built.width or ZERO), opening


def _play_at(built: Built, depth: Fraction, height: Fraction) -> Check:
    """Play at one depth asked and one flange height read."""
    allowed, limit = _limit(built)
    topic = Topic(
        _code(built, "play", depth, height),
        Sentence("Play {depth} from the back", depth=built.near(depth)),
        f"walls L and R at height {built.near(height)}",
        FIT,
    )
    if measure := _measure(built):
        return topic.not_shown(limit, measure)
    play, opening = _play_value(built, depth, height)
    taken = {side: _at(built, side, depth, height) for side in "LR"}
    because = [
        Sentence("opening {opening} between the nominal planes", opening=built.down(opening)),
        *(Sentence("wall {side}: plane {plane}", side=side, plane=built.moved(taken[side])) for side in "LR"),
        Sentence("pan {width} over the flanges", width=built.up(built.width or ZERO)),
    ]
    if allowed.high < play <= allowed.widest:
        because.append(
            Sentence("over {most}: only with every fastened stud shimmed", most=built.near(allowed.high))
        )
    sigma = built.sigma(("L", depth, height), ("R", depth, height), opening=depth)
    if sigma >= float(allowed.widest - allowed.low):
        return topic.not_shown(
            limit,
            Sentence(
                "The widths read are not sharp enough for this window: "
                "measure with pinch sticks at this depth and height."
            ),
            (
                *because,
                Sentence(
                    "play comes to {play}, uncertain by more than the whole window", play=built.down(play)
                ),
            ),
        )
    if play < allowed.low:
        fix = Sentence(
            "Take wall L or R back by {by} more in the flange zone, plate too, or measure the pan again.",
            by=built.up(allowed.low - play),
        )
    else:
        fix = Sentence("Build wall L or R out by {by} more.", by=built.up(play - allowed.widest))
    eats = joined(
        (Sentence("wall {side} {by}", side=side, by=built.moved(by)) for side, by in taken.items() if by > 0),
        "{first} and {then}",
    )
    return topic.judge(
        play, allowed.low, allowed.widest, built.unit, sigma=sigma, because=because, eats=eats, fix=fix
    )


def _drop_in(built: Built, spots: list[tuple[Fraction, Fraction]], rows: list[Check], square: Check) -> Check:
    """The answer in one line: the spot that binds and the worst verdict of all of them."""
    allowed, limit = _limit(built)
    topic = Topic("drop-in", "Does the pan drop in", "pan", FIT)
    if measure := _measure(built):
        return topic.not_shown(limit, measure)
    plays = [_play_value(built, *spot)[0] for spot in spots]
    margins = [min(play - allowed.low, allowed.widest - play) for play in plays]
    binds = min(range(len(spots)), key=lambda i: margins[i])
    ends = [printed(play, allowed.low, allowed.widest, built.unit) for play in (min(plays), max(plays))]
    spread = joined(dict.fromkeys(ends), "{first} to {then}")
    # Play asks straight across only; a square pan that cannot be shown does not hide play that can.
    judged = rows if square.verdict is Verdict.NOT_SHOWN else [*rows, square]
    verdict = worst(judged)
    where = Sentence(
        "binds {depth} from the back at height {height}",
        depth=built.near(spots[binds][0]),
        height=built.near(spots[binds][1]),
    )
    because = [
        where
        if len(set(margins)) > 1 or len(spots) == 1
        else Sentence("the same at every depth and height asked"),
        *rows[binds].because,
    ]
    if square.verdict is Verdict.NOT_SHOWN:
        because.append(Sentence("straight across only: {next_step}", next_step=square.next_step))
    return Check(
        code=topic.code,
        title=topic.title,
        where=topic.where,
        value=Sentence("play {spread}", spread=spread),
        limit=limit,
        margin=built.down(margins[binds], signed=True),
        verdict=verdict,
        source=topic.source,
        because=tuple(because),
        eats=rows[binds].eats,
        next_step=next((c.next_step for c in judged if c.verdict is verdict), ""),
        within_uncertainty=any(row.within_uncertainty for row in rows),
    )


def _square_pan(built: Built) -> Check:
    """Room for the rectangle itself, its back on the back plane: corner to corner, not straight across."""
    topic = Topic(
        "drop-in-square", "A square pan set against the back wall", "walls L, B and R", "convention-3"
    )
    limit = Sentence("{least} left over", least=window(ZERO, None, built.unit))
    measure = _measure(built)
    if not measure and built.depth is None:
        measure = Sentence(
            "Measure the pan's depth from the back flange to the front, over the outside faces."
        )
    if not measure and built.plane("B") is None:
        measure = Sentence("Read the back wall: without it a square pan has nothing to be set against.")
    turn = squareness(built.survey)
    if not measure and turn.assumed:
        measure = Sentence(
            "Measure how far the line of {walls} is out of square with the back line, or both diagonals.",
            walls=walls_named(turn.assumed, many=False),
        )
    if measure or built.depth is None or built.width is None:
        return topic.not_shown(limit, measure)
    opening = built.survey.frame.opening_at_back or ZERO
    skew = built.turn("B")
    room: list[tuple[Fraction, str]] = []
    for height in flange_heights(built.survey, built.pan.pan):
        for left, right in ((built.depth, ZERO), (ZERO, built.depth)):
            faces = _at(built, "L", left, height) + _at(built, "R", right, height)
            lines = turn.turn["L"] * left + turn.turn["R"] * right
            name: str = Sentence("front of L and back of R" if left else "back of L and front of R")
            room.append((opening - built.width - faces - lines - skew * (left - right), name))
    least, name = min(room)
    corners = ("L", built.depth, built.seat_top("L")), ("R", ZERO, built.seat_top("R"))
    over = skew * built.width
    turned = Sentence("not at all")
    if over:
        turned = Sentence("{over} over the pan's width", over=built.up(abs(over)))
    return topic.judge(
        least,
        ZERO,
        None,
        built.unit,
        shown=lambda value: Sentence("{value} left over", value=value),
        sigma=built.sigma(*corners, opening=built.depth),
        because=(
            Sentence("least between {name}", name=name),
            Sentence("the back plane turns {turned}", turned=turned),
        ),
        fix=Sentence(
            "Bring the side walls square to the back wall: the pan would only go in turned off the back wall."
        ),
    )


def _width_at(built: Built, depth: Fraction, height: Fraction) -> Check:
    """Width between the finished faces: bare studs, and with the shims in (convention 3.4)."""
    allowed, _ = _limit(built)
    topic = Topic(
        _code(built, "width", depth, height),
        Sentence("Width {depth} from the back, stud to stud", depth=built.near(depth)),
        f"walls L and R at height {built.near(height)}",
        "convention-3",
    )
    measure = _measure(built)
    if measure or built.width is None:
        return topic.not_shown(Sentence("the pan and its play"), measure)
    pan = built.width
    bare, shimmed = width_between(built, depth, height)
    behind = joined(_behind(built, wall, depth, height) for wall in "LR")
    least = min(bare, shimmed)
    return topic.judge(
        least,
        built.width + allowed.low,
        None,
        built.unit,
        shown=lambda _: Sentence(
            "{bare} bare, {shimmed} shimmed", bare=built.near(bare), shimmed=built.near(shimmed)
        ),
        sigma=built.sigma(("L", depth, height), ("R", depth, height), opening=depth),
        because=(
            Sentence("bare studs: {behind}", behind=behind),
            Sentence(
                "pan {width} and at least {least} play", width=built.up(pan), least=built.near(allowed.low)
            ),
            Sentence("the margin is that of the narrower"),
        ),
        fix=Sentence("A stud stands proud of its plane in the flange zone: see the gaps of each wall."),
    )


def width_between(built: Built, depth: Fraction, height: Fraction) -> tuple[Fraction, Fraction]:
    """Between the finished faces of L and R: bare, and with the flange shims in. [in]

    Straight between the studs on either side; a stud's shim brings it to the plane (convention 3.4).
    """
    opening = built.opening(depth) or ZERO
    bare = shimmed = opening
    for wall in "LR":
        plane = _at(built, wall, depth, height)
        bare -= plane + built.residual(wall, depth, height)
        shimmed -= plane + built.residual(wall, depth, height, shimmed_over=SHIM_OVER)
    return bare, shimmed


def _behind(built: Built, wall: str, depth: Fraction, height: Fraction) -> str:
    residual = built.residual(wall, depth, height)
    if not residual:
        return Sentence("{wall} on its plane", wall=wall)
    return Sentence(
        "{wall} {off} behind its plane" if residual < 0 else "{wall} {off} proud of its plane",
        wall=wall,
        off=built.up(abs(residual)),
    )


def _shim_every_stud(built: Built, spots: list[tuple[Fraction, Fraction]]) -> list[Finding]:
    """Play over the window is only allowed with every fastened stud shimmed: say which, and the minutes."""
    allowed = play_window(built.pan.pan)
    if allowed.shimmed is None or _measure(built):
        return []
    most = max(_play_value(built, *spot)[0] for spot in spots)
    if most <= allowed.high:
        return []
    extra = [
        member.name
        for wall in "LR"
        for member in built.members(wall)
        if built.beside_pan(member) and gap_at(member, built.flange(wall)) <= SHIM_OVER
    ]
    each = built.framing.prices.get("flange_shim", 1)
    return [
        Finding(
            "play-shim-every-stud",
            Severity.ACT,
            "pan",
            Sentence("play up to {high}, or every fastened stud shimmed", high=built.near(allowed.high)),
            Sentence("play is {most}", most=built.up(most)),
            Sentence(
                "Shim every fastened stud of walls L and R; beyond the plan's cost: {studs}, {each} minute "
                "each."
                if extra
                else "Shim every fastened stud of walls L and R; beyond the plan's cost: none, {each} minute "
                "each.",
                studs=", ".join(extra),
                each=each,
            ),
            FIT,
            {"studs": ",".join(extra)},
        )
    ]
