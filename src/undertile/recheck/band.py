"""Each stud's face against its plane (convention 3.3), and the wall's plumb."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.flatcheck import COVERAGE
from undertile.framing.holds import LEAN_OVER
from undertile.framing.problem import SIXTEENTH
from undertile.framing.say import said
from undertile.lengths import Unit
from undertile.recheck.faces import Face, StudFaces, WallFaces
from undertile.recheck.flat import to_read
from undertile.recheck.say import STANDING, off, spot, spots
from undertile.sentence import Sentence, joined

BAND = SIXTEENTH
"""Flush to this far behind the plane in the flange zone, either side above it (convention 3.3). [in]"""
ZERO = Fraction(0)


def limits(face: Face) -> tuple[Fraction, Fraction]:
    """Least and most a face may stand off its plane, plus = proud. [in]"""
    return (-BAND, ZERO) if face.flange else (-BAND, BAND)


def margin(face: Face) -> Fraction | None:
    """How far a face is inside its band; minus outside, None where nothing was read. [in]"""
    if face.off is None:
        return None
    low, high = limits(face)
    return min(face.off - low, high - face.off)


def face_verdict(face: Face) -> Verdict:
    """One face: fail outside its band; not shown where it is missing, estimated or too uncertain to tell."""
    room = margin(face)
    if room is None or face.standing == "estimated":
        return Verdict.NOT_SHOWN
    if room < 0:
        return Verdict.FAIL
    low, high = limits(face)
    return Verdict.NOT_SHOWN if face.sigma >= high - low else Verdict.PASS


def close(face: Face) -> bool:
    """Whether a face lies within twice its uncertainty of its limit (convention 5.2)."""
    room = margin(face)
    return room is not None and abs(float(room)) <= COVERAGE * face.sigma


def _close(stud: StudFaces, verdict: Verdict) -> bool:
    """A pass is as close as its closest face; a fail, where no face fails by more than its uncertainty."""
    if verdict is Verdict.FAIL:
        return all(close(face) for face in stud.faces if face_verdict(face) is Verdict.FAIL)
    return verdict is Verdict.PASS and any(close(face) for face in stud.faces)


def face_check(
    stud: StudFaces,
    unit: Unit,
    doubt: Mapping[tuple[str, Fraction], str],
    line_moved: str = "",
) -> Check:
    """One stud's face against its plane, at the height that decides.

    Parameters
    ----------
    stud : StudFaces
    unit : {"in", "mm"}
    doubt : mapping of (stud, height) to str
        Readings in doubt, with what settles them: a pass that rests on one is not shown.
    line_moved : str
        What to do where the wall's line no longer hangs where it hung; "" where nothing says so.
    """
    rank = {Verdict.FAIL: 0, Verdict.NOT_SHOWN: 1, Verdict.PASS: 2}
    decides = min(
        stud.faces,
        key=lambda face: (rank[face_verdict(face)], m if (m := margin(face)) is not None else ZERO),
    )
    verdict = face_verdict(decides)
    steps: list[str] = []
    missing = [face for face in stud.faces if face.off is None]
    guessed = [face for face in stud.faces if face.standing == "estimated"]
    rough = [face for face in stud.faces if face_verdict(face) is Verdict.NOT_SHOWN]
    rough = [face for face in rough if face not in missing and face not in guessed]
    unsure = [doubt[stud.name, face.height] for face in stud.faces if (stud.name, face.height) in doubt]
    if verdict is Verdict.FAIL:
        steps.append(Sentence("Bring {stud} to its plane: see what is left to do.", stud=stud.name))
    steps += to_read([(stud.name, face) for face in stud.faces], unit)
    if rough:
        places = spots([(stud.name, f.height) for f in rough], unit)
        steps.append(Sentence("Read {spots} with a finer rule.", spots=places))
    steps += [Sentence("{text}.", text=settle) for settle in dict.fromkeys(unsure)]
    if line_moved and any(face.standing == "read again" for face in stud.faces):
        steps.append(line_moved)
    if verdict is Verdict.PASS and (unsure or (line_moved and steps)):
        verdict = Verdict.NOT_SHOWN
    room = margin(decides)
    allowed = Sentence("flush to {band} back" if decides.flange else "within {band}", band=said(BAND, unit))
    return Check(
        f"again-face-{stud.name}",
        Sentence("Face against its plane"),
        spot(stud.name, decides.height, unit),
        "" if decides.off is None else off(decides.off, unit),
        allowed,
        "" if room is None else said(room, unit, "down", signed=True),
        verdict,
        "convention-3",
        tuple(_because(face, unit) for face in stud.faces),
        next_step=joined(steps, "{first} {then}"),
        within_uncertainty=_close(stud, verdict),
    )


def _because(face: Face, unit: Unit) -> str:
    slots = {
        "height": said(face.height, unit, mark=False),
        "standing": STANDING[face.standing],
        "plane": said(face.target, unit, signed=True),
    }
    if face.offset is None:
        return Sentence("at {height}: {standing} ({why}); plane {plane}", why=face.why, **slots)
    return Sentence(
        "at {height}: {text} ({standing}), offset {offset}; plane {plane}"
        if face.text
        else "at {height}: ({standing}), offset {offset}; plane {plane}",
        text=face.text,
        offset=said(face.offset, unit, signed=True),
        **slots,
    )


def wall_lean(wall: WallFaces, checks: Iterable[Check]) -> Fraction | None:
    """Lean over 8 ft that a wall is judged by, as in :func:`plumb_check`; None where nothing says. [in]

    Parameters
    ----------
    wall : WallFaces
    checks : iterable of Check
        Of its faces.
    """
    if all(check.verdict is not Verdict.FAIL for check in checks):
        return wall.plane.lean * LEAN_OVER
    return _lean(wall)[0]


def plumb_check(wall: WallFaces, limit: Fraction, checks: Iterable[Check], unit: Unit) -> Check:
    """Plumb of a wall: the lean of the plane that its faces keep to, else the lean they have themselves.

    Faces that all lie in their bands lie on the plane chosen, so its lean is theirs (single studs may stand
    off it by their band, as in the plan). Once one does not, the best straight plane through what was read
    is taken, by least squares.
    """
    over = said(LEAN_OVER, unit)
    verdicts = [check.verdict for check in checks]
    title, code = Sentence("Plumb of the wall"), f"again-plumb-{wall.name}"
    words = Sentence("at most {most} in {over}", most=said(limit, unit), over=over)
    fitted, sigma = _lean(wall)
    measured: str = ""
    if fitted is not None:
        measured = (
            Sentence("best plane through the readings leans {lean}", lean=_way(fitted, unit))
            if fitted
            else Sentence("best plane through the readings stands plumb")
        )
    if all(verdict is not Verdict.FAIL for verdict in verdicts):
        lean = wall.plane.lean * LEAN_OVER
        shown = all(verdict is Verdict.PASS for verdict in verdicts)
        verdict = Verdict.PASS if abs(lean) <= limit else Verdict.FAIL
        because: list[str] = [Sentence("the faces keep to their plane, so its lean is theirs"), measured]
        if not shown and verdict is Verdict.PASS:
            verdict = Verdict.NOT_SHOWN
            because = [Sentence("not every face is shown to keep to its plane"), measured]
        sure = 0.0
    elif fitted is None:
        return Check(
            code, title, f"wall {wall.name}", "", words, "", Verdict.NOT_SHOWN, "ufgs-thinset-plumb",
            (Sentence("fewer than two heights are read"),),
            next_step=Sentence("Read the studs of wall {wall} at two heights.", wall=wall.name),
        )  # fmt: skip
    else:
        lean, sure = fitted, sigma
        verdict = Verdict.PASS if abs(lean) <= limit else Verdict.FAIL
        because = [
            measured,
            Sentence("a face stands outside its band, so the readings are taken by themselves"),
        ]
    step = ""
    if verdict is Verdict.FAIL:
        step = Sentence(
            "Bring the faces of wall {wall} to their plane, or hold the plane plumber.", wall=wall.name
        )
    elif verdict is Verdict.NOT_SHOWN:
        step = Sentence("Show every face of wall {wall} first (above).", wall=wall.name)
    return Check(
        code,
        title,
        f"wall {wall.name}",
        _way(lean, unit),
        words,
        said(limit - abs(lean), unit, "down", signed=True),
        verdict,
        "ufgs-thinset-plumb",
        tuple(filter(None, because)),
        next_step=step,
        within_uncertainty=sure > 0 and abs(float(limit - abs(lean))) <= COVERAGE * sure,
    )


def _way(lean: Fraction, unit: Unit) -> str:
    if not lean:
        return Sentence("no lean")
    return Sentence(
        "{value} in {over}, top into the room" if lean > 0 else "{value} in {over}, top back",
        value=said(abs(lean), unit, "up"),
        over=said(LEAN_OVER, unit),
    )


def _lean(wall: WallFaces) -> tuple[Fraction | None, float]:
    """Lean over 8 ft of the best plane a + b along + c height through what was read, and its sigma. [in]"""
    points = [
        (stud.along, face.height, face.offset - (ZERO if face.flange else wall.plane.step), face.sigma)
        for stud in wall.studs
        for face in stud.faces
        if face.offset is not None and face.standing != "estimated"
    ]
    if len({z for _, z, _, _ in points}) < 2:
        return None, 0.0
    n = len(points)
    x0 = sum((p[0] for p in points), ZERO) / n
    z0 = sum((p[1] for p in points), ZERO) / n
    sxx = sum(((x - x0) ** 2 for x, *_ in points), ZERO)
    szz = sum(((z - z0) ** 2 for _, z, *_ in points), ZERO)
    sxz = sum(((x - x0) * (z - z0) for x, z, *_ in points), ZERO)
    sxt = sum(((x - x0) * t for x, _, t, _ in points), ZERO)
    szt = sum(((z - z0) * t for _, z, t, _ in points), ZERO)
    spread = szz - (sxz * sxz / sxx if sxx else ZERO)
    if spread <= 0:
        return None, 0.0
    lean = (szt - (sxz * sxt / sxx if sxx else ZERO)) / spread
    sigma = max(p[3] for p in points) / float(spread) ** 0.5
    return lean * LEAN_OVER, sigma * float(LEAN_OVER)
