"""The rigid pan, its sheet, the drain it must meet and the way it goes in.

Sizes are actual, over the outside faces of the flanges at their widest (convention 3.1); a size off the
carton is nominal and is never used as one: leave it out and the tool asks.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, Self

from pydantic import Field, model_validator

from undertile.bounds import OnceMeasured, Place, Size, Spare
from undertile.survey.facts import Facts


class Outlet(Facts):
    """Where the pan's outlet is, from its outside left and back flange faces."""

    x: Place
    y: Place


class Drain(Facts):
    """Where the drain is, from the nominal planes of a side wall and of B, and how far it can float."""

    x: Place
    y: Place
    float_x: Spare
    float_y: Spare
    side: Literal["L", "R"] = Field(
        default="L", description="the side wall whose nominal plane x starts from"
    )


class Pan(Facts):
    """One rigid pan, measured."""

    width: OnceMeasured | None = Field(default=None, description="actual, along the back wall")
    depth: OnceMeasured | None = Field(default=None, description="actual, out from the back wall")
    carton_width: Size | None = Field(
        default=None, description="nominal, off the carton: never used as actual"
    )
    carton_depth: Size | None = None
    flange_height: Size | None = Field(default=None, description="top of the flange above the subfloor")
    flange_thickness: Size | None = None
    detail: Literal["stops", "laps"] = Field(
        default="stops", description="board stops above the flange or laps it"
    )
    play_low: Spare | None = Field(default=None, description="default 1/16 (convention 3.2)")
    play_high: Spare | None = Field(default=None, description="default 1/8")
    shimmed_play: bool = Field(
        default=False, description="its sheet allows play up to 1/4 with every stud shimmed"
    )
    depths: tuple[Place, ...] = Field(default=(), description="depths at which play is asked for")
    outlet: Outlet | None = None
    threshold: Spare | None = Field(
        default=None, description="width of the threshold, front to back, at the pan's front; 0 = none"
    )
    skew_limit: Spare | None = Field(default=None, description="of each wall over the pan; default 1/8")
    diagonal_limit: Spare | None = Field(default=None, description="difference of diagonals; default 1/8")

    @model_validator(mode="after")
    def sizes_agree(self) -> Self:
        """A pan that cannot be: a window upside down, an outlet beside the pan."""
        wrong: list[str] = []
        low = Fraction(1, 16) if self.play_low is None else self.play_low.inches
        high = Fraction(1, 8) if self.play_high is None else self.play_high.inches
        if high < low:
            wrong.append(
                f"play_low {self.play_low.text if self.play_low else '1/16 (default)'} and play_high "
                f"{self.play_high.text if self.play_high else '1/8 (default)'} are no window; "
                "write play_low <= play_high, both ends as the pan's sheet has them"
            )
        if self.outlet is not None:
            for name, at, size in (
                ("x", self.outlet.x, self.width),
                ("y", self.outlet.y, self.depth),
            ):
                if size is not None and at.inches > size.inches:
                    wrong.append(
                        f"outlet {name} {at.text} lies beside the pan; measure it from the outside "
                        f"{'left' if name == 'x' else 'back'} flange face"
                    )
        if wrong:
            raise ValueError("; ".join(wrong))
        return self


class WayIn(Facts):
    """What the pan must pass on its way (convention 3.5)."""

    door: Size | None = Field(default=None, description="clear width of the narrowest door or turn")
    tilt_height: Size | None = Field(default=None, description="height the pan is tilted in from")


class PanFacts(Facts):
    """The pan, the drain, the way in."""

    pan: Pan = Field(default_factory=Pan)
    drain: Drain | None = None
    way_in: WayIn = Field(default_factory=WayIn)
