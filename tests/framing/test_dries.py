"""Studs that are trued before they are dry: what it eats, by hand, and held against a general solver."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from tests.depth import deep
from tests.framing.cast import OFFSETS, SEAT, facts, minutes_only, play_demands, survey
from tests.framing.test_search import one_stud
from undertile.bench.against import compare, damp, tight
from undertile.bench.rooms import room
from undertile.bench.verify import verify
from undertile.findings import Check, Severity, Verdict
from undertile.framing.build import build_problem
from undertile.framing.conflict import explain
from undertile.framing.dried import dried_checks
from undertile.framing.dries import Dries, dries_of, dry_first, with_drying
from undertile.framing.flatcheck import FaceGrid
from undertile.framing.flatness import WallFlatness
from undertile.framing.problem import FramingProblem, Member, Prices, StockItem, WallProblem
from undertile.framing.reasons import reasons
from undertile.framing.search import solve
from undertile.job import read_job

F = Fraction
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
RULE = ((F(24), F(1, 16)),)
LONG = ((F(24), F(1, 16)), (F(120), F(1, 8)))


def wet_stud(offsets: tuple[str, str, str], back: str, **changes: Any) -> FramingProblem:
    """One stud read at 2 (flange), 48 and 90, plane at 0, still to go back by up to so much."""
    problem = one_stud(offsets, **changes)
    (wall,) = problem.walls
    dries = Dries("B1", F(0), F(back))
    members = tuple(with_drying(member, dries, wall.flange) for member in wall.members)
    return replace(problem, walls=(replace(wall, members=members),))


HAND = [
    # independent: on the plane it lies at most 1/16 back when dry
    (("0", "0", "0"), "1/16", 0, "leave"),
    # independent: 1/16 back at 90 would lie 3/32 back when dry; one thin strip of 1/8 there stands 1/16 proud
    (("0", "0", "-1/16"), "1/32", 7, "strip"),
    # independent: 1/32 back at 90 and 1/32 to come is just 1/16
    (("0", "0", "-1/32"), "1/32", 0, "leave"),
    # independent: 1/64 more and it is not; a strip of 1/8 would stand 3/32 proud: a pass first, 9 + 1.5 + 7
    (("0", "0", "-1/32"), "3/64", F(35, 2), "plane + strip"),
    # independent: 1/16 proud above the flange stays: it may stand so today and lies at 1/64 when dry
    (("0", "1/16", "0"), "3/64", 0, "leave"),
    # independent: 3/16 proud is still planed by two passes, 9 + 2 x 1.5: today counts too
    (("0", "3/16", "0"), "1/16", 12, "plane"),
    # independent: 1/64 back at the pan and 1/32 to come is 3/64: inside the band, no pan beside it
    (("-1/64", "0", "0"), "1/32", 0, "leave"),
    # independent: beside the pan the gap of 3/64 when dry is shimmed, 1 minute; of 1/32 it is not
    (("-1/64", "0", "0"), "1/32", 1, "leave + shim"),
    (("0", "0", "0"), "1/32", 0, "leave + no shim"),
    # independent: a pass at the pan and the plate's edge, 9 + 1.5 + 8, and the shim of what dries behind it
    (("1/16", "0", "0"), "1/64", F(39, 2), "plane + shim"),
    # independent: at the pan a stud with over 1/32 to come is not planed; sister 22
    (("1/16", "0", "0"), "3/64", 22, "sister"),
]


@pytest.mark.parametrize(("offsets", "back", "minutes", "name"), HAND)
def test_one_wet_stud_costs_what_is_worked_by_hand(
    offsets: tuple[str, str, str], back: str, minutes: Fraction, name: str
) -> None:
    problem = wet_stud(offsets, back, beside_pan="shim" in name)
    if name == "sister":  # nothing to cut at the plate: it must be the face that cannot be planed
        (wall,) = problem.walls
        old = replace(wall.members[0], plane_depth_sistered=(F(1, 2),) * 3)
        problem = replace(
            problem, walls=(replace(wall, members=(old,)),), prices=_free_to_sister(problem.prices)
        )
    plan = solve(problem)
    assert verify(problem, plan) == []
    assert plan.minutes - 6 == minutes
    (member,) = plan.members
    done = name.removesuffix(" + shim").removesuffix(" + no shim")
    assert member.recipe.name == done.replace("sister", "plane + sister")
    assert member.recipe.flange_shim is (name.endswith("+ shim"))


def _free_to_sister(prices: Prices) -> Prices:
    """No plate edge, set-up or pass to pay: what is left is the sister's own 22 minutes."""
    return replace(prices, plate_edge=F(0), plane_setup=F(0), plane_pass=F(0))


def test_a_stud_with_nothing_to_go_back_changes_nothing() -> None:
    """independent: the same room with and without, figure by figure."""
    given = survey(OFFSETS), facts(prices=minutes_only()), SEAT, play_demands()
    bare = build_problem(*given)
    dry = build_problem(*given, "in", (Dries("B2"), Dries("L1")))
    assert dry.problem == bare.problem
    assert dry.findings == bare.findings
    assert solve(dry.problem) == solve(bare.problem)


def test_a_new_face_does_not_go_back_with_the_old_stud() -> None:
    # independent: held to a sister the wet stud costs what a dry one does, 22
    problem = wet_stud(("0", "-1/4", "0"), "1/16", held="sister")
    plan = solve(problem)
    assert plan.minutes - 6 == 22
    assert plan.members[0].recipe.name == "sister"
    assert verify(problem, plan) == []


def wall_of_three(faces: tuple[str, str, str], back: str, flatness: Any = RULE) -> FramingProblem:
    """Three studs 8 apart, read once each above the flange; the middle one still to dry. Strips of 1/32."""
    members = tuple(
        Member(
            f"B{n + 1}",
            F(8 * n),
            (F(face),),
            (F(0),),
            (F(0),),
            stock=(0,),
            dry_stock_ok=(True,),
            goes_back=F(back) if n == 1 else F(0),
        )
        for n, face in enumerate(faces)
    )
    wall = WallProblem("B", (F(48),), (False,), members, t_low=F(0), t_high=F(0))
    return FramingProblem((wall,), stock=(StockItem("1/32", F(1, 32)),), flatness=flatness)


@pytest.mark.parametrize(
    ("faces", "back", "strips"),
    [
        # independent: B2 lies 1/32 under a straightedge over its neighbours, which may be 1/16
        (("1/32", "0", "1/32"), "0", 0),
        # independent: 1/32 and 1/32 to come is just 1/16
        (("1/32", "0", "1/32"), "1/32", 0),
        # independent: with 3/64 to come it is 5/64: one strip on B2
        (("1/32", "0", "1/32"), "3/64", 1),
        # independent: a dry stud with wet wood beside it: its neighbours may only come down to it
        (("0", "0", "0"), "1/16", 0),
    ],
)
def test_the_straightedge_counts_with_the_wet_stud_gone_back(
    faces: tuple[str, str, str], back: str, strips: int
) -> None:
    problem = wall_of_three(faces, back)
    plan = solve(problem)
    assert verify(problem, plan) == []
    assert [member.touched for member in plan.members] == [False, bool(strips), False]


def test_up_the_stud_itself_nothing_moves() -> None:
    """independent: one piece that goes back keeps its shape."""
    flat = WallFlatness([F(0), F(8), F(16)], [F(2), F(14), F(26)], RULE)
    faces = [[F(0)] * 3, [F(0), F(-1, 16), F(0)], [F(0)] * 3]
    rows = flat.violated(faces, back=[F(0), F(1, 16), F(0)])
    assert {row.line.direction for row in rows} == {"along", "across"}
    assert all(row.limit == F(1, 16) - row.eaten for row in rows)
    # independent: along a height the whole of it; a sloping line is longer than the straightedge
    assert {row.line.direction: row.eaten == F(1, 16) for row in rows} == {"along": True, "across": False}
    assert flat.violated(faces) == []


def test_more_than_the_band_is_to_be_dried_first_and_planned_as_read() -> None:
    dries = (
        Dries("B2", F(1, 64), F(5, 64), goal=15.1),
        Dries("B3", F(0), F(1, 16)),
        Dries("B9", F(1, 8), F(1, 4)),
    )
    given = survey(OFFSETS), facts(prices=minutes_only()), SEAT, play_demands()
    built = build_problem(*given, "in", dries)
    (found,) = [each for each in built.findings if each.code == "stud-dry-first"]
    assert (found.where, found.severity) == ("B2", Severity.ACT)
    assert '1/64" to 5/64"' in found.found
    assert found.next_step == "Let B2 dry to 15.1 % and read it again before it is trued."
    back = {m.name: m.goes_back for wall in built.problem.walls for m in wall.members}
    assert (back["B2"], back["B3"]) == (F(0), F(1, 16))


def test_a_plan_that_cannot_be_names_the_stud_that_goes_back() -> None:
    problem = wet_stud(("0", "0", "-1/16"), "1/32", stock=(), sister=None, replace=None, held="leave")
    assert solve(problem).state == "none"
    told = " ".join(explain(problem).demands)
    assert "B1" in told
    assert "goes back" in told
    dry = wet_stud(("0", "0", "-1/16"), "0", stock=(), sister=None, replace=None, held="leave")
    assert solve(dry).state == "proved"


def test_the_reason_says_what_is_left_of_the_sixteenth() -> None:
    problem = wet_stud(("0", "0", "-1/16"), "3/64")
    said = reasons(solve(problem).members[0], problem)
    assert any('0" to 3/64" as it dries: now it may lie 1/64" behind' in each for each in said)
    assert any('1/64" back may stay' in each for each in said)


# Judged once it is dry ----------------------------------------------------------------------------------


def grid(faces: tuple[str, str, str], read: bool = True) -> FaceGrid:
    return FaceGrid(
        "B",
        ("B1", "B2", "B3"),
        (F(0), F(8), F(16)),
        (F(48),),
        tuple((F(face),) for face in faces),
        read=((read,),) * 3,
    )


def judged(faces: tuple[str, str, str], least: str, most: str, new: bool = False, **more: Any) -> list[Check]:
    dries = {"B2": Dries("B2", F(least), F(most), **more)}
    return list(dried_checks(grid(faces), [False, new, False], dries, RULE))


@pytest.mark.parametrize(
    ("face", "least", "most", "verdict"),
    [
        ("0", "0", "1/16", Verdict.PASS),  # independent: all of 1/16 and no more
        ("0", "1/64", "5/64", Verdict.NOT_SHOWN),  # independent: 1/64 back holds, 5/64 does not
        ("-1/32", "3/64", "5/64", Verdict.FAIL),  # independent: 5/64 back at the least
        ("1/16", "3/64", "1/8", Verdict.PASS),  # independent: 1/16 proud, 1/16 back at the most
    ],
)
def test_a_stud_is_judged_over_all_that_drying_may_do(
    face: str, least: str, most: str, verdict: Verdict
) -> None:
    stud = judged(("0", face, "0"), least, most)[0]
    assert (stud.code, stud.verdict) == ("dries-B2", verdict)
    assert bool(stud.next_step) is (verdict is not Verdict.PASS)


@pytest.mark.parametrize(
    ("faces", "least", "most", "verdict", "widest"),
    [
        # independent: 8 and 8 in apart under 24 in: the gap is the middle one below its neighbours
        (("0", "0", "0"), "0", "1/16", Verdict.PASS, '1/16"'),
        (("0", "0", "0"), "0", "5/64", Verdict.NOT_SHOWN, '5/64"'),
        (("1/16", "0", "1/16"), "1/64", "1/32", Verdict.FAIL, '3/32"'),
        (("0", "1/32", "0"), "0", "5/64", Verdict.PASS, '3/64"'),
    ],
)
def test_a_wall_is_judged_over_all_that_drying_may_do(
    faces: tuple[str, str, str], least: str, most: str, verdict: Verdict, widest: str
) -> None:
    flat = judged(faces, least, most)[1]
    assert (flat.code, flat.verdict, flat.value) == ("dries-flat-B-24", verdict, widest)


def test_a_new_face_passes_and_an_unknown_depth_shows_nothing() -> None:
    (new,) = judged(("0", "0", "0"), "0", "1/8", new=True)
    assert new.verdict is Verdict.PASS
    stud, flat = judged(("0", "0", "0"), "0", "0", known=False)
    assert stud.verdict is flat.verdict is Verdict.NOT_SHOWN
    assert "Measure B2" in stud.next_step
    assert "Measure B2" in flat.next_step


def test_what_was_not_read_is_not_shown_to_stay_flat() -> None:
    dries = {"B2": Dries("B2", F(0), F(1, 64))}
    _, flat = dried_checks(grid(("0", "0", "0"), read=False), [False] * 3, dries, RULE)
    assert flat.verdict is Verdict.NOT_SHOWN
    assert "Read every height" in flat.next_step


def test_nothing_to_dry_is_nothing_to_judge() -> None:
    assert dried_checks(grid(("0", "0", "0")), [False] * 3, {}, RULE) == ()
    assert list(dry_first((), ["B1"])) == []


# Held against a general solver --------------------------------------------------------------------------


@pytest.mark.parametrize("seed", deep([2, 6, 13], [2, 4, 6, 8, 10, 13]))
def test_a_damp_room_costs_what_cp_sat_says_and_touches_the_fewest_studs(seed: int) -> None:
    """independent: the model of [contract 12], written apart from the planner."""
    problem = damp(room(seed, studs=6, heights=4), seed)
    assert any(member.goes_back for wall in problem.walls for member in wall.members)
    done = compare(problem, ["CP-SAT"], limit_s=90.0, ties=True)
    assert done.wrong == [], done.plan.state
    assert done.closed


def test_a_damp_room_whose_straightedge_binds_is_not_contradicted() -> None:
    done = compare(damp(tight(room(302, studs=6, heights=6)), 302), ["CP-SAT"], limit_s=20.0, ties=True)
    assert done.wrong == [], done.plan.state


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*.toml")), ids=lambda path: path.stem)
def test_no_bundled_job_is_held_tighter(path: Path) -> None:
    """Their plans are those of before, the problem the same; the wet corner's studs are to be dried first."""
    facts_of_it = read_job(path).facts()
    studs = {name for wall in facts_of_it["survey"].walls.values() for name in wall.studs}  # type: ignore[attr-defined]
    dries = [each for each in dries_of(facts_of_it) if each.stud in studs]
    assert not [each for each in dries if each.held]
    assert bool(dries) is (path.stem == "wet-corner")
