"""Play of the pan and square of the alcove after the work, measured again or from the faces as they stand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import hypot, sqrt

from undertile.findings import Check, Verdict
from undertile.framing.say import code_place
from undertile.lengths import Length, Unit
from undertile.pan.consequences import PanResult
from undertile.pan.facts import PanFacts
from undertile.pan.gaps import SHIM_OVER
from undertile.pan.judge import Topic
from undertile.pan.say import say, window
from undertile.pan.seat import DIAGONAL_LIMIT, asked_depths, flange_heights, inches, play_window
from undertile.recheck.faces import WallFaces, off_at, tool_now
from undertile.recheck.facts import RecheckFacts
from undertile.recheck.proof import ProofPlay
from undertile.recheck.say import TOOLS
from undertile.sentence import Sentence, listed
from undertile.survey.facts import Width
from undertile.survey.result import SurveyResult

SAME_DEPTH = Fraction(1)
"""A width measured this near a depth asked for speaks for it (ours). [in]"""
ZERO = Fraction(0)


@dataclass(frozen=True)
class Fit:
    """What the play and square checks are worked from; ``own`` are the survey's own tool figures."""

    facts: RecheckFacts
    pan: PanFacts
    survey: SurveyResult
    walls: tuple[WallFaces, ...]
    own: Mapping[str, Length]
    unit: Unit


def plays(fit: Fit) -> tuple[ProofPlay, ...]:
    """Play at every depth asked for and height read in the flange zone; none for a room with an open side.

    The width is the one measured again where there is one, else the opening of the survey less the faces as
    they stand. Play is between the planes (convention 3.2): what a face lies behind its plane comes off the
    width, for there the flange is shimmed or has its 1/32; what stands proud is in the width as it is.
    """
    sides = {wall.name: wall for wall in fit.walls if wall.name in "LR"}
    if len(sides) < 2:
        return ()
    heights = flange_heights(fit.survey, fit.pan.pan)
    return tuple(
        ProofPlay(
            depth,
            height,
            _measured(fit, depth, height) is not None,
            _play(fit, sides, depth, height),
        )
        for depth in asked_depths(fit.pan.pan)
        for height in heights
    )


def _play(fit: Fit, sides: Mapping[str, WallFaces], depth: Fraction, height: Fraction) -> Check:
    allowed = play_window(fit.pan.pan)
    many = len(flange_heights(fit.survey, fit.pan.pan)) > 1
    at = f"-at-{code_place(height)}" if many else ""
    topic = Topic(
        f"again-play-{code_place(depth)}{at}",
        Sentence("Play {depth} from the back", depth=say(depth, fit.unit)),
        f"walls L and R at height {say(height, fit.unit)}",
        "practice-pan-fit",
    )
    limit = window(allowed.low, allowed.widest, fit.unit)
    pan = inches(fit.pan.pan.width)
    if pan is None:
        return topic.not_shown(
            limit, Sentence("Measure the pan's width over the outside faces of the flanges.")
        )
    sticks = Sentence(
        "Measure the inside width with pinch sticks at {depth} from the back, height {height}.",
        depth=say(depth, fit.unit),
        height=say(height, fit.unit),
    )
    faces = {name: off_at(wall, depth, height) for name, wall in sides.items()}
    if any(face is None for face in faces.values()):
        return topic.not_shown(
            limit,
            Sentence(
                "Read the studs of wall {walls} around it again at {height}. {sticks}",
                walls=listed([name for name, face in faces.items() if face is None]),
                height=say(height, fit.unit),
                sticks=sticks,
            ),
        )
    known = {name: face for name, face in faces.items() if face is not None}
    behind = {name: max(-off, ZERO) for name, (off, _) in known.items()}
    width = _measured(fit, depth, height)
    if width is not None:
        bare = width.reading.inches
        sigma = tool_now(fit.facts, fit.own, width.tool)
        because: list[str] = [
            Sentence(
                "inside width measured again {width} at {depth} from the back ({tool})",
                width=width.reading.text,
                depth=say(width.depth.inches, fit.unit),
                tool=TOOLS[width.tool],
            )
        ]
    else:
        opening = fit.survey.frame.opening(depth)
        if opening is None:
            return topic.not_shown(limit, sticks)
        planes = {name: wall.plane.at(depth, height) for name, wall in sides.items()}
        bare = opening - sum((planes[name] + known[name][0] for name in known), ZERO)
        sigma = hypot(fit.survey.frame.sigma_at(depth), *(s for _, s in known.values()))
        because = [
            Sentence(
                "opening {opening} between the nominal planes by the first survey",
                opening=say(opening, fit.unit),
            ),
            *(
                Sentence(
                    "wall {wall}: face {face}",
                    wall=n,
                    face=say(planes[n] + known[n][0], fit.unit, signed=True),
                )
                for n in known
            ),
        ]
    because += [
        Sentence(
            "wall {wall}: the studs lie {gap} behind the plane there, shimmed"
            if gap > SHIM_OVER
            else "wall {wall}: the studs lie {gap} behind the plane there",
            wall=name,
            gap=say(gap, fit.unit, "up"),
        )
        for name, gap in behind.items()
        if gap
    ]
    because.append(Sentence("pan {width} over the flanges", width=say(pan, fit.unit, "up")))
    if width is not None:
        sigma = hypot(sigma, *(s for _, s in known.values()))
    play = bare - pan - sum(behind.values(), ZERO)
    if sigma >= float(allowed.widest - allowed.low):
        because.append(
            Sentence(
                "play comes to {play}, uncertain by more than the whole window", play=say(play, fit.unit)
            )
        )
        return topic.not_shown(limit, sticks, because)
    found = topic.judge(
        play,
        allowed.low,
        allowed.widest,
        fit.unit,
        sigma=sigma,
        because=because,
        fix=Sentence(
            "Take the tight side back in the flange zone." if play < allowed.low else "Build one side out."
        ),
    )
    return found


def _measured(fit: Fit, depth: Fraction, height: Fraction) -> Width | None:
    """The width measured again nearest a depth, at that height."""
    near = [
        width
        for width in fit.facts.widths.values()
        if width.height.inches == height and abs(width.depth.inches - depth) <= SAME_DEPTH
    ]
    return min(near, key=lambda width: abs(width.depth.inches - depth), default=None)


def square_check(fit: Fit, pan: PanResult | None, faces_shown: bool) -> Check | None:
    """Diagonals at the pan: measured again, else those of the planes the faces are shown to keep to.

    None for a room that is not an alcove.
    """
    if {wall.name for wall in fit.walls} != {"L", "B", "R"}:
        return None
    limit = inches(fit.pan.pan.diagonal_limit)
    limit = DIAGONAL_LIMIT if limit is None else limit
    words = Sentence("differ at most {most}", most=say(limit, fit.unit))
    topic = Topic("again-diagonals", Sentence("Diagonals at the pan"), "walls L, B and R", "practice-square")
    pair = _pair(fit)
    if pair is not None:
        left, right, sigma = pair
        return topic.judge(
            abs(left.inches - right.inches),
            None,
            limit,
            fit.unit,
            rounding="up",
            shown=lambda value: Sentence("differ {value}", value=value),
            sigma=sigma,
            because=(
                Sentence(
                    "measured again: from back left {left}, from back right {right}",
                    left=left.text,
                    right=right.text,
                ),
            ),
            fix=Sentence("Turn a side wall toward square: see which corner is out."),
        )
    planned = next((c for c in pan.checks if c.code == "diagonals"), None) if pan is not None else None
    measure = Sentence("Measure both diagonals at the pan, from each back corner to the opposite front.")
    moved = any(wall.moved for wall in fit.walls)
    if planned is None or planned.verdict is Verdict.NOT_SHOWN or moved or not faces_shown:
        lack = Sentence("the faces in the flange zone are not all shown to keep to their planes")
        because = () if faces_shown else (lack,)
        return topic.not_shown(words, measure, because)
    return topic.said(
        planned.verdict,
        planned.value,
        words,
        margin=planned.margin,
        because=(Sentence("not measured again: of the planes, which the faces keep to"), *planned.because),
        step=planned.next_step,
    )


def _pair(fit: Fit) -> tuple[Length, Length, float] | None:
    """Both diagonals at one depth and height, and the uncertainty of their difference. [in]"""
    for one in fit.facts.diagonals.values():
        for two in fit.facts.diagonals.values():
            same = (one.depth, one.height) == (two.depth, two.height)
            if one.corner == "BL" and two.corner == "BR" and same:
                sigma = max(tool_now(fit.facts, fit.own, each.tool) for each in (one, two))
                return one.reading, two.reading, sigma * sqrt(2)
    return None
