"""What is known of a photo. Its content is kept apart, under its hash; the job holds what it shows."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from undertile.bounds import Place
from undertile.survey.facts import Facts, WallName

PhotoStage = Literal[
    "before",
    "opened",
    "repaired",
    "trued",
    "straightedge",
    "blocked",
    "plumbed",
    "covered",
    "board",
    "membrane",
    "flood",
    "tile",
    "finished",
    "other",
]
"""When in the work a photo is taken; what the next layer covers cannot be taken later (``covered``: the last
one before it)."""
MARK = 32
"""Hex digits of a photo's hash that name it in the job: 128 bits."""


class PhotoFacts(Facts):
    """One photo, by the first 32 hex digits of the hash of its content."""

    wall: WallName | None = Field(default=None, description="wall it shows")
    stud: str = Field(default="", description="stud it shows")
    height: Place | None = Field(default=None, description="height it shows")
    surface: Literal["floor"] | None = Field(default=None, description="the floor, where it shows that")
    stage: PhotoStage | None = Field(default=None, description="when in the work it was taken")
    note: str = Field(default="", description="what it shows, in words")
