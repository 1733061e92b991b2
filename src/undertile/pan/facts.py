"""The rigid pan, its sheet, the drain it must meet and the way it goes in.

Sizes are actual, over the outside faces of the flanges at their widest (convention 3.1); a size off the
carton is nominal and is never used as one: leave it out and the tool asks.
"""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from undertile.lengths import LengthField
from undertile.survey.facts import Facts


class Outlet(Facts):
    """Where the pan's outlet is, from its outside left and back flange faces."""

    x: LengthField
    y: LengthField


class Drain(Facts):
    """Where the drain is, from the nominal planes of walls L and B, and how far it can float."""

    x: LengthField
    y: LengthField
    float_x: LengthField
    float_y: LengthField


class Pan(Facts):
    """One rigid pan, measured."""

    width: LengthField | None = Field(default=None, description="actual, along the back wall")
    depth: LengthField | None = Field(default=None, description="actual, out from the back wall")
    carton_width: LengthField | None = Field(default=None, description="nominal, off the carton: never used as actual")
    carton_depth: LengthField | None = None
    flange_height: LengthField | None = Field(default=None, description="top of the flange above the subfloor")
    flange_thickness: LengthField | None = None
    detail: Literal["stops", "laps"] = Field(default="stops", description="board stops above the flange or laps it")
    play_low: LengthField | None = Field(default=None, description="default 1/16 (convention 3.2)")
    play_high: LengthField | None = Field(default=None, description="default 1/8")
    shimmed_play: bool = Field(default=False, description="its sheet allows play up to 1/4 with every stud shimmed")
    depths: tuple[LengthField, ...] = Field(default=(), description="depths at which play is asked for")
    outlet: Outlet | None = None
    skew_limit: LengthField | None = Field(default=None, description="of each wall over the pan; default 1/8")
    diagonal_limit: LengthField | None = Field(default=None, description="difference of diagonals; default 1/8")


class WayIn(Facts):
    """What the pan must pass on its way (convention 3.5)."""

    door: LengthField | None = Field(default=None, description="clear width of the narrowest door or turn")
    tilt_height: LengthField | None = Field(default=None, description="height the pan is tilted in from")


class PanFacts(Facts):
    """The pan, the drain, the way in."""

    pan: Pan = Field(default_factory=Pan)
    drain: Drain | None = None
    way_in: WayIn = Field(default_factory=WayIn)
