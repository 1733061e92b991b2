"""The water: what to do next, what is wet, how far to open, when it may be closed, where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.job.address import join
from undertile.packet.cover import last_of_several
from undertile.screens.amiss import MEND, amiss, mend, odd
from undertile.screens.context import Broken, Context, NotHere, View
from undertile.screens.drying_part import first_charts
from undertile.screens.forms import row
from undertile.screens.pages.safety import cautions_said
from undertile.screens.steps_water import cover_of, point_href, steps
from undertile.screens.waterplan import water_plan
from undertile.wood.closing import place_past
from undertile.wood.goal import usual_past
from undertile.wood.rank import ORDER, by_gate
from undertile.wood.say import degrees, from_to, goal_text, length, moisture

if TYPE_CHECKING:
    from undertile.wood.history import Round, Series
    from undertile.wood.result import WoodResult
    from undertile.wood.verdict import PointVerdict

TOLD = frozenset(
    {"point-no-date", "point-cut-out", "point-open-further", "point-fed", "do-not-cover", "leak-found"}
    | {"stud-will-shrink", "leak-test-short"}
)
"""Findings that the screen says in its own places."""


def view(ctx: Context) -> View:
    """Everything about the water, what is next first."""
    says, found = ctx.says, water_of(ctx)
    every = steps(ctx, found)
    href = {
        "round": ctx.href("water", "round"),
        "facts": ctx.href("water", "rounds"),
        "point": ctx.href("water", "point"),
        "leak": ctx.href("water", "leak"),
        "gate": ctx.href("water", "gate"),
        "charts": ctx.href("water", "charts"),
        "record": ctx.href("papers", "water"),
    }
    return {
        "title": says("step-water"),
        "next": {key: every[0][key] for key in ("text", "why", "href")},
        "then": [each for each in every[1:] if each["kind"] != "gate"],
        "begun": found.begun,
        "symptom": None if found.begun else row(ctx, "wood.leak.symptom", says("symptom")),
        "goals": [
            says("water-goal", material=says.choice(material), goal=says.told(goal.words()))
            for material, goal in found.goals.items()
        ],
        "groups": _groups(ctx, found),
        "references": [
            {"where": says.place(each.where), "href": point_href(ctx, each.name), "value": _shown_last(each)}
            for each in found.series
            if each.facts.reference
        ],
        "relative": any(each.relative for each in found.points),
        "extent": _extent(ctx, found),
        "when": _when(ctx, found) if found.begun else None,
        "charts": first_charts(ctx, found),
        "air": _air(ctx, found),
        "equipment": [
            {"what": says.choice(what, "what"), "days": f"{days:.1f}"}
            for what, days in found.equipment_days.items()
        ],
        "shrinks": [
            says(
                "water-shrunk" if each.since else "water-shrinks",
                stud=each.stud,
                range=says.told(from_to(each.least, each.most, ctx.unit)),
            )
            for each in found.shrinkage
        ],
        "source": source_line(ctx, found),
        "statement": [says.told(line) for line in found.source.statement] if found.begun else [],
        "cover": cover_of(ctx),
        "mend": first_to_mend(ctx, found),
        "findings": [says.finding(each) for each in found.findings if each.code not in TOLD | MEND],
        "href": href,
        "safety": cautions_said(ctx),
    }


def first_to_mend(ctx: Context, found: WoodResult) -> list[View]:
    """What was typed of the water and is not used or cannot be so, each with the screen it is mended on."""
    wood = [join(path) for path in ctx.state.facts if path[0] == "wood"]
    left_out = [each for each in wood if each in ctx.state.folded.left_out]
    out = amiss(ctx, left_out)
    for each in found.findings:
        if each.code in MEND:
            of = next((one.fact for one in odd(ctx, wood, (each,))), "")
            href = mend(ctx, of) if of else ctx.href("water", "rounds")
            out.append({"fact": of, "text": ctx.says.finding(each)["text"], "href": href})
    return out


def water_of(ctx: Context) -> WoodResult:
    """What the water comes to.

    Raises
    ------
    NotHere
        If nothing can be said: what stands of it cannot be read together.
    Broken
        If its stage broke.
    """
    found = ctx.state.water
    if "wood" in ctx.state.broken:
        raise Broken(ctx.says("water-broken"))
    if found is None:
        raise NotHere(ctx.says("water-cannot"))
    return found


@dataclass(frozen=True)
class Typed:
    """The rounds and places as they were typed, where what they come to cannot be said.

    What is typed can still be corrected: screens that take it in stand on this much.
    """

    rounds: tuple[Round, ...] = ()
    series: tuple[Series, ...] = ()


def typed_of(ctx: Context) -> WoodResult | Typed:
    """What the water comes to; where that broke, what was typed of it.

    Raises
    ------
    NotHere
        As ``water_of``.
    """
    try:
        return water_of(ctx)
    except Broken:
        pass
    from undertile.wood.history import history  # only where it is asked

    try:
        read = history(ctx.state.folded.job.wood)
    except Exception as error:
        ctx.state.broke("wood", error)
        return Typed()
    return Typed(read.rounds, read.series)


def state_of(ctx: Context) -> str:
    """How far the water is, in a few words for the list of the steps; "" where nobody speaks of it."""
    found = ctx.state.water
    if found is None or not found.begun:
        return ""
    asked = [each for each in found.points if each.call not in ("gone", "goes out")]
    if not any(each.value is not None for each in asked):
        return ctx.says("state-water-unread")
    wet = sum(each.call != "close" for each in asked)
    if not wet:
        return ctx.says("state-water-dry", of=len(asked))
    return ctx.says("state-water", wet=wet, of=len(asked))


def source_line(ctx: Context, found: WoodResult) -> str:
    """How many sources are left."""
    left = len(found.source.of("open")) + len(found.source.of("found"))
    if not left:
        return ctx.says("water-settled")
    return ctx.says("water-left-one" if left == 1 else "water-left", number=left)


def told_point(ctx: Context, found: WoodResult, each: PointVerdict, *, alone: bool = True) -> View:
    """One place with its verdict: what it reads, against what, why, what to do.

    Among others its goal is not said again: it stands once above them.
    """
    says = ctx.says
    series = next(one for one in found.series if one.name == each.name)
    slipped = series.last is not None and series.last.slip is not None
    # said of the whole above them, it is not said again at each of them
    whole = "" if alone else found.past_it(ctx.state.today)
    late = "" if whole else says.told(place_past(each, ctx.state.today))
    return {
        "name": each.name,
        "where": says.place(each.where),
        "href": point_href(ctx, each.name),
        "chart": ctx.href("water", "charts", point=each.name),
        "call": each.call,
        "value": each.reads,
        "give": ""
        if each.give_or_take is None or slipped
        else says("water-give", number=f"{each.give_or_take:.1f}"),
        "relative": says("water-relative") if each.relative else "",
        "near": says("water-near") if each.near else "",
        "asked": says("water-asked") if slipped else "",
        "why": says.told(each.called if each.patch else each.why),
        "do": f"{says.told(each.next_step)} {late}".rstrip(),
        "limit": says.told(each.limit) if alone or each.limit != each.goal.words() else "",
        "source": says.source(each.source),
        "readings": [
            {"visit": sample.round.name, "shown": sample.shown.text or "-"} for sample in series.samples
        ],
    }


def _groups(ctx: Context, found: WoodResult) -> list[View]:
    """Places by what to do with them, what keeps the gate shut the longest first."""
    ranked = by_gate(found.points)
    out = []
    for call in ORDER:
        its = [told_point(ctx, found, each, alone=False) for each in ranked if each.call == call]
        if its:
            title = ctx.says(f"water-call-{call.replace(' ', '-')}")
            out.append(
                {
                    "call": call,
                    "title": title,
                    "points": its,
                    "quiet": call in ("close", "gone"),
                    "number": len(its),
                    "sources": list(dict.fromkeys(each["source"] for each in its)),
                }
            )
    return out


def _shown_last(each: object) -> str:
    last = each.last  # type: ignore[attr-defined]
    return "-" if last is None else last.reads


def _extent(ctx: Context, found: WoodResult) -> View | None:
    if not found.cuts:
        return None
    says = ctx.says

    def side(value: Fraction | None) -> str:
        return "?" if value is None else length(value, ctx.unit)

    words = [
        says.told(words)
        for cut, words in zip(found.cuts, found.cut_words, strict=True)
        if not cut.line.startswith("subfloor")
    ]
    return {
        "cuts": [f"{each[:1].upper()}{each[1:]}." for each in words],
        "patches": [
            says(
                "water-floor-sides",
                layer=str(patch.layer),
                left=side(patch.left),
                right=side(patch.right),
                back=side(patch.back),
                front=side(patch.front),
            )
            for patch in found.patches
        ],
        "probe": says("water-probe", probe=says.told(found.probe_words)) if found.probe_words else "",
        "plan": water_plan(found, ctx.unit, says),
        "source": says.told(found.own_past or usual_past(ctx.unit)),
    }


def _when(ctx: Context, found: WoodResult) -> View:
    """A range of days, or why there is none."""
    says, close = ctx.says, found.close
    out: View = {"text": "", "last": ""}
    if not any(each.value is not None for each in found.points):
        return {**out, "text": says("water-nothing-read")}
    last = says("water-last", where=says.place(close.slowest)) if close.latest else ""
    several = last_of_several(found, says.papers)
    late = says.told(found.past_it(ctx.state.today))
    more = " ".join(each for each in (late, last, several) if each)
    return {**out, "text": says.told(close.says), "last": more}


def _air(ctx: Context, found: WoodResult) -> list[str]:
    """What the room's air does, and what would be dry enough."""
    says, air = ctx.says, found.air
    if air is None:
        return [says("water-air-unread")] if found.rounds else []
    key = "water-air-enough" if air.enough else "water-air-damp"
    out = [says(key, now=moisture(air.now), goal=goal_text(air.goal))]
    if not air.enough and air.humidity is not None:
        out.append(says("water-air-under", percent=f"{100 * air.humidity:.0f}"))
        if air.fahrenheit is not None:
            out.append(says("water-air-warm", degrees=degrees(air.fahrenheit, ctx.unit)))
    return out
