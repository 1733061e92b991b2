"""The rigid pan, its sheet, the drain it must meet and the way it goes in.

Sizes are actual, over the outside faces of the flanges at their widest (convention 3.1); a size off the
carton is nominal and is never used as one: leave it out and the tool asks.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Literal, Self

from pydantic import Field, model_validator

from undertile.lengths import LengthField
from undertile.survey.facts import Facts


class Outlet(Facts):
    """Where the pan's outlet is, from its outside left and back flange faces."""

    x: LengthField
    y: LengthField


class Drain(Facts):
    """Where the drain is, from the nominal planes of a side wall and of B, and how far it can float."""

    x: LengthField
    y: LengthField
    float_x: LengthField
    float_y: LengthField
    side: Literal["L", "R"] = Field(
        default="L", description="the side wall whose nominal plane x starts from"
    )


class Pan(Facts):
    """One rigid pan, measured."""

    width: LengthField | None = Field(default=None, description="actual, along the back wall")
    depth: LengthField | None = Field(default=None, description="actual, out from the back wall")
    carton_width: LengthField | None = Field(
        default=None, description="nominal, off the carton: never used as actual"
    )
    carton_depth: LengthField | None = None
    flange_height: LengthField | None = Field(
        default=None, description="top of the flange above the subfloor"
    )
    flange_thickness: LengthField | None = None
    detail: Literal["stops", "laps"] = Field(
        default="stops", description="board stops above the flange or laps it"
    )
    play_low: LengthField | None = Field(default=None, description="default 1/16 (convention 3.2)")
    play_high: LengthField | None = Field(default=None, description="default 1/8")
    shimmed_play: bool = Field(
        default=False, description="its sheet allows play up to 1/4 with every stud shimmed"
    )
    depths: tuple[LengthField, ...] = Field(default=(), description="depths at which play is asked for")
    outlet: Outlet | None = None
    threshold: LengthField | None = Field(
        default=None, description="width of the threshold, front to back, at the pan's front; 0 = none"
    )
    skew_limit: LengthField | None = Field(default=None, description="of each wall over the pan; default 1/8")
    diagonal_limit: LengthField | None = Field(
        default=None, description="difference of diagonals; default 1/8"
    )

    @model_validator(mode="after")
    def sizes_agree(self) -> Self:
        """A pan that cannot be: sizes of nothing, a window upside down, an outlet beside the pan."""
        wrong = [
            f"{name} is {size.text}; a pan's {name} is more than nothing"
            for name, size in (
                ("width", self.width),
                ("depth", self.depth),
                ("flange_height", self.flange_height),
            )
            if size is not None and size.inches <= 0
        ]
        low = Fraction(1, 16) if self.play_low is None else self.play_low.inches
        high = Fraction(1, 8) if self.play_high is None else self.play_high.inches
        if low < 0 or high < low:
            wrong.append(
                f"play_low {self.play_low.text if self.play_low else '1/16 (default)'} and play_high "
                f"{self.play_high.text if self.play_high else '1/8 (default)'} are no window; "
                "write 0 <= play_low <= play_high, both ends as the pan's sheet has them"
            )
        if self.outlet is not None:
            for name, at, size in (
                ("x", self.outlet.x, self.width),
                ("y", self.outlet.y, self.depth),
            ):
                if at.inches < 0 or (size is not None and at.inches > size.inches):
                    wrong.append(
                        f"outlet {name} {at.text} lies beside the pan; measure it from the outside "
                        f"{'left' if name == 'x' else 'back'} flange face"
                    )
        if wrong:
            raise ValueError("; ".join(wrong))
        return self


class WayIn(Facts):
    """What the pan must pass on its way (convention 3.5)."""

    door: LengthField | None = Field(default=None, description="clear width of the narrowest door or turn")
    tilt_height: LengthField | None = Field(default=None, description="height the pan is tilted in from")


class PanFacts(Facts):
    """The pan, the drain, the way in."""

    pan: Pan = Field(default_factory=Pan)
    drain: Drain | None = None
    way_in: WayIn = Field(default_factory=WayIn)
