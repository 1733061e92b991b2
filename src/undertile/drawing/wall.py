"""One wall in elevation, as a person stands before it: studs, heights, what is written on each stud."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from undertile.drawing import tags
from undertile.drawing.elevation import (
    RIGHT,
    Elevation,
    Stretch,
    bars_on,
    column,
    extent,
    late,
    left_room,
    measure_on,
    numbered,
    top_of,
)
from undertile.drawing.sheet import (
    BODY,
    HEIGHT,
    SCALES,
    SMALL,
    WIDTH,
    Head,
    Sheet,
    Sketch,
    coarser,
    scale_for,
)
from undertile.drawing.walldata import Room, StudView, WallView, doubt_words, wall_view
from undertile.framing.plan import Plane
from undertile.lengths import MM

LEAST_AROUND = 0.8
"""What names and dimensions take over and under a wall, at the least. [in of paper]"""


def wall_sheets(room: Room, only: str = "") -> list[Sheet]:
    """A sheet for each wall with studs, or for the one asked for; more where they do not fit on one."""
    out = []
    for name in room.walls:
        if only not in ("", name):
            continue
        view = wall_view(room, name)
        if view.studs:
            out += [_sheet(room, view, stretch) for stretch in _stretches(room, view)]
    return out


def _stretches(room: Room, view: WallView) -> Iterator[Stretch]:
    """The wall cut into as few stretches as there have to be."""
    probe = measure_on(room)
    columns = [column(room, probe, stud, len(bars_on(room, stud, 1.0))) for stud in view.studs]
    fits = WIDTH - left_room(room, view) - RIGHT
    count = 1
    while True:
        size = -(-len(view.studs) // count)
        parts = [range(k, min(k + size, len(view.studs))) for k in range(0, len(view.studs), size)]
        if size == 1 or all(
            sum(columns[i] for i in part) <= fits and _list_fits(room, view, part) for part in parts
        ):
            break
        count += 1
    for number, part in enumerate(parts, 1):
        studs = tuple(view.studs[i] for i in part)
        low = float("-inf") if number == 1 else _middle(view.studs[part[0] - 1], studs[0])
        high = float("inf") if number == len(parts) else _middle(studs[-1], view.studs[part[-1] + 1])
        spots = tuple(spot for spot in view.spots if low <= float(spot.along) < high)
        yield Stretch(studs, spots, number, len(parts), number == 1, number == len(parts))


def _list_fits(room: Room, view: WallView, part: range) -> bool:
    """Whether the list under the drawing leaves half of the page to the drawing."""
    stretch = Stretch(tuple(view.studs[i] for i in part), view.spots, 1, 1, True, True)
    return -_foot(room, view, stretch, measure_on(room), 0.0) <= HEIGHT * 0.45


def _middle(one: StudView, two: StudView) -> float:
    return float(one.along + two.along) / 2


def _sheet(room: Room, view: WallView, stretch: Stretch) -> Sheet:
    words = room.words
    title = words(f"wall {view.name}")
    key = f"wall-{view.name}"
    if stretch.of > 1:
        first, last = stretch.studs[0].name, stretch.studs[-1].name
        title = f"{title}, {words('studs', first=first, last=last, count=len(view.studs))}"
        key = f"{key}-{stretch.number}"
    probe = measure_on(room)
    head = _head(room, view, title)
    around = probe_height(probe, head) - _foot(room, view, stretch, probe, 0.0)
    sizes = extent(view, stretch)
    # The wall has at most what head and list leave; what stands over and under it is found by drawing.
    fits = (WIDTH - left_room(room, view) - RIGHT, max(1.5, HEIGHT - around - LEAST_AROUND))
    found = scale_for(sizes[1] - sizes[0], top_of(view), fits, room.unit)
    times, name = found or SCALES[room.unit][-1]
    while True:
        drawn = Elevation(room, view, stretch, times)
        below = drawn.draw()
        bottom = _foot(room, view, stretch, drawn.sketch, below)
        page_top = drawn.sketch.head(drawn.above, replace(head, scale=words("scale", scale=name)))
        scene = drawn.sketch.scene(f"{room.job.name}: {title}".strip(": "), bottom, page_top)
        smaller = coarser(times, room.unit)
        if scene.paper[1] <= HEIGHT + 1e-9 or smaller is None:
            return Sheet(key, title, scene)
        times, name = smaller


def probe_height(probe: Sketch, head: Head) -> float:
    """How tall a head is. [in of paper]"""
    return probe.head(0.0, head)


def _head(room: Room, view: WallView, title: str) -> Head:
    words = room.words
    says = []
    plane = room.plan.planes.get(view.name)
    hold = words("hold")
    if room.doubts and view.nominal is not None:
        nominal = room.amount(view.nominal)
        hold = f"{words('doubt head', places=words.places(room.doubts), nominal=nominal)} {hold}"
    elif room.as_if and view.planned:
        hold = f"{room.warning(amounts=True)} {hold}"
    if not room.doubts and view.planned and plane is not None and view.nominal is not None:
        says.append(plane_words(room, view, plane))
        if room.plan.state == "open":
            says.append(words("open bound"))
    elif not any(any(stud.read) for stud in view.studs) or view.nominal is None:
        says.append(words("nothing read"))
    elif not room.doubts:
        says.append(words("no plan", nominal=room.amount(view.nominal)))
    job = room.job
    return Head(title, job.name, job.place, words("scale", scale="1:1200"), hold, tuple(says))


def plane_words(room: Room, view: WallView, plane: Plane) -> str:
    """Where the faces end up, as readings from the reference line."""
    words = room.words
    nominal = view.nominal or Fraction(0)
    ends = {
        stud.name: room.amount(nominal - plane.at(stud.along, Fraction(0)))
        for stud in (view.studs[0], view.studs[-1])
    }
    if len(set(ends.values())) == 1:
        where = next(iter(ends.values()))
    else:
        where = words("and").join(words("at stud", amount=each, stud=name) for name, each in ends.items())
    lean = words("plumb")
    if plane.lean:
        over, said = (Fraction(96), "8 ft") if room.unit == "in" else (2400 * MM, "2.4 m")
        lean = words(
            "lean in" if plane.lean > 0 else "lean back",
            amount=room.amount(abs(plane.lean) * over),
            over=said,
        )
    step = words("step", amount=room.amount(plane.step)) if plane.step else ""
    return words("planes end", where=where, lean=lean, step=step)


def _foot(room: Room, view: WallView, stretch: Stretch, sketch: Sketch, y: float) -> float:
    """The list of what is done, of what stands in front, and the key; gives the y below. [in]"""
    words = room.words
    y -= sketch.paper(0.06)
    for stud in stretch.studs:
        text = tags.recipe_words(stud, words, room.unit, late(room, stud))
        if text:
            y = sketch.entry(y, stud.name, text, BODY)
    for number, spot in numbered(stretch.spots):
        y = sketch.entry(y, f"({number})", spot.text, SMALL)
    y -= sketch.paper(0.03)
    return tags.draw_key(sketch, y, _key(room, view, stretch))


def _key(room: Room, view: WallView, stretch: Stretch) -> list[tags.KeyEntry]:
    words = room.words
    here = replace(view, studs=stretch.studs)
    found: list[tags.KeyEntry] = [
        (sign, words(f"key {sign}")) for sign in ("add", "take", "as it is") if sign in here.signs
    ]
    recipes = [stud.member.recipe for stud in stretch.studs if stud.member is not None]
    if any(recipe.passes for recipe in recipes):
        found.append(("planed", words("key planed")))
    waiting = [piece for stud in stretch.studs for piece in late(room, stud)]
    if sum(len(recipe.pieces) for recipe in recipes) > len(waiting):
        found.append(("strip", words("key strip")))
    if waiting:
        found.append(("wait", words("key wait")))
    if any(set(recipe.families) & {"sister", "replace", "channel", "wet bed"} for recipe in recipes):
        found.append(("work", words("key work")))
    if any(stud.shim is not None for stud in stretch.studs):
        found.append(("shim", words("key shim")))
    found += [("", text) for text in doubt_words(here, words).values()]
    if "move" in here.signs:
        found.append(("", words("key move")))
    if "new" in here.signs:
        found.append(("", words("key new")))
    if "blank" in here.signs:
        found.append(("blank", words("key blank")))
    if stretch.opens:
        found.append(("corner", words("key corner")))
    if any(spot.height is None for spot in stretch.spots):
        found.append(("edge", words("key edge")))
    found.append(
        ("", words("key width", width=room.amount(tags.STUD_WIDE if room.unit == "in" else 38 * MM)))
    )
    return found
