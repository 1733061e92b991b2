"""What is cut from which board: strips from the stock on the van, fewest boards opened; lumber and screws."""

from __future__ import annotations

from undertile.cutting.cutlist import cut_list
from undertile.cutting.result import Board, CutList, Line, StockCuts, Strip

__all__ = ["Board", "CutList", "Line", "StockCuts", "Strip", "cut_list"]
