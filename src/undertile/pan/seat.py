"""How the pan sits between the planes: directions, window of play, heights and depths that count.

The room's frame: x along the nominal plane of wall B from the nominal plane of L at y = 0, y out from the
nominal plane of B (convention 1). To first order a wall's face in the flange zone is

    L   x = square_L y + T_L(y)
    R   x = W0 - square_R y - T_R(y)
    B   y = T_B(x)

with ``square`` the rotation of the wall's reference line, plus when its far end stands into the room. The
pan is a rigid rectangle whose back flange lies on the B plane, so it is turned as far as the B plane is.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.facts import FramingFacts
from undertile.framing.say import code_place
from undertile.lengths import Length, Unit
from undertile.pan.facts import Drain, Pan, PanFacts
from undertile.pan.say import say
from undertile.sentence import Sentence
from undertile.survey.result import SurveyResult, WallOffsets

PLAY_LOW, PLAY_HIGH = Fraction(1, 16), Fraction(1, 8)
"""Default window of play (convention 3.2). [in]"""
PLAY_SHIMMED = Fraction(1, 4)
"""Most play with every fastened stud shimmed, where the pan's sheet allows it (convention 3.2). [in]"""
SKEW_LIMIT = DIAGONAL_LIMIT = Fraction(1, 8)
"""Default limits over the pan (convention 8). [in]"""
BACK = Fraction(1)
"""Play is asked for this far from the back wall, not in the corner itself. [in]"""


def inches(value: Length | None) -> Fraction | None:
    """The exact value, or None where nothing was entered. [in]"""
    return None if value is None else value.inches


@dataclass(frozen=True)
class Window:
    """Play allowed; ``shimmed`` is the upper limit once every fastened stud is shimmed. [in]"""

    low: Fraction
    high: Fraction
    shimmed: Fraction | None = None

    @property
    def widest(self) -> Fraction:
        """The largest play that is not a failure. [in]"""
        return self.high if self.shimmed is None else max(self.high, self.shimmed)


def play_window(pan: Pan) -> Window:
    """The window of play the pan's sheet sets, else the default (convention 3.2)."""
    low, high = inches(pan.play_low), inches(pan.play_high)
    return Window(
        PLAY_LOW if low is None else low,
        PLAY_HIGH if high is None else high,
        PLAY_SHIMMED if pan.shimmed_play else None,
    )


def asked_depths(pan: Pan) -> tuple[Fraction, ...]:
    """Depths from the B nominal plane at which play is asked for, rising. [in]

    As listed by the person; else 1 in from the back, the middle and the front of the pan; where its depth
    is not known, 1 in from the back alone.
    """
    if pan.depths:
        return tuple(sorted({depth.inches for depth in pan.depths}))
    depth = inches(pan.depth)
    if depth is None:
        return (BACK,)
    return tuple(sorted({min(BACK, depth), depth / 2, depth}))


def wall_of(survey: SurveyResult, name: str) -> WallOffsets | None:
    """One wall as surveyed, None when the job has no such wall."""
    return next((wall for wall in survey.walls if wall.name == name), None)


def along_back(survey: SurveyResult, drain: Drain) -> tuple[Fraction, ...]:
    """Where along wall B the drain lies; both ends of the wall where that cannot be said. [in]

    In a corner of B and R nothing ties wall R to the left end that B is read from. A plane that is right at
    both ends of B is right between them.
    """
    if drain.side == "L":
        return (drain.x.inches,)
    opening = survey.frame.opening(drain.y.inches)
    if opening is not None and wall_of(survey, "L"):
        return (opening - drain.x.inches,)
    back = wall_of(survey, "B")
    ends = sorted({stud.along for stud in back.studs}) if back else []
    return (ends[0], ends[-1]) if ends else ()


def flange_heights(survey: SurveyResult, pan: Pan, walls: str = "LBR") -> tuple[Fraction, ...]:
    """Heights read in the flange zone on any of the walls, rising (convention 3.1). [in]

    Where none was read at or below the flange, or the flange height is not known, the lowest height read.
    """
    read = sorted({height for wall in survey.walls if wall.name in walls for height in wall.heights})
    if not read:
        return ()
    top = inches(pan.flange_height)
    low = tuple(height for height in read if top is not None and height <= top)
    return low or (read[0],)


@dataclass(frozen=True)
class Squareness:
    """Rotation of the side walls' reference lines, and which of them rests on no reading.

    Attributes
    ----------
    turn : dict of wall to Fraction
        Inch per inch, plus when the far end stands into the room; 0 where not measured.
    assumed : tuple of str
        Walls whose line is only taken to be square to the B line.
    derived : tuple of str
        Walls whose line follows from the other side's and the growth of the opening.
    """

    turn: dict[str, Fraction]
    assumed: tuple[str, ...] = ()
    derived: tuple[str, ...] = ()


def squareness(survey: SurveyResult) -> Squareness:
    """How the side lines are turned; one side and a measured growth of the opening give the other.

    What is only assumed still agrees with the opening that play is asked of: the lines together lose what
    the opening gains.
    """
    frame = survey.frame
    known = dict(frame.out_of_square or {})
    sides = [wall.name for wall in survey.walls if wall.name in ("L", "R")]
    assumed = tuple(side for side in sides if side not in known)
    if len(sides) == 2 and frame.opening_at_back is not None and assumed:
        if len(assumed) == 2:
            known = dict.fromkeys(sides, -frame.opening_growth / 2)
        else:
            (side,) = assumed
            known[side] = -frame.opening_growth - sum(known.values(), Fraction(0))
            if frame.growth_measured:
                return Squareness(known, derived=assumed)
    return Squareness({side: known.get(side, Fraction(0)) for side in sides}, assumed)


@dataclass(frozen=True)
class Room:
    """What the demands are written from.

    ``heights`` are those of the flange zone (`flange_heights`), ``walls`` the walls read.
    """

    facts: PanFacts
    survey: SurveyResult
    framing: FramingFacts
    unit: Unit
    walls: frozenset[str]
    heights: tuple[Fraction, ...]
    square: Squareness

    @property
    def width(self) -> Fraction | None:
        return inches(self.facts.pan.width)

    @property
    def depth(self) -> Fraction | None:
        return inches(self.facts.pan.depth)

    def at(self, height: Fraction) -> str:
        """Ending of a code where more than one height of the flange zone was read."""
        return f"-at-{code_place(height)}" if len(self.heights) > 1 else ""


def turned(room: Room, wall: str, over: Fraction) -> str:
    """What is known of the line's own squareness, in words; "" of the back wall."""
    if wall == "B":
        return ""
    turn = room.square.turn.get(wall, Fraction(0)) * over
    if wall in room.square.assumed:
        return Sentence(
            "the line of wall {wall} is taken as square to the back line, nothing measured says so",
            wall=wall,
        )
    if not turn:
        return Sentence("the line of wall {wall} is square to the back line", wall=wall)
    how = (
        Sentence("follows from the other side and the widths")
        if wall in room.square.derived
        else Sentence("measured")
    )
    side = Sentence("into the room") if turn > 0 else Sentence("out of the room")
    return Sentence(
        "the line of wall {wall} stands {turn} {side} there ({how})",
        wall=wall,
        turn=say(abs(turn), room.unit),
        side=side,
        how=how,
    )
