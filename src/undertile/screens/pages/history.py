"""The whole record: every value of every fact, who typed it, when, on which device; an old one used again."""

from __future__ import annotations

import re

from undertile.errors import InputError
from undertile.job.address import join
from undertile.job.entry import Entry
from undertile.job.model import fact_at
from undertile.job.standing import RESTATED, UNDO, first_said, history
from undertile.screens.clock import here
from undertile.screens.context import Context, NotHere, View
from undertile.screens.device import device_words
from undertile.screens.forms import row, said, told
from undertile.screens.next_step import next_step
from undertile.store.when import instant

MOST = 200
"""Entries listed on one page."""
OWN = (UNDO, RESTATED)
"""Instruments that are the tool's own."""
_COUNT = re.compile(r"[0-9]{1,7}")


def view(ctx: Context) -> View:
    """The history of one fact, or the last entries of the job."""
    fact = ctx.query.get("fact", "")
    return _one(ctx, fact) if fact else _all(ctx)


def _one(ctx: Context, fact: str) -> View:
    try:
        entries = history(ctx.state.log, fact)
        address = join(fact_at(fact)[0])
    except InputError as error:
        raise NotHere(str(error)) from None
    ids = ctx.standing(address)[1]
    return {
        "title": said(ctx, address),
        "next": next_step(ctx),
        "fact": address,
        "here": ctx.href("history", fact=address),
        "open": "mend" in ctx.query,
        "row": row(ctx, address, said(ctx, address)),
        "entries": [
            {**_entry(ctx, each, each.id in ids), "again": not any(map(_restates, entries[at + 1 :]))}
            for at, each in enumerate(entries)
        ],
        "stands": " ".join(ids),
        "more": 0,
    }


def _all(ctx: Context) -> View:
    order = sorted((each for each in ctx.state.log if not _restates(each)), key=_typed, reverse=True)
    asked = ctx.query.get("from", "")
    first = int(asked) if _COUNT.fullmatch(asked) else 0
    facts = ctx.state.facts.values()
    standing = {first_said(fact, entry).id for fact in facts for entry in fact.standing}
    return {
        "title": ctx.says("step-history"),
        "next": next_step(ctx),
        "fact": "",
        "row": None,
        "entries": [_entry(ctx, each, each.id in standing) for each in order[first : first + MOST]],
        "stands": "",
        "more": max(0, len(order) - first - MOST),
        "older": f"{ctx.href('history')}?from={first + MOST}",
        "first": first,
    }


def _restates(entry: Entry) -> bool:
    """Whether it only writes what stood with its unit: what was typed for the other unit is used no more."""
    return entry.instrument == RESTATED


def _typed(entry: Entry) -> tuple[str, str, int]:
    """When, then the device's own count: a clock that stands still does not mix the order."""
    number = entry.id.rpartition("-")[2]
    count = int(number) if number.isdecimal() and len(number) < 16 else 0
    at = instant(entry.time)
    return at.isoformat() if at is not None else entry.time, entry.device, count


def _entry(ctx: Context, entry: Entry, stands: bool) -> View:
    try:
        where = said(ctx, entry.fact)
    except InputError:
        where = entry.fact
    return {
        "id": entry.id,
        "fact": entry.fact,
        "where": where,
        "as_typed": entry.value,
        "shown": told(ctx, entry.fact, entry.value),
        "who": entry.who,
        "time": here(ctx, entry.time),
        "device": entry.device,
        "device_said": device_words(ctx, entry.device),
        "instrument": entry.instrument,
        "by_what": ctx.says(f"by-{entry.instrument}") if entry.instrument in OWN else entry.instrument,
        "stands": stands,
        "href": ctx.href("history", fact=entry.fact),
    }
