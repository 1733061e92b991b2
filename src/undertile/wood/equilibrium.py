"""The moisture content wood comes to in the room's air, and the air that would be dry enough [1]_.

References
----------
.. [1] Wood Handbook, FPL-GTR-190 (2010) and FPL-GTR-282 (2021), chapter 4, equation (4-5), Fahrenheit
   coefficients; the same table 4-2 in both. The equation knows no species, hysteresis or stress: wood that
   dries stands a little above it.
"""

from __future__ import annotations

from dataclasses import dataclass

from undertile.wood.air import dew_point, humidity_at, humidity_ratio
from undertile.wood.typed import fahrenheit_to_celsius

LOWEST_F, HIGHEST_F = 30.0, 210.0
"""Range of table 4-2; outside it no equilibrium is given. [deg F]"""
SOURCE = "wood-handbook-emc"


def equilibrium(fahrenheit: float, humidity: float) -> float:
    """Equilibrium moisture content of wood [1]_.

    Parameters
    ----------
    fahrenheit : float
        [deg F]
    humidity : float
        Relative, 0..1.

    Returns
    -------
    float
        Percent of the dry mass.

    Examples
    --------
    >>> round(equilibrium(70, 0.50), 1), round(equilibrium(70, 0.80), 1)
    (9.2, 16.0)
    """
    t, h = fahrenheit, humidity
    w = 330 + 0.452 * t + 0.00415 * t * t
    k = 0.791 + 0.000463 * t - 0.000000844 * t * t
    k1 = 6.34 + 0.000775 * t - 0.0000935 * t * t
    k2 = 1.09 + 0.0284 * t - 0.0000904 * t * t
    kh = k * h
    both = k1 * k2 * kh * kh
    return 1800 / w * (kh / (1 - kh) + (k1 * kh + 2 * both) / (1 + k1 * kh + both))


def humidity_for(moisture: float, fahrenheit: float) -> float | None:
    """The relative humidity that holds wood at a moisture content; None where none does.

    Parameters
    ----------
    moisture : float
        [percent]
    fahrenheit : float
        [deg F]

    Returns
    -------
    float or None
        0..1, to 1e-7.

    Examples
    --------
    >>> round(humidity_for(16, 70), 3)
    0.8
    """
    if moisture <= 0 or moisture >= equilibrium(fahrenheit, 1.0):
        return None
    low, high = 0.0, 1.0
    while high - low > 1e-7:
        middle = (low + high) / 2
        if equilibrium(fahrenheit, middle) > moisture:
            high = middle
        else:
            low = middle
    return (low + high) / 2


@dataclass(frozen=True)
class DryEnough:
    """Room air that would bring wood to a goal, from the air as it is.

    Attributes
    ----------
    goal, wanted : float
        The goal, and the equilibrium it takes to get there in good time (below it). [percent]
    now : float
        Equilibrium in the air as it is. [percent]
    enough : bool
        Whether the air as it is does.
    humidity : float or None
        Relative humidity wanted at the room's temperature. [0..1]
    fahrenheit : float or None
        Where heating the same air would do without taking water out of it, up to 95 F. [deg F]
    dew_point : float
        Of the air as it is: wood and glass colder than that get wet. [deg F]
    """

    goal: float
    wanted: float
    now: float
    enough: bool
    humidity: float | None
    fahrenheit: float | None
    dew_point: float


MARGIN = 2.0
"""The room's equilibrium lies this far below the goal before drying ends in good time (ours). [percent]"""
HOTTEST_F = 95.0
"""A room is not heated further to dry it (ours). [deg F]"""


def dry_enough(goal: float, fahrenheit: float, humidity: float, margin: float = MARGIN) -> DryEnough:
    """The air a goal asks for: drier at the same temperature, or the same air warmer.

    Parameters
    ----------
    goal : float
        [percent]
    fahrenheit : float
        [deg F]
    humidity : float
        Relative, 0 < humidity <= 1.
    margin : float
        [percent]

    Returns
    -------
    DryEnough
    """
    wanted = goal - margin
    now = equilibrium(fahrenheit, humidity)
    celsius = fahrenheit_to_celsius(fahrenheit)
    ratio = humidity_ratio(celsius, humidity)
    warmer = None
    if now > wanted:
        for degree in range(int(fahrenheit) + 1, int(HOTTEST_F) + 1):
            share = humidity_at(fahrenheit_to_celsius(degree), ratio)
            if equilibrium(degree, share) <= wanted:
                warmer = float(degree)
                break
    return DryEnough(
        goal,
        wanted,
        now,
        now <= wanted,
        humidity_for(wanted, fahrenheit),
        warmer,
        dew_point(celsius, humidity) * 9 / 5 + 32,
    )
