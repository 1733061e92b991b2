"""Notches and holes in joists against the code: IRC R502.8.1 for sawn lumber, R502.8.2 for what is not.

Limits are shares of the joist's actual depth (2015 to 2021 text). Sawn lumber only: an engineered member is
cut by its maker's rules or an engineer's, and so is one whose make is not known (convention 4.5).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.floor.facts import CutLimits, JoistHole, JoistNotch, Make
from undertile.lengths import Unit
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence, form

KEEP = Fraction(2)
"""A hole keeps this from top, bottom, another hole or a notch, IRC R502.8.1. [in]"""
THICK = Fraction(7, 2)
"""Actual thickness of 4 in nominal: from there on no notch in the tension side but at the ends. [in]"""
IRC = form("IRC R502.8.1, 2015 to 2021 text")
SAWN, OTHER = "irc-r502.8.1", "irc-r502.8.2"
ENGINEER = Sentence("Have an engineer say what carries it; do not cut more here.")


@dataclass(frozen=True)
class Member:
    """What the rules need to know of a joist. [in]"""

    name: str
    make: Make
    width: Fraction | None
    depth: Fraction | None
    span: Fraction | None
    notches: dict[str, JoistNotch]
    holes: dict[str, JoistHole]
    unit: Unit = "in"
    limits: CutLimits = field(default_factory=CutLimits)

    @property
    def keep(self) -> Fraction:
        """Wood left around a hole. [in]"""
        return KEEP if self.limits.keep is None else self.limits.keep.inches

    def near(self, value: Fraction) -> str:
        """A length as it prints."""
        return say(value, self.unit)


def which_side(name: str) -> str:
    """What to say of a notch whose side nobody typed: a joist carries more of one on top (convention 4.5)."""
    return Sentence("Say which side notch {name} is in, top or underside.", name=name)


def cut_checks(member: Member) -> list[Check]:
    """One check for each rule a notch or hole comes under; those with an impossible size are left out."""
    out: list[Check] = []
    for name, notch in member.notches.items():
        if not _impossible_notch(member, notch):
            out += _notch(member, name, notch)
    for name, hole in member.holes.items():
        if not _impossible_hole(member, hole):
            out += _hole(member, name, hole)
    return out


def impossible(member: Member) -> list[Finding]:
    """A notch or hole that cannot be in this joist: misread, so it is not judged, and nothing is lost."""
    out = []
    for name, notch in member.notches.items():
        if said := _impossible_notch(member, notch):
            out.append(_odd("joist-notch-odd", f"{member.name} notch {name}", *said))
    for name, hole in member.holes.items():
        if said := _impossible_hole(member, hole):
            out.append(_odd("joist-hole-odd", f"{member.name} hole {name}", *said))
    return out


def odd_cuts(member: Member) -> Iterator[str]:
    """The same by name: of such a joist nobody can say what it carries, nor can an engineer have."""
    for name, notch in member.notches.items():
        if _impossible_notch(member, notch):
            yield Sentence("notch {name}", name=name)
    for name, hole in member.holes.items():
        if _impossible_hole(member, hole):
            yield Sentence("hole {name}", name=name)


def _odd(code: str, where: str, expected: str, found: str) -> Finding:
    step = Sentence("Measure it and the joist again.")
    return Finding(code, Severity.ACT, where, expected, found, step, SAWN)


def _impossible_notch(member: Member, notch: JoistNotch) -> tuple[str, str] | None:
    depth, deep = member.depth, notch.depth.inches
    if depth is not None and deep >= depth:
        found = Sentence("the notch is {depth} deep", depth=member.near(deep))
        return Sentence("less than the joist's {depth}", depth=member.near(depth)), found
    end = notch.start.inches + (0 if notch.over_bearing else notch.length.inches)
    if member.span is not None and end > member.span:
        found = Sentence("the notch ends at {end}", end=member.near(end))
        return Sentence("within the span of {span}", span=member.near(member.span)), found
    return None


def _impossible_hole(member: Member, hole: JoistHole) -> tuple[str, str] | None:
    depth, size, top = member.depth, hole.diameter.inches, hole.top.inches
    if depth is not None and top + size > depth:
        found = Sentence("the hole is {size} wide", size=member.near(size))
        if size <= depth:
            below = form("the hole is {size} wide and starts {top} below the top")
            found = Sentence(below, size=member.near(size), top=member.near(top))
        return Sentence("a hole inside the joist's {depth}", depth=member.near(depth)), found
    if member.span is not None and hole.at.inches > member.span:
        return (
            Sentence("within the span of {span}", span=member.near(member.span)),
            Sentence("the hole is at {at}", at=member.near(hole.at.inches)),
        )
    return None


def _not_by_this_rule(member: Member, topic: Topic) -> Check | None:
    """A member that is not sawn, may not be, or was not measured."""
    if member.make == "engineered":
        return Topic(topic.code, topic.title, topic.where, OTHER).not_shown(
            Sentence("its maker's rules"),
            Sentence("Look the cut up in the maker's sheet, or ask an engineer."),
        )
    if member.make == "unknown":
        return topic.not_shown(
            Sentence("sawn lumber's rules, or its maker's"),
            Sentence("Find out whether the joist is sawn lumber."),
        )
    if member.depth is None:
        return topic.not_shown(
            Sentence("a share of its depth"), Sentence("Measure the joist's actual depth.")
        )
    return None


def _notch(member: Member, name: str, notch: JoistNotch) -> Iterator[Check]:
    where = f"{member.name} notch {name}"
    head = Topic(f"joist-notch-depth-{member.name}-{name}", "Depth of the notch", where, SAWN)
    if (early := _not_by_this_rule(member, head)) is not None or member.depth is None:
        if early is not None:
            yield early
        return
    share = "end_notch" if notch.over_bearing else "notch_depth"
    parts = getattr(member.limits, share)
    because = _share(member, share, member.depth)
    yield head.judge(
        notch.depth.inches,
        None,
        member.depth / parts,
        member.unit,
        because=because,
        fix=ENGINEER,
        worked_to=True,
    )
    if notch.over_bearing:
        return
    yield Topic(f"joist-notch-length-{member.name}-{name}", "Length of the notch", where, SAWN).judge(
        notch.length.inches,
        None,
        member.depth / member.limits.notch_length,
        member.unit,
        because=_share(member, "notch_length", member.depth),
        fix=ENGINEER,
        worked_to=True,
    )
    yield _place(member, name, notch, where)
    if notch.side != "top" and (member.width is None or member.width >= THICK):
        yield _tension(member, name, where, said=notch.side == "bottom")


def _share(member: Member, name: str, depth: Fraction) -> tuple[str, ...]:
    """Where a limit comes from: the share, the edition; why it is stricter (looser: ``floor.ownlimits``)."""
    limits, usual = member.limits, getattr(CutLimits(), name)
    parts = getattr(limits, name)
    edition: str = limits.edition
    if edition == IRC:  # ours is said in the person's language; what was typed stays
        edition = Sentence(IRC) if parts == usual else Sentence("section and edition not said")
    said = Sentence(
        "1/{parts} of the joist's actual {depth}, {edition}",
        parts=parts,
        depth=member.near(depth),
        edition=edition,
    )
    return (said, limits.reason) if limits.reason and parts > usual else (said,)


def _place(member: Member, name: str, notch: JoistNotch, where: str) -> Check:
    topic = Topic(f"joist-notch-place-{member.name}-{name}", "Notch out of the middle third", where, SAWN)
    if member.span is None:
        return topic.not_shown(
            Sentence("in an outer third of the span"), Sentence("Measure the joist's clear span.")
        )
    low, high = notch.start.inches, notch.start.inches + notch.length.inches
    third = member.span / 3
    clear = max(third - high, low - 2 * third)
    return topic.said(
        Verdict.PASS if clear >= 0 else Verdict.FAIL,
        Sentence("{low} to {high}", low=member.near(low), high=member.near(high)),
        Sentence("not between {low} and {high}", low=member.near(third), high=member.near(2 * third)),
        margin=say(clear, member.unit, "down", signed=True),
        because=(Sentence("thirds of the clear span of {span}", span=member.near(member.span)),),
        step=ENGINEER,
    )


def _tension(member: Member, name: str, where: str, *, said: bool) -> Check:
    topic = Topic(f"joist-notch-side-{member.name}-{name}", "Notch in the underside", where, SAWN)
    limit = Sentence("none in a joist 4 in nominal or thicker, but at its ends")
    if member.width is None:
        return topic.not_shown(limit, Sentence("Measure the joist's actual thickness."))
    if not said:
        return topic.not_shown(limit, which_side(name))
    thick = Sentence("{width} thick", width=member.near(member.width))
    return topic.said(Verdict.FAIL, thick, limit, step=ENGINEER)


def _hole(member: Member, name: str, hole: JoistHole) -> Iterator[Check]:
    where = f"{member.name} hole {name}"
    head = Topic(f"joist-hole-{member.name}-{name}", "Width of the hole", where, SAWN)
    if (early := _not_by_this_rule(member, head)) is not None or member.depth is None:
        if early is not None:
            yield early
        return
    size, top = hole.diameter.inches, hole.top.inches
    because = _share(member, "hole", member.depth)
    yield head.judge(
        size,
        None,
        member.depth / member.limits.hole,
        member.unit,
        because=because,
        fix=ENGINEER,
        worked_to=True,
    )
    left, what = min(
        [
            (top, Sentence("the joist's top")),
            (member.depth - top - size, Sentence("its bottom")),
            *_others(member, name, hole),
        ]
    )
    yield Topic(f"joist-hole-edge-{member.name}-{name}", "Wood left around the hole", where, SAWN).judge(
        left,
        member.keep,
        None,
        member.unit,
        because=(Sentence("least toward {what}", what=what),),
        fix=ENGINEER,
    )


def _others(member: Member, name: str, hole: JoistHole) -> Iterator[tuple[Fraction, str]]:
    """Wood between a hole and each other hole or notch, along the joist: never more than there is."""
    low = hole.at.inches - hole.diameter.inches / 2
    high = low + hole.diameter.inches
    for other, its in member.holes.items():
        if other != name and not _impossible_hole(member, its):
            start = its.at.inches - its.diameter.inches / 2
            yield max(start - high, low - start - its.diameter.inches), Sentence("hole {name}", name=other)
    for other, notch in member.notches.items():
        if not _impossible_notch(member, notch):
            start = notch.start.inches
            end = start + notch.length.inches
            yield max(start - high, low - end), Sentence("notch {name}", name=other)
