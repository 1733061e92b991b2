"""Places that cannot be so as typed: one line each, and everything else is answered as before."""

from __future__ import annotations

from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Finding
from undertile.job import read_job
from undertile.wood.oddplaces import room_width
from undertile.wood.result import WoodResult

ODD = ("point-twice", "point-outside", "point-other-wall", "thickness-odd", "material-missing")


def odd(found: WoodResult) -> list[Finding]:
    return [each for each in found.findings if each.code in ODD]


def with_point(key: str, /, **facts: Any) -> dict[str, Any]:
    """The corner with one more place, of lumber where nothing else is said."""
    out = corner(2)
    out["points"][key] = {"material": "lumber", "species": "Douglas-fir", "shown": {"1": "10"}, **facts}
    return out


@pytest.mark.parametrize(
    ("facts", "code", "where", "found"),
    # independent: the room is 60 wide, plate-B-28 lies at 28; a stud goes by its letter (convention 1.2)
    [
        (
            {"member": "plate", "wall": "B", "along": "28"},
            "point-twice",
            'plate B at 28"',
            "plate-B-28 and new",
        ),
        (
            {"member": "plate", "wall": "B", "along": "400"},
            "point-outside",
            "plate B at 400",
            '400" from wall L',
        ),
        (
            {"member": "subfloor", "x": "300", "y": "6"},
            "point-outside",
            "subfloor L 300, B 6",
            '300" from wall L',
        ),
        (
            {"member": "stud", "name": "B2", "wall": "R", "height": "8"},
            "point-other-wall",
            "B2 at 8",
            "wall R",
        ),
        (
            {"member": "stud", "name": "B2", "height": "8", "thickness": "15"},
            "thickness-odd",
            "B2 at 8",
            '15" thick',
        ),
        (
            {"member": "subfloor", "x": "6", "y": "6", "material": "OSB", "thickness": "3"},
            "thickness-odd",
            "subfloor L 6, B 6",
            '3" thick',
        ),
        (
            {"member": "stud", "name": "B2", "height": "8", "material": "unknown"},
            "material-missing",
            "B2 at 8",
            "not",
        ),
    ],
)
def test_a_place_that_cannot_be_so_is_one_line(
    facts: dict[str, Any], code: str, where: str, found: str
) -> None:
    told = answer(with_point("new", **facts), width=F(60))
    (said,) = odd(told)
    assert said.code == code
    assert said.where.startswith(where)
    assert found in said.found
    assert said.expected
    assert said.next_step
    plain = answer(corner(2), width=F(60))
    for name in ("plate-B-4", "plate-B-16", "plate-L-6"):
        assert told.point(name) == plain.point(name)


@pytest.mark.parametrize(
    "facts",
    # independent: as above, from the other side
    [
        {"member": "plate", "wall": "L", "along": "28"},
        {"member": "plate", "wall": "B", "along": "28", "out": "2026-03-05"},
        {"member": "plate", "wall": "B", "along": "66"},
        {"member": "subfloor", "x": "6", "y": "300"},
        {"member": "stud", "name": "B2", "wall": "B", "height": "8", "thickness": "8"},
        {"member": "stud", "name": "king", "wall": "R", "height": "8"},
        {"member": "stud", "name": "B2", "height": "8", "material": "unknown", "shown": {}},
    ],
)
def test_a_place_that_can_be_so_is_not_asked_about(facts: dict[str, Any]) -> None:
    assert not odd(answer(with_point("new", **facts), width=F(60)))


def test_without_the_room_s_width_nothing_is_outside_it() -> None:
    # independent: what is not known bounds nothing
    assert not odd(answer(with_point("new", member="subfloor", x="300", y="6")))


@pytest.mark.parametrize("known", ["gaps", "patch"])
def test_the_room_s_width_is_what_was_measured_of_it(known: str) -> None:
    # independent: 48-1/4 between the lines and 6 to each wall is 60-1/4; so is the patch
    job = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
    facts = read_job(job).facts()
    survey, floor = facts["survey"], facts["floor"]
    assert room_width(survey if known == "gaps" else None, floor if known == "patch" else None) == F(241, 4)
    assert room_width(None, None) is None


def test_two_layers_at_one_place_are_two_places() -> None:
    # independent: what lies under is read through the top (convention: a layer is part of the place)
    facts = with_point("top", member="subfloor", x="6", y="6")
    facts["points"]["under"] = facts["points"]["top"] | {"layer": 2}
    assert not odd(answer(facts))
    facts["points"]["again"] = dict(facts["points"]["under"])
    (said,) = odd(answer(facts))
    assert said.found == "under and again"


def test_many_places_of_no_stuff_are_one_line() -> None:
    # independent: six places, four are named
    facts = corner(1)
    for name in [each for each in facts["points"] if each.startswith("plate")]:
        facts = changed(facts)
        facts["points"][name]["material"] = "unknown"
    (said,) = odd(answer(facts))
    assert said.where.endswith("and 2 more")
