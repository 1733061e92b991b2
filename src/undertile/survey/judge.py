"""The misfits of a survey in words: suspects with their odds, and findings with the next step."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import exp, sqrt

from undertile.errors import LengthError
from undertile.findings import Finding, Severity
from undertile.lengths import MM, Length, Unit, format_length
from undertile.sentence import Sentence, joined
from undertile.survey.grid import typed
from undertile.survey.hypotheses import Explanations, Hypothesis
from undertile.survey.result import Suspect
from undertile.survey.slips import SLIPS
from undertile.survey.suspects import Candidate, Misfit

ALARM = 0.85
"""Odds that something was misread from which it is said, not asked."""
ASK = 0.5
"""Odds from which a person is asked to look."""
NAMED = 0.6
"""Odds of one exact correction from which it is offered first; below, the survey cannot tell."""
SHOWN = 5
"""Explanations listed for one misfit."""

_LUMBER = {
    "bend": Sentence("the stud is really bent there"),
    "crown": Sentence("the stud really has that crown"),
}


SAID = 3
"""Places listed of a row or a stud that was typed in the other direction or exchanged."""
_REARRANGED = {
    "row reversed": ("written from the top down", "written from its far end"),
    "rows swapped": ("the two studs in each other's place", "the two rows in each other's place"),
}


class Judge:
    """Puts the misfits of one survey into words."""

    def __init__(self, look: Explanations) -> None:
        self.look = look
        self.fit = look.fit

    def suspects(self, misfit: Misfit) -> tuple[Suspect, ...]:
        """The explanations of one misfit, by falling odds."""
        settle = self.settle(misfit)
        return tuple(self._suspect(c, settle) for c in misfit.candidates[:SHOWN] if c.odds >= 0.01)

    def finding(self, misfit: Misfit) -> Finding | None:
        """What is said of one misfit; None where lumber or chance explains it well enough."""
        if not misfit.candidates or misfit.slip < ASK:
            return None
        top = misfit.candidates[0]
        if misfit.slip < ALARM:
            return self._ask(misfit, top)
        h = top.hypothesis
        if top.odds < NAMED or h.lumber or h.kind in ("other", "zero typed"):
            return self._undecided(misfit)
        suspect = self._suspect(top, "")
        slip = SLIPS[h.kind]
        rest = [self._suspect(c, "") for c in misfit.candidates[1:2]]
        leave = self._checks_leave(h, misfit)
        said = Sentence("{typed} typed", typed=suspect.typed)
        if h.kind == "line moved":
            said = Sentence("the readings after it stand off")
        elif h.kind in _REARRANGED:
            said = Sentence("as typed they stand off")
        beside: str = ""
        if rest:
            beside = Sentence(
                "; next best {where}, {slip}, {odds}",
                where=rest[0].where,
                slip=rest[0].slip,
                odds=_percent(rest[0].odds),
            )
        data = {
            "kind": h.kind,
            "typed": suspect.typed,
            "offered": suspect.offered,
            "odds": f"{top.odds:.3f}",
            "next_odds": f"{misfit.candidates[1].odds:.3f}" if rest else "0.000",
        }
        if leave:
            data["checks_leave"] = leave
        if h.kind == "line moved":
            first = self.fit.observations[list(h.change)[-1]]
            data["from"] = first.place
            data["shift"] = self._about(next(iter(h.change.values())) / first.slope)
        return Finding(
            slip.code,
            Severity.ACT,
            suspect.where,
            Sentence(
                "{offered} ({slip}: odds {odds}{beside})",
                offered=suspect.offered,
                slip=suspect.slip,
                odds=_percent(top.odds),
                beside=beside,
            ),
            Sentence("{said}, the checks leave {leave}", said=said, leave=leave) if leave else said,
            Sentence("{text}.", text=self.settle(misfit)),
            "practice-reading-slips",
            data,
        )

    def settle(self, misfit: Misfit) -> str:
        """The one measurement that tells the explanations apart best, as an imperative."""
        top = misfit.candidates[0].hypothesis
        if top.kind == "line moved":
            return Sentence(
                "Set the line back on its first mark and re-read from {where} on",
                where=top.where.partition(" from ")[2].removesuffix(" on"),
            )
        i = self._telling(misfit)
        seen = self.fit.observations[i]
        if seen.kind in ("reading", "repeat"):
            place = seen.place if seen.kind == "reading" else self._stud_of_repeat(i)
            return Sentence("Re-read {where}", where=place)
        if seen.kind == "level":
            return Sentence(
                "Hold the level on {stud} again ({where})",
                stud=self.fit.checks[seen.index].stud,
                where=seen.place,
            )
        return Sentence("Measure {where} again", where=seen.place)

    def _stud_of_repeat(self, i: int) -> str:
        check = self.fit.checks[self.fit.observations[i].index]
        return Sentence("the repeated point on {stud} ({where})", stud=check.stud, where=check.place)

    def _telling(self, misfit: Misfit) -> int:
        """Which single re-reading separates the explanations most: the expected share of pairs told apart."""
        shown = misfit.candidates[: SHOWN + 3]
        tries: list[int] = []
        for candidate in shown[:4]:
            typed_ones = [i for i in candidate.hypothesis.change if i in self.look.length]
            tries += [i for i in typed_ones[:3] if i not in tries]
        if not tries:  # lumber only: the reading at the bend tells whether it was misread
            tries = self._readings_near(shown[0].hypothesis)
        best, told = tries[0], -1.0
        rivals = [(c.odds, c.hypothesis.change) for c in shown]
        rivals.append((max(0.0, 1 - sum(odds for odds, _ in rivals)), {}))
        for i in tries:
            spread = self.fit.observations[i].sigma ** 2
            score = 0.0
            for n, (p, one) in enumerate(rivals):
                for q, two in rivals[:n]:
                    apart = one.get(i, 0.0) - two.get(i, 0.0)
                    score += p * q * (1 - exp(-apart * apart / (8 * spread)))
            if score > told + 1e-12:
                best, told = i, score
        return best

    def _readings_near(self, h: Hypothesis) -> list[int]:
        keys = {self.fit.observations[i].line for i in h.change}
        near = [
            i for i, seen in enumerate(self.fit.observations) if seen.line in keys and seen.kind == "reading"
        ]
        place = {self.fit.observations[i].place for i in h.change}
        return sorted(near, key=lambda i: self.fit.observations[i].place not in place)

    def _suspect(self, candidate: Candidate, settle: str) -> Suspect:
        h = candidate.hypothesis
        where = h.where or ", ".join(self.fit.observations[i].place for i in h.change)
        if h.lumber:
            return Suspect(where, _LUMBER[h.kind], "", "", candidate.odds, settle, "stud-bent")
        slip = SLIPS[h.kind]
        order = list(h.change)
        if h.kind == "line moved":
            shift = self._about(next(iter(h.change.values())) / self.fit.observations[order[0]].slope)
            by = f"{shift.lstrip('-')} {'more' if shift[0] != '-' else 'less'}"
            said = f"every reading from there on about {by}, give or take {self._around(h)},"
            wish = f"{where} by {h.order} = {by}"
            return Suspect(where, slip.words, "", said, candidate.odds, settle, slip.code, wish=wish)
        if h.kind in _REARRANGED:
            return self._rearranged(candidate, where, settle)
        was = " ".join(typed(self.look.length[i]) for i in order)
        if not h.offered:
            i = order[0]
            if h.kind in ("other", "zero typed"):
                wish = f"{where} = not measured"
                return Suspect(where, slip.words, was, "", candidate.odds, settle, slip.code, wish=wish)
            should = float(self.look.length[i].inches) + h.change[i] / self.fit.observations[i].slope
            offered = Sentence("about {length}", length=self._about(should, self.look.length[i]))
            return Suspect(where, slip.words, was, offered, candidate.odds, settle, slip.code)
        now = {i: _print(value, self.look.length[i]) for i, value in h.offered.items()}
        changes = tuple((self.fit.observations[i].place, now[i]) for i in order)
        return Suspect(
            where,
            slip.words,
            was,
            " ".join(now[i] for i in order),
            candidate.odds,
            settle,
            slip.code,
            changes,
        )

    def _rearranged(self, candidate: Candidate, where: str, settle: str) -> Suspect:
        """A row or a stud typed in the other direction, or two exchanged: the first places that change."""
        h = candidate.hypothesis
        now = {i: _print(value, self.look.length[i]) for i, value in h.offered.items()}
        changes = tuple((self.fit.observations[i].place, now[i]) for i in h.change)
        offered = ", ".join(f"{place} {text}" for place, text in changes[:SAID])
        more = ", ..." if len(changes) > SAID else ""
        stud = where.startswith("stud")
        how = _REARRANGED[h.kind][0 if stud else 1]
        wish = f"{where} = {'reversed' if h.kind == 'row reversed' else 'exchanged'}"
        code = SLIPS[h.kind].code
        return Suspect(where, how, "", offered + more, candidate.odds, settle, code, changes, wish)

    def _around(self, h: Hypothesis) -> str:
        """How well the size of a moved line is known."""
        spread = Fraction(1 / sqrt(max(1e-9, self.fit.curvature(dict.fromkeys(h.change, 1.0)))))
        step = MM if self._unit() == "mm" else Fraction(1, 16)
        return format_length(max(spread, step), self._unit(), step=step, rounding="up")

    def _about(self, inches: float, like: Length | None = None) -> str:
        unit = like.unit if like is not None else self._unit()
        step = MM if unit == "mm" else Fraction(1, 16)
        return format_length(Fraction(inches), unit, step=step, rounding="nearest")

    def _unit(self) -> Unit:
        units = [length.unit for length in self.look.length.values()]
        return "mm" if units.count("mm") * 2 > len(units) else "in"

    def _checks_leave(self, h: Hypothesis, misfit: Misfit) -> str:
        """What everything else leaves for a single reading, with its uncertainty."""
        if len(h.change) != 1:
            return ""
        i = next(iter(h.change))
        seen = self.fit.observations[i]
        m = self.fit.diagonal[i]
        gradient = self.fit.gradient_after(misfit.others)[i]
        left = float(self.look.length[i].inches) - gradient / m / seen.slope
        length = self.look.length[i]
        spread = Fraction(1 / sqrt(m))
        step = MM if length.unit == "mm" else Fraction(1, 32)
        around = format_length(max(spread, step), length.unit, step=step, rounding="up")
        middle = format_length(Fraction(left), length.unit, step=step, rounding="nearest")
        return Sentence("{middle}, give or take {around}", middle=middle, around=around)

    def _undecided(self, misfit: Misfit) -> Finding:
        shown = self.suspects(misfit)
        every = joined(
            (
                Sentence(
                    "{where} {slip} ({offered}), {odds}" if s.offered else "{where} {slip}, {odds}",
                    where=s.where,
                    slip=s.slip,
                    offered=s.offered,
                    odds=_percent(s.odds),
                )
                for s in shown[:4]
            ),
            "{first}; {then}",
        )
        where = shown[0].where
        return Finding(
            "misfit-undecided",
            Severity.ACT,
            where,
            Sentence("readings that fit each other within their tools' uncertainty"),
            Sentence("something here was misread, and what was read cannot tell which: {every}", every=every),
            Sentence("{settle}: it tells the most.", settle=self.settle(misfit)),
            "baarda",
            {"odds": f"{misfit.slip:.3f}", "candidates": "; ".join(s.where for s in shown)},
        )

    def _ask(self, misfit: Misfit, top: Candidate) -> Finding:
        suspect = self._suspect(top, "")
        return Finding(
            "look-again",
            Severity.NOTE,
            suspect.where,
            Sentence("a reading like those around it"),
            Sentence(
                "it stands out; misread ({slip}, {offered}), odds {odds}, or really so"
                if suspect.offered
                else "it stands out; misread ({slip}), odds {odds}, or really so",
                slip=suspect.slip,
                offered=suspect.offered,
                odds=_percent(misfit.slip),
            ),
            Sentence("{settle} if you are still there.", settle=self.settle(misfit)),
            "practice-reading-slips",
            {"odds": f"{misfit.slip:.3f}"},
        )


def _percent(odds: float) -> str:
    if odds > 0.995:
        return Sentence("over 99 %")
    return f"{round(odds * 100)} %"


def _print(value: Fraction, like: Length) -> str:
    """A corrected reading in the unit it was typed in, and with its inch mark where it had one."""
    units: tuple[Unit, Unit] = ("mm", "in") if like.unit == "mm" else ("in", "mm")
    for unit in units:
        try:
            return format_length(value, unit, mark='"' in like.text or unit != like.unit)
        except LengthError:
            continue  # a row exchanged with one typed in the other unit
    return typed(like)


def misfit_findings(
    judge: Judge, misfits: Sequence[Misfit]
) -> tuple[list[Finding], list[tuple[Suspect, ...]], set[str]]:
    """Findings and suspect groups of every misfit worth saying.

    Returns
    -------
    (list of Finding, list of tuple of Suspect, set of str)
        And the places they name.
    """
    findings: list[Finding] = []
    groups: list[tuple[Suspect, ...]] = []
    named: set[str] = set()
    for misfit in misfits:
        finding = judge.finding(misfit)
        if finding is not None and finding not in findings:
            findings.append(finding)
            if finding.severity is not Severity.NOTE:
                groups.append(judge.suspects(misfit))
            for candidate in misfit.candidates[:2]:
                named.update(judge.fit.observations[i].place for i in candidate.hypothesis.change)
    return findings, groups, named
