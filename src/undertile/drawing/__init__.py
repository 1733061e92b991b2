"""Drawings: what is pinned on a stud and handed over. One scene a sheet, and backends that write it."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from undertile.drawing.dxf import to_dxf
    from undertile.drawing.every_sheet import sheets
    from undertile.drawing.recorder import Recorder
    from undertile.drawing.scene import Scene
    from undertile.drawing.sheet import Sheet
    from undertile.drawing.svg import to_svg

__all__ = ["Recorder", "Scene", "Sheet", "sheets", "to_dxf", "to_svg"]
_IN = {
    "Recorder": "recorder",
    "Scene": "scene",
    "Sheet": "sheet",
    "sheets": "every_sheet",
    "to_dxf": "dxf",
    "to_svg": "svg",
}


def __getattr__(name: str) -> Any:
    """What a drawing needs is imported when one is asked for: a chart on a phone needs no wall of studs."""
    if name not in _IN:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_IN[name]}"), name)
