"""The temperature of the wood, as typed: where a reading can be corrected for it, and where it is asked.

Outside the range of the correction a number says nothing of the wood: it is kept, and not used. Inside it,
but far from the room's air, it is judged and not rejected: it counts only where it makes the wood wetter.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.correct import COLDEST_F, HOTTEST_F
from undertile.wood.equilibrium import HIGHEST_F, LOWEST_F
from undertile.wood.facts import Meter
from undertile.wood.typed import read_fahrenheit

if TYPE_CHECKING:
    from undertile.wood.history import Round, Series

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


def taken(wood_f: float | None, air_f: float | None) -> tuple[float | None, bool]:
    """The temperature a reading is corrected for, and whether it is the air's because the wood's is not said.

    Parameters
    ----------
    wood_f, air_f : float or None
        [deg F]

    Returns
    -------
    wood : float or None
        None where neither tells: not said, and no air in which wood can be corrected for. [deg F]
    assumed : bool
    """
    if wood_f is not None:
        return wood_f, False
    if air_f is not None and COLDEST_F <= air_f <= HOTTEST_F:
        return air_f, True
    return None, False


def not_said(rounds: Iterable[Round], series: Sequence[Series]) -> Iterator[Finding]:
    """Visits on which the wood's temperature is not said, where that moves a reading or might.

    Parameters
    ----------
    rounds : iterable of Round
    series : sequence of Series

    Yields
    ------
    Finding
    """
    read = [(each.round.name, each.corrected) for one in series for each in one.samples]
    assumed = {name for name, corrected in read if corrected is not None and corrected.assumed}
    unknown = {name for name, corrected in read if corrected is not None and corrected.coldest is not None}
    for each in rounds:
        if each.name in assumed or each.name in unknown:
            found = Sentence("not said; taken as the air's, {air}, on the wetter side", air=each.facts.air)
            if each.name in unknown:
                found = Sentence("not said, and no air that tells it")
            yield Finding(
                "wood-temperature-not-said",
                Severity.NOTE,
                f"visit {each.name}",
                Sentence("the wood's temperature: cold wood reads drier than it is"),
                found,
                Sentence("Read the wood's temperature on each visit, or the air's."),
                "pin-temperature",
            )


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
