"""The water record: readings, tests, what they show and what they do not, for the owner and the insurer.

Everything is told as it was read and judged; the cause is no wider than the tests. Charts and the drawing of
where the water went go with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from undertile.drawing.drying import drying_overview, job_words
from undertile.drawing.dryingdata import charts_of
from undertile.drawing.labels import Words as DrawnWords
from undertile.drawing.labels import words as drawn_words
from undertile.drawing.walldata import room_of
from undertile.drawing.watermap import water_sheets
from undertile.drawing.watermapdata import patch_line
from undertile.job import Rebuild
from undertile.packet.content import Paper
from undertile.packet.cover import cover_line, last_of_several
from undertile.packet.drawings import lettered
from undertile.packet.head import clock_day, head_of
from undertile.packet.metric import in_unit
from undertile.packet.places import place_words
from undertile.packet.record_content import (
    PlaceRow,
    ReadingRow,
    ReadingTable,
    RecordSheet,
    StandRow,
    TestRow,
    VisitRow,
)
from undertile.packet.record_how import how_corrected, stuff_of
from undertile.packet.told import told
from undertile.packet.words import Language, Words
from undertile.packet.words.cited import cited
from undertile.sentence import with_first
from undertile.sources import SOURCES, cite
from undertile.wood.correct import SPECIES
from undertile.wood.facts import Candidate, Equipment, Meter, WoodFacts
from undertile.wood.goal import usual_past
from undertile.wood.history import Round, Sample, Series
from undertile.wood.leak import NAMES
from undertile.wood.leaktests import Outcome
from undertile.wood.rank import by_gate
from undertile.wood.result import WoodResult
from undertile.wood.say import goal_text, up
from undertile.wood.typed import Shown, read_moment, read_shown

ACROSS = 6
"""Visits side by side in one table of readings: as many as a page is wide."""


def water_record(
    rebuild: Rebuild, *, date: str = "", language: Language = "en", paper: Paper = "letter"
) -> RecordSheet | None:
    """The record of a job's water; None where nothing is read or tested.

    Parameters
    ----------
    rebuild : Rebuild
        With the answer of ``wood``.
    date : str
        Of the print.
    language : {"en", "es"}
    paper : {"letter", "a4"}

    Returns
    -------
    RecordSheet or None
    """
    found = rebuild.results.get("wood")
    if not isinstance(found, WoodResult) or not found.begun:
        return None
    facts: WoodFacts = rebuild.job.facts()["wood"]  # type: ignore[assignment]
    return _Record(rebuild, found, facts, Words(language)).made(date, paper)


def record_drawings(rebuild: Rebuild, language: Language = "en", date: str = "") -> dict[str, str]:
    """Where the water went, and how it dries, as SVG by key.

    Parameters
    ----------
    rebuild : Rebuild
    language : {"en", "es"}
    date : str
        Of the print: days that have gone by unread are told so. A sheet without one tells none: how long ago
        a reading was is only true on a day that stands beside it.
    """
    room = room_of(rebuild, rebuild.unit, drawn_words(language), today=clock_day(date))
    return {sheet.key: lettered(sheet) for sheet in (*water_sheets(room), *drying_overview(room))}


class _Record:
    """One record in one language."""

    def __init__(self, rebuild: Rebuild, found: WoodResult, facts: WoodFacts, words: Words) -> None:
        self.rebuild, self.found, self.facts, self.words = rebuild, found, facts, words

    def made(self, date: str, paper: Paper) -> RecordSheet:
        words, found = self.words, self.found
        drawn = drawn_words(words.language)
        wet = [each for each in found.series if not each.facts.reference]
        dry = [each for each in found.series if each.facts.reference]
        return RecordSheet(
            head=head_of(self.rebuild.job, date, words.language, paper, self.rebuild.unit),
            title=words("record-title"),
            cover=cover_line(found, words),
            when=self._range(found, drawn, date),
            cause=tuple(self.cause()),
            claims=words("record-claims"),
            tests=tuple(map(self.test, found.source.outcomes)),
            stands=tuple(self.stands()),
            untested=tuple(
                self.name(each.candidate) for each in found.source.stands if each.standing == "open"
            ),
            next_test=self.next_test(),
            meters=tuple(self.meter(name, meter) for name, meter in self.facts.meters.items()),
            visits=tuple(map(self.visit, found.rounds)),
            readings=tuple(self.tables(wet)),
            references=tuple(self.tables(dry)),
            how=tuple(self.how()),
            places=tuple(self.places()),
            extent=tuple(self.extent()),
            equipment=tuple(self.equipment()),
            covered=tuple(self.covered()),
            missing=tuple(self.missing()),
            sources=tuple(self.sources()),
        )

    def _range(self, found: WoodResult, drawn: DrawnWords, date: str) -> str:
        """When the whole may be closed, that it is past once it is, why it ends after every place's own."""
        if not found.points:
            return ""
        when = job_words(found, charts_of(found, drawn), drawn, clock_day(date))
        return " ".join(each for each in (when, last_of_several(found, self.words)) if each)

    def told(self, text: str) -> str:
        return told(text, self.words)

    def place(self, where: str) -> str:
        return place_words(where, self.words)

    def name(self, candidate: Candidate) -> str:
        return self.told(NAMES[candidate])

    # The cause ------------------------------------------------------------------------------------------

    def cause(self) -> Iterator[str]:
        """In plain words: the stage's own statement, when it was noticed and opened."""
        yield from map(self.told, self.found.source.statement)
        leak = self.facts.leak
        if leak.symptom != "unknown":
            yield self.words("record-symptom", when=self.words(f"record-when-{leak.symptom}"))
        if self.facts.opened:
            yield self.words("record-opened", day=self.facts.opened)

    def test(self, test: Outcome) -> TestRow:
        words = self.words
        finds = [self.name(each) for each in test.finds]
        if test.one_of:
            names = ", ".join(self.name(each) for each in test.one_of)
            finds.append(words("record-one-of", list=names))
        day, by = self.when(test)
        return TestRow(
            self.told(test.test),
            day,
            by,
            self.told(test.why),
            ", ".join(self.name(each) for each in test.excludes),
            "; ".join(finds),
            self.told(test.nothing),
        )

    def when(self, test: Outcome) -> tuple[str, str]:
        """The day of a test as typed, and who made it: the entry of its kind on that day."""
        table = getattr(self.facts.leak, test.kind, {}) if test.kind else {}
        for each in table.values():
            if read_moment(each.when).days == test.day:
                return each.when, each.by
        on = next((each for each in self.found.rounds if each.moment.days == test.day), None)
        return ("", "") if on is None else (on.facts.when, on.facts.by)

    def stands(self) -> Iterator[StandRow]:
        for each in self.found.source.stands:
            yield StandRow(
                self.name(each.candidate),
                self.words(f"record-stand-{each.standing}"),
                self.told(each.why),
                each.standing in ("open", "found"),
            )

    def next_test(self) -> str:
        tests = self.found.source.next_tests
        return (
            self.words("record-next-test", do=self.told(in_unit(tests[0].do, self.rebuild.unit)))
            if tests
            else ""
        )

    # Visits and readings --------------------------------------------------------------------------------

    def meter(self, name: str, meter: Meter) -> str:
        words = self.words
        species = words("record-unknown") if meter.set_to == "unknown" else self.told(SPECIES[meter.set_to])
        return words(
            "record-meter-is",
            what=_called(name, words(f"record-kind-{meter.kind}"), meter.model),
            species=species,
            low=meter.low,
            high=meter.high,
            give=meter.give_or_take,
        )

    def visit(self, on: Round) -> VisitRow:
        visit, words = on.facts, self.words
        since = [
            words(f"record-{key}-{value}")
            for key, value in (("supply", visit.supply), ("shower", visit.shower), ("rain", visit.rain))
            if value != "unknown"
        ]
        meter = visit.meter or ("" if len(self.facts.meters) != 1 else next(iter(self.facts.meters)))
        return VisitRow(
            on.name,
            visit.when,
            visit.by,
            meter,
            visit.air or "-",
            "-" if visit.humidity is None else f"{visit.humidity} %",
            "-" if on.equilibrium is None else goal_text(up(on.equilibrium)),
            ", ".join(since),
        )

    def tables(self, series: Sequence[Series]) -> Iterator[ReadingTable]:
        """Every reading as typed, some visits at a time; visits on which none was read are left out."""
        read = {sample.round.name for each in series for sample in each.samples}
        rounds = [each for each in self.found.rounds if each.name in read]
        for start in range(0, len(rounds), ACROSS):
            some = rounds[start : start + ACROSS]
            rows = [self.row(each, some) for each in series]
            yield ReadingTable(tuple(each.name for each in some), tuple(rows))

    def row(self, series: Series, rounds: Iterable[Round]) -> ReadingRow:
        on = {sample.round.name: sample for sample in series.samples}
        cells = [on.get(each.name) for each in rounds]
        return ReadingRow(
            self.place(series.where),
            stuff_of(series, self.words),
            tuple("" if cell is None else self.shown(cell) for cell in cells),
            tuple("" if cell is None else self.corrected(cell) for cell in cells),
        )

    def shown(self, sample: Sample) -> str:
        words = self.words
        state = sample.shown.state
        text = {
            "number": sample.shown.text,
            "over": words("record-over"),
            "under": _under(sample.shown, words("record-under")),
            "cannot reach": words("record-reached-not"),
        }.get(state, "")
        return f"{text}, {words('record-wet-face')}" if sample.surface == "wet" and text else text

    def corrected(self, sample: Sample) -> str:
        found = sample.corrected
        if found is None:
            return ""
        return f"{up(found.value):.1f}{'*' if found.scale == 'relative' else ''}"

    def how(self) -> Iterator[str]:
        """Each correction with its figures before and after, and what was left as shown (``record_how``)."""
        yield from how_corrected(self.found.series, self.words)

    # Verdicts, extent, the rest -------------------------------------------------------------------------

    def places(self) -> Iterator[PlaceRow]:
        for each in by_gate(self.found.points):
            star = "*" if each.relative else ""
            yield PlaceRow(
                self.place(each.where),
                f"{each.reads}{star}" if each.reads else "-",
                "-" if each.give_or_take is None else f"{each.give_or_take:.1f}",
                self.words(f"record-call-{each.call}", number=each.patch),
                self.told(each.why),
                self.told(each.next_step),
            )

    def extent(self) -> Iterator[str]:
        """Each cut line but those of the subfloor, which is opened as one rectangle a layer."""
        found = self.found
        for cut, each in zip(found.cuts, found.cut_words, strict=True):
            if not cut.line.startswith("subfloor"):
                text = self.told(each)
                yield f"{text[:1].upper()}{text[1:]}."
        drawn = drawn_words(self.words.language)
        for patch in found.patches:
            yield patch_line(patch, self.rebuild.unit, drawn)
        if found.probe_words:
            yield self.words("record-next-read", where=self.told(found.probe_words))
        if found.cut_words:
            yield f"{self.told(found.own_past or usual_past(self.rebuild.unit))}."

    def equipment(self) -> Iterator[tuple[str, str]]:
        """Each as it was logged, then the days of each kind."""
        words = self.words
        end = self.found.rounds[-1].moment.days if self.found.rounds else None
        for each in self.facts.equipment.values():
            off = each.off or words("record-still-on")
            days = self.days(each, end)
            what = words(f"record-{_number(each.count)}-{each.what}")
            key = "record-equipment" if each.count == 1 else "record-equipment-many"
            yield what, words(key, count=each.count, what=what, on=each.on, off=off, days=days)
        for kind, total in self.found.equipment_days.items():
            count = sum(each.count for each in self.facts.equipment.values() if each.what == kind)
            what = words(f"record-{_number(count)}-{kind}")
            said = words("record-equipment-all", what=what, days=f"{total:.1f}")
            yield what, with_first(said, "upper")

    def days(self, each: Equipment, end: float | None) -> str:
        """Count times days, of one entry. [d]"""
        until = read_moment(each.off).days if each.off else end
        start = read_moment(each.on).days
        return "-" if until is None or until < start else f"{each.count * (until - start):.1f}"

    def covered(self) -> Iterator[str]:
        """Photos and inspection, as they were written down."""
        words, cover = self.words, self.facts.cover
        photos = [f"{self.place(surface)} {day}" for surface, day in cover.photos.items()]
        yield words("record-photos", list=", ".join(photos)) if photos else words("record-no-photos")
        said = words(f"record-inspection-{cover.inspection}")
        who = " ".join(each for each in (cover.inspected, cover.inspector) if each)
        yield words("record-inspection", said=f"{said} {who}".strip())

    def missing(self) -> Iterator[tuple[str, str]]:
        for each in self.found.gate.missing:
            yield f"{self.place(self.told(each.where))}: {self.told(each.what)}", self.told(each.next_step)

    def sources(self) -> Iterator[str]:
        """Every rule a verdict, a test or the gate stands on, once; practice is called practice."""
        found = self.found
        keys = [each.source for each in found.source.outcomes]
        keys += [each.source for each in found.source.stands]
        keys += [each.source for each in found.points]
        keys += [each.source for each in found.gate.missing]
        keys += [s.corrected.source for each in found.series for s in each.samples if s.corrected is not None]
        keys += ["wood-handbook-emc"] if any(each.equilibrium is not None for each in found.rounds) else []
        spanish = self.words.language == "es"
        yield from dict.fromkeys((spanish and cited(key)) or cite(key) for key in keys if key in SOURCES)
        yield self.words("record-local")


def _called(name: str, kind: str, model: str) -> str:
    """A meter in words that say it once: by its name, by what it has, by its model, where each says more."""
    said = kind[:1].upper() + kind[1:] if name.casefold() == kind.casefold() else f"{name}: {kind}"
    return f"{said} ({model})" if model.casefold() not in ("", name.casefold(), kind.casefold()) else said


def _number(count: int) -> str:
    """Which words of a thing go with so many of it."""
    return "what" if count == 1 else "many"


def _under(shown: Shown, word: str) -> str:
    """Under the meter's range as the record prints it: with the number, where one was shown."""
    return word if read_shown(shown.text).state == "under" else f"{shown.text} ({word})"
