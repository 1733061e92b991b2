"""A pressure gauge in the unit of its dial: psi, bar or kPa; compared in psi, said as it reads.

One psi is 6.894757 kPa [1]_. What is asked for is rounded to the safe side, to a figure that a dial has.

.. [1] NIST Special Publication 811 (2008), appendix B.8: pound-force per square inch to kilopascal.
"""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from fractions import Fraction
from typing import Literal

Reads = Literal["psi", "bar", "kPa"]

_KPA = Fraction(6894757, 1000000)
PSI: dict[Reads, Fraction] = {"psi": Fraction(1), "bar": 100 / _KPA, "kPa": 1 / _KPA}
"""Psi in one."""
_STEP: dict[Reads, Decimal] = {"psi": Decimal(1), "bar": Decimal("0.1"), "kPa": Decimal(1)}


def psi(value: Decimal, reads: Reads) -> Fraction:
    """What a gauge shows, in psi.

    Parameters
    ----------
    value : Decimal
        As typed.
    reads : {"psi", "bar", "kPa"}

    Returns
    -------
    Fraction
    """
    return Fraction(value) * PSI[reads]


def at_least(value: float, reads: Reads) -> str:
    """A pressure to hold, as the gauge reads it, rounded up. [psi] in."""
    return f"{_exactly(Fraction(value), reads).quantize(_STEP[reads], ROUND_CEILING):f}"


def at_most(value: float, reads: Reads) -> str:
    """A pressure not to pass, as the gauge reads it, rounded down. [psi] in."""
    return f"{_exactly(Fraction(value), reads).quantize(_STEP[reads], ROUND_FLOOR):f}"


def mark(value: Decimal, reads: Reads) -> Decimal:
    """The coarsest mark allowed, as the gauge reads it: down to one figure, psi as they are. [psi] in."""
    if reads == "psi":
        return value
    its = _exactly(Fraction(value), reads)
    return its.quantize(Decimal(1).scaleb(its.adjusted()), ROUND_FLOOR)


def _exactly(value: Fraction, reads: Reads) -> Decimal:
    its = value / PSI[reads]
    return Decimal(its.numerator) / Decimal(its.denominator)
