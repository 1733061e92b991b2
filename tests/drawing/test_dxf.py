"""DXF: read back, audited, measured."""

from __future__ import annotations

import io
import sys
from functools import cache
from typing import Any

import ezdxf
import pytest

from tests.drawing.cast import example, fattest
from undertile.drawing import Sheet, sheets, to_dxf
from undertile.errors import InputError
from undertile.lengths import parse_length


def opened(sheet: Sheet) -> Any:
    return ezdxf.read(io.StringIO(to_dxf(sheet.measured).decode("utf-8")))  # type: ignore[attr-defined]


@cache
def by_key(name: str) -> dict[str, Sheet]:
    return {sheet.key: sheet for sheet in sheets(example(name))}


@pytest.mark.parametrize(("name", "units", "measurement"), [("old-alcove", 1, 0), ("square-pan", 4, 1)])
def test_the_auditor_finds_nothing_and_the_header_says_the_unit(
    name: str, units: int, measurement: int
) -> None:
    for key in ("wall-B", "opening", "flange", "relief-L"):
        doc = opened(by_key(name)[key])
        audit = doc.audit()
        assert not audit.errors
        assert not audit.fixes
        # published: DXF reference, HEADER $INSUNITS 1 = inches, 4 = millimetres
        assert doc.header["$INSUNITS"] == units
        assert doc.header["$MEASUREMENT"] == measurement


@pytest.mark.parametrize("name", ["old-alcove", "square-pan"])
def test_dimensions_measure_what_they_say(name: str) -> None:
    unit = example(name).job.unit
    count = 0
    for sheet in by_key(name).values():
        if sheet.key.startswith("relief"):
            continue  # a relief has no dimensions
        for dim in opened(sheet).modelspace().query("DIMENSION"):
            words = (
                dim.dxf.text.split(" ", 1)[-1] if dim.dxf.text.startswith(("pan", "base")) else dim.dxf.text
            )
            said = parse_length(words, unit).inches * (1 if unit == "in" else 127 / 5)
            # independent: the entity's own measure; a figure may be rounded to 1/64 in
            assert dim.get_measurement() == pytest.approx(float(said), abs=1 / 64)
            count += 1
    assert count > 10


def test_studs_and_opening_are_true() -> None:
    drawn = by_key("old-alcove")
    space = opened(drawn["wall-B"]).modelspace()
    studs = [list(each.get_points("xy")) for each in space.query('LWPOLYLINE[layer=="STUD"]')]
    middles = sorted((min(x for x, _ in each) + max(x for x, _ in each)) / 2 for each in studs)
    # independent: as typed, from the left corner at x = 0
    assert middles == pytest.approx([2.25, 16.5, 31, 46.75, 58])
    pan = opened(drawn["opening"]).modelspace().query('LWPOLYLINE[layer=="PAN"]')[0].get_points("xy")
    wide = max(x for x, _ in pan) - min(x for x, _ in pan)
    assert wide == pytest.approx(59.8125, abs=1e-3), "nothing is enlarged"


def test_the_layers_are_the_trade_s() -> None:
    names = {layer.dxf.name for layer in opened(by_key("old-alcove")["opening"]).layers}
    assert {"STUD", "PLANE", "PAN", "DRAIN", "DIMENSION"} <= names


def test_names_in_any_script_survive() -> None:
    first = sheets(fattest())[0]
    said = {text.text for text in opened(first).modelspace().query("MTEXT")}
    assert any("🚿" in text for text in said)


def test_without_the_package_one_clear_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ezdxf", None)
    with pytest.raises(InputError, match=r"ezdxf.*install the paper extra.*or draw SVG"):
        to_dxf(sheets(example("hand"))[0].scene)
