"""Do not cover yet, for the patch: what stays under it, and what is still missing before it is laid."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from undertile.findings import Severity
from undertile.floor.result import FloorResult
from undertile.job import Job, plan, read_job
from undertile.job.stages import STAGES

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SOURCES = (
    '[wood.leak.pours.bucket]\nwhen = "2026-03-05 16:00"\ngallons = 5\nminutes = 15\nbelow = "dry"\n'
    "[wood.leak.not_here]\n"
    + "".join(f'{each} = {{ reason = "made new", out = "2026-03-02" }}\n' for each in ("pan", "enclosure"))
    + '"roof or window" = { reason = "no window" }\nneighbour = { reason = "a house alone on its lot" }\n'
)
JOISTS = "J1 soft corner: not mended; J2 notch pipe fails and waits for an engineer; subfloor fails; "
"""independent: the example's own decay, its notch past a sixth, its panel under L/360."""
SOUND = (
    (
        'J1 = { at = "3-3/4", ',
        'J1 = { at = "3-3/4", sister = { width = "1-1/2", depth = "7-1/4", side = "away from the wall", '
        'fastened = "2026-03-06" }, ',
    ),
    ("J2 = { at", 'J2 = { engineer = { carries = "yes", by = "Eli", when = "2026-03-06" }, at'),
    ("J3 = { at", 'J3 = { grade = "no 1", at'),
    ("[floor.patch]\n", '[floor.patch]\nupper = { thickness = "19/32", stuff = "plywood" }\n'),
    ('bearing_on = "wood or metal"\n', 'bearing_on = "wood or metal"\nbearing = "3"\n'),
)
"""J1 mended, an engineer's word on J2, J3's stamp found, a second layer chosen, bearings measured."""
OPEN = (
    (
        'photos = { "wall B" = "2026-03-02", "wall L" = "2026-03-02" }',
        "photos = { "
        + ", ".join(f'"{each}" = "2026-03-06"' for each in ("wall L", "wall B", "wall R", "floor"))
        + " }",
    ),
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
        f"Do not cover yet, do not lay the patch: {JOISTS}not shown to carry it: J1, J2 and J3; not read "
        "under it: J1, J2 and J3; 4 sources of water not ruled out; photo of the floor missing; inspection "
        "open. Cut it and fit it dry meanwhile."
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
    assert "; joist J2 at 20: 20.9 %" in found.says
    assert "J4" not in found.says


def test_it_may_be_laid_once_all_under_it_is_dry_and_the_gate_asks_for_nothing_more() -> None:
    """independent: walls that are wet still do not lie under the patch."""
    found = covers(joists(J1=DRY, J2=DRY, J3=DRY), swaps=(*OPEN, *SOUND))
    assert found.holds == ()
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


@pytest.mark.parametrize(
    ("at", "told"),
    [
        (0, "the patch: J1 soft corner: not mended; not shown to carry it: J1."),
        (1, "the patch: J2 notch pipe fails and waits for an engineer; not shown to carry it: J2."),
        (2, "the patch: not shown to carry it: J3."),
        (3, "the patch: subfloor fails."),
        (4, "the patch: not shown to carry it: J1 and J3."),
    ],
)
def test_dry_is_not_enough_each_thing_not_sound_keeps_it_open(at: int, told: str) -> None:
    """independent: convention 5.4, dry and sound; one of five things settled is taken back."""
    swaps = (*OPEN, *(each for number, each in enumerate(SOUND) if number != at))
    found = covers(joists(J1=DRY, J2=DRY, J3=DRY), swaps=swaps)
    assert not found.may
    assert told in found.says


@pytest.mark.parametrize(
    "half",
    [
        'engineer = { carries = "yes", by = "Eli" }',
        'engineer = { carries = "yes", when = "2026-03-06" }',
        'engineer = { by = "Eli", when = "2026-03-06", says = "seen" }',
        'engineer = { carries = "no", by = "Eli", when = "2026-03-06" }',
    ],
)
def test_half_an_engineers_word_lifts_nothing(half: str) -> None:
    """independent: convention 6.2 asks for a person's name; the brief for the day too."""
    swaps = (*OPEN, SOUND[0], ("J2 = { at", f"J2 = {{ {half}, at"), *SOUND[2:])
    found = asked(joists(J1=DRY, J2=DRY, J3=DRY), swaps=swaps)
    assert found.covers is not None
    assert not found.covers.may
    assert [each.severity for each in found.findings if each.code == "joist-engineer"] == [Severity.ACT]


def test_a_sister_without_a_day_is_a_plan_and_one_too_short_mends_nothing() -> None:
    """independent: soft from 4 to 13 asks for 0 to 61 (48 past it, practice-decay)."""
    for old, new, step in (
        (', fastened = "2026-03-06"', "", "fasten the sister typed beside it"),
        (', fastened = "2026-03-06"', ', fastened = "2026-03-06", length = "60"', "too short"),
        (', fastened = "2026-03-06"', ', fastened = "2026-03-06", length = "61"', ""),
    ):
        swaps = (*OPEN, (SOUND[0][0], SOUND[0][1].replace(old, new)), *SOUND[1:])
        found = asked(joists(J1=DRY, J2=DRY, J3=DRY), swaps=swaps)
        steps = [each.next_step for each in found.findings if each.code == "joist-soft"]
        assert len(steps) == bool(step)
        assert all(step in each for each in steps)


def test_a_stop_of_the_floor_holds_it_until_a_person_lifts_it() -> None:
    """independent: soft at its bearing is a stop (docs/methods/joists.md); the lift is convention 6.2."""
    at_bearing = ('corner = { start = "4"', 'corner = { start = "0"')
    swaps = (*OPEN, *SOUND, at_bearing)
    assert "J1 soft corner: a stop that nobody lifted" in covers(swaps=swaps).says
    lift = (
        '\n[safety.lifted.one]\nstop = "joist-decay-bearing"\nwhere = "J1 soft corner"\nby = "Kim"\n'
        'reason = "shored"\n[floor.loads.on_top]\n'
    )
    lifted = covers(swaps=(*swaps, ("[floor.loads.on_top]\n", lift)))
    assert "a stop that nobody lifted" not in lifted.says
    assert [each.kind for each in lifted.holds if each.joist == "J1"] == ["not shown"]


def test_mold_to_be_contained_holds_it_too() -> None:
    """published: over 100 sq ft (EPA, mold remediation); convention 6.2."""
    mold = "[safety.mold]\nwall = { square_feet = 101 }\n[floor.loads.on_top]\n"
    found = covers(swaps=(*OPEN, *SOUND, ("[floor.loads.on_top]\n", mold)))
    assert "mold: a stop that nobody lifted" in found.says


def blocks(sister: str) -> tuple[Any, Any]:
    swaps = (SOUND[0][0], f'J1 = {{ at = "3-3/4", {sister}')
    found = asked(swaps=(swaps,))
    return [(str(length), count) for length, count in found.supplies.blocks], found.supplies.later


def test_blocks_are_cut_to_the_sister_that_stands() -> None:
    """independent, by hand: 3-3/4 and 19-1/2 apart, 1-1/2 thick: 14-1/4 clear; less a sister, 12-3/4."""
    stands = 'sister = {{ width = "1-1/2", depth = "7-1/4"{more} }}, '
    away, toward = ', side = "away from the wall"', ', side = "toward the wall"'
    bay = ("59/4", 2)  # between J2 and J3: 16-1/4 less 1-1/2
    assert blocks(stands.format(more=away)) == ([("51/4", 2), bay], ())
    assert blocks(stands.format(more=toward)) == ([("57/4", 2), bay], ())
    assert blocks(stands.format(more="")) == ([bay], ((("J1",), 2),))
    assert blocks("") == ([bay], ((("J1",), 2),))  # a sister is asked for, and nobody knows where yet


def test_without_a_word_of_water_what_is_not_sound_still_holds_it() -> None:
    text = (EXAMPLES / "wet-corner.toml").read_text("utf-8")
    dry = text[: text.index("# Water ---")] + text[text.index("# Floor ---") :]
    job = read_job(dry.replace("[floor.patch]\n", BAD).encode())
    found = plan(job, [stage for stage in STAGES if stage.key in ("wood", "floor")]).results["floor"]
    assert found.layouts
    assert found.covers is not None
    assert not found.covers.may
    assert JOISTS in found.covers.says
    assert "read" not in found.covers.says
