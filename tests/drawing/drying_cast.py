"""Moisture logs for the charts' tests: one of everything odd, and jobs of any size."""

from __future__ import annotations

import random
from typing import Any

from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import water
from undertile.wood.typed import day_text, read_moment

POINT = {
    "member": "plate",
    "wall": "B",
    "material": "lumber",
    "species": "Douglas-fir",
    "open_faces": "both",
    "thickness": "1-1/2",
    "bearing": "no",
}
REFERENCES = {
    f"dry-{n}": {**POINT, "member": "other", "reference": True, "shown": {"1": value}}
    for n, value in enumerate(("10", "10.5", "11"))
}


def answer(facts: dict[str, Any]) -> WoodResult:
    """The answer of a table of facts."""
    return water(WoodFacts.model_validate(facts, context={"unit": "in"}))


def days(count: int, step: float = 2.0, first: str = "2026-03-02") -> dict[str, dict[str, Any]]:
    """So many visits, so many days apart, at four in the afternoon."""
    start = read_moment(first).days
    return {
        str(n + 1): {
            "when": f"{day_text(start + n * step)} 16:00",
            "air": "70 F",
            "humidity": 38,
            "wood": "68 F",
        }
        for n in range(count)
    }


def everything_odd() -> dict[str, Any]:
    """One point of everything odd: over and under the range, a wet face, not reached, soft, cut out, fed."""

    def at(along: str, **more: Any) -> dict[str, Any]:
        return {**POINT, "along": along, **more}

    def shown(*values: str) -> dict[str, str]:
        return {str(n + 1): value for n, value in enumerate(values) if value}

    return {
        "meters": {"pins": {"kind": "pin", "set_to": "Douglas-fir"}},
        "visits": days(4),
        "points": {
            **REFERENCES,
            "over": at("2", shown=shown("over", "over", "27", "24.5")),
            "wet-face": at("12", shown=shown("26", "24", "21", "18"), surface={"1": "wet"}),
            "not-reached": at("22", shown=shown("x", "22", "x", "19")),
            "under": at("32", shown=shown("9", "8", "under", "under"), awl={"1": "0"}),
            "fed": at("42", shown=shown("26", "25", "24.8", "25.2")),
            "gaps": at("52", shown=shown("24", "", "", "18")),
            "soft": at("62", shown=shown("22", "20", "18", "16"), awl={"2": "1/2"}),
            "gone": at("72", shown=shown("29", "29.5"), out="2026-03-05"),
            "damp": at("82", shown=shown("18", "17", "16.4", "16.2")),
            "panel": {
                **POINT,
                "member": "subfloor",
                "x": "6",
                "y": "6",
                "material": "plywood",
                "shown": shown("24", "21", "19", "17"),
            },
            "not-read": at("92"),
            "once": at("102", shown=shown("", "", "", "21")),
        },
    }


def any_log(seed: int, points: int = 8, visits: int = 5) -> dict[str, Any]:
    """Points of every kind that dry as they like, read as people read them."""
    rng = random.Random(seed)
    table: dict[str, Any] = {
        "meters": {"pins": {"kind": "pin", "set_to": "Douglas-fir"}},
        "points": dict(REFERENCES),
    }
    table["visits"] = days(visits, rng.choice((1.0, 2.0, 3.0)), rng.choice(("2026-03-02", "2026-12-20")))
    for number in range(points):
        start, rest, tau = rng.uniform(10, 34), rng.uniform(7, 18), rng.uniform(2, 20)
        values = {}
        for visit in range(visits):
            value = rest + max(start - rest, 0) * 2.718 ** (-2 * visit / tau) + rng.gauss(0, 0.6)
            chance = rng.random()
            if chance < 0.08:
                values[str(visit + 1)] = "x"
            elif chance > 0.1:
                values[str(visit + 1)] = "over" if value > 30 else f"{max(value, 5):.1f}"
        point = {**POINT, "along": str(3 + 7 * number), "shown": values}
        if rng.random() < 0.3:
            point |= {"member": "subfloor", "x": str(3 + 7 * number), "y": "6", "material": "plywood"}
        if rng.random() < 0.2:
            point["surface"] = {"1": "wet"}
        table["points"][f"point-{number}"] = point
    return table
