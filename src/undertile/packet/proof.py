"""The proof page: the walls as read again against the published tolerance, with everything to check it by."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence
from dataclasses import asdict
from fractions import Fraction
from importlib import resources
from typing import Any

from undertile.errors import InputError, UndertileError
from undertile.findings import Check, Verdict
from undertile.job import Rebuild
from undertile.lengths import Unit
from undertile.packet.content import Paper
from undertile.packet.cover import closed_lines, cover_line
from undertile.packet.figures import placed
from undertile.packet.head import head_of
from undertile.packet.pdf import clean, fonts, needs_system, short
from undertile.packet.proof_content import GapCell, ProofSheet, ReadingCell, ReadingGrid, WallRow
from undertile.packet.words import Language, Words
from undertile.pan.say import say
from undertile.recheck.band import BAND, margin
from undertile.recheck.faces import Face
from undertile.recheck.flat import HANDY
from undertile.recheck.proof import Gap, Proof, ProofWall, said_sigma, short_digest
from undertile.recheck.result import RecheckResult, WallVerdict
from undertile.wood.result import WoodResult

ORDER = ("L", "B", "R")
_SPOT = re.compile(r"^([LBR]\d+[a-z]?) at (\S+(?: mm)?)$")
_HEIGHT = re.compile(r"^height (\S+)$")
_SLANT = re.compile(r"^from (.+ at .+) to (.+ at .+)$")
_STATES = {
    Verdict.PASS: "proof-all-pass",
    Verdict.FAIL: "proof-some-fail",
    Verdict.NOT_SHOWN: "proof-some-open",
}


def proof_sheet(
    rebuild: Rebuild, *, date: str = "", language: Language = "en", paper: Paper = "letter"
) -> ProofSheet:
    """The proof page of a job that was read again.

    Parameters
    ----------
    rebuild : Rebuild
    date : str
        Of the print.
    language : {"en", "es"}
    paper : {"letter", "a4"}

    Returns
    -------
    ProofSheet

    Raises
    ------
    InputError
        If nothing was read again, or there is no plan to judge against.
    """
    found: RecheckResult | None = rebuild.results.get("recheck")
    if found is None or found.proof is None:
        raise InputError(
            "nothing was read again yet, or there is no plan: expected readings under recheck to prove; "
            "undertile recheck says what to read"
        )
    return _Sheet(rebuild, found, found.proof, Words(language)).made(date, paper)


class _Sheet:
    """One page in one language."""

    def __init__(self, rebuild: Rebuild, found: RecheckResult, proof: Proof, words: Words) -> None:
        self.rebuild, self.found, self.proof, self.words = rebuild, found, proof, words
        self.unit: Unit = rebuild.unit
        self.water: WoodResult | None = rebuild.results.get("wood")

    def made(self, date: str, paper: Paper) -> ProofSheet:
        words, proof = self.words, self.proof
        order = sorted(proof.walls, key=lambda wall: ORDER.index(wall.wall))
        lengths = [gap.length for gap in order[0].gaps] if order else []
        return ProofSheet(
            head=head_of(self.rebuild.job, date, words.language, paper, self.rebuild.unit),
            title=words("proof-title"),
            verdict=proof.verdict.value,
            word=self.word(proof.verdict),
            says=words(_STATES[proof.verdict]),
            rules=self.rules(),
            walls=tuple(map(self.wall_row, order)),
            gap_heads=tuple(words("proof-col-gap", length=placed(z, self.unit)) for z in lengths),
            pan=tuple(self.pan()),
            grids=tuple(map(self.grid, order)),
            fails=tuple(dict.fromkeys(self.fails())),
            shows=tuple(dict.fromkeys(self.shows())),
            about=self.about(),
            sigma=words(
                "proof-sigma",
                reading=said_sigma(proof.sigma, self.unit),
                gap=said_sigma(proof.feeler_sigma, self.unit),
            ),
            digest=words("proof-digest", digest=short_digest(proof.digest)),
            photos=tuple(map(self.photo, proof.photos)),
            cover=cover_line(self.water, words),
            closed=closed_lines(self.water, words),
        )

    def word(self, verdict: Verdict) -> str:
        return self.words(f"proof-{verdict.value}").replace(" ", "\u00a0")

    def long(self, value: Fraction) -> str:
        """A limit or a length of a rule, to the nearest 1/64 in or 1/10 mm."""
        return say(value, self.unit)

    def most(self, value: Fraction) -> str:
        """What is, never printed as less than it is."""
        return say(value, self.unit, "up")

    def rules(self) -> tuple[tuple[str, str], ...]:
        """The published limits with their sources."""
        t, words = self.proof.tolerance, self.words
        flat = words(
            "proof-flat",
            long=self.long(t.long_limit),
            over=self.long(t.long_length),
            short=self.long(t.short_limit),
            under=self.long(t.short_length),
        )
        plumb = words("proof-plumb", limit=self.long(t.plumb_limit), over=self.long(t.plumb_over))
        return (
            (flat, words(f"proof-source-{t.source}")),
            (plumb, words(f"proof-source-{t.plumb_source}")),
            (words("proof-band", band=self.long(BAND)), words("proof-source-convention-3")),
        )

    def place(self, where: str) -> str:
        """A place in the page's language; what a person typed stays as typed."""
        mark = '"' if self.unit == "in" and "mm" not in where else ""
        if found := _SPOT.match(where):
            return self.words("proof-at", stud=found[1], height=found[2] + mark)
        if found := _HEIGHT.match(where):
            return self.words("proof-height", height=found[1] + mark)
        if found := _SLANT.match(where):
            return self.words("proof-slant", one=self.place(found[1]), two=self.place(found[2]))
        return where

    def gap(self, gap: Gap) -> GapCell:
        nothing = gap.widest is None
        return GapCell(
            self.words("proof-none") if gap.widest is None else self.most(gap.widest),
            self.words("proof-limit", limit=self.long(gap.limit)),
            self.place(gap.where),
            "" if nothing else self.words(f"proof-by-{gap.by}"),
            self.word(gap.verdict),
            self.words("proof-close") if gap.close and gap.verdict is not Verdict.NOT_SHOWN else "",
        )

    def wall_row(self, wall: ProofWall) -> WallRow:
        face, off = self.most_off(wall.wall)
        return WallRow(
            self.wall(wall.wall),
            self.word(wall.verdict),
            tuple(map(self.gap, wall.gaps)),
            self.lean(wall.lean),
            self.word(wall.plumb.verdict),
            off,
            "" if face is None else face,
            self.word(_worst(stud.checks[0] for stud in self.verdicts(wall.wall).studs)),
            self.rests(wall),
        )

    def verdicts(self, wall: str) -> WallVerdict:
        return next(each for each in self.found.walls if each.wall == wall)

    def most_off(self, wall: str) -> tuple[str | None, str]:
        """The face with the least room to its limit: where, and how far off its plane."""
        faces = next(each for each in self.found.faces if each.name == wall)
        known = [(margin(f), s.name, f) for s in faces.studs for f in s.faces]
        least = min(((m, n, f) for m, n, f in known if m is not None), key=lambda e: e[0], default=None)
        if least is None:
            return None, self.words("proof-none")
        _, name, face = least
        height = placed(face.height, self.unit)
        return self.words("proof-at", stud=name, height=height), self.off(face)

    def off(self, face: Face) -> str:
        if not face.off:
            return self.words("proof-on")
        key = "proof-proud" if face.off > 0 else "proof-back"
        return self.words(key, off=self.most(abs(face.off)))

    def lean(self, lean: Fraction | None) -> str:
        if lean is None:
            return self.words("proof-none")
        if not lean:
            return self.words("proof-plumb-is")
        return self.words("proof-lean-in" if lean > 0 else "proof-lean-back", lean=self.most(abs(lean)))

    def rests(self, wall: ProofWall) -> str:
        kinds = [reading.standing for reading in wall.readings]
        counts = {
            "again": kinds.count("read again"),
            "first": kinds.count("first survey"),
            "open": kinds.count("missing") + kinds.count("cannot reach"),
            "guessed": kinds.count("estimated"),
        }
        return ", ".join(self.words(f"proof-{key}", **{key: n}) for key, n in counts.items() if n)

    def pan(self) -> Iterable[tuple[str, str, str]]:
        """Play and square: what, verdict, and "" or that it is close."""
        for each in self.proof.play_at:
            depth, check = placed(each.depth, self.unit), each.check
            key = "proof-play" if check.value else "proof-play-none"
            text = self.words(key, depth=depth, play=check.value, limit=self.window(check.limit))
            yield text, self.word(check.verdict), self._close(check)
        square = self.proof.square
        if square is not None:
            again = bool(square.because) and square.because[0].startswith("measured again")
            key = "proof-diagonals-again" if again else "proof-diagonals"
            value = square.value.removeprefix("differ ")
            said = self.words("proof-differ", by=value) if value else self.words("proof-none")
            yield self.words(key, value=said), self.word(square.verdict), self._close(square)

    def window(self, limit: str) -> str:
        """``1/16" to 1/8"`` as a dash: no word in it."""
        return limit.replace(" to ", " - ")

    def _close(self, check: Check) -> str:
        shown = check.within_uncertainty and check.verdict is not Verdict.NOT_SHOWN
        return self.words("proof-close") if shown else ""

    def wall(self, name: str) -> str:
        """A wall's name at the head of a line."""
        text = self.words.wall(name)
        return text[:1].upper() + text[1:]

    def photo(self, name: str) -> str:
        """What a picture shows; its name in the record stays the same in every language."""
        wall, _, what = name.partition("-")
        return self.words(f"proof-photo-{what}", wall=self.wall(wall))

    def grid(self, wall: ProofWall) -> ReadingGrid:
        """The wall's readings as one stands before it."""
        names = list(dict.fromkeys(reading.stud for reading in wall.readings))
        names = names[::-1] if wall.wall == "L" else names
        heights = sorted({reading.height for reading in wall.readings}, reverse=True)
        by = {(reading.stud, reading.height): reading for reading in wall.readings}
        states = {"read again": "again", "first survey": "first", "estimated": "never"}
        cells = tuple(
            tuple(
                ReadingCell(reading.text, states.get(reading.standing, "open"))
                if (reading := by.get((name, height))) is not None
                else None
                for name in names
            )
            for height in heights
        )
        return ReadingGrid(
            self.wall(wall.wall),
            self.words("proof-zero", nominal=self.long(wall.nominal)),
            tuple(names),
            tuple(placed(height, self.unit) for height in heights),
            cells,
        )

    def spots(self, places: Sequence[tuple[str, Fraction]]) -> str:
        return ", ".join(
            self.words("proof-at", stud=stud, height=placed(height, self.unit)) for stud, height in places
        )

    def fails(self) -> Iterable[str]:
        """Every failure, in figures."""
        t = self.proof.tolerance
        for wall in self.found.walls:
            faces = next(each for each in self.found.faces if each.name == wall.wall)
            for stud in faces.studs:
                for face in stud.faces:
                    room = margin(face)
                    if room is not None and room < 0:
                        where = self.spots([(stud.name, face.height)])
                        yield self.words("proof-do-plane", where=where, off=self.off(face))
            for line in wall.lines:
                if line.verdict is Verdict.FAIL and line.widest is not None:
                    yield self.words(
                        "proof-do-gap",
                        where=self.place(line.at or line.where),
                        gap=self.most(line.widest),
                        length=self.long(line.length),
                        limit=self.long(line.limit),
                    )
        for page in self.proof.walls:
            if page.plumb.verdict is Verdict.FAIL:
                name = self.wall(page.wall)
                over = self.long(t.plumb_over)
                yield self.words("proof-do-lean", wall=name, lean=self.lean(page.lean), over=over)
        for each in self.proof.play_at:
            if each.check.verdict is Verdict.FAIL:
                yield self.words(
                    "proof-do-play",
                    depth=placed(each.depth, self.unit),
                    play=each.check.value,
                    limit=self.window(each.check.limit),
                )
        square = self.proof.square
        if square is not None and square.verdict is Verdict.FAIL:
            value = self.words("proof-differ", by=square.value.removeprefix("differ "))
            yield self.words("proof-do-square", value=value)

    def shows(self) -> Iterable[str]:
        """What to read or lay on to show what is not shown."""
        doubted = [(stud, height) for stud, height, _ in self.found.settle]
        if doubted:
            yield self.words("proof-do-doubt", spots=self.spots(doubted))
        for finding in self.found.findings:
            if finding.code == "again-line-moved":
                yield self.words("proof-do-line", wall=self.wall(finding.where.removeprefix("wall ")))
        every = [(s.name, f) for wall in self.found.faces for s in wall.studs for f in s.faces]
        if missing := [(name, face.height) for name, face in every if face.off is None]:
            yield self.words("proof-do-read", spots=self.spots(missing))
        if never := [(name, face.height) for name, face in every if face.standing == "estimated"]:
            yield self.words("proof-do-never", spots=self.spots(never))
        for wall in self.found.walls:
            yield from self.edges(wall)
        for each in self.proof.play_at:
            if each.check.verdict is Verdict.NOT_SHOWN:
                yield self.words("proof-do-sticks", depth=placed(each.depth, self.unit))
        if self.proof.square is not None and self.proof.square.verdict is Verdict.NOT_SHOWN:
            yield self.words("proof-do-diagonals")

    def edges(self, wall: WallVerdict) -> Iterable[str]:
        """Straightedges to lay on one wall: one line for each length, with every way it is wanted."""
        ways: dict[Fraction, list[str]] = {}
        for line in wall.lines:
            if line.verdict is Verdict.NOT_SHOWN and not line.reading_shows:
                way = self.words(f"proof-way-{line.way}")
                if way not in ways.setdefault(line.length, []):
                    ways[line.length].append(way)
        for length, said in ways.items():
            edge = self.words("proof-edge-long" if length > HANDY else "proof-edge", length=self.long(length))
            name = self.wall(wall.wall)
            yield self.words("proof-do-edge", wall=name, edge=edge, ways=self.words.listed(said))

    def about(self) -> tuple[tuple[str, str], ...]:
        proof, words = self.proof, self.words
        by = ", ".join(dict.fromkeys(filter(None, (proof.by, *(wall.by for wall in proof.walls)))))
        when = ", ".join(dict.fromkeys(filter(None, (proof.date, *(wall.date for wall in proof.walls)))))
        return (
            (words("proof-who"), by),
            (words("proof-when"), when),
            (words("proof-tools"), proof.instrument),
        )


def _worst(checks: Iterable[Check]) -> Verdict:
    found = {check.verdict for check in checks}
    for verdict in (Verdict.FAIL, Verdict.NOT_SHOWN):
        if verdict in found:
            return verdict
    return Verdict.PASS


def proof_data(sheet: ProofSheet) -> dict[str, Any]:
    """What the page description reads, every text made harmless."""
    words = Words(sheet.head.language)
    data: dict[str, Any] = clean(asdict(sheet))
    labels = {key.replace("-", "_").replace(" ", "_"): text for key, text in words.sentences().items()}
    labels["short_name"] = clean(short(sheet.head.job))
    labels["revision"] = words("revision", revision=sheet.head.revision)
    labels["unit"] = words(f"unit-{sheet.head.unit}")
    return {**data, "labels": labels}


def proof_pdf(sheet: ProofSheet) -> bytes:
    """The page as a PDF file: the same bytes for the same sheet.

    Parameters
    ----------
    sheet : ProofSheet

    Returns
    -------
    bytes

    Raises
    ------
    PaperMissing
        If typst or the font is not installed.
    """
    text = json.dumps(proof_data(sheet), ensure_ascii=False)
    book = fonts(with_system=needs_system(text))
    import typst

    folder = resources.files("undertile.packet") / "pages"
    page = b"\n".join((folder / f"{name}.typ").read_bytes() for name in ("common", "proof"))
    made = typst.Compiler(page, font_paths=book, sys_inputs={"sheet": text}).compile(
        format="pdf", timestamp=0
    )
    if not isinstance(made, bytes):
        raise UndertileError(f"typst gave {type(made).__name__}, not a PDF")
    return made
