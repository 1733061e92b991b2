"""The one page that shows it: tolerance and source, what was found under each rule, on which readings.

Plain figures for a page, ``--json`` and anybody who wants to work it out again. The digest is of the readings
as typed (SHA-256 over the lines of ``digest_lines``): a reading changed later gives another one.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.lengths import Unit, format_length
from undertile.recheck.did import Tick
from undertile.recheck.faces import WallFaces
from undertile.recheck.facts import RecheckFacts
from undertile.recheck.flat import LineFlat, worst_line


@dataclass(frozen=True)
class Tolerance:
    """A published limit: the words of it, the key of its source, and the straightedges it asks for."""

    source: str
    long_length: Fraction
    long_limit: Fraction
    short_length: Fraction
    short_limit: Fraction
    plumb_limit: Fraction
    plumb_over: Fraction
    plumb_source: str


@dataclass(frozen=True)
class Gap:
    """The widest gap of a wall under one straightedge, whichever way it was laid.

    ``widest`` None = nothing says; ``by`` readings or straightedge; ``sigma`` of the gap. [in]
    """

    length: Fraction
    limit: Fraction
    widest: Fraction | None
    where: str
    way: str
    by: str
    sigma: float
    verdict: Verdict
    close: bool


@dataclass(frozen=True)
class ProofReading:
    """One face: ``text`` as typed; ``off`` the plane, plus = proud; ``standing`` what it rests on. [in]"""

    stud: str
    height: Fraction
    text: str
    standing: str
    off: Fraction | None
    flange: bool


@dataclass(frozen=True)
class ProofWall:
    """One wall of the proof.

    ``gaps``: the long and then the short straightedge; ``lean`` over 8 ft, plus = top into the room. [in]
    """

    wall: str
    verdict: Verdict
    gaps: tuple[Gap, ...]
    plumb: Check
    lean: Fraction | None
    worst_face: Check
    readings: tuple[ProofReading, ...]
    nominal: Fraction
    stands: str
    by: str
    date: str
    show: tuple[str, ...]


@dataclass(frozen=True)
class ProofPlay:
    """Play at one depth and height; ``measured``: the width was measured again. [in]"""

    depth: Fraction
    height: Fraction
    measured: bool
    check: Check


@dataclass(frozen=True)
class DoneStud:
    """A stud ticked as done: minutes as planned and as they were (None = not noted).

    ``tick``: whether it was for what this plan asks of the stud; ``did``: what it was for, as kept.
    """

    stud: str
    planned_minutes: Fraction
    actual_minutes: Fraction | None
    by: str
    date: str
    tick: Tick = "holds"
    did: str = ""


@dataclass(frozen=True)
class Proof:
    """The page.

    Attributes
    ----------
    tolerance : Tolerance
    verdict : Verdict
        Of the room; not shown is never printed as a pass.
    walls : tuple of ProofWall
    play, square : tuple of Check, Check or None
    play_at : tuple of ProofPlay
        The same play by depth and height.
    by, date, instrument, tool : str
    sigma : float
        Standard uncertainty of a reading. [in]
    feeler_sigma : float
        Of a gap under a straightedge. [in]
    not_shown : tuple of (str, str)
        What was not shown, and what to read to show it.
    failed : tuple of (str, str)
        What failed, and what to do.
    photos : tuple of str
        Pictures that belong to the page, by name: one line to fill for each.
    done : tuple of DoneStud
    digest : str
        SHA-256 of the readings, in hex.
    """

    tolerance: Tolerance
    verdict: Verdict
    walls: tuple[ProofWall, ...]
    play: tuple[Check, ...]
    play_at: tuple[ProofPlay, ...]
    square: Check | None
    by: str
    date: str
    instrument: str
    tool: str
    sigma: float
    feeler_sigma: float
    not_shown: tuple[tuple[str, str], ...]
    failed: tuple[tuple[str, str], ...]
    photos: tuple[str, ...]
    done: tuple[DoneStud, ...]
    digest: str


def gaps_of(lines: Iterable[LineFlat]) -> tuple[Gap, ...]:
    """The widest gap under each straightedge, the longest first, by the line that decides."""
    found = list(lines)
    out = []
    for length in sorted({line.length for line in found}, reverse=True):
        line = worst_line(each for each in found if each.length == length)
        where = line.at or line.where
        out.append(
            Gap(
                length,
                line.limit,
                line.widest,
                where,
                line.way,
                line.by,
                line.sigma,
                line.verdict,
                line.close,
            )
        )
    return tuple(out)


def readings_of(wall: WallFaces) -> tuple[ProofReading, ...]:
    """Every face of a wall, stud by stud from the floor up."""
    return tuple(
        ProofReading(stud.name, face.height, face.text, face.standing, face.off, face.flange)
        for stud in wall.studs
        for face in stud.faces
    )


def photo_names(walls: Sequence[WallFaces]) -> tuple[str, ...]:
    """Pictures to take: each wall square-on with its marks, and the straightedge on every wall touched."""
    out = []
    for wall in walls:
        out.append(f"{wall.name}-trued")
        if any(stud.touched for stud in wall.studs):
            out.append(f"{wall.name}-straightedge")
    return tuple(out)


def digest_lines(facts: RecheckFacts, walls: Sequence[WallFaces]) -> tuple[str, ...]:
    """The lines the digest is of: every reading as typed, in a fixed order.

    ``face B2 48 read again 5-15/16`` for each face; then the widths, diagonals and straightedges by name, and
    who, when and with what.
    """

    def length(value: Fraction) -> str:
        return str(value)

    lines = [f"nominal {wall.name} {length(wall.nominal)}" for wall in walls]
    for wall in walls:
        lines += [
            f"face {stud.name} {length(face.height)} {face.standing} {face.text}".rstrip()
            for stud in wall.studs
            for face in stud.faces
        ]
    for name, width in sorted(facts.widths.items()):
        lines.append(f"width {name} {width.depth.text} {width.height.text} {width.reading.text} {width.tool}")
    for name, each in sorted(facts.diagonals.items()):
        lines.append(
            f"diagonal {name} {each.corner} {each.depth.text} {each.height.text} {each.reading.text} "
            f"{each.tool}"
        )
    for name, laid in sorted(facts.straightedges.items()):
        height = laid.height.text if laid.height is not None else ""
        lines.append(
            f"straightedge {name} {laid.wall} {laid.way} {laid.stud} {height} {laid.length.text} "
            f"{laid.gap.text} {laid.at}"
        )
    lines.append(f"by {facts.by} on {facts.date} with {facts.instrument} {facts.tool}")
    return tuple(" ".join(line.split()) for line in lines)


def digest(facts: RecheckFacts, walls: Sequence[WallFaces]) -> str:
    """SHA-256 of the readings, in hex."""
    return hashlib.sha256("\n".join(digest_lines(facts, walls)).encode()).hexdigest()


def short_digest(text: str) -> str:
    """The first sixteen characters in fours, as a person compares them."""
    return " ".join(text[at : at + 4] for at in range(0, 16, 4))


def said_sigma(sigma: float, unit: Unit = "in") -> str:
    """A standard uncertainty, up to the next 1/64 in, with mm beside it; in mm alone for an mm job."""
    if unit == "mm":
        return f"{sigma * 25.4:.1f} mm"
    step = Fraction(1, 64)
    inches = format_length(Fraction(sigma), "in", mark=True, step=step, rounding="up")
    return f"{inches} ({sigma * 25.4:.1f} mm)"
