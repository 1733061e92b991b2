"""Simulated surveys: rooms, studs, tools and slips, as written down in ``docs/methods/slips.md``.

This population was fixed before the detector was tuned and knows nothing of it: no constant is shared
with ``survey``. Everything follows from the seed.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from math import hypot, pi, sin
from typing import Any

from undertile.lengths import format_length
from undertile.survey.facts import SurveyFacts

MM = Fraction(5, 127)
STUD_LENGTH = 92.625


@dataclass
class Planted:
    """One slip: the kind, and what each changed place should have said."""

    kind: str
    right: dict[str, str]
    size: float
    covered: bool


@dataclass
class Survey:
    """One simulated survey: values to be typed, then facts."""

    unit: str
    tool: str
    values: dict[str, Fraction] = field(default_factory=dict)
    layout: dict[str, Any] = field(default_factory=dict)
    order: dict[str, list[str]] = field(default_factory=dict)
    nominal: dict[str, Fraction] = field(default_factory=dict)
    covered: set[str] = field(default_factory=set)
    repeats: dict[str, str] = field(default_factory=dict)
    planted: list[Planted] = field(default_factory=list)

    def text(self, value: Fraction) -> str:
        """As a person of this survey writes it."""
        return format_length(value, "mm" if self.unit == "mm" else "in", mark=True)

    def facts(self) -> SurveyFacts:
        """The survey as typed."""
        data: dict[str, Any] = {"walls": {}}
        for wall, studs in self.layout["walls"].items():
            table: dict[str, Any] = {
                "nominal": self.text(self.nominal[wall]),
                "heights": [self.text(z) for z in self.layout["heights"]],
                "studs": {},
            }
            for stud, along in studs.items():
                readings = {}
                for z in self.layout["heights"]:
                    place = f"{stud} at {self.label(z)}"
                    if place in self.values:
                        readings[self.text(z)] = self.text(self.values[place])
                table["studs"][stud] = {"along": self.text(along), "readings": readings}
            data["walls"][wall] = table
        for group in ("widths", "diagonals", "levels", "repeats", "gaps", "squares"):
            data[group] = {}
            for name, row in self.layout[group].items():
                place = f"{_WORD[group]} {name}"
                if place in self.values:
                    out = {k: self.text(v) if isinstance(v, Fraction) else v for k, v in row.items()}
                    out["out" if group == "squares" else "reading"] = self.text(self.values[place])
                    data[group][name] = out
        return SurveyFacts.model_validate(data)

    def label(self, z: Fraction) -> str:
        return format_length(z, "mm" if self.unit == "mm" else "in")


_WORD = {
    "widths": "width",
    "diagonals": "diagonal",
    "levels": "level",
    "repeats": "repeat",
    "gaps": "gap",
    "squares": "square",
}


def clean_survey(rng: random.Random) -> Survey:
    """A room and its survey without a slip."""
    unit = "mm" if rng.random() < 0.15 else "in"
    tool = rng.choices(("sticks", "tape", "laser meter"), (60, 25, 15))[0]
    survey = Survey(unit, tool)
    room = _Room(rng, survey)
    room.read_walls()
    room.read_checks()
    return survey


class _Room:
    def __init__(self, rng: random.Random, survey: Survey) -> None:
        self.rng, self.survey = rng, survey
        gauss = rng.gauss
        self.grid = MM if survey.unit == "mm" else Fraction(1, 16 if rng.random() < 0.8 else 32)
        self.opening = rng.uniform(48, 66)
        self.turn = {"L": gauss(0, 3 / 16 / 36), "R": gauss(0, 3 / 16 / 36)}
        plan = rng.choice(((2, 24, 48, 72, 90), (2, 24, 48, 72, 90), (2, 18, 36, 54, 72, 90)))
        heights = [Fraction(z) for z in plan]
        if survey.unit == "mm":
            heights = [round(z / MM / 10) * 10 * MM for z in heights]
        self.heights = heights
        self.studs: dict[str, dict[str, Fraction]] = {}
        self.face: dict[str, Callable[[float], float]] = {}
        self.tilt: dict[str, float] = {}
        for wall, count in (
            ("L", rng.choice((3, 3, 4))),
            ("B", rng.choice((4, 5, 6))),
            ("R", rng.choice((3, 3, 4))),
        ):
            self._wall(wall, count)
        survey.layout = {"walls": self.studs, "heights": heights}

    def _wall(self, wall: str, count: int) -> None:
        rng = self.rng
        gauss = rng.gauss
        step = self.opening / count if wall == "B" else 16.0
        first = rng.uniform(1, 3) if wall != "B" else step / 2
        self.survey.nominal[wall] = Fraction(rng.choice((4, 5, 6))) if self.survey.unit == "in" else 150 * MM
        self.tilt[wall] = gauss(0, 1 / 64) / 90
        lean, bow, skew = gauss(0, 1 / 8) / 90, gauss(0, 1 / 8), gauss(0, 1 / 8) / 36
        side = rng.choice((-1, 1))
        self.studs[wall] = {}
        for i in range(count):
            along = self._on(max(0.0, first + i * step + gauss(0, 0.4)))  # no stud stands past its corner
            share = (i + 0.5) / count
            base = skew * float(along) + 4 * bow * share * (1 - share)
            self.studs[wall][f"{wall}{i + 1}"] = along
            self.face[f"{wall}{i + 1}"] = self._stud(base, lean, side)

    def _stud(self, base: float, lean: float, side: int) -> Callable[[float], float]:
        rng = self.rng
        gauss = rng.gauss
        foot, head = gauss(0, 1 / 16), gauss(0, 3 / 32)
        draw = rng.random()
        if draw < 0.75:
            crown = abs(gauss(0, 1 / 8))
        elif draw < 0.95:
            crown = abs(gauss(0, 1 / 4))
        else:
            crown = rng.uniform(3 / 8, 3 / 4)
        crown *= side if rng.random() < 0.7 else -side
        wave = gauss(0, 1 / 24)
        kink = rng.choice((-1, 1)) * rng.uniform(1 / 16, 1 / 4) if rng.random() < 0.05 else 0.0
        knot = rng.uniform(10, 82)
        rough: dict[float, float] = {}

        def face(z: float) -> float:
            up = z / STUD_LENGTH
            bump = kink * max(0.0, 1 - abs(z - knot) / 18)
            skin = rough.setdefault(round(z, 1), gauss(0, 1 / 64))
            straight = base + lean * z + foot + (head - foot) * up
            return straight + 4 * crown * up * (1 - up) + wave * sin(2 * pi * up) + bump + skin

        return face

    def _on(self, value: float, step: Fraction | None = None) -> Fraction:
        step = step or (MM if self.survey.unit == "mm" else Fraction(1, 16))
        return round(Fraction(value) / step) * step

    def read_walls(self) -> None:
        """Rule readings, every stud at every height; one survey in five leaves some out."""
        rng, survey = self.rng, self.survey
        partial = rng.random() < 0.2
        for wall, studs in self.studs.items():
            places = []
            for stud in studs:
                for z in self.heights:
                    if partial and rng.random() < 0.1:
                        continue
                    place = f"{stud} at {survey.label(z)}"
                    survey.values[place] = self._rule(wall, stud, z)
                    places.append((stud, z, place))
            if rng.random() < 0.5:
                places.sort(key=lambda p: p[1])
            survey.order[wall] = [p[2] for p in places]

    def _rule(self, wall: str, stud: str, z: Fraction) -> Fraction:
        error = self.rng.gauss(0, 1 / 16 if self.rng.random() < 0.03 else 1 / 40)
        offset = self.face[stud](float(z)) + self.tilt[wall] * float(z)
        return self._on(float(self.survey.nominal[wall]) - offset + error, self.grid)

    def _near(self, wall: str, depth: float) -> str:
        return min(self.studs[wall], key=lambda s: abs(float(self.studs[wall][s]) - depth))

    def _between(self, depth: float, height: float) -> float:
        left, right = self._near("L", depth), self._near("R", depth)
        plain = self.opening - (self.turn["L"] + self.turn["R"]) * depth
        return plain - self.face[left](height) - self.face[right](height)

    def read_checks(self) -> None:
        """Widths, diagonals, levels, repeats, gaps and squares."""
        rng, survey = self.rng, self.survey
        gauss = rng.gauss
        layout = survey.layout
        for group in _WORD:
            layout[group] = {}
        bias = {"sticks": 0.0, "tape": gauss(0, 1 / 32), "laser meter": gauss(0, 1 / 64)}
        spread = {"sticks": 1 / 40, "tape": 1 / 16, "laser meter": 1 / 20}
        heights = [self.heights[0], self.heights[2], self.heights[-2]]
        depths = list(self.studs["L"].values())
        for depth in (depths[0], depths[1], depths[2]):
            for z in heights:
                name = f"w{len(layout['widths']) + 1}"
                true = self._between(float(depth) + gauss(0, 0.5), float(z) + gauss(0, 1))
                error = bias[survey.tool] + gauss(0, spread[survey.tool])
                layout["widths"][name] = {"depth": depth, "height": z, "tool": survey.tool}
                survey.values[f"width {name}"] = self._on(true + error, self.grid)
                for wall in ("L", "R"):
                    survey.covered.add(f"{self._near(wall, float(depth))} at {survey.label(z)}")
                survey.covered.add(f"width {name}")
        self._diagonals(depths[2], bias["tape"] or gauss(0, 1 / 32))
        for stud in rng.sample(sorted(self.face), 3):
            low, high = self.heights[0], self.heights[-2]
            true = self.face[stud](float(high)) - self.face[stud](float(low)) + gauss(0, 1 / 40)
            name = f"v{len(layout['levels']) + 1}"
            layout["levels"][name] = {"stud": stud, "low": low, "high": high}
            survey.values[f"level {name}"] = self._on(true, MM if survey.unit == "mm" else Fraction(1, 32))
        for wall in self.studs:
            if rng.random() < 0.8 and survey.order[wall]:
                first = survey.order[wall][0]
                stud = first.split(" at ")[0]
                z = next(z for z in self.heights if first == f"{stud} at {survey.label(z)}")
                name = f"p{len(layout['repeats']) + 1}"
                layout["repeats"][name] = {"stud": stud, "height": z}
                survey.repeats[wall] = f"repeat {name}"
                survey.values[f"repeat {name}"] = self._rule(wall, stud, z)
        if rng.random() < 0.5:
            lines = float(survey.nominal["L"] + survey.nominal["R"])
            for depth in (depths[0], depths[2]):
                name = f"g{len(layout['gaps']) + 1}"
                true = self.opening - (self.turn["L"] + self.turn["R"]) * float(depth) - lines
                layout["gaps"][name] = {"depth": depth, "tool": "laser meter"}
                survey.values[f"gap {name}"] = self._on(true + bias["laser meter"] + gauss(0, 1 / 20))
        if rng.random() < 0.3:
            over = self._on(36.0)
            for wall in ("L", "R"):
                name = f"s{wall}"
                layout["squares"][name] = {"wall": wall, "over": over}
                true = self.turn[wall] * float(over) + gauss(0, 1 / 32)
                survey.values[f"square {name}"] = self._on(
                    true, MM if survey.unit == "mm" else Fraction(1, 32)
                )

    def _diagonals(self, depth: Fraction, bias: float) -> None:
        gauss = self.rng.gauss
        z = float(self.heights[0])
        for name, near, far in (("d1", "L", "R"), ("d2", "R", "L")):
            corner = self.face[self._near(near, 0)](z) + gauss(0, 1 / 16)
            back = self.face[self._near("B", 0 if near == "L" else self.opening)](z) + gauss(0, 1 / 16)
            reach = float(depth) + gauss(0, 1 / 8)
            side = self.face[self._near(far, float(depth))](z) + self.turn[far] * reach
            length = hypot(self.opening - corner - side, reach - back)
            row = {
                "corner": "BL" if near == "L" else "BR",
                "depth": depth,
                "height": self.heights[0],
                "tool": "tape",
            }
            self.survey.layout["diagonals"][name] = row
            error = bias + gauss(0, 1 / 16)
            self.survey.values[f"diagonal {name}"] = self._on(length + error)
