"""What is wrong with one fact: a line of a refusal in a file, a finding in a log."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from undertile.errors import LengthError
from undertile.findings import Finding, Severity
from undertile.job.address import Path, join, say
from undertile.sentence import Sentence, with_first

_SHOWN = 60
_LONG = Sentence("a very long number")


@dataclass(frozen=True)
class Trouble:
    """One fact, or one group of facts, that cannot stand as it is.

    Attributes
    ----------
    path : tuple of str
        Where, from the top of the job.
    expected, found, do : str
        What should be there, what is, and what to do: no capital, no full stop.
    code : str
        Of the finding.
    drop : tuple of paths
        Facts that a fold must leave out because of it; empty = ``path``.
    lacks : str
        The key that ``path``, a group of facts, is of no use without; "" where it is another thing.
    """

    path: Path
    expected: str
    found: str
    do: str
    code: str = "fact-unusable"
    drop: tuple[Path, ...] = ()
    lacks: str = ""

    @property
    def dropped(self) -> tuple[Path, ...]:
        """Paths left out of a fold."""
        return self.drop or (self.path,)

    def line(self, place: str = "") -> str:
        """The trouble in one line, ``place`` (file and line) in front."""
        where = join(self.path) or "the job"
        return f"{place}{where}: expected {self.expected}, found {self.found}; {self.do}"

    def finding(self) -> Finding:
        """The trouble as a finding of the record (convention 7)."""
        return Finding(
            code=self.code,
            severity=Severity.ACT,
            where=say(self.path),
            expected=self.expected,
            found=self.found,
            next_step=_left_out(self.do),
            source="convention-7",
            data={"fact": join(self.path)}
            | ({"lacks": join((*self.path, self.lacks))} if self.lacks else {}),
        )


def _left_out(do: str) -> str:
    """What to do, and that the fact does not count before; a sentence where what to do is one."""
    if isinstance(do, Sentence):
        return Sentence("{do}; left out until then.", do=with_first(do, "upper"))
    return f"{do[:1].upper()}{do[1:]}; left out until then."


def shown(value: Any) -> str:
    """A value as a message shows it: short, on one line, whatever it is."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        text = value if len(value) <= _SHOWN else value[: _SHOWN - 3] + "..."
        return f"`{''.join(char if char.isprintable() else '?' for char in text)}`"
    if isinstance(value, dict):
        return Sentence("a table")
    if isinstance(value, list | tuple):
        return Sentence("a list")
    if isinstance(value, int):
        return Sentence("the number {text}", text=value) if abs(value) < 10**18 else _LONG
    if isinstance(value, float | Decimal):
        text = str(value)
        return Sentence("the number {text}", text=text) if len(text) <= 24 else _LONG
    return f"a {type(value).__name__}"


def refused(error: LengthError) -> tuple[str, str]:
    """A refusal of ``lengths`` as what was found and what to do."""
    if error.instead:
        which = Sentence("`{typed}`, which {said}", typed=error.typed, said=error.understood)
        return which if error.typed else error.understood, Sentence("write {instead}", instead=error.instead)
    found, _, do = str(error).partition("; ")
    typed, mark, said = found.partition("` ")
    if typed.startswith("`") and mark:
        found = Sentence("`{typed}`, which {said}", typed=typed.lstrip("`"), said=said)
    return found, do or Sentence("write one length like 3-15/16")
