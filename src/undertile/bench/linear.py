"""Linear models in exact numbers, before any solver sees them.

A ``Model`` is variables, rows ``low <= expression <= high`` that may hold only ``unless`` some 0-1 variables
are 1 or only ``when`` some are, and an objective to make least. ``milp`` and ``cpsat`` hand it to a solver.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import gcd, lcm

Number = Fraction | int


@dataclass(frozen=True)
class Var:
    """A variable: its place in the model, its bounds, and whether it is whole."""

    index: int
    name: str
    low: Fraction
    high: Fraction
    whole: bool

    def __add__(self, other: Lin | Var | Number) -> Lin:
        return Lin.of(self) + other

    def __radd__(self, other: Number) -> Lin:
        return Lin.of(self) + other

    def __sub__(self, other: Lin | Var | Number) -> Lin:
        return Lin.of(self) - other

    def __rsub__(self, other: Number) -> Lin:
        return other - Lin.of(self)

    def __mul__(self, factor: Number) -> Lin:
        return Lin.of(self) * factor

    __rmul__ = __mul__


@dataclass(frozen=True)
class Lin:
    """A linear expression: coefficients by variable index, and a constant."""

    terms: dict[int, Fraction]
    constant: Fraction = Fraction(0)

    @staticmethod
    def of(value: Lin | Var | Number) -> Lin:
        """Any operand as an expression."""
        if isinstance(value, Lin):
            return value
        if isinstance(value, Var):
            return Lin({value.index: Fraction(1)})
        return Lin({}, Fraction(value))

    def __add__(self, other: Lin | Var | Number) -> Lin:
        other = Lin.of(other)
        terms = dict(self.terms)
        for index, c in other.terms.items():
            terms[index] = terms.get(index, Fraction(0)) + c
        return Lin(terms, self.constant + other.constant)

    __radd__ = __add__

    def __mul__(self, factor: Number) -> Lin:
        factor = Fraction(factor)
        return Lin({index: c * factor for index, c in self.terms.items()}, self.constant * factor)

    __rmul__ = __mul__

    def __sub__(self, other: Lin | Var | Number) -> Lin:
        return self + Lin.of(other) * -1

    def __rsub__(self, other: Number) -> Lin:
        return self * -1 + other


ZERO = Lin({})


@dataclass(frozen=True)
class Row:
    """``low <= terms <= high`` (constant already moved over), unless / when 0-1 variables are 1."""

    terms: tuple[tuple[int, Fraction], ...]
    low: Fraction | None
    high: Fraction | None
    unless: tuple[Var, ...] = ()
    when: tuple[Var, ...] = ()


@dataclass
class Model:
    """Variables, rows and what is made least."""

    variables: list[Var] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    objective: Lin = ZERO

    def var(self, name: str, low: Number, high: Number, *, whole: bool = True) -> Var:
        """A new variable, whole unless said."""
        made = Var(len(self.variables), name, Fraction(low), Fraction(high), whole)
        self.variables.append(made)
        return made

    def yes(self, name: str) -> Var:
        """A new 0-1 variable."""
        return self.var(name, 0, 1)

    def hold(
        self,
        low: Number | None,
        expression: Lin | Var,
        high: Number | None,
        *,
        unless: tuple[Var, ...] = (),
        when: tuple[Var, ...] = (),
    ) -> None:
        """Demand ``low <= expression <= high``; with conditions each side becomes a row of its own."""
        lin = Lin.of(expression)
        terms = tuple(sorted((index, c) for index, c in lin.terms.items() if c))
        bottom = None if low is None else low - lin.constant
        top = None if high is None else high - lin.constant
        if not (unless or when):
            self.rows.append(Row(terms, bottom, top))
            return
        if bottom is not None:
            self.rows.append(Row(terms, bottom, None, unless, when))
        if top is not None:
            self.rows.append(Row(terms, None, top, unless, when))

    def least(self, *cost: tuple[Lin | Var, Number]) -> None:
        """Add ``cost x expression`` to what is made least."""
        for expression, each in cost:
            self.objective = self.objective + Lin.of(expression) * each

    def span(self, row: Row) -> tuple[Fraction, Fraction]:
        """Least and most the terms of a row can come to within the bounds of the variables."""
        low = high = Fraction(0)
        for index, c in row.terms:
            ends = (c * self.variables[index].low, c * self.variables[index].high)
            low += min(ends)
            high += max(ends)
        return low, high


def total(parts: list[Lin] | list[Var] | list[Lin | Var]) -> Lin:
    """The sum of expressions."""
    terms: dict[int, Fraction] = {}
    constant = Fraction(0)
    for part in parts:
        lin = Lin.of(part)
        constant += lin.constant
        for index, c in lin.terms.items():
            terms[index] = terms.get(index, Fraction(0)) + c
    return Lin(terms, constant)


def grain(objective: Lin) -> Fraction:
    """The greatest step of which every cost is a whole multiple, the constant apart. [dollars]"""
    terms = [c for c in objective.terms.values() if c]
    if not terms:
        return Fraction(1)
    bottom = lcm(*(c.denominator for c in terms))
    return Fraction(gcd(*(int(c * bottom) for c in terms)), bottom)
