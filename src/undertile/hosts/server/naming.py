"""The one name a laptop has for phones, whatever address the network gives it today.

What a phone holds belongs to the name it was opened under (the browser's origin: scheme, name and port). So
name and port are chosen once and kept, and the name is announced on the network (multicast DNS, RFC 6762).
"""

from __future__ import annotations

import ipaddress
import json
import re
import secrets
import socket
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from undertile.errors import InputError, StoreError
from undertile.hosts.server import private

PORT = 8443
WELCOME_PORT = 8480
SETTINGS = "name.json"
_LABEL = re.compile(r"(?!-)[a-z0-9-]{1,63}(?<!-)")
_CLEAR = "abcdefghjkmnpqrstuvwxyz23456789"


@dataclass(frozen=True)
class Named:
    """What phones call this laptop.

    Attributes
    ----------
    name : str
    port : int
        Of the tool, over HTTPS.
    welcome : int
        Of the page that says how to open it, over plain HTTP.
    """

    name: str
    port: int = PORT
    welcome: int = WELCOME_PORT

    @property
    def address(self) -> str:
        """Where phones find the tool."""
        return f"https://{self.name}" + ("" if self.port == 443 else f":{self.port}")

    @property
    def is_announced(self) -> bool:
        """Whether the name is one that a laptop gives itself on the network."""
        return self.name.endswith(".local")


def named(folder: Path, name: str = "", port: int = 0) -> Named:
    """The name kept in a folder; settled now where there is none.

    Parameters
    ----------
    folder : Path
    name : str
        Wanted; one of our own, ending in ``.local``, when empty.
    port : int
        Wanted; ``PORT`` when 0.

    Raises
    ------
    InputError
        If the name is none, or another than phones know.
    StoreError
        If what is kept cannot be read.
    """
    wanted = checked(name) if name else ""
    path = folder / SETTINGS
    if path.is_file():
        kept = _read(path)
        for asked, known in ((wanted, kept.name), (port, kept.port)):
            if asked and asked != known:
                raise InputError(
                    f"expected {known}, the one phones know this laptop by, found {asked}: what they hold "
                    f"belongs to {kept.address}; sync them first, then remove {folder} and set them up anew"
                )
        return kept
    own = "".join(secrets.choice(_CLEAR) for _ in range(4))
    made = Named(wanted or f"undertile-{own}.local", port or PORT, WELCOME_PORT)
    private.write(path, json.dumps(asdict(made), indent=1).encode())
    return made


def checked(name: str) -> str:
    """A name or a private address, in lower case.

    Raises
    ------
    InputError
        If it is neither.
    """
    low = name.strip().lower().rstrip(".")
    try:
        address = ipaddress.ip_address(low)
    except ValueError:
        labels = low.split(".")
        if (
            len(low) <= 64
            and len(labels) > 1
            and all(map(_LABEL.fullmatch, labels))
            and not labels[-1].isdigit()
        ):
            return low
    else:
        if address.version == 4 and address.is_private and not address.is_loopback:
            return low
    raise InputError(
        f"expected a name in the network such as laptop.lan, or a private address such as "
        f"192.168.1.20, found "
        f"{name[:80]!r}; leave --name out and one is chosen"
    )


def _read(path: Path) -> Named:
    try:
        kept = Named(**json.loads(private.read(path)))
        if checked(kept.name) == kept.name and 0 < kept.port < 65536 and 0 < kept.welcome < 65536:
            return kept
    except (ValueError, TypeError, AttributeError):
        pass
    raise StoreError(
        "damaged",
        f"{path}: expected the name phones know this laptop by, found a file that is torn; write it "
        f"again from "
        'a phone\'s address bar: {"name": "...", "port": ...}',
    )


def addresses() -> list[str]:
    """This machine's addresses in private networks, the one that leads out first."""
    import ifaddr

    found = [
        ip.ip
        for adapter in ifaddr.get_adapters()
        for ip in adapter.ips
        if isinstance(ip.ip, str) and ip.is_IPv4
    ]
    near = [each for each in found if _is_near(each)]
    first = _leads_out()
    return sorted(near, key=lambda each: each != first)


def _is_near(text: str) -> bool:
    address = ipaddress.ip_address(text)
    shared = ipaddress.ip_address(text) in ipaddress.ip_network("100.64.0.0/10")
    return (address.is_private or shared) and not address.is_loopback


def _leads_out() -> str:
    """The address that packets to elsewhere leave from; none is sent."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            asked.connect(("192.0.2.1", 9))  # RFC 5737: belongs to nobody
            found: str = asked.getsockname()[0]
        except OSError:
            return ""
    return found


class Announced:
    """The name on the network, for as long as it is served; it follows the laptop to a new address.

    Parameters
    ----------
    to : Named
    say : callable
    """

    def __init__(self, to: Named, say: Callable[[str], None]) -> None:
        self._named, self._say = to, say
        self._addresses: list[str] = []
        self._zeroconf: Any = None

    async def look(self, now: list[str] | None = None) -> bool:
        """Announce anew where the addresses have changed; whether they have."""
        here = addresses() if now is None else now
        if here == self._addresses:
            return False
        await self.close()
        self._addresses = here
        if not here or not self._named.is_announced:
            return True
        from zeroconf import ServiceInfo
        from zeroconf.asyncio import AsyncZeroconf

        kind = "_https._tcp.local."
        host = self._named.name.removesuffix(".local")
        info = ServiceInfo(
            kind,
            f"{host}.{kind}",
            port=self._named.port,
            server=f"{self._named.name}.",
            parsed_addresses=here,
        )
        try:
            self._zeroconf = AsyncZeroconf(interfaces=here)
            await self._zeroconf.async_register_service(info)
        except (
            Exception
        ) as error:  # the network forbids it, or the name is taken: the page by address still goes
            self._say(
                f"The name {self._named.name} could not be announced ({type(error).__name__}: {error})."
            )
            await self.close()
        return True

    async def close(self) -> None:
        """Take the name back."""
        if self._zeroconf is not None:
            own, self._zeroconf = self._zeroconf, None
            await own.async_unregister_all_services()
            await own.async_close()
