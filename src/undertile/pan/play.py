"""Does the pan drop in: play at every depth and height, where it binds, and the width stud to stud.

Play is the opening between the planes less the pan (convention 3.2). The planes are where boards and flange
end up; the bare studs may lie up to 1/16 behind, so both widths are given (convention 3.4).
"""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.pan.built import ZERO, Built
from undertile.pan.gaps import SHIM_OVER, gap_at
from undertile.pan.judge import judge, not_shown, worst
from undertile.pan.say import place, window
from undertile.pan.seat import Window, asked_depths, flange_heights, play_window, squareness

Answer = tuple[list[Check], list[Finding], list[str]]


def play_checks(built: Built) -> Answer:
    """Drop-in first, then play, widths and gaps.

    Returns
    -------
    checks, findings, order_of_work
    """
    checks: list[Check] = []
    findings: list[Finding] = []
    order: list[str] = []
    if built.alcove:
        rows = _play(built)
        square = _square_pan(built)
        checks += [_drop_in(built, rows, square), *rows, square, *_widths(built)]
        findings += _shim_every_stud(built)
        order += _push(built)
    return checks, findings, order


def _measure(built: Built) -> str:
    """What is missing before play can be shown; "" when nothing is."""
    if built.width is None:
        return "Measure the pan's width over the outside faces of the flanges, at their widest."
    if built.survey.frame.opening_at_back is None:
        return "Measure the inside width from wall L to wall R at three depths in the flange zone."
    if built.plane("L") is None or built.plane("R") is None:
        return "There is no plan for the side walls yet: see what the planner says is in the way."
    return ""


def _limit(built: Built) -> tuple[Window, str]:
    allowed = play_window(built.pan.pan)
    return allowed, window(allowed.low, allowed.widest, built.unit)


def _play(built: Built) -> list[Check]:
    """One check for each depth asked and flange height read."""
    allowed, limit = _limit(built)
    measure = _measure(built)
    heights = flange_heights(built.survey, built.pan.pan)
    checks = []
    for depth in asked_depths(built.pan.pan):
        for height in heights:
            at = f"-at-{place(height, built.unit)}" if len(heights) > 1 else ""
            code = f"play-{place(depth, built.unit)}{at}"
            title = f"Play {built.near(depth)} from the back"
            where = f"walls L and R at height {built.near(height)}"
            if measure:
                checks.append(not_shown(code, title, where, limit, "practice-pan-fit", measure))
            else:
                checks.append(_play_at(built, code, title, where, depth, height, allowed))
    return checks


def _play_at(
    built: Built, code: str, title: str, where: str, depth: Fraction, height: Fraction, allowed: Window
) -> Check:
    play, opening = _play_value(built, depth, height)
    taken = {side: _at(built, side, depth, height) for side in "LR"}
    sigma = built.sigma(("L", depth, height), ("R", depth, height), opening=True)
    because = [
        f"opening {built.down(opening)} between the nominal planes",
        *(f"wall {side}: plane {built.moved(taken[side])}" for side in "LR"),
        f"pan {built.up(built.width or ZERO)} over the flanges",
    ]
    if allowed.high < play <= allowed.widest:
        because.append(f"over {built.down(allowed.high)}: only with every fastened stud shimmed")
    if play < allowed.low:
        fix = (
            f"Take wall L or R back by {built.up(allowed.low - play)} more in the flange zone, plate too, "
            "or measure the pan again."
        )
    else:
        fix = f"Build wall L or R out by {built.up(play - allowed.widest)} more."
    check = judge(
        code,
        title,
        where,
        play,
        allowed.low,
        allowed.widest,
        built.unit,
        source="practice-pan-fit",
        sigma=sigma,
        because=because,
        eats=_eats(built, taken),
        fix=fix,
    )
    if sigma >= float(allowed.widest - allowed.low):
        return not_shown(
            code,
            title,
            where,
            check.limit,
            "practice-pan-fit",
            "The widths read are not sharp enough for this window: "
            "measure with pinch sticks at this depth and height.",
            (*because, f"play comes to {built.down(play)}, uncertain by more than the whole window"),
        )
    return check


def _play_value(built: Built, depth: Fraction, height: Fraction) -> tuple[Fraction, Fraction]:
    """Play and the opening between the nominal planes at a spot. [in]"""
    opening = built.opening(depth) or ZERO
    planes = _at(built, "L", depth, height) + _at(built, "R", depth, height)
    return opening - planes - (built.width or ZERO), opening


def _at(built: Built, wall: str, along: Fraction, height: Fraction) -> Fraction:
    """The flange plane, without the step above. [in]"""
    plane = built.plane(wall)
    return ZERO if plane is None else plane.at(along, height)


def _eats(built: Built, taken: dict[str, Fraction]) -> str:
    eaten = [f"wall {side} {built.moved(value)}" for side, value in taken.items() if value > 0]
    return " and ".join(eaten)


def _drop_in(built: Built, rows: list[Check], square: Check) -> Check:
    """The answer in one line: the tightest spot and the worst verdict of all of them."""
    allowed, limit = _limit(built)
    title, where = "Does the pan drop in", "pan"
    measure = _measure(built)
    if measure:
        return not_shown("drop-in", title, where, limit, "practice-pan-fit", measure)
    spots = [
        (depth, height)
        for depth in asked_depths(built.pan.pan)
        for height in flange_heights(built.survey, built.pan.pan)
    ]
    plays = [_play_value(built, *spot)[0] for spot in spots]
    least = min(range(len(plays)), key=lambda i: plays[i])
    most = max(range(len(plays)), key=lambda i: plays[i])
    binding = least if plays[least] - allowed.low <= allowed.widest - plays[most] else most
    judged = rows if square.verdict is Verdict.NOT_SHOWN else [*rows, square]
    verdict = worst(judged)
    spread = built.down(plays[least])
    if plays[least] != plays[most]:
        spread = f"{spread} to {built.up(plays[most])}"
    failing = next((c for c in judged if c.verdict is verdict and c.next_step), None)
    return Check(
        code="drop-in",
        title=title,
        where=where,
        value=f"play {spread}",
        limit=limit,
        margin=rows[binding].margin,
        verdict=verdict,
        source="practice-pan-fit",
        because=(
            f"tightest {built.near(spots[least][0])} from the back at height {built.near(spots[least][1])}",
            *rows[binding].because,
            *(("straight across only: " + square.next_step,) if square not in judged else ()),
        ),
        eats=rows[binding].eats,
        next_step=failing.next_step if failing else "",
        within_uncertainty=any(row.within_uncertainty for row in rows),
    )


def _square_pan(built: Built) -> Check:
    """Room for the rectangle itself, its back on the back plane: opposite corners, not straight across."""
    code, title, where = "drop-in-square", "A square pan set against the back wall", "walls L, B and R"
    limit = f"at least {built.near(ZERO)} left over"
    measure = _measure(built)
    if not measure and built.depth is None:
        measure = "Measure the pan's depth from the back flange to the front, over the outside faces."
    if not measure and built.plane("B") is None:
        measure = "There is no plan for the back wall: a square pan has nothing to be set against."
    if measure or built.depth is None or built.width is None:
        return not_shown(code, title, where, limit, "convention-3", measure)
    turn = squareness(built.survey)
    if turn.assumed:
        return not_shown(
            code,
            title,
            where,
            limit,
            "convention-3",
            f"Measure how far the line of wall {' and '.join(turn.assumed)} is out of square "
            "with the back line, or both diagonals.",
        )
    opening = built.survey.frame.opening_at_back or ZERO
    skew = built.turn("B")
    room: list[tuple[Fraction, str]] = []
    for height in flange_heights(built.survey, built.pan.pan):
        for left, right in ((built.depth, ZERO), (ZERO, built.depth)):
            faces = _at(built, "L", left, height) + _at(built, "R", right, height)
            lines = turn.turn["L"] * left + turn.turn["R"] * right
            name = "front of L, back of R" if left else "back of L, front of R"
            room.append((opening - built.width - faces - lines - skew * (left - right), name))
    least, name = min(room)
    corner = ("L", built.depth, built.flange_top("L")), ("R", ZERO, built.flange_top("R"))
    sigma = built.sigma(*corner, opening=True)
    return judge(
        code,
        title,
        where,
        least,
        ZERO,
        None,
        built.unit,
        source="convention-3",
        sigma=sigma,
        because=(f"tightest between {name}", f"back plane turns {_slope(skew * built.width, built)}"),
        fix="Bring the side walls square to the back wall: "
        "the pan would only go in turned off the back wall.",
    )


def _slope(over: Fraction, built: Built) -> str:
    return f"{built.up(abs(over))} over the pan's width" if over else "not at all"


def _widths(built: Built) -> list[Check]:
    """Width between the finished faces: bare studs, and with the shims in (convention 3.4)."""
    allowed, _ = _limit(built)
    measure = _measure(built)
    checks = []
    heights = flange_heights(built.survey, built.pan.pan)
    for depth in asked_depths(built.pan.pan):
        for height in heights:
            at = f"-at-{place(height, built.unit)}" if len(heights) > 1 else ""
            code = f"width-{place(depth, built.unit)}{at}"
            title = f"Width {built.near(depth)} from the back, stud to stud"
            where = f"walls L and R at height {built.near(height)}"
            if measure or built.width is None:
                checks.append(not_shown(code, title, where, "", "convention-3", measure))
                continue
            opening = built.opening(depth) or ZERO
            bare = opening - sum((_face(built, s, depth, height, False) for s in "LR"), ZERO)
            shimmed = opening - sum((_face(built, s, depth, height, True) for s in "LR"), ZERO)
            sigma = built.sigma(("L", depth, height), ("R", depth, height), opening=True)
            checks.append(
                judge(
                    code,
                    title,
                    where,
                    bare,
                    built.width + allowed.low,
                    None,
                    built.unit,
                    source="convention-3",
                    shown=f"{built.down(bare)} bare, {built.down(shimmed)} shimmed",
                    sigma=sigma,
                    because=(
                        f"bare studs {_behind(built, depth, height)}",
                        f"pan {built.up(built.width)} and at least {built.up(allowed.low)} play",
                    ),
                    fix="A stud stands proud of its plane in the flange zone: see the gaps of each wall.",
                )
            )
    return checks


def _face(built: Built, wall: str, along: Fraction, height: Fraction, shims: bool) -> Fraction:
    """Finished face; with ``shims`` a stud that gets one is brought to the plane. [in]"""
    plane = _at(built, wall, along, height)
    residual = built.residual(wall, along, height)
    if shims and residual < -SHIM_OVER:
        residual = ZERO
    return plane + residual


def _behind(built: Built, depth: Fraction, height: Fraction) -> str:
    words = []
    for wall in "LR":
        residual = built.residual(wall, depth, height)
        lies = "on the plane" if not residual else f"{built.up(abs(residual))} "
        if residual:
            lies += "behind" if residual < 0 else "proud of it"
        words.append(f"{wall} {lies}")
    return ", ".join(words)


def _push(built: Built) -> list[str]:
    """Where the play goes when the pan is fastened."""
    if _measure(built):
        return []
    return ["Dry fit the pan before mortar is mixed: drop it straight down, check that it does not rock."]


def _shim_every_stud(built: Built) -> list[Finding]:
    """Play over the window is only allowed with every fastened stud shimmed: say which, and the minutes."""
    allowed = play_window(built.pan.pan)
    if allowed.shimmed is None or _measure(built):
        return []
    spots = [(d, z) for d in asked_depths(built.pan.pan) for z in flange_heights(built.survey, built.pan.pan)]
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
            f"play up to {built.down(allowed.high)}, or every fastened stud shimmed",
            f"play is {built.up(most)}",
            "Shim every fastened stud of walls L and R; beyond the plan's cost: "
            f"{', '.join(extra) or 'none'}, {each} minute each.",
            "practice-pan-fit",
            {"studs": ",".join(extra)},
        )
    ]
