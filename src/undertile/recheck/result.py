"""What a re-check answers: verdicts of studs, walls and room, what to read next, what is left, the proof."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.findings import Check, Finding, Verdict
from undertile.recheck.asked import Asked
from undertile.recheck.faces import StudFaces, WallFaces
from undertile.recheck.flat import LineFlat
from undertile.recheck.left import Left
from undertile.recheck.proof import Proof
from undertile.survey.result import Suspect


@dataclass(frozen=True)
class StudVerdict:
    """One stud: its face against the plane, and the straightedge up it under each rule."""

    stud: str
    wall: str
    touched: bool
    verdict: Verdict
    checks: tuple[Check, ...]
    show: tuple[str, ...] = ()


@dataclass(frozen=True)
class WallVerdict:
    """One wall.

    Attributes
    ----------
    wall : str
    verdict : Verdict
        The worst of its studs and checks.
    studs : tuple of StudVerdict
        By rising ``along``.
    checks : tuple of Check
        Flatness under each straightedge up, along and across; plumb.
    lines : tuple of LineFlat
        What flatness was worked from.
    stands : str
        What stands on the first survey.
    show : tuple of str
        What to read, lay on or mend, in order.
    """

    wall: str
    verdict: Verdict
    studs: tuple[StudVerdict, ...]
    checks: tuple[Check, ...]
    lines: tuple[LineFlat, ...]
    stands: str
    show: tuple[str, ...] = ()


@dataclass(frozen=True)
class RecheckResult:
    """The whole answer.

    Attributes
    ----------
    state : str
        ``no plan``; ``not begun`` (nothing is read again: ``asked`` says what to read); ``read``.
    asked : tuple of Asked
        What to read again, in the order of walking the room.
    missing : tuple of Asked
        What of it is not read yet.
    verdict : Verdict
        Of the room.
    walls : tuple of WallVerdict
    room : tuple of Check
        Play at each depth, and square.
    faces : tuple of WallFaces
    doubts : tuple of tuple of Suspect
        Readings taken again that look misread.
    settle : tuple of (stud, height, str)
        Readings in doubt, with what settles each. [height in]
    left : Left or None
    proof : Proof or None
    findings : tuple of Finding
    """

    state: Literal["no plan", "not begun", "read"]
    asked: tuple[Asked, ...] = ()
    missing: tuple[Asked, ...] = ()
    verdict: Verdict = Verdict.NOT_SHOWN
    walls: tuple[WallVerdict, ...] = ()
    room: tuple[Check, ...] = ()
    faces: tuple[WallFaces, ...] = ()
    doubts: tuple[tuple[Suspect, ...], ...] = ()
    settle: tuple[tuple[str, Fraction, str], ...] = ()
    left: Left | None = None
    proof: Proof | None = None
    findings: tuple[Finding, ...] = field(default=())

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every check, the room's first."""
        return (
            *self.room,
            *(check for wall in self.walls for check in wall.checks),
            *(check for wall in self.walls for stud in wall.studs for check in stud.checks[:1]),
        )

    def stud(self, name: str) -> StudFaces | None:
        """One stud as it stands, None where the plan has no such stud."""
        return next((s for wall in self.faces for s in wall.studs if s.name == name), None)
