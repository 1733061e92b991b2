"""Each wall's part of the crew sheet: where its faces end, and a card for each stud that is touched."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType

from undertile.framing.plan import MemberPlan, Piece, Plane
from undertile.framing.problem import PASS
from undertile.framing.say import stock_named
from undertile.framing.words import bottom_up, marks
from undertile.lengths import MM, Unit
from undertile.packet.content import HeightRow, Layer, Step, StudCard, WallPart
from undertile.packet.ends import BAND, ends_off
from undertile.packet.figures import amount, place, placed
from undertile.packet.fitting import LETTERS
from undertile.packet.held import plane_held, stud_held
from undertile.packet.keep_off import keep_off
from undertile.packet.plan_view import PlanView
from undertile.packet.whys import Whys
from undertile.packet.words import Words

_ZERO = Fraction(0)


def wall_parts(
    view: PlanView, words: Words, whys: Whys, over: Mapping[str, str] = MappingProxyType({})
) -> tuple[WallPart, ...]:
    """A part for each wall, in the order a crew walks them.

    Parameters
    ----------
    view : PlanView
    words : Words
    whys : Whys
    over : mapping of str to str
        By the name of a wall or stud that is held, what of it was read in doubt (``held.held_over``).
    """
    return tuple(_wall(view, wall, words, whys, over) for wall in view.walls)


def treatment(member: MemberPlan, words: Words) -> str:
    """What is done to a stud, in a word or two."""
    named = ["re-set" if member.recipe.reset and f == "replace" else f for f in member.recipe.families]
    families = [*named, *(["shim"] if member.recipe.flange_shim else [])]
    return " + ".join(words(f"do-{each}") for each in families) or words("do-leave")


def run_words(heights: Sequence[Fraction], piece: Piece, words: Words, unit: Unit) -> str:
    """The heights a strip covers: ``full height``, ``from 18" to 72"``, ``at 48" only``."""
    if piece.first == piece.last:
        if len(heights) == 1:
            return words("full-height")
        return words("at", height=placed(heights[piece.first], unit))
    if piece.first == 0 and piece.last == len(heights) - 1:
        return words("full-height")
    low, high = placed(heights[piece.first], unit), placed(heights[piece.last], unit)
    return words("from-height", low=low, high=high)


def strip_words(view: PlanView, member: MemberPlan, piece: Piece, words: Words) -> str:
    """A strip as it is cut and where it lies: stock, actual thickness, length, heights."""
    unit = view.unit
    stock, parts = stock_named(words.stuff(piece.stock), piece.thickness, unit), view.strips(member, piece)
    if not parts:
        return words("strip-no-length", stock=stock, run=run_words(member.heights, piece, words, unit))
    place_of = {"low": placed(parts[0].low, unit), "high": placed(parts[-1].high, unit)}
    lengths = [amount(part.length, unit) for part in parts]
    if len(parts) > 1:
        return words("strip-parts", stock=stock, lengths=" + ".join(lengths), **place_of)
    return words("strip", stock=stock, length=lengths[0], **place_of)


def _wall(view: PlanView, wall: str, words: Words, whys: Whys, over: Mapping[str, str]) -> WallPart:
    assert view.plan is not None
    plane, members, unit = view.plan.planes[wall], view.members(wall), view.unit
    nominal = view.read(wall).nominal
    why = whys.mark(
        words.wall(wall),
        words("why-readings-of", studs=", ".join(member.name for member in members)),
        words("why-plane-rule"),
        words.source("convention-4"),
        f"undertile explain JOB plane {wall}",
    )
    facing = [(member.name, treatment(member, words)) for member in members]
    cards = tuple(
        _card(view, member, words, whys, over.get(member.name, "")) for member in members if member.touched
    )
    alike: dict[str, list[MemberPlan]] = {}
    for member in members:
        if not member.touched:
            alike.setdefault(_small(view, member, words, over.get(member.name, "")), []).append(member)
    small = tuple((", ".join(m.name for m in each), said) for said, each in alike.items())
    small_whys = tuple(", ".join(_why(view, m, words, whys) for m in each) for each in alike.values())
    return WallPart(
        wall=wall,
        title=words.wall(wall),
        plane=" ".join(
            each
            for each in (
                plane_words(plane, nominal, members, words, unit),
                plane_held(view.rebuild.job.framing, wall, words),
                over.get(wall, ""),
            )
            if each
        ),
        why=why,
        good=_good(view, wall, words),
        line=_line(view, wall, words),
        facing=tuple(reversed(facing) if wall == "L" else facing),
        cards=cards,
        small=small,
        small_whys=small_whys,
    )


def _good(view: PlanView, wall: str, words: Words) -> str:
    """Between which readings a face is right (convention 3.3): figures where the plane is one reading."""
    assert view.plan is not None
    plane, unit, zone = view.plan.planes[wall], view.unit, view.built.flange(wall)
    band = amount(BAND, unit)
    if plane.skew or plane.lean or plane.step:
        return words("good-lean", band=band) if zone else words("good-lean-no-pan", band=band)
    reads = view.read(wall).nominal - plane.at(_ZERO, _ZERO)
    low, on, high = (amount(each, unit) for each in (reads - BAND, reads, reads + BAND))
    if not zone:
        return words("good-no-pan", low=low, high=high)
    top = placed(zone[-1], unit)
    return words("good", top=top, on=on, low=low, high=high)


def _line(view: PlanView, wall: str, words: Words) -> str:
    """By which readings the line is hung again, and at which of them that still holds after the work."""
    spots, unit = view.line(wall), view.unit
    if not spots:
        return words("line-not-told")
    listed = [
        words(
            "line-spot",
            reading=amount(each.reading, unit),
            stud=each.stud,
            height=placed(each.height, unit),
        )
        for each in spots
    ]
    text = words("line-hangs", list=words.listed(listed))
    same = {m.name: dict(zip(m.heights, m.amounts, strict=True)) for m in view.members(wall)}
    stay = [said for each, said in zip(spots, listed, strict=True) if not same[each.stud][each.height]]
    if not stay:
        return f"{text} {words('line-marks')}"
    return text if len(stay) == len(spots) else f"{text} {words('line-stays', list=words.listed(stay))}"


def _small(view: PlanView, member: MemberPlan, words: Words, over: str) -> str:
    """A stud that is left, in one line."""
    gap, screw = view.shim(member), screw_words(view, member, words)
    said = words("small-leave") if gap is None else words("small-shim", gap=amount(gap, view.unit))
    said = f"{said}; {words('small-screw', screw=screw)}" if screw else said
    held = stud_held(view.rebuild.job.framing, member.name, words)
    told = [each.rstrip(".") for each in (held, over) if each]
    return ". ".join([*told, said, *(step.text for step in keep_off(view, member, words))])


def plane_words(
    plane: Plane, nominal: Fraction, members: Sequence[MemberPlan], words: Words, unit: Unit
) -> str:
    """Where a wall's faces end, as readings from its line: what a person marks and strings.

    Parameters
    ----------
    plane : Plane
    nominal : Fraction
        The reading that counts as zero. [in]
    members : sequence of MemberPlan
        By rising along.
    words : Words
    unit : {"in", "mm"}
    """
    first, last = members[0], members[-1]
    at = [amount(nominal - plane.at(each.along, _ZERO), unit) for each in (first, last)]
    if at[0] == at[1]:
        text = words("faces-end", reading=at[0])
    else:
        text = words("faces-end-two", first=at[0], first_stud=first.name, last=at[1], last_stud=last.name)
    if plane.lean:
        over, said = (Fraction(96), "8 ft") if unit == "in" else (2400 * MM, "2.4 m")
        key = "lean-in" if plane.lean > 0 else "lean-back"
        text += " " + words(key, lean=amount(abs(plane.lean) * over, unit), over=said)
    else:
        text += ", " + words("plumb")
    if plane.step:
        text += "; " + words("step", step=amount(plane.step, unit))
    return text + "."


def _card(view: PlanView, member: MemberPlan, words: Words, whys: Whys, over: str) -> StudCard:
    layers = _layers(view, member, words)
    return StudCard(
        name=member.name,
        do=treatment(member, words),
        rows=tuple(_rows(view, member)),
        layers=layers,
        steps=tuple(_steps(view, member, layers, words, over)),
        why=_why(view, member, words, whys),
    )


def _layers(view: PlanView, member: MemberPlan, words: Words) -> tuple[Layer, ...]:
    return tuple(
        Layer(
            LETTERS[number],
            stock_named(words.stuff(piece.stock), piece.thickness, view.unit),
            piece.first,
            piece.last,
            piece in view.waits(member),
        )
        for number, piece in enumerate(bottom_up(member.recipe.pieces))
    )


def _rows(view: PlanView, member: MemberPlan) -> list[HeightRow]:
    unit, nominal = view.unit, view.read(member.wall).nominal
    seen = view.offsets(member)
    by_height = {mark.height: mark for mark in marks(replace_shim(member), unit)}
    rows = []
    for h, z in enumerate(member.heights):
        mark = by_height.get(z)
        tokens = tuple(mark.text.split()) if mark else ()
        take = mark.take if mark else _ZERO
        add = mark.add if mark else _ZERO
        rows.append(
            HeightRow(
                height=place(z, unit),
                marks=tuple(token for token in tokens if token in ("X", "↑", "S", "N", "O")),
                take=amount(-take, unit, signed=True, mark=False) if take else "",
                add=amount(add, unit, signed=True, mark=False) if add else "",
                amount=amount(member.amounts[h], unit, signed=True, mark=False),
                exact=str(member.amounts[h]),
                reads=amount(nominal - member.finished[h], unit, mark=unit == "in"),
                not_read=seen[h].state != "read",
            )
        )
    return rows


def replace_shim(member: MemberPlan) -> MemberPlan:
    """The stud without its flange shim: that stands in its steps, not at a height."""
    return replace(member, recipe=replace(member.recipe, flange_shim=False))


def _steps(
    view: PlanView, member: MemberPlan, layers: Sequence[Layer], words: Words, over: str
) -> list[Step]:
    unit, recipe, z = view.unit, member.recipe, member.heights
    steps: list[Step] = []
    if held := stud_held(view.rebuild.job.framing, member.name, words):
        steps += [Step(held), *([Step(over)] if over else [])]
    for stop in view.stops_at(member.name):
        steps.append(Step(words.finding(stop.code, member.name), stop=True))
    if "replace" in recipe.families:
        if view.bears(member) and not any(step.stop for step in steps):
            steps.append(Step(words("recipe-replace-bearing"), stop=True))
        steps.append(Step(words("recipe-re-set" if recipe.reset else "recipe-replace")))
    if recipe.passes:
        said = words("recipe-plane", passes=recipe.passes, step=amount(PASS, unit))
        if any(not depth for depth in recipe.depth):
            said += " " + words("recipe-feather")
        if recipe.depth[-1]:
            said += " " + words("recipe-to-top")
        steps.append(Step(said))
    if recipe.knock is not None:
        key = "recipe-knock-in" if recipe.knock > 0 else "recipe-knock-back"
        steps.append(Step(words(key, amount=amount(abs(recipe.knock), unit))))
    if "sister" in recipe.families:
        steps.append(Step(words("recipe-sister")))
    if "channel" in recipe.families:
        steps.append(Step(words("recipe-channel")))
    steps += keep_off(view, member, words)  # a nail plate goes in before what is fastened over it
    if recipe.taper is not None:
        low, high = (amount(each, unit) for each in recipe.taper)
        ends = {"z_low": placed(z[0], unit), "z_high": placed(z[-1], unit)}
        steps.append(Step(words("recipe-taper", low=low, high=high, **ends)))
    steps += _strip_steps(view, member, layers, words)
    if layers or recipe.taper is not None:
        steps.append(Step(words("recipe-fix")))
    if "wet bed" in recipe.families:
        steps.append(Step(words("recipe-wet-bed")))
    gap = view.shim(member)
    if gap is not None:
        steps.append(Step(words("recipe-shim", gap=amount(gap, unit))))
    screw = screw_words(view, member, words)
    if screw:
        key = "recipe-screw-buy" if member.name in view.to_buy else "recipe-screw"
        steps.append(Step(words(key, screw=screw)))
    if off := ends_off(view, member):
        each = [side for end in off for side in end.off]
        sides = {"lies-behind": -min(each), "lies-proud": max(each)}
        far_off = [words(key, amount=view.built.up(far)) for key, far in sides.items() if far > BAND]
        lie = words.listed(far_off)
        listed = words.listed([placed(end.height, unit) for end in off])
        steps.append(Step(words("recipe-ends", ends=listed, lies=lie, band=amount(BAND, unit)), note=True))
    return steps


def waits_of(view: PlanView, member: MemberPlan, words: Words) -> list[Step]:
    """The strips of a stud that go on only after the pan is set, as its card says them."""
    return [step for step in _strip_steps(view, member, _layers(view, member, words), words) if step.waits]


def _strip_steps(view: PlanView, member: MemberPlan, layers: Sequence[Layer], words: Words) -> Iterator[Step]:
    for layer, piece in zip(layers, bottom_up(member.recipe.pieces), strict=True):
        key = "recipe-strip-after" if layer.waits else "recipe-strip"
        strip = strip_words(view, member, piece, words)
        yield Step(words(key, letter=layer.letter, strip=strip), layer.waits)


def screw_words(view: PlanView, member: MemberPlan, words: Words) -> str:
    """The board screw of a stud: the van's, or by the name it is sold under; "" without a board's size."""
    need = view.screw(member)
    if need is None:
        return ""
    if need.screw is None:
        return words("screws-none-reach")
    van = view.rebuild.job.framing.finish.screw
    if van is not None and need.screw == van.inches:
        return amount(need.screw, view.unit)
    name = amount(need.screw, "in")
    return name if view.unit == "in" else f"{name} ({amount(need.screw, 'mm')})"


def _why(view: PlanView, member: MemberPlan, words: Words, whys: Whys) -> str:
    unit, nominal = view.unit, view.read(member.wall).nominal
    read = tuple(
        (place(each.height, unit), each.text if each.state == "read" else "?")
        for each in view.offsets(member)
    )
    gaps = [o - t for o, t in zip(member.offsets, member.target, strict=True)]
    worst = max(range(len(gaps)), key=lambda h: abs(gaps[h]))
    key = "why-proud" if gaps[worst] > 0 else "why-behind"
    said = words(key, amount=amount(abs(gaps[worst]), unit), height=placed(member.heights[worst], unit))
    rule = words(
        "why-stud-rule",
        nominal=amount(nominal, unit),
        plane=amount(nominal - member.target[worst], unit),
        worst=said,
    )
    source = words.source("convention-3")
    return whys.mark(member.name, "", rule, source, f"undertile explain JOB {member.name}", read)
