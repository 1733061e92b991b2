"""What there is to draw of one wall: studs, what is written on each at each height, what stands in front."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from typing import Literal

from undertile.cutting.lengths import Reach, place_of
from undertile.drawing.labels import Words
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan, MemberPlan, Piece
from undertile.framing.say import bare_place as place
from undertile.framing.say import written as amount
from undertile.framing.stage import build
from undertile.framing.words import marks, waiting
from undertile.job import Job, Rebuild
from undertile.lengths import Length, Unit
from undertile.pan.facts import PanFacts
from undertile.pan.gaps import gap_at
from undertile.survey.facts import SurveyFacts
from undertile.survey.result import Frame, SurveyResult

ORDER = "BLR"
"""Walls in the order they are worked."""
Sign = Literal["add", "take", "as it is", "new", "move", "blank", "read"]


@dataclass(frozen=True)
class Entry:
    """One thing written on a stud at one height: mark, figure, and the ring of a flange shim."""

    sign: Sign
    text: str
    ring: bool = False


@dataclass(frozen=True)
class StudView:
    """One stud.

    ``entries``: at each height of its wall, from the bottom, what is written there. ``read``: whether it was
    read there. ``offset``: as read, None where not. ``shim``: the flange gap behind a shim, None = no shim.
    ``places``: between which heights each strip lies. [in]
    """

    name: str
    along: Fraction
    entries: tuple[tuple[Entry, ...], ...]
    read: tuple[bool, ...]
    offset: tuple[Fraction | None, ...]
    member: MemberPlan | None = None
    shim: Fraction | None = None
    places: Mapping[Piece, tuple[Fraction, Fraction]] = field(default_factory=dict)


@dataclass(frozen=True)
class Spot:
    """Something in front of or in the wall: where, and what is said of it."""

    layer: str
    along: Fraction
    height: Fraction | None
    text: str


@dataclass(frozen=True)
class WallView:
    """One wall, from its corner outward; ``planned``: there is a plan for it."""

    name: str
    nominal: Fraction | None
    heights: tuple[Fraction, ...]
    top: Fraction | None
    studs: tuple[StudView, ...]
    spots: tuple[Spot, ...]
    flange: Fraction | None
    planned: bool

    @property
    def signs(self) -> set[str]:
        """Which marks stand on it."""
        return {entry.sign for stud in self.studs for row in stud.entries for entry in row}

    @property
    def figures(self) -> str:
        """All that is written on it, for the key."""
        return " ".join(entry.text for stud in self.studs for row in stud.entries for entry in row)


@dataclass(frozen=True)
class Room:
    """The job and its answers, as the drawings ask for them."""

    job: Job
    survey: SurveyResult
    plan: FramingPlan
    unit: Unit
    words: Words
    rebuild: Rebuild
    as_if: tuple[str, ...] = ()
    today: str = ""

    @property
    def read(self) -> SurveyFacts:
        """The survey's facts."""
        facts: SurveyFacts = self.job.survey
        return facts

    @property
    def framing(self) -> FramingFacts:
        """The framing's facts."""
        facts: FramingFacts = self.job.framing
        return facts

    @property
    def pan(self) -> PanFacts:
        """The pan's facts."""
        facts: PanFacts = self.job.pan
        return facts

    @property
    def walls(self) -> tuple[str, ...]:
        """Walls of the job in the order they are worked."""
        return tuple(name for name in ORDER if name in self.read.walls)

    def warning(self, *, amounts: bool) -> str:
        """What stands first on a sheet: readings nobody has entered, readings in doubt; "" when there is
        nothing to warn of. ``amounts``: the sheet is drawn from the plan.
        """
        lines = []
        if self.as_if and amounts:
            lines.append(self.words("as if", readings=self.words.places(self.as_if)))
        if self.doubts and amounts and self.plan.planes:
            lines.append(self.words("doubt plan", places=self.words.places(self.doubts)))
        return " ".join(lines)

    @property
    def doubts(self) -> tuple[str, ...]:
        """Places of readings in doubt, as the survey writes them: ``B4 at 36``; no amount is drawn then."""
        return tuple(group[0].where for group in self.survey.suspects if group)

    @cached_property
    def waits(self) -> Mapping[str, tuple[Piece, ...]]:
        """Strips that wait until the pan is set, by stud (convention 3.5)."""
        if not self.plan.planes:
            return {}
        facts = self.job.told_in(self.unit)
        walls = {wall.name: wall for wall in build(facts, self.rebuild.results).problem.walls}
        return {m.name: waiting(m, walls[m.wall], self.plan) for m in self.plan.members if m.wall in walls}

    def amount(self, value: Fraction, *, signed: bool = False, mark: bool = True) -> str:
        """A length in the sheet's unit."""
        return amount(value, self.unit, signed=signed, mark=mark)

    def place(self, value: Fraction) -> str:
        """A place in the sheet's unit, bare."""
        return place(value, self.unit)


def room_of(rebuild: Rebuild, unit: Unit, words: Words, as_if: Sequence[str] = (), today: str = "") -> Room:
    """The room of a rebuild; stages without an answer leave it empty. ``today``: "" = there is no clock."""
    survey = rebuild.results.get("survey") or SurveyResult((), Frame())
    plan = rebuild.results.get("framing") or FramingPlan("none")
    return Room(rebuild.job, survey, plan, unit, words, rebuild, tuple(as_if), today)


def wall_view(room: Room, name: str) -> WallView:
    """One wall's drawing in facts and words."""
    facts = room.read.walls[name]  # type: ignore[index]
    found = next((wall for wall in room.survey.walls if wall.name == name), None)
    heights = tuple(sorted({h.inches for h in facts.heights})) if found is None else found.heights
    doubts = set(room.doubts)
    members = {m.name: m for m in room.plan.members if m.wall == name and not doubts}
    alongs = {stud: each.along.inches for stud, each in facts.studs.items()}
    read_at: dict[str, tuple[Fraction | None, ...]] = {
        stud.name: tuple(at.value if at.state == "read" else None for at in stud.offsets)
        for stud in (found.studs if found is not None else ())
    }
    flange = _inches(room.pan.pan.flange_height)
    zone = tuple(h for h in heights if flange is not None and h <= flange)
    studs = []
    for stud in sorted(alongs, key=lambda each: (alongs[each], each)):
        offsets = read_at.get(stud, (None,) * len(heights))
        member = members.get(stud)
        entries = tuple(
            tuple(row)
            for row in (
                _read_entries(room, stud, heights, offsets, doubts)
                if member is None
                else _plan_entries(room, member, heights, offsets, doubts)
            )
        )
        shim = gap_at(member, zone) if member is not None and member.recipe.flange_shim else None
        read = tuple(each is not None for each in offsets)
        places = {} if member is None else strip_places(room, member)
        studs.append(StudView(stud, alongs[stud], entries, read, offsets, member, shim, places))
    return WallView(
        name,
        facts.nominal.inches,
        heights,
        _inches(facts.top),
        tuple(studs),
        tuple(_spots(room, name)),
        flange,
        bool(members),
    )


def is_reset(member: MemberPlan) -> bool:
    """Whether the replacing is a steel stud set again in its track: the same stud, moved."""
    return member.recipe.reset


def strip_places(room: Room, member: MemberPlan) -> dict[Piece, tuple[Fraction, Fraction]]:
    """Where each strip of a stud lies, by the one rule of the cut list (docs/methods/cutting.md). [in]"""
    top = _inches(room.read.walls[member.wall].top)  # type: ignore[index]
    reach = Reach(member.heights, top, _inches(room.pan.pan.flange_height))
    card = {name for name, stock in room.framing.stock.items() if stock.card}
    return {
        piece: place_of(reach, piece.first, piece.last, card=piece.stock in card)
        for piece in member.recipe.pieces
    }


def _inches(value: Length | None) -> Fraction | None:
    return None if value is None else value.inches


def in_doubt(name: str, height: Fraction, doubts: set[str]) -> bool:
    """Whether a stud's reading at a height is one of them."""
    spellings = (place(height, "in"), place(height, "mm"), f"{place(height, 'mm')} mm")
    return any(f"{name} at {each}" in doubts for each in spellings)


def _tail(name: str, height: Fraction, offset: Fraction | None, doubts: set[str]) -> str:
    if in_doubt(name, height, doubts):
        return "!"
    return "?" if offset is None else ""


def _read_entries(
    room: Room,
    name: str,
    heights: tuple[Fraction, ...],
    offsets: tuple[Fraction | None, ...],
    doubts: set[str],
) -> Iterator[list[Entry]]:
    """Without a plan: the offsets as read; a blank box where none was."""
    for height, offset in zip(heights, offsets, strict=True):
        if offset is None:
            yield [Entry("blank", "")]
        else:
            text = room.amount(offset, signed=True, mark=False) + _tail(name, height, offset, doubts)
            yield [Entry("read", text)]


def _plan_entries(
    room: Room,
    member: MemberPlan,
    heights: tuple[Fraction, ...],
    offsets: tuple[Fraction | None, ...],
    doubts: set[str],
) -> Iterator[list[Entry]]:
    """What the carpenter's marks say at each height."""
    by_height = {mark.height: mark for mark in marks(member, room.unit)}
    for h, (height, offset) in enumerate(zip(heights, offsets, strict=True)):
        mark = by_height.get(height)
        row = []
        if mark is not None and mark.take:
            row.append(Entry("take", room.amount(-mark.take, signed=True, mark=False)))
        if mark is not None and mark.add:
            row.append(Entry("add", room.amount(mark.add, signed=True, mark=False)))
        if "replace" in member.recipe.families:
            row = [Entry("new", "N")]
            if is_reset(member):
                row = [Entry("move", room.amount(member.amounts[h], signed=True, mark=False))]
        elif not row:
            change = member.amounts[h]
            text = room.amount(change, signed=True, mark=False)
            row = [Entry("add" if change > 0 else "take", text) if change else Entry("as it is", "")]
        tail = _tail(member.name, height, offset, doubts)
        ring = h == 0 and member.recipe.flange_shim
        yield [*row[:-1], Entry(row[-1].sign, row[-1].text + tail, ring)]


def _spots(room: Room, wall: str) -> Iterator[Spot]:
    """Valve, pipes, holes, plates and edges of one wall."""
    words, facts = room.words, room.framing
    nominal = room.read.walls[wall].nominal.inches  # type: ignore[index]

    def line(what: str, name: str, along: Fraction, height: Fraction | None, reading: object) -> str:
        key = "thing edge" if height is None else "thing"
        at = "" if height is None else room.amount(height)
        text = words(key, what=words(what), name=name, height=at, along=room.amount(along)).replace("  ", " ")
        return text.replace(" ,", ",") + _stands(room, nominal, reading)

    if facts.valve is not None and facts.valve.wall == wall:
        it = facts.valve
        yield Spot(
            "IN-FRONT",
            it.along.inches,
            it.height.inches,
            line("valve", "", it.along.inches, it.height.inches, ""),
        )
    for name, thing in facts.things.items():
        if thing.wall == wall:
            at = thing.along.inches, thing.height.inches
            yield Spot(
                "IN-FRONT", *at, line(thing.what, _named(name, thing.what), *at, thing.reading or None)
            )
    alongs = {stud: each.along.inches for stud, each in room.read.walls[wall].studs.items()}  # type: ignore[index]
    for stud, is_ in facts.studs.items():
        if stud not in alongs:
            continue
        for name, service in is_.services.items():
            text = line(service.what, name, alongs[stud], service.height.inches, "")
            clear = words("clear", amount=room.amount(service.clear.inches))
            yield Spot("SERVICE", alongs[stud], service.height.inches, text + clear)
        for name, hole in is_.holes.items():
            text = line("hole", name, alongs[stud], hole.height.inches, "")
            clear = words("clear", amount=room.amount(hole.edge.inches))
            yield Spot("SERVICE", alongs[stud], hole.height.inches, text + clear)
    for name, spot in room.read.walls[wall].plates.items():  # type: ignore[index]
        at = spot.along.inches, spot.height.inches
        yield Spot("PLATE", *at, line("plate", name, *at, spot.reading or None))
    for name, edge in facts.edges.items():
        if edge.wall == wall:
            yield Spot("EDGE", edge.along.inches, None, line("edge", name, edge.along.inches, None, ""))


def _named(name: str, what: str) -> str:
    return "" if name == what else name


def _stands(room: Room, nominal: Fraction, reading: object) -> str:
    """How far something stands proud of the nominal plane; None and "x" are not read, "" is not asked."""
    if reading == "":
        return ""
    if not isinstance(reading, Length):
        return f", {room.words('not measured')}"
    proud = nominal - reading.inches
    if not proud:
        return ""
    key = "stands proud" if proud > 0 else "lies back"
    return room.words(key, amount=room.amount(abs(proud)))


def doubt_words(view: WallView, words: Words) -> Mapping[str, str]:
    """The signs of the key that stand on a wall."""
    shown = view.figures
    keys = {"!": "key doubt", "?": "key unread", "~": "key near"}
    return {sign: words(key) for sign, key in keys.items() if sign in shown}
