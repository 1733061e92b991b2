"""One figure against its limits: verdict, margin, and whether the readings can tell (convention 5)."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.lengths import Rounding, Unit
from undertile.pan.say import say, window


def judge(
    code: str,
    title: str,
    where: str,
    value: Fraction,
    low: Fraction | None,
    high: Fraction | None,
    unit: Unit,
    *,
    source: str,
    rounding: Rounding = "down",
    shown: str = "",
    sigma: float = 0.0,
    because: Iterable[str] = (),
    eats: str = "",
    fix: str = "",
) -> Check:
    """A length judged against a window.

    Parameters
    ----------
    value, low, high : Fraction or None
        [in]
    rounding : {"up", "down", "nearest"}
        Of the value as printed; the margin always prints rounded down.
    shown : str
        The value in words, where a bare length is not enough.
    sigma : float
        Standard uncertainty of the value: a margin no larger is said to be within it. [in]
    fix : str
        What to change, kept only when it fails.

    Returns
    -------
    Check
    """
    sides = [value - low] if low is not None else []
    if high is not None:
        sides.append(high - value)
    margin = min(sides, default=None)
    verdict = Verdict.PASS if margin is None or margin >= 0 else Verdict.FAIL
    return Check(
        code=code,
        title=title,
        where=where,
        value=shown or say(value, unit, rounding),
        limit=window(low, high, unit),
        margin="" if margin is None else say(margin, unit, "down", signed=True),
        verdict=verdict,
        source=source,
        because=tuple(because),
        eats=eats,
        next_step=fix if verdict is Verdict.FAIL else "",
        within_uncertainty=margin is not None and sigma > 0 and abs(float(margin)) <= sigma,
    )


def not_shown(
    code: str, title: str, where: str, limit: str, source: str, measure: str, because: Iterable[str] = ()
) -> Check:
    """A check the facts cannot answer yet; ``measure`` says exactly what would."""
    return Check(
        code, title, where, "", limit, "", Verdict.NOT_SHOWN, source, tuple(because), next_step=measure
    )


def worst(checks: Iterable[Check]) -> Verdict:
    """Fail before not shown before pass."""
    verdicts = {check.verdict for check in checks}
    for verdict in (Verdict.FAIL, Verdict.NOT_SHOWN):
        if verdict in verdicts:
            return verdict
    return Verdict.PASS
