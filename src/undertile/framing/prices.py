"""Every price of the framing work by name: the default, where it comes from, and what the person changed.

Names are those of ``FramingFacts.prices``. Minutes are of one person, before the factor for an occupied
house; a stack is two men, counted as both.
"""

from __future__ import annotations

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from decimal import Decimal
from fractions import Fraction

from undertile.framing.facts import FramingFacts
from undertile.framing.problem import Prices

OCCUPIED = Fraction(3, 2)
"""Minutes in an occupied house with containment (convention 4.3)."""
MOST = 100_000
"""No single price of a shower is over this; a larger one is a slip."""


@dataclass(frozen=True)
class Price:
    """One default.

    Attributes
    ----------
    value : Fraction
        Minutes, or dollars where ``dollars``.
    what : str
        In the trade's words.
    source : str
        Key into ``sources``.
    dollars : bool
    """

    value: Fraction
    what: str
    source: str = "convention-4"
    dollars: bool = False


def _minutes(value: str, what: str, source: str = "convention-4") -> Price:
    return Price(Fraction(value), what, source)


def _dollars(value: str, what: str, source: str = "convention-4") -> Price:
    return Price(Fraction(value), what, source, dollars=True)


DEFAULTS: dict[str, Price] = {
    "plane_setup": _minutes("9", "set up to plane a stud"),
    "plane_dollars": _dollars("0.5", "blade share of a planed stud"),
    "plane_pass": _minutes("1.5", "one planing pass of 1/16"),
    "plate_edge": _minutes("8", "plane the plate edge, once a wall"),
    "strip_thin": _minutes("7", "first strip of a stud, none over 1/4 thick"),
    "strip_thick": _minutes("10", "first strip of a stud, one over 1/4 thick"),
    "strip_more": _minutes("4", "each further strip of a stud"),
    "taper_first": _minutes("15", "first tapered rip of a wall"),
    "taper_next": _minutes("12", "each next tapered rip"),
    "taper_dollars": _dollars("3", "wood of a tapered rip"),
    "sister": _minutes("22", "sister a stud, clear bay"),
    "sister_wire": _minutes("35", "sister a stud, pipe or wire in the bay, or not known"),
    "sister_dollars": _dollars("5", "lumber of a sister"),
    "replace": _minutes("35", "replace a stud that bears nothing"),
    "replace_bearing": _minutes("65", "replace a bearing stud, or one not known"),
    "replace_dollars": _dollars("5", "lumber of a new stud"),
    "shoring": _minutes("30", "shore a wall, once"),
    "reset_steel": _minutes("12", "re-set a steel stud in its track", "practice-minutes"),
    "reset_steel_dollars": _dollars("10", "a steel stud", "practice-minutes"),
    "knock": _minutes("15", "knock a stud's foot over"),
    "wet_bed": _minutes("6", "wet bed on a stud"),
    "wet_bed_dollars": _dollars("0.5", "mortar share of a wet bed (ours)"),
    "flange_shim": _minutes("1", "plastic shim behind the flange at a stud"),
    "flange_shim_dollars": _dollars("0.15", "a plastic shim"),
    "channel_row": _minutes("9", "one row of channel up to 5 ft"),
    "channel_row_dollars": _dollars("35/8", "stick share of a row up to 5 ft (ours: $10.50 for 12 ft)"),
    "reblock_valve": _minutes("25", "re-block the valve"),
    "reblock_valve_dollars": _dollars("3", "blocking of the valve"),
    "corner_backer": _minutes("10", "backer at an inside corner"),
    "corner_backer_dollars": _dollars("3", "wood of a corner backer"),
    "nail_plate": _minutes("3", "nail plate let in flush"),
    "nail_plate_dollars": _dollars("0.9", "a nail plate"),
    "move_supply": _minutes("90", "move a supply pipe", "practice-minutes"),
    "move_drain": _minutes("210", "move a drain or vent", "practice-minutes"),
    "move_stack": _minutes("780", "move a stack, two men", "practice-minutes"),
    "verify": _minutes("6", "verify a wall with straightedge and laser"),
}


@dataclass(frozen=True)
class PriceList:
    """What each piece of work costs on this job.

    Attributes
    ----------
    values : mapping of name to Fraction
        Every name of ``DEFAULTS``.
    rate : Fraction
        Dollars an hour.
    factor : Fraction
        On minutes.
    """

    values: Mapping[str, Fraction]
    rate: Fraction
    factor: Fraction

    def __getitem__(self, name: str) -> Fraction:
        return self.values[name]

    def problem_prices(self) -> Prices:
        """The prices the planner reads."""
        names = {field.name for field in fields(Prices)} & set(self.values)
        return Prices(rate=self.rate, factor=self.factor, **{name: self.values[name] for name in names})


def read_prices(facts: FramingFacts) -> tuple[PriceList, tuple[str, ...]]:
    """The job's prices: defaults and what the person changed.

    Parameters
    ----------
    facts : FramingFacts

    Returns
    -------
    prices : PriceList
        Not for use when there is a problem.
    problems : tuple of str
        One line for each price, rate or minutes that cannot be used.
    """
    values = {name: price.value for name, price in DEFAULTS.items()}
    problems = []
    for name, change in facts.prices.items():
        if name not in DEFAULTS:
            close = difflib.get_close_matches(name, DEFAULTS, n=1, cutoff=0.0)
            problems.append(f"framing.prices.{name} is no price of this job; the nearest is {close[0]}")
        elif not usable(change):
            problems.append(_refusal(f"framing.prices.{name}", change))
        else:
            values[name] = Fraction(change)
    for less, more in (("taper_next", "taper_first"), ("strip_thin", "strip_thick")):
        if values[less] > values[more]:
            problems.append(
                f"framing.prices.{less} is {_print(values[less])} and framing.prices.{more} is "
                f"{_print(values[more])}; expected {less} not over {more}"
            )
    if not usable(facts.rate):
        problems.append(_refusal("framing.rate", facts.rate))
    for name, item in facts.stock.items():
        if not usable(item.price):
            problems.append(_refusal(f"framing.stock.{name}.price", item.price))
    for name, thing in facts.things.items():
        if thing.minutes is not None and not usable(thing.minutes):
            problems.append(_refusal(f"framing.things.{name}.minutes", thing.minutes))
    if problems:
        return PriceList(values, Fraction(0), Fraction(1)), tuple(problems)
    factor = OCCUPIED if facts.occupied else Fraction(1)
    return PriceList(values, Fraction(facts.rate), factor), tuple(problems)


def usable(value: Decimal) -> bool:
    """Whether a figure is minutes or dollars as people write them: 0 to 100000, to 1/10000 at the finest."""
    exponent = value.as_tuple().exponent
    return isinstance(exponent, int) and exponent >= -4 and 0 <= value <= MOST


def _refusal(where: str, value: Decimal) -> str:
    text = str(value)
    shown = text if len(text) <= 24 else text[:20] + "..."
    return f"{where} is {shown}; expected minutes or dollars from 0 to {MOST}, at most four decimals"


def _print(value: Fraction) -> str:
    return str(value) if value.denominator == 1 else f"{float(value):g}"
