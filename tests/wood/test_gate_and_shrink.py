"""Do not cover yet, each missing thing by its name; and how far a stud's face goes back as it dries."""

from __future__ import annotations

from fractions import Fraction as F
from types import SimpleNamespace
from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import EVERYTHING
from undertile.cli.water_cover import KINDS as LINE_KINDS
from undertile.packet.cover import KINDS as COVER_KINDS
from undertile.packet.words.cover import COVER
from undertile.screens.words.water import WATER
from undertile.wood.facts import WoodFacts
from undertile.wood.shrink import shrinkage_of
from undertile.wood.woodfindings import KINDS as FINDING_KINDS

PHOTOS = {"wall B": "2026-03-20", "wall L": "2026-03-20", "floor": "2026-03-20"}


def ready() -> dict[str, Any]:
    """Everything dry on two visits, tested, photographed and passed."""
    facts = corner(2)
    for name, point in facts["points"].items():
        if not point.get("reference"):
            point["shown"] = {"1": "11", "2": "10.5"}
            point["awl"] = {"2": '0"'}
        assert name
    facts["points"]["floor-1"] = facts["points"]["plate-B-4"] | {
        "member": "subfloor",
        "x": '12"',
        "y": '6"',
    }
    facts["leak"] = EVERYTHING
    facts["cover"] = {"photos": PHOTOS, "inspection": "passed", "inspected": "2026-03-21"}
    return facts


def lately(facts: dict[str, Any]) -> dict[str, Any]:
    """The same, covered by readings of the last 40 days: how old one may be is tried in test_convention."""
    return facts | {"allowed": {"read_within": 40, "reason": "dry summer", **facts.get("allowed", {})}}


def missing(facts: dict[str, Any]) -> list[tuple[str, str]]:
    found = answer(facts, walls=("L", "B"))
    assert found.gate.open is (not found.gate.missing)
    assert any(each.code == "do-not-cover" for each in found.findings) is (not found.gate.open)
    return [(each.kind, each.where) for each in found.gate.missing]


def test_everything_settled_opens_the_gate_on_a_named_day() -> None:
    assert missing(ready()) == []
    assert answer(ready(), walls=("L", "B")).gate.read_on == "2026-03-04 08:00"


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"points__plate_B_4__shown": {"1": "20", "2": "19"}}, ("moisture", 'plate B at 4"')),
        ({"points__plate_B_4__awl": {}}, ("moisture", 'plate B at 4"')),
        ({"leak__pours": {}}, ("source", "the drain below the strainer")),
        ({"cover__photos": {"wall B": "2026-03-20", "floor": "2026-03-20"}}, ("photo", "wall L")),
        ({"cover__inspection": "called"}, ("inspection", "rough inspection")),
        ({"cover__inspection": "unknown"}, ("inspection", "rough inspection")),
        ({"cover__surfaces": ["wall B", "wall R"]}, ("moisture", "wall R")),
    ],
)
def test_each_missing_thing_shuts_it_and_is_named(change: dict[str, Any], where: tuple[str, str]) -> None:
    assert where in missing(changed(ready(), **change))


def test_where_nobody_says_what_is_covered_all_of_it_is() -> None:
    """independent: no wall is entered, so none is known to stay open: unknown is the cautious case."""
    facts = changed(ready(), cover__photos={"floor": "2026-03-20"})
    lacks = [(each.kind, each.where) for each in answer(facts).gate.missing]
    assert ("moisture", "wall R") in lacks
    assert {where for kind, where in lacks if kind == "photo"} == {"wall L", "wall B", "wall R"}
    said = changed(facts, cover__surfaces=["floor"])
    assert [each for each in answer(said).gate.missing if each.where.startswith("wall")] == []


def test_how_far_it_was_wet_is_asked_though_the_last_wet_place_is_dry_by_now() -> None:
    """independent: the same readings, with and without the dry places past the one that was wet."""
    facts = ready()
    facts["points"]["plate-B-4"]["shown"] = {"1": "30", "2": "10.5", "3": "10.4"}
    facts["visits"]["3"] = facts["visits"]["2"] | {"when": "2026-03-08 08:00"}
    past = [name for name in facts["points"] if name.startswith("plate") and name != "plate-B-4"]
    assert past
    for name in past:
        del facts["points"][name]
    words = [
        each.what for each in answer(facts, walls=("L", "B")).gate.missing if each.where == 'plate B at 4"'
    ]
    assert any("how far it was wet is not known" in each for each in words)


def test_over_nineteen_never_passes_whatever_the_person_allows() -> None:
    # published: 19 percent, CALGreen 4.505.3
    facts = changed(ready(), allowed={"most": "19", "over_reference": "10", "reason": "a wet summer"})
    facts["points"]["plate-B-4"]["shown"] = {"1": "19.5", "2": "19.5"}
    assert ("moisture", 'plate B at 4"') in missing(facts)


def stud(shown: str, species: str = "Douglas-fir", **more: Any) -> dict[str, Any]:
    facts = corner(1)
    facts["points"]["s"] = {
        "member": "stud",
        "wall": "B",
        "name": "B2",
        "height": '2"',
        "material": "lumber",
        "species": species,
        "shown": {"1": shown},
        **more,
    }
    if species != "Douglas-fir":
        facts["meters"]["pins"]["set_to"] = species
    return facts


def test_a_stud_trued_wet_goes_back_as_the_handbook_says() -> None:
    # independent: 3.5 in, 19 to 9 percent, give or take 2: half of 3.5 x .001653 x 8 = .0231, down to 1/64;
    # 3.5 x .002669 x 12 = .1121, up to 8/64 (published: the coefficients of table 13-5)
    (found,) = answer(stud("19"), depths={"B2": F(7, 2)}).shrinkage
    assert (found.least, found.most) == (F(1, 64), F(8, 64))
    assert found.dry == 9


def test_over_saturation_counts_from_saturation() -> None:
    # independent: by symmetry, "over" is read as the 30 percent at which shrinking begins (convention 5)
    (wet,) = answer(stud("over"), depths={"B2": F(7, 2)}).shrinkage
    (at_thirty,) = answer(stud("30"), depths={"B2": F(7, 2)}).shrinkage
    assert wet.most == at_thirty.most


def test_unknown_species_is_the_worst_and_more_wet_is_more() -> None:
    # published: Wood Handbook table 4-3, tangential 5.0 of western redcedar and 7.6 of Douglas-fir: by order;
    # independent: the farther from 9 percent, the more
    depth = {"B2": F(7, 2)}

    def most(shown: str, species: str) -> F:
        return answer(stud(shown, species), depths=depth).shrinkage[0].most

    assert most("19", "western redcedar") < most("19", "Douglas-fir") <= most("19", "unknown")
    assert most("16", "Douglas-fir") < most("24", "Douglas-fir")


def test_a_dry_stud_does_not_move_and_one_without_depth_is_asked_for() -> None:
    # independent: 8 is under the 9 it dries to
    assert answer(stud("8"), depths={"B2": F(7, 2)}).shrinkage == ()
    found = answer(stud("19"))
    assert found.shrinkage == ()
    assert any(each.code == "stud-depth-for-shrinkage" and each.where == "B2" for each in found.findings)


def test_a_stud_at_its_goal_is_as_dry_as_it_will_be_when_it_is_closed() -> None:
    # independent: the reference is 9, so the goal 13 (convention 5.4); one tenth over it counts
    depth = {"B2": F(7, 2)}
    assert answer(stud("13"), depths=depth).shrinkage == ()
    assert not any(each.code.startswith("stud-") for each in answer(stud("13")).findings)
    (found,) = answer(stud("13.1"), depths=depth).shrinkage
    assert found.most == F(4, 64)  # independent: 3.5 x .002669 x 6.1 = .0570, up to 4/64


def test_the_plan_asks_the_same_of_the_facts_alone() -> None:
    """independent: by the whole water part, and by the facts of the job without it."""
    facts = WoodFacts.model_validate(stud("19"))
    wall = SimpleNamespace(depth=SimpleNamespace(inches=F(7, 2)))
    framing = SimpleNamespace(studs={}, walls={"B": wall})
    survey = SimpleNamespace(walls={"B": SimpleNamespace(studs={"B2": None})})
    told = {"wood": facts, "framing": framing, "survey": survey}
    assert shrinkage_of(told)[0] == answer(stud("19"), depths={"B2": F(7, 2)}).shrinkage
    assert shrinkage_of({"wood": facts}) == ((), ("B2",))
    assert shrinkage_of({}) == ((), ())
    assert shrinkage_of({"wood": WoodFacts.model_validate(corner(2))}) == ((), ())


@pytest.mark.parametrize("trued", ["", "1", "2", "3"])
def test_of_many_visits_only_those_that_count_are_gone_through(trued: str) -> None:
    """independent: the whole water part goes through every reading."""
    facts = corner(4)
    seen = iter(("27", "24", "x", "", "over", "18", "16", "9", "22", "", "", "21"))
    for n, member in enumerate(("B1", "B2", "B3")):
        facts["points"][f"s{n}"] = {
            **stud("19")["points"]["s"],
            "name": member,
            "shown": {str(visit): next(seen) for visit in (3, 1, 4, 2)},
            "awl": {"1": '1/16"'},
        }
    facts["points"]["s2"]["chips"] = {"2": {"wet": "12", "dry": "10"}}
    facts["trued"] = trued
    depths = {name: F(7, 2) for name in ("B1", "B2", "B3")}
    wall = SimpleNamespace(depth=SimpleNamespace(inches=F(7, 2)))
    survey = SimpleNamespace(walls={"B": SimpleNamespace(studs=dict.fromkeys(depths))})
    framing = SimpleNamespace(studs={}, walls={"B": wall})
    told = {"wood": WoodFacts.model_validate(facts), "framing": framing, "survey": survey}
    found = answer(facts, depths=depths).shrinkage
    assert shrinkage_of(told)[0] == found
    assert found


def test_treated_wood_tells_no_shrinkage() -> None:
    facts = stud("19", **{"material": "treated"})
    assert answer(facts, depths={"B2": F(7, 2)}).shrinkage == ()


def test_what_keeps_the_gate_shut_has_its_name_on_every_face() -> None:
    """A kind that one face does not know would be counted there as nothing."""
    kinds = set(COVER_KINDS)
    assert kinds == set(FINDING_KINDS) == set(LINE_KINDS)
    assert kinds == {key.removeprefix("gate-kind-") for key in WATER if key.startswith("gate-kind-")}
    assert all(f"cover-{kind}" in COVER or f"cover-{kind}-one" in COVER for kind in kinds - {"moisture"})
