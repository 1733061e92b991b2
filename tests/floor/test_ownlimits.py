"""Figures looser than the usual: taken with a reason and said; without one the usual figure counts."""

from __future__ import annotations

from typing import Any

import pytest

from tests.floor.cast import KNOWN, WEIGHTLESS, ask, checks, facts, row
from tests.wood.test_honest_job import covered, dried, example, floored, merged, put_back, ruled_out, told
from undertile.findings import Finding, Severity, Verdict
from undertile.floor.facts import FloorFacts
from undertile.floor.ownlimits import CODE, counted, looser
from undertile.floor.result import FloorResult
from undertile.job import plan, read_job
from undertile.packet.floor import floor_sheet
from undertile.packet.told import told as spanish
from undertile.packet.words import Words
from undertile.sources import SOURCES

DEEP = {"J2": {"notches": {"a": {"start": "8", "length": "2", "depth": "3", "side": "top"}}}}
"""A notch 3 in deep in 9-1/4: over a sixth, under a half."""
SUBFLOOR = {"lower": {"thickness": "19/32", "stuff": "plywood"}}
HEAVY = {"what": "mortar bed", "thickness": "2"}
WHY = "town code 12.3, 2024"


def floor_with(**tables: Any) -> FloorFacts:
    its: dict[str, Any] = {"all_joists": KNOWN, "joists": row(**DEEP), "tile": "stone", "patch": SUBFLOOR}
    its["level"] = {
        "right": "24",
        "front": "12",
        "spots": {
            f"a{i}{j}": {"x": f"{12 * i}", "y": f"{12 * j}", "reading": "48" if i else "47-13/16"}
            for i in range(3)
            for j in range(2)
        },
    }
    for name, table in tables.items():
        its[name] = {**its.get(name, {}), **table}
    return facts(joists_run="out from the back wall", **its)


def said(found: FloorResult) -> list[Finding]:
    return [each for each in found.findings if each.code == CODE]


LOOSER = [
    # published: IRC table R301.5, 40; R502.3.1(2), 10; R502.8.1: 1/6, 1/3, 1/4, 1/3 and 2 in (sources.py)
    ("loads", {"live": "20"}, "20 for 40", "irc-r301.5", "joist-code-J3"),
    ("loads", {"base": "5"}, "5 for 10", "irc-r502.3.1", "joist-tile-J3"),
    ("loads", {"point": "100"}, "100 for 300", "panel-point", "panel-point"),
    ("loads", {"judged_under": "live"}, "for live and dead", "tile-deflection", "joist-tile-J3"),
    ("cut_limits", {"notch_depth": 2}, "2 for 6", "irc-r502.8.1", "joist-notch-depth-J2-a"),
    ("cut_limits", {"notch_length": 2}, "2 for 3", "irc-r502.8.1", "joist-notch-length-J2-a"),
    ("cut_limits", {"end_notch": 2}, "2 for 4", "irc-r502.8.1", None),
    ("cut_limits", {"hole": 2}, "2 for 3", "irc-r502.8.1", None),
    ("cut_limits", {"keep": "1"}, '1" for 2"', "irc-r502.8.1", None),
    # of practice: the patch's and the level's (sources.py)
    ("patch", {"gap": "1/16"}, '1/16" for 1/8"', "practice-patch", None),
    ("patch", {"offset": "2"}, '2" for 6"', "practice-patch", None),
    ("patch", {"screw_edge": "8"}, '8" for 6"', "practice-patch", None),
    ("patch", {"screw_field": "16"}, '16" for 8"', "practice-patch", None),
    ("level", {"limit": "1/4"}, '1/4" for 1/8"', "practice-pan-floor", "pan-floor-level"),
    ("level", {"slope": "1/4"}, '1/4" for 0"', "practice-pan-floor", "pan-floor-level"),
    ("level", {"most_off": "1/2"}, '1/2" for 1/16"', "practice-pan-floor", None),
    ("level", {"most_fill": "3"}, '3" for 1/2"', "practice-pan-floor", None),
    ("level", {"grid": "24"}, '24" for 12"', "practice-pan-floor", None),
]


@pytest.mark.parametrize(("table", "figure", "words", "source", "check"), LOOSER)
def test_a_looser_figure_counts_with_a_reason_alone(
    table: str, figure: dict[str, Any], words: str, source: str, check: str | None
) -> None:
    """independent: without a reason the whole answer is that of a job in which it was never typed."""
    never = ask(floor_with())
    assert said(never) == []
    bare = ask(floor_with(**{table: figure}))
    (finding,) = said(bare)
    assert (finding.severity, finding.source) == (Severity.ACT, source)
    assert words in finding.found
    assert "no reason given; the usual counts" in finding.found
    assert source in SOURCES
    assert bare.checks == never.checks
    assert bare.loads == never.loads
    assert bare.level.work == never.level.work

    taken = ask(floor_with(**{table: {**figure, "reason": WHY}}))
    (finding,) = said(taken)
    assert (finding.severity, finding.source) == (Severity.NOTE, source)
    assert words in finding.found
    assert WHY in finding.found
    if check is not None:  # wherever the check is printed, the figure and why stand beside it
        (beside,) = [line for line in checks(taken)[check].because if WHY in line]
        assert words in beside
        assert taken.checks != never.checks
    assert counted(floor_with(**{table: {**figure, "reason": WHY}})) == floor_with(
        **{table: {**figure, "reason": WHY}}
    )


@pytest.mark.parametrize("table", ["loads", "cut_limits", "patch", "level"])
def test_every_figure_of_a_table_is_looser_on_one_side_only(table: str) -> None:
    """independent: a limit has two sides; the other one is the careful side and needs no reason."""
    other = {
        "loads": {"live": "60", "base": "20", "point": "400", "judged_under": "live and dead"},
        "cut_limits": {"notch_depth": 8, "notch_length": 4, "end_notch": 5, "hole": 4, "keep": "3"},
        "patch": {"gap": "1/4", "offset": "8", "screw_edge": "4", "screw_field": "6"},
        "level": {"limit": "1/16", "slope": "0", "most_off": "1/32", "most_fill": "1/4", "grid": "8"},
    }[table]
    assert {name for each, figure, *_ in LOOSER if each == table for name in figure} == set(other)
    its = floor_with(**{table: other})
    assert looser(its) == ()
    assert counted(its) == its


@pytest.mark.parametrize("reason", ["", " ", "x", "12", "--"])
def test_what_nobody_can_read_is_no_reason(reason: str) -> None:
    its = floor_with(cut_limits={"notch_depth": 2, "reason": reason})
    (finding,) = said(ask(its))
    assert finding.severity is Severity.ACT
    assert checks(ask(its))["joist-notch-depth-J2-a"].verdict is Verdict.FAIL  # independent: 3 > 9-1/4 / 6


@pytest.mark.parametrize(
    ("table", "figure"),
    [
        ("loads", {"live": "0"}),
        ("loads", {"point": "0"}),
        ("cut_limits", {"notch_depth": 1}),
        ("cut_limits", {"hole": 1}),
        ("cut_limits", {"keep": "0"}),
    ],
)
def test_no_limit_at_all_is_never_taken(table: str, figure: dict[str, Any]) -> None:
    """independent: one part in one of a joist's depth is the whole joist; no load bends nothing."""
    found = ask(floor_with(**{table: {**figure, "reason": WHY}}))
    (finding,) = said(found)
    assert finding.severity is Severity.ACT
    assert "no limit" in finding.found
    assert found.checks == ask(floor_with()).checks


def test_concrete_may_lose_more_than_wood_before_a_reason_is_asked() -> None:
    """pinned: 1/4 off concrete, 1/16 off wood (ours)."""
    assert not said(ask(floor_with(level={"surface": "concrete", "most_off": "1/4"})))
    assert said(ask(floor_with(level={"surface": "wood", "most_off": "1/4"})))


def test_a_layer_far_lighter_than_its_stuff_needs_a_reason() -> None:
    """independent: 2 in at 125 lb a cu ft is 125 / 6, 20.8 lb a sq ft; a half is 10.4."""

    def loads(weight: str, reason: str = "") -> FloorResult:
        return ask(floor_with(loads={"on_top": {"bed": HEAVY | {"weight": weight}}, "reason": reason}))

    usual = ask(floor_with(loads={"on_top": {"bed": HEAVY}}))
    assert not said(loads("11"))
    (finding,) = said(loads("10"))
    assert finding.severity is Severity.ACT
    assert "10 for 21" in finding.found
    assert loads("10").loads == usual.loads
    assert loads("10", "foamed mortar, its sheet").loads.dead == 20
    assert loads("0", "foamed mortar, its sheet").loads == usual.loads
    assert not said(ask(floor_with(loads={"on_top": WEIGHTLESS})))


def test_the_code_is_not_cited_for_a_figure_that_is_not_its_own() -> None:
    """independent: IRC R502.8.1 says a sixth; a half is not its text."""
    own = {"notch_depth": 2, "reason": WHY}
    because = checks(ask(floor_with(cut_limits=own)))["joist-notch-depth-J2-a"].because
    assert not any("IRC" in line for line in because)
    because = checks(ask(floor_with(cut_limits=own | {"edition": "town code 12.3"})))[
        "joist-notch-depth-J2-a"
    ].because
    assert any("town code 12.3" in line for line in because)


DONE = {
    "live": {"live": 1, "point": 1, "judged_under": "live"},
    "notch": {"notch_depth": 1},
}


def finished() -> dict[str, Any]:
    return put_back(covered(floored(dried(ruled_out(example())))))


def test_looser_figures_without_a_reason_do_not_open_the_gate() -> None:
    """independent: the gate is that of the same job without them."""
    done = finished()
    assert told(done).gate.open
    thin = merged(done, {})
    del thin["floor"]["loads"]["on_top"]["second"]  # one layer of 23/32 bends under 300 lb
    bare = merged(done, {})
    del bare["floor"]["joists"]["J2"]["engineer"]  # a notch of 1-3/8 in 7-1/4, over a sixth
    for job, table, figure in ((thin, "loads", DONE["live"]), (bare, "cut_limits", DONE["notch"])):
        own = merged(job, {"floor": {table: figure}})
        assert not told(job).gate.open
        assert told(own).gate == told(job).gate
    half = {"notch_depth": 2, "reason": WHY, "edition": "town code 12.3"}
    assert told(merged(bare, {"floor": {"cut_limits": half}})).gate.open


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_paper_says_both_figures_why_and_the_source(language: Any) -> None:
    text = (
        'version = 2\nunit = "in"\n[floor]\njoists_run = "out from the back wall"\ntile = "ceramic"\n'
        '[floor.loads]\nlive = 20\nreason = "recamara, bedroom"\n[floor.cut_limits]\nhole = 2\n'
        '[floor.joists.J1]\nat = "8"\n'
    )
    sheet = floor_sheet(plan(read_job(text.encode())), language=language)
    assert sheet is not None
    words = {"en": ("20 for 40", "2 for 3"), "es": ("20 en vez de 40", "2 en vez de 3")}[language]
    (note,) = [each for each in sheet.notes if words[0] in each]
    assert "recamara, bedroom" in note
    assert "R301.5" in note
    (act,) = [each for each in sheet.acts if words[1] in each]
    assert "R502.8.1" in act


def test_every_sentence_has_its_spanish() -> None:
    words = Words("es")
    for table, figure, *_ in LOOSER:
        for reason in ("", WHY):
            (finding,) = said(ask(floor_with(**{table: {**figure, "reason": reason}})))
            for part in (finding.where, finding.expected, finding.found, finding.next_step):
                assert spanish(part, words) != str(part)
