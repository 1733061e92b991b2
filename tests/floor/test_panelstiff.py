"""A load between joists: published plate coefficients, the series summed another way, published floors."""

from __future__ import annotations

from fractions import Fraction as F
from math import pi

import pytest

from tests.floor.cast import KNOWN, ask, checks, facts, row
from undertile.findings import Verdict
from undertile.floor.panelstiff import over, plate_factor, point_deflection, rating, stiffness


@pytest.mark.parametrize(
    ("ratio", "factor"),
    [(1.0, 0.01160), (1.2, 0.01353), (1.4, 0.01484), (1.6, 0.01570), (1.8, 0.01620), (2.0, 0.01651)],
)
def test_plates_on_four_supports(ratio: float, factor: float) -> None:
    # published: Timoshenko and Woinowsky-Krieger, table 23 (from memory)
    assert plate_factor(ratio) == pytest.approx(factor, rel=3e-3)


def test_a_long_plate_is_a_strip_without_end() -> None:
    assert plate_factor(None) == pytest.approx(0.01695, rel=1e-3)  # published, the same table
    assert plate_factor(None) == pytest.approx(7 * 1.2020569 / (16 * pi**3), rel=1e-4)  # independent: zeta(3)
    assert plate_factor(30.0) == pytest.approx(plate_factor(None), rel=1e-9)


@pytest.mark.parametrize(("blocks", "stuff"), [(16, "osb"), (24, "plywood"), (48, "unknown")])
def test_an_orthotropic_plate_by_the_double_series(blocks: int, stuff: str) -> None:
    # independent: Navier's double sine series with H = sqrt(Dx Dy), instead of Levy's single one
    spacing, load = 16.0, 300.0
    stiff = stiffness([(F(23, 32), stuff)])
    assert stiff is not None
    dx, dy = map(float, stiff)
    odd = range(1, 240, 2)
    total = sum(
        1.0
        / (
            dx * (m / spacing) ** 4
            + 2 * (dx * dy) ** 0.5 * (m / spacing) ** 2 * (n / blocks) ** 2
            + dy * (n / blocks) ** 4
        )
        for m in odd
        for n in odd
    )
    wanted = 4 * load / (spacing * blocks * pi**4) * total
    found = point_deflection(F(300), F(16), stiff, blocks=F(blocks), spans=1)
    assert found == pytest.approx(wanted, rel=2e-3)


def test_the_floor_that_a_tile_manual_gives_comes_out() -> None:
    # published: two layers of 19/32 plywood over joists 16 apart, about L/400 under 300 lb between joists
    stiff = stiffness([(F(19, 32), "plywood")] * 2)
    assert stiff is not None
    assert over(F(16), point_deflection(F(300), F(16), stiff)) == pytest.approx(400, rel=0.05)


@pytest.mark.parametrize(
    ("spacing", "layers"),
    [
        ("16", ["19/32", "19/32"]),
        ("16", ["5/8", "5/8"]),
        ("19.2", ["23/32", "23/32"]),
        ("24", ["7/8", "7/8"]),
        ("24", ["9/8"]),
    ],
)
def test_every_floor_that_the_manual_calls_proven_passes(spacing: str, layers: list[str]) -> None:
    # published: the manual's floors by joist spacing
    stiff = stiffness([(F(each), "plywood") for each in layers])
    assert stiff is not None
    assert over(F(spacing), point_deflection(F(300), F(spacing), stiff)) >= 360


def test_a_far_span_holds_a_beam_by_9_in_32() -> None:
    # independent: M over the middle bearing is 3 P L / 32; the middle rises by M L^2 / 16 E I
    stiff = stiffness([(F(23, 32), "osb")])
    assert stiff is not None
    one, two = (point_deflection(F(300), F(16), stiff, spans=spans) for spans in (1, 2))
    assert two / one == pytest.approx((1 / 48 - 3 / 32 / 16) / (1 / 48))


def test_blocking_helps_and_close_blocking_helps_more() -> None:
    stiff = stiffness([(F(23, 32), "osb")])
    assert stiff is not None
    none, wide, close = (point_deflection(F(300), F(16), stiff, blocks=b) for b in (None, F(24), F(12)))
    assert close < wide < none


@pytest.mark.parametrize(
    ("thickness", "joists"),
    [("19/32", 20), ("23/32", 24), ("11/16", 24), ("7/8", 32), ("9/8", 48), ("1/2", 0)],
)
def test_panels_by_their_measured_thickness(thickness: str, joists: int) -> None:
    # published: IRC table R503.2.1.1(2), span rating by performance category, mill tolerance 1/32
    found = rating(F(thickness))
    assert found is not None
    assert found.joists == joists
    assert rating(F(3, 8)) is None


def subfloor(lower: dict, upper: dict | None = None, tile: str = "ceramic", apart: str = "16"):
    patch = {"lower": lower} | ({"upper": upper} if upper else {})
    return checks(
        ask(
            facts(
                all_joists=KNOWN,
                joists=row(apart=apart),
                joists_run="out from the back wall",
                patch=patch,
                tile=tile,
            )
        )
    )


def test_the_subfloor_is_judged_as_measured() -> None:
    one = {"thickness": "23/32", "stuff": "plywood"}
    alone, both = subfloor(one), subfloor(one, {"thickness": "19/32", "stuff": "plywood"})
    assert alone["panel-thickness"].verdict is Verdict.PASS
    assert alone["panel-point"].verdict is Verdict.FAIL
    assert both["panel-point"].verdict is Verdict.PASS
    assert subfloor({"thickness": "19/32"}, apart="24")["panel-thickness"].verdict is Verdict.FAIL
    assert "panel-point" not in subfloor(one, tile="none")


def test_a_second_layer_planned_over_all_of_it_counts_as_one_that_is_there() -> None:
    """independent: the same two panels, typed as what is there and as what is planned on top."""
    one, more = {"thickness": "23/32", "stuff": "plywood"}, {"thickness": "19/32"}
    there = subfloor(one, {**more, "stuff": "plywood"})["panel-point"]
    its = {"all_joists": KNOWN, "joists": row(), "tile": "ceramic", "joists_run": "out from the back wall"}
    planned = checks(
        ask(facts(**its, patch={"lower": one}, loads={"on_top": {"second": {**more, "what": "plywood"}}}))
    )["panel-point"]
    assert (planned.value, planned.verdict) == (there.value, Verdict.PASS)
    assert subfloor(one)["panel-point"].verdict is Verdict.FAIL
    board = {"on_top": {"board": {**more, "what": "cement board"}}}  # no panel: it carries nothing
    assert checks(ask(facts(**its, patch={"lower": one}, loads=board)))["panel-point"].verdict is Verdict.FAIL


def test_boards_and_what_is_not_measured_are_not_shown() -> None:
    boards = subfloor({"thickness": "3/4", "stuff": "boards"})
    nothing = subfloor({})
    for found in (boards, nothing):
        assert found["panel-point"].verdict is found["panel-thickness"].verdict is Verdict.NOT_SHOWN
    assert "calipers" in nothing["panel-point"].next_step
