"""The page that proves it: tolerance, verdict of each wall, the readings it rests on, who and when."""

from __future__ import annotations

from undertile.findings import Verdict
from undertile.packet.cover import closed_lines
from undertile.packet.figures import amount, place
from undertile.recheck.proof import DoneStud, Proof, ProofWall, short_digest
from undertile.recheck.say import STANDING
from undertile.screens.and_then import and_then
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.steps_water import asked, cover_of
from undertile.screens.ticked import did_words


def view(ctx: Context) -> View:
    """The proof, or what is missing for it."""
    says = ctx.says
    title = says("step-proof")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    ctx.answers.plan(ctx.state)
    result = ctx.state.rechecked
    if result is None or result.proof is None:
        lead = next_step(ctx)
        then = and_then(ctx, lead)
        return {"title": title, "next": lead, "then": then, "proof": None, "cover": cover_of(ctx)}
    proof = result.proof
    worst = says.verdict(proof.verdict)
    passes = proof.verdict is Verdict.PASS
    lead = {
        "text": says("proof-print" if passes else "proof-on"),
        "why": says("proof-verdict", verdict=worst),
        "href": ctx.href("papers", "proof") if passes else ctx.href("recheck"),
    }
    return {
        "title": title,
        "cover": cover_of(ctx),
        "closed": list(closed_lines(asked(ctx), says.papers)),
        "next": lead,
        "then": and_then(ctx, lead),
        "proof": {
            "tolerance": _tolerance(ctx, proof),
            "source": says.source(proof.tolerance.source),
            "walls": [_wall(ctx, wall) for wall in proof.walls],
            "room": [
                says.check(check) for check in (*proof.play, *((proof.square,) if proof.square else ()))
            ],
            "not_shown": [{"what": says.told(what), "do": says.told(do)} for what, do in proof.not_shown],
            "failed": [{"what": says.told(what), "do": says.told(do)} for what, do in proof.failed],
            "by": proof.by,
            "date": proof.date,
            "instrument": proof.instrument,
            "digest": short_digest(proof.digest),
            "done": [
                {
                    "stud": each.stud,
                    "planned": says.minutes(each.planned_minutes),
                    "actual": "" if each.actual_minutes is None else says.minutes(each.actual_minutes),
                    "by": each.by,
                    "date": each.date,
                    "tick": _tick(ctx, each),
                }
                for each in proof.done
            ],
        },
    }


def _tick(ctx: Context, done: DoneStud) -> str:
    """A tick that was not for what the plan asks now; "" where it was."""
    if done.tick == "holds":
        return ""
    if done.tick == "unknown":
        return ctx.says("tick-unknown")
    return ctx.says("tick-earlier", did=did_words(ctx.says, done.did, ctx.unit))


def _tolerance(ctx: Context, proof: Proof) -> str:
    t = proof.tolerance
    return ctx.says(
        "tolerance",
        long=amount(t.long_limit, ctx.unit),
        over=amount(t.long_length, ctx.unit),
        short=amount(t.short_limit, ctx.unit),
        under=amount(t.short_length, ctx.unit),
    )


def _wall(ctx: Context, wall: ProofWall) -> View:
    says = ctx.says
    return {
        "title": says.sheet(wall.wall),
        "verdict": says.verdict(wall.verdict),
        "gaps": [
            {
                "length": amount(gap.length, ctx.unit),
                "limit": amount(gap.limit, ctx.unit),
                "widest": says("not-shown") if gap.widest is None else amount(gap.widest, ctx.unit),
                "where": says.place(gap.where),
                "verdict": says.verdict(gap.verdict),
            }
            for gap in wall.gaps
        ],
        "plumb": says.check(wall.plumb),
        "readings": [
            {
                "stud": each.stud,
                "height": place(each.height, ctx.unit),
                "text": each.text,
                "standing": says.told(STANDING[each.standing]),
            }
            for each in wall.readings
        ],
        "by": wall.by,
        "date": wall.date,
    }
