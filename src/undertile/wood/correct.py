"""From what the meter shows to a moisture content, or to a number that is only good for comparing.

Order: temperature, then species (ASTM D4444, D7438). Nothing is corrected where no published source can be
trusted: the number then stays as shown and is *relative*, for comparing with the same material dry in the
same building.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import hypot
from typing import Literal

from undertile.sentence import Sentence, form
from undertile.wood.species import LAST, SATURATION, Species, in_other_wood
from undertile.wood.typed import fahrenheit_to_celsius

Scale = Literal["moisture", "relative", "oven"]
Rule = Literal["half point", "formula"]

METER = 2.0
"""A pin meter against oven-dry, on lumber and panels: within 2 either way. [percent]"""
LEAST = 7.0
"""Under it the resistance is too high to be read well. [percent]"""
SET_AT_C = 20.0
"""The half-point rule is of a meter set at 20 C (68 F). [deg C]"""
PER_DEGREE = 0.1
"""The half-point rule: 1/2 percent for each 5 C. [percent/deg C]"""
TEMPERATURE_DOUBT = 0.1
"""The rules differ by about 1 at 10 C off and 15 percent. [percent/deg C]"""
NOT_SAID = 1.0
"""Wood whose temperature is not said may be 10 C off (ours). [percent]"""
SPECIES_DOUBT = 1.0
"""Two published ways of correcting one species differ by more than a point. [percent]"""
NO_SPECIES = 2.0
"""What is not corrected for species may lie so far off: the spread of the resistance table. [percent]"""
COLDEST_F, HOTTEST_F = 32.0, 122.0
"""Wood that a reading is corrected for: the furthest example of a meter maker's chart is 50 C; the cold end
is ours, frozen wood reads otherwise. Outside it nothing is known of the reading. [deg F]"""
OVEN = 0.5
"""Oven-dry method on a chip weighed to 1 in 200 (ours). [percent]"""

_HAIR = 1e-9

Because = Literal[
    "",
    "treated",
    "panel",
    "unknown stuff",
    "wet surface",
    "below range",
    "above saturation",
    "pad meter",
    "temperature",
    "slip",
    "nothing",
    "past range",
]


@dataclass(frozen=True)
class Corrected:
    """One reading, corrected or not.

    Attributes
    ----------
    shown : float
        The number that counts, as the meter showed it. [percent]
    value : float
        Corrected; as shown where the number is relative. [percent]
    scale : Scale
        ``relative``: good only beside the same material dry in the same building.
    because : Because
        Why it is relative.
    temperature, species : float or None
        What was added for each; None = not applied. [percent]
    give_or_take : float
        Ninety-five in a hundred, as far as the sources say. [percent]
    steps : tuple of str
        What was done and what was not, in words.
    source : str
    doubted : bool
        Whether the temperature it was corrected for is doubted: no date is worked from it.
    assumed : bool
        Whether the air's temperature was taken for the wood's, which nobody said.
    coldest : float or None
        What it would be in the coldest wood that is corrected for, where nothing tells how cold it was; None
        where something does. [percent]
    """

    shown: float
    value: float
    scale: Scale
    because: Because = ""
    temperature: float | None = None
    species: float | None = None
    give_or_take: float = METER
    steps: tuple[str, ...] = ()
    source: str = "meter-error"
    doubted: bool = False
    assumed: bool = False
    coldest: float | None = None

    @property
    def counts(self) -> bool:
        """Whether it is a reading of the wood at all: not where it was too hot or too cold to correct, where
        its decimal point may be in the wrong place and it would say dry, or where no wood is so dry."""
        return self.because not in ("temperature", "slip", "nothing")


SPECIES: dict[str, Sentence] = {
    "unknown": Sentence("unknown"),
    "Douglas-fir": Sentence("Douglas-fir"),
    "hem-fir": Sentence("hem-fir"),
    "spruce-pine-fir": Sentence("spruce-pine-fir"),
    "southern pine": Sentence("southern pine"),
    "western hemlock": Sentence("western hemlock"),
    "white fir": Sentence("white fir"),
    "Sitka spruce": Sentence("Sitka spruce"),
    "ponderosa pine": Sentence("ponderosa pine"),
    "redwood": Sentence("redwood"),
    "western redcedar": Sentence("western redcedar"),
}
PANELS = ("plywood", "OSB", "other panel")
_WHY: dict[Because, str] = {
    "treated": Sentence("treated wood reads high by an amount nobody publishes"),
    "panel": Sentence("glue and density shift a panel's reading, no correction is general"),
    "unknown stuff": Sentence("not known what it is"),
    "wet surface": Sentence("a wet surface bridges the pins"),
    "below range": Sentence("under 7 the meter cannot tell well"),
    "above saturation": Sentence("above fibre saturation the number says only wet"),
    "pad meter": Sentence("a pad meter reads density as well"),
    "slip": Sentence("its decimal point may be in the wrong place"),
    "nothing": Sentence("no room makes wood so dry"),
    "past range": Sentence("past what the meter can tell the number says only wet"),
    "temperature": Sentence("no correction is published for wood so hot or so cold"),
}


def relative_because(shown: float, material: str, meter: str, surface: str) -> Because:
    """Why a number cannot be corrected; "" where it can.

    Parameters
    ----------
    shown : float
        [percent]
    material, meter, surface : str
        As the facts have them.
    """
    if meter == "pad":
        return "pad meter"
    if surface == "wet":
        return "wet surface"
    if material == "treated":
        return "treated"
    if material in PANELS:
        return "panel"
    if material != "lumber":
        return "unknown stuff"
    if shown < LEAST:
        return "below range"
    return "above saturation" if shown > SATURATION else ""


@lru_cache(maxsize=16384)
def correct(
    shown: float,
    *,
    material: str = "lumber",
    species: Species = "unknown",
    scale: Species = "Douglas-fir",
    meter: str = "pin",
    surface: str = "dry",
    wood_f: float | None = None,
    compensates: bool = False,
    rule: Rule = "half point",
    meter_error: float = METER,
    doubted: bool = False,
    assumed: bool = False,
) -> Corrected:
    """A reading corrected for temperature and species, or left as it is and called relative.

    Parameters
    ----------
    shown : float
        [percent]
    material : str
    species, scale : Species
        Of the wood; what the meter is set to.
    meter : str
        ``pin`` or ``pad``.
    surface : str
        ``dry`` or ``wet``.
    wood_f : float or None
        Temperature of the wood; None = not measured, no correction. [deg F]
    compensates : bool
        The meter corrects for temperature itself.
    rule : Rule
    meter_error : float
        [percent]
    doubted : bool
        The temperature is doubted: it counts only where it makes the wood wetter.
    assumed : bool
        It is the room air's, the wood's is not said: it counts only where it makes the wood wetter too.

    Returns
    -------
    Corrected
    """
    because = relative_because(shown, material, meter, surface)
    if not because and wood_f is not None and not compensates and not COLDEST_F <= wood_f <= HOTTEST_F:
        because = "temperature"
    if because:
        return _left(shown, because, meter_error)
    doubts, steps = [meter_error], []
    added, doubt, said = _for_temperature(shown, wood_f, compensates, rule)
    doubted = doubted and added is not None
    if doubted and added is not None and added < 0:
        added, said = None, Sentence("temperature of the wood doubted: nothing is taken off for it")
    if assumed and added is not None:
        # not said is not known to be warm
        added, doubt, said = _for_air(added, doubt, wood_f)
    doubts.append(doubt)
    steps.append(said)
    value = shown + (added or 0.0)
    more, doubt, said = _for_species(value, scale, species)
    doubts.append(doubt)
    steps.append(said)
    value += more or 0.0
    if not LEAST - _HAIR <= value <= SATURATION + _HAIR:
        # what the corrections carry past what a meter can tell is no number either
        return _left(shown, "below range" if value < LEAST else "above saturation", meter_error)
    source = "fpl-gtr-6" if more else "pin-temperature" if added else "meter-error"
    return Corrected(
        shown,
        value,
        "moisture",
        "",
        added,
        more,
        hypot(*doubts),
        tuple(steps),
        source,
        doubted,
        assumed and added is not None,
        _in_the_cold(shown, scale, species, rule) if wood_f is None and not compensates else None,
    )


def _for_air(added: float, doubt: float, air_f: float | None) -> tuple[float | None, float, str]:
    """What the air's temperature adds where the wood's is not said; never takes off."""
    if added <= 0:
        return _for_temperature(0.0, None, False, "half point")
    said = Sentence(
        "temperature of the wood not said, taken as the air's, {air} F: {added}",
        air=f"{air_f:.0f}",
        added=f"{added:+.1f}",
    )
    return added, hypot(doubt, NOT_SAID), said


def _in_the_cold(shown: float, scale: Species, species: Species, rule: Rule) -> float:
    """The same reading in the coldest wood that is corrected for. [percent]"""
    added, _, _ = _for_temperature(shown, COLDEST_F, False, rule)
    value = shown + (added or 0.0)
    return value + (_for_species(value, scale, species)[0] or 0.0)


def _left(shown: float, because: Because, meter_error: float) -> Corrected:
    """A number that is not corrected, and why."""
    left = Sentence("left as shown: {why}; compare with the same stuff dry in this house", why=_WHY[because])
    source = "meter-limits"
    if because == "temperature":
        left, source = Sentence("not used: {why}", why=_WHY[because]), "pin-temperature-range"
    elif because == "slip":
        left, source = Sentence("not used: {why}", why=_WHY[because]), "reading-slip"
    elif because == "nothing":
        left, source = Sentence("not used: {why}", why=_WHY[because]), "wood-handbook-emc"
    return Corrected(
        shown, shown, "relative", because, give_or_take=meter_error, steps=(left,), source=source
    )


def left(shown: float, because: Because, meter_error: float = METER) -> Corrected:
    """A number as it was shown, for a reason that is not the wood's (``wood.slip``, ``wood.holes``)."""
    return _left(shown, because, meter_error)


def _for_temperature(
    shown: float, wood_f: float | None, compensates: bool, rule: Rule
) -> tuple[float | None, float, str]:
    if compensates:
        return None, 0.0, Sentence("temperature: the meter corrects for it")
    if wood_f is None:
        return None, NOT_SAID, Sentence("temperature of the wood not measured: not corrected")
    celsius = fahrenheit_to_celsius(wood_f)
    doubt = TEMPERATURE_DOUBT * abs(celsius - SET_AT_C)
    added = half_point(celsius) if rule == "half point" else by_formula(shown, celsius) - shown
    said = form("temperature {wood} F: {added} (half a point for each 5 C from 20 C)")
    if rule != "half point":
        said = form("temperature {wood} F: {added} (Canadian formula)")
    return added, doubt, Sentence(said, wood=f"{wood_f:.0f}", added=f"{added:+.1f}")


def half_point(celsius: float) -> float:
    """What a meter maker's rule adds to a reading: 1/2 percent for each 5 C below 20 C, less above.

    Parameters
    ----------
    celsius : float
        Of the wood. [deg C]

    Returns
    -------
    float
        [percent]
    """
    return PER_DEGREE * (SET_AT_C - celsius)


def by_formula(shown: float, celsius: float) -> float:
    """A reading corrected for temperature by Pfaff and Garrahan's formula (from memory; behind a switch).

    Parameters
    ----------
    shown : float
        [percent]
    celsius : float
        Of the wood. [deg C]

    Returns
    -------
    float
        [percent]

    Examples
    --------
    >>> round(by_formula(15, 10), 2)
    16.44
    """
    x = celsius
    return float((shown + 0.567 - 0.0260 * x + 0.000051 * x * x) / (0.881 * 1.0056**x))


def _for_species(value: float, scale: Species, species: Species) -> tuple[float | None, float, str]:
    if species == "unknown":
        return None, NO_SPECIES, Sentence("species not known: not corrected")
    if scale == "unknown":
        said = Sentence("not known which species the meter is set to: not corrected")
        return None, NO_SPECIES, said
    if scale == species:
        return None, 0.0, Sentence("species: the meter is set to {species}", species=SPECIES[species])
    found = in_other_wood(value, scale, species)
    if found is None:
        lacks = Sentence(
            "species: no published figure for {species}; not corrected", species=SPECIES[species]
        )
        if value > LAST:
            lacks = Sentence(
                "species: no published figure for {species} at more than {most}; not corrected",
                species=SPECIES[species],
                most=LAST,
            )
        return None, NO_SPECIES, lacks
    added = found.moisture - value
    doubt = hypot(SPECIES_DOUBT, found.spread)
    said = Sentence(
        "species {species}, meter set to {scale}: {added} (resistance table)",
        species=SPECIES[species],
        scale=SPECIES[scale],
        added=f"{added:+.1f}",
    )
    return added, doubt, said


def oven_dry(wet: float, dry: float) -> Corrected:
    """Moisture content of a chip weighed wet, dried at 103 C for 24 h, and weighed again.

    Parameters
    ----------
    wet, dry : float
        In one unit of mass, dry > 0.

    Returns
    -------
    Corrected

    Examples
    --------
    >>> oven_dry(136, 100).value
    36.0
    """
    moisture = 100 * (wet - dry) / dry
    said = Sentence("a chip dried in an oven and weighed before and after: no meter in it")
    return Corrected(moisture, moisture, "oven", give_or_take=OVEN, steps=(said,), source="astm-d4442")
