"""``floor``: does it carry the tile, where it is cut, and from which panel, how it is brought level."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Literal

from undertile.cli import page
from undertile.cli.answer import NOTHING, SETTLE_FIRST, Answer, ask, head, load
from undertile.cli.console import paper, working
from undertile.cli.show_checks import judged
from undertile.findings import Check, Severity, together
from undertile.floor.carrying import failing
from undertile.floor.level import LevelAnswer
from undertile.floor.levelling import Levelled
from undertile.floor.panels import CutList
from undertile.floor.result import FloorResult
from undertile.job.nominal import joists_by_name
from undertile.lengths import Unit
from undertile.packet.weights import volume, weight
from undertile.packet.words import Words
from undertile.pan.say import cut_line, cut_size, say
from undertile.sentence import listed as listed_words

if TYPE_CHECKING:
    from rich.console import Console

STAGES = ("safety", "wood", "floor")
"""The stages it asks: how far the wet floor is opened sets the patch."""


def run(
    path: str,
    *,
    out: str = "",
    format_: Literal["svg", "dxf"] = "svg",
    language: Literal["en", "es"] = "en",
    as_json: bool = False,
    unit: Unit | None = None,
) -> int:
    """Everything about the floor of a job; with ``out`` its drawings too.

    Exit code 1 where something fails that no engineer answered or stops work, or a span is typed that is
    none; *not shown* changes nothing.
    """
    job = load(path)
    with working("Looking at the floor"):
        answer = ask(job, unit, STAGES)
    found: FloorResult = answer.rebuild.results["floor"]
    names = joists_by_name(answer.job.facts()["floor"])
    found = replace(found, findings=(*answer.rebuild.lifted(found.findings), *names))
    safe = answer.rebuild.results["safety"].findings
    fails = failing(found.checks, [each.joist for each in found.joists])
    stops = any(each.severity is Severity.STOP for each in (*safe, *found.findings))
    no_span = any(each.joist.no_span for each in found.joists)
    code = SETTLE_FIRST if fails or stops or no_span else NOTHING
    if out:
        _draw(answer, out, format_, language, quiet=as_json)
    if as_json:
        from undertile.cli.as_json import plain, text

        told = {
            **head(answer, "floor", code),
            **plain(found, answer.unit),
            "safety": plain(safe, answer.unit),
        }
        print(text(told))
        return code
    _show(paper(), answer, found)
    return code


def _draw(answer: Answer, out: str, format_: str, language: str, *, quiet: bool) -> None:
    from undertile.cli.draw import folder_of
    from undertile.cli.files import write_safely
    from undertile.drawing import sheets, to_dxf, to_svg

    folder = folder_of(out)
    for sheet in sheets(answer.rebuild, language=language):
        if sheet.key.startswith("floor-"):
            content = to_dxf(sheet.measured) if format_ == "dxf" else to_svg(sheet.scene).encode("utf-8")
            write_safely(str(folder / f"{sheet.key}.{format_}"), content)
            if not quiet:
                print(f"{folder / sheet.key}.{format_}: {-(-len(content) // 1024)} kB")


def _show(console: Console, answer: Answer, found: FloorResult) -> None:
    from rich.text import Text

    console.print(Text(answer.job.name or "A job without a name", style="bold"))
    if answer.job.place:
        console.print(Text(answer.job.place))
    if found.empty and not found.findings:
        page.heading(console, "Nothing of the floor is entered yet")
        page.say(console, "Measure the joists from below: where they lie, their size, their clear span.")
        return
    every = (*answer.rebuild.results["safety"].findings, *found.findings)
    loud = [each for each in every if each.severity is Severity.STOP]
    if loud:
        page.heading(console, "Before anything else")
        page.findings(console, loud)
    _carries(console, found, answer.unit)
    _patch(console, found, answer.unit)
    _level(console, found, answer.unit)
    _bed(console, found, answer.unit)
    rest = [each for each in every if each.severity is not Severity.STOP]
    if rest:
        page.heading(console, "What else?")
        page.findings(console, together(rest))


def _of(found: FloorResult, *heads: str) -> list[Check]:
    return [check for check in found.checks if check.code.startswith(heads)]


def _carries(console: Console, found: FloorResult, unit: Unit) -> None:
    checks = _of(found, "joist-", "panel-")
    if not checks:
        return
    page.heading(console, "Does the floor carry it?")
    judged(console, checks)
    for each in found.joists:
        for way in each.ways:
            becomes = f" makes it {way.becomes}" if way.becomes else ""
            page.say(console, f"Joist {each.joist.name}: {way.words}{becomes}.")


def _patch(console: Console, found: FloorResult, unit: Unit) -> None:
    checks = _of(found, "patch-")
    if not checks:
        return
    page.heading(console, "Where is it cut?")
    if found.covers is not None:
        page.say(console, str(found.covers.says))
    out_from_back = found.runs == "out from the back wall"
    for number, made in enumerate(found.layouts, 1):
        for name, edges in (("on the joists", made.lower), ("second layer", made.upper)):
            if edges is None:
                continue
            across = f"{cut_line(edges.low.at, unit, 'low')} to {cut_line(edges.high.at, unit, 'high')}"
            along = f"{cut_line(edges.near.at, unit, 'low')} to {cut_line(edges.far.at, unit, 'high')}"
            x, y = (across, along) if out_from_back else (along, across)
            page.say(console, f"Patch {number}, {name}: {x} from wall L, {y} from wall B.")
    for cuts in found.cut_lists:
        _cuts(console, cuts, unit)
    for layer, length, _ in found.supplies.screws:
        long = f" of {length}" if length else ", length once the panels are measured"
        driven, spare = found.supplies.spare(layer)
        page.say(console, f"Screws, {layer} layer: {driven} and {spare} spare{long}.")
    for one, many, rows in (
        ("Block", "Blocks", found.supplies.blocks),
        ("Cleat", "Cleats", found.supplies.cleats),
    ):
        if rows:
            word = one if sum(count for _, count in rows) == 1 else many
            listed = ", ".join(f"{count} of {cut_size(length, unit)}" for length, count in rows)
            page.say(console, f"{word} of two-by: {listed}.")
    for joists, count in found.supplies.later:
        word = "block" if count == 1 else "blocks"
        names, its = listed_words(joists), "its sister stands" if len(joists) == 1 else "their sisters stand"
        page.say(console, f"{count} {word} of two-by at {names}: measure once {its} and the side is typed.")
    judged(console, checks)


def _cuts(console: Console, cuts: CutList, unit: Unit) -> None:
    for panel in cuts.cuts:
        pieces = ", ".join(
            f"{p.piece} {cut_size(p.size[0], unit)} x {cut_size(p.size[1], unit)}" for p in panel.placed
        )
        size = f"{say(panel.size[0], unit)} x {say(panel.size[1], unit)}"
        page.say(console, f"From {panel.stock}, {size}: {pieces}.")
    proof = "no way needs fewer" if cuts.proved else "fewer may do"
    page.say(console, f"Whole panels, {cuts.layer} layer: {cuts.whole}; {proof}.")


def _level(console: Console, found: FloorResult, unit: Unit) -> None:
    checks = _of(found, "pan-floor")
    if not checks:
        return
    page.heading(console, "Is it level under the pan?")
    judged(console, checks)
    done = [each for each in found.level.places if each.amount]
    if found.level.work is not None and done:
        _work(console, found.level, found.level.work, unit)
    for each in found.flow.moved:
        then = "as before" if each.was and each.was == each.becomes else each.becomes or "measure it"
        page.say(
            console, f"{each.what[:1].upper()}{each.what[1:]}: {each.was or 'not measured'}; then {then}."
        )
    for line in found.flow.read_again:
        page.say(console, line)


def _work(console: Console, level: LevelAnswer, work: Levelled, unit: Unit) -> None:
    """What is taken off and filled, and what it comes to."""
    done = [each for each in level.places if each.amount]
    rows = [[each.name, say(each.x, unit), say(each.y, unit), _what(each.amount, unit)] for each in done]
    page.table(console, ["place", "from wall L", "from wall B", "do"], rows, firm=[0, 3])
    proof = "the least there is" if work.proved else f"no plan takes fewer than {work.least_minutes}"
    page.say(console, f"{work.minutes} minutes, {proof}.")
    if level.lies_between is not None:
        high, low = level.lies_between
        page.say(
            console,
            f"Done, the middle of the floor under the pan reads {say(low, unit)} to {say(high, unit)} "
            "from the level line.",
        )


def _what(amount: Fraction, unit: Unit) -> str:
    return f"take off {say(-amount, unit, 'up')}" if amount < 0 else f"fill {say(amount, unit, 'up')}"


def _bed(console: Console, found: FloorResult, unit: Unit) -> None:
    bed = found.bed
    checks = _of(found, "bed-")
    if not checks:
        return
    page.heading(console, "The mortar bed")
    if bed is not None:
        page.say(
            console,
            f"Pre-slope {say(bed.at_drain, unit)} at the drain, {say(bed.at_walls, unit)} at the walls, "
            f"level all round; {say(bed.top, unit)} over the liner.",
        )
        bags = "bag" if bed.bags == 1 else "bags"
        words = Words("en")
        page.say(
            console, f"{volume(bed.volume, words, unit)}, {bed.bags} {bags}, {weight(bed, words, unit)}."
        )
    judged(console, checks)
