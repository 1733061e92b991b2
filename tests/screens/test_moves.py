"""Moving a wall: what is paid, what play is left, what does not hold."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from fractions import Fraction

import pytest

from tests.screens.cast import Site, bring, site
from undertile.lengths import SIXTEENTH, parse_length
from undertile.screens.pages.moves import AHEAD, FARTHEST, steps_of


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def job(at: Site) -> str:
    return bring(at, "hand", {"pan.pan.depths": '["16"]'})


def play(told: dict) -> Fraction:  # type: ignore[type-arg]
    (check,) = [each for each in told["follows"] if each["code"] == "play-16"]
    return parse_length(check["because"][0].split(" ")[1]).inches - sum(
        (_plane(line) for line in check["because"][1:3]),
        parse_length(check["because"][3].split(" ")[1]).inches,
    )


def _plane(line: str) -> Fraction:
    """A plane's place out of ``wall L: plane 1/16" into the room``."""
    words = line.split("plane ")[1]
    if words.startswith("on"):
        return Fraction(0)
    size = parse_length(words.split(" ")[0]).inches
    return size if "into the room" in words else -size


def test_unmoved_it_is_the_least(at: Site, job: str) -> None:
    told = at.twin(f"/job/{job}/moves")
    plan = at.twin(f"/job/{job}/plan")
    assert told["cost"]["dollars"] == told["cost"]["least"] == plan["total"]["cost"]
    assert told["cost"]["why"] == "the least"
    assert [wall["by"] for wall in told["walls"]] == [0, 0, 0]


@pytest.mark.parametrize(
    ("query", "less"), [({"L": "1"}, 1), ({"L": "-1"}, -1), ({"L": "1", "R": "1"}, 2), ({"B": "3"}, 0)]
)
def test_play_shrinks_by_what_the_side_walls_come_in(
    at: Site, job: str, query: dict[str, str], less: int
) -> None:
    """independent: convention 3.2, opening less pan; a side wall a sixteenth in takes a sixteenth of play."""
    before, after = at.twin(f"/job/{job}/moves"), at.twin(f"/job/{job}/moves", **query)
    assert play(before) - play(after) == Fraction(less, 16)


def test_a_moved_wall_never_costs_less_than_the_proved_least(at: Site, job: str) -> None:
    """independent: the plan is proved least over all planes that meet the demands (convention 4.8)."""
    least = _money(at.twin(f"/job/{job}/moves")["cost"]["least"])
    for by in range(-4, 5):
        told = at.twin(f"/job/{job}/moves", B=str(by))["cost"]
        if told["dollars"] and told["holds"]:
            assert _money(told["dollars"]) >= least


def _money(text: str) -> Fraction:
    return Fraction(text.removeprefix("$").replace(",", ""))


def test_what_does_not_hold_is_named(at: Site, job: str) -> None:
    told = at.twin(f"/job/{job}/moves", L="4", R="4")
    assert "Play of the pan" in told["cost"]["broken"]
    assert "Play of the pan" in at.page(f"/job/{job}/moves", L="4", R="4")
    assert all(each["verdict"] != "pass" for each in told["follows"] if each["code"].startswith("play"))


def test_planned_again_around_it(at: Site, job: str) -> None:
    """hand: convention 8: the back plane a sixteenth forward takes 21.5 minutes on its studs instead of 19,
    a strip of hardboard the fewer or the more with it; never less than the least."""
    told = at.twin(f"/job/{job}/moves", B="1", settle="1")
    assert told["again"]["text"].startswith("Planned around it: $")
    assert told["again"]["changed"]
    more = told["again"]["text"].split(", ")[1].split(" ")[0]
    assert _money(more) > 0


@pytest.mark.parametrize("text", ["", "x", "1.5", "1e3", "٣", "--1", "99999", "+-1"])
def test_what_is_no_step_moves_nothing(text: str) -> None:
    assert steps_of({"B": text}).get("B", 0) == 0


def test_a_wall_is_not_moved_out_of_the_room() -> None:
    assert steps_of({"B": "999", "L": "-999"}) == {"B": FARTHEST, "L": -FARTHEST}


def test_a_plane_is_held_with_a_reason(at: Site) -> None:
    job = bring(at, "hand")
    base = "framing.walls.B.hold"
    before = at.twin(f"/job/{job}/plan")["total"]
    at.send(
        job,
        {"fact": f"{base}.offset", "value": "1/16"},
        {"fact": f"{base}.reason", "value": "meets the window"},
    )
    after = at.twin(f"/job/{job}/plan")["total"]
    assert _money(after["cost"]) > _money(before["cost"]), "a hold costs, and says so (convention 4.6)"
    assert (
        at.twin(f"/job/{job}/history", fact=f"{base}.reason")["entries"][0]["as_typed"] == "meets the window"
    )


def _offered(page: str, wall: str) -> dict[str, str]:
    """The form that holds a wall's plane, as it stands on the page and a browser would send it."""
    part = page.partition(f'data-wall="{wall}"')[2].partition('<div class="fields">')[2]
    part = part.partition("</form>")[0]
    return {
        name: html.unescape(value)
        for name, value in re.findall(r'<input[^>]*? name="([^"]*)"[^>]*? value="([^"]*)"', part)
    }


@pytest.mark.parametrize("by", [-1, 2])
def test_what_is_held_is_the_wall_as_it_was_looked_at(at: Site, by: int) -> None:
    """independent: what the page said it costs there, before it was held; the plan is searched for anew."""
    job = bring(at, "hand")
    seen = at.twin(f"/job/{job}/moves", B=str(by))
    where = next(each["plane"] for each in seen["walls"] if each["wall"] == "B")
    form = _offered(at.page(f"/job/{job}/moves", B=str(by)), "B")
    last = max(int(name.partition(".")[2]) for name in form if "." in name)
    answer = at.client.post(f"/job/{job}/entries", data={**form, f"value.{last}": "meets the window"})
    assert answer.status_code == 200
    told = at.twin(f"/job/{job}/plan")
    held = next(each for each in told["walls"] if each["wall"] == "B")
    assert held["plane"] == where
    assert _money(told["total"]["cost"]) >= _money(seen["cost"]["dollars"])
    if not seen["cost"]["broken"] and "straightedge" not in seen["cost"]["why"]:
        assert told["total"]["cost"] == seen["cost"]["dollars"]
    again = _offered(at.page(f"/job/{job}/moves", B="1"), "B")  # moved on from where it is held
    sizes = [parse_length(each["value.1"], "in").inches for each in (form, again)]
    assert sizes[1] - sizes[0] == SIXTEENTH


def test_a_hold_without_its_reason_is_asked_for_by_what_it_is_of(at: Site) -> None:
    job = bring(at, "hand")
    at.send(job, {"fact": "framing.walls.B.hold.offset", "value": "1/16"})
    texts = [each["text"] for each in at.twin(f"/job/{job}/doubts")["left_out"]]
    assert texts == ["back wall, what is held: not used yet. Say: Why."]
    for key in ("skew", "lean"):  # a file may hold them too: the history has words for each
        at.send(job, {"fact": f"framing.walls.B.hold.{key}", "value": "1/16"})
    assert "Lean over 96 in of height" in at.page(f"/job/{job}/history")


def test_the_nearest_steps_are_worked_out_first_and_a_page_asked_ahead_changes_no_turn(
    at: Site, job: str
) -> None:
    """By hand: from one step short of the farthest, that one and no more on this side; the others all."""
    at.host.soon = []
    try:
        edge = str(FARTHEST - 1)
        at.twin(f"/job/{job}/moves", L=edge)
        steps = [dict(each.args[1]) for each in at.host.soon]  # type: ignore[attr-defined]
        assert len(steps) == 3 * 2 * AHEAD - (AHEAD - 1)
        far = [
            max(abs(told["L"] - (FARTHEST - 1)), *(abs(told.get(name, 0)) for name in "BR")) for told in steps
        ]
        assert far == sorted(far)
        assert {told["L"] for told in steps} == {*range(FARTHEST - 1 - AHEAD, FARTHEST + 1)}
        ahead = {"accept": "text/html", "sec-purpose": "prefetch"}
        page = at.client.get(f"/job/{job}/moves", params={"B": "1"}, headers=ahead)
        assert [dict(each.args[1]) for each in at.host.soon] == steps  # type: ignore[attr-defined]
        assert page.text == at.page(f"/job/{job}/moves", B="1")
    finally:
        at.host.soon = None
