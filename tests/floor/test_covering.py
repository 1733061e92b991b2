"""Do not cover yet, for the patch: what stays under it, and what is still missing before it is laid."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from undertile.floor.result import FloorResult
from undertile.job import Job, plan, read_job
from undertile.job.stages import STAGES

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SOURCES = (
    "[wood.leak.not_here]\n"
    + "".join(f'"{each}" = {{ reason = "x" }}\n' for each in ("drain", "pan", "enclosure", "roof or window"))
    + 'neighbour = { reason = "a house alone on its lot" }\n'
)
OPEN = (
    ('photos = { "wall B"', 'photos = { "floor" = "2026-03-02", "wall R" = "2026-03-02", "wall B"'),
    ('inspection = "unknown"', 'inspection = "not asked for"'),
    ('[wood.leak.not_here.neighbour]\nreason = "a house alone on its lot"\n', SOURCES),
)
"""Everything but moisture settled."""
DRY = 'shown = { "1" = "11", "3" = "11" }\nawl = { "1" = "0" }'
"""Dry on two visits four days apart, and sound (convention 5.4)."""


def point(key: str, name: str, shown: str, place: str = 'along = "20"', member: str = "joist") -> str:
    return (
        f'[wood.points.{key}]\nmember = "{member}"\nname = "{name}"\n{place}\nmaterial = "lumber"\n'
        f'species = "Douglas-fir"\nthickness = "1-1/2"\nopen_faces = "both"\n{shown}\n\n'
    )


def asked(*more: str, swaps: tuple[tuple[str, str], ...] = ()) -> FloorResult:
    """The wet corner's floor with points added before its equipment."""
    text = (EXAMPLES / "wet-corner.toml").read_text("utf-8")
    for old, new in (("[wood.equipment]", "".join(more) + "[wood.equipment]"), *swaps):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    job: Job = read_job(text.encode())
    rebuild = plan(job, [stage for stage in STAGES if stage.key in ("wood", "floor")])
    found: FloorResult = rebuild.results["floor"]
    return found


def covers(*more: str, swaps: tuple[tuple[str, str], ...] = ()) -> Any:
    found = asked(*more, swaps=swaps).covers
    assert found is not None
    return found


def joists(**shown: str) -> str:
    return "".join(point(f"under-{name}", name, text) for name, text in shown.items())


def test_a_joist_nobody_read_is_not_a_dry_one() -> None:
    """independent: the patch runs from wall L to 35-3/4, the joists stand at 3-3/4, 19-1/2 and 35-3/4."""
    found = covers()
    assert (found.may, found.under, found.unread) == (False, (), ("J1", "J2", "J3"))
    assert found.says == (
        "Do not cover yet, do not lay the patch: not read under it: J1, J2 and J3; 4 sources of water not "
        "ruled out; photo of the floor missing; inspection open. Cut it and fit it dry meanwhile."
    )


def test_a_wet_joist_under_it_is_named_with_its_reading_and_one_past_it_is_not() -> None:
    """independent: J2 lies under the patch, J4 at 51-5/8 does not, nor does J3 at 60 out of 0 to 30."""
    wet = 'shown = { "1" = "24", "2" = "23", "3" = "21" }'
    found = covers(
        point("a", "J2", wet), point("b", "J4", wet), point("c", "J3", wet, 'along = "60"'), joists(J1=DRY)
    )
    assert found.under == ("a", "under-J1")
    assert found.wet == ("joist J2 at 20",)
    assert found.unread == ("J3",)
    assert "lay the patch: joist J2 at 20: 20.9 %" in found.says
    assert "J4" not in found.says


def test_it_may_be_laid_once_all_under_it_is_dry_and_the_gate_asks_for_nothing_more() -> None:
    """independent: walls that are wet still do not lie under the patch."""
    found = covers(joists(J1=DRY, J2=DRY, J3=DRY), swaps=OPEN)
    assert found.may, found.says
    assert found.says.startswith("The patch may be laid")
    assert (found.wet, found.unread, found.sources, found.also) == ((), (), 0, ())


@pytest.mark.parametrize(("at", "told"), [(0, "photo"), (1, "inspection"), (2, "4 sources of water")])
def test_each_thing_the_gate_asks_for_keeps_it_shut(at: int, told: str) -> None:
    """independent: one settled thing taken back."""
    swaps = tuple(each for number, each in enumerate(OPEN) if number != at)
    found = covers(joists(J1=DRY, J2=DRY, J3=DRY), swaps=swaps)
    assert not found.may
    assert told in found.says


def test_a_sister_counts_as_its_joist_and_a_joist_nobody_entered_may_lie_there() -> None:
    """independent: convention 4.5, the unknown is the cautious case."""
    found = covers(
        point("a", "J2 sister", DRY), point("b", "Jx", 'shown = { "3" = "20" }'), joists(J1=DRY, J3=DRY)
    )
    assert set(found.under) == {"a", "b", "under-J1", "under-J3"}
    assert found.unread == ()
    assert found.wet == ("joist Jx at 20",)


def test_what_is_cut_out_is_not_covered_and_what_lies_below_it_is() -> None:
    """independent: one layer on the joists; what hangs under them at 12, 12 stays; 50, 12 is past it."""
    below = 'x = "12"\ny = "12"'
    found = covers(
        point("a", "ceiling below", 'shown = { "3" = "22" }', below, "other"),
        point("b", "ceiling below", 'shown = { "3" = "22" }', 'x = "50"\ny = "12"', "other"),
    )
    assert found.under == ("a",)


def test_a_second_layer_covers_the_old_lower_one_past_the_hole() -> None:
    """independent: seams 6 apart (practice-patch): the upper layer ends past 30, the lower one stays."""
    one = 'lower = { thickness = "23/32", stuff = "plywood" }'
    two = (one, one + '\nupper = { thickness = "19/32", stuff = "plywood" }')
    wet = 'layer = 2\nshown = { "3" = "22" }'
    more = (
        point("in", "", wet, 'x = "12"\ny = "12"', "subfloor"),
        point("ring", "", wet, 'x = "12"\ny = "33"', "subfloor"),
    )
    found = covers(*more, swaps=(two, ("[floor.patch]\n", BAD)))
    assert found.under == ("ring",)


BAD = '[floor.patch]\nbad = { corner = { left = "0", right = "30", back = "0", front = "30" } }\n'


def test_without_a_word_of_water_nothing_is_said() -> None:
    text = (EXAMPLES / "wet-corner.toml").read_text("utf-8")
    dry = text[: text.index("# Water ---")] + text[text.index("# Floor ---") :]
    job = read_job(dry.replace("[floor.patch]\n", BAD).encode())
    found = plan(job, [stage for stage in STAGES if stage.key in ("wood", "floor")]).results["floor"]
    assert found.layouts
    assert found.covers is None
