"""How long the papers of a job take once it is planned, and how many bytes they are.

Rooms are alcoves of 13 studs with six heights, readings of 6 in and a bow each, every draw from a seed. A
floor of rooms is their papers one after the other. typst keeps what it has laid out before: ``first_seconds``
is the first time of each sheet in this process, ``seconds`` the median. There is no peer.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from statistics import median
from time import perf_counter
from typing import Any

from undertile.job import Rebuild, plan, read_job
from undertile.packet import crew_sheet, survey_form, to_pdf
from undertile.packet.content import CrewSheet, SurveyForm
from undertile.packet.drawings import crew_drawings
from undertile.packet.pdf import fonts, pages

SEED = 9000
HEIGHTS = (2, 18, 36, 54, 72, 90)
WALLS = {"L": (2, 18, 34, 36), "B": (2, 16, 30, 44, 58), "R": (2, 18, 34, 36)}
"""Thirteen studs, by where they stand along their wall. [in]"""
TIMES = 5


def case(rooms: int) -> Iterator[dict[str, Any]]:
    """All papers of one room, one page alone, and the papers of a floor of rooms."""
    fonts()
    rng = random.Random(SEED)
    floor = [planned(rng) for _ in range(max(1, rooms))]
    yield _row("papers of a room", "13 studs", [_whole(floor[0]) for _ in range(TIMES)])
    page = crew_sheet(plan(read_job(b'version = 2\nunit = "in"\n')))
    yield _row("one page", "a sheet without a plan", [_timed([(page, {})]) for _ in range(TIMES)])
    yield _row("papers of a floor", f"{13 * len(floor)} studs", [_sum([_whole(each) for each in floor])])


def planned(rng: random.Random) -> Rebuild:
    """A room of 13 studs, planned."""
    lines = ['version = 2\nunit = "in"\nname = "Room"']
    for wall, along in WALLS.items():
        heights = ", ".join(f'"{z}"' for z in HEIGHTS)
        lines.append(f'[survey.walls.{wall}]\nnominal = "6-0"\nheights = [{heights}]\ntop = "94"')
        lines.append(f"[survey.walls.{wall}.studs]")
        for n, at in enumerate(along, 1):
            bow = rng.choice((-4, -2, -1, 0, 0, 1, 2, 3))
            sixteenths = [96 + round(bow * (1 - abs(z - 46) / 46)) + rng.choice((0, 0, 1)) for z in HEIGHTS]
            readings = ", ".join(f'"{whole // 16}-{whole % 16}/16"' for whole in sixteenths)
            lines.append(f'{wall}{n} = {{ along = "{at}", readings = [{readings}] }}')
        lines.append(f'[framing.walls.{wall}]\nkind = "wood"\nbearing = "no"\nbay = "clear"')
    lines.append('[framing.stock]\n"ply 1/16" = { thickness = "1/16" }\n"ply 1/8" = { thickness = "1/8" }')
    lines.append('"ply 7/32" = { thickness = "7/32" }\n"ply 11/32" = { thickness = "11/32" }')
    lines.append('[framing.finish]\nboard = "1/2"')
    return plan(read_job("\n".join(lines).encode()))


Made = tuple[float, int, int]
"""Seconds, bytes, pages."""


def _whole(rebuild: Rebuild) -> Made:
    """Crew sheet with its drawings, and survey form, from the plan on."""
    start = perf_counter()
    crew, form = crew_sheet(rebuild), survey_form(rebuild.job)
    drawings = crew_drawings(rebuild) if crew.state == "ready" else {}
    spent = perf_counter() - start
    seconds, size, count = _timed([(crew, drawings), (form, {})])
    return seconds + spent, size, count


def _timed(sheets: Sequence[tuple[CrewSheet | SurveyForm, dict[str, str]]]) -> Made:
    start = perf_counter()
    made = [to_pdf(sheet, drawings) for sheet, drawings in sheets]
    return perf_counter() - start, sum(map(len, made)), sum(map(pages, made))


def _sum(made: Sequence[Made]) -> Made:
    return sum(m[0] for m in made), sum(m[1] for m in made), sum(m[2] for m in made)


def _row(name: str, size: str, made: Sequence[Made]) -> dict[str, Any]:
    seconds = median(m[0] for m in made)
    _, count_bytes, count_pages = made[0]
    return {
        "name": name,
        "size": size,
        "seconds": seconds,
        "peer": None,
        "peer_seconds": None,
        "ratio": None,
        "equal": None,
        "first_seconds": made[0][0],
        "pages": count_pages,
        "seconds_a_page": seconds / count_pages,
        "bytes": count_bytes,
    }
