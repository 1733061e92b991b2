"""``undertile serve --lan``: the tool for paired phones in this network, by HTTPS under one lasting name."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from undertile.errors import InputError
from undertile.hosts.bridge import App
from undertile.hosts.server import folder as folders
from undertile.hosts.server.app import DESK, PHONE, Paths
from undertile.hosts.server.authority import Authority, authority_for
from undertile.hosts.server.beside import Stands
from undertile.hosts.server.doors import Desk, Welcome, qr_for_terminal
from undertile.hosts.server.gate import Gate
from undertile.hosts.server.naming import Announced, Named, addresses, named
from undertile.hosts.server.pairing import Device, Pairing
from undertile.hosts.server.running import Served
from undertile.screens.host import Host
from undertile.store import Side

Say = Callable[[str], None]
FOLDER = "lan"
WELCOME_PORTS = 20
"""Tried for the page for anybody, which keeps nothing."""
LOOK_S = 10.0
"""How often the addresses of this machine are looked at."""


class Lan:
    """Everything that serving phones needs, made ready in a folder.

    Parameters
    ----------
    place : Path
        The data folder.
    say : callable
    name : str
        What phones call this laptop; chosen once when empty.
    port : int
        Of HTTPS; 8443 when 0.

    Attributes
    ----------
    named : Named
    authority : Authority
    pairing : Pairing

    Raises
    ------
    InputError
        If the name or port is another than phones know, or is none.
    StoreError
        If what is kept cannot be used.
    """

    def __init__(self, place: Path, say: Say, name: str = "", port: int = 0) -> None:
        inside = folders.made(place / FOLDER)
        self._say = say
        self.named: Named = named(inside, name, port)
        self.authority: Authority = authority_for(self.named.name, inside)
        self.pairing = Pairing(inside / "phones.json")
        self.stands = Stands()
        self._announced = Announced(self.named, say)
        self._addresses: list[str] = []
        self._door = self.named.welcome

    def welcome(self) -> str:
        """Where a phone begins now; "" in no network."""
        here = self._addresses
        return f"http://{here[0]}:{self._door}/" if here else ""

    def desk(self, host: Host) -> App:
        """The laptop's own page about phones."""
        return Desk(self.named, self.authority, self.pairing, self.welcome, host.language)

    def gate(self, store: Side, host: Host, phone: Callable[[], Path | None], desk: str) -> App:
        """The tool for paired phones; what they type on its screens bears their own names.

        Parameters
        ----------
        store : Side
        host : Host
        phone : callable
            Where the phone's bundle is, or None while there is none.
        desk : str
            Address of the laptop's own page about phones.
        """

        def inside(device: Device) -> Paths:
            return Paths(store, replace(host, who=device.name), phone, stands=self.stands)

        return Gate(inside, self.pairing, self.named.name, desk)

    def served(
        self,
        store: Side,
        host: Host,
        phone: Callable[[], Path | None],
        address: str,
        bind: str = "0.0.0.0",
    ) -> list[Served]:
        """The tool for paired phones and the plain page for anybody, on the ports that phones know.

        Parameters
        ----------
        store : Side
        host : Host
        phone : callable
            Where the phone's bundle is, or None while there is none.
        address : str
            Where the laptop itself finds the tool.
        bind : str
            Address of this machine to listen at.

        Raises
        ------
        InputError
            If a port is taken.
        """
        gate = self.gate(store, host, phone, address + DESK)
        door = listening(self.named.welcome, bind, WELCOME_PORTS)
        self._door = door.getsockname()[1]
        return [
            Served(gate, listening(self.named.port, bind), self.authority.chain, self.authority.key),
            Served(Welcome(self.named, self.authority), door),
        ]

    def tell(self, address: str, show: bool) -> None:
        """Say how a phone gets in.

        Parameters
        ----------
        address : str
            Where the laptop itself finds the tool.
        show : bool
            Whether somebody reads this at a terminal: the code is for eyes, not for a log.
        """
        self._addresses = addresses()
        start = self.welcome()
        if self.authority.is_new:
            self._say("A new certificate was made: phones must trust it once, also those that had another.")
        if start and show:
            self._say(qr_for_terminal(start))
        self._say(
            f"For phones in this network: {start}" if start else "This laptop is in no network now; join one."
        )
        self._say(f"Paired phones find it at {self.named.address}{PHONE}")
        if not self.pairing.devices:
            code = self.pairing.open()
            if show:
                self._say(f"Code for the first phone, for ten minutes: {code[:4]} {code[4:]}")
        self._say(f"Codes, paired phones, taking one off: {address}{DESK}")

    async def stay(self) -> None:
        """Announce the name and follow this machine from network to network, until cancelled."""
        try:
            while True:
                here = await asyncio.to_thread(addresses)
                if here != self._addresses:
                    self._addresses = here
                    self._say(
                        f"In another network now: {self.welcome() or 'none'} ({self.named.address} stays)"
                    )
                await self._announced.look(here)
                await asyncio.sleep(LOOK_S)
        finally:
            await self._announced.close()


def listening(port: int, bind: str = "0.0.0.0", ports: int = 1) -> socket.socket:
    """A socket for phones on exactly this port: to a browser another port is another place.

    Parameters
    ----------
    port : int
    bind : str
        Address of this machine to listen at.
    ports : int
        How many to try, where another is as good.

    Raises
    ------
    InputError
        If it is taken.
    """
    trouble = ""
    for tried in range(port, port + ports):
        made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            made.bind((bind, tried))
        except OSError as error:
            made.close()
            trouble = error.strerror or str(error)
            continue
        made.listen(128)
        return made
    raise InputError(
        f"expected port {port} free, the one phones know, found: {trouble}; stop the other program and start "
        "again"
    )
