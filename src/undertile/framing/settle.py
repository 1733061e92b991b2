"""Faces at a chosen plane: where planing may stop so that every straightedge rule holds.

Only planed heights are free: each may stop at any planing step its band allows. A straightedge row asks one
reading (the dip) to lie not too far under others, so raising a dip never breaks the row that asked for it and
the least faces that meet every row are found by raising from the lowest (a least fixed point: if it runs into
a face that cannot be raised, no choice of depths would do at this plane).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from undertile.framing.flatness import WallRow
from undertile.framing.frame import WallFrame
from undertile.framing.listing import LimitKey
from undertile.framing.option import Option

Value = Fraction | int


@dataclass(frozen=True)
class Settled:
    """Faces of one wall in its leaning frame, per member and height. [units]"""

    faces: tuple[tuple[Value, ...], ...]


def ranges(
    frame: WallFrame, member: int, pick: Option, t: Fraction, limits: LimitKey
) -> list[tuple[Value, Value]]:
    """Lowest and highest face at each height for one stack at one T. [units]"""
    shape = frame.shapes[member]
    n = len(shape.faces)
    if pick.rides:
        return [(t, t)] * n
    if pick.bedded:
        out: list[tuple[Value, Value]] = []
        for h in range(n):
            f: Value = shape.faces[h]
            if not shape.flange[h] and f < t - shape.sixteenth:
                f = t
            out.append((f, f))
        return out
    bounds = {h: (least, most) for h, least, most in limits}
    dried = {h: least + shape.back for h, (least, _) in bounds.items() if h >= n}
    band = shape.bands[-1][1] if pick.shim or len(shape.bands) == 1 else shape.bands[0][1]
    out = []
    for h in range(n):
        top = shape.faces[h] + pick.added[h]
        if not pick.depth[h]:
            out.append((top, top))
            continue
        least, most = max(Fraction(top - pick.depth[h]), t + band[h]), min(Fraction(top), t + shape.high[h])
        if h in bounds:
            least, most = max(least, Fraction(bounds[h][0])), min(most, Fraction(bounds[h][1]))
        if h + n in dried:
            least = max(least, Fraction(dried[h + n]))
        step = shape.step
        low = top - floor((top - least) / Fraction(step)) * step
        high = top - ceil((top - most) / Fraction(step)) * step
        out.append((low, high))
    return out


def settle(
    frame: WallFrame,
    picks: Sequence[Option],
    stations: tuple[Fraction, Fraction],
    limits: dict[int, LimitKey],
) -> tuple[Settled, WallRow | None]:
    """Faces that meet every straightedge rule at this plane, or the row that no depth of planing can meet."""
    members = len(frame.shapes)
    back = [0 if pick.rides else shape.back for shape, pick in zip(frame.shapes, picks, strict=False)]
    spans = []
    near: list[list[Value]] = []
    for m in range(members):
        spot = frame.spots[m]
        t = spot.wa * stations[0] + spot.wb * stations[1]
        span = ranges(frame, m, picks[m], t, limits.get(m, ()))
        spans.append(span)
        step = frame.shapes[m].step
        near.append([_nearest(low, high, t, step) for low, high in span])
    if not _Check(frame, near, back).violated(first=True):
        return Settled(tuple(tuple(row) for row in near)), None
    faces = [[low for low, _ in span] for span in spans]
    check = _Check(frame, faces, back)
    among: list[int] | None = None
    while True:
        rows = check.violated(among)
        if not rows:
            return Settled(tuple(tuple(row) for row in faces)), None
        raised = set()
        for row in rows:
            over = sum((w * faces[m][h] for (m, h), w in row.weights), Fraction(0)) - row.limit * frame.unit
            if over <= 0:
                continue
            (m, h), weight = next((cell, -w) for cell, w in row.weights if w < 0)
            step = frame.shapes[m].step
            face = faces[m][h] + ceil(over / weight / step) * step
            if face > spans[m][h][1]:
                return Settled(tuple(tuple(r) for r in faces)), row
            faces[m][h] = face
            check.set(m, h, face)
            raised.add((m, h))
        among = frame.flatness.through(raised)  # the other lines stay as they were


def _nearest(low: Value, high: Value, t: Fraction, step: int) -> Value:
    """The planing step within low..high nearest to the plane."""
    if low == high:
        return low
    if t >= high:
        return high
    if t <= low:
        return low
    return low + round((t - low) / Fraction(step)) * step


class _Check:
    """The straightedge rules over faces in units, which may be set one by one.

    ``back``: how far each member's face may still go back. [units]
    """

    def __init__(self, frame: WallFrame, faces: Sequence[Sequence[Value]], back: Sequence[int]) -> None:
        self.flat, self.unit = frame.flatness, frame.unit
        self.back = [Fraction(each, self.unit) for each in back] if any(back) else None
        self.most_back = float(max(self.back)) if self.back else 0.0
        self.rough = [[float(f) / self.unit for f in row] for row in faces]
        self.exact: list[list[Fraction]] | None = None
        self.faces = faces

    def set(self, m: int, h: int, face: Value) -> None:
        """One face changed."""
        self.rough[m][h] = float(face) / self.unit
        if self.exact is not None:
            self.exact[m][h] = Fraction(face) / self.unit

    def violated(self, among: Sequence[int] | None = None, first: bool = False) -> list[WallRow]:
        """Rows broken, on some lines or on all; the first is enough if so said."""
        flat = self.flat
        spread = max(map(max, self.rough)) - min(map(min, self.rough))
        spread += self.most_back
        if not flat.rules or spread <= min(float(limit) for _, limit in flat.rules) - 1e-9:
            return []
        if self.exact is None:
            self.exact = [[Fraction(f) / self.unit for f in row] for row in self.faces]
        return flat.violated(self.exact, self.rough, among=among, first=first, back=self.back)
