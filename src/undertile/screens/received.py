"""What is sent here: entries, a new job, a photo. Each is kept whole or refused in one clear line."""

from __future__ import annotations

import json
from typing import Any
from urllib.parse import parse_qsl, urlencode, urlsplit

from starlette.requests import Request

from undertile.bundled import bundled_jobs
from undertile.errors import InputError
from undertile.job import read_job
from undertile.job.entry import Entry, Pen
from undertile.job.plain import entries_of
from undertile.job.standing import RESTATED
from undertile.lengths import Unit
from undertile.screens.amiss import amiss
from undertile.screens.context import Context, View
from undertile.screens.forms import drafts_of, said
from undertile.screens.multipart import parts_of
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import judged
from undertile.screens.pages.photos import STAGES
from undertile.screens.photo_counts import FLOOR
from undertile.store.interface import Draft

MOST_FORM = 2_000_000
MOST_PHOTO = 30_000_000
"""Bytes of what is sent at once."""
MOST_ENTRIES = 5_000
UNITS: tuple[Unit, ...] = ("in", "mm")
_COUNTS = frozenset(map(str, range(1, 100)))


async def body_of(request: Request, ctx: Context, most: int, larger: str = "") -> bytes:
    """The body, at most so long; ``larger`` is what is said of a longer one.

    Raises
    ------
    InputError
        If it is longer; reading stops there.
    """
    parts: list[bytes] = []
    size = 0
    async for part in request.stream():
        size += len(part)
        if size > most:
            raise InputError(larger or ctx.says("too-big", most=f"{most // 1_000_000} MB"))
        parts.append(part)
    return b"".join(parts)


async def new_job(request: Request, ctx: Context) -> dict[str, Any]:
    """A job begun here: its id, and the facts typed with it."""
    pairs = _pairs(await body_of(request, ctx, MOST_FORM))
    bundled = dict(pairs).get("bundled", "")
    drafts = _bundled(ctx, bundled) if bundled else None
    ctx.job = ctx.store.create()
    _write(ctx, drafts_of(ctx, pairs) if drafts is None else drafts)
    told = {"job": ctx.job, "href": ctx.href()}
    return {"told": told, "back": ctx.href() if bundled else ctx.href("room")}


def _bundled(ctx: Context, name: str) -> list[Draft]:
    """Every fact of a bundled job, to be written as this device's own.

    Raises
    ------
    InputError
        If there is no such job.
    """
    jobs = bundled_jobs()
    if name not in jobs:
        raise InputError(ctx.says("try-none", known=", ".join(jobs), name=name[:40]))
    anyone = Pen(device="bundled", who=ctx.host.who or "-", time=ctx.host.now())
    return [Draft(each.fact, each.value) for each in entries_of(read_job(jobs[name]), anyone)]


async def entries(request: Request, ctx: Context) -> dict[str, Any]:
    """Facts typed: a form or drafts, numbered here; or entries made elsewhere, taken as they are."""
    body = await body_of(request, ctx, MOST_FORM)
    told: dict[str, Any] = {"new": [], "known": [], "other": [], "refused": [], "ids": {}}
    back = ctx.href()
    only = ""
    if request.headers.get("content-type", "").partition(";")[0].strip() == "application/json":
        sent = _json(body)
        only = sent.get("only", "")
        if "entries" in sent:
            told |= _taken(ctx, sent["entries"])
        written = _write(ctx, _drafts(sent.get("drafts", [])))
        if "undo" in sent:
            written += _taken_back(ctx, sent["undo"])
    else:
        pairs = _pairs(body)
        told_by, back = dict(pairs), _back(ctx, dict(pairs).get("back", ""), back)
        written = _write(ctx, drafts_of(ctx, pairs))
        if told_by.get("again") and written:  # what cannot be used is mended before one goes on
            ctx.forget()
            if amiss(ctx, [entry.fact for entry in written]):
                back = _back(ctx, told_by["again"], back)
    told["new"] += [entry.id for entry in written]
    told["ids"] |= {entry.fact: entry.id for entry in written}
    ctx.forget()
    told["judged"] = _judged(ctx)
    if only != "judged":  # a pad on a phone asks after each value, and shows no more of it
        told["next"] = next_step(ctx)
    return {"told": told, "back": _with(back, kept=str(len(told["new"])))}


def _judged(ctx: Context) -> View:
    """What is said of what was typed: on a moisture round of its points, else of the survey."""
    if ctx.query.get("round"):
        from undertile.screens.round.told import judged as of_the_round  # a survey needs none of it

        return of_the_round(ctx, ctx.query["round"])
    return judged(ctx)


async def undo(request: Request, ctx: Context) -> dict[str, Any]:
    """This device's last entries taken back, the last first; nothing is erased. A photo counts as one."""
    pairs = dict(_pairs(await body_of(request, ctx, MOST_FORM)))
    count = int(pairs["count"]) if pairs.get("count", "") in _COUNTS else 1
    back = _back(ctx, pairs.get("back", ""), ctx.href())
    for _ in range(count):
        ctx.store.undo(ctx.job, ctx.store.pen(ctx.host.device, ctx.host.who, ctx.host.now()))
    ctx.forget()
    told = {"undone": count, "judged": judged(ctx), "next": next_step(ctx)}
    return {"told": told, "back": _with(back, undone=str(count))}


def _write(ctx: Context, drafts: list[Draft]) -> tuple[Entry, ...]:
    """Drafts as this device's own entries, all or none.

    What another unit of the job asks to be said anew goes before them and is none of what came: a tap on
    *undo* takes back the unit, and what was typed says what it said either way, cut off between them as well.
    """
    if not drafts:
        return ()
    host = ctx.host
    pen = ctx.store.pen(host.device, host.who, host.now(), host.instrument)
    if again := _again(ctx, drafts):
        ctx.store.pen(host.device, host.who, host.now(), RESTATED).write_all(ctx.job, again)
    return pen.write_all(ctx.job, drafts)


def _again(ctx: Context, drafts: list[Draft]) -> list[Draft]:
    """What stands, with its unit, where a draft makes a bare number another length.

    Raises
    ------
    InputError
        If two values of one fact would have to be; nobody settles them by the way.
    """
    unit: Unit | None = next((each for each in UNITS for draft in drafts if _says_unit(draft, each)), None)
    if unit is None or not ctx.state.has_unit:
        return []
    from undertile.job.rewritten import UnsettledError, rewritten  # nothing typed on a pad needs it

    taken = {each.fact for each in drafts}
    try:
        return [
            Draft(*each)
            for each in rewritten(ctx.state.facts, unit, ctx.state.folded.left_out)
            if each[0] not in taken
        ]
    except UnsettledError as error:
        raise InputError(ctx.says("unit-unsettled", what=said(ctx, str(error)))) from None


def _says_unit(draft: Draft, unit: Unit) -> bool:
    return (draft.fact, draft.value) == ("unit", unit)


def _taken(ctx: Context, sent: Any) -> dict[str, Any]:
    if not isinstance(sent, list) or len(sent) > MOST_ENTRIES:
        raise InputError(
            f"expected a list of at most {MOST_ENTRIES:,} entries, found another thing; send fewer"
        )
    ctx.store.create(ctx.job)
    lines = [each if isinstance(each, str) else json.dumps(each, ensure_ascii=False) for each in sent]
    done = ctx.store.append_lines(ctx.job, lines)
    return {
        "new": list(done.new),
        "known": list(done.known),
        "other": list(done.other),
        "refused": list(done.refused),
    }


def _taken_back(ctx: Context, sent: Any) -> tuple[Entry, ...]:
    """This device's last entry of one fact taken back, as the pad saw it."""
    fact, seen = (sent.get("fact"), sent.get("stands")) if isinstance(sent, dict) else (None, None)
    if not isinstance(fact, str) or not isinstance(seen, list):
        raise InputError("expected `undo` with `fact` and `stands`, found another thing; send it again")
    pen = ctx.store.pen(ctx.host.device, ctx.host.who, ctx.host.now())
    return ctx.store.undo(ctx.job, pen, fact, [str(each) for each in seen])


def _drafts(sent: Any) -> list[Draft]:
    if not isinstance(sent, list) or len(sent) > MOST_ENTRIES:
        raise InputError(
            f"expected a list of at most {MOST_ENTRIES:,} facts, found another thing; send fewer"
        )
    out = []
    for each in sent:
        if not isinstance(each, dict) or not isinstance(each.get("fact"), str):
            raise InputError("expected each fact with `fact` and `value`, found another thing; send it again")
        value, ids = each.get("value"), each.get("supersedes", [])
        if not (value is None or isinstance(value, str)) or not isinstance(ids, list):
            raise InputError(f"{each['fact'][:80]}: expected `value` as a text or null; send it as typed")
        out.append(Draft(each["fact"], value, tuple(str(one) for one in ids)))
    return out


def _json(body: bytes) -> dict[str, Any]:
    try:
        sent = json.loads(body)
    except (ValueError, RecursionError):
        raise InputError("expected JSON, found something else; send it again") from None
    if not isinstance(sent, dict):
        raise InputError('expected {"entries": [...]}, found another thing; send it again')
    return sent


def _pairs(body: bytes) -> list[tuple[str, str]]:
    try:
        return parse_qsl(body.decode(), keep_blank_values=True, max_num_fields=4_000)
    except (UnicodeDecodeError, ValueError):
        raise InputError("expected a form in UTF-8, found something else; send it again") from None


def _back(ctx: Context, asked: str, otherwise: str) -> str:
    """Where the person came from, if that is a screen of this job."""
    return (
        asked if asked.startswith((ctx.href() + "/", ctx.href() + "?")) or asked == ctx.href() else otherwise
    )


def _with(address: str, **more: str) -> str:
    """The address with a word more in its query."""
    parts = urlsplit(address)
    query = [(key, value) for key, value in parse_qsl(parts.query) if key not in ("kept", "undone")]
    return f"{parts.path}?{urlencode([*query, *more.items()])}"


async def photo(request: Request, ctx: Context) -> dict[str, Any]:
    """A photo with its place and stage; made fit to keep by the host before it is kept."""
    if ctx.host.clean_photo is None:
        raise InputError(ctx.says("photo-cannot"))
    content, told = _picture(request, await body_of(request, ctx, MOST_PHOTO))
    picture = await ctx.host.clean_photo(content)
    facts = {}
    place = told.get("place", "")
    if place.startswith("wall "):
        facts["wall"] = place.removeprefix("wall ")
    elif place == FLOOR:
        facts["surface"] = FLOOR
    elif place and place != "room":
        facts["stud"] = place
    if told.get("stage") in STAGES:
        facts["stage"] = told["stage"]
    if told.get("note", "").strip():
        facts["note"] = told["note"].strip()[:200]
    pen = ctx.store.pen(ctx.host.device, ctx.host.who, ctx.host.now())
    kept = ctx.store.add_photo(ctx.job, picture.content, pen, facts)
    return {"told": {"name": kept.name}, "back": ctx.href("photos", kept="1")}


def _picture(request: Request, body: bytes) -> tuple[bytes, dict[str, str]]:
    """The picture and what is said of it: a form with a file, or the picture alone with a query."""
    kind = request.headers.get("content-type", "")
    if not kind.startswith("multipart/form-data"):
        return body, dict(request.query_params)
    told = parts_of(body, kind)
    content = told.pop("photo", b"")
    if not content:
        raise InputError("expected a photo, found none; choose one and send it again")
    return content, {name: each.decode("utf-8", "replace") for name, each in told.items()}
