"""A wet corner to read: a plate round the corner, two studs, a bit of subfloor, three dry references."""

from __future__ import annotations

from copy import deepcopy
from typing import Any

from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import water

DAYS = ("2026-03-02 16:00", "2026-03-04 08:00", "2026-03-05 16:00", "2026-03-07 16:00", "2026-03-09 16:00")

PLATE: dict[str, list[str]] = {
    # lumber plate of wall B, Douglas-fir, meter set to it: what is shown is what is there at 68 F
    "plate-B-4": ["29", "29.5", "28.5"],
    "plate-B-16": ["27", "24.5", "22.5"],
    "plate-B-28": ["22", "19.5", "18"],
    "plate-B-40": ["10", "10", "9.5"],
    "plate-L-6": ["26", "23.5", "21.5"],
    "plate-L-18": ["11", "10.5", "10"],
}
REFERENCES = {"closet": "9", "far-wall": "9.5", "joist-off": "8.5"}


def corner(visits: int = 3) -> dict[str, Any]:
    """The facts as a table, with so many visits."""
    names = [str(number + 1) for number in range(visits)]
    facts: dict[str, Any] = {
        "meters": {"pins": {"kind": "pin", "set_to": "Douglas-fir"}},
        "visits": {
            name: {"when": DAYS[int(name) - 1], "air": "70 F", "humidity": 40, "wood": "68 F"}
            for name in names
        },
        "points": {},
    }
    for name, shown in PLATE.items():
        _, wall, along = name.split("-")
        facts["points"][name] = {
            "member": "plate",
            "wall": wall,
            "along": f'{along}"',
            "material": "lumber",
            "species": "Douglas-fir",
            "open_faces": "both",
            "thickness": '1-1/2"',
            "bearing": "no",
            "shown": dict(zip(names, shown, strict=False)),
        }
    for name, value in REFERENCES.items():
        facts["points"][name] = {
            "member": "other",
            "material": "lumber",
            "species": "Douglas-fir",
            "reference": True,
            "shown": {"1": value},
        }
    return facts


def changed(facts: dict[str, Any], **at: Any) -> dict[str, Any]:
    """A copy with values put at dotted places (``__`` between the keys)."""
    out = deepcopy(facts)
    for key, value in at.items():
        *path, last = key.split("__")
        spot = out
        for part in path:
            spot = spot.setdefault(part.replace("_", "-") if part.startswith("plate") else part, {})
        spot[last] = value
    return out


def answer(facts: dict[str, Any], **more: Any) -> WoodResult:
    """The whole answer of a table of facts."""
    return water(WoodFacts.model_validate(facts, context={"unit": "in"}), **more)
