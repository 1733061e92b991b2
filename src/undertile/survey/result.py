"""What the survey hands on: offsets with their uncertainty in one room frame, and what looks wrong."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import hypot
from typing import Literal

from undertile.findings import Finding

OffsetState = Literal["read", "cannot reach", "not measured"]


@dataclass(frozen=True)
class OffsetAt:
    """One stud at one height.

    Attributes
    ----------
    height : Fraction
        From the subfloor. [in]
    value : Fraction
        Offset, plus = proud (convention 2.2): exactly nominal - reading where read; where not, estimated
        from the readings around it, to the nearest 1/32. [in]
    sigma : float
        Standard uncertainty. [in]
    state : {"read", "cannot reach", "not measured"}
    text : str
        The reading as typed; "" where not read.
    adjusted : float
        The least-squares estimate of the same offset, for comparison only. [in]
    twist : Fraction or None
        Difference of the two arrises where both were read. [in]
    """

    height: Fraction
    value: Fraction
    sigma: float
    state: OffsetState
    text: str = ""
    adjusted: float = 0.0
    twist: Fraction | None = None


@dataclass(frozen=True)
class StudOffsets:
    """One stud: ``offsets`` has one entry per height of its wall, in the wall's order."""

    name: str
    along: Fraction
    offsets: tuple[OffsetAt, ...]


@dataclass(frozen=True)
class PlateOffset:
    """A plate spot as read."""

    name: str
    along: Fraction
    height: Fraction
    value: Fraction
    sigma: float


@dataclass(frozen=True)
class WallOffsets:
    """One wall; ``heights`` rising, studs by rising ``along``."""

    name: str
    nominal: Fraction
    heights: tuple[Fraction, ...]
    studs: tuple[StudOffsets, ...]
    plates: tuple[PlateOffset, ...] = ()
    top: Fraction | None = None


@dataclass(frozen=True)
class Frame:
    """How the walls' nominal planes lie to each other.

    Attributes
    ----------
    opening_at_back : Fraction or None
        Distance between the L and R nominal planes at depth 0, to the nearest 1/128; None = not
        measured. [in]
    opening_growth : Fraction
        What the opening gains per inch of depth (0 when nothing says otherwise), to the nearest 1/128
        over 32 in.
    opening_sigma : float
        Standard uncertainty of the opening at the middle of the depths measured. [in]
    out_of_square : dict of wall to Fraction
        For L and R: rotation of its reference line from square to the B line, inch per inch, plus when the
        far end stands into the room; absent = not measured.
    square_sigma : float
        The larger of the two. [in/in]
    growth_measured : bool
        False where widths or gaps stand at one depth only: the growth 0 is then an assumption.
    growth_sigma : float
        Standard uncertainty of the growth, of that assumption too. [in/in]
    depth_middle : float
        The depth where the opening is known best, ``opening_sigma`` there. [in]
    """

    opening_at_back: Fraction | None = None
    opening_growth: Fraction = Fraction(0)
    opening_sigma: float = 0.0
    out_of_square: dict[str, Fraction] | None = None
    square_sigma: float = 0.0
    growth_measured: bool = False
    growth_sigma: float = 0.0
    depth_middle: float = 0.0

    def opening(self, depth: Fraction) -> Fraction | None:
        """Distance between the L and R nominal planes at a depth. [in]"""
        if self.opening_at_back is None:
            return None
        return self.opening_at_back + self.opening_growth * depth

    def sigma_at(self, depth: Fraction) -> float:
        """Standard uncertainty of ``opening(depth)``. [in]"""
        return hypot(self.opening_sigma, self.growth_sigma * (float(depth) - self.depth_middle))


@dataclass(frozen=True)
class Suspect:
    """One mistake that would clear the misfit: offered, never made.

    Attributes
    ----------
    where : str
        ``B2 at 48``, ``width w3``, ``row B at 24``.
    slip : str
        Which mistake that people make, in words.
    typed, offered : str
        The reading(s) as typed and as they would be.
    odds : float
        Probability among the explanations looked at, 0..1.
    settle : str
        The one measurement that would settle it.
    code : str
        Of the finding that names it.
    changes : tuple of (str, str)
        Place and what would be typed there, where the correction is exact; empty where only its size is
        estimated, or where the wood is really so.
    wish : str
        Of a moved line, exchanged rows and the like, and of a reading that nothing mends: the same survey
        as it would be, in words (``wall R from R3 at 2 on by stud = 5/16 less``,
        ``L3 at 54 = not measured``); "" where ``changes`` say it.
    """

    where: str
    slip: str
    typed: str
    offered: str
    odds: float
    settle: str
    code: str = ""
    changes: tuple[tuple[str, str], ...] = ()
    wish: str = ""


@dataclass(frozen=True)
class Reliability:
    """How well one thing typed is checked by the others.

    Attributes
    ----------
    place : str
    redundancy : float
        Share of it that the others check, 0 (nothing) to 1.
    standardised : float
        Baarda's test value; 0 where nothing checks it.
    detectable : float or None
        Smallest mistake that would be seen in four surveys of five; None where none would. [in]
    """

    place: str
    redundancy: float
    standardised: float
    detectable: float | None


@dataclass(frozen=True)
class SurveyResult:
    """Everything the survey answers.

    Attributes
    ----------
    walls : tuple of WallOffsets
    frame : Frame
    findings : tuple of Finding
    suspects : tuple of tuple of Suspect
        One group for each thing that was misread, explanations by falling odds.
    global_test : dict of str to float, or None
        chi_square, freedom, chance (of a worse fit without any slip), largest (test value), critical. None
        where nothing checks anything.
    reliability : tuple of Reliability
        One for each thing typed.
    """

    walls: tuple[WallOffsets, ...]
    frame: Frame
    findings: tuple[Finding, ...] = ()
    suspects: tuple[tuple[Suspect, ...], ...] = ()
    global_test: dict[str, float] | None = None
    reliability: tuple[Reliability, ...] = ()
