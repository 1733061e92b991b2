"""A view as a page or as JSON: the same data either way."""

from __future__ import annotations

import json
from html import escape
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import Response

from undertile.errors import UndertileError
from undertile.screens.amiss import amiss, sent
from undertile.screens.context import Context, View
from undertile.screens.next_step import STEPS
from undertile.screens.unbroken import unbroken

_HERE = Path(__file__).parent
COMPILED = _HERE / "compiled"
"""Templates compiled ahead, where whoever packs this for a phone has put them."""


def wants_json(request: Request) -> bool:
    """Whether the twin is asked for: JSON accepted and no page, or JSON sent."""
    accept = request.headers.get("accept", "")
    return "application/json" in accept and "text/html" not in accept


class Page:
    """The templates, compiled when first used."""

    def __init__(self) -> None:
        self.environment = Environment(
            loader=FileSystemLoader(_HERE / "templates"),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            bytecode_cache=FileSystemBytecodeCache(str(COMPILED)) if COMPILED.is_dir() else None,
            auto_reload=not COMPILED.is_dir(),  # what is packed does not change
        )
        self.environment.filters.update({"led": led, "long": is_long})

    def load(self) -> None:
        """Read every template now."""
        for name in self.environment.list_templates():
            self.environment.get_template(name)

    def answer(
        self, request: Request, ctx: Context, view: View, template: str, status: int = 200
    ) -> Response:
        """The view as it was asked for."""
        if wants_json(request):
            return self.json(view, status)
        page = self.environment.get_template(f"{template}.html")
        text = page.render(v=view, w=ctx.says, frame=frame(request, ctx, template), data=data)
        headers = {"vary": "accept, cookie", "cache-control": "no-store"}
        return Response(unbroken(text), status, headers, "text/html")

    def json(self, told: Any, status: int = 200) -> Response:
        """Plain data as JSON."""
        headers = {"vary": "accept, cookie", "cache-control": "no-store"}
        return Response(json.dumps(told, ensure_ascii=False), status, headers, "application/json")


LONG = 48
"""Characters of a headline that take more than three lines of a phone in the largest type."""
_SHORT = 8
"""Of a word that only says whose sentence follows: ``Water: do not cover yet: ...``."""


class Html(str):
    """A text that is markup already."""

    __slots__ = ()

    def __html__(self) -> str:
        """As templates ask for it."""
        return str(self)


def led(value: Any) -> Html:
    """What a line says, in heavy type, and the list behind its colon in plain: a list in bold is not read."""
    text = str(value)
    head, colon, rest = text.partition(": ")
    if len(head) <= _SHORT and ": " in rest:
        more, colon, rest = rest.partition(": ")
        head = f"{head}: {more}"
    if not rest or "," in head.partition(":")[2]:
        return Html(f"<strong>{escape(text)}</strong>")
    return Html(f'<strong>{escape(head + colon.rstrip())}</strong> <span class="rest">{escape(rest)}</span>')


def is_long(value: Any) -> bool:
    """Whether a headline is set smaller so as to stay one."""
    return len(str(value)) > LONG


def data(value: Any) -> str:
    """Plain data for a script element: nothing in it can end the element."""
    text = json.dumps(value, ensure_ascii=False)
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")


def _count(request: Request, name: str) -> str:
    """A count out of the address, "" where there is none."""
    text = request.query_params.get(name, "")
    return text if text.isdecimal() and text.isascii() and len(text) < 7 else ""


def _took(request: Request, ctx: Context) -> str:
    """What became of a file that was opened, "" where none was."""
    told = {key: _count(request, key) for key in ("new", "known", "other")}
    if not all(told.values()):
        return ""
    other = ctx.says("took-other", number=told["other"]) if told["other"] != "0" else ""
    return f"{ctx.says('took', new=told['new'], known=told['known'])} {other}".strip()


def frame(request: Request, ctx: Context, template: str) -> dict[str, Any]:
    """What stands around every page: the job, what is not copied yet, the steps before and after."""
    out: dict[str, Any] = {
        "root": ctx.root,
        "language": ctx.says.language,
        "template": template,
        "job": ctx.job,
        "name": "",
        "kept": "",
        "here": str(request.url.path) + (f"?{request.url.query}" if request.url.query else ""),
        "path": str(request.url.path),
        "said": _count(request, "kept"),
        "undone": _count(request, "undone"),
        "amiss": (),
        "took": _took(request, ctx),
        "before": None,
        "after": None,
        "home": f"{ctx.root}/",
        "host": ctx.host.kind,
    }
    if not ctx.job:
        return out
    try:
        out["name"] = ctx.state.folded.job.name or ctx.says("no-name")
    except UndertileError:
        return out
    if out["said"]:
        out["amiss"] = amiss(ctx, sent(ctx, int(out["said"])))
    if ctx.host.kept is not None:
        out["kept"] = ctx.host.kept(ctx.job)
    out["home"] = ctx.href()
    out["entries"], out["undo"] = ctx.href("entries"), ctx.href("undo")
    if template == "stud":
        # the stud beside, not the screen beside
        return out
    if template in STEPS:
        at = STEPS.index(template)
        if at:
            out["before"] = {"text": ctx.says(f"step-{STEPS[at - 1]}"), "href": ctx.href(STEPS[at - 1])}
        if at + 1 < len(STEPS):
            out["after"] = {"text": ctx.says(f"step-{STEPS[at + 1]}"), "href": ctx.href(STEPS[at + 1])}
    return out
