"""The floor sheet as data: what stops, the order, the patch with its cut list, the level places, the bed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict, together
from undertile.floor.bed import BedAnswer
from undertile.floor.facts import FloorFacts
from undertile.floor.level import PlaceWork
from undertile.floor.ownlimits import CODE as OWN_LIMITS
from undertile.floor.result import FloorResult
from undertile.floor.stiffness import JoistAnswer
from undertile.job import Rebuild
from undertile.job.nominal import joists_by_name
from undertile.lengths import Length, Unit
from undertile.packet.content import Paper
from undertile.packet.figures import amount
from undertile.packet.floor_content import (
    BedPart,
    FloorSheet,
    JoistRow,
    LevelCell,
    LevelPart,
)
from undertile.packet.floor_patch import bring, cut_parts, patch_parts
from undertile.packet.head import head_of
from undertile.packet.moved import what_moved
from undertile.packet.places import place_words
from undertile.packet.told import titled, told
from undertile.packet.weights import a_square, volume, weight
from undertile.packet.words import Language, Words
from undertile.packet.words.cited import cited
from undertile.pan.before import floor_steps
from undertile.pan.say import say
from undertile.sources import cite

ZERO = Fraction(0)


def floor_sheet(
    rebuild: Rebuild, *, date: str = "", language: Language = "en", paper: Paper = "letter"
) -> FloorSheet | None:
    """Everything on the floor sheet; None where nothing of the floor is known.

    Parameters
    ----------
    rebuild : Rebuild
        With the answers of ``wood`` and ``floor`` among its results; the walls need not be planned.
    date : str
        Of the print.
    language : {"en", "es"}
    paper : {"letter", "a4"}
    """
    found: FloorResult | None = rebuild.results.get("floor")
    if found is None or (found.empty and not found.findings):
        return None
    names = joists_by_name(rebuild.job.facts()["floor"])
    found = replace(found, findings=(*rebuild.lifted(found.findings), *names))
    words, unit = Words(language), rebuild.unit
    return FloorSheet(
        head=head_of(rebuild.job, date, language, paper, rebuild.unit),
        title=words("floor-title"),
        hold=(words("hold-head"), words("hold")),
        stops=_findings(found, words, Severity.STOP),
        fails=tuple(fail_lines(found, words)),
        unknown=tuple(_unknown(found, words)),
        cover=cover_words(found, words),
        may=found.covers is None or found.covers.may,
        order=tuple(_order(found, words)),
        acts=_findings(found, words, Severity.ACT, in_order=("joist-soft",)),
        patches=patch_parts(found, words, unit),
        cuts=cut_parts(found, words, unit),
        bring=bring(found, words, unit),
        level=level_part(_facts(rebuild), found, words, unit),
        moved=what_moved(rebuild, words),
        bed=None if found.bed is None else bed_part(found.bed, words, unit),
        joists=tuple(_joist(each, words, unit) for each in found.joists),
        along=_along(found, words),
        loads=_loads(rebuild, found, words, unit) if found.joists else "",
        ways=ways(found, words),
        notes=_findings(found, words, Severity.NOTE),
        rules=_rules(found, words),
    )


def cover_words(found: FloorResult, words: Words) -> str:
    """Whether the patch may be laid over what is under it; "" where nobody speaks of water."""
    return "" if found.covers is None else told(found.covers.says, words)


def _findings(
    found: FloorResult, words: Words, severity: Severity, in_order: Sequence[str] = ()
) -> tuple[str, ...]:
    """Those of a severity, but for what stands whole in the order of work."""
    return tuple(
        dict.fromkeys(
            _own_limit(each, words)
            if each.code == OWN_LIMITS
            else words.finding(each.code, place_words(each.where, words))
            for each in together(found.findings)
            if each.severity is severity and each.code not in in_order
        )
    )


def _own_limit(its: Finding, words: Words) -> str:
    """A figure looser than the usual: both of them, why, and where the usual one is from."""
    said = f"{place_words(its.where, words)}: {told(its.found, words)}. {told(its.next_step, words)}"
    return f"{said[:1].upper()}{said[1:]} ({_source(its.source, words)})"


def _of(found: FloorResult, verdict: Verdict) -> Iterator[Check]:
    return (check for check in found.checks if check.verdict is verdict)


def fail_lines(found: FloorResult, words: Words) -> Iterator[str]:
    """Every check that fails: what is, what is wanted, what to do."""
    for each in _of(found, Verdict.FAIL):
        value = words("fail-wanted", value=told(each.value, words), limit=told(each.limit, words))
        said = words("fail", title=titled(each, words), where=place_words(each.where, words), value=value)
        yield f"{said}. {told(each.next_step, words)}".strip()


def _unknown(found: FloorResult, words: Words) -> Iterator[str]:
    """What is not shown, by what shows it: several checks often wait for one thing."""
    by: dict[str, list[Check]] = {}
    for each in _of(found, Verdict.NOT_SHOWN):
        by.setdefault(each.next_step, []).append(each)
    for step, checks in by.items():
        where = ", ".join(dict.fromkeys(place_words(each.where, words) for each in checks))
        titles = ", ".join(dict.fromkeys(titled(each, words) for each in checks))
        same = titles.lower() == where.lower()
        key = "floor-open-same" if same else "floor-open"
        yield words(key, title=titles, where=where, step=told(step, words))


def _order(found: FloorResult, words: Words) -> Iterator[str]:
    """What is done on the floor, in the order it is done: the crew sheet's own steps, then the level."""
    for step in floor_steps(found):  # what a person lifted is a note here already
        yield told(step.text, words)
    if found.level.on_old:
        yield words("floor-do-on-new", names=words.listed(found.level.on_old))
    if any(each.amount for each in found.level.places):
        yield words("floor-do-level")
    if found.flow.read_again and not found.level.on_old:
        yield words("floor-do-again")


# Joists ------------------------------------------------------------------------------------------------


def _joist(each: JoistAnswer, words: Words, unit: Unit) -> JoistRow:
    joist = each.joist
    sizes = [joist.width, joist.depth]
    size = " x ".join("?" if one is None else say(one, unit) for one in sizes)
    by = {check.code.removesuffix(f"-{joist.name}"): check for check in each.checks}

    def stiff(code: str) -> str:
        check = by.get(code)
        if check is None:
            return ""
        value = told(check.value, words).split(",")[0]  # what is soft left out is said before the comma
        return " ".join(part for part in (value, words(f"verdict-{check.verdict.value}")) if part)

    return JoistRow(
        joist.name,
        say(joist.at, unit),
        size if any(one is not None for one in sizes) else "?",
        "?" if joist.span is None else say(joist.span, unit),
        stiff("joist-code"),
        stiff("joist-tile"),
    )


def _along(found: FloorResult, words: Words) -> str:
    """From which wall joists are measured."""
    return words("floor-at-B" if found.runs == "along the back wall" else "floor-at-L")


def _facts(rebuild: Rebuild) -> FloorFacts:
    facts = rebuild.job.facts()["floor"]
    assert isinstance(facts, FloorFacts)
    return facts


def _loads(rebuild: Rebuild, found: FloorResult, words: Words, unit: Unit) -> str:
    facts = _facts(rebuild)
    weighed = iter(found.loads.parts)
    top = []
    for name, layer in facts.loads.on_top.items():
        if name in found.loads.unweighed:
            continue
        _, weight = next(weighed)
        top.append(f"{words.stuff(name)} {say(layer.thickness.inches, unit)} {a_square(weight, unit)}")
    return words(
        "floor-loads" if unit == "in" else "floor-loads-mm",
        live=a_square(found.loads.live, unit),
        base=a_square(found.loads.base, unit),
        top=", ".join(top) or words("floor-nothing-on-top"),
    )


def ways(found: FloorResult, words: Words) -> tuple[str, ...]:
    """What stiffens a joist, and what it comes to."""
    out = []
    for each in found.joists:
        for way in each.ways:
            key = "floor-way" if way.becomes else "floor-way-plain"
            becomes = f"{way.becomes} ({words(f'verdict-{way.verdict.value}')})" if way.becomes else ""
            out.append(words(key, name=each.joist.name, way=told(way.words, words), becomes=becomes))
    return tuple(out)


# Level and bed -----------------------------------------------------------------------------------------


def level_part(facts: FloorFacts, found: FloorResult, words: Words, unit: Unit) -> LevelPart | None:
    """The floor under the pan as a plan of its places; None where nothing is read."""
    checks = found.level.checks
    if not checks:
        return None
    places = found.level.places
    at = {(each.x, each.y): _cell(each, unit) for each in places}
    for name in found.level.on_old:
        spot = facts.level.spots[name]
        at[spot.x.inches, spot.y.inches] = LevelCell(name, words("floor-on-new"), "", "")
    for name in found.level.unsure:
        spot = facts.level.spots[name]
        reads = say(spot.reading.inches, unit) if isinstance(spot.reading, Length) else ""
        at[spot.x.inches, spot.y.inches] = LevelCell(name, reads, "?", "")
    xs, ys = sorted({x for x, _ in at}), sorted({y for _, y in at})
    done = [each for each in places if each.amount]
    return LevelPart(
        words("floor-level-asked", asked=told(checks[0].limit, words)),
        checks[0].verdict.value,
        tuple(say(x, unit) for x in xs),
        tuple(say(y, unit) for y in ys),
        tuple(tuple(at.get((x, y)) for x in xs) for y in ys),
        tuple(
            (each.name, say(each.x, unit), say(each.y, unit), _do(each, words, unit), _then(each, unit))
            for each in done
        ),
        tuple(_level_says(found, bool(done), words, unit)),
    )


def _cell(place: PlaceWork, unit: Unit) -> LevelCell:
    mark = ""
    if place.amount < 0:
        mark = f"X {amount(place.amount, unit, signed=True)}"
    elif place.amount > 0:
        mark = f"↑ {amount(place.amount, unit, signed=True)}"
    return LevelCell(place.name, say(place.reading, unit), mark, _then(place, unit) if mark else "")


def _do(place: PlaceWork, words: Words, unit: Unit) -> str:
    key = "floor-off" if place.amount < 0 else "floor-fill"
    return words(key, amount=say(abs(place.amount), unit, "up"))


def _then(place: PlaceWork, unit: Unit) -> str:
    """The reading there once it is done: more where something came off."""
    return say(place.reading - place.amount, unit)


def _level_says(found: FloorResult, done: bool, words: Words, unit: Unit) -> Iterator[str]:
    work, between = found.level.work, found.level.lies_between
    if found.level.unsure:
        yield words("floor-unsure", names=words.listed(found.level.unsure))
    if work is None:
        return
    if not done:
        if found.level.checks[0].verdict is Verdict.PASS:
            yield words("floor-level-right")
        return
    minutes = words("floor-minutes", minutes=_minutes(work.minutes))
    if work.proved:
        yield words("floor-level-takes", minutes=minutes)
    else:
        least = words("floor-minutes", minutes=_minutes(work.least_minutes))
        yield words("floor-level-takes-open", minutes=minutes, least=least)
    if between is not None:
        high, low = between
        yield words("floor-level-then", low=say(low, unit), high=say(high, unit))


def _minutes(value: Fraction) -> str:
    """Minutes, up to the next whole one."""
    return str(-(-value // 1))


def bed_part(bed: BedAnswer, words: Words, unit: Unit) -> BedPart:
    """A mortar bed for a base built on site."""
    lines = [
        (words("floor-bed-drain"), say(bed.at_drain, unit)),
        (words("floor-bed-walls"), say(bed.at_walls, unit)),
    ]
    if bed.top:
        lines.append((words("floor-bed-top"), say(bed.top, unit)))
    lines += [
        (
            words("floor-bed-volume"),
            volume(bed.volume, words, unit),
        ),
        (words("floor-bed-bags"), str(bed.bags)),
        (words("floor-bed-weight"), weight(bed, words, unit)),
    ]
    sides = tuple(
        (words(f"floor-side-{side.where}"), say(side.run, unit, "up"), say(side.fall, unit))
        for side in bed.sides
    )
    return BedPart(tuple(lines), sides)


def _rules(found: FloorResult, words: Words) -> tuple[tuple[str, str], ...]:
    """What each kind of check is held against, once."""
    by: dict[str, list[str]] = {}
    for each in found.checks:
        asked = words.check("bed-slope") if each.code.startswith("bed-slope") else titled(each, words)
        by.setdefault(_source(each.source, words), []).append(asked)
    return tuple((", ".join(dict.fromkeys(titles)), source) for source, titles in by.items())


def _source(key: str, words: Words) -> str:
    """A source in the sheet's language; in English where it has no other words."""
    return (words.language == "es" and cited(key)) or cite(key)
