"""Flatness of the faces as they stand: the plan's own straightedge on the readings, and the real one laid on.

One implementation judges a profile (``framing.flatcheck.judge``). Here the profiles hold only what was read:
a missing reading is left out and keeps its line from passing. A straightedge laid on the wall shows what
readings too far apart or too rough cannot (docs/methods/recheck.md).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from undertile.findings import Verdict
from undertile.framing.flatcheck import COVERAGE, READINGS_PER_LENGTH, Judged, judge
from undertile.framing.flatness import Line, profiles
from undertile.framing.say import place, said
from undertile.lengths import Unit
from undertile.recheck.faces import Face, StudFaces, WallFaces
from undertile.recheck.facts import Laid
from undertile.recheck.say import spots
from undertile.sentence import Sentence, form, joined

FEELER = Fraction(1, 64)
"""Standard uncertainty of a gap under a straightedge, by feeler or shim stack (common practice). [in]"""
HANDY = Fraction(96)
"""A straightedge longer than this does not go into a shower. [in]"""
OLDER = Sentence("the straightedge was laid before this wall was changed or read otherwise: lay it again")
RANK = {Verdict.FAIL: 2, Verdict.NOT_SHOWN: 1, Verdict.PASS: 0}


@dataclass(frozen=True)
class LineFlat:
    """One line over a wall under one straightedge rule.

    Attributes
    ----------
    way : str
        ``up``, ``along`` or ``across``.
    where : str
        ``B2``, ``height 48``, ``from B1 at 2 to B4 at 72``.
    studs : tuple of str
        On the line.
    length, limit : Fraction
        [in]
    widest : Fraction or None
        Gap, by the readings or the straightedge laid on (``by``); None where neither says. [in]
    at : str
        Where.
    sigma : float
        Standard uncertainty of the gap. [in]
    verdict : Verdict
    close : bool
        Within its uncertainty of the limit.
    by : str
        ``readings`` or ``straightedge``.
    lacks : str
        Why it is not shown: ``few``, ``unread``, ``spacing``, ``uncertain``.
    reading_shows : bool
        Reading what is missing would show it; no straightedge is needed.
    because : tuple of str
    show : str
        What to read or lay on to show it; "" for a pass.
    """

    way: str
    where: str
    studs: tuple[str, ...]
    length: Fraction
    limit: Fraction
    widest: Fraction | None
    at: str
    sigma: float
    verdict: Verdict
    close: bool
    by: str
    lacks: str
    because: tuple[str, ...]
    show: str
    reading_shows: bool = False


def lines_flat(
    wall: WallFaces,
    rules: Sequence[tuple[Fraction, Fraction]],
    laid: Iterable[Laid],
    feeler: Fraction = FEELER,
    unit: Unit = "in",
    gone: Iterable[Laid] = (),
) -> tuple[LineFlat, ...]:
    """Every line of a wall under every rule.

    Parameters
    ----------
    wall : WallFaces
    rules : sequence of (length, limit)
        [in]
    laid : iterable of Laid
        On this wall.
    feeler : Fraction
        Standard uncertainty of a gap under a straightedge. [in]
    unit : {"in", "mm"}
        To print in.
    gone : iterable of Laid
        On this wall as it was before: they show nothing of it now, and a line they lay on says so.

    Returns
    -------
    tuple of LineFlat
        Up each stud, along each height, then across; at least one up and one along for each rule.
    """
    edges, before = tuple(laid), tuple(gone)
    grid = profiles(tuple(stud.along for stud in wall.studs), wall.heights)
    out: list[LineFlat] = []
    for length, limit in rules:
        rule = _Rule(wall, length, limit, edges, feeler, unit, before)
        for way in ("up", "along", "across"):
            found = [each for line in grid if line.direction == way and (each := rule.line(line)) is not None]
            if not found and way != "across":
                found = [rule.none(way)]
            out += found
    return tuple(out)


@dataclass(frozen=True)
class _Rule:
    """One rule over one wall."""

    wall: WallFaces
    length: Fraction
    limit: Fraction
    laid: tuple[Laid, ...]
    feeler: Fraction
    unit: Unit
    gone: tuple[Laid, ...] = ()

    def line(self, line: Line) -> LineFlat | None:
        """One line; None where fewer than three of its places exist (a height read on few studs)."""
        heights = self.wall.heights
        cells = [(self.wall.studs[m], self.wall.studs[m].at(heights[h])) for m, h in line.cells]
        there = [
            (stud, face, at)
            for (stud, face), at in zip(cells, line.positions, strict=True)
            if face is not None
        ]
        if len(there) < 3:
            return None
        read = [
            (stud, face, at, face.off)
            for stud, face, at in there
            if face.off is not None and face.standing != "estimated"
        ]
        judged = judge(
            [at for _, _, at, _ in read],
            [off for *_, off in read],
            line.window(self.length),
            self.limit,
            sigmas=[face.sigma for _, face, _, _ in read],
            straight_between=line.direction == "along",
        )
        if judged.verdict is not Verdict.FAIL and len(read) < len(there):
            judged = Judged(Verdict.NOT_SHOWN, judged.gap, judged.sigma, False, "unread")
        where = _where(line.direction, there, self.unit)
        studs = tuple(dict.fromkeys(stud.name for stud, _, _ in there))
        span = line.positions[-1] - line.positions[0]
        reach = span * span * line.stretch
        fitting = self._fitting(self.laid, line.direction, there, reach)
        fitting = [laid for laid in fitting if laid.gap.inches <= self.limit or self._here(laid, there)]
        missing = joined(to_read([(stud.name, face) for stud, face, _ in there], self.unit), "{first}{then}")
        read_spots = [_spot(stud, face, self.unit) for stud, face, _, _ in read]
        found = self._settled(line.direction, where, studs, judged, fitting, read_spots, missing)
        if found.by == "readings" and self._fitting(self.gone, line.direction, there, reach):
            found = replace(found, because=(*found.because, OLDER))
        return replace(found, reading_shows=found.lacks == "unread" and self._sharp(line, read))

    def none(self, way: str) -> LineFlat:
        """A wall with too few studs or heights for any line that way."""
        judged = Judged(Verdict.NOT_SHOWN, None, lacks="few")
        fitting = [laid for laid in self.laid if laid.way == way and not laid.stud and laid.height is None]
        where = Sentence("wall {wall}", wall=self.wall.name)
        missing = Sentence(
            "Read at least three heights on a stud." if way == "up" else "Read at least three studs."
        )
        return self._settled(way, where, (), judged, fitting, [], missing)

    def _fitting(
        self,
        every: Iterable[Laid],
        way: str,
        there: Sequence[tuple[StudFaces, Face, Fraction]],
        span_squared: Fraction,
    ) -> list[Laid]:
        """Straightedges laid over this line, and long enough to speak of the rule or to break it."""
        first = there[0]
        return [
            laid
            for laid in every
            if laid.way == way
            and (not laid.stud or (way == "up" and laid.stud == first[0].name))
            and (laid.height is None or (way == "along" and laid.height.inches == first[1].height))
            and (
                laid.length.inches >= self.length
                or laid.length.inches**2 >= span_squared
                or laid.gap.inches > self.limit
            )
        ]

    def _here(self, laid: Laid, there: Sequence[tuple[StudFaces, Face, Fraction]]) -> bool:
        """Whether a gap that breaks the rule may be on this line: everywhere, unless ``at`` names a place."""
        words = set(laid.at.replace(",", " ").split())
        if laid.way == "up":
            every, own = {stud.name for stud in self.wall.studs}, {there[0][0].name}
        elif laid.way == "along":
            every = {place(z, self.unit) for z in self.wall.heights}
            own = {place(there[0][1].height, self.unit)}
        else:
            return True
        return not words & every or bool(words & own)

    def _settled(
        self,
        way: str,
        where: str,
        studs: tuple[str, ...],
        judged: Judged,
        fitting: Sequence[Laid],
        spots: Sequence[str],
        missing: str,
    ) -> LineFlat:
        """Readings and straightedge together; a wider gap under a shorter edge breaks the rule as well."""
        breaks = [
            laid for laid in fitting if laid.gap.inches > self.limit and laid.length.inches <= self.length
        ]
        holds = [laid for laid in fitting if laid.gap.inches <= self.limit]
        by_hand = bool(breaks) or (
            bool(holds) and (judged.verdict is not Verdict.FAIL or judged.within_uncertainty)
        )
        because = list(_because(judged, spots, self.unit))
        if by_hand:
            laid = max(breaks or holds, key=lambda each: each.gap.inches)
            gap, sigma = laid.gap.inches, float(self.feeler)
            near = abs(float(gap - self.limit)) <= COVERAGE * sigma
            verdict = Verdict.FAIL if breaks else Verdict.PASS
            at = laid.at or where
            because.insert(
                0,
                Sentence(
                    "{length} straightedge laid {way} at {spot}: widest gap {gap}"
                    if laid.at
                    else "{length} straightedge laid {way}: widest gap {gap}",
                    length=said(laid.length.inches, self.unit),
                    way=WAYS[way],
                    spot=laid.at,
                    gap=said(gap, self.unit),
                ),
            )
            show = self._mend(where) if breaks else ""
            return LineFlat(
                way, where, studs, self.length, self.limit, gap, at, sigma, verdict, near, "straightedge", "",
                tuple(because), show,
            )  # fmt: skip
        worst = judged.gap
        verdict = judged.verdict
        if holds:
            because.append(Sentence("the straightedge laid on says otherwise: one of the two is wrong"))
        at = spots[worst.at] if worst is not None and worst.at is not None else ""
        show = "" if verdict is Verdict.PASS else self._mend(where)
        if verdict is Verdict.NOT_SHOWN:
            show = self._show(where, judged.lacks, missing)
        return LineFlat(
            way,
            where,
            studs,
            self.length,
            self.limit,
            worst.gap if worst is not None else None,
            at,
            judged.sigma,
            verdict,
            judged.within_uncertainty,
            "readings",
            judged.lacks,
            tuple(because),
            show,
        )

    def _sharp(self, line: Line, read: Sequence[tuple[StudFaces, Face, Fraction, Fraction]]) -> bool:
        """Whether the whole line, read as the rest of it is, could show the rule."""
        sigma = max((face.sigma for _, face, _, _ in read), default=0.0)
        values = [Fraction(0)] * len(line.positions)
        judged = judge(
            line.positions,
            values,
            line.window(self.length),
            self.limit,
            sigmas=[sigma] * len(values),
            straight_between=line.direction == "along",
        )
        return judged.verdict is Verdict.PASS

    def _mend(self, where: str) -> str:
        return Sentence(
            "Bring out the low place or take down its neighbors on {spot}, then read it again.", spot=where
        )

    def _show(self, where: str, lacks: str, missing: str) -> str:
        edge = edge_words(self.length, self.unit)
        if missing and lacks in ("unread", "few"):
            return missing
        if lacks == "spacing":
            return Sentence(
                "Lay {edge} on {where} and give the widest gap, or read it every {step} or closer.",
                edge=edge,
                where=where,
                step=said(self.length / READINGS_PER_LENGTH, self.unit, "down"),
            )
        return Sentence(
            "Lay {edge} on {where} and give the widest gap, or read it again with a finer rule.",
            edge=edge,
            where=where,
        )


READ_AGAIN = form("Read {spots} again.")
"""What was asked for and is missing."""
WAYS: dict[str, Sentence] = {"up": Sentence("up"), "along": Sentence("along"), "across": Sentence("across")}
"""How a straightedge is laid, as it is called."""


def edge_words(length: Fraction, unit: Unit) -> str:
    """The straightedge a rule asks for; one that spans the whole run serves for a longer one."""
    if length > HANDY:
        return Sentence("a straightedge as long as the run (up to {length})", length=said(length, unit))
    return Sentence("a {length} straightedge", length=said(length, unit))


def to_read(faces: Iterable[tuple[str, Face]], unit: Unit) -> tuple[str, ...]:
    """What to read: first what was asked for and is missing, then what was never read; () for neither."""
    found = list(faces)
    missing = [(stud, face.height) for stud, face in found if face.off is None]
    never = [(stud, face.height) for stud, face in found if face.standing == "estimated"]
    steps = [Sentence(READ_AGAIN, spots=spots(missing, unit))] if missing else []
    return (*steps, *([Sentence("Read {spots}, never read.", spots=spots(never, unit))] if never else []))


def _where(way: str, there: Sequence[tuple[StudFaces, Face, Fraction]], unit: Unit) -> str:
    if way == "up":
        return there[0][0].name
    if way == "along":
        return Sentence("height {height}", height=place(there[0][1].height, unit))
    return Sentence(
        "from {start} to {end}",
        start=_spot(there[0][0], there[0][1], unit),
        end=_spot(there[-1][0], there[-1][1], unit),
    )


def _spot(stud: StudFaces, face: Face, unit: Unit) -> str:
    return Sentence("{name} at {height}", name=stud.name, height=place(face.height, unit))


def _because(judged: Judged, spots: Sequence[str], unit: Unit) -> Iterable[str]:
    if judged.gap is None:
        yield Sentence("fewer than three readings on this line")
    elif judged.gap.at is None:
        yield Sentence("by the readings the straightedge bridges nothing")
    else:
        yield Sentence(
            "by the readings {gap} at {spot}, resting on {rests}",
            gap=said(judged.gap.gap, unit, "up"),
            spot=spots[judged.gap.at],
            rests=joined(spots[j] for j, _ in judged.gap.rests),
        )


def worst_line(lines: Iterable[LineFlat]) -> LineFlat:
    """The line that decides: fail before not shown before pass, then the widest gap."""
    return max(
        lines, key=lambda line: (RANK[line.verdict], line.widest if line.widest is not None else Fraction(-1))
    )
