"""The limits of the moisture gate that count: convention 5.4's, or a person's own.

A stricter one is taken as typed. A looser one is taken with its reason (convention, first line); without one
that can be read the usual one counts, for nobody would see on the wall that it was changed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from undertile.findings import Finding, Severity
from undertile.lengths import Unit
from undertile.sentence import Sentence, form
from undertile.wood.extent import PAST
from undertile.wood.facts import Allowed
from undertile.wood.say import as_typed, length, listed
from undertile.wood.typed import readable

LIMITS = {
    "over_reference": Sentence("points over the dry reference"),
    "most": Sentence("goal at most"),
    "never": Sentence("never over"),
    "read_within": Sentence("days since a place was read"),
    "past_the_last": Sentence("sound wood past the last bad spot"),
}
USUAL = {
    "over_reference": Decimal(4),
    "most": Decimal(16),
    "never": Decimal(19),
    "read_within": Decimal(14),
}
"""By name, as convention 5.4 has them; how old a reading may be is ours. More is looser."""
_FOR = form("{name} {now} for {usual}")


def reasoned(allowed: Allowed) -> bool:
    """Whether a reason is written that can be read: a word of three letters or more."""
    return readable(allowed.reason)


def looser(allowed: Allowed) -> tuple[str, ...]:
    """Names of the limits that let pass what the usual ones do not."""
    names = [name for name, usual in USUAL.items() if getattr(allowed, name) > usual]
    past = allowed.past_the_last
    return (*names, *(("past_the_last",) if past is not None and past.inches < PAST else ()))


def counting(allowed: Allowed) -> Allowed:
    """The limits that count.

    Parameters
    ----------
    allowed : Allowed
        As typed.

    Returns
    -------
    Allowed
        The usual one in place of each that is looser, where no reason can be read.
    """
    if reasoned(allowed):
        return allowed
    back = {name: USUAL.get(name) for name in looser(allowed)}
    return allowed.model_copy(update=back) if back else allowed


def taken(allowed: Allowed, unit: Unit) -> Iterator[Sentence]:
    """What an answer stands on where a looser limit counts: each, the usual one, and why.

    Parameters
    ----------
    allowed : Allowed
        As they count.
    unit : {"in", "mm"}
    """
    said = _said(allowed, looser(allowed), unit)
    if said:
        yield Sentence("{what}: {reason}", what=listed(said), reason=allowed.reason)


def limit_findings(allowed: Allowed, unit: Unit) -> Iterator[Finding]:
    """Limits that were changed, with the reason, or that none is given.

    Parameters
    ----------
    allowed : Allowed
        As typed.
    unit : {"in", "mm"}

    Yields
    ------
    Finding
        At most one. Days fewer and sound wood further are the careful side, and need no reason.
    """
    loose = looser(allowed)
    changed = [
        name
        for name, usual in USUAL.items()
        if name in loose or (name != "read_within" and getattr(allowed, name) != usual)
    ]
    other = _said(allowed, (*changed, *(each for each in loose if each not in USUAL)), unit)
    if not other:
        return
    found = Sentence("{what}, no reason given", what=listed(other))
    step = Sentence("Write why beside the water's limits.")
    if reasoned(allowed):
        found = Sentence("{what}: {reason}", what=listed(other), reason=allowed.reason)
        step = Sentence("Keep them if you mean it.")
    elif loose:
        step = Sentence(
            "Write why beside the water's limits; until then the usual one counts where another is looser."
        )
    yield Finding(
        "moisture-limits-changed",
        Severity.NOTE if reasoned(allowed) else Severity.ACT,
        Sentence("moisture limits"),
        Sentence("the usual ones, or a reason"),
        found,
        step,
        "convention-5",
    )


def _said(allowed: Allowed, names: Sequence[str], unit: Unit) -> list[Sentence]:
    """Each limit by its name: as it is now, and the usual one."""
    out = []
    for name in names:
        now = getattr(allowed, name)
        if name in USUAL:
            out.append(Sentence(_FOR, name=LIMITS[name], now=now, usual=USUAL[name]))
        else:
            out.append(Sentence(_FOR, name=LIMITS[name], now=as_typed(now), usual=length(PAST, unit)))
    return out
