"""What a fact of the floor is called: the words of its box, and of which thing it is."""

from __future__ import annotations

from undertile.job.address import Path
from undertile.screens.words import Says

ALL_JOISTS = ("make", "width", "depth", "species", "grade", "span", "spacing", "bearing_on", "bearing")
"""Facts that hold for all joists, in the order of their boxes."""
OWN = ("at", "make", "width", "depth", "species", "grade", "span", "bearing")
SISTER = ("width", "depth", "species", "grade", "start", "length", "side", "fastened")
ENGINEER = ("carries", "by", "when", "says")
LIMITS = ("notch_depth", "notch_length", "end_notch", "hole", "keep", "edition", "reason")
PATCH = ("gap", "offset", "kerf", "screw_edge", "screw_field", "tongue", "reason")
LEVEL = ("line", "line_at", "surface", "left", "right", "back", "front")
LEVEL_RULES = ("limit", "slope", "most_off", "most_fill", "grid", "sigma", "reason")
MINUTES = ("off_setup", "off_place", "off_step", "fill_setup", "fill_place", "fill_step")
LOADS = ("live", "base", "point", "judged_under", "reason")
BED = (
    *("width", "depth", "drain_x", "drain_y", "slope", "steepest", "at_drain", "top"),
    *("bag", "bag_weight", "density", "reason"),
)
_NESTED = {"notches": "notch", "holes": "bore", "soft": "soft"}
_TABLES = {
    "all_joists": "joists-all",
    "sister_stock": "stock-sister",
    "cut_limits": "cut-limits",
    "loads": "loads",
    "patch": "patch",
    "level": "under-pan",
    "bed": "bed",
}
_NAMED = {
    ("loads", "on_top"): "on-top",
    ("patch", "bad"): "bad",
    ("patch", "panels"): "sheet-good",
    ("level", "spots"): "spot",
}


def floor_said(says: Says, path: Path) -> tuple[str, str] | None:
    """Of which thing, and what of it; None where it is no fact of the floor that is typed here.

    Parameters
    ----------
    says : Says
    path : tuple of str
        From ``floor`` on.
    """
    rest = path[1:]
    if len(rest) == 1:
        return says("step-floor"), says.field("floor-head", rest[0])
    if rest[0] == "joists" and len(rest) > 2:
        return _joist(says, rest[1:])
    for base, key in _NAMED.items():
        if rest[: len(base)] == base and len(rest) > len(base) + 1:
            name, field = rest[len(base)], rest[len(base) + 1]
            if field == "offcuts" and len(rest) > len(base) + 3:
                return says("part-sheet-offcut", name=name), says.field("sheet-offcut", rest[-1])
            called = says.stuff(name) if key == "on-top" else name
            return f"{says(f'part-{key}')}, {called}", says.field(key, field)
    key = _TABLES.get(rest[0], "")
    if rest[:2] in (("patch", "lower"), ("patch", "upper")):
        field = rest[1] if rest[2] == "thickness" else f"{rest[1]}-{rest[2]}"
        return says("part-patch"), says.field("patch", field)
    return (says(f"part-{key}"), says.field(key, rest[-1])) if key else None


def _joist(says: Says, rest: Path) -> tuple[str, str] | None:
    thing = says("floor-joist", name=rest[0])
    if rest[1] in _NESTED and len(rest) > 3:
        key = _NESTED[rest[1]]
        return f"{thing}, {says(f'part-{key}')} {rest[2]}", says.field(key, rest[3])
    if rest[1] == "sister" and len(rest) > 2:
        return f"{thing}, {says('part-sister')}", says.field("sister", rest[2])
    if rest[1] == "engineer" and len(rest) > 2:
        return f"{thing}, {says('part-engineer')}", says.field("engineer", rest[2])
    return thing, says.field("joist-own", rest[1])
