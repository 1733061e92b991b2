"""What of the values typed is not used as it stands, or cannot be so: a line each, with the way to mend it.

Said by the box it is typed in, at the head of what answers a form, and first on the water's screen.
Nothing is lost by it: the text stays as typed until somebody corrects it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from undertile.errors import InputError
from undertile.findings import Finding
from undertile.job.address import Path, join, say, split
from undertile.job.checks import plausibility
from undertile.job.entry import Entry
from undertile.job.model import fact_at
from undertile.screens import labels
from undertile.screens.context import Context, View
from undertile.sentence import Sentence

_FIELDS: dict[str, tuple[str, ...]] = {
    "humidity-odd": ("humidity",),
    "air-out-of-table": ("air",),
    "wood-temperature-odd": ("wood", "temperatures"),
    "meter-unknown": ("meter",),
    "meter-not-said": ("meter", "when"),
    "dates-out-of-order": ("when", "opened", "on", "off"),
    "visit-unknown": ("trued", "shown", "temperatures", "surface", "awl", "pick"),
    "chip-heavier-dry": ("chips",),
    "chip-odd": ("chips",),
    "out-day-odd": ("out",),
    "reading-slipped": ("shown",),
    "reading-nothing": ("shown",),
    "clock-behind": (),
    "day-ahead": ("when", "opened", "on", "off", "photos", "inspected", "fastened", "new", "bare"),
    "proof-too-early": ("photos", "inspected"),
    "point-outside": ("x", "along"),
    "point-other-wall": ("wall", "name"),
    "thickness-odd": ("thickness",),
    "pins-too-deep": ("depth", "thickness"),
    "floor-spot-odd": ("reading", "on_new"),
    "floor-spot-twice": ("left", "back"),
    "joist-notch-odd": ("start", "length", "depth"),
    "joist-hole-odd": ("at", "top", "diameter"),
}
"""Findings that speak of a value typed, and of which of the thing's facts they may speak."""
UNUSABLE = "fact-unusable"
"""Of what no value can be made of."""
MEND = frozenset(_FIELDS)
"""Codes of what must be corrected before anything else is believed."""


@dataclass(frozen=True)
class Amiss:
    """One value that is not used, or cannot be so.

    Attributes
    ----------
    fact : str
        Where it is typed.
    finding : Finding
    """

    fact: str
    finding: Finding


def own_of(ctx: Context, address: str) -> Finding | None:
    """Why a fact is left out, where it is its own fault and not that of the thing it belongs to."""
    where = say(split(address))
    for finding in ctx.state.folded.findings:
        fact = finding.data.get("fact")
        if fact == address or (fact is None and finding.where == where):
            return finding
    return None


def group_of(ctx: Context, address: str) -> Finding | None:
    """What keeps a whole thing out of use, where this fact is only one of its facts."""
    path = split(address)
    for finding in ctx.state.folded.findings:
        of = finding.data.get("fact", "")
        if of and len(found := split(of)) < len(path) and path[: len(found)] == found:
            return finding
    return None


def trouble(ctx: Context, address: str) -> str:
    """Why what stands of one fact is not used, in one line for its box; "" where it is used.

    Others of the same thing that are good are not marked for one that is bad.
    """
    if address not in ctx.state.folded.left_out:
        lacking = next((f for f in ctx.state.folded.findings if f.data.get("lacks") == address), None)
        return "" if lacking is None or ctx.standing(address)[1] else ctx.says("lacking")
    finding = own_of(ctx, address)
    if finding is not None:
        return told(ctx, finding)
    return "" if group_of(ctx, address) is not None else ctx.says("left-out")


def told(ctx: Context, finding: Finding) -> str:
    """What is, what should be, what to do (convention 5.3); of a value that cannot be used what was expected
    comes first, and what was typed stands as typed."""
    says = ctx.says
    if finding.code != UNUSABLE:
        return says.is_should(finding.found, finding.expected, finding.next_step)
    return says.expected_found(finding.expected, finding.found, finding.next_step)


def sent(ctx: Context, number: int) -> list[str]:
    """The facts of this device's last entries, the first of them first."""
    mine = [entry for entry in ctx.state.log if entry.device == ctx.host.device]
    mine.sort(key=_number)
    return list(dict.fromkeys(entry.fact for entry in mine[-number:])) if number else []


def _number(entry: Entry) -> int:
    number = entry.id.rpartition("-")[2]
    return int(number) if number.isdecimal() and len(number) < 16 else 0


def amiss(ctx: Context, facts: Sequence[str]) -> list[View]:
    """Which of the facts just sent are not used as they stand or cannot be so, a line each.

    Parameters
    ----------
    ctx : Context
    facts : sequence of str
        Addresses.

    Returns
    -------
    list of dict
        ``text``, and ``href`` where it is mended.
    """
    out: dict[str, View] = {}
    for address in facts:
        for fact, text in _lines(ctx, address):
            line = f"{labels.said(ctx.says, fact)}: {text}"
            out.setdefault(line, {"fact": fact, "text": line, "href": mend(ctx, fact)})
    return list(out.values())


def mend(ctx: Context, fact: str) -> str:
    """Where one value is typed anew."""
    return ctx.href("history", fact=fact, mend="1")


def _lines(ctx: Context, address: str) -> Iterator[tuple[str, str]]:
    """Where it is mended, and what is said; nothing of a value that is good."""
    if any(clash.fact == address for clash in ctx.state.folded.clashes):
        yield address, f"{ctx.says('two-values')}. {ctx.says('settle-it')}."
        return
    if address in ctx.state.folded.left_out:
        finding = own_of(ctx, address)
        if finding is not None:
            yield address, told(ctx, finding)
            return
        finding = group_of(ctx, address)
        lacks = "" if finding is None else finding.data.get("lacks", "")
        if not lacks:
            of = address if finding is None else finding.data["fact"]
            yield (
                address if not _is_fact(of) else of,
                (ctx.says("left-out") if finding is None else told(ctx, finding)),
            )
        elif (bad := own_of(ctx, lacks)) is not None and ctx.standing(lacks)[1]:
            yield lacks, told(ctx, bad)
        else:
            yield lacks, ctx.says("lacking")
        return
    for each in odd(ctx, [address]):
        line = told(ctx, each.finding)
        # a day can be in order by itself and set another visit's out of order
        other = each.finding.where.startswith("visit ") and split(address)[2:3] != (each.finding.where[6:],)
        yield each.fact, f"{ctx.says.place(each.finding.where)}, {line}" if other else line


def _is_fact(address: str) -> bool:
    try:
        fact_at(address)
    except InputError:
        return False
    return True


def odd(ctx: Context, addresses: Iterable[str], found: Iterable[Finding] | None = None) -> list[Amiss]:
    """What stands, is read, and still cannot be so: of the days, the air, a place of the floor, a size.

    ``found``: of these findings alone; of what all stages say where they are not given.
    """
    paths = {split(each) for each in addresses}
    out: list[Amiss] = []
    stages = {path[0] for path in paths if path}
    for finding in _judged(ctx, stages) if found is None else found:
        of = [each for each in (*_said_facts(finding), *_facts_of(ctx, finding)) if split(each) in paths]
        out += [Amiss(each, finding) for each in of]
    return out


def _said_facts(finding: Finding) -> list[str]:
    """The facts a finding names itself."""
    many = finding.data.get("facts", "")
    return [each for each in (finding.data.get("fact", ""), *many.split(", ")) if each]


def _judged(ctx: Context, stages: set[str]) -> Iterator[Finding]:
    """What the stages say of the values typed, asked only of those that were sent something."""
    if stages & {"survey", "framing", "pan", "floor"}:
        yield from plausibility(ctx.state.folded.job)
    if "wood" in stages and ctx.state.moisture is not None:
        yield from (each for each in ctx.state.moisture.findings if each.code in _FIELDS)
    if "floor" in stages and ctx.state.floor is not None:
        yield from (each for each in ctx.state.floor.findings if each.code in _FIELDS)


def _facts_of(ctx: Context, finding: Finding) -> Iterator[str]:
    """The facts a finding speaks of, by its place and its code; those nobody typed are left away."""
    if finding.code == "day-ahead":
        yield from _dated(ctx, finding)
        return
    fields = frozenset(_FIELDS.get(finding.code, ()))
    for base in _bases(ctx, finding):
        for path in ctx.state.facts:
            if path[: len(base)] == base and not fields.isdisjoint(path[len(base) - 2 :]):
                yield join(path)


def _dated(ctx: Context, finding: Finding) -> Iterator[str]:
    """The day that a finding is of: what it is called there, and the day as typed."""
    from undertile.floor.dated import words_typed  # only where there is such a day
    from undertile.wood.days import days_typed

    job = ctx.state.folded.job
    for key, typed in (("wood", days_typed(job.wood)), ("floor", words_typed(job.floor))):
        for each in typed:
            path = (key, *each.path)
            if (each.what, each.day) == (finding.where, finding.found) and path in ctx.state.facts:
                yield join(path)


def _bases(ctx: Context, finding: Finding) -> Iterator[Path]:
    """Where in the record the thing is that a finding names."""
    where = finding.where
    head, _, name = where.partition(" ")
    if isinstance(where, Sentence) and "visit" in where.slots and ctx.state.moisture is not None:
        for series in ctx.state.moisture.series:
            if series.where == where.slots["where"]:
                for part in _FIELDS.get(finding.code, ()):
                    yield ("wood", "points", series.name, part, str(where.slots["visit"]))
    elif head == "visit":
        yield ("wood", "visits", name)
        if isinstance(finding.expected, Sentence) and "name" in finding.expected.slots:
            yield ("wood", "visits", str(finding.expected.slots["name"]))
    elif where in ("opened", "trued"):
        yield ("wood", str(where))
    elif head == "equipment":
        yield ("wood", "equipment", name)
    elif where.startswith("floor at "):
        yield ("floor", "level", "spots", where.removeprefix("floor at "))
    elif of := _points_at(ctx, where):
        yield from of
    else:
        joist, kind, cut = [*where.split(" ", 2), "", ""][:3]
        if kind in ("notch", "hole"):
            yield ("floor", "joists", joist, "notches" if kind == "notch" else "holes", cut)


def _points_at(ctx: Context, where: str) -> list[Path]:
    """The points of the water at a place."""
    series = () if ctx.state.moisture is None else ctx.state.moisture.series
    return [("wood", "points", each.name) for each in series if each.where == where]
