"""From faces and straightedges to a verdict for every stud, wall and the room (convention 5)."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.flatcheck import READINGS_PER_LENGTH
from undertile.framing.flatcheck import WAYS as TITLES
from undertile.framing.say import code_place, said
from undertile.lengths import Unit
from undertile.recheck.band import face_check, plumb_check
from undertile.recheck.doubt import Doubts
from undertile.recheck.faces import WallFaces
from undertile.recheck.flat import READ_AGAIN, WAYS, LineFlat, edge_words, worst_line
from undertile.recheck.result import StudVerdict, WallVerdict
from undertile.recheck.say import to_show, worst
from undertile.sentence import Sentence, form, joined, listed


def judge_wall(
    wall: WallFaces,
    lines: Sequence[LineFlat],
    doubts: Doubts,
    plumb_limit: Fraction,
    source: str,
    unit: Unit,
) -> WallVerdict:
    """Judge one wall.

    Parameters
    ----------
    wall : WallFaces
    lines : sequence of LineFlat
        Of the wall, under every rule.
    doubts : Doubts
    plumb_limit : Fraction
        Over 8 ft. [in]
    source : str
        Key of the flatness rule.
    unit : {"in", "mm"}
    """
    moved = doubts.moved.get(wall.name, "")
    studs = []
    for stud in wall.studs:
        face = face_check(stud, unit, doubts.settle, moved)
        own = [line for line in lines if line.way == "up" and stud.name in line.studs]
        checks = (face, *(_line_check(line, f"again-up-{stud.name}", source, unit) for line in own))
        verdict = worst(check.verdict for check in checks)
        studs.append(StudVerdict(stud.name, wall.name, stud.touched, verdict, checks, to_show(checks)))
    faces = [each.checks[0] for each in studs]
    flat = _flatness(wall, lines, source, unit)
    plumb = plumb_check(wall, plumb_limit, faces, unit)
    checks = (*flat, plumb)
    verdict = worst([*(stud.verdict for stud in studs), *(check.verdict for check in checks)])
    return WallVerdict(
        wall.name,
        verdict,
        tuple(studs),
        checks,
        tuple(lines),
        _stands(wall, unit),
        _to_show(faces, flat),
    )


def _to_show(faces: Sequence[Check], flat: Sequence[Check]) -> tuple[str, ...]:
    """What to read or mend, each once: a place its stud asks for is not asked for again by each rule."""
    own = to_show(faces)
    more = [step for step in to_show(flat) if not all(map(_reads_again, _parts(step)))]
    return tuple(dict.fromkeys((*own, *more)))


def _parts(step: str) -> Iterator[str]:
    """The sentences of several in a row (``joined``)."""
    if isinstance(step, Sentence) and step.form == "{first} {then}":
        for each in step.slots.values():
            yield from _parts(each if isinstance(each, str) else str(each))
    else:
        yield step


def _reads_again(step: str) -> bool:
    return isinstance(step, Sentence) and step.form == READ_AGAIN


def _flatness(wall: WallFaces, lines: Sequence[LineFlat], source: str, unit: Unit) -> tuple[Check, ...]:
    """One check for each rule and way: the line that decides, and what would show every line of that way."""
    out = []
    for length, way in dict.fromkeys((line.length, line.way) for line in lines):
        group = [line for line in lines if line.length == length and line.way == way]
        line = worst_line(group)
        code = f"again-flat-{wall.name}-{way}-{code_place(length)}"
        check = _line_check(line, code, source, unit)
        out.append(
            replace(
                check,
                code=code,
                title=Sentence(TITLES[way], length=said(length, unit)),
                where=Sentence(
                    "wall {wall}, {line}" if line.studs else "wall {wall}",
                    wall=wall.name,
                    line=line.at or line.where,
                ),
                next_step=_for_all(wall, line, group, unit),
            )
        )
    return tuple(out)


def _for_all(wall: WallFaces, line: LineFlat, group: Sequence[LineFlat], unit: Unit) -> str:
    """The step of the line that decides; several lines that lack the same get one step for all of them."""
    if line.verdict is not Verdict.NOT_SHOWN:
        return line.show
    open_lines = [each for each in group if each.verdict is Verdict.NOT_SHOWN]
    lacking = [each for each in open_lines if not each.reading_shows]
    if not lacking or line.lacks == "few":
        return joined(dict.fromkeys(each.show for each in open_lines), "{first} {then}")
    names = [each.where.removeprefix("height ") for each in lacking]
    if line.way == "across":
        lay = form(
            "Lay {edge} across wall {wall}, slanting both ways over all of it, and give the widest gap"
        )
    elif len(lacking) == len(group):
        lay = (
            form("Lay {edge} up wall {wall}, over every stud, and give the widest gap")
            if line.way == "up"
            else form("Lay {edge} along wall {wall}, over every height, and give the widest gap")
        )
    elif line.way == "up":
        lay = form("Lay {edge} up wall {wall}, at {names}, and give the widest gap")
    else:
        lay = form("Lay {edge} along wall {wall}, at height {names}, and give the widest gap")
    edge = Sentence(lay, edge=edge_words(line.length, unit), wall=wall.name, names=listed(names))
    if {each.lacks for each in lacking} == {"spacing"}:
        return Sentence(
            "{edge}; or read every {step} or closer.",
            edge=edge,
            step=said(line.length / READINGS_PER_LENGTH, unit, "down"),
        )
    return Sentence("{text}.", text=edge)


def _line_check(line: LineFlat, code: str, source: str, unit: Unit) -> Check:
    gap = line.widest
    return Check(
        code if code.endswith(code_place(line.length)) else f"{code}-{code_place(line.length)}",
        Sentence(
            "{length} straightedge {way} {where}",
            length=said(line.length, unit),
            way=WAYS[line.way],
            where=line.where,
        ),
        line.at or line.where,
        "" if gap is None else said(gap, unit, "up"),
        Sentence("{limit} under {length}", limit=said(line.limit, unit), length=said(line.length, unit)),
        "" if gap is None else said(line.limit - gap, unit, "down", signed=True),
        line.verdict,
        source,
        line.because,
        next_step=line.show,
        within_uncertainty=line.close,
    )


def _stands(wall: WallFaces, unit: Unit) -> str:
    """What stands on the first survey, in words."""
    counts: dict[str, int] = {}
    for stud in wall.studs:
        for face in stud.faces:
            counts[face.standing] = counts.get(face.standing, 0) + 1
    again = counts.get("read again", 0)
    first = counts.get("first survey", 0)
    parts: list[str] = [Sentence("{number} read again", number=again)] if again else []
    if first:
        parts.append(Sentence("{number} stand on the first survey", number=first))
    if counts.get("estimated"):
        parts.append(Sentence("{number} were never read", number=counts["estimated"]))
    lost = counts.get("missing", 0) + counts.get("cannot reach", 0)
    if lost:
        parts.append(Sentence("{number} asked for and not read", number=lost))
    return joined(parts)


def by_wall(checks: Mapping[str, WallVerdict]) -> Verdict:
    """Of the room's walls together."""
    return worst(wall.verdict for wall in checks.values())
