"""Moist air: saturation pressure, humidity ratio, dew point, wet bulb [1]_.

Inside this module: deg C, Pa, shares. Relative humidity is a share 0..1 over water, over ice below
freezing. Standard pressure unless said.

References
----------
.. [1] ASHRAE Handbook, Fundamentals, Psychrometrics: equations (5), (6) saturation pressure (Hyland and
   Wexler 1983), (20) humidity ratio, (33), (35) wet bulb.
"""

from __future__ import annotations

from collections.abc import Callable
from math import exp, log

STANDARD_PA = 101325.0
_ZERO_K = 273.15
_TRIPLE = 0.01
_RATIO = 0.621945
"""Mass of a mole of water over that of dry air."""


def saturation_pa(celsius: float) -> float:
    """Saturation pressure of water vapour over ice or water [1]_.

    Parameters
    ----------
    celsius : float
        -100 to 200. [deg C]

    Returns
    -------
    float
        [Pa]
    """
    t = celsius + _ZERO_K
    if celsius <= _TRIPLE:
        return exp(
            -5.6745359e3 / t
            + 6.3925247
            - 9.677843e-3 * t
            + 6.2215701e-7 * t * t
            + 2.0747825e-9 * t**3
            - 9.484024e-13 * t**4
            + 4.1635019 * log(t)
        )
    return exp(
        -5.8002206e3 / t
        + 1.3914993
        - 4.8640239e-2 * t
        + 4.1764768e-5 * t * t
        - 1.4452093e-8 * t**3
        + 6.5459673 * log(t)
    )


def humidity_ratio(celsius: float, humidity: float, pressure: float = STANDARD_PA) -> float:
    """Mass of water vapour with a mass of dry air [1]_.

    Parameters
    ----------
    celsius : float
        [deg C]
    humidity : float
        Relative, 0..1.
    pressure : float
        [Pa]

    Returns
    -------
    float
        [kg/kg]
    """
    vapour = humidity * saturation_pa(celsius)
    return _RATIO * vapour / (pressure - vapour)


def dew_point(celsius: float, humidity: float) -> float:
    """Temperature at which this air begins to wet a surface, by bisection of the saturation pressure.

    Parameters
    ----------
    celsius : float
        [deg C]
    humidity : float
        Relative, 0 < humidity <= 1.

    Returns
    -------
    float
        To 1e-6. [deg C]
    """
    vapour = humidity * saturation_pa(celsius)
    return _bisect(lambda t: saturation_pa(t) - vapour, -100.0, celsius)


def wet_bulb(celsius: float, humidity: float, pressure: float = STANDARD_PA) -> float:
    """Thermodynamic wet-bulb temperature [1]_.

    Parameters
    ----------
    celsius : float
        [deg C]
    humidity : float
        Relative, 0..1.
    pressure : float
        [Pa]

    Returns
    -------
    float
        To 1e-6. [deg C]
    """
    actual = humidity_ratio(celsius, humidity, pressure)

    def excess(wet: float) -> float:
        held = humidity_ratio(wet, 1.0, pressure)
        if wet >= 0:
            of_air = ((2501 - 2.326 * wet) * held - 1.006 * (celsius - wet)) / (
                2501 + 1.86 * celsius - 4.186 * wet
            )
        else:
            of_air = ((2830 - 0.24 * wet) * held - 1.006 * (celsius - wet)) / (
                2830 + 1.86 * celsius - 2.1 * wet
            )
        return of_air - actual

    low = -100.0 if humidity <= 0 else dew_point(celsius, humidity)
    return _bisect(excess, low, celsius)


def humidity_at(celsius: float, ratio: float, pressure: float = STANDARD_PA) -> float:
    """Relative humidity of air that holds so much water, at another temperature: heating dries air.

    Parameters
    ----------
    celsius : float
        [deg C]
    ratio : float
        Humidity ratio. [kg/kg]
    pressure : float
        [Pa]

    Returns
    -------
    float
        0 or more; over 1 where the air could not hold it.
    """
    vapour = pressure * ratio / (_RATIO + ratio)
    return vapour / saturation_pa(celsius)


def _bisect(rising: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function crosses zero."""
    while high - low > 1e-7:
        middle = (low + high) / 2
        if rising(middle) > 0:
            high = middle
        else:
            low = middle
    return (low + high) / 2
