"""What differs from wood to wood: resistance at a moisture content, and shrinkage.

Resistance: FPL-GTR-6 (James 1988), table 1, recalled and not re-read in a stored copy: megohms at 80 F
between two pairs of needle electrodes 1-1/4 in apart, 5/16 in deep. Shrinkage: Wood Handbook (FPL-GTR-190),
table 4-3, percent from green to ovendry; Douglas-fir, the firs and western redcedar read in a public copy,
the rest recalled.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from math import log
from typing import Literal

Species = Literal[
    "unknown",
    "Douglas-fir",
    "hem-fir",
    "spruce-pine-fir",
    "southern pine",
    "western hemlock",
    "white fir",
    "Sitka spruce",
    "ponderosa pine",
    "redwood",
    "western redcedar",
]
"""As a grade stamp names it; a stamp may name a group of woods that are sold mixed."""

FIRST, LAST = 7, 25
"""Range of the resistance table. [percent]"""

_MEGOHMS: dict[str, tuple[float, ...]] = {
    "Douglas-fir": (
        *(22400, 4780, 1660, 630, 265, 120, 60, 33, 18.6, 11.2, 7.1, 4.6, 3.09, 2.14, 1.51, 1.10),
        *(0.79, 0.60, 0.46),
    ),
    "western hemlock": (
        *(22900, 5620, 2040, 850, 400, 185, 98, 51, 28.2, 16.2, 10.0, 6.0, 3.89, 2.52, 1.58, 1.05),
        *(0.72, 0.51, 0.37),
    ),
    "white fir": (
        *(57600, 15850, 3980, 1120, 415, 180, 83, 46, 26.9, 16.6, 11.0, 6.6, 4.47, 3.02, 2.14, 1.55),
        *(1.12, 0.86, 0.62),
    ),
    "Sitka spruce": (
        *(22400, 5890, 2140, 830, 365, 165, 83, 44, 25.1, 15.5, 9.8, 6.3, 4.27, 3.02, 2.14, 1.58),
        *(1.17, 0.91, 0.71),
    ),
    "longleaf pine": (
        *(25000, 8700, 3160, 1320, 575, 270, 135, 74, 41.7, 24.0, 14.4, 8.9, 5.76, 3.72, 2.46, 1.66),
        *(1.15, 0.79, 0.60),
    ),
    "shortleaf pine": (
        *(43600, 11750, 3720, 1350, 560, 255, 130, 69, 38.9, 22.4, 13.8, 8.7, 5.76, 3.80, 2.63, 1.82),
        *(1.29, 0.93, 0.66),
    ),
    "ponderosa pine": (
        *(39800, 8910, 3310, 1410, 645, 300, 150, 81, 44.7, 25.1, 14.8, 9.1, 5.62, 3.55, 2.34, 1.62),
        *(1.15, 0.87, 0.69),
    ),
    "redwood": (
        *(22400, 4680, 1550, 615, 250, 100, 45, 22, 12.6, 7.2, 4.7, 3.2, 2.29, 1.74, 1.32, 1.05),
        *(0.85, 0.71, 0.60),
    ),
}
_LOGS = {name: tuple(log(value) for value in row) for name, row in _MEGOHMS.items()}
_FALLING = {name: [-value for value in row] for name, row in _LOGS.items()}

_WOODS: dict[Species, tuple[str, ...]] = {
    "Douglas-fir": ("Douglas-fir",),
    "hem-fir": ("western hemlock", "white fir"),
    "southern pine": ("longleaf pine", "shortleaf pine"),
    "western hemlock": ("western hemlock",),
    "white fir": ("white fir",),
    "Sitka spruce": ("Sitka spruce",),
    "ponderosa pine": ("ponderosa pine",),
    "redwood": ("redwood",),
}
"""Species without a row (spruce-pine-fir, western redcedar, unknown) get no correction."""


@dataclass(frozen=True)
class OtherWood:
    """A reading as the other wood would have it.

    Attributes
    ----------
    moisture : float
        Mean of the woods the stamp names. [percent]
    spread : float
        Half the difference between them. [percent]
    """

    moisture: float
    spread: float


def in_other_wood(reading: float, scale: Species, wood: Species) -> OtherWood | None:
    """The moisture content of a wood whose resistance a meter reads on another wood's scale.

    The logarithm of the resistance is taken as straight between the rows of the table.

    Parameters
    ----------
    reading : float
        On the meter's scale. [percent]
    scale, wood : Species
        What the meter is set to, and what it was pushed into.

    Returns
    -------
    OtherWood or None
        None where the table has no row for one of them, or does not reach (7 to 25).

    Examples
    --------
    >>> found = in_other_wood(15, "Douglas-fir", "southern pine")
    >>> round(found.moisture, 1)
    16.4
    """
    if scale == wood and scale != "unknown":
        return OtherWood(reading, 0.0)
    if scale not in _WOODS or wood not in _WOODS or not FIRST <= reading <= LAST:
        return None
    found = []
    for own in _WOODS[scale]:
        resistance = _log_resistance(own, reading)
        for other in _WOODS[wood]:
            moisture = _moisture(other, resistance)
            if moisture is None:
                return None
            found.append(moisture)
    return OtherWood(sum(found) / len(found), (max(found) - min(found)) / 2)


def _log_resistance(wood: str, moisture: float) -> float:
    row = _LOGS[wood]
    at = min(int(moisture - FIRST), len(row) - 2)
    return row[at] + (row[at + 1] - row[at]) * (moisture - FIRST - at)


def _moisture(wood: str, resistance: float) -> float | None:
    row = _LOGS[wood]
    if not row[-1] <= resistance <= row[0]:
        return None
    at = min(bisect_right(_FALLING[wood], -resistance) - 1, len(row) - 2)
    return FIRST + at + (row[at] - resistance) / (row[at] - row[at + 1])


SHRINKAGE: dict[Species, tuple[float, float]] = {
    "Douglas-fir": (4.8, 7.6),
    "hem-fir": (4.2, 7.8),
    "spruce-pine-fir": (4.3, 7.8),
    "southern pine": (5.1, 7.7),
    "western hemlock": (4.2, 7.8),
    "white fir": (3.3, 7.0),
    "Sitka spruce": (4.3, 7.5),
    "ponderosa pine": (3.9, 6.2),
    "redwood": (2.6, 4.9),
    "western redcedar": (2.4, 5.0),
    "unknown": (5.1, 7.8),
}
"""Radial and tangential, green to ovendry; a group: the largest of its woods; unknown: the largest of all.
[percent]"""

SATURATION = 30.0
"""Moisture content under which wood shrinks, and over which a meter only says wet (Wood Handbook ch. 4;
25 to 30 by source). [percent]"""


def change_coefficients(species: Species) -> tuple[float, float]:
    """Change of size for each percent of moisture, radial and tangential, about 10 percent.

    From the shrinkage by C = S / (3000 - 20 S): shrinkage S straight from 30 to 0, referred to the size at 10
    percent. It gives the handbook's table 13-5.

    Parameters
    ----------
    species : Species

    Returns
    -------
    radial, tangential : float
        Share of the size at 10 percent, a percent.

    Examples
    --------
    >>> [round(c, 5) for c in change_coefficients("Douglas-fir")]
    [0.00165, 0.00267]
    """
    radial, tangential = SHRINKAGE[species]
    return radial / (3000 - 20 * radial), tangential / (3000 - 20 * tangential)
