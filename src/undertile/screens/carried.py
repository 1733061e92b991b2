"""Jobs as files: one opened from wherever it came, one handed out; on the laptop and on the phone alike."""

from __future__ import annotations

from codecs import BOM_UTF8
from typing import Any
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from undertile.errors import InputError
from undertile.job import read_job, write_job
from undertile.job.entry import Pen
from undertile.job.model import Job
from undertile.job.plain import entries_of
from undertile.screens.context import Context
from undertile.screens.multipart import parts_of
from undertile.screens.received import body_of
from undertile.store.interface import Appended, Draft
from undertile.store.parcel import file_name, pack, take_in, unpack

MOST_FILE = {"server": 200_000_000, "phone": 60_000_000}
"""Bytes of a file that is opened here; a phone's browser holds it several times meanwhile. (of ours)"""
UNPACKED = 3
"""How many times as much may come out of it: photos do not pack, so an honest one stays far below."""
AROUND = 10_000
"""Bytes of a form around its file."""
_BACKUP = b"SQLite format 3\0"


def most_of(ctx: Context) -> str:
    """How large a file may be here, as it is said."""
    return f"{MOST_FILE[ctx.host.kind] // 1_000_000} MB"


async def open_file(request: Request, ctx: Context) -> dict[str, Any]:
    """A job file begins a job; an archive or a log is added to its own job, or begins it.

    Raises
    ------
    InputError
        If it cannot be used, a line for each thing wrong; nothing is kept then.
    """
    most = MOST_FILE[ctx.host.kind]
    larger = ctx.says(f"file-larger-{ctx.host.kind}", most=most_of(ctx))
    content = await body_of(request, ctx, most + AROUND, larger)
    kind = request.headers.get("content-type", "")
    if kind.startswith("multipart/form-data"):
        content = parts_of(content, kind).get("file", b"")
    if len(content) > most:
        raise InputError(larger)
    if not content:
        raise InputError(ctx.says("file-none"))
    if content.startswith(_BACKUP):
        raise InputError(ctx.says("file-backup"))
    if content.startswith(b"PK") or content.removeprefix(BOM_UTF8).lstrip().startswith(b"{"):
        ctx.job, done = take_in(ctx.store, unpack(content, UNPACKED * most))
    else:
        done = _begun(ctx, read_job(content))
    told = {
        "job": ctx.job,
        "href": ctx.href(),
        "new": len(done.new),
        "known": len(done.known),
        "other": len(done.other),
        "refused": list(done.refused),
    }
    counts = {key: str(told[key]) for key in ("new", "known", "other")}
    return {"told": told, "back": ctx.href(**counts), "refused": list(done.refused)}


def _begun(ctx: Context, job: Job) -> Appended:
    """A new job of everything a job file says, as this device's own entries."""
    anyone = Pen(device="file", who=ctx.host.who or "-", time=ctx.host.now())
    drafts = [Draft(each.fact, each.value) for each in entries_of(job, anyone)]
    ctx.job = ctx.store.create()
    pen = ctx.store.pen(ctx.host.device, ctx.host.who, ctx.host.now())
    return Appended(tuple(entry.id for entry in pen.write_all(ctx.job, drafts)))


def whole(ctx: Context) -> Response:
    """The job with its history and photos as one file."""
    content = pack(ctx.store, ctx.job)
    return _file(file_name(ctx.store, ctx.job, ctx.host.now(), "undertile.zip"), content, "application/zip")


def job_file(ctx: Context) -> Response:
    """The job as a job file: what stands, without its history and its photos."""
    content = write_job(ctx.state.folded.job).encode()
    return _file(file_name(ctx.store, ctx.job, ctx.host.now(), "toml"), content, "application/toml")


def _file(name: str, content: bytes, kind: str) -> Response:
    headers = {
        "content-disposition": f"attachment; filename*=UTF-8''{quote(name)}",
        "x-content-type-options": "nosniff",
        "cache-control": "no-store",
    }
    return Response(content, headers=headers, media_type=kind)
