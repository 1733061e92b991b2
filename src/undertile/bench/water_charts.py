"""How fast a moisture log is answered and drawn: a round of thirty points, and a thousand points with a year.

The peer is what a person would script instead: matplotlib, given the same readings, give or take, levels and
courses, as small multiples in SVG with text as text. ``equal`` says that both files hold every newest figure.
Times are of the processor, which other work on the machine disturbs least; one run measures both sides.
"""

from __future__ import annotations

import io
import random
from collections.abc import Callable, Iterator
from math import exp
from statistics import median
from time import process_time
from typing import Any
from xml.etree import ElementTree

from undertile.drawing.drying import pictures
from undertile.drawing.dryingdata import Axes, Chart, axes_of, charts_of
from undertile.drawing.labels import words
from undertile.errors import UndertileError
from undertile.wood import dryfit
from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import water
from undertile.wood.say import up
from undertile.wood.typed import day_text, read_moment

SEED = 515
SHOWN = 40
"""Charts that a phone's page shows at once, and the peer draws."""
Row = dict[str, Any]


def case(rooms: int) -> Iterator[Row]:
    """A round of 30 points: cold, and with one more value; then a thousand points and a year of weeks.

    Parameters
    ----------
    rooms : int
        The thousand is 200 for each.
    """
    table = log(30, 10, 2.0)
    facts = facts_of(table)
    yield _row("water answered, nothing kept", "30 points, 10 visits", _timed(lambda: _cold(facts)))
    yield _row("water answered, one value more", "30 points, 10 visits", _one_more(table))
    yield _row("water answered, the air of a new visit", "30 points, 11 visits", _new_air(table))
    points = 200 * rooms
    facts = facts_of(log(points, 52, 7.0))
    size = f"{points} points, 52 visits"
    yield _row("water answered, nothing kept", size, _timed(lambda: _cold(facts), 1))
    found = water(facts)
    english = words("en")
    own = _timed(lambda: pictures(found, "in", english, 0, SHOWN))
    yield _row(f"first {SHOWN} charts", size, own) | _beside(found, own)
    made: list[int] = []
    yield _row("all charts", size, _timed(lambda: made.append(_bytes(found)), 1)) | {"bytes": made[0]}


def log(points: int, visits: int, step: float, seed: int = SEED) -> dict[str, Any]:
    """A moisture log as a table of facts: points that dry, some toward a rest above their goal.

    Parameters
    ----------
    points, visits : int
    step : float
        Between visits. [d]
    seed : int
    """
    rng = random.Random(seed)
    start_day = read_moment("2026-03-02").days
    names = [str(number + 1) for number in range(visits)]
    base = {"material": "lumber", "species": "Douglas-fir", "open_faces": "both", "thickness": "1-1/2"}
    table: dict[str, Any] = {
        "meters": {"pins": {"set_to": "Douglas-fir"}},
        "visits": {
            name: {
                "when": f"{day_text(start_day + number * step)} 16:00",
                "air": "70 F",
                "humidity": rng.randint(34, 42),
                "wood": "68 F",
            }
            for number, name in enumerate(names)
        },
        "points": {
            f"dry-{n}": {**base, "member": "other", "reference": True, "shown": {"1": value}}
            for n, value in enumerate(("10", "10.5", "11"))
        },
    }
    for number in range(points):
        start, rest, tau = rng.uniform(17, 29), rng.uniform(7, 17), rng.uniform(0.2, 1.0) * visits * step
        shown = {
            name: f"{rest + (start - rest) * exp(-visit * step / tau) + rng.gauss(0, 0.5):.1f}"
            for visit, name in enumerate(names)
        }
        point = {**base, "bearing": "no", "shown": shown, "awl": {"1": "0"}}
        if number % 2:
            point |= {"member": "plate", "wall": "LBR"[number % 3], "along": str(1 + number // 2)}
        else:
            point |= {"member": "stud", "name": f"B{1 + number % 40}", "height": str(1 + number // 40)}
        table["points"][f"p{number}"] = point
    return table


def facts_of(table: dict[str, Any]) -> WoodFacts:
    """The facts of a table."""
    return WoodFacts.model_validate(table, context={"unit": "in"})


def _cold(facts: WoodFacts) -> WoodResult:
    dryfit._fit.cache_clear()
    dryfit.weighed.cache_clear()
    return water(facts)


def _one_more(table: dict[str, Any]) -> float:
    """Seconds of the answer after one reading is typed anew, all else known."""
    spent = []
    shown = dict(table["points"]["p3"]["shown"])
    last = list(shown)[-1]
    water(facts_of(table))
    for tenth in range(5):
        shown[last] = f"{14 + tenth / 10:.1f}"
        changed = {**table, "points": {**table["points"], "p3": {**table["points"]["p3"], "shown": shown}}}
        facts = facts_of(changed)
        start = process_time()
        water(facts)
        spent.append(process_time() - start)
    return median(spent)


def _new_air(table: dict[str, Any]) -> float:
    """Seconds of the answer after a visit is begun: its air changes what every point comes to rest at."""
    spent = []
    day = read_moment(list(table["visits"].values())[-1]["when"]).days + 2
    for humidity in range(30, 35):
        visit = {"when": f"{day_text(day)} 16:00", "air": "70 F", "humidity": humidity, "wood": "68 F"}
        facts = facts_of({**table, "visits": {**table["visits"], "new": visit}})
        start = process_time()
        water(facts)
        spent.append(process_time() - start)
    return median(spent)


def _bytes(found: WoodResult) -> int:
    return sum(len(each.svg.encode()) for each in pictures(found, "in", words("en")))


def _timed(make: Callable[[], object], times: int = 3) -> float:
    spent = []
    for _ in range(times):
        start = process_time()
        make()
        spent.append(process_time() - start)
    return median(spent)


def _row(name: str, size: str, seconds: float) -> Row:
    return {
        "name": name,
        "size": size,
        "seconds": seconds,
        "peer": None,
        "peer_seconds": None,
        "ratio": None,
        "equal": None,
    }


def _beside(found: WoodResult, own: float) -> Row:
    charts = charts_of(found, words("en"))
    axes = axes_of(charts)
    for chart in charts[:SHOWN]:
        _ = chart.course  # the peer is given the courses, it need not work them out
    made: list[bytes] = []
    spent = _timed(lambda: made.append(by_matplotlib(charts[:SHOWN], axes)), 1)
    shown = "".join(each.svg for each in pictures(found, "in", words("en"), 0, SHOWN))
    figures = {f"{up(chart.last.value):.1f}" for chart in charts[:SHOWN] if chart.last and chart.last.value}
    return {
        "peer": "matplotlib",
        "peer_seconds": spent,
        "ratio": spent / own,
        "equal": figures <= _texts(made[0]) and all(f">{figure}<" in shown for figure in figures),
        "bytes": len(shown.encode()),
        "peer_bytes": len(made[0]),
    }


def by_matplotlib(charts: list[Chart], axes: Axes) -> bytes:
    """The same small multiples through matplotlib, as SVG.

    Raises
    ------
    UndertileError
        If it is not installed.
    """
    try:
        import matplotlib
        from matplotlib.figure import Figure
    except ImportError as error:
        raise UndertileError(
            "matplotlib is not here: pip install matplotlib, or leave this peer out"
        ) from error
    with matplotlib.rc_context({"svg.fonttype": "none"}):
        rows = -(-len(charts) // 2)
        figure = Figure(figsize=(7.25, 1.3 * rows))
        places = figure.subplots(rows, 2, squeeze=False)
        for place, chart in zip(places.flat, charts, strict=False):
            read = [mark for mark in chart.marks if mark.kind == "read" and mark.value is not None]
            place.set_xlim(axes.first, axes.last)
            place.set_ylim(axes.low, axes.high)
            days, values = [mark.day for mark in read], [mark.value or 0.0 for mark in read]
            place.errorbar(days, values, yerr=[mark.spread or 0.0 for mark in read], fmt="k.", linewidth=0.6)
            place.axhline(chart.never, color="black", linestyle="--", linewidth=0.8)
            if chart.goal is not None:
                place.axhline(chart.goal, color="black", linewidth=0.9)
            if chart.course is not None:
                stations = [*chart.course.through, *chart.course.ahead]
                along = [each.day for each in stations]
                place.fill_between(along, [each.low for each in stations], [each.high for each in stations])
                place.plot(along, [each.middle for each in stations], color="black", linewidth=1)
            last = chart.last
            if last is not None and last.value is not None:
                place.text(last.day, last.value, f"{up(last.value):.1f}", fontsize=8)
            place.set_title(f"{chart.place}: {chart.when}", fontsize=8)
        out = io.BytesIO()
        figure.savefig(out, format="svg")
    return out.getvalue()


def _texts(svg: bytes) -> set[str]:
    return {text.strip() for text in ElementTree.fromstring(svg).itertext() if text.strip()}
