"""A place on a line of points as the facts of a point there: the next place to probe can be read at once."""

from __future__ import annotations

from fractions import Fraction

Facts = dict[str, str | Fraction]


def facts_at(line: str, at: Fraction, width: Fraction | None) -> Facts:
    """Where a point at a place of a line is.

    Parameters
    ----------
    line : str
        A line's key (``lines.lines_of``): ``plate``, ``plate R``, ``stud B2``, ``subfloor 1, y 12``.
    at : Fraction
        [in]
    width : Fraction or None
        From wall L to wall R; None = not measured. [in]

    Returns
    -------
    dict of str to str or Fraction
        ``member`` and what else of ``Point`` says where it is; lengths in inches.

    Raises
    ------
    ValueError
        If there is no such line.
    """
    member, _, rest = line.partition(" ")
    if member == "plate":
        if rest:
            return {"member": member, "wall": rest, "along": at}
        if at < 0:
            return {"member": member, "wall": "L", "along": -at}
        if width is not None and at > width:
            return {"member": member, "wall": "R", "along": at - width}
        return {"member": member, "wall": "B", "along": at}
    if member == "stud":
        wall: Facts = {"wall": rest[0]} if rest[:1] in ("L", "B", "R") else {}
        return {"member": member, "name": rest, **wall, "height": at}
    if member == "joist":
        return {"member": member, "name": rest, "along": at}
    if member == "subfloor":
        layer, _, across = rest.partition(", ")
        axis, _, other = across.partition(" ")
        # the key of a row or column holds its place as a number of inches
        there = Fraction(other).limit_denominator(1000)
        x, y = (there, at) if axis == "x" else (at, there)
        return {"member": member, "layer": layer, "x": x, "y": y}
    raise ValueError(f"no line of points: {line}")
