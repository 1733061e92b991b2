"""Notch, hole and rip limits by code section after the work, and the stiffness that is left.

IRC R602.6: a notch takes at most 25 % of a bearing or exterior stud's depth, 40 % of another's; a hole's
edge keeps 5/8 in and shares no section with a cut. Planing is a notch in effect. An unknown stud counts as
bearing.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.facts import Hole
from undertile.framing.plan import MemberPlan
from undertile.framing.planing import HOLE_EDGE, NOTCH_BEARING, NOTCH_FREE, section_of
from undertile.framing.stud_is import StudIs
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.say import window

BORED_BEARING = Fraction(2, 5)
BORED_FREE = Fraction(3, 5)
"""Share of the depth a hole may take, IRC R602.6: bearing (60 % when doubled), and not bearing."""


def stiffness_left(depth: Fraction, planed: Fraction) -> Fraction:
    """Share of the bending stiffness left after planing: ``((d - p) / d) ** 3``.

    Parameters
    ----------
    depth, planed : Fraction
        [in]

    Returns
    -------
    Fraction
        0 to 1, as if planed over the full height: the cautious case.

    Raises
    ------
    ValueError
        If the depth is not more than what is planed off.
    """
    if not 0 <= planed < depth:
        raise ValueError(f"planing takes 0 or more and less than the depth {depth} in; {planed} in came")
    return ((depth - planed) / depth) ** 3


def cut_checks(built: Built) -> tuple[list[Check], list[Finding]]:
    """A check for each planed or notched stud and each hole, and a note on stiffness.

    Returns
    -------
    checks : list of Check
    findings : list of Finding
    """
    checks: list[Check] = []
    findings: list[Finding] = []
    for wall in built.walls:
        for member in built.members(wall):
            stud = built.stud(member)
            if "replace" in member.recipe.families or stud.kind in ("steel", "batten"):
                continue
            planed = member.recipe.depth or tuple(ZERO for _ in member.heights)
            if any(planed) or stud.notch:
                checks.append(_notch(built, member, stud, max(planed)))
                findings += _stiffness(built, member, stud, max(planed))
            checks += [_hole(built, member, stud, planed, name, hole) for name, hole in stud.holes]
    return checks, findings


def _percent(share: Fraction) -> str:
    """Rounded up to a whole percent: a share used never prints as less."""
    return f"{-floor(-share * 100)} %"


def _bears(stud: StudIs) -> str:
    if stud.bearing == "unknown":
        return "not known, so counted as bearing"
    return "bearing" if stud.bearing == "yes" else "not bearing"


def _notch(built: Built, member: MemberPlan, stud: StudIs, planed: Fraction) -> Check:
    topic = Topic(f"notch-{member.name}", "Cut against the notch limit", member.name, "irc-r602.6")
    share = NOTCH_BEARING if stud.bears else NOTCH_FREE
    limit = f"at most {_percent(share)} of the depth"
    if stud.depth is None:
        return topic.not_shown(limit, f"Measure the depth of {member.name}, face to back.")
    cut = planed + stud.notch
    may = built.down(share * stud.depth)
    because = [f"{member.name} is {_bears(stud)}, {built.near(stud.depth)} deep: {may} may go"]
    if planed:
        because.append(f"planed {built.up(planed)}")
    if stud.notch:
        because.append(f"notched {built.near(stud.notch)} already")
    verdict = Verdict.PASS if cut <= share * stud.depth else Verdict.FAIL
    if stud.bears and planed and all(member.recipe.depth):
        because.append("planed over its full height: a rip changes the grade")
        verdict = Verdict.FAIL
    if "sister" in member.recipe.families:
        because.append("a sister stands beside it")
    return topic.said(
        verdict,
        f"{built.up(cut)}, {_percent(cut / stud.depth)} of the depth",
        limit,
        margin=built.down(share * stud.depth - cut, signed=True),
        because=because,
        eats=f"planing {built.up(planed)}" if planed else "",
        step=f"Stop and ask an engineer before {member.name} is cut; "
        "or plane less, sister it, or move the plane.",
    )


def _stiffness(built: Built, member: MemberPlan, stud: StudIs, planed: Fraction) -> list[Finding]:
    if not planed or stud.depth is None or planed >= stud.depth or "sister" in member.recipe.families:
        return []
    left = floor(stiffness_left(stud.depth, planed) * 100)
    return [
        Finding(
            "stiffness-left",
            Severity.NOTE,
            member.name,
            "the stiffness of the whole depth",
            f"planed {built.up(planed)} off {built.near(stud.depth)}: "
            f"about {left} % of its bending stiffness is left",
            "Nothing to do unless it carries a door, a bar or a load: then sister it.",
            "depth-cubed",
            {"percent": str(left)},
        )
    ]


def _hole(
    built: Built, member: MemberPlan, stud: StudIs, planed: tuple[Fraction, ...], name: str, hole: Hole
) -> Check:
    """A hole's edge to the new face, its size, and no cut in its section."""
    height = hole.height.inches
    topic = Topic(
        f"hole-{member.name}-{name}", f"Hole {name}", f"{member.name} at {built.near(height)}", "irc-r602.6"
    )
    section = [planed[i] for i in section_of(height, member.heights)]
    cut = max(section, default=ZERO)
    left = hole.edge.inches - cut
    because = [f"edge of the hole {built.down(hole.edge.inches)} from the face as read"]
    if cut:
        because.append(f"planed {built.up(cut)} in its section")
        return topic.said(
            Verdict.FAIL,
            f"{built.down(left)} to the face",
            window(HOLE_EDGE, None, built.unit) + ", and no cut in its section",
            because=because,
            eats=f"planing {built.up(cut)}",
            step=f"Do not plane {member.name} at the hole: a hole and a cut may not share a section.",
        )
    share = BORED_BEARING if stud.bears else BORED_FREE
    if stud.depth is None:
        limit = f"{window(HOLE_EDGE, None, built.unit)}, at most {_percent(share)} of the depth"
        return topic.not_shown(limit, f"Measure the depth of {member.name}, face to back.", because)
    part = hole.diameter.inches / stud.depth
    because.append(f"{_percent(part)} of the depth, at most {_percent(share)} ({_bears(stud)})")
    check = topic.judge(
        left,
        HOLE_EDGE,
        None,
        built.unit,
        shown="{} to the face",
        because=because,
        fix=f"Sister {member.name} past the hole, or a stud shoe as its sheet allows; ask the inspector.",
    )
    if part > share:
        return topic.said(
            Verdict.FAIL,
            f"{check.value}, {_percent(part)} of the depth",
            f"{check.limit}, at most {_percent(share)} of the depth",
            because=because,
            step=f"Sister {member.name} or a stud shoe as its sheet allows; ask the inspector.",
        )
    return check
