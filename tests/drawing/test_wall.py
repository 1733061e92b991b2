"""A wall in elevation: what stands on which stud at which height."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.drawing.cast import SMALLEST, F, doubtful, example, job, rebuild
from undertile.cli.what_if import as_if
from undertile.drawing import Scene, sheets
from undertile.drawing.labels import words
from undertile.drawing.scene import Circle, Hatch, Poly, Strokes, Text
from undertile.drawing.walldata import room_of, wall_view
from undertile.framing.plan import FramingPlan
from undertile.job import Rebuild, plan


def wall(made: Rebuild, name: str, **more: object) -> Scene:
    return next(sheet.scene for sheet in sheets(made, **more) if sheet.key == f"wall-{name}")  # type: ignore[arg-type]


def said(scene: Scene) -> list[str]:
    return [text.text for text in scene.texts()]


def near(scene: Scene, x: float, y: float, room: float = 6.0) -> list[str]:
    """Bold texts that stand at a place of the wall."""
    return [
        t.text
        for t in scene.items
        if isinstance(t, Text) and t.bold and abs(t.box.left - x) < room and abs(t.at[1] - y) < room / 2
    ]


@pytest.fixture
def mended() -> Rebuild:
    """The bundled alcove with both planted slips mended."""
    return example("old-alcove")


def test_the_room_worked_by_hand_is_drawn_as_worked() -> None:
    # published: convention 8. B2 along 24 planed two passes at 48; B4 along 56 one strip at 48
    scene = wall(example("hand"), "B")
    assert near(scene, 24, 48) == ["-1/8"]
    assert near(scene, 56, 48) == ["+1/16"] or near(scene, 56, 48) == ["+1/8"]
    assert not near(scene, 24, 90)
    crossed = [item for item in scene.items if isinstance(item, Hatch) and item.layer == "TAKE-OFF"]
    (hatch,) = (item for item in crossed if max(y for _, y in item.points) > 0)  # the other is the key's
    xs, ys = [x for x, _ in hatch.points], [y for _, y in hatch.points]
    assert (min(xs) + max(xs)) / 2 == 24
    # the cut is whole at 48 and runs out to nothing at the next heights without X, 2 and 90
    assert (min(ys), max(ys)) == (2, 90)
    assert {y for x, y in hatch.points if x == max(xs)} == {48}


def test_amounts_are_the_plan_s(mended: Rebuild) -> None:
    view = wall_view(room_of(mended, "in", words("en")), "B")
    framing = mended.results["framing"]
    for stud in view.studs:
        amounts = framing.member(stud.name).amounts
        for h, row in enumerate(stud.entries):
            if len(row) == 1 and row[0].sign in ("add", "take"):
                sign = "+" if amounts[h] > 0 else "-"
                assert row[0].text.lstrip("~").startswith(sign)
                assert row[0].sign == ("add" if amounts[h] > 0 else "take")
            if row[0].sign == "as it is":
                assert amounts[h] == 0


def test_strips_run_over_the_heights_they_are_cut_for(mended: Rebuild) -> None:
    scene = wall(mended, "B")
    bars = [item for item in scene.items if isinstance(item, Poly) and item.layer == "STRIP"]
    spans = sorted((min(y for _, y in b.points), max(y for _, y in b.points)) for b in bars)
    # independent: the recipes of the same plan in the README, places by the cut list's rule by hand: B3 and
    # B4 from the plate to the top plate, B4 besides from 18 to 72, so from (2+18)/2 to (72+90)/2
    assert (10.0, 81.0) in spans
    assert spans.count((1.5, 94.5)) == 2


def test_left_wall_runs_to_the_back_corner_at_the_right(mended: Rebuild) -> None:
    def order(name: str) -> list[str]:
        over = [
            t for t in wall(mended, name).texts() if t.text[:1] == name and len(t.text) == 2 and t.at[1] > 94
        ]
        return [t.text for t in sorted(over, key=lambda t: t.at[0])]

    assert order("L") == ["L4", "L3", "L2", "L1"]
    assert order("R") == ["R1", "R2", "R3", "R4"]


def test_no_amount_while_a_reading_is_in_doubt() -> None:
    scene = wall(doubtful(), "B")
    head = " ".join(said(scene))
    assert "DO NOT CUT YET. In doubt: B4 at 36, L3 at 54." in head
    assert "-1-1/4!" in said(scene), "as read: 6 - 7-1/4"
    assert not any(isinstance(item, Strokes) and item.layer == "MARK" for item in scene.items)
    assert not any(item.layer in ("STRIP", "TAKE-OFF", "SISTER") for item in scene.items)


def test_as_if_is_said_first(mended: Rebuild) -> None:
    scene = wall(mended, "B", as_if=("L3 at 54 = 5-7/8",))
    assert "HOLDS ONLY IF L3 at 54 = 5-7/8: nobody has entered that." in " ".join(said(scene))


def test_not_measured_is_an_empty_box_and_never_nought() -> None:
    scene = wall(rebuild(job(SMALLEST)), "B")
    texts = said(scene)
    assert "0" not in texts
    assert any("Nothing read here yet" in text for text in texts)
    boxes = [item for item in scene.items if isinstance(item, Poly) and item.layer == "FRAME"]
    assert len(boxes) == 2


def test_a_partial_survey_shows_what_was_read() -> None:
    text = SMALLEST.replace('["", ""]', '["5-15/16", "x"]')
    view = wall_view(room_of(rebuild(job(text)), "in", words("en")), "B")
    ((read,), (blank,)) = view.studs[0].entries
    assert (read.sign, read.text) == ("read", "+1/16")
    assert (blank.sign, blank.text) == ("blank", "")


def test_a_planned_stud_that_was_not_read_carries_the_sign() -> None:
    made = plan(as_if(example("square-pan").job, ["L2 at 400 = 147"]))
    view = wall_view(room_of(made, "mm", words("en")), "L")
    stud = next(each for each in view.studs if each.name == "L3")
    unread = view.heights.index(F(850) * F(5, 127))
    assert stud.entries[unread][-1].text.endswith("?")
    assert not stud.read[unread]


def test_without_a_plan_the_page_says_so() -> None:
    made = example("hand")
    none = replace(made, results={**made.results, "framing": FramingPlan("none")})
    texts = " ".join(said(wall(none, "B")))
    assert 'No plan yet: as read. + stands proud, - lies back of a reading of 6".' in texts
    assert "+3/16" in said(wall(none, "B")), "6 - 5-13/16"


def test_valve_pipes_and_edges_are_numbered_and_listed(mended: Rebuild) -> None:
    texts = said(wall(mended, "R"))
    assert "1" in texts
    assert "(1)" in texts
    assert 'valve, 44" up, 20-1/2" from the corner' in texts
    rings = [i for i in wall(mended, "R").items if isinstance(i, Circle) and i.layer == "IN-FRONT"]
    assert any(ring.centre == (20.5, 44.0) for ring in rings), "the dot stands where the valve does"
    assert any('edge that stays plaster, 38" from the corner' in t for t in said(wall(mended, "L")))


def test_what_waits_for_the_pan_is_striped_and_lettered_as_on_its_card(mended: Rebuild) -> None:
    # independent: the order of work of the same plan puts L2's hardboard from 18 to 90 after the pan; by hand
    # it lies from (2+18)/2 to the top plate
    scene = wall(mended, "L")
    assert "c: strip hardboard 1/8, 10 to 94-1/2, after the pan is set" in " ".join(said(scene))
    assert "c 1/8" in said(scene)
    stripes = [item for item in scene.items if isinstance(item, Hatch) and item.layer == "STRIP"]
    spans = [(min(y for _, y in each.points), max(y for _, y in each.points)) for each in stripes]
    assert [span for span in spans if span[1] > 0] == [(10.0, 94.5)]
    assert not any(each.cross for each in stripes), "crosshatch is planing"
    assert "waits until the pan is set" in said(scene)
    assert not [item for item in wall(mended, "R").items if isinstance(item, Hatch) and item.layer == "STRIP"]


def test_only_planing_is_crosshatched() -> None:
    made = example("steel-unit")
    sound = replace(made, results={**made.results, "survey": replace(made.results["survey"], suspects=())})
    for name in "LBR":
        crossed = {i.layer for i in wall(sound, name).items if isinstance(i, Hatch) and i.cross}
        assert crossed <= {"TAKE-OFF"}


def test_planing_goes_on_past_the_last_height_read(mended: Rebuild) -> None:
    # independent: B2 has X from 18 to 90: it runs out at 2 and goes on as deep to the stud's end at 94-1/2
    cut = [i for i in wall(mended, "B").items if isinstance(i, Hatch) and i.layer == "TAKE-OFF"]
    (hatch,) = (each for each in cut if max(y for _, y in each.points) > 0)
    wide = max(x for x, _ in hatch.points)
    assert sorted(y for x, y in hatch.points if x == wide) == [18.0, 94.5]
    assert min(y for _, y in hatch.points) == 2.0


def test_the_hold_line_stands_on_every_wall(mended: Rebuild) -> None:
    for name in "LBR":
        assert any(
            text.startswith("BEFORE ANYTHING: circuit dead and proved") for text in said(wall(mended, name))
        )


def test_a_steel_stud_set_again_is_moved_and_not_new() -> None:
    made = example("steel-unit")
    sound = replace(made, results={**made.results, "survey": replace(made.results["survey"], suspects=())})
    members = [m for m in made.results["framing"].members if "replace" in m.recipe.families]
    assert members, "the bundled unit has studs that are set again"
    texts = said(wall(sound, members[0].wall))
    assert "re-set" in texts
    assert "N" not in texts
    assert "re-set: move the face by the amount" in texts
    assert any("re-set in its track, its face on the plane" in text for text in texts)
