"""The day by this machine's clock: asked for in one place, so that a page of the docs can set it."""

from __future__ import annotations

from datetime import date


def day() -> str:
    """``2026-03-04``."""
    return date.today().isoformat()
