"""One member's least cost over the plane, listed lazily.

A table holds the stacks that are cheapest somewhere, in rising cost. Stacks of two and three pieces and
tapers are priced at the least they could cost until the search meets that price, and only then listed.
"""

from __future__ import annotations

from collections.abc import Sequence

from undertile.framing.listing import Cell, Entry, Listing
from undertile.framing.option import FAR, Option

NONE: frozenset[int] = frozenset()


class Table:
    """The stacks of one member that are cheapest for some T, as far as one search has come to list them.

    Strips of two and three pieces, strips over planed wood and tapers are listed cell by cell (a cell is an
    eighth of an inch of T), only once the search has come down to a cell or two and to their least cost.

    Attributes
    ----------
    stamp : int
        How often something was listed.
    """

    def __init__(self, listing: Listing) -> None:
        self.listing = listing
        self.entries = listing.entries
        self.cell, self.origin, self.end = listing.cell, listing.origin, listing.end
        self.stamp = 0
        self._least = listing.least
        self._cells: dict[int, Cell] = {}
        self._under: dict[int, list[Entry]] = {}

    def _cell_at(self, index: int) -> Cell:
        found = self._cells.get(index)
        if found is None:
            found = self._cells[index] = self.listing.first(index)
        return found

    def expand(self, t0: float, t1: float, mask: int) -> bool:
        """List the next kind of stack in the cells under t0..t1; False when that is more than two cells."""
        first, last = self._range(t0, t1)
        if last - first > 1:
            return False
        for index in range(first, last + 1):
            cell = self._cell_at(index)
            at = next((i for i, level in enumerate(cell.later) if not level[4] & ~mask), None)
            if at is not None:
                self._cells[index] = self.listing.after(index, cell, at)
                self.stamp += 1
        return True

    def _range(self, t0: float, t1: float) -> tuple[int, int]:
        first = max(0, int((max(t0, self.origin) - self.origin) // self.cell))
        last = max(first, int((min(t1, self.end) - self.origin) // self.cell))
        return first, last

    def query(self, t0: float, t1: float, mask: int, out: frozenset[int] = NONE) -> tuple[int, Option | None]:
        """Least cost for some T in t0..t1 under the charges ``mask``, and a stack that has it.

        ``out`` holds the ids of stacks not to be used. (floor, None) when the least may be an unlisted stack;
        (FAR, None) when there is none.
        """
        cost, pick, _ = self.seek(t0, t1, mask, out, 0)
        return cost, pick

    def seek(
        self, t0: float, t1: float, mask: int, out: frozenset[int], place: int
    ) -> tuple[int, Option | None, int]:
        """As :meth:`query`, from a place in the list on; and the place it came to.

        No search over less of T, nor one that leaves out more, ends before that place.
        """
        under = self._under.get(mask)
        if under is None:
            under = self._under[mask] = self.listing.under(mask)
        best, pick = FAR, None
        for at in range(place, len(under)):
            cost, low, high, option, _ = under[at]
            if low <= t1 and high >= t0 and id(option) not in out:
                best, pick, place = cost, option, at
                break
        else:
            place = len(under)
        if best <= self._least or t1 < self.origin or t0 > self.end:
            return best, pick, place
        first = int((t0 - self.origin) // self.cell) if t0 > self.origin else 0
        last = int((min(t1, self.end) - self.origin) // self.cell)
        if last - first > 6:
            return self._least, None, place
        floor = FAR
        for index in range(first, last + 1):
            cell = self._cells.get(index) or self._cell_at(index)
            entries, least = cell.under.get(mask) or cell.listed(mask)
            if least < floor:
                floor = least
            for cost, low, high, option, _ in entries:
                if cost >= best:
                    break
                if low <= t1 and high >= t0 and id(option) not in out:
                    best, pick = cost, option
                    break
        if floor < best:
            return floor, None, place
        return best, pick, place

    def still(self, option: Option, stamp: int, t0: float, t1: float) -> bool:
        """Whether a stack that :meth:`query` gave over a wider range is what it gives over t0..t1.

        ``stamp`` is the table's when it was given. The stack lies in t0..t1; charges and stacks not to be
        used are the same. What is listed for the whole range of T comes before all that is listed later at no
        less; what a cell holds may since have been joined by its equal, and is not seen from another cell.
        """
        home = self.listing.homes.get(id(option))
        if home is None:
            return True
        if stamp != self.stamp:
            return False
        first, last = self._range(t0, t1)
        return first <= home <= last


class FixedTable:
    """A table that is given: a step term, a plate spot, a channelled member."""

    stamp = 0

    def __init__(self, entries: Sequence[Option]) -> None:
        self.entries: list[Entry] = sorted(
            ((o.cost, float(o.low), float(o.high), o, o.need) for o in entries), key=lambda e: e[0]
        )

    def query(self, t0: float, t1: float, mask: int, out: frozenset[int] = NONE) -> tuple[int, Option | None]:
        """As :meth:`Table.query`."""
        cost, pick, _ = self.seek(t0, t1, mask, out, 0)
        return cost, pick

    def seek(
        self, t0: float, t1: float, mask: int, out: frozenset[int], place: int
    ) -> tuple[int, Option | None, int]:
        """As :meth:`Table.seek`."""
        for at in range(place, len(self.entries)):
            cost, low, high, option, need = self.entries[at]
            if low <= t1 and high >= t0 and not need & ~mask and id(option) not in out:
                return cost, option, at
        return FAR, None, len(self.entries)

    def still(self, option: Option, stamp: int, t0: float, t1: float) -> bool:
        """As :meth:`Table.still`: nothing more comes."""
        return True

    def expand(self, t0: float, t1: float, mask: int) -> bool:
        """Nothing more to list."""
        return True


def fixed_option(
    cost: int, low: int, high: int, families: tuple[str, ...], need: int = 0, rides: bool = False
) -> Option:
    """A stack that is given: its cost and the closed interval of T where it is possible. [units]"""
    return Option(cost, low, high, families, 0, (), (), False, need, rides=rides)
