"""Rooms that were planned, and what may be read in them afterwards."""

from __future__ import annotations

import copy
import random
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path
from typing import Any

from undertile.framing.plan import FramingPlan
from undertile.job import Job, plan
from undertile.job.settle import settle
from undertile.lengths import format_length, parse_length
from undertile.recheck.asked import asked
from undertile.recheck.result import RecheckResult
from undertile.recheck.run import judged, recheck

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "read-again.toml"
NOMINAL = Fraction(6)
Again = dict[str, Any]


def job_of(table: Mapping[str, Any]) -> Job:
    """The job of a nested table."""
    job, troubles = settle(table, "in")
    assert job is not None, [trouble.line() for trouble in troubles]
    return job


@dataclass(frozen=True)
class Room:
    """A job, planned; ``table`` as in its file."""

    table: dict[str, Any]
    facts: Mapping[str, Any]
    results: Mapping[str, Any]

    @property
    def plan(self) -> FramingPlan:
        found: FramingPlan = self.results["framing"]
        return found

    def again(self, table: Again) -> RecheckResult:
        """The room judged with this read again, and planned again."""
        return recheck(self._with(table), self.results)

    def judged(self, table: Again) -> RecheckResult:
        """The verdicts alone."""
        return judged(self._with(table), self.results)

    def _with(self, table: Again) -> dict[str, Any]:
        job = job_of({**self.table, "recheck": table})
        return {**self.facts, "recheck": job.facts()["recheck"]}

    def read(self, offset: Callable[[str, int], Fraction | None]) -> Again:
        """Every reading asked for, at the offset that ``offset(stud, height index)`` gives; None = blank."""
        walls: dict[str, Any] = {}
        for each in asked(self.plan):
            member = self.plan.member(each.stud)
            h = member.heights.index(each.height)
            heights = [format_length(z) for z in member.heights]
            wall = walls.setdefault(each.wall, {"heights": heights, "studs": {}})
            stud = wall["studs"].setdefault(each.stud, {"readings": [""] * len(heights)})
            value = offset(each.stud, h)
            stud["readings"][h] = "" if value is None else format_length(NOMINAL - value)
        return {"walls": walls}

    def as_planned(self) -> Again:
        """Every face just where the plan puts it."""
        return self.read(lambda stud, h: self.plan.member(stud).finished[h])

    def untouched(self) -> Again:
        """Every face as it was: nobody did anything."""
        return self.read(lambda stud, h: self.plan.member(stud).offsets[h])


def planned(table: dict[str, Any]) -> Room:
    """A room with its plan."""
    table = {key: value for key, value in table.items() if key not in ("recheck", "version")}
    job = job_of(table)
    return Room(table, {"unit": job.unit, **job.facts()}, dict(plan(job).results))


@cache
def example() -> Room:
    """The bundled room that was read again."""
    return planned(tomllib.loads(EXAMPLE.read_text(encoding="utf-8")))


def example_again() -> Again:
    """What was read again in it."""
    return copy.deepcopy(tomllib.loads(EXAMPLE.read_text(encoding="utf-8"))["recheck"])


@cache
def random_room(seed: int) -> Room:
    """The same room with other studs: readings within 1/4 of the line, in sixteenths, no strip off a rule."""
    rng = random.Random(seed)
    table = copy.deepcopy(example().table)
    for wall in table["survey"]["walls"].values():
        for stud in wall["studs"].values():
            bow = rng.choice((0, 0, 0, -2, 1, 2, 3))
            stud["readings"] = [
                format_length(NOMINAL - Fraction(bow * (0, 1, 1, 0)[h] + rng.choice((0, 0, 0, -1)), 16))
                for h in range(len(wall["heights"]))
            ]
    for name in ("ply 5.2 mm", "ply 7/32"):
        table["framing"]["stock"].pop(name)
    return planned(table)


def laid(*walls: str, gap: str = "0", lengths: tuple[str, ...] = ("24", "96")) -> Again:
    """Straightedges laid over whole walls, every way."""
    return {
        f"{wall}-{way}-{length}": {"wall": wall, "way": way, "length": length, "gap": gap}
        for wall in walls
        for way in ("up", "along", "across")
        for length in lengths
    }


def sticks(room: Room) -> Again:
    """Inside widths measured again at the depths asked for: what the faces at the floor leave. [in]"""
    opening = room.results["survey"].frame
    out = {}
    for depth in ("1", "16", "32"):
        y = Fraction(depth)
        faces = sum(_face(room, wall, y) for wall in "LR")
        width = (opening.opening(y) or Fraction(0)) - faces
        exact = Decimal(width.numerator) * Decimal("25.4") / Decimal(width.denominator)
        out[f"at {depth}"] = {"depth": depth, "height": "2", "reading": f"{exact} mm"}
    return out


def _face(room: Room, wall: str, y: Fraction) -> Fraction:
    """The planned face at the lowest height, straight between studs. [in]"""
    studs = sorted((m for m in room.plan.members if m.wall == wall), key=lambda m: m.along)
    if y <= studs[0].along:
        return studs[0].finished[0]
    for low, high in pairwise(studs):
        if y <= high.along:
            share = (y - low.along) / (high.along - low.along)
            return low.finished[0] + share * (high.finished[0] - low.finished[0])
    return studs[-1].finished[0]


def set_reading(table: Again, stud: str, height: str, text: str) -> Again:
    """A copy with one reading changed."""
    out = copy.deepcopy(table)
    wall = out["walls"][stud[0]]
    at = [parse_length(z, "in").inches for z in wall["heights"]].index(parse_length(height, "in").inches)
    wall["studs"][stud]["readings"][at] = text
    return out
