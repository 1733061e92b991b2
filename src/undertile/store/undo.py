"""Taking back the last entry of a device: what to write so that what stood before stands again.

Nothing is erased. An entry that takes one back says so in its ``instrument``, so that taking back twice goes
one entry further back instead of forward again.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping

from undertile.errors import InputError
from undertile.job.address import Path, say, split
from undertile.job.entry import Entry
from undertile.job.standing import RESTATED, UNDO, Fact, facts_of, said_by
from undertile.store.interface import Draft
from undertile.store.line import number_of


def undo_drafts(log: Iterable[Entry], device: str, fact: str = "") -> tuple[Draft, ...]:
    """What to write to take back a device's last entry that is not taken back yet.

    What one photo was taken with (where, when in the work, a note) was said at once and goes at once.

    The phone's page does the same for one fact, over its own log (``takeBack`` in hosts/phone/shell/log.js).

    Parameters
    ----------
    log : iterable of Entry
        Of one job.
    device : str
    fact : str
        The last one of this fact; of any fact when "".

    Returns
    -------
    tuple of Draft
        One for each value that the entry had replaced: two where it had settled a clash; of a photo those of
        each thing said of it. To be written with ``UNDO`` as instrument.

    Raises
    ------
    InputError
        If there is none, another device has replaced it since, or what it replaced is not here.
    """
    entries = tuple(log)
    left = _left((each for each in entries if not fact or each.fact == fact), device)
    if not left:
        of = f"of this device for {say(split(fact))}" if fact else "of this device"
        raise InputError(f"nothing to take back: no entry {of} is left in this job")
    facts = facts_of(entries)[0]
    return tuple(draft for each in _at_once(left, device) for draft in _back(each, entries, facts, device))


def _back(
    target: Entry, entries: tuple[Entry, ...], facts: Mapping[Path, Fact], device: str
) -> Iterator[Draft]:
    """What takes one entry back."""
    where = say(split(target.fact))
    own = [each for each in facts.values() if target in each.entries]
    if not own:
        raise InputError(f"{where}: this version cannot read the entry; update first, then take it back")
    its = own[0]
    mine = _standing_for(target, its.standing, device)
    if mine is None:
        others = "; ".join(said_by(each) for each in its.standing)
        raise InputError(f"{where}: replaced since ({others}); type the value you want instead")
    here = {each.id for each in entries}
    if not here.issuperset(target.supersedes):
        raise InputError(
            f"{where}: what it replaced is not on this device yet; sync first, or type the value"
        )
    values = [each.value for each in its.entries if each.id in target.supersedes] or [None]
    yield from (Draft(target.fact, value, (mine.id,)) for value in values)


def _at_once(left: list[Entry], device: str) -> list[Entry]:
    """The last entry, and of a photo all that was said with it: one by one at one time, each once."""
    act = [left[-1]]
    photo = split(left[-1].fact)[:-1]
    if photo[:1] != ("photos",):
        return act
    for before in reversed(left[:-1]):
        next_to = number_of(device, before.id) == number_of(device, act[-1].id) - 1
        if not next_to or before.time != act[-1].time or split(before.fact)[:-1] != photo:
            break
        if before.fact in {each.fact for each in act}:
            break
        act.append(before)
    return act


def undone(log: Iterable[Entry], device: str, fact: str, seen: Collection[str]) -> tuple[Entry, ...]:
    """What a device wrote to take back just this, if it has: whoever lost the answer asks twice.

    Parameters
    ----------
    log : iterable of Entry
    device, fact : str
    seen : collection of str
        Ids of what is to be taken back, as whoever asks saw it.
    """
    return tuple(
        each
        for each in log
        if each.device == device
        and each.fact == fact
        and each.instrument == UNDO
        and set(each.supersedes) & set(seen)
    )


def _standing_for(target: Entry, standing: Iterable[Entry], device: str) -> Entry | None:
    """The entry to replace: the target, or what this device wrote to bring its value back."""
    mine = [each for each in standing if each == target]
    mine += [
        each
        for each in standing
        if each.device == device and each.instrument == UNDO and each.value == target.value
    ]
    return mine[0] if mine else None


def _left(entries: Iterable[Entry], device: str) -> list[Entry]:
    """Entries of a device that it has not taken back, by its own count and never by a clock."""
    numbered = defaultdict(list)
    for entry in entries:
        number = number_of(device, entry.id)
        if number and entry.device == device:
            numbered[number].append(entry)
    left: list[Entry] = []
    gone: set[str] = set()
    for number in sorted(numbered):
        for entry in numbered[number]:
            its = [at for at, each in enumerate(left) if each.fact == entry.fact]
            if entry.instrument == RESTATED:
                left.clear()  # what stood before was typed for another unit: it is not brought back
            elif entry.instrument != UNDO:
                left.append(entry)
            elif its and not gone & set(entry.supersedes):
                # not so a second entry, which restores the other half of a clash
                gone |= set(entry.supersedes)
                del left[its[-1]]  # what a pad takes back is the last of its fact, maybe not of all
    return left
