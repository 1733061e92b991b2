"""What the papers say, as plain data in one language: drawn by ``typst_*``, printed as JSON by ``--json``.

Every figure is text as it stands on the paper; ``amounts`` keep the exact value beside it as a fraction of an
inch, so that a reader can check one against the other.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from undertile.lengths import Unit
from undertile.packet.words import Language

Paper = Literal["letter", "a4"]
State = Literal["ready", "settle"]


@dataclass(frozen=True)
class Head:
    """What stands on every page.

    Attributes
    ----------
    job, place : str
        As the person typed them.
    date : str
        Of the print, as given.
    revision : str
        First eight hexadecimal digits of the SHA-256 of the job's facts: same facts, same revision.
    unit, language, paper : str
    """

    job: str
    place: str
    date: str
    revision: str
    unit: Unit
    language: Language
    paper: Paper


@dataclass(frozen=True)
class Doubt:
    """A reading in doubt: what is said of it, the places to write a new reading for, what is held over it."""

    where: str
    text: str
    boxes: tuple[str, ...] = ("",)
    held: tuple[str, ...] = ()


@dataclass(frozen=True)
class Step:
    """One step of the order of work; ``waits``: only after the pan is set; ``stop``: someone can be hurt;
    ``note``: nothing is done, but it is to be known at that stud.
    """

    text: str
    waits: bool = False
    stop: bool = False
    note: bool = False


@dataclass(frozen=True)
class HeightRow:
    """One height of a stud.

    Attributes
    ----------
    height : str
    marks : tuple of str
        Carpenters' marks: ``X`` take off, ``↑`` add, ``S`` sister, ``N`` new stud, ``O`` shim.
    take, add : str
        Signed figures as printed, ``""`` for nothing.
    amount, exact : str
        Finished minus offset as printed, and as a plain fraction of an inch.
    reads : str
        The reading once the work is done.
    not_read : bool
        No reading there: worked out from what stands around.
    """

    height: str
    marks: tuple[str, ...]
    take: str
    add: str
    amount: str
    exact: str
    reads: str
    not_read: bool = False


@dataclass(frozen=True)
class Layer:
    """One strip on a stud; ``first`` and ``last`` are indices into the stud's rows, from the bottom."""

    letter: str
    stock: str
    first: int
    last: int
    waits: bool


@dataclass(frozen=True)
class StudCard:
    """One stud: the one place to look.

    Attributes
    ----------
    name, do : str
        ``B2``, ``Plane + Strip``.
    rows : tuple of HeightRow
        From the bottom up.
    layers : tuple of Layer
        In the order they go on.
    steps : tuple of Step
    why : str
        Mark into the table at the back.
    """

    name: str
    do: str
    rows: tuple[HeightRow, ...]
    layers: tuple[Layer, ...]
    steps: tuple[Step, ...]
    why: str


@dataclass(frozen=True)
class WallPart:
    """One wall: where its faces end, its studs as one stands before it, a card for each that is touched.

    ``good``: between which readings a face is right. ``line``: by which readings the line is hung again.
    ``facing``: (stud, treatment in a word) from the left as one stands before the wall. ``small``: studs that
    are left, or only shimmed, those alike together, with all there is to know of them; ``small_whys``: the
    marks of their readings.
    """

    wall: str
    title: str
    plane: str
    why: str
    good: str
    line: str
    facing: tuple[tuple[str, str], ...]
    cards: tuple[StudCard, ...]
    small: tuple[tuple[str, str], ...]
    small_whys: tuple[str, ...] = ()


@dataclass(frozen=True)
class BoardRow:
    """One board in hand: its number, what it is taken from, what is cut in which order, what is left."""

    number: int
    source: str
    cuts: tuple[str, ...]
    left: str


@dataclass(frozen=True)
class StockPart:
    """One stock of the cut list, and how many full lengths it opens."""

    stock: str
    boards: tuple[BoardRow, ...]
    opened: str


@dataclass(frozen=True)
class BringRow:
    """Lumber, tapers, channel, shims: what, how many, how long, where."""

    what: str
    count: int
    length: str
    where: str


@dataclass(frozen=True)
class ScrewRow:
    """One screw length, about how many, and the studs it goes into."""

    screw: str
    count: str
    studs: str


@dataclass(frozen=True)
class Tick:
    """One thing to check off; ``box``: with a box for what is measured."""

    text: str
    box: bool = False
    why: str = ""


@dataclass(frozen=True)
class Grid:
    """Boxes to write readings in: studs across, heights up (or depths across).

    ``heights``: the label and the same in the other unit. ``filled``: what is typed already, by
    ``stud|label``. ``asked``: the boxes that are open, by the same; None = all. ``note``: over the boxes.
    """

    title: str
    studs: tuple[str, ...]
    heights: tuple[tuple[str, str], ...]
    filled: dict[str, str] = field(default_factory=dict)
    asked: tuple[str, ...] | None = None
    note: str = ""


@dataclass(frozen=True)
class Why:
    """One row of the table at the back.

    Attributes
    ----------
    readings : str
        Whose readings it comes from, in words; "" where they stand in ``read``.
    read : tuple of (height, reading)
        Of one stud, as typed, ``?`` where none was.
    """

    mark: str
    what: str
    readings: str
    rule: str
    source: str
    more: str
    read: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True)
class MovedPart:
    """What moved since the walls were read.

    Attributes
    ----------
    heights : tuple of (what, was, becomes)
    again, out, shrinks : tuple of str
        What to read again; what was cut out; what goes back as it dries.
    """

    heights: tuple[tuple[str, str, str], ...] = ()
    again: tuple[str, ...] = ()
    out: tuple[str, ...] = ()
    shrinks: tuple[str, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing moved."""
        return not (self.heights or self.again or self.out or self.shrinks)


@dataclass(frozen=True)
class CrewSheet:
    """Everything on the crew sheet, in its order.

    ``state``: ``settle`` where a reading is in doubt or there is no plan; then ``walls``, ``cuts``,
    ``screws`` and the boxes are empty, for no amount may be cut. ``settled``: the command for the sheet
    that holds if what is offered is so, "" where it cannot be offered. ``guards``: where nothing may be
    driven into a stud. ``moved``: None where nothing moved since the readings. ``mortar``: looked at before
    mortar is mixed; ``fasten``: with the pan set.
    """

    head: Head
    state: State
    title: str
    hold: tuple[str, str]
    stops: tuple[str, ...] = ()
    settle: tuple[str, ...] = ()
    doubts: tuple[Doubt, ...] = ()
    settled: str = ""
    as_if: tuple[Doubt, ...] = ()
    guards: tuple[str, ...] = ()
    fails: tuple[str, ...] = ()
    moved: MovedPart | None = None
    order: tuple[Step, ...] = ()
    how: tuple[str, ...] = ()
    acts: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    walls: tuple[WallPart, ...] = ()
    cuts: tuple[StockPart, ...] = ()
    cuts_note: str = ""
    bring: tuple[BringRow, ...] = ()
    screws: tuple[ScrewRow, ...] = ()
    screws_note: str = ""
    mortar: tuple[Tick, ...] = ()
    fasten: tuple[Tick, ...] = ()
    reread: tuple[Grid, ...] = ()
    whys: tuple[Why, ...] = ()
    why_note: str = ""


@dataclass(frozen=True)
class Blank:
    """A line to fill: what it is, and what the job has already ("" = nothing)."""

    text: str
    filled: str = ""


@dataclass(frozen=True)
class FormWall:
    """One wall of the survey form."""

    title: str
    order: str
    blanks: tuple[Blank, ...]
    grid: Grid
    along: tuple[str, ...]
    arris: tuple[str, ...]
    again: Blank


@dataclass(frozen=True)
class CheckTable:
    """One kind of check measurement: a title, and lines to fill or a grid of boxes."""

    title: str
    blanks: tuple[Blank, ...] = ()
    grid: Grid | None = None


@dataclass(frozen=True)
class SurveyForm:
    """Everything on the survey form, in its order."""

    head: Head
    title: str
    how: tuple[str, ...]
    who: tuple[Blank, ...]
    walls: tuple[FormWall, ...]
    checks: tuple[CheckTable, ...]
    pan: tuple[Blank, ...]
