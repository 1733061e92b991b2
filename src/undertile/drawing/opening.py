"""The opening in plan with the pan in it: what is between them at each depth, before and after the work."""

from __future__ import annotations

from fractions import Fraction

from undertile.drawing.placing import free_spot, spread
from undertile.drawing.plangeometry import Enlarged, Face, PlanView, drain_x, plan_view, times_for
from undertile.drawing.playtable import PlayRow, draw_foot, opening_at, play_rows
from undertile.drawing.scene import Box, Circle, Dim, Hatch, Line, Point, Poly, Scene, Strokes, Text
from undertile.drawing.sheet import BODY, LEADING, SMALL, WIDTH, Head, Sheet, Sketch, scale_for
from undertile.drawing.walldata import Room
from undertile.pan.set_place import set_place

STUB = 3.0
"""How deep studs are drawn; their depth is cut off. [in]"""
HALF = 0.75
"""Half of a drawn stud. [in]"""


def opening_sheet(room: Room) -> Sheet | None:
    """The plan, None when no wall has a stud."""
    view = plan_view(room)
    if view is None:
        return None
    title = room.words("opening")
    times = times_for(view)
    drawn = _Plan(room, view, times).scene(title)
    true_scene = _Plan(room, view, 1).scene(title) if times != 1 else None
    return Sheet("opening", title, drawn, true_scene)


class _Plan:
    """The plan at one enlargement."""

    def __init__(self, room: Room, view: PlanView, times: int) -> None:
        self.room, self.view, self.at = room, view, Enlarged(view, times)
        self.rows = play_rows(room, view)
        sides = [float(f.along) for wall in "LR" for f in view.walls.get(wall, ())]
        backs = [float(f.along) for f in view.walls.get("B", ())]
        size = view.size
        reach = times * view.largest() + STUB
        x, y = (float(view.place[0]), float(view.place[1])) if view.place is not None else (0.0, 0.0)
        wide, deep = (float(size[0]), float(size[1])) if size is not None else (0.0, 0.0)
        low = min([0.0, x, *backs]) - reach
        high = max([x + wide, *backs, *([float(view.width)] if "R" in view.walls else [])]) + reach
        self.deep = max([y + deep, *sides]) + HALF + 2
        self.extent = (low, high, -self.deep, reach)
        margin = 0.5
        found = scale_for(high - low, self.deep + reach, (WIDTH - 2 * margin, 4.6), room.unit)
        self.scale, self.scale_name = found or (1200, "1:1200")
        middle = (low + high) / 2
        self.sketch = Sketch(self.scale, room.unit, room.words, middle - WIDTH * self.scale / 2)
        self.taken: list[Box] = []
        self.named: list[Text] = []

    def scene(self, title: str) -> Scene:
        """Draw it all."""
        self._planes()
        for wall, faces in self.view.walls.items():
            for face in faces:
                self._stud(wall, face)
        self._pan()
        spots = self._drain()
        for wall, faces in self.view.walls.items():
            self._names(wall, faces)
        self.sketch.add(*self.named)
        self._drain_words(spots)
        bottom = draw_foot(self.sketch, self.room, self.view, self.rows, -self.deep - self.sketch.paper(0.5))
        job, words = self.room.job, self.room.words
        heights = sorted({self.view.built.seat_top(wall) for wall in self.view.walls})
        says = [words("plan height", height=words("and").join(self.room.amount(h) for h in heights))]
        says.append(words("gaps drawn", times=self.at.times) if self.at.times != 1 else words("gaps true"))
        says += self._seat_words()
        head = Head(
            title,
            job.name,
            job.place,
            words("scale", scale=self.scale_name),
            self.room.warning(amounts=True),
            tuple(says),
        )
        top = self.sketch.head(self.extent[3] + self.sketch.paper(0.3), head)
        return self.sketch.scene(f"{job.name}: {title}".strip(": "), bottom, top)

    def _seat_words(self) -> list[str]:
        words, seat, built = self.room.words, self.view.seat, self.view.built
        set_at = set_place(built) if self.view.width_known else None
        out = []
        if self.view.size is None:
            out.append(words("no pan"))
        elif seat == "no drop":
            out.append(words("no drop"))
        elif seat == "centred":
            out.append(words("centred"))
        elif seat == "free" and set_at is not None:
            off = {"left": built.near(set_at.left), "right": built.near(set_at.right)}
            out.append(words("set off", **off))
        elif seat.startswith(("pushed", "side")):
            key = "pushed" if seat.startswith("pushed") else "one side"
            out.append(words(key, wall=words(f"wall {seat[-1]}").lower()))
        if "R" in self.view.walls and not self.view.width_known:
            out.append(words("no width"))
        return out

    def _ends(self, wall: str) -> tuple[Fraction, Fraction]:
        """From where to where a wall's lines run."""
        faces = self.view.walls[wall]
        far = faces[-1].along + 1
        if wall == "B":
            return Fraction(0), max(far, self.view.width if "R" in self.view.walls else far)
        depth = self.view.size[1] if self.view.size is not None else Fraction(0)
        return Fraction(0), max(far, depth)

    def _planes(self) -> None:
        """Where the faces shall end up; the nominal planes where there is no plan."""
        for wall in self.view.walls:
            low, high = self._ends(wall)
            ends = []
            for along in (low, high):
                across = self.view.plane_at(wall, along)
                if across is None:
                    across = self.view.line(wall, along)
                ends.append(self.at.spot(wall, along, across))
            layer = "PLANE" if self.view.built.plane(wall) is not None else "HEIGHT"
            self.sketch.add(Line(layer, ends[0], ends[1]))

    def _stud(self, wall: str, face: Face) -> None:
        """The stud as it will be, what goes on or comes off, and its shim."""
        after = face.after if face.after is not None else face.before
        if after is None:
            after = Fraction(0)
            layer = "STUD-BEFORE"
        else:
            layer = "STUD"
        front = self._edge(wall, face, after)
        wood = after
        if face.before is not None and face.after is not None and face.put_on:
            wood = face.before - face.cut
        edge = self._edge(wall, face, wood)
        rear = [self.at.outward(wall, point, STUB) for point in edge]
        self.sketch.add(Poly(layer, (rear[0], *edge, rear[1])))
        if wood < after:
            self.sketch.add(Poly("STRIP", (*edge, *reversed(front)), closed=True, fill=0.82))
        if face.before is not None and face.after is not None and face.before != wood:
            old = self._edge(wall, face, face.before)
            ring = (*edge, *reversed(old))
            self.sketch.add(Poly("STUD-BEFORE", ring, closed=True))
            if face.cut:
                self.sketch.add(Hatch("TAKE-OFF", ring, 45.0, self.sketch.paper(0.04), cross=True))
        if face.shim and face.after is not None and face.plane is not None:
            plane = self._edge(wall, face, face.plane)
            self.sketch.add(Poly("SHIM", (*front, *reversed(plane)), closed=True, fill=0.25))

    def _edge(self, wall: str, face: Face, offset: Fraction) -> tuple[Point, Point]:
        """Both ends of a stud's face that stands ``offset`` proud of the nominal."""
        half = Fraction(3, 4)
        across = self.view.across(wall, face.along, offset)
        return self.at.spot(wall, face.along - half, across), self.at.spot(wall, face.along + half, across)

    def _pan(self) -> None:
        view, size = self.view, self.view.size
        if view.place is None or size is None:
            return
        x, y = view.place
        turn = view.built.turn("B") if "B" in view.walls else Fraction(0)
        left = [self.at.spot("L", y + d, x - turn * d) for d in (Fraction(0), size[1])]
        right = [self.at.spot("R", y + d, x + size[0] - turn * d) for d in (Fraction(0), size[1])]
        backs = [self.at.spot("B", along, y + turn * (along - x))[1] for along in (x, x + size[0])]
        fronts = [back - float(size[1]) for back in backs]
        corners = (
            (left[0][0], backs[0]),
            (right[0][0], backs[1]),
            (right[1][0], fronts[1]),
            (left[1][0], fronts[0]),
        )
        self.sketch.add(Poly("PAN", corners, closed=True))
        threshold = view.built.pan.pan.threshold
        if threshold is not None and threshold.inches:
            up = float(threshold.inches)
            self.sketch.add(Line("PAN", (corners[3][0], fronts[0] + up), (corners[2][0], fronts[1] + up)))
        if view.built.alcove and "B" in view.walls:
            self._diagonals()
        self._depths()
        self._pan_sizes(x, y, size)

    def _pan_sizes(self, x: Fraction, y: Fraction, size: tuple[Fraction, Fraction]) -> None:
        """Width under the plan, depth inside it."""
        sketch, built = self.sketch, self.view.built
        level = -self.deep - sketch.paper(0.17)
        low, high = (float(x), -float(y + size[1])), (float(x + size[0]), -float(y + size[1]))
        words = f"{self.room.words('pan')} {built.up(size[0])}"
        sketch.add(Dim(low, high, "x", level, words, sketch.pt(SMALL)))
        inner = float(x + size[0]) - sketch.paper(0.35)
        back, front = (inner, -float(y)), (inner, -float(y + size[1]))
        text = f"{self.room.words('pan')} {built.up(size[1])}"
        shown = sketch.wide(text, SMALL) < float(size[1]) * 0.8
        sketch.add(Dim(back, front, "y", inner, text, sketch.pt(SMALL), shown))

    def _diagonals(self) -> None:
        """From each back corner of the planes to the opposite front mark."""
        size = self.view.size
        planes = [self.view.plane_at(wall, Fraction(0)) for wall in "LBR"]
        if size is None or any(each is None for each in planes):
            return
        for one, other in (("L", "R"), ("R", "L")):
            start_across = self.view.plane_at(one, Fraction(0)) or Fraction(0)
            end_across = self.view.plane_at(other, size[1]) or Fraction(0)
            back = self.view.plane_at("B", start_across) or Fraction(0)
            start = self.at.spot(one, back, start_across)
            depth = self.at.spot("B", start_across, back)[1]
            end = self.at.spot(other, size[1], end_across)
            self.sketch.add(Line("DIAGONAL", (start[0], depth), end))

    def _depths(self) -> None:
        """A line across at each depth asked, with the play there."""
        view, sketch, words = self.view, self.sketch, self.room.words
        if view.size is None or not view.built.alcove:
            return
        by_depth: dict[Fraction, list[PlayRow]] = {}
        for row in self.rows:
            by_depth.setdefault(row.depth, []).append(row)
        depths = sorted(by_depth)
        tall = sketch.pt(BODY) * 1.5
        y = float(view.place[1]) if view.place is not None else 0.0
        threshold = view.built.pan.pan.threshold
        front = y + float(view.size[1]) - (float(threshold.inches) if threshold is not None else 0.0)
        sizes = [tall] * len(depths)
        wanted = [float(depth) for depth in depths]
        places = (
            spread(wanted, sizes, y + sketch.pt(3), front - sketch.pt(2)) or spread(wanted, sizes) or wanted
        )
        texts = {
            depth: words(
                "play here", at=self.room.amount(depth), amount=", ".join(self._plays(by_depth[depth]))
            )
            for depth in depths
        }
        for depth, level in zip(depths, places, strict=True):
            ends = []
            for wall in "LR":
                across = view.plane_at(wall, depth)
                across = view.line(wall, depth) if across is None else across
                ends.append(self.at.spot(wall, depth, across))
            opening = opening_at(view, depth)
            if self.at.times == 1 and opening is not None:
                y = -float(depth)
                sketch.add(Dim(ends[0], ends[1], "x", y, view.built.down(opening), sketch.pt(SMALL), False))
            else:
                tick = sketch.paper(0.05)
                ticks = tuple(((px - tick, py - tick), (px + tick, py + tick)) for px, py in ends)
                sketch.add(Strokes("DIMENSION", ((ends[0], ends[1]), *ticks)))
            self._play_words(texts[depth], float(depth), level, tall)

    def _plays(self, rows: list[PlayRow]) -> list[str]:
        """Play at one depth, each figure once."""
        return list(dict.fromkeys(row.play or self.room.words("not shown") for row in rows))

    def _play_words(self, text: str, depth: float, level: float, tall: float) -> None:
        """The play at a depth, on its line or near it, clear of drain and dimensions; none where there is no
        room at all: the table under the plan has it."""
        sketch, view = self.sketch, self.view
        if view.size is None or view.place is None:
            return
        left, width = view.edge("L"), float(view.size[0])
        back, deep = -float(view.place[1]), float(view.size[1])
        arm, inset = sketch.paper(0.2), sketch.paper(0.12)
        keep = [Box(x - arm, y - arm, x + arm, y + arm) for _, (x, y) in self._drain_spots()]
        page = Box(left + inset, back - deep, left + width - sketch.paper(0.5), back)
        wide = sketch.wide(text, BODY, True)
        middle = (page.left + sketch.paper(0.1) + wide / 2, -level)
        box = free_spot(middle, wide, tall, sketch.paper(0.08), [*keep, *self.taken], page)
        if box is None:
            return
        y = (box.bottom + box.top) / 2
        if abs(y + depth) > tall * 0.2:
            start = (box.left - inset * 0.7, -depth)
            sketch.add(Line("LEADER", start, (box.left, y)))
        self.taken.append(box)
        sketch.text(box.left, y, text, BODY, bold=True, middle=True, halo=True)

    def _names(self, wall: str, faces: tuple[Face, ...]) -> None:
        """Stud names behind the studs, as many as there is room for."""
        sketch = self.sketch
        out = self.at.times * self.view.largest(wall) + STUB + sketch.paper(0.08)
        at = self.view.edge(wall)
        for step in range(1, len(faces) + 1):
            shown = [face for i, face in enumerate(faces) if i % step == 0]
            wanted = [float(face.along) for face in shown]
            if wall == "B":
                sizes = [sketch.wide(face.name, BODY, True) + sketch.pt(4) for face in shown]
            else:
                sizes = [sketch.pt(BODY) * LEADING for _ in shown]
            places = spread(wanted, sizes)
            if places is not None and max(
                abs(p - w) for p, w in zip(places, wanted, strict=True)
            ) < sketch.paper(0.3):
                break
        for face, place in zip(shown, places or wanted, strict=True):
            if wall == "B":
                spot, anchor = (place, -at + out + sketch.pt(BODY) * 0.4), "middle"
                foot = (float(face.along), -at + out - sketch.paper(0.06))
            elif wall == "L":
                spot, anchor = (at - out, -place), "end"
                foot = (at - out + sketch.paper(0.06), -float(face.along))
            else:
                spot, anchor = (at + out, -place), "start"
                foot = (at + out - sketch.paper(0.06), -float(face.along))
            made = sketch.text(*spot, face.name, BODY, bold=True, anchor=anchor, middle=True, halo=True)  # type: ignore[arg-type]
            self.taken.append(made.box)
            self.named.append(made)
            sketch.items.pop()
            if abs(place - float(face.along)) > sketch.pt(2):
                end = {
                    "B": (spot[0], made.box.bottom),
                    "L": (made.box.right, spot[1]),
                    "R": (made.box.left, spot[1]),
                }
                sketch.add(Line("LEADER", foot, end[wall]))

    def _drain_spots(self) -> list[tuple[str, Point]]:
        """Outlet of the pan and drain in the floor, where they are known."""
        view = self.view
        pan, drain = view.built.pan.pan, view.built.pan.drain
        spots: list[tuple[str, Point]] = []
        if pan.outlet is not None and view.place is not None:
            turn = view.built.turn("B") if "B" in view.walls else Fraction(0)
            over, out = pan.outlet.x.inches, pan.outlet.y.inches
            outlet = (view.place[0] + over - turn * out, view.place[1] + out + turn * over)
            spots.append(("outlet", (float(outlet[0]), -float(outlet[1]))))
        if drain is not None and (drain.side in view.walls) and (drain.side == "L" or view.width_known):
            spots.append(("drain", (float(drain_x(view)), -float(drain.y.inches))))
        return spots

    def _drain(self) -> list[tuple[str, Point]]:
        """Outlet of the pan, and the drain with its float; gives where they are."""
        sketch, drain = self.sketch, self.view.built.pan.drain
        spots = self._drain_spots()
        arm = sketch.paper(0.16)
        for what, (x, y) in spots:
            if what == "drain" and drain is not None:
                fx, fy = float(drain.float_x.inches), float(drain.float_y.inches)
                sketch.add(Poly("DRAIN", Box(x - fx, y - fy, x + fx, y + fy).corners, closed=True))
                sketch.add(Strokes("DRAIN", (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))))
            else:
                sketch.add(Circle("DRAIN", (x, y), 1.0))
        self.taken += [Box(x - arm, y - arm, x + arm, y + arm) for _, (x, y) in spots]
        return spots

    def _drain_words(self, spots: list[tuple[str, Point]]) -> None:
        """Which is the outlet and which the drain."""
        sketch = self.sketch
        page = Box(sketch.left, -self.deep, sketch.right, self.extent[3])
        for what, at in spots:
            text = self.room.words(what)
            wide, tall = sketch.wide(text, SMALL), sketch.pt(SMALL) * LEADING
            way = (at[0] + wide, at[1] + (tall if what == "outlet" else -tall) * 1.2)
            box = free_spot(way, wide, tall, sketch.paper(0.08), self.taken, page)
            if box is None:
                continue
            self.taken.append(box)
            sketch.add(Line("LEADER", at, ((box.left + box.right) / 2, (box.top + box.bottom) / 2)))
            sketch.text(
                (box.left + box.right) / 2,
                (box.top + box.bottom) / 2,
                text,
                SMALL,
                anchor="middle",
                middle=True,
                halo=True,
            )
