"""Times as this device's own clock has them: entries of a phone abroad and of this laptop side by side."""

from __future__ import annotations

from datetime import datetime

from undertile.screens.context import Context


def here(ctx: Context, text: str) -> str:
    """Day and minute of an entry's time, by the offset this device's clock has now.

    A time without an offset was said by a clock that did not tell where it stood: it is shown as it came, as
    is what is no time.
    """
    try:
        told = datetime.fromisoformat(text)
        zone = datetime.fromisoformat(ctx.host.now()).tzinfo
        if told.tzinfo is not None and zone is not None:
            text = told.astimezone(zone).isoformat()
    except (ValueError, OverflowError):
        pass
    return ctx.says.time(text)
