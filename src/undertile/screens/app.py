"""The app: which path is which screen, what a request is, how an error is said.

Handlers are coroutines and wait for nothing but the request and the host's hooks: no thread is started, so
that the same app runs in a worker on the phone.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from http import HTTPStatus
from importlib import import_module
from typing import Any

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from undertile.errors import FileError, InputError, UndertileError
from undertile.screens.answers import Answers
from undertile.screens.context import Broken, Context, NotHere, View
from undertile.screens.files import photo_file, static_file
from undertile.screens.host import Host
from undertile.screens.page import Page, wants_json
from undertile.screens.words import LANGUAGES, Says
from undertile.store.interface import Store

Screen = Callable[[Context], View]
SCREENS: dict[str, tuple[str, str]] = {
    "/": ("jobs.view", "jobs"),
    "/job/{id}": ("job.view", "job"),
    "/job/{id}/room": ("room.view", "room"),
    "/job/{id}/pan": ("pan.view", "pan"),
    "/job/{id}/water": ("water.view", "water"),
    "/job/{id}/water/charts": ("water_charts.view", "water_charts"),
    "/job/{id}/water/point": ("water_point.view", "water_point"),
    "/job/{id}/water/rounds": ("water_rounds.view", "water_rounds"),
    "/job/{id}/water/leak": ("water_leak.view", "water_leak"),
    "/job/{id}/water/gate": ("water_gate.view", "water_gate"),
    "/job/{id}/read": ("read.view", "read"),
    "/job/{id}/read/{wall}": ("read.pad", "pad"),
    "/job/{id}/doubts": ("doubts.view", "doubts"),
    "/job/{id}/plan": ("plan.view", "plan"),
    "/job/{id}/stud/{name}": ("stud.view", "stud"),
    "/job/{id}/moves": ("moves.view", "moves"),
    "/job/{id}/more": ("more.view", "more"),
    "/job/{id}/work": ("work.view", "work"),
    "/job/{id}/recheck": ("recheck.view", "recheck"),
    "/job/{id}/recheck/pad": ("recheck.pad", "pad"),
    "/job/{id}/proof": ("proof.view", "proof"),
    "/job/{id}/floor": ("floor.view", "floor"),
    "/job/{id}/floor/type": ("floor_type.view", "floor-type"),
    "/job/{id}/floor/joist/{joist}": ("floor_type.joist", "joist"),
    "/job/{id}/floor/read": ("floor_type.pad", "pad"),
    "/job/{id}/papers/floor": ("papers.floor", "floor-paper"),
    "/job/{id}/papers/water": ("papers.water", "record-paper"),
    "/job/{id}/papers": ("papers.view", "papers"),
    "/job/{id}/papers/crew": ("papers.crew", "crew"),
    "/job/{id}/papers/form": ("papers.form", "form"),
    "/job/{id}/papers/proof": ("papers.proof", "proof-paper"),
    "/job/{id}/water/round": ("round.view", "round"),
    "/job/{id}/water/round/{visit}": ("round.pad", "pad"),
    "/job/{id}/safety": ("safety.view", "safety"),
    "/job/{id}/photos": ("photos.view", "photos"),
    "/job/{id}/history": ("history.view", "history"),
}
"""Path to what it shows, in ``pages``, and the template that prints it."""
OPEN = "/open"
"""Where a file of a job is sent to."""
MOST_SAID = 12
"""Problems of one file that are listed; the rest is counted."""
MOST_ASKED = 120
"""Characters of what was asked for that an answer repeats."""


def create_app(store: Store, host: Host) -> Starlette:
    """The screens over one store, on one host.

    Parameters
    ----------
    store : Store
    host : Host

    Returns
    -------
    Starlette
    """
    app = Screens(store, host)
    routes = [
        Route(path, app.screen(later(f"pages.{view}"), template), methods=["GET"])
        for path, (view, template) in SCREENS.items()
    ]
    routes += [
        Route("/", app.posted(later("received.new_job")), methods=["POST"]),
        Route(OPEN, app.posted(later("carried.open_file")), methods=["POST"]),
        Route("/job/{id}/copy", app.handed(later("carried.whole")), methods=["GET"]),
        Route("/job/{id}/file", app.handed(later("carried.job_file")), methods=["GET"]),
        Route("/job/{id}/entries", app.posted(later("received.entries")), methods=["POST"]),
        Route("/job/{id}/undo", app.posted(later("received.undo")), methods=["POST"]),
        Route("/job/{id}/photos", app.posted(later("received.photo")), methods=["POST"]),
        Route("/static/{name}", static_file, methods=["GET"]),
        Route("/photo/{name}", photo_file(store), methods=["GET"]),
    ]
    handlers: Mapping[Any, Any] = {
        NotHere: app.failed,
        InputError: app.failed,
        UndertileError: app.failed,
        HTTPException: app.failed,
        Exception: app.failed,
    }
    made = Starlette(routes=routes, exception_handlers=dict(handlers))
    made.state.answers = app.answers
    made.state.load = app.page.load
    made.state.refused = app.refused
    return made


def later(place: str) -> Callable[..., Any]:
    """A function of this room by its module and name, imported when it is first called.

    A phone's first screen is there sooner than all the others are read.
    """
    module, _, name = place.rpartition(".")

    def called(*given: Any) -> Any:
        return getattr(import_module(f"undertile.screens.{module}"), name)(*given)

    return called


class Screens:
    """What every request shares: the store, the host, the answers kept, the templates."""

    def __init__(self, store: Store, host: Host) -> None:
        self.store = store
        self.host = host
        self.answers = Answers()
        self.page = Page()

    def context(self, request: Request) -> Context:
        """What a screen is given of a request."""
        return Context(
            self.store,
            self.host,
            self.answers,
            self.says(request),
            request.scope.get("root_path", ""),
            request.path_params.get("id", ""),
            dict(request.query_params),
            dict(request.path_params),
            request.headers.get("sec-purpose", "").startswith("prefetch"),
        )

    def says(self, request: Request) -> Says:
        """The words: asked for in the address, kept from the last time, or the host's."""
        for asked in (request.query_params.get("lang"), request.cookies.get("lang"), self.host.language):
            if asked in LANGUAGES:
                return Says(asked)
        return Says()

    def screen(self, view: Screen, template: str) -> Callable[[Request], Awaitable[Response]]:
        """A handler that shows a screen: the page, or its twin as JSON."""

        async def shown(request: Request) -> Response:
            ctx = self.context(request)
            if ctx.job:
                self.store.digest(ctx.job)  # is it here at all?
                ctx.speak()
            found = view(ctx)
            if template == "papers" and self.host.papers is not None:
                had = await self.host.papers(ctx.job, ctx.says.language)
                found["files"] = [{"title": paper.title, "href": paper.href} for paper in had]
            response = self.page.answer(request, ctx, found, found.pop("as", template))
            if request.query_params.get("lang") in LANGUAGES:
                response.set_cookie(
                    "lang", ctx.says.language, max_age=31_536_000, samesite="lax", httponly=True
                )
            return response

        return shown

    def posted(
        self, take: Callable[[Request, Context], Awaitable[Any]]
    ) -> Callable[[Request], Awaitable[Response]]:
        """A handler that takes something in: JSON is answered in JSON, a form is sent back to its page."""

        async def taken(request: Request) -> Response:
            ctx = self.context(request)
            if request.headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
                raise InputError(ctx.says("from-elsewhere"))
            answer = await take(request, ctx)
            if wants_json(request):
                return self.page.json(answer["told"])
            if answer.get("refused"):
                text = ctx.says("file-part", new=answer["told"]["new"])
                return self._refused(request, ctx, text, answer["refused"], HTTPStatus.OK, ctx.href())
            return RedirectResponse(answer["back"], HTTPStatus.SEE_OTHER)

        return taken

    def handed(self, make: Callable[[Context], Response]) -> Callable[[Request], Awaitable[Response]]:
        """A handler that hands out a file."""

        async def handed_out(request: Request) -> Response:
            return make(self.context(request))

        return handed_out

    async def failed(self, request: Request, error: Exception) -> Response:
        """One clear line, as a page or as JSON; nothing that was typed is lost by it."""
        ctx = self.context(request)
        status = 400
        text = str(error)
        if isinstance(error, HTTPException):
            return self.refused(request, error.status_code)
        elif isinstance(error, NotHere):
            status = 404
        elif isinstance(error, InputError) and ctx.job and not _here(self.store, ctx.job):
            status, text = 404, ctx.says("job-not-here")
            ctx.job = ""
        elif isinstance(error, UndertileError) and not isinstance(error, InputError):
            status = 503
        elif not isinstance(error, UndertileError):
            status, text = 500, ctx.says("fault")
        # what broke it can be taken back or corrected in the record, which stands on no stage
        mend = ctx.job and (status == 500 or isinstance(error, Broken))
        href = ctx.href("history") if mend else f"{ctx.root}/"
        problems = list(error.problems) if isinstance(error, FileError) else [text]
        said = text if len(problems) == 1 else ctx.says("file-problems", number=len(problems))
        return self._refused(request, ctx, said, problems, status, href)

    def refused(self, request: Request, status: int, **slots: object) -> Response:
        """What a host or a path refuses: what was asked for, why not, where to go on.

        Parameters
        ----------
        request : Request
        status : {404, 405, 413, 500, 503}
        **slots
            What the sentence for that status says besides: ``most`` for 413.
        """
        ctx = self.context(request)
        if ctx.job and not _here(self.store, ctx.job):
            ctx.job = ""  # a name that is no job's names none at the top of the page
        sentence = {404: "not-here", 413: "too-big", 503: "no-bundle"}.get(status, "fault")
        if status == 405:
            sentence = "asked-open" if request.method in ("GET", "HEAD") else "asked-send"
        text = ctx.says(sentence, **slots)
        return self._refused(request, ctx, text, [text], status, f"{ctx.root}/")

    def _refused(
        self, request: Request, ctx: Context, text: str, problems: list[str], status: int, href: str
    ) -> Response:
        """What was not taken, a line each."""
        more = len(problems) - MOST_SAID
        shown = problems if more < 1 else [*problems[:MOST_SAID], ctx.says("file-more", number=more)]
        view: View = {
            "title": ctx.says("error-title"),
            "next": {"text": text, "why": "", "href": href},
            "error": text,
            "problems": shown,
            "status": status,
            "asked": _asked(request) if status in (404, 405, 413) else "",
        }
        return self.page.answer(request, ctx, view, "error", status)


def _asked(request: Request) -> str:
    """Which address, without what was sent or asked in it: that may be anything."""
    path = request.url.path
    return path if len(path) <= MOST_ASKED else f"{path[:MOST_ASKED]} \u2026"


def _here(store: Store, job: str) -> bool:
    try:
        store.digest(job)
    except InputError:
        return False
    return True


__all__ = ["SCREENS", "create_app"]
