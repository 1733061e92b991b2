"""Jobs for the drawings' tests: the fattest, the smallest, and what lies between, planned by hand."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from undertile import pan, survey
from undertile.cli.what_if import as_if
from undertile.framing.plan import FramingPlan, MemberPlan, Piece, Plane, Recipe
from undertile.job import Job, Rebuild, plan, read_job

F = Fraction
EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAME = "Baño 🚿🛁 de la señora Wetterstrand-Fotheringay, שיפוץ חדר אמבטיה, تجديد الحمام, 浴室改修工事 " * 2
RECIPES: tuple[tuple[tuple[str, ...], int, bool], ...] = (
    ((), 0, False),
    (("plane",), 4, False),
    (("strip",), 0, True),
    (("plane", "strip"), 2, False),
    (("sister",), 0, False),
    (("plane", "sister"), 8, False),
    (("replace",), 0, False),
    (("taper",), 0, False),
    (("wet bed",), 0, False),
    (("knock over",), 0, False),
    (("channel",), 0, False),
    ((), 0, True),
)
"""Families, passes, shim: every treatment of the contract (convention 4.3), in turn."""


MENDED = {"old-alcove": ("L3 at 54 = 5-7/8", "B4 at 36 = 6-1/4")}
"""The slips planted in a bundled job, as they are settled."""


@cache
def example(name: str) -> Rebuild:
    """A bundled job, planned; the old alcove with its slips mended."""
    return plan(as_if(read_job(EXAMPLES / f"{name}.toml"), MENDED.get(name, ())))


@cache
def doubtful() -> Rebuild:
    """The old alcove as typed, two readings in doubt, with the plan of the mended one."""
    typed = read_job(EXAMPLES / "old-alcove.toml")
    made = example("old-alcove")
    found = survey.STAGE.run(facts_of(typed), {})
    return replace(made, job=typed, results={**made.results, "survey": found})


def job(text: str) -> Job:
    """A job from the text of its file."""
    return read_job(text.encode("utf-8"))


def facts_of(a_job: Job) -> dict[str, Any]:
    """What the stages are given."""
    return {"unit": a_job.unit, **a_job.facts()}


def rebuild(a_job: Job, framing: FramingPlan | None = None) -> Rebuild:
    """The job with its survey, a plan made by hand (None = no plan), and the pan's consequences."""
    facts = facts_of(a_job)
    results: dict[str, Any] = {"survey": survey.STAGE.run(facts, {})}
    results["framing"] = framing if framing is not None else FramingPlan("none")
    results["demands"] = pan.STAGE.demands(facts, results) if pan.STAGE.demands else ()
    results["pan"] = pan.STAGE.run(facts, results)
    return Rebuild(a_job, results)


def wall_text(name: str, alongs: Sequence[str], heights: Sequence[str], reading: str, nominal: str) -> str:
    """A wall's table; every reading the same."""
    cells = ", ".join(f'"{height}"' for height in heights)
    rows = [f'[survey.walls.{name}]\nnominal = "{nominal}"\nheights = [{cells}]\ntop = "{heights[-1]}"']
    rows.append(f"[survey.walls.{name}.studs]")
    readings = ", ".join([f'"{reading}"'] * len(heights))
    for i, along in enumerate(alongs, 1):
        rows.append(f'{name}{i} = {{ along = "{along}", readings = [{readings}] }}')
    return "\n".join(rows)


def member(wall: str, i: int, along: Fraction, heights: tuple[Fraction, ...], unit: str) -> MemberPlan:
    """A stud with the i-th treatment, and amounts that are wide to write."""
    families, passes, shim = RECIPES[i % len(RECIPES)]
    count = len(heights)
    depth = (F(3, 16),) * count if passes else ()
    odd = F(11, 32) if unit == "in" else F(175, 508)  # 8.75 mm
    pieces = (
        (
            Piece("ply 5.2 mm", F(26, 127), 0, count - 1),
            Piece("a strip of hardboard with a long name 1/8", F(1, 8), 0, count // 2),
            Piece("card 1/16", F(1, 16), count - 1, count - 1),
        )
        if "strip" in families
        else ()
    )
    recipe = Recipe(
        families,
        passes,
        depth,
        pieces,
        taper=(F(1, 8), F(3, 4)) if "taper" in families else None,
        knock=F(3, 8) if "knock over" in families else None,
        flange_shim=shim,
    )
    offsets = (F(0),) * count
    change = {"plane": -F(3, 16), "": F(0)}.get(" ".join(families), odd if families else F(0))
    if "strip" in families and passes:
        change = odd - F(3, 16)
    finished = tuple(o + change for o in offsets)
    target = tuple(f + (F(1, 16) if shim else F(0)) for f in finished)
    return MemberPlan(
        wall, f"{wall}{i + 1}", along, heights, offsets, finished, target, recipe, F(15), F(1), ("why",)
    )


@cache
def fattest(unit: str = "in", twins: bool = False) -> Rebuild:
    """Three walls, 40 studs on the back one, six heights, long names, every treatment, everything in front.

    ``twins``: every second stud stands right beside the one before.
    """
    inch = unit == "in"
    heights = ("2", "18-1/4", "36-1/2", "54-3/4", "72-1/4", "90-1/2") if inch else (
        "51", "463.5", "927.5", "1390.5", "1835.5", "2298.5"
    )  # fmt: skip
    step = 16 if inch else 406
    close = F(3, 2) if inch else F(38)

    def place(i: int) -> Fraction:
        return (i // 2 * 2 * step + i % 2 * close if twins else i * step) + (2 if inch else 50)

    def text(value: Fraction) -> str:
        whole, rest = divmod(value, 1)
        return f"{whole}-{rest}" if rest else str(whole)

    nominal, read = ("6-0", "6-0") if inch else ("150", "150")
    alongs = [place(i) for i in range(40)]
    sides = [place(i) for i in range(4)]
    span = "640" if inch else "16000"
    walls = [
        wall_text("B", [text(F(a)) for a in alongs], heights, read, nominal),
        wall_text("L", [text(F(a)) for a in sides], heights, read, nominal),
        wall_text("R", [text(F(a)) for a in sides], heights, read, nominal),
    ]
    services = "\n".join(
        f'[framing.studs.B{i}]\nbay = "pipe"\n[framing.studs.B{i}.services.a-very-long-name-of-a-pipe]\n'
        f'height = "{heights[2]}"\nclear = "{"1-3/8" if inch else "35"}"\nwhat = "pipe"'
        for i in range(1, 41, 3)
    )
    valve_window = ('"2-1/8"', '"3-1/8"') if inch else ('"55"', '"80"')
    pan_size = ('"600"', '"32"', '"4"', '"3/16"') if inch else ('"15000"', '"800"', '"100"', '"5"')
    body = f"""version = 2
name = "{NAME}"
place = "{NAME}"
unit = "{unit}"
{walls[0]}
{walls[1]}
{walls[2]}
[survey.widths.low]
depth = "{"4" if inch else "100"}"
height = "{heights[0]}"
reading = "{span}"
[framing.walls.B]
bay = "clear"
{services}
[framing.things.the-hub-of-the-old-stack-that-nobody-may-move]
wall = "B"
along = "{text(F(place(4)) + 4)}"
height = "{heights[1]}"
reading = "{"5-5/8" if inch else "140"}"
what = "stack"
[framing.valve]
wall = "L"
along = "{text(F(sides[1]))}"
height = "{heights[2]}"
reading = "{"7" if inch else "180"}"
window_low = {valve_window[0]}
window_high = {valve_window[1]}
[pan.pan]
width = {pan_size[0]}
depth = {pan_size[1]}
flange_height = {pan_size[2]}
flange_thickness = {pan_size[3]}
detail = "laps"
outlet = {{ x = "{"300" if inch else "7500"}", y = "{"16" if inch else "400"}" }}
[pan.drain]
x = "{"300" if inch else "7500"}"
y = "{"16" if inch else "400"}"
float_x = "{"1/4" if inch else "6"}"
float_y = "{"1/4" if inch else "6"}"
"""
    a_job = job(body)
    found = rebuild(a_job)
    members = []
    for wall in found.results["survey"].walls:
        for i, stud in enumerate(wall.studs):
            members.append(member(wall.name, i, stud.along, wall.heights, unit))
    planes = {wall: Plane(wall, F(1, 16), F(0), F(0), F(3, 16)) for wall in "BLR"}
    framing = FramingPlan("open", planes, tuple(members), cost=F(1), bound=F(0))
    made = rebuild(a_job, framing)
    return replace(made, results={**made.results, "survey": replace(made.results["survey"], suspects=())})


SMALLEST = """version = 2
name = ""
unit = "in"
[survey.walls.B]
nominal = "6-0"
heights = ["2", "48"]
[survey.walls.B.studs]
B1 = { along = "8", readings = ["", ""] }
"""
"""One stud, one wall, no pan, nothing measured."""


def smallest() -> Rebuild:
    """The smallest job there is something to draw for."""
    return rebuild(job(SMALLEST))
