"""The short marks beside figures (w1, w2 ...) and the table at the back that they lead to."""

from __future__ import annotations

from dataclasses import dataclass, field

from undertile.packet.content import Why


@dataclass
class Whys:
    """Marks given out so far, in order."""

    rows: list[Why] = field(default_factory=list)

    def mark(
        self,
        what: str,
        readings: str,
        rule: str,
        source: str,
        more: str,
        read: tuple[tuple[str, str], ...] = (),
    ) -> str:
        """A new row at the back, and the mark that leads to it."""
        name = f"w{len(self.rows) + 1}"
        self.rows.append(Why(name, what, readings, rule, source, more, read))
        return name
