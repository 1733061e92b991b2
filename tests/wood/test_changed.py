"""A photo or an inspection of before what was done behind a surface shows none of it.

independent: the honest job of test_honest_job is open, with days read off by eye: supply mended 03-05 14:00,
plate of wall B cut out 03-05 and put in new 03-11, subfloor cut out 03-10, J1's sister fastened 03-11. One
day of proof is changed at a time.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.test_honest_job import (
    covered,
    dried,
    example,
    floored,
    merged,
    put_back,
    ruled_out,
    told,
)
from undertile.packet.told import told as spanish
from undertile.packet.words import Words
from undertile.wood.gate import Missing
from undertile.wood.proof import Since


def done(**cover: Any) -> dict[str, Any]:
    job = put_back(covered(floored(dried(ruled_out(example())))))
    return merged(job, {"wood": {"cover": cover}})


def lacks(job: dict[str, Any]) -> tuple[Missing, ...]:
    return told(job).gate.missing


@pytest.mark.parametrize(
    ("surface", "day", "since"),
    [
        ("wall L", "2026-03-02", "mending the supply pipes (2026-03-05 14:00)"),
        ("wall L", "2026-03-05 13:59", "mending the supply pipes (2026-03-05 14:00)"),
        ("wall L", "2026-03-05 14:00", ""),
        ("wall L", "2026-03-05", ""),  # the same day, and no hour
        ("wall R", "2026-03-04", "mending the supply pipes (2026-03-05 14:00)"),
        ("wall B", "2026-03-10", "putting in plate B at 4, new (2026-03-11)"),
        ("wall B", "2026-03-11", ""),
        ("floor", "2026-03-09", "fastening the sister of J1 (2026-03-11)"),
        ("floor", "2026-03-10", "fastening the sister of J1 (2026-03-11)"),
        ("floor", "2026-03-11", ""),
    ],
)
def test_a_photo_counts_from_the_newest_change_behind_its_surface(surface: str, day: str, since: str) -> None:
    found = lacks(done(photos={surface: day}))
    assert [(each.kind, each.where) for each in found] == ([("photo", surface)] if since else [])
    for each in found:
        assert each.what == f"of {day}, before {since}: it does not show that"
        assert each.next_step == "Take it again, square on, a tape in it."


@pytest.mark.parametrize(
    ("day", "opens"), [("2026-03-04", False), ("2026-03-10", False), ("2026-03-11", True)]
)
def test_an_inspection_counts_from_the_newest_change_of_all(day: str, opens: bool) -> None:
    found = lacks(done(inspected=day))
    assert [each.kind for each in found] == ([] if opens else ["inspection"])
    if not opens:
        assert f"of {day}, before " in found[0].what
        assert "2026-03-11" in found[0].what


def test_a_patch_cut_out_and_a_pan_torn_out_later_ask_for_the_floor_again() -> None:
    late = done()
    late["wood"]["points"]["floor-6-6"]["out"] = "2026-03-22"
    assert ("photo", "floor") in {(each.kind, each.where) for each in lacks(late)}
    torn = merged(done(), {"wood": {"leak": {"not_here": {"pan": {"reason": "worn", "out": "2026-03-22"}}}}})
    assert {("photo", "floor"), ("inspection", "rough inspection")} <= {
        (each.kind, each.where) for each in lacks(torn)
    }
    assert ("photo", "wall R") not in {(each.kind, each.where) for each in lacks(torn)}


def test_a_day_that_has_not_come_changes_nothing_yet() -> None:
    """Independent: what is not done yet is behind no photo; the day itself is asked about."""
    odd = done()
    odd["wood"]["points"]["plate-B-4-new"]["new"] = "2026-05-01"
    assert "photo" not in {each.kind for each in lacks(odd)}


def test_the_opening_is_by_the_day_whatever_the_hour() -> None:
    assert not Since("2026-03-02 10:00", opened=True).early("2026-03-02 09:00")
    assert Since("2026-03-02 10:00", opened=True).early("2026-03-01 23:00")
    assert not Since("", opened=False).early("2026-03-01")


def test_what_is_said_has_its_spanish() -> None:
    (found,) = lacks(done(photos={"wall B": "2026-03-10"}))
    assert spanish(found.what, Words("es")).startswith("del 2026-03-10, antes de poner ")
    assert "no lo muestra" in spanish(found.what, Words("es"))
    assert spanish(found.next_step, Words("es")).startswith("Tómela otra vez")
