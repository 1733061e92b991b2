"""Taking back the last entry of a device: what to write so that what stood before stands again.

Nothing is erased. An entry that takes one back says so in its ``instrument``, so that taking back twice goes
one entry further back instead of forward again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable

from undertile.errors import InputError
from undertile.job.address import say, split
from undertile.job.entry import Entry
from undertile.job.standing import facts_of, said_by
from undertile.store.interface import Draft
from undertile.store.line import number_of

UNDO = "undo"
"""The instrument of an entry that takes another back."""


def undo_drafts(log: Iterable[Entry], device: str) -> tuple[Draft, ...]:
    """What to write to take back a device's last entry that is not taken back yet.

    Parameters
    ----------
    log : iterable of Entry
        Of one job.
    device : str

    Returns
    -------
    tuple of Draft
        One for each value that the entry had replaced: two where it had settled a clash. To be written with
        ``UNDO`` as instrument.

    Raises
    ------
    InputError
        If there is none, another device has replaced it since, or what it replaced is not here.
    """
    entries = tuple(log)
    target = _last(entries, device)
    if target is None:
        raise InputError("nothing to take back: no entry of this device is left in this job")
    where = say(split(target.fact))
    own = [fact for fact in facts_of(entries)[0].values() if target in fact.entries]
    if not own:
        raise InputError(f"{where}: this version cannot read the entry; update first, then take it back")
    fact = own[0]
    mine = _standing_for(target, fact.standing, device)
    if mine is None:
        others = "; ".join(said_by(each) for each in fact.standing)
        raise InputError(f"{where}: replaced since ({others}); type the value you want instead")
    here = {each.id for each in entries}
    if not here.issuperset(target.supersedes):
        raise InputError(
            f"{where}: what it replaced is not on this device yet; sync first, or type the value"
        )
    values = [each.value for each in fact.entries if each.id in target.supersedes] or [None]
    return tuple(Draft(target.fact, value, (mine.id,)) for value in values)


def _standing_for(target: Entry, standing: Iterable[Entry], device: str) -> Entry | None:
    """The entry to replace: the target, or what this device wrote to bring its value back."""
    mine = [each for each in standing if each == target]
    mine += [
        each
        for each in standing
        if each.device == device and each.instrument == UNDO and each.value == target.value
    ]
    return mine[0] if mine else None


def _last(entries: Iterable[Entry], device: str) -> Entry | None:
    """The last entry of a device that it has not taken back, by its own count and never by a clock."""
    numbered = defaultdict(list)
    for entry in entries:
        number = number_of(device, entry.id)
        if number and entry.device == device:
            numbered[number].append(entry)
    left: list[Entry] = []
    undone: set[str] = set()
    for number in sorted(numbered):
        for entry in numbered[number]:
            if entry.instrument != UNDO:
                left.append(entry)
            elif left and not undone & set(entry.supersedes):
                # not so a second entry, which restores the other half of a clash
                undone |= set(entry.supersedes)
                left.pop()
    return left[-1] if left else None
