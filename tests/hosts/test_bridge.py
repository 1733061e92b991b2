"""The bridge against a server that others wrote: the same request, the same answer."""

from __future__ import annotations

import asyncio
import socket
import threading
import urllib.request

import pytest
import uvicorn
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import JSONResponse, StreamingResponse
from starlette.routing import Route

from undertile.hosts.bridge import ask


async def told(request: Request) -> JSONResponse:
    return JSONResponse(
        {
            "method": request.method,
            "path": request.url.path,
            "query": sorted(request.query_params.multi_items()),
            "body": (await request.body()).decode(),
            "kind": request.headers.get("content-type", ""),
        },
        headers={"x-two": "words"},
    )


async def parts(request: Request) -> StreamingResponse:
    async def made() -> object:
        yield b"one "
        yield b"two"

    return StreamingResponse(made(), status_code=201)  # type: ignore[arg-type]


async def broken(request: Request) -> JSONResponse:
    raise ValueError("on purpose")


APP = Starlette(
    routes=[
        Route("/t/{rest:path}", told, methods=["GET", "POST"]),
        Route("/parts", parts),
        Route("/broken", broken),
    ]
)


@pytest.mark.parametrize(
    ("method", "target", "body"),
    [
        ("GET", "/t/plain", b""),
        ("GET", "/t/B2%20at%2048?x=1&x=2&y=%C3%A9", b""),
        ("POST", "/t/form", "fact=name&value=é 6-1/4".encode()),
    ],
)
def test_the_bridge_answers_as_a_server_does(method: str, target: str, body: bytes) -> None:
    """Independent: uvicorn on a real socket."""
    with socket.socket() as listening:
        listening.bind(("127.0.0.1", 0))
        listening.listen()
        server = uvicorn.Server(uvicorn.Config(APP, log_level="error", lifespan="off", ws="none"))
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
        thread.start()
        request = urllib.request.Request(
            f"http://127.0.0.1:{listening.getsockname()[1]}{target}",
            data=body or None,
            method=method,
            headers={"content-type": "text/plain"},
        )
        with urllib.request.urlopen(request, timeout=30) as reply:
            expected = (reply.status, reply.read(), reply.headers["x-two"])
        server.should_exit = True
        thread.join()
    answer = asyncio.run(ask(APP, method, target, [("content-type", "text/plain")], body))
    assert (answer.status, answer.body, answer.header("x-two")) == expected


def test_a_body_in_parts_comes_whole_and_a_fault_is_not_hidden() -> None:
    answer = asyncio.run(ask(APP, "GET", "/parts"))
    assert (answer.status, answer.body) == (201, b"one two")
    with pytest.raises(ValueError, match="on purpose"):
        asyncio.run(ask(APP, "GET", "/broken"))
