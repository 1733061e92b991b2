"""What a typed size can be at all: the bound that the trade gives a field, said in words where it is broken.

Only what cannot be is refused (a stock of no thickness, a float less than nothing). A reading taken in the
room is never refused here, however odd: it is judged, and said as a finding.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from undertile.errors import BoundError
from undertile.lengths import Length, LengthField, ReadingField
from undertile.sentence import Sentence

__all__ = [
    "Bound",
    "Lean",
    "Nominal",
    "Offset",
    "OnceMeasured",
    "Place",
    "Size",
    "Spare",
    "Window",
]


@dataclass(frozen=True)
class Bound:
    """The least and the most a length can be, in inches, and what is said where it is broken.

    Attributes
    ----------
    short : str
        As a list of keys has it.
    expected, do : str
        As a refusal prints them: no capital, no full stop.
    low, high : Fraction or None
        [in]
    above : bool
        ``low`` itself is too little.
    """

    short: str
    expected: str
    do: str
    low: Fraction | None = None
    high: Fraction | None = None
    above: bool = False

    def holds(self, inches: Fraction) -> bool:
        """Whether a length can be."""
        if self.low is not None and (inches < self.low or (self.above and inches == self.low)):
            return False
        return self.high is None or inches <= self.high

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_after_validator_function(self._checked, handler(source))

    def _checked(self, length: Length) -> Length:
        if not self.holds(length.inches):
            raise BoundError(self.expected, length.text or f"{length.inches} in", self.do)
        return length


_NOTHING = Fraction(0)
_FOOT = Fraction(12)
_MORE = Bound(
    "more than 0",
    Sentence("a size of more than 0"),
    Sentence("measure it and write what the rule shows, or leave it out"),
    _NOTHING,
    above=True,
)
_NO_LESS = Bound(
    "0 or more",
    Sentence("0 or more: a play, a gap or a limit has no sign"),
    Sentence("write it without a sign; 0 = none"),
    _NOTHING,
)
_FROM = Bound(
    "0 or more",
    Sentence("0 or more, from the floor, corner or face it is measured from"),
    Sentence("measure it from there and write it without a sign"),
    _NOTHING,
)
_NEAR = Bound(
    "within 12 in either way",
    Sentence("within 12 in of the wall's nominal plane, plus toward the room"),
    Sentence("write how far the plane is moved, not a reading"),
    -_FOOT,
    _FOOT,
)
_TURN = Bound(
    "within 6 in either way",
    Sentence("within 6 in either way, plus into the room"),
    Sentence("write how much the plane comes in over that length, not a reading"),
    -_FOOT / 2,
    _FOOT / 2,
)
_SHEET = Bound(
    "within 12 in either way",
    Sentence("within 12 in of the body's datum"),
    Sentence("write the two finish depths as the valve's sheet prints them"),
    -_FOOT,
    _FOOT,
)
_LINE = Bound(
    "0 or more",
    Sentence("0 or more: a line hangs in front of the wood"),
    Sentence("write the distance from the line to the face that counts as zero"),
    _NOTHING,
)

Size = Annotated[LengthField, _MORE]
"""A thing that is there has a size: thickness, width, length."""
OnceMeasured = Annotated[ReadingField, _MORE]
"""A size asked as an actual one; ``4-0`` says that the rule showed 4 in and no sixteenths."""
Spare = Annotated[LengthField, _NO_LESS]
"""A float, a play, an allowed step, a kerf, a limit: how much, without a side."""
Place = Annotated[LengthField, _FROM]
"""Where something is, from the subfloor, a corner or a face."""
Offset = Annotated[LengthField, _NEAR]
"""Of a plane, signed."""
Lean = Annotated[LengthField, _TURN]
"""Of a plane over its length or height, signed."""
Window = Annotated[LengthField, _SHEET]
"""A finish depth of a valve; less than 0 where its sheet counts from a guard in front of the wall."""
Nominal = Annotated[ReadingField, _LINE]
"""The reading that counts as offset zero: chosen, so it can be refused where a reading is not."""
