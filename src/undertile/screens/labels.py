"""What a fact is called: the words of the box it is typed in, and of which thing it is.

The record calls it ``pan.drain.float_x``; whoever reads the history or settles a clash never has to.
"""

from __future__ import annotations

from undertile.job.address import Path, say, split
from undertile.packet.places import place_words
from undertile.screens.floor_labels import floor_said
from undertile.screens.words import Says

PARTS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "pan",
        ("pan", "pan"),
        ("width", "depth", "flange_height", "flange_thickness", "detail", "depths", "threshold"),
    ),
    ("outlet", ("pan", "pan", "outlet"), ("x", "y")),
    ("drain", ("pan", "drain"), ("x", "y", "float_x", "float_y", "side")),
    ("sheet", ("pan", "pan"), ("play_low", "play_high", "shimmed_play", "carton_width", "carton_depth")),
    (
        "valve",
        ("framing", "valve"),
        (
            *("wall", "along", "height", "reading", "window_low", "window_high"),
            *("may_reblock", "reblock_reach", "keep_off"),
        ),
    ),
    ("finish", ("framing", "finish"), ("board", "membrane", "mortar", "tile", "tile_edge", "screw")),
    ("way-in", ("pan", "way_in"), ("door", "tilt_height")),
    ("money", ("framing",), ("rate", "occupied")),
    ("house", ("safety",), ("year", "water")),
)
"""Key of a part of the screen of the pan, where its facts are, their names."""
NAMED: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("edges", ("framing", "edges")),
    ("things", ("framing", "things")),
    ("stock", ("framing", "stock")),
    ("corners", ("framing", "corners")),
    *((kind, ("safety", kind)) for kind in ("off", "lead", "asbestos", "mold", "shared")),
    ("lifts", ("safety", "lifted")),
)
"""Key and place of what there may be several of, each with a name."""
_SURVEYED = ("widths", "diagonals", "gaps", "levels", "squares", "repeats")
_OF_STUD = ("services", "holes")
_ALONE = {
    ("name",): "job-name",
    ("place",): "job-place",
    ("unit",): "job-unit",
    ("recheck", "by"): "read-by",
    ("recheck", "date"): "done-date",
    ("recheck", "instrument"): "instrument",
}
_DONE = {"did": "done-did", "by": "done-by", "minutes": "actual-minutes", "date": "done-date"}
_PHOTO = {
    **dict.fromkeys(("wall", "stud", "surface"), "photo-of"),
    "height": "photo-height",
    "stage": "photo-stage",
    "note": "photo-note",
}
_HOLD = {"treatment": "hold-to"} | {key: f"hold-{key}" for key in ("offset", "skew", "lean", "reason")}


def said(says: Says, address: str) -> str:
    """A fact in the person's words: of which thing, and what of it.

    Parameters
    ----------
    says : Says
    address : str
    """
    path = split(address)
    try:
        told = _known(says, path)
    except KeyError:  # a fact of a table that no screen types yet
        told = None
    if told is None:
        return place_words(say(path), says.papers)
    return ": ".join(part for part in told if part)


def label(says: Says, address: str) -> str:
    """The same without of which thing."""
    try:
        told = _known(says, split(address))
    except KeyError:
        told = None
    return said(says, address) if told is None else told[1]


def _known(says: Says, path: Path) -> tuple[str, str] | None:
    """Of which thing, and what; None where a place says it all, as a reading does."""
    if path in _ALONE:
        return "", says(_ALONE[path])
    for key, base, names in PARTS:
        if path[:-1] == base and path[-1] in names:
            return says(f"part-{key}"), says.field(key, path[-1])
    for key, base in (*NAMED, *((kind, ("survey", kind)) for kind in _SURVEYED)):
        if path[: len(base)] == base and len(path) > len(base) + 1:
            return _of_several(says, key, path[len(base) :])
    if path[:1] == ("wood",):
        return _of_water(says, path[1:])
    if path[:1] == ("floor",):
        return floor_said(says, path)
    if path[:1] == ("photos",) and len(path) == 3:
        return says("photo-fact", digits=path[1][:4]), says(_PHOTO[path[2]])
    if path[:1] == ("survey",):
        return _surveyed(says, path)
    if path[:1] == ("framing",):
        return _framed(says, path)
    return _done(says, path)


FIXED = ("corners",)
"""Of what there may be several, those whose names are the record's own words; all others a person typed."""


def _of_several(says: Says, key: str, rest: Path) -> tuple[str, str]:
    thing = f"{says(f'part-{key}')}, {_name(says, key, rest[0])}"
    if rest[1] == "readings":
        return thing, says("reading-at", height=rest[2]) if len(rest) > 2 else says.field("things", "reading")
    return thing, says.field(key, rest[1])


def _name(says: Says, key: str, name: str) -> str:
    if key == "repeats":
        return says.repeat(name)
    return says.choice(name) if key in FIXED else says.stuff(name) if key == "stock" else name


def _of_water(says: Says, path: Path) -> tuple[str, str] | None:
    """A fact of the water: of a place, a visit, a test, a source."""
    if len(path) == 1:
        return says("step-water"), says(path[0])
    if path[0] == "points" and len(path) > 2:
        thing = f"{says('water-point')}, {path[1]}"
        if len(path) == 3:
            return thing, says.field("points", path[2])
        field = path[-1] if len(path) > 4 else path[2]
        return f"{thing}, {says('water-visit', name=path[3])}", says.field("points", field)
    if path[0] == "visits" and len(path) > 2:
        thing = says("water-visit", name=path[1])
        return f"{thing[:1].upper()}{thing[1:]}", says.field("visits", path[2])
    if path[0] in ("meters", "equipment") and len(path) > 2:
        return f"{says(f'part-{path[0]}')}, {path[1]}", says.field(path[0], path[2])
    if path[0] == "allowed":
        return says("part-allowed"), says.field("allowed", path[1])
    if path[0] == "cover":
        if path[1] == "photos" and len(path) > 2:
            return says("part-photos"), says.choice(path[2])
        return says("part-inspection"), says.field("cover", path[1])
    if path[0] != "leak":
        return None
    if len(path) == 2:
        return says("part-symptom"), says(path[1])
    if len(path) < 4:
        return None
    name = says.choice(path[2], "source") if path[1] in ("mended", "not_here") else path[2]
    part = "tests" if path[3] in ("when", "by") and path[1] != "mended" else path[1]
    return f"{says(f'part-{path[1]}')}, {name}", says.field(part, path[3])


def _surveyed(says: Says, path: Path) -> tuple[str, str] | None:
    if path[:2] != ("survey", "walls") or len(path) < 4:
        return None
    wall = says.sheet(path[2])
    if path[3] == "plates" and len(path) > 5:
        return f"{wall}, {says.choice(path[4])}", says.field("plates", path[5])
    if path[3] == "studs" and path[5:] == ("along",):
        return "", says("stud-along", stud=path[4])
    if path[3] == "studs" and path[5:6] == ("arris",) and len(path) > 6:
        return f"{path[4]}, {says('other-edge')}", says("reading-at", height=path[6])
    keys = {"nominal": "nominal", "heights": "heights", "top": "top-plate"}
    return (wall, says(keys[path[3]])) if len(path) == 4 else None


def _framed(says: Says, path: Path) -> tuple[str, str] | None:
    if path[1:2] not in (("walls",), ("studs",)) or len(path) < 4:
        return None
    thing = says.sheet(path[2]) if path[1] == "walls" else path[2]
    if path[3] == "hold":
        return says("held-of", thing=thing), says(_HOLD[path[-1]])
    if path[3] in _OF_STUD and len(path) > 5:
        return f"{thing}, {path[4]}", says.field(path[3], path[5])
    return thing, says(f"wall-{path[3]}")


def _laid(says: Says, name: str) -> str:
    """The name the tool gives a straightedge it asks for (``recheck.to_lay``), in words; else as typed."""
    wall, _, rest = name.partition(" ")
    way, _, length = rest.partition(" ")
    if wall not in ("B", "L", "R") or way not in ("up", "along", "across") or not length:
        return name
    return f"{says(f'laid-{way}', wall=says.sheet(wall))}, {length.removesuffix(' in')}" + (
        '"' if length.endswith(" in") else ""
    )


def _done(says: Says, path: Path) -> tuple[str, str] | None:
    if path[:2] == ("recheck", "done"):
        return path[2], says(_DONE[path[-1]])
    if path[:2] in (("recheck", "widths"), ("recheck", "diagonals")) and len(path) > 3:
        thing, field = _of_several(says, path[1], path[2:])
        return f"{says('step-recheck')}, {thing}", field
    if path[:2] == ("recheck", "planes") and path[-1] in ("offset", "reason"):
        return f"{says('step-recheck')}, {says.sheet(path[2])}", says(_HOLD[path[-1]])
    if path[:2] == ("recheck", "walls") and path[3:] == ("nominal",):
        return f"{says('step-recheck')}, {says.sheet(path[2])}", says("nominal")
    if path == ("recheck", "tool"):
        return says("step-recheck"), says.field("widths", "tool")
    if path[:2] == ("recheck", "straightedges"):
        return f"{says('straightedge')}, {_laid(says, path[2])}", says(f"laid-{path[-1]}")
    if path[:2] == ("recheck", "walls") and path[3:4] == ("heights",):
        return f"{says('step-recheck')}, {says.sheet(path[2])}", says("heights")
    if path[:2] == ("recheck", "walls") and path[3:4] == ("studs",):
        return says("step-recheck"), place_words(say(("survey", *path[1:])), says.papers)
    return None
