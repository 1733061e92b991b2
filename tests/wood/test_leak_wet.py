"""Wood that got wet again: a test made before rules out nothing that can have wetted it since.

independent: each job is one that opens, with one reading or one day changed; the rule is ours
(docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import EVERYTHING, sprays
from undertile.packet.words.sentences import SPANISH
from undertile.wood.leak import CANDIDATES
from undertile.wood.result import WoodResult

READ = ["17", "26", "20", "13.5", "12.5"]
OUTSIDE_IN = {"condensation", "neighbour"}


def all_clean(day: str) -> dict[str, Any]:
    """Every test on one day, all clean."""
    return {
        kind: {name: each | {"when": f"{day}{each['when'][10:] or ' 12:00'}"} for name, each in some.items()}
        for kind, some in EVERYTHING.items()
    }


def job(read: list[str], leak: dict[str, Any], **visits: str) -> WoodResult:
    """Visits on March 2, 4, 5, 7 and 9; one plate as it is given, the rest dry."""
    facts = corner(5)
    for name, point in facts["points"].items():
        if not point.get("reference"):
            point["shown"] = {str(n + 1): "11" for n in range(5)}
            if name == "plate-B-16":
                point["shown"] = {str(n + 1): each for n, each in enumerate(read)}
    for visit in facts["visits"].values():
        visit |= visits
    return answer(changed(facts, leak=leak))


def asked(its: WoodResult) -> list[Any]:
    return [each for each in its.findings if each.source == "leak-wet-since"]


def test_tests_before_the_wood_got_wet_again_rule_nothing_out() -> None:
    its = job(READ, all_clean("2026-03-03"))
    assert set(its.source.of("open")) == set(CANDIDATES)
    (said,) = asked(its)
    assert said.code == "leak-test-asked"
    assert said.expected == "a test begun after visit 2, 2026-03-04 08:00"
    assert "17.0 % on visit 1, then 26.0 % on visit 2" in said.found
    for each in (said.expected, said.next_step):
        assert each.form in SPANISH
    assert its.source.statement[0] == "No test has shown yet where the water comes from."
    assert any(line.startswith("Not ruled out") for line in its.source.statement)


@pytest.mark.parametrize(
    ("read", "day"),
    [
        (READ, "2026-03-04"),  # the sprays from 9:00 on, the rest at noon; read at 8:00
        (READ, "2026-03-06"),
        (["26", "20", "17", "13.5", "12.5"], "2026-03-03"),  # it only dries
        (["17", "18.5", "16", "13.5", "12.5"], "2026-03-03"),  # 1.5: two readings of a meter differ by it
    ],
)
def test_tests_after_it_or_where_it_only_dries_tell(read: list[str], day: str) -> None:
    its = job(read, all_clean(day))
    assert set(its.source.of("excluded")) == set(CANDIDATES)
    assert not asked(its)


@pytest.mark.parametrize(
    "read",
    [
        ["12", "15", "13", "12", "12"],
        ["12", "13.2", "14.4", "13", "12"],  # step by step
        ["17", "over", "20", "13.5", "12.5"],
        ["12", "12", "12", "12", "15"],
    ],
)
def test_a_rise_however_it_comes(read: list[str]) -> None:
    its = job(read, all_clean("2026-03-03"))
    assert set(its.source.of("open")) == set(CANDIDATES)


def test_the_newest_rise_counts() -> None:
    its = job(["17", "26", "20", "24", "18"], all_clean("2026-03-06"))
    assert set(its.source.of("open")) == set(CANDIDATES)
    assert set(job(["17", "26", "20", "18", "16"], all_clean("2026-03-06")).source.of("open")) == set()


def test_what_was_shut_off_did_not_wet_it() -> None:
    """What is kept off since the visit before, and not tested with water in between, is still ruled out."""
    shut = {"supply": "off", "shower": "not used", "rain": "no"}
    its = job(["12", "12", "12", "16", "14"], all_clean("2026-03-04"), **shut)
    assert set(its.source.of("open")) == OUTSIDE_IN
    with_water = job(["12", "16", "14", "13", "12"], all_clean("2026-03-03"), **shut)
    assert set(with_water.source.of("open")) == set(CANDIDATES), "the water of the tests themselves"
    used = job(["12", "12", "12", "16", "14"], all_clean("2026-03-04"), **(shut | {"shower": "used"}))
    assert set(used.source.of("open")) == OUTSIDE_IN | {"riser", "drain", "pan", "enclosure"}


def repaired(found: str, mended: str, clean: str) -> dict[str, Any]:
    leak = all_clean("2026-03-03")
    pour = leak["pours"]["q"]
    leak["pours"] = {
        "wet": pour | {"when": found, "below": "wet"},
        "dry": pour | {"when": clean},
    }
    leak["mended"] = {"drain": {"when": mended, "what": "joint made anew"}}
    return leak


@pytest.mark.parametrize(
    ("found", "mended", "clean", "settled"),
    [
        ("2026-03-04 10:00", "2026-03-04 12:00", "2026-03-04 14:00", True),
        ("2026-03-03 10:00", "2026-03-03 12:00", "2026-03-04 14:00", True),  # it ran until it was mended
        ("2026-03-03 10:00", "2026-03-03 12:00", "2026-03-03 14:00", False),  # wetted after both, perhaps
        ("2026-03-01 10:00", "2026-03-01 12:00", "2026-03-04 14:00", False),  # mended before it rose
        ("2026-03-04 10:00", "2026-03-04 12:00", "2026-03-04 11:00", False),
    ],
)
def test_a_repair_and_a_clean_test_after_it_explain_the_rise(
    found: str, mended: str, clean: str, settled: bool
) -> None:
    leak = repaired(found, mended, clean)
    leak["noticed"] = "2026-03-01"
    its = job(READ, leak)
    assert its.source.settled is settled
    if settled:
        assert its.source.of("mended") == ("drain",)


def test_a_repair_that_no_test_led_to_explains_nothing() -> None:
    leak = repaired("2026-03-05", "2026-03-05 12:00", "2026-03-06")
    del leak["pours"]["wet"]
    its = job(READ, leak)
    assert "drain" in its.source.of("excluded")
    assert "pan" in its.source.of("open")


def test_an_hour_that_is_missing_beside_the_reading_is_asked() -> None:
    leak = all_clean("2026-03-06")
    leak["pours"]["q"] |= {"when": "2026-03-04"}
    its = job(READ, leak)
    assert its.source.of("open") == ("drain",)
    assert "write its hour" in asked(its)[0].next_step


def test_rooms_that_get_damp_make_wood_a_little_wetter() -> None:
    """published: Wood Handbook table 4-2: 70 F, 40 percent 7.7, 65 percent 12.0; no more than that is air."""
    facts = {"visits__2__humidity": 65}
    for shown, open_ in ((["9", "12", "11", "10", "9"], False), (["9", "15.5", "11", "10", "9"], True)):
        base = corner(5)
        for name, point in base["points"].items():
            if not point.get("reference"):
                point["shown"] = dict(zip("12345", shown if name == "plate-B-16" else ["9"] * 5, strict=True))
        its = answer(changed(base, leak=all_clean("2026-03-03"), **facts))
        assert bool(its.source.of("open")) is open_


def test_each_zone_sprayed_before_is_sprayed_again() -> None:
    leak = all_clean("2026-03-06")
    for name, each in sprays().items():
        leak["sprays"][name] = each | {"when": "2026-03-03 10:00" if name == "door" else "2026-03-06 10:00"}
    its = job(READ, leak)
    assert its.source.of("open") == ("enclosure",)
