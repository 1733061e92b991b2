"""What may be done to a stud: code shares, holes, pipes, and the cautious case."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.framing.cast import HEIGHTS, STOCK, inch
from undertile.framing.facts import FramingFacts, Stud, WallWork
from undertile.framing.limits import offered, permissions
from undertile.framing.planing import plane_depths, section_of
from undertile.framing.prices import read_prices
from undertile.framing.problem import Member, StockItem
from undertile.framing.stud_is import StudIs, standing_at, stud_is
from undertile.lengths import MM
from undertile.sources import SOURCES

F = Fraction
PRICES, _ = read_prices(FramingFacts())
ALL_STOCK = (
    *(StockItem(name, F(name)) for name in STOCK),
    StockItem("card", F(1, 20), dry_only=True),
    StockItem("plastic", F(1, 8), wood=False),
    StockItem("two-by", F(3, 2)),
)
EASY: dict[str, Any] = {"kind": "wood", "bearing": "no", "bay": "clear"}


def stud(**changes: Any) -> StudIs:
    return stud_is("B2", Stud.model_validate(EASY | changes), WallWork())


def allow(known: StudIs, **changes: Any) -> Member:
    base: dict[str, Any] = {
        "along": F(24),
        "heights": HEIGHTS,
        "offsets": (F(0),) * 3,
        "stock": ALL_STOCK,
        "prices": PRICES,
        "flange_top": F(4),
        "top": F(96),
    }
    return permissions(known, **(base | changes))


# Planing ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bearing", "depth", "notch", "alone", "sistered"),
    [
        # published: IRC R602.6, 25 % of 3.5 is 0.875, 40 % is 1.400; craft 1/4, 1/2 (convention 4.3)
        ("yes", "7/2", None, "1/4", "1/2"),
        ("no", "7/2", None, "1/4", "1/2"),
        ("yes", "7/2", "3/4", "1/8", "1/8"),  # published share 7/8, less 3/4 notched already
        ("no", "7/2", "13/10", "1/10", "1/10"),  # published share 1.400, less 1.3
        ("yes", "7/2", "7/8", "0", "0"),  # published: 0.875 is all there is
        ("yes", "11/2", "5/4", "1/8", "1/8"),  # published share 1.375 on a 2x6
        # not measured: 1-1/2 taken (ours); independent: 25 % is 3/8, 40 % is 0.6
        ("yes", None, None, "1/4", "3/8"),
        ("unknown", None, None, "1/4", "3/8"),
        ("no", None, None, "1/4", "1/2"),
    ],
)
def test_depth_is_the_smaller_of_craft_and_notch_share(
    bearing: str, depth: str | None, notch: str | None, alone: str, sistered: str
) -> None:
    known = stud(
        bearing=bearing,
        depth=inch(depth) if depth else None,
        notch=inch(notch) if notch else None,
    )
    assert plane_depths(known, HEIGHTS)[0] == (F(alone),) * 3
    assert plane_depths(known, HEIGHTS, sistered=True)[0] == (F(sistered),) * 3


@pytest.mark.parametrize("kind", ["steel", "treated", "engineered", "unknown"])
def test_steel_treated_engineered_and_unknown_stuff_is_never_planed(kind: str) -> None:
    member = allow(stud(kind=kind))  # published: convention 4.3
    assert not any(member.plane_depth)
    assert not any(member.plane_depth_sistered)
    assert member.why["plane"][1] == "convention-4"


def test_a_let_in_brace_is_never_cut_and_soft_wood_is_not_planed() -> None:
    for change in ({"brace": True}, {"soft": True}):  # published: convention 4.4; soft: ours
        depths, why = plane_depths(stud(**change), HEIGHTS)
        assert not any(depths)
        assert "plane" in why


def test_no_hole_and_cut_in_one_section() -> None:
    # published: IRC R602.6, no hole and notch in the same section; a hole at 60 lies between 48 and 90
    hole = {"h1": {"height": inch(60), "diameter": inch("3/4"), "edge": inch("11/8")}}
    assert plane_depths(stud(holes=hole), HEIGHTS)[0] == (F(1, 4), F(0), F(0))
    at_48 = {"h1": {"height": inch(48), "diameter": inch("3/4"), "edge": inch("11/8")}}
    depths, why = plane_depths(stud(holes=at_48), HEIGHTS)
    assert depths == (F(1, 4), F(0), F(1, 4))
    assert why["plane at 48"] == ("hole h1 at 48: no hole and cut in one section", "irc-r602.6")


@pytest.mark.parametrize(
    ("clear", "plated", "limit"),
    [
        ("2", False, "1/4"),  # published: 1-1/4 to the new face; 3/4 to spare
        ("11/8", False, "1/8"),  # published: 1-3/8 - 1-1/4
        ("5/4", False, "0"),
        ("1", False, "0"),
        ("1", True, "1/4"),
        ("3/8", True, "1/8"),  # ours: 1/4 of wood stays before a plated pipe
    ],
)
def test_a_pipe_keeps_an_inch_and_a_quarter_to_the_new_face_or_gets_a_plate(
    clear: str, plated: bool, limit: str
) -> None:
    services = {"cold": {"height": inch(2), "clear": inch(clear), "plated": plated}}
    assert plane_depths(stud(services=services), HEIGHTS)[0] == (F(limit), F(1, 4), F(1, 4))


def test_what_limits_one_height_is_told_with_its_source() -> None:
    wire = {"w": {"height": inch(20), "clear": inch("11/8"), "what": "wire"}}
    _, why = plane_depths(stud(services=wire), HEIGHTS)
    assert why["plane at 2"][1] == why["plane at 48"][1] == "nec-300.4"
    assert "put a nail plate there" in why["plane at 2"][0]


VALVE: dict[str, Any] = {"reading": inch(7), "window_low": inch(2), "window_high": inch(3)}
SIX_UP = tuple(F(z) for z in (2, 18, 36, 54, 72, 90))


def with_valve(**changes: Any) -> FramingFacts:
    return FramingFacts.model_validate(
        {"valve": VALVE | {"wall": "R", "along": inch(16), "height": inch(44)} | changes}
    )


@pytest.mark.parametrize(
    ("changes", "along", "depths"),
    [
        # independent, by hand: 41 to 47 lies between the heights 36 and 54, so neither is cut
        ({}, "65/4", ("1/4", "1/4", "0", "0", "1/4", "1/4")),
        ({}, "19", ("1/4", "1/4", "0", "0", "1/4", "1/4")),  # 3 beside it still counts
        ({}, "305/16", ("1/4",) * 6),  # 3-1/16 beside it
        # 34 to 54 takes in the section from 18 to 36 too
        ({"keep_off": inch(10)}, "65/4", ("1/4", "0", "0", "0", "1/4", "1/4")),
        ({"keep_off": inch(0)}, "65/4", ("1/4",) * 6),
        ({"height": inch(1)}, "65/4", ("0", "0", "1/4", "1/4", "1/4", "1/4")),
        ({"wall": "L"}, "65/4", ("1/4",) * 6),
    ],
)
def test_nothing_is_planed_where_a_valve_stands_at_the_stud(
    changes: dict[str, Any], along: str, depths: tuple[str, ...]
) -> None:
    standing = standing_at(with_valve(**changes), "R", F(along), "in")
    known = stud_is("R2", Stud.model_validate(EASY), WallWork(), standing)
    for sistered in (False, True):
        found, why = plane_depths(known, SIX_UP, sistered=sistered)
        assert [bool(depth) for depth in found] == [F(depth) > 0 for depth in depths]
    # published: convention 4.3, 8 passes beside a sister
    assert found == tuple(2 * F(depth) for depth in depths)
    if not all(found):
        sources = {source for key, (_, source) in why.items() if key.startswith("plane at ")}
        assert sources == {"practice-keep-off"}


def test_a_stud_with_a_valve_or_pipe_at_it_is_not_replaced_nor_knocked_over() -> None:
    thing = {"hub": {"wall": "R", "along": inch(16), "height": inch(10), "what": "drain or vent"}}
    for around in (with_valve(), FramingFacts.model_validate({"things": thing})):
        free = Stud.model_validate(EASY | {"free_behind": "yes"})
        assert {"replace", "knock over"} <= offered(allow(stud_is("R2", free, WallWork())))
        member = allow(stud_is("R2", free, WallWork(), standing_at(around, "R", F(16), "in")))
        assert not {"replace", "knock over"} & offered(member)
        assert "stands at it" in member.why["replace"][0]
        assert "stands at it" in member.why["knock over"][0]


def test_a_job_in_mm_keeps_75_mm_off() -> None:
    (standing,) = standing_at(with_valve(), "R", F(16), "mm")
    assert (standing.high - standing.low) / 2 == 75 * MM  # ours
    assert standing_at(with_valve(), "R", F(19), "mm") == ()


@given(st.integers(0, 100), st.sets(st.integers(0, 100), min_size=1, max_size=6))
def test_the_section_holds_every_height_the_cut_is_drawn_from(spot: int, rows: set[int]) -> None:
    heights = [F(z) for z in sorted(rows)]
    chosen = section_of(F(spot), heights)
    # independent: with no cut at those heights the straight face is not cut at the spot
    for other in (F(1, 8), F(1, 4)):
        cut = [F(0) if h in chosen else other for h in range(len(heights))]
        if spot <= heights[0]:
            assert cut[0] == 0
        elif spot >= heights[-1]:
            assert cut[-1] == 0
        else:
            k = max(h for h, z in enumerate(heights) if z <= spot)
            part = (spot - heights[k]) / (heights[k + 1] - heights[k])
            assert (1 - part) * cut[k] + part * cut[k + 1] == 0


def test_a_bearing_or_unknown_stud_is_not_ripped_over_its_full_height() -> None:
    for bearing in ("yes", "unknown"):  # published: convention 4.4 and 4.5
        member = allow(stud(bearing=bearing))
        assert not member.rip_ok
        assert "changes grade" in member.why["rip"][0]
    assert allow(stud()).rip_ok


def test_a_batten_keeps_three_quarters_of_its_thickness() -> None:
    # ours; independent: a quarter of 3/4 is 3/16, of 1/2 is 1/8
    assert plane_depths(stud(kind="batten"), HEIGHTS)[0] == (F(3, 16),) * 3
    assert plane_depths(stud(kind="batten", depth=inch("1/2")), HEIGHTS, sistered=True)[0] == (F(1, 8),) * 3


# Building out -------------------------------------------------------------------------------------------


def test_strips_over_three_quarters_are_left_out_and_card_stays_dry() -> None:
    member = allow(stud())
    assert {ALL_STOCK[i].name for i in member.stock} == {*STOCK, "card", "plastic"}
    # published: convention 4.3, card starts 6 in above the flange: 4 + 6 = 10
    assert member.dry_stock_ok == (False, True, True)
    assert allow(stud(), heights=(F(9), F(10), F(90))).dry_stock_ok == (False, True, True)
    # cautious: with no flange known nothing says where it is dry
    assert allow(stud(), flange_top=None).dry_stock_ok == (False,) * 3


def test_where_wood_is_not_allowed_no_wood_strip_taper_or_sister_is_offered() -> None:
    known = stud_is("B2", Stud.model_validate(EASY | {"kind": "steel"}), WallWork(wood_allowed=False))
    member = allow(known)  # published: convention 4.7
    assert {ALL_STOCK[i].name for i in member.stock} == {"plastic"}
    assert offered(member) == {"leave", "strip", "replace"}
    none = allow(known, stock=ALL_STOCK[:1])
    assert none.stock == ()
    assert none.why["strip"][0].startswith("wood is not allowed here")


@pytest.mark.parametrize(
    ("changes", "sister"),
    [  # published: convention 4.3, 22 in a clear bay and 35 with pipe or wire; unknown is the cautious case
        ({}, 22),
        ({"bay": "pipe"}, 35),
        ({"bay": "unknown"}, 35),
        ({"kind": "steel"}, None),
        ({"kind": "treated"}, None),
        ({"kind": "unknown"}, None),
        ({"fixed": True}, None),
        ({"kind": "batten"}, 22),
    ],
)
def test_sister(changes: dict[str, Any], sister: int | None) -> None:
    member = allow(stud(**changes))
    assert member.sister == sister
    assert (sister is None) == ("sister" in member.why)


@pytest.mark.parametrize(
    ("changes", "minutes", "dollars", "shoring"),
    [
        ({}, 35, 5, False),  # published: convention 4.3
        ({"bearing": "yes"}, 65, 5, True),
        ({"bearing": "unknown"}, 65, 5, True),
        ({"kind": "steel"}, 12, 10, False),  # common practice, no source, a steel stud in its track
        ({"kind": "steel", "bearing": "unknown"}, 65, 10, True),
        ({"kind": "engineered"}, None, 5, False),
        ({"kind": "batten"}, None, 5, False),
        ({"fixed": True}, None, 5, False),
    ],
)
def test_replace(changes: dict[str, Any], minutes: int | None, dollars: int, shoring: bool) -> None:
    member = allow(stud(**changes))
    assert (member.replace, member.replace_dollars, member.shoring) == (minutes, dollars, shoring)


@pytest.mark.parametrize(
    ("changes", "reason"),
    [
        ({}, None),
        ({"bearing": "yes"}, "it bears"),
        ({"bearing": "unknown"}, "whether it bears is not known"),
        ({"free_behind": "no"}, "its foot is not free behind"),
        ({"free_behind": "unknown"}, "what is behind is not known"),
        ({"fixed": True}, "it may not be moved"),
        ({"kind": "steel"}, "only a wood stud is knocked over"),
    ],
)
def test_a_foot_is_knocked_over_only_where_it_bears_nothing_and_is_free(
    changes: dict[str, Any], reason: str | None
) -> None:
    member = allow(stud(**({"free_behind": "yes"} | changes)))  # published: convention 4.3
    assert member.knock == (reason is None)
    assert member.why.get("knock over", (None,))[0] == reason
    assert not allow(stud(free_behind="yes"), top=None).knock


def test_a_wet_bed_only_where_it_is_chosen() -> None:
    assert not allow(stud()).wet_bed  # published: convention 4.3, off unless turned on
    known = stud_is("B2", Stud.model_validate(EASY), WallWork(wet_bed=True))
    assert allow(known).wet_bed


def test_a_soft_stud_must_be_sistered_or_replaced() -> None:
    member = allow(stud(soft=True))
    assert member.must == {"sister", "replace"}
    assert offered(member) == {"sister", "replace"}


def test_a_stud_takes_what_is_left_blank_from_its_wall_and_then_it_is_unknown() -> None:
    wall = WallWork.model_validate({"kind": "steel", "bearing": "no", "fixed": True, "depth": inch("5/2")})
    own = stud_is("B2", Stud.model_validate({"kind": "wood"}), wall)
    assert (own.kind, own.bearing, own.fixed, own.depth, own.bay) == ("wood", "no", True, F(5, 2), "unknown")
    nothing = stud_is("B2", None, None)
    assert (nothing.kind, nothing.bearing, nothing.bay, nothing.bears) == ("unknown",) * 3 + (True,)
    # published: convention 4.5; an unknown stud may be stripped, tapered, replaced as bearing, and no more
    assert offered(allow(nothing)) == {"leave", "strip", "taper", "replace"}


KINDS = st.sampled_from(["wood", "steel", "treated", "engineered", "batten", "unknown"])
YES_NO = st.sampled_from(["yes", "no", "unknown"])


@given(
    KINDS, YES_NO, YES_NO, st.sampled_from(["clear", "pipe", "wire", "unknown"]), st.booleans(), st.booleans()
)
def test_knowing_never_forbids_what_not_knowing_allows(
    kind: str, bearing: str, free: str, bay: str, fixed: bool, wood_allowed: bool
) -> None:
    def member(**changes: Any) -> Member:
        known: dict[str, Any] = {
            "kind": kind,
            "bearing": bearing,
            "free_behind": free,
            "bay": bay,
            "fixed": fixed,
        }
        return allow(stud_is("B2", Stud.model_validate(known | changes), WallWork(wood_allowed=wood_allowed)))

    now = member()
    for change in ({"kind": "wood"}, {"bearing": "no"}, {"bay": "clear"}, {"free_behind": "yes"}):
        (key, _), *_ = change.items()
        if (
            getattr(
                stud_is(
                    "B2",
                    Stud.model_validate({"kind": kind, "bearing": bearing, "bay": bay, "free_behind": free}),
                    None,
                ),
                key,
            )
            != "unknown"
        ):
            continue
        told = member(**change)  # independent: unknown is the cautious case
        assert offered(now) <= offered(told)
        assert all(a <= b for a, b in zip(now.plane_depth, told.plane_depth, strict=True))
        if now.sister is not None and told.sister is not None:
            assert told.sister <= now.sister
        if now.replace is not None and told.replace is not None:
            assert told.replace <= now.replace


@given(KINDS, YES_NO, st.booleans(), st.booleans(), st.booleans(), st.booleans())
def test_every_refusal_has_a_reason_with_a_known_source(
    kind: str, bearing: str, fixed: bool, brace: bool, soft: bool, wood_allowed: bool
) -> None:
    known: dict[str, Any] = {"kind": kind, "bearing": bearing, "fixed": fixed, "brace": brace, "soft": soft}
    member = allow(stud_is("B2", Stud.model_validate(known), WallWork(wood_allowed=wood_allowed)))
    can = offered(Member(**{**vars(member), "must": frozenset()}))
    for family in ("plane", "strip", "taper", "wet bed", "knock over", "sister", "replace"):
        assert (family in can) != (family in member.why), family
    assert {source for _, source in member.why.values()} <= set(SOURCES)
