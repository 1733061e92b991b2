"""Prices by name: the convention's table, and what a person may change."""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from fractions import Fraction

import pytest

from tests.framing.cast import facts, inch
from undertile.framing.prices import DEFAULTS, read_prices
from undertile.framing.problem import Prices
from undertile.sources import SOURCES

F = Fraction


@pytest.mark.parametrize(
    ("name", "value"),
    [  # published: convention 4.3
        ("plane_setup", F(9)),
        ("plane_dollars", F(1, 2)),
        ("plane_pass", F(3, 2)),
        ("plate_edge", F(8)),
        ("strip_thin", F(7)),
        ("strip_thick", F(10)),
        ("strip_more", F(4)),
        ("taper_first", F(15)),
        ("taper_next", F(12)),
        ("taper_dollars", F(3)),
        ("sister", F(22)),
        ("sister_wire", F(35)),
        ("sister_dollars", F(5)),
        ("replace", F(35)),
        ("replace_bearing", F(65)),
        ("replace_dollars", F(5)),
        ("shoring", F(30)),
        ("channel_row", F(9)),
        ("flange_shim", F(1)),
        ("flange_shim_dollars", F(3, 20)),
        ("wet_bed", F(6)),
        ("knock", F(15)),
        ("reblock_valve", F(25)),
        ("reblock_valve_dollars", F(3)),
        ("corner_backer", F(10)),
        ("corner_backer_dollars", F(3)),
        ("nail_plate", F(3)),
        ("verify", F(6)),
        # common practice, no source, the middle of the spread
        ("move_supply", F(60 + 120, 2)),
        ("move_drain", F(180 + 240, 2)),
        ("move_stack", F(300 + 480, 2) * 2),
        ("reset_steel", F(12)),
    ],
)
def test_defaults_are_the_tables(name: str, value: Fraction) -> None:
    assert DEFAULTS[name].value == value


def test_every_price_has_a_known_source_and_the_planner_reads_the_same_defaults() -> None:
    assert {price.source for price in DEFAULTS.values()} <= set(SOURCES)
    prices, problems = read_prices(facts())
    assert problems == ()
    assert prices.problem_prices() == Prices()  # independent: the planner's own defaults
    assert {f.name for f in fields(Prices)} - {"rate", "factor"} <= set(DEFAULTS)


def test_a_changed_price_rate_and_an_occupied_house_reach_the_planner() -> None:
    prices, _ = read_prices(facts(prices={"sister": Decimal("18.5")}, rate=Decimal(80), occupied=True))
    assert prices["sister"] == F(37, 2)
    assert prices.problem_prices().rate == 80
    assert prices.problem_prices().factor == F(3, 2)  # published: convention 4.3, containment x 1.5


def test_every_price_that_cannot_be_used_is_said_in_one_run() -> None:
    changes = {
        "plane_setpu": Decimal(1),
        "knock": Decimal(-1),
        "verify": Decimal("1E+999999"),
        "taper_next": Decimal(20),
    }
    _, problems = read_prices(facts(prices=changes))
    assert len(problems) == 4
    assert problems[0] == "framing.prices.plane_setpu is no price of this job; the nearest is plane_setup"
    assert problems[1].startswith("framing.prices.knock is -1; expected minutes or dollars from 0 to 100000")
    assert "taper_next is 20 and framing.prices.taper_first is 15" in problems[3]


def test_a_rate_a_stock_price_or_minutes_beyond_reason_are_said_too() -> None:
    stock = {"ply": {"thickness": inch("1/4"), "price": Decimal("1E-999999")}}
    things = {
        "hub": {
            "wall": "B",
            "along": inch(8),
            "height": inch(8),
            "movable": True,
            "minutes": Decimal("1E+9"),
        }
    }
    _, problems = read_prices(facts(rate=Decimal("1E+7"), stock=stock, things=things))
    assert [line.split(" is ")[0] for line in problems] == [
        "framing.rate",
        "framing.stock.ply.price",
        "framing.things.hub.minutes",
    ]
