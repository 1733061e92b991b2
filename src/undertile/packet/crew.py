"""The crew sheet as data: what stands in the way, the order, each stud, the lists, the boxes, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from undertile.cutting.others import SCREWS_APART
from undertile.findings import Severity
from undertile.framing.plan import MemberPlan
from undertile.framing.say import stock_named
from undertile.job import Rebuild
from undertile.lengths import MM, Unit
from undertile.packet.content import (
    BoardRow,
    BringRow,
    CrewSheet,
    Grid,
    Paper,
    ScrewRow,
    StockPart,
)
from undertile.packet.doubts import as_if_told, doubts, holds_in_doubt, place_of, settle, settled
from undertile.packet.ends import BAND
from undertile.packet.figures import amount, place, placed
from undertile.packet.fitting import before_fastening, before_mortar, waiting_pieces
from undertile.packet.head import clock_day, head_of
from undertile.packet.keep_off import guards, is_guarded, plates
from undertile.packet.moved import what_moved
from undertile.packet.open_parts import open_parts
from undertile.packet.order import in_order, order_steps
from undertile.packet.places import figure_words, place_words
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import screw_words, wall_parts
from undertile.packet.told import titled
from undertile.packet.whys import Whys
from undertile.packet.words import Language, Words
from undertile.pan.fasteners import INTO_WOOD, PAST_STEEL
from undertile.pan.gaps import SHIM_OVER
from undertile.pan.say import cut_size
from undertile.recheck.asked import asked


def crew_sheet(
    rebuild: Rebuild,
    *,
    date: str = "",
    language: Language = "en",
    paper: Paper = "letter",
    as_if: Sequence[str] = (),
) -> CrewSheet:
    """Everything on the crew sheet.

    Parameters
    ----------
    rebuild : Rebuild
        The job and all it comes to.
    date : str
        Of the print, as it shall stand there.
    language : {"en", "es"}
    paper : {"letter", "a4"}
    as_if : sequence of str
        Readings the job was planned with that nobody has entered (``L3 at 54 = 5-7/8``): the sheet then holds
        only if each is so, and says it first.

    Returns
    -------
    CrewSheet
        ``state`` is ``settle``, without any amount, where a reading is in doubt or there is no plan.
    """
    view, words, whys = PlanView(rebuild), Words(language), Whys()
    top = CrewSheet(
        head=head_of(rebuild.job, date, language, paper, rebuild.unit),
        state="settle",
        title=words("crew-title"),
        hold=(words("hold-head"), words("hold")),
        stops=_told(view, words, Severity.STOP),
        acts=(*_floor_fails(rebuild, words), *_told(view, words, Severity.ACT)),
        notes=_told(view, words, Severity.NOTE),
        as_if=tuple(as_if_told(view, wish, words) for wish in as_if),
        moved=what_moved(rebuild, words),
    )
    if not view.safe:
        return replace(top, settle=settle(view, words), doubts=doubts(view, words), settled=settled(view))
    screws, note = _screws(view, words)
    return replace(
        top,
        state="ready",
        guards=guards(view, words),
        fails=tuple(_fail(view, words)),
        order=order_steps(view, words, today=clock_day(date)),
        how=_how(view, words),
        walls=wall_parts(view, words, whys, holds_in_doubt(view, [place_of(wish) for wish in as_if], words)),
        cuts=_cuts(view, words),
        cuts_note="" if view.cuts is not None else words("cuts-not-listed"),
        bring=_bring(view, words),
        screws=screws,
        screws_note=note,
        mortar=before_mortar(view, words, whys),
        fasten=before_fastening(view, words),
        reread=_reread(view, words),
        whys=tuple(_finish(view, words, whys).rows),
        why_note=f"{words('why-note')} {words('why-band', band=amount(BAND, view.unit))}",
    )


def _floor_fails(rebuild: Rebuild, words: Words) -> tuple[str, ...]:
    """What of floor and water does not pass, with what to do; what stops work stands above."""
    return tuple(line for part in open_parts(rebuild, words) for line in part.fails)


def _told(view: PlanView, words: Words, severity: Severity) -> tuple[str, ...]:
    """What is missing or to be known; not what stands elsewhere on the sheet."""
    suspected = {suspect.code for group in view.suspects for suspect in group}
    found = [*view.findings, *(view.cuts.findings if view.safe and view.cuts is not None else ())]
    return tuple(
        dict.fromkeys(
            words.finding(each.code, place_words(each.where, words))
            for each in found
            if each.severity is severity
            and each.code not in suspected
            and "check" not in each.data
            and not each.code.startswith("no-plan")
            and not (view.safe and each.code == "do-not-cover")  # it stands in the order of work
        )
    )


def _fail(view: PlanView, words: Words) -> list[str]:
    """Every check that fails: what is, what is wanted; where its figures are words, where to look."""
    lines = []
    for each in view.fails:
        if is_guarded(view, each):
            continue
        value, limit = figure_words(each.value, words), figure_words(each.limit, words)
        said = words("fail-wanted", value=value, limit=limit) if value and limit else ""
        said = said or words("fail-see", code=each.code)
        title, where = titled(each, words), place_words(each.where, words)
        step = (each.next_step if words.language == "en" else "") or words.remedy(each.code)
        lines.append(f"{words('fail', title=title, where=where, value=said)}. {step}".strip())
    return list(dict.fromkeys(lines))


def _cuts(view: PlanView, words: Words) -> tuple[StockPart, ...]:
    """Board by board, as it is cut."""
    unit, parts = view.unit, []
    stocks = view.cuts.stocks if view.cuts is not None else ()
    for each in stocks:
        key = "cuts-opened" if each.proved else "cuts-opened-open"
        opened = words(key, count=each.opened)
        if each.to_bring:
            opened += " " + words("cuts-bring", count=each.to_bring)
        if alike := [
            words.stuff(other.stock)
            for other in stocks
            if _alike(each.thickness, other.thickness, view.own_unit)
        ]:
            opened += " " + words("cuts-alike", others=words.listed(alike))
        boards = [
            BoardRow(
                board.number,
                words(f"from-{board.source}", length=placed(board.length, unit)),
                tuple(words("cuts-for", length=cut_size(c.length, unit), stud=c.stud) for c in board.cuts),
                amount(board.left, unit, mark=unit == "in") if board.left else "",
            )
            for board in each.boards
        ]
        parts.append(
            StockPart(stock_named(words.stuff(each.stock), each.thickness, unit), tuple(boards), opened)
        )
    return tuple(parts)


def _alike(one: Fraction, other: Fraction, unit: Unit) -> bool:
    """Whether two thicknesses look alike in the hand: less than 1/32 in or 1 mm apart (ours)."""
    return one != other and abs(one - other) < {"in": Fraction(1, 32), "mm": MM}[unit]


def _bring(view: PlanView, words: Words) -> tuple[BringRow, ...]:
    """Lumber, tapers, channel, nail plates, and shims by their thickness."""
    rows = []
    for line in view.cuts.lines if view.cuts is not None else ():
        if line.kind in ("board screw", "flange shim"):
            continue
        length = words("line-cut-to-fit") if line.length is None else cut_size(line.length, view.unit)
        rows.append(BringRow(words(f"line-{line.kind}"), line.count, length, ", ".join(line.where)))
    if at := plates(view):
        where = ", ".join(words("form-at", stud=stud, height=height) for stud, height in at)
        rows.append(BringRow(words("line-nail plate"), len(at), "", where))
    thick: dict[Fraction, list[str]] = {}
    for member in (member for wall in view.walls for member in view.members(wall)):
        if (gap := view.shim(member)) is not None:
            thick.setdefault(gap, []).append(member.name)
    for gap, names in sorted(thick.items()):
        rows.append(BringRow(words("line-flange shim"), len(names), amount(gap, view.unit), ", ".join(names)))
    if loose := view.stand_off:
        thin = f"{amount(SHIM_OVER, view.unit)}, {amount(2 * SHIM_OVER, view.unit)}"
        rows.append(BringRow(words("line-loose-shim"), len(loose), thin, ", ".join(loose)))
    return tuple(rows)


def _screws(view: PlanView, words: Words) -> tuple[tuple[ScrewRow, ...], str]:
    members = {member.name: member for wall in view.walls for member in view.members(wall)}
    if view.screw(next(iter(members.values()))) is None:
        return (), words("screws-unknown")
    by: dict[tuple[Fraction, str], list[str]] = {}
    for member in members.values():
        need = view.screw(member)
        assert need is not None
        key = (need.screw if need.screw is not None else Fraction(99), screw_words(view, member, words))
        by.setdefault(key, []).append(member.name)
    lines = view.cuts.lines if view.cuts is not None else ()
    counts = {line.length or Fraction(99): line.count for line in lines if line.kind == "board screw"}
    rows = [
        ScrewRow(
            text + (f", {words('screws-buy')}" if names[0] in view.to_buy else ""),
            words("screws-count", count=counts[at]) if at in counts else "",
            ", ".join(names),
        )
        for (at, text), names in sorted(by.items())
    ]
    apart = amount(SCREWS_APART[view.own_unit], view.unit)
    return tuple(rows), words("screws-note", apart=apart) if counts else ""


def _how(view: PlanView, words: Words) -> tuple[str, ...]:
    """What a crew has to know to read the sheet."""
    zero = ", ".join(f"{words.wall(w)} {amount(view.read(w).nominal, view.unit)}" for w in view.walls)
    keys = ("amount", "strips", "hatch", "marks", "heights")
    return words("how-line", zero=zero), *(words(f"how-{key}") for key in keys)


def _reread(view: PlanView, words: Words) -> tuple[Grid, ...]:
    """Boxes at what was changed and what stands next to it, and nowhere else.

    A stud with strips that wait is read twice: with them off, and with them on after the pan is set.
    """
    assert view.plan is not None
    places = {(each.stud, each.height) for each in asked(view.plan)}
    grids = []
    for wall in view.walls:
        hangs = {(each.stud, each.height) for each in view.line(wall)}
        if any(stud in {m.name for m in view.members(wall)} for stud, _ in places):
            places |= hangs
        members = [m for m in view.members(wall) if any((m.name, z) in places for z in m.heights)]
        if members:
            late = [m for m in members if view.waits(m)]
            title = words("reread-first", wall=words.wall(wall)) if late else words.wall(wall)
            open_at = {(m.name, z) for m in members for z in m.heights if (m.name, z) in places}
            grids.append(_boxes_of(view, members, open_at, title))
            if late:
                grids[-1] = replace(
                    grids[-1], filled=_without(view, late), note=_still_off(view, wall, words)
                )
    for wall in view.walls:
        if late := [m for m in view.members(wall) if view.waits(m)]:
            pieces = words.listed([each for each in waiting_pieces(view) if each.split()[0][0] == wall])
            title = words("reread-after", wall=words.wall(wall), list=pieces)
            grids.append(_boxes_of(view, late, {(m.name, z) for m in late for z in _later(view, m)}, title))
    return tuple(grids)


def _boxes_of(
    view: PlanView, members: Sequence[MemberPlan], open_at: set[tuple[str, Fraction]], title: str
) -> Grid:
    """Boxes of some studs of a wall, from the lowest open height to the highest."""
    at = [z for _, z in open_at]
    heights = [z for z in members[0].heights if min(at) <= z <= max(at)]
    labels = tuple((place(z, view.unit), "") for z in heights)
    boxes = tuple(
        f"{m.name}|{place(z, view.unit)}" for m in members for z in heights if (m.name, z) in open_at
    )
    return Grid(title, tuple(member.name for member in members), labels, asked=boxes)


def _still_off(view: PlanView, wall: str, words: Words) -> str:
    pieces = [each for each in waiting_pieces(view) if each.split()[0][0] == wall]
    return words("reread-off", list=words.listed(pieces))


def _later(view: PlanView, member: MemberPlan) -> list[Fraction]:
    """Heights of a stud that its waiting strips cover."""
    late = view.waits(member)
    return [z for h, z in enumerate(member.heights) if any(p.first <= h <= p.last for p in late)]


def _without(view: PlanView, members: Sequence[MemberPlan]) -> dict[str, str]:
    """What each of these reads while its waiting strips are off."""
    told = {}
    for member in members:
        nominal = view.read(member.wall).nominal
        for h, (z, face) in enumerate(zip(member.heights, member.finished, strict=True)):
            off = sum((p.thickness for p in view.waits(member) if p.first <= h <= p.last), Fraction(0))
            key = f"{member.name}|{place(z, view.unit)}"
            told[key] = amount(nominal - face + off, view.unit, mark=view.unit == "in")
    return told


def _finish(view: PlanView, words: Words, whys: Whys) -> Whys:
    """The rows of the table at the back for figures that stand once: shims and screws."""
    unit = view.unit
    shimmed = [m.name for wall in view.walls for m in view.members(wall) if view.shim(m) is not None]
    if shimmed:
        whys.mark(
            words("do-shim"),
            ", ".join(in_order(view, shimmed)),
            words("why-shim-rule", gap=amount(SHIM_OVER, unit)),
            words.source("convention-3"),
            "undertile explain JOB gap",
        )
    board = view.rebuild.job.framing.finish.board
    if board is not None:
        figures = {
            "board": placed(board.inches, unit),
            "wood": amount(INTO_WOOD, unit),
            "steel": amount(PAST_STEEL, unit),
        }
        whys.mark(
            words("screws-head"),
            "",
            words("why-screw-rule", **figures),
            words.source("practice-screw"),
            "undertile explain JOB screws",
        )
    return whys
