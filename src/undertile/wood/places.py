"""What a place in the wood is called: its name, its member, where it is; one form on every face."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.wood.facts import Point, Surface
from undertile.wood.typed import read_moment

WALLS: tuple[Surface, ...] = ("wall L", "wall B", "wall R")
NEW = ", new"
"""After the place of wood that was put in where other wood was cut out: both have readings."""


def place_of(name: str, point: Point, *, layered: bool = False) -> str:
    """``plate B at 24``, ``B2 at 12``, ``subfloor L 24, B 12``; else the point's name.

    Wood put in there is told apart from what stood there: ``plate B at 24, new``.
    """
    place = _place_of(name, point, layered=layered)
    return place if place == name or not point.new or new_on_gone(point) else f"{place}{NEW}"


def new_on_gone(point: Point) -> bool:
    """Whether new wood's day was typed at the place of what went out: not before it, so not of this wood."""
    if not point.new or not point.out:
        return False
    return read_moment(point.new).days // 1 >= read_moment(point.out).days // 1


def _place_of(name: str, point: Point, *, layered: bool) -> str:
    if point.member == "plate" and point.wall and point.along is not None:
        return f"plate {point.wall} at {point.along.text}"
    if point.member in ("stud", "joist") and point.name:
        at = point.height if point.member == "stud" else point.along
        head = point.name if point.member == "stud" else f"joist {point.name}"
        return head if at is None else f"{head} at {at.text}"
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        return on_subfloor(point.layer, point.x.text, point.y.text, layered=layered)
    return name


def on_subfloor(layer: int | str, x: str, y: str, *, layered: bool) -> str:
    """A place on the subfloor, by the walls it is measured from as on the pad; its layer where two are read.

    Parameters
    ----------
    layer : int or str
    x, y : str
        From wall L and from wall B, as they print.
    layered : bool
        Whether places are read in more than the top layer.

    Returns
    -------
    str
        ``subfloor L 24, B 12``; ``subfloor, layer 2 L 24, B 12``.
    """
    head = f"subfloor, layer {layer}" if layered or str(layer) != "1" else "subfloor"
    return f"{head} L {x}, B {y}"


def has_layers(points: Iterable[Point]) -> bool:
    """Whether places of the subfloor are read in more than the top layer."""
    return any(point.member == "subfloor" and point.layer != 1 for point in points)


def surface_of(point: Point) -> tuple[Surface, ...]:
    """The surface that a place lies behind; none where it does not say."""
    if point.member in ("subfloor", "joist"):
        return ("floor",)
    wall = point.wall or (point.name[:1] if point.member == "stud" else "")
    return tuple(each for each in WALLS if each == f"wall {wall}")
