"""When an entry was typed, as its device said it: text in the record, an instant to say which is newest."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)
_APART = timedelta(days=2)
"""Two clocks on earth never stand farther apart at one instant, whatever their offsets."""


def instant(text: str) -> datetime | None:
    """The instant of an entry's time; one without an offset is taken as UTC, None where it is no time."""
    try:
        found = datetime.fromisoformat(text)
        return (found if found.tzinfo is not None else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):  # no time; or of the year 1 or 9999, an offset away
        return None


def newest(times: Iterable[str]) -> str:
    """The newest of them by the clocks they were typed by, the same from whichever order; "" without one.

    Clocks may be wrong: this is shown, and decides nothing (convention 7.3).
    """
    best: tuple[datetime, str] | None = None
    for text in sorted(set(times), reverse=True):
        at = instant(text)
        if at is None:
            continue
        if best is None or (at, text) > best:
            best = at, text
        elif at < best[0] - _APART and _DAY.match(text):
            break  # all that follow begin with an earlier day
    return best[1] if best else ""
