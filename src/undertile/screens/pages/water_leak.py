"""Where the water comes from: what was tested with its numbers, what it leaves, the cheapest next test."""

from __future__ import annotations

from typing import TYPE_CHECKING, get_args

from undertile.job.address import join
from undertile.job.model import job_shape
from undertile.job.shape import ByName, Leaf, Table
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.pages.water import source_line, water_of
from undertile.screens.steps_water import point_href, takes, test_href, wait
from undertile.screens.under_way import under_way
from undertile.wood.facts import Candidate
from undertile.wood.leak import NAMES
from undertile.wood.rank import running
from undertile.wood.torn import TEARS

if TYPE_CHECKING:
    from undertile.wood.leakstands import CandidateStands
    from undertile.wood.leaktests import Outcome
    from undertile.wood.nexttest import Offered
    from undertile.wood.result import WoodResult

KINDS = ("dials", "pressures", "pours", "fills", "sprays", "outsides", "colds", "next_doors")
"""Tables of the tests, from the pipes to the drain, the pan, the walls, outside, the air, next door."""
FINDINGS = (
    *("air-test", "leak-came-and-went", "leak-said-otherwise"),
    *("leak-test-asked", "leak-test-short", "leak-word-alone"),
)
"""Codes of what the screen says of tests in their own words, in no order."""
LEFT = ("found", "open")
"""How a source stands that keeps the wall open."""
DAYS = frozenset({"when", "out"})
DEGREES = frozenset({"surface", "air"})
OTHER_UNIT = {"in": ("litres",), "mm": ("gallons",)}
"""What a test's form leaves out by the unit of the job, unless it is typed."""


def view(ctx: Context) -> View:
    """The cause in plain words, every source with what is known of it, the next test, and the forms."""
    says, found = ctx.says, water_of(ctx)
    source = found.source
    return {
        "title": says("leak-title"),
        "next": _next(ctx, found),
        "before": {"text": says("step-water"), "href": ctx.href("water")},
        "after": None,
        "answer": source_line(ctx, found) if source.outcomes else says("leak-none"),
        "statement": [says.told(line) for line in source.statement] if source.outcomes else [],
        "stands": [_stands(ctx, each) for each in source.stands if each.standing in LEFT],
        "settled": [_stands(ctx, each) for each in source.stands if each.standing not in LEFT],
        "offered": [_offered(ctx, each) for each in source.next_tests],
        "made": [_made(ctx, each) for each in reversed(source.outcomes)],
        "symptom": row(ctx, "wood.leak.symptom", says("symptom")),
        "noticed": row(ctx, "wood.leak.noticed", says("noticed"), hint=says("water-day-hint"), wide=True),
        "tests": [_tests(ctx, kind) for kind in KINDS],
        "sources": [_sources(ctx, "mended", source.of("found")), _sources(ctx, "not_here", ())],
        "findings": [says.finding(each) for each in found.findings if each.code in FINDINGS],
        "typing": ctx.query.get("type", ""),
        "record": ctx.href("papers", "water"),
    }


def _next(ctx: Context, found: WoodResult) -> View:
    """A test under way, a leak to mend, water that may be running now; then the cheapest test."""
    says, source = ctx.says, found.source
    if begun := under_way(ctx):
        return begun[0]
    leaks = source.of("found")
    if leaks:
        text = says("water-next-leak", what=says.told(NAMES[leaks[0]]))
        return {"text": text, "why": says("water-next-leak-why"), "href": test_href(ctx, "mended")}
    if wet := running(found.points, source.stands):
        text = says("water-next-running", where=says.place(wet[0].where))
        return {"text": text, "why": says.told(wet[0].why), "href": point_href(ctx, wet[0].name)}
    if source.next_tests:
        first = source.next_tests[0]
        return {"text": says.told(first.do), "why": takes(ctx, first), "href": test_href(ctx, first.kind)}
    return {"text": says("water-settled"), "why": "", "href": ctx.href("water", "gate")}


def _stands(ctx: Context, each: CandidateStands) -> View:
    says = ctx.says
    standing = each.standing.replace(" ", "-")
    return {
        "candidate": each.candidate,
        "what": says.told(NAMES[each.candidate]),
        "standing": each.standing,
        "word": says("leak-suspected") if each.suspected else says(f"leak-standing-{standing}"),
        "shut": each.standing in ("open", "found"),
        "why": says.told(each.why),
        "source": says.source(each.source),
    }


def _offered(ctx: Context, each: Offered) -> View:
    says = ctx.says
    covers = [says.choice(one, "source") for one in each.covers]
    minutes = f"{each.minutes:.0f}"
    return {
        "do": says.told(each.do),
        "takes": says("leak-takes-wait", minutes=minutes, wait=wait(ctx, each))
        if each.wait
        else says("leak-takes", minutes=minutes),
        "of": says("leak-of", what=says.papers.listed(covers)),
        "href": test_href(ctx, each.kind),
    }


def _made(ctx: Context, each: Outcome) -> View:
    """One test: its numbers, which sources it rules out, finds or points to, and why it shows nothing."""
    says = ctx.says

    def names(candidates: tuple[Candidate, ...]) -> str:
        return says.papers.listed([says.choice(one, "source") for one in candidates])

    shows = []
    if each.finds:
        shows.append({"word": says("leak-finds"), "what": names(each.finds)})
    if each.one_of:
        shows.append({"word": says("leak-one-of"), "what": names(each.one_of)})
    if each.excludes:
        shows.append({"word": says("leak-rules-out"), "what": names(each.excludes)})
    if each.nothing:
        shows.append({"word": says("leak-nothing"), "what": says.told(each.nothing)})
    if each.zone is not None:
        shows.append({"word": says("leak-zone-dry"), "what": ""})
    return {
        "test": says.told(each.test),
        "why": says.told(each.why),
        "shows": shows,
        "source": says.source(each.source),
    }


def _tests(ctx: Context, kind: str) -> View:
    """Tests of one kind, those made and one blank; its day and maker go with its first number."""
    base = ("wood", "leak", kind)
    names = list(
        dict.fromkeys(
            path[3]
            for path, fact in ctx.state.facts.items()
            if path[:3] == base and any(entry.value is not None for entry in fact.standing)
        )
    )
    who = (ctx.host.who or "").replace(".", " ").strip()
    fresh = next(name for n in range(1, len(names) + 2) if (name := f"{who} {n}".strip()) not in names)
    return {
        "key": kind,
        "title": ctx.says(f"part-{kind}"),
        "items": [{"name": name, "rows": _fields(ctx, kind, (*base, name))} for name in names],
        "blank": _blank(ctx, _fields(ctx, kind, (*base, fresh))),
    }


def _fields(ctx: Context, kind: str, base: tuple[str, ...]) -> list[View]:
    """The rows of a test, its own numbers first, then its day and who made it."""
    own: list[View] = []
    common: list[View] = []
    for name in _leaves(kind):
        shared = name in ("when", "by")
        label = ctx.says.field("tests" if shared else kind, name)
        path = join((*base, name))
        if name in OTHER_UNIT[ctx.unit] and ctx.standing(path)[0] is None:
            continue
        hint = ""
        if name in DAYS:
            hint = ctx.says("test-day-hint")
        elif kind == "colds" and name in DEGREES:
            hint = ctx.says("water-degrees-hint")
        (common if shared else own).append(row(ctx, path, label, hint=hint, wide=name in DAYS))
    return [*own, *common]


def _blank(ctx: Context, rows: list[View]) -> list[View]:
    """Today, this person and in inches psi are offered, and kept only with the test's first value."""
    offers = {"when": ctx.host.now()[:16].replace("T", " "), "by": ctx.host.who or ""}
    if ctx.unit == "in":
        offers["gauge"] = "psi"
    out = []
    for each in rows:
        last = each["fact"].rpartition(".")[2]
        out.append({**each, "offer": offers[last], "goes_with": 1} if last in offers else each)
    return out


def _leaves(kind: str) -> list[str]:
    node: object = job_shape()
    for part in ("wood", "leak", kind):
        assert isinstance(node, Table)
        node = node.fields[part]
    assert isinstance(node, ByName)
    assert isinstance(node.item, Table)
    return [name for name, inner in node.item.fields.items() if isinstance(inner, Leaf)]


def _sources(ctx: Context, key: str, leaks: tuple[Candidate, ...]) -> View:
    """Every source, with what was mended of it, or why it cannot be; those that leak lie open."""
    says = ctx.says
    parts = []
    ordered = [name for name in ("what", "reason", "when", "out", "by") if name in _leaves(key)]
    for each in get_args(Candidate):
        base = ("wood", "leak", key, each)
        rows = [
            row(
                ctx,
                join((*base, name)),
                says.field(key, name),
                hint=says("water-day-hint") if name in DAYS else "",
                wide=name in DAYS,
            )
            for name in ordered
            if name != "out" or each in TEARS
        ]
        said = [one["value"] for one in rows if one["value"]]
        parts.append(
            {
                "candidate": each,
                "title": says.choice(each, "source"),
                "rows": rows if said else _blank(ctx, rows),
                "said": " · ".join(said),
                "open": bool(said) or each in leaks,
            }
        )
    return {
        "key": key,
        "title": says(f"part-{key}"),
        "note": says(f"note-{key}"),
        "parts": parts,
    }
