"""Move a wall a step and watch cost, play, valve and drain follow; hold a plane where you want it.

Everything is asked of framing and pan: the price from the tables that proved the plan, the consequences from
the moved planes. ``settle`` plans the room again around the moved wall.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction
from functools import partial

from undertile.findings import Check, Verdict
from undertile.framing.holds import LEAN_OVER
from undertile.framing.moves import Price
from undertile.framing.plan import FramingPlan, Plane
from undertile.job.address import join
from undertile.lengths import MM, SIXTEENTH
from undertile.packet.figures import amount
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import plane_words
from undertile.pan.built import Built
from undertile.pan.drain import drain_checks
from undertile.pan.edges import edge_checks
from undertile.pan.play import play_checks
from undertile.pan.valve import valve_checks
from undertile.screens import held
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import TYPED, before_the_plan
from undertile.screens.plans import Plans

FARTHEST = 32
"""Steps either way: 2 in or 64 mm."""
SETTLE_S = 2.0
"""For planning again around a moved wall, while the person waits; what takes longer is said. [s]"""
KEPT = 500
"""Places of the walls whose price and consequences are kept: a person goes to and fro."""
AHEAD = 6
"""So many steps either way of each wall are worked out while nobody waits, the nearest first."""
_STEPS = re.compile(r"[+-]?[0-9]{1,3}")
_WATCHED = ("drop-in", "play", "drain", "valve", "edge")


def view(ctx: Context) -> View:
    """Where each wall stands, what it costs there, what follows."""
    title = ctx.says("step-moves")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    ctx.answers.plan(ctx.state)
    shown, planner = ctx.state.view, ctx.state.planner
    if shown is None or shown.plan is None or planner is None:
        return {
            "title": title,
            "next": next_step(ctx),
            "walls": [],
            "none": ctx.says("no-plan-to-move"),
        }
    plan = shown.plan
    by = steps_of(ctx.query)
    planes = moved(plan.planes, by, step_of(ctx))
    price, checks = at(ctx.state.plans, by, step_of(ctx))
    if ctx.host.soon is not None and not ctx.ahead:
        ctx.host.soon[:] = [
            partial(at, ctx.state.plans, {**by, name: steps}, step_of(ctx))
            for steps_on in range(1, AHEAD + 1)
            for name in shown.walls
            for steps in (by.get(name, 0) + steps_on, by.get(name, 0) - steps_on)
            if abs(steps) <= FARTHEST
        ]
    out: View = {
        "title": title,
        "typed": TYPED in ctx.query,
        "step": amount(step_of(ctx), ctx.unit),
        "farthest": FARTHEST,
        "walls": [_wall(ctx, shown, name, planes[name], by.get(name, 0)) for name in shown.walls],
        "cost": cost(ctx, shown, planes, price),
        "held": held.price(ctx, plan),
        "follows": [ctx.says.check(each) for each in checks],
        "again": None,
    }
    out["next"] = {"text": ctx.says("next-move"), "why": "", "href": ""}
    out["watch"] = _watch(ctx, out["follows"])
    if "settle" in ctx.query and any(by.values()):
        out["again"] = _again(ctx, plan, planes, by)
    return out


def _watch(ctx: Context, follows: list[View]) -> list[View]:
    """The worst of each kind, for the strip that stays in sight."""
    first: dict[str, View] = {}
    for each in follows:
        kind = next(word for word in _WATCHED if each["code"].startswith(word))
        first.setdefault(kind, each)
    return [
        {
            "title": ctx.says(f"watch-{kind}"),
            **{key: first[kind][key] for key in ("value", "word", "verdict")},
        }
        for kind in ("drop-in", "drain", "valve", "edge")
        if kind in first
    ]


def step_of(ctx: Context) -> Fraction:
    """One step: a sixteenth, or 2 mm. [in]"""
    return SIXTEENTH if ctx.unit == "in" else 2 * MM


def steps_of(query: Mapping[str, str]) -> dict[str, int]:
    """Steps each wall is moved by, + toward the room; what is no number counts as not moved."""
    out = {}
    for name in ("B", "L", "R"):
        text = query.get(name, "").strip()
        if _STEPS.fullmatch(text):
            out[name] = max(-FARTHEST, min(FARTHEST, int(text)))
    return out


def moved(planes: Mapping[str, Plane], by: Mapping[str, int], step: Fraction) -> dict[str, Plane]:
    """The planes moved by so many steps."""
    return {
        name: replace(plane, offset=plane.offset + by.get(name, 0) * step) for name, plane in planes.items()
    }


def _wall(ctx: Context, shown: PlanView, name: str, plane: Plane, by: int) -> View:
    words = plane_words(plane, shown.read(name).nominal, shown.members(name), ctx.says.papers, ctx.unit)
    base = ("framing", "walls", name, "hold")
    size = step_of(ctx)
    return {
        "wall": name,
        "title": ctx.says.sheet(name),
        "by": by,
        "moved": ctx.says.moved(by * size, ctx.unit),
        "plane": words,
        "held": held.of_plane(ctx, name),
        "hold": group(
            ctx,
            ctx.says("hold-plane"),
            [
                {**row(ctx, join((*base, key)), ctx.says(f"hold-{key}")), "offer": _exact(size, ctx)}
                for key, size in _as_held(shown, name, plane).items()
            ]
            + [row(ctx, join((*base, "reason")), ctx.says("hold-reason"), wide=True)],
            ctx.says("hold-plane-note"),
        ),
    }


def _as_held(shown: PlanView, name: str, plane: Plane) -> dict[str, Fraction]:
    """All of the plane as a hold says it: held at one spot alone it turns, and costs another thing. [in]"""
    members = shown.members(name)
    run = members[-1].along - members[0].along
    return {
        "offset": plane.offset,
        **({"skew": plane.skew * run} if run else {}),
        "lean": plane.lean * LEAN_OVER,
    }


def _exact(offset: Fraction, ctx: Context) -> str:
    """The plane's offset as it would be typed; "" where no rule has it."""
    text = amount(offset, ctx.unit, mark=ctx.unit == "mm")
    return "" if text.startswith("~") else text


def at(plans: Plans | None, by: Mapping[str, int], step: Fraction) -> tuple[Price, list[Check]]:
    """The price and what follows with walls moved by so many steps; kept, for a person goes to and fro."""
    assert plans is not None
    assert plans.view is not None
    assert plans.view.plan is not None
    assert plans.planner is not None
    key = tuple(sorted((name, steps) for name, steps in by.items() if steps))
    if key not in plans.moved:
        planes = moved(plans.view.plan.planes, by, step)
        plans.moved[key] = (plans.planner.price(planes), follows(plans.view, planes))
        while len(plans.moved) > KEPT:
            plans.moved.popitem(last=False)
    return plans.moved[key]


def cost(ctx: Context, shown: PlanView, planes: Mapping[str, Plane], price: Price) -> View:
    """What the room costs with these planes, beside the least."""
    assert shown.plan is not None
    least = shown.plan.cost or Fraction(0)
    if dict(planes) == shown.plan.planes:
        # the plan's own treatments pass the straightedge there, which the cheapest at each stud may not
        price = replace(price, cost=least, straight=True)
    says = ctx.says
    broken = [says.demand(code) for code, *_ in price.broken]
    if price.cost is None:
        text, why = says("cannot-stand-here"), says("stuck", studs=", ".join(price.stuck))
    else:
        more = price.cost - least
        text = says("costs", dollars=says.dollars(price.cost))
        around = held.anything(ctx)
        if more > 0:
            dollars = says.dollars_more(price.cost, least)
            why = says("costs-more-held", dollars=dollars) if around else says("costs-more", dollars=dollars)
        else:
            why = says("costs-least-held") if around else says("costs-least")
        if not price.straight:
            why = f"{why} {says('costs-over')}"
    return {
        "text": text,
        "why": why,
        "dollars": "" if price.cost is None else says.dollars(price.cost),
        "least": says.dollars(least),
        "stuck": list(price.stuck),
        "broken": list(dict.fromkeys(broken)),
        "holds": price.cost is not None and not price.broken,
    }


def follows(shown: PlanView, planes: Mapping[str, Plane]) -> list[Check]:
    """What a person watches while a wall moves: play, drain, valve, edges; what fails first."""
    assert shown.plan is not None
    plan: FramingPlan = replace(shown.plan, planes=dict(planes))
    job = shown.rebuild.job
    built = Built(job.pan, shown.survey, job.framing, plan, shown.unit)
    checks: Iterable[Check] = (
        *play_checks(built)[0],
        *drain_checks(built),
        *valve_checks(built)[0],
        *edge_checks(built),
    )
    watched = [each for each in checks if each.code.startswith(_WATCHED)]
    order = (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS)
    return sorted(watched, key=lambda each: order.index(each.verdict))


def _again(ctx: Context, plan: FramingPlan, planes: Mapping[str, Plane], by: Mapping[str, int]) -> View:
    """The room planned again around the walls that were moved."""
    assert ctx.state.planner is not None
    put = {name: planes[name] for name, steps in by.items() if steps and name in planes}
    again = ctx.state.planner.plan(put, time_limit_s=SETTLE_S)
    says = ctx.says
    if again.cost is None:
        return {"text": says("again-none" if again.state == "none" else "again-late"), "changed": []}
    before = {member.name: member.recipe for member in plan.members}
    changed = [member.name for member in again.members if member.recipe != before[member.name]]
    more = says.dollars_more(again.cost, plan.cost or Fraction(0))
    return {
        "text": says("again-costs", dollars=says.dollars(again.cost), more=more),
        "changed": changed,
    }
