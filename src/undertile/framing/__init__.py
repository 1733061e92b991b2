"""The framing: where every wall's plane lies, and what is done to each stud so that it ends up there."""

from __future__ import annotations

from undertile.framing.stage import STAGE

__all__ = ["STAGE"]
