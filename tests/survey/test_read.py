"""The whole survey: what is said of slips, of what is missing, of too much."""

from __future__ import annotations

import random
from typing import Any

import pytest

from tests.survey.cast import codes, facts, inch, room, survey, with_readings
from undertile.findings import Finding, Severity
from undertile.lengths import parse_length
from undertile.sources import SOURCES
from undertile.survey import STAGE, judge, read
from undertile.survey.facts import SurveyFacts
from undertile.survey.result import SurveyResult
from undertile.survey.slips import SLIPS

SLIP_CODES = {slip.code for slip in SLIPS.values()} | {"misfit-undecided", "misfit-unexplained"}


def alarms(result: SurveyResult) -> list[Finding]:
    """Findings that say something was misread."""
    return [f for f in result.findings if f.code in SLIP_CODES and f.severity is Severity.ACT]


def test_a_room_without_a_slip_raises_nothing() -> None:
    result = survey(room())
    assert alarms(result) == []
    assert result.suspects == ()
    assert result.global_test is not None
    assert result.global_test["chance"] > 0.05
    assert result.global_test["largest"] < result.global_test["critical"]


@pytest.mark.parametrize("slip", [{}, {"L2_48": "7"}])
def test_judged_first_and_read_on_from_there_comes_to_the_same(slip: dict[str, str]) -> None:
    told = facts(with_readings(room(), **slip))
    judged = judge(told)
    assert not isinstance(judged, Finding)
    whole = read(told)
    assert read(told, judged) == whole
    assert judged.suspects == whole.suspects
    assert bool(judged.suspects) == bool(slip)
    assert {f.code for f in judged.findings} <= {f.code for f in whole.findings}


@pytest.mark.parametrize(
    ("slipped", "place", "code", "typed", "should"),
    # independent: each slip of common practice made by hand in a room known to be right
    [
        ({"L2_48": "6-3/8"}, "L2 at 48", None, None, None),
        ({"L2_48": "7"}, "L2 at 48", "reading-inch-off", '7"', '6"'),
        ({"B2_48": "6-3/16"}, "B2 at 48", "reading-mirrored", '6-3/16"', '5-13/16"'),
        ({"B2_48": "5-3/16"}, "B2 at 48", "reading-mirrored", '5-3/16"', '5-13/16"'),
        ({"R3_48": "9"}, "R3 at 48", "reading-six-nine", '9"', '6"'),
    ],
)
def test_a_slipped_reading_is_named_with_what_it_should_be(
    slipped: dict[str, str], place: str, code: str | None, typed: str, should: str
) -> None:
    result = survey(with_readings(room(), **slipped))
    (finding,) = alarms(result)
    assert finding.where == place
    if code is None:  # 3/8 out of nowhere: seen, and no known slip makes it
        assert finding.code == "misfit-undecided"
        return
    assert finding.code == code
    top = result.suspects[0][0]
    assert (top.where, top.typed, top.offered) == (place, typed, should)
    assert top.changes == ((place, should),)
    assert top.odds > 0.6
    assert finding.next_step == f"Re-read {place}."
    assert should in finding.expected
    assert typed in finding.found
    assert f"{top.odds:.3f}" == finding.data["odds"]


@pytest.mark.parametrize(
    ("group", "name", "key", "text", "where", "code", "should"),
    # independent: by hand, as above
    [
        ("widths", "w5", "reading", "59-1/4", "width w5", "reading-inch-off", '60-1/4"'),
        ("widths", "w5", "reading", "60-3/4", "width w5", "reading-mirrored", '60-1/4"'),
        ("diagonals", "d1", "reading", "96-3/16", "diagonal d1", "reading-transposed", '69-3/16"'),
        ("levels", "v1", "reading", "-3/16", "level v1", "sign-lost", '3/16"'),
    ],
)
def test_a_slipped_check_is_named(
    group: str, name: str, key: str, text: str, where: str, code: str, should: str
) -> None:
    table = room()
    table[group][name][key] = inch(text)
    result = survey(table)
    (finding,) = alarms(result)
    assert (finding.where, finding.code) == (where, code)
    assert result.suspects[0][0].offered == should


def test_a_row_typed_in_the_other_direction_is_named_as_a_row() -> None:
    # independent: the row B at 48 is 6-0, 5-13/16, 6-0, 6-1/8
    table = with_readings(room(), B1_48="6-1/8", B2_48="6-0", B3_48="5-13/16", B4_48="6-0")
    result = survey(table)
    (finding,) = alarms(result)
    assert finding.code == "row-reversed"
    assert finding.where == "row B at 48"
    changes = {place: parse_length(text, "in").inches for place, text in result.suspects[0][0].changes}
    assert changes["B2 at 48"] == parse_length('5-13/16"').inches
    assert changes["B4 at 48"] == parse_length('6-1/8"').inches


def test_a_bumped_line_is_found_by_the_repeat() -> None:
    # independent: every R reading from R2 at 48 on, and the repeat, read 1/4 more
    readings = {f"R2_{z}": "6-1/4" for z in ("48", "72", "90")}
    readings |= {f"R3_{z}": "6-1/4" for z in ("2", "24", "48", "72", "90")}
    table = with_readings(room(), **readings)
    table["repeats"]["p3"]["reading"] = inch("6-1/4")
    result = survey(table)
    (finding,) = alarms(result)
    assert finding.code == "line-moved"
    assert finding.where == "wall R from R2 at 48 on"
    assert finding.data["shift"] == "-1/4"
    assert "re-read from R2 at 48 on" in finding.next_step


def test_a_tape_case_left_out_is_named_without_a_number_it_cannot_know() -> None:
    table = room()
    for width in table["widths"].values():
        width["tool"] = "tape"
    table["widths"]["w5"]["reading"] = inch("57-1/8")  # a case of 3-1/8
    result = survey(table)
    (finding,) = alarms(result)
    assert (finding.code, finding.where) == ("tape-case", "width w5")
    assert result.suspects[0][0].offered.startswith("about 60")
    assert result.suspects[0][0].changes == ()


def test_two_slips_at_once_are_both_named() -> None:
    # independent: by hand, one on B and one in a width
    table = with_readings(room(), B3_48="7")
    table["widths"]["w1"]["reading"] = inch("61-1/4")
    found = {(f.code, f.where) for f in alarms(survey(table))}
    assert found == {("reading-inch-off", "B3 at 48"), ("reading-inch-off", "width w1")}


def only_widths(offset: str) -> dict[str, Any]:
    """Two heights a stud and widths: nothing but a width covers L2 and R2."""
    table = room()
    table["levels"] = {}
    table["diagonals"] = {}
    for wall in table["walls"].values():
        wall["heights"] = [inch("2"), inch("48")]
        for stud in wall["studs"].values():
            stud["readings"] = {inch("2"): "6-0", inch("48"): "6-0"}
    table["widths"] = {n: w for n, w in table["widths"].items() if w["height"] in (inch("2"), inch("48"))}
    table["walls"]["L"]["studs"]["L2"]["readings"][inch("48")] = inch(offset)
    return table


def test_a_width_alone_cannot_say_left_or_right() -> None:
    # independent: symmetry, L2 and R2 stand in the one width in the same way
    result = survey(only_widths("7"))
    (finding,) = alarms(result)
    assert finding.code == "misfit-undecided"
    odds = {s.where: s.odds for s in result.suspects[0] if s.slip == SLIPS["inch off"].words}
    # R2 typed 6 would have to be 7: as likely as L2 typed 7 having to be 6
    assert odds["L2 at 48"] == pytest.approx(odds["R2 at 48"], rel=1e-6)
    assert finding.next_step in (
        "Re-read L2 at 48: it tells the most.",
        "Re-read R2 at 48: it tells the most.",
        "Measure width w5 again: it tells the most.",
    )


def test_a_settling_measurement_settles() -> None:
    # independent: the same reading entered again as a repeat, L2 was 6 after all
    table = only_widths("7")
    table["repeats"]["again"] = {"stud": "L2", "height": inch("48"), "reading": "6-0"}
    result = survey(table)
    (finding,) = alarms(result)
    assert (finding.code, finding.where) == ("reading-inch-off", "L2 at 48")


def test_a_truly_bowed_stud_is_not_called_a_slip() -> None:
    # independent: a smooth crown of 1/2 that widths, level and all heights agree on
    bow = {"2": "5-31/32", "24": "5-5/8", "48": "5-1/2", "72": "5-5/8", "90": "5-29/32"}
    table = with_readings(room(), **{f"L2_{z}": r for z, r in bow.items()})
    for name, by in (("w4", "60-7/32"), ("w5", "59-3/4"), ("w6", "59-7/8")):
        table["widths"][name]["reading"] = inch(by)
    table["levels"]["v2"]["reading"] = inch("3/8")
    assert alarms(survey(table)) == []


def test_a_stud_far_off_its_neighbours_is_asked_about() -> None:
    # independent: 7/16 against 0 on both sides is more than 3/8
    table = with_readings(room(), **{f"B3_{z}": "5-9/16" for z in ("2", "24", "48", "72", "90")})
    for z in ("2", "24", "48", "72", "90"):
        table = with_readings(table, **{f"B2_{z}": "6-0", f"B4_{z}": "6-0"})
    table["levels"] = {}
    result = survey(table)
    (asked,) = [f for f in result.findings if f.code == "stud-stands-out"]
    assert asked.severity is Severity.NOTE
    assert "7/16 proud" in asked.found
    assert asked.where.startswith("B3")
    assert alarms(result) == []


def test_a_wall_never_rechecked_is_said() -> None:
    table = room()
    table["repeats"] = {"p": {"stud": "L1", "height": inch("2"), "reading": "6-0"}}
    said = [f.where for f in survey(table).findings if f.code == "line-not-rechecked"]
    assert said == ["wall B", "wall R"]


def test_what_would_not_show_is_known_for_every_reading() -> None:
    result = survey(room())
    known = {r.place: r for r in result.reliability}
    covered, alone = known["L2 at 48"], known["B3 at 90"]
    assert covered.detectable is not None
    assert alone.detectable is not None
    assert covered.detectable < alone.detectable
    assert 0 < alone.redundancy < covered.redundancy < 1
    assert len(known) == 50 + 9 + 2 + 2 + 3  # everything typed: readings, widths, diagonals, levels, repeats


def test_readings_past_any_sense_are_judged_and_not_refused() -> None:
    result = survey(with_readings(room(), L2_48="600", B1_2="1/64"))
    assert {f.where for f in alarms(result)} >= {"L2 at 48"}
    result = survey(with_readings(room(), **{f"{w}{i}_48": "3" for w in "LR" for i in (1, 2, 3)}))
    assert alarms(result)


ODD = ('0"', '-1"', '1/64"', '600"', '100000000000"', '6"', "0.1 mm", "99999999999 mm", "25 mm", '48"')
POSSIBLE = [text for text in ODD if text not in ('0"', '-1"')]  # places and sizes are refused below nothing


@pytest.mark.parametrize("seed", range(60))
def test_any_lengths_at_all_get_an_answer(seed: int) -> None:
    rng = random.Random(seed)
    table = room() | {
        "sigma": {"rule": rng.choice(ODD), "sticks": rng.choice(ODD)},
        "gaps": {"g": {"depth": rng.choice(POSSIBLE), "reading": rng.choice(ODD)}},
        "squares": {"s": {"wall": "L", "over": rng.choice(POSSIBLE), "out": rng.choice(ODD)}},
    }
    for wall in table["walls"].values():
        for stud in wall["studs"].values():
            stud["readings"] = {
                z: rng.choice((*ODD, "x", "")) if rng.random() < 0.2 else r
                for z, r in stud["readings"].items()
            }
            if rng.random() < 0.2:
                stud["along"] = rng.choice(ODD)
        wall["heights"] += [rng.choice(ODD)]
        if rng.random() < 0.3:
            del wall["heights"][rng.randrange(3)]
    for group in ("widths", "diagonals", "levels"):
        for row in table[group].values():
            for key, value in row.items():
                if rng.random() < 0.15 and value not in ("BL", "BR") and key != "stud":
                    row[key] = rng.choice(ODD if key == "reading" else POSSIBLE)
    result = survey(table)
    assert all(finding.line() for finding in result.findings)
    assert all(0 <= s.odds <= 1 for group in result.suspects for s in group)


def test_an_empty_survey_and_an_empty_wall_have_answers() -> None:
    assert survey({}).walls == ()
    assert survey({}).global_test is None
    bare = {"walls": {"B": {"nominal": "6-0"}}}
    assert codes(survey(bare)) == ["wall-not-read"]


def test_sixty_thousand_readings_get_an_answer() -> None:
    heights = [inch(str(z)) for z in range(1, 31)]
    table = {
        "walls": {
            "B": {
                "nominal": "6-0",
                "heights": heights,
                "studs": {
                    f"S{i}": {"along": inch(str(i + 1)), "readings": dict.fromkeys(heights, "6-0")}
                    for i in range(2000)
                },
            }
        }
    }
    result = survey(table)
    assert codes(result) == ["not-one-room"]
    assert "60000 line readings" in result.findings[0].found


def test_what_has_no_place_is_said_with_the_place() -> None:
    table = room()
    table["walls"]["B"]["studs"]["B1"]["readings"][inch("50")] = "6-0"
    table["walls"]["B"]["studs"]["B1"]["readings"]["48.0 mm"] = "6-0"
    table["walls"]["B"]["studs"]["B1"]["readings"]["4' 0\""] = "6-0"
    table["walls"]["R"]["studs"]["L1"] = table["walls"]["R"]["studs"]["R1"]
    table["walls"]["L"]["heights"].append(inch("24"))
    said = {f.code: f.where for f in survey(table).findings}
    assert said["reading-height-unknown"].startswith("B1 at")
    assert said["reading-twice"] == "B1 at 48"
    assert said["stud-named-twice"] == "stud L1"
    assert said["height-listed-twice"] == "wall L"


def test_a_tool_without_uncertainty_is_refused_in_words() -> None:
    table = room() | {"sigma": {"rule": inch("0"), "sticks": inch("1/64")}}
    result = survey(table)
    assert "sigma-not-usable" in codes(result)
    assert result.walls[0].studs[0].offsets[0].sigma == 1 / 32


def test_every_finding_cites_a_source_that_is_kept() -> None:
    table = with_readings(room(), B2_48="5-3/16", L2_90="x", R1_24="6-3/8")
    table["repeats"] = {}
    table["levels"]["who"] = {"stud": "B9", "low": inch("2"), "high": inch("48"), "reading": inch("0")}
    for finding in survey(table).findings:
        assert finding.source in SOURCES
        assert finding.line()


def test_millimetres_and_inches_give_one_room() -> None:
    # independent: the same lengths typed in mm, 1/16 in = 1.5875 mm exactly
    table = room()

    def metric(value: Any) -> Any:
        if isinstance(value, dict):
            return {metric(k): metric(v) for k, v in value.items()}
        if isinstance(value, list):
            return [metric(v) for v in value]
        if isinstance(value, str) and (value.endswith('"') or value.endswith("-0")):
            size = float(parse_length(value, "in", whole="inches").inches) * 25.4
            return f"{size:.7f} mm"
        return value

    one, two = survey(table), survey(metric(table))
    assert [[o.value for o in s.offsets] for w in one.walls for s in w.studs] == [
        [o.value for o in s.offsets] for w in two.walls for s in w.studs
    ]
    assert one.frame == two.frame


def test_the_stage_answers_from_all_facts() -> None:
    facts = SurveyFacts.model_validate(room())
    assert STAGE.run({"survey": facts}, {}) == survey(room())
    assert STAGE.facts is SurveyFacts


# --- what cannot be a reading, and what nothing mends


@pytest.mark.parametrize(
    ("typed", "offered", "code"),
    [
        # independent: the room has 6-0 there; 152 mm is 5.98 in by hand
        ("152", "152 mm", "cm-side"),
        ("-6", '6"', "sign-lost"),
    ],
)
def test_a_reading_in_the_wrong_unit_or_with_a_sign_is_named(typed: str, offered: str, code: str) -> None:
    result = survey(with_readings(room(), L2_48=typed))
    (group,) = [g for g in result.suspects if g[0].where == "L2 at 48"]
    assert (group[0].offered, group[0].code) == (offered, code)
    negative = [f.where for f in result.findings if f.code == "reading-negative"]
    assert negative == (["L2 at 48"] if typed.startswith("-") else [])


@pytest.mark.parametrize(
    ("typed", "slip"), [("0", "0 typed where nothing was read"), ("100", "misread in some")]
)
def test_a_reading_that_nothing_mends_is_offered_as_not_measured(typed: str, slip: str) -> None:
    result = survey(with_readings(room(), L2_48=typed))
    first = next(g[0] for g in result.suspects if g[0].where == "L2 at 48")
    assert first.slip.startswith(slip)
    assert (first.offered, first.changes, first.wish) == ("", (), "L2 at 48 = not measured")
