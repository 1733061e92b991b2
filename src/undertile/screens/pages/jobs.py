"""The list of jobs, and a new one."""

from __future__ import annotations

from undertile.bundled import bundled_jobs
from undertile.job import read_job
from undertile.screens.carried import most_of
from undertile.screens.clock import here
from undertile.screens.context import Context, View


def view(ctx: Context) -> View:
    """Every job of this device, the newest first; what a new one needs."""
    rows = [
        {
            "id": each.id,
            "name": each.name or ctx.says("no-name"),
            "entries": each.entries,
            "photos": each.photos,
            "time": here(ctx, each.time),
            "href": f"{ctx.root}/job/{each.id}",
        }
        for each in ctx.store.jobs()
    ]
    next_text = ctx.says("next-open") if rows else ctx.says("next-first-job")
    return {
        "title": ctx.says("jobs"),
        "next": {
            "text": next_text,
            "href": rows[0]["href"] if rows else "#new",
            "why": rows[0]["name"] if rows else "",
        },
        "jobs": rows,
        "most": most_of(ctx),
        "bundled": [{"key": key, "name": read_job(content).name} for key, content in bundled_jobs().items()],
    }
