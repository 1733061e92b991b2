"""Straightedges laid before what they lay on was changed: what they showed is of a face that is gone.

The record does not order two devices' entries, and needs no order to say what stands. Here one is asked for,
and only to be careful: what may have come later counts as later. One device's own count decides; between two
devices their clocks do.
"""

from __future__ import annotations

from collections.abc import Iterable

from undertile.errors import InputError
from undertile.job.address import Path
from undertile.job.entry import Entry
from undertile.job.standing import Fact, first_said
from undertile.lengths import Length, Unit, parse_length
from undertile.recheck.facts import Laid
from undertile.screens.answers import State
from undertile.store.when import instant


def older_laid(state: State) -> frozenset[str]:
    """Names of the straightedges that are older than a reading changed, or work ticked, where they lay."""
    job = state.folded.job
    out = set()
    for name, laid in job.recheck.straightedges.items():
        gap = state.facts.get(("recheck", "straightedges", name, "gap"))
        if gap is None or not gap.standing:
            continue
        studs = job.survey.walls[laid.wall].studs if laid.wall in job.survey.walls else {}
        beneath = (
            fact
            for path, fact in state.facts.items()
            if _beneath(path, laid, studs, job.unit) and fact.standing
        )
        when = tuple(first_said(gap, each) for each in gap.standing)
        if any(_changed_since(fact, when) for fact in beneath):
            out.add(name)
    return frozenset(out)


def _beneath(path: Path, laid: Laid, studs: Iterable[str], unit: Unit) -> bool:
    """Whether a fact says how the wood stands, or what was done to it, under a straightedge."""
    if path[:2] == ("recheck", "done") and path[-1] in ("did", "by"):
        return path[2] in studs and laid.stud in ("", path[2])
    if path[:2] not in (("survey", "walls"), ("recheck", "walls")) or len(path) != 7:
        return False
    if path[2] != laid.wall or path[5] not in ("readings", "arris") or laid.stud not in ("", path[4]):
        return False
    return laid.height is None or _same(path[6], laid.height, unit)


def _same(key: str, height: Length, unit: Unit) -> bool:
    try:
        return parse_length(key, unit).inches == height.inches
    except InputError:
        return True  # of another kind of key: it may be there


def _changed_since(fact: Fact, laid: tuple[Entry, ...]) -> bool:
    """Whether it says another thing than when the straightedge was laid.

    A reading taken for the first time changes nothing; a tick made for the first time is work.
    """
    typed = [each for each in fact.entries if first_said(fact, each) is each]
    before = [each for each in typed if any(not _later(each, one) for one in laid)]
    gone = {name for each in before for name in each.supersedes}
    then = {each.value for each in before if each.id not in gone and each.value}
    now = {first_said(fact, each).value for each in fact.standing if each.value}
    if fact.path[:2] == ("recheck", "done"):
        return bool(now - then)
    return bool(then) and then != now


def _later(entry: Entry, laid: Entry) -> bool:
    """Whether an entry may have come after a straightedge; what was written in one act did not."""
    if entry.time == laid.time:
        return False
    if entry.device == laid.device:
        own, other = (each.id.rpartition("-")[2] for each in (entry, laid))
        if own.isdecimal() and other.isdecimal():
            return int(own) > int(other)
    at, then = instant(entry.time), instant(laid.time)
    return at is None or then is None or at > then
