"""How long a test takes from its start, and how long is not believed: its start plus that is its end.

``when`` of a test is its start. Longer than these is asked about before it rules anything out (ours).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from undertile.sentence import Sentence, form
from undertile.wood.facts import Cold, Dial, Fill, NextDoor, Outside, Pour, Pressure, Spray
from undertile.wood.leakshown import Asked, Outcome

FORTNIGHT, DAY = 14.0, 1.0
MOST = {"dials": FORTNIGHT, "pressures": FORTNIGHT, "fills": FORTNIGHT}
"""A meter, a gauge or a full pan is left so long at the most; what is watched, a day (ours). [d]"""
SOURCE = "practice-leak-tests"
_EXPECTED = {
    FORTNIGHT: form("a test of 14 days (336 h, 20160 min) or less"),
    DAY: form("a test of 1 day (1440 min) or less"),
}
_DO = Sentence("Type how long it took again; until then it rules nothing out.")


def lasts(it: Dial | Pressure | Pour | Fill | Spray | Outside | Cold | NextDoor) -> float:
    """From the start of a test to its end; a surface is measured at once. [d]"""
    if isinstance(it, Fill):
        return float(it.hours) / 24
    return 0.0 if isinstance(it, Cold) else float(it.minutes) / 1440


def not_too_long(outcomes: Iterable[Outcome]) -> Iterator[Outcome]:
    """Tests as they tell: one longer than anybody watches excludes nothing; what it finds, it finds.

    Parameters
    ----------
    outcomes : iterable of Outcome

    Yields
    ------
    Outcome
    """
    for each in outcomes:
        most = MOST.get(each.kind, DAY)
        if each.lasts <= most or each.asked is not None:
            yield each
            continue
        expected, unit = Sentence(_EXPECTED[most]), form("{number} min")
        number = each.lasts * 1440
        if each.kind == "fills":
            unit, number = form("{number} h"), each.lasts * 24
        came = Sentence(unit, number=f"{number:.0f}")
        again = Sentence("its numbers are asked about: {expected}", expected=expected)
        nothing = each.nothing or ("" if each.leaks else again)
        asked = Asked(expected, came, _DO, SOURCE)
        yield replace(each, excludes=(), zone=None, nothing=nothing, asked=asked)
