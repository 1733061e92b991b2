"""The one order for a stud that is wet when its wall is trued: to what it dries, and when that is.

The goal is the gate's (convention 5.4): at it a stud counts as dry, is read again and trued. What dry wood
reads in the house is lower, and says only how far the face goes back in the end (``shrink``).
"""

from __future__ import annotations

from collections.abc import Sequence

from undertile.sentence import Sentence, listed
from undertile.wood.closing import last_of, past_it
from undertile.wood.places import NEW
from undertile.wood.say import goal_text
from undertile.wood.verdict import PointVerdict


def dry_first_order(studs: Sequence[str], goal: float | None) -> Sentence:
    """What is done with wet studs, in one sentence.

    Parameters
    ----------
    studs : sequence of str
    goal : float or None
        None where no dry reference is read. [percent]
    """
    names, one = listed(studs), len(studs) == 1
    if goal is None:
        return Sentence("Let {studs} dry and read again before anything there is trued.", studs=names)
    return Sentence(
        "Let {studs} dry to {goal} and read it again before it is trued."
        if one
        else "Let {studs} dry to {goal} and read them again before they are trued.",
        studs=names,
        goal=goal_text(goal),
    )


def read_again_order(studs: Sequence[str], since: str) -> Sentence:
    """What is done with studs that are dry, whose faces may have been read wet, in one sentence.

    Parameters
    ----------
    studs : sequence of str
    since : str
        ``read wet`` or ``not known``, as ``shrink.StudShrinkage``.
    """
    names, one = listed(studs), len(studs) == 1
    if since == "not known":
        return Sentence(
            "Read {studs} again before it is trued, or write the day its face was read."
            if one
            else "Read {studs} again before they are trued, or write the days their faces were read.",
            studs=names,
        )
    return Sentence(
        "Read every height of {studs} again before it is trued."
        if one
        else "Read every height of {studs} again before they are trued.",
        studs=names,
    )


def dry_when(stud: str, points: Sequence[PointVerdict]) -> Sentence:
    """When a stud is dry, as its points have it; why there is no date where one of them has none.

    Parameters
    ----------
    stud : str
    points : sequence of PointVerdict
        Of the whole job.
    """
    its = _wet(stud, points)
    without = [each for each in its if _dateless(each)]
    if without:
        return Sentence("No date: {why}.", why=without[0].why)
    soonest, latest = last_of([each.forecast for each in its]) if its else ("", "")
    if not latest:
        return Sentence("No date: it was not worked out.")
    return Sentence("Between {soonest} and {latest}, eight times in ten.", soonest=soonest, latest=latest)


def dry_past(studs: Sequence[str], points: Sequence[PointVerdict], today: str) -> str:
    """What to say where the days of `dry_when` have gone by unread; "" without a clock, or before.

    Parameters
    ----------
    studs : sequence of str
        Of one range.
    points : sequence of PointVerdict
        Of the whole job.
    today : str
        ``2026-03-04``; "" = there is no clock.
    """
    its = [each for stud in studs for each in _wet(stud, points)]
    if not its or any(_dateless(each) for each in its):
        return ""
    newest = max((each.read_on for each in its if each.read_on is not None), default=None)
    return past_it(last_of([each.forecast for each in _wet(studs[0], points)])[1], newest, today)


def _wet(stud: str, points: Sequence[PointVerdict]) -> list[PointVerdict]:
    return [
        each
        for each in points
        if each.where.removesuffix(NEW).partition(" at ")[0] == stud
        and each.call not in ("close", "gone", "cut out")
    ]


def _dateless(each: PointVerdict) -> bool:
    return not each.forecast.latest or each.call not in ("dry on", "not shown")
