"""What lies on the floor is not said: not said is not zero (convention 2.6), the dead load may be more."""

from __future__ import annotations

from dataclasses import replace

from undertile.findings import Check, Verdict
from undertile.floor.facts import FloorFacts
from undertile.floor.loads import Carried
from undertile.sentence import Sentence

ON_TOP = Sentence("Enter what goes on the subfloor, bed, board, mortar and tile, each with its thickness.")
STIFFEN = Sentence("Stiffen it. What each way buys shows once all that lies on it is entered, weighed.")


def least_shown(check: Check) -> Check:
    """A check worked with the least dead load there can be.

    Returns
    -------
    Check
        As it is where it fails already, or where another thing is asked first; else not shown.
    """
    asked_first = check.verdict is Verdict.NOT_SHOWN and not check.value
    if check.verdict is Verdict.FAIL or asked_first:
        return check
    return replace(
        check, verdict=Verdict.NOT_SHOWN, value="", margin="", because=(), eats="", next_step=ON_TOP
    )


def ways_open(facts: FloorFacts, loads: Carried) -> bool:
    """Whether what a remedy comes to is not known, for the dead load under the tile is not."""
    under_dead = facts.tile != "none" and facts.loads.judged_under == "live and dead"
    return under_dead and (loads.bare or bool(loads.unweighed))
