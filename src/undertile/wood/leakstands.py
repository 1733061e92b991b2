"""How each candidate source of the water stands, what it is called, and the cause in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from undertile.sentence import Sentence, form
from undertile.wood.facts import Candidate
from undertile.wood.leakshown import Asked
from undertile.wood.leaktests import Outcome

Standing = Literal["found", "excluded", "mended", "open", "not here"]

READINGS = Sentence("readings")
"""Name of what the moisture readings themselves show: no test of their own."""
CANDIDATES: tuple[Candidate, ...] = get_args(Candidate)
NAMES: dict[Candidate, Sentence] = {
    "supply": Sentence("the supply pipes, under pressure all the time"),
    "riser": Sentence("the pipe from the valve to the head, wet only in use"),
    "drain": Sentence("the drain below the strainer"),
    "pan": Sentence("the pan or liner, up to the curb"),
    "enclosure": Sentence("walls, corners, curb and door, when they are sprayed"),
    "roof or window": Sentence("rain through roof, wall or window"),
    "condensation": Sentence("moist air on a cold surface"),
    "neighbour": Sentence("the neighbor's water"),
}


@dataclass(frozen=True)
class CandidateStands:
    """One candidate.

    Attributes
    ----------
    candidate : Candidate
    standing : Standing
    why : str
        The test and its numbers, or what is missing.
    suspected : bool
        A test points here without telling it from another.
    source : str
    found_on : float or None
        Day of the test that found it, mended since or not; None where none did. [d]
    said, shown : str
        Why somebody says that it cannot be, and what shows otherwise; "" where nothing does.
    do : str
        What settles it besides a test; "" = nothing does.
    asked : Asked or None
        Why a word that it cannot be does not rule it out (``leakword``).
    """

    candidate: Candidate
    standing: Standing
    why: str
    suspected: bool = False
    source: str = "practice-leak-tests"
    found_on: float | None = None
    said: str = ""
    shown: str = ""
    do: str = ""
    asked: Asked | None = None


def statement(stands: Sequence[CandidateStands], tests: Sequence[Outcome]) -> tuple[str, ...]:
    """The cause in plain words, for whoever pays: found, mended, excluded, and not tested.

    Parameters
    ----------
    stands : sequence of CandidateStands
    tests : sequence of Outcome

    Returns
    -------
    tuple of str
        One sentence or two each.
    """
    of = {
        kind: [each for each in stands if each.standing == kind]
        for kind in ("found", "mended", "excluded", "open", "not here")
    }
    out: list[str] = []
    again = [each for each in of["open"] if each.found_on is not None]
    for each in (*of["found"], *again, *of["mended"]):
        said = form("Water came from {what}: {why}.")
        if each in again:
            said = form("Water came from {what}, and that is not settled: {why}.")
        out.append(Sentence(said, what=NAMES[each.candidate], why=each.why))
    if not out:
        out.append(Sentence("No test has shown yet where the water comes from."))
    for each in of["excluded"]:
        said = form("Not {what}: {why}.")
        if each.found_on is not None:
            said = form("Water came from {what}, and not since: {why}.")
        out.append(Sentence(said, what=NAMES[each.candidate], why=each.why))
    for each in of["not here"]:
        out.append(Sentence("Cannot be {what}: {why}.", what=NAMES[each.candidate], why=each.why))
    for each in (one for one in of["open"] if one.found_on is None):
        said = form("Suspected: {what} ({why})." if each.suspected else "Not ruled out: {what} ({why}).")
        out.append(Sentence(said, what=NAMES[each.candidate], why=each.why))
    number = sum(1 for test in tests if test.test != READINGS)
    said = form("This stands on {number} tests; what was not tested may leak as well.")
    if number == 1:
        said = form("This stands on {number} test; what was not tested may leak as well.")
    out.append(Sentence(said, number=number))
    return tuple(out)
