"""Board screws for each board-and-strip stack, and their tips against pipes and cables.

A screw is as long as the board, what packs it out from the stud, and 3/4 in of wood (3/8 past steel). Strips
count as packing, not as wood to hold in. A sistered, replaced or channelled face has no packing.

One story for each stud: the screw on the van where it reaches and its tip keeps clear of every pipe and
cable; else the shortest that is sold and reaches, said to be not on the van.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.facts import Service
from undertile.framing.plan import MemberPlan
from undertile.framing.planing import PLATED, SERVICE
from undertile.framing.prices import read_prices
from undertile.framing.say import SERVICES
from undertile.framing.words import WorkStep
from undertile.lengths import format_length
from undertile.pan.built import ZERO, Built, between
from undertile.pan.judge import Topic
from undertile.pan.say import say, window
from undertile.pan.seat import inches
from undertile.sentence import Sentence, joined

SCREWS = tuple(Fraction(length) for length in ("5/4", "13/8", "2", "9/4", "5/2"))
"""Lengths board screws are sold in, from a plain list: 1-1/4, 1-5/8, 2, 2-1/4, 2-1/2. [in]"""
INTO_WOOD = Fraction(3, 4)
PAST_STEEL = Fraction(3, 8)
"""What the screw holds in (practice-screw). [in]"""
TIP_CLEAR = PLATED
"""A screw's tip keeps this far from a pipe or cable that no plate covers; ours. [in]"""
SHIELD_WARN = Fraction(3, 2)
"""Between 1-1/4 and this some codes want a plate too. [in]"""
NEW_FACE = frozenset({"sister", "replace"})
"""Families whose face is the stud itself: nothing packs the board out."""


@dataclass(frozen=True)
class Need:
    """The screw one stud needs. Lengths in inches.

    Attributes
    ----------
    member : MemberPlan
    packing : Fraction
        Most that packs the board out from what the screw holds in, over the stud's heights.
    holds : Fraction
        3/4 into wood, 3/8 past steel.
    screw : Fraction or None
        The one to use there; None when none that is sold reaches.
    on_van : bool or None
        Whether that is the screw on the van; None where it is not said what is.
    """

    member: MemberPlan
    packing: Fraction
    holds: Fraction
    screw: Fraction | None
    on_van: bool | None = None


def packing_at(member: MemberPlan) -> tuple[Fraction, ...]:
    """What packs the board out from the stud at each height: strips, taper, wet bed. [in]

    Planing is not packing, and a knocked-over stud, a sister, a new stud or a channel is its own face.
    """
    families = set(member.recipe.families)
    if families & NEW_FACE or families & {"channel", "knock over"}:
        return tuple(ZERO for _ in member.heights)
    depth = member.recipe.depth or tuple(ZERO for _ in member.heights)
    return tuple(max(a + d, ZERO) for a, d in zip(member.amounts, depth, strict=True))


def packing_beside(member: MemberPlan, height: Fraction) -> Fraction:
    """What surely packs the board out from the stud at a height that need not be one read. [in]

    The safe side for a screw's tip: a strip counts only where it lies at the heights read on both sides (it
    ends somewhere between them), a wet bed with the thinner of both; a taper runs straight. A hollow between
    strip and plane is no packing: the screw pulls the board down on the strip.
    """
    z, packing = member.heights, packing_at(member)
    if member.recipe.taper is not None:
        return between(z, list(packing), height)
    below = max((h for h, at in enumerate(z) if at <= height), default=0)
    above = min((h for h, at in enumerate(z) if at >= height), default=len(z) - 1)
    least = min(packing[below], packing[above])
    if not member.recipe.pieces or not least:
        return least
    both = (p.thickness for p in member.recipe.pieces if p.first <= below and above <= p.last)
    return min(least, sum(both, ZERO))


def screw_need(built: Built, member: MemberPlan, board: Fraction) -> Need:
    """The screw for one stud, from its thickest stack: the van's where it is right, else the one to buy."""
    steel = built.stud(member).kind == "steel" or "channel" in member.recipe.families
    holds = PAST_STEEL if steel else INTO_WOOD
    packing = max(packing_at(member), default=ZERO)
    least = board + packing + holds
    sold = next((s for s in SCREWS if s >= least), None)
    have = inches(built.framing.finish.screw)
    if have is None:
        return Need(member, packing, holds, sold)
    # Where not even the shorter one keeps clear a plate goes in, and then the van's will do.
    right = have >= least and (
        sold is None or _clears(built, member, have, board) or not _clears(built, member, sold, board)
    )
    return Need(member, packing, holds, have if right else sold, right)


def _clears(built: Built, member: MemberPlan, screw: Fraction, board: Fraction) -> bool:
    """Whether a screw's tip keeps clear of every pipe and cable of a stud that no plate covers."""
    rooms = [
        tip_room(member, service, screw, board)
        for _, service in built.stud(member).services
        if not service.plated and "replace" not in member.recipe.families
    ]
    return all(room >= TIP_CLEAR for room in rooms)


def tip_room(member: MemberPlan, service: Service, screw: Fraction, board: Fraction) -> Fraction:
    """From a board screw's tip to a pipe or cable at its height; minus where it ends past its edge. [in]"""
    height = service.height.inches
    return _left(member, service) - (screw - board - packing_beside(member, height))


def _left(member: MemberPlan, service: Service) -> Fraction:
    """From a pipe or cable to the stud's own face once it is planed. [in]"""
    return service.clear.inches - _planed(member, service)


def _planed(member: MemberPlan, service: Service) -> Fraction:
    depth = member.recipe.depth or tuple(ZERO for _ in member.heights)
    return max(between(member.heights, list(depth), service.height.inches), ZERO)


def screw_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """One check for each wall, and which screw goes where.

    Returns
    -------
    checks : list of Check
    order : list of WorkStep
    """
    checks: list[Check] = []
    order: list[WorkStep] = []
    for wall in built.walls:
        if built.members(wall):
            check, steps = _wall(built, wall)
            checks.append(check)
            order += steps
    return checks, order


def _wall(built: Built, wall: str) -> tuple[Check, list[WorkStep]]:
    topic = Topic(f"screws-{wall}", "Board screws", f"wall {wall}", "practice-screw")
    limit = Sentence(
        "board, packing and {wood} into wood ({steel} past steel)",
        wood=built.near(INTO_WOOD),
        steel=built.near(PAST_STEEL),
    )
    board = inches(built.framing.finish.board)
    if board is None:
        return topic.not_shown(limit, Sentence("Measure the thickness of the board.")), []
    needs = [screw_need(built, member, board) for member in built.members(wall)]
    value = _listed(built, needs)
    because = _stacks(built, needs, board)
    if too_thick := [need.member.name for need in needs if need.screw is None]:
        step = Sentence(
            "Screw the strips of {studs} to the stud on their own, and the board to them.",
            studs=", ".join(too_thick),
        )
        return topic.said(Verdict.FAIL, value, limit, because=because, step=step), []
    names = {need.member.name: _screw(built, need.screw or ZERO) for need in needs}
    order = [WorkStep("board screws", (wall,), tuple(names), f"Board screws, wall {wall}: {value}.", names)]
    have = inches(built.framing.finish.screw)
    if have is None:
        return topic.said(Verdict.PASS, value, limit, because=because), order
    because.append(Sentence("on the van: {screw}", screw=_screw(built, have)))
    least = {need.member.name: board + need.packing + need.holds for need in needs}
    short = [need for need in needs if have < least[need.member.name]]
    because += [
        Sentence(
            "not the {screw} at {stud}: its tip would end too near a pipe or cable",
            screw=_screw(built, have),
            stud=need.member.name,
        )
        for need in needs
        if not need.on_van and need not in short
    ]
    if not short:
        spare = min(have - each for each in least.values())
        margin = built.down(spare, signed=True)
        return topic.said(Verdict.PASS, value, limit, margin=margin, because=because), order
    worst = max(short, key=lambda need: need.packing + need.holds)
    lacks = least[worst.member.name] - have
    into = max(have - board - worst.packing, ZERO)
    because.append(
        Sentence(
            "the screw on the van leaves {into} at {stud}", into=built.down(into), stud=worst.member.name
        )
    )
    longer = max(need.screw for need in short if need.screw is not None)
    at = ", ".join(need.member.name for need in short)
    step = Sentence(
        "Change to {screw} screws at {studs}: not on the van, buy them.",
        screw=_screw(built, longer),
        studs=at,
    )
    eats = joined(
        Sentence("{stud} packed out {packing}", stud=n.member.name, packing=built.up(n.packing))
        for n in short
        if n.packing
    )
    margin = built.down(-lacks, signed=True)
    return topic.said(Verdict.FAIL, value, limit, margin=margin, because=because, eats=eats, step=step), order


def _stacks(built: Built, needs: list[Need], board: Fraction) -> list[str]:
    """What each packed stud's screw goes through, and which studs are only taken as wood."""
    because: list[str] = [
        Sentence(
            "{stud}: board {board}, packing {packing}, {holds} past steel"
            if need.holds == PAST_STEEL
            else "{stud}: board {board}, packing {packing}, {holds} into wood",
            stud=need.member.name,
            board=built.near(board),
            packing=built.up(need.packing),
            holds=built.near(need.holds),
        )
        for need in needs
        if need.packing
    ]
    unsure = [need.member.name for need in needs if built.stud(need.member).kind == "unknown"]
    if unsure:
        because.append(Sentence("taken as wood, not known: {studs}", studs=", ".join(unsure)))
    return because


def _listed(built: Built, needs: list[Need]) -> str:
    """Which screw goes where, the shortest first, and which of them has to be bought."""
    groups: dict[Fraction | None, list[Need]] = {}
    for need in needs:
        groups.setdefault(need.screw, []).append(need)
    return joined(
        (_group(built, screw, groups[screw]) for screw in sorted(groups, key=lambda s: s or Fraction(99))),
        "{first}; {then}",
    )


def _screw(built: Built, length: Fraction) -> str:
    """A screw by the name it is sold under, with millimetres beside it in a job in mm; else by its length."""
    if length not in SCREWS or built.unit == "in":
        return built.near(length)
    return f"{say(length, 'in')} ({built.near(length)})"


def _group(built: Built, screw: Fraction | None, needs: list[Need]) -> str:
    names = ", ".join(need.member.name for need in needs)
    if screw is None:
        return Sentence("no listed screw reaches at {studs}", studs=names)
    return Sentence(
        "{screw} at {studs} (not on the van: buy)" if needs[0].on_van is False else "{screw} at {studs}",
        screw=_screw(built, screw),
        studs=names,
    )


def service_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """Pipe and cable against the stud's new face, then against the screw tips; and where a plate goes.

    Returns
    -------
    checks : list of Check
    order : list of WorkStep
    """
    checks: list[Check] = []
    order: list[WorkStep] = []
    for wall in built.walls:
        for member in built.members(wall):
            if "replace" in member.recipe.families:
                continue  # a new stud is bored anew: the service is set by then
            for name, service in built.stud(member).services:
                both = [_plate(built, member, name, service), *_tip(built, member, name, service)]
                checks += both
                if not service.plated and any(check.verdict is Verdict.FAIL for check in both):
                    order.append(_let_in(built, member, name, service))
    return checks, order


def _let_in(built: Built, member: MemberPlan, name: str, service: Service) -> WorkStep:
    """The plate as a step of its own: the plan's cost does not hold it (convention 4.3 prices it)."""
    prices, _ = read_prices(built.framing)
    minutes, dollars = prices["nail_plate"], prices["nail_plate_dollars"]
    at = f"{member.name} at {built.near(service.height.inches)}"
    text = (
        f"Let a nail plate in flush on {at}, over the {service.what} {name} "
        f"({format_length(minutes)} min and ${float(dollars):.2f}, beyond the plan's cost)."
    )
    data = {"height": built.near(service.height.inches), "service": name, "what_it_is": service.what}
    return WorkStep("nail plate", (member.wall,), (member.name,), text, data)


def _plate(built: Built, member: MemberPlan, name: str, service: Service) -> Check:
    planed, left = _planed(member, service), _left(member, service)
    where = f"{member.name} at {built.near(service.height.inches)}"
    topic = Topic(
        f"plate-{member.name}-{name}", f"Nail plate at {service.what} {name}", where, "shield-plate"
    )
    because: list[str] = [
        Sentence(
            "{what} {clear} behind the face as read",
            what=SERVICES[service.what],
            clear=built.down(service.clear.inches),
        ),
        *((Sentence("planed {planed}", planed=built.up(planed)),) if planed else ()),
    ]
    eats = Sentence("planing {planed}", planed=built.up(planed)) if planed else ""
    if service.plated:
        because.append(Sentence("a plate covers it"))
        least = min(PLATED, service.clear.inches)
        fix = Sentence("Plane less there: the plate needs wood before the pipe.")
        return topic.judge(left, least, None, built.unit, because=because, eats=eats, fix=fix)
    if SERVICE <= left < SHIELD_WARN:
        because.append(
            Sentence(
                "sources disagree: some codes ask for a plate under {least}", least=built.near(SHIELD_WARN)
            )
        )
    fix = Sentence("Let a nail plate in flush on {where}, or strip round it.", where=where)
    return topic.judge(left, SERVICE, None, built.unit, because=because, eats=eats, fix=fix)


def _tip(built: Built, member: MemberPlan, name: str, service: Service) -> list[Check]:
    """The board screw's tip against one pipe or cable, as the van's screw would end; none behind a plate.

    Judged on what is on the van even where another is listed for the stud: it is the one in the hand.
    """
    if service.plated:
        return []
    height = built.near(service.height.inches)
    where = f"{member.name} at {height}"
    title = f"Screw tip at {service.what} {name}"
    topic = Topic(f"tip-{member.name}-{name}", title, where, "practice-screw-tip")
    least = window(TIP_CLEAR, None, built.unit)
    board = inches(built.framing.finish.board)
    if board is None:
        return [topic.not_shown(least, Sentence("Measure the thickness of the board."))]
    need = screw_need(built, member, board)
    have = inches(built.framing.finish.screw)
    screw = need.screw if have is None or have < board + need.packing + need.holds else have
    if screw is None:
        measure = Sentence("No listed screw reaches at {stud}: see the board screws.", stud=member.name)
        return [topic.not_shown(least, measure)]
    room = tip_room(member, service, screw, board)
    packing = packing_beside(member, service.height.inches)
    said = _screw(built, screw)

    def shown(value: str) -> str:
        if room < 0:
            return Sentence("a {screw} screw ends {past} past its edge", screw=said, past=built.up(-room))
        return Sentence("a {screw} screw stops {short} before it", screw=said, short=value)

    fix: str = Sentence(
        "Let a nail plate in flush on {where}; without one no screw at {height}.", where=where, height=height
    )
    if need.screw is not None and need.screw != screw:
        fix = Sentence("{use} Or: {plate}", use=_shorter(built, need, service, board), plate=fix)
    through = Sentence("board {board}", board=built.near(board))
    if packing:
        through = Sentence("{board} and packing {packing}", board=through, packing=built.down(packing))
    because = (
        Sentence(
            "{what} {left} behind the stud's face",
            what=SERVICES[service.what],
            left=built.down(_left(member, service)),
        ),
        Sentence(
            "through {what} the screw goes {into} into the stud",
            what=through,
            into=built.up(screw - board - packing),
        ),
    )
    return [topic.judge(room, TIP_CLEAR, None, built.unit, shown=shown, because=because, fix=fix)]


def _shorter(built: Built, need: Need, service: Service, board: Fraction) -> str:
    """What the shorter screw would leave."""
    screw = need.screw or ZERO
    room = tip_room(need.member, service, screw, board)
    return Sentence(
        "Use {screw} screws on {stud} (not on the van: buy; the tip stops {room} before it).",
        screw=_screw(built, screw),
        stud=need.member.name,
        room=built.down(room),
    )
