"""Readings that are asked about, and none of those that wood gives."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from math import pi

import pytest

from undertile.wood.facts import Meter, Point, Visit, WoodFacts
from undertile.wood.history import Series, history
from undertile.wood.odd import Odd, odd
from undertile.wood.probe import facts_at
from undertile.wood.slab import left_at, slowest_days

DAYS = ("2026-03-02 08:00", "2026-03-03 08:00", "2026-03-04 08:00", "2026-03-06 08:00")


def series(*shown: str, surface: Mapping[str, str] = {}, meters: tuple[str, ...] = ()) -> Series:
    """One point on visits a day or two apart."""
    visits = {
        str(k): Visit(when=DAYS[k - 1], meter=meters[k - 1] if meters else "")
        for k in range(1, len(shown) + 1)
    }
    told = {str(k): text for k, text in enumerate(shown, 1)}
    point = Point.model_validate({"member": "other", "shown": told, "surface": dict(surface)})
    named = {name: Meter(high=Decimal(30)) for name in dict.fromkeys(meters or ("pins",))}
    return history(WoodFacts(meters=named, visits=visits, points={"p": point})).series[0]


@pytest.mark.parametrize(
    ("shown", "expected"),
    [
        (("20", "25"), Odd("rose", 5.0, "1")),
        (("20", "24.5"), None),
        (("23", "20", "19", "26"), Odd("rose", 7.0, "3")),
        (("22", "", "28"), Odd("rose", 6.0, "1")),  # the visit between was passed over
        (("20", "over"), Odd("rose", 10.0, "1", least=True)),
        (("under", "22"), Odd("rose", 15.0, "1", least=True)),
        (("over", "15"), Odd("fell", -15.0, "1", least=True)),
        (("26", "18"), Odd("fell", -8.0, "1")),
        (("26", "18.5"), None),
        (("26", "", "14"), None),  # twelve in two days
        (("27", "", "14.5"), Odd("fell", -12.5, "1")),
        (("26", "x"), None),
        (("26",), None),
        (("18 26 20", "20"), None),  # the worst of several holes counts
    ],
)
def test_by_hand(shown: tuple[str, ...], expected: Odd | None) -> None:
    """Independent, by hand: 5 up, or 8 down and more than 6 a day."""
    found = series(*shown)
    assert odd(found, str(len(shown))) == expected


def test_a_wet_face_or_another_meter_explains_it() -> None:
    """Independent, by hand: from 20 to 27 is up 7, unless the face or the meter changed."""
    assert odd(series("20", "27", surface={"2": "wet"}), "2") is None
    assert odd(series("27", "20", surface={"1": "wet"}), "2") is None
    assert odd(series("20", "27", meters=("pins", "other")), "2") is None
    assert odd(series("20", "27", meters=("pins", "pins")), "2") == Odd("rose", 7.0, "1")


def test_lumber_that_dries_is_never_asked_about() -> None:
    """independent: a slab by Fick's law (Crank), from fibre saturation in air at 8 %, read a quarter in.

    Soon after it was opened and later, half a day to two days apart. Its slowest part has a time constant
    of 3 days and more: 3/4 in of plywood, both faces open (``slab.slowest_days``), is the thinnest read.
    """
    assert slowest_days(0.018, 1e-10) > 3.0
    for slowest in (3.0, 4.5, 7.0):
        for opened in (0.05, 0.25, 1.0):
            for later in (0.5, 1.0, 2.0):
                days = (opened, opened + later)
                values = [f"{8 + 20 * left_at(0.25, day / (slowest * pi**2)):.1f}" for day in days]
                assert odd(series_on((opened, opened + later), *values), "2") is None, (slowest, days, values)


def series_on(days: tuple[float, ...], *shown: str) -> Series:
    """One point on visits at days of March."""
    visits = {}
    for k, day in enumerate(days, 1):
        hours = round(24 * day)
        visits[str(k)] = Visit(when=f"2026-03-{2 + hours // 24:02d} {hours % 24:02d}:00")
    point = Point(member="other", shown={str(k): text for k, text in enumerate(shown, 1)})
    return history(WoodFacts(meters={"pins": Meter()}, visits=visits, points={"p": point})).series[0]


STUD = {"member": "stud", "name": "B2", "wall": "B", "height": Fraction(36)}
JOIST = {"member": "joist", "name": "J3", "along": Fraction(14)}
FLOOR = {"member": "subfloor", "layer": "2", "x": Fraction(42), "y": Fraction(6)}


def plate(wall: str, along: int) -> dict[str, object]:
    return {"member": "plate", "wall": wall, "along": Fraction(along)}


@pytest.mark.parametrize(
    ("line", "at", "width", "expected"),
    [
        ("plate", -18, None, plate("L", 18)),
        ("plate", 16, 60, plate("B", 16)),
        ("plate", 72, 60, plate("R", 12)),
        ("plate R", 12, None, plate("R", 12)),
        ("stud B2", 36, None, STUD),
        ("joist J3", 14, None, JOIST),
        ("subfloor 2, y 6", 42, None, FLOOR),
        ("subfloor 2, x 6", 42, None, {**FLOOR, "x": Fraction(6), "y": Fraction(42)}),
    ],
)
def test_a_place_on_a_line_is_a_point(line: str, at: int, width: int | None, expected: object) -> None:
    assert facts_at(line, Fraction(at), None if width is None else Fraction(width)) == expected


def test_another_line_is_none() -> None:
    with pytest.raises(ValueError, match="no line of points"):
        facts_at("rafter 2", Fraction(1), None)
