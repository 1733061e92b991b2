"""The pad sheet: what is read on one wall, in plain data, so that the pad works before Python is up.

One wall's readings stud by stud, what stands in front of it, its first point again; or the measurements that
check the walls (``checks``). A row may bring facts along (``also``): a width is of no use without its depth.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from undertile.errors import UndertileError
from undertile.findings import Finding, Severity
from undertile.job.address import height_key, join, split
from undertile.lengths import Length, format_length
from undertile.screens.amiss import told
from undertile.screens.context import Context, NotHere, View
from undertile.screens.labels import said
from undertile.screens.words import PAD
from undertile.survey.facts import SurveyFacts, Wall
from undertile.survey.grid import lay_out
from undertile.survey.result import Suspect
from undertile.wood.say import hundredths

CHECKS = "checks"
"""The sheet of widths, gaps, diagonals, levels and squares."""
SHEETS = ("B", "L", "R", CHECKS)
"""In the order a room is read: the back wall first, the checks last (common practice)."""


def names_of(ctx: Context) -> tuple[str, ...]:
    """The sheets this job has."""
    facts: SurveyFacts = ctx.state.folded.job.survey
    known = any(getattr(facts, kind) for kind in ("widths", "gaps", "diagonals", "levels", "squares"))
    checks = known or {"L", "R"} <= set(facts.walls)
    return tuple(name for name in SHEETS if name in facts.walls or (name == CHECKS and checks))


def sheet(ctx: Context, name: str) -> View:
    """The pad sheet of a wall or of the checks.

    Raises
    ------
    NotHere
        If the job has no such wall.
    """
    if name not in names_of(ctx):
        raise NotHere(ctx.says("no-such-wall", wall=name))
    every = names_of(ctx)
    after = every[every.index(name) + 1 :]
    return {
        "job": ctx.job,
        "sheet": name,
        "title": ctx.says.sheet(name),
        "unit": ctx.unit,
        "language": ctx.says.language,
        "rows": rows_of(ctx, name),
        "judged": judged(ctx),
        "entries": ctx.href("entries"),
        "back": ctx.href("read"),
        "after": ctx.href("read", after[0]) if after else ctx.href("doubts"),
        "words": {key: ctx.says(key) for key in PAD},
    }


def rows_of(ctx: Context, name: str) -> list[View]:
    """The values to read on a sheet that is there."""
    facts: SurveyFacts = ctx.state.folded.job.survey
    return list(_checks(ctx, facts) if name == CHECKS else _wall(ctx, name, facts))


def row(ctx: Context, address: str, label: str, **more: Any) -> View:
    """One value to read."""
    value, ids = ctx.standing(address)
    return {
        "fact": address,
        "label": label,
        "value": value,
        "stands": list(ids),
        "clash": len(ids) > 1,
        "kind": "reading",
        "group": "line",
        "near": "",
        "also": [],
        **more,
    }


def studs_in_order(wall: Wall) -> list[str]:
    """A wall's studs by rising along."""
    return sorted(wall.studs, key=lambda name: wall.studs[name].along.inches)


def heights_of(wall: Wall) -> list[Length]:
    """A wall's heights, rising, each once."""
    return [Length(value) for value in sorted({height.inches for height in wall.heights})]


def label_of(ctx: Context, height: Length) -> str:
    """A height as the person says it, in the job's unit where it prints there."""
    try:
        return format_length(height.inches, ctx.unit).removesuffix(" mm")
    except ValueError:
        return height_key(height)


def reading_rows(ctx: Context, name: str, wall: Wall) -> Iterator[View]:
    """Every stud of a wall at every height, from the corner and the floor."""
    for at, stud in enumerate(studs_in_order(wall)):
        edges = [("readings", "")]
        if wall.studs[stud].arris:
            edges.append(("arris", ctx.says("other-edge")))
        for part, edge in edges:
            for up, height in enumerate(heights_of(wall)):
                address = join(("survey", "walls", name, "studs", stud, part, height_key(height)))
                yield row(
                    ctx,
                    address,
                    " ".join(word for word in (stud, edge) if word),
                    at=label_of(ctx, height),
                    stud=at,
                    height=up,
                    near=wall.nominal.text,
                )


def _wall(ctx: Context, name: str, facts: SurveyFacts) -> Iterator[View]:
    wall = facts.walls[name]  # type: ignore[index]
    yield from reading_rows(ctx, name, wall)
    for spot, plate in wall.plates.items():
        yield row(
            ctx,
            join(("survey", "walls", name, "plates", spot, "reading")),
            ctx.says("plate", name=spot),
            at=plate.height.text,
            near=wall.nominal.text,
        )
    framing = ctx.state.folded.job.framing
    for thing, its in framing.things.items():
        if its.wall == name:
            yield row(
                ctx,
                join(("framing", "things", thing, "reading")),
                thing,
                at=its.height.text,
                near=wall.nominal.text,
                group="things",
            )
    for edge, face in framing.edges.items():
        if face.wall == name:
            for height in face.readings:
                key = height_key(_length(ctx, height))
                address = join(("framing", "edges", edge, "readings", key))
                yield row(ctx, address, edge, at=key, near=wall.nominal.text, group=f"edge {edge}")
    if framing.valve is not None and framing.valve.wall == name:
        address = "framing.valve.reading"
        yield row(ctx, address, ctx.says("valve"), at=framing.valve.height.text, kind="length", group="valve")
    yield from _again(ctx, name, wall, facts)


def _length(ctx: Context, text: str) -> Length:
    from undertile.lengths import parse_length

    return parse_length(text, ctx.unit)


def _again(ctx: Context, name: str, wall: Wall, facts: SurveyFacts) -> Iterator[View]:
    """The first point read again last: a line that was bumped shows there and nowhere else."""
    studs, heights = studs_in_order(wall), heights_of(wall)
    if not studs or not heights:
        return
    known = [key for key, its in facts.repeats.items() if its.stud in wall.studs]
    for key in known:
        its = facts.repeats[key]
        yield row(
            ctx,
            join(("survey", "repeats", key, "reading")),
            its.stud,
            at=its.height.text,
            note=ctx.says("again"),
            near=wall.nominal.text,
            kind="length",
        )
    if not known:
        base = ("survey", "repeats", f"{name} again")
        height = label_of(ctx, heights[0])
        yield row(
            ctx,
            join((*base, "reading")),
            studs[0],
            at=height,
            note=ctx.says("again"),
            near=wall.nominal.text,
            kind="length",
            also=[
                {"fact": join((*base, "stud")), "value": studs[0]},
                {"fact": join((*base, "height")), "value": height},
            ],
        )


def _checks(ctx: Context, facts: SurveyFacts) -> Iterator[View]:
    """What is measured already, then what checks the walls best and is not there yet."""
    yield from _known_checks(ctx, facts)
    sides = [facts.walls[side] for side in ("L", "R") if side in facts.walls]
    if len(sides) < 2 or not all(studs_in_order(side) and side.heights for side in sides):
        return
    left = sides[0]
    along = [left.studs[name].along.text for name in studs_in_order(left)]
    depths = list(dict.fromkeys((along[0], along[len(along) // 2], along[-1])))
    every = [label_of(ctx, height) for height in heights_of(left)]
    heights = list(dict.fromkeys((every[0], every[len(every) // 2], every[-1])))
    pan = ctx.state.folded.job.pan.pan
    near = "" if pan.width is None else pan.width.text
    for depth, height in dict.fromkeys([*_beside_looks(ctx), *((d, h) for d in depths for h in heights)]):
        key = f"{depth} at {height}"
        if key not in facts.widths and _ours(
            facts.widths, lambda its: f"{its.depth.text} at {its.height.text}"
        ):
            yield _proposed(ctx, "widths", key, near, depth=depth, height=height)
    for depth in (depths[0], depths[-1]):
        if f"at {depth}" not in facts.gaps and _ours(facts.gaps, lambda its: f"at {its.depth.text}"):
            yield _proposed(ctx, "gaps", f"at {depth}", near, depth=depth)
    for corner in ("BL", "BR"):
        key = f"from {corner}"
        if key not in facts.diagonals and _ours(facts.diagonals, lambda its: f"from {its.corner}"):
            yield _proposed(ctx, "diagonals", key, near, corner=corner, depth=depths[-1], height=heights[0])


def _ours(known: Mapping[str, Any], name: Callable[[Any], str]) -> bool:
    """Whether what is there was proposed here: somebody with a list of his own is not asked for ours too."""
    return all(key == name(its) for key, its in known.items())


def _beside_looks(ctx: Context) -> Iterator[tuple[str, str]]:
    """Depth and height of each side wall's reading that stands out: a width there tells slip from bow."""
    facts: SurveyFacts = ctx.state.folded.job.survey
    for look in judged(ctx)["looks"]:
        path = split(look["fact"]) if look["fact"] else ()
        if path[:2] == ("survey", "walls") and path[2] in ("L", "R") and path[5:6] == ("readings",):
            wall = facts.walls[path[2]]  # type: ignore[index]
            height = next(each for each in heights_of(wall) if height_key(each) == path[6])
            yield wall.studs[path[4]].along.text, label_of(ctx, height)


def _proposed(ctx: Context, kind: str, key: str, near: str, **along: str) -> View:
    base = ("survey", kind, key)
    label, at = _check_words(ctx, kind, along)
    return row(
        ctx,
        join((*base, "reading")),
        label,
        at=at,
        near=near,
        kind="length",
        group=kind,
        also=[{"fact": join((*base, part)), "value": value} for part, value in along.items()],
    )


def _known_checks(ctx: Context, facts: SurveyFacts) -> Iterator[View]:
    for kind in ("widths", "gaps", "diagonals", "levels", "squares"):
        for key, its in getattr(facts, kind).items():
            along = {
                part: text_of(getattr(its, part))
                for part in ("corner", "depth", "stud", "low", "high", "height", "wall", "over")
                if getattr(its, part, None) is not None
            }
            label, at = _check_words(ctx, kind, along)
            last = "out" if kind == "squares" else "reading"
            yield row(
                ctx,
                join(("survey", kind, key, last)),
                label,
                at=at,
                kind="signed" if kind in ("levels", "squares") else "length",
                group=kind,
            )


def text_of(value: Any) -> str:
    """A value as it was typed."""
    return value.text if isinstance(value, Length) else str(value)


def _check_words(ctx: Context, kind: str, along: Mapping[str, str]) -> tuple[str, str]:
    """What a check is, and where: two short lines for the pad."""
    told = {key: ctx.says.choice(value) if key == "corner" else value for key, value in along.items()}
    told.setdefault("height", "")
    return ctx.says(f"check-{kind}"), ctx.says(f"check-{kind}-at", **told)


# --- what the survey says of the readings, for the pad and for the screen of doubts


def places(ctx: Context) -> dict[str, str]:
    """The address of every place the survey names: ``B2 at 48``."""
    facts: SurveyFacts = ctx.state.folded.job.survey
    out: dict[str, str] = {}
    for name, wall in lay_out(facts).walls.items():
        for stud in wall.studs:
            for h, height in enumerate(wall.heights):
                base = ("survey", "walls", name, "studs", stud.name)
                key = height_key(Length(height))
                out[wall.place(stud.name, h)] = join((*base, "readings", key))
                out[wall.place(stud.name, h, "other edge")] = join((*base, "arris", key))
    kinds = {
        "widths": "width",
        "diagonals": "diagonal",
        "gaps": "gap",
        "levels": "level",
        "repeats": "repeat",
    }
    for kind, word in kinds.items():
        for key in getattr(facts, kind):
            out[f"{word} {key}"] = join(("survey", kind, key, "reading"))
    for key in facts.squares:
        out[f"square {key}"] = join(("survey", "squares", key, "out"))
    return out


def judged(ctx: Context) -> View:
    """What is in doubt now, what else stands out, and what was typed but cannot be used."""
    if ctx.judged is None:
        ctx.judged = _judged(ctx)
    return ctx.judged


def _judged(ctx: Context) -> View:
    looks = ctx.state.looks
    at = places(ctx) if looks or ctx.state.suspects else {}
    folded = ctx.state.folded
    return {
        "doubts": [doubt(ctx, group, at) for group in ctx.state.suspects],
        "looks": [
            {"fact": at.get(each.where, ""), "text": ctx.says.look(each), "where": ctx.says.place(each.where)}
            for each in looks
            if not _read_twice(ctx, at.get(each.where, ""))
        ]
        + _floor_looks(ctx),
        "left_out": [
            {
                "fact": each.data.get("fact", ""),
                "lacks": each.data.get("lacks", ""),
                "text": _left_out(ctx, each),
            }
            for each in folded.findings
            if each.code != "entries-clash"
            and each.severity is not Severity.NOTE
            and not _told_elsewhere(ctx, each)
        ],
        "clashes": [{"fact": clash.fact, "text": ctx.says("clash-short")} for clash in folded.clashes],
    }


def _floor_looks(ctx: Context) -> list[View]:
    """Places of the floor that read far from the others: said on the floor's own sheet alone."""
    level = ctx.state.folded.job.floor.level
    if not level.spots:
        return []
    from undertile.floor.level import odd_spots  # a phone's first screen needs none of it

    try:
        odd = [each for each in odd_spots(level, ctx.unit) if each.code == "floor-spot-odd"]
    except UndertileError:
        raise
    except Exception as error:  # the pad is where it is mended
        ctx.state.broke("floor", error)
        return []

    def read(name: str) -> str:
        """The fact that counts there: what was read on a new panel before what was read on the old."""
        return join(("floor", "level", "spots", name, "on_new" if level.spots[name].on_new else "reading"))

    return [
        {"fact": fact, "text": ctx.says.look(each), "where": ctx.says.place(each.where)}
        for each in odd
        if not _read_twice(ctx, fact := read(each.where.removeprefix("floor at ")))
    ]


def _read_twice(ctx: Context, fact: str) -> bool:
    """Whether somebody has looked again already: what is so is said once."""
    its = ctx.fact(fact) if fact else None
    return its is not None and len(its.entries) > 1


def _left_out(ctx: Context, finding: Finding) -> str:
    fact = finding.data.get("fact", "")
    where = said(ctx.says, fact) if fact else ctx.says.place(finding.where)
    return f"{where}: {told(ctx, finding)}"


def _told_elsewhere(ctx: Context, finding: Finding) -> bool:
    """Whether what a thing lacks was typed, and is itself what cannot be used."""
    lacks = finding.data.get("lacks", "")
    return lacks in ctx.state.folded.left_out


def doubt(ctx: Context, group: Iterable[Suspect], at: Mapping[str, str]) -> View:
    """One misfit: the reading to take again, what was typed, what would fit, and why."""
    every = list(group)
    first = every[0]
    places_named = [place for place, _ in first.changes] or [first.where]
    facts = [at[place] for place in places_named if place in at]
    return {
        "fact": facts[0] if facts else "",
        "facts": facts,
        "where": ctx.says.place(first.where),
        "typed": first.typed,
        "offered": first.offered if first.changes else "",
        "slip": ctx.says.slip(first.code, first.slip),
        "odds": ctx.says("odds", number=str(hundredths(first.odds))),
        "settle": ctx.says.settle(first.settle),
        "others": [
            {
                "where": ctx.says.place(each.where),
                "offered": each.offered if each.changes else "",
                "slip": ctx.says.slip(each.code, each.slip),
                "odds": ctx.says("odds", number=str(hundredths(each.odds))),
            }
            for each in every[1:4]
        ],
    }
