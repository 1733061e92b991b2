"""A chip that was weighed: what it may say beside the meter, and in any air.

independent: percent by hand, 100 x (wet - dry) / dry; published: Wood Handbook table 4-2, 70 F and 10
percent: 2.5.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.packet.words.sentences import SPANISH
from undertile.wood.equilibrium import equilibrium


def weighed(shown: str, wet: str, dry: str = "10", **more: Any) -> tuple[float | None, list[Any]]:
    facts = corner(1)
    facts["points"]["plate-B-40"] |= {"shown": {"1": shown}, "chips": {"1": {"wet": wet, "dry": dry}}, **more}
    its = answer(changed(facts))
    value = next(each.value for each in its.points if each.name == "plate-B-40")
    return value, [each for each in its.findings if each.code == "chip-odd"]


@pytest.mark.parametrize(
    ("shown", "wet", "more", "value", "odd"),
    [
        ("22", "10.02", {}, 22.0, True),  # 0.2 percent: under what wood holds in any air
        ("", "10.02", {}, None, True),
        ("", "10.25", {}, 2.5, False),
        ("22", "10.8", {}, 22.0, True),  # 8 against 22, give or take 2
        ("over", "10.8", {}, 30.0, True),
        ("14", "10.8", {}, 8.0, False),  # 6 apart, three times its error
        ("14.2", "10.8", {}, 14.2, True),
        ("12", "12.5", {}, 25.0, True),  # the wetter of the two counts
        ("22", "10.8", {"material": "treated"}, 8.0, False),  # its salts make the meter read high
        ("22", "10.8", {"surface": {"1": "wet"}}, 8.0, False),  # so does its wet face
    ],
)
def test_a_chip_far_from_the_meter_is_asked_about_and_the_drier_is_not_taken(
    shown: str, wet: str, more: dict[str, Any], value: float | None, odd: bool
) -> None:
    came, asked = weighed(shown, wet, **more)
    assert came == (None if value is None else pytest.approx(value, abs=0.11))
    assert bool(asked) is odd
    for each in asked:
        assert {each.expected.form, each.found.form, each.next_step.form} <= set(SPANISH)


def test_no_room_leaves_less_in_wood() -> None:
    assert equilibrium(70, 0.10) == pytest.approx(2.5, abs=0.05)


def test_chips_that_contradict_the_meter_close_nothing() -> None:
    facts = corner(5)
    facts["points"]["plate-B-4"] |= {
        "shown": {"4": "22", "5": "21"},
        "awl": {"5": '0"'},
        "chips": {"4": {"wet": "10.02", "dry": "10"}, "5": {"wet": "10.01", "dry": "10"}},
    }
    call = next(each.call for each in answer(facts).points if each.name == "plate-B-4")
    assert call != "close"
