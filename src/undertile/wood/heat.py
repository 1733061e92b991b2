"""The temperature of the wood, as typed: where a reading can be corrected for it, and where it is asked.

Outside the range of the correction a number says nothing of the wood: it is kept, and not used. Inside it,
but far from the room's air, it is judged and not rejected: it counts only where it makes the wood wetter.
"""

from __future__ import annotations

from collections.abc import Iterator

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.correct import COLDEST_F, HOTTEST_F
from undertile.wood.equilibrium import HIGHEST_F, LOWEST_F
from undertile.wood.facts import Meter
from undertile.wood.typed import read_fahrenheit

FAR = 40.0
"""Wood further from the room's air than this is asked about (common practice, no source). [deg F]"""


def far_from_air(wood_f: float | None, air_f: float | None) -> bool:
    """Whether wood is hardly as warm or as cold as typed; never told where one of them is not known.

    Parameters
    ----------
    wood_f, air_f : float or None
        [deg F]
    """
    if wood_f is None or air_f is None or not LOWEST_F <= air_f <= HIGHEST_F:
        return False  # air that no room has is asked about itself
    return abs(wood_f - air_f) > FAR


def wood_temperature(
    where: str, typed: str, air_f: float | None, air: str, meter: Meter
) -> Iterator[Finding]:
    """What there is to say of one temperature of the wood: one finding or none.

    Parameters
    ----------
    where : str
    typed : str
        Of the wood, as typed.
    air_f : float or None
        Of the room on that visit. [deg F]
    air : str
        The same as typed.
    meter : Meter
    """
    wood_f = read_fahrenheit(typed)
    if not COLDEST_F <= wood_f <= HOTTEST_F:
        do = Sentence("Type the wood's temperature again; until then nothing is judged from its readings.")
        if meter.compensates or meter.kind == "pad":
            do = Sentence("Type the wood's temperature again.")
        yield Finding(
            "wood-temperature-odd",
            Severity.ACT,
            where,
            Sentence("wood from 32 to 122 F (0 to 50 C), where readings can be corrected for it"),
            typed,
            do,
            "pin-temperature-range",
        )
    elif far_from_air(wood_f, air_f):
        yield Finding(
            "wood-temperature-odd",
            Severity.ACT,
            where,
            Sentence("wood within {far} F (22 C) of the room's air, {air}", far=f"{FAR:.0f}", air=air),
            typed,
            Sentence(
                "Type the wood's temperature again, or read it when it is as warm as the room; until then "
                "nothing is taken off for it and no date is worked from it."
            ),
            "practice-wood-temperature",
        )
