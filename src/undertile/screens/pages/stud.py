"""One stud: its readings, what is done and why, what it is, what a person holds it to."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.plan import MemberPlan
from undertile.job.address import height_key, join
from undertile.lengths import Length
from undertile.packet.figures import amount, place
from undertile.packet.held import stud_held
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import wall_parts
from undertile.packet.whys import Whys
from undertile.screens import held
from undertile.screens.context import Context, NotHere, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import heights_of, label_of, studs_in_order
from undertile.screens.pages.named import several
from undertile.survey.facts import Wall

ABOUT = ("kind", "bearing", "bay", "free_behind", "fixed", "depth", "read_on", "notch", "brace", "soft")


def view(ctx: Context) -> View:
    """Everything about one stud, what to do first.

    Raises
    ------
    NotHere
        If the job has no such stud.
    """
    name = ctx.path["name"]
    wall_name, wall = _of(ctx, name)
    shown = ctx.state.view
    planned = None
    if shown is not None and shown.plan is not None:
        planned = next((member for member in shown.plan.members if member.name == name), None)
    says = ctx.says
    every = studs_in_order(wall)
    at = every.index(name)
    base = ("framing", "studs", name)
    doing = _doing(ctx, shown, planned) if shown is not None and planned is not None else None
    return {
        "title": name,
        "stud": name,
        "wall": says.sheet(wall_name),
        "along": wall.studs[name].along.text,
        "next": {"text": doing["do"], "why": doing["where"], "href": ""} if doing else next_step(ctx),
        "doing": doing,
        "doubted": bool(ctx.state.suspects),
        "readings": _readings(ctx, wall_name, wall, name, planned),
        "read": ctx.href("read", wall_name),
        "about": group(
            ctx,
            says("what-it-is"),
            [row(ctx, join((*base, key)), says(f"wall-{key}")) for key in ABOUT],
            says("as-the-wall"),
        ),
        "is_held": held.of_stud(ctx, wall_name, name),
        "held": group(
            ctx,
            says("hold-it"),
            [
                row(ctx, join((*base, "hold", "treatment")), says("hold-to")),
                row(ctx, join((*base, "hold", "reason")), says("hold-reason"), wide=True),
            ],
            says("hold-note"),
        ),
        "twist": group(
            ctx,
            says("other-edge-head"),
            [
                row(
                    ctx,
                    join(("survey", "walls", wall_name, "studs", name, "arris", height_key(height))),
                    says("reading-at", height=label_of(ctx, height)),
                )
                for height in heights_of(wall)
            ],
            says("other-edge-note"),
        ),
        "several": [several(ctx, key, (*base, key)) for key in ("services", "holes")],
        "before": {"text": every[at - 1], "href": ctx.href("stud", every[at - 1])} if at else None,
        "after": {"text": every[at + 1], "href": ctx.href("stud", every[at + 1])}
        if at + 1 < len(every)
        else None,
        "photos": ctx.href("photos", place=name),
    }


def _of(ctx: Context, name: str) -> tuple[str, Wall]:
    for wall_name, wall in ctx.state.folded.job.survey.walls.items():
        if name in wall.studs:
            return wall_name, wall
    raise NotHere(ctx.says("no-such-stud", stud=name))


def _doing(ctx: Context, shown: PlanView, member: MemberPlan) -> View:
    part = next(each for each in wall_parts(shown, ctx.says.papers, Whys()) if each.wall == member.wall)
    card = next((each for each in part.cards if each.name == member.name), None)
    small = next((text for stud, text in part.small if member.name in stud.split(", ")), "")
    touched = card is not None
    marked = stud_held(held.framing_of(ctx), member.name, ctx.says.papers)  # it stands above, with its key
    return {
        "do": f"{member.name}: {card.do if card is not None else small}",
        "where": ctx.says("takes", minutes=ctx.says.minutes(member.minutes)) if member.minutes else "",
        "steps": [
            {"text": step.text, "waits": step.waits, "stop": step.stop}
            for step in card.steps
            if step.text != marked
        ]
        if card
        else [],
        "layers": [
            {"letter": layer.letter, "stock": layer.stock, "waits": layer.waits} for layer in card.layers
        ]
        if card
        else [],
        "reasons": [ctx.says.told(reason) for reason in member.reasons],
        "touched": touched,
    }


def _readings(ctx: Context, wall_name: str, wall: Wall, name: str, planned: MemberPlan | None) -> list[View]:
    """A row for each height from the top: the reading, what is done, what it reads after."""
    from undertile.framing.words import marks

    told = (
        {each.height: ctx.says.mark(each.text) for each in marks(planned, ctx.unit)}
        if planned is not None
        else {}
    )
    rows = []
    for height in reversed(heights_of(wall)):
        address = join(("survey", "walls", wall_name, "studs", name, "readings", height_key(height)))
        value, ids = ctx.standing(address)
        rows.append(
            {
                "height": label_of(ctx, height),
                "value": value,
                "shown": ctx.says("two-values") if len(ids) > 1 else ctx.says.value(value if ids else ""),
                "clash": len(ids) > 1,
                "mark": told.get(height.inches, ""),
                "after": _after(ctx, wall, planned, height),
                "history": ctx.href("history", fact=address),
                "read": ctx.href("read", wall_name, at=address),
            }
        )
    return rows


def _after(ctx: Context, wall: Wall, planned: MemberPlan | None, height: Length) -> str:
    """What the stud reads from the line once the work is done."""
    if planned is None or height.inches not in planned.heights:
        return ""
    finished: Fraction = planned.finished[planned.heights.index(height.inches)]
    return amount(wall.nominal.inches - finished, ctx.unit)


def placed(ctx: Context, height: Fraction) -> str:
    """A height as a label."""
    return place(height, ctx.unit)
