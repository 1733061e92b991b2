"""The bundled wet corner, worked on honestly from its third visit to an open gate, a step at a time.

Independent: each step is what the gate asked for by its name, and takes that and nothing else from the list.
"""

from __future__ import annotations

import json
import tomllib
from copy import deepcopy
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

from undertile.job import plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.cover import cover_line
from undertile.packet.words import Words
from undertile.wood.result import WoodResult

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"
WOOD = {
    "material": "lumber",
    "species": "Douglas-fir",
    "thickness": "1-1/2",
    "open_faces": "one",
    "bearing": "no",
}
LATER = {
    "plate-B-16": ("13.5", "13.0"),
    "plate-B-28": ("12", "11.5"),
    "plate-B-40": ("11", "10.5"),
    "plate-L-6": ("13", "12.5"),
    "plate-L-18": ("10.5", "10.0"),
    "B1-2": ("12.5", "12.0"),
    "B1-12": ("12", "11.5"),
    "B1-24": ("10.5", "10.0"),
    "L1-2": ("12", "11.5"),
    "L1-12": ("11", "10.5"),
    "floor-6-30": ("10.5", "10.0"),
}
ZONES = ("curb", "corners", "lower walls", "valve", "upper walls", "door")


def merged(table: dict[str, Any], more: dict[str, Any]) -> dict[str, Any]:
    out = deepcopy(table)
    for key, value in more.items():
        out[key] = merged(out.get(key, {}), value) if isinstance(value, dict) else value
    return out


def as_toml(value: Any) -> str:
    """A table, list or value as TOML, tables in one line."""
    if isinstance(value, dict):
        inner = (f"{json.dumps(key)} = {as_toml(each)}" for key, each in value.items())
        return "{ " + ", ".join(inner) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(map(as_toml, value)) + "]"
    return str(value) if isinstance(value, Decimal) else json.dumps(value, ensure_ascii=False)


def told(table: dict[str, Any]) -> WoodResult:
    job = read_job("\n".join(f"{key} = {as_toml(value)}" for key, value in table.items()).encode())
    stages = [each for each in STAGES if each.key in ("safety", "wood", "floor")]
    found: WoodResult = plan(job, stages, today="2026-03-22", known=planned()).results["wood"]
    return found


@cache
def planned() -> dict[str, Any]:
    """The plan of its studs, worked out once: the steps change nothing that a stop of it stands on."""
    return {"framing": plan(read_job(EXAMPLE)).results["framing"]}


def kinds(table: dict[str, Any]) -> set[str]:
    return {each.kind for each in told(table).gate.missing}


def read(member: str, four: str, five: str, **where: str) -> dict[str, Any]:
    return {"member": member, **WOOD, **where, "shown": {"4": four, "5": five}, "awl": {"4": "0"}}


def example() -> dict[str, Any]:
    with EXAMPLE.open("rb") as file:
        return tomllib.load(file, parse_float=Decimal)


def ruled_out(table: dict[str, Any]) -> dict[str, Any]:
    """Every source tested or shown not to be there."""
    drained = {"minutes": 10, "shows": "dry", "drain": "plugged"}
    leak = {
        "pours": {"a": {"when": "2026-03-07 09:00", "gallons": 5, "minutes": 15, "below": "dry"}},
        "fills": {
            "a": {
                "when": "2026-03-08 09:00",
                "plug": "below the joint",
                "drop": "1/16",
                "bowl": "1/16",
                "hours": 24,
                "below": "dry",
            }
        },
        "sprays": {
            f"z{n}": {"when": f"2026-03-09 10:{n}0", "zone": zone, **drained} for n, zone in enumerate(ZONES)
        },
        "not_here": {"roof or window": {"reason": "no window, ground floor, bath above none"}},
    }
    return merged(table, {"wood": {"leak": leak}})


def dried(table: dict[str, Any]) -> dict[str, Any]:
    """Two visits more; what was not read yet is read."""
    visit = {"by": "Ben", "air": "71 F", "humidity": 38, "wood": "70 F", "supply": "on"}
    visits = {
        "4": {"when": "2026-03-19 16:00", "shower": "not used", "rain": "no", **visit},
        "5": {"when": "2026-03-21 16:00", "shower": "not used", "rain": "no", **visit},
    }
    points: dict[str, Any] = {name: {"shown": {"4": four, "5": five}} for name, (four, five) in LATER.items()}
    points["R1-2"] = read("stud", "11", "10.5", wall="R", name="R1", height="2")
    for joist, along in (("J1", "8"), ("J2", "10"), ("J3", "9")):
        points[joist] = read("joist", "13", "12.5", name=joist, along=along)
    return merged(table, {"wood": {"visits": visits, "points": points}})


def floored(table: dict[str, Any]) -> dict[str, Any]:
    """The patch cut out, the soft joist sistered, the notched one answered for by an engineer."""
    gone = ("floor-6-6", "floor-6-18", "floor-18-6", "floor-18-18", "floor-30-6")
    sister = {
        "width": "1-1/2",
        "depth": "7-1/4",
        "species": "douglas fir-larch",
        "grade": "no 2",
        "side": "away from the wall",
        "fastened": "2026-03-11",
    }
    said = {"by": "P. Dorn", "when": "2026-03-12", "carries": "yes", "says": "letter 3"}
    floor = {
        "all_joists": {"grade": "no 2", "bearing": "2"},
        "joists": {"J1": {"sister": sister}, "J2": {"engineer": said}},
        "loads": {"on_top": {"second": {"what": "plywood", "thickness": "15/32"}}},
    }
    points = {name: {"out": "2026-03-10"} for name in gone}
    return merged(table, {"floor": floor, "wood": {"points": points}})


def covered(table: dict[str, Any]) -> dict[str, Any]:
    """Photos and the inspection, on days after all that was cut out, put in and mended."""
    photos = dict.fromkeys(("wall L", "wall B", "wall R", "floor"), "2026-03-21")
    cover = {
        "photos": photos,
        "inspection": "passed",
        "inspected": "2026-03-21",
        "inspector": "R. Lee",
    }
    return merged(table, {"wood": {"cover": cover}})


def put_back(table: dict[str, Any]) -> dict[str, Any]:
    """New plate where the corner's was cut out, and read twice."""
    plate = {**read("plate", "12", "11.5", wall="B", along="4"), "new": "2026-03-11"}
    return merged(table, {"wood": {"points": {"plate-B-4-new": plate}}})


def test_an_honest_job_opens_the_gate_and_each_step_takes_what_it_was_asked_for() -> None:
    job = example()
    assert kinds(job) >= {"source", "moisture", "new", "photo", "inspection"}
    for step, takes in ((ruled_out, "source"), (dried, "moisture"), (covered, "photo")):
        before, job = kinds(job), step(job)
        assert takes in before
        assert takes not in kinds(job)
    job = floored(job)
    assert kinds(job) == {"new"}
    (lacks,) = told(job).gate.missing
    assert lacks.where == "plate B at 4"
    assert "2026-03-05" in lacks.what
    done = told(put_back(job))
    assert done.gate.missing == ()
    assert done.gate.open
    whole = "\n".join(f"{key} = {as_toml(value)}" for key, value in put_back(job).items()).encode()
    assert plan(read_job(whole), today="2026-03-22").results["wood"].gate.open, "planned anew, it is as open"
    assert cover_line(done, Words("en")).startswith("It may be covered, as read on 2026-03-21 16:00.")
    assert cover_line(done, Words("es")).startswith("Se puede tapar")


def test_the_same_job_with_one_thing_untrue_stays_shut() -> None:
    """Independent: the job above is open; one fact is changed, and the gate names it by its kind."""
    done = put_back(covered(floored(dried(ruled_out(example())))))
    untrue: tuple[tuple[str, dict[str, Any]], ...] = (
        ("safety", {"safety": {"mold": {"corner": {"square_feet": 12}}}}),
        ("safety", {"safety": {"mold": {"corner": {"square_feet": 12, "gone": "2027-03-10"}}}}),
        ("safety", {"safety": {"water": "sewage"}}),
        ("safety", {"safety": {"asbestos": {"flooring": {"answer": "found"}}}}),
        ("stop", {"framing": {"studs": {"B1": {"soft": True}}}}),
        ("photo", {"wood": {"cover": {"photos": {"floor": "2025-03-01"}}}}),
        ("inspection", {"wood": {"cover": {"inspected": "2026-02-01"}}}),
        ("inspection", {"wood": {"cover": {"inspected": ""}}}),
        ("new", {"wood": {"points": {"plate-B-28": {"out": "2026-03-21"}}}}),
    )
    for kind, change in untrue:
        assert kinds(merged(done, change)) == {kind}, change
    gone = {"safety": {"mold": {"corner": {"square_feet": 12, "gone": "2026-03-10"}}}}
    assert kinds(merged(done, gone)) == set()
