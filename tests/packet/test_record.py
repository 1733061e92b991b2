"""The water record: nothing typed is left out, no claim is wider than the tests, both languages whole."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from undertile.job import Job, Rebuild, plan, read_job
from undertile.job.stages import STAGES
from undertile.packet import to_pdf
from undertile.packet.record import record_drawings, water_record
from undertile.packet.record_content import RecordSheet
from undertile.packet.words import Language
from undertile.wood.asof import as_of
from undertile.wood.facts import Meter
from undertile.wood.leak import CANDIDATES

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
WATER = [stage for stage in STAGES if stage.key in ("wood", "floor")]
SIZES = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}
"""Published: ANSI Letter 8.5 x 11 in; ISO 216 A4 210 x 297 mm. [points]"""


def job(visit: str = "", **leak: Any) -> Job:
    read = read_job(EXAMPLE)
    water = read.facts()["wood"]
    if visit:
        water = as_of(water, visit)  # type: ignore[arg-type]
    if leak:
        water = water.model_copy(update={"leak": water.leak.model_copy(update=leak)})  # type: ignore[attr-defined]
    return read.model_copy(update={"wood": water})


def record(of: Job | None = None, **more: Any) -> tuple[Rebuild, RecordSheet]:
    rebuild = plan(of or job(), WATER)
    sheet = water_record(rebuild, date="2026-03-07", **more)
    assert sheet is not None
    return rebuild, sheet


def test_each_correction_stands_with_its_figures_before_and_after_and_its_source() -> None:
    """independent: half a point for each 5 C by hand; 16 in southern pine by the table, by hand."""
    sheet = record()[1]
    first = next(each for each in sheet.how if each.startswith("Visit 1, lumber"))
    assert "temperature 66 F: +0.1" in first  # 66 F is 18.9 C: 0.11
    assert "29 to 29.2" in first  # 29.11, rounded up
    assert any("1/2 percent for each 5 C" in each for each in sheet.how[1:])
    of = job()
    water = of.facts()["wood"]
    pine = {
        name: point.model_copy(update={"species": "southern pine", "shown": {"1": "15", "2": "15"}})
        for name, point in water.points.items()  # type: ignore[attr-defined]
        if name == "plate-B-16"
    }
    cold = {"1": water.visits["1"].model_copy(update={"wood": "50 F"})}  # type: ignore[attr-defined]
    water = water.model_copy(update={"points": water.points | pine, "visits": water.visits | cold})  # type: ignore[attr-defined]
    sheet = record(of.model_copy(update={"wood": water}))[1]
    (own,) = [each for each in sheet.how if each.startswith("Visit 1, lumber, southern pine")]
    assert "15 to 16.0 to 17.5" in own  # 50 F is 10 C: 1; 16 on a Douglas-fir scale is 17.48
    assert any(each.startswith("Species: FPL-GTR-6") for each in sheet.how)


def strings(told: Any) -> Iterator[str]:
    if isinstance(told, dict):
        for key, value in told.items():
            if key != "head":
                yield from strings(value)
    elif isinstance(told, list | tuple):
        for each in told:
            yield from strings(each)
    elif isinstance(told, str) and told:
        yield told


def test_every_reading_stands_as_typed_and_corrected() -> None:
    rebuild, sheet = record()
    facts: Any = rebuild.job.facts()["wood"]
    rows = {(row.place, t.visits): row for t in (*sheet.readings, *sheet.references) for row in t.rows}
    shown = sorted(text for row in rows.values() for text in row.shown if text)
    typed = sorted(text for point in facts.points.values() for text in point.shown.values() if text)
    assert shown == typed  # independent: straight from the facts
    assert len(shown) > 50
    found = rebuild.results["wood"]
    figures = sorted(s.corrected.value for e in found.series for s in e.samples if s.corrected is not None)
    said = sorted(float(text.rstrip("*")) for row in rows.values() for text in row.corrected if text)
    assert said == pytest.approx(figures, abs=0.1001)  # rounded up to the tenth
    starred = sum(text.endswith("*") for row in rows.values() for text in row.corrected)
    assert starred
    assert starred == sum(
        s.corrected.scale == "relative" for e in found.series for s in e.samples if s.corrected is not None
    )


def test_the_cause_is_no_wider_than_the_tests() -> None:
    """What no test of the record rules out is said not to be ruled out, and the other way round."""
    rebuild, sheet = record()
    stands = {each.what: each for each in sheet.stands}
    assert len(stands) == len(CANDIDATES)
    for name, row in stands.items():
        by_test = any(name in test.excludes.split(", ") or name in test.excludes for test in sheet.tests)
        if row.stands == "ruled out":
            assert by_test, name
        if row.stands == "not ruled out":
            assert not by_test, name
            assert name in sheet.untested
            assert any("Not ruled out" in line and name in line for line in sheet.cause)
        if row.stands.startswith("found"):
            assert any(name in test.finds for test in sheet.tests), name
    tests = rebuild.job.facts()["wood"].leak  # type: ignore[attr-defined]
    made = sum(
        len(getattr(tests, kind)) for kind in ("colds", "pressures", "dials", "pours", "fills", "sprays")
    )
    assert len(sheet.tests) == made
    assert any(f"stands on {made} tests" in line for line in sheet.cause)
    assert {test.day for test in sheet.tests} == {"2026-03-04 07:30", "2026-03-04 09:00", "2026-03-05 15:00"}
    assert {test.by for test in sheet.tests} == {"Ann", "Ben"}


def test_without_a_test_it_claims_nothing() -> None:
    _, sheet = record(job("1", pressures={}, colds={}, mended={}))
    assert sheet.tests == ()
    assert sheet.cause[0] == "No test has shown yet where the water comes from."
    assert len(sheet.untested) == len(CANDIDATES) - 1, "all but the neighbor, who is not there"
    assert not any("came from" in line for line in sheet.cause)


def test_equipment_days_add_up() -> None:
    _, sheet = record()
    # independent, by hand: from March 2, 17:00 to the last visit on March 6, 16:00: 3.958 days; two and one
    assert [text for _, text in sheet.equipment][-2:] == [
        "Air movers, together 7.9 days",
        "Dehumidifier, together 4.0 days",
    ]


@pytest.mark.parametrize(
    ("language", "many", "one"),
    [
        ("en", "2 air movers, on ", "1 dehumidifier, on "),
        ("es", "2 ventiladores, encendidos ", "1 deshumidificador, encendido "),
    ],
)
def test_two_of_a_kind_are_said_as_two(language: Language, many: str, one: str) -> None:
    """independent: two fans and one dehumidifier are typed."""
    _, sheet = record(language=language)
    first, second, *_ = [text for _, text in sheet.equipment]
    assert first.startswith(many)
    assert second.startswith(one)


@pytest.mark.parametrize(
    ("language", "name", "meter", "said"),
    [
        ("en", "pins", {"kind": "pin"}, "Pins, set to"),
        ("en", "pins", {"kind": "pin", "model": "Pins"}, "Pins, set to"),
        ("en", "the short one", {"kind": "pin", "model": "M2"}, "the short one: pins (M2), set to"),
        ("en", "flat", {"kind": "pad"}, "flat: a pad, set to"),
        ("en", "old", {}, "old: pins or a pad, not said, set to"),
        ("es", "puntas", {"kind": "pin"}, "Puntas, puesto en Abeto Douglas"),
        ("es", "viejo", {}, "viejo: puntas o placa, no se dijo, puesto en Abeto Douglas"),
    ],
)
def test_a_meter_is_described_once(language: Language, name: str, meter: dict[str, str], said: str) -> None:
    """independent: written by hand; what it has may not be said, and the record is made all the same."""
    of = job()
    meters = {name: Meter.model_validate({**meter, "set_to": "Douglas-fir"})}
    water = of.facts()["wood"].model_copy(update={"meters": meters})
    _, sheet = record(of.model_copy(update={"wood": water}), language=language)
    assert [each[: len(said)] for each in sheet.meters] == [said]


def test_many_visits_come_a_page_s_width_at_a_time() -> None:
    from tests.drawing.drying_cast import any_log
    from undertile.wood.facts import WoodFacts

    read = job().model_copy(
        update={"wood": WoodFacts.model_validate(any_log(3, 5, 14), context={"unit": "in"})}
    )
    rebuild, sheet = record(read)
    assert [len(table.visits) for table in sheet.readings] == [6, 6, 2]
    made = PdfReader(io.BytesIO(to_pdf(sheet, record_drawings(rebuild))))
    assert len(made.pages) > 4


@pytest.mark.parametrize(("paper", "language"), [("letter", "en"), ("a4", "es")])
def test_the_pages_read_back_say_all_of_it(paper: str, language: str) -> None:
    """Independent: by pypdf."""
    rebuild, sheet = record(paper=paper, language=language)
    made = PdfReader(io.BytesIO(to_pdf(sheet, record_drawings(rebuild, language))))  # type: ignore[arg-type]
    for page in made.pages:
        assert [float(v) for v in page.mediabox[2:]] == pytest.approx(SIZES[paper], abs=0.1)
    whole = "".join("".join(page.extract_text().split()) for page in made.pages)
    whole = whole.replace("--", "-")  # Spanish sets a hyphen again on the next line
    said = list(strings(asdict(sheet)))
    assert len(said) > 200
    for text in said:
        assert "".join(text.split()) in whole, text
    drawn = ("Wherethewaterwent", "Howitdries") if language == "en" else ("Adóndellegóelagua", "Cómoseca")
    assert all(each in whole for each in drawn)


def test_the_spanish_record_is_in_spanish() -> None:
    """What the tool says; what people typed and the names of sources stay as they are."""
    _, english = record()
    _, spanish = record(language="es")
    same = set(strings(asdict(english))) & set(strings(asdict(spanish)))
    assert len(set(strings(asdict(spanish))) - same) > 100
    typed = {"Ann", "Ben", "pins", "a house alone on its lot", "-", ""}
    left = {
        text
        for text in same
        if text not in typed
        and text not in english.sources
        and re.search(r"[A-Za-z]{3}", text)
        and not re.fullmatch(r"[a-z-]+(-[a-z]+)+|OSB", text)
    }
    assert left == set()


def test_a_job_that_speaks_of_no_water_has_no_record() -> None:
    assert water_record(plan(read_job(b'version = 2\nunit = "in"\n'), WATER)) is None


def test_every_line_of_opening_stands_on_it_those_down_to_the_floor_too() -> None:
    """independent: the stage's own lines, but for the subfloor's, which stands as one rectangle a layer."""
    rebuild = plan(
        read_job((Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml").read_bytes()),
        [each for each in STAGES if each.key == "wood"],
    )
    wood = rebuild.results["wood"]
    lines = [
        told
        for cut, told in zip(wood.cuts, wood.cut_words, strict=True)
        if not cut.line.startswith("subfloor")
    ]
    made = water_record(rebuild)
    assert made is not None
    assert sum(line.startswith("down from") for line in lines) == 2
    assert {f"{line[:1].upper()}{line[1:]}." for line in lines} <= set(made.extent)
