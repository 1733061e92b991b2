"""Drawings: what is pinned on a stud and handed over. One scene a sheet, and backends that write it."""

from __future__ import annotations

from undertile.drawing.dxf import to_dxf
from undertile.drawing.recorder import Recorder
from undertile.drawing.scene import Scene
from undertile.drawing.sheet import Sheet
from undertile.drawing.sheets import sheets
from undertile.drawing.svg import to_svg

__all__ = ["Recorder", "Scene", "Sheet", "sheets", "to_dxf", "to_svg"]
