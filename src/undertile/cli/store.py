"""``undertile jobs``, ``backup`` and ``restore``: the jobs of this computer, and all of them in one file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from undertile.cli.console import complain

if TYPE_CHECKING:
    from undertile.store import Appended, JobRow

Data = Annotated[
    str,
    typer.Option("--data", metavar="FOLDER", help="Where the jobs are kept; your own data folder otherwise."),
]


def add_to(app: typer.Typer) -> None:
    """Register the commands."""
    app.command()(jobs)
    app.command()(backup)
    app.command()(restore)


def jobs(
    data: Data = "",
    as_json: Annotated[bool, typer.Option("--json", help="As JSON instead of a table.")] = False,
) -> int:
    """The jobs on this computer: name, day of the last entry, how many entries and photos.

    \b
    Example:
      undertile jobs --json
    """
    import json
    from dataclasses import asdict

    from undertile.store import SqliteStore

    with SqliteStore(_path(data)) as store:
        rows = store.jobs()
    if as_json:
        print(json.dumps({"jobs": [asdict(row) for row in rows]}, ensure_ascii=False, indent=1))
        return 0
    if not rows:
        print("No job yet. undertile serve begins one; undertile restore FILE brings a backup in.")
    width = max((len(row.name or _NO_NAME) for row in rows), default=0)
    for row in rows:
        photos = f", {_count(row.photos, 'photo')}" if row.photos else ""
        name = f"{row.name or _NO_NAME:{width}}"
        print(f"{name}  {row.time[:10]:10}  {_entries(row.entries)}{photos}  {row.id[:8]}")
    return 0


def backup(
    file: Annotated[str, typer.Argument(metavar="FILE", help="Written whole or not at all.")],
    data: Data = "",
) -> int:
    """Every job with its history and photos to one file; it is read back before it counts.

    \b
    Example:
      undertile backup jobs-2031-05-02.backup
    """
    from undertile.store import SqliteStore

    with SqliteStore(_path(data)) as store:
        store.backup(file)
        print(f"Written to {file}: {_told(store.jobs())}. undertile restore {file} brings it back.")
    return 0


def restore(
    file: Annotated[
        str, typer.Argument(metavar="FILE", help="Written by undertile backup; it is only read.")
    ] = "",
    data: Data = "",
    aside: Annotated[
        bool,
        typer.Option(
            "--set-aside",
            help="Move a damaged store aside first, and take over what can still be read of it.",
        ),
    ] = False,
) -> int:
    """Bring in everything that a backup holds; nothing that is here is taken away or changed.

    \b
    Example:
      undertile restore jobs-2031-05-02.backup
    """
    from undertile.errors import InputError, StoreError
    from undertile.store import Appended, SqliteStore
    from undertile.store.rescue import rescue, set_aside

    if not file and not aside:
        raise InputError("expected a backup, found no name of a file; undertile restore FILE")
    path, moved = _path(data), None
    try:
        store = SqliteStore(path)
    except StoreError as error:
        if not aside or error.kind != "damaged":
            raise
        moved = set_aside(path)
        store = SqliteStore(path)
    with store:
        if moved is not None:
            found = rescue(store, moved)
            taken = f"{_entries(found.entries)} and {_count(found.photos, 'photo')}"
            print(f"The damaged file is kept as {moved.name}; {taken} came out of it.")
        done = store.restore(file) if file else Appended()
        if file:
            print(f"From {file}: {_entries(len(done.new))} new, {len(done.known):,} known already.")
        print(f"Here now: {_told(store.jobs())}.")
    return _judged(done)


def _judged(done: Appended) -> int:
    complain(done.refused)
    if done.other:
        complain(
            [f"{_entries(len(done.other))} with a known id and another content: both are kept, settle them"]
        )
    return 2 if done.refused else 0


_NO_NAME = "(no name)"


def _path(data: str) -> Path:
    from undertile.hosts.server.folder import JOBS, data_folder, made

    return made(Path(data) if data else data_folder()) / JOBS


def _told(rows: Sequence[JobRow]) -> str:
    entries, photos = sum(row.entries for row in rows), sum(row.photos for row in rows)
    return f"{_count(len(rows), 'job')}, {_entries(entries)}, {_count(photos, 'photo')}"


def _entries(number: int) -> str:
    return _count(number, "entry", "entries")


def _count(number: int, one: str, more: str = "") -> str:
    return f"{number:,} {one if number == 1 else more or one + 's'}"
