"""What the survey hands on: offsets with their uncertainty in one room frame, and what looks wrong."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
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
        [in/in]
    """

    opening_at_back: Fraction | None = None
    opening_growth: Fraction = Fraction(0)
    opening_sigma: float = 0.0
    out_of_square: dict[str, Fraction] | None = None
    square_sigma: float = 0.0

    def opening(self, depth: Fraction) -> Fraction | None:
        """Distance between the L and R nominal planes at a depth. [in]"""
        if self.opening_at_back is None:
            return None
        return self.opening_at_back + self.opening_growth * depth


@dataclass(frozen=True)
class Suspect:
    """One mistake that would clear the misfit: offered, never made.

    Attributes
    ----------
    where : str
        ``B2 at 48``, ``width w3``, ``row B at 24``.
    slip : str
        Which mistake of jobmap B e1-e11, in words.
    typed, offered : str
        The reading(s) as typed and as they would be.
    odds : float
        Probability among the explanations looked at, 0..1.
    settle : str
        The one measurement that would settle it.
    """

    where: str
    slip: str
    typed: str
    offered: str
    odds: float
    settle: str


@dataclass(frozen=True)
class SurveyResult:
    """Everything the survey answers."""

    walls: tuple[WallOffsets, ...]
    frame: Frame
    findings: tuple[Finding, ...] = ()
    suspects: tuple[tuple[Suspect, ...], ...] = ()
    global_test: dict[str, float] | None = None
