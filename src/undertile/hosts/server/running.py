"""Several small servers in one process, ended together."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Awaitable, Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from signal import SIGINT, SIGTERM, signal
from typing import Any

import uvicorn

from undertile.hosts.bridge import App

MOST_AT_ONCE = 200
"""Connections of one server; more are told to come back."""


@dataclass(frozen=True)
class Served:
    """One app on one socket.

    Attributes
    ----------
    app : ASGI app
    listening : socket
    certificate, key : Path or None
        PEM files; None for plain HTTP.
    """

    app: App
    listening: socket.socket
    certificate: Path | None = None
    key: Path | None = None

    def server(self) -> uvicorn.Server:
        """A server for it that logs nothing that was asked."""
        return _Quiet(
            uvicorn.Config(
                self.app,
                log_level="warning",
                access_log=False,
                server_header=False,
                lifespan="off",
                ws="none",
                limit_concurrency=MOST_AT_ONCE,
                timeout_graceful_shutdown=5,
                ssl_certfile=self.certificate,
                ssl_keyfile=self.key,
            )
        )


class _Quiet(uvicorn.Server):
    """A server that leaves the signals to whoever runs several."""

    @contextmanager
    def capture_signals(self) -> Iterator[None]:
        yield


async def run_all(
    served: Sequence[Served],
    beside: Callable[[], Awaitable[None]] | None = None,
    started: Callable[[list[uvicorn.Server]], object] = lambda servers: None,
) -> None:
    """Serve until one of them ends.

    Parameters
    ----------
    served : sequence of Served
    beside : callable, optional
        ``await beside()`` runs as long as they do.
    started : callable
        Given the servers, so that they can be ended (``should_exit``).
    """
    servers = [each.server() for each in served]
    started(servers)
    other = asyncio.ensure_future(beside()) if beside is not None else None
    tasks = [
        asyncio.create_task(server.serve(sockets=[each.listening]))
        for server, each in zip(servers, served, strict=True)
    ]
    try:
        await asyncio.wait(tasks, return_when=asyncio.FIRST_COMPLETED)
        for server in servers:
            server.should_exit = True
        await asyncio.gather(*tasks)
    finally:
        if other is not None:
            other.cancel()
            with suppress(asyncio.CancelledError):
                await other


def run(served: Sequence[Served], beside: Callable[[], Awaitable[None]] | None = None) -> None:
    """The same in a process of its own, until Ctrl-C or until it is told to end.

    Parameters
    ----------
    served : sequence of Served
    beside : callable, optional
    """

    def started(servers: list[uvicorn.Server]) -> None:
        def end(number: int, frame: Any) -> None:
            for server in servers:
                server.force_exit = server.should_exit and number == SIGINT
                server.should_exit = True

        signal(SIGINT, end)
        signal(SIGTERM, end)

    asyncio.run(run_all(served, beside, started))
