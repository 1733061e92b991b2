"""The screens: one ASGI app that knows no host; server-rendered pages, each with a JSON twin at its path."""

from __future__ import annotations

from undertile.screens.app import create_app
from undertile.screens.host import Host, Paper, Picture

__all__ = ["Host", "Paper", "Picture", "create_app"]
