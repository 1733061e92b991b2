"""Wood that was wetted again: a test made before says nothing of water that came after it.

A rise counts where neither the meter nor the season accounts for it. It takes what the tests before it ruled
out of every source that could have wetted the wood since, until the test is made again; or until one of these
sources was shown by a test, mended since, and is clean after both (ours, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from math import sqrt

from undertile.sentence import Sentence, joined
from undertile.wood.dryfit import ABOVE_AIR, REPEAT
from undertile.wood.facts import Candidate, LeakFacts
from undertile.wood.history import Round, Sample, Series, alike
from undertile.wood.leak import CANDIDATES, READINGS, source
from undertile.wood.leakdays import WET_SINCE
from undertile.wood.leakorder import earliest, latest, mended_between
from undertile.wood.leakshown import Asked, Outcome
from undertile.wood.rise import LONG, sense
from undertile.wood.torn import TEARS
from undertile.wood.typed import read_moment

PLAY = 2 * sqrt(2) * REPEAT
"""Two readings of one meter in the same holes within days differ by less, 19 times in 20 (ours). [percent]"""
IN_USE: tuple[Candidate, ...] = ("riser", "drain", "pan", "enclosure")
"""Wet only while the shower is used, or tested with water."""
_DO = Sentence("Make the test again, and write its hour; until then it rules nothing out.")
_NOTHING = Sentence("the wood got wet again after it")


@dataclass(frozen=True)
class Rise:
    """Wood that reads wetter than before, by more than meter and season.

    Attributes
    ----------
    where : str
    before, after : Sample
        The driest reading before it, and the one that shows it.
    could : frozenset of Candidate
        What can have wetted it in between.
    """

    where: str
    before: Sample
    after: Sample
    could: frozenset[Candidate]

    @property
    def since(self) -> float:
        """A test begun before may be older than this water. [d]"""
        moment = self.after.round.moment
        return latest(moment.days, hour=moment.hour)

    @property
    def begun(self) -> float:
        """The water came after this. [d]"""
        moment = self.before.round.moment
        return earliest(moment.days, hour=moment.hour)


def rises(series: Iterable[Series], rounds: Sequence[Round], tests: Sequence[Outcome]) -> tuple[Rise, ...]:
    """Every rise that tells of water, newest first.

    Parameters
    ----------
    series : iterable of Series
        Without the dry references.
    rounds : sequence of Round
        By day, with what was shut off since the one before.
    tests : sequence of Outcome
        Water of a test may wet the wood too.

    Returns
    -------
    tuple of Rise
    """
    out: list[Rise] = []
    for each in series:
        lows: list[Sample] = []  # by scale the driest so far, and the one just before
        for last in each.samples:
            if last.value is None or last.slip is not None:
                continue
            like = [low for low in lows if alike(low, last)]
            low = next((one for one in reversed(like) if _wetted(one, last, rounds)), None)
            if low is not None:  # what comes after is held against this reading
                out.append(Rise(each.where, low, last, _could(low, last, rounds, tests)))
                driest = last
            else:
                driest = min((last, *reversed(like)), key=lambda one: one.value or 0.0)
            others = [one for one in lows if not alike(one, last)]
            lows = [*others, last] if driest is last else [*others, driest, last]
    return tuple(sorted(out, key=lambda each: -each.since))


def _wetted(low: Sample, last: Sample, rounds: Sequence[Round]) -> bool:
    """Whether neither the meter nor the season accounts for a rise; air excuses no more than it makes."""
    assert low.value is not None
    assert last.value is not None
    rise, off = last.value - low.value, sense(low, last)
    same = low.round.instrument == last.round.instrument and low.weighed == last.weighed
    play = PLAY if same and last.day - low.day < LONG else off if same else 2 * off
    if rise <= play:
        return False
    before = low.round.equilibrium
    airs = [each.equilibrium for each in rounds if low.day <= each.moment.days <= last.day]
    most = max((each for each in airs if each is not None), default=None)  # wood lags behind the air
    season = 0.0 if most is None or before is None else most - before
    return rise > play + season or (most is not None and last.value > most + ABOVE_AIR + off)


def _could(
    low: Sample, last: Sample, rounds: Sequence[Round], tests: Sequence[Outcome]
) -> frozenset[Candidate]:
    """What was not shut off on every day between two readings; with a test of it in between it was not."""
    between = [each.facts for each in rounds if low.day < each.moment.days <= last.day]
    begun = earliest(low.day, hour=low.round.moment.hour)
    end = latest(last.day, hour=last.round.moment.hour)
    made = {each.kind for each in tests if begun <= each.day <= end}
    out = set(CANDIDATES)
    if all(each.supply == "off" for each in between) and not made & {"dials", "pressures"}:
        out -= {"supply"}
    if all(each.shower == "not used" for each in between):
        wet = made & {"pressures", "pours", "fills", "sprays"}
        out -= set() if wet else set(IN_USE)
    if all(each.rain == "no" for each in between) and "outsides" not in made:
        out -= {"roof or window"}
    return frozenset(out)


def before_rises(
    tests: Sequence[Outcome], leak: LeakFacts, found: Sequence[Rise], *, wet: bool
) -> tuple[Outcome, ...]:
    """Tests as they tell: one made before the wood was wetted again does not rule out what can have done it.

    Parameters
    ----------
    tests : sequence of Outcome
    leak : LeakFacts
    found : sequence of Rise
        Newest first.
    wet : bool
        Whether any wood was wet.

    Returns
    -------
    tuple of Outcome
        What a test finds, it finds, whatever came after it.
    """
    tests = tuple(tests)
    for rise in found:
        held = tuple(_before(tests, rise))
        if not _explained(rise, held, leak, wet=wet):
            tests = held
    return tests


def _before(tests: Iterable[Outcome], rise: Rise) -> Iterator[Outcome]:
    for each in tests:
        of = (*each.excludes, *(("enclosure",) if each.zone is not None else ()))
        none = earliest(each.day, hour=each.hour) >= rise.since or not rise.could.intersection(of)
        if each.test == READINGS or none:
            yield each
            continue
        left = tuple(one for one in each.excludes if one not in rise.could)
        zone = None if "enclosure" in rise.could else each.zone
        yield replace(each, excludes=left, zone=zone, nothing=_NOTHING, asked=_asked(rise))


def _explained(rise: Rise, held: Sequence[Outcome], leak: LeakFacts, *, wet: bool) -> bool:
    """Whether a source that can have made it was shown by a test, and mended or torn out since for good."""
    stands = {each.candidate: each.standing for each in source(leak, held, wet=wet).stands}
    torn = {name: each.out for name, each in leak.not_here.items() if each.out and name in TEARS}
    done = {name: read_moment(day).days for name, day in torn.items()}
    done |= {name: mended_between(each)[0] for name, each in leak.mended.items()}
    for each in rise.could & done.keys():
        mended = done[each]
        shown = any(each in test.leaks and test.test != READINGS and test.day <= mended for test in held)
        if shown and mended > rise.begun and stands[each] in ("mended", "excluded"):
            return True
    return False


def _asked(rise: Rise) -> Asked:
    visit = rise.after.round
    return Asked(
        Sentence("a test begun after visit {visit}, {when}", visit=visit.name, when=visit.facts.when),
        joined(
            [
                rise.where,
                Sentence(
                    "{before} on visit {first}, then {after} on visit {visit}: water came after the test",
                    before=rise.before.reads,
                    first=rise.before.round.name,
                    after=rise.after.reads,
                    visit=visit.name,
                ),
            ],
            "{first}; {then}",
        ),
        _DO,
        WET_SINCE,
    )
