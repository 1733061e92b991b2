"""What the tests of the record share: a small room, entries with short words, and random jobs."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from undertile.bounds import Bound
from undertile.job import Entry, Job, Pen
from undertile.job.model import job_shape
from undertile.job.settle import settle
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.lengths import Unit, parse_length

ROOM = """\
version = 2
name = "Corner shower"
unit = "in"
place = "upstairs"

[survey.walls.B]
nominal = "6-0"
heights = ["2", "48", "90"]

[survey.walls.B.studs]
B1 = { along = "8",  readings = ["6-0", "6-0",     "6-0"] }
B2 = { along = "24", readings = ["6-0", "5-13/16", ""] }
B3 = { along = "40", readings = ["6-0", "x",       "6-0"] }

[framing.studs]
B2 = { kind = "wood", bay = "pipe" }
"""

READING = "survey.walls.B.studs.B2.readings.48"
OTHER = "survey.walls.B.studs.B1.readings.48"


def said(
    key: str,
    value: str | None,
    fact: str = READING,
    supersedes: tuple[str, ...] = (),
    *,
    who: str = "Ann",
    time: str = "2031-05-02T09:00Z",
    device: str = "phone-1",
) -> Entry:
    """An entry with as little typing as a test can do with."""
    return Entry(key, fact, value, time, who, device, "", supersedes)


def pen() -> Pen:
    return Pen("phone-2", "Bo", "2031-05-03T10:00Z")


SETUP = (
    said("u", "in", "unit"),
    said("n", "6-0", "survey.walls.B.nominal"),
    said("h", '["2", "48", "90"]', "survey.walls.B.heights"),
    said("a1", "8", "survey.walls.B.studs.B1.along"),
    said("a2", "24", "survey.walls.B.studs.B2.along"),
)
"""Entries that make a wall with two studs, for readings to hang on."""

INCHES = (
    "3-15/16",
    "4' 2-1/2\"",
    "1203 mm",
    "120.3 cm",
    "3/8+",
    "½",
    "48",
    '7"',
    "0",
    "15/16",
    '3 15/16"',
    "-1/8",
)
MILLIMETRES = ("1203", "120.5", '48"', '3-15/16"', "1203 mm", "0", "0.5")
_NAMES = st.one_of(
    st.sampled_from(("w1", "back low", "ply 5.2 mm", 'a "b"', "it's", "ö.1", "0", "a.b", "item 3")),
    st.text(
        st.characters(min_codepoint=33, max_codepoint=0x24F, categories=("L", "N", "P", "S")),
        min_size=1,
        max_size=8,
    ),
)
_TEXTS = st.text(st.characters(codec="utf-8"), max_size=20)


@st.composite
def tables(draw: st.DrawFn) -> dict[str, Any]:
    """A random nested table that is a good job: every table and key of every stage may stand in it."""
    unit = draw(st.sampled_from(("in", "mm")))
    pool = INCHES if unit == "in" else MILLIMETRES
    walls = {wall: draw(_walls(wall, unit, pool)) for wall in draw(st.sets(st.sampled_from("LBR")))}
    studs = [(stud, wall) for wall, its in walls.items() for stud in its.get("studs", {})]
    out: dict[str, Any] = {"unit": unit, "name": draw(_TEXTS)}
    for key, node in job_shape().fields.items():
        if isinstance(node, Table | ByName):
            out[key] = draw(_filled(node, pool))
    survey, framing = out["survey"], out["framing"]
    survey["walls"] = walls
    for level in survey.get("levels", {}).values():
        level |= {"low": '2"', "high": '90"', "stud": draw(st.sampled_from(studs))[0] if studs else ""}
    for repeat in survey.get("repeats", {}).values():
        stud, wall = draw(st.sampled_from(studs)) if studs else ("", "")
        heights = walls[wall]["heights"] if wall else ['2"']
        repeat |= {"stud": stud, "height": draw(st.sampled_from(heights))}
    if not studs:
        survey.pop("levels", None)
        survey.pop("repeats", None)
    framing["studs"] = {
        stud: its for (stud, _), its in zip(studs, framing.get("studs", {}).values(), strict=False)
    }
    for stud in framing["studs"].values():
        stud.pop("notch", None)  # less than the depth
    if "prices" in framing:
        framing["prices"] = dict(zip(("sister", "knock"), (Decimal("0.01"), 0), strict=True))
    if framing.get("valve"):
        framing["valve"] |= {"window_low": '1"', "window_high": '2"'}
    draw(_read_again(out.get("recheck", {}), walls, [stud for stud, _ in studs]))
    pan = out["pan"].get("pan", {})
    for key, node in job_shape().fields["pan"].fields["pan"].fields.items():  # type: ignore[union-attr]
        if key in pan and isinstance(node, Leaf) and node.kind == "length":
            pan[key] = (
                ["60"]
                if node.many
                else '1"'
                if key == "play_high"
                else '1/2"'
                if key == "play_low"
                else '60"'
            )
    if "play_low" in pan or "play_high" in pan:
        pan |= {"play_low": '1/2"', "play_high": '1"'}
    if "outlet" in pan:
        pan["outlet"] = {"x": '30"', "y": '16"'}
    return out


@st.composite
def _read_again(
    draw: st.DrawFn, again: dict[str, Any], walls: dict[str, Any], studs: list[str]
) -> dict[str, Any]:
    """Only studs of the survey are read again, at heights of the wall's own."""
    for wall, its in again.get("walls", {}).items():
        surveyed = walls.get(wall, {"heights": [], "studs": {}})
        its["heights"] = surveyed["heights"]
        own = [{"readings": [draw(st.sampled_from(("", "x", '6"'))) for _ in its["heights"]]} for _ in "12"]
        its["studs"] = dict(zip(surveyed["studs"], own, strict=False))
    again["done"] = dict(zip(studs, again.get("done", {}).values(), strict=False))
    for laid in again.get("straightedges", {}).values():
        laid["stud"] = draw(st.sampled_from(("", *studs)))
    return again


@st.composite
def _walls(draw: st.DrawFn, wall: str, unit: str, pool: tuple[str, ...]) -> dict[str, Any]:
    choices = (
        ("2", "24", "4' 0\"", "72", "90", "1203 mm")
        if unit == "in"
        else ("50", "600", '48"', "1800", "2286.5")
    )
    heights = draw(st.lists(st.sampled_from(choices), unique=True, min_size=1))
    reading = st.sampled_from((*pool, "", "x", *(("6-0",) if unit == "in" else ())))
    studs = {}
    for number in range(1, draw(st.integers(0, 4)) + 1):
        stud: dict[str, Any] = {"along": f'{16 * number}"'}
        for key in ("readings", "arris"):
            if draw(st.booleans()):
                stud[key] = [draw(reading) for _ in heights]
        studs[f"{wall}{number}"] = stud
    nominal = draw(st.sampled_from([text for text in pool if not text.startswith("-")]))
    return {"nominal": nominal, "heights": heights, "studs": studs}


@st.composite
def _filled(draw: st.DrawFn, node: Node, pool: tuple[str, ...]) -> Any:
    """Any value that a node of the shape can hold."""
    if isinstance(node, Table):
        keys = [key for key in node.fields if key in node.required or draw(st.booleans())]
        return {key: draw(_filled(node.fields[key], pool)) for key in keys}
    if isinstance(node, ByName):
        names = st.sampled_from(node.names) if node.names else _NAMES
        if node.by_height:  # a face read nowhere is no fact
            heights = st.sampled_from(('2"', "4' 0\"", "1203 mm"))
            return draw(st.dictionaries(heights, st.sampled_from((*pool, "x")), min_size=1, max_size=3))
        return draw(st.dictionaries(names, _filled(node.item, pool), max_size=2))
    if node.many:
        return draw(st.lists(_leaf(node, pool), max_size=3))
    return draw(_leaf(node, pool))


def _leaf(node: Leaf, pool: tuple[str, ...]) -> st.SearchStrategy[Any]:
    limits = dict(node.limits)
    texts = _TEXTS.filter(bool) if limits.get("minLength") else _TEXTS
    if node.examples:
        texts = st.sampled_from(node.examples)
    most = limits.get("maximum", limits.get("exclusiveMaximum", 100_000) - 1)
    least = limits.get("minimum", 0)
    return {
        "text": texts,
        "choice": st.sampled_from(node.choices or ("",)),
        "flag": st.booleans(),
        "whole": st.integers(max(1, least), min(9999, most)),
        "number": st.decimals(max(Decimal("0.01"), Decimal(least)), min(99999, most), places=2),
        "length": st.sampled_from(_possible(pool, node.bound)),
        "reading": st.sampled_from((*pool, "", "x")),
    }[node.kind]


def _possible(pool: tuple[str, ...], bound: Bound | None) -> list[str]:
    """The texts of a pool that can stand where a bound holds."""
    unit: Unit = "in" if pool == INCHES else "mm"
    return [text for text in pool if bound is None or bound.holds(parse_length(text, unit).inches)]


def job_of(table: dict[str, Any]) -> Job:
    """The job a random table stands for."""
    job, troubles = settle(table, table["unit"])
    assert job is not None, [trouble.line() for trouble in troubles]
    return job


def jobs() -> st.SearchStrategy[Job]:
    """Random jobs."""
    return tables().map(job_of)
