"""``undertile serve``: the screens for one person on this machine."""

from __future__ import annotations

import getpass
import socket
import sys
import threading
from collections.abc import Awaitable, Callable
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from undertile.errors import InputError, UndertileError
from undertile.hosts.phone.build import build_bundle, check_bundle, source_mark
from undertile.hosts.phone.collect import cache_folder
from undertile.hosts.server.app import PHONE, make
from undertile.hosts.server.folder import JOBS, data_folder, device_of, made
from undertile.hosts.server.notes import Notes
from undertile.hosts.server.running import Served, run
from undertile.hosts.server.searches import Processes
from undertile.screens.host import Host, Picture
from undertile.screens.words import Language
from undertile.store import SqliteStore

if TYPE_CHECKING:
    from undertile.hosts.server.lan import Lan

Say = Callable[[str], None]
FIRST_PORT = 8420
PORTS_TRIED = 20


def serve(
    say: Say,
    *,
    folder: Path | None = None,
    port: int = 0,
    who: str = "",
    language: Language = "en",
    phone: bool = True,
    lan: bool = False,
    name: str = "",
    lan_port: int = 0,
    keep_place: bool = False,
) -> None:
    """Serve until interrupted.

    Parameters
    ----------
    say : callable
        Told the address, and what is being made.
    folder : Path, optional
        Where the jobs are kept.
    port : int
        0 takes the first free one from ``FIRST_PORT`` on.
    who : str
        Stands beside each value; the system's name of the person when empty.
    language : {"en", "es"}
    phone : bool
        Whether to offer the phone's bundle, making it where it is not there.
    lan : bool
        Whether paired phones in this network may come in.
    name, lan_port
        What phones call this laptop, and the port for them; settled the first time.
    keep_place : bool
        Keep in photos where they were taken.

    Raises
    ------
    InputError
        If the port is taken, or phones know this laptop by another name.
    StoreError
        If the jobs cannot be kept there.
    """
    place = made(folder or data_folder())
    searches = Processes()
    bundle = PhoneBundle(say)
    net = _lan(place, say, name, lan_port) if lan or name or lan_port else None
    with SqliteStore(place / JOBS) as store, _listening(port) as listening:
        photo = _photos(say, keep_place)
        host = Host(
            "server",
            device_of(place),
            who or _name(),
            now,
            language,
            searches=searches,
            clean_photo=photo,
            notes=Notes(place),
        )
        address = f"http://localhost:{listening.getsockname()[1]}"
        desk, stands = (net.desk(host), net.stands) if net else (None, None)
        app = make(store, host, bundle.folder, desk=desk, stands=stands)
        served = [Served(app, listening)]
        say(f"Undertile is at {address}/")
        say(f"For a phone's browser, to go on without a network: {address}{PHONE}")
        say(f"Jobs are kept in {place / JOBS}. Stop with Ctrl-C.")
        if net is not None:
            served += net.served(store, host, bundle.folder, address)
            net.tell(address, sys.stderr.isatty())
        if phone:
            bundle.begin()
        try:
            run(served, net.stay if net else None)
        finally:
            searches.close()


def _lan(place: Path, say: Say, name: str, port: int) -> Lan:
    try:
        from undertile.hosts.server.lan import Lan
    except ImportError as error:
        raise InputError(
            f"expected the packages that serving phones needs, found no {error.name}; "
            'install them: pip install "undertile[lan]"'
        ) from None
    return Lan(place, say, name, port)


def _photos(say: Say, keep_place: bool) -> Callable[[bytes], Awaitable[Picture]] | None:
    """What makes photos fit to keep; None where its package is not installed."""
    try:
        from undertile.hosts.server.photo import clean_photo
    except ImportError:
        say('Photos cannot be taken in here: pip install "undertile[lan]" brings what they need.')
        return None
    return partial(clean_photo, keep_place=keep_place)


def now() -> str:
    """The time with its offset, to the second."""
    return datetime.now().astimezone().isoformat(timespec="seconds")


def _name() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "unnamed"


def _listening(port: int) -> socket.socket:
    """A socket on this machine alone."""
    for tried in [port] if port else range(FIRST_PORT, FIRST_PORT + PORTS_TRIED):
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind(("127.0.0.1", tried))
        except OSError:
            made.close()
            continue
        made.listen(64)
        return made
    told = str(port) if port else f"{FIRST_PORT} to {FIRST_PORT + PORTS_TRIED - 1}"
    raise InputError(f"expected a free port, found {told} in use; stop the other program or give --port")


class PhoneBundle:
    """The phone's bundle of this version, made in the background where it is not there yet.

    Parameters
    ----------
    say : callable
    """

    def __init__(self, say: Say) -> None:
        self._say = say
        self._folder = cache_folder() / "bundles" / source_mark()

    def folder(self) -> Path | None:
        """Where it is; None while it is being made."""
        return self._folder if (self._folder / "bundle.json").is_file() else None

    def begin(self) -> None:
        """Make it unless it is there and whole."""
        if self.folder() is None or check_bundle(self._folder):
            threading.Thread(target=self._make, daemon=True).start()

    def _make(self) -> None:
        try:
            build_bundle(self._folder, self._say)
        except (UndertileError, OSError) as error:
            self._say(f"The phone's bundle could not be made: {error}")
        else:
            self._say("The phone's bundle is ready.")
