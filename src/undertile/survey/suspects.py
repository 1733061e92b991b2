"""Which mistakes explain a misfit: one at a time, two and more at once, with the odds of each.

The search keeps the few likeliest sets of explanations and grows them until nothing more is worth its
rarity. Then each explanation is judged again beside all its rivals, the others being taken as made: its odds
are its weight's share. The lumber being really like that, and chance, are among the rivals.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp

from undertile.survey.hypotheses import Explanations, Hypothesis

MOST = 6
"""Explanations at once; a survey with more is misread all over, and is to be read again."""
BEAM = 3
BRANCH = 3


@dataclass(frozen=True)
class Candidate:
    """One explanation with its odds.

    Attributes
    ----------
    hypothesis : Hypothesis
    odds : float
        Share of all explanations looked at, chance and lumber among them, 0..1.
    """

    hypothesis: Hypothesis
    odds: float


@dataclass(frozen=True)
class Misfit:
    """One misfit of the survey and its explanations.

    Attributes
    ----------
    candidates : tuple of Candidate
        By falling odds.
    slip : float
        Odds that something was misread at all, 0..1.
    others : dict of observation number to float
        What was taken as corrected elsewhere meanwhile. [in]
    made : dict of observation number to float
        The likeliest set's own correction here. [in]
    """

    candidates: tuple[Candidate, ...]
    slip: float
    others: dict[int, float]
    made: dict[int, float]


def find_misfits(look: Explanations) -> list[Misfit]:
    """Explain a survey's misfit.

    Parameters
    ----------
    look : Explanations

    Returns
    -------
    list of Misfit
        One for each explanation needed, lumber that is really bent included; empty when nothing is wrong.
    """
    chosen = _search(look)
    misfits = []
    for n in range(len(chosen)):
        others: dict[int, float] = {}
        for k, hypothesis in enumerate(chosen):
            if k != n:
                others.update(hypothesis.change)
        misfits.append(_judge(look.all(others), others, chosen[n].change))
    return sorted(misfits, key=lambda misfit: -misfit.slip)


def _search(look: Explanations) -> list[Hypothesis]:
    """The likeliest set of explanations, grown one by one over a narrow beam."""
    best: tuple[float, list[Hypothesis]] = (0.0, [])
    beam = [best]
    for _ in range(MOST):
        grown: list[tuple[float, list[Hypothesis]]] = []
        seen: set[frozenset[tuple[int, int]]] = set()
        for weight, chosen in beam:
            changed = {i: d for hypothesis in chosen for i, d in hypothesis.change.items()}
            options = sorted(look.all(changed), key=lambda h: -h.weight)[:BRANCH]
            for option in options:
                if option.weight <= 0.0:
                    break
                whole = [*chosen, option]
                mark = frozenset((i, round(d * 64)) for h in whole for i, d in h.change.items())
                if mark not in seen:
                    seen.add(mark)
                    grown.append((weight + option.weight, whole))
        if not grown:
            break
        grown.sort(key=lambda item: -item[0])
        beam = grown[:BEAM]
        if beam[0][0] > best[0]:
            best = beam[0]
    return best[1]


def _judge(hypotheses: Sequence[Hypothesis], others: dict[int, float], made: dict[int, float]) -> Misfit:
    top = max([0.0, *(h.weight for h in hypotheses)])
    shares = [exp(h.weight - top) for h in hypotheses]
    total = exp(-top) + sum(shares)
    slip = sum(share for h, share in zip(hypotheses, shares, strict=True) if not h.lumber) / total
    candidates = [Candidate(h, share / total) for h, share in zip(hypotheses, shares, strict=True)]
    candidates = [c for c in candidates if c.odds > 1e-3]
    candidates.sort(key=lambda c: -c.odds)
    return Misfit(tuple(_moves_together(candidates)), slip, others, made)


def _moves_together(candidates: list[Candidate]) -> list[Candidate]:
    """A moved line that starts one reading off is the same answer: its odds go to the likeliest."""
    out: list[Candidate] = []
    for candidate in candidates:
        h = candidate.hypothesis
        if h.kind == "line moved":
            for n, kept in enumerate(out):
                k = kept.hypothesis
                if k.kind == "line moved" and len(k.change.keys() ^ h.change.keys()) <= 1:
                    out[n] = Candidate(k, kept.odds + candidate.odds)
                    break
            else:
                out.append(candidate)
        else:
            out.append(candidate)
    out.sort(key=lambda c: -c.odds)
    return out
