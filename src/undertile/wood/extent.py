"""How far past the last bad point to open, and where the next reading would move that line.

Along a line of points (a plate from wall L round to wall R, a stud up from the floor, a joist, a row or
column of the subfloor in one layer) the wood is open to the first place that is both so far past the last
bad point and at or past a point read dry. What lies between a bad point and the next dry one is not known, so
the dry one sets the line when it is further off. The next place to probe is one where dry would bring the
line nearer *and* wet would push it out; where there is none, more probing changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

PAST = Fraction(12)
"""Sound, dry wood past the last bad spot (common practice). [in]"""

State = Literal["bad", "good", "unknown"]
Side = Literal["low", "high"]


@dataclass(frozen=True)
class Spot:
    """A place along a line: where, its state, and the point's name."""

    at: Fraction
    state: State
    name: str


@dataclass(frozen=True)
class Line:
    """Points along one piece of wood.

    Attributes
    ----------
    key : str
        ``plate``, ``stud B2``, ``joist J3``, ``subfloor 1, y 12``.
    spots : tuple of Spot
        By rising place.
    low, high : Fraction or None
        Where the line ends, if that is known: the wall, the plate. [in]
    """

    key: str
    spots: tuple[Spot, ...]
    low: Fraction | None = None
    high: Fraction | None = None


@dataclass(frozen=True)
class Probe:
    """The next place to read on one line.

    Attributes
    ----------
    at : Fraction
        [in]
    if_dry, if_wet : Fraction or None
        Where the line would be then; None = still open. [in]
    gain : Fraction
        The lesser of the two moves; of an open end, what is still to be found. [in]
    """

    at: Fraction
    if_dry: Fraction | None
    if_wet: Fraction | None
    gain: Fraction


@dataclass(frozen=True)
class CutLine:
    """Where to open to on one side of what is bad.

    Attributes
    ----------
    line : str
    side : Side
    bad : Spot
        The last bad point on this side.
    good : Spot or None
        The first dry point past it; None = none is read.
    at : Fraction or None
        Where to cut; None = not known, open further. [in]
    end : bool
        The wood ends before: it is open to its end, and what it stands against is looked at too.
    probe : Probe or None
        None = more probing would not move it.
    """

    line: str
    side: Side
    bad: Spot
    good: Spot | None
    at: Fraction | None
    end: bool
    probe: Probe | None


def cut_lines(
    lines: Iterable[Line], past: Fraction = PAST, step: Fraction = Fraction(1)
) -> tuple[CutLine, ...]:
    """Both sides of every line that has a bad point.

    Parameters
    ----------
    lines : iterable of Line
    past : Fraction
        [in]
    step : Fraction
        Probes are placed on multiples of it. [in]

    Returns
    -------
    tuple of CutLine
    """
    out = []
    for line in lines:
        bad = [spot for spot in line.spots if spot.state == "bad"]
        if bad:
            out += [_side(line, side, past, step) for side in ("low", "high")]
    return tuple(out)


def _side(line: Line, side: Side, past: Fraction, step: Fraction) -> CutLine:
    """The high side as it stands; the low one is its mirror."""
    sign = 1 if side == "high" else -1
    spots = sorted((Spot(sign * spot.at, spot.state, spot.name) for spot in line.spots), key=lambda s: s.at)
    end = line.high if side == "high" else line.low
    end = None if end is None else sign * end
    bad = [spot for spot in spots if spot.state == "bad"][-1]
    good = next((spot for spot in spots if spot.state == "good" and spot.at > bad.at), None)
    at = _cut(bad.at, None if good is None else good.at, past, end)
    reaches = end is not None and at == end
    probe = _probe(bad.at, good, at, past, end, step)

    def back(value: Fraction | None) -> Fraction | None:
        return None if value is None else sign * value

    return CutLine(
        line.key,
        side,
        Spot(sign * bad.at, bad.state, bad.name),
        None if good is None else Spot(sign * good.at, good.state, good.name),
        back(at),
        reaches,
        None if probe is None else Probe(sign * probe.at, back(probe.if_dry), back(probe.if_wet), probe.gain),
    )


def _cut(bad: Fraction, good: Fraction | None, past: Fraction, end: Fraction | None) -> Fraction | None:
    if end is not None and bad + past >= end:
        return end
    return None if good is None else max(bad + past, good)


def _probe(
    bad: Fraction,
    good: Spot | None,
    at: Fraction | None,
    past: Fraction,
    end: Fraction | None,
    step: Fraction,
) -> Probe | None:
    if end is not None and at == end:
        return None
    if good is None:
        place = ceil((bad + past) / step) * step
        if end is not None:
            place = min(place, end)
        return Probe(place, _cut(bad, place, past, end), _cut(place, None, past, end), past)
    if at is None or good.at <= bad + past:
        return None
    # dry at p brings the line to max(bad + past, p) < good; wet at p pushes it to p + past > good
    low, high = max(bad + past, good.at - past), good.at
    place = floor((low + high) / 2 / step) * step
    if not low < place < high:
        return None
    dry, wet = _cut(bad, place, past, end), _cut(place, good.at, past, end)
    if dry is None or wet is None or not dry < at < wet:
        return None
    return Probe(place, dry, wet, min(at - dry, wet - at))


def next_probe(cuts: Iterable[CutLine]) -> CutLine | None:
    """The side whose next reading tells most: open ends first, then the larger certain move."""
    wanted = [cut for cut in cuts if cut.probe is not None]
    if not wanted:
        return None
    return min(
        wanted,
        key=lambda cut: (
            cut.at is not None,
            -(cut.probe.gain if cut.probe else 0),
            cut.line,
            cut.side,
        ),
    )


@dataclass(frozen=True)
class Patch:
    """What is opened of one layer of the subfloor: a rectangle over the cut lines of its rows and columns.

    ``None`` on a side = not known yet, open further. [in from wall L, and out from wall B]
    """

    layer: int
    left: Fraction | None
    right: Fraction | None
    back: Fraction | None
    front: Fraction | None

    @property
    def bounded(self) -> bool:
        """Whether every side is known."""
        return None not in (self.left, self.right, self.back, self.front)


def patches(
    cuts: Iterable[CutLine], bad: Mapping[int, Iterable[tuple[Fraction, Fraction]]]
) -> tuple[Patch, ...]:
    """One rectangle for each layer with bad points.

    Parameters
    ----------
    cuts : iterable of CutLine
        Those of ``subfloor L, y ...`` rows and ``subfloor L, x ...`` columns.
    bad : mapping of layer to (x, y) pairs
        [in]

    Returns
    -------
    tuple of Patch
    """
    cuts = tuple(cuts)
    out = []
    for layer, places in sorted(bad.items()):
        if not list(places):
            continue
        sides: dict[str, list[Fraction | None]] = {"left": [], "right": [], "back": [], "front": []}
        for cut in cuts:
            if not cut.line.startswith(f"subfloor {layer}, "):
                continue
            row = f"subfloor {layer}, y " in cut.line
            name = (
                ("left" if cut.side == "low" else "right")
                if row
                else ("back" if cut.side == "low" else "front")
            )
            sides[name].append(cut.at)
        out.append(
            Patch(
                layer,
                _outer(sides["left"], least=True),
                _outer(sides["right"], least=False),
                _outer(sides["back"], least=True),
                _outer(sides["front"], least=False),
            )
        )
    return tuple(out)


def _outer(values: list[Fraction | None], *, least: bool) -> Fraction | None:
    known = [value for value in values if value is not None]
    if len(known) < len(values) or not known:
        return None
    return min(known) if least else max(known)
