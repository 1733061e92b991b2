"""One place in the wood: its verdict, its readings, what it is; or a new one, begun from where it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.errors import InputError
from undertile.job.address import height_key, join
from undertile.lengths import format_length, parse_length
from undertile.screens.context import Context, NotHere, View
from undertile.screens.drying_part import chart_of
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.page import LONG
from undertile.screens.pages.water import Typed, told_point, typed_of
from undertile.screens.round.order import next_name
from undertile.screens.steps_water import point_href, steps
from undertile.wood.places import has_layers, place_of
from undertile.wood.probe import facts_at

if TYPE_CHECKING:
    from undertile.wood.facts import Point, WoodFacts
    from undertile.wood.history import Series
    from undertile.wood.result import WoodResult

WOODS: dict[str, tuple[str, ...]] = {
    "plate": ("wall", "along"),
    "stud": ("name", "height"),
    "joist": ("name", "along"),
    "subfloor": ("x", "y", "layer"),
    "other": (),
}
"""Facts that say where a point of each kind is; one of another kind is called by a name."""
PLACE = ("member", "wall", "name", "along", "height", "x", "y", "layer")
STUFF = ("material", "species", "thickness", "open_faces", "depth", "bearing", "reference")
PANEL = ("swollen", "delaminated", "out", "bare", "bare_by", "new")
DAYS = ("out", "bare", "new")
ALIKE = ("material", "species", "thickness", "open_faces", "depth", "bearing")
"""What the next place of the same kind is likely to share with the last; offered, kept only when kept."""
BY_VISIT = ("shown", "temperatures", "surface", "awl", "pick")
LENGTHS = frozenset({"along", "height", "x", "y"})
MOST_NAME = 60


def view(ctx: Context) -> View:
    """One place by its name; a new one where its kind and place are in the address; else every place.

    Raises
    ------
    NotHere
        If the job has no place of that name.
    """
    found, name = typed_of(ctx), ctx.query.get("name", "")
    # where a kind is said, the name is the stud's or the joist's own, as its form sends it
    if name and "member" not in ctx.query:
        return _one(ctx, found, name)
    asked = _asked(ctx, found)
    if asked.get("member") in WOODS:
        return _new(ctx, found, asked)
    return _choose(ctx, found)


def _base(ctx: Context, title: str) -> View:
    return {
        "title": title,
        "before": {"text": ctx.says("step-water"), "href": ctx.href("water")},
        "after": None,
        "point": None,
        "place": None,
        "woods": [],
        "points": [],
        "fresh": None,
        "head": None,
    }


def _choose(ctx: Context, found: WoodResult | Typed) -> View:
    says = ctx.says
    woods = [
        {"text": says.choice(kind, "member"), "href": ctx.href("water", "point", member=kind)}
        for kind in WOODS
    ]
    woods.append(
        {
            "text": says("water-reference-new"),
            "href": ctx.href("water", "point", member="other", reference="true"),
        }
    )
    return {
        **_base(ctx, says("water-point")),
        "next": {"text": says("water-which-wood"), "why": says("water-next-begin-why"), "href": ""},
        "woods": woods,
        "points": [
            {"name": each.name, "text": says.place(each.where), "href": point_href(ctx, each.name)}
            for each in found.series
        ],
    }


def _asked(ctx: Context, found: WoodResult | Typed) -> dict[str, str]:
    """The place asked for in the address: typed, or the one whose reading tells most."""
    probe = None if isinstance(found, Typed) or "probe" not in ctx.query else found.probe
    if probe is None or probe.probe is None:
        known = (*PLACE, "reference", "called")
        return {key: ctx.query[key].strip()[:MOST_NAME] for key in known if ctx.query.get(key, "").strip()}
    widths = [each.reading.inches for each in ctx.state.folded.job.survey.widths.values()]
    at = facts_at(probe.line, probe.probe.at, min(widths, default=None))
    told = {}
    for key, value in at.items():
        try:
            told[key] = value if isinstance(value, str) else format_length(value, ctx.unit)
        except ValueError:  # on no rule of this unit: the person says where
            continue
    return told


def _new(ctx: Context, found: WoodResult | Typed, asked: dict[str, str]) -> View:
    """Where it is first; then what it is, and what it reads."""
    says, kind = ctx.says, asked["member"]
    trouble = ""
    try:
        name = _name(ctx, asked)
    except InputError as error:
        name, trouble = "", str(error)
    points = ctx.state.folded.job.wood.points
    gone = ""
    while name in points and points[name].out:  # the wood there is gone: what is read now is other wood
        gone, name = gone or name, f"{name}-new"
    if name in points:
        return _one(ctx, found, name)
    title = says("water-reference-new")
    if "reference" not in asked:
        title = says("water-new", wood=says.choice(kind, "member"))
    if gone:
        layered = has_layers(points.values())
        title = says("water-new-wood", where=says.place(place_of(gone, points[gone], layered=layered)))
    out = _base(ctx, title)
    if not name:
        fields = [
            {
                "name": key,
                "label": _label(ctx, key, kind),
                "value": asked.get(key, ""),
                "choices": _choices(ctx, key),
            }
            for key in WOODS[kind]
        ]
        if kind == "other":
            fields = [
                {"name": "called", "label": says("name-it"), "value": asked.get("called", ""), "choices": []}
            ]
        return {
            **out,
            "next": {"text": says("water-where-new"), "why": "", "href": ""},
            "place": {"kind": kind, "fields": fields, "trouble": trouble, "reference": "reference" in asked},
        }
    fresh = _fresh(ctx, found, name, asked, gone)
    step = "water-as-last" if fresh["like"] else "water-what-it-is"
    return {
        **out,
        "title": name if kind == "other" else title,
        "next": {
            "text": says("water-put-in" if gone else step),
            "why": "",
            "href": "",
        },
        "here": point_href(ctx, name),
        "fresh": fresh,
    }


def _choices(ctx: Context, key: str) -> list[View]:
    if key != "wall":
        return []
    none = {"value": "", "label": ctx.says("water-wall-none")}
    return [none, *({"value": wall, "label": ctx.says.sheet(wall)} for wall in ("L", "B", "R"))]


def _label(ctx: Context, key: str, kind: str) -> str:
    """A joist is measured from where it begins, and no corner is there."""
    return (
        ctx.says("water-along-joist") if (kind, key) == ("joist", "along") else ctx.says.field("points", key)
    )


def _name(ctx: Context, asked: dict[str, str]) -> str:
    """A name made of the place, so that two people who type the same place mean the same point.

    "" while something of the place is not said.

    Raises
    ------
    InputError
        If a length is none.
    """
    kind = asked["member"]
    if kind == "other":
        return asked.get("called", "").replace(".", " ") if asked.get("called", "").isprintable() else ""
    told = {
        key: height_key(parse_length(asked[key], ctx.unit, what=ctx.says.field("points", key)))
        if key in LENGTHS
        else asked[key]
        for key in WOODS[kind]
        if key in asked
    }
    needed = [key for key in WOODS[kind] if key != "layer"]
    if not all(told.get(key) for key in needed):
        return ""
    layer = told.get("layer", "1")
    start = {
        "plate": f"plate-{told.get('wall')}",
        "stud": told.get("name", ""),
        "joist": f"joist-{told.get('name')}",
    }.get(kind, "floor" if layer == "1" else f"floor{layer}")
    return "-".join([start, *(told[key] for key in needed if key in LENGTHS)])


def _fresh(ctx: Context, found: WoodResult | Typed, name: str, asked: dict[str, str], gone: str) -> View:
    """One form for a new place: where it is as said, what it is as the last of its kind, what it reads.

    ``gone``: the place of what was cut out, where this is put in for it. Its day is asked for, and no reading
    on a visit of before the other went out: that was of something else. A reading is asked for on a visit of
    today alone, for what the meter shows now is of no older one; where none is begun, that is offered.
    """
    base = ("wood", "points", name)
    wood: WoodFacts = ctx.state.folded.job.wood
    like = [each for each in wood.points.values() if each.member == asked["member"]]
    offers = {key: asked[key] for key in (*PLACE, "reference") if asked.get(key)}
    if asked["member"] == "stud" and asked.get("name", "")[:1] in ("L", "B", "R"):
        offers.setdefault("wall", asked["name"][0])
    if like:
        offers |= {key: value for key in ALIKE if (value := _typed(like[-1], key))}
    keys = [key for key in PLACE if key in offers]
    rows = [
        {**row(ctx, join((*base, key)), _label(ctx, key, asked["member"])), "offer": offers.get(key, "")}
        for key in (*keys, *STUFF)
    ]
    if gone or any(each.out for each in like):
        rows += _rows(ctx, base, ("new",))
    title, begin = "", None
    of_today = [each for each in found.rounds if each.facts.when[:10] == ctx.state.today]
    if of_today and (not gone or ctx.state.today >= wood.points[gone].out[:10]):
        now = of_today[-1]
        rows += [_on_visit(ctx, base, key, now.name) for key in ("shown", "awl")]
        title = ctx.says("water-on-visit", name=now.name, day=now.facts.when)
    elif found.rounds and not of_today:
        last = found.rounds[-1]
        title = ctx.says("water-visit-old", name=last.name, day=last.facts.when)
        begin = {"text": ctx.says("round-begin", visit=next_name(ctx)), "href": ctx.href("water", "round")}
    return {"title": title, "begin": begin, "rows": rows, "like": bool(like)}


def _typed(point: Point, key: str) -> str:
    value = getattr(point, key)
    text = getattr(value, "text", value)
    return "" if text in (None, "unknown") else str(text)


def _on_visit(ctx: Context, base: tuple[str, ...], key: str, visit: str) -> View:
    hint = ctx.says("water-degrees-hint") if key == "temperatures" else ""
    return row(ctx, join((*base, key, visit)), ctx.says.field("points", key), hint=hint)


def _one(ctx: Context, found: WoodResult | Typed, name: str) -> View:
    says = ctx.says
    points = ctx.state.folded.job.wood.points
    typed = any(path[:3] == ("wood", "points", name) for path in ctx.state.facts)
    if name not in points and not typed:
        raise NotHere(says("water-no-point", name=name))
    series = next((each for each in found.series if each.name == name), None)
    head = None
    if not isinstance(found, Typed) and (verdict := found.point(name)) is not None:
        head = told_point(ctx, found, verdict)
    base = ("wood", "points", name)
    names = [each.name for each in found.series]
    at = names.index(name) if name in names else -1
    step = _next(ctx, found, head)
    kind = points[name].member if name in points else ""
    is_gone = name in points and bool(points[name].out) and kind in ("plate", "stud", "joist")
    # what is put in there is a place of its own: its day is not asked for at what is gone
    new_here = not is_gone or ("wood", "points", name, "new") in ctx.state.facts
    panel = PANEL if new_here else tuple(key for key in PANEL if key != "new")
    return {
        **_base(ctx, says.place(series.where) if series is not None else name),
        "next": step,
        "here": point_href(ctx, name),
        "before": _beside(ctx, found, at - 1)
        if at > 0
        else {"text": says("step-water"), "href": ctx.href("water")},
        "after": _beside(ctx, found, at + 1) if 0 <= at < len(names) - 1 else None,
        "head": head,
        "point": {
            "readings": [] if series is None else _readings(ctx, series),
            "steps": [] if series is None else _steps(ctx, series),
            "parts": [
                group(ctx, says("water-place"), _rows(ctx, base, PLACE, kind)),
                group(ctx, says("water-stuff"), _rows(ctx, base, STUFF), says("unknown-note")),
                group(ctx, says("water-panel"), _rows(ctx, base, panel)),
            ],
            "visits": _visits(ctx, found, base),
            "new_wood": new_wood_href(ctx, points[name]) if is_gone else "",
            "photos": ctx.href("photos"),
            "chart": ctx.href("water", "charts", point=name),
            "picture": "" if isinstance(found, Typed) else chart_of(ctx, found, name),
        },
    }


def _next(ctx: Context, found: WoodResult | Typed, head: View | None) -> View:
    """What to do at this place; with nothing to do here, what is next about the water."""
    if head is not None and head["do"]:
        do, _, rest = head["do"].partition(". ") if len(head["do"]) > 2 * LONG else (head["do"], "", "")
        why = f"{rest} {head['why'][:1].upper()}{head['why'][1:]}" if rest else head["why"]
        return {"text": do, "why": why.strip(), "href": ""}
    if isinstance(found, Typed):
        return next_step(ctx)
    first = steps(ctx, found)[0]
    return {key: first[key] for key in ("text", "why", "href")}


def _beside(ctx: Context, found: WoodResult | Typed, at: int) -> View:
    each = found.series[at]
    return {"text": ctx.says.place(each.where), "href": point_href(ctx, each.name)}


def new_wood_href(ctx: Context, old: Point) -> str:
    """Where new wood is entered in one go, at the place of what was cut out."""
    keys = WOODS.get(old.member, ())
    told = {key: text for key in keys if (text := _typed(old, key))}
    return ctx.href("water", "point", member=old.member, **told)


def _rows(ctx: Context, base: tuple[str, ...], keys: tuple[str, ...], kind: str = "") -> list[View]:
    return [
        row(
            ctx,
            join((*base, key)),
            _label(ctx, key, kind),
            hint=ctx.says("water-day-hint") if key in DAYS else "",
        )
        for key in keys
    ]


def _readings(ctx: Context, series: Series) -> list[View]:
    """A row for each visit: as shown, corrected, and what the awl and the pick said."""
    return [
        {
            "visit": each.round.name,
            "day": each.round.facts.when,
            "shown": each.shown.text or "-",
            "corrected": each.reads,
            "relative": bool(each.corrected is not None and each.corrected.scale == "relative"),
            "awl": each.awl_text,
            "pick": ctx.says.choice(each.pick) if each.pick else "",
        }
        for each in series.samples
    ]


def _steps(ctx: Context, series: Series) -> list[str]:
    """How the newest number was corrected, or why it is not used."""
    newest = next((each.corrected for each in reversed(series.samples) if each.corrected is not None), None)
    return [] if newest is None else [ctx.says.told(each) for each in newest.steps]


def _visits(ctx: Context, found: WoodResult | Typed, base: tuple[str, ...]) -> list[View]:
    """A form for each visit, the newest first."""
    out = []
    for each in reversed(found.rounds):
        rows = [_on_visit(ctx, base, key, each.name) for key in BY_VISIT]
        rows += [
            row(ctx, join((*base, "chips", each.name, key)), ctx.says.field("points", key))
            for key in ("wet", "dry")
        ]
        title = ctx.says("water-on-visit", name=each.name, day=each.facts.when)
        out.append(group(ctx, title, rows))
    return out
