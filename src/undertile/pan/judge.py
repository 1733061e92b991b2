"""One figure against its limits: verdict, margin, and whether the readings can tell (convention 5)."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.flatcheck import COVERAGE
from undertile.lengths import Rounding, Unit
from undertile.pan.say import STEP, say, window
from undertile.ruler import rounded


@dataclass(frozen=True)
class Topic:
    """What is being judged: the head of a check."""

    code: str
    title: str
    where: str
    source: str

    def judge(
        self,
        value: Fraction,
        low: Fraction | None,
        high: Fraction | None,
        unit: Unit,
        *,
        rounding: Rounding | None = None,
        shown: Callable[[str], str] = str,
        sigma: float = 0.0,
        because: Iterable[str] = (),
        eats: str = "",
        fix: str = "",
        worked_to: bool = False,
    ) -> Check:
        """A length judged against a window.

        Parameters
        ----------
        value, low, high : Fraction or None
            [in]
        unit : {"in", "mm"}
        rounding : {"up", "down", "nearest"}, optional
            Of the value as printed, as long as it does not contradict the verdict; not given: toward the
            nearer limit, so that the margin, printed rounded down, is what lies between the two as printed.
        shown : callable
            Puts the length as it prints in words.
        sigma : float
            Standard uncertainty of the value: a margin of no more than twice it is said to be within
            its uncertainty. [in]
        because : iterable of str
        eats : str
        fix : str
            What to change, kept only when it fails.
        worked_to : bool
            Somebody cuts up to this limit: it prints rounded inward, never past what is allowed.

        Returns
        -------
        Check
        """
        sides = [value - low] if low is not None else []
        if high is not None:
            sides.append(high - value)
        margin = min(sides, default=None)
        verdict = Verdict.PASS if margin is None or margin >= 0 else Verdict.FAIL
        inward = worked_to and (high is None or _inside(value, high, unit))
        return Check(
            code=self.code,
            title=self.title,
            where=self.where,
            value=shown(printed(value, low, high, unit, rounding)),
            limit=window(low, high, unit, failed=verdict is Verdict.FAIL or inward),
            margin="" if margin is None else say(margin, unit, "down", signed=True),
            verdict=verdict,
            source=self.source,
            because=tuple(because),
            eats=eats,
            next_step=fix if verdict is Verdict.FAIL else "",
            within_uncertainty=margin is not None and sigma > 0 and abs(float(margin)) <= COVERAGE * sigma,
        )

    def said(
        self,
        verdict: Verdict,
        value: str,
        limit: str,
        *,
        margin: str = "",
        because: Iterable[str] = (),
        eats: str = "",
        step: str = "",
    ) -> Check:
        """A check whose figures are put in words already (a share, an area, a list of screws)."""
        return Check(
            self.code,
            self.title,
            self.where,
            value,
            limit,
            margin,
            verdict,
            self.source,
            tuple(because),
            eats,
            step if verdict is not Verdict.PASS else "",
        )

    def not_shown(self, limit: str, measure: str, because: Iterable[str] = ()) -> Check:
        """A check the facts cannot answer yet; ``measure`` says exactly what would."""
        return self.said(Verdict.NOT_SHOWN, "", limit, because=because, step=measure)


def _inside(value: Fraction, high: Fraction, unit: Unit) -> bool:
    """Whether a value prints no more than its limit rounded down."""
    step = STEP[unit]
    return rounded(value, unit, step, "up") <= rounded(high, unit, step, "down")


def printed(
    value: Fraction,
    low: Fraction | None,
    high: Fraction | None,
    unit: Unit,
    rounding: Rounding | None = None,
) -> str:
    """The value rounded as asked, unless that would put it on the other side of its limit.

    Parameters
    ----------
    value, low, high : Fraction or None
        [in]
    unit : {"in", "mm"}
    rounding : {"up", "down", "nearest"}, optional
        Not given: toward the nearer limit.
    """
    if rounding is None:
        upward = high is not None and (low is None or high - value <= value - low)
        rounding = "up" if upward else "down"
    if high is not None and value > high:
        return say(value, unit, "up")
    if low is not None and value < low:
        return say(value, unit, "down")
    step = STEP[unit]
    text = rounded(value, unit, step, rounding)
    if (high is not None and text > rounded(high, unit, step, "nearest")) or (
        low is not None and text < rounded(low, unit, step, "nearest")
    ):
        return say(value, unit)
    return say(value, unit, rounding)


def worst(checks: Iterable[Check]) -> Verdict:
    """Fail before not shown before pass."""
    verdicts = {check.verdict for check in checks}
    for verdict in (Verdict.FAIL, Verdict.NOT_SHOWN):
        if verdict in verdicts:
            return verdict
    return Verdict.PASS
