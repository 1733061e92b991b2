"""What stands before a wall, meets it or looks through it, as bounds on the plane at a spot [contract 10].

Things (pipe, hub, vent), the mixing valve, edges that continue, and the backing at inside corners. A term
that lacks a thickness or a reading is left out and a finding says what is missing: it is then not shown.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.errors import LengthError
from undertile.findings import Finding, Severity
from undertile.framing.facts import Corner, Edge, Finish, FramingFacts, Thing, Valve
from undertile.framing.prices import PriceList
from undertile.framing.problem import StepTerm
from undertile.framing.say import place, said
from undertile.lengths import Length, Unit, parse_length
from undertile.sentence import Sentence, listed
from undertile.survey.result import SurveyResult, WallOffsets

RELIEF = Fraction(1, 16)
"""How far a thing may stand proud of the studs: the board's back is relieved (common practice). [in]"""
REBLOCK_REACH = Fraction(1, 2)
"""How far re-blocking moves a valve either way when nobody says (ours). [in]"""
EDGE_BACK = Fraction(1, 32)
EDGE_PROUD = Fraction(0)
"""The new board against a face that stays: flush to 1/32 back (common practice). [in]"""
BACKING = Fraction(5, 8)
BOARD_GAP = Fraction(1, 8)
"""Wood that must stay at an inside corner, and the gap of the board there (common practice). [in]"""
_LAYERS = {
    "board": Sentence("board"),
    "membrane": Sentence("membrane"),
    "mortar": Sentence("mortar"),
    "tile": Sentence("tile"),
}
_MOVE = {
    "supply pipe": Sentence("move the supply pipe"),
    "drain or vent": Sentence("move the drain or vent"),
    "stack": Sentence("move the stack"),
    "other": Sentence("move the other"),
}
_MOVES = {"supply pipe": "move_supply", "drain or vent": "move_drain", "stack": "move_stack"}


@dataclass(frozen=True)
class Terms:
    """Terms by wall, and what could not be made one."""

    by_wall: Mapping[str, tuple[StepTerm, ...]]
    findings: tuple[Finding, ...]


class _Maker:
    """Collects terms; holds what every one of them reads."""

    def __init__(
        self,
        survey: SurveyResult,
        leans: Mapping[str, Sequence[Fraction]],
        prices: PriceList,
        unit: Unit,
        own: Unit,
    ) -> None:
        self.walls: dict[str, WallOffsets] = {wall.name: wall for wall in survey.walls if wall.studs}
        self.opening = survey.frame.opening_at_back
        self.leans, self.prices, self.unit, self.own = leans, prices, unit, own
        self.terms: list[StepTerm] = []
        self.findings: list[Finding] = []

    def said(self, value: Fraction, *, signed: bool = False) -> str:
        return said(value, self.unit, signed=signed)

    def left_out(self, code: str, where: str, expected: str, found: str, next_step: str) -> None:
        """A term that is not shown."""
        self.findings.append(Finding(code, Severity.ACT, where, expected, found, next_step, "convention-5"))

    def wall(self, name: str, what: str) -> WallOffsets | None:
        found = self.walls.get(name)
        if found is None:
            self.left_out(
                "wall-not-read",
                what,
                Sentence("readings of wall {name}, which {what} stands on", name=name, what=what),
                Sentence(
                    "no stud of wall {name} is read, so {what} is not in the plan", name=name, what=what
                ),
                Sentence("Read the studs of wall {name}.", name=name),
            )
        return found

    # -- things ------------------------------------------------------------------------------------------

    def thing(self, name: str, thing: Thing) -> None:
        """Free while the plane stands no further back than the thing's face less its relief."""
        wall = self.wall(thing.wall, name)
        if wall is None:
            return
        where = f"{name} on wall {thing.wall} at {place(thing.height.inches, self.unit)}"
        if not isinstance(thing.reading, Length):
            self.left_out(
                "thing-not-read",
                where,
                Sentence("the reading from the wall's line to its face"),
                Sentence(
                    "it cannot be reached, so the plan does not clear it"
                    if thing.reading == "x"
                    else "it is not read, so the plan does not clear it"
                ),
                Sentence(
                    "Read the distance from the line of wall {wall} to {name}.", wall=thing.wall, name=name
                ),
            )
            return
        offset = wall.nominal - thing.reading.inches
        relief = RELIEF if thing.relief is None else thing.relief.inches
        minutes: Fraction | None = None
        if thing.movable:
            minutes = self._move(name, thing, where)
        low = offset - relief
        self.terms.append(
            StepTerm(
                name=name,
                wall=thing.wall,
                along=thing.along.inches,
                height=thing.height.inches,
                low=low,
                high=None,
                minutes=minutes,
                remedy=_MOVE[thing.what] if minutes is not None else "",
                why=Sentence(
                    "{name} stands at {at} and may stand {relief} proud of the studs, so the plane there "
                    "is at "
                    "{low} or further in",
                    name=name,
                    at=self.said(offset, signed=True),
                    relief=self.said(relief),
                    low=self.said(low, signed=True),
                ),
                source="practice-minutes" if minutes is not None else "convention-4",
            )
        )

    def _move(self, name: str, thing: Thing, where: str) -> Fraction | None:
        if thing.minutes is not None:
            return Fraction(thing.minutes)
        if thing.what in _MOVES:
            return self.prices[_MOVES[thing.what]]
        self.left_out(
            "thing-minutes-missing",
            where,
            Sentence("the minutes it takes to move it"),
            Sentence("it may be moved but nobody says how long that takes; the plan leaves it where it is"),
            Sentence("Give the minutes to move {name}.", name=name),
        )
        return None

    # -- valve -------------------------------------------------------------------------------------------

    def valve(self, valve: Valve, finish: Finish) -> None:
        """Finished face inside the window that the valve's sheet prints, from its body datum."""
        wall = self.wall(valve.wall, Sentence("the valve"))
        if wall is None:
            return
        layers = {name: getattr(finish, name) for name in _LAYERS}
        missing = [_LAYERS[name] for name, value in layers.items() if value is None]
        if missing:
            self.left_out(
                "valve-not-shown",
                "valve",
                Sentence("the thickness of board, membrane, mortar and tile"),
                Sentence(
                    "{missing} not given, so the depth of the valve is not in the plan",
                    missing=listed(missing),
                ),
                Sentence("Measure the thickness of {missing}.", missing=listed(missing)),
            )
            return
        stack = sum((value.inches for value in layers.values() if value is not None), Fraction(0))
        datum = wall.nominal - valve.reading.inches
        low = datum + valve.window_low.inches - stack
        high = datum + valve.window_high.inches - stack
        why = Sentence(
            "the sheet wants {low} to {high} from body to finished face; {stack} of board, membrane, "
            "mortar and "
            "tile stand on the studs",
            low=self.said(valve.window_low.inches),
            high=self.said(valve.window_high.inches),
            stack=self.said(stack),
        )
        minutes: Fraction | None = None
        reach = Fraction(0)
        if valve.may_reblock:
            minutes = self.prices["reblock_valve"]
            reach = REBLOCK_REACH if valve.reblock_reach is None else valve.reblock_reach.inches
            why = Sentence(
                "{why}; re-blocking moves it {reach} either way"
                if valve.reblock_reach is not None
                else "{why}; re-blocking moves it {reach} either way, not given, so ours",
                why=why,
                reach=self.said(reach),
            )
        bought = minutes is not None
        self.terms.append(
            StepTerm(
                name=Sentence("valve"),
                wall=valve.wall,
                along=valve.along.inches,
                height=valve.height.inches,
                low=low,
                high=high,
                minutes=minutes,
                dollars=self.prices["reblock_valve_dollars"] if bought else Fraction(0),
                hard_low=low - reach if bought else None,
                hard_high=high + reach if bought else None,
                remedy=Sentence("re-block the valve") if bought else "",
                why=why,
            )
        )

    # -- edges -------------------------------------------------------------------------------------------

    def edge(self, name: str, edge: Edge, board: Length | None) -> None:
        """New board flush with the face that stays, within the step allowed, at every height read."""
        wall = self.wall(edge.wall, name)
        if wall is None:
            return
        if board is None:
            self.left_out(
                "edge-not-shown",
                name,
                Sentence("the thickness of the board"),
                Sentence("it is not given, so the edge is not in the plan"),
                Sentence("Measure the board."),
            )
            return
        back = EDGE_BACK if edge.step_back is None else edge.step_back.inches
        proud = EDGE_PROUD if edge.step_proud is None else edge.step_proud.inches
        read = 0
        for key, reading in edge.readings.items():
            try:
                height = parse_length(key, self.own).inches
            except LengthError as error:
                self.left_out(
                    "edge-height-unknown",
                    f"{name} at {key}",
                    Sentence("a height"),
                    str(error),
                    Sentence("Write the height of this reading."),
                )
                continue
            if not isinstance(reading, Length):
                continue
            read += 1
            face = wall.nominal - reading.inches
            self.terms.append(
                StepTerm(
                    name=Sentence("{name} at {height}", name=name, height=place(height, self.unit)),
                    wall=edge.wall,
                    along=edge.along.inches,
                    height=height,
                    low=face - board.inches - back,
                    high=face - board.inches + proud,
                    minutes=None,
                    why=Sentence(
                        "the face that stays is at {at}; the board ({board}) may lie {back} back of it "
                        "to {proud} "
                        "proud",
                        at=self.said(face, signed=True),
                        board=self.said(board.inches),
                        back=self.said(back),
                        proud=self.said(proud),
                    ),
                    source="convention-3",
                )
            )
        if not read:
            self.left_out(
                "edge-not-shown",
                name,
                Sentence("the reading of the face that stays, at two heights or more"),
                Sentence("no height of it is read, so the edge is not in the plan"),
                Sentence("Read {name} at two heights or more.", name=name),
            )

    # -- corners -----------------------------------------------------------------------------------------

    def corner(self, key: str, corner: Corner, board: Length | None) -> None:
        """Enough wood past the other wall's board to screw into, or a backer."""
        own, other = key.split("-")
        name = Sentence("corner backer {key}", key=key)
        wall = self.wall(other, Sentence("corner {key}", key=key))
        if wall is None:
            return
        if board is None:
            self.left_out(
                "corner-not-shown",
                f"corner {key}",
                Sentence("the thickness of the board"),
                Sentence("it is not given, so the backing at the corner is not in the plan"),
                Sentence("Measure the board."),
            )
            return
        along = Fraction(0)
        if other == "B" and own == "R":
            along = self.opening if self.opening is not None else wall.studs[-1].along
        middle = (wall.heights[0] + wall.heights[-1]) / 2
        # the plane may lean: what it can gain between the middle and either end is kept in hand
        lean = max((abs(lean) for lean in self.leans[other]), default=Fraction(0))
        slack = lean * (wall.heights[-1] - middle)
        why = Sentence(
            "{wood} of wood, less board {board}, gap {gap} and {backing} to screw into",
            wood=self.said(corner.wood.inches),
            board=self.said(board.inches),
            gap=self.said(BOARD_GAP),
            backing=self.said(BACKING),
        )
        if slack:
            why = Sentence("{why}, less {slack} for a leaning plane", why=why, slack=self.said(slack))
        high = corner.wood.inches - board.inches - BOARD_GAP - BACKING - slack
        self.terms.append(
            StepTerm(
                name=name,
                wall=other,
                along=along,
                height=middle,
                low=None,
                high=high,
                minutes=self.prices["corner_backer"],
                dollars=self.prices["corner_backer_dollars"],
                remedy=Sentence("put a backer at corner {key}", key=key),
                why=why,
                source="practice-backing",
            )
        )


def make_terms(
    survey: SurveyResult,
    facts: FramingFacts,
    prices: PriceList,
    leans: Mapping[str, Sequence[Fraction]],
    unit: Unit = "in",
    own: Unit | None = None,
) -> Terms:
    """Every thing, valve, edge and corner as a term of its wall.

    Parameters
    ----------
    survey : SurveyResult
    facts : FramingFacts
    prices : PriceList
    leans : mapping of wall to sequence of Fraction
        The leans offered. [in/in]
    unit : {"in", "mm"}
        For words.
    own : {"in", "mm"}, optional
        The job's own unit, that a bare height of an edge is in; else ``unit``.

    Returns
    -------
    Terms
    """
    maker = _Maker(survey, leans, prices, unit, own or unit)
    for name, thing in facts.things.items():
        maker.thing(name, thing)
    if facts.valve is not None:
        maker.valve(facts.valve, facts.finish)
    for name, edge in facts.edges.items():
        maker.edge(name, edge, facts.finish.board)
    for key, corner in facts.corners.items():
        maker.corner(key, corner, facts.finish.board)
    by_wall: dict[str, tuple[StepTerm, ...]] = {}
    for term in maker.terms:
        by_wall[term.wall] = (*by_wall.get(term.wall, ()), term)
    return Terms(by_wall, tuple(maker.findings))
