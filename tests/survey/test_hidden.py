"""Where a slip would hide: what is said against slips really made and measurements really added."""

from __future__ import annotations

import re

from tests.survey.cast import inch, room, survey, with_readings
from undertile.findings import Finding
from undertile.lengths import format_length, parse_length
from undertile.survey.result import SurveyResult


def said(result: SurveyResult, code: str) -> Finding:
    (found,) = [f for f in result.findings if f.code == code]
    return found


def doubted(result: SurveyResult) -> set[str]:
    return {s.where for group in result.suspects for s in group}


def test_every_wall_has_its_size_in_one_line() -> None:
    found = said(survey(room()), "slip-would-hide").found
    assert [re.search(rf"wall {wall} \d", found) is not None for wall in "LBR"] == [True] * 3
    assert len(found) < 250


def test_a_slip_larger_than_the_size_said_shows_and_a_smaller_one_may_not() -> None:
    # independent: the slips are made, in a room without noise, at a place that is named with its size
    found = said(survey(room()), "slip-would-hide").found
    place, size = re.search(r"\((L\d at \d+)[^:]*: ([^)]+)\)", found).groups()  # type: ignore[union-attr]
    stud, z = place.split(" at ")
    wrong = parse_length("6-0", "in", whole="inches").inches + parse_length(size, "in").inches * 5 / 4
    shown = with_readings(room(), **{f"{stud}_{z}": format_length(wrong, mark=True)})
    assert place in doubted(survey(shown))
    hides = with_readings(room(), **{f"{stud}_{z}": "6-1/8"})
    assert survey(hides).suspects == ()


def test_sizes_follow_the_smallest_detectable_mistake() -> None:
    # independent: the wall's middling size from the reliability listed, by hand
    result = survey(room())
    own = sorted(r.detectable for r in result.reliability if r.place.startswith("R") and r.detectable)
    least = own[len(own) // 2]
    middle = least * (1.25 + 0.4 * min(1.0, max(0.0, (least - 0.25) / 0.15)))
    size = re.search(r"wall R ([^ ;]+)", said(result, "slip-would-hide").found)[1]  # type: ignore[index]
    over = float(parse_length(size, "in").inches) - middle
    assert 0 <= over < 1 / 16  # rounded up to a sixteenth


def test_the_measurement_named_makes_slips_show_that_hid() -> None:
    # independent: the measurement is added, and the smallest detectable mistakes are compared
    before = survey(room())
    told = said(before, "slip-would-hide")
    table = room()
    level = re.match(r"A level on (\w+) from (\S+) to (\S+) ", told.next_step)
    width = re.match(r"A width (\S+) from the back at (\S+) ", told.next_step)
    assert level or width
    if level:
        table["levels"]["more"] = {
            **{"stud": level[1], "low": inch(level[2]), "high": inch(level[3])},
            "reading": inch("0"),
        }
    elif width:
        table["widths"]["more"] = {
            **{"depth": inch(width[1]), "height": inch(width[2]), "reading": inch("60-1/4")},
            "tool": "sticks",
        }
    old = {r.place: r.detectable for r in before.reliability}
    better = [
        r.place
        for r in survey(table).reliability
        if r.detectable and " at " in r.place and old.get(r.place) and r.detectable < old[r.place] - 1 / 64
    ]
    assert len(better) >= int(told.data["told"]) > 0


def test_two_studs_exchanged_hide_until_the_repeat_that_is_asked_for() -> None:
    # independent: B2 and B3 are exchanged, 3/16 apart at 48; then the repeat is made as asked
    told = said(survey(room()), "exchange-would-hide")
    assert "B2 and B3" in told.found
    assert "B2 at 48" in told.next_step
    table = room()
    studs = table["walls"]["B"]["studs"]
    studs["B2"]["readings"], studs["B3"]["readings"] = studs["B3"]["readings"], studs["B2"]["readings"]
    table["levels"] = {}
    hidden = survey(table)
    assert hidden.suspects == ()
    table["repeats"]["more"] = {"stud": "B2", "height": inch("48"), "reading": inch("5-13/16")}
    shown = survey(table)
    assert [f.where for f in shown.findings if f.code in ("look-again", "misfit-undecided", "rows-swapped")]


def test_a_room_where_every_stud_is_alike_says_nothing_of_exchanges() -> None:
    table = room()
    for wall in table["walls"].values():
        for stud in wall["studs"].values():
            stud["readings"] = dict.fromkeys(stud["readings"], "6-0")
    table["levels"] = {}
    assert not [f for f in survey(table).findings if f.code == "exchange-would-hide"]
