"""The two distributions the tests of an adjustment need: normal and chi-square.

The standard library has the normal one; the chi-square tail is the regularised incomplete gamma function,
by its series below the bend and its continued fraction above [1]_.

References
----------
.. [1] Abramowitz and Stegun, Handbook of Mathematical Functions, 6.5.29, 6.5.31 and 26.4.
"""

from __future__ import annotations

from math import exp, lgamma, log
from statistics import NormalDist

_NORMAL = NormalDist()
_TINY = 1e-300
_CLOSE = 1e-15
_MOST = 10_000


def normal_cdf(x: float) -> float:
    """Chance that a standard normal variable is at most ``x``."""
    return _NORMAL.cdf(x)


def two_sided(alpha: float) -> float:
    """Critical value of a standard normal test, both sides.

    Parameters
    ----------
    alpha : float
        Chance of a false rejection, 0 < alpha < 1.

    Returns
    -------
    float
    """
    return -_NORMAL.inv_cdf(alpha / 2)


def chi_square_tail(x: float, freedom: int) -> float:
    """Chance that a chi-square variable exceeds ``x`` [1]_.

    Parameters
    ----------
    x : float
        >= 0
    freedom : int
        Degrees of freedom, >= 1.

    Returns
    -------
    float
    """
    if x <= 0.0:
        return 1.0
    a, half = freedom / 2, x / 2
    scale = exp(a * log(half) - half - lgamma(a))
    if half < a + 1:
        term = total = 1.0 / a
        for n in range(1, _MOST):
            term *= half / (a + n)
            total += term
            if term < total * _CLOSE:
                break
        return max(0.0, 1.0 - scale * total)
    b = half + 1 - a  # continued fraction, modified Lentz
    c, d = 1 / _TINY, 1 / b
    fraction = d
    for n in range(1, _MOST):
        step = -n * (n - a)
        b += 2
        d = 1 / (step * d + b)
        c = b + step / c
        change = c * d
        fraction *= change
        if abs(change - 1) < _CLOSE:
            break
    return scale * fraction


def chi_square_limit(alpha: float, freedom: int) -> float:
    """The value a chi-square variable exceeds with chance ``alpha``, by bisection.

    Parameters
    ----------
    alpha : float
        0 < alpha < 1.
    freedom : int
        Degrees of freedom, >= 1.

    Returns
    -------
    float
        To within 1e-9 of itself.
    """
    low, high = 0.0, float(freedom) + 10.0
    while chi_square_tail(high, freedom) > alpha:
        low, high = high, 2 * high
    while high - low > 1e-9 * high:
        middle = (low + high) / 2
        if chi_square_tail(middle, freedom) > alpha:
            low = middle
        else:
            high = middle
    return (low + high) / 2
