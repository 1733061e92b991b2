"""Things, valve, edges and corners as bounds on the plane."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from tests.framing.cast import facts, inch, survey
from undertile.framing.prices import read_prices
from undertile.framing.problem import StepTerm
from undertile.framing.terms import Terms, make_terms

F = Fraction
FINISH = {"board": "1/2", "membrane": "1/32", "mortar": "3/16", "tile": "3/8"}  # invented
PLUMB = {wall: (F(0),) for wall in "LBR"}
LEANING = {wall: (F(-1, 768), F(0), F(1, 768)) for wall in "LBR"}


def finish(**changes: str | None) -> dict[str, Any]:
    return {k: inch(v) for k, v in (FINISH | changes).items() if v is not None}


def terms(
    leans: dict[str, tuple[Fraction, ...]] = PLUMB, room: dict[str, Any] | None = None, **given: Any
) -> Terms:
    made = facts(**({"finish": finish()} | given))
    return make_terms(survey(**(room or {})), made, read_prices(made)[0], leans)


def only(found: Terms) -> StepTerm:
    assert found.findings == ()
    ((term,),) = found.by_wall.values()
    return term


def pipe(**changes: Any) -> dict[str, Any]:
    base = {
        "wall": "B",
        "along": inch(20),
        "height": inch(30),
        "reading": inch("23/4"),
        "what": "supply pipe",
    }
    return {"things": {"cold": base | changes}}


def test_a_thing_holds_the_plane_in_front_of_it_less_its_relief() -> None:
    term = only(terms(**pipe()))
    # independent, by hand: nominal 6, reading 5-3/4: 1/4 proud; 1/16 may be proud (common practice)
    assert (term.low, term.high, term.minutes) == (F(3, 16), None, None)
    assert only(terms(**pipe(relief=inch(0)))).low == F(1, 4)


@pytest.mark.parametrize(
    ("what", "minutes"),
    [("supply pipe", 90), ("drain or vent", 210), ("stack", 780)],  # common practice, no source, middles
)
def test_a_movable_thing_is_bought_at_the_middle_of_the_spread(what: str, minutes: int) -> None:
    term = only(terms(**pipe(what=what, movable=True)))
    assert (term.minutes, term.hard_low, term.remedy) == (minutes, None, f"move the {what}")
    assert only(terms(**pipe(what=what, movable=True, minutes=Decimal(45)))).minutes == 45


def test_what_is_not_read_or_not_priced_is_said_and_not_guessed() -> None:
    unread = terms(**pipe(reading="x"))
    assert unread.by_wall == {}
    assert [f.code for f in unread.findings] == ["thing-not-read"]
    free = terms(**pipe(what="other", movable=True))
    assert [f.code for f in free.findings] == ["thing-minutes-missing"]
    assert free.by_wall["B"][0].minutes is None  # it stays where it is
    gone = terms(room={"walls": "LR"}, **pipe())
    assert [f.code for f in gone.findings] == ["wall-not-read"]


def valve(**changes: Any) -> dict[str, Any]:
    base = {
        "wall": "L",
        "along": inch(16),
        "height": inch(42),
        "reading": inch("31/4"),
        "window_low": inch("17/8"),
        "window_high": inch("25/8"),
    }
    return {"valve": base | changes}


def test_the_valve_window_is_measured_from_its_body_to_the_finished_face() -> None:
    term = only(terms(**valve()))
    # independent, by hand: body 6 - 7-3/4 = -1-3/4; stack 1/2 + 1/32 + 3/16 + 3/8 = 1-3/32;
    # low -1-3/4 + 2-1/8 - 1-3/32 = -23/32, high 1 in more
    assert (term.low, term.high) == (F(-23, 32), F(9, 32))
    assert (term.minutes, term.dollars) == (25, 3)  # published: convention 4.3
    assert (term.hard_low, term.hard_high) == (F(-39, 32), F(25, 32))  # ours: 1/2 either way
    assert "not given, so ours" in term.why
    reach = only(terms(**valve(reblock_reach=inch("1/4"))))
    assert reach.hard_high == F(17, 32)
    fixed = only(terms(**valve(may_reblock=False)))
    assert (fixed.minutes, fixed.hard_low, fixed.hard_high) == (None, None, None)


@pytest.mark.parametrize("missing", ["board", "membrane", "mortar", "tile"])
def test_a_valve_without_a_thickness_is_not_shown(missing: str) -> None:
    found = terms(finish=finish(**{missing: None}), **valve())
    assert found.by_wall == {}
    (finding,) = found.findings
    assert finding.code == "valve-not-shown"
    assert finding.next_step == f"Measure the thickness of {missing}."


def edge(**changes: Any) -> dict[str, Any]:
    base = {
        "wall": "R",
        "along": inch(36),
        "readings": {'2"': inch("41/8"), "1219.2 mm": inch("81/16"), '90"': ""},
    }
    return {"edges": {"plaster": base | changes}}


def test_an_edge_binds_at_every_height_read_and_only_there() -> None:
    found = terms(**edge())
    low, high = found.by_wall["R"]
    # independent, by hand: face 6 - 5-1/8 = 7/8; board 1/2: plane at 3/8, to 1/32 back (common practice)
    assert (low.height, low.low, low.high, low.minutes) == (F(2), F(11, 32), F(3, 8), None)
    assert high.height == 48
    assert high.high == F(7, 16)
    stepped = terms(**edge(step_back=inch("1/8"), step_proud=inch("1/16"))).by_wall["R"][0]
    assert (stepped.low, stepped.high) == (F(1, 4), F(7, 16))


def test_an_edge_without_board_reading_or_height_is_not_shown() -> None:
    assert [f.code for f in terms(finish=finish(board=None), **edge()).findings] == ["edge-not-shown"]
    assert [f.code for f in terms(**edge(readings={'2"': "x"})).findings] == ["edge-not-shown"]
    codes = [f.code for f in terms(**edge(readings={"knee": inch(5)})).findings]
    assert codes == ["edge-height-unknown", "edge-not-shown"]


@pytest.mark.parametrize(
    ("key", "wall", "along"),
    [("B-L", "L", F(0)), ("L-B", "B", F(0)), ("B-R", "R", F(0)), ("R-B", "B", F(241, 4))],
)
def test_corner_wood_is_eaten_by_the_other_wall(key: str, wall: str, along: Fraction) -> None:
    term = only(terms(corners={key: {"wood": inch("3/2")}}))
    # common practice: stud 1-1/2 less build-out less gap keeps 5/8; by hand 3/2 - 1/2 - 1/8 - 5/8 = 1/4
    assert (term.wall, term.along, term.low, term.high) == (wall, along, None, F(1, 4))
    assert (term.minutes, term.dollars) == (10, 3)  # published: convention 4.3


def test_a_plane_that_may_lean_keeps_the_backing_over_the_whole_height() -> None:
    leaning = only(terms(LEANING, corners={"B-L": {"wood": inch("3/2")}}))
    # independent, by hand: 1/8 in 96 over the 44 in from the middle (46) to the top (90) is 44/768
    assert leaning.height == 46
    assert leaning.high == F(1, 4) - F(44, 768)


def test_a_corner_without_a_board_is_not_shown() -> None:
    found = terms(finish=finish(board=None), corners={"B-L": {"wood": inch("3/2")}})
    assert [f.code for f in found.findings] == ["corner-not-shown"]
