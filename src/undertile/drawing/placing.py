"""Where labels go so that none stands in another: columns pushed apart, and free spots around a point."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from undertile.drawing.scene import Box, Point


def spread(
    wanted: Sequence[float], sizes: Sequence[float], low: float | None = None, high: float | None = None
) -> list[float] | None:
    """Centres in the order given, as near to where they are wanted as their sizes allow.

    Least sum of squared shifts: isotonic regression by pooling neighbours [1]_, then held to the ends.

    Parameters
    ----------
    wanted : sequence of float, rising
        Centres as they would be alone.
    sizes : sequence of float
        Room each takes, gap included.
    low, high : float, optional
        Ends of the room there is.

    Returns
    -------
    list of float, or None
        None when they do not fit between the ends.

    References
    ----------
    .. [1] Ayer et al., An empirical distribution function for sampling with incomplete information, Annals
       of Mathematical Statistics 26 (1955) 641-647: pooling adjacent violators (from memory).
    """
    if not wanted:
        return []
    starts: list[float] = []
    at = 0.0
    for before, after in zip((0.0, *sizes), sizes, strict=False):
        at += (before + after) / 2 if starts else 0.0
        starts.append(at)
    blocks: list[tuple[float, int]] = []
    for want, start in zip(wanted, starts, strict=True):
        mean, count = want - start, 1
        while blocks and blocks[-1][0] > mean:
            other, more = blocks.pop()
            mean, count = (mean * count + other * more) / (count + more), count + more
        blocks.append((mean, count))
    least = None if low is None else low + sizes[0] / 2
    most = None if high is None else high - sizes[-1] / 2 - starts[-1]
    if least is not None and most is not None and least > most + 1e-9:
        return None
    shifts = [mean for mean, count in blocks for _ in range(count)]
    if most is not None:
        shifts = [min(shift, most) for shift in shifts]
    if least is not None:
        shifts = [max(shift, least) for shift in shifts]
    return [shift + start for shift, start in zip(shifts, starts, strict=True)]


def free_spot(
    point: Point, width: float, height: float, step: float, taken: Iterable[Box], page: Box
) -> Box | None:
    """The nearest free box around a point, looked for in growing rings; None where all is taken.

    ``step`` is how far apart the rings lie.
    """
    busy = list(taken)
    x, y = point
    for ring in range(40):
        reach = ring * step
        for dx, dy in _ring(ring):
            cx, cy = x + dx * reach, y + dy * reach
            box = Box(cx - width / 2, cy - height / 2, cx + width / 2, cy + height / 2)
            if page.holds(box) and not any(box.meets(other) for other in busy):
                return box
    return None


def _ring(ring: int) -> tuple[tuple[float, float], ...]:
    if ring == 0:
        return ((0.0, 0.0),)
    diagonal = 0.7
    return (
        (1, 0),
        (-1, 0),
        (diagonal, diagonal),
        (-diagonal, diagonal),
        (diagonal, -diagonal),
        (-diagonal, -diagonal),
        (0, 1),
        (0, -1),
    )
