"""What each point of a round comes to, in a few words for the pad: said with the next key press.

Verdicts are the water part's own (``wood.verdict``, ``wood.odd``), told by their codes.
"""

from __future__ import annotations

from collections import Counter

from undertile.job.address import join
from undertile.screens.context import Context, View
from undertile.screens.round.order import meter_of, water_facts
from undertile.screens.words import Says
from undertile.wood.closing import place_past
from undertile.wood.held import DAY, IN_ORDER
from undertile.wood.history import Series
from undertile.wood.odd import odd
from undertile.wood.result import WoodResult
from undertile.wood.say import points
from undertile.wood.typed import Shown, read_shown
from undertile.wood.verdict import LIVE, Call, PointVerdict

LOUD = frozenset(
    {"rose", "fell", "range", "live", "first-wet", "rising", "fed", "cut-out", "reference-wet", "further"}
    | {"wood-temperature", "day-ahead", "slip-wet", "slip-dry", "nothing"}
    | {"say-meter", "other-meter", "cold-wood", "wet-face", "day-order"}
)
"""What is said loud: somebody stands there and can do something about it."""
ORDER: tuple[Call, ...] = ("cut out", "open further", "no date", "dry on", "not shown", "goes out", "close")
"""Verdicts as they are counted at the end of a round, the gravest first."""


def judged(ctx: Context, visit: str) -> View:
    """What is said of the points typed on a round, by their facts, and of the round at its end.

    Shaped as the survey's judgement (``pad_sheet.judged``), so that one pad shows both.
    """
    found = ctx.state.moisture
    told: dict[str, View] = {}
    if found is not None:
        by_name = {each.name: each for each in found.series}
        for name, point in water_facts(ctx).points.items():
            shown = read_shown(point.shown.get(visit, ""))
            touched = any(visit in part for part in (point.awl, point.pick))
            if name in by_name and (shown.state != "not measured" or touched):
                told[join(("wood", "points", name, "shown", visit))] = _point(
                    ctx, found, by_name[name], visit, shown
                )
    return {
        "doubts": [],
        "looks": [],
        "left_out": [],
        "clashes": [],
        "points": told,
        "sum": [] if found is None else _counted(ctx, found),
    }


def _counted(ctx: Context, found: WoodResult) -> list[str]:
    calls = Counter(each.call for each in found.points)
    return [
        ctx.says(f"round-count-{call.replace(' ', '-')}", number=calls[call]) for call in ORDER if calls[call]
    ]


def _point(ctx: Context, found: WoodResult, series: Series, visit: str, shown: Shown) -> View:
    verdict = found.point(series.name)
    code, slots = _code(ctx, verdict, series, visit, shown)
    # the whole sentence of it has no room in the pad's band; the place's own page says it
    if code == "dates" and verdict is not None and place_past(verdict, ctx.state.today):
        code = "dates-past"
    return {
        "code": code,
        "text": ctx.says(f"round-{code}", **slots),
        "loud": code in LOUD,
        # only what may be a slip can be read again here, or explained by water on the face
        "again": code in ("rose", "fell", "range", "slip-wet", "slip-dry", "nothing"),
        "wet": code == "rose",
    }


def _code(
    ctx: Context, verdict: PointVerdict | None, series: Series, visit: str, shown: Shown
) -> tuple[str, dict[str, str]]:
    """What is said of a point: what may be a slip first, unless somebody has read it twice."""
    meter = meter_of(water_facts(ctx), visit)
    its = next((each for each in series.samples if each.round.name == visit), None)
    if its is not None and its.slip is not None:
        slots = {"shown": f"{its.shown.worst:g}", "meant": f"{its.slip.meant:g}"}
        return f"slip-{its.slip.way}", slots
    if its is not None and its.corrected is not None and its.corrected.because == "nothing":
        return "nothing", {"shown": f"{its.shown.worst:g}"}
    looked = _read_twice(ctx, series.name, visit)
    strange = None if looked else odd(series, visit)
    if strange is not None:
        by = f"{abs(strange.by):g}"
        return strange.code, {"by": ctx.says("round-at-least", by=by) if strange.least else by}
    if shown.state == "number" and not looked and not meter.low <= shown.worst <= meter.high:
        dry = shown.worst < meter.low
        word = ctx.says("round-range-dry" if dry else "round-range-wet")
        return "range", {"low": f"{meter.low:f}", "high": f"{meter.high:f}", "word": word}
    if shown.state == "cannot reach":
        return "reach", {}
    if verdict is None:
        return "is-reference", {}
    if water_facts(ctx).points[series.name].reference:
        return "reference-wet", {}
    return _verdict(ctx.says, verdict, series)


def _read_twice(ctx: Context, name: str, visit: str) -> bool:
    its = ctx.fact(join(("wood", "points", name, "shown", visit)))
    return its is not None and len([entry for entry in its.entries if entry.value]) > 1


def _verdict(says: Says, verdict: PointVerdict, series: Series) -> tuple[str, dict[str, str]]:
    ahead = verdict.forecast
    if verdict.call in ("cut out", "gone"):
        return "cut-out", {}
    if verdict.call == "goes out":
        return "goes-out", {"number": str(verdict.patch)}
    if verdict.call == "close":
        return "close", {}
    if verdict.call == "open further":
        return "further", {}
    if verdict.call == "not shown":
        return _not_shown(verdict, series), {}
    if verdict.call == "dry on":
        if ahead.no == "":
            return "dates", {"soonest": ahead.soonest, "latest": ahead.latest}
        return ("early" if ahead.no == "too early" else "few"), {}
    if verdict.source == DAY:
        return "day-order", {}
    if verdict.may_be_fed and verdict.source == "fed-odds":
        return "fed", {}
    if verdict.source in ("practice-live-water", "convention-5"):
        return _water_comes(says, series)
    return {
        "no air": "no-air",
        "damp air": "damp-air",
        "damp lately": "damp-lately",
        "plateau": "plateau",
    }.get(ahead.no, "not-falling"), {}


def _not_shown(verdict: PointVerdict, series: Series) -> str:
    """What a place lacks that reads dry."""
    if verdict.source == DAY:
        return "day-order" if verdict.next_step == IN_ORDER else "day-ahead"
    if verdict.source == "meter-limits":
        return "wet-face" if series.last is not None and series.last.surface == "wet" else "say-meter"
    return {
        "practice-awl": "awl",
        "practice-dry-reference": "no-reference",
        "practice-same-meter": "other-meter",
        "pin-temperature-range": "wood-temperature",
        "pin-temperature": "cold-wood",
    }.get(verdict.source, "again")


def _water_comes(says: Says, series: Series) -> tuple[str, dict[str, str]]:
    """Why water may be running: it rises, it is very wet and does not fall, or it is the first time."""
    values = [each for each in series.samples if each.value is not None]
    if len(values) < 2:
        return "first-wet", {}
    rise = (values[-1].value or 0.0) - (values[-2].value or 0.0)
    if rise <= 0:
        return ("live" if (values[-1].value or 0.0) > LIVE else "not-falling"), {}
    by = points(rise).lstrip("+")
    least = values[-1].past or values[-2].past
    return "rising", {"by": says("round-at-least", by=by) if least else by}
