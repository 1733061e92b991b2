"""``undertile serve`` and ``undertile export-phone``: the screens on this laptop, the bundle for a phone."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Annotated, Literal

import typer


def add_to(app: typer.Typer) -> None:
    """Register both commands."""
    app.command()(serve)
    app.command(name="export-phone")(export_phone)


def say(text: str) -> None:
    """One line of progress, on stderr so that what is printed can be piped."""
    print(text, file=sys.stderr, flush=True)


def serve(
    data: Annotated[
        str,
        typer.Option("--data", metavar="FOLDER", help="Keep the jobs there; your own data folder otherwise."),
    ] = "",
    port: Annotated[
        int, typer.Option("--port", min=0, max=65535, help="0 takes the first free one from 8420 on.")
    ] = 0,
    who: Annotated[
        str, typer.Option("--who", metavar="NAME", help="Your name, as it stands beside each value.")
    ] = "",
    language: Annotated[Literal["en", "es"], typer.Option("--language", help="Of the screens.")] = "en",
    phone: Annotated[
        bool, typer.Option("--phone/--no-phone", help="Offer the phone's bundle too, making it once.")
    ] = True,
    lan: Annotated[
        bool, typer.Option("--lan", help="Let phones in this network in, each by a code, over HTTPS.")
    ] = False,
    name: Annotated[
        str,
        typer.Option(
            "--name", metavar="NAME", help="What phones call this laptop; settled the first time (--lan)."
        ),
    ] = "",
    lan_port: Annotated[
        int,
        typer.Option(
            "--lan-port", min=0, max=65535, help="Port for phones; settled the first time, 8443 (--lan)."
        ),
    ] = 0,
    keep_location: Annotated[
        bool, typer.Option("--keep-location", help="Keep in photos where they were taken.")
    ] = False,
) -> int:
    """Open the screens in this machine's browser; a phone's bundle comes with them.

    Only this machine can reach it; with --lan phones in this network too, once paired. Stop with Ctrl-C.

    \b
    Example:
      undertile serve --who "Ann"
      undertile serve --lan
    """
    from undertile.hosts.server.serve import serve as run_it

    run_it(
        say,
        folder=Path(data) if data else None,
        port=port,
        who=who,
        language=language,
        phone=phone,
        lan=lan,
        name=name,
        lan_port=lan_port,
        keep_place=keep_location,
    )
    return 0


def export_phone(
    folder: Annotated[str, typer.Argument(metavar="FOLDER", help="Made new, or a bundle from before.")],
) -> int:
    """Write the tool for a phone's browser: static files that any HTTPS host can serve.

    What it needs is fetched once from the registries of its makers; Node.js compiles it.

    \b
    Example:
      undertile export-phone phone-bundle
    """
    from undertile.hosts.phone.build import build_bundle

    files = build_bundle(Path(folder), say, alone=True)
    size = sum(each for _, each in files.values())
    print(f"{folder}: {len(files)} files, {size / 1e6:.1f} MB")
    print("Put the folder on any HTTPS host, open it once on the phone, and add it to the home screen.")
    return 0
