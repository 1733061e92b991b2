"""Wood that a planned patch takes out: said so, not waited for, and not forgotten by the gate."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from undertile.errors import PlanError
from undertile.floor.goesout import _Last, goes_out
from undertile.job import Rebuild, plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.cover import cover_line
from undertile.packet.record import water_record
from undertile.packet.words import Language, Words
from undertile.wood.result import WoodResult
from undertile.wood.run import water

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
INSIDE = {"floor-6-6", "floor-18-6", "floor-30-6", "floor-6-18", "floor-18-18"}
"""Independent: by their places, inside 0 to 35-3/4 by 0 to 30; 6, 30 lies on the cut line and stays."""


def rebuilt(*changes: tuple[str, str], only: tuple[str, ...] = ("wood", "floor")) -> Rebuild:
    text = EXAMPLE.read_text("utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    return plan(read_job(text.encode()), [each for each in STAGES if each.key in only])


def water_of(rebuild: Rebuild) -> WoodResult:
    found: WoodResult = rebuild.results["wood"]
    return found


def out_on(day: str, *names: str) -> list[tuple[str, str]]:
    return [(f"[wood.points.{name}]\n", f'[wood.points.{name}]\nout = "{day}"\n') for name in names]


def test_what_lies_inside_the_cut_lines_goes_out_with_the_patch() -> None:
    found = water_of(rebuilt())
    assert {each.name for each in found.points if each.call == "goes out"} == INSIDE
    for name in INSIDE:
        point = found.point(name)
        assert point is not None
        assert point.called == "goes out with patch 1"


def test_it_is_neither_waited_for_nor_counted_as_not_dry() -> None:
    """independent: of nine not dry without the floor three lie in the patch; none of those sets the date."""
    alone, both = (water_of(rebuilt(only=only)) for only in (("wood",), ("wood", "floor")))
    wet = [[m.where for m in each.gate.missing if m.kind == "moisture"] for each in (alone, both)]
    inside = {each.where for each in alone.points if each.name in INSIDE and each.call != "close"}
    assert set(wet[0]) - set(wet[1]) == inside
    assert len(wet[0]) - len(wet[1]) == 3
    assert alone.close.number - both.close.number == 3
    assert "subfloor" in alone.close.slowest
    assert "subfloor" not in both.close.slowest
    assert both.close.latest < alone.close.latest


def test_until_it_is_out_the_gate_knows_the_wood_is_there() -> None:
    found = water_of(rebuilt())
    lacks = [each for each in found.gate.missing if each.kind == "patch"]
    assert len(lacks) == len(INSIDE)
    assert {each.what for each in lacks} == {"goes out with patch 1"}
    gone = water_of(rebuilt(*out_on("2026-03-07", *sorted(INSIDE))))
    assert not [each for each in gone.gate.missing if each.kind == "patch"]
    assert {each.name for each in gone.points if each.call == "gone"} == INSIDE | {"plate-B-4"}


def test_no_patch_laid_out_takes_nothing_out() -> None:
    """independent: with no word of how the joists run there is no patch, so all is dried as before."""
    found = water_of(rebuilt(('joists_run = "out from the back wall"', "")))
    assert not [each for each in found.points if each.call == "goes out"]
    alone = water_of(rebuilt(only=("wood",)))
    assert (found.points, found.close, found.cuts) == (alone.points, alone.close, alone.cuts)


def test_findings_of_the_whole_job_are_those_of_the_amended_answer() -> None:
    rebuild = rebuilt()
    told = [each for each in rebuild.findings if each.code == "do-not-cover"]
    assert told == [each for each in water_of(rebuild).findings if each.code == "do-not-cover"]
    assert len(told) == 1
    assert "wood that goes out" in told[0].found


def test_a_place_on_the_cut_line_or_in_a_layer_not_cut_stays() -> None:
    here = 'x = "6"\ny = "6"'
    rebuild = rebuilt((here, f"layer = 2\n{here}"))
    points = rebuild.job.facts()["wood"].points  # type: ignore[attr-defined]
    out = goes_out(points, rebuild.results["floor"].layouts, out_from_back=True)
    assert "floor-6-6" not in out  # one layer is cut, this is under it
    assert "floor-6-30" not in out


@pytest.mark.parametrize(
    ("language", "said", "counted"),
    [
        ("en", "goes out with patch 1", "5 places to cut out with the patch"),
        ("es", "sale con el parche 1", "5 lugares por cortar con el parche"),
    ],
)
def test_record_and_cover_line_say_it(language: Language, said: str, counted: str) -> None:
    rebuild = rebuilt(only=tuple(each.key for each in STAGES if each.key != "recheck"))
    record = water_record(rebuild, language=language)
    assert record is not None
    assert [row.call for row in record.places].count(said) == len(INSIDE)
    assert counted in cover_line(water_of(rebuild), Words(language))


def test_all_of_it_cut_out_leaves_the_patch_as_it_was_and_the_gate_shut() -> None:
    """independent: the readings set how far to open; dry wood that went out with it still bounds it."""
    before, after = rebuilt(), rebuilt(*out_on("2026-03-07", *sorted(INSIDE)))
    assert after.results["floor"].layouts == before.results["floor"].layouts
    assert water_of(after).cuts == water_of(before).cuts
    assert not water_of(after).gate.open


def test_what_was_cut_out_and_never_read_counts_as_wet() -> None:
    job = read_job(EXAMPLE.read_bytes()).facts()["wood"]
    point = job.points["floor-30-6"]
    bare = point.model_copy(update={"out": "2026-03-07", "shown": {}, "awl": {}, "pick": {}})
    told = job.model_copy(update={"points": {**job.points, "floor-30-6": bare}})
    (found,) = [each for each in water(told).points if each.name == "floor-30-6"]
    assert found.bad is True


def test_a_floor_that_is_not_sound_keeps_the_water_s_gate_shut() -> None:
    """independent: the soft joist, the notch, the panel; the third joist not graded; none is read."""
    lacks = [each.where for each in water_of(rebuilt()).gate.missing if each.kind == "joists"]
    sound = {"J1 soft corner", "J2 notch pipe", "subfloor", "joist J3"}
    assert sorted(lacks) == sorted([*sound, "joist J1", "joist J2", "joist J3"])
    alone = water_of(rebuilt(only=("wood",)))
    assert not [each for each in alone.gate.missing if each.kind == "joists"]


@pytest.mark.parametrize(
    ("language", "said"), [("en", "7 things of the floor to settle"), ("es", "7 cosas del piso")]
)
def test_the_cover_line_counts_them(language: Language, said: str) -> None:
    assert said in cover_line(water_of(rebuilt()), Words(language))


def kept_shut(*changes: tuple[str, str]) -> set[str]:
    return {each.where for each in water_of(rebuilt(*changes)).gate.missing if each.kind == "joists"}


def test_a_patch_that_cannot_be_laid_out_is_not_known_to_be_sound_under_it() -> None:
    """independent: unknown is the cautious case (convention 4.5): more is shut, never less."""
    lacks = kept_shut(('joists_run = "out from the back wall"', ""))
    assert {"floor", "J1 soft corner", "J2 notch pipe", "subfloor", "joist J3"} <= lacks


def test_with_nothing_to_cut_only_what_fails_keeps_it_shut() -> None:
    """Nothing is opened: a joist whose grade nobody read is no reason to leave walls open."""
    text = re.sub(r"(?ms)^\[wood\.points\.floor-.*?(?=^\[)", "", EXAMPLE.read_text("utf-8"))
    rebuild = plan(read_job(text.encode()), [each for each in STAGES if each.key in ("wood", "floor")])
    assert rebuild.results["floor"].layouts == ()
    lacks = {each.where for each in water_of(rebuild).gate.missing if each.kind == "joists"}
    assert lacks == {"J1 soft corner", "J2 notch pipe", "subfloor"}


def test_a_floor_that_is_cut_open_and_not_entered_keeps_it_shut() -> None:
    text = EXAMPLE.read_text("utf-8")
    bare = text[: text.index("[floor]\n")] if "[floor]\n" in text else text
    assert bare != text
    for name in INSIDE:
        bare = bare.replace(f"[wood.points.{name}]\n", f'[wood.points.{name}]\nout = "2026-03-07"\n')
    found = water_of(
        plan(read_job(bare.encode()), [each for each in STAGES if each.key in ("wood", "floor")])
    )
    assert [each.where for each in found.gate.missing if each.kind == "joists"] == ["floor"]


def test_a_floor_that_cannot_be_worked_keeps_it_shut(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_given: object, **_named: object) -> None:
        raise PlanError("put in from outside")

    _Last.told = None
    monkeypatch.setattr("undertile.floor.goesout.not_sound", fails)
    assert kept_shut() == {"floor"}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('joists_run = "out from the back wall"', 'joists_run = "along the back wall"'),
        ('tile = "ceramic"', 'tile = "none"'),
        ("[floor.patch]\n", '[floor.patch]\nedges = "cleats"\n'),
        (
            'J3 = { at = "35-3/4",',
            'J3 = { at = "35-3/4", engineer = { carries = "yes", by = "P. Engel", when = "2026-03-07" },',
        ),
        ('floor-30-6]\nmember = "subfloor"\nx = "30"', 'floor-30-6]\nmember = "subfloor"\nx = "31"'),
    ],
)
def test_what_is_kept_of_the_floor_is_not_used_once_its_facts_change(old: str, new: str) -> None:
    """independent: the same job asked first of all, with nothing kept."""
    text = EXAMPLE.read_text("utf-8")
    assert old in text
    before = water_of(rebuilt())
    changed = water_of(rebuilt((old, new)))
    again = water_of(rebuilt())
    _Last.told = None
    assert water_of(rebuilt((old, new))) == changed
    assert again == before


def test_what_an_engineer_answered_is_not_asked_again() -> None:
    """Convention 4.6: nothing nags twice; the figures stay as they are."""
    word = 'engineer = { carries = "yes", by = "P. Engel", when = "2026-03-07" }, '
    told = rebuilt(('J2 = { at = "19-1/2", ', f'J2 = {{ at = "19-1/2", {word}'))
    before = rebuilt()
    floor, asked = told.results["floor"], before.results["floor"]
    (notch,) = [each for each in floor.checks if each.code == "joist-notch-depth-J2-pipe"]
    (was,) = [each for each in asked.checks if each.code == "joist-notch-depth-J2-pipe"]
    assert (notch.verdict, notch.value) == (was.verdict, was.value)
    assert notch.next_step == "Nothing more at joist J2: P. Engel said on 2026-03-07 that it carries."
    assert "J2 notch pipe" not in {each.where for each in water_of(told).gate.missing}
