"""Wood to dry, for the referee: Fick's slab in air that changes, read with pins by a person.

Slab from 0 to L, moisture carried by modes sin(k pi x / L), exact in time between changes of the air. Open on
both faces, or on one: then the slab is half of one twice as thick. A fed slab has its far face held wet.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import exp, inf, pi, sin

from undertile.wood.equilibrium import equilibrium

MODES = 24
STEP = 0.25
"""Between looks at the truth. [d]"""
HORIZON = 150.0
"""[d]"""


class Slab:
    """Moisture in a slab; both faces at the same equilibrium, or the far one held wet.

    Parameters
    ----------
    thickness : float
        Between the two faces of the modes. [m]
    diffusivity : float
        [m2/s]
    start : callable
        Moisture at a place 0..1.
    near, far : float
        At the faces. [percent]
    """

    def __init__(
        self, thickness: float, diffusivity: float, start: list[float], near: float, far: float
    ) -> None:
        self.rate = pi * pi * diffusivity * 86400 / (thickness * thickness)
        self.near, self.far = near, far
        slices = len(start) - 1
        self.sizes = []
        for k in range(1, MODES + 1):
            total = sum(
                (wet - near - (far - near) * i / slices) * sin(k * pi * i / slices)
                for i, wet in enumerate(start)
            )
            self.sizes.append(2 * total / slices)

    def wait(self, days: float) -> None:
        """Let time pass in steady air."""
        self.sizes = [size * exp(-k * k * self.rate * days) for k, size in enumerate(self.sizes, 1)]

    def change(self, near: float, far: float) -> None:
        """The faces come to another equilibrium at once."""
        for k in range(1, MODES + 1):
            sign = 1 if k % 2 else -1
            self.sizes[k - 1] += 2 / (k * pi) * ((self.near - near) + sign * (self.far - far))
        self.near, self.far = near, far

    def at(self, place: float) -> float:
        """Moisture at a place 0..1. [percent]"""
        rest = self.near + (self.far - self.near) * place
        return rest + sum(size * sin(k * pi * place) for k, size in enumerate(self.sizes, 1))


@dataclass(frozen=True)
class Visit:
    """One visit: day, what was shown (None: over the range), equilibrium of the air as read."""

    day: float
    shown: float | None
    air: float


@dataclass(frozen=True)
class Log:
    """One point's log, with the day its wood was down to the goal (inf: never)."""

    thickness_in: float
    open_faces: str
    goal: float
    visits: tuple[Visit, ...]
    there: float


def _start(rng: random.Random, wet: float) -> list[float]:
    """Soaked through, or wettest at the face; 60 slices."""
    dry = rng.uniform(8, 12)
    reach = rng.choice((None, rng.uniform(0.25, 1.0)))
    if reach is None:
        return [wet] * 61
    return [dry + (wet - dry) * exp(-((i / 60) / reach)) for i in range(61)]


def _diffusivity(rng: random.Random) -> float:
    """Across the grain of softwood near room temperature, 0.5 to 4e-10 m2/s."""
    return min(4e-10, max(0.5e-10, rng.lognormvariate(0.0, 0.5) * 1.5e-10))


def _build(rng: random.Random) -> tuple[float, str]:
    return rng.choice(
        ((1.5, "both"), (1.5, "both"), (1.5, "one"), (0.71875, "one"), (0.71875, "both"), (3.0, "one"))
    )


def _shown(rng: random.Random, wet: float, step: float) -> float | None:
    value = round((wet + rng.gauss(0, 0.6)) / step) * step
    return None if value > 30 else max(value, 5.0)


def _seen(slab: Slab, depth: float, tip_only: bool) -> float:
    """What pins meet: their tips, or the wettest layer they touch."""
    return slab.at(depth) if tip_only else max(slab.at(depth * share) for share in (0.15, 0.4, 0.7, 1.0))


def logs(
    rng: random.Random, count: int, most: int = 9, alike: Callable[[int], random.Random] | None = None
) -> Iterator[Log]:
    """Logs of single points, nobody's water running any more.

    Parameters
    ----------
    rng : random.Random
    count : int
    most : int
        Visits of a log.
    alike : callable, optional
        What draws the build, the room's usual air, the goal, how wet it began and the days of the visits of
        each log, by its number: the same generator anew gives points that differ by their wood and readings
        alone.
    """
    own = rng
    for number in range(count):
        rng = own if alike is None else alike(number)
        thickness, faces = _build(rng)
        length = thickness * 0.0254 * (1 if faces == "both" else 2)
        depth = min(rng.uniform(0.25, 0.3125) / thickness, 0.5) * (1 if faces == "both" else 0.5)
        humidity = rng.uniform(0.30, 0.62) if rng.random() < 0.85 else rng.uniform(0.65, 0.80)
        fahrenheit = rng.uniform(62, 82)
        above = rng.uniform(0.0, 1.5)
        goal = rng.choice((12.0, 13.0, 14.0, 15.0, 16.0))
        wet = rng.uniform(19, 30)
        gap = rng.choice((1.0, 1.0, 2.0)) if alike is not None else 0.0
        next_visit = rng.uniform(0.25, 1.5) if alike is not None else 0.0
        rng = own
        half = _start(rng, wet)
        start = half if faces == "both" else half + half[-2::-1]
        if faces == "both" and half[0] != half[-1]:
            start = [max(half[i], half[60 - i]) for i in range(61)]

        def air(humidity: float = humidity, fahrenheit: float = fahrenheit) -> float:
            return equilibrium(fahrenheit, min(0.95, max(0.15, humidity + own.gauss(0, 0.05))))

        now = air()
        slab = Slab(length, _diffusivity(rng), start, now + above, now + above)
        tip_only, step = rng.random() < 0.5, rng.choice((0.1, 0.5, 1.0))
        if alike is None:
            gap, next_visit = rng.choice((1.0, 1.0, 2.0)), rng.uniform(0.25, 1.5)
        day, there = 0.0, inf
        first = next_visit
        seen: list[Visit] = []
        while day < HORIZON and (there == inf or len(seen) < most):
            slab.wait(STEP)
            day += STEP
            truth = _seen(slab, depth, tip_only)
            if there == inf and truth <= goal and len(seen) > 0:
                there = day
            if day >= next_visit:
                if len(seen) < most:
                    seen.append(Visit(day - first, _shown(rng, truth, step), now + rng.gauss(0, 0.5)))
                next_visit += gap + rng.uniform(-0.2, 0.2)
                now = air()
                slab.change(now + above, now + above)
        yield Log(thickness, faces, goal, tuple(seen), there - first)


@dataclass(frozen=True)
class Two:
    """One point on its first two visits; ``fed``: "" or ``at the pins`` or ``from behind``."""

    name: str
    first: float | None
    second: float | None
    air: float
    fed: str


def fed_rounds(rng: random.Random, count: int, days_between: float) -> Iterator[tuple[Two, ...]]:
    """Rounds of 5 to 10 like points of one material, none to two of them still fed.

    Of the fed points half get water where they are read (it runs or wicks to the pins: what they show holds
    or creeps up), half from a wet plane behind the open face, from just past the pins to the far face.
    """
    for _ in range(count):
        thickness, faces = rng.choice(((1.5, "both"), (1.5, "one"), (0.71875, "one")))
        size = rng.randint(5, 10)
        fed = set(rng.sample(range(size), rng.choice((0, 0, 1, 1, 2))))
        base = equilibrium(rng.uniform(65, 80), rng.uniform(0.3, 0.55))
        above = rng.uniform(0, 1.5)
        before, step = rng.uniform(0.25, 1.0), rng.choice((0.1, 0.5))
        points = []
        for number in range(size):
            wet = rng.uniform(20, 30)
            pins = rng.uniform(0.25, 0.3125)
            still = rng.choice(("at the pins", "from behind")) if number in fed else ""
            half = _start(rng, wet)
            air = base + rng.gauss(0, 0.5)
            if still == "at the pins":
                first = _shown(rng, wet, step)
                second = _shown(rng, wet + rng.uniform(-0.3, 0.8) * days_between, step)
                points.append(Two(f"p{number}", first, second, air, still))
                continue
            depth = pins / thickness
            if still:
                reach = rng.uniform(0.35, thickness)
                slab = Slab(reach * 0.0254, _diffusivity(rng), [wet] * 61, base + above, rng.uniform(wet, 40))
                depth = pins / reach
            elif faces == "one":
                both = half + half[-2::-1]
                slab = Slab(2 * thickness * 0.0254, _diffusivity(rng), both, base + above, base + above)
                depth /= 2
            else:
                both = [max(half[i], half[60 - i]) for i in range(61)]
                slab = Slab(thickness * 0.0254, _diffusivity(rng), both, base + above, base + above)
            slab.wait(before)
            first = _shown(rng, slab.at(depth), step)
            slab.wait(days_between)
            second = _shown(rng, slab.at(depth), step)
            points.append(Two(f"p{number}", first, second, air, still))
        yield tuple(points)
