"""The faces once the wood is dry: each stud in its band, each wall under the straightedge (convention 5.1).

How far a stud goes back is known from least to most. A check passes when it holds for all of that, fails
when it holds for none of it, and is not shown in between. What hangs on the planes alone (play, valve, drain,
edges) holds dry as it holds trued as long as every face stays in its band: that is what these checks tell.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.dries import MAY_LIE_BACK, SOURCE, Dries
from undertile.framing.flatcheck import FaceGrid, line_name
from undertile.framing.flatness import Line, profiles, straightedge
from undertile.framing.say import code_place, place, rule_length, said
from undertile.lengths import Unit
from undertile.sentence import Sentence


def dried_checks(
    grid: FaceGrid,
    new: Sequence[bool],
    dries: Mapping[str, Dries],
    rules: Sequence[tuple[Fraction, Fraction]],
    *,
    unit: Unit = "in",
    source: str = "a108.02-4.2.2",
) -> tuple[Check, ...]:
    """One check for each stud of a wall that is still to dry, then one for each straightedge rule.

    Parameters
    ----------
    grid : FaceGrid
        Faces as planned, as residuals from the plane. [in]
    new : sequence of bool, one per member
        Whether its face is new (sister, replacement, channel): it does not go back with the old stud.
    dries : mapping of str to Dries
        By stud.
    rules : sequence of (length, limit)
        [in]
    unit : {"in", "mm"}
    source : str
        Key of the straightedge rule.

    Returns
    -------
    tuple of Check
        None where no stud of the wall is still to dry.
    """
    wet = {m: dries[name] for m, name in enumerate(grid.names) if name in dries}
    if not wet:
        return ()
    checks = [_stud(grid, m, new[m], each, unit) for m, each in wet.items()]
    moving = {m: each for m, each in wet.items() if not new[m]}
    if moving and len(grid.names) > 2:
        checks += [_flat(grid, moving, length, limit, unit, source) for length, limit in rules]
    return tuple(checks)


def _stud(grid: FaceGrid, m: int, fresh: bool, dries: Dries, unit: Unit) -> Check:
    name = grid.names[m]
    at, back = max(((h, -r) for h, r in enumerate(grid.faces[m])), key=lambda item: item[1])
    limit = Sentence("at most {limit} behind the plane", limit=said(MAY_LIE_BACK, unit))
    check = Check(f"dries-{name}", "Stud once it is dry", name, "", limit, "", Verdict.NOT_SHOWN, SOURCE)
    if fresh:
        return replace(
            check,
            value=Sentence("on the plane"),
            verdict=Verdict.PASS,
            because=(Sentence("its face is new wood: the old stud dries behind it"),),
        )
    if not dries.known:
        return replace(
            check,
            because=(Sentence("it is wet, and its depth is not measured"),),
            next_step=Sentence("Measure {stud} face to back: how far it shrinks goes with it.", stud=name),
        )
    least, most = back + dries.least, back + dries.most
    verdict, step = Verdict.PASS, ""
    if most > MAY_LIE_BACK:
        verdict = Verdict.FAIL if least > MAY_LIE_BACK else Verdict.NOT_SHOWN
        step = Sentence("Let it dry and read it again before it is trued.")
        if dries.since:
            step = Sentence("Read it again before it is trued.")
    return replace(
        check,
        value=_behind(most, unit),
        margin=said(MAY_LIE_BACK - most, unit, "down", signed=True),
        verdict=verdict,
        because=(
            Sentence(
                "its face may have gone back {reach} since it was read"
                if dries.since
                else "its face goes back {reach} as it dries",
                reach=dries.reach(unit),
            ),
            Sentence(
                "as planned at {height}: {face}",
                height=place(grid.heights[at], unit),
                face=_behind(back, unit),
            ),
        ),
        eats=Sentence(
            "drying eats {most} of the {limit}",
            most=said(dries.most, unit, "up"),
            limit=said(MAY_LIE_BACK, unit),
        ),
        next_step=step,
    )


def _behind(value: Fraction, unit: Unit) -> str:
    if not value:
        return Sentence("on the plane")
    if value > 0:
        return Sentence("{by} behind the plane", by=said(value, unit, "up"))
    return Sentence("{by} proud of the plane", by=said(-value, unit, "down"))


def _flat(
    grid: FaceGrid, wet: Mapping[int, Dries], length: Fraction, limit: Fraction, unit: Unit, source: str
) -> Check:
    """A rule over the lines from stud to stud: a stud goes back as one piece, along itself nothing moves."""
    lines = [line for line in profiles(grid.alongs, grid.heights) if line.direction != "up"]
    widest, line, at = max(
        ((_gap(grid, each, p, length, wet, sure=False), each, p) for each in lines for p in _inner(each)),
        key=lambda item: item[0],
    )
    surely = any(_gap(grid, each, p, length, wet, sure=True) > limit for each in lines for p in _inner(each))
    unread = [
        grid.names[m] for m in range(len(grid.names)) if grid.read is not None and not all(grid.read[m])
    ]
    unknown = [each.stud for each in wet.values() if not each.known]
    shown = widest <= limit and not unread and not unknown
    verdict = Verdict.FAIL if surely else Verdict.PASS if shown else Verdict.NOT_SHOWN
    m, h = line.cells[at]
    spot = Sentence("{stud} at {height}", stud=grid.names[m], height=place(grid.heights[h], unit))
    step = ""
    if unknown:
        step = Sentence(
            "Measure {stud} face to back: how far it shrinks goes with it.", stud=", ".join(unknown)
        )
    elif unread and widest <= limit:
        step = Sentence("Read every height of {studs}.", studs=", ".join(unread))
    elif verdict is not Verdict.PASS:
        step = Sentence("Let the wet studs dry and read them again before they are trued.")
        if all(each.since for each in wet.values()):
            step = Sentence(
                "Read {studs} again before they are trued.", studs=", ".join(e.stud for e in wet.values())
            )
    because = [
        Sentence("{stud} goes back {reach} as it dries", stud=each.stud, reach=each.reach(unit))
        for each in wet.values()
        if each.known
    ]
    if widest > 0:
        because.append(Sentence("widest over {spot}, {line}", spot=spot, line=line_name(grid, line, unit)))
    return Check(
        f"dries-flat-{grid.wall}-{code_place(length)}",
        Sentence("Flat once dry, {length} straightedge", length=rule_length(length, unit)),
        f"wall {grid.wall}",
        said(widest, unit, "up"),
        Sentence("{limit} under {length}", limit=said(limit, unit), length=rule_length(length, unit)),
        said(limit - widest, unit, "down", signed=True),
        verdict,
        source,
        tuple(because),
        eats=Sentence("its stud goes back and its neighbors do not") if m in wet and widest > 0 else "",
        next_step=step,
    )


def _inner(line: Line) -> range:
    return range(1, len(line.cells) - 1)


def _gap(
    grid: FaceGrid, line: Line, p: int, length: Fraction, wet: Mapping[int, Dries], *, sure: bool
) -> Fraction:
    """The gap over one reading: at the worst that drying may do, or (``sure``) at the best. [in]"""
    values = []
    for j, (m, h) in enumerate(line.cells):
        dries = wet.get(m)
        face = grid.faces[m][h]
        if dries is not None:
            if j == p:
                face -= dries.least if sure else dries.most
            elif sure:
                face -= dries.most
        values.append(face)
    found = straightedge(line.positions, line.window(length)).worst_at(p, values)
    return Fraction(0) if found is None else found.gap
