"""Charts on other screens: of the points that keep the gate shut the longest, and of one point."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.screens.context import Context, View

if TYPE_CHECKING:
    from undertile.wood.result import WoodResult

FIRST = 3
"""Charts shown where there is more to read: those that decide when."""
_DONE = ("close", "gone", "goes out")


def first_charts(ctx: Context, found: WoodResult) -> list[View]:
    """The first few that are not done, by what keeps the gate shut; none where nothing is read."""
    from undertile.drawing.drying import pictures
    from undertile.drawing.labels import words
    from undertile.wood.rank import by_gate

    left = sum(each.call not in _DONE for each in found.points)
    if not left or not any(each.value is not None for each in found.points):
        return []
    calls = {each.name: each.call for each in by_gate(found.points)}
    return [
        {
            "href": ctx.href("water", "charts", point=each.name),
            "place": each.place,
            "when": each.when,
            "svg": each.svg,
        }
        for each in pictures(found, ctx.unit, words(ctx.says.language), 0, FIRST, ctx.state.today)
        if calls[each.name] not in _DONE
    ]


def chart_of(ctx: Context, found: WoodResult, name: str) -> str:
    """One point's own chart; "" where nothing of it is read."""
    from undertile.drawing.drying import picture
    from undertile.drawing.labels import words

    series = next((each for each in found.series if each.name == name), None)
    if series is None or series.facts.reference or not series.samples:
        return ""
    made = picture(found, ctx.unit, words(ctx.says.language), name, ctx.state.today)
    return "" if made is None else made.svg
