"""The survey form as data: for this job's walls, studs and heights, or blank where there are none yet."""

from __future__ import annotations

from fractions import Fraction

from undertile.job import Job
from undertile.lengths import MM, Length, Unit, parse_length
from undertile.packet.content import Blank, CheckTable, FormWall, Grid, Paper, SurveyForm
from undertile.packet.figures import both, placed
from undertile.packet.head import head_of
from undertile.packet.plan_view import WALLS
from undertile.packet.words import Language, Words
from undertile.survey.facts import SurveyFacts, Wall

BLANK_STUDS = 5
"""Columns of a wall whose studs nobody has named yet: 16 in apart over five feet, with one to spare."""
HEIGHTS: dict[Unit, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(z) for z in (2, 24, 48, 72, 90)),
    "mm": tuple(z * MM for z in (50, 600, 1200, 1800, 2280)),
}
"""Heights to start with (common practice): floor, three between, top. [in]"""
DEPTHS: dict[Unit, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(y) for y in (2, 16, 31)),
    "mm": tuple(y * MM for y in (50, 400, 800)),
}
WHO = ("who", "wrote", "date", "instrument", "level")
"""What is written at the head of the form."""
LEVELLED = 2
"""Studs of a wall to hold a level on where none is chosen: the second and the last."""


def survey_form(
    job: Job,
    *,
    date: str = "",
    language: Language = "en",
    paper: Paper = "letter",
    unit: Unit | None = None,
) -> SurveyForm:
    """Everything on the survey form.

    Parameters
    ----------
    job : Job
        Any, also one just begun: what is typed is printed small, what is missing is blank.
    date : str
        Of the print.
    language : {"en", "es"}
    paper : {"letter", "a4"}
    unit : {"in", "mm"}, optional
        To print in; else the job's own. What was typed stays as typed.

    Returns
    -------
    SurveyForm
    """
    words, facts, unit = Words(language), job.survey, unit or job.unit
    names = [name for name in WALLS if name in facts.walls] or list(WALLS)
    return SurveyForm(
        head=head_of(job, date, language, paper, unit),
        title=words("form-title"),
        how=tuple(words(f"form-{key}") for key in ("how", "arris", "slip")),
        who=tuple(Blank(words(f"form-{key}")) for key in (*_unnamed(job), *WHO)),
        walls=tuple(_wall(name, facts, words, unit, job.unit) for name in names),
        checks=tuple(_checks(facts, names, words, unit)),
        pan=tuple(_pan(job, words)),
    )


def _unnamed(job: Job) -> list[str]:
    """What a job just begun has no words for yet."""
    return [key for key, text in (("name", job.name), ("place", job.place)) if not text]


def _text(value: object) -> str:
    """A value as typed; "" for what is not there."""
    if isinstance(value, Length):
        return value.text
    return value if isinstance(value, str) else ""


def _wall(name: str, facts: SurveyFacts, words: Words, unit: Unit, own_unit: Unit) -> FormWall:
    wall = next((each for key, each in facts.walls.items() if key == name), None)
    studs = sorted(wall.studs, key=lambda stud: wall.studs[stud].along.inches) if wall else []
    heights = sorted({z.inches for z in wall.heights}) if wall else []
    heights = heights or list(HEIGHTS[unit])
    names = tuple(studs) or tuple(f"{name}{n}" for n in range(1, BLANK_STUDS + 1))
    labels = tuple(both(z, unit) for z in heights)
    filled: dict[str, str] = {}
    if wall:
        for stud in studs:
            for z, label in zip(heights, labels, strict=True):
                text = _reading(wall, stud, z, own_unit)
                if text:
                    filled[f"{stud}|{label[0]}"] = text
    first = (names[0], labels[0][0])
    again = next(
        (each for each in facts.repeats.values() if wall is not None and each.stud in wall.studs),
        None,
    )
    where = first if again is None else (again.stud, placed(again.height.inches, unit))
    spot = words("form-at", stud=where[0], height=where[1])
    read_again = _text(again.reading) if again and isinstance(again.reading, Length) else ""
    return FormWall(
        title=words.wall(name),
        order=words("form-order-B" if name == "B" else "form-order-side"),
        blanks=(
            Blank(words("form-nominal"), _text(wall.nominal) if wall else ""),
            Blank(words("form-top"), _text(wall.top) if wall else ""),
        ),
        grid=Grid(words.wall(name), names, labels, filled),
        along=tuple(_text(wall.studs[stud].along) for stud in studs)
        if wall and studs
        else ("",) * len(names),
        arris=tuple(stud for stud in studs if wall and wall.studs[stud].arris),
        again=Blank(words("form-again", where=spot), read_again),
    )


def _reading(wall: Wall, stud: str, height: Fraction, own_unit: Unit) -> str:
    """Readings typed at one place, both edges of a twisted stud: ``6-1/16``, ``6 / 6-1/8``."""
    own = wall.studs[stud]
    found = []
    for line in (own.readings, own.arris):
        for key, value in line.items():
            if _same(key, height, own_unit) and _text(value):
                found.append(_text(value))
    return " / ".join(found)


def _same(text: str, height: Fraction, unit: Unit) -> bool:
    try:
        return parse_length(text, unit).inches == height
    except ValueError:
        return False


def _checks(facts: SurveyFacts, names: list[str], words: Words, unit: Unit) -> list[CheckTable]:
    tables = []
    if {"L", "R"} <= set(names):
        tables.append(CheckTable(words("form-widths"), grid=_widths(facts, words, unit)))
        tables.append(CheckTable(words("form-gaps"), _gaps(facts, words, unit)))
    if {"L", "B", "R"} <= set(names):
        tables.append(CheckTable(words("form-diagonals"), _diagonals(facts, words, unit)))
    if "B" in names and len(names) > 1:
        tables.append(CheckTable(words("form-squares"), _squares(facts, names, words, unit)))
    tables.append(CheckTable(words("form-levels"), _levels(facts, names, words, unit)))
    return tables


def _lowest(facts: SurveyFacts, unit: Unit) -> Fraction:
    return min((z.inches for wall in facts.walls.values() for z in wall.heights), default=HEIGHTS[unit][0])


def _widths(facts: SurveyFacts, words: Words, unit: Unit) -> Grid:
    """Depths across and heights up: those the job has, else three by three."""
    typed = [(w.depth.inches, w.height.inches, w.reading.text) for w in facts.widths.values()]
    spots = typed or [(y, z, "") for y in DEPTHS[unit] for z in HEIGHTS[unit][::2]]
    depths = sorted({y for y, _, _ in spots})
    heights = sorted({z for _, z, _ in spots})
    columns = {y: words("form-width-depth", depth=placed(y, unit)) for y in depths}
    filled = {f"{columns[y]}|{placed(z, unit)}": text for y, z, text in spots if text}
    return Grid("", tuple(columns.values()), tuple(both(z, unit) for z in heights), filled)


def _gaps(facts: SurveyFacts, words: Words, unit: Unit) -> tuple[Blank, ...]:
    typed = [(gap.depth.inches, gap.reading.text) for gap in facts.gaps.values()]
    spots = typed or [(DEPTHS[unit][0], ""), (DEPTHS[unit][-1], "")]
    return tuple(Blank(words("form-width-depth", depth=placed(y, unit)), text) for y, text in sorted(spots))


def _diagonals(facts: SurveyFacts, words: Words, unit: Unit) -> tuple[Blank, ...]:
    typed = [(d.corner, d.depth.inches, d.height.inches, d.reading.text) for d in facts.diagonals.values()]
    have = {corner for corner, *_ in typed}
    typed += [
        (corner, DEPTHS[unit][-1], _lowest(facts, unit), "") for corner in ("BL", "BR") if corner not in have
    ]
    return tuple(
        Blank(words(f"form-diagonal-{corner}", depth=placed(y, unit), height=placed(z, unit)), text)
        for corner, y, z, text in sorted(typed)
    )


def _squares(facts: SurveyFacts, names: list[str], words: Words, unit: Unit) -> tuple[Blank, ...]:
    over = Fraction(48) if unit == "in" else 1200 * MM
    blanks = []
    for name in ("L", "R"):
        if name in names:
            own = [each for each in facts.squares.values() if each.wall == name]
            spots = [(each.over.inches, each.out.text) for each in own] or [(over, "")]
            for at, text in spots:
                blanks.append(Blank(words("form-square", wall=words.wall(name), over=placed(at, unit)), text))
    return tuple(blanks)


def _levels(facts: SurveyFacts, names: list[str], words: Words, unit: Unit) -> tuple[Blank, ...]:
    """Those the job has, and a stud of each wall that has none."""
    blanks = []
    for level in facts.levels.values():
        low, high = placed(level.low.inches, unit), placed(level.high.inches, unit)
        blanks.append(Blank(words("form-level-at", stud=level.stud, low=low, high=high), level.reading.text))
    for name in names:
        wall = next((each for key, each in facts.walls.items() if key == name), None)
        studs = sorted(wall.studs, key=lambda s: wall.studs[s].along.inches) if wall else []
        if any(level.stud in studs for level in facts.levels.values()):
            continue
        heights = sorted(z.inches for z in wall.heights) if wall else []
        if len(studs) < LEVELLED or len(heights) < LEVELLED:
            blanks.append(Blank(words("form-level-blank")))
            continue
        low, high = placed(heights[min(1, len(heights) - 2)], unit), placed(heights[-1], unit)
        blanks.append(Blank(words("form-level-at", stud=studs[1], low=low, high=high)))
    return tuple(blanks)


def _pan(job: Job, words: Words) -> list[Blank]:
    pan, drain, valve = job.pan.pan, job.pan.drain, job.framing.valve
    finish = job.framing.finish
    thick = " / ".join(filter(None, map(_text, (finish.board, finish.membrane, finish.mortar, finish.tile))))
    have = {
        "pan-width": _text(pan.width),
        "pan-depth": _text(pan.depth),
        "flange-height": _text(pan.flange_height),
        "flange-thickness": _text(pan.flange_thickness),
        "outlet-x": _text(pan.outlet.x) if pan.outlet else "",
        "outlet-y": _text(pan.outlet.y) if pan.outlet else "",
        "drain-x": _text(drain.x) if drain else "",
        "drain-y": _text(drain.y) if drain else "",
        "valve": f"{valve.reading.text}; {valve.window_low.text} - {valve.window_high.text}" if valve else "",
        "door": _text(job.pan.way_in.door),
        "board": thick,
        "notes": "",
    }
    return [Blank(words(f"form-{key}"), text) for key, text in have.items()]
