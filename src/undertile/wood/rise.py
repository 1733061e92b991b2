"""Whether a rise between two readings tells of water, or is no more than meter and season.

Read again within days, the same holes show the same to half a point: a rise over that is water, or damp air.
After months the meter's own error is no longer the same on both readings (other temperature, pins, battery),
and wood goes with the room's air from winter to summer. So a rise over a long time that lies within the
meter's error and what the air accounts for tells nothing by itself; wood wetter than its room's air makes it
does.
"""

from __future__ import annotations

from undertile.wood.dryfit import ABOVE_AIR
from undertile.wood.history import Sample

LONG = 30.0
"""Over so many days the meter's error counts anew on each reading, and the season in the wood (ours). [d]"""


def tells(earlier: Sample, last: Sample) -> bool:
    """Whether a rise from one reading to a later one says that water comes.

    Parameters
    ----------
    earlier, last : Sample
        Each with a value, ``last`` the higher.

    Returns
    -------
    bool
        False only of two readings ``LONG`` apart or more: the rise is within what one of them may be off and
        what the room's air rose by, and the wood is no wetter than that air makes it. Air that was not read
        rises by nothing, and tells nothing of how wet wood should be.
    """
    assert earlier.value is not None
    assert last.value is not None
    if last.day - earlier.day < LONG:
        return True
    off, now, before = sense(earlier, last), last.round.equilibrium, earlier.round.equilibrium
    season = 0.0 if now is None or before is None else max(now - before, 0.0)
    if last.value - earlier.value > off + season:
        return True
    return now is not None and last.value > now + ABOVE_AIR + off


def sense(earlier: Sample, last: Sample) -> float:
    """What the less certain of two readings may be off. [percent]"""
    return max(_off(earlier), _off(last))


def _off(sample: Sample) -> float:
    if sample.corrected is None:
        return float(sample.round.meter.give_or_take)
    return sample.corrected.give_or_take
