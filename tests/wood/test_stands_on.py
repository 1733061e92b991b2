"""An open answer says what it leaves out and which looser figures it takes on a person's word."""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.test_honest_job import covered, dried, example, floored, merged, put_back, ruled_out, told
from undertile.packet.cover import cover_line, cover_short, stands_on
from undertile.packet.told import foreign
from undertile.packet.words import Words
from undertile.wood.gate import _left_out
from undertile.wood.result import WoodResult

EN, ES = Words("en"), Words("es")
WHY = "letter of P. Dorn"


def finished(change: dict[str, Any]) -> WoodResult:
    return told(merged(put_back(covered(floored(dried(ruled_out(example()))))), change))


def besides(found: WoodResult, words: Words) -> tuple[str, ...]:
    """What it stands on besides the two words of the finished job."""
    first, *rest = stands_on(found, words)
    assert first.startswith(("by a word and no test:", "por lo dicho y sin prueba:"))
    return tuple(rest)


def test_an_open_answer_on_the_usual_figures_stands_on_the_words_alone() -> None:
    """independent: of the finished wet corner no figure is changed, all of the room is covered, and of eight
    sources six were tested; window and neighbor are out by what was said."""
    found = finished({})
    assert found.gate.open
    said = "by a word and no test: rain through roof, wall or window and the neighbor's water"
    assert stands_on(found, EN) == (said,)
    assert stands_on(found, ES)[0].startswith("por lo dicho y sin prueba: ")
    assert cover_line(found, EN) == f"{cover_short(found, EN)} It stands on this: {said}."


def test_what_is_torn_out_is_no_word_and_an_inspection_nobody_asked_for_is_one() -> None:
    cover = {"inspection": "not asked for", "inspected": "", "inspector": ""}
    torn = {"not_here": {"enclosure": {"reason": "torn out whole", "out": "2026-03-02"}}}
    job = merged(put_back(covered(floored(dried(ruled_out(example()))))), {"wood": {"cover": cover}})
    del job["wood"]["leak"]["sprays"]
    found = told(merged(job, {"wood": {"leak": torn}}))
    assert found.gate.open
    assert besides(found, EN) == ("no rough inspection: it was said that none is asked for",)
    assert besides(found, ES)[0].startswith("sin inspección")
    assert "walls" not in stands_on(found, EN)[0].replace("wall or window", "")


@pytest.mark.parametrize(
    ("change", "figure"),
    [
        ({"wood": {"allowed": {"read_within": 30, "reason": WHY}}}, "days since a place was read 30 for 14"),
        ({"wood": {"allowed": {"most": 18, "reason": WHY}}}, "goal at most 18 for 16"),
        ({"wood": {"allowed": {"past_the_last": "6", "reason": WHY}}}, 'past the last bad spot 6" for 12"'),
        ({"floor": {"loads": {"live": 30, "reason": WHY}}}, "live load, lb a sq ft, 30 for 40"),
        (
            {"floor": {"cut_limits": {"notch_depth": 5, "reason": WHY}}},
            "notch, one part in 5 for 6",
        ),
    ],
)
def test_a_looser_figure_with_its_reason_stands_beside_the_answer(
    change: dict[str, Any], figure: str
) -> None:
    """independent: both figures and the reason are read back as typed, in both languages; without the
    reason the usual figure counts, and nothing is said to stand on it."""
    found = finished(change)
    assert found.gate.open
    (on,) = besides(found, EN)
    assert figure in on
    assert on.endswith(f": {WHY}")
    assert on in cover_line(found, EN)
    (spanish,) = besides(found, ES)
    assert spanish.endswith(f": {WHY}")
    assert spanish != on
    assert not any(foreign(each, ES) for each in found.gate.stands_on)
    ((stage, tables),) = change.items()
    ((table, values),) = tables.items()
    assert besides(finished({stage: {table: {**values, "reason": ""}}}), EN) == ()


def test_surfaces_left_out_of_what_is_covered_are_named() -> None:
    """independent, by hand: the room has three walls and a floor; the back wall and the floor are chosen."""
    found = finished({"wood": {"cover": {"surfaces": ["wall B", "floor"]}}})
    assert found.gate.open
    on, _ = stands_on(found, EN)
    assert on == "only wall B and floor; left out of what will be covered, and not judged: wall L and wall R"
    spanish, _ = stands_on(found, ES)
    assert spanish.startswith("solo pared del fondo y piso;")
    assert "pared izquierda y pared derecha" in spanish


def test_all_surfaces_chosen_leave_nothing_out() -> None:
    """independent: the same room, said wall by wall; a wall the room does not have is no matter."""
    assert not [*_left_out(("wall L", "wall B", "floor"), ("L", "B"))]
    assert not [*_left_out((), ("L", "B"))]
    assert [*_left_out(("wall L", "wall B", "floor"), ())]  # no wall surveyed: unknown is the cautious case


def test_a_shut_answer_says_what_lacks_and_not_what_it_would_stand_on() -> None:
    """independent: the inspection's day is taken away from the open job."""
    loose = {"allowed": {"read_within": 30, "reason": WHY}, "cover": {"inspected": ""}}
    found = finished({"wood": loose})
    assert not found.gate.open
    assert stands_on(found, EN) == ()
    assert WHY not in cover_line(found, EN)
