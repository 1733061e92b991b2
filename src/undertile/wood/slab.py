"""Wood that dries by Fick's law: the slab's mean and the moisture at a pin's depth [1]_.

One form for few terms (long times), one for short times; both faces open, or one sealed (then the slab is
half of one twice as thick). Also the thickness formula for boards, as a worked example.

References
----------
.. [1] Crank, The Mathematics of Diffusion, 2nd edition 1975, section 4.3, equations (4.17), (4.18), (4.20).
"""

from __future__ import annotations

from math import erfc, exp, log, pi, sin, sqrt

_ENOUGH = 1e-12
_MOST = 4000


def mean_left(fourier: float) -> float:
    """Share of the excess moisture that is left, mean over the slab, by the series [1]_.

    Parameters
    ----------
    fourier : float
        Diffusivity x time / thickness squared, both faces open, >= 0.

    Returns
    -------
    float
        1 at the start, 0 in the end.

    Examples
    --------
    >>> round(mean_left(0.1), 6)
    0.302118
    """
    if fourier < 1e-4:
        return mean_left_short(fourier)
    total = 0.0
    for n in range(_MOST):
        odd = 2 * n + 1
        term = exp(-odd * odd * pi * pi * fourier) / (odd * odd)
        total += term
        if term < _ENOUGH:
            break
    return 8 / (pi * pi) * total


def mean_left_short(fourier: float) -> float:
    """The same for short times: the loss goes with the square root of time.

    Parameters
    ----------
    fourier : float
        Under 0.05 it is right to 1 in 1000.

    Returns
    -------
    float

    Examples
    --------
    >>> round(mean_left_short(0.05), 6)
    0.495373
    """
    return 1 - 4 * sqrt(fourier / pi)


def left_at(place: float, fourier: float) -> float:
    """Share of the excess moisture that is left at a depth, by the series [1]_.

    Parameters
    ----------
    place : float
        Depth over thickness, 0..1.
    fourier : float
        Both faces open, > 0.

    Returns
    -------
    float
    """
    total = 0.0
    for n in range(_MOST):
        odd = 2 * n + 1
        size = exp(-odd * odd * pi * pi * fourier) / odd
        total += size * sin(odd * pi * place)
        if size < _ENOUGH:
            break
    return 4 / pi * total


def left_at_short(depth: float) -> float:
    """Share left at a depth before the other face is felt.

    Parameters
    ----------
    depth : float
        Over the length 2 sqrt(diffusivity x time).

    Returns
    -------
    float
    """
    return 1 - erfc(depth)


def slowest_days(thickness_m: float, diffusivity: float, faces: int = 2) -> float:
    """Time constant of the slowest part, which is all that is left in the end.

    Parameters
    ----------
    thickness_m : float
        [m]
    diffusivity : float
        [m2/s]
    faces : int
        Open faces: 2, or 1 where the other is sealed.

    Returns
    -------
    float
        [d]
    """
    length = thickness_m if faces == 2 else 2 * thickness_m
    return length * length / (pi * pi * diffusivity) / 86400


def board_days(thickness_in: float, vapour_mmhg: float) -> float:
    """Time constant of red oak boards, as found by experiment; a worked example, not used for framing.

    tau = L^1.52 / (0.0575 + 0.00142 p), a public worksheet's formula.

    Parameters
    ----------
    thickness_in : float
        [in]
    vapour_mmhg : float
        Saturation pressure at the drying temperature. [mm Hg]

    Returns
    -------
    float
        [d]
    """
    return float(thickness_in**1.52 / (0.0575 + 0.00142 * vapour_mmhg))


def days_to(start: float, goal: float, plateau: float, tau: float) -> float | None:
    """Days until an exponential reaches a goal: tau ln((M0 - E)/(Mg - E)); None = never.

    Parameters
    ----------
    start, goal, plateau : float
        [percent]
    tau : float
        [d]

    Returns
    -------
    float or None
        0 where it is there. [d]

    Examples
    --------
    >>> round(days_to(28, 15, 9, 4), 3)
    4.611
    """
    if start <= goal:
        return 0.0
    if plateau >= goal:
        return None
    return tau * log((start - plateau) / (goal - plateau))
