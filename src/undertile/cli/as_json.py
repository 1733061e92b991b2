"""The JSON twin of every page: all facts of the answer, stable keys, lengths as text (docs/command-line.md).

A key is the name of the attribute it comes from. Lengths are exact text in the job's unit where that can
be (``3/16"``, ``4.5 mm``), else in the other, else a plain fraction (``123/1600 in``); slopes are plain
fractions; an uncertainty is mm to the nearest hundredth; minutes are plain fractions or whole numbers as
text; money is dollars to the cent.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from fractions import Fraction
from typing import Any

from pydantic import BaseModel

from undertile.cli.figures import dollars, exact
from undertile.lengths import Length, Unit

MONEY = frozenset(
    {"dollars", "least_dollars", "cost", "bound", "more", "gap", "regret", "shim_cost", "bound_gap"}
)
PLAIN = frozenset({"minutes", "skew", "lean", "opening_growth", "out_of_square", "factor", "share"})
PLAIN |= {"verify_minutes", "planned_minutes", "actual_minutes"}
# of the floor: lb a sq ft, lb and cu ft, minutes, and a plane's rise
PLAIN |= {"live", "dead", "base", "point", "parts", "weight", "load", "pre_slope", "top_bed"}
PLAIN |= {"rise_x", "rise_y", "least_minutes"}
UNCERTAIN = frozenset({"sigma", "opening_sigma", "uncertainty", "feeler_sigma"})
INCH_FLOATS = frozenset({"adjusted"})
"""Floats in inches: printed in mm, for no face shows a decimal inch."""


def plain(value: Any, unit: Unit, key: str = "") -> Any:
    """A result as what JSON can hold.

    Parameters
    ----------
    value : dataclass, mapping, sequence or plain value
    unit : {"in", "mm"}
    key : str
        The key it stands under: what kind of figure a bare number is.
    """
    if isinstance(value, Enum):
        return value.value
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, Length):
        return value.text or exact(value.inches, unit)
    if isinstance(value, Fraction):
        return _figure(value, unit, key)
    if isinstance(value, float):
        return f"{value * 25.4:.2f} mm" if key in UNCERTAIN | INCH_FLOATS else round(value, 6)
    if isinstance(value, BaseModel):
        return {name: plain(getattr(value, name), unit, name) for name in type(value).model_fields}
    if is_dataclass(value) and not isinstance(value, type):
        told = [each for each in fields(value) if each.metadata.get("told", True)]
        out = {each.name: plain(getattr(value, each.name), unit, each.name) for each in told}
        amounts = getattr(value, "amounts", None)
        if isinstance(amounts, tuple):
            out["amounts"] = plain(amounts, unit, "amounts")
        return out
    if isinstance(value, Mapping):
        inner = key if key in PLAIN | MONEY else ""
        return {str(name): plain(each, unit, inner or str(name)) for name, each in value.items()}
    if isinstance(value, frozenset | set):
        return sorted(plain(each, unit, key) for each in value)
    if isinstance(value, tuple | list):
        return [plain(each, unit, key) for each in value]
    return str(value)


def _figure(value: Fraction, unit: Unit, key: str) -> str:
    if key in MONEY:
        return dollars(value).removeprefix("$").replace(",", "")
    if key in PLAIN:
        return str(value)
    return exact(value, unit)


def text(answer: Mapping[str, Any]) -> str:
    """An answer as JSON text, its keys in the order they were put."""
    return json.dumps(answer, ensure_ascii=True, indent=1)
