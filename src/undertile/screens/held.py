"""What a person holds in this job, what it costs, and how it is let go (convention 4.6).

The cost is the plan's beside the least of the same room with nothing held: that plan is often known, for it
stood before the hold. Where it is not, it is looked for when a person asks, and never guessed.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan
from undertile.job import Job
from undertile.job.address import join
from undertile.packet.held import plane_held, stud_held
from undertile.packet.plan_view import PlanView
from undertile.screens.context import Context, View
from undertile.screens.doubted import under_a_hold
from undertile.screens.forms import row
from undertile.screens.slices import key_of

FREED = "freed"
"""In the query: look for the plan with nothing held."""
FREED_S = 2.0
"""For that plan, while the person waits; what takes longer is said. [s]"""
OF_PLANE = ("offset", "skew", "lean", "reason")
OF_STUD = ("treatment", "reason")


def framing_of(ctx: Context) -> FramingFacts:
    """What is said of the studs, as it stands."""
    facts: FramingFacts = ctx.state.folded.job.framing
    return facts


def anything(ctx: Context) -> bool:
    """Whether the plan works around something a person holds."""
    return framing_of(ctx).held


def of_plane(ctx: Context, wall: str) -> View | None:
    """A wall's hold: what is said of it, and the facts that let it go; None where the plane is free."""
    text = plane_held(framing_of(ctx), wall, ctx.says.papers)
    base = ("framing", "walls", wall, "hold")
    if not text:
        return None
    return {"text": text, "rows": _standing(ctx, base, OF_PLANE), "doubt": under_a_hold(ctx, wall)}


def of_stud(ctx: Context, wall: str, stud: str) -> View | None:
    """A stud's hold, the same way."""
    text = stud_held(framing_of(ctx), stud, ctx.says.papers)
    base = ("framing", "studs", stud, "hold")
    if not text:
        return None
    return {"text": text, "rows": _standing(ctx, base, OF_STUD), "doubt": under_a_hold(ctx, wall, stud)}


def _standing(ctx: Context, base: tuple[str, ...], keys: tuple[str, ...]) -> list[View]:
    """The facts of a hold that stand: what lets it go supersedes them, and nothing is erased."""
    rows = [row(ctx, join((*base, key)), "") for key in keys]
    return [{"fact": each["fact"], "stands": each["stands"]} for each in rows if each["stands"]]


def freed(job: Job) -> Job:
    """The same job with nothing held."""
    facts: FramingFacts = job.framing
    walls = {name: each.model_copy(update={"hold": None}) for name, each in facts.walls.items()}
    studs = {name: each.model_copy(update={"hold": None}) for name, each in facts.studs.items()}
    told = facts.model_copy(update={"walls": walls, "studs": studs})
    return job.model_copy(update={"framing": told})


def price(ctx: Context, plan: FramingPlan) -> View | None:
    """What the hold costs: said, or not known with where to ask; None where nothing is held."""
    if not anything(ctx) or plan.cost is None:
        return None
    says, free = ctx.says, _free_plan(ctx)
    ask = {"text": "", "href": f"{ctx.href('plan')}?{FREED}=1"}
    if free is None:
        return {**ask, "text": says("held-cost-not-known")}
    if free.cost is None:
        return {**ask, "text": says("held-cost-late"), "href": ""}
    more: Fraction = plan.cost - free.cost
    if more > 0:
        text = says(
            "held-costs",
            more=says.dollars_more(plan.cost, free.cost),
            held=says.dollars(plan.cost),
            free=says.dollars(free.cost),
        )
    elif more == 0:
        text = says("held-costs-nothing", free=says.dollars(free.cost))
    else:  # one of the two searches stopped before it was through
        text = says("held-cost-late")
    if more >= 0 and not (plan.state == free.state == "proved"):
        text = f"{text} {says('held-cost-open')}"
    return {"text": text, "href": ""}


def _free_plan(ctx: Context) -> FramingPlan | None:
    """The least plan with nothing held, if it is known or asked for now."""
    state = ctx.state
    job = freed(state.folded.job)
    before = state.known.get(key_of(job))
    if before is not None:
        found: FramingPlan | None = before.rebuild.results.get("framing")
        if found is not None and found.cost is not None:
            return found
    plans = state.plans
    if plans is None:
        return None
    if plans.freed is None and FREED in ctx.query:
        from undertile.framing.moves import Planner

        problem = PlanView(replace(plans.rebuild, job=job)).problem
        plans.freed = Planner(problem).plan(time_limit_s=FREED_S)
    return plans.freed
