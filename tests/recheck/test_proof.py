"""The proof of the bundled room, worked again with a pencil."""

from __future__ import annotations

import doctest
import hashlib
from fractions import Fraction as F
from pathlib import Path

from tests.recheck.cast import example, example_again, set_reading
from undertile.findings import Verdict
from undertile.recheck.proof import Proof, digest_lines, short_digest


def proof() -> Proof:
    found = example().judged(example_again()).proof
    assert found is not None
    return found


def test_the_tolerance_is_the_published_one_of_the_tile() -> None:
    """published: ANSI A108.02 4.2.2 for an edge of 23-5/8, 15 in or more; UFGS 1/8 in 8 ft for studs."""
    it = proof().tolerance
    assert (it.source, it.plumb_source) == ("a108.02-4.2.2", "ufgs-thinset-plumb")
    assert (it.long_length, it.long_limit) == (120, F(1, 8))
    assert (it.short_length, it.short_limit) == (24, F(1, 16))
    assert (it.plumb_limit, it.plumb_over) == (F(1, 8), 96)


def test_the_back_wall_by_hand() -> None:
    """independent. Back wall, plane at the nominal 6-0; offsets = 6 - reading, in 32nds:

        height   B1 (8)   B2 (24)   B3 (40)   B4 (56)
        74          0         0         0         0
        50          0        +2        -1         0
        26          0        +1         0         0
        2           0         0         0         0

    10 ft straightedge. Up B3: it bridges from 26 to 74, over 50: 0 - (-1) = 1. Along 50: it rests on B2
    (+2) and B4 (0); at B3, halfway, it stands at +1, the wood at -1: 2, that is 1/16. Slanting B1 at 2 to
    B4 at 74: 0, +1, -1, 0; it rests on B2 and B4, at B3 it stands at 1/2: 1-1/2, that is 3/64. The widest
    is 1/16, at B3 at 50, under 1/8: pass. 2 ft straightedge: laid on, 1/32 at most, under 1/16: pass."""
    wall = next(each for each in proof().walls if each.wall == "B")
    long, short = wall.gaps
    assert (long.length, long.widest, long.where, long.way) == (120, F(1, 16), "B3 at 50", "along")
    assert (long.by, long.verdict) == ("readings", Verdict.PASS)
    assert (short.length, short.widest, short.by, short.verdict) == (
        24,
        F(1, 32),
        "straightedge",
        Verdict.PASS,
    )
    offs = {(r.stud, r.height): r.off for r in wall.readings}
    assert offs["B2", F(50)] == F(1, 16)
    assert offs["B2", F(26)] == F(1, 32)
    assert offs["B3", F(50)] == -F(1, 32)
    assert sum(1 for r in wall.readings if r.standing == "read again") == 12
    assert sum(1 for r in wall.readings if r.standing == "first survey") == 4
    assert (wall.verdict, wall.by, wall.date) == (Verdict.PASS, "Ines", "12 June, 9 am")


def test_the_uncertainty_of_the_widest_gap_by_hand() -> None:
    """independent: at B3 the gap is half of B2 plus half of B4 less B3, each read to 1/32: 1/32 x sqrt(1/4
    + 1/4 + 1) = 0.03827. Twice that is 0.0765, more than the 1/16 between gap and limit: said to be
    close."""
    long = next(each for each in proof().walls if each.wall == "B").gaps[0]
    assert abs(long.sigma - 0.038273) < 1e-6
    assert long.close


def test_what_was_not_shown_says_what_shows_it() -> None:
    found = proof()
    assert found.verdict is Verdict.NOT_SHOWN
    assert not found.failed
    steps = {step for _, step in found.not_shown}
    assert "Read R3 at 50 again." in steps
    assert any("straightedge up wall R, over every stud" in step for step in steps)
    assert any("pinch sticks at 32" in step for step in steps)
    assert {wall.verdict for wall in found.walls if wall.wall != "R"} == {Verdict.PASS}


def test_minutes_of_the_studs_ticked_beside_those_planned() -> None:
    """independent: two passes 9 + 2 x 1.5 = 12 each for B2 and R2, and 1 for R2's shim; one strip 7
    (convention 4.3)."""
    done = {each.stud: (each.planned_minutes, each.actual_minutes) for each in proof().done}
    assert done == {"B2": (12, 14), "B4": (7, 9), "R2": (13, 16)}


def test_the_digest_is_of_the_readings_as_typed() -> None:
    """independent: the lines written out here, hashed by the standard library."""
    room = example()
    found = room.judged(example_again())
    lines = digest_lines(room._with(example_again())["recheck"], found.faces)
    assert lines[0] == "nominal L 6"
    assert "face B2 50 read again 5-15/16" in lines
    assert "face R3 50 missing" in lines
    assert "face L2 26 first survey 5-15/16" in lines
    assert "width back 1 2 60-1/4 sticks" in lines
    assert "straightedge back-up B up 24 1/32 B2 at 50" in lines
    assert found.proof is not None
    assert found.proof.digest == hashlib.sha256("\n".join(lines).encode()).hexdigest()
    other = room.judged(
        set_reading(example_again(), "B2", "50", "5-30/32")
    ).proof  # the same length, typed otherwise
    assert other is not None
    assert other.digest != found.proof.digest
    assert short_digest("0123456789abcdef0123") == "0123 4567 89ab cdef"


def test_a_small_tile_is_judged_by_its_own_rule() -> None:
    """from memory, not re-read: ANSI A108, all edges under 15 in: 1/4 in 10 ft and 1/16 in 12 in."""
    import copy

    from tests.recheck.cast import planned

    table = copy.deepcopy(example().table)
    table["framing"]["finish"]["tile_edge"] = "6"
    found = planned(table).judged(example_again()).proof
    assert found is not None
    it = found.tolerance
    assert (it.long_limit, it.short_length, it.short_limit) == (F(1, 4), 12, F(1, 16))


def test_the_worked_example_of_the_page_runs() -> None:
    page = Path(__file__).resolve().parents[2] / "docs" / "methods" / "recheck.md"
    result = doctest.testfile(str(page), module_relative=False, encoding="utf-8")
    assert (result.attempted, result.failed) == (4, 0)
