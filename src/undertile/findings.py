"""A judged fact, and the three answers a check can give (convention 5)."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from enum import StrEnum

from undertile.sentence import Sentence, listed


class Severity(StrEnum):
    """Convention 5.3: stop (someone can be hurt, or the work will fail), act, note."""

    STOP = "stop"
    ACT = "act"
    NOTE = "note"


class Verdict(StrEnum):
    """Convention 5.1: every check answers one of three; "not shown" is never a pass."""

    PASS = "pass"
    FAIL = "fail"
    NOT_SHOWN = "not shown"


@dataclass(frozen=True)
class Finding:
    """One judged fact (convention 5.3).

    Attributes
    ----------
    code : str
        Stable, lower-case words with dashes, unique to the rule: ``reading-mirrored``.
    severity : Severity
    where : str
        The place in the room's own words: ``B2 at 48``, ``pan``, ``wall L``.
    expected, found : str
        What should be and what is, in words with units as they print.
    next_step : str
        What the person does next, one imperative sentence.
    source : str
        Key into ``sources.SOURCES``.
    data : dict
        Machine-readable extras (strings only), for ``--json``.
    """

    code: str
    severity: Severity
    where: str
    expected: str
    found: str
    next_step: str
    source: str
    data: dict[str, str] = field(default_factory=dict)

    def line(self) -> str:
        """The finding in one line."""
        return f"{self.where}: {self.found}; expected {self.expected}. {self.next_step}"


@dataclass(frozen=True)
class Check:
    """One consequence, judged: a value against a limit with its margin (convention 5).

    Attributes
    ----------
    code : str
        Stable name: ``play-depth-16``.
    title : str
        In the trade's words: ``Play at 16 from the back``.
    where : str
    value, limit, margin : str
        As they print (exact lengths, or minutes), ``""`` when there is none. Margin is plus when inside.
    verdict : Verdict
    source : str
        Key into ``sources.SOURCES``.
    because : tuple of str
        The readings, planes and rules the value came from, one line each.
    eats : str
        What eats the margin, in words; ``""`` when nothing does.
    next_step : str
        For fail: what to change. For not shown: what to read to show it. ``""`` for a pass.
    within_uncertainty : bool
        True when the value is within its uncertainty of the limit (convention 5.2).
    """

    code: str
    title: str
    where: str
    value: str
    limit: str
    margin: str
    verdict: Verdict
    source: str
    because: tuple[str, ...] = ()
    eats: str = ""
    next_step: str = ""
    within_uncertainty: bool = False


def together(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings as a face lists them: what is told alike of several places is told once, with all of them.

    Parameters
    ----------
    findings : iterable of Finding

    Returns
    -------
    tuple of Finding
        Each where the first of its places stood.
    """
    alike: dict[tuple[str, ...], list[Finding]] = {}
    for each in findings:
        said = (each.code, each.severity.value, str(each.expected), str(each.found), str(each.next_step))
        alike.setdefault(said, []).append(each)
    out = []
    for its in alike.values():
        places = dict.fromkeys(each.where for each in its)
        where = listed([Sentence("{where}", where=each) for each in places])
        out.append(its[0] if len(places) == 1 else replace(its[0], where=where))
    return tuple(out)
